import type { WordGraph } from '../../../language/types.js';
import { acceptorOf } from './acceptor.js';
import { type PhoneGraph, type Pronounce, phoneGraphOf } from './phone-graph.js';

/** Compiled grammars, kept as long as their word graphs live. */
export interface GrammarCache {
  /** @throws Error with one clear sentence for a damaged graph or a word that cannot be spoken */
  compiled(graph: WordGraph): PhoneGraph;
  has(graph: WordGraph): boolean;
}

export function grammarCache(pronounce: Pronounce): GrammarCache {
  const known = new WeakMap<WordGraph, PhoneGraph>();
  return {
    has: (graph) => known.has(graph),
    compiled(graph) {
      let ready = known.get(graph);
      if (!ready) {
        ready = phoneGraphOf(acceptorOf(graph), pronounce);
        if (ready.phoneCount === 0)
          throw new Error(`Grammar "${graph.name}" has no sentence that can be spoken.`);
        known.set(graph, ready);
      }
      return ready;
    },
  };
}
