import { distance } from 'fastest-levenshtein';
import type { Situation } from '../process/desk.js';
import { helpEntries } from './help.js';
import { normaliseTyped } from './languages/english/typed.js';
import type { Grammars } from './load.js';

/** How alike two sentences must be to be offered, 0 to 1. */
const ALIKE = 0.4;
const MOST = 3;

/** The help sentences most like this one, likeliest first. */
export function nearSentences(said: string, situations: readonly Situation[], grammars: Grammars): string[] {
  return examplesIn(situations, grammars)
    .map(({ sentence, plain }) => ({ sentence, alike: likeness(said, plain) }))
    .filter((s) => s.alike >= ALIKE)
    .sort((a, b) => b.alike - a.alike || a.sentence.localeCompare(b.sentence))
    .slice(0, MOST)
    .map((s) => s.sentence);
}

const known = new WeakMap<Grammars, Map<string, readonly { sentence: string; plain: string }[]>>();

/** The help sentences of these situations, and how they would be typed; made once. */
function examplesIn(situations: readonly Situation[], grammars: Grammars) {
  const ofGrammars = known.get(grammars) ?? new Map<string, readonly { sentence: string; plain: string }[]>();
  known.set(grammars, ofGrammars);
  const key = situations.join();
  const found =
    ofGrammars.get(key) ??
    [...new Set(helpEntries(situations, grammars).flatMap((e) => e.examples))].map((sentence) => ({
      sentence,
      plain: normaliseTyped(sentence),
    }));
  ofGrammars.set(key, found);
  return found;
}

/** Half by letters, half by words in common. */
function likeness(a: string, b: string): number {
  const letters = 1 - distance(a, b) / Math.max(a.length, b.length, 1);
  const [wordsA, wordsB] = [new Set(a.split(' ')), new Set(b.split(' '))];
  const shared = [...wordsA].filter((w) => wordsB.has(w)).length;
  return letters / 2 + shared / (wordsA.size + wordsB.size - shared || 1) / 2;
}
