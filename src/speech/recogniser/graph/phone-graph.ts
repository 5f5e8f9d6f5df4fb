import type { Acceptor } from './acceptor.js';

/**
 * A grammar as the decoder walks it. "Places" lie between phones: the first `acceptor.nodeCount` places are the
 * word boundaries, the rest lie inside words. Words that leave one boundary share their first phones (a tree).
 * Phone s leads to the place `into[s]` (−1: none) and may end words: exits exitStart[s] to exitStart[s + 1] − 1.
 * The phones that may follow place p are childStart[p] to childStart[p + 1] − 1: phones are numbered so that
 * those of one place stand together. Every place can wait in silence (CTC blank).
 */
export interface PhoneGraph {
  readonly words: readonly string[];
  readonly start: number;
  readonly placeCount: number;
  readonly phoneCount: number;
  readonly phone: Int32Array;
  readonly into: Int32Array;
  readonly childStart: Int32Array;
  readonly exitStart: Int32Array;
  readonly exitWord: Int32Array;
  readonly exitTo: Int32Array;
  readonly exitLogWeight: Float32Array;
  /** by word boundary; −Infinity where a sentence may not end */
  readonly finalLogWeight: Float64Array;
}

/** Ways to say a word, each a list of phone token numbers. */
export type Pronounce = (word: string) => readonly (readonly number[])[];

interface Branch {
  phone: number;
  children: Map<number, Branch>;
  exits: { word: number; to: number; logWeight: number }[];
}

const branch = (phone: number): Branch => ({ phone, children: new Map(), exits: [] });

/** @throws whatever `pronounce` throws for a word that cannot be said */
export function phoneGraphOf(acceptor: Acceptor, pronounce: Pronounce): PhoneGraph {
  const said = acceptor.words.map((word) => pronounce(word));
  const phone: number[] = [];
  const into: number[] = [];
  const exits: Branch['exits'][] = [];
  // a place's children must be numbered together, so places are laid out one after another, breadth first
  const places: Map<number, Branch>[] = [];
  for (let node = 0; node < acceptor.nodeCount; node++) places.push(treeAt(acceptor, node, said));
  const childStart: number[] = [];
  for (let place = 0; place < places.length; place++) {
    childStart.push(phone.length);
    for (const at of places[place]?.values() ?? []) {
      phone.push(at.phone);
      exits.push(at.exits);
      into.push(at.children.size > 0 ? places.push(at.children) - 1 : -1);
    }
  }
  childStart.push(phone.length);
  const exitStart = new Int32Array(phone.length + 1);
  exits.forEach((list, s) => {
    exitStart[s + 1] = (exitStart[s] ?? 0) + list.length;
  });
  const flat = exits.flat();
  return {
    words: acceptor.words,
    start: acceptor.start,
    placeCount: places.length,
    phoneCount: phone.length,
    phone: Int32Array.from(phone),
    into: Int32Array.from(into),
    childStart: Int32Array.from(childStart),
    exitStart,
    exitWord: Int32Array.from(flat, (e) => e.word),
    exitTo: Int32Array.from(flat, (e) => e.to),
    exitLogWeight: Float32Array.from(flat, (e) => e.logWeight),
    finalLogWeight: acceptor.finalLogWeight,
  };
}

function treeAt(
  acceptor: Acceptor,
  node: number,
  said: readonly (readonly (readonly number[])[])[],
): Map<number, Branch> {
  const root = branch(-1);
  const end = acceptor.arcStart[node + 1] ?? 0;
  for (let arc = acceptor.arcStart[node] ?? 0; arc < end; arc++) {
    const word = acceptor.arcWord[arc] ?? 0;
    for (const phones of said[word] ?? []) {
      let at = root;
      for (const id of phones) {
        let next = at.children.get(id);
        if (!next) {
          next = branch(id);
          at.children.set(id, next);
        }
        at = next;
      }
      at.exits.push({
        word,
        to: acceptor.arcTo[arc] ?? 0,
        logWeight: acceptor.arcLogWeight[arc] ?? 0,
      });
    }
  }
  return root.children;
}
