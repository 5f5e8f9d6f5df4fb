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
