import { existsSync } from 'node:fs';
import { dirname } from 'node:path';

/** Why the journal cannot do what was asked, as a value. `sentence` can be shown or spoken as it is. */
export interface JournalProblem {
  problem: ProblemKind;
  /** what was wrong, what was expected, what to do now */
  sentence: string;
  /** the technical cause, for `tankside doctor` and bug reports */
  detail: string;
}

export type ProblemKind =
  | 'in-use'
  | 'disk-full'
  | 'read-only'
  | 'damaged'
  | 'newer-version'
  | 'older-version'
  | 'not-a-journal'
  | 'missing'
  | 'already-there'
  | 'bad-file'
  | 'bad-entry'
  | 'is-link'
  | 'closed'
  | 'disk-error';

export const isProblem = (value: unknown): value is JournalProblem =>
  typeof value === 'object' && value !== null && 'problem' in value && 'sentence' in value;

/** Sentences per cause; `path` is the file meant. */
const sentences: Partial<Record<ProblemKind, (path: string) => string>> = {
  'in-use': (path) =>
    `Another tankside is already writing to ${path}. Go on in that window, or close it and start again.`,
  'disk-full': (path) =>
    `The disk that holds ${path} is full, so this was not written down. Nothing before it is lost. Free some space and say it again.`,
  'read-only': (path) =>
    `${path} cannot be written: the disk or the folder is read-only. Choose another folder with --data, or change its permissions. It can still be read.`,
  damaged: (path) =>
    `The journal ${path} is damaged. Start tankside run: it makes it anew from all that can be read, and keeps the old file. If that fails: tankside restore FILE.`,
  'is-link': (path) =>
    `${path} is a link, and I follow none. Put the journal itself there, or choose its folder with --data.`,
  'newer-version': (path) =>
    `${path} was written by a newer tankside. Update this one; I will not touch the file until then. If no newer one was ever used here, the file is harmed: tankside restore --salvage ${path} takes in what can be read.`,
  'older-version': (path) =>
    `${path} was written by an older tankside. Start tankside run once: it brings the file up to date.`,
  'not-a-journal': (path) =>
    `${path} is a database, but not a tankside journal. I have left it alone. Move it away, or choose another folder with --data.`,
  missing: (path) =>
    existsSync(dirname(path))
      ? `There is no file at ${path}. Check the name and try again.`
      : `There is no folder ${dirname(path)}. Check the name, make it, or choose another place.`,
  'already-there': (path) => `${path} is already there and I do not overwrite files. Choose another name.`,
  'disk-error': (path) =>
    `The disk did not take the last entry for ${path}, so it was not written down. Check the disk, then say it again.`,
  'bad-file': (path) => `${path} is not a file I can use. Check the name and try again.`,
  closed: (path) => `The journal ${path} is closed; nothing more can be written to it.`,
};

export const problemOf = (problem: ProblemKind, path: string, detail: string): JournalProblem => ({
  problem,
  sentence: sentences[problem]?.(path) ?? detail,
  detail,
});

/** SQLite primary result codes (https://www.sqlite.org/rescode.html) to our causes. */
const byResultCode: Record<number, ProblemKind> = {
  5: 'in-use', // SQLITE_BUSY
  6: 'in-use', // SQLITE_LOCKED
  8: 'read-only', // SQLITE_READONLY
  10: 'disk-error', // SQLITE_IOERR
  11: 'damaged', // SQLITE_CORRUPT
  13: 'disk-full', // SQLITE_FULL
  14: 'read-only', // SQLITE_CANTOPEN: the folder refuses new files
  26: 'damaged', // SQLITE_NOTADB
};

/** Numbers of the system errors that SQLite passes on, the same on Linux and macOS unless said. */
const bySystemErrno: Record<number, ProblemKind> = {
  27: 'disk-full', // EFBIG: the size limit of a process or file system
  28: 'disk-full', // ENOSPC
  69: 'disk-full', // EDQUOT, macOS
  122: 'disk-full', // EDQUOT, Linux
  30: 'read-only', // EROFS
};

const byErrno: Record<string, ProblemKind> = {
  ENOSPC: 'disk-full',
  EDQUOT: 'disk-full',
  EFBIG: 'disk-full',
  EROFS: 'read-only',
  EACCES: 'read-only',
  EPERM: 'read-only',
  ENOENT: 'missing',
  EEXIST: 'already-there',
  ENOTDIR: 'missing',
  EISDIR: 'bad-file',
};

/** Turns a thrown SQLite or file-system error into a problem; rethrows what is a defect of ours. */
export function problemFrom(error: unknown, path: string): JournalProblem {
  if (!(error instanceof Error)) throw error;
  const { sqliteCode, systemErrno, code } = error as Error & {
    sqliteCode?: number;
    systemErrno?: number;
    code?: string;
  };
  const kind =
    (sqliteCode === undefined || systemErrno === undefined ? undefined : bySystemErrno[systemErrno]) ??
    // the low byte is the primary code, the rest says where
    (sqliteCode === undefined ? undefined : byResultCode[sqliteCode & 0xff]) ??
    (code === undefined ? undefined : byErrno[code]) ??
    // no number of ours is beyond 2^53: a row's own types were harmed
    // and the tables' own description names columns that we do not
    (/too large to be represented|no such (?:table|column)|has no column named|already exists|unsupported file format/.test(
      error.message,
    )
      ? 'damaged'
      : undefined);
  if (kind === undefined) throw error;
  return problemOf(kind, path, error.message);
}

const why: Partial<Record<ProblemKind, string>> = {
  'disk-full': 'The disk is full',
  'read-only': 'The journal cannot be written now',
  missing: 'The journal was taken away',
  damaged: 'The journal is damaged',
  'in-use': 'Another program holds the journal',
};
const because = (p: JournalProblem): string => why[p.problem] ?? 'The disk does not answer';

/** Said once when entries begin to wait; `inReserve`: the second copy has them. */
export const unwrittenSentence = (p: JournalProblem, inReserve: boolean): string =>
  `${because(p)}: what you say now ${inReserve ? 'goes into a small reserve' : 'is only in my memory'} until I can write it. Calls go on.${p.problem === 'disk-full' ? ' Free some space.' : ''}`;

/** Said at the end, when they still wait. */
export const lostSentence = (p: JournalProblem, entries: number, inReserve: boolean): string => {
  const [last, are] = entries === 1 ? ['the last entry', 'is'] : [`the last ${entries} entries`, 'are'];
  return inReserve
    ? `${because(p)}: ${last} ${are} in the reserve, and the next start takes ${entries === 1 ? 'it' : 'them'} up.`
    : `${because(p)}: ${last} could not be written and ${are} lost.`;
};

/** Said when all that waited is on the disk. */
export const caughtUpSentence = 'The disk takes entries again. All that waited is written down.';
