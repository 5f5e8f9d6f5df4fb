import { createHash } from 'node:crypto';
import type { DeskEvent, DeskId } from '../process/desk.js';
import type { Fact } from '../world/fact.js';

/** How an event came in. */
export type EntrySource = 'typed' | 'voice' | 'clock' | 'command' | 'import';

/** One event to be written down, with the facts that followed from it. */
export interface NewEntry {
  event: DeskEvent;
  /** the desk it was meant for; left out: all of them */
  desk?: DeskId;
  source: EntrySource;
  facts: readonly Fact[];
  /** machine up-time, ms (see `Moment`); left out when the event has no moment of its own, as in an import */
  upMs?: number;
  bootId?: string | null;
}

/** One event as written. `seq` counts from 1 without gaps. */
export interface Entry {
  seq: number;
  event: DeskEvent;
  desk: DeskId | null;
  source: EntrySource;
  upMs: number | null;
  bootId: string | null;
}

/** Guards against a row that the disk has changed: 48 bits of SHA-256, a whole number JavaScript holds exactly. */
export const checksum = (...parts: readonly (string | number | null)[]): number =>
  createHash('sha256').update(parts.join('\u0000')).digest().readUIntBE(0, 6);

/** An entry as it lies in its table. */
export interface EventRow {
  seq: number;
  at_ms: number;
  wall_ms: number;
  up_ms: number | null;
  boot: string;
  desk: DeskId | null;
  source: EntrySource;
  /** JSON */
  event: string;
  /** JSON, so that one row is the whole entry */
  facts: string;
  sum: number;
  chain: string;
}

type Sealed = Omit<EventRow, 'sum' | 'chain'>;

/** Over all of a row but the name of the machine's start, which lies in another table. */
export const rowSum = (row: Sealed): number =>
  checksum(row.seq, row.at_ms, row.wall_ms, row.up_ms, row.desk, row.source, row.event, row.facts);

/** The chain before the first entry. */
export const CHAIN_START = '';

/** Each entry seals those before it (128 bits of SHA-256), so that one which is missing or exchanged is known. */
export const chainAfter = (previous: string, row: Sealed): string =>
  createHash('sha256')
    .update(
      [
        ...[previous, row.seq, row.at_ms, row.wall_ms, row.up_ms, row.boot],
        ...[row.desk, row.source, row.event, row.facts],
      ].join('\u0000'),
    )
    .digest('hex')
    .slice(0, 32);

export const NO_BOOT = '';

/** The row of an entry that is to be written; its chain follows from the one before. */
export function rowOf(entry: NewEntry, seq: number, previous: string): EventRow {
  const row = {
    seq,
    at_ms: entry.event.atMs,
    wall_ms: entry.event.wallMs,
    up_ms: entry.upMs ?? null,
    boot: entry.bootId ?? NO_BOOT,
    desk: entry.desk ?? null,
    source: entry.source,
    event: JSON.stringify(entry.event),
    facts: JSON.stringify(entry.facts),
  };
  return { ...row, sum: rowSum(row), chain: chainAfter(previous, row) };
}

export const entryOf = (row: EventRow): Entry => ({
  seq: row.seq,
  event: JSON.parse(row.event) as DeskEvent,
  desk: row.desk,
  source: row.source,
  upMs: row.up_ms,
  bootId: row.boot === NO_BOOT ? null : row.boot,
});

/** A row read back, to be written again elsewhere. */
export const newEntryOf = (row: EventRow): NewEntry => ({
  event: JSON.parse(row.event) as DeskEvent,
  source: row.source,
  facts: JSON.parse(row.facts) as Fact[],
  bootId: row.boot === NO_BOOT ? null : row.boot,
  ...(row.desk === null ? {} : { desk: row.desk }),
  ...(row.up_ms === null ? {} : { upMs: row.up_ms }),
});
