import type { WordGraph } from '../../../language/types.js';

/**
 * A word graph made deterministic and minimal: at most one arc per word (and weight) leaves a node. Arcs of node
 * n are those from arcStart[n] to arcStart[n + 1] − 1. Weights are natural logarithms, ≤ 0.
 */
export interface Acceptor {
  readonly nodeCount: number;
  readonly start: number;
  readonly words: readonly string[];
  readonly arcStart: Int32Array;
  readonly arcWord: Int32Array;
  readonly arcTo: Int32Array;
  readonly arcLogWeight: Float64Array;
  /** −Infinity where a sentence may not end */
  readonly finalLogWeight: Float64Array;
}

interface Arc {
  word: number;
  to: number;
  logWeight: number;
}

interface Draft {
  start: number;
  arcs: Arc[][];
  final: number[];
}

/** Beyond this growth over the source graph, determinising is given up and the free-arc-less graph is kept. */
const MAX_GROWTH = 8;

const made = new WeakMap<WordGraph, Acceptor>();

/**
 * Removes free arcs, makes the graph deterministic, merges equal tails and drops dead ends. Accepts the same
 * sentences with the same weights. Within one node the likeliest alternative is free and the others pay. Kept as long as the word graph
 * lives: both recognisers want it.
 * @throws Error when an arc's word is empty, an arc points outside the graph, or a weight is not above 0
 */
export function acceptorOf(graph: WordGraph): Acceptor {
  const known = made.get(graph);
  if (known) return known;
  const words: string[] = [];
  const plain = trimmed(withoutFreeArcs(graph, words));
  const acceptor = packed(minimised(determinised(plain) ?? plain), words);
  made.set(graph, acceptor);
  return acceptor;
}

/** Whether the words are a sentence, and whether a sentence may go on after them; null when none begins with them. */
export function walked(
  acceptor: Acceptor,
  words: readonly string[],
): { whole: boolean; mayGoOn: boolean } | null {
  const { arcStart, arcWord, arcTo, finalLogWeight } = acceptor;
  let nodes = new Set([acceptor.start]);
  for (const word of words) {
    const next = new Set<number>();
    for (const node of nodes)
      for (let a = arcStart[node] as number; a < (arcStart[node + 1] as number); a++)
        if (acceptor.words[arcWord[a] as number] === word) next.add(arcTo[a] as number);
    nodes = next;
  }
  if (nodes.size === 0) return null;
  const any = (test: (node: number) => boolean): boolean => [...nodes].some(test);
  return {
    whole: any((n) => (finalLogWeight[n] as number) > Number.NEGATIVE_INFINITY),
    mayGoOn: any((n) => (arcStart[n + 1] as number) > (arcStart[n] as number)),
  };
}

function withoutFreeArcs(graph: WordGraph, words: string[]): Draft {
  const n = graph.nodeCount;
  const wordArcs: Arc[][] = Array.from({ length: n }, () => []);
  const free: { to: number; logWeight: number }[][] = Array.from({ length: n }, () => []);
  const heaviest = new Float64Array(n);
  const ids = new Map<string, number>();
  for (const { from, to, word, weight = 1 } of graph.arcs) {
    if (!(from >= 0 && from < n && to >= 0 && to < n))
      throw new Error(
        `Grammar "${graph.name}": an arc goes from ${from} to ${to}, but the nodes are 0 to ${n - 1}.`,
      );
    if (!(weight > 0))
      throw new Error(
        `Grammar "${graph.name}": weight ${weight} on "${word ?? ''}"; weights must be above 0.`,
      );
    if (word === '') throw new Error(`Grammar "${graph.name}": an arc carries an empty word.`);
    heaviest[from] = Math.max(heaviest[from] ?? 0, weight);
  }
  for (const { from, to, word, weight = 1 } of graph.arcs) {
    const logWeight = Math.log(weight / (heaviest[from] ?? 1));
    if (word === null) {
      free[from]?.push({ to, logWeight });
      continue;
    }
    let id = ids.get(word);
    if (id === undefined) {
      id = words.push(word) - 1;
      ids.set(word, id);
    }
    wordArcs[from]?.push({ word: id, to, logWeight });
  }
  const arcs: Arc[][] = [];
  const final: number[] = [];
  // only nodes that a word leads to (and the start) matter once free arcs are folded into the arcs after them
  const entered = new Uint8Array(n);
  entered[graph.start] = 1;
  for (const list of wordArcs) for (const arc of list) entered[arc.to] = 1;
  for (let node = 0; node < n; node++) {
    const out: Arc[] = [];
    let end = Number.NEGATIVE_INFINITY;
    if (entered[node]) {
      const reached = freeReach(node, free);
      for (const [at, weightTo] of reached) {
        if (at === graph.end) end = Math.max(end, weightTo);
        for (const arc of wordArcs[at] ?? []) out.push({ ...arc, logWeight: weightTo + arc.logWeight });
      }
    }
    arcs.push(heaviestOnly(out));
    final.push(end);
  }
  return { start: graph.start, arcs, final };
}

/** Nodes reachable over free arcs with the best log weight; weights are ≤ 0, so loops never gain. */
function freeReach(from: number, free: { to: number; logWeight: number }[][]): Map<number, number> {
  const best = new Map([[from, 0]]);
  const queue = [from];
  for (let at = queue.pop(); at !== undefined; at = queue.pop()) {
    const here = best.get(at) ?? 0;
    for (const { to, logWeight } of free[at] ?? []) {
      const there = here + logWeight;
      if (there > (best.get(to) ?? Number.NEGATIVE_INFINITY) + 1e-12) {
        best.set(to, there);
        queue.push(to);
      }
    }
  }
  return best;
}

function heaviestOnly(arcs: Arc[]): Arc[] {
  const best = new Map<string, Arc>();
  for (const arc of arcs) {
    const key = `${arc.word}>${arc.to}`;
    const known = best.get(key);
    if (!known || known.logWeight < arc.logWeight) best.set(key, arc);
  }
  return [...best.values()];
}

/** Keeps what can be reached from the start and can reach an end. */
function trimmed(draft: Draft): Draft {
  const back: number[][] = draft.arcs.map(() => []);
  draft.arcs.forEach((list, from) => {
    for (const arc of list) back[arc.to]?.push(from);
  });
  const flood = (seeds: number[], next: (node: number) => number[]): Set<number> => {
    const seen = new Set(seeds);
    const queue = [...seeds];
    for (let at = queue.pop(); at !== undefined; at = queue.pop())
      for (const to of next(at))
        if (!seen.has(to)) {
          seen.add(to);
          queue.push(to);
        }
    return seen;
  };
  const ends = draft.final.flatMap((w, node) => (w > Number.NEGATIVE_INFINITY ? [node] : []));
  const alive = flood(ends, (node) => back[node] ?? []);
  const reached = flood([draft.start], (node) => (draft.arcs[node] ?? []).map((arc) => arc.to));
  const keep = [...reached].filter((node) => alive.has(node) || node === draft.start);
  const renamed = new Map(keep.map((node, i) => [node, i]));
  return {
    start: renamed.get(draft.start) ?? 0,
    arcs: keep.map((node) =>
      (draft.arcs[node] ?? []).flatMap((arc) => {
        const to = renamed.get(arc.to);
        return to === undefined ? [] : [{ ...arc, to }];
      }),
    ),
    final: keep.map((node) => draft.final[node] ?? Number.NEGATIVE_INFINITY),
  };
}

/** Subset construction; an arc's label is its word and weight together, so weights stay exact. */
function determinised(draft: Draft): Draft | null {
  const limit = MAX_GROWTH * draft.arcs.length + 64;
  const labels = new Map<string, number>();
  const ids = new Map<string, number>();
  const sets: number[][] = [];
  const idOf = (set: number[]): number => {
    const key = set.join(',');
    let id = ids.get(key);
    if (id === undefined) {
      id = sets.push(set) - 1;
      ids.set(key, id);
    }
    return id;
  };
  idOf([draft.start]);
  const arcs: Arc[][] = [];
  const final: number[] = [];
  for (let at = 0; at < sets.length; at++) {
    if (sets.length > limit) return null;
    const byLabel = new Map<number, { arc: Arc; to: Set<number> }>();
    let end = Number.NEGATIVE_INFINITY;
    for (const node of sets[at] ?? []) {
      end = Math.max(end, draft.final[node] ?? Number.NEGATIVE_INFINITY);
      for (const arc of draft.arcs[node] ?? []) {
        const text = arc.logWeight === 0 ? `${arc.word}` : `${arc.word}/${arc.logWeight.toFixed(9)}`;
        let label = labels.get(text);
        if (label === undefined) {
          label = labels.size;
          labels.set(text, label);
        }
        const entry = byLabel.get(label);
        if (entry) entry.to.add(arc.to);
        else byLabel.set(label, { arc, to: new Set([arc.to]) });
      }
    }
    arcs.push(
      [...byLabel.values()].map(({ arc, to }) => ({
        word: arc.word,
        logWeight: arc.logWeight,
        to: idOf([...to].sort((a, b) => a - b)),
      })),
    );
    final.push(end);
  }
  return { start: 0, arcs, final };
}

/** Merges nodes with the same future. */
function minimised(draft: Draft): Draft {
  const order = leavesFirst(draft);
  const { classes, count } = order ? classesOf(draft, order) : refined(draft);
  const arcs: Arc[][] = Array.from({ length: count }, () => []);
  const final = new Array<number>(count).fill(Number.NEGATIVE_INFINITY);
  const done = new Uint8Array(count);
  for (let node = 0; node < draft.arcs.length; node++) {
    const id = classes[node] ?? 0;
    if (done[id]) continue;
    done[id] = 1;
    final[id] = draft.final[node] ?? Number.NEGATIVE_INFINITY;
    arcs[id] = heaviestOnly((draft.arcs[node] ?? []).map((a) => ({ ...a, to: classes[a.to] ?? 0 })));
  }
  return { start: classes[draft.start] ?? 0, arcs, final };
}

interface Classes {
  classes: Int32Array;
  count: number;
}

/** One pass over `order`; right only when every node comes after all that it leads to. */
function classesOf(draft: Draft, order: readonly number[], before?: Classes): Classes {
  const classes = new Int32Array(draft.arcs.length);
  const ids = new Map<string, number>();
  for (const node of order) {
    const tails = (draft.arcs[node] ?? [])
      .map(
        (a) => `${a.word}${a.logWeight === 0 ? '' : `/${a.logWeight}`}>${(before?.classes ?? classes)[a.to]}`,
      )
      .sort()
      .join(' ');
    const key = `${before?.classes[node] ?? ''}|${draft.final[node]}|${tails}`;
    let id = ids.get(key);
    if (id === undefined) {
      id = ids.size;
      ids.set(key, id);
    }
    classes[node] = id;
  }
  return { classes, count: ids.size };
}

/** With loops there is no such order: a partition is refined until it stands still. */
function refined(draft: Draft): Classes {
  const order = draft.arcs.map((_, node) => node);
  let now: Classes = { classes: new Int32Array(draft.arcs.length), count: 1 };
  for (;;) {
    const next = classesOf(draft, order, now);
    if (next.count === now.count) return next;
    now = next;
  }
}

/** Nodes so that each comes after all that it leads to; null when the graph has a loop. */
function leavesFirst(draft: Draft): number[] | null {
  const waiting = new Int32Array(draft.arcs.length);
  const back: number[][] = draft.arcs.map(() => []);
  draft.arcs.forEach((list, from) => {
    waiting[from] = list.length;
    for (const arc of list) back[arc.to]?.push(from);
  });
  const order = draft.arcs.flatMap((list, node) => (list.length === 0 ? [node] : []));
  for (const node of order)
    for (const from of back[node] ?? []) {
      const left = (waiting[from] ?? 0) - 1;
      waiting[from] = left;
      if (left === 0) order.push(from);
    }
  return order.length === draft.arcs.length ? order : null;
}

function packed(draft: Draft, words: string[]): Acceptor {
  const total = draft.arcs.reduce((sum, list) => sum + list.length, 0);
  const out = {
    nodeCount: draft.arcs.length,
    start: draft.start,
    words,
    arcStart: new Int32Array(draft.arcs.length + 1),
    arcWord: new Int32Array(total),
    arcTo: new Int32Array(total),
    arcLogWeight: new Float64Array(total),
    finalLogWeight: Float64Array.from(draft.final),
  };
  let at = 0;
  draft.arcs.forEach((list, node) => {
    out.arcStart[node] = at;
    for (const arc of list) {
      out.arcWord[at] = arc.word;
      out.arcTo[at] = arc.to;
      out.arcLogWeight[at] = arc.logWeight;
      at++;
    }
  });
  out.arcStart[draft.arcs.length] = at;
  return out;
}
