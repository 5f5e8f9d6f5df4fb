import type { DatabaseSyncInstance as Database } from '@photostructure/sqlite';
import type { Fact } from '../world/fact.js';
import type { DatedFact, RunRecord, World } from '../world/records.js';
import { checksum, type NewEntry } from './entry.js';
import { programMark } from './program-mark.js';
import { type AssumedBottle, addFact, emptyLedger, type LedgerState, ledgerFrom } from './state.js';

/** Keeps the tables of bottles, runs and shelf in step with the facts, in the same transaction. */
export interface Projection {
  state(): LedgerState;
  /** inside a transaction: writes the facts and every record they change; the state to confirm after the commit */
  record(entries: readonly NewEntry[], seqs: readonly number[]): Pending;
  confirm(pending: Pending): void;
  /** inside a transaction, and only before the first fact: sets what is taken for granted */
  begin(assumed: readonly AssumedBottle[]): Pending;
  /** inside a transaction: makes the tables anew from the facts alone */
  foldAnew(): Pending;
}

export interface Pending {
  state: LedgerState;
  sinceBase: number;
}

/** The bench is written whole every so many facts; an open reads it and folds the facts after it. */
const BASE_EVERY = 256;

interface BaseRow {
  fact: number;
  state: string;
  sum: number;
}

export function projection(db: Database): Projection {
  const insertFact = db.prepare('INSERT INTO facts (seq, type, run_id, fact) VALUES (?, ?, ?, ?)');
  const putBottle = db.prepare('INSERT OR REPLACE INTO bottles (number, record) VALUES (?, ?)');
  const dropBottle = db.prepare('DELETE FROM bottles WHERE number = ?');
  const putShelf = db.prepare('INSERT OR REPLACE INTO shelf (substance, record) VALUES (?, ?)');
  const dropShelf = db.prepare('DELETE FROM shelf WHERE substance = ?');
  const putRun = db.prepare(
    'INSERT OR REPLACE INTO runs (run_id, started_wall_ms, complete, words, record) VALUES (?, ?, ?, ?, ?)',
  );
  const dropRun = db.prepare('DELETE FROM runs WHERE run_id = ?');
  const putStart = db.prepare('INSERT OR REPLACE INTO ledger_start (id, assumed) VALUES (1, ?)');
  const putBase = db.prepare('INSERT OR REPLACE INTO ledger_base (id, fact, state, sum) VALUES (1, ?, ?, ?)');

  // read when it is first asked for: where it is made anew, what was there is not folded before
  let now: Pending | undefined;
  const current = (): Pending => {
    now ??= loadLedger(db);
    return now;
  };

  const writeChanges = (before: World, after: World): void => {
    for (const key of changedKeys(before.bottles, after.bottles)) {
      const bottle = after.bottles[Number(key)];
      if (bottle === undefined) dropBottle.run(Number(key));
      else putBottle.run(bottle.number, JSON.stringify(bottle));
    }
    for (const key of changedKeys(before.shelf, after.shelf)) {
      const item = after.shelf[key];
      if (item === undefined) dropShelf.run(key);
      else putShelf.run(key, JSON.stringify(item));
    }
    for (const key of changedKeys(before.runs, after.runs)) {
      const run = after.runs[key];
      if (run !== undefined) {
        const complete = run.complete === null ? null : Number(run.complete);
        putRun.run(key, run.startedWallMs, complete, searchWords(run), JSON.stringify(run));
      } else if (before.runs[key]?.complete === null) dropRun.run(key); // its start was undone
    }
  };

  return {
    state: () => current().state,
    record(entries, seqs) {
      const before = current();
      let { state, sinceBase: count } = before;
      let lastFact = 0;
      entries.forEach((entry, index) => {
        for (const fact of entry.facts) {
          const runId = 'runId' in fact ? (fact.runId ?? null) : null;
          const seq = seqs[index] as number;
          lastFact = Number(insertFact.run(seq, fact.type, runId, JSON.stringify(fact)).lastInsertRowid);
          state = addFact(state, { fact, atMs: entry.event.atMs, wallMs: entry.event.wallMs });
          count += 1;
        }
      });
      writeChanges(before.state.bench, state.bench);
      // after a fold of everything the count may be full already, and an entry without facts has no place to name
      if (count >= BASE_EVERY && lastFact > 0) {
        const text = JSON.stringify(state);
        putBase.run(lastFact, text, sumOf(lastFact, text));
        count = 0;
      }
      return { state, sinceBase: count };
    },
    begin(assumed) {
      putStart.run(JSON.stringify(assumed));
      return { state: emptyLedger(assumed), sinceBase: 0 };
    },
    foldAnew() {
      db.exec('DELETE FROM ledger_base; DELETE FROM bottles; DELETE FROM shelf; DELETE FROM runs');
      const start = emptyLedger(startOf(db) ?? []);
      let state = start;
      let count = 0;
      // the bench lets go of runs that are long over; each is written as it was last
      const runs: Record<string, RunRecord> = {};
      for (const dated of factsAfter(db, 0)) {
        const next = addFact(state, dated);
        for (const key of changedKeys(state.bench.runs, next.bench.runs)) {
          const run = next.bench.runs[key];
          if (run !== undefined) runs[key] = run;
          else if (state.bench.runs[key]?.complete === null) delete runs[key]; // its start was undone
        }
        state = next;
        count += 1;
      }
      writeChanges(start.bench, { ...state.bench, runs });
      return { state, sinceBase: count };
    },
    confirm(pending) {
      now = pending;
    },
  };
}

/** The seal on a bench: of its text, and of the program that made it. */
const sumOf = (fact: number, text: string): number => checksum(fact, programMark(), text);

/** The ledger from the last written bench and the facts after it; one that the disk has changed, or another program wrote, is not used. */
export function loadLedger(db: Database): Pending {
  const row = db.prepare('SELECT fact, state, sum FROM ledger_base').get() as BaseRow | undefined;
  const base = row !== undefined && row.sum === sumOf(row.fact, row.state) ? row : undefined;
  const from = base === undefined ? emptyLedger(startOf(db) ?? []) : (JSON.parse(base.state) as LedgerState);
  let state = from;
  let sinceBase = 0;
  for (const dated of factsAfter(db, base?.fact ?? 0)) {
    state = addFact(state, dated);
    sinceBase += 1;
  }
  return { state, sinceBase };
}

/** Every fact after a fact's number, with its moment. */
export function* factsAfter(db: Database, id: number): Iterable<DatedFact & { id: number }> {
  const page = db.prepare(
    `SELECT facts.id AS id, fact, at_ms, wall_ms FROM facts JOIN events ON events.seq = facts.seq
     WHERE facts.id > ? ORDER BY facts.id LIMIT 500`,
  );
  for (let from = id; ; ) {
    const rows = page.all(from) as { id: number; fact: string; at_ms: number; wall_ms: number }[];
    for (const row of rows)
      yield { id: row.id, fact: JSON.parse(row.fact) as Fact, atMs: row.at_ms, wallMs: row.wall_ms };
    const end = rows.at(-1);
    if (end === undefined) return;
    from = end.id;
  }
}

/** The bench folded anew from the very first fact; what the tables must agree with. */
export const refold = (db: Database): LedgerState =>
  ledgerFrom(emptyLedger(startOf(db) ?? []).bench, factsAfter(db, 0));

/** The bottles taken for granted when the journal began; null when nobody has said. */
export function startOf(db: Database): AssumedBottle[] | null {
  const row = db.prepare('SELECT assumed FROM ledger_start').get() as { assumed: string } | undefined;
  return row === undefined ? null : (JSON.parse(row.assumed) as AssumedBottle[]);
}

const changedKeys = (before: object, after: object): string[] => {
  const a = before as Record<string, unknown>;
  const b = after as Record<string, unknown>;
  if (a === b) return [];
  return [...new Set([...Object.keys(a), ...Object.keys(b)])].filter((key) => a[key] !== b[key]);
};

/** What a search looks through: film stocks, notes, what went wrong. Lower case. */
const searchWords = (run: RunRecord): string =>
  [
    run.sheetId,
    ...run.films.flatMap((film) => [film.stock, film.format, film.notes ?? '']),
    ...run.notes.map((note) => note.text),
    ...run.deviations.map((one) => `${one.stepId} ${one.what} deviation`),
    ...run.spills.map((one) => `spill ${one.liquid} ${one.place ?? ''}`),
    ...run.overrides.map((one) => `override ${one.move} ${one.why}`),
  ]
    .join(' ')
    .toLowerCase();
