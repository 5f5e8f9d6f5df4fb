import { copyFileSync, existsSync, realpathSync, rmSync, statSync } from 'node:fs';
import { dirname } from 'node:path';
import { DatabaseSync } from '@photostructure/sqlite';
import { carve } from './carve.js';
import { checkJournal } from './check.js';
import { makeFolderOf } from './folders.js';
import type { Journal } from './journal.js';
import { takeWriterLock } from './lock.js';
import { writeMark } from './mark.js';
import { isProblem, type JournalProblem, problemFrom, problemOf } from './problem.js';
import { moveAside, putInPlace, rebuild, rebuiltSentence } from './recover.js';
import { migrate, refuseForeign } from './schema.js';
import { readSecondCopy } from './second-copy.js';

/** Writes the journal as one file that `restore` takes; works while another tankside writes. Bytes written. */
export function backupJournal(journal: Journal, path: string): number | JournalProblem {
  if (existsSync(path)) return problemOf('already-there', path, 'exists');
  if (!existsSync(dirname(path))) return problemOf('missing', path, 'no such folder');
  const partial = `${path}.partial`;
  try {
    rmSync(partial, { force: true });
    journal.db.prepare('VACUUM INTO ?').run(partial);
    putInPlace(partial, path);
    return statSync(path).size;
  } catch (error) {
    rmSync(partial, { force: true });
    return problemFrom(error, path);
  }
}

export interface Restored {
  entries: number;
  /** where the journal that was there before now lies; null when there was none */
  movedAside: string | null;
}

function noPlainFile(path: string): JournalProblem | null {
  if (!existsSync(path)) return problemOf('missing', path, 'no such file');
  return statSync(path).isFile() ? null : problemOf('bad-file', path, 'no plain file');
}

/** Puts a backup (or a salvaged copy) in the journal's place. The one that was there is moved aside, never deleted. */
export function restoreJournal(from: string, journalPath: string): Restored | JournalProblem {
  const odd = noPlainFile(from);
  if (odd) return odd;
  const partial = `${journalPath}.restoring`;
  try {
    makeFolderOf(journalPath);
    const lock = takeWriterLock(journalPath);
    if (isProblem(lock)) return lock;
    try {
      copyFileSync(from, partial);
      const entries = countSound(partial, from);
      if (isProblem(entries)) {
        rmSync(partial, { force: true });
        return entries;
      }
      const movedAside = moveAside(journalPath, 'before-restore');
      putInPlace(partial, journalPath);
      writeMark(journalPath, { entries, wallMs: null });
      return { entries, movedAside };
    } finally {
      lock.release();
    }
  } catch (error) {
    rmSync(partial, { force: true });
    return problemFrom(error, journalPath);
  }
}

/** Puts what can be read of a harmed journal in the journal's place; both old ones are kept. What was done, in sentences. */
export function salvageJournal(from: string, journalPath: string): string | JournalProblem {
  const odd = noPlainFile(from);
  if (odd) return odd;
  try {
    makeFolderOf(journalPath);
    const lock = takeWriterLock(journalPath);
    if (isProblem(lock)) return lock;
    try {
      if (carve(from).rows.length === 0 && readSecondCopy(from).rows.length === 0)
        return problemOf('bad-file', from, 'no entry can be read');
      const same = realpathSync(from) === (existsSync(journalPath) ? realpathSync(journalPath) : journalPath);
      return rebuiltSentence(`I read ${from}.`, rebuild(journalPath, null, [], same ? journalPath : from));
    } finally {
      lock.release();
    }
  } catch (error) {
    return problemFrom(error, journalPath);
  }
}

/** Opens the copy, checks it whole, and folds its log in, so that one file is all there is. */
function countSound(partial: string, from: string): number | JournalProblem {
  const unfit = (detail: string): JournalProblem => ({
    problem: 'bad-file',
    sentence: `${from} is not a sound tankside backup (${detail}). Nothing was changed. To take in what can be read of it: tankside restore --salvage ${from}.`,
    detail,
  });
  try {
    const db = new DatabaseSync(partial);
    db.exec('PRAGMA trusted_schema = OFF; PRAGMA journal_mode = DELETE');
    const foreign = refuseForeign(db, from);
    if (foreign !== null) {
      db.close();
      return foreign;
    }
    migrate(db);
    db.exec('UPDATE sitting SET closed = 1');
    const report = checkJournal(db, from);
    const { n } = db.prepare('SELECT count(*) AS n FROM events').get() as { n: number };
    db.close();
    return report.sound ? n : unfit(report.findings[0] ?? 'damaged');
  } catch (error) {
    return unfit(error instanceof Error ? error.message : String(error));
  }
}

/** For `restore`: the sentence that says what was done. */
export const restoredSentence = (done: Restored): string =>
  `Restored ${done.entries} entries.${done.movedAside === null ? '' : ` The journal that was there is now ${done.movedAside}.`}`;
