import { z } from 'zod';
import type { PhBy } from '../chemistry/ph-reading.js';
import { EXPOSURES, PERSONS } from '../chemistry/safety/first-aid.js';
import { limits } from '../limits.js';
import type { FilmFormat } from '../world/fact.js';
import type { LiquidId, VesselRef } from '../world/vessel.js';

/** The most that the numbers of the grammars say, ml or g; what is too much for a sink is for the desk to say. */
const MOST = 100_000_000;
const id = z.string().regex(/^[a-z][a-z0-9-]*$/);
const liquid: z.ZodType<LiquidId> = id;
const bottle = z.number().int().min(1).max(limits.bottles);
const filmCount = z.number().int().min(1).max(999);
const amount = z.number().positive().max(MOST);
const anyNumber = z.number().min(0).max(MOST);
const text = z.string().min(1).max(2000);
const vessel: z.ZodType<VesselRef> = z.union([
  z.strictObject({ kind: z.literal('bottle'), number: bottle }),
  z.strictObject({ kind: z.literal(['tank', 'jug', 'tub', 'tap', 'sink']) }),
]);
const of = z.union([liquid, vessel]);
const exposure = z.literal(EXPOSURES);
const who = z.literal(PERSONS);
const yes = z.literal(true);
const oneOf = <T extends string>(...words: T[]) => z.literal(words);
const maybe = z.exactOptional;

/** The fields that say the same in every intent that has them. */
const FIELDS = {
  liquid,
  /** a part of a mix, or what stands on the shelf */
  substance: id,
  recipe: id,
  from: vessel,
  to: vessel,
  vessel,
  of,
  /** by its number; where it may be left out, the one bottle of the liquid */
  bottle,
  intoLiquid: liquid,
  intoBottle: bottle,
  volumeMl: amount,
  massG: amount,
  tempC: z.number().min(-100).max(1000),
  seconds: z.number().positive().max(36_000),
  /** it happened so many seconds before it was said */
  agoS: z.number().positive().max(36_000),
  ageDays: anyNumber,
  /** so much of what is there, or of a tankful */
  share: z.number().positive().max(1),
  /** a part of it, and nobody said how much */
  some: yes,
  /** all of it, or every time */
  all: yes,
  ph: z.number().min(0).max(14),
  text,
  /** who is hurt, or well */
  who,
  /** what was said against it in the same sentence */
  besides: text,
};
type Field = keyof typeof FIELDS;

/** Fields that must be said. */
function must<F extends Field>(...names: F[]) {
  return Object.fromEntries(names.map((n) => [n, FIELDS[n]])) as unknown as Pick<typeof FIELDS, F>;
}

/** Fields that may be said. */
function may<F extends Field>(...names: F[]) {
  return Object.fromEntries(names.map((n) => [n, maybe(FIELDS[n])])) as unknown as {
    [N in F]: z.ZodExactOptional<(typeof FIELDS)[N]>;
  };
}

const none = {};

/** Taking one film load through the process. */
const run = {
  'begin-run': { sheet: maybe(id) },
  'film-loaded': none,
  /** said when it is asked: there is no film in the tank */
  'no-film': none,
  'next-step': none,
  /** `volumeMl`, or `share` of a tankful: so much of it; `instead`: put right, it and not the bath that was cleared */
  'bath-in': { ...may('liquid', 'agoS', 'volumeMl', 'share'), instead: maybe(yes) },
  'start-clock': none,
  'hold-clock': none,
  'resume-clock': none,
  'drain-now': none,
  'tank-empty': may('agoS'),
  'ask-time-left': none,
  'ask-time-until': must('liquid'),
  'ask-next': none,
  'ask-where': none,
  /** what the film has been through, or whether it has had one bath; how it will come out; or whether its last bath was long enough */
  'ask-film': { ...may('liquid'), about: maybe(oneOf('outlook', 'time')) },
  'ask-cautions': may('substance'),
  /** bottle (or jug) to tank, about to happen */
  'pour-in': may('liquid', 'from', 'besides'),
  /** tank to bottle, about to happen */
  'pour-back': may('liquid', 'to', 'volumeMl', 'besides'),
  /** jug (or another bottle) to bottle, about to happen */
  'pour-between': may('liquid', 'from', 'to', 'volumeMl', 'besides'),
  /** tank (or bottle) to the sink or a waste container */
  'pour-away': may('liquid', 'from'),
  'bottle-holds': {
    ...may('bottle'),
    /** to the brim, or as full as it usually is; `share`: of how full that is */
    full: maybe(yes),
    ...may('share', 'liquid', 'volumeMl'),
    capacityMl: maybe(amount),
  },
  'tank-takes': must('volumeMl'),
  /** another tank, by its number, or by its size among those that were told */
  'use-tank': { tank: maybe(bottle), size: maybe(oneOf('small', 'large')) },
  /**
   * without `of` nobody said what was read; `last`: that which was read last; `anew`: what was read of it before was
   * wrong; `byOther`: with another thermometer
   */
  temperature: {
    ...may('of'),
    ...must('tempC'),
    last: maybe(yes),
    anew: maybe(yes),
    byOther: maybe(yes),
  },
  /** the thermometer in use reads so much too high or too low, °C */
  /** `byC` 0: what it shows is right; `anew`: it is another one than the one of before */
  'thermometer-reads': { byC: z.number().min(0).max(10), way: oneOf('high', 'low'), anew: maybe(yes) },
  /** `bottle`: all that was in it; `tank`: out of the tank, which is not tight; `again`: more about the one that was told of */
  spill: {
    ...may('volumeMl', 'liquid'),
    place: maybe(text),
    ...may('bottle'),
    tank: maybe(yes),
    ...may('share', 'some'),
    again: maybe(yes),
    ...may('who'),
  },
  /** wiped up, `by`: with something that is no water */
  'spill-cleaned': { by: maybe(liquid), ...may('liquid') },
  /** so much more, or (`inAll`) so long in all */
  'add-time': { ...must('seconds'), inAll: maybe(yes) },
  note: may('text'),
  /** a bath or a bottle by itself: the answer to "which?" */
  part: may('liquid', 'vessel'),
  /** `denied`: what was said has not happened; `reading`: the last reading, whatever was said since; `mended`: what was put right last was right before; `spill`: what was spilled last was not */
  undo: {
    denied: maybe(yes),
    /** … or the last of this bath, or with this figure */
    reading: maybe(yes),
    ...may('of', 'tempC'),
    mended: maybe(yes),
    spill: maybe(yes),
  },
  confirm: none,
  cancel: none,
  /** the explicit words that let a refused pour go ahead; nothing else does */
  override: none,
  /** stop what? asked when it matters */
  stop: none,
  'film-hung': none,
  'close-run': none,
};

/** What happened or is so at the sink, apart from the run's own steps, and what puts right what was said. */
const world = {
  /** a pour that has happened already, however it was worded: "it's gone in", "the developer is in bottle 2" */
  poured: {
    ...may('liquid', 'from', 'to'),
    /** into the bottle of this bath */
    toOf: maybe(liquid),
    ...may('volumeMl', 'share', 'some'),
    /** and not where it was said to go; true: wherever that was */
    instead: maybe(z.union([vessel, yes])),
    ...may('agoS'),
    /** that is where it is: put there, or kept there */
    stands: maybe(yes),
  },
  'bottle-empty': must('bottle'),
  /** puts right what was said last; what was not said stays as it was */
  correct: {
    ...may('liquid', 'vessel', 'tempC', 'volumeMl', 'seconds', 'massG', 'substance'),
    /** the vessel is that of what was moved last: it came from there, or (`either`) came or went */
    moved: maybe(oneOf('from', 'either')),
    /** nothing but how warm something was read is put right */
    reading: maybe(yes),
    /** the scale showed this, not grams; `all`: at every weighing of this mix */
    unit: maybe(oneOf('oz', 'grain', 'kg', 'mg')),
    ...may('all'),
    /** a bare number: "I said forty, not fourteen" */
    value: maybe(anyNumber),
    /** … and the number that it puts right */
    wrong: maybe(anyNumber),
    ...may('agoS', 'ageDays'),
    /** `agoS` is from when it was told, not from now */
    asTold: maybe(yes),
    ...may('share'),
  },
  /** calls off a pour that was cleared, or (`wrong`) says that the vessel in the hand is the wrong one; `yet`: not yet; `no`: and no, or stop */
  withdraw: { wrong: maybe(yes), yet: maybe(yes), no: maybe(yes) },
  /** away from the sink, for so long */
  away: may('seconds'),
  /** everybody is called out of the room, is out of it, asks whether to go back, is back or about to be, or found the air clear */
  room: { is: oneOf('out', 'left', 'asks', 'back', 'safe') },
  /** a bath, or a wash, was left out, and what that does is asked */
  'left-out': may('liquid'),
  /** not known to the user whether it is in the tank; `suspect`: that may have gone in, or `other`, and not the bath on record */
  'in-doubt': { ...may('liquid'), suspect: maybe(of), other: maybe(of) },
  redo: none,
  /** takes so much off the time of the bath that is in */
  shorten: must('seconds'),
  /** the last bath was drained so much after its call */
  'drained-late': must('seconds'),
  /** something got into a bath or a vessel (`intoVessel`: the jug of the mix, or the tank); `with`: two went into one bottle */
  contaminated: {
    ...must('liquid'),
    with: maybe(liquid),
    ...may('intoLiquid', 'intoBottle'),
    intoVessel: maybe(oneOf('jug', 'tank')),
    /** into what was poured back last */
    back: maybe(yes),
    ...may('volumeMl', 'all'),
  },
  /** two bottles changed places or labels; `sure`: and what each holds now was said with it */
  swapped: {
    ...may('bottle'),
    other: maybe(bottle),
    ...may('liquid'),
    otherLiquid: maybe(liquid),
    sure: maybe(yes),
  },
  /** every bottle that is warming has this temperature; `others`: but those that were read just before */
  'all-at': { ...must('tempC'), except: maybe(liquid), others: maybe(yes) },
  /**
   * leaves out what is due, or the step of this liquid, on the user's word; `for`: this takes its place, as was said by
   * who means it; `substance`: this part of the mix
   */
  skip: { ...may('liquid'), for: maybe(liquid), ...may('substance') },
  /** a bath that the film had before anything was said */
  'had-before': { ...must('liquid'), ...may('seconds') },
  /** what was said to be in went into a tank without the film */
  'tank-without-film': may('liquid'),
  /** what is being processed; said before, during or after loading */
  films: {
    count: maybe(z.number().int().min(1).max(99)),
    format: maybe<z.ZodType<FilmFormat>>(oneOf('super-8', '16mm', '35mm', '120', '4x5', '8x10')),
    stock: maybe(text),
    lengthM: maybe(z.number().positive().max(1000)),
    /** stops of push (+) or pull (-) */
    pushStops: maybe(z.number().min(-5).max(5)),
    /** a name for the roll */
    name: maybe(text),
  },
  /** why the picture is off; `cast`: the look complained of, such as green or flat; `film`: of which of the day's films, counted from 1 */
  'ask-why': {
    cast: maybe(id),
    about: maybe(oneOf('cause', 'change')),
    film: maybe(z.number().int().min(1).max(20)),
  },
};

/** About the talking itself; handled beside the run, never journaled as a deed. */
const speech = {
  quiet: none,
  'say-again': none,
  louder: none,
  softer: none,
  slower: none,
  faster: none,
  help: { topic: maybe(text) },
  /** the rest of the last answer */
  more: none,
  verbosity: { level: oneOf('brief', 'normal', 'full') },
};

/** Questions and talk that change nothing; `src/app/desks/talk` answers them. */
const talk = {
  /** a question of the trade whose answer stands beside it in the grammars */
  'ask-advice': { topic: id, ...may('liquid', 'bottle', 'substance'), other: maybe(bottle) },
  /** the temperature that a bath, or the one due, needs, and how exactly; `tempC`: and whether this is right for it */
  'ask-target': may('liquid', 'tempC'),
  'ask-duration': may('liquid'),
  /** how long to develop at another temperature; its last reading when none was said */
  'ask-time-at': may('tempC'),
  /** when the whole run will be done */
  'ask-end': none,
  'ask-clock': none,
  /** what an amount or a temperature in another unit is in grams, millilitres or degrees */
  'ask-convert': {
    value: z.number().min(0).max(9999.999),
    unit: oneOf('fahrenheit', 'celsius', 'oz', 'pound', 'grain', 'fluid-ounce', 'pint', 'quart', 'gallon'),
  },
  /** how long a bath really was in */
  'ask-actual': may('liquid'),
  'ask-agitation': none,
  /** which bottle a bath, or what is due, is in or goes to */
  'ask-bottle-of': may('liquid'),
  'ask-volume': may('liquid'),
  /** how much of a component an open mix needs */
  'ask-amount': may('substance'),
  'ask-reason': none,
  'ask-disposal': may('liquid'),
  'ask-drying': none,
  'ask-shopping': { films: maybe(z.number().int().min(1).max(99)) },
  'ask-notes': none,
  /** without `seconds` it is asked when */
  remind: may('seconds', 'text'),
  'ask-timers': none,
  /** all of them, or those that were set for so long */
  'cancel-timer': may('seconds'),
  /** somebody is hurt; without `how` it was not said where; `also`: and so too */
  hurt: {
    how: maybe(exposure),
    also: maybe(z.array(exposure)),
    ...may('liquid', 'who'),
    /** whether the rinsing may end, that it is over, that it still hurts, what if, whom to call, a contact lens that does not come out, or that it may be over and nobody is sure; with `who`: he is well, and nothing is said of others */
    about: maybe(oneOf('rinsing', 'over', 'still', 'if', 'call', 'lens', 'unsure')),
  },
  greeting: none,
  thanks: none,
  /** "give me a minute" */
  busy: none,
  'ask-identity': none,
};

/** The mixing bench. */
const mix = {
  'mix-start': { ...must('recipe'), ...may('volumeMl') },
  'mix-plan': { ...must('recipe'), ...may('volumeMl') },
  'mix-next': none,
  'mix-where': none,
  /** a scale reading; `unit` and what was weighed only when they were said */
  reading: {
    value: anyNumber,
    unit: maybe(oneOf('g', 'kg', 'mg', 'oz', 'grain', 'ml', 'l')),
    ...may('substance'),
    /** it is in the water */
    added: maybe(yes),
    /** all of it went in so many times */
    times: maybe(z.number().int().min(2).max(10)),
    /** … and so much beside it; a value of 0: beside what was told of it before */
    more: maybe(z.number().positive()),
    /** it was told to be so much before */
    instead: maybe(anyNumber),
  },
  dissolved: none,
  /** some of a powder is to come out again */
  'take-out': none,
  'scale-zeroed': none,
  'ph-reading': must('ph'),
  'made-up': may('volumeMl'),
  'ask-label': none,
  'mix-stop': none,
  'shelf-have': may('substance'),
  /** percent of what a jar is named by; below a half it is another substance */
  'shelf-add': { ...must('substance', 'massG'), purityPercent: maybe(z.number().min(50).max(100)) },
  /** what form a powder really is, and how pure (of a solution as well, percent): of a jar, or of the part in hand */
  'jar-is': {
    ...may('substance'),
    hydrate: maybe(id),
    purityPercent: maybe(z.number().positive().max(100)),
  },
  /** how long a bath keeps, unused and used */
  'ask-keeping': may('liquid'),
  /** the pH and specific gravity that a bath should have, and how they are read */
  'ask-checks': may('liquid'),
  /** how the control strips stand */
  'ask-control': none,
  /** `volumeMl` of a liquid, `massG` of a solid: a bath, a recipe or a substance by id; so is what it goes into */
  'what-if': {
    ...may('volumeMl', 'massG'),
    ...must('liquid'),
    intoVolumeMl: maybe(amount),
    ...may('intoLiquid', 'intoBottle'),
    /** how much of it, until the bath is spoiled */
    untilSpoiled: maybe(yes),
    /** they have met already */
    done: maybe(yes),
  },
};

/** Bottles, tub and tank coming to temperature. */
const warm = {
  'ask-ready': may('liquid'),
  /** without `of`: of what was read last */
  'ask-temperature': may('of'),
  'tub-set': must('tempC'),
  heater: { on: z.boolean() },
  'vessel-moved': { ...must('of'), into: z.boolean() },
  'ask-blend': { ...must('tempC'), ...may('volumeMl') },
  'show-curves': none,
};

/** The bottles' memory. */
const ledger = {
  'ask-bottle': must('bottle'),
  'ask-bottles': none,
  'ask-age': may('liquid'),
  'ask-mixed': may('liquid'),
  'ask-fullest': none,
  'ask-life': { ...may('liquid', 'bottle'), films: maybe(filmCount) },
  /** whether every bath of the process is good for so many films more */
  'ask-next-roll': { films: maybe(filmCount) },
  'ask-replenish': may('liquid'),
  /** what a bath did and when it was mixed, before it came to this bench; at least one of films, age, day of the week and month */
  'bath-history': {
    ...may('liquid', 'bottle'),
    films: maybe(z.number().int().min(0).max(999)),
    ageDays: maybe(z.number().min(0).max(10_000)),
    /** the last such day, 0 Sunday to 6 */
    weekday: maybe(z.number().int().min(0).max(6)),
    /** 1 to 12, the last one that is past */
    month: maybe(z.number().int().min(1).max(12)),
    day: maybe(z.number().int().min(1).max(31)),
  },
  /** the pH of a bath that stands mixed */
  'bath-ph': {
    ...must('ph'),
    by: maybe<z.ZodType<PhBy>>(oneOf('meter', 'strip')),
    ...may('liquid', 'bottle'),
  },
  'bottle-discarded': must('bottle'),
  'bottle-named': { ...must('bottle'), name: text },
  'ask-runs': none,
};

/**
 * The exact fields of every intent that words can have. What the compiler knows of an intent and what is checked before
 * one leaves the interpreter are both read from here.
 */
const SPOKEN = { ...run, ...world, ...speech, ...talk, ...mix, ...warm, ...ledger };

/** What a grammar may name; `unsure` and `several` are the interpreter's own. */
export type SpokenType = keyof typeof SPOKEN;

type Told<T, F extends z.ZodRawShape> = { type: T } & (keyof F extends never
  ? unknown
  : z.infer<z.ZodObject<F>>);
type Spoken = { [T in SpokenType]: Told<T, (typeof SPOKEN)[T]> };

/**
 * What the user meant, once words have been understood. One sentence gives one intent.
 * Optional fields were not said; the desk that answers asks for what it needs, it never guesses.
 */
export type Intent =
  | Spoken[SpokenType]
  /** several facts in one sentence, in the order said */
  | { type: 'several'; intents: Intent[] }
  /** heard as speech to the assistant, but not clear enough to act on */
  | { type: 'unsure'; candidates: Intent[] };

export type IntentOf<T extends Intent['type']> = Extract<Intent, { type: T }>;

/** What a bottle holds, its number known. */
export type BottleHolds = IntentOf<'bottle-holds'> & { bottle: number };

/** A unit that is not used here, and what it is here can be asked. */
export type ConvertUnit = IntentOf<'ask-convert'>['unit'];

/** All types that words can have; for what looks whether each is reached. @internal */
export const INTENT_TYPES = Object.keys(SPOKEN) as readonly SpokenType[];

const SCHEMAS = new Map<unknown, z.ZodObject>(
  Object.entries(SPOKEN).map(([type, fields]) => [type, z.strictObject(fields)]),
);

/** The fields as an intent of this type, or undefined when they are not exactly one. */
export function asIntent(type: unknown, fields: Record<string, unknown>): Intent | undefined {
  const told = Object.fromEntries(Object.entries(fields).filter(([, v]) => v !== undefined));
  if (!SCHEMAS.get(type)?.safeParse(told).success) return undefined;
  if (type === 'bath-history' && !['films', 'ageDays', 'weekday', 'month'].some((f) => f in told))
    return undefined;
  return { type, ...told } as Intent;
}

/** The names of an intent's fields, in the order of the table, and whether it makes sense without them. */
export function fieldsOf(type: SpokenType): { name: string; needed: boolean }[] {
  return Object.entries(SPOKEN[type]).map(([name, of]) => ({
    name,
    // in any words but those for it a reading, or the question for one, is of something
    needed: !(of instanceof z.ZodExactOptional) || (type.endsWith('temperature') && name === 'of'),
  }));
}
