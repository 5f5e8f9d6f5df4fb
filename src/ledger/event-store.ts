import type { DatabaseSyncInstance as Database } from '@photostructure/sqlite';
import type { DeskEvent, DeskId } from '../process/desk.js';
import type { Moment } from './clock.js';
import { checksum, type Entry, type EntrySource, type NewEntry } from './entry.js';

export interface EventStore {
  lastSeq(): number;
  lastMoment(): (Moment & { atMs: number }) | null;
  /** inside a transaction; the sequence numbers given */
  insert(entries: readonly NewEntry[]): number[];
  /** after the commit */
  confirm(seq: number): void;
  after(seq: number): Iterable<Entry>;
  /** what is wrong with the last entries, or null; the whole file is checked by `checkJournal` */
  tailDamage(): string | null;
}

export interface EventRow {
  seq: number;
  at_ms: number;
  wall_ms: number;
  up_ms: number | null;
  boot: string;
  desk: DeskId | null;
  source: EntrySource;
  event: string;
  sum: number;
}

const NO_BOOT = '';
const TAIL = 200;

export const SELECT_EVENTS = `SELECT seq, at_ms, wall_ms, up_ms, boots.boot AS boot, desk, source, event, sum
  FROM events JOIN boots ON boots.id = events.boot`;

export const rowSum = (row: Omit<EventRow, 'sum'>): number =>
  checksum(row.seq, row.at_ms, row.wall_ms, row.up_ms, row.boot, row.desk, row.source, row.event);

export const entryOf = (row: EventRow): Entry => ({
  seq: row.seq,
  event: JSON.parse(row.event) as DeskEvent,
  desk: row.desk,
  source: row.source,
  upMs: row.up_ms,
  bootId: row.boot === NO_BOOT ? null : row.boot,
});

export function eventStore(db: Database): EventStore {
  const insertEvent = db.prepare(
    'INSERT INTO events (seq, at_ms, wall_ms, up_ms, boot, desk, source, event, sum) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)',
  );
  const addBoot = db.prepare('INSERT INTO boots (boot) VALUES (?) ON CONFLICT DO NOTHING');
  const findBoot = db.prepare('SELECT id FROM boots WHERE boot = ?');
  const page = db.prepare(`${SELECT_EVENTS} WHERE seq > ? ORDER BY seq LIMIT 500`);
  const last = db.prepare(`${SELECT_EVENTS} ORDER BY seq DESC LIMIT ?`);
  const highest = db.prepare('SELECT max(seq) AS seq FROM events').get() as { seq: number | null };
  let lastSeq = highest.seq ?? 0;

  const bootRow = (boot: string): number => {
    const known = findBoot.get(boot) as { id: number } | undefined;
    if (known !== undefined) return known.id;
    return Number(addBoot.run(boot).lastInsertRowid);
  };

  return {
    lastSeq: () => lastSeq,
    confirm(seq) {
      lastSeq = seq;
    },
    lastMoment() {
      const row = (last.all(1) as EventRow[])[0];
      if (row === undefined) return null;
      const bootId = row.boot === NO_BOOT ? null : row.boot;
      return { atMs: row.at_ms, wallMs: row.wall_ms, upMs: row.up_ms ?? 0, bootId };
    },
    insert(entries) {
      return entries.map((entry, index) => {
        const row = {
          seq: lastSeq + 1 + index,
          at_ms: entry.event.atMs,
          wall_ms: entry.event.wallMs,
          up_ms: entry.upMs ?? null,
          boot: entry.bootId ?? NO_BOOT,
          desk: entry.desk ?? null,
          source: entry.source,
          event: JSON.stringify(entry.event),
        };
        insertEvent.run(
          row.seq,
          row.at_ms,
          row.wall_ms,
          row.up_ms,
          bootRow(row.boot),
          row.desk,
          row.source,
          row.event,
          rowSum(row),
        );
        return row.seq;
      });
    },
    *after(seq) {
      for (let from = seq; ; ) {
        const rows = page.all(from) as EventRow[];
        for (const row of rows) yield entryOf(row);
        const end = rows.at(-1);
        if (end === undefined) return;
        from = end.seq;
      }
    },
    tailDamage() {
      for (const row of last.all(TAIL) as EventRow[])
        if (rowSum(row) !== row.sum) return `entry ${row.seq} does not match its checksum`;
      return null;
    },
  };
}
