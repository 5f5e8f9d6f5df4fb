import type { DatabaseSyncInstance as Database } from '@photostructure/sqlite';
import type { Moment } from './clock.js';
import {
  CHAIN_START,
  chainAfter,
  type Entry,
  type EventRow,
  entryOf,
  type NewEntry,
  rowOf,
  rowSum,
} from './entry.js';

export interface EventStore {
  lastSeq(): number;
  /** the seal of the last entry and all before it */
  lastChain(): string;
  lastMoment(): (Moment & { atMs: number }) | null;
  /** inside a transaction; the rows written */
  insert(entries: readonly NewEntry[]): EventRow[];
  /** after the commit */
  confirm(last: EventRow): void;
  /** the machine's starts by their numbers */
  boots(): Map<number, string>;
  after(seq: number): Iterable<Entry>;
  rowsAfter(seq: number): Iterable<EventRow>;
}

export const SELECT_EVENTS = `SELECT seq, at_ms, wall_ms, up_ms, boots.boot AS boot, desk, source, event, facts, sum, chain
  FROM events JOIN boots ON boots.id = events.boot`;

export function eventStore(db: Database): EventStore {
  const insertEvent = db.prepare(
    `INSERT INTO events (seq, at_ms, wall_ms, up_ms, boot, desk, source, event, facts, sum, chain)
     VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`,
  );
  const addBoot = db.prepare('INSERT INTO boots (boot) VALUES (?) ON CONFLICT DO NOTHING');
  const findBoot = db.prepare('SELECT id FROM boots WHERE boot = ?');
  const page = db.prepare(`${SELECT_EVENTS} WHERE seq > ? ORDER BY seq LIMIT 500`);
  const last = db.prepare(`${SELECT_EVENTS} ORDER BY seq DESC LIMIT 1`);
  const newest = last.get() as EventRow | undefined;
  let lastSeq = newest?.seq ?? 0;
  let lastChain = newest?.chain ?? CHAIN_START;

  const bootRow = (boot: string): number => {
    const known = findBoot.get(boot) as { id: number } | undefined;
    if (known !== undefined) return known.id;
    return Number(addBoot.run(boot).lastInsertRowid);
  };

  function* rowsAfter(seq: number): Iterable<EventRow> {
    for (let from = seq; ; ) {
      const rows = page.all(from) as EventRow[];
      yield* rows;
      const end = rows.at(-1);
      if (end === undefined) return;
      from = end.seq;
    }
  }

  return {
    lastSeq: () => lastSeq,
    lastChain: () => lastChain,
    confirm(row) {
      lastSeq = row.seq;
      lastChain = row.chain;
    },
    lastMoment() {
      const row = last.get() as EventRow | undefined;
      if (row === undefined) return null;
      const { bootId } = entryOf(row);
      return { atMs: row.at_ms, wallMs: row.wall_ms, upMs: row.up_ms ?? 0, bootId };
    },
    insert(entries) {
      let chain = lastChain;
      return entries.map((entry, index) => {
        const row = rowOf(entry, lastSeq + 1 + index, chain);
        chain = row.chain;
        insertEvent.run(
          ...[row.seq, row.at_ms, row.wall_ms, row.up_ms, bootRow(row.boot), row.desk, row.source],
          ...[row.event, row.facts, row.sum, row.chain],
        );
        return row;
      });
    },
    boots() {
      const all = db.prepare('SELECT id, boot FROM boots').all() as { id: number; boot: string }[];
      return new Map(all.map(({ id, boot }) => [id, boot]));
    },
    rowsAfter,
    *after(seq) {
      for (const row of rowsAfter(seq)) yield entryOf(row);
    },
  };
}

/** What is wrong with the rows that come, each after the one before; null: nothing. */
export function sealDamage(
  rows: Iterable<EventRow>,
  after: { seq: number; chain: string } | null,
): string | null {
  let before = after ?? { seq: 0, chain: CHAIN_START };
  for (const row of rows) {
    if (row.seq !== before.seq + 1) return `entries ${before.seq + 1} to ${row.seq - 1} are missing`;
    if (rowSum(row) !== row.sum) return `entry ${row.seq} does not match its checksum`;
    if (chainAfter(before.chain, row) !== row.chain)
      return `entry ${row.seq} does not follow from those before it`;
    before = row;
  }
  return null;
}
