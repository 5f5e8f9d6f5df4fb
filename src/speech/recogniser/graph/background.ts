import { readFileSync } from 'node:fs';
import type { Lexicon } from '../lexicon/lexicon.js';
import { acceptorOf } from './acceptor.js';
import { type PhoneGraph, phoneGraphOf } from './phone-graph.js';

/**
 * A loop of everyday words: what any talk looks like. Built when first wanted.
 * @throws Error with one clear sentence when the list cannot be read
 */
export function backgroundGraph(file: string, lexicon: Lexicon): () => PhoneGraph {
  let words: string[];
  try {
    words = readFileSync(file, 'utf8')
      .split('\n')
      .filter((line) => !line.startsWith('#'))
      .flatMap((line) => line.split(/\s+/))
      .filter((word) => word !== '');
  } catch (cause) {
    throw new Error(
      `The everyday word list "${file}" cannot be read; restore the models folder (git checkout models).`,
      {
        cause,
      },
    );
  }
  let graph: PhoneGraph | null = null;
  return () => {
    graph ??= phoneGraphOf(
      acceptorOf({
        name: 'everyday words',
        nodeCount: 2,
        start: 0,
        end: 1,
        arcs: [...new Set(words)]
          .map((word): { from: number; to: number; word: string | null } => ({ from: 0, to: 1, word }))
          .concat([{ from: 1, to: 0, word: null }]),
      }),
      (word) => lexicon.pronounce(word),
    );
    return graph;
  };
}
