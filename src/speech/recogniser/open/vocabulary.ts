import { readFileSync } from 'node:fs';
import { WORD_ARRAYS, type WordModel } from '../../../language/spoken/ngram.js';
import type { Lexicon } from '../lexicon/lexicon.js';
import { TREE_ARRAYS, type WordTree, wordTreeOf } from './word-tree.js';

/** Everything that may be said, and how likely it is. */
export interface Vocabulary {
  readonly model: WordModel;
  readonly tree: WordTree;
}

interface Head {
  classes: number;
  entries: string;
  nodes: number;
  /** the phones that the tree is of */
  phones: string;
  lengths: number[];
}

const KINDS = { ...WORD_ARRAYS, ...TREE_ARRAYS };
const NAMES = Object.keys(KINDS) as (keyof typeof KINDS)[];

/** As bytes for a file: the length of a line of JSON, the line, then each array at a multiple of 4. */
export function packVocabulary({ model, tree }: Vocabulary, phones: readonly string[]): Uint8Array {
  const all = { ...model, ...tree };
  const head: Head = {
    classes: model.classes,
    entries: model.entries.join('\n'),
    nodes: tree.nodes,
    phones: phones.join(' '),
    lengths: NAMES.map((name) => all[name].length),
  };
  const text = new TextEncoder().encode(JSON.stringify(head));
  const first = inFours(4 + text.length);
  const packed = new Uint8Array(NAMES.reduce((sum, name) => inFours(sum + all[name].byteLength), first));
  packed.set(new Uint8Array(Uint32Array.of(text.length).buffer));
  packed.set(text, 4);
  let at = first;
  for (const name of NAMES) {
    const { buffer, byteOffset, byteLength } = all[name];
    packed.set(new Uint8Array(buffer, byteOffset, byteLength), at);
    at = inFours(at + byteLength);
  }
  return packed;
}

function unpackVocabulary(packed: ArrayBuffer, phones: readonly string[], lexicon: Lexicon): Vocabulary {
  const [length = 0] = new Uint32Array(packed, 0, 1);
  const head = JSON.parse(new TextDecoder().decode(new Uint8Array(packed, 4, length))) as Head;
  let at = inFours(4 + length);
  const arrays = NAMES.map((name, i) => {
    const array = new KINDS[name](packed, at, head.lengths[i] ?? 0);
    at = inFours(at + array.byteLength);
    return [name, array];
  });
  const all = {
    ...Object.fromEntries(arrays),
    classes: head.classes,
    nodes: head.nodes,
    entries: head.entries.split('\n'),
  } as WordModel & WordTree;
  // a network of other phones has its tree made now
  const known = head.phones === phones.join(' ');
  return {
    model: all,
    tree: known ? all : wordTreeOf(all, (word) => lexicon.pronounce(word)),
  };
}

const inFours = (n: number): number => Math.ceil(n / 4) * 4;

/** Read when first wanted; null where the build left none. */
export function vocabularyFrom(
  file: string,
  phones: readonly string[],
  lexicon: Lexicon,
): () => Vocabulary | null {
  let known: Vocabulary | null | undefined;
  const read = (): Vocabulary | null => {
    let bytes: Buffer;
    try {
      bytes = readFileSync(file);
    } catch {
      return null;
    }
    const { buffer, byteOffset, byteLength } = bytes;
    const whole = buffer.slice(byteOffset, byteOffset + byteLength) as ArrayBuffer;
    return unpackVocabulary(whole, phones, lexicon);
  };
  return () => {
    if (known === undefined) known = read();
    return known;
  };
}
