import { createHash } from 'node:crypto';
import { appendFile, mkdtemp, readdir, readFile, rm } from 'node:fs/promises';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { openSecondOpinion, secondOpinionDir } from '../../../src/app/second-opinion.js';
import { sentencesGraph } from '../../../src/speech/ears/attention.js';
import { fetchModel } from '../../../src/speech/second-opinion/fetch.js';
import { isProblem } from '../../../src/speech/wav.js';
import { water } from '../ears/sounds.js';
import { writeTinyWhisper } from './tiny-whisper.js';

let room = '';
let host = '';
let server: Server;
let sumOf = (bytes: Buffer): string => createHash('sha256').update(bytes).digest('hex');
const rightSum = sumOf;

beforeAll(async () => {
  room = await mkdtemp(join(tmpdir(), 'tankside-fetch-'));
  await writeTinyWhisper(join(room, 'hub'));
  server = createServer(async (request, response) => {
    const file = /^\/some\/model\/resolve\/main\/([\w./]+)$/.exec(request.url ?? '')?.[1];
    const bytes = file === undefined ? null : await readFile(join(room, 'hub', file)).catch(() => null);
    if (bytes === null) return void response.writeHead(404).end();
    response.writeHead(200, { 'x-linked-etag': `"${sumOf(bytes)}"`, 'content-length': bytes.length });
    response.end(bytes);
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  host = `http://127.0.0.1:${(server.address() as AddressInfo).port}/`;
});
beforeEach(async () => {
  sumOf = rightSum;
  await rm(join(room, 'data'), { recursive: true, force: true });
});
afterAll(async () => {
  server.close();
  await rm(room, { recursive: true, force: true });
});

const dataFolder = (): string => join(room, 'data');
const fetchTiny = () => fetchModel(secondOpinionDir(dataFolder()), { name: 'some/model', host });

describe('a fetched model', () => {
  it('is loaded by the start from where it was put, and gives its opinion', async () => {
    const shares: (number | null)[] = [];
    const folder = await fetchModel(secondOpinionDir(dataFolder()), {
      name: 'some/model',
      host,
      onProgress: (_file, _bytes, share) => shares.push(share),
    });
    expect(folder).toBe(secondOpinionDir(dataFolder()));
    expect(shares.filter((s) => s === 1)).toHaveLength(7);
    const notices: string[] = [];
    const opinion = await openSecondOpinion(dataFolder(), (n) => notices.push(n));
    expect(notices).toEqual([]);
    const heard = await opinion?.listen(water(12_000, 0.3, 5), sentencesGraph('test', ['stop', 'next step']));
    expect(heard && !isProblem(heard) && heard.words).toMatch(/^(stop|next step)$/);
  });

  it('that came wrong is not kept, and the one before it stays', async () => {
    await fetchTiny();
    sumOf = () => '0'.repeat(64);
    const second = await fetchTiny();
    expect(typeof second === 'object' && second.problem).toMatch(/does not match the checksum/);
    expect(await readdir(dataFolder())).toEqual(['second-opinion']);
    expect(await openSecondOpinion(dataFolder(), () => {})).not.toBeNull();
  });

  it('that was changed afterwards is named at the start', async () => {
    await fetchTiny();
    await appendFile(join(secondOpinionDir(dataFolder()), 'onnx/encoder_model.onnx'), 'x');
    const notices: string[] = [];
    expect(await openSecondOpinion(dataFolder(), (n) => notices.push(n))).toBeNull();
    expect(notices[0]).toMatch(/damaged.*encoder_model.*fetch-model/);
  });
});
