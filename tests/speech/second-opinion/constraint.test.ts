import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { WordGraph } from '../../../src/language/types.js';
import { sentencesGraph } from '../../../src/speech/ears/attention.js';
import { GrammarConstraint, type TokenTable } from '../../../src/speech/second-opinion/constraint.js';

const SENTENCES = ['stop', 'stop bath is in', 'drain now', 'drain'];
const TEXTS = [
  '',
  ' stop',
  'stop',
  ' ',
  'Drain',
  ' now',
  ' no',
  'w',
  ' bath',
  ' is',
  ' in',
  'd',
  'r',
  'ai',
  'n',
  ' step',
  '.',
];
const table: TokenTable = { texts: TEXTS.map((t, i) => (i === 0 ? null : t)), endId: 0 };
const id = (text: string) => TEXTS.indexOf(text);
const names = (ids: Set<number>) => [...ids].map((i) => TEXTS[i]).sort();
const constraint = new GrammarConstraint(sentencesGraph('t', SENTENCES), table);

describe('what may follow', () => {
  it('begins with a word, with or without its space, in any case', () => {
    expect(names(constraint.allowed([]))).toEqual([' ', ' stop', 'Drain', 'd', 'stop']);
  });

  it('goes on letter by letter and word by word, and ends only where a sentence is whole', () => {
    expect(names(constraint.allowed([id('Drain')]))).toEqual(['', ' ', ' no', ' now']);
    expect(names(constraint.allowed([id('Drain'), id(' no')]))).toEqual(['w']);
    expect(names(constraint.allowed([id(' stop')]))).toEqual(['', ' ', ' bath']);
    expect(names(constraint.allowed([id(' stop'), id(' bath')]))).toEqual([' ', ' is']);
  });

  it('is nothing after words that no sentence has', () => {
    expect(constraint.allowed([id(' step')]).size).toBe(0);
  });

  it('walks free arcs and loops', () => {
    const loop: WordGraph = {
      name: 'loop',
      nodeCount: 3,
      start: 0,
      end: 2,
      arcs: [
        { from: 0, to: 1, word: 'drain' },
        { from: 1, to: 0, word: null },
        { from: 1, to: 2, word: null },
      ],
    };
    const c = new GrammarConstraint(loop, table);
    const drain = [id('d'), id('r'), id('ai'), id('n')];
    expect(names(c.allowed([...drain, id(' '), ...drain]))).toEqual(['', ' ']);
  });
});

it('masking leaves only what may follow, and the end when nothing may', () => {
  const logits = new Float32Array(TEXTS.length).fill(1);
  constraint.mask([id('Drain'), id(' no')], logits);
  expect([...logits].map((v, i) => (v === 1 ? TEXTS[i] : null)).filter((t) => t !== null)).toEqual(['w']);
  const stuck = new Float32Array(TEXTS.length).fill(1);
  constraint.mask([id(' step')], stuck);
  expect([...stuck].filter((v) => v === 1)).toHaveLength(1);
  expect(stuck[0]).toBe(1);
});

it('whatever the logits, a greedy text is a sentence of the grammar, if the vocabulary can spell', () => {
  const letters = [...'abcdefghijklmnopqrstuvwxyz'];
  const spelling = new GrammarConstraint(sentencesGraph('t', SENTENCES), {
    texts: [null, ...TEXTS.slice(1), ...letters],
    endId: 0,
  });
  const size = TEXTS.length + letters.length;
  fc.assert(
    fc.property(
      fc.array(fc.array(fc.nat(1000), { minLength: size, maxLength: size }), {
        minLength: 20,
        maxLength: 20,
      }),
      (steps) => {
        const ids: number[] = [];
        for (const step of steps) {
          const logits = Float32Array.from(step);
          spelling.mask(ids, logits);
          const best = logits.indexOf(Math.max(...logits));
          if (best === 0) break;
          ids.push(best);
        }
        expect(spelling.isSentence(ids)).toBe(true);
        expect(SENTENCES).toContain(spelling.words(ids));
      },
    ),
    { numRuns: 50 },
  );
});

it('a text that came to a dead end is known for no sentence', () => {
  expect(constraint.isSentence([id(' stop'), id(' bath')])).toBe(false);
  expect(constraint.isSentence([id(' stop')])).toBe(true);
  expect(constraint.isSentence([])).toBe(false);
});
