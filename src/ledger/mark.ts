import { existsSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';

/**
 * A note beside the journal of how far it has come. It tells a folder in which nothing was ever written from one
 * whose files are all gone or unreadable, and how much of a journal is missing when nothing else tells.
 */
export interface Mark {
  /** at least so many entries were in the journal; null: a journal was here, but the note cannot be read */
  entries: number | null;
  /** the last of them, or when the journal began, on the calendar, ms; null: not known */
  wallMs: number | null;
}

const markPath = (journalPath: string): string => `${journalPath}.mark`;

/** Dates end there, ms from 1970. */
const farMs = 8.64e15;

/** Null: no journal was ever begun here. A note that cannot be read still says that one was. */
export function readMark(journalPath: string): Mark | null {
  try {
    const { entries, wallMs } = JSON.parse(readFileSync(markPath(journalPath), 'utf8')) as Partial<Mark>;
    if (typeof entries === 'number' && Number.isSafeInteger(entries) && entries >= 0)
      return { entries, wallMs: typeof wallMs === 'number' && Math.abs(wallMs) < farMs ? wallMs : null };
  } catch (error) {
    // the lock is made after the mark, so that one without the other has lost it
    if ((error as NodeJS.ErrnoException).code === 'ENOENT' && !existsSync(`${journalPath}.lock`)) return null;
  }
  return { entries: null, wallMs: null };
}

/** Whole or not at all; where it cannot be written the journal goes on without. */
export function writeMark(journalPath: string, mark: Mark): void {
  const path = markPath(journalPath);
  try {
    rmSync(`${path}.new`, { force: true });
    // made anew, so that nothing is written through a link
    writeFileSync(`${path}.new`, JSON.stringify(mark), { flag: 'wx', mode: 0o600 });
    renameSync(`${path}.new`, path);
  } catch {
    // an older note, or none
  }
}
