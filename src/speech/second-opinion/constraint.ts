import type { WordGraph } from '../../language/types.js';

/** What each token adds to the text. Special tokens, and those that no command can contain, add null. */
export interface TokenTable {
  readonly texts: readonly (string | null)[];
  /** the token that ends a text */
  readonly endId: number;
}

/** A place in the grammar: between words at a node, with or without the space written; or inside a word. */
interface Place {
  node: number;
  /** index of the word arc being spelt; −1 between words */
  arc: number;
  /** letters of it already spelt, or 1 when the space before the next word is written */
  offset: number;
}

/** A letter tree of all tokens, so that a step tries each beginning once. */
interface TrieNode {
  ids: number[];
  next: Map<string, TrieNode>;
}

/**
 * Keeps a text generator within a grammar: after the tokens so far, which may follow so that the text is still the
 * beginning of a sentence of the grammar. Capitals count as small letters. Pure.
 */
export class GrammarConstraint {
  private readonly trie: TrieNode = { ids: [], next: new Map() };
  private readonly closures = new Map<number, number[]>();
  private readonly wordArcs = new Map<number, number[]>();
  private readonly frees = new Map<number, number[]>();

  constructor(
    private readonly graph: WordGraph,
    private readonly table: TokenTable,
  ) {
    graph.arcs.forEach((arc, i) => {
      const lists = arc.word === null ? this.frees : this.wordArcs;
      const value = arc.word === null ? arc.to : i;
      lists.set(arc.from, [...(lists.get(arc.from) ?? []), value]);
    });
    table.texts.forEach((text, id) => {
      if (text) this.plant(text.toLowerCase(), id);
    });
  }

  /** The ids that may follow; the end token is among them where a sentence is whole. Empty: no way on. */
  allowed(ids: readonly number[]): Set<number> {
    const places = this.places(ids);
    const found = new Set<number>();
    this.gather(this.trie, places, found);
    if (places.some((place) => this.isEnd(place))) found.add(this.table.endId);
    return found;
  }

  /** Whether the tokens so far are a whole sentence of the grammar. */
  isSentence(ids: readonly number[]): boolean {
    return this.places(ids).some((place) => this.isEnd(place));
  }

  /** Sets to −∞ every logit whose token may not follow. Where nothing may, the text is ended. */
  mask(ids: readonly number[], logits: Float32Array): void {
    const allowed = this.allowed(ids);
    if (allowed.size === 0) allowed.add(this.table.endId);
    for (let id = 0; id < logits.length; id++) if (!allowed.has(id)) logits[id] = Number.NEGATIVE_INFINITY;
  }

  /** The text of the tokens, in small letters with single spaces. */
  words(ids: readonly number[]): string {
    return this.text(ids).trim().replace(/\s+/g, ' ');
  }

  private places(ids: readonly number[]): Place[] {
    const { start } = this.graph;
    let places: Place[] = [0, 1].map((offset) => ({ node: start, arc: -1, offset }));
    for (const letter of this.text(ids)) places = this.step(places, letter);
    return places;
  }

  private text(ids: readonly number[]): string {
    return ids
      .map((id) => this.table.texts[id] ?? '')
      .join('')
      .toLowerCase();
  }

  private plant(text: string, id: number): void {
    let node = this.trie;
    for (const letter of text) {
      const next = node.next.get(letter) ?? { ids: [], next: new Map() };
      node.next.set(letter, next);
      node = next;
    }
    node.ids.push(id);
  }

  private gather(node: TrieNode, places: Place[], found: Set<number>): void {
    for (const [letter, next] of node.next) {
      const after = this.step(places, letter);
      if (after.length === 0) continue;
      for (const id of next.ids) found.add(id);
      this.gather(next, after, found);
    }
  }

  private step(places: readonly Place[], letter: string): Place[] {
    const after = new Map<string, Place>();
    for (const place of places) {
      for (const next of this.follow(place, letter))
        after.set(`${next.node}/${next.arc}/${next.offset}`, next);
    }
    return [...after.values()];
  }

  private follow({ node, arc, offset }: Place, letter: string): Place[] {
    if (arc >= 0) return this.spell(arc, offset, letter);
    if (offset === 0) return letter === ' ' && this.goesOn(node) ? [{ node, arc, offset: 1 }] : [];
    return this.closure(node)
      .flatMap((n) => this.wordArcs.get(n) ?? [])
      .flatMap((i) => this.spell(i, 0, letter));
  }

  private spell(arc: number, offset: number, letter: string): Place[] {
    const { word, to = 0 } = this.graph.arcs[arc] ?? { word: null };
    if (!word || word[offset] !== letter) return [];
    return offset + 1 === word.length
      ? [{ node: to, arc: -1, offset: 0 }]
      : [{ node: to, arc, offset: offset + 1 }];
  }

  private goesOn(node: number): boolean {
    return this.closure(node).some((n) => this.wordArcs.has(n));
  }

  private isEnd({ node, arc, offset }: Place): boolean {
    return arc < 0 && offset === 0 && this.closure(node).includes(this.graph.end);
  }

  /** the nodes reached without a word */
  private closure(node: number): number[] {
    const known = this.closures.get(node);
    if (known) return known;
    const reached = new Set([node]);
    for (const n of reached) for (const to of this.frees.get(n) ?? []) reached.add(to);
    const list = [...reached];
    this.closures.set(node, list);
    return list;
  }
}
