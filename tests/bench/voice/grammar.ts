import type { WordArc, WordGraph } from '../../../src/language/types.js';

/** A piece of grammar: words in a row, a choice, something optional, something repeated. */
export type Piece = string | Piece[] | { any: Piece[] } | { maybe: Piece } | { repeat: Piece; most: number };

export const any = (...pieces: Piece[]): Piece => ({ any: pieces });
export const maybe = (piece: Piece): Piece => ({ maybe: piece });
export const repeat = (piece: Piece, most: number): Piece => ({ repeat: piece, most });

/** Word graph of a piece; a string is its words in a row. */
export function graphOf(name: string, piece: Piece): WordGraph {
  const arcs: WordArc[] = [];
  let nodes = 1;
  const arc = (from: number, word: string | null, to = nodes++): number => {
    arcs.push({ from, to, word });
    return to;
  };
  const build = (p: Piece, from: number): number => {
    if (typeof p === 'string')
      return p
        .split(' ')
        .filter((w) => w !== '')
        .reduce((at, word) => arc(at, word), from);
    if (Array.isArray(p)) return p.reduce<number>((at, part) => build(part, at), from);
    const end = nodes++;
    if ('any' in p) for (const part of p.any) arc(build(part, arc(from, null)), null, end);
    else if ('maybe' in p) {
      arc(build(p.maybe, from), null, end);
      arc(from, null, end);
    } else {
      let at = from;
      for (let i = 0; i < p.most; i++) {
        at = build(p.repeat, at);
        arc(at, null, end);
      }
    }
    return end;
  };
  const end = build(piece, 0);
  return { name, nodeCount: nodes, start: 0, end, arcs };
}

/** A random sentence of a grammar; `random` gives 0 to 1. */
export function sentenceOf(graph: WordGraph, random: () => number): string {
  const from = new Map<number, WordArc[]>();
  for (const a of graph.arcs) from.set(a.from, [...(from.get(a.from) ?? []), a]);
  const words: string[] = [];
  let at = graph.start;
  for (let steps = 0; steps < 500; steps++) {
    const out = from.get(at) ?? [];
    const stops = at === graph.end ? 1 : 0;
    const pick = Math.floor(random() * (out.length + stops));
    const taken = out[pick];
    if (!taken) return words.join(' ');
    if (taken.word !== null) words.push(taken.word);
    at = taken.to;
  }
  return words.join(' ');
}
