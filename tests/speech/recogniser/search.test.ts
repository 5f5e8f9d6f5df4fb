import { describe, expect, test } from 'vitest';
import { freePathOf } from '../../../src/speech/recogniser/acoustics/posteriors.js';
import { align } from '../../../src/speech/recogniser/decode/align.js';
import { type SearchOptions, search } from '../../../src/speech/recogniser/decode/search.js';
import { acceptorOf } from '../../../src/speech/recogniser/graph/acceptor.js';
import { phoneGraphOf } from '../../../src/speech/recogniser/graph/phone-graph.js';
import { frames, letters, sentences, spell } from './support.js';

const best: SearchOptions = { width: 4, beam: 60, wordPenalty: 0, sum: false };
const read = (heard: string, grammar: string[], options = best, sure = 0.9) =>
  search(frames(heard, sure), phoneGraphOf(acceptorOf(sentences(...grammar)), spell), options).map((f) => ({
    ...f,
    words: f.words.join(' '),
  }));

describe('search', () => {
  test('reads the sentence that the frames spell', () => {
    expect(read('_ab__cd_', ['ab cd', 'ab ce', 'cd ab'])[0]?.words).toBe('ab cd');
  });

  test('scores the best path exactly', () => {
    const [first] = read('_ab_', ['ab']);
    expect(first?.logScore).toBeCloseTo(4 * Math.log(0.9), 5);
  });

  test('lists distinct sentences, best first', () => {
    const all = read('_ab__cd_', ['ab cd', 'ab ce', 'ab', 'fg']);
    expect(all[0]?.words).toBe('ab cd');
    expect(all.map((f) => f.words)).toContain('ab ce');
    expect(new Set(all.map((f) => f.words)).size).toBe(all.length);
    expect(all.map((f) => f.logScore)).toEqual(all.map((f) => f.logScore).sort((a, b) => b - a));
  });

  test('waits through silence before, between and after words, however long', () => {
    expect(read(`${'_'.repeat(40)}ab${'_'.repeat(60)}cd${'_'.repeat(30)}`, ['ab cd', 'ab'])[0]?.words).toBe(
      'ab cd',
    );
  });

  test('needs a blank between the same phone twice, within a word and across words', () => {
    expect(read('aa', ['aa'])).toEqual([]);
    expect(read('a_a', ['aa', 'a'])[0]?.words).toBe('aa');
    expect(read('bab', ['ba ab'])).toEqual([]);
    expect(read('ba_ab', ['ba ab', 'ba b'])[0]?.words).toBe('ba ab');
    expect(read('baab', ['ba ab', 'ba b'])[0]?.words).toBe('ba b');
  });

  test('keeps words apart that sound the same', () => {
    const graph = phoneGraphOf(acceptorOf(sentences('two', 'too')), () => [[1, 2]]);
    const found = search(frames('_ab_'), graph, best);
    expect(found.map((f) => f.words.join(' ')).sort()).toEqual(['too', 'two']);
    expect(found[0]?.logScore).toBe(found[1]?.logScore);
  });

  test('takes any of several pronunciations', () => {
    const graph = phoneGraphOf(acceptorOf(sentences('word')), () => [
      [1, 2],
      [3, 4],
    ]);
    expect(search(frames('_cd_'), graph, best)[0]?.logScore).toBeCloseTo(4 * Math.log(0.9), 5);
  });

  test('never reads a sentence the grammar lacks, or a part of one', () => {
    expect(read('ab', ['ab cd'])).toEqual([]);
    for (const f of read('_ab__fg_', ['ab cd', 'cd fg', 'a']))
      expect(['ab cd', 'cd fg', 'a']).toContain(f.words);
  });

  test('summed over alignments, all possible sentences together have probability one', () => {
    // every string of up to three of two phones, over three frames
    const all = ['a', 'b', 'ab', 'ba', 'aa', 'bb', 'aba', 'bab', 'abb', 'aab', 'baa', 'bba', 'aaa', 'bbb'];
    const one = Math.log(1 / 3);
    const logProb = new Float32Array(3 * 3).fill(one);
    const graph = phoneGraphOf(acceptorOf(sentences(...all)), spell);
    const found = search({ frames: 3, tokens: 3, logProb, frameMs: 20 }, graph, {
      ...best,
      width: 16,
      sum: true,
    });
    const total = found.reduce((sum, f) => sum + Math.exp(f.logScore), 0);
    // what is missing is the one empty path
    expect(total).toBeCloseTo(1 - 1 / 27, 5);
  });

  test('a narrow beam finds the same best sentence here as a wide one', () => {
    const grammar = ['ab cd ef', 'ab cd eg', 'ab ce ef', 'gh cd ef', 'ab', 'ef'];
    const wide = read('_ab_cd__ef_', grammar, { ...best, beam: 100 });
    const narrow = read('_ab_cd__ef_', grammar, { ...best, beam: 12 });
    expect(narrow[0]).toEqual(wide[0]);
  });

  test('obeys weights where the sound leaves it open', () => {
    const graph = (weight: number) => ({
      name: 'weights',
      nodeCount: 2,
      start: 0,
      end: 1,
      arcs: [
        { from: 0, to: 1, word: 'ab', weight },
        { from: 0, to: 1, word: 'cd', weight: 1 },
      ],
    });
    const heard = frames('____', 0.1);
    const top = (weight: number) =>
      search(heard, phoneGraphOf(acceptorOf(graph(weight)), spell), best)[0]?.words.join(' ');
    expect(top(5)).toBe('ab');
    expect(top(0.2)).toBe('cd');
  });

  test('no frames, no reading', () => {
    expect(read('', ['ab'])).toEqual([]);
  });
});

describe('alignment', () => {
  test('places every phone', () => {
    const found = align(frames('__aab__cd_'), [spell('ab'), spell('cd')]);
    expect(found?.phones).toEqual([
      { word: 0, token: 1, from: 2, to: 3 },
      { word: 0, token: 2, from: 4, to: 4 },
      { word: 1, token: 3, from: 7, to: 7 },
      { word: 1, token: 4, from: 8, to: 8 },
    ]);
    expect(found?.logScore).toBeCloseTo(10 * Math.log(0.9), 5);
  });

  test('agrees with the search on the best path', () => {
    for (const heard of ['_ab__cd_', 'abcd', 'a_bdc_d', '_a_cb_cd__']) {
      const [first] = read(heard, ['ab cd']);
      expect(align(frames(heard), [spell('ab'), spell('cd')])?.logScore).toBeCloseTo(first?.logScore ?? 1, 5);
    }
  });

  test('is null when the sound is too short for the words', () => {
    expect(align(frames('ab'), [spell('ab'), spell('cd')])).toBeNull();
    expect(align(frames('aa'), [spell('a'), spell('a')])).toBeNull();
  });
});

test('the free path merges repeats and keeps apart what a blank divides', () => {
  const free = freePathOf(frames('_aab_bc_'));
  expect(free.phones.map((p) => letters[p.token]).join('')).toBe('abbc');
  expect(free.total).toBeCloseTo(8 * Math.log(0.9), 5);
});
