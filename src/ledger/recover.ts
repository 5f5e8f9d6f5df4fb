import { closeSync, existsSync, fsyncSync, lstatSync, openSync, renameSync, rmSync, statSync } from 'node:fs';
import { dirname } from 'node:path';
import { type DatabaseSyncInstance as Database, DatabaseSync } from '@photostructure/sqlite';
import { carve } from './carve.js';
import { CHAIN_START, chainAfter, type EventRow, NO_BOOT, newEntryOf } from './entry.js';
import { eventStore } from './event-store.js';
import { type Mark, readMark, writeMark } from './mark.js';
import { projection, startOf } from './projection.js';
import { migrate } from './schema.js';
import { readSecondCopy, setSecondCopyAside } from './second-copy.js';
import type { AssumedBottle } from './state.js';

/** A stretch of entries that is not there. */
export interface Gap {
  /** entries before it */
  seq: number;
  entries: number;
  fromWallMs: number | null;
  toWallMs: number | null;
  /** what kinds of event they were, as far as that can be told */
  kinds: string[];
}

export interface Recovered {
  entries: number;
  gaps: Gap[];
  /** where what was in place lies now; null: there was nothing */
  movedTo: string | null;
  /** no gap, and the second copy knows of no later entry: nothing is missing */
  whole: boolean;
}

/**
 * Makes a journal anew from every entry whose bytes are intact in the old one, its log or the second copy, and puts it
 * in place, empty if there is none; the old files are moved aside, never deleted.
 * `logged`: what was read from the log before SQLite took it away; `from`: the old one, where it lies elsewhere.
 */
export function rebuild(
  path: string,
  assumed: readonly AssumedBottle[] | null,
  logged: readonly EventRow[] = [],
  from = path,
): Recovered {
  const carved = carve(from);
  const copy = readSecondCopy(from);
  const rows = chosen([...carved.rows, ...copy.rows, ...logged]);
  const mark = readMark(from);
  const broken = new Map([...copy.broken, ...carved.broken]);
  for (const { seq } of rows) broken.delete(seq);
  const gaps = gapsIn(rows, broken, mark);
  const vouched = rows.length > 0 && copy.broken.size === 0 && copy.rows.at(-1)?.seq === rows.at(-1)?.seq;
  const building = `${path}.rebuilding`;
  for (const suffix of ['', '-wal', '-shm', '-journal']) rmSync(`${building}${suffix}`, { force: true });
  write(building, rows, gaps, copy.assumed ?? startIn(from) ?? assumed ?? []);
  const movedTo = moveAside(path, from === path ? 'damaged' : 'before-restore');
  putInPlace(building, path);
  writeMark(path, { entries: rows.length, wallMs: rows.at(-1)?.wall_ms ?? null });
  return { entries: rows.length, gaps, movedTo, whole: gaps.length === 0 && vouched };
}

/** One row for each number: where there are several, the one that follows from the row before. */
function chosen(candidates: readonly EventRow[]): EventRow[] {
  const bySeq = new Map<number, EventRow[]>();
  for (const row of candidates) {
    const known = bySeq.get(row.seq);
    if (known) known.push(row);
    else bySeq.set(row.seq, [row]);
  }
  let chain: string | null = CHAIN_START;
  let before = 0;
  return [...bySeq.entries()]
    .sort(([a], [b]) => a - b)
    .map(([seq, rows]) => {
      const previous = seq === before + 1 ? chain : null;
      const linked = previous === null ? undefined : rows.find((r) => chainAfter(previous, r) === r.chain);
      const row = linked ?? rows.find((r) => r.boot !== NO_BOOT) ?? (rows[0] as EventRow);
      chain = row.chain;
      before = seq;
      return row;
    });
}

function gapsIn(rows: readonly EventRow[], broken: ReadonlyMap<number, string>, mark: Mark | null): Gap[] {
  const gaps: Gap[] = [];
  const lastKnown = Math.max(mark?.entries ?? 0, ...broken.keys());
  let before: EventRow | null = null;
  for (const row of [...rows, null]) {
    const from = (before?.seq ?? 0) + 1;
    // what lies beyond the last row is only known where a trace of it is left
    const until = row?.seq ?? Math.max(from, lastKnown + 1);
    if (until > from) {
      const lost = Array.from({ length: Math.min(until - from, 10_000) }, (_, i) => broken.get(from + i));
      gaps.push({
        seq: from - 1,
        entries: until - from,
        fromWallMs: before?.wall_ms ?? null,
        toWallMs: row?.wall_ms ?? (mark?.entries === until - 1 ? mark.wallMs : null),
        kinds: [...new Set(lost.flatMap((k) => (k === undefined ? [] : [kindWords[k] ?? 'unknown'])))],
      });
    }
    before = row;
  }
  return gaps;
}

const kindWords: Record<string, string> = { intent: 'things said', time: 'calls', fact: 'readings' };

function write(
  path: string,
  rows: readonly EventRow[],
  gaps: readonly Gap[],
  assumed: readonly AssumedBottle[],
): void {
  const db = new DatabaseSync(path);
  try {
    db.exec('PRAGMA journal_mode = DELETE; PRAGMA synchronous = FULL');
    migrate(db);
    const events = eventStore(db);
    const bench = projection(db);
    db.exec('BEGIN');
    bench.confirm(bench.begin(assumed));
    for (const row of rows) {
      const entry = newEntryOf(row);
      const [written] = events.insert([entry]);
      if (written === undefined) continue;
      bench.confirm(bench.record([entry], [written.seq]));
      events.confirm(written);
    }
    for (const gap of gaps) noteGap(db, gap);
    db.exec('COMMIT');
  } finally {
    db.close();
  }
}

/** What is known to be missing stays known. Inside a transaction or alone. */
export function noteGap(db: Database, gap: Gap): void {
  db.prepare('INSERT INTO gaps (seq, entries, from_wall_ms, to_wall_ms, what) VALUES (?, ?, ?, ?, ?)').run(
    gap.seq,
    gap.entries,
    gap.fromWallMs,
    gap.toWallMs,
    gap.kinds.join(', '),
  );
}

function startIn(path: string): AssumedBottle[] | null {
  if (!existsSync(path)) return null;
  try {
    const db = new DatabaseSync(path, { readOnly: true });
    try {
      return startOf(db);
    } finally {
      db.close();
    }
  } catch {
    return null;
  }
}

/** A new journal takes the place, and its folder is on the disk before anything is said. */
export function putInPlace(from: string, path: string): void {
  const file = openSync(from, 'r+');
  fsyncSync(file);
  closeSync(file);
  renameSync(from, path);
  syncFolder(dirname(path));
}

/** The journal's files under another name; null: there were none. */
export function moveAside(path: string, why: string): string | null {
  const there = ['', '-wal', '-journal'].filter((suffix) => isThere(`${path}${suffix}`));
  const first = there[0];
  if (first === undefined) return null;
  const stamp = new Date(statSync(`${path}${first}`).mtimeMs).toISOString().replace(/[:.]/g, '-');
  const base = `${path.replace(/\.journal$/, '')}-${why}-${stamp}`;
  let target = `${base}.journal`;
  for (let n = 2; isThere(target) || isThere(`${target}-wal`); n += 1) target = `${base}-${n}.journal`;
  for (const suffix of there) renameSync(`${path}${suffix}`, `${target}${suffix}`);
  rmSync(`${path}-shm`, { force: true });
  setSecondCopyAside(path, target);
  return target;
}

function isThere(path: string): boolean {
  try {
    lstatSync(path);
    return true;
  } catch {
    return false;
  }
}

/** A rename is only safe once its folder is on the disk; Windows cannot open folders and needs no such call. */
export function syncFolder(path: string): void {
  if (process.platform === 'win32') return;
  const folder = openSync(path, 'r');
  fsyncSync(folder);
  closeSync(folder);
}

const clock = (wallMs: number): string => {
  const d = new Date(wallMs);
  const two = (n: number): string => String(n).padStart(2, '0');
  return `${two(d.getHours())}:${two(d.getMinutes())}:${two(d.getSeconds())} on ${d.getFullYear()}-${two(d.getMonth() + 1)}-${two(d.getDate())}`;
};

/** "3 entries between 14:02:11 … and 14:03:40 … (things said)" */
export function gapWords(gap: Gap): string {
  const { entries, fromWallMs: from, toWallMs: to, kinds } = gap;
  const count = `${entries} ${entries === 1 ? 'entry' : 'entries'}`;
  const when =
    from !== null && to !== null
      ? `between ${clock(from)} and ${clock(to)}`
      : from !== null
        ? `after ${clock(from)}`
        : to !== null
          ? `before ${clock(to)}`
          : 'at a time that is not known';
  return `${count} ${when}${kinds.length > 0 ? ` (${kinds.join(', ')})` : ''}`;
}

/** What a start says after a journal was made anew. */
export function rebuiltSentence(cause: string, done: Recovered): string {
  const aside = done.movedTo === null ? '' : ` The old file is kept as ${done.movedTo}.`;
  const back = `${done.entries} ${done.entries === 1 ? 'entry is' : 'entries are'} back`;
  if (done.whole) return `${cause} I made it anew: all ${back}, nothing is missing.${aside}`;
  const lost = done.gaps.map(gapWords).join('; ');
  if (done.entries === 0)
    return `${cause} Nothing in it can be read, so I begin a new one.${done.gaps.length > 0 ? ` Lost: ${lost}.` : ''} I take every bottle to be as the sheet has it: check the tank and the bottles before you pour, and tell me what they hold. A backup can be put back with tankside restore.${aside}`;
  if (done.gaps.length === 0)
    return `${cause} I made it anew: ${back}. Whether later ones were lost I cannot tell, so check what is in the tank and the bottles before you pour.${aside}`;
  return `${cause} I made it anew: ${back}. Lost: ${lost}. I go by what is left, so check what is in the tank and the bottles before you pour.${aside}`;
}
