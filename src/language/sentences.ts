import type { WordArc, WordGraph } from './types.js';
import { arcsFrom } from './walk.js';

export interface SentenceOptions {
  /** at most this many */
  limit: number;
  /** 0 to below 1; when given, sentences are drawn at random, not enumerated */
  random?: () => number;
}

/** One sentence a grammar can say, and the tags its path meets. */
export interface Sentence {
  words: string[];
  tags: string[];
}

/** Most arcs one sentence may take, so that loops come to an end. */
const LONGEST = 400;

/**
 * Sentences of a grammar: with `random` a draw of `limit` sentences (some may come twice), without it the first
 * `limit` in the order of the grammar, every path once. Loops are followed only as far as LONGEST arcs.
 */
export function* sentencesOf(graph: WordGraph, { limit, random }: SentenceOptions): Generator<Sentence> {
  if (random) {
    for (let i = 0; i < limit; i++) yield draw(graph, random);
    return;
  }
  let left = limit;
  for (const sentence of walk(graph)) {
    if (left-- <= 0) return;
    yield sentence;
  }
}

function draw(graph: WordGraph, random: () => number): Sentence {
  const out = arcsFrom(graph);
  const sentence: Sentence = { words: [], tags: [] };
  for (let node = graph.start, steps = 0; steps < LONGEST; steps++) {
    const ways: readonly WordArc[] = out[node] ?? [];
    // at the end with ways on: stop as if that were one more way
    const pick = Math.floor(random() * (ways.length + (node === graph.end ? 1 : 0)));
    const arc = ways[pick];
    if (!arc) break;
    take(sentence, arc);
    node = arc.to;
  }
  return sentence;
}

function* walk(graph: WordGraph): Generator<Sentence> {
  const out = arcsFrom(graph);
  const path: { arcs: readonly WordArc[]; next: number }[] = [{ arcs: out[graph.start] ?? [], next: 0 }];
  const taken: WordArc[] = [];
  if (graph.start === graph.end) yield { words: [], tags: [] };
  for (let top = path.at(-1); top; top = path.at(-1)) {
    const arc = top.arcs[top.next++];
    if (!arc || taken.length >= LONGEST) {
      path.pop();
      taken.pop();
      continue;
    }
    taken.push(arc);
    path.push({ arcs: out[arc.to] ?? [], next: 0 });
    if (arc.to !== graph.end) continue;
    const sentence: Sentence = { words: [], tags: [] };
    for (const a of taken) take(sentence, a);
    yield sentence;
  }
}

function take(sentence: Sentence, arc: WordArc): void {
  if (arc.word !== null) sentence.words.push(arc.word);
  if (arc.tags) sentence.tags.push(...arc.tags);
}
