import type { Situation } from '../../../process/desk.js';
import type { Interpretation } from '../../interpretation.js';
import type { Grammars } from '../../load.js';
import { nearSentences } from '../../near.js';
import { english } from './catalogue.js';
import { CALLS } from './lists.js';

const WHAT_IF = 'what if i poured 20 millilitres of bleach into 600 millilitres of developer';
export const sayTheWords: Interpretation = {
  kind: 'nothing',
  why: 'To let a refused pour go ahead, the words are: override the guard and pour anyway.',
  near: [],
};

const TENS = '(?:twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety)';
const ONES = '(?:one|two|three|four|five|six|seven|eight|nine)';
const FAR_BOTTLE = new RegExp(
  `\\bbottle (?:number )?(?:${TENS} ${ONES}|(?!twenty)${TENS}|(?:a|${ONES}) (?:hundred|thousand)|\\d+)\\b(?! (?:degrees|point|mil|gram|liter))`,
);
const BELOW_ZERO =
  /\bminus (?:(?:a|half|\w+ty|\w+teen|ten|eleven|twelve|hundred|thousand|point|zero|and|one|two|three|four|five|six|seven|eight|nine|\d+) )+(?:mil|gram|kilo|liter|ounce|second|minute|film|roll)/;
const SCALE_BELOW_ZERO = /\b(?:scale|scales|balance) (?:\w+ )?(?:says|reads|shows|is at) minus\b/;

/** A number that nothing here can have, in a sentence that would be understood with another; undefined: there is none. */
export function impossible(plain: string): Interpretation | undefined {
  if (FAR_BOTTLE.test(plain))
    return { kind: 'nothing', why: 'Bottles have numbers from 1 to 20 here. Which one is it?', near: [] };
  if (SCALE_BELOW_ZERO.test(plain))
    return {
      kind: 'nothing',
      why: 'A reading below zero means the scale is not zeroed. Zero it and weigh again.',
      near: [],
    };
  return BELOW_ZERO.test(plain)
    ? { kind: 'nothing', why: 'There is no such amount below zero. How much is it?', near: [] }
    : undefined;
}

/** What is said of words that mean nothing here. */
export function nothing(
  words: readonly string[],
  situations: readonly Situation[],
  grammars: Grammars,
): Interpretation {
  if (words.length === 0)
    return { kind: 'nothing', why: 'There were no words. Say "help" to hear what you can say.', near: [] };
  if (CALLS.some((call) => call.join(' ') === words.join(' ')))
    return { kind: 'nothing', why: 'I am listening. Say "help" to hear what you can say.', near: [] };
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
    near[0] === undefined
      ? english.question.test(words.join(' '))
        ? 'you can ask, for example, "where are we" or "what\'s next"'
        : 'say "help" to hear what you can say'
      : `you can say, for example, "${near[0]}"`;
  return { kind: 'nothing', why: `${what}; ${how}.`, near };
}
