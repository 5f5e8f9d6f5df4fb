import type { DatabaseSyncInstance as Database } from '@photostructure/sqlite';
import { type EventRow, rowSum, SELECT_EVENTS } from './event-store.js';
import { loadLedger, refold } from './projection.js';
import { type AssumedBottle, imbalanceMl } from './state.js';

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
 * `assumed` counts only for a journal that did not keep its own list.
 */
export function checkJournal(
  db: Database,
  path: string,
  assumed: readonly AssumedBottle[] = [],
): CheckReport {
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
    let expected = 1;
    for (const row of db.prepare(`${SELECT_EVENTS} ORDER BY seq`).iterate() as Iterable<EventRow>) {
      if (row.seq !== expected) findings.push(`Entries ${expected} to ${row.seq - 1} are missing.`);
      if (rowSum(row) !== row.sum) findings.push(`Entry ${row.seq} does not match its checksum.`);
      expected = row.seq + 1;
      entries += 1;
    }
  });
  attempt('The ledger', () => {
    const folded = refold(db, assumed).bench;
    const kept = loadLedger(db, assumed).state.bench;
    if (JSON.stringify(folded.bottles) !== JSON.stringify(kept.bottles))
      findings.push('The bottles on record do not follow from the entries.');
    const rows = db.prepare('SELECT number, record FROM bottles').all() as {
      number: number;
      record: string;
    }[];
    for (const row of rows)
      if (row.record !== JSON.stringify(folded.bottles[row.number]))
        findings.push(`Bottle ${row.number} on record does not follow from the entries.`);
    const out = imbalanceMl(folded);
    if (Math.abs(out) > TOLERATED_ML) findings.push(`The volumes are out by ${out.toFixed(2)} millilitres.`);
  });
  return { sound: findings.length === 0, entries, findings };
}
