import { type ChildProcess, spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { closeSync, mkdtempSync, openSync, rmSync, writeFileSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { openJournal } from '../../src/ledger/journal.js';
import { isProblem } from '../../src/ledger/problem.js';
import { sheets } from '../../src/process/sheets/index.js';
import { encodeWav } from '../../src/speech/wav.js';

/**
 * How late the timed calls of `tankside run` are printed while it is given much to do, and while other commands are
 * given as much beside it. A bath that wants the hands every five seconds is in the tank all the while.
 *   npm run build && npm run bench:build && node dist/.bench/tests/bench/ledger-calls.js [seconds for each]
 */
const phaseMs = Number(process.argv[2] ?? 60) * 1000;
const program = resolve('dist/app/main.js');
const dir = mkdtempSync(join(tmpdir(), 'tankside-calls-'));
const everyS = 5;

function sheetFile(): string {
  const [own] = sheets;
  const steps = own?.steps.map((step) =>
    step.id === 'developer' && step.time && step.agitation
      ? {
          ...step,
          time: { ...step.time, aimS: 7200, minS: 7000, maxS: 7200 },
          agitation: { ...step.agitation, everyS },
        }
      : step,
  );
  const path = join(dir, 'calls.json');
  writeFileSync(path, JSON.stringify({ ...own, id: 'calls', name: 'calls', spoken: [], steps }));
  return path;
}

const nowWallMs = (): number => performance.timeOrigin + performance.now();
const sleep = (ms: number): Promise<void> => new Promise((done) => setTimeout(done, ms));

const child = spawn(
  process.execPath,
  [program, 'run', '--text', '--plain', '--sheet', sheetFile(), '--data', join(dir, 'data')],
  { stdio: ['pipe', 'pipe', 'inherit'], env: { ...process.env, NO_COLOR: '1' } },
);
const calls: { phase: string; atWallMs: number }[] = [];
let phase = '';
let shown = '';
let answers = 0;
child.stdout.on('data', (chunk: Buffer) => {
  const atWallMs = nowWallMs();
  shown += chunk.toString();
  const lines = shown.split('\n');
  shown = lines.pop() ?? '';
  for (const line of lines) {
    if (/^NOW {2}Agitate/.test(line)) calls.push({ phase, atWallMs });
    else answers += 1;
  }
});
const say = (text: string): void => void child.stdin.write(`${text}\n`);
/** Says it, and waits for an answer. */
async function said(text: string): Promise<void> {
  const before = answers;
  say(text);
  while (answers === before) await sleep(20);
  await sleep(200);
}

/** Another command beside the run, ended when the phase is over. */
function beside(...args: string[]): () => void {
  const other: ChildProcess = spawn(process.execPath, [program, ...args], { stdio: 'ignore' });
  return () => void other.kill('SIGKILL');
}

function largeImport(): string {
  const path = join(dir, 'large.jsonl');
  const file = openSync(path, 'w');
  const hash = createHash('sha256');
  const line = (value: unknown): number => {
    const text = `${JSON.stringify(value)}\n`;
    hash.update(text);
    return writeSync(file, text);
  };
  let bytes = line({ format: 'tankside-ledger', version: 1, entries: 0, assumed: [] });
  let entries = 0;
  while (bytes < 50e6) {
    entries += 1;
    const at = { atMs: entries * 1000, wallMs: 1.7e12 + entries * 1000 };
    const heard = { by: 'typed', words: 'note', confidence: 1, close: [] };
    const event = { type: 'intent', intent: { type: 'note', text: 'x'.repeat(400) }, heard, ...at };
    bytes += line({
      ...{ seq: entries, desk: null, source: 'typed', upMs: null, bootId: null },
      ...{ event, facts: [] },
    });
  }
  writeSync(file, `${JSON.stringify({ end: true, entries, sha256: hash.digest('hex') })}\n`);
  closeSync(file);
  return path;
}

function longSound(): string {
  const path = join(dir, 'long.wav');
  const head = encodeWav(new Float32Array(16_000), 16_000);
  const file = openSync(path, 'w');
  const bytes = 3 * 3600 * 32_000;
  const start = Buffer.from(head.subarray(0, 44));
  start.writeUInt32LE(bytes + 36, 4);
  start.writeUInt32LE(bytes, 40);
  writeSync(file, start);
  const second = Buffer.from(head.subarray(44));
  for (let s = 0; s < 3 * 3600; s += 1) writeSync(file, second);
  closeSync(file);
  return path;
}

function absurdPlan(): string {
  const path = join(dir, 'plan.json');
  const films = [{ stock: 'a', format: '35mm', count: 1e6 }];
  writeFileSync(path, JSON.stringify({ films, tank: { volumeMl: 600, holds: { '35mm': 2 } } }));
  return path;
}

/** Says these again and again, each so many ms after the one before. */
async function keepSaying(everyMs: number, lines: readonly string[], untilMs: number): Promise<void> {
  for (let n = 0; performance.now() < untilMs; n += 1) {
    say(lines[n % lines.length] as string);
    await sleep(everyMs);
  }
}

const hard = Array.from({ length: 20 }, (_, n) =>
  `bottle two and three or four not the developer but fixer ${n} is in or was it the bleach of five hundred and`
    .split(' ')
    .join(n % 2 ? ' ' : '  ')
    .repeat(2),
);
// written before anything is measured
const files = { plan: absurdPlan(), import: largeImport(), sound: longSound() };
const phases: Record<string, (untilMs: number) => Promise<void> | (() => void)> = {
  'nothing to do': () => Promise.resolve(),
  'a line of 100 kB pasted, again and again': (until) => keepSaying(2_000, ['bottle '.repeat(14_300)], until),
  'commands of 100 kB pasted': async () =>
    say('what is in bottle three\nhow long left\nnote all is well\n'.repeat(1_850)),
  'hard sentences': (until) => keepSaying(400, hard, until),
  'undo and redo': (until) =>
    keepSaying(700, ['note one', 'undo that', 'redo that', 'no, I meant bottle three'], until),
  'a mix of absurd size asked': (until) =>
    keepSaying(
      500,
      ['what do I need for 9999 liters of developer', 'mix nine thousand liters of fixer', 'cancel'],
      until,
    ),
  'a plan of 1,000,000 films beside it': () => beside('plan-day', files.plan, '--data', join(dir, 'plan')),
  'an import of 50 MB beside it': () => beside('import', files.import, '--data', join(dir, 'other')),
  'a sound of 3 hours beside it': () => beside('hear', files.sound),
};

const script = [
  'begin the run',
  'next step',
  'developer is 41.1',
  'next step',
  'film is loaded',
  'prebath is in',
];
for (const line of [...script, 'tank is empty', 'water is in', 'tank is empty', 'developer is in'])
  await said(line);
await sleep(20_000);
for (const [name, work] of Object.entries(phases)) {
  const untilMs = performance.now() + phaseMs;
  phase = name;
  const done = work(untilMs);
  await sleep(untilMs - performance.now());
  if (typeof done === 'function') done();
  phase = '';
  // what is still to be answered of this phase belongs to none
  await sleep(everyS * 1000);
}
child.kill('SIGTERM');
await new Promise((ended) => child.on('exit', ended));

const journal = openJournal(join(dir, 'data'), { readOnly: true });
if (isProblem(journal)) throw new Error(journal.sentence);
const inWallMs = [...journal.entriesAfter(0)].findLast(
  ({ event }) => event.type === 'intent' && event.heard.words === 'developer is in',
)?.event.wallMs;
if (inWallMs === undefined) throw new Error('the developer never went in');
journal.close();
rmSync(dir, { recursive: true, force: true });
const period = everyS * 1000;
const table = Object.keys(phases).map((name) => {
  const late = calls
    .filter((c) => c.phase === name)
    .map((c) => (((c.atWallMs - inWallMs) % period) + period) % period)
    .sort((a, b) => a - b);
  const at = (share: number): number => Math.round(late[Math.floor((late.length - 1) * share)] ?? Number.NaN);
  return {
    while: name,
    calls: late.length,
    due: Math.floor(phaseMs / period),
    medianMs: at(0.5),
    worstMs: at(1),
  };
});
console.table(table);
