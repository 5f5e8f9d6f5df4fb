import { spawn, spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import { createBench } from '../../src/app/bench.js';
import { SimulatedClock } from '../../src/app/clock.js';
import { Conversation } from '../../src/app/conversation.js';
import { situatedEar } from '../../src/app/hearing.js';
import { PrintedSpeech } from '../../src/app/printed-speech.js';
import { openSession } from '../../src/app/session.js';
import { Prepared } from '../../src/speech/mouth/prepared.js';
import { findVoice } from '../../src/speech/mouth/voices.js';
import { isProblem, readWav } from '../../src/speech/wav.js';

/**
 * What a user waits for: start to ready, end of utterance to decision by stage, decision to first sound, memory.
 * Baselines in the same run: a bare `node -e 0`, and a plain synced write of the same disk is in bench:ledger.
 */
const root = process.cwd();
const main = join(root, 'dist', 'app', 'main.js');
const fixtures = join(root, 'audio-fixtures');
const rounds = 7;

const middle = (values: number[]): number =>
  [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN;
const high = (values: number[]): number =>
  [...values].sort((a, b) => a - b)[Math.min(values.length - 1, Math.floor(values.length * 0.95))] ??
  Number.NaN;
const rows: string[][] = [['what', 'median', '95 %', 'beside it']];
const row = (what: string, values: number[], beside = '', unit = 'ms'): void => {
  rows.push([what, `${middle(values).toFixed(1)} ${unit}`, `${high(values).toFixed(1)} ${unit}`, beside]);
};

function startUntil(words: string, args: string[]): Promise<number> {
  const began = performance.now();
  const child = spawn(process.execPath, [main, ...args], { stdio: ['pipe', 'pipe', 'ignore'] });
  return new Promise((resolve) => {
    child.stdout.on('data', (chunk: Buffer) => {
      if (!chunk.toString().includes(words)) return;
      resolve(performance.now() - began);
      child.kill('SIGKILL');
    });
  });
}

const data = mkdtempSync(join(tmpdir(), 'tankside-bench-'));
const bare: number[] = [];
const typing: number[] = [];
for (let i = 0; i < rounds; i++) {
  const began = performance.now();
  spawnSync(process.execPath, ['-e', '0']);
  bare.push(performance.now() - began);
  typing.push(await startUntil('Text only', ['run', '--text', '--data', join(data, String(i))]));
}
row('start of node alone', bare);
row('start until typing works', typing, `${(middle(typing) / middle(bare)).toFixed(1)} × node alone`);

const loadBegan = performance.now();
const bench = createBench({ sheet: 'ecn2-ferricyanide' });
const ear = await situatedEar(bench.language);
const opening = await readWav(join(fixtures, '02-next-step.wav'));
if (isProblem(opening)) throw new Error(opening.problem);
await ear.hear(opening.pcm, ['preparing']);
row('voice model and grammar loaded, first sentence heard', [performance.now() - loadBegan]);

const session = openSession(join(data, 'journal'), bench.assumed, () => bench);
const clock = new SimulatedClock();
let said = '';
const conversation = new Conversation({
  ...bench,
  clock,
  journal: session.port,
  speech: new PrintedSpeech((reply) => {
    said = reply.text;
  }, clock),
});
const stages = {
  network: [] as number[],
  decoder: [] as number[],
  rejection: [] as number[],
  total: [] as number[],
  act: [] as number[],
};
const sentences = new Set<string>();
for (const file of readdirSync(fixtures).filter((f) => f.endsWith('.wav'))) {
  const sound = await readWav(join(fixtures, file));
  if (isProblem(sound)) throw new Error(sound.problem);
  const hearing = await ear.hear(sound.pcm, conversation.situations());
  for (const stage of ['network', 'decoder', 'rejection', 'total'] as const)
    stages[stage].push(hearing.milliseconds[stage]);
  const began = performance.now();
  conversation.heard(hearing);
  if (hearing.accepted) stages.act.push(performance.now() - began);
  sentences.add(said);
}
row('utterance: network', stages.network);
row('utterance: decoder', stages.decoder);
row('utterance: rejection', stages.rejection);
row('utterance: all of the recogniser', stages.total, 'figure wanted: decision 40 ms');
row('meaning, desks, journal synced', stages.act);

const voice = findVoice('flite-wasm:slt');
if (voice) {
  const prepared = new Prepared();
  const cold: number[] = [];
  const warm: number[] = [];
  for (const text of [...sentences].filter(Boolean).slice(0, 12)) {
    for (const times of [cold, warm]) {
      const began = performance.now();
      await prepared.get(text, voice, 1);
      times.push(performance.now() - began);
    }
  }
  row('answer made into sound, built-in voice', cold);
  row(
    'the same, prepared ahead',
    warm,
    `${(middle(cold) / Math.max(0.001, middle(warm))).toFixed(0)} × quicker`,
  );
  voice.close();
}
row('memory resident, voice model loaded', [process.memoryUsage().rss / 1e6], 'figure wanted: 200 MB', 'MB');
await ear.close();
session.close();
rmSync(data, { recursive: true });

const widths = rows[0]?.map((_, c) => Math.max(...rows.map((r) => (r[c] ?? '').length))) ?? [];
for (const [i, r] of rows.entries()) {
  console.log(`| ${r.map((cell, c) => cell.padEnd(widths[c] ?? 0)).join(' | ')} |`);
  if (i === 0) console.log(`|${widths.map((w) => '-'.repeat(w + 2)).join('|')}|`);
}
