import { existsSync, readFileSync, statSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { ONE_THREAD, onnxRuntime } from '../../onnx.js';
import { SAMPLE_RATE } from './sound.js';
import { Tokens } from './tokens.js';

/** Raw output of the acoustic network: frames × tokens, row after row. */
export interface Logits {
  readonly data: Float32Array;
  readonly frames: number;
  readonly frameMs: number;
}

export interface Network {
  readonly tokens: Tokens;
  /** @param pcm 16 kHz mono, already levelled */
  run(pcm: Float32Array): Promise<Logits>;
  close(): Promise<void>;
}

const NEEDED = ['config.json', 'preprocessor_config.json', 'phones.json', join('onnx', 'model.onnx')];

/**
 * Loads our acoustic network from a folder; never from a network.
 * @throws Error with one clear sentence when a file is missing or damaged
 */
export async function loadNetwork(modelDir: string): Promise<Network> {
  const dir = resolve(modelDir);
  const missing = NEEDED.filter((file) => !existsSync(join(dir, file)));
  if (missing.length > 0)
    throw new Error(
      `The voice model in "${dir}" is incomplete: ${missing.join(', ')} not found. Restore the models folder (git checkout models) or type instead of speaking.`,
    );
  const tokens = readTokens(join(dir, 'phones.json'));
  try {
    const { AutoModelForCTC, Tensor, env } = await import('@xenova/transformers');
    env.allowRemoteModels = false;
    env.allowLocalModels = true;
    env.localModelPath = `${dirname(dir)}/`;
    const model = await quietly(() =>
      onOneThread(join(dir, 'onnx', 'model.onnx'), () =>
        AutoModelForCTC.from_pretrained(basename(dir), { quantized: false, local_files_only: true }),
      ),
    );
    const network: Network = {
      tokens,
      run: async (pcm) => {
        const input = new Tensor('float32', pcm, [1, pcm.length]);
        const { logits } = await model({ input_values: input });
        const [, frames, width] = logits.dims as number[];
        if (width !== tokens.count)
          throw new Error(`The voice model gives ${width} tokens but phones.json names ${tokens.count}.`);
        return {
          data: logits.data as Float32Array,
          frames: frames ?? 0,
          frameMs: frames ? (1000 * pcm.length) / SAMPLE_RATE / frames : 0,
        };
      },
      close: async () => {
        await model.dispose();
      },
    };
    // the first run allocates; do it now so that the first command is not the slow one
    await network.run(new Float32Array(SAMPLE_RATE));
    return network;
  } catch (cause) {
    const size = statSync(join(dir, 'onnx', 'model.onnx')).size;
    throw new Error(
      `The voice model in "${dir}" cannot be used (model.onnx, ${size} bytes): ${firstLine(cause)} Restore the models folder (git checkout models) or type instead of speaking.`,
      { cause },
    );
  }
}

/** @throws Error with one clear sentence when the file is damaged */
export function readTokens(file: string): Tokens {
  let names: unknown;
  try {
    names = JSON.parse(readFileSync(file, 'utf8'));
  } catch {
    names = null;
  }
  if (!Array.isArray(names) || names.length < 2 || !names.every((n) => typeof n === 'string'))
    throw new Error(`"${file}" is damaged: expected a JSON list of phone names, the blank first.`);
  return new Tokens(names as string[]);
}

const firstLine = (cause: unknown): string =>
  (cause instanceof Error ? cause.message : String(cause)).split('\n')[0]?.replace(/\.?$/, '.') ?? '';

/** The library tells the console of a damaged model before it throws; our own sentence is enough. */
async function quietly<T>(load: () => Promise<T>): Promise<T> {
  const { warn } = console;
  console.warn = () => {};
  try {
    return await load();
  } finally {
    console.warn = warn;
  }
}

/**
 * The runtime would take every core of the machine, whose threads wait for each other in a busy loop: on 64 cores talk took three and
 * a half of them. What is loaded from bytes takes no options (onnxruntime-node 1.14), and the library loads nothing else; so our file is
 * opened by its path, with one thread.
 */
async function onOneThread<T>(file: string, load: () => Promise<T>): Promise<T> {
  const sessions = (await onnxRuntime()).InferenceSession;
  const create = sessions.create.bind(sessions) as (model: unknown, options?: object) => Promise<unknown>;
  const { size } = statSync(file);
  const ours = (model: unknown): boolean => model instanceof Uint8Array && model.byteLength === size;
  sessions.create = ((model: unknown, options?: object) =>
    ours(model) ? create(file, ONE_THREAD) : create(model, options)) as typeof sessions.create;
  try {
    return await load();
  } finally {
    sessions.create = create as typeof sessions.create;
  }
}
