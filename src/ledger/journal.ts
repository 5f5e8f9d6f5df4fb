import { chmodSync, existsSync, lstatSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { type DatabaseSyncInstance as Database, DatabaseSync } from '@photostructure/sqlite';
import { carve } from './carve.js';
import { derivedDamage } from './check.js';
import type { Moment } from './clock.js';
import { chainAfter, type Entry, type EventRow, type NewEntry, newEntryOf, rowOf } from './entry.js';
import { type EventStore, eventStore, sealDamage } from './event-store.js';
import { makeFolderOf } from './folders.js';
import { type Identity, identityOf } from './identity.js';
import { takeWriterLock, type WriterLock } from './lock.js';
import { type Mark, readMark, writeMark } from './mark.js';
import { isProblem, type JournalProblem, problemFrom, problemOf } from './problem.js';
import { keptByAnother } from './program-mark.js';
import { type Projection, projection, startOf } from './projection.js';
import { type BenchQueries, benchQueries } from './queries.js';
import { gapWords, moveAside, noteGap, putInPlace, rebuild, rebuiltSentence } from './recover.js';
import { migrate, refuseForeign, SCHEMA_VERSION, schemaVersion } from './schema.js';
import { openSecondCopy, readSecondCopy, type SecondCopy } from './second-copy.js';
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
 * SQLite does not tell when its files are taken away, nor when the end of its log is lost. So each entry seals those
 * before it, the newest are kept a second time (second-copy.ts), and the files are looked at around every write. What
 * a start finds amiss it mends from all that is readable (recover.ts) and says in `notes`.
 *
 * What `append` has returned a number for survives a kill or a power cut; anything else leaves no trace, or, where
 * the disk was full, a trace in the second copy that the next start takes up.
 */
export interface Journal extends BenchQueries {
  readonly path: string;
  readonly readOnly: boolean;
  /** what was found amiss and mended, in sentences; asking empties the list */
  takeNotes(): string[];
  /** the last entry's number, 0 when there is none */
  readonly lastSeq: number;
  /** the clocks at the last entry, for `resumeClock`; null for an empty journal */
  readonly lastMoment: (Moment & { atMs: number }) | null;
  /** the ledger as of the last entry */
  readonly ledger: LedgerState;
  /**
   * Writes entries and their facts in one transaction and syncs it to the disk. The new `lastSeq`, or what is wrong: then
   * `lastSeq` tells whether they are in all the same, in files that were taken away meanwhile. With none it only looks after the files.
   */
  append(entries: readonly NewEntry[]): number | JournalProblem;
  /** Entries that could not be appended, into the second copy's reserve, until they can. True: they are on the disk. */
  reserve(entries: readonly NewEntry[]): boolean;
  /** Entries after `seq`, in order, read as they are asked for. */
  entriesAfter(seq: number): Iterable<Entry>;
  /** The same as they lie in the table. */
  rowsAfter(seq: number): Iterable<EventRow>;
  /** The bottles taken for granted at the start. */
  readonly assumed: readonly AssumedBottle[];
  /** Sets them, in a journal without entries. */
  assume(assumed: readonly AssumedBottle[]): JournalProblem | null;
  /** Keeps the desks' states as of entry `seq`, so that a start replays only what came later. */
  saveSnapshot(snapshot: { seq: number; states: unknown }): JournalProblem | null;
  /** The newest whole snapshot of this `stateVersion`, or null: then replay from 0. */
  latestSnapshot(): Snapshot | null;
  /** Notes that entries were written late, and why. */
  noteLate(entries: number, fromWallMs: number, toWallMs: number, why: string): void;
  /** Moves the log into the main file; call when nothing is due, so that a timed entry never waits for it. */
  tidy(): void;
  /** for the ledger room's own tools */
  readonly db: Database;
  close(): void;
}

/** The parts that hang on one open database. */
interface Core {
  db: Database;
  events: EventStore;
  snapshots: SnapshotStore;
  bench: Projection;
  queries: BenchQueries;
}

function coreOn(db: Database, stateVersion: string): Core {
  const bench = projection(db);
  return {
    db,
    events: eventStore(db),
    snapshots: snapshotStore(db, stateVersion),
    bench,
    queries: benchQueries(db, () => bench.state()),
  };
}

/** Opens the journal in a folder (made if missing) or at a file path ending in `.journal`. */
export function openJournal(where: string, options: JournalOptions = {}): Journal | JournalProblem {
  const path = where.endsWith('.journal') ? where : join(where, JOURNAL_FILE);
  try {
    return options.readOnly === true ? openReader(path, options) : openWriter(path, options);
  } catch (error) {
    return problemFrom(error, path);
  }
}

function openReader(path: string, options: JournalOptions): Journal | JournalProblem {
  const db = openToRead(path);
  const problem =
    refuseForeign(db, path) ??
    (schemaVersion(db) < SCHEMA_VERSION ? notYet(schemaVersion(db), path) : null) ??
    damageOf(db, path);
  if (problem !== null) {
    db.close();
    return harmedOwn(problem, path) ? problemOf('damaged', path, problem.detail) : problem;
  }
  return new OpenJournal(path, coreOn(db, options.stateVersion ?? '1'), null, null, options, []);
}

function openWriter(path: string, options: JournalOptions): Journal | JournalProblem {
  makeFolderOf(path);
  const odd = oddAmong([path, `${path}-wal`, `${path}.lock`, `${path}.mark`]);
  if (odd !== null) return odd;
  const mark = readMark(path);
  if (mark === null) writeMark(path, { entries: 0, wallMs: null });
  const lock = takeWriterLock(path);
  if (isProblem(lock)) return lock;
  let db: Database | undefined;
  try {
    const mended = mendedDatabase(path, options, mark);
    if (isProblem(mended)) {
      lock.release();
      return mended;
    }
    db = mended.db;
    const core = coreOn(db, options.stateVersion ?? '1');
    const copy = openSecondCopy(path, mended.copyEnd);
    const journal = new OpenJournal(path, core, lock, copy, options, mended.notes);
    const problem = journal.begin(mended.bridge);
    if (problem === null) return journal;
    journal.close();
    return problem;
  } catch (error) {
    db?.close();
    lock.release();
    throw error;
  }
}

interface Mended {
  db: Database;
  notes: string[];
  /** entries that only the second copy or the log still has; to be written again */
  bridge: EventRow[];
  copyEnd: number;
}

/** The database in place, made anew where it is damaged or gone. */
function mendedDatabase(path: string, options: JournalOptions, mark: Mark | null): Mended | JournalProblem {
  const notes: string[] = [];
  const mend = (cause: string): void => {
    notes.push(rebuiltSentence(cause, rebuild(path, options.assumed ?? null, logged)));
    logged = [];
  };
  // SQLite reads a log up to the first frame that is not whole, and takes it away when it closes; entries may stand behind
  let logged: EventRow[] = [];
  const hadLog = existsSync(`${path}-wal`) && statSync(`${path}-wal`).size > 0;
  const gone = !existsSync(path) || statSync(path).size === 0;
  const wasOne = mark !== null && mark.entries !== 0;
  if (gone && (hadLog || wasOne || readSecondCopy(path).rows.length > 0))
    mend(`The journal ${path} was gone.`);
  for (let attempt = 1; ; attempt += 1) {
    let db: Database | undefined;
    let damage: JournalProblem | null;
    try {
      db = openToWrite(path);
      damage = refuseForeign(db, path);
      if (damage === null) {
        makeReadyToWrite(db);
        migrate(db);
        damage = damageOf(db, path);
      }
    } catch (error) {
      damage = problemFrom(error, path);
    }
    if (damage !== null && damage.problem !== 'damaged' && !harmedOwn(damage, path)) {
      db?.close();
      return damage;
    }
    if (damage === null && db !== undefined) {
      if (hadLog && attempt === 1) logged = carve(path, eventStore(db).boots()).rows;
      const beyond = tail(db, path, logged, readMark(path)?.entries ?? 0);
      if (beyond.missing === 0) {
        if (beyond.rows.length > 0) notes.push(bridgedSentence(beyond.rows.length));
        if (beyond.doubt !== null) notes.push(beyond.doubt);
        return { db, notes, bridge: beyond.rows, copyEnd: beyond.copyEnd };
      }
      damage = problemOf('damaged', path, `${beyond.missing} entries are missing`);
    }
    db?.close();
    // a read that failed once is no damage: it is looked at twice before anything is moved
    if (attempt === 1) continue;
    if (attempt > 2 && damage !== null) return damage;
    mend('The journal was damaged.');
  }
}

/** What looks like another's file, and is ours with a harmed beginning. */
const harmedOwn = ({ problem }: JournalProblem, path: string): boolean =>
  problem === 'not-a-journal' && (carve(path).rows.length > 0 || readSecondCopy(path).rows.length > 0);

const bridgedSentence = (entries: number): string =>
  `The end of the journal's log was lost. ${entries} ${entries === 1 ? 'entry is' : 'entries are'} back from what is left of it and the second copy.`;

/** What came after the last entry of the database, as the second copy and the log tell it. */
function tail(
  db: Database,
  path: string,
  log: readonly EventRow[],
  marked: number,
): { rows: EventRow[]; missing: number; doubt: string | null; copyEnd: number } {
  const events = eventStore(db);
  const last = { seq: events.lastSeq(), chain: events.lastChain() };
  const copy = readSecondCopy(path);
  const { closed } = db.prepare('SELECT closed FROM sitting').get() as { closed: number };
  const same = copy.rows.find((r) => r.seq === last.seq);
  const foreign = same !== undefined && same.chain !== last.chain;
  const vouched = same !== undefined && !foreign;
  const known = foreign ? [] : copy.rows;
  const logged = closed === 1 ? [] : log;
  const beyond = [...known, ...logged].filter((r) => r.seq > last.seq);
  const rows: EventRow[] = [];
  for (let before = last; ; ) {
    const next = beyond.find((r) => r.seq === before.seq + 1 && chainAfter(before.chain, r) === r.chain);
    if (next === undefined) break;
    rows.push(next);
    before = next;
  }
  const furthest = Math.max(last.seq, marked, ...beyond.map((r) => r.seq));
  const end = rows.at(-1)?.seq ?? last.seq;
  // a kill may come between an entry and its second copy; more than that apart, the end is in doubt
  const near = vouched || (copy.rows.at(-1)?.seq ?? -1) >= last.seq - 1;
  const logLost = closed === 0 && last.seq > 0 && rows.length === 0 && !(copy.whole && near);
  const moment = events.lastMoment();
  return {
    rows,
    missing: furthest > end ? furthest - end : 0,
    doubt: logLost
      ? `The end of the journal's log may be gone and so is the second copy: ${gapWords({ seq: last.seq, entries: 0, fromWallMs: moment?.wallMs ?? null, toWallMs: null, kinds: [] }).replace('0 entries', 'whatever was written')} is lost. Check what is in the tank and the bottles before you pour.`
      : null,
    copyEnd: copy.end,
  };
}

/** Never through a link, not even one that leads nowhere yet: the file might not be ours. And never a pipe. */
function oddAmong(paths: readonly string[]): JournalProblem | null {
  for (const path of paths) {
    const found = lstatSync(path, { throwIfNoEntry: false });
    if (found?.isSymbolicLink()) return problemOf('is-link', path, 'a link');
    if (found && !found.isFile()) return problemOf('bad-file', path, 'no plain file');
  }
  return null;
}

function openToWrite(path: string): Database {
  const db = new DatabaseSync(path, { enableForeignKeyConstraints: true, timeout: 2_000 });
  db.exec('PRAGMA trusted_schema = OFF');
  return db;
}

/** Only a journal of ours is turned over to a log: another's file stays as it is. */
function makeReadyToWrite(db: Database): void {
  db.exec('PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL');
  // The log is folded into the main file by tidy(), in a quiet moment; this many pages are only the backstop.
  db.exec(
    'PRAGMA wal_autocheckpoint = 2000; PRAGMA journal_size_limit = 16777216; PRAGMA cache_size = -8000',
  );
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

/** Checking everything takes about a second for 50 MB; up to this size a start does it every time. */
const CHECKED_AT_START_BYTES = 16 * 1024 * 1024;
/** Of a larger file the last entries are checked, so many; `tankside doctor` checks all. */
const TAIL = 2_000;

function damageOf(db: Database, path: string): JournalProblem | null {
  try {
    const { bytes } = db
      .prepare('SELECT page_count * page_size AS bytes FROM pragma_page_count(), pragma_page_size()')
      .get() as { bytes: number };
    const events = eventStore(db);
    const small = bytes <= CHECKED_AT_START_BYTES;
    const said = small ? structureOf(db) : 'ok';
    const from = small ? 0 : Math.max(0, events.lastSeq() - TAIL);
    const before = from === 0 ? null : ([...events.rowsAfter(from - 1)][0] ?? null);
    const damage =
      (said === 'ok' ? null : said) ??
      sealDamage(events.rowsAfter(before?.seq ?? 0), before) ??
      (small ? derivedDamage(db) : null);
    return damage === null ? null : problemOf('damaged', path, damage);
  } catch (error) {
    const problem =
      error instanceof SyntaxError ? problemOf('damaged', path, error.message) : problemFrom(error, path);
    if (problem.problem !== 'damaged') throw error;
    return problem;
  }
}

/** "ok", or what is wrong first, the indexes included. */
const structureOf = (db: Database): string =>
  (db.prepare('PRAGMA integrity_check(1)').get() as { integrity_check: string }).integrity_check;

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

class OpenJournal implements Journal {
  #core: Core;
  #open = true;
  #lock: WriterLock | null;
  #copy: SecondCopy | null;
  #identity: Identity | null = null;
  /** entries that are in the second copy only; it must not be written round while there are any */
  #reserved = 0;
  /** entries that the note beside the journal speaks of */
  #marked = -1;
  readonly #notes: string[];
  readonly #options: JournalOptions;

  constructor(
    readonly path: string,
    core: Core,
    lock: WriterLock | null,
    copy: SecondCopy | null,
    options: JournalOptions,
    notes: string[],
  ) {
    this.#core = core;
    this.#lock = lock;
    this.#copy = copy;
    this.#options = options;
    this.#notes = notes;
  }

  /** Makes a writer ready: what has to be written again, the bottles taken for granted, and that it is open. */
  begin(bridge: readonly EventRow[]): JournalProblem | null {
    const { db } = this.#core;
    const marked = this.#transact(() => db.exec('UPDATE sitting SET closed = 0'));
    if (isProblem(marked)) return marked;
    if (keptByAnother(this.db)) {
      const anew = this.#transact(() => this.#core.bench.foldAnew());
      if (isProblem(anew)) return anew;
      this.#core.bench.confirm(anew);
    }
    // the mark must be in the main file, for it is to tell that the log is gone
    quietly(() => db.exec('PRAGMA wal_checkpoint(PASSIVE)'));
    for (const file of [this.path, `${this.path}-wal`, `${this.path}-shm`, `${this.path}.lock`])
      quietly(() => chmodSync(file, 0o600));
    this.#identity = identityOf(this.path);
    if (bridge.length > 0) {
      const done = this.append(bridge.map(newEntryOf));
      if (isProblem(done)) return done;
    }
    const { assumed } = this.#options;
    if (assumed !== undefined && startOf(db) === null && this.lastSeq === 0) {
      const problem = this.assume(assumed);
      if (problem !== null) return problem;
    }
    this.#copy?.assume(this.assumed);
    this.#mark();
    return null;
  }

  get db(): Database {
    return this.#core.db;
  }
  get readOnly(): boolean {
    return this.#lock === null;
  }
  takeNotes(): string[] {
    return this.#notes.splice(0);
  }
  get lastSeq(): number {
    return this.#core.events.lastSeq();
  }
  get lastMoment(): (Moment & { atMs: number }) | null {
    return this.#core.events.lastMoment();
  }
  get ledger(): LedgerState {
    return this.#core.bench.state();
  }

  append(entries: readonly NewEntry[]): number | JournalProblem {
    const amiss = this.#lookAfterFiles();
    if (amiss !== null) return amiss;
    if (entries.length === 0) return this.lastSeq;
    const done = this.#transact(() => {
      const { events, bench } = this.#core;
      const rows = events.insert(entries);
      return {
        rows,
        next: bench.record(
          entries,
          rows.map((r) => r.seq),
        ),
      };
    });
    if (isProblem(done)) return done;
    const last = done.rows.at(-1) as EventRow;
    this.#core.events.confirm(last);
    this.#core.bench.confirm(done.next);
    if (this.#reserved > 0) this.#reserved = 0;
    else this.#copy?.put(done.rows, false);
    // written while the files were being taken away is not written
    return this.#lookAfterFiles() ?? last.seq;
  }

  reserve(entries: readonly NewEntry[]): boolean {
    const { events } = this.#core;
    const from = events.lastSeq();
    let chain = events.lastChain();
    const rows = entries.map((entry, i) => {
      const row = rowOf(entry, from + 1 + i, chain);
      chain = row.chain;
      return row;
    });
    if (this.#copy === null || !this.#copy.inPlace()) return false;
    const fresh = rows.slice(this.#reserved);
    if (!this.#copy.put(fresh, true) || !this.#copy.sync()) return false;
    this.#reserved = rows.length;
    return true;
  }

  get assumed(): readonly AssumedBottle[] {
    return startOf(this.#core.db) ?? [];
  }
  assume(assumed: readonly AssumedBottle[]): JournalProblem | null {
    if (this.lastSeq > 0) return problemOf('already-there', this.path, 'the journal has entries');
    const done = this.#transact(() => this.#core.bench.begin(assumed));
    if (isProblem(done)) return done;
    this.#core.bench.confirm(done);
    this.#copy?.assume(assumed);
    return null;
  }
  entriesAfter(seq: number): Iterable<Entry> {
    return this.#core.events.after(seq);
  }
  rowsAfter(seq: number): Iterable<EventRow> {
    return this.#core.events.rowsAfter(seq);
  }
  saveSnapshot(snapshot: { seq: number; states: unknown }): JournalProblem | null {
    const done = this.#transact(() => this.#core.snapshots.save(snapshot));
    return isProblem(done) ? done : null;
  }
  latestSnapshot(): Snapshot | null {
    return this.#core.snapshots.latest(this.lastSeq);
  }
  noteLate(entries: number, fromWallMs: number, toWallMs: number, why: string): void {
    const gap = {
      seq: this.lastSeq,
      entries: 0,
      fromWallMs,
      toWallMs,
      kinds: [`${entries} written late: ${why}`],
    };
    this.#transact(() => noteGap(this.#core.db, gap));
  }
  tidy(): void {
    if (!this.#open || this.#lock === null) return;
    quietly(() => this.#core.db.exec('PRAGMA wal_checkpoint(PASSIVE)'));
    this.#copy?.sync();
    this.#mark();
  }
  #mark(): void {
    quietly(() => {
      const { lastSeq } = this;
      if (lastSeq === this.#marked) return;
      writeMark(this.path, { entries: lastSeq, wallMs: this.lastMoment?.wallMs ?? null });
      this.#marked = lastSeq;
    });
  }

  bottle: Journal['bottle'] = (number) => this.#core.queries.bottle(number);
  bottles: Journal['bottles'] = () => this.#core.queries.bottles();
  run: Journal['run'] = (id) => this.#core.queries.run(id);
  unfinishedRun: Journal['unfinishedRun'] = () => this.#core.queries.unfinishedRun();
  runs: Journal['runs'] = (filter) => this.#core.queries.runs(filter);
  calledMs: Journal['calledMs'] = (...a) => this.#core.queries.calledMs(...a);
  shelf: Journal['shelf'] = () => this.#core.queries.shelf();
  facts: Journal['facts'] = () => this.#core.queries.facts();

  close(): void {
    if (!this.#open) return;
    if (this.#lock !== null && this.#reserved === 0 && (this.#identity?.changed() ?? null) === null)
      this.#transact(() => this.#core.db.exec('UPDATE sitting SET closed = 1'));
    if (this.#lock !== null) this.#mark();
    this.#open = false;
    // the binding leaves the files open while statements await collection, so the log is emptied by hand
    if (this.#lock !== null) quietly(() => this.#core.db.exec('PRAGMA wal_checkpoint(TRUNCATE)'));
    this.#core.db.close();
    this.#copy?.sync();
    this.#copy?.close();
    this.#lock?.release();
  }

  #transact<T>(work: () => T): T | JournalProblem {
    if (!this.#open) return problemOf('closed', this.path, 'closed');
    if (this.#lock === null) return problemOf('read-only', this.path, 'opened for reading only');
    const { db } = this.#core;
    try {
      db.exec('BEGIN IMMEDIATE');
      const result = work();
      db.exec('COMMIT');
      return result;
    } catch (error) {
      quietly(() => {
        if (db.isTransaction) db.exec('ROLLBACK');
      });
      return problemFrom(error, this.path);
    }
  }

  /**
   * Files that were deleted, renamed, cut or replaced under the open database would take every further entry with
   * them. The database still knows all it had: it is written anew to where it belongs. Null: all is well (again).
   */
  #lookAfterFiles(): JournalProblem | null {
    const what = this.#identity?.changed() ?? null;
    if (what === null) return null;
    try {
      // the folder may be gone with all that was in it
      makeFolderOf(this.path);
      if (what.lock) {
        const lock = takeWriterLock(this.path);
        if (isProblem(lock)) return lock;
        this.#lock = lock;
      }
      if (what.journal !== null) this.#putBack(what.journal);
      this.#identity = identityOf(this.path);
      return null;
    } catch (error) {
      const problem = problemFrom(error, this.path);
      // something else has taken the place of the folder
      return problem.problem === 'already-there' ? problemOf('missing', this.path, problem.detail) : problem;
    }
  }

  #putBack(what: string): void {
    const anew = `${this.path}.rebuilding`;
    const written = wholeCopy(this.#core.db, anew);
    quietly(() => this.#core.db.close());
    if (written) {
      const aside = moveAside(this.path, 'found');
      putInPlace(anew, this.path);
      const kept = aside === null ? '' : ` What was there instead is kept as ${aside}.`;
      this.#notes.push(`${what} while I was writing. I put the journal back, nothing is lost.${kept}`);
    } else {
      const done = rebuild(this.path, this.#options.assumed ?? null);
      if (done === null) throw Object.assign(new Error(what), { code: 'ENOENT' });
      this.#notes.push(rebuiltSentence(`${what} while I was writing.`, done));
    }
    this.#copy?.close();
    const db = openToWrite(this.path);
    makeReadyToWrite(db);
    const core = coreOn(db, this.#options.stateVersion ?? '1');
    this.#core = core;
    this.#copy = openSecondCopy(this.path, readSecondCopy(this.path).end);
    this.#copy?.put([...core.events.rowsAfter(Math.max(0, core.events.lastSeq() - 200))], false);
    this.#copy?.assume(this.assumed);
    this.#transact(() => db.exec('UPDATE sitting SET closed = 0'));
    quietly(() => db.exec('PRAGMA wal_checkpoint(PASSIVE)'));
  }
}

/** The open database as one new file, checked; false: it cannot be read whole any more. */
function wholeCopy(db: Database, to: string): boolean {
  try {
    rmSync(to, { force: true });
    db.prepare('VACUUM INTO ?').run(to);
    const copy = new DatabaseSync(to, { readOnly: true });
    const sound = damageOf(copy, to) === null;
    copy.close();
    return sound;
  } catch {
    return false;
  }
}
