import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { isProblem, readWav } from '../../src/speech/wav.js';
import { fakeRoom } from '../app/fakes/room.js';

/**
 * The whole voice path in real time: `tankside run` hears a recorder that plays questions and answers through a
 * player that notes when sound began. Prints the delay from the end of speech to the first sound of the answer, and
 * what the process holds in memory. Baseline beside it: the fixed part of the delay that any endpointer needs,
 * the short hang-over of 200 ms.
 */
const root = process.cwd();
const rounds = Number(process.argv[2] ?? 12);
const question = join(root, 'audio-fixtures', process.argv[3] ?? '25-what-is-next.wav');

const folder = mkdtempSync(join(tmpdir(), 'tankside-latency-'));
const sound = await readWav(question);
if (isProblem(sound)) throw new Error(sound.problem);
const speechEndMs = lastLoudMs(sound.pcm);
const room = await fakeRoom(
  folder,
  Array.from({ length: rounds }, () => question),
  6,
);

const began = Date.now();
const child = spawn(
  process.execPath,
  [
    '--max-semi-space-size=1',
    join(root, 'dist', 'app', 'main.js'),
    'run',
    '--voice',
    'flite-wasm:slt',
    '--data',
    join(folder, 'data'),
  ],
  {
    env: { ...process.env, PATH: room.path, NO_COLOR: '1' },
    stdio: ['pipe', 'pipe', 'ignore'],
  },
);
let readyMs = Number.NaN;
let out = '';
child.stdout.on('data', (chunk: Buffer) => {
  out += chunk.toString();
  if (Number.isNaN(readyMs) && out.includes('I am listening')) readyMs = Date.now() - began;
});
await new Promise((r) => setTimeout(r, room.lengthMs + 5_000));
const memoryMb = residentMb(child);
child.kill('SIGKILL');

const recorderBegan = Number(readFileSync(room.recorderLog, 'utf8').trim());
const played = readFileSync(room.playedLog, 'utf8').trim().split('\n').map(Number);
const delays = room.startsMs.flatMap((startMs, i) => {
  const endedAt = recorderBegan + startMs + speechEndMs;
  const next = room.startsMs[i + 1] ?? Number.POSITIVE_INFINITY;
  const answer = played.find((t) => t > endedAt && t < recorderBegan + next);
  return answer ? [answer - endedAt] : [];
});
delays.sort((a, b) => a - b);
const at = (share: number): string =>
  `${delays[Math.min(delays.length - 1, Math.floor(delays.length * share))] ?? Number.NaN} ms`;
console.log(`| what | value | wanted |\n|---|---|---|`);
console.log(`| questions answered aloud | ${delays.length} of ${rounds} | all |`);
console.log(`| end of speech to first sound, median | ${at(0.5)} | 450 ms |`);
console.log(`| the same, 95 % | ${at(0.95)} | 700 ms |`);
console.log(`| of which the hang-over alone | 200 ms | |`);
console.log(`| start until listening | ${readyMs} ms | 1000 ms |`);
console.log(`| memory resident | ${memoryMb.toFixed(0)} MB | 200 MB |`);
rmSync(folder, { recursive: true, force: true });

/** When the last sound above a tenth of the peak ends, ms. */
function lastLoudMs(pcm: Float32Array): number {
  const peak = pcm.reduce((m, v) => Math.max(m, Math.abs(v)), 0);
  return (pcm.findLastIndex((v) => Math.abs(v) > peak / 10) / 16_000) * 1000;
}

function residentMb(of: ChildProcess): number {
  const line = /VmRSS:\s+(\d+)/.exec(readFileSync(`/proc/${of.pid}/status`, 'utf8'));
  return Number(line?.[1] ?? 0) / 1024;
}
