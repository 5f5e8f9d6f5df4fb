import { limits } from '../../../limits.js';
import type { Intent } from '../../../process/intent.js';
import type { Grammars } from '../../load.js';
import { factsIn, isDeed } from '../../meaning/weight.js';
import { type Slot, slotSpotter } from '../../open/slots.js';
import { asking, repaired, spelledOut } from '../../open/understand.js';
import { english } from './catalogue.js';
import { CORRECTIONS, clausesOf } from './clauses.js';
import { normaliseTyped } from './typed.js';

/** Told beside what is asked. */
const IS_SO_WARM =
  /^(?:(?:and|but|so|because|since|as) )*(?:it|that|(?:the |my )?(?:\w+ )?\w+)(?:'s| is| was| reads| shows)(?: \w+){1,6}$/;
/** What is told by an amount; a small whole number without a unit may stand for anything. */
const AMOUNTS = new Set(['_mass', '_volume', '_duration', '_degrees', '_num', '_bottle']);
/** What keeps the words themselves, or says what was not meant. */
const KEEPS_WORDS = new Set<Intent['type']>(['note', 'remind', 'bottle-named', 'correct', 'films']);
/** Such a clause tells of no amount that is to be kept. */
const NOT_TOLD = /\b(?:no|not|never|n't|sorry|meant|or|if|said|says|almost|nearly|instead|sure)\b|n't\b/;
/** So close a number is the same, once rounded, as a share of it. */
const SAME = 0.011;

/** A clause of a line, with its slots; of two values with a repair between them the later one. */
export interface ToldClause {
  said: string;
  asked: boolean;
  words: readonly string[];
  slots: readonly Slot[];
}
export const toldIn = (line: string, grammars: Grammars): readonly ToldClause[] =>
  clausesOf(line).map((clause) => {
    const said = normaliseTyped(clause);
    const spotted = repaired(slotSpotter(grammars)(spelledOut(said.split(' ').filter(Boolean))));
    return { said, asked: clause.trim().endsWith('?'), words: spotted.words, slots: spotted.slots };
  });

/** The amounts and bottles of a line that what is done because of it has nothing of, as they were said; null: it has all. */
export function leftOut(
  clauses: readonly ToldClause[],
  meant: Intent,
  due: readonly Intent[],
): string | null {
  const facts = factsIn(meant);
  const advised = facts.every((f) => f.type === 'ask-advice');
  if (!(advised || facts.some(isDeed)) || facts.some((f) => KEEPS_WORDS.has(f.type))) return null;
  const kept = numbersIn([meant, due]);
  const isKept = (n: number): boolean => kept.some((k) => Math.abs(k - n) <= SAME * Math.abs(n));
  const lost = clauses.flatMap(({ said, asked, words, slots }, i) => {
    if (advised && !IS_SO_WARM.test(said)) return [];
    if (asked || NOT_TOLD.test(said) || CORRECTIONS.replaces.test(clauses[i + 1]?.said ?? '')) return [];
    return slots
      .filter((slot) => tellsAmount(slot) && !numbersIn(slot.fields).every(isKept))
      .map(({ from, to, fields }) => ({
        said: words.slice(from, to).join(' '),
        each: numbersIn(fields)[0] ?? 0,
      }));
  });
  // "1 gram and 0.2", "two goes of 5": together they are what was kept
  const sum = lost.reduce((all, { each }) => all + each, 0);
  if (
    lost.length > 0 &&
    facts.every((f) => f.type === 'reading') &&
    [1, 2, 3, 4].some((n) => isKept(n * sum))
  )
    return null;
  return lost.length === 0 ? null : lost.map(({ said }) => said).join(', ');
}

/** How warm the one bath of a line is, told beside a question of it: "forty point seven, wait or go?". */
export function withReading(asked: Intent, clauses: readonly ToldClause[]): Intent {
  const ofWarmth =
    asked.type === 'ask-advice' ? /heat|hot|cold|warm/.test(asked.topic) : OF_WARMTH.has(asked.type);
  if (!ofWarmth || numbersIn(asked).length > 0) return asked;
  const told = clauses
    .filter(
      (c) => !NOT_TOLD.test(c.said) && !NOT_NOW.test(c.said) && asking(c.said, c.asked, english) === 'no',
    )
    .flatMap(({ slots }) => slots);
  const baths = new Set(told.flatMap(({ token, fields }) => (token === '_liquid' ? [fields.liquid] : [])));
  const amounts = told.filter(({ token }) => AMOUNTS.has(token));
  const [amount, ...more] = amounts;
  const [tempC] = amount && /^_(?:num|degrees)$/.test(amount.token) ? numbersIn(amount.fields) : [];
  const [bath = 'liquid' in asked ? asked.liquid : undefined, ...others] = baths;
  if (tempC === undefined || more.length > 0 || others.length > 0 || typeof bath !== 'string') return asked;
  if (tempC < LEAST_TOLD_C || tempC > limits.bathMostC) return asked;
  return { type: 'several', intents: [{ type: 'temperature', of: bath, tempC }, asked] };
}
const OF_WARMTH = new Set<Intent['type']>(['ask-ready', 'ask-next', 'ask-target', 'ask-temperature']);
/** Of another time, or of what is wanted. */
const NOT_NOW =
  /\b(?:was|were|should|supposed|needs?|want|wants|aim|until|till|would|will|can|could|before|earlier|yesterday|last|minutes?|seconds?|hours?|degrees? (?:off|out|low|high)|percent|set)\b/;
/** No bath is read colder, in a room where people work, °C. Source: common practice. */
const LEAST_TOLD_C = 15;

const tellsAmount = ({ token, fields, from, to }: Slot): boolean => {
  const [value] = numbersIn(fields);
  if (!AMOUNTS.has(token) || value === undefined) return false;
  if (token === '_bottle') return to - from > 1;
  return token !== '_num' || value > limits.fewBottles || !Number.isInteger(value);
};

const numbersIn = (of: unknown): number[] =>
  typeof of === 'number'
    ? [of]
    : typeof of === 'object' && of !== null
      ? Object.values(of).flatMap(numbersIn)
      : [];
