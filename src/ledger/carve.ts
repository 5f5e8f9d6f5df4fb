import { existsSync, readFileSync } from 'node:fs';
import { type EventRow, NO_BOOT, rowSum } from './entry.js';

/**
 * Reads entries from the raw bytes of a journal and its log, whatever has become of the structure around them: every
 * byte may be the beginning of a row, and the checksum in the row tells whether it is one.
 * source: https://www.sqlite.org/fileformat2.html, sections 1.5 (b-tree cells), 1.6 (overflow), 2.1 (records), 4.1 (WAL)
 */
export interface Carved {
  /** whole rows; one number may come several times, as may the same row */
  rows: EventRow[];
  /** what was once a row and is damaged: its number and what kind of event it seems to have been */
  broken: Map<number, string>;
}

const WAL_HEADER = 32;
const FRAME_HEADER = 24;
const COLUMNS = 11;
const BOOT_COLUMNS = 2;

/** With the machine's starts that are known, the log alone is looked through, which takes no longer for a large journal. */
export function carve(path: string, known: ReadonlyMap<number, string> | null = null): Carved {
  const main = bytesOf(path);
  const wal = bytesOf(`${path}-wal`);
  const pageBytes = pageSize(main) ?? pageSizeOfLog(wal) ?? 4096;
  const pages: Buffer[] = [];
  const byNumber = new Map<number, Buffer[]>();
  const take = (number: number, page: Buffer, look: boolean): void => {
    if (look) pages.push(page);
    byNumber.set(number, [page, ...(byNumber.get(number) ?? [])]);
  };
  for (let at = 0; at < main.length; at += pageBytes)
    take(at / pageBytes + 1, main.subarray(at, at + pageBytes), known === null);
  for (let at = WAL_HEADER; at + FRAME_HEADER < wal.length; at += FRAME_HEADER + pageBytes)
    take(wal.readUInt32BE(at), wal.subarray(at + FRAME_HEADER, at + FRAME_HEADER + pageBytes), true);

  const boots = new Map<number, string>(known);
  const found: { row: EventRow; boot: number }[] = [];
  const broken = new Map<number, string>();
  for (const page of pages) {
    for (let at = 0; at + 4 < page.length; at += 1) {
      const cell = readCell(page, at, pageBytes, byNumber);
      if (cell === null) continue;
      // a long row goes on in pages that lie in the file and in the log: any of them may be the whole one
      for (let version = 1; version < cell.versions && !isWhole(cell); version += 1)
        cell.values = readCell(page, at, pageBytes, byNumber, version)?.values ?? cell.values;
      const { rowid, values } = cell;
      if (values.length === BOOT_COLUMNS) {
        if (typeof values[1] === 'string' && /^[0-9a-f-]{36}$/.test(values[1])) boots.set(rowid, values[1]);
        continue;
      }
      const row = asRow(rowid, values);
      if (row === null) continue;
      if (rowSum(row) === row.sum) found.push({ row, boot: Number(values[4]) });
      else broken.set(rowid, /^\{"type":"(\w+)"/.exec(row.event)?.[1] ?? 'unknown');
    }
  }
  const rows = found.map(({ row, boot }) => ({ ...row, boot: boots.get(boot) ?? NO_BOOT }));
  for (const row of rows) broken.delete(row.seq);
  return { rows, broken };
}

const bytesOf = (path: string): Buffer => (existsSync(path) ? readFileSync(path) : Buffer.alloc(0));

const validPage = (n: number): number | null => (n >= 512 && n <= 65_536 && (n & (n - 1)) === 0 ? n : null);
const pageSize = (main: Buffer): number | null => {
  if (main.length < 18) return null;
  const n = main.readUInt16BE(16);
  return validPage(n === 1 ? 65_536 : n);
};
const pageSizeOfLog = (wal: Buffer): number | null =>
  wal.length < 12 ? null : validPage(wal.readUInt32BE(8));

type Value = number | string | null;

interface Cell {
  rowid: number;
  values: Value[];
  /** so many copies there are of the pages that it goes on in; 1: it does not */
  versions: number;
}

function isWhole({ rowid, values }: Cell): boolean {
  const row = asRow(rowid, values);
  return row !== null && rowSum(row) === row.sum;
}

/** The cell of a table leaf that begins at this byte, if what stands here can be one of our rows. */
function readCell(
  page: Buffer,
  at: number,
  pageBytes: number,
  others: Map<number, Buffer[]>,
  version = 0,
): Cell | null {
  const size = varint(page, at);
  if (size === null || size.value < 20 || size.value > 64 * 1024 * 1024) return null;
  const rowid = varint(page, size.next);
  if (rowid === null || rowid.value < 1) return null;
  // the record's header: its length, then the type of each column; the first is the row's number, kept as NULL
  const head = page[rowid.next] ?? 0;
  if (head < BOOT_COLUMNS + 1 || head > 60 || page[rowid.next + 1] !== 0) return null;
  const types: number[] = [];
  let next = rowid.next + 1;
  while (next < rowid.next + head && types.length <= COLUMNS) {
    const type = varint(page, next);
    if (type === null) return null;
    types.push(type.value);
    next = type.next;
  }
  if (next !== rowid.next + head || (types.length !== COLUMNS && types.length !== BOOT_COLUMNS)) return null;
  const body = types.reduce((n, t) => n + bytesOfType(t), 0);
  if (body + head !== size.value) return null;
  const whole = wholePayload(page, rowid.next, size.value, pageBytes, others, version);
  return whole === null
    ? null
    : { rowid: rowid.value, values: readValues(whole.payload, head, types), versions: whole.versions };
}

function wholePayload(
  page: Buffer,
  at: number,
  bytes: number,
  pageBytes: number,
  others: Map<number, Buffer[]>,
  version: number,
): { payload: Buffer; versions: number } | null {
  const most = pageBytes - 35;
  if (bytes <= most)
    return at + bytes <= page.length ? { payload: page.subarray(at, at + bytes), versions: 1 } : null;
  let versions = 1;
  const least = Math.floor(((pageBytes - 12) * 32) / 255 - 23);
  const spare = least + ((bytes - least) % (pageBytes - 4));
  const local = spare <= most ? spare : least;
  if (at + local + 4 > page.length) return null;
  const parts = [page.subarray(at, at + local)];
  let left = bytes - local;
  for (let number = page.readUInt32BE(at + local); left > 0; ) {
    const copies = others.get(number) ?? [];
    const overflow = copies[Math.min(version, copies.length - 1)];
    versions = Math.max(versions, copies.length);
    if (overflow === undefined || overflow.length < 4) return null;
    const part = overflow.subarray(4, 4 + Math.min(left, pageBytes - 4));
    parts.push(part);
    left -= part.length;
    if (part.length === 0) return null;
    number = overflow.readUInt32BE(0);
  }
  return { payload: Buffer.concat(parts), versions };
}

/** Bytes of a serial type; anything that is none makes no record. */
function bytesOfType(type: number): number {
  if (type >= 12) return Math.floor((type - 12) / 2);
  return [0, 1, 2, 3, 4, 6, 8, 8, 0, 0][type] ?? Number.NaN;
}

function readValues(payload: Buffer, from: number, types: readonly number[]): Value[] {
  let at = from;
  return types.map((type) => {
    const bytes = bytesOfType(type);
    const start = at;
    at += bytes;
    if (type === 0) return null;
    if (type === 7) return payload.readDoubleBE(start);
    if (type === 8 || type === 9) return type - 8;
    if (type === 6) return Number(payload.readBigInt64BE(start));
    if (type < 6) return payload.readIntBE(start, bytes);
    return payload.toString('utf8', start, at);
  });
}

const SOURCES = new Set<unknown>(['typed', 'voice', 'clock', 'command', 'import']);

function asRow(seq: number, values: readonly Value[]): EventRow | null {
  const [, at_ms, wall_ms, up_ms, boot, desk, source, event, sum, facts, chain] = values;
  if (typeof at_ms !== 'number' || typeof wall_ms !== 'number' || typeof boot !== 'number') return null;
  if (typeof event !== 'string' || typeof facts !== 'string' || typeof chain !== 'string') return null;
  if (typeof sum !== 'number' || typeof source !== 'string' || !SOURCES.has(source)) return null;
  if (typeof up_ms === 'string' || typeof desk === 'number') return null;
  return { seq, at_ms, wall_ms, up_ms, boot: NO_BOOT, desk, source, event, facts, sum, chain } as EventRow;
}

/** A varint of at most seven bytes, which is more than any number of ours has. */
function varint(bytes: Buffer, at: number): { value: number; next: number } | null {
  let value = 0;
  for (let i = 0; i < 7; i += 1) {
    const byte = bytes[at + i];
    if (byte === undefined) return null;
    value = value * 128 + (byte & 0x7f);
    if (byte < 0x80) return { value, next: at + i + 1 };
  }
  return null;
}
