import { closeSync, fsyncSync, mkdtempSync, openSync, rmSync, statSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import { type BottlesState, createBottleDesk } from '../../src/app/desks/bottle-desk.js';
import { bottlesPhrase } from '../../src/language/languages/english/phrases/bottles.js';
import { type Journal, openJournal } from '../../src/ledger/journal.js';
import { isProblem } from '../../src/ledger/problem.js';
import { systemMoment } from '../../src/ledger/system-clock.js';
import type { DeskEvent } from '../../src/process/desk.js';
import type { World } from '../../src/world/records.js';
import { entryFor } from '../ledger/crash/scenario.js';
import { truthOf } from '../process/truth.js';

/**
 * A journal of many events: the time of one synced append beside the disk's own write-and-fsync of the same size,
 * of opening until ready, and of "what is in bottle three". Appends and bare fsyncs take turns, so that both meet
 * the same disk.
 *   npx tsc -p tests/bench/tsconfig.ledger.json && node dist/.bench/tests/bench/ledger.js [events] [appends] [folder]
 */
const events = Number(process.argv[2] ?? 1_000_000);
const appends = Number(process.argv[3] ?? 3000);
const dir = mkdtempSync(join(process.argv[4] ?? tmpdir(), 'tankside-bench-'));

const opened = (): Journal => {
  const journal = openJournal(dir, { stateVersion: 'bench' });
  if (isProblem(journal)) throw new Error(journal.sentence);
  return journal;
};
const timed = <T>(work: () => T): { ms: number; value: T } => {
  const from = performance.now();
  const value = work();
  return { ms: performance.now() - from, value };
};
const quantile = (sorted: readonly number[], q: number): number =>
  sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * q))] ?? Number.NaN;
const row = (times: number[]) => {
  const sorted = times.toSorted((a, b) => a - b);
  const ms = (q: number): string => quantile(sorted, q).toFixed(2);
  return { 'p50 ms': ms(0.5), 'p99 ms': ms(0.99), 'max ms': ms(1) };
};

const desk = createBottleDesk();
const heard = { by: 'typed', words: '', confidence: 1, close: [] } as const;

interface Bench {
  desk: BottlesState;
  world: World;
}

/** The desk as of the journal's end, from a snapshot and the entries after it, with the world as the journal has it. */
function ready(journal: Journal): Bench {
  const snapshot = journal.latestSnapshot();
  const truth = truthOf(journal.ledger.bench);
  let state = (snapshot?.states as BottlesState | undefined) ?? desk.initial;
  for (const { event } of journal.entriesAfter(snapshot?.seq ?? 0))
    state = desk.apply(state, event, truth.at(event)).state;
  return { desk: state, world: truth.world };
}

const filling = opened();
const fillMs = timed(() => {
  const batch = 5000;
  while (filling.lastSeq < events) {
    const now = systemMoment();
    const count = Math.min(batch, events - filling.lastSeq);
    const from = filling.lastSeq + 1;
    const done = filling.append(
      Array.from({ length: count }, (_, i) => entryFor(from + i, (from + i) * 500, now)),
    );
    if (isProblem(done)) throw new Error(done.sentence);
    filling.tidy();
  }
  filling.saveSnapshot({ seq: filling.lastSeq, states: desk.initial });
}).ms;
const { path } = filling;
filling.close();
console.log(
  `${events} events filled in ${(fillMs / 1000).toFixed(0)} s, ${(statSync(path).size / 1e6).toFixed(0)} MB`,
);

const journal = opened();
const bare = openSync(join(dir, 'bare'), 'w');
const block = Buffer.alloc(8 * 4096, 1); // an append writes about eight pages to the log
const appendMs: number[] = [];
const fsyncMs: number[] = [];
for (let i = 0; i < appends; i += 1) {
  const now = systemMoment();
  const seq = journal.lastSeq + 1;
  appendMs.push(timed(() => journal.append([entryFor(seq, seq * 500, now)])).ms);
  fsyncMs.push(
    timed(() => {
      writeSync(bare, block);
      fsyncSync(bare);
    }).ms,
  );
  if (i % 100 === 99) journal.tidy();
}
closeSync(bare);
const tidyMs = timed(() => journal.tidy()).ms;

const askMs: number[] = [];
const state = ready(journal);
const truth = truthOf(state.world);
for (let i = 0; i < 200; i += 1) {
  askMs.push(
    timed(() => {
      journal.bottle(3);
      const event: DeskEvent = {
        type: 'intent',
        intent: { type: 'ask-bottle', bottle: 3 },
        atMs: 0,
        wallMs: Date.now(),
        heard: { ...heard, close: [] },
      };
      const out = desk.apply(state.desk, event, truth.at(event));
      return out.effects.map((effect) => (effect.type === 'say' ? bottlesPhrase(effect.message) : ''));
    }).ms,
  );
}
// ready is measured after a kill would have left 250 entries behind the snapshot, and the log not folded in
const openMs: number[] = [];
journal.close();
for (let i = 0; i < 5; i += 1) {
  const again = timed(() => {
    const one = opened();
    ready(one);
    return one;
  });
  openMs.push(again.ms);
  for (let k = 0; k < 50; k += 1) {
    const now = systemMoment();
    const seq = again.value.lastSeq + 1;
    again.value.append([entryFor(seq, seq * 500, now)]);
  }
  again.value.close();
}
console.table({
  'append, synced': row(appendMs),
  'the disk: 32 KiB write + fsync': row(fsyncMs),
  'open and ready': row(openMs),
  '“what is in bottle three”': row(askMs),
  'tidy (in a quiet moment)': row([tidyMs]),
});
const p99 = (times: number[]): number =>
  quantile(
    times.toSorted((a, b) => a - b),
    0.99,
  );
console.log(`append p99 / disk p99: ${(p99(appendMs) / p99(fsyncMs)).toFixed(2)}`);
rmSync(dir, { recursive: true, force: true });
