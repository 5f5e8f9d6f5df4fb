import { mkdirSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { type DatabaseSyncInstance as Database, DatabaseSync } from '@photostructure/sqlite';
import type { Moment } from './clock.js';
import type { Entry, NewEntry } from './entry.js';
import { type EventStore, eventStore } from './event-store.js';
import { takeWriterLock, type WriterLock } from './lock.js';
import { isProblem, type JournalProblem, problemFrom, problemOf } from './problem.js';
import { type Projection, projection, startOf } from './projection.js';
import { type BenchQueries, benchQueries } from './queries.js';
import { salvage } from './salvage.js';
import { migrate, refuseForeign, SCHEMA_VERSION, schemaVersion } from './schema.js';
import { type Snapshot, type SnapshotStore, snapshotStore } from './snapshots.js';
import type { AssumedBottle, LedgerState } from './state.js';

export const JOURNAL_FILE = 'tankside.journal';

export interface JournalOptions {
  /** open for reading only: takes no lock, may be used while another tankside writes */
  readOnly?: boolean;
  /** names the shape of the desk states; snapshots of any other shape are passed over. Default '1' */
  stateVersion?: string;
  /** bottles taken to stand ready until someone says what they hold; the same list as the desks are given. Kept when a journal begins; later openings go by what was kept. */
  assumed?: readonly AssumedBottle[];
}

/**
 * The append-only record of a bench. Storage is SQLite through @photostructure/sqlite (the `node:sqlite` interface,
 * prebuilt binaries inside the package, nothing compiled or fetched at install). SQLite rather than a hand-made file
 * because an event, its facts and the bottles' new state must appear together or not at all, and its recovery from
 * a kill, a torn write and a full disk is tested far beyond what one project could do. WAL mode with synchronous
 * FULL: each commit is one write and one fdatasync of the log, and other processes can read meanwhile.
 *
 * Order of work in the app: desks work out the next state → `append` → only then are the effects carried out.
 * What `append` has returned a number for survives a kill or a power cut; anything else leaves no trace.
 */
export interface Journal extends BenchQueries {
  readonly path: string;
  readonly readOnly: boolean;
  /** the last entry's number, 0 when there is none */
  readonly lastSeq: number;
  /** the clocks at the last entry, for `resumeClock`; null for an empty journal */
  readonly lastMoment: (Moment & { atMs: number }) | null;
  /** the ledger as of the last entry */
  readonly ledger: LedgerState;
  /** Writes entries and their facts in one transaction and syncs it to the disk. The new `lastSeq`, or why nothing was written. */
  append(entries: readonly NewEntry[]): number | JournalProblem;
  /** Entries after `seq`, in order, read as they are asked for. */
  entriesAfter(seq: number): Iterable<Entry>;
  /** The bottles taken for granted at the start. */
  readonly assumed: readonly AssumedBottle[];
  /** Sets them, in a journal without entries. */
  assume(assumed: readonly AssumedBottle[]): JournalProblem | null;
  /** Keeps the desks' states as of entry `seq`, so that a start replays only what came later. */
  saveSnapshot(snapshot: { seq: number; states: unknown }): JournalProblem | null;
  /** The newest whole snapshot of this `stateVersion`, or null: then replay from 0. */
  latestSnapshot(): Snapshot | null;
  /** Moves the log into the main file; call when nothing is due, so that a timed entry never waits for it. */
  tidy(): void;
  /** for the ledger room's own tools */
  readonly db: Database;
  close(): void;
}

/** Opens the journal in a folder (made if missing) or at a file path ending in `.journal`. */
export function openJournal(where: string, options: JournalOptions = {}): Journal | JournalProblem {
  const path = where.endsWith('.journal') ? where : join(where, JOURNAL_FILE);
  let lock: WriterLock | undefined;
  let db: Database | undefined;
  const giveUp = (problem: JournalProblem): JournalProblem => {
    db?.close();
    lock?.release();
    return problem.problem === 'damaged' ? salvage(path, problem) : problem;
  };
  try {
    if (options.readOnly !== true) {
      mkdirSync(dirname(path), { recursive: true });
      const taken = takeWriterLock(path);
      if (isProblem(taken)) return taken;
      lock = taken;
    }
    db = options.readOnly === true ? openToRead(path) : openToWrite(path);
    const foreign = refuseForeign(db, path);
    if (foreign !== null) return giveUp(foreign);
    if (options.readOnly !== true) migrate(db);
    else if (schemaVersion(db) < SCHEMA_VERSION) return giveUp(notYet(schemaVersion(db), path));
    const events = eventStore(db);
    const damage = smallFileDamage(db) ?? events.tailDamage();
    if (damage !== null) return giveUp(problemOf('damaged', path, damage));
    const journal = journalOn(
      db,
      path,
      lock,
      events,
      snapshotStore(db, options.stateVersion ?? '1'),
      projection(db),
    );
    if (
      options.assumed !== undefined &&
      lock !== undefined &&
      startOf(db) === null &&
      journal.lastSeq === 0
    ) {
      const problem = journal.assume(options.assumed);
      if (problem !== null) return giveUp(problem);
    }
    return journal;
  } catch (error) {
    return giveUp(problemFrom(error, path));
  }
}

function openToWrite(path: string): Database {
  const db = new DatabaseSync(path, { enableForeignKeyConstraints: true, timeout: 2_000 });
  db.exec('PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL');
  // The log is folded into the main file by tidy(), in a quiet moment; this many pages are only the backstop.
  db.exec(
    'PRAGMA wal_autocheckpoint = 8000; PRAGMA journal_size_limit = 67108864; PRAGMA cache_size = -8000',
  );
  return db;
}

/** A read-only disk cannot hold the shared index that WAL readers use, so there the file is read as immutable. */
function openToRead(path: string): Database {
  statSync(path);
  const open = (location: string): Database => {
    const db = new DatabaseSync(location, { readOnly: true, timeout: 2_000 });
    db.prepare('SELECT count(*) FROM sqlite_schema').get();
    return db;
  };
  try {
    return open(path);
  } catch (error) {
    if (problemFrom(error, path).problem !== 'read-only') throw error;
    return open(`${pathToFileURL(path).href}?immutable=1`);
  }
}

/** Checking the whole structure takes about a second for 200 MB; up to this size a start does it every time. */
const CHECKED_AT_START_BYTES = 16 * 1024 * 1024;

function smallFileDamage(db: Database): string | null {
  const { bytes } = db
    .prepare('SELECT page_count * page_size AS bytes FROM pragma_page_count(), pragma_page_size()')
    .get() as { bytes: number };
  if (bytes > CHECKED_AT_START_BYTES) return null;
  const { quick_check: said } = db.prepare('PRAGMA quick_check(1)').get() as { quick_check: string };
  return said === 'ok' ? null : said;
}

/** A reader brings nothing up to date: that is for the next writer. */
const notYet = (version: number, path: string): JournalProblem =>
  problemOf(version === 0 ? 'missing' : 'older-version', path, `schema version ${version}`);

/** For what may fail without harm: the log is read again at the next start. */
function quietly(work: () => void): void {
  try {
    work();
  } catch {
    // the entries are in the log, synced
  }
}

function journalOn(
  db: Database,
  path: string,
  lock: WriterLock | undefined,
  events: EventStore,
  snapshots: SnapshotStore,
  bench: Projection,
): Journal {
  let open = true;
  const transact = <T>(work: () => T): T | JournalProblem => {
    if (!open) return problemOf('closed', path, 'closed');
    if (lock === undefined) return problemOf('read-only', path, 'opened for reading only');
    try {
      db.exec('BEGIN IMMEDIATE');
      const result = work();
      db.exec('COMMIT');
      return result;
    } catch (error) {
      if (db.isTransaction) db.exec('ROLLBACK');
      return problemFrom(error, path);
    }
  };
  return {
    path,
    db,
    readOnly: lock === undefined,
    get lastSeq() {
      return events.lastSeq();
    },
    get lastMoment() {
      return events.lastMoment();
    },
    get ledger() {
      return bench.state();
    },
    append(entries) {
      if (entries.length === 0) return events.lastSeq();
      const done = transact(() => {
        const seqs = events.insert(entries);
        return { seq: seqs.at(-1) ?? 0, next: bench.record(entries, seqs) };
      });
      if (isProblem(done)) return done;
      events.confirm(done.seq);
      bench.confirm(done.next);
      return done.seq;
    },
    get assumed() {
      return startOf(db) ?? [];
    },
    assume(assumed) {
      if (events.lastSeq() > 0) return problemOf('already-there', path, 'the journal has entries');
      const done = transact(() => bench.begin(assumed));
      if (isProblem(done)) return done;
      bench.confirm(done);
      return null;
    },
    entriesAfter: (seq) => events.after(seq),
    saveSnapshot(snapshot) {
      const done = transact(() => snapshots.save(snapshot));
      return isProblem(done) ? done : null;
    },
    latestSnapshot: () => snapshots.latest(events.lastSeq()),
    tidy() {
      if (open && lock !== undefined) quietly(() => db.exec('PRAGMA wal_checkpoint(PASSIVE)'));
    },
    ...benchQueries(db, () => bench.state()),
    close() {
      if (!open) return;
      open = false;
      // the binding leaves the files open while statements await collection, so the log is emptied by hand
      if (lock !== undefined) quietly(() => db.exec('PRAGMA wal_checkpoint(TRUNCATE)'));
      db.close();
      lock?.release();
    },
  };
}
