import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { checkJournal } from '../../src/ledger/check.js';
import type { NewEntry } from '../../src/ledger/entry.js';
import { type Journal, openJournal } from '../../src/ledger/journal.js';
import { isProblem, type JournalProblem } from '../../src/ledger/problem.js';
import { SCHEMA_VERSION, schemaVersion } from '../../src/ledger/schema.js';
import type { Fact } from '../../src/world/fact.js';

let dir: string;
beforeEach(() => {
  dir = mkdtempSync(join(tmpdir(), 'tankside-journal-'));
});
afterEach(() => rmSync(dir, { recursive: true, force: true }));

const opened = (where: string, options = {}): Journal => {
  const journal = openJournal(where, options);
  if (isProblem(journal)) throw new Error(journal.sentence);
  return journal;
};

const refused = (where: string, options = {}): JournalProblem => {
  const journal = openJournal(where, options);
  if (!isProblem(journal)) throw new Error('expected a problem');
  return journal;
};

const entry = (atMs: number, ...facts: Fact[]): NewEntry => ({
  event: { type: 'time', atMs, wallMs: 1_700_000_000_000 + atMs },
  source: 'clock',
  facts,
  upMs: 5_000 + atMs,
  bootId: 'boot-a',
});

const setBottle = (bottle: number, liquid: string, volumeMl: number): Fact => ({
  type: 'bottle-set',
  bottle,
  liquid,
  volumeMl,
  capacityMl: 1000,
});

describe('journal', () => {
  it('gives back what was appended, after a reopen, with facts folded into bottles', () => {
    const first = opened(dir);
    expect(first.append([entry(1, setBottle(3, 'fixer', 800)), entry(2)])).toBe(2);
    expect(first.append([entry(3, setBottle(4, 'developer', 1000))])).toBe(3);
    first.close();

    const again = opened(dir);
    expect([...again.entriesAfter(0)].map((e) => e.seq)).toEqual([1, 2, 3]);
    expect([...again.entriesAfter(2)][0]?.event).toEqual(entry(3).event);
    expect(again.lastSeq).toBe(3);
    expect(again.lastMoment).toEqual({ atMs: 3, wallMs: 1_700_000_000_003, upMs: 5_003, bootId: 'boot-a' });
    expect(again.bottle(3)?.contents.volumeMl).toBe(800);
    expect(again.bottles().map((b) => b.number)).toEqual([3, 4]);
    expect(again.ledger.bench.bottles[4]?.liquid).toBe('developer');
    expect(again.bottleHistory(3)).toHaveLength(1);
    again.close();
  });

  it('keeps the newest snapshot of its own state version and passes over others', () => {
    const journal = opened(dir, { stateVersion: 'a' });
    journal.append([entry(1), entry(2)]);
    expect(journal.latestSnapshot()).toBeNull();
    expect(journal.saveSnapshot({ seq: 2, states: { run: { step: 4 } } })).toBeNull();
    expect(journal.latestSnapshot()).toEqual({ seq: 2, states: { run: { step: 4 } } });
    journal.close();
    const newer = opened(dir, { stateVersion: 'b' });
    expect(newer.latestSnapshot()).toBeNull();
    newer.close();
  });

  it('refuses a second writer by name, and lets a reader in', () => {
    const writer = opened(dir);
    writer.append([entry(1, setBottle(1, 'stop', 500))]);
    const second = refused(dir);
    expect(second.problem).toBe('in-use');
    expect(second.sentence).toContain(`process ${process.pid}`);
    const reader = opened(dir, { readOnly: true });
    expect(reader.bottle(1)?.liquid).toBe('stop');
    const answer = reader.append([entry(2)]);
    expect(isProblem(answer) && answer.problem).toBe('read-only');
    reader.close();
    writer.close();
    opened(dir).close();
  });

  it('leaves a damaged file untouched and copies what it can read', () => {
    const journal = opened(dir);
    for (let i = 1; i <= 500; i += 1) journal.append([entry(i, setBottle(1, 'stop', i))]);
    const { path } = journal;
    journal.close();
    const bytes = readFileSync(path);
    bytes.fill(0x5a, 4096 * 8, 4096 * 12);
    bytes.write('damaged', 0);
    writeFileSync(path, bytes);
    const size = statSync(path).size;

    const problem = refused(dir);
    expect(problem.problem).toBe('damaged');
    expect(problem.salvagedEvents).toBeGreaterThan(300);
    expect(readFileSync(path).equals(bytes)).toBe(true);
    expect(statSync(path).size).toBe(size);
    const saved = opened(problem.salvagedTo as string);
    expect(saved.lastSeq).toBe(problem.salvagedEvents);
    saved.close();
    expect(refused(dir).salvagedTo).toBe(problem.salvagedTo);
  });

  it('will not touch a foreign database or one from a newer version', () => {
    const journal = opened(dir);
    const { path } = journal;
    journal.db.exec('PRAGMA user_version = 99');
    journal.close();
    expect(refused(path).problem).toBe('newer-version');
  });

  it('keeps what was taken for granted at the start, and goes by it ever after', () => {
    const assumed = [{ bottle: 1, liquid: 'prebath', volumeMl: 900, capacityMl: 1000 }];
    const first = opened(dir, { assumed });
    expect(first.bottle(1)).toMatchObject({ assumed: true, contents: { volumeMl: 900 } });
    const pour: Fact = {
      type: 'poured',
      from: { kind: 'bottle', number: 1 },
      to: { kind: 'sink' },
      liquid: 'prebath',
      volumeMl: 100,
      overridden: false,
    };
    first.append([entry(1, pour)]);
    first.close();
    const later = opened(dir, { assumed: [{ bottle: 7, liquid: 'stop', volumeMl: 500, capacityMl: 500 }] });
    expect(later.assumed).toEqual(assumed);
    expect(later.bottles()).toMatchObject([{ number: 1, contents: { volumeMl: 800 } }]);
    expect(checkJournal(later.db, later.path).findings).toEqual([]);
    expect(isProblem(later.assume([])) && 'refused').toBe('refused');
    later.close();
  });

  it('brings a journal of the first version up to date without losing an entry', () => {
    const old = opened(dir);
    old.append([entry(1, setBottle(1, 'stop', 400))]);
    old.db.exec('DROP TABLE ledger_start; PRAGMA user_version = 1');
    const { path } = old;
    old.close();
    expect(refused(path, { readOnly: true }).sentence).toMatch(/older tankside\. Start tankside run once/);
    const now = opened(path);
    expect(schemaVersion(now.db)).toBe(SCHEMA_VERSION);
    expect(now.bottle(1)?.contents.volumeMl).toBe(400);
    expect(checkJournal(now.db, path).findings).toEqual([]);
    now.close();
  });
});
