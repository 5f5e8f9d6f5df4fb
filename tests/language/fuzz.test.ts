import fc from 'fast-check';
import { describe, expect, it, vi } from 'vitest';
import { interpretHeard, isGuarded } from '../../src/language/interpret.js';
import { normaliseTyped } from '../../src/language/languages/english/typed.js';
import { interpretTyped } from '../../src/language/languages/english/typing.js';
import { SITUATIONS } from '../../src/language/load.js';
import { openFor } from '../../src/language/open/understand.js';
import { loadOwnGrammars } from './grammar-files.js';

const grammars = loadOwnGrammars();
const situation = fc.constantFrom(...SITUATIONS);
const known = [...grammars.vocabulary];
const someWord = fc.oneof(
  fc.constantFrom(...known),
  fc.constantFrom('36.4', '600ml', '#3', '°C', 'bottle', 'pour', '-'),
);

// how many sentences are tried bounds these tests; a busy machine only takes longer over them
vi.setConfig({ testTimeout: 600_000 });

describe('whatever is typed or heard', () => {
  it('never throws, and gives a meaning, a question or a reason', () => {
    const line = fc.oneof(
      fc.string({ unit: 'grapheme' }),
      fc.array(someWord, { maxLength: 12 }).map((w) => w.join(' ')),
    );
    fc.assert(
      fc.property(line, fc.array(situation, { maxLength: 3 }), (text, situations) => {
        for (const r of [
          interpretTyped(text, situations, grammars),
          interpretHeard(text, situations, grammars),
        ]) {
          if (r.kind === 'nothing') expect(r.why).toMatch(/^[A-Z].*[.!?]$/su);
          if (r.kind === 'unsure') expect(r.candidates.length).toBeGreaterThan(0);
        }
      }),
      { numRuns: 800 },
    );
  });

  it('a pour, an advance, an answer or an override never comes of words that are not in the grammar', () => {
    const strange = fc
      .array(fc.constantFrom(...'abcdefghijklmnopqrstuvwxyz'), { minLength: 3, maxLength: 9 })
      .map((l) => l.join(''));
    // a sentence of the grammar with one word spoilt
    const spoilt = fc
      .tuple(
        fc.constantFrom(
          'pouring the bleach in from bottle three',
          'going back into bottle two',
          'next step',
          'the developer is in',
          'yes',
          'override the guard and pour anyway',
          'drain now',
          'pouring the stop bath away',
        ),
        fc.nat(),
        strange,
      )
      .map(([sentence, at, word]) => {
        const words = sentence.split(' ');
        words[at % words.length] = word;
        return words.join(' ');
      });
    fc.assert(
      fc.property(
        fc.oneof(
          spoilt,
          fc.array(strange, { minLength: 1, maxLength: 5 }).map((w) => w.join(' ')),
        ),
        situation,
        (line, s) => {
          const words = normaliseTyped(line).split(' ').filter(Boolean);
          fc.pre(words.some((w) => !openFor(grammars).words.has(w)) && !/^(note|call|name) /.test(line));
          const typed = interpretTyped(line, [s], grammars);
          expect(
            typed.kind === 'understood' && isGuarded(typed.intent),
            `${line}: ${JSON.stringify(typed)}`,
          ).toBe(false);
          expect(interpretHeard(line, [s], grammars).kind).toBe('nothing');
        },
      ),
      { numRuns: 800 },
    );
  });

  it('is understood the same way every time', () => {
    fc.assert(
      fc.property(
        fc.array(someWord, { minLength: 1, maxLength: 8 }).map((w) => w.join(' ')),
        situation,
        (line, s) => {
          expect(interpretTyped(line, [s], grammars)).toEqual(interpretTyped(line, [s], grammars));
        },
      ),
      { numRuns: 100 },
    );
  });
});
