import { closeSync, existsSync, openSync, readSync } from 'node:fs';
import { type DatabaseSyncInstance as Database, DatabaseSync } from '@photostructure/sqlite';
import { CHAIN_START, chainAfter, type EventRow, rowSum } from './entry.js';
import { type JournalProblem, problemOf } from './problem.js';

/** "TkSd" as a big-endian number: marks a file as ours (PRAGMA application_id). */
export const APPLICATION_ID = 0x54_6b_53_64;

/**
 * One entry per schema version, oldest first; PRAGMA user_version counts those applied. Never edit one that has
 * shipped: add another, and let it change a table, for that tells a newer journal from one whose number was harmed.
 * Events are the source; facts, bottles, runs and shelf are derived and can be rebuilt.
 */
const migrations: readonly (string | ((db: Database) => void))[] = [
  `
  CREATE TABLE boots (id INTEGER PRIMARY KEY, boot TEXT NOT NULL UNIQUE);
  CREATE TABLE events (
    seq INTEGER PRIMARY KEY AUTOINCREMENT,
    at_ms REAL NOT NULL,
    wall_ms REAL NOT NULL,
    up_ms REAL,
    boot INTEGER NOT NULL REFERENCES boots (id),
    desk TEXT,
    source TEXT NOT NULL,
    event TEXT NOT NULL,
    sum INTEGER NOT NULL
  );
  CREATE TABLE facts (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    seq INTEGER NOT NULL REFERENCES events (seq),
    type TEXT NOT NULL,
    run_id TEXT,
    fact TEXT NOT NULL
  );
  CREATE INDEX facts_of_event ON facts (seq);
  CREATE INDEX facts_of_run ON facts (run_id, id) WHERE run_id IS NOT NULL;
  CREATE TABLE bottle_facts (
    bottle INTEGER NOT NULL,
    fact INTEGER NOT NULL REFERENCES facts (id),
    PRIMARY KEY (bottle, fact)
  ) WITHOUT ROWID;
  CREATE TABLE bottles (number INTEGER PRIMARY KEY, record TEXT NOT NULL);
  CREATE TABLE shelf (substance TEXT PRIMARY KEY, record TEXT NOT NULL);
  CREATE TABLE runs (
    run_id TEXT PRIMARY KEY,
    started_wall_ms REAL NOT NULL,
    complete INTEGER,
    words TEXT NOT NULL,
    record TEXT NOT NULL
  );
  CREATE INDEX runs_by_date ON runs (started_wall_ms);
  CREATE TABLE ledger_base (
    id INTEGER PRIMARY KEY CHECK (id = 1),
    fact INTEGER NOT NULL,
    state TEXT NOT NULL,
    sum INTEGER NOT NULL
  );
  CREATE TABLE snapshots (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    seq INTEGER NOT NULL,
    version TEXT NOT NULL,
    states TEXT NOT NULL,
    sum INTEGER NOT NULL
  );
  `,
  // the bottles taken for granted at the very start, without which the facts do not add up to the same bench
  `CREATE TABLE ledger_start (id INTEGER PRIMARY KEY CHECK (id = 1), assumed TEXT NOT NULL);`,
  sealEvents,
];

/** Puts each entry's facts into its own row, and every row under a seal. @throws an error of kind damaged */
function sealEvents(db: Database): void {
  const columns = db.prepare('PRAGMA table_info(events)').all() as { name: string }[];
  if (!columns.some((c) => c.name === 'chain'))
    db.exec(
      "ALTER TABLE events ADD COLUMN facts TEXT NOT NULL DEFAULT '[]'; ALTER TABLE events ADD COLUMN chain TEXT NOT NULL DEFAULT ''",
    );
  db.exec(`
  -- what is known to be missing, or to have been written late
  CREATE TABLE IF NOT EXISTS gaps (
    id INTEGER PRIMARY KEY,
    seq INTEGER NOT NULL,
    entries INTEGER NOT NULL,
    from_wall_ms REAL,
    to_wall_ms REAL,
    what TEXT NOT NULL
  );
  -- 0 while a tankside writes: a log that is gone then took entries with it
  CREATE TABLE IF NOT EXISTS sitting (id INTEGER PRIMARY KEY CHECK (id = 1), closed INTEGER NOT NULL);
  INSERT OR IGNORE INTO sitting (id, closed) VALUES (1, 1);
  `);
  const rows = db
    .prepare(
      `SELECT seq, at_ms, wall_ms, up_ms, boots.boot AS boot, desk, source, event, sum
       FROM events JOIN boots ON boots.id = events.boot ORDER BY seq`,
    )
    .all() as Omit<EventRow, 'facts' | 'chain'>[];
  const factsOf = db.prepare('SELECT fact FROM facts WHERE seq = ? ORDER BY id');
  const seal = db.prepare('UPDATE events SET facts = ?, sum = ?, chain = ? WHERE seq = ?');
  let chain = CHAIN_START;
  for (const row of rows) {
    const facts = (factsOf.all(row.seq) as { fact: string }[]).map((f) => f.fact);
    const whole = { ...row, facts: `[${facts.join(',')}]` };
    chain = chainAfter(chain, whole);
    seal.run(whole.facts, rowSum(whole), chain, row.seq);
  }
}

/** Nothing else may stand in a journal: no view, no trigger, no table of another's; `bottle_facts` has rows in old ones alone. */
const TABLES = [
  ...['boots', 'events', 'facts', 'bottle_facts', 'bottles', 'shelf', 'runs', 'ledger_base', 'snapshots'],
  ...['ledger_start', 'gaps', 'sitting', 'sqlite_sequence'],
];

export const SCHEMA_VERSION = migrations.length;

const pragma = (db: Database, name: string): number => {
  const row = db.prepare(`PRAGMA ${name}`).get() as Record<string, unknown> | undefined;
  return Number(row?.[name] ?? 0);
};

export const schemaVersion = (db: Database): number => pragma(db, 'user_version');

/** SQLite will not write a file whose two format numbers (bytes 18 and 19) it does not know. */
function formatHarmed(path: string): boolean {
  if (!existsSync(path)) return false;
  const file = openSync(path, 'r');
  const header = Buffer.alloc(20);
  const read = readSync(file, header, 0, 20, 0);
  closeSync(file);
  return (
    read === 20 &&
    header.toString('latin1', 0, 15) === 'SQLite format 3' &&
    Math.max(header[18] ?? 0, header[19] ?? 0) > 2
  );
}

/** No program is so far ahead of this one: the number itself was harmed. */
const MOST_VERSIONS_AHEAD = 30;

/** The tables are those of this version, to the letter. */
function asMadeHere(db: Database): boolean {
  const made = new DatabaseSync(':memory:');
  migrate(made);
  const [here, there] = [made, db].map((one) =>
    one.prepare('SELECT name, sql FROM sqlite_schema WHERE sql IS NOT NULL ORDER BY name').all(),
  );
  made.close();
  return JSON.stringify(here) === JSON.stringify(there);
}

/** What kind of file this is, before anything is written to it. Null: ours, or empty and free to use. */
export function refuseForeign(db: Database, path: string): JournalProblem | null {
  if (formatHarmed(path)) return problemOf('not-a-journal', path, 'a format that is not known');
  const version = schemaVersion(db);
  const id = pragma(db, 'application_id');
  const tables = (db.prepare('SELECT count(*) AS n FROM sqlite_schema').get() as { n: number }).n;
  if (id === 0 && version === 0 && tables === 0) return null;
  if (id !== APPLICATION_ID) return problemOf('not-a-journal', path, `application id ${id}`);
  if (
    version < 0 ||
    version > SCHEMA_VERSION + MOST_VERSIONS_AHEAD ||
    (version > SCHEMA_VERSION && asMadeHere(db))
  )
    return problemOf('not-a-journal', path, `schema version ${version}`);
  const foreign = db
    .prepare(
      "SELECT name FROM sqlite_schema WHERE type NOT IN ('table', 'index') OR tbl_name NOT IN (SELECT value FROM json_each(?))",
    )
    .all(JSON.stringify(TABLES)) as { name: string }[];
  if (version <= SCHEMA_VERSION && foreign.length > 0)
    return problemOf('not-a-journal', path, `${foreign[0]?.name} is none of ours`);
  if (version > SCHEMA_VERSION) return problemOf('newer-version', path, `schema version ${version}`);
  return null;
}

/** Brings the schema up to date, each step in its own transaction, so that a crash leaves a whole version. */
export function migrate(db: Database): void {
  for (let version = schemaVersion(db); version < SCHEMA_VERSION; version += 1) {
    db.exec('BEGIN IMMEDIATE');
    try {
      const step = migrations[version] as (typeof migrations)[number];
      if (typeof step === 'string') db.exec(step);
      else step(db);
      db.exec(`PRAGMA application_id = ${APPLICATION_ID}`);
      db.exec(`PRAGMA user_version = ${version + 1}`);
      db.exec('COMMIT');
    } catch (error) {
      if (db.isTransaction) db.exec('ROLLBACK');
      throw error;
    }
  }
}
