import { createHash } from 'node:crypto';
import {
  closeSync,
  constants,
  existsSync,
  fdatasyncSync,
  fstatSync,
  ftruncateSync,
  lstatSync,
  openSync,
  readFileSync,
  renameSync,
  writeSync,
} from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { type EventRow, rowSum } from './entry.js';
import { makeFolderOf } from './folders.js';
import type { AssumedBottle } from './state.js';

/**
 * The newest entries a second time, in a file of a fixed size beside the journal that is written in a round. Its room
 * is taken when it is made, so that it can be written on a full disk; a lost or damaged log is made good from it.
 * One line an entry: 16 hexadecimal digits of the SHA-256 of what follows, a space, the row as JSON. The first
 * `HEAD_BYTES` hold the bottles that were taken for granted at the start, in the same form.
 */
export interface SecondCopy {
  /** Writes rows behind the last one. `mustKeep`: none of what is there may be overwritten. False: it could not. */
  put(rows: readonly EventRow[], mustKeep: boolean): boolean;
  assume(assumed: readonly AssumedBottle[]): void;
  /** what was written is on the disk after this; false: it is not */
  sync(): boolean;
  /** the file is still where it was opened */
  inPlace(): boolean;
  close(): void;
}

const HEAD_BYTES = 16 * 1024;
const RING_BYTES = 1024 * 1024;

export const secondCopyPath = (journalPath: string): string =>
  join(dirname(journalPath), 'second-copy', `${basename(journalPath, '.journal')}.entries`);

export interface CopyFound {
  rows: EventRow[];
  assumed: AssumedBottle[] | null;
  /** where the next line goes */
  end: number;
  /** numbers of entries whose lines are damaged, with what kind of event they seem to be */
  broken: Map<number, string>;
  /** the file is there with all its room */
  whole: boolean;
}

const seal = (json: string): string => createHash('sha256').update(json).digest('hex').slice(0, 16);
const lineOf = (value: unknown): Buffer => {
  const json = JSON.stringify(value);
  return Buffer.from(`${seal(json)} ${json}\n`);
};

/** Every whole line of the copy, oldest first. */
export function readSecondCopy(journalPath: string): CopyFound {
  const path = secondCopyPath(journalPath);
  const none: CopyFound = { rows: [], assumed: null, end: HEAD_BYTES, broken: new Map(), whole: false };
  if (!isPlainFile(path)) return none;
  const bytes = readFileSync(path);
  const rows = new Map<number, { row: EventRow; end: number }>();
  let assumed: AssumedBottle[] | null = null;
  for (let at = 0; at < bytes.length; ) {
    const end = bytes.indexOf(10, at);
    const line = bytes.toString('utf8', at, end < 0 ? bytes.length : end);
    at = end < 0 ? bytes.length : end + 1;
    const json = line.slice(17);
    if (json === '' || seal(json) !== line.slice(0, 16)) {
      for (const row of rowsAmong(line)) rows.set(row.seq, { row, end: at });
      const trace = /^.{16} \{"seq":(\d+),/.exec(line);
      const kind = /"event":"\{\\"type\\":\\"(\w+)/.exec(line)?.[1];
      if (trace) none.broken.set(Number(trace[1]), kind ?? 'unknown');
      continue;
    }
    const value = parsed(json);
    if (isRow(value)) rows.set(value.seq, { row: value, end: at });
    else if (isAssumed(value)) ({ assumed } = value);
  }
  const sorted = [...rows.values()].sort((a, b) => a.row.seq - b.row.seq);
  for (const { row } of sorted) none.broken.delete(row.seq);
  const end = sorted.at(-1)?.end ?? HEAD_BYTES;
  return {
    rows: sorted.map((r) => r.row),
    assumed,
    end,
    broken: none.broken,
    whole: bytes.length >= RING_BYTES,
  };
}

/** A line may have lost its seal or the end of the line before it, and the row in it be whole. */
function* rowsAmong(line: string): Iterable<EventRow> {
  for (const [json] of line.matchAll(/\{"seq":\d+,(?:(?!\{"seq":).)*?"chain":"[0-9a-f]{32}"\}/g)) {
    const value = parsed(json);
    if (isRow(value)) yield value;
  }
}

function parsed(json: string): unknown {
  try {
    return JSON.parse(json);
  } catch {
    return null;
  }
}

/** Only what was written as a row has the sum of one. */
function isRow(value: unknown): value is EventRow {
  const row = value as EventRow | null;
  return Number.isSafeInteger(row?.seq) && row?.sum !== undefined && rowSum(row) === row.sum;
}

function isAssumed(value: unknown): value is { assumed: AssumedBottle[] } {
  return typeof value === 'object' && value !== null && 'assumed' in value && Array.isArray(value.assumed);
}

function isPlainFile(path: string): boolean {
  try {
    return lstatSync(path).isFile();
  } catch {
    return false;
  }
}

/** Opens the copy for writing, made anew with its whole room if it is missing. Null: it cannot be had; all goes on without. */
export function openSecondCopy(journalPath: string, end: number): SecondCopy | null {
  const path = secondCopyPath(journalPath);
  let file: number;
  try {
    makeFolderOf(path);
    file = openSync(path, constants.O_RDWR | constants.O_CREAT | constants.O_NOFOLLOW, 0o600);
    const { size } = fstatSync(file);
    if (size < RING_BYTES) writeSync(file, Buffer.alloc(RING_BYTES - size, 10), 0, RING_BYTES - size, size);
  } catch {
    return null;
  }
  const { ino, dev } = fstatSync(file);
  let at = end;
  /** the whole of it at one place; what follows it on the old line begins a line of its own */
  const write = (bytes: Buffer, position: number): void => {
    for (let done = 0; done < bytes.length; )
      done += writeSync(file, bytes, done, bytes.length - done, position + done);
  };
  const tried = (work: () => void): boolean => {
    try {
      work();
      return true;
    } catch {
      return false;
    }
  };
  return {
    put: (rows, mustKeep) =>
      tried(() => {
        for (const row of rows) {
          const line = lineOf(row);
          if (line.length > RING_BYTES - HEAD_BYTES - 1) continue;
          if (at + line.length > RING_BYTES && !mustKeep) at = HEAD_BYTES;
          write(line, at);
          at += line.length;
        }
        if (!mustKeep && at < RING_BYTES && fstatSync(file).size > RING_BYTES)
          ftruncateSync(file, RING_BYTES);
      }),
    assume: (assumed) =>
      void tried(() => {
        const line = lineOf({ assumed });
        if (line.length < HEAD_BYTES)
          write(Buffer.concat([line, Buffer.alloc(HEAD_BYTES - line.length, 10)]), 0);
      }),
    sync: () => tried(() => fdatasyncSync(file)),
    inPlace() {
      try {
        const now = lstatSync(path);
        return now.ino === ino && now.dev === dev && now.size >= RING_BYTES;
      } catch {
        return false;
      }
    },
    close: () => void tried(() => closeSync(file)),
  };
}

/** Takes the copy out of the way, for it belongs to a journal that is no longer the one in place. */
export function setSecondCopyAside(journalPath: string, aside: string): void {
  const path = secondCopyPath(journalPath);
  if (existsSync(path)) renameSync(path, `${secondCopyPath(aside)}`);
}
