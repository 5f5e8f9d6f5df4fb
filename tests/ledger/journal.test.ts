import { execFileSync } from 'node:child_process';
import {
  cpSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  symlinkSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DatabaseSync } from '@photostructure/sqlite';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { restoreJournal, salvageJournal } from '../../src/ledger/backup.js';
import { checkJournal } from '../../src/ledger/check.js';
import type { NewEntry } from '../../src/ledger/entry.js';
import { readExchange } from '../../src/ledger/exchange.js';
import { type Journal, openJournal } from '../../src/ledger/journal.js';
import { isProblem, type JournalProblem } from '../../src/ledger/problem.js';
import { SCHEMA_VERSION, schemaVersion } from '../../src/ledger/schema.js';
import { openWav } from '../../src/speech/wav.js';
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

const objectsIn = (journal: Journal): unknown[] =>
  journal.db.prepare('SELECT name FROM sqlite_schema ORDER BY name').all();

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

  it('makes a damaged file anew from all that is readable, keeps the old one, and says what is lost', () => {
    const journal = opened(dir);
    for (let i = 1; i <= 500; i += 1) journal.append([entry(i, setBottle(1, 'stop', i))]);
    const { path } = journal;
    journal.close();
    const bytes = readFileSync(path);
    bytes.fill(0x5a, 4096 * 8, 4096 * 12);
    bytes.write('damaged', 0);
    writeFileSync(path, bytes);

    expect(refused(dir, { readOnly: true }).problem).toBe('damaged');
    const again = opened(dir);
    const [note = ''] = again.takeNotes();
    expect(again.lastSeq).toBe(500);
    expect(note).toMatch(/damaged.*all 500 entries are back, nothing is missing/);
    expect(again.bottle(1)?.contents.volumeMl).toBe(500);
    expect(checkJournal(again.db, again.path).findings).toEqual([]);
    again.close();
    const kept = /kept as (.*)\.$/.exec(note)?.[1] ?? '';
    expect(readFileSync(kept).equals(bytes)).toBe(true);
  });

  it('says what is lost, and when it was, where neither file has it', () => {
    const journal = opened(dir);
    for (let i = 1; i <= 300; i += 1) journal.append([entry(i, setBottle(1, 'stop', i))]);
    const { path } = journal;
    journal.close();
    rmSync(join(dir, 'second-copy'), { recursive: true });
    const bytes = readFileSync(path);
    for (let at = bytes.indexOf('"volumeMl":150,'); at >= 0; at = bytes.indexOf('"volumeMl":150,', at))
      bytes.fill(0, at, at + 8);
    writeFileSync(path, bytes);
    const again = opened(dir);
    expect(again.lastSeq).toBe(299);
    expect(again.takeNotes()[0]).toMatch(
      /299 entries are back\. Lost: 1 entry between .* check what is in the tank/,
    );
    again.close();
    const later = opened(dir);
    expect(later.takeNotes()).toEqual([]);
    later.close();
  });

  it.each(['deleted', 'deleted with its folder', 'renamed', 'cut', 'replaced'])(
    'notices at once that its file was %s, and puts it back',
    (how) => {
      const journal = opened(dir);
      for (let i = 1; i <= 20; i += 1) journal.append([entry(i, setBottle(1, 'stop', i))]);
      const { path } = journal;
      if (how === 'deleted') for (const s of ['', '-wal', '-shm']) rmSync(`${path}${s}`);
      if (how === 'deleted with its folder') rmSync(dir, { recursive: true });
      if (how === 'renamed') renameSync(path, `${path}.elsewhere`);
      if (how === 'cut') truncateSync(path, 4096);
      if (how === 'replaced') {
        writeFileSync(`${path}.new`, 'something else');
        renameSync(`${path}.new`, path);
      }
      expect(journal.append([entry(21, setBottle(1, 'stop', 21))])).toBe(21);
      expect(journal.takeNotes().join(' ')).toMatch(/while I was writing/);
      journal.append([entry(22, setBottle(1, 'stop', 22))]);
      journal.close();
      const again = opened(dir);
      expect(again.lastSeq).toBe(22);
      expect(again.takeNotes()).toEqual([]);
      expect(checkJournal(again.db, path).findings).toEqual([]);
      again.close();
    },
  );

  it('comes back from the second copy when the journal or its log is gone', () => {
    const journal = opened(dir);
    for (let i = 1; i <= 30; i += 1) journal.append([entry(i, setBottle(1, 'stop', i))]);
    const left = `${dir}-left`;
    cpSync(dir, left, { recursive: true });
    journal.close();
    rmSync(join(left, 'tankside.journal-wal'));
    rmSync(join(left, 'tankside.journal-shm'), { force: true });
    const bridged = opened(left);
    expect(bridged.lastSeq).toBe(30);
    expect(bridged.takeNotes()[0]).toMatch(/log was lost. 30 entries are back from .*the second copy/);
    bridged.close();
    rmSync(join(left, 'tankside.journal'));
    const made = opened(left);
    expect(made.lastSeq).toBe(30);
    expect(made.takeNotes()[0]).toMatch(/was gone.*all 30 entries are back/);
    made.close();
  });

  it('says so when the log and the second copy are both gone', () => {
    const journal = opened(dir);
    journal.append([entry(1)]);
    journal.tidy();
    journal.append([entry(2)]);
    const left = `${dir}-left`;
    cpSync(dir, left, { recursive: true });
    journal.close();
    for (const gone of ['tankside.journal-wal', 'tankside.journal-shm', 'second-copy'])
      rmSync(join(left, gone), { recursive: true, force: true });
    const again = opened(left);
    expect(again.lastSeq).toBe(1);
    expect(again.takeNotes()[0]).toMatch(
      /log may be gone and so is the second copy.*Check what is in the tank/,
    );
    again.close();
  });

  it.each([
    ['gone', ['.journal', '.journal-wal', '.journal-shm']],
    [
      'gone, and so is the note of how far it came',
      ['.journal', '.journal-wal', '.journal-shm', '.journal.mark'],
    ],
  ])('says so when all that can be read is %s, and begins anew', (_what, gone) => {
    const journal = opened(dir);
    expect(journal.takeNotes()).toEqual([]);
    journal.append([entry(1), entry(2)]);
    journal.close();
    for (const file of gone) rmSync(join(dir, `tankside${file}`), { force: true });
    rmSync(join(dir, 'second-copy'), { recursive: true });
    const again = opened(dir);
    expect(again.takeNotes().join()).toMatch(/gone. Nothing in it can be read, so I begin a new one/);
    expect(again.append([entry(3)])).toBe(1);
    again.close();
    const third = opened(dir);
    expect(third.takeNotes()).toEqual([]);
    third.close();
  });

  it('begins anew beside a file of which nothing can be read, keeps it, and says how many entries are lost', () => {
    const journal = opened(dir);
    journal.append([entry(1), entry(2)]);
    journal.close();
    writeFileSync(join(dir, 'tankside.journal'), 'rubbish '.repeat(2_000));
    rmSync(join(dir, 'second-copy'), { recursive: true });
    const again = opened(dir);
    expect(again.lastSeq).toBe(0);
    expect(again.takeNotes().join()).toMatch(
      /begin a new one\. Lost: 2 entries before \d.*kept as .*tankside-damaged/,
    );
    again.close();
  });

  it('says so when an older state of the file was put in its place', () => {
    const journal = opened(dir);
    journal.append([entry(1)]);
    journal.close();
    const old = readFileSync(join(dir, 'tankside.journal'));
    const later = opened(dir);
    later.append([entry(2), entry(3)]);
    later.close();
    writeFileSync(join(dir, 'tankside.journal'), old);
    rmSync(join(dir, 'second-copy'), { recursive: true });
    const again = opened(dir);
    expect(again.takeNotes().join()).toMatch(/Lost: 2 entries between/);
    again.close();
  });

  it.each([
    'CREATE TRIGGER t AFTER INSERT ON events BEGIN DELETE FROM bottles; END',
    'CREATE VIEW v AS SELECT 1',
    'CREATE TABLE other (a)',
  ])('takes the entries of a file with objects that are not ours, and not the objects: %s', (sql) => {
    const journal = opened(dir);
    journal.append([entry(1)]);
    const known = objectsIn(journal);
    journal.db.exec(sql);
    const { path } = journal;
    journal.close();
    expect(refused(path, { readOnly: true }).problem).toBe('damaged');
    const anew = opened(path);
    expect(anew.takeNotes().join()).toMatch(/damaged.*1 entry is back, nothing is missing.*is kept as/);
    expect(objectsIn(anew)).toEqual(known);
    anew.close();
  });

  it.each([
    ['application id', 71],
    ['schema version, far ahead', 60],
    ['schema version, a little ahead', 63],
    ['format that may be written', 18],
  ])('knows its own entries in a file whose %s was harmed, with nothing else left', (_what, at) => {
    const journal = opened(dir);
    journal.append([entry(1), entry(2)]);
    const { path } = journal;
    journal.close();
    const bytes = readFileSync(path);
    bytes[at] = (bytes[at] ?? 0) ^ 4;
    const alone = join(dir, 'alone', 'tankside.journal');
    mkdirSync(join(dir, 'alone'));
    writeFileSync(alone, bytes);
    const again = opened(alone);
    expect(again.lastSeq).toBe(2);
    expect(again.takeNotes().join()).toMatch(/2 entries are back/);
    again.close();
  });

  it.skipIf(process.platform === 'win32')(
    'takes no pipe for a file, and makes none through a link to nowhere',
    async () => {
      const pipe = join(dir, 'pipe');
      execFileSync('mkfifo', [pipe]);
      expect(restoreJournal(pipe, join(dir, 'tankside.journal'))).toMatchObject({ problem: 'bad-file' });
      expect(salvageJournal(pipe, join(dir, 'tankside.journal'))).toMatchObject({ problem: 'bad-file' });
      expect(await readExchange(pipe)).toMatchObject({ problem: 'bad-file' });
      expect(await openWav(pipe)).toMatchObject({ problem: expect.stringContaining('is no file') });
      execFileSync('mkfifo', [join(dir, 'tankside.journal')]);
      expect(refused(dir).problem).toBe('bad-file');
      rmSync(join(dir, 'tankside.journal'));
      symlinkSync(join(dir, 'nowhere'), join(dir, 'tankside.journal'));
      expect(refused(dir).problem).toBe('is-link');
    },
  );

  it('leaves a foreign database as it was, to the byte', () => {
    const path = join(dir, 'tankside.journal');
    const other = new DatabaseSync(path);
    other.exec('CREATE TABLE notes (a); INSERT INTO notes VALUES (1)');
    other.close();
    const before = readFileSync(path);
    expect(refused(path).sentence).toMatch(/left it alone\. Move it away/);
    expect(readFileSync(path)).toEqual(before);
  });

  it('keeps its files to their owner and follows no link', () => {
    writeFileSync(join(dir, 'other'), 'not ours');
    symlinkSync(join(dir, 'other'), join(dir, 'tankside.journal.pid'));
    const journal = opened(dir);
    journal.append([entry(1)]);
    for (const file of ['', '-wal', '-shm', '.lock', '.pid'])
      expect(statSync(join(dir, `tankside.journal${file}`)).mode & 0o077).toBe(0);
    expect(statSync(join(dir, 'second-copy')).mode & 0o077).toBe(0);
    expect(readFileSync(join(dir, 'other'), 'utf8')).toBe('not ours');
    journal.close();
    const linked = join(dir, 'linked');
    mkdirSync(linked);
    symlinkSync(journal.path, join(linked, 'tankside.journal'));
    expect(refused(linked).sentence).toMatch(/is a link, and I follow none/);
  });

  it('will not touch one from a newer version, and takes in what it can read when told to', () => {
    const journal = opened(dir);
    const { path } = journal;
    journal.append([entry(1), entry(2)]);
    journal.db.exec('CREATE TABLE newer (a); PRAGMA user_version = 4');
    journal.close();
    expect(refused(path)).toMatchObject({
      problem: 'newer-version',
      sentence: expect.stringContaining(`tankside restore --salvage ${path}`),
    });
    expect(salvageJournal(path, path)).toMatch(/2 entries are back, nothing is missing.*is kept as/);
    const again = opened(path);
    expect(again.lastSeq).toBe(2);
    again.close();
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
