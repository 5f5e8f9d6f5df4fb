import { spawn } from 'node:child_process';
import { mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { checkJournal } from '../../../src/ledger/check.js';
import { resumeClock } from '../../../src/ledger/clock.js';
import { openJournal } from '../../../src/ledger/journal.js';
import { isProblem } from '../../../src/ledger/problem.js';
import { systemMoment } from '../../../src/ledger/system-clock.js';
import { seeded } from '../../seeded.js';
import { buildChild } from './build-child.js';
import { DEVELOPER_MS, factsFor, type Tally, tallyAfter } from './scenario.js';

/** The calls of the file layer below the journal's folder that a kill may fall on (tests/ledger/faults/faults.c). */
const CALLS = ['open', 'write', 'sync', 'truncate', 'rename', 'unlink'] as const;
type Calls = Record<(typeof CALLS)[number], number>;

export interface CrashCounts {
  kills: number;
  /** kills before one of the calls above, and at a moment of the clock */
  atCall: number;
  atTime: number;
  /** children that had ended before the kill came */
  missed: number;
  confirmed: number;
  lost: number;
  halfApplied: number;
  /** starts after which the remaining bath time was off by more than `SLACK_MS` */
  wrongTime: number;
  worstTimeErrorMs: number;
  problems: string[];
}

/** /proc/uptime counts in hundredths of a second. */
const SLACK_MS = 25;
const ENTRIES = 30;
/** A fresh folder after so many kills, so that first starts are killed too and checks stay quick. */
const FRESH_EVERY = 40;

interface Promised {
  seq: number;
  atMs: number;
  upMs: number;
}

/**
 * Kills children of `dir` `kills` times and looks at what each left behind. `layer`: the preloaded file layer that kills
 * before a chosen call; null: only kills at a moment of the clock.
 */
export async function crash(
  dir: string,
  kills: number,
  options: { seed: number; layer: string | null; onKill?: (counts: CrashCounts) => void },
): Promise<CrashCounts> {
  const random = options.seed === 0 ? Math.random : seeded(options.seed);
  mkdirSync(dir, { recursive: true });
  const child = buildChild(join(dir, 'program'));
  const counts: CrashCounts = {
    kills: 0,
    atCall: 0,
    atTime: 0,
    missed: 0,
    confirmed: 0,
    lost: 0,
    halfApplied: 0,
    wrongTime: 0,
    worstTimeErrorMs: 0,
    problems: [],
  };
  let bench = '';
  let promised: Promised[] = [];
  const calls = options.layer === null ? null : await countCalls(child, join(dir, 'counting'), options.layer);
  const typicalMs = await lifetimeMs(child, join(dir, 'timing'));
  for (let attempt = 0; counts.kills < kills && attempt < kills * 3; attempt += 1) {
    if (attempt % FRESH_EVERY === 0) {
      if (bench !== '') rmSync(bench, { recursive: true, force: true });
      bench = join(dir, `bench-${attempt}`);
      promised = [];
    }
    const byCall = calls !== null && attempt % 2 === 0;
    const said =
      byCall && options.layer !== null
        ? await killAtCall(child, bench, options.layer, pick(calls, random))
        : await killAtTime(child, bench, random() * typicalMs);
    if (!said.killed) {
      counts.missed += 1;
    } else {
      counts.kills += 1;
      counts[byCall ? 'atCall' : 'atTime'] += 1;
    }
    promised.push(...said.promised);
    counts.confirmed += said.promised.length;
    counts.problems.push(...said.problems);
    examine(bench, promised, counts);
    if (said.killed) options.onKill?.(counts);
  }
  return counts;
}

/** Opens what a kill left behind, as the next start would, and compares it with every promise made so far. */
function examine(bench: string, promised: readonly Promised[], counts: CrashCounts): void {
  mkdirSync(bench, { recursive: true });
  const journal = openJournal(bench, { stateVersion: 'tally' });
  if (isProblem(journal)) {
    counts.problems.push(journal.sentence);
    counts.lost += promised.length;
    return;
  }
  const entries = [...journal.entriesAfter(0)];
  const bySeq = new Map(entries.map((entry) => [entry.seq, entry]));
  counts.lost += promised.filter((p) => bySeq.get(p.seq)?.event.atMs !== p.atMs).length;
  const factsOf = journal.db.prepare('SELECT fact FROM facts WHERE seq = ? ORDER BY id');
  const half = entries.filter((entry) => {
    const kept = (factsOf.all(entry.seq) as { fact: string }[]).map((row) => row.fact);
    return JSON.stringify(kept) !== JSON.stringify(factsFor(entry.seq).map((fact) => JSON.stringify(fact)));
  });
  const report = checkJournal(journal.db, journal.path);
  counts.halfApplied += half.length + (report.sound ? 0 : 1);
  counts.problems.push(...report.findings);

  let whole: Tally = { events: 0, startedAtMs: null };
  for (const entry of entries) whole = tallyAfter(whole, entry.seq, entry.event.atMs);
  const snapshot = journal.latestSnapshot();
  let resumed = (snapshot?.states as Tally | undefined) ?? { events: 0, startedAtMs: null };
  for (const entry of journal.entriesAfter(snapshot?.seq ?? 0))
    resumed = tallyAfter(resumed, entry.seq, entry.event.atMs);
  if (JSON.stringify(whole) !== JSON.stringify(resumed)) counts.halfApplied += 1;
  checkRemaining(journal.lastMoment, resumed, promised, counts);
  journal.close();
}

/** The bath that was running must show the time that has really passed, the time lying dead included. */
function checkRemaining(
  last: Parameters<typeof resumeClock>[0] | null,
  tally: Tally,
  promised: readonly Promised[],
  counts: CrashCounts,
): void {
  const start = promised.findLast((p) => p.atMs === tally.startedAtMs);
  if (last === null || tally.startedAtMs === null || start === undefined) return;
  const now = systemMoment();
  const remaining = DEVELOPER_MS - (resumeClock(last, now).atMs - tally.startedAtMs);
  const right = DEVELOPER_MS - (now.upMs - start.upMs);
  const error = Math.abs(remaining - right);
  counts.worstTimeErrorMs = Math.max(counts.worstTimeErrorMs, error);
  if (error > SLACK_MS) counts.wrongTime += 1;
}

interface Said {
  killed: boolean;
  promised: Promised[];
  problems: string[];
  /** calls of the file layer, as JSON, of a child that came to its end */
  counts: string | undefined;
}

function readPromises(text: string, killed: boolean): Said {
  const lines = text.split('\n').slice(0, -1); // the last line may be cut short: not a promise
  const promised = lines
    .filter((line) => /^\d/.test(line))
    .map((line) => {
      const [seq = 0, atMs = 0, upMs = 0] = line.split(' ').map(Number);
      return { seq, atMs, upMs };
    });
  const counts = lines.find((line) => line.startsWith('{'));
  return { killed, promised, problems: lines.filter((line) => line.startsWith('problem')), counts };
}

/** "CALL/N": the N-th call of a kind, all calls alike. */
function pick(calls: Calls, random: () => number): string {
  const total = Object.values(calls).reduce((a, b) => a + b, 0);
  let n = Math.floor(random() * total) + 1;
  for (const call of CALLS) {
    if (n <= calls[call]) return `${call}/${n}`;
    n -= calls[call];
  }
  return 'write/1';
}

const killAtCall = (child: string, bench: string, layer: string, at: string): Promise<Said> =>
  run(child, bench, null, { LD_PRELOAD: layer, FAULT_DIR: bench, FAULT_ARM: `${at}/0` });

const killAtTime = (child: string, bench: string, afterMs: number): Promise<Said> =>
  run(child, bench, afterMs, {});

function run(
  child: string,
  bench: string,
  killAfterMs: number | null,
  env: Record<string, string>,
): Promise<Said> {
  return new Promise((resolve, reject) => {
    const running = spawn(process.execPath, [child, bench, String(ENTRIES)], {
      stdio: ['ignore', 'pipe', 'ignore'],
      env: { ...process.env, ...env },
    });
    let text = '';
    running.stdout.on('data', (chunk: Buffer) => {
      text += chunk.toString();
    });
    const timer = killAfterMs === null ? undefined : setTimeout(() => running.kill('SIGKILL'), killAfterMs);
    running.on('error', reject);
    running.on('close', (_code, signal) => {
      clearTimeout(timer);
      resolve(readPromises(text, signal === 'SIGKILL'));
    });
  });
}

async function lifetimeMs(child: string, bench: string): Promise<number> {
  const from = performance.now();
  await run(child, bench, null, {});
  return performance.now() - from;
}

/** How often a whole run makes each call, so that kills fall all along it. */
async function countCalls(child: string, bench: string, layer: string): Promise<Calls> {
  const said = await run(child, bench, null, { LD_PRELOAD: layer, FAULT_DIR: bench });
  return JSON.parse(said.counts ?? '{}') as Calls;
}
