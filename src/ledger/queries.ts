import type { DatabaseSyncInstance as Database } from '@photostructure/sqlite';
import type { BottleRecord, DatedFact, RunRecord, ShelfRecord } from '../world/records.js';
import { factsAfter } from './projection.js';
import type { LedgerState } from './state.js';

export interface RunFilter {
  /** every word must occur, in any order */
  search?: string;
  /** newest first; default 100, at most 100,000 */
  limit?: number;
  sinceWallMs?: number;
  untilWallMs?: number;
}

/** Questions to the ledger; each is answered from one row or an index. */
export interface BenchQueries {
  bottle(number: number): BottleRecord | null;
  bottles(): BottleRecord[];
  run(runId: string): RunRecord | null;
  /** the run that was going on at the last entry, or null */
  unfinishedRun(): RunRecord | null;
  runs(filter?: RunFilter): RunRecord[];
  /** when the clock made the assistant speak or act since a run began, up to `untilWallMs`; ms on the bench clock */
  calledMs(runId: string, untilWallMs: number): number[];
  shelf(): ShelfRecord[];
  /** every fact, oldest first, read as it is asked for */
  facts(): Iterable<DatedFact>;
}

export function benchQueries(db: Database, state: () => LedgerState): BenchQueries {
  const oneBottle = db.prepare('SELECT record FROM bottles WHERE number = ?');
  const allBottles = db.prepare('SELECT record FROM bottles ORDER BY number');
  const oneRun = db.prepare('SELECT record FROM runs WHERE run_id = ?');
  const allShelf = db.prepare('SELECT record FROM shelf ORDER BY substance');
  const called = db.prepare(
    `SELECT at_ms FROM events WHERE seq >= (SELECT seq FROM facts WHERE run_id = ? ORDER BY id LIMIT 1)
     AND source = 'clock' AND wall_ms <= ? ORDER BY seq`,
  );
  return {
    bottle: (number) => record<BottleRecord>(oneBottle.get(number)) ?? state().bench.bottles[number] ?? null,
    bottles() {
      const kept = allBottles.all().map((row) => record<BottleRecord>(row) as BottleRecord);
      const known = new Set(kept.map((bottle) => bottle.number));
      const assumed = Object.values(state().bench.bottles).filter((b) => b.assumed && !known.has(b.number));
      return [...kept, ...assumed].sort((a, b) => a.number - b.number);
    },
    run: (runId) => record<RunRecord>(oneRun.get(runId)),
    unfinishedRun: () =>
      Object.values(state().bench.runs)
        .filter((run) => run.complete === null)
        .sort((a, b) => b.startedAtMs - a.startedAtMs)[0] ?? null,
    runs(filter = {}) {
      const words = (filter.search ?? '').toLowerCase().split(/\s+/).filter(Boolean);
      const sql = `SELECT record FROM runs WHERE started_wall_ms >= ? AND started_wall_ms <= ?
        ${words.map(() => 'AND instr(words, ?) > 0').join(' ')} ORDER BY started_wall_ms DESC LIMIT ?`;
      const since = filter.sinceWallMs ?? Number.MIN_SAFE_INTEGER;
      const until = filter.untilWallMs ?? Number.MAX_SAFE_INTEGER;
      const limit = Math.min(100_000, Math.max(1, filter.limit ?? 100));
      return db
        .prepare(sql)
        .all(since, until, ...words, limit)
        .map((row) => record<RunRecord>(row) as RunRecord);
    },
    calledMs: (runId, untilWallMs) =>
      called.all(runId, untilWallMs).map((row) => (row as { at_ms: number }).at_ms),
    shelf: () => allShelf.all().map((row) => record<ShelfRecord>(row) as ShelfRecord),
    facts: () => factsAfter(db, 0),
  };
}

const record = <T>(row: unknown): T | null =>
  row === undefined ? null : (JSON.parse((row as { record: string }).record) as T);
