import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { interpretTyped } from '../../src/language/languages/english/typing.js';
import { isDeed } from '../../src/language/meaning/weight.js';
import type { Situation } from '../../src/process/desk.js';
import { loadOwnGrammars } from './grammar-files.js';

const grammars = loadOwnGrammars();

interface Row {
  situation: Situation;
  types: string[];
  parts: string[];
  words: string;
}

function rows(name: string): Row[] {
  const path = fileURLToPath(new URL(`corpus/${name}`, import.meta.url));
  const lines = readFileSync(path, 'utf8').split('\n');
  return lines
    .filter((l) => l.trim() !== '' && !l.startsWith('#'))
    .map((l) => {
      const [situation, wanted = '', words = ''] = l.split('|').map((s) => s.trim());
      const [types = '', ...parts] = wanted.split(' ');
      return {
        situation: situation as Situation,
        types: types.split(','),
        parts: parts.join(' ').split(';').filter(Boolean),
        words,
      };
    });
}

function right({ situation, types, parts, words }: Row): boolean {
  const r = interpretTyped(words, [situation, 'anytime'], grammars);
  if (r.kind === 'nothing') return types.includes('-');
  if (r.kind === 'unsure') return types.includes('ask');
  const intent = JSON.stringify(r.intent);
  return types.includes(r.intent.type) && parts.every((p) => intent.includes(p));
}

describe('what a first-time user types', () => {
  it('is understood at least 97 times in 100', () => {
    const all = rows('typed.txt');
    const wrong = all.filter((row) => !right(row)).map((row) => row.words);
    expect(all.length).toBeGreaterThan(700);
    expect(wrong.length, wrong.join('\n')).toBeLessThanOrEqual(all.length * 0.03);
  });

  it.each(rows('traps.txt').map((row) => [row.words, row] as const))(
    'is not taken for a deed: %s',
    (_, row) => {
      const meant = interpretTyped(row.words, [row.situation, 'anytime'], grammars);
      expect(right(row) || (meant.kind === 'understood' && !isDeed(meant.intent)), row.words).toBe(true);
    },
  );
});
