import type { Situation } from '../process/desk.js';
import type { Intent } from '../process/intent.js';
import type { Grammars } from './load.js';
import type { Meaning } from './meaning/meanings.js';
import { nearSentences } from './near.js';

/** What a sentence was taken to mean. `words` is the sentence as the grammars say it. */
export type Interpretation =
  | {
      kind: 'understood';
      intent: Intent;
      words: string;
      /** the situation whose grammar has the sentence */
      situation: Situation;
      /** understood, but it belongs to a situation that is not the present one */
      outOfPlace?: true;
      /** typing slips that were mended */
      mended?: { from: string; to: string }[];
    }
  /** more than one meaning, or one that is too weighty for a mended slip: ask */
  | { kind: 'unsure'; candidates: Intent[]; words: string }
  /** `why` is a whole sentence; `near` are sentences it resembles, likeliest first */
  | { kind: 'nothing'; why: string; near: string[] };

/** One meaning is understood, several are unsure, none is `undefined`. */
export function settle(meanings: readonly Meaning[], words: readonly string[]): Interpretation | undefined {
  const [only, second] = meanings;
  if (!only) return undefined;
  if (second) return { kind: 'unsure', candidates: meanings.map((m) => m.intent), words: words.join(' ') };
  return { kind: 'understood', ...only, words: words.join(' ') };
}

const WHAT_IF = 'what if i poured 20 millilitres of bleach into 600 millilitres of developer';
export const sayTheWords: Interpretation = {
  kind: 'nothing',
  why: 'To let a refused pour go ahead, the words are: override the guard and pour anyway.',
  near: [],
};

/** What is said of words that mean nothing here. */
export function nothing(
  words: readonly string[],
  situations: readonly Situation[],
  grammars: Grammars,
): Interpretation {
  if (words.length === 0)
    return { kind: 'nothing', why: 'There were no words. Say "help" to hear what you can say.', near: [] };
  if (/^(hey |okay )?tank side$/.test(words.join(' '))) {
    return { kind: 'nothing', why: 'I am listening. Say "help" to hear what you can say.', near: [] };
  }
  if (words.some((w) => w === 'override' || w === 'anyway')) return sayTheWords;
  if (/^what (?:if|happens|would)\b/.test(words.join(' ')))
    return { kind: 'nothing', why: `Ask it with the amounts: "${WHAT_IF}".`, near: [] };
  const unknown = words.filter((w) => !grammars.vocabulary.has(w));
  const near = nearSentences(words.join(' '), situations, grammars);
  const [strange] = unknown;
  // one odd word can be what is wrong; several are another way of speaking
  const what =
    strange !== undefined && unknown.length === 1
      ? `I do not know the word "${strange.slice(0, 40)}"`
      : unknown.length > 0
        ? 'I did not understand that'
        : 'I know the words, but not the sentence';
  const how =
    near[0] === undefined ? 'say "help" to hear what you can say' : `you can say, for example, "${near[0]}"`;
  return { kind: 'nothing', why: `${what}; ${how}.`, near };
}
