import type { Situation } from '../../process/desk.js';
import type { Interpretation } from '../interpretation.js';
import type { Grammars } from '../load.js';
import { distinct, meaningsHere } from '../meaning/meanings.js';
import { isQuestion } from '../meaning/weight.js';
import { fitted } from './as-typed.js';

const DOUBTING =
  /\b(?:not|no|never|nearly|almost|half|maybe|if|before|after|when|should|wish|was|were|think|or|anyway|override|\w+n't)\b/;
const MOST_WORDS = 9;

/** A question with up to two words too many; only questions are answered so, for nothing can come of them. */
export function withSpareWords(
  plain: string,
  situations: readonly Situation[],
  grammars: Grammars,
): Interpretation | undefined {
  const words = plain.split(' ').filter(Boolean);
  if (DOUBTING.test(plain) || words.length < 3 || words.length > MOST_WORDS) return undefined;
  const shorter = (list: string[]): string[][] => list.map((_, i) => list.filter((_w, k) => k !== i));
  const once = shorter(words);
  for (const lines of [once, once.flatMap(shorter)]) {
    const meanings = distinct(
      lines.flatMap((l) => {
        const said = fitted(l, grammars);
        return said.length < 2 ? [] : meaningsHere(said, situations, grammars, true);
      }),
    );
    const [only, second] = meanings;
    if (only && !second && isQuestion(only.intent)) return { kind: 'understood', ...only, words: plain };
    if (only) return undefined;
  }
  return undefined;
}
