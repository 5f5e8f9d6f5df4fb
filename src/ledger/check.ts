import type { DatabaseSyncInstance as Database } from '@photostructure/sqlite';
import { eventStore, sealDamage } from './event-store.js';
import { keptByAnother } from './program-mark.js';
import { loadLedger, refold } from './projection.js';
import { imbalanceMl } from './state.js';

export interface CheckReport {
  sound: boolean;
  entries: number;
  /** one sentence for each thing wrong, worst first */
  findings: string[];
}

/** A millilitre out in the books is a fault; rounding is far below. */
const TOLERATED_ML = 0.01;

/**
 * Checks a journal whole: the file's structure, every entry's checksum, that no number is missing, that the
 * tables of bottles and runs follow from the facts, and that every millilitre is accounted for. Reads only.
 */
export function checkJournal(db: Database, path: string): CheckReport {
  const findings: string[] = [];
  let entries = 0;
  const attempt = (what: string, work: () => void): void => {
    try {
      work();
    } catch (error) {
      findings.push(`${what} cannot be read: ${error instanceof Error ? error.message : String(error)}.`);
    }
  };
  attempt(`The structure of ${path}`, () => {
    const rows = db.prepare('PRAGMA integrity_check(5)').all() as { integrity_check: string }[];
    for (const { integrity_check: said } of rows)
      if (said !== 'ok') findings.push(`The file's structure is damaged: ${said}.`);
    if (db.prepare('PRAGMA foreign_key_check').all().length > 0)
      findings.push('Some facts belong to an entry that is not there.');
  });
  attempt('The entries', () => {
    const events = eventStore(db);
    entries = events.lastSeq();
    const damage = sealDamage(events.rowsAfter(0), null);
    if (damage !== null) findings.push(`The entries are damaged: ${damage}.`);
  });
  attempt('The ledger', () => {
    const damage = derivedDamage(db);
    if (damage !== null) findings.push(`${damage[0]?.toUpperCase()}${damage.slice(1)}.`);
    const folded = refold(db).bench;
    const kept = loadLedger(db).state.bench;
    if (JSON.stringify(folded.bottles) !== JSON.stringify(kept.bottles))
      findings.push('The bottles on record do not follow from the entries.');
    const out = imbalanceMl(folded);
    if (Math.abs(out) > TOLERATED_ML) findings.push(`The volumes are out by ${out.toFixed(2)} millilitres.`);
  });
  return { sound: findings.length === 0, entries, findings };
}

/** What is wrong with the tables that follow from the entries; null: nothing. Reads them all. */
export function derivedDamage(db: Database): string | null {
  const facts = db.prepare('SELECT seq, fact FROM facts ORDER BY id').iterate() as Iterator<{
    seq: number;
    fact: string;
  }>;
  for (const row of db.prepare('SELECT seq, facts FROM events ORDER BY seq').iterate() as Iterable<{
    seq: number;
    facts: string;
  }>) {
    for (const fact of JSON.parse(row.facts) as unknown[]) {
      const kept = facts.next().value as { seq: number; fact: string } | undefined;
      if (kept?.seq !== row.seq || kept.fact !== JSON.stringify(fact))
        return `the facts of entry ${row.seq} are not as it says`;
    }
  }
  if (facts.next().done !== true) return 'there are facts that belong to no entry';
  if (keptByAnother(db)) return null; // its tables are made anew by the next writer
  const { bench } = loadLedger(db).state;
  const tables: [string, string, Record<string, unknown>][] = [
    ['bottles', 'number', bench.bottles],
    ['shelf', 'substance', bench.shelf],
  ];
  for (const [table, key, kept] of tables) {
    const rows = db.prepare(`SELECT ${key} AS key, record FROM ${table}`).all() as {
      key: string | number;
      record: string;
    }[];
    const wrong = rows.find((row) => row.record !== JSON.stringify(kept[row.key]));
    if (wrong !== undefined) return `the record of ${table} does not follow from the entries`;
  }
  const record = db.prepare('SELECT record FROM runs WHERE run_id = ?');
  for (const [id, run] of Object.entries(bench.runs)) {
    const row = record.get(id) as { record: string } | undefined;
    if (row?.record !== JSON.stringify(run))
      return `the record of run ${id} does not follow from the entries`;
  }
  for (const { record: text } of db.prepare('SELECT record FROM runs').iterate() as Iterable<{
    record: string;
  }>)
    JSON.parse(text);
  return null;
}
