import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { mkdir, open, readFile, rename, rm, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { Readable } from 'node:stream';
import type { Problem } from '../wav.js';

export const DEFAULT_MODEL = 'Xenova/whisper-tiny.en';
const HUB = 'https://huggingface.co/';

/** What a Whisper model of that layout consists of; of each group the first that is there is taken. */
const PARTS: readonly (readonly string[])[] = [
  ['config.json'],
  ['generation_config.json'],
  ['preprocessor_config.json'],
  ['tokenizer_config.json'],
  ['tokenizer.json'],
  ['onnx/encoder_model_quantized.onnx', 'onnx/encoder_model.onnx'],
  ['onnx/decoder_model_merged_quantized.onnx', 'onnx/decoder_model_merged.onnx'],
];
const SUMS = 'sha256.json';
/** Whisper's largest ONNX part is far below; a host that sends more is not serving a model. */
const MOST_BYTES = 2 ** 31;

export interface FetchOptions {
  /** the hub's name of the model */
  name?: string;
  /** another address than the hub's own that serves the same files */
  host?: string;
  /** `share` of this file is here, 0 to 1; null where its length is unknown */
  onProgress?(file: string, bytes: number, share: number | null): void;
}

/**
 * Fetches a model, only when the user asked for it, and puts it into `folder` when it is here whole; what was in
 * `folder` stays until then. Every file is checked against the sum that the host names (a SHA-256 in `x-linked-etag`
 * or `etag`, as the hub sends for large files) and its length, and its sum is kept for later starts.
 */
export async function fetchModel(folder: string, options: FetchOptions = {}): Promise<string | Problem> {
  const name = options.name ?? DEFAULT_MODEL;
  const partial = `${folder}.partial`;
  try {
    if (!/^[\w.-]+(\/[\w.-]+)?$/.test(name))
      throw new Error('a name such as Xenova/whisper-tiny.en is expected');
    const at = new URL(`${name}/resolve/main/`, options.host ?? HUB);
    await rm(partial, { recursive: true, force: true });
    await mkdir(partial, { recursive: true, mode: 0o700 });
    const sums: Record<string, string> = {};
    for (const group of PARTS) {
      const file = await fetchFirst(at, group, partial, options.onProgress);
      sums[file.name] = file.sha256;
    }
    await writeFile(join(partial, SUMS), JSON.stringify(sums, null, 2), { mode: 0o600 });
    await rm(folder, { recursive: true, force: true });
    await rename(partial, folder);
    return folder;
  } catch (error) {
    await rm(partial, { recursive: true, force: true });
    return {
      problem: `The model ${name} could not be fetched (${firstLine(error)}). Check the network, then run tankside fetch-model again. Everything else works without it.`,
    };
  }
}

async function fetchFirst(
  at: URL,
  group: readonly string[],
  folder: string,
  onProgress: FetchOptions['onProgress'],
): Promise<{ name: string; sha256: string }> {
  for (const name of group) {
    const response = await fetch(new URL(name, at));
    if (response.status === 404 && name !== group.at(-1)) {
      await response.body?.cancel();
      continue;
    }
    if (!response.ok || !response.body) throw new Error(`${name}: the host answered ${response.status}`);
    const sha256 = await keep(response, join(folder, name), (bytes, share) =>
      onProgress?.(name, bytes, share),
    );
    const named = statedSum(response.headers);
    if (named !== null && named !== sha256)
      throw new Error(`${name} does not match the checksum of the host`);
    return { name, sha256 };
  }
  throw new Error(`${group[0]} is not there`);
}

/** The body as a file, bit by bit; its SHA-256. */
async function keep(
  response: Response,
  path: string,
  onProgress: (bytes: number, share: number | null) => void,
): Promise<string> {
  const packed = response.headers.get('content-encoding') !== null;
  const length = packed ? null : Number(response.headers.get('content-length')) || null;
  await mkdir(dirname(path), { recursive: true, mode: 0o700 });
  const file = await open(path, 'wx', 0o600);
  const hash = createHash('sha256');
  let bytes = 0;
  try {
    for await (const chunk of Readable.fromWeb(response.body as Parameters<typeof Readable.fromWeb>[0])) {
      bytes += (chunk as Uint8Array).length;
      if (bytes > MOST_BYTES) throw new Error('the host sends more than any model holds');
      hash.update(chunk as Uint8Array);
      await file.write(chunk as Uint8Array);
      onProgress(bytes, length === null ? null : bytes / length);
    }
    await file.sync();
  } finally {
    await file.close();
  }
  if (length !== null && bytes !== length) throw new Error(`${bytes} of ${length} bytes came`);
  return hash.digest('hex');
}

function statedSum(headers: Headers): string | null {
  const said = headers.get('x-linked-etag') ?? headers.get('etag') ?? '';
  return /^"?([0-9a-f]{64})"?$/i.exec(said)?.[1]?.toLowerCase() ?? null;
}

/** A file of a fetched model that is not as it was fetched, in words; null: all are, or the model was put there by hand. */
export async function changedFile(folder: string): Promise<string | null> {
  let sums: Record<string, string>;
  try {
    sums = JSON.parse(await readFile(join(folder, SUMS), 'utf8')) as Record<string, string>;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'ENOENT' ? null : `${SUMS} cannot be read`;
  }
  for (const [name, expected] of Object.entries(sums)) {
    const hash = createHash('sha256');
    try {
      for await (const chunk of createReadStream(join(folder, name))) hash.update(chunk as Uint8Array);
    } catch {
      return `${name} cannot be read`;
    }
    if (hash.digest('hex') !== expected) return `${name} does not match its checksum`;
  }
  return null;
}

export function firstLine(error: unknown): string {
  const said = error instanceof Error ? error : new Error(String(error));
  const cause = said.cause instanceof Error && said.cause.message !== '' ? said.cause : said;
  return cause.message.split('\n')[0] ?? '';
}
