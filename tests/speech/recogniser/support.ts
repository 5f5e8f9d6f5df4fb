import { join } from 'node:path';
import type { WordGraph } from '../../../src/language/types.js';
import { modelsDir } from '../../../src/speech/installed.js';
import type { Posteriors } from '../../../src/speech/recogniser/acoustics/posteriors.js';
import { Tokens } from '../../../src/speech/recogniser/acoustics/tokens.js';

/** Ten made-up phones, the blank first; a word's letters are its phones. */
export const letters = ['_', 'a', 'b', 'c', 'd', 'e', 'f', 'g', 'h', 'i'];
export const tokens = new Tokens(letters);
export const spell = (word: string): number[][] => [[...word].map((l) => letters.indexOf(l))];

/** Frames that each favour one token: "a_b" is a, blank, b; `sure` is that token's probability. */
export function frames(favoured: string, sure = 0.9): Posteriors {
  const logProb = new Float32Array(favoured.length * letters.length).fill(
    Math.log((1 - sure) / (letters.length - 1)),
  );
  [...favoured].forEach((l, t) => {
    logProb[t * letters.length + letters.indexOf(l)] = Math.log(sure);
  });
  return { frames: favoured.length, tokens: letters.length, logProb, frameMs: 20 };
}

/** A grammar of whole sentences, each with its own arcs: nothing shared, free arcs at both ends. */
export function sentences(...list: string[]): WordGraph {
  const arcs: { from: number; to: number; word: string | null }[] = [];
  let nodes = 2;
  for (const sentence of list) {
    let at = nodes++;
    arcs.push({ from: 0, to: at, word: null });
    for (const word of sentence.split(' ').filter((w) => w !== '')) {
      arcs.push({ from: at, to: nodes, word });
      at = nodes++;
    }
    arcs.push({ from: at, to: 1, word: null });
  }
  return { name: 'test', nodeCount: nodes, start: 0, end: 1, arcs };
}

export const lexiconFiles = {
  ownWords: join(modelsDir(), 'lexicon', 'trade-words.dict'),
  letterRules: join(modelsDir(), 'lexicon', 'letter-to-sound.json'),
};
