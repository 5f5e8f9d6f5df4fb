import type { WordGraph } from '../../src/language/types.js';
import { arcsFrom } from '../../src/language/walk.js';

/** How many sentences (paths) a grammar has; Infinity when it loops. */
export function countSentences(graph: WordGraph): number {
  const out = arcsFrom(graph);
  const counts = new Map<number, number>();
  const open = new Set<number>();
  const count = (node: number): number => {
    const known = counts.get(node);
    if (known !== undefined) return known;
    if (open.has(node)) return Number.POSITIVE_INFINITY;
    open.add(node);
    let sum = node === graph.end ? 1 : 0;
    for (const a of out[node] ?? []) sum += count(a.to);
    open.delete(node);
    counts.set(node, sum);
    return sum;
  };
  return count(graph.start);
}
