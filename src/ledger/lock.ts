import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { type DatabaseSyncInstance as Database, DatabaseSync } from '@photostructure/sqlite';
import { type JournalProblem, problemFrom, problemOf } from './problem.js';

export interface WriterLock {
  release(): void;
}

/**
 * Makes this process the only writer of `path`. The lock is an exclusive SQLite lock on a neighbouring empty
 * file, that is, the operating system's own file lock: it works alike on Linux, macOS and Windows, goes away
 * with the process however it ends (no stale lock after a power cut), and leaves the journal itself open to readers.
 */
export function takeWriterLock(path: string): WriterLock | JournalProblem {
  const lockPath = `${path}.lock`;
  const notePath = `${path}.pid`;
  let db: Database | undefined;
  try {
    db = new DatabaseSync(lockPath, { timeout: 0 });
    db.exec('PRAGMA journal_mode = MEMORY; BEGIN EXCLUSIVE');
  } catch (error) {
    db?.close();
    const problem = problemFrom(error, path);
    if (problem.problem !== 'in-use') return problem;
    const holder = readNote(notePath);
    return holder === null
      ? problem
      : {
          ...problemOf('in-use', path, `held by process ${holder}`),
          sentence: `Another tankside (process ${holder}) is already writing to ${path}. Go on in that window, or close it and start again.`,
        };
  }
  writeNote(notePath);
  const held = db;
  return {
    release() {
      try {
        rmSync(notePath, { force: true });
      } catch {
        // the next start makes it anew
      }
      held.close();
    },
  };
}

/** The note only makes the sentence friendlier; the lock never depends on it. */
function writeNote(path: string): void {
  try {
    rmSync(path, { force: true });
    // made anew, so that nothing is written through a link
    writeFileSync(path, String(process.pid), { flag: 'wx', mode: 0o600 });
  } catch {
    // no room for a nicety
  }
}

function readNote(path: string): number | null {
  try {
    const pid = Number.parseInt(readFileSync(path, 'utf8'), 10);
    return Number.isInteger(pid) ? pid : null;
  } catch {
    return null;
  }
}
