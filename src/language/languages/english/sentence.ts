import { limits } from '../../../limits.js';
import type { Moment, Situation } from '../../../process/desk.js';
import type { Intent } from '../../../process/intent.js';
import type { LiquidId, VesselRef } from '../../../world/vessel.js';
import type { Grammars } from '../../load.js';
import { numbered, SLOTS, type Slot, type SlotRules, slotSpotter } from '../../open/slots.js';
import { openFor, spelledOut, withoutCourtesies } from '../../open/understand.js';
import { mendings } from '../../slips.js';
import { english } from './catalogue.js';
import { IDLE_TOLD } from './lists.js';

export function sentenceOf(plain: string, { situations, due }: Moment, grammars: Grammars): Sentence {
  const lead = withoutCourtesies(plain, english)
    .replace(LEAD, '')
    .replace(/\b(?:this|that) one(?='s\b| is\b| was\b)/, 'it');
  const said = slotSpotter(grammars, RULES)(spelledOut(lead.split(' ').filter(Boolean)));
  const { line, slots } = numbered({ ...said, tokens: said.tokens.filter((t) => !IDLE_TOLD.has(t)) });
  return {
    line,
    plain,
    situations,
    due,
    mended: (words) =>
      mendings(words, grammars.vocabulary, openFor(grammars).words).map(
        (m) => numbered(slotSpotter(grammars, RULES)(m.words)).line,
      ),
    liquid: (t) => value(slots, t, 'liquid'),
    substance: (t) => value(slots, t, 'substance'),
    stock: (t) => value(slots, t, 'stock'),
    number: (t) => value(slots, t, 'value'),
    degrees: (t) => value(slots, t, 'value') ?? value(slots, t, 'tempC'),
    tempC: (t) => {
      const tempC = value<number>(slots, t, 'value') ?? value<number>(slots, t, 'tempC');
      return tempC !== undefined && tempC >= limits.bathLeastC && tempC <= limits.bathMostC
        ? tempC
        : undefined;
    },
    volumeMl: (t) => value(slots, t, 'volumeMl'),
    amount: (t) => {
      const fields = t === undefined ? undefined : slots.get(t)?.fields;
      for (const [field, unit] of AMOUNTS) {
        const read = fields?.[field];
        if (typeof read === 'number') return { value: read, ...(unit && { unit }) };
      }
      return undefined;
    },
    place: (t) => value(slots, t, 'place'),
    seconds: (t) => value(slots, t, 'seconds'),
    bottle: (t) => {
      const vessel = t === undefined ? undefined : slots.get(t)?.fields.vessel;
      const number = typeof vessel === 'object' ? vessel.number : value<number>(slots, t, 'value');
      return typeof number === 'number' &&
        Number.isInteger(number) &&
        number >= 1 &&
        number <= limits.countedBottles
        ? number
        : undefined;
    },
  };
}

/** A sentence with its slots, and what each slot says. */
export interface Sentence {
  line: string;
  /** as it was said, before anything was left out */
  plain: string;
  situations: readonly Situation[];
  /** what the assistant waits for */
  due: readonly Intent[];
  /** what these words may be with slips of the fingers in them, with its slots */
  mended(words: readonly string[]): readonly string[];
  liquid(token: string | undefined): LiquidId | undefined;
  substance(token: string | undefined): string | undefined;
  stock(token: string | undefined): string | undefined;
  number(token: string | undefined): number | undefined;
  /** a number of degrees, with or without the word */
  degrees(token: string | undefined): number | undefined;
  /** a number that a bath may be read at */
  tempC(token: string | undefined): number | undefined;
  volumeMl(token: string | undefined): number | undefined;
  /** a number, in g or ml where that was said */
  amount(token: string | undefined): { value: number; unit?: 'g' | 'ml' } | undefined;
  place(token: string | undefined): string | undefined;
  seconds(token: string | undefined): number | undefined;
  /** of a bottle, or of a number that stands for one */
  bottle(token: string | undefined): number | undefined;
}
const AMOUNTS: readonly (readonly [field: string, unit: 'g' | 'ml' | undefined])[] = [
  ['massG', 'g'],
  ['volumeMl', 'ml'],
  ['value', undefined],
];
export type Reader = (said: Sentence) => Intent | undefined;

function value<T extends string | number>(
  slots: ReadonlyMap<string, Slot>,
  token: string | undefined,
  field: string,
): T | undefined {
  const found = token === undefined ? undefined : slots.get(token)?.fields[field];
  return typeof found === 'string' || typeof found === 'number' ? (found as T) : undefined;
}

const RULES: SlotRules = [['_bottle', 'vessels', 'numbered'], ...SLOTS];

const LEAD =
  /^(?:(?:so|and|right|hey|well|okay|oh no|ah no|uh oh|oh|ah|aw|aw man|man|oops|whoops|phew|ugh|jeez|(?:flippin|flipping|flaming) (?:heck|hell)|argh|damn|sorry|by the way|hang on|um|uh|no wait|god|dear|blimey|bugger|crap|you(?: are|'re| have got to be| must be) (?:joking|kidding)|for (?:god|heaven|goodness) sake|(?:just )?so you know|you know|you (?:will not|won't) believe (?:it|this)|believe it or not|guess what|listen|bloody hell|it turns out|turns out) )+/;

export { asIntent as made } from '../../../process/intent.js';
export const match = (line: string, ...patterns: readonly RegExp[]): Record<string, string> | undefined => {
  for (const p of patterns) {
    const groups = p.exec(line)?.groups;
    if (groups) return Object.fromEntries(Object.entries(groups).filter(([, v]) => v !== undefined));
  }
  return undefined;
};

/** A reader of whole sentences: what the words in the slots of the first shape that fits tell. A shape has one slot at least. */
export function shaped(
  shapes: string | RegExp | readonly (string | RegExp)[],
  tell: (words: Record<string, string>, said: Sentence) => Intent | undefined,
): Reader {
  const all = [shapes].flat().map((shape) => new RegExp(shape));
  return (said) => {
    const words = match(said.line, ...all);
    return words && tell(words, said);
  };
}

export const bottleRef = (number: number | undefined): VesselRef | undefined =>
  number === undefined ? undefined : { kind: 'bottle', number };

export const bathInTank = (situations: readonly Situation[]): boolean =>
  situations.includes('immersed') || situations.includes('draining');

export const VESSEL = String.raw`_(?:bottle|num)\d+`;
export const BATH = String.raw`_liquid\d+`;
/** "Three weeks", and "a week" without its article. */
export const AGO = String.raw`(?:(?<n>_num\d+|couple of|few|one|last) ?)?(?<unit>day|week|month|year)s?`;

export const ABOUT = '(?:about |around |roughly |maybe |nearly |almost |over |at least |some |like )*';

/** How much of it, by the words. */
export const SHARES: readonly (readonly [words: string, share: number])[] = [
  ['three quarters', 0.75],
  ['two thirds', 2 / 3],
  ['half', 0.5],
  ['third', 1 / 3],
  ['quarter', 0.25],
];
export const A_SHARE = SHARES.map(([words]) => words).join('|');
export const shareOf = (words: string | undefined): number | undefined =>
  SHARES.find(([said]) => said === words)?.[1];

/** All of them, each a fact of its own; none where one of them is no fact. */
export const several = (intents: readonly (Intent | undefined)[]): Intent | undefined => {
  const all = intents.flatMap((i) => i ?? []);
  return all.length < intents.length
    ? undefined
    : all.length === 1
      ? all[0]
      : { type: 'several', intents: all };
};

/** Words of several lists, each in one text. */
export const words = (...lists: readonly string[]): ReadonlySet<string> =>
  new Set(lists.flatMap((list) => list.split(' ')));

export const EXCLAIMED =
  'oh no wait hang hold on sorry whoa oops whoops damn crap shoot shit ah argh god dear blast bugger actually well so and but okay right hell heck stop look';

/** Every word is one of these or in a slot of these kinds. */
export const madeOf = (line: string, known: ReadonlySet<string>, kinds: RegExp): boolean =>
  line.split(' ').every((t) => known.has(t) || kinds.test(t));
