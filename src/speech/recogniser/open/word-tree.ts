import { STEP, type WordModel } from '../../../language/spoken/ngram.js';
import type { Pronounce } from '../graph/phone-graph.js';

/**
 * Every entry of a word model as a tree of phones, which words that begin alike share. Node 0 is the root; the children of node n are
 * childStart[n] to childStart[n + 1] − 1, and the entries that end at it exit[exitStart[n]] to exit[exitStart[n + 1] − 1].
 */
export interface WordTree {
  readonly nodes: number;
  readonly phone: Uint8Array;
  readonly childStart: Int32Array;
  readonly exitStart: Int32Array;
  readonly exit: Uint16Array;
  /** natural log of the likeliest entry at or below a node, whatever came before */
  readonly ahead: Float32Array;
}

/** The arrays of a tree, by name. */
export const TREE_ARRAYS = {
  phone: Uint8Array,
  childStart: Int32Array,
  exitStart: Int32Array,
  exit: Uint16Array,
  ahead: Float32Array,
} as const;

interface Branch {
  phone: number;
  children: Map<number, Branch>;
  exits: number[];
  ahead: number;
}

const branch = (phone: number): Branch => ({
  phone,
  children: new Map(),
  exits: [],
  ahead: Number.NEGATIVE_INFINITY,
});

/** @param pronounce may throw for a word that cannot be said: it is left out */
export function wordTreeOf(model: WordModel, pronounce: Pronounce): WordTree {
  const root = branch(0);
  for (const [entry, text] of model.entries.entries()) {
    const logProb =
      -STEP * (model.one[model.classOf[entry] as number] as number) + (model.withinLog[entry] as number);
    for (const phones of waysToSay(text, pronounce)) {
      let at = root;
      at.ahead = Math.max(at.ahead, logProb);
      for (const phone of phones) {
        const next = at.children.get(phone) ?? branch(phone);
        at.children.set(phone, next);
        next.ahead = Math.max(next.ahead, logProb);
        at = next;
      }
      at.exits.push(entry);
    }
  }
  const order = [root];
  const childStart: number[] = [];
  // the children of a node are numbered together
  for (const at of order) {
    childStart.push(order.length);
    order.push(...at.children.values());
  }
  const exitStart = new Int32Array(order.length + 1);
  for (const [i, at] of order.entries()) exitStart[i + 1] = (exitStart[i] as number) + at.exits.length;
  return {
    nodes: order.length,
    phone: Uint8Array.from(order, (b) => b.phone),
    childStart: Int32Array.from([...childStart, order.length]),
    exitStart,
    exit: Uint16Array.from(order.flatMap((b) => b.exits)),
    ahead: Float32Array.from(order, (b) => b.ahead),
  };
}

/** More ways to say a name of several words are not tried. */
const MOST_WAYS = 6;

function waysToSay(text: string, pronounce: Pronounce): readonly (readonly number[])[] {
  let ways: (readonly number[])[] = [[]];
  try {
    for (const word of text.split(' '))
      ways = ways.flatMap((head) => pronounce(word).map((tail) => [...head, ...tail])).slice(0, MOST_WAYS);
  } catch {
    return [];
  }
  return ways;
}
