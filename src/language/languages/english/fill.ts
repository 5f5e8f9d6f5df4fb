import { limits } from '../../../limits.js';
import type { Moment, Situation } from '../../../process/desk.js';
import { asIntent, fieldsOf, type Intent, type IntentOf } from '../../../process/intent.js';
import { PACKAGE } from '../../load.js';
import type { Fields, Value } from '../../meaning/tags.js';
import type { Slot, Spotted } from '../../open/slots.js';
import type { CommandRecord } from '../../records.js';
import { howHurt, OF_A_THING_CUT, ON_SOMEBODY, phBy, SINK, SOMEBODY_HURT } from './lists.js';
import { ORDINALS, wordsToNumber } from './numbers.js';

export interface Filled {
  intent: Intent;
  /** slots that were said and have a place in this intent, and those that have none */
  used: readonly Slot[];
  left: readonly Slot[];
}

/** A place alone is no spill. */
const SPILLED =
  /spill|lost|lose|miss|slosh|leak|knock|tip|drip|splash|drop|puddle|mess|broke|over|everywhere|flood|eye|mouth|face|hand|skin|floor|table|counter|carpet|clothes/;
/** Said of a reading, as well as of what corrects one. */
const NUMBER =
  /^(?:zero|one|two|three|four|five|six|seven|eight|nine|ten|\w+teen|eleven|twelve|twenty|\w+ty|forty|point|degrees?|and)$/;
/** Without any field these say nothing. */
const NEVER_BARE = new Set<string>(['correct', 'films', 'jar-is', 'part', 'poured', 'use-tank']);

/** Of these a bath after "into" is where it goes, not what goes. */
const DESTINED = new Set<string>([
  'poured',
  'pour-in',
  'pour-back',
  'pour-between',
  'pour-away',
  'contaminated',
]);
/** Of these a small number is a bottle. */
const BY_NUMBER = new Set(
  'pour-in pour-back part poured bottle-holds temperature ask-temperature'.split(' '),
);
/** Commands that say a bottle and nothing else. */
const BY_BOTTLE = new Set(
  ['moves.into-bottle', 'moves.from-bottle', 'world.putting-back', 'world.in-bottle'].map(
    (id) => `${PACKAGE}.${id}`,
  ),
);
/** Before what was wrong. */
const WRONG = new Set(['not', 'of', 'than']);
const INTO = new Set(['in', 'into', 'to', 'back', 'onto']);
const FROM = new Set(['from', 'of', 'with', 'using', 'out']);

/** What is nearest to a command of which a needed field was not said. */
const NEAREST: Partial<Record<Intent['type'], readonly Intent['type'][]>> = {
  'bottle-discarded': ['pour-away'],
  'ask-age': ['ask-bottle', 'ask-bottles'],
  'ask-mixed': ['ask-bottle', 'ask-bottles'],
  'ask-life': ['ask-bottle', 'ask-bottles'],
  'ask-volume': ['ask-bottle', 'ask-bottles'],
  'ask-time-until': ['ask-next'],
  'ask-temperature': ['ask-ready'],
};

type RecipeIn = (words: readonly string[]) => string | undefined;

/** The slots of a sentence put into the fields of one command, or of one near to it; undefined when a needed field was not said. */
export function fill(
  record: CommandRecord,
  said: Spotted,
  recipeIn: RecipeIn,
  { due, situations }: Moment,
): Filled | undefined {
  const wanted = due.find((d) => d.type === record.intent || d.type === ANSWERED[record.intent]);
  if (wanted) {
    if (amountOf(wanted) !== undefined && wavers(said)) return undefined;
    if (record.intent === 'reading' && isAllExcess(said)) return undefined;
    said = asExpected(said, wanted, record.intent === 'correct');
  }
  const now: Moment = { due, situations };
  const told = asTold(record, said, recipeIn, now);
  if (told) return told;
  const line = said.words.join(' ');
  const mixing = situations.includes('mixing');
  const running = situations.some((s) => OF_A_RUN.has(s));
  // who says which unit it was in need not be told that there are others
  if (record.fixed.topic === 'units' && said.slots.some((s) => s.token === '_degrees')) return undefined;
  if (record.intent === 'temperature') said = lastOfOne(inDegrees(said));
  // a thermometer tells no acidity
  if (record.intent === 'ph-reading' && /\b(?:thermometer|degrees?|celsius)\b/.test(line)) return undefined;
  // where no mix is open, how much and how far is of the run
  const instead = OF_A_MIX[record.intent];
  if (instead && running && !mixing && !said.slots.some((s) => s.token === '_substance'))
    record = { ...record, intent: instead };
  // where no bath runs, what is left is of the mix
  if (record.intent === 'ask-time-left' && mixing && !running) record = { ...record, intent: 'mix-where' };
  // too early is never late, and what was turned late was not drained
  if (record.intent === 'drained-late' && NO_DRAIN.test(line)) return undefined;
  // what lies where it should has not gone astray
  if (record.fixed.topic === 'powder-spilled' && !GONE_ASTRAY.test(line)) return undefined;
  // a bath that was left out is told of by its name
  if (
    record.fixed.topic === 'left-out' &&
    said.slots.some((s) => s.token === '_liquid') &&
    !/\b(?:instead|use|any good|do i)\b/.test(line) &&
    !SUPPOSED.test(line)
  )
    record = { ...record, intent: 'left-out', fixed: {} };
  for (const intent of [record.intent, ...(NEAREST[record.intent as Intent['type']] ?? [])]) {
    const found = filled({ ...record, intent }, said, recipeIn, now);
    if (found) return { ...found, ...asMeant(found, said, now) };
  }
  return undefined;
}

/** What is spilled of these is liquid, whatever stands on the scale. */
const OF_THE_MIX = /\b(?:jug|mix|mixture|solution|water|bath|bottle|tank|beaker)\b/;
const GONE_ASTRAY =
  /\b(?:spil\w*|blew|blow\w*|flew|fly\w*|fell|fall\w*|drop\w*|went|gone|goes|got|knock\w*|tip\w*|scatter\w*|lost|lose|everywhere|all over|floor|mess|sneez\w*|astray|powder\w*|off|over)\b/;
const NO_DRAIN =
  /\bearly\b|\b(?:shak\w*|shook|agitat\w*|invert\w*|inver(?:sions?|ting)|turn(?:ed|ing)?|call(?:s|ed)?)\b/;
/** "A hundred and something", "forty odd": no scale shows that. */
const VAGUELY = /^(?:and )?(?:something|odd)\b/;
const AMOUNT = /^_(?:num|mass|volume)$/;

/** "Two grams over": how far off it is, and not what is there. */
const isAllExcess = ({ words, slots }: Spotted): boolean => {
  const amounts = slots.filter((s) => AMOUNT.test(s.token));
  return amounts.length > 0 && amounts.every((s) => EXCESS.test(words.slice(s.to, s.to + 3).join(' ')));
};
const EXCESS = /^(?:grams? |milliliters? )?(?:over(?! the)|too (?:much|many|little)|extra|in excess|short)\b/;

/** "Between 1.9 and 2.1", "ten to eleven": what will not stand still has no reading yet, unless it is called one. */
const wavers = ({ words, slots }: Spotted): boolean =>
  !/\b(?:call|calling|called|settled|settles|stopped|take it as)\b/.test(words.join(' ')) &&
  slots.some((s, i) => {
    const next = slots[i + 1];
    const joint = next?.token === s.token ? words.slice(s.to, next.from).join(' ') : '';
    if (VAGUELY.test(words.slice(s.to, s.to + 2).join(' '))) return true;
    return joint === 'to' || joint === 'or' || (joint === 'and' && words[s.from - 1] === 'between');
  });

/** Advice that is asked beside what a scale, a mark or a thermometer says: that is what gets judged, and so answered. */
function asTold(record: CommandRecord, said: Spotted, recipeIn: RecipeIn, now: Moment): Filled | undefined {
  const { topic } = record.fixed;
  const line = said.words.join(' ');
  if (record.intent !== 'ask-advice' || SUPPOSED.test(line)) return undefined;
  const [due] = now.due;
  const wanted = due && amountOf(due);
  if (topic === 'too-much' && due && wanted !== undefined && !isAllExcess(said)) {
    const read = asExpected(said, due, false);
    const reaches = read.slots.some(
      (s) =>
        between(amountIn(s), wanted, 1.5 * wanted) ||
        (s.token === '_mass' && !/\b(?:too much|over|extra|more)\b/.test(line)),
    );
    const told = reaches
      ? filled({ ...record, intent: due.type, fixed: {} }, read, recipeIn, now)
      : undefined;
    return told && due.type !== 'ph-reading' ? told : undefined;
  }
  if (!WARMTH.has(topic)) return undefined;
  const warm = lastOfOne(inDegrees(said));
  const reads = warm.slots.find(
    (s) => s.token === '_degrees' || (s.token === '_num' && between(s.fields.value, 15, 60)),
  );
  if (!reads || AIMED.test(said.words.slice(0, reads.from).join(' '))) return undefined;
  return filled({ ...record, intent: 'temperature', fixed: {} }, warm, recipeIn, now);
}
/** What is asked about beside how warm something is. */
const WARMTH = new Set<unknown>('too-hot too-cold temperature-drift tap-water mixing-water units'.split(' '));
/** Who asks what would be tells nothing. */
const SUPPOSED =
  /\b(?:if|would|could|suppose|say)\b|^(?:can|may|is|are|does|do|will|what|how|should|must|when)\b/;
/** Before what a value should be, or is not. */
const AIMED =
  /\b(?:should(?: be| read)?|supposed to be|meant to be|aim(?:ing)?(?: for| at)?|needs?|needed|target(?: is| of)?|instead of|rather than|than|by|below|above|under|over|until|within|not) ?(?:the |about |around |at |a )?$/;

const amountIn = ({ fields: { value, massG, volumeMl } }: Slot): number => Number(value ?? massG ?? volumeMl);

/** The same said by its plainer name, where the moment leaves no other. */
function asMeant({ intent, left }: Filled, said: Spotted, { due, situations }: Moment): Partial<Filled> {
  const line = said.words.join(' ');
  const [next] = due;
  const wanted = next && amountOf(next);
  // "call it eight", where a bottle is asked for
  if (next?.type === 'part' && intent.type === 'bottle-named' && /\bcall (?:it|that)\b/.test(line))
    return { intent: { type: 'part', vessel: { kind: 'bottle', number: intent.bottle } }, left: [] };
  // a level in the jug is the one that is due
  if (intent.type === 'correct' && intent.volumeMl !== undefined && next?.type === 'made-up')
    return { intent: { type: 'made-up', volumeMl: intent.volumeMl } };
  const answer = asDue(intent, due);
  if (answer !== intent) return { intent: answer };
  // "make it four" of a bath that is in: minutes, where it is no bottle
  if (
    intent.type === 'correct' &&
    Object.keys(intent).join() === 'type,value' &&
    isBottle(intent.value) &&
    situations.includes('immersed') &&
    MAKE_IT.test(line)
  )
    return { intent: { ...intent, seconds: 60 * intent.value } };
  // on the skin it is no matter of the floor
  if (intent.type === 'spill' && ON_SOMEBODY.has(intent.place ?? '') && !intent.volumeMl) {
    const how = howHurt(line) ?? 'skin';
    return instead('hurt', { how, liquid: intent.liquid });
  }
  // beside the scale it is the powder
  const byTheScale = (next?.type === 'reading' && next.unit === 'g') || next?.type === 'dissolved';
  if (intent.type === 'spill' && byTheScale && !intent.volumeMl && !intent.liquid && !OF_THE_MIX.test(line))
    return instead('ask-advice', { topic: 'powder-spilled' });
  // "developer's in from two"
  if (
    intent.type === 'pour-in' &&
    IS_IN.test(line) &&
    !/\b(?:pour|pouring|going|putting|let|now going)\b/.test(line)
  ) {
    const { liquid, from } = intent;
    return from ? instead('poured', { liquid, from, to: { kind: 'tank' } }) : instead('bath-in', { liquid });
  }
  // how much it was, of a spill that is spoken of already: "more like eighty"
  if (intent.type === 'spill' && situations.includes('spill') && !ANOTHER.test(line)) {
    const { volumeMl } = intent;
    if (volumeMl && MORE_LIKE.test(line)) return instead('correct', { value: volumeMl });
    return Object.keys(intent).join() === 'type,volumeMl' ? instead('correct', { volumeMl }) : {};
  }
  // the first reading corrects nothing
  if (
    intent.type === 'correct' &&
    next?.type === 'reading' &&
    wanted !== undefined &&
    Object.keys(intent).length === 2 &&
    between(intent.value, wanted * (1 - LARGELY), wanted * (1 + LARGELY))
  )
    return instead('reading', { value: intent.value });
  // "five's in": from a bottle
  const from = left.find((s) => s.token === '_bottle' || isSmall(s));
  if (intent.type === 'bath-in' && from && !intent.agoS && !intent.volumeMl && !TIMED.test(line)) {
    const { vessel } = asNamed(from).fields;
    const poured = instead('poured', { liquid: intent.liquid, from: vessel, to: { kind: 'tank' } });
    return poured.intent ? { ...poured, left: left.filter((s) => s !== from) } : {};
  }
  return {};
}
function instead(type: Intent['type'], fields: Record<string, unknown>): Partial<Filled> {
  const intent = asIntent(type, fields);
  return intent ? { intent } : {};
}
const MAKE_IT = /\bmake (?:it|that)\b/;
const IS_IN = /\b(?:is|are|was|went|has gone) (?:all )?in\b(?! the (?:tub|bath))/;
/** Within this share of what is due it may be a reading of it. */
const LARGELY = 0.35;
const ANOTHER = /\b(?:some more|more of|another|again|as well|also)\b/;
const MORE_LIKE = /\b(?:more like|it was|was more|altogether|in all|all told|rather|make that|actually)\b/;

const OF_A_MIX: Partial<Record<CommandRecord['intent'], Intent['type']>> = {
  'mix-where': 'ask-where',
  'ask-amount': 'say-again',
};
const OF_A_RUN = new Set<Situation>(['loading', 'pouring', 'immersed', 'draining', 'hanging', 'closing']);

const isBottle = (n: number | undefined): n is number =>
  n !== undefined && Number.isInteger(n) && n >= 1 && n <= limits.fewBottles;

/** A number or a name by itself, where something else is asked for that it answers. */
export function asDue(intent: Intent, [due]: readonly Intent[]): Intent {
  // where a bottle is asked for, "seven, not five" puts no amount right
  if (intent.type === 'correct' && due?.type === 'part') {
    const number = intent.liquid === undefined ? intent.value : undefined;
    const vessel = intent.vessel ?? (isBottle(number) ? ({ kind: 'bottle', number } as const) : undefined);
    return vessel ? { type: 'part', vessel } : intent;
  }
  if (intent.type !== 'reading' || intent.unit !== undefined || !due) return intent;
  // of a part that is in already
  if ((intent.instead ?? intent.more) !== undefined) return intent;
  const { value } = intent;
  if (due.type === 'part' && isBottle(value))
    return { type: 'part', vessel: { kind: 'bottle', number: value } };
  if (due.type === 'ph-reading' && value > 0 && value <= 14) return { type: 'ph-reading', ph: value };
  if (due.type === 'made-up' && value >= 50) return { type: 'made-up', volumeMl: value };
  return intent;
}

/** A reading whose digits, without their point, are nearly what is due: "one twenty" is 1.2. */
export function inDigitsOf(read: IntentOf<'reading'>, words: readonly string[], due: Intent): Intent {
  if (due.type !== 'reading') return read;
  const value = digits(words);
  const off = (v: number): number => Math.abs(v - due.value);
  return value !== undefined && off(value) <= NEAR * due.value && off(read.value) > LARGELY * due.value
    ? { ...read, value }
    : read;
}

/** What else gives the amount that is due: what corrects it. */
const ANSWERED: Partial<Record<CommandRecord['intent'], Intent['type']>> = {
  correct: 'reading',
};

/** The amount that an intent is about, in its own unit. */
export const amountOf = (intent: Intent): number | undefined =>
  intent.type === 'reading'
    ? intent.value
    : intent.type === 'ph-reading'
      ? intent.ph
      : intent.type === 'made-up'
        ? intent.volumeMl
        : undefined;

/**
 * Of what the digits may be ("four fifteen", "twenty five six five") the number nearest to the amount that is due; of several
 * numbers those that are near to it ("1.9, 2.1, call it 2" is 2), or all of them where they make it up ("15 and then 10.6").
 */
function asExpected(said: Spotted, due: Intent, corrects: boolean): Spotted {
  const wanted = amountOf(due);
  if (due.type === 'part') return inOrder({ ...said, slots: said.slots.map(asNamed) });
  if (wanted === undefined) return said;
  const all = inDigits(said, wanted);
  const isAmount = (s: Slot): boolean => AMOUNT.test(s.token);
  // what is still to come is no part of it, nor what it should be
  const wrong = (s: Slot): boolean =>
    TO_COME.test(all.words.slice(s.to, s.to + 6).join(' ')) ||
    isPast(s, all.words) ||
    AIMED.test(all.words.slice(0, s.from).join(' '));
  const amounts = all.slots.filter(isAmount);
  const dropped = amounts.some((s) => !wrong(s)) ? amounts.filter(wrong) : [];
  const read = dropped.length > 0 ? { ...all, slots: all.slots.filter((s) => !dropped.includes(s)) } : all;
  const numbers = read.slots.filter(isAmount);
  const near = (v: number): boolean => Math.abs(v - wanted) <= NEAR * wanted;
  const sum = numbers.reduce((total, s) => total + amountIn(s), 0);
  const only = numbers.findLast((s) => near(amountIn(s)));
  const whole = numbers.at(-1);
  if (numbers.length < 2 || !whole || corrects) return read;
  // "one litre and ten"
  const adds = (s: Slot): boolean => s.from === (only?.to ?? 0) + 1 && read.words[s.from - 1] === 'and';
  if (due.type === 'ph-reading' || due.type === 'made-up')
    return only
      ? { ...read, slots: read.slots.filter((s) => s === only || adds(s) || !numbers.includes(s)) }
      : read;
  const goes = inGoes(read, numbers, near);
  if (goes) return goes;
  if (only === undefined && !(numbers.length < 5 && near(sum))) return read;
  const kept = only ?? { ...whole, token: '_num', fields: { value: Number(sum.toFixed(3)) } };
  return {
    ...read,
    slots: read.slots.flatMap((s) => (s === (only ?? whole) ? [kept] : numbers.includes(s) ? [] : [s])),
  };
}
/** "The second one" of the bottles. */
function inOrder(said: Spotted): Spotted {
  const at = said.words.findIndex((w) => ORDINALS.includes(w));
  const next = said.words[at + 1] ?? '';
  if (at < 0 || !/^(?:one|bottle|)$/.test(next)) return said;
  const vessel = { kind: 'bottle', number: ORDINALS.indexOf(said.words[at] ?? '') + 1 };
  const slot: Slot = { token: '_bottle', fields: { vessel }, from: at, to: at + 2 };
  return { ...said, slots: [...said.slots.filter((s) => s.to <= at || s.from > at + 1), slot] };
}

/** An amount within this share of what is due was meant for it. */
const NEAR = 0.15;
const TO_COME =
  /^(?:(?:grams?|or so|and a bit|a bit|more|point \w+) )*(?:to go|to come|missing|short|left to|over(?! the)|too (?:much|many|little)|extra|in excess|times)\b/;
/** Behind what was read in other circumstances: "it was 39 with the lid on". */
const NO_MORE =
  /^(?:grams? |degrees? )?(?:with (?:the|my)|before|at first|earlier|until|a (?:minute|moment|second) ago)\b/;

const isPast = (s: Slot, words: readonly string[]): boolean =>
  words[s.from - 1] === 'was' && NO_MORE.test(words.slice(s.to, s.to + 4).join(' '));

/** "In two goes, 15 and then 10.6": how many goes is no amount. */
function inGoes(said: Spotted, numbers: readonly Slot[], near: (v: number) => boolean): Spotted | undefined {
  const goes = numbers.find((s) =>
    /^(?:goes|lots|parts|batches|steps|halves|heaps)$/.test(said.words[s.to] ?? ''),
  );
  const rest = numbers.filter((s) => s !== goes);
  const sum = rest.reduce((all, s) => all + Number(s.fields.value ?? s.fields.massG), 0);
  const last = rest.at(-1);
  if (!goes || !last || !near(sum)) return undefined;
  const kept: Slot = { ...last, token: '_num', fields: { value: Number(sum.toFixed(3)) } };
  return {
    ...said,
    slots: said.slots.flatMap((s) => (s === last ? [kept] : numbers.includes(s) ? [] : [s])),
  };
}

function inDigits(said: Spotted, wanted: number): Spotted {
  const off = (value: number): number => Math.abs(Math.log(value / wanted));
  const slots: Slot[] = [];
  for (const slot of said.slots) {
    const last = slots.at(-1);
    const both = slot.token === '_num' && last?.token === '_num';
    const between = both ? said.words.slice(last.to, slot.from).join(' ') : 'apart';
    const value =
      between === 'point'
        ? Number(`${last?.fields.value}.${slot.fields.value}`)
        : between === ''
          ? digits(said.words.slice(last?.from, slot.to))
          : undefined;
    if (last && value !== undefined) slots[slots.length - 1] = { ...last, fields: { value }, to: slot.to };
    else slots.push(slot);
  }
  return {
    ...said,
    slots: slots.map((slot) => {
      const { value } = slot.fields;
      // "one three": no number of the grammars
      const one = said.words[slot.from - 1] === 'one' && between(value, 0, 9) ? slot.from - 1 : slot.from;
      const read = slot.token === '_num' ? digits(said.words.slice(one, slot.to)) : undefined;
      if (read === undefined || typeof value !== 'number' || off(read) >= off(value)) return slot;
      return { ...slot, fields: { ...slot.fields, value: read } };
    }),
  };
}

/** Decimals without their point: "four fifteen" is 4.15, "twenty five six five" 25.65; undefined when there are none. */
function digits(words: readonly string[]): number | undefined {
  if (words.includes('point')) return undefined;
  for (let at = 1; at < words.length; at++) {
    const whole = wordsToNumber(words.slice(0, at).join(' '));
    const rest = words.slice(at).map((w) => wordsToNumber(w) ?? Number.NaN);
    const [ten = Number.NaN, one] = rest;
    const places =
      ten >= 10 && rest.length <= 2 && (one === undefined || one < 10)
        ? String(ten + (one ?? 0))
        : rest.every((d) => d < 10)
          ? rest.join('')
          : undefined;
    if (whole !== undefined && whole < 100 && places !== undefined && !isOneNumber(words.slice(0, at + 1)))
      return Number(`${whole}.${places}`);
  }
  return undefined;
}
/** "twenty five" goes on where "four" and "fifteen" do not. */
const isOneNumber = (words: readonly string[]): boolean => {
  const value = wordsToNumber(words.join(' '));
  return value !== undefined && value < 100;
};

/** "Thirty eight ish, thirty eight and a half": of one thing the last is meant. */
function lastOfOne(said: Spotted): Spotted {
  const warm = said.slots.filter(
    (s) => s.token === '_degrees' || (s.token === '_num' && between(s.fields.value, 15, 60)),
  );
  const of = said.slots.filter((s) => s.fields.liquid !== undefined || s.fields.vessel !== undefined);
  if (warm.length < 2 || of.length > 1) return said;
  return { ...said, slots: said.slots.filter((s) => !warm.includes(s) || s === warm.at(-1)) };
}

/** Degrees without their point: "forty one two" is 41.2. */
function inDegrees(said: Spotted): Spotted {
  const slots: Slot[] = [];
  for (const slot of said.slots) {
    const last = slots.at(-1);
    const [whole, tenths] = [last?.fields.value, slot.fields.value];
    const runsOn = last?.token === '_num' && slot.token === '_num' && last.to === slot.from;
    if (
      runsOn &&
      between(whole, 15, 60) &&
      between(tenths, 0, 9) &&
      Number.isInteger(whole) &&
      Number.isInteger(tenths)
    )
      slots[slots.length - 1] = { ...last, fields: { value: Number(`${whole}.${tenths}`) }, to: slot.to };
    else slots.push(slot);
  }
  return { ...said, slots };
}

const isSmall = ({ token, fields: { value } }: Slot): boolean =>
  token === '_num' && Number.isInteger(value) && between(value, 1, limits.fewBottles);
const isCount = ({ token, fields: { value } }: Slot): boolean => token === '_num' && between(value, 1, 99);
const TIMED = /\b(?:seconds?|minutes?|ago|rolls?|films?|degrees?)\b/;

/** What a number before this counts is no bottle. */
const MEASURED = /^(?:degrees?|celsius|point|and|seconds?|minutes?|hours?|tenths?|times|more)$/;

/** "two changes" counts */
const COUNTED = /^(?!is$|was$|has$|goes$|does$|its$|this$|as$)(?:\w+s|foot|feet|percent|inch|roll|film)$/;

/** A number by itself names a bottle where one is asked for. */
const asNamed = (slot: Slot): Slot =>
  slot.token === '_num'
    ? {
        ...slot,
        token: '_bottle',
        fields: { vessel: { kind: 'bottle', number: Number(slot.fields.value) } },
      }
    : slot;

/** The slots of a sentence put into the fields of one command; undefined when a needed field was not said. */
function filled(record: CommandRecord, said: Spotted, recipeIn: RecipeIn, now: Moment): Filled | undefined {
  const { due } = now;
  if (record.intent === 'none' || record.intent === 'unsure' || record.intent === 'several') return undefined;
  const used = new Set<Slot>();
  const fields: Fields = { ...record.fixed };
  const line = said.words.join(' ');
  for (const { name, needed: always } of fieldsOf(record.intent)) {
    if (fields[name] !== undefined) continue;
    const needed = always || (name === 'bottle' && record.intent === 'bottle-holds');
    const value = valueFor(name, record, said, used, recipeIn) ?? ofMoment(name, needed, record, said, now);
    if (value !== undefined) fields[name] = value;
    else if (needed) return undefined;
  }
  // "it's back": the bath that is in the tank or leaves it
  const back = due.find((d) => d.type === 'pour-back');
  if (
    record.intent === 'poured' &&
    back?.type === 'pour-back' &&
    back.liquid &&
    !fields.to &&
    !fields.from &&
    (fields.liquid ?? back.liquid) === back.liquid &&
    IS_BACK.test(line)
  )
    Object.assign(fields, { liquid: back.liquid, from: { kind: 'tank' } });
  if (record.intent === 'poured' && !fields.to && !fields.liquid) {
    if (!due.some((d) => d.type === 'bath-in') || !/\b(?:in|poured)\b/.test(line)) return undefined;
    if (fields.from) fields.to = { kind: 'tank' };
    const { agoS } = fields;
    return {
      intent: { type: 'bath-in', ...(typeof agoS === 'number' && { agoS }) },
      used: [...used],
      left: said.slots.filter((s) => !used.has(s)),
    };
  }
  if (NEVER_BARE.has(record.intent) && Object.keys(fields).length === 0) return undefined;
  // of "it" the desk knows which bath that is; of a bottle, or of all of them, it is told what stands there
  const spare = said.slots.some((s) => !used.has(s) && (s.token === '_bottle' || isSmall(s)));
  if (OF_ONE.has(record.intent) && !fields.liquid && (spare || OF_ALL.test(line))) return undefined;
  if (BY_BOTTLE.has(record.id) && !fields.to && !fields.from && !fields.vessel) return undefined;
  // what somebody wants to be reminded of is not done now
  if (!SAID_LATER.has(record.intent) && REMIND.test(line)) return undefined;
  // what was measured in the tub is no reading of the tank
  if (record.fixed.of && said.slots.some((s) => /^(?:tub|tap|jug)$/.test(s.token))) return undefined;
  if (UNLIKE[record.intent]?.(fields, said, line, now.situations)) return undefined;
  // "the developer in the tank": one place, named twice
  if (record.intent === 'temperature')
    for (const s of said.slots) if (s.token === '_liquid' || s.token === 'tank') used.add(s);
  if (record.intent === 'hurt') {
    const how = howHurt(line);
    // nobody is hurt where no word says so
    if (OF_A_THING_CUT.test(line) || !(how || fields.about || SOMEBODY_HURT.test(line))) return undefined;
    delete fields.how;
    if (how) fields.how = how;
    // what is only thought of hurts nobody yet
    if (!fields.about && SUPPOSED.test(line)) fields.about = 'if';
  }
  const intent = asIntent(record.intent, fields);
  // what is asked in general is answered in general
  const left = record.intent === 'ask-advice' ? [] : said.slots.filter((s) => !used.has(s));
  return intent && { intent, used: said.slots.filter((s) => !left.includes(s)), left };
}

const intoNothing = ({ intoLiquid, intoBottle }: Fields): boolean => !intoLiquid && !intoBottle;
/** With what was said the command is none of its kind. */
const UNLIKE: Partial<
  Record<
    CommandRecord['intent'],
    (fields: Fields, said: Spotted, line: string, situations: readonly Situation[]) => boolean
  >
> = {
  contaminated: intoNothing,
  'what-if': intoNothing,
  spill: ({ volumeMl, liquid }, { slots, words }, line, situations) =>
    STAYS.test(line) ||
    (!SPILLED.test(line) && !volumeMl && (!liquid || !situations.includes('spill'))) ||
    slots.some((s) => s.token === '_liquid' && /\binto(?: the)?$/.test(words.slice(0, s.from).join(' '))),
  // who puts everything right at once tells something new; a number and nothing else says that no other was wrong
  correct: (fields, { tokens }) =>
    Object.keys(fields).length > 2 || tokens.every((t) => t.startsWith('_') || NUMBER.test(t)),
  // where no clock runs, a bare number is no time; so short a while is a plea for patience
  'add-time': ({ seconds }, { slots }, line, situations) =>
    (!situations.some((s) => OF_A_RUN.has(s)) && !slots.some((s) => s.token === '_duration')) ||
    between(seconds, 0, LEAST_ADDED_S) ||
    IN_ALL.test(line),
  shorten: (_fields, _said, line) => IN_ALL.test(line),
  remind: ({ seconds }) => between(seconds, 0, LEAST_REMINDER_S),
  // who is loading has not loaded
  'film-loaded': (_fields, _said, line) => /\bloading\b/.test(line),
  // "just tub water" moves nothing
  'vessel-moved': (_fields, _said, line) => !MOVES.test(line),
};

function valueFor(
  name: string,
  record: CommandRecord,
  said: Spotted,
  used: Set<Slot>,
  recipeIn: RecipeIn,
): Value | undefined {
  const { slots, words } = said;
  const line = words.join(' ');
  const before = (s: Slot): string => {
    const at = words.findLastIndex((w, i) => i < s.from && !ARTICLE.test(w));
    return words[at] ?? '';
  };
  const take = (test: (s: Slot) => boolean, field: string, scale = 1): Value | undefined => {
    const slot = slots.find((s) => !used.has(s) && test(s) && s.fields[field] !== undefined);
    if (!slot) return undefined;
    used.add(slot);
    const value = slot.fields[field];
    return typeof value === 'number' ? value * scale : value;
  };
  const of = (token: string) => (s: Slot) => s.token === token && before(s) !== 'not';
  const num = (least: number, most: number, where: (s: Slot) => boolean = () => true): Value | undefined =>
    take(
      (s) => s.token === '_num' && between(s.fields.value, least, most) && before(s) !== 'not' && where(s),
      'value',
    );
  // what is asked in general, or of so many films, is of a bottle only where one is named
  const byName =
    record.intent === 'ask-life' ||
    (record.intent === 'ask-advice' && !words.some((w) => w === 'bottles' || w === 'bottle'));
  const bottle = (where: (s: Slot) => boolean = () => true): Value | undefined => {
    const named = take((s) => of('_bottle')(s) && where(s), 'vessel');
    // "how many films are left in three"
    const last = record.intent === 'ask-life' && /\bleft\b/.test(line);
    if (named === undefined && last)
      return asBottle(
        num(
          1,
          limits.fewBottles,
          (s) => before(s) === 'in' && /^(?:left|then|still)?$/.test(words[s.to] ?? ''),
        ),
      );
    if (named !== undefined || byName) return named;
    const bare = num(
      1,
      limits.fewBottles,
      (s) =>
        Number.isInteger(s.fields.value) &&
        (INTO.has(before(s)) ||
          FROM.has(before(s)) ||
          before(s) === 'number' ||
          (BY_NUMBER.has(record.intent) && isSmall(s) && !MEASURED.test(words[s.to] ?? ''))) &&
        where(s),
    );
    return asBottle(bare);
  };
  /** "one litre and ten" */
  const wholeVolume = (): Value | undefined => {
    const slot = slots.find((s) => !used.has(s) && of('_volume')(s));
    const rest = slot && slots.find((s) => isCount(s) && s.from === slot.to + 1 && words[slot.to] === 'and');
    const value = take(of('_volume'), 'volumeMl');
    if (!rest || typeof value !== 'number') return value;
    used.add(rest);
    return value + Number(rest.fields.value);
  };
  const vessel = (...tokens: string[]): Value | undefined => take((s) => tokens.includes(s.token), 'vessel');
  const afterFrom = (s: Slot): boolean => FROM.has(before(s)) || !INTO.has(before(s));
  switch (name) {
    case 'liquid': {
      // of a bottle that fell, the bath is known by the bottle
      if (record.intent === 'spill' && slots.some((s) => s.token === '_bottle') && /\bwater\b/.test(line))
        return undefined;
      // "leave that out, my water is soft": water is what it is made with
      const made = record.intent === 'left-out' ? (s: Slot) => words[s.to - 1] === 'water' : undefined;
      const liquid =
        take(
          (s) => of('_liquid')(s) && !made?.(s) && !(DESTINED.has(record.intent) && before(s) === 'into'),
          'liquid',
        ) ?? (record.intent === 'what-if' ? take(of('_substance'), 'substance') : undefined);
      // the same bath named again is no second bath
      for (const s of slots) if (s.token === '_liquid' && s.fields.liquid === liquid) used.add(s);
      if (record.intent === 'correct') for (const s of slots) if (before(s) === 'not') used.add(s);
      return liquid;
    }
    case 'substance':
      return (
        take((s) => s.token === '_substance', 'substance') ??
        (record.intent === 'ask-cautions' ? take(of('_liquid'), 'liquid') : undefined)
      );
    case 'recipe': {
      const named = slots.filter((s) => s.token === '_liquid' || s.token === '_substance');
      for (const s of named) used.add(s);
      // "stop" and "fix" are verbs as well
      return recipeIn(
        words.filter((w, i) => !/^(?:stop|fix)$/.test(w) || named.some((s) => s.from <= i && i < s.to)),
      );
    }
    case 'from':
      // what is poured in goes into the tank: a bottle is where it comes from
      return (
        bottle(record.intent === 'pour-in' ? undefined : afterFrom) ??
        vessel('jug', 'tap', ...(record.intent === 'pour-away' ? ['tank'] : []))
      );
    case 'to':
      return (
        bottle((s) => !FROM.has(before(s))) ??
        (record.intent === 'poured' && DOWN_THE_DRAIN.test(line) ? { kind: 'sink' } : undefined)
      );
    case 'vessel': {
      // of several bottles the one that is said last is meant, unless it is "not that"
      const named = slots.filter((s) => (s.token === '_bottle' || isSmall(s)) && before(s) !== 'not');
      const last = named.findLast((s) => !IS_OF.test(words[s.to] ?? '')) ?? named.at(-1);
      if (record.intent === 'part' && last)
        for (const s of slots) if (s !== last && (s.token === '_bottle' || isSmall(s))) used.add(s);
      return (
        bottle((s) => record.intent !== 'correct' || s === last) ??
        (record.intent === 'correct' && /\b(?:picked|grabbed|took|bottle)\b/.test(line)
          ? asBottle(num(1, limits.fewBottles, (s) => s === last))
          : undefined)
      );
    }
    case 'other':
    case 'bottle': {
      if (record.intent === 'spill') return undefined;
      // "four is empty": where only a bottle is meant, a number is one
      const found = bottle() ?? (byName ? undefined : asBottle(num(1, limits.countedBottles)));
      return typeof found === 'object' ? found.number : undefined;
    }
    case 'of':
      // "the developer in the tank": where it is says more than what it is
      return (
        vessel('tank') ??
        take(of('_liquid'), 'liquid') ??
        bottle() ??
        vessel('tub', 'jug', 'tap') ??
        (record.intent === 'temperature' && take((s) => s.fields.place === 'tub', 'place')
          ? { kind: 'tub' }
          : undefined)
      );
    case 'tempC':
      return (
        take(
          (s) => of('_degrees')(s) && between(s.fields.tempC, limits.bathLeastC, limits.bathMostC),
          'tempC',
        ) ?? (record.intent === 'correct' ? undefined : celsius(num(15, 125)))
      );
    case 'volumeMl':
      return (
        wholeVolume() ??
        (['mix-start', 'mix-plan', 'made-up', 'spill', 'correct', 'tank-takes', 'bottle-holds'].includes(
          record.intent,
        )
          ? (num(record.intent === 'correct' ? 1e9 : 50, 5000) ??
            // "one point five of developer": no other unit has so little of a batch
            (record.intent === 'mix-start' || record.intent === 'mix-plan'
              ? take(
                  (s) =>
                    s.token === '_num' &&
                    !Number.isInteger(s.fields.value) &&
                    between(s.fields.value, LEAST_BATCH_L, MOST_BATCH_L),
                  'value',
                  1000,
                )
              : undefined))
          : undefined)
      );
    case 'intoVolumeMl':
      return take(of('_volume'), 'volumeMl');
    case 'intoLiquid':
      return take(of('_liquid'), 'liquid');
    case 'intoBottle': {
      const found = bottle();
      return typeof found === 'object' ? found.number : undefined;
    }
    case 'seconds': {
      if (EARLIER.test(line)) return undefined;
      const minutes = (): Value | undefined =>
        num(1, 120, (s) => before(s) === 'in' && words[s.to] !== 'the');
      const said = take(of('_duration'), 'seconds');
      // "take ten off": so many are seconds
      if (
        said === undefined &&
        (record.intent === 'shorten' || record.intent === 'drained-late' || record.intent === 'add-time')
      )
        return (
          num(5, 59, (s) => Number.isInteger(s.fields.value)) ?? (WHOLE_MINUTE.test(line) ? 60 : undefined)
        );
      if (said !== undefined || record.intent !== 'remind') return said;
      const bare = minutes();
      return typeof bare === 'number' ? bare * 60 : undefined;
    }
    case 'asTold':
      return BEFORE_TOLD.test(line) || undefined;
    case 'agoS':
      return take(
        (s) => of('_duration')(s) && !NOT_SINCE.test(words.slice(s.to, s.to + 2).join(' ')),
        'seconds',
      );
    case 'massG':
      return take(of('_mass'), 'massG');
    case 'value': {
      const mass =
        record.intent === 'reading'
          ? (take(of('_mass'), 'massG') ?? take(of('_volume'), 'volumeMl'))
          : undefined;
      if (record.intent === 'reading') for (const s of slots) if (s.token === '_liquid') used.add(s);
      if (mass !== undefined) return mass;
      if (record.intent !== 'correct') return num(0.001, 9999);
      // what is right is said last, unless it is "this, not that"
      const right = slots.filter(
        (s) =>
          s.token === '_num' &&
          !used.has(s) &&
          !WRONG.has(before(s)) &&
          !COUNTED.test(words[s.to] ?? '') &&
          !isPast(s, words),
      );
      for (const s of slots) if (s.token === '_num') used.add(s);
      return right.at(-1)?.fields.value;
    }
    case 'unit':
      return slots.some((s) => s.token === '_mass')
        ? 'g'
        : slots.some((s) => s.token === '_volume')
          ? 'ml'
          : undefined;
    case 'added':
      return /\b(?:added|put|poured|stirred|tipped)\b/.test(line) || undefined;
    case 'purityPercent':
      return words.includes('percent') ? num(50, 100) : undefined;
    case 'hydrate':
      return words.find((w) => /^(?:anhydrous|(?:mono|penta|hepta|deca)hydrate)$/.test(w));
    case 'by':
      return phBy(line);
    case 'ph':
      return num(0, 14);
    case 'films':
    case 'tank':
      return num(1, 99);
    case 'count':
      return num(1, 99, (s) => /^(?:rolls?|films?|of|more)$/.test(words[s.to] ?? ''));
    case 'pushStops': {
      if (!/\b(?:push|pull)(?:ed|ing)\b/.test(line)) return undefined;
      const stops = num(0, 5) ?? 1;
      return typeof stops === 'number' && words.some((w) => w.startsWith('pull')) ? -stops : stops;
    }
    case 'format':
      return take((s) => s.token === '_format', 'format');
    case 'stock':
      return take((s) => s.token === '_stock', 'stock');
    case 'place':
      return take((s) => s.token === '_place', 'place') ?? bodyPart(words) ?? surface(words);
    case 'on':
      return onOff(words);
    case 'into':
      return !/\bout\b|\btook\b|\btaken\b/.test(line);
    case 'name':
      return CALLED_BEFORE.test(line)
        ? undefined
        : afterWord(
            words,
            record.intent === 'films'
              ? words.some((w) => /^(?:call|called|name|named)$/.test(w))
                ? /^(?:roll|film|it)$/
                : /^$/
              : /^(?:one|two|three|four|five|six|seven|eight|nine|ten)$/,
          );
    case 'sheet':
      return words.includes('home')
        ? 'ecn2-ferricyanide-home'
        : words.includes('published')
          ? 'ecn2-ferricyanide'
          : undefined;
    case 'cast': {
      const cast = words.find((w) => CASTS.test(w));
      return cast === 'purple' || cast === 'pink' ? 'magenta' : cast;
    }
    case 'about':
      return words.some((w) => w === 'change' || w === 'differently') ? 'change' : undefined;
    case 'text':
      return (
        remainder(said.line ?? words) ??
        (record.intent === 'note' ? (said.line ?? words).join(' ') : undefined)
      );
    default:
      return undefined;
  }
}

/** What the moment says of a field: the bath that is due, where one has to be known, or where "rinse" can be no other. */
function ofMoment(
  name: string,
  needed: boolean,
  { intent }: CommandRecord,
  { words, slots }: Spotted,
  { due, situations }: Moment,
): Value | undefined {
  const of = due.flatMap((d) => ('liquid' in d && d.liquid ? [d.liquid] : []))[0];
  if (name === 'liquid' && of === 'final-rinse' && words.includes('rinse')) return of;
  if (name === 'liquid' && intent === 'ask-duration')
    return BATH_OF.find(([said]) => said.test(words.join(' ')))?.[1];
  if (!needed) return undefined;
  if (name !== 'of') return undefined;
  if (intent === 'ask-temperature')
    return OF_IT.test(words.join(' ')) ? (whereNow(situations) ?? of) : undefined;
  if (intent !== 'temperature') return undefined;
  return of ?? (slots.some((s) => s.token === '_degrees') ? whereNow(situations) : undefined);
}

/** Where the one liquid is that is worked with. */
const whereNow = (situations: readonly Situation[]): Value | undefined =>
  situations.includes('mixing')
    ? { kind: 'jug' }
    : situations.includes('immersed')
      ? { kind: 'tank' }
      : undefined;

/** Asked of one bath, whether its name is said or not. */
const OF_ONE = new Set<CommandRecord['intent']>(['ask-volume', 'ask-life', 'ask-age', 'ask-mixed']);
const OF_ALL = /\b(?:bottles|all|every\w*|each|they|them|those|baths|chemicals|list)\b/;
const OF_IT = /\b(?:it|this|that|in there|this one|that one)\b/;

const ARTICLE = /^(?:the|a|an|my)$/;
/** Behind a time that is no time since. */
const NOT_SINCE = /^(?:short|early|over|left|more|longer|extra|to go|from|in all|is it|total|right|too)\b/;
const CALLED_BEFORE = /\b(?:called|named) (?:it|that) (?:before|wrong\w*|earlier)\b/;
const IS_BACK = /\bback\b|\bin (?:the|its) bottle\b/;
/** Behind a bottle of which something is told. */
const IS_OF = /^(?:is|has|was|still|holds)$/;
/** "How long do I fix for". */
const BATH_OF: readonly (readonly [RegExp, string])[] = [
  [/\b(?:i|we|to|you) fix\b/, 'fixer'],
  [/\b(?:i|we|to|you) bleach\b/, 'bleach'],
  [/\b(?:i|we|to|you) develop\b/, 'developer'],
];
/** Told of what is there, not of what got out. */
const STAYS =
  /\b(?:made it (?:in|back)|came back|come back|is left|in (?:the )?bottle now|in (?:the )?tank)\b/;
const WHOLE_MINUTE = /\b(?:another|extra|more|full|one more|whole) minute\b/;
const MOVES = /\b(?:in|into|inside|out|from|back|put|took|taken|takes?|lifted|moved|standing|stands?)\b/;
const SAID_LATER = new Set<CommandRecord['intent']>(['remind', 'cancel-timer', 'note']);
const REMIND = /\b(?:remind me|jog my memory)\b.* to\b/;
/** What a batch without its unit may be, l. Source: common practice. */
const [LEAST_BATCH_L, MOST_BATCH_L] = [0.1, 20];
const LEAST_REMINDER_S = 9;
const LEAST_ADDED_S = 4;
/** "Make it four minutes" tells how long in all. */
const IN_ALL =
  /\b(?:make|call) (?:it|that)\b(?!.*\b(?:more|extra|longer|another|plus|less|shorter|off|fewer)\b)/;

const EARLIER = /\b(?:ago|behind|earlier|before)\b/;
const BEFORE_TOLD = /\bbefore (?:i|we) (?:told|said|say|typed|spoke|mentioned)\b/;
const DOWN_THE_DRAIN = new RegExp(`\\b(?:down|in|into) the ${SINK}\\b`);

/** No bath is as warm as that: it was read in degrees Fahrenheit. */
const celsius = (value: Value | undefined): Value | undefined =>
  typeof value === 'number' && value > 90 ? (value - 32) / 1.8 : value;

const asBottle = (number: Value | undefined): Value | undefined =>
  typeof number === 'number' ? { kind: 'bottle', number } : undefined;

const CASTS = /^(?:green|magenta|red|cyan|blue|yellow|orange|dark|light|flat|purple|pink)$/;

const between = (v: Value | undefined, least: number, most: number): boolean =>
  typeof v === 'number' && v >= least && v <= most;

/** Of "on" and "off" the one that is said last, unless it is "not that". */
const onOff = (words: readonly string[]): boolean | undefined => {
  const last = words.findLast((w, i) => /^(?:off|on|running)$/.test(w) && words[i - 1] !== 'not');
  return last === undefined ? undefined : last !== 'off';
};

function afterWord(words: readonly string[], test: RegExp): string | undefined {
  const at = words.findIndex((w) => test.test(w));
  const rest = words.slice(at + 1).join(' ');
  return at < 0 || rest === '' ? undefined : rest;
}

/** What a reminder is about: the words after "to", "about" or "that". */
function remainder(words: readonly string[]): string | undefined {
  const at = words.findIndex((w, i) => i > 0 && (w === 'to' || w === 'about' || w === 'that'));
  const then = words.findIndex((w, i) => i > 1 && w === 'and');
  const from = at >= 0 ? at : then;
  return from < 0 ? undefined : words.slice(from + 1).join(' ') || undefined;
}

const surface = (words: readonly string[]): string | undefined =>
  words.find((w) => /^(?:floor|table|counter|carpet)$/.test(w));

/** "splashed my eye": a part of the body without the words of a place. */
const bodyPart = (words: readonly string[]): string | undefined =>
  /\bmy (eye|mouth|face|hand|skin)s?\b/.exec(words.join(' '))?.[1];
