import { createHash } from 'node:crypto';
import {
  closeSync,
  createReadStream,
  existsSync,
  fsyncSync,
  openSync,
  renameSync,
  rmSync,
  statSync,
  writeSync,
} from 'node:fs';
import { createInterface } from 'node:readline';
import { z } from 'zod';
import { limits } from '../limits.js';
import { type Fact, factSchema } from '../world/fact.js';
import { type Entry, entryOf, type NewEntry } from './entry.js';

import type { Journal } from './journal.js';
import { isProblem, type JournalProblem, problemFrom, problemOf } from './problem.js';
import type { AssumedBottle } from './state.js';

/**
 * The exchange format: UTF-8 text, one JSON value a line (LF).
 *
 *   line 1    {"format":"tankside-ledger","version":1,"entries":N,"assumed":[…]}
 *   then      {"seq","desk","source","upMs","bootId","event","facts"}   one line an entry, seq 1 to N in order
 *   last      {"end":true,"entries":N,"sha256":"…"}   over every line before it, each with its LF
 *
 * `assumed` lists the bottles taken for granted at the start: {"bottle","liquid","volumeMl","capacityMl"}.
 * `event` and `facts` are as in src/process/desk.ts and fact.ts; times are ms, volumes ml, temperatures °C, masses g.
 * Everything else in a journal is derived from these, so reading a file into an empty journal gives the same ledger.
 */
export const FORMAT = 'tankside-ledger';
export const FORMAT_VERSION = 1;

/** Writes the whole journal to a new file; a file that is already there is not touched. The number of entries. */
export function exportJournal(journal: Journal, path: string): number | JournalProblem {
  if (existsSync(path)) return problemOf('already-there', path, 'exists');
  const partial = `${path}.partial`;
  let file: number | undefined;
  try {
    file = openSync(partial, 'w');
    const out = file;
    const hash = createHash('sha256');
    const put = (value: unknown): void => {
      const line = `${JSON.stringify(value)}\n`;
      hash.update(line);
      writeSync(out, line);
    };
    put({ format: FORMAT, version: FORMAT_VERSION, entries: journal.lastSeq, assumed: journal.assumed });
    let count = 0;
    for (const entry of entriesWithFacts(journal)) {
      put(entry);
      count += 1;
    }
    writeSync(out, `${JSON.stringify({ end: true, entries: count, sha256: hash.digest('hex') })}\n`);
    fsyncSync(out);
    closeSync(out);
    file = undefined;
    renameSync(partial, path);
    return count;
  } catch (error) {
    if (file !== undefined) closeSync(file);
    rmSync(partial, { force: true });
    return problemFrom(error, path);
  }
}

export interface FileEntry extends Entry {
  facts: Fact[];
}

/** Looks at all entries of a file: the facts of each, or the first that cannot be taken and why. */
export type ImportCheck = (entries: readonly FileEntry[]) => Fact[][] | { seq: number; what: string };

function* entriesWithFacts(journal: Journal): Iterable<FileEntry> {
  for (const row of journal.rowsAfter(0)) yield { ...entryOf(row), facts: JSON.parse(row.facts) as Fact[] };
}

const assumedSchema = z.array(
  z.strictObject({
    bottle: z.int().min(1),
    liquid: z.string().min(1),
    volumeMl: z.number().min(0),
    capacityMl: z.number().min(0),
  }),
);
const head = z.object({
  format: z.literal(FORMAT),
  version: z.int(),
  entries: z.int().min(0),
  assumed: assumedSchema,
});
const tail = z.object({ end: z.literal(true), entries: z.int(), sha256: z.string() });
/** a hundred years, and the last moment that a calendar of JavaScript has */
const MOST_AT_MS = 3.2e12;
const MOST_WALL_MS = 8.64e15;

const entrySchema = z.object({
  seq: z.int().min(1),
  desk: z.enum(['run', 'mix', 'warm', 'bottles', 'timers']).nullable(),
  source: z.enum(['typed', 'voice', 'clock', 'command', 'import']),
  upMs: z.number().min(-MOST_AT_MS).max(MOST_AT_MS).nullable(),
  bootId: z.string().max(100).nullable(),
  event: z.looseObject({
    type: z.enum(['intent', 'time', 'fact']),
    atMs: z.number().min(0).max(MOST_AT_MS),
    wallMs: z.number().min(0).max(MOST_WALL_MS),
  }),
  facts: z.array(factSchema),
});

/**
 * Reads an exchange file. The whole file is checked before anything is written, and then written in one
 * transaction. A journal that already holds the beginning of the file gets the rest; any other is left alone.
 * The number of entries added.
 */
export async function importJournal(
  journal: Journal,
  path: string,
  checkOn?: (assumed: readonly AssumedBottle[]) => ImportCheck,
): Promise<number | JournalProblem> {
  const file = await readExchange(path);
  if (isProblem(file)) return file;
  const { assumed } = file;
  const checked = checkOn?.(assumed)(file.entries) ?? file.entries.map((e) => e.facts);
  if (!Array.isArray(checked))
    return {
      problem: 'bad-file',
      sentence: `${path}, entry ${checked.seq}: ${checked.what} Nothing was imported.`,
      detail: checked.what,
    };
  const entries = file.entries.map((entry, i) => ({ ...entry, facts: checked[i] ?? [] }));
  const have = journal.lastSeq;
  if (have === 0) {
    const problem = journal.assume(assumed);
    if (problem !== null) return problem;
  }
  const sameStart = JSON.stringify(journal.assumed) === JSON.stringify(assumed);
  if (have > entries.length || !sameStart || !sameBeginning(journal, entries))
    return {
      problem: 'already-there',
      sentence: `This journal already holds ${have} entries that are not in ${path}. Import into an empty folder with --data, or use restore.`,
      detail: 'not a continuation',
    };
  if (have === entries.length) return 0;
  const added = journal.append(entries.slice(have).map(newEntry));
  return isProblem(added) ? added : entries.length - have;
}

const newEntry = (entry: FileEntry): NewEntry => ({
  event: entry.event,
  source: entry.source,
  facts: entry.facts,
  bootId: entry.bootId,
  ...(entry.desk === null ? {} : { desk: entry.desk }),
  ...(entry.upMs === null ? {} : { upMs: entry.upMs }),
});

function sameBeginning(journal: Journal, entries: readonly FileEntry[]): boolean {
  for (const mine of entriesWithFacts(journal)) {
    const theirs = entries[mine.seq - 1];
    if (theirs === undefined || JSON.stringify(mine.event) !== JSON.stringify(theirs.event)) return false;
    if (JSON.stringify(mine.facts) !== JSON.stringify(theirs.facts)) return false;
  }
  return true;
}

interface Exchange {
  assumed: AssumedBottle[];
  entries: FileEntry[];
}

/** Reads and checks an exchange file; a problem names the line. */
export async function readExchange(path: string): Promise<Exchange | JournalProblem> {
  const bad = (line: number, what: string): JournalProblem => ({
    problem: 'bad-file',
    sentence: `${path}, line ${line}: ${what} Nothing was imported.`,
    detail: what,
  });
  const hash = createHash('sha256');
  const entries: FileEntry[] = [];
  let assumed: AssumedBottle[] = [];
  let number = 0;
  let ended = false;
  try {
    // a pipe might never open, nor end
    if (!statSync(path).isFile()) return problemOf('bad-file', path, 'no plain file');
    const lines = createInterface({
      input: createReadStream(path, 'utf8'),
      crlfDelay: Number.POSITIVE_INFINITY,
    });
    for await (const line of lines) {
      number += 1;
      if (line.length > limits.importLineChars || number > limits.importEntries)
        return bad(number, 'it is longer than any journal of ours.');
      if (ended) return bad(number, 'there is more after the end line.');
      const value = parse(line);
      if (value === undefined) return bad(number, 'this is not JSON; the file may be cut short.');
      if (number === 1) {
        const first = head.safeParse(value);
        if (!first.success)
          return bad(
            1,
            'this is not a tankside ledger file; it should begin with {"format":"tankside-ledger"…',
          );
        if (first.data.version > FORMAT_VERSION)
          return bad(
            1,
            `it was written by a newer tankside (format version ${first.data.version}); update this one.`,
          );
        assumed = first.data.assumed;
      } else if (tail.safeParse(value).success) {
        const end = tail.parse(value);
        if (end.entries !== entries.length)
          return bad(number, `the file should hold ${end.entries} entries, but has ${entries.length}.`);
        if (end.sha256 !== hash.digest('hex'))
          return bad(number, 'the checksum does not match; the file was changed or damaged.');
        ended = true;
        continue;
      } else {
        const entry = entrySchema.safeParse(value);
        if (!entry.success) return bad(number, `${firstIssue(entry.error)}.`);
        if (entry.data.seq !== entries.length + 1)
          return bad(number, `entry ${entries.length + 1} was expected, but this is ${entry.data.seq}.`);
        entries.push(value as FileEntry); // as it stands in the file, order of fields and all
      }
      hash.update(`${line}\n`);
    }
  } catch (error) {
    return problemFrom(error, path);
  }
  return ended
    ? { assumed, entries }
    : bad(Math.max(1, number), 'the end line is missing; the file is cut short.');
}

function parse(line: string): unknown {
  try {
    return JSON.parse(line) as unknown;
  } catch {
    return undefined;
  }
}

const firstIssue = (error: z.ZodError): string => {
  const issue = error.issues[0];
  return issue === undefined
    ? 'this entry is not understood'
    : `${issue.path.join('.') || 'entry'}: ${issue.message}`;
};
