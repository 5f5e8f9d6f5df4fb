import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { backupJournal, restoreJournal } from '../../src/ledger/backup.js';
import { checkJournal } from '../../src/ledger/check.js';
import { exportJournal, importJournal } from '../../src/ledger/exchange.js';
import { type Journal, openJournal } from '../../src/ledger/journal.js';
import { isProblem, type JournalProblem } from '../../src/ledger/problem.js';
import { runsCsv } from '../../src/ledger/run-export.js';
import type { Fact } from '../../src/world/fact.js';
import { history } from './arbitraries.js';

let dir: string;
beforeEach(() => {
  dir = mkdtempSync(join(tmpdir(), 'tankside-exchange-'));
});
afterEach(() => rmSync(dir, { recursive: true, force: true }));

function opened(name: string): Journal {
  const journal = openJournal(join(dir, name));
  if (isProblem(journal)) throw new Error(journal.sentence);
  return journal;
}
const problem = (value: unknown): JournalProblem => {
  if (!isProblem(value)) throw new Error(`expected a problem, got ${JSON.stringify(value)}`);
  return value;
};

function fill(journal: Journal, facts: readonly Fact[]): void {
  facts.forEach((fact, i) => {
    journal.append([
      {
        event: {
          type: 'intent',
          intent: { type: 'note', text: `“ü”, line\nbreak ${i}` },
          atMs: i + 0.25,
          wallMs: 1_770_000_000_000 + i,
          heard: { by: 'voice', words: 'take a note', confidence: 0.93, close: [] },
        },
        desk: 'run',
        source: 'voice',
        facts: [fact],
        upMs: 1000 + i,
        bootId: i % 2 === 0 ? 'boot-a' : null,
      },
    ]);
  });
}

const sample: Fact[] = [
  { type: 'bottle-set', bottle: 1, liquid: 'developer', volumeMl: 900, capacityMl: 1000 },
  {
    type: 'run-started',
    runId: 'r1',
    sheetId: 'ecn2',
    tankMl: 600,
    films: [{ stock: 'Night "50", test', format: '16mm', lengthM: 3 }],
  },
  {
    type: 'poured',
    runId: 'r1',
    from: { kind: 'bottle', number: 1 },
    to: { kind: 'tank' },
    liquid: 'developer',
    volumeMl: 600,
    overridden: false,
  },
  { type: 'deviation', runId: 'r1', stepId: 'developer', what: '20 s too long' },
  { type: 'run-finished', runId: 'r1', complete: true },
];

describe('export and import', () => {
  it('bring back every entry and the same ledger, byte for byte', async () => {
    await fc.assert(
      fc.asyncProperty(history, async (facts) => {
        const from = opened('a');
        const to = opened('b');
        from.assume([{ bottle: 2, liquid: 'fixer', volumeMl: 700, capacityMl: 1000 }]);
        fill(from, facts);
        expect(exportJournal(from, join(dir, 'one.txt'))).toBe(facts.length);
        expect(await importJournal(to, join(dir, 'one.txt'))).toBe(facts.length);
        exportJournal(to, join(dir, 'two.txt'));
        expect(readFileSync(join(dir, 'two.txt'), 'utf8')).toBe(readFileSync(join(dir, 'one.txt'), 'utf8'));
        expect(to.ledger.bench).toEqual(from.ledger.bench);
        expect(to.bottles()).toEqual(from.bottles());
        expect(to.runs()).toEqual(from.runs());
        from.close();
        to.close();
        for (const name of ['a', 'b', 'one.txt', 'two.txt'])
          rmSync(join(dir, name), { recursive: true, force: true });
      }),
      { numRuns: 12 },
    );
  });

  it('adds only what is missing, and refuses a journal of another history', async () => {
    const from = opened('a');
    fill(from, sample);
    exportJournal(from, join(dir, 'all.txt'));
    const part = opened('b');
    fill(part, sample.slice(0, 2));
    expect(await importJournal(part, join(dir, 'all.txt'))).toBe(3);
    expect(await importJournal(part, join(dir, 'all.txt'))).toBe(0);
    const other = opened('c');
    fill(other, sample.slice(1, 2));
    const refusal = problem(await importJournal(other, join(dir, 'all.txt')));
    expect(refusal.sentence).toContain('already holds 1 entries that are not in');
    expect(other.lastSeq).toBe(1);
    for (const journal of [from, part, other]) journal.close();
  });

  it('names the line of a bad file and imports nothing', async () => {
    const from = opened('a');
    fill(from, sample);
    const path = join(dir, 'all.txt');
    exportJournal(from, path);
    from.close();
    const text = readFileSync(path, 'utf8');
    const lines = text.split('\n');
    const to = opened('b');
    const tried = async (changed: string): Promise<string> => {
      writeFileSync(path, changed);
      return problem(await importJournal(to, path)).sentence;
    };
    expect(await tried(lines.slice(0, 4).join('\n'))).toContain(
      'the end line is missing; the file is cut short',
    );
    expect(await tried(text.replace('"volumeMl":900', '"volumeMl":901'))).toContain(
      'checksum does not match',
    );
    expect(await tried(text.replace('"capacityMl":1000', '"capacityMl":"big"'))).toMatch(
      /line 2: facts\.0\.capacityMl: .*number/,
    );
    expect(await tried(lines.toSpliced(2, 1).join('\n'))).toContain(
      'line 3: entry 2 was expected, but this is 3',
    );
    expect(await tried('{"hello":1}\n')).toContain('not a tankside ledger file');
    expect(await tried(text.replace('"version":1', '"version":7'))).toContain('newer tankside');
    expect(await tried(`${text}{}\n`)).toContain('more after the end line');
    expect(await tried('')).toContain('cut short');
    expect(problem(await importJournal(to, join(dir, 'nowhere.txt'))).problem).toBe('missing');
    expect(to.lastSeq).toBe(0);
    to.close();
  });

  it('does not overwrite', () => {
    const journal = opened('a');
    writeFileSync(join(dir, 'mine.txt'), 'keep me');
    expect(problem(exportJournal(journal, join(dir, 'mine.txt'))).problem).toBe('already-there');
    expect(problem(backupJournal(journal, join(dir, 'mine.txt'))).problem).toBe('already-there');
    expect(readFileSync(join(dir, 'mine.txt'), 'utf8')).toBe('keep me');
    journal.close();
  });
});

describe('backup and restore', () => {
  it('bring back the journal as one file, and move the present one aside', () => {
    const journal = opened('a');
    fill(journal, sample);
    expect(backupJournal(journal, join(dir, 'backup.journal'))).toBeGreaterThan(4096);
    fill(journal, sample.slice(0, 1));
    const { path } = journal;
    expect(problem(restoreJournal(join(dir, 'backup.journal'), path)).problem).toBe('in-use');
    journal.close();
    const done = restoreJournal(join(dir, 'backup.journal'), path);
    if (isProblem(done)) throw new Error(done.sentence);
    expect(done.entries).toBe(5);
    const back = opened('a');
    expect(back.lastSeq).toBe(5);
    expect(checkJournal(back.db, path)).toEqual({ sound: true, entries: 5, findings: [] });
    expect(back.append([{ event: { type: 'time', atMs: 99, wallMs: 99 }, source: 'clock', facts: [] }])).toBe(
      6,
    );
    back.close();
    const aside = openJournal(done.movedAside as string);
    if (isProblem(aside)) throw new Error(aside.sentence);
    expect(aside.lastSeq).toBe(6);
    aside.close();
  });

  it('can back up beside a writer', () => {
    const writer = opened('a');
    fill(writer, sample);
    const reader = openJournal(join(dir, 'a'), { readOnly: true });
    if (isProblem(reader)) throw new Error(reader.sentence);
    expect(backupJournal(reader, join(dir, 'backup.journal'))).toBeGreaterThan(4096);
    reader.close();
    writer.close();
  });

  it('refuses what is no backup, and changes nothing', () => {
    const journal = opened('a');
    fill(journal, sample);
    const { path } = journal;
    journal.close();
    const before = readFileSync(path);
    writeFileSync(join(dir, 'bad'), 'not a backup');
    expect(problem(restoreJournal(join(dir, 'bad'), path)).sentence).toContain(
      'is not a sound tankside backup',
    );
    expect(problem(restoreJournal(join(dir, 'none'), path)).problem).toBe('missing');
    expect(readFileSync(path).equals(before)).toBe(true);
  });
});

describe('runs', () => {
  it('are found by their words and exported as CSV by RFC 4180', () => {
    const journal = opened('a');
    fill(journal, sample);
    expect(journal.runs({ search: 'night deviation' }).map((run) => run.runId)).toEqual(['r1']);
    expect(journal.runs({ search: 'spill' })).toEqual([]);
    const [head, row] = runsCsv(journal.runs()).split('\r\n');
    expect(head).toContain('run,sheet,started,ended,complete');
    // RFC 4180, section 2, rules 6 and 7: quoted because of comma and quotes, quotes doubled
    expect(row).toContain('"1 16mm Night ""50"", test"');
    journal.close();
  });
});
