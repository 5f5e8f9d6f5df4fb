import type { WordArc, WordGraph } from '../types.js';

/** An arc while it is being worked on: `l` stands for word, tags and weight together. */
interface Thin {
  f: number;
  t: number;
  l: number;
}

/** Labels by number; number 0 is the plain free arc. */
class Labels {
  private readonly ids = new Map<string, number>([['\u0001\u0001', 0]]);
  readonly all: Pick<WordArc, 'word' | 'tags' | 'weight'>[] = [{ word: null }];

  id({ word, tags, weight }: WordArc): number {
    const key = `${word ?? ''}\u0001${tags?.join('\u0002') ?? ''}\u0001${weight ?? ''}`;
    const known = this.ids.get(key);
    if (known !== undefined) return known;
    this.ids.set(key, this.all.length);
    this.all.push({ word, ...(tags && { tags }), ...(weight !== undefined && { weight }) });
    return this.all.length - 1;
  }
}

interface Net {
  nodes: number;
  start: number;
  end: number;
  arcs: Thin[];
}

/**
 * The same sentences with the same tags and weights in fewer nodes: dead ends go, plain free arcs are folded away,
 * and nodes with the same way on, or the same way in, become one.
 */
export function tidyGraph(graph: WordGraph): WordGraph {
  const labels = new Labels();
  const arcs = graph.arcs.map((a) => ({ f: a.from, t: a.to, l: labels.id(a) }));
  let net = dropDeadEnds({ nodes: graph.nodeCount, start: graph.start, end: graph.end, arcs });
  net = foldFree(net);
  for (let before = Number.POSITIVE_INFINITY; net.arcs.length < before; ) {
    before = net.arcs.length;
    net = reversed(mergeTwins(reversed(mergeTwins(net))));
  }
  return fatten(graph.name, net, labels);
}

/**
 * As `tidyGraph`, and tags that stand on a free arc alone move to the words before them, so that a recogniser has
 * fewer free arcs to follow. For finished graphs: parts that are still to be put together share better without.
 */
export function packTags(graph: WordGraph): WordGraph {
  const outs = new Map<number, WordArc[]>();
  for (const a of graph.arcs) outs.set(a.from, [...(outs.get(a.from) ?? []), a]);
  const onward = new Map<number, WordArc>();
  const entered = new Set(graph.arcs.filter((a) => a.word === null).map((a) => a.to));
  for (const [node, arcs] of outs) {
    const [only] = arcs;
    if (arcs.length !== 1 || only?.word !== null || only.weight !== undefined || only.to === node) continue;
    // words alone must lead here, or the tags would be left on another free arc
    if (node !== graph.start && node !== graph.end && !entered.has(node)) onward.set(node, only);
  }
  const arcs = graph.arcs.flatMap((a) => {
    if (onward.has(a.from)) return [];
    const next = onward.get(a.to);
    return [next ? { ...a, to: next.to, tags: [...(a.tags ?? []), ...(next.tags ?? [])] } : a];
  });
  return onward.size === 0 ? graph : packTags(tidyGraph({ ...graph, arcs }));
}

/** Several graphs as one: what any of them allows. It is not tidied: who follows it makes it minimal anyway, and for less. */
export function uniteGraphs(name: string, graphs: readonly WordGraph[]): WordGraph {
  const arcs: WordArc[] = [];
  let nodeCount = 2;
  for (const g of graphs) {
    arcs.push(
      { from: 0, to: g.start + nodeCount, word: null },
      { from: g.end + nodeCount, to: 1, word: null },
    );
    for (const a of g.arcs) arcs.push({ ...a, from: a.from + nodeCount, to: a.to + nodeCount });
    nodeCount += g.nodeCount;
  }
  return { name, nodeCount, start: 0, end: 1, arcs };
}

const reversed = (n: Net): Net => ({
  nodes: n.nodes,
  start: n.end,
  end: n.start,
  arcs: n.arcs.map((a) => ({ f: a.t, t: a.f, l: a.l })),
});

function outgoing(net: Net): Thin[][] {
  const out: Thin[][] = Array.from({ length: net.nodes }, () => []);
  for (const a of net.arcs) out[a.f]?.push(a);
  return out;
}

function reach(net: Net): Set<number> {
  const out = outgoing(net);
  const seen = new Set([net.start]);
  for (const node of seen) for (const a of out[node] ?? []) seen.add(a.t);
  return seen;
}

function dropDeadEnds(net: Net): Net {
  const ahead = reach(net);
  const back = reach(reversed(net));
  return { ...net, arcs: net.arcs.filter((a) => ahead.has(a.f) && back.has(a.f) && back.has(a.t)) };
}

/** Each arc once, with its ends renamed; plain loops go. */
function renamed(net: Net, name: (n: number) => number): Net {
  const seen = new Set<string>();
  const arcs: Thin[] = [];
  for (const a of net.arcs) {
    const [f, t] = [name(a.f), name(a.t)];
    if (a.l === 0 && f === t) continue;
    const key = `${f},${t},${a.l}`;
    if (seen.has(key)) continue;
    seen.add(key);
    arcs.push({ f, t, l: a.l });
  }
  return { nodes: net.nodes, start: name(net.start), end: name(net.end), arcs };
}

/** A plain free arc u→v goes when it is the only way out of u or the only way into v: u and v become one. */
function foldFree(net: Net): Net {
  const outs = new Int32Array(net.nodes);
  const ins = new Int32Array(net.nodes);
  for (const a of net.arcs) {
    outs[a.f] = (outs[a.f] ?? 0) + 1;
    ins[a.t] = (ins[a.t] ?? 0) + 1;
  }
  const become = new Map<number, number>();
  const touched = new Set<number>();
  for (const a of net.arcs) {
    if (a.l !== 0 || a.f === a.t || touched.has(a.f) || touched.has(a.t)) continue;
    // the start may be entered afresh and the end may be left for good: those are ways too
    const onlyOut = outs[a.f] === 1 && a.f !== net.end;
    const onlyIn = ins[a.t] === 1 && a.t !== net.start;
    if (!onlyOut && !onlyIn) continue;
    become.set(a.f, a.t);
    touched.add(a.f).add(a.t);
  }
  if (become.size === 0) return net;
  return foldFree(renamed(net, (n) => become.get(n) ?? n));
}

/** Nodes with the very same arcs out allow the same rest of a sentence. One pass from the end backwards. */
function mergeTwins(net: Net): Net {
  const out = outgoing(net);
  const same = new Map<string, number>();
  const become = new Map<number, number>();
  for (const node of endFirst(net, out)) {
    if (node === net.start || node === net.end) continue;
    const key = (out[node] ?? [])
      .map((a) => `${become.get(a.t) ?? a.t}:${a.l}`)
      .sort()
      .join();
    const twin = same.get(key);
    if (twin === undefined) same.set(key, node);
    else become.set(node, twin);
  }
  return become.size === 0 ? net : renamed(net, (n) => become.get(n) ?? n);
}

/** Nodes so that what an arc leads to comes before what it leaves, but for loops. */
function endFirst(net: Net, out: Thin[][]): number[] {
  const order: number[] = [];
  const seen = new Set([net.start]);
  const stack = [{ node: net.start, next: 0 }];
  for (let top = stack.at(-1); top; top = stack.at(-1)) {
    const arc = out[top.node]?.[top.next++];
    if (!arc) {
      order.push(top.node);
      stack.pop();
    } else if (!seen.has(arc.t)) {
      seen.add(arc.t);
      stack.push({ node: arc.t, next: 0 });
    }
  }
  return order;
}

/** Back to words, nodes numbered from the start on. */
function fatten(name: string, net: Net, labels: Labels): WordGraph {
  const ids = new Map<number, number>();
  const id = (n: number): number => {
    if (!ids.has(n)) ids.set(n, ids.size);
    return ids.get(n) ?? 0;
  };
  const start = id(net.start);
  const end = id(net.end);
  const out = outgoing(net);
  const arcs: WordArc[] = [];
  for (const node of ids.keys()) {
    for (const a of out[node] ?? [])
      arcs.push({ from: id(a.f), to: id(a.t), word: null, ...labels.all[a.l] });
  }
  return { name, nodeCount: ids.size, start, end, arcs };
}
