import type { WordArc, WordGraph } from '../types.js';

/**
 * The same sentences with the same tags and weights in fewer nodes: dead ends go, plain free arcs are folded away,
 * and nodes with the same way in or the same way out become one.
 */
export function tidyGraph(graph: WordGraph): WordGraph {
  let g = dropDeadEnds(foldFree(dropDeadEnds(graph)));
  for (let last = Number.POSITIVE_INFINITY; g.arcs.length < last; ) {
    last = g.arcs.length;
    g = mergeTwins(mergeTwins(g, 'out'), 'in');
  }
  return renumber(g);
}

/** Several graphs as one: what any of them allows. */
export function uniteGraphs(name: string, graphs: readonly WordGraph[]): WordGraph {
  const arcs: WordArc[] = [];
  let nodeCount = 2;
  for (const g of graphs) {
    const shift = nodeCount;
    const map = (n: number): number => (n === g.end ? 1 : n + shift);
    arcs.push({ from: 0, to: map(g.start), word: null });
    for (const a of g.arcs) {
      // an end with a way onward (a loop at the end) keeps its own node
      arcs.push({ ...a, from: a.from + shift, to: map(a.to) });
      if (a.to === g.end && g.arcs.some((b) => b.from === g.end)) arcs.push({ ...a, from: a.from + shift, to: a.to + shift });
    }
    if (g.start === g.end) arcs.push({ from: g.start + shift, to: 1, word: null });
    nodeCount += g.nodeCount;
  }
  return tidyGraph({ name, nodeCount, start: 0, end: 1, arcs });
}

function reach(start: number, arcs: readonly WordArc[], from: 'from' | 'to', to: 'from' | 'to'): Set<number> {
  const next = new Map<number, number[]>();
  for (const a of arcs) {
    const list = next.get(a[from]);
    if (list) list.push(a[to]);
    else next.set(a[from], [a[to]]);
  }
  const seen = new Set([start]);
  for (const node of seen) for (const n of next.get(node) ?? []) seen.add(n);
  return seen;
}

function dropDeadEnds(g: WordGraph): WordGraph {
  const ahead = reach(g.start, g.arcs, 'from', 'to');
  const back = reach(g.end, g.arcs, 'to', 'from');
  return { ...g, arcs: g.arcs.filter((a) => ahead.has(a.from) && back.has(a.from) && back.has(a.to)) };
}

const isPlain = (a: WordArc): boolean => a.word === null && !a.tags && a.weight === undefined;

/** A plain free arc u→v goes when it is the only way out of u or the only way into v: u and v become one. */
function foldFree(g: WordGraph): WordGraph {
  const parent = Array.from({ length: g.nodeCount }, (_, i) => i);
  const find = (n: number): number => {
    let root = n;
    while ((parent[root] ?? root) !== root) root = parent[root] ?? root;
    parent[n] = root;
    return root;
  };
  let arcs = [...g.arcs];
  for (let changed = true; changed; ) {
    changed = false;
    const outs = new Map<number, number>();
    const ins = new Map<number, number>();
    for (const a of arcs) {
      outs.set(a.from, (outs.get(a.from) ?? 0) + 1);
      ins.set(a.to, (ins.get(a.to) ?? 0) + 1);
    }
    const touched = new Set<number>();
    for (const a of arcs) {
      if (!isPlain(a) || a.from === a.to || touched.has(a.from) || touched.has(a.to)) continue;
      // the start may be entered afresh and the end may be left for good: neither counts as the only way
      const onlyOut = outs.get(a.from) === 1 && a.from !== find(g.end);
      const onlyIn = ins.get(a.to) === 1 && a.to !== find(g.start);
      if (!onlyOut && !onlyIn) continue;
      parent[a.from] = a.to;
      touched.add(a.from).add(a.to);
      changed = true;
    }
    if (changed) {
      arcs = distinct(
        arcs
          .map((a) => ({ ...a, from: find(a.from), to: find(a.to) }))
          .filter((a) => !(isPlain(a) && a.from === a.to)),
      );
    }
  }
  return { ...g, start: find(g.start), end: find(g.end), arcs };
}

const label = (a: WordArc): string => `${a.word ?? ''}\u0001${a.word === null ? 0 : 1}\u0001${(a.tags ?? []).join('\u0002')}\u0001${a.weight ?? 1}`;

function distinct(arcs: WordArc[]): WordArc[] {
  const seen = new Map<string, WordArc>();
  for (const a of arcs) seen.set(`${a.from}>${a.to}\u0001${label(a)}`, a);
  return [...seen.values()];
}

/** Nodes with the very same arcs out (or in) allow the same rest (or beginning) of a sentence. */
function mergeTwins(g: WordGraph, way: 'out' | 'in'): WordGraph {
  const [near, far] = way === 'out' ? (['from', 'to'] as const) : (['to', 'from'] as const);
  const byNode = new Map<number, string[]>();
  for (const a of g.arcs) {
    const key = `${a[far]}\u0001${label(a)}`;
    const list = byNode.get(a[near]);
    if (list) list.push(key);
    else byNode.set(a[near], [key]);
  }
  const same = new Map<string, number>();
  const map = new Map<number, number>();
  for (const [node, keys] of byNode) {
    if (node === g.start || node === g.end) continue;
    const key = keys.sort().join('\u0003');
    const twin = same.get(key);
    if (twin === undefined) same.set(key, node);
    else map.set(node, twin);
  }
  if (map.size === 0) return g;
  const to = (n: number): number => map.get(n) ?? n;
  return mergeTwins({ ...g, arcs: distinct(g.arcs.map((a) => ({ ...a, from: to(a.from), to: to(a.to) }))) }, way);
}

function renumber(g: WordGraph): WordGraph {
  const ids = new Map<number, number>();
  const id = (n: number): number => {
    const known = ids.get(n);
    if (known !== undefined) return known;
    ids.set(n, ids.size);
    return ids.size - 1;
  };
  const start = id(g.start);
  const arcs = g.arcs.map((a) => ({ ...a, from: id(a.from), to: id(a.to) })).sort((a, b) => a.from - b.from || a.to - b.to);
  return { name: g.name, nodeCount: ids.size + (ids.has(g.end) ? 0 : 1), start, end: id(g.end), arcs };
}
