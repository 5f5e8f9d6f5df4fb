import { createHash } from 'node:crypto';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Command } from 'commander';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { registerLedger } from '../../src/app/commands/ledger.js';
import { exitCode, Refusal } from '../../src/app/exit.js';
import { openJournal } from '../../src/ledger/journal.js';
import { isProblem } from '../../src/ledger/problem.js';
import { sheets } from '../../src/process/sheets/index.js';
import type { Fact } from '../../src/world/fact.js';

const WALL = Date.UTC(2026, 4, 4, 9);
let dir: string;
let data: string;
beforeEach(() => {
  dir = mkdtempSync(join(tmpdir(), 'tankside-cli-'));
  data = join(dir, 'data');
});
afterEach(() => {
  process.exitCode = 0;
  rmSync(dir, { recursive: true, force: true });
});

async function tankside(...words: string[]): Promise<string> {
  const printed: string[] = [];
  const program = new Command('tankside').exitOverride();
  registerLedger(program, { print: (line) => printed.push(line), sheets: () => sheets, now: () => WALL });
  await program.parseAsync([...words, '--data', data], { from: 'user' });
  return printed.join('\n');
}
const refused = async (...words: string[]): Promise<Refusal> => {
  try {
    await tankside(...words);
  } catch (error) {
    if (error instanceof Refusal) return error;
    throw error;
  }
  throw new Error('expected a refusal');
};
const refusal = async (...words: string[]): Promise<string> => (await refused(...words)).message;

function journaled(...facts: Fact[]): void {
  const journal = openJournal(data);
  if (isProblem(journal)) throw new Error(journal.sentence);
  journal.append(
    facts.map((fact, i) => ({
      event: { type: 'fact', fact, atMs: i, wallMs: WALL + i },
      source: 'command',
      facts: [fact],
    })),
  );
  journal.close();
}

const someFacts: Fact[] = [
  { type: 'bottle-set', bottle: 2, liquid: 'developer', volumeMl: 900, capacityMl: 1000 },
  {
    type: 'run-started',
    runId: 'run-1',
    sheetId: 'ecn2-ferricyanide',
    tankMl: 600,
    films: [{ stock: 'dusk 100', format: '35mm' }],
  },
  { type: 'note', runId: 'run-1', text: 'first try' },
  { type: 'run-finished', runId: 'run-1', complete: true },
];

describe('the ledger’s commands', () => {
  it('say what to do when nothing is on record', async () => {
    expect(await refusal('bottles')).toMatch(
      /^Nothing is written down in .* yet\. Start with: tankside run\.$/,
    );
    expect(existsSync(data)).toBe(false);
  });

  it('show bottles and runs', async () => {
    journaled(...someFacts);
    const bottles = await tankside('bottles');
    expect(bottles).toMatch(/^No {2}name/);
    expect(bottles).toMatch(/2 .*developer {2}900 of 1000 ml {2}at least 0 d .* 5 \(3 to 18\)/);
    expect(JSON.parse(await tankside('bottles', '--json'))).toMatchObject([
      { number: 2, life: { limit: 'film' } },
    ]);
    expect(await tankside('runs', '--search', 'DUSK')).toContain('1 × 35mm dusk 100');
    expect(await tankside('runs', '--search', 'dawn')).toBe('No run matches.');
    expect(await tankside('runs', '--export', 'csv')).toMatch(/^run,sheet,.*\r\nrun-1,ecn2-ferricyanide,/);
    expect(JSON.parse(await tankside('runs', '--export', 'json'))).toMatchObject([
      { runId: 'run-1', notes: [{ text: 'first try' }] },
    ]);
    expect(await refusal('runs', '--limit', 'many')).toBe('“many” is not a whole number above 0.');
  });

  it('take the journal out and back in, and keep a backup', async () => {
    journaled(...someFacts);
    const file = join(dir, 'out.txt');
    expect(await tankside('export', file)).toBe(`4 entries written to ${file}.`);
    expect(await refusal('export', file)).toContain('already there');
    const backup = join(dir, 'backup.journal');
    expect(await tankside('backup', backup)).toMatch(/^Backed up to .* KiB\)\.$/);
    rmSync(data, { recursive: true });
    expect(await tankside('import', file)).toBe(`4 entries read from ${file}.`);
    expect(await tankside('runs')).toContain('run-1');
    rmSync(data, { recursive: true });
    expect(await tankside('restore', backup)).toBe('Restored 4 entries.');
    expect(await tankside('restore', backup)).toMatch(
      /^Restored 4 entries\. The journal that was there is now .*before-restore/,
    );
    writeFileSync(file, `${readFileSync(file, 'utf8')}extra\n`);
    expect(await refusal('import', file)).toContain('line 7');
    expect(await refusal('restore', join(dir, 'none'))).toContain('There is no file at');
    const far = join(dir, 'none', 'x');
    expect(await refusal('export', far)).toContain(`There is no folder ${join(dir, 'none')}.`);
    expect(await refusal('backup', far)).toContain(`There is no folder ${join(dir, 'none')}.`);
  });

  it('end with the code of bad input where the file that is named cannot be used', async () => {
    journaled(...someFacts);
    const file = join(dir, 'talk.txt');
    writeFileSync(file, 'nothing of ours\n');
    for (const words of [
      ['import', file],
      ['restore', file],
      ['restore', dir],
      ['restore', '--salvage', file],
      ['export', file],
    ])
      expect((await refused(...words)).code, words.join(' ')).toBe(exitCode.badInput);
  });

  it('refuse a file whose facts do not follow, or whose events nobody could have said', async () => {
    journaled(...someFacts);
    const file = join(dir, 'out.txt');
    await tankside('export', file);
    const lines = readFileSync(file, 'utf8').trimEnd().split('\n').slice(0, -1);
    rmSync(data, { recursive: true });
    const changed = async (from: string, to: string): Promise<string> => {
      const body = `${lines.map((l, i) => (i === 1 ? l.replace(from, to) : l)).join('\n')}\n`;
      const sha256 = createHash('sha256').update(body).digest('hex');
      writeFileSync(file, `${body}${JSON.stringify({ end: true, entries: 4, sha256 })}\n`);
      return refusal('import', file);
    };
    expect(
      await changed('"facts":[{"type":"bottle-set","bottle":2', '"facts":[{"type":"bottle-set","bottle":3'),
    ).toMatch(/entry 1: its facts do not follow from what was said/);
    expect(await changed('"type":"fact","fact"', '"type":"intent","intent":null,"fact"')).toMatch(
      /entry 1: it does not say how its words came in/,
    );
    expect(await changed('"atMs":0', '"atMs":1e300')).toMatch(/line 2: event.atMs/);
  });

  it('plan a day from a file, and say where it breaks', async () => {
    journaled(...someFacts);
    const file = join(dir, 'day.json');
    const films = [{ stock: 'dusk 100', format: '35mm', count: 2 }];
    const tank = { volumeMl: 600, holds: { '35mm': 2 } };
    writeFileSync(file, JSON.stringify({ films, tank }));
    expect(await tankside('plan-day', file)).toMatch(
      /It breaks: Run 1 needs prebath, and no bottle holds any\. Mix at least 600 millilitres/,
    );
    expect(process.exitCode).toBe(3);
    process.exitCode = 0;
    const bottles = ['prebath', 'developer', 'stop', 'bleach', 'fixer', 'final-rinse'].map((liquid, i) => ({
      number: i + 1,
      liquid,
      volumeMl: 1000,
    }));
    writeFileSync(file, JSON.stringify({ films, tank, bottles, startsAt: '10:00' }));
    const plan = await tankside('plan-day', file);
    expect(plan).toContain('The day works.');
    expect(plan).toMatch(/litres of warm water/);
    expect(JSON.parse(await tankside('plan-day', file, '--json'))).toMatchObject({
      breaks: null,
      runs: [{ number: 1 }],
    });
    writeFileSync(file, '{"films":[]}');
    expect(await refusal('plan-day', file)).toMatch(
      /films: expected at least one film\. tank: expected the tank/,
    );
    expect(await refusal('plan-day', join(dir, 'none.json'))).toContain('cannot be read');
  });
});
