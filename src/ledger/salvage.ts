import {
  closeSync,
  copyFileSync,
  existsSync,
  openSync,
  readSync,
  renameSync,
  rmSync,
  statSync,
  writeSync,
} from 'node:fs';
import { type DatabaseSyncInstance as Database, DatabaseSync } from '@photostructure/sqlite';
import type { DeskEvent } from '../process/desk.js';
import type { Fact } from '../world/fact.js';
import { type EventRow, eventStore, rowSum, SELECT_EVENTS } from './event-store.js';
import { type JournalProblem, problemOf } from './problem.js';
import { projection, startOf } from './projection.js';
import { migrate } from './schema.js';

/**
 * Reads what is readable of a damaged journal into a new file beside it. The damaged file is only read, through
 * a copy. Entries whose checksum fails are left out; the rest get new numbers without gaps.
 */
export function salvage(path: string, cause: JournalProblem): JournalProblem {
  const stamp = Math.round(statSync(path).mtimeMs).toString(36);
  const target = `${path.replace(/\.journal$/, '')}-salvaged-${stamp}.journal`;
  const copy = `${target}.reading`;
  const base = problemOf('damaged', path, cause.detail);
  try {
    const events = existsSync(target) ? countEvents(target) : rescue(path, copy, target);
    return {
      ...base,
      sentence: `${base.sentence} I could read ${events} ${events === 1 ? 'entry' : 'entries'} and copied them to ${target}. To go on with those: tankside restore "${target}".`,
      salvagedTo: target,
      salvagedEvents: events,
    };
  } catch (error) {
    rmSync(target, { force: true });
    const why = error instanceof Error ? error.message : String(error);
    return {
      ...base,
      sentence: `${base.sentence} I could not read any of it. If you have a backup: tankside restore FILE.`,
      detail: `${cause.detail}; ${why}`,
    };
  } finally {
    for (const suffix of ['', '-wal', '-shm']) rmSync(`${copy}${suffix}`, { force: true });
  }
}

function countEvents(path: string): number {
  const db = new DatabaseSync(path, { readOnly: true });
  const { n } = db.prepare('SELECT count(*) AS n FROM events').get() as { n: number };
  db.close();
  return n;
}

function rescue(path: string, copy: string, target: string): number {
  copyFileSync(path, copy);
  if (existsSync(`${path}-wal`)) copyFileSync(`${path}-wal`, `${copy}-wal`);
  const out = new DatabaseSync(`${target}.new`);
  out.exec('PRAGMA journal_mode = DELETE; PRAGMA synchronous = FULL');
  migrate(out);
  let source = readable(copy);
  if (source === null) {
    transplantFirstPage(copy, `${target}.new`);
    source = readable(copy);
  }
  if (source === null) throw new Error('no table can be read');
  const count = copyRows(source, out, (statSync(copy).size + walSize(copy)) / SMALLEST_ENTRY);
  source.close();
  out.close();
  renameSync(`${target}.new`, target);
  return count;
}

function readable(path: string): Database | null {
  try {
    const db = new DatabaseSync(path);
    db.prepare('SELECT max(seq) FROM events').get();
    return db;
  } catch {
    return null;
  }
}

/** The first page says where each table begins; every journal of one version is laid out alike, so an empty one can lend it. */
function transplantFirstPage(copy: string, pristine: string): void {
  for (const suffix of ['-wal', '-shm']) rmSync(`${copy}${suffix}`, { force: true });
  const page = Buffer.alloc(4096);
  const from = openSync(pristine, 'r');
  readSync(from, page, 0, page.length, 0);
  closeSync(from);
  page.writeUInt32BE(0, 28); // page count unknown: SQLite then goes by the file's length
  const to = openSync(copy, 'r+');
  writeSync(to, page, 0, page.length, 0);
  closeSync(to);
}

/** Looks up each entry on its own, so that a broken page costs only the entries on it. */
function copyRows(source: Database, out: Database, mostEntries: number): number {
  const one = source.prepare(`${SELECT_EVENTS} WHERE seq = ?`);
  const factsOf = source.prepare('SELECT fact FROM facts WHERE seq = ? ORDER BY id');
  const events = eventStore(out);
  const bench = projection(out);
  const top = Math.min(highestSeq(source), mostEntries);
  const start = attempt(() => startOf(source));
  if (start) bench.confirm(bench.begin(start));
  let kept = 0;
  out.exec('BEGIN');
  for (let seq = 1; seq <= top; seq += 1) {
    const row = attempt(() => one.get(seq) as EventRow | undefined);
    if (row === undefined || rowSum(row) !== row.sum) continue;
    const facts = attempt(() =>
      (factsOf.all(seq) as { fact: string }[]).map((f) => JSON.parse(f.fact) as Fact),
    );
    const entry = {
      event: JSON.parse(row.event) as DeskEvent,
      source: row.source,
      bootId: row.boot,
      facts: facts ?? [],
      ...(row.desk === null ? {} : { desk: row.desk }),
      ...(row.up_ms === null ? {} : { upMs: row.up_ms }),
    };
    const seqs = events.insert([entry]);
    events.confirm(seqs[0] as number);
    bench.confirm(bench.record([entry], seqs));
    kept += 1;
  }
  out.exec('COMMIT');
  return kept;
}

/** No entry takes fewer bytes than this; a damaged counter may claim any number. */
const SMALLEST_ENTRY = 32;

const walSize = (path: string): number => (existsSync(`${path}-wal`) ? statSync(`${path}-wal`).size : 0);

function highestSeq(source: Database): number {
  const byRow = attempt(
    () => (source.prepare('SELECT max(seq) AS n FROM events').get() as { n: number | null }).n,
  );
  const byCount = attempt(
    () =>
      (source.prepare("SELECT seq AS n FROM sqlite_sequence WHERE name = 'events'").get() as { n: number }).n,
  );
  return Math.max(byRow ?? 0, byCount ?? 0);
}

function attempt<T>(read: () => T): T | undefined {
  try {
    return read();
  } catch {
    return undefined;
  }
}
