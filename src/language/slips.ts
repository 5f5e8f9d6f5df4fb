import { distance } from 'fastest-levenshtein';
import { ANSWER_WORDS } from './languages/english/lists.js';
import { NUMBER_WORDS } from './languages/english/numbers.js';

export interface Mending {
  words: string[];
  changed: { from: string; to: string }[];
  /** too important to mend without asking */
  mustAsk: boolean;
}

/** Most sentences that one line is mended into; more slips than that are not understood. */
const MOST = 64;

/**
 * Every way to mend the words that no grammar knows: one letter wrong in a short word, two in a word of six letters
 * or more. Known words are never touched, so no number, liquid or answer turns into another.
 */
export function mendings(
  words: readonly string[],
  vocabulary: ReadonlySet<string>,
  known: ReadonlySet<string> = vocabulary,
): Mending[] {
  let all: Mending[] = [{ words: [], changed: [], mustAsk: false }];
  for (const word of words) {
    const choices = known.has(word) || vocabulary.has(word) ? [word] : candidates(word, vocabulary);
    all = all.flatMap((m) =>
      choices.map((to) => ({
        words: [...m.words, to],
        changed: to === word ? m.changed : [...m.changed, { from: word, to }],
        mustAsk: m.mustAsk || (to !== word && (NUMBER_WORDS.has(to) || ANSWER_WORDS.has(to))),
      })),
    );
    if (all.length === 0 || all.length > MOST) return [];
  }
  return all.filter((m) => m.changed.length > 0);
}

/** Known words within reach of a slip. Very short words are not guessed at: too many look alike. */
export function candidates(word: string, vocabulary: ReadonlySet<string>): string[] {
  if (word.length < 3 || !/^[a-z']+$/.test(word)) return [];
  const far = word.length >= 6 ? 2 : 1;
  const near = [...vocabulary].filter(
    (v) => v.length >= 3 && Math.abs(v.length - word.length) <= far && slipDistance(word, v) <= far,
  );
  const best = Math.min(...near.map((v) => slipDistance(word, v)));
  // a further word is only of interest when nothing is nearer
  return near.filter((v) => slipDistance(word, v) === best).sort();
}

/** Edits between two words; two neighbouring letters swapped count once. */
function slipDistance(a: string, b: string): number {
  const plain = distance(a, b);
  if (plain !== 2 || a.length !== b.length) return plain;
  const i = [...a].findIndex((c, k) => c !== b[k]);
  return a[i] === b[i + 1] && a[i + 1] === b[i] && a.slice(i + 2) === b.slice(i + 2) ? 1 : plain;
}
