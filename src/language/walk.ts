import { MAY_HAVE, MAY_LACK } from './languages/english/lists.js';
import type { WordArc, WordGraph } from './types.js';

/** Arcs by the node they leave; kept with the graph, which never changes. */
const indexes = new WeakMap<WordGraph, WordArc[][]>();

export function arcsFrom(graph: WordGraph): readonly (readonly WordArc[])[] {
  let index = indexes.get(graph);
  if (!index) {
    const out: WordArc[][] = Array.from({ length: graph.nodeCount }, () => []);
    for (const a of graph.arcs) out[a.from]?.push(a);
    index = out;
    indexes.set(graph, index);
  }
  return index;
}

export interface WalkOptions {
  /** let fillers stand where the grammar has none, and articles and "of" be missing */
  loose?: boolean;
}

/** Most paths that are looked at; our own grammars stay far below. */
const MOST_PATHS = 256;

interface Step {
  to: number;
  tags: readonly string[];
}

/**
 * The tags of every path through the graph that says exactly these words, each list once, in a fixed order.
 * Empty when the grammar cannot say them.
 */
export function tagPaths(
  graph: WordGraph,
  words: readonly string[],
  { loose = false }: WalkOptions = {},
): string[][] {
  const width = words.length + 1;
  const goal = graph.end * width + words.length;
  const steps = possibleSteps(graph, words, loose);
  const useful = leadingTo(goal, steps);
  const start = graph.start * width;
  if (!useful.has(start)) return [];

  const found = new Map<string, string[]>();
  const onPath = new Set<number>();
  const follow = (state: number, tags: string[]): void => {
    if (found.size >= MOST_PATHS) return;
    if (state === goal) found.set(tags.join('\u0001'), tags);
    onPath.add(state);
    for (const step of steps.get(state) ?? []) {
      // a state met again on the same path went round a loop of free arcs
      if (useful.has(step.to) && !onPath.has(step.to)) follow(step.to, [...tags, ...step.tags]);
    }
    onPath.delete(state);
  };
  follow(start, []);
  return [...found.values()];
}

/** States are (node, words said so far) as node × width + count. */
function possibleSteps(graph: WordGraph, words: readonly string[], loose: boolean): Map<number, Step[]> {
  const width = words.length + 1;
  const out = arcsFrom(graph);
  const steps = new Map<number, Step[]>();
  const queue = [graph.start * width];
  for (let state = queue.pop(); state !== undefined; state = queue.pop()) {
    if (steps.has(state)) continue;
    const [node, said] = [Math.floor(state / width), state % width];
    const word = words[said];
    const here: Step[] = [];
    for (const a of out[node] ?? []) {
      if (a.word === null || (loose && !a.tags && MAY_LACK.has(a.word))) {
        here.push({ to: a.to * width + said, tags: a.tags ?? [] });
      }
      if (a.word !== null && a.word === word) here.push({ to: a.to * width + said + 1, tags: a.tags ?? [] });
    }
    if (loose && word !== undefined && MAY_HAVE.has(word)) here.push({ to: state + 1, tags: [] });
    steps.set(state, here);
    for (const s of here) queue.push(s.to);
  }
  return steps;
}

function leadingTo(goal: number, steps: ReadonlyMap<number, readonly Step[]>): Set<number> {
  const back = new Map<number, number[]>();
  for (const [from, list] of steps) {
    for (const { to } of list) {
      const known = back.get(to);
      if (known) known.push(from);
      else back.set(to, [from]);
    }
  }
  const useful = new Set([goal]);
  for (const state of useful) for (const from of back.get(state) ?? []) useful.add(from);
  return useful;
}
