import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';

/** An alternation of words in a pattern, or a list of words in a string. */
const LIST =
  /\/(?:[^/\n\\]|\\.)*(?<![a-z\\])[a-z']{2,}\)?\|\(?[a-z' ]{2,}(?:[^/\n\\]|\\.)*\/[gimsu]*(?=[.,;)\s\]])|'(?:[a-z']+ ){3,}[a-z']+'\s*\.split/g;

/** Lists that are of no language that somebody speaks to it, or of one that is no other's. */
const OTHERS: Readonly<Record<string, string>> = {
  'app/assistant/desks.ts': 'names of intents',
  'app/correct.ts': 'names of fields',
  'app/evidence.ts': 'names of intents',
  'app/review-roll.ts': 'endings of files',
  'app/script.ts': 'units of a script',
  'ledger/problem.ts': 'messages of SQLite',
  'review/record/from-run-record.ts': 'notes, which are kept as they were typed',
  'review/record/stocks.ts': 'notes, which are kept as they were typed',
  'review/why/rank.ts': 'places in a sentence of its own',
  'speech/ears/recorders.ts': 'messages of recorders',
  'speech/recogniser/lexicon/spelling.ts': 'spellings of the dictionary of sounds',
};

describe('the words of a language', () => {
  it('stand in its own folder and nowhere else', () => {
    const files = readdirSync('src', { recursive: true, encoding: 'utf8' })
      .map((f) => f.replaceAll('\\', '/'))
      .filter((f) => f.endsWith('.ts') && !/^language\/languages\/\w+\/|^screen\/client\//.test(f));
    expect(files.length).toBeGreaterThan(300);
    const lists = files.flatMap((file) => {
      const code = readFileSync(join('src', file), 'utf8').replace(/\/\*[\s\S]*?\*\/|^\s*\/\/.*$/gm, '');
      return [...code.matchAll(LIST)].map(([list]) => ({ file, list }));
    });
    expect(lists.filter(({ file }) => !(file in OTHERS))).toEqual([]);
    // what is no longer there needs no reason
    expect(Object.keys(OTHERS).filter((file) => !lists.some((l) => l.file === file))).toEqual([]);
  });
});
