import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { WordGraph } from '../../../src/language/types.js';
import { type Acceptor, acceptorOf } from '../../../src/speech/recogniser/graph/acceptor.js';
import { grammarCache } from '../../../src/speech/recogniser/graph/cache.js';
import { phoneGraphOf } from '../../../src/speech/recogniser/graph/phone-graph.js';
import { sentences, spell } from './support.js';

/** Every sentence of up to `most` words. */
function spoken(a: Acceptor, most: number): string[] {
  const out = new Set<string>();
  const walk = (node: number, words: string[]): void => {
    if ((a.finalLogWeight[node] ?? 0) > Number.NEGATIVE_INFINITY) out.add(words.join(' '));
    if (words.length === most) return;
    for (let i = a.arcStart[node] ?? 0; i < (a.arcStart[node + 1] ?? 0); i++)
      walk(a.arcTo[i] ?? 0, [...words, a.words[a.arcWord[i] ?? 0] ?? '']);
  };
  walk(a.start, []);
  return [...out].sort();
}

function said(g: WordGraph, most: number): string[] {
  const out = new Set<string>();
  const seen = new Set<string>();
  const walk = (node: number, words: string[]): void => {
    const key = `${node}|${words.join(' ')}`;
    if (seen.has(key)) return;
    seen.add(key);
    if (node === g.end) out.add(words.join(' '));
    for (const arc of g.arcs)
      if (arc.from === node && (arc.word === null || words.length < most))
        walk(arc.to, arc.word === null ? words : [...words, arc.word]);
  };
  walk(g.start, []);
  return [...out].sort();
}

describe('acceptor', () => {
  test('says exactly what the graph says, free arcs and loops included', () => {
    const node = fc.integer({ min: 0, max: 5 });
    const arc = fc.record({ from: node, to: node, word: fc.constantFrom('a', 'b', 'c', null) });
    fc.assert(
      fc.property(fc.array(arc, { maxLength: 12 }), (arcs) => {
        const g: WordGraph = { name: 'any', nodeCount: 6, start: 0, end: 5, arcs };
        expect(spoken(acceptorOf(g), 4)).toEqual(said(g, 4));
      }),
      { numRuns: 300, seed: 11 },
    );
  });

  test('shares heads and tails', () => {
    const a = acceptorOf(
      sentences('pour the bleach in', 'pour the fixer in', 'put the bleach in', 'put the fixer in'),
    );
    expect(a.nodeCount).toBe(5);
    expect(a.arcTo.length).toBe(6);
  });

  test('words that begin alike share their first phones', () => {
    const graph = phoneGraphOf(acceptorOf(sentences('abc', 'abd', 'ae')), spell);
    expect(graph.phoneCount).toBe(5);
  });

  test('names what is wrong with a graph', () => {
    const g = (arc: WordGraph['arcs'][number]): WordGraph => ({
      name: 'bad',
      nodeCount: 2,
      start: 0,
      end: 1,
      arcs: [arc],
    });
    expect(() => acceptorOf(g({ from: 0, to: 7, word: 'a' }))).toThrow(/"bad".*0 to 7.*0 to 1/);
    expect(() => acceptorOf(g({ from: 0, to: 1, word: 'a', weight: 0 }))).toThrow(/weight 0/);
    expect(() => acceptorOf(g({ from: 0, to: 1, word: '' }))).toThrow(/empty word/);
  });

  test('a grammar is compiled once', () => {
    let asked = 0;
    const cache = grammarCache((word) => {
      asked++;
      return spell(word);
    });
    const g = sentences('ab cd');
    expect(cache.compiled(g)).toBe(cache.compiled(g));
    expect(asked).toBe(2);
    expect(() => cache.compiled(sentences())).toThrow(/no sentence/);
  });
});
