import {
  copyFileSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  statSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { checkJournal } from '../../src/ledger/check.js';
import { JOURNAL_FILE, type Journal, openJournal } from '../../src/ledger/journal.js';
import { isProblem } from '../../src/ledger/problem.js';
import { entryFor } from './crash/scenario.js';

/**
 * What a power cut may leave of the log: any beginning of it, or a last part of rubbish. A kill alone never does
 * this, since the operating system still holds the pages. Entry k ended at byte `ends[k − 1]` of the log.
 */
let dir: string;
let live: Journal;
const ends: number[] = [];
let copies = 0;

const opened = (where: string): Journal => {
  const journal = openJournal(where);
  if (isProblem(journal)) throw new Error(journal.sentence);
  return journal;
};

beforeAll(() => {
  dir = mkdtempSync(join(tmpdir(), 'tankside-torn-'));
  live = opened(join(dir, 'live'));
  live.tidy();
  for (let seq = 1; seq <= 40; seq += 1) {
    live.append([entryFor(seq, seq * 1000, { wallMs: 1.77e12 + seq, upMs: seq, bootId: 'a' })]);
    ends.push(statSync(`${live.path}-wal`).size);
  }
});
afterAll(() => {
  live.close();
  rmSync(dir, { recursive: true, force: true });
});

/** A copy of the live files with the log changed; what a start makes of it. */
function startAfter(change: (log: string) => void): { entries: number; lastSeq: number; findings: string[] } {
  copies += 1;
  const where = join(dir, `copy-${copies}`);
  mkdirSync(where);
  const path = join(where, JOURNAL_FILE);
  copyFileSync(live.path, path);
  copyFileSync(`${live.path}-wal`, `${path}-wal`);
  change(`${path}-wal`);
  const journal = opened(where);
  const { findings } = checkJournal(journal.db, path);
  const { lastSeq } = journal;
  const entries = Number(journal.db.prepare('SELECT count(*) AS n FROM events').get()?.n);
  journal.close();
  rmSync(where, { recursive: true, force: true });
  return { entries, lastSeq, findings };
}

describe('a log that was cut by a power failure', () => {
  it('gives every entry that was whole on the disk, and of the torn end at most one whose row was whole already', () => {
    const bytes = ends.at(-1) ?? 0;
    fc.assert(
      fc.property(fc.integer({ min: ends[0] ?? 0, max: bytes }), (length) => {
        const { lastSeq, findings } = startAfter((log) => truncateSync(log, length));
        expect(findings).toEqual([]);
        const written = ends.filter((end) => end <= length).length;
        expect(lastSeq).toBeGreaterThanOrEqual(written);
        expect(lastSeq).toBeLessThanOrEqual(written + 1);
      }),
      { numRuns: 40 },
    );
  });

  it('is read past a bad byte: no entry is lost but the one that it stands in', () => {
    fc.assert(
      fc.property(fc.integer({ min: ends[0] ?? 0, max: (ends.at(-1) ?? 1) - 1 }), (at) => {
        const { entries, lastSeq, findings } = startAfter((log) => {
          const bytes = readFileSync(log);
          bytes[at] = (bytes[at] ?? 0) ^ 0xff;
          writeFileSync(log, bytes);
        });
        expect(findings).toEqual([]);
        const harmed = ends.filter((end) => end <= at).length + 1;
        expect(lastSeq).toBeGreaterThanOrEqual(harmed === ends.length ? harmed - 1 : ends.length);
        expect(entries).toBeGreaterThanOrEqual(ends.length - 1);
      }),
      { numRuns: 30 },
    );
  });
});
