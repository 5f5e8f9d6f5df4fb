import type { OpenReading, WordGraph } from '../../../language/types.js';
import type { Examination, Guess, RecogniserOptions } from '../index.js';

/** To the recogniser's process. What has an `ask` is answered, in the order in which it was asked. */
export type ToRecogniser =
  | { type: 'load'; options: RecogniserOptions }
  | { type: 'graph'; graph: number; packed: PackedGraph }
  | { type: 'prepare'; graph: number }
  | { type: 'begin'; utterance: number; graph: number; amongTalk: boolean }
  | { type: 'push'; utterance: number; pcm: Float32Array }
  | { type: 'guess'; ask: number; utterance: number }
  | { type: 'hear'; ask: number; utterance: number; samples: number }
  | { type: 'openly'; ask: number }
  | { type: 'recognise'; ask: number; graph: number; pcm: Float32Array };

export type Answer = Examination | Guess | OpenReading[] | string | null;

export type FromRecogniser =
  | { type: 'ready' }
  /** it will never work here: one sentence */
  | { type: 'unusable'; sentence: string }
  | { type: 'answer'; ask: number; value: Answer }
  | { type: 'failed'; ask: number; why: string };

/** A word graph without its tags, in arrays that cross quickly; word −1: a free arc. */
export interface PackedGraph {
  name: string;
  nodeCount: number;
  start: number;
  end: number;
  words: string[];
  from: Int32Array;
  to: Int32Array;
  word: Int32Array;
  weight: Float64Array;
}

export function packGraph({ name, nodeCount, start, end, arcs }: WordGraph): PackedGraph {
  const ids = new Map<string, number>();
  const idOf = (word: string | null): number => {
    if (word === null) return -1;
    const id = ids.get(word) ?? ids.size;
    ids.set(word, id);
    return id;
  };
  const word = Int32Array.from(arcs, (a) => idOf(a.word));
  return {
    ...{ name, nodeCount, start, end, word, words: [...ids.keys()] },
    from: Int32Array.from(arcs, (a) => a.from),
    to: Int32Array.from(arcs, (a) => a.to),
    weight: Float64Array.from(arcs, (a) => a.weight ?? 1),
  };
}

export function unpackGraph({ words, from, to, word, weight, ...rest }: PackedGraph): WordGraph {
  const arcs = Array.from(from, (start, i) => ({
    from: start,
    to: to[i] as number,
    word: words[word[i] as number] ?? null,
    weight: weight[i] as number,
  }));
  return { ...rest, arcs };
}
