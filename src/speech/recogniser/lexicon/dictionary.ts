import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';

/**
 * The CMU Pronouncing Dictionary from npm, 135 000 entries. Importing it would cost 40 MB of strings and most of
 * the start-up time, so its file is kept as bytes with a table of line positions, and only the words asked for
 * become strings.
 */
export interface Dictionary {
  readonly size: number;
  /** every listed pronunciation, stress digits kept: "F IH0 F T IY1 N"; empty when the word is not listed */
  find(word: string): string[];
}

const SLOTS = 1 << 19;
const NEWLINE = 10;
const QUOTE = 34;
const FEWEST_CREDIBLE = 100_000;

let loaded: Dictionary | null = null;

/** @throws Error when the package is missing or laid out in a way this reader does not know */
export function dictionary(): Dictionary {
  loaded ??= open();
  return loaded;
}

function open(): Dictionary {
  const bytes = readBytes();
  const table = new Int32Array(SLOTS).fill(-1);
  let size = 0;
  // every entry is a line of its own:   "word": "P H O N E S",
  for (let at = bytes.indexOf(NEWLINE); at >= 0; at = bytes.indexOf(NEWLINE, at + 1)) {
    let key = at + 1;
    while (bytes[key] === 32) key++;
    if (bytes[key] !== QUOTE) continue;
    key++;
    let hash = SEED;
    let end = key;
    for (; bytes[end] !== QUOTE && end < bytes.length; end++) hash = stir(hash, bytes[end] as number);
    let slot = hash & (SLOTS - 1);
    while (table[slot] !== -1) slot = (slot + 1) & (SLOTS - 1);
    table[slot] = key;
    size++;
  }
  if (size < FEWEST_CREDIBLE)
    throw new Error(
      `The pronouncing dictionary holds ${size} readable entries where 130 000 are expected; run npm ci to restore it.`,
    );
  const one = (word: string): string | null => {
    const wanted = Buffer.from(word, 'utf8');
    let hash = SEED;
    for (const byte of wanted) hash = stir(hash, byte);
    for (let slot = hash & (SLOTS - 1); ; slot = (slot + 1) & (SLOTS - 1)) {
      const at = table[slot] as number;
      if (at === -1) return null;
      const end = at + wanted.length;
      if (bytes[end] !== QUOTE || wanted.compare(bytes, at, end) !== 0) continue;
      const open = bytes.indexOf(QUOTE, end + 1);
      // some entries end with a remark: "F IH1 N EH1 # irish"
      return bytes.toString('utf8', open + 1, bytes.indexOf(QUOTE, open + 1)).replace(/ *#.*$/, '');
    }
  };
  return {
    size,
    find(word) {
      const first = one(word);
      if (first === null) return [];
      const all = [first];
      for (let n = 2; ; n++) {
        const more = one(`${word}(${n})`);
        if (more === null) return all;
        all.push(more);
      }
    },
  };
}

const SEED = 0x811c9dc5;
const stir = (hash: number, byte: number): number => Math.imul(hash ^ byte, 0x01000193) >>> 0;

function readBytes(): Buffer {
  try {
    return readFileSync(createRequire(import.meta.url).resolve('cmu-pronouncing-dictionary'));
  } catch (cause) {
    throw new Error(
      'The pronouncing dictionary (cmu-pronouncing-dictionary) is not installed; run npm ci to restore it.',
      { cause },
    );
  }
}
