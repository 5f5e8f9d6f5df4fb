import { z } from 'zod';
import type { Exposure } from '../../chemistry/safety/first-aid.js';
import { limits } from '../../limits.js';
import type { ConvertUnit, Intent, IntentOf } from '../../process/intent.js';

/** What a grammar may name; `unsure` and `several` are the interpreter's own. */
export type SpokenType = Exclude<Intent['type'], 'unsure' | 'several'>;

const bottle = z.number().int().min(1).max(limits.bottles);
const filmCount = z.number().int().min(1).max(999);
const id = z.string().regex(/^[a-z][a-z0-9-]*$/);
const liquid = id;
/** The most that the numbers of the grammars say, ml or g; what is too much for a sink is for the desk to say. */
const MOST = 100_000_000;
const volumeMl = z.number().positive().max(MOST);
const tempC = z.number().min(-100).max(1000);
/** percent of what a jar is named by; below a half it is another substance */
const purity = z.number().min(50).max(100);
/** Of a solution as well, percent. */
const strength = z.number().positive().max(100);
const seconds = z.number().positive().max(36_000);
const share = z.number().positive().max(1);
const text = z.string().min(1).max(2000);
const vessel = z.union([
  z.strictObject({ kind: z.literal('bottle'), number: bottle }),
  z.strictObject({ kind: z.literal(['tank', 'jug', 'tub', 'tap', 'sink']) }),
]);
const of = z.union([liquid, vessel]);
const convertUnits: Record<ConvertUnit, true> = {
  fahrenheit: true,
  celsius: true,
  oz: true,
  pound: true,
  grain: true,
  'fluid-ounce': true,
  pint: true,
  quart: true,
  gallon: true,
};

const exposures: Record<Exposure, true> = {
  collapsed: true,
  breathless: true,
  alight: true,
  shocked: true,
  burnt: true,
  eye: true,
  face: true,
  swallowed: true,
  breathed: true,
  skin: true,
  wound: true,
  animal: true,
};
const exposure = z.literal(Object.keys(exposures) as Exposure[]);

const maybe = z.exactOptional;
const some = z.strictObject;
const none = z.strictObject({});

/**
 * The exact fields of every intent beside its type, so that nothing malformed leaves the interpreter. The
 * compiler holds this table against the Intent contract, both ways.
 */
const FIELDS: { [T in SpokenType]: z.ZodType<Omit<IntentOf<T>, 'type'>> } = {
  'begin-run': some({ sheet: maybe(id) }),
  'film-loaded': none,
  'no-film': none,
  'next-step': none,
  'bath-in': some({
    liquid: maybe(liquid),
    agoS: maybe(seconds),
    volumeMl: maybe(volumeMl),
    share: maybe(share),
    instead: maybe(z.literal(true)),
  }),
  'start-clock': none,
  'hold-clock': none,
  'resume-clock': none,
  'drain-now': none,
  'tank-empty': some({ agoS: maybe(seconds) }),
  'ask-time-left': none,
  'ask-time-until': some({ liquid }),
  'ask-next': none,
  'ask-where': none,
  'ask-film': some({ liquid: maybe(liquid), about: maybe(z.literal(['outlook', 'time'])) }),
  'ask-cautions': some({ substance: maybe(id) }),
  'pour-in': some({ liquid: maybe(liquid), from: maybe(vessel), besides: maybe(text) }),
  'pour-back': some({
    liquid: maybe(liquid),
    to: maybe(vessel),
    volumeMl: maybe(volumeMl),
    besides: maybe(text),
  }),
  'pour-between': some({
    liquid: maybe(liquid),
    from: maybe(vessel),
    to: maybe(vessel),
    volumeMl: maybe(volumeMl),
    besides: maybe(text),
  }),
  'pour-away': some({ liquid: maybe(liquid), from: maybe(vessel) }),
  poured: some({
    liquid: maybe(liquid),
    from: maybe(vessel),
    to: maybe(vessel),
    toOf: maybe(liquid),
    volumeMl: maybe(volumeMl),
    share: maybe(share),
    some: maybe(z.literal(true)),
    instead: maybe(vessel),
    agoS: maybe(seconds),
  }),
  'bottle-empty': some({ bottle }),
  correct: some({
    liquid: maybe(liquid),
    vessel: maybe(vessel),
    tempC: maybe(tempC),
    volumeMl: maybe(volumeMl),
    seconds: maybe(seconds),
    massG: maybe(z.number().positive().max(MOST)),
    substance: maybe(id),
    unit: maybe(z.enum(['oz', 'grain', 'kg', 'mg'])),
    all: maybe(z.literal(true)),
    value: maybe(z.number().min(0).max(MOST)),
    wrong: maybe(z.number().min(0).max(MOST)),
    agoS: maybe(seconds),
    ageDays: maybe(z.number().min(0).max(MOST)),
    asTold: maybe(z.literal(true)),
    share: maybe(share),
  }),
  withdraw: some({ wrong: maybe(z.literal(true)), yet: maybe(z.literal(true)), no: maybe(z.literal(true)) }),
  away: some({ seconds: maybe(seconds) }),
  room: some({ is: z.literal(['out', 'left', 'asks', 'back', 'safe']) }),
  'left-out': some({ liquid: maybe(liquid) }),
  'in-doubt': some({ liquid: maybe(liquid), suspect: maybe(of), other: maybe(of) }),
  redo: none,
  shorten: some({ seconds }),
  'drained-late': some({ seconds }),
  contaminated: some({
    liquid,
    with: maybe(liquid),
    intoLiquid: maybe(liquid),
    intoBottle: maybe(bottle),
    intoVessel: maybe(z.literal(['jug', 'tank'])),
    volumeMl: maybe(volumeMl),
    all: maybe(z.literal(true)),
  }),
  swapped: some({
    bottle: maybe(bottle),
    other: maybe(bottle),
    liquid: maybe(liquid),
    otherLiquid: maybe(liquid),
    sure: maybe(z.literal(true)),
  }),
  'all-at': some({ tempC, except: maybe(liquid) }),
  skip: some({ liquid: maybe(liquid), for: maybe(liquid), substance: maybe(id) }),
  'had-before': some({ liquid, seconds: maybe(seconds) }),
  'tank-without-film': some({ liquid: maybe(liquid) }),
  films: some({
    count: maybe(z.number().int().min(1).max(99)),
    format: maybe(z.literal(['super-8', '16mm', '35mm', '120', '4x5', '8x10'])),
    stock: maybe(text),
    lengthM: maybe(z.number().positive().max(1000)),
    pushStops: maybe(z.number().min(-5).max(5)),
    name: maybe(text),
  }),
  'ask-why': some({ cast: maybe(id), about: maybe(z.literal(['cause', 'change'])) }),
  'bottle-holds': some({
    bottle: maybe(bottle),
    full: maybe(z.literal(true)),
    share: maybe(share),
    liquid: maybe(liquid),
    volumeMl: maybe(volumeMl),
    capacityMl: maybe(volumeMl),
  }),
  'tank-takes': some({ volumeMl }),
  'use-tank': some({ tank: maybe(bottle), size: maybe(z.literal(['small', 'large'])) }),
  temperature: some({ of, tempC, anew: maybe(z.literal(true)), byOther: maybe(z.literal(true)) }),
  'thermometer-reads': some({ byC: z.number().positive().max(10), way: z.literal(['high', 'low']) }),
  spill: some({
    volumeMl: maybe(volumeMl),
    liquid: maybe(liquid),
    place: maybe(text),
    bottle: maybe(bottle),
    tank: maybe(z.literal(true)),
    share: maybe(share),
    some: maybe(z.literal(true)),
    again: maybe(z.literal(true)),
  }),
  'spill-cleaned': some({ by: maybe(liquid), liquid: maybe(liquid) }),
  'add-time': some({ seconds, inAll: maybe(z.literal(true)) }),
  note: some({ text: maybe(text) }),
  part: some({ liquid: maybe(liquid), vessel: maybe(vessel) }),
  undo: some({ denied: maybe(z.literal(true)), reading: maybe(z.literal(true)) }),
  confirm: none,
  cancel: none,
  override: none,
  stop: none,
  'film-hung': none,
  'close-run': none,

  quiet: none,
  'say-again': none,
  louder: none,
  softer: none,
  slower: none,
  faster: none,
  help: some({ topic: maybe(text) }),
  more: none,
  verbosity: some({ level: z.literal(['brief', 'normal', 'full']) }),

  'ask-advice': some({
    topic: id,
    liquid: maybe(liquid),
    bottle: maybe(bottle),
    other: maybe(bottle),
  }),
  'ask-target': some({ liquid: maybe(liquid), tempC: maybe(tempC) }),
  'ask-duration': some({ liquid: maybe(liquid) }),
  'ask-time-at': some({ tempC: maybe(tempC) }),
  'ask-end': none,
  'ask-clock': none,
  'ask-convert': some({
    value: z.number().min(0).max(9999.999),
    unit: z.enum(Object.keys(convertUnits) as ConvertUnit[]),
  }),
  'ask-actual': some({ liquid: maybe(liquid) }),
  'ask-agitation': none,
  'ask-bottle-of': some({ liquid: maybe(liquid) }),
  'ask-volume': some({ liquid: maybe(liquid) }),
  'ask-amount': some({ substance: maybe(id) }),
  'ask-reason': none,
  'ask-disposal': some({ liquid: maybe(liquid) }),
  'ask-drying': none,
  'ask-shopping': some({ films: maybe(z.number().int().min(1).max(99)) }),
  'ask-notes': none,
  remind: some({ seconds: maybe(seconds), text: maybe(text) }),
  'ask-timers': none,
  'cancel-timer': some({ seconds: maybe(seconds) }),
  hurt: some({
    how: maybe(exposure),
    also: maybe(z.array(exposure)),
    liquid: maybe(liquid),
    about: maybe(z.literal(['rinsing', 'over', 'still', 'if', 'call', 'lens'])),
  }),
  greeting: none,
  thanks: none,
  busy: none,
  'ask-identity': none,

  'mix-start': some({ recipe: id, volumeMl: maybe(volumeMl) }),
  'mix-plan': some({ recipe: id, volumeMl: maybe(volumeMl) }),
  'mix-next': none,
  'mix-where': none,
  reading: some({
    value: z.number().min(0).max(MOST),
    unit: maybe(z.literal(['g', 'kg', 'mg', 'oz', 'grain', 'ml', 'l'])),
    substance: maybe(id),
    added: maybe(z.literal(true)),
    times: maybe(z.number().int().min(2).max(10)),
  }),
  dissolved: none,
  'take-out': none,
  'scale-zeroed': none,
  'ph-reading': some({ ph: z.number().min(0).max(14) }),
  'made-up': some({ volumeMl: maybe(volumeMl) }),
  'ask-label': none,
  'mix-stop': none,
  'shelf-have': some({ substance: maybe(id) }),
  'shelf-add': some({
    substance: id,
    massG: z.number().positive().max(MOST),
    purityPercent: maybe(purity),
  }),
  'jar-is': some({ substance: maybe(id), hydrate: maybe(id), purityPercent: maybe(strength) }),
  'ask-keeping': some({ liquid: maybe(liquid) }),
  'ask-checks': some({ liquid: maybe(liquid) }),
  'ask-control': none,
  'what-if': some({
    volumeMl: maybe(volumeMl),
    massG: maybe(z.number().positive().max(MOST)),
    liquid,
    intoVolumeMl: maybe(volumeMl),
    intoLiquid: maybe(liquid),
    intoBottle: maybe(bottle),
    untilSpoiled: maybe(z.literal(true)),
    done: maybe(z.literal(true)),
  }),

  'ask-ready': some({ liquid: maybe(liquid) }),
  'ask-temperature': some({ of }),
  'tub-set': some({ tempC }),
  heater: some({ on: z.boolean() }),
  'vessel-moved': some({ of, into: z.boolean() }),
  'ask-blend': some({ tempC, volumeMl: maybe(volumeMl) }),
  'show-curves': none,

  'ask-bottle': some({ bottle }),
  'ask-bottles': none,
  'ask-age': some({ liquid: maybe(liquid) }),
  'ask-mixed': some({ liquid: maybe(liquid) }),
  'ask-fullest': none,
  'ask-life': some({ liquid: maybe(liquid), bottle: maybe(bottle), films: maybe(filmCount) }),
  'ask-next-roll': some({ films: maybe(filmCount) }),
  'ask-replenish': some({ liquid: maybe(liquid) }),
  'bath-history': some({
    liquid: maybe(liquid),
    bottle: maybe(bottle),
    films: maybe(z.number().int().min(0).max(999)),
    ageDays: maybe(z.number().min(0).max(10_000)),
    weekday: maybe(z.number().int().min(0).max(6)),
    month: maybe(z.number().int().min(1).max(12)),
    day: maybe(z.number().int().min(1).max(31)),
  }).refine((i) => [i.films, i.ageDays, i.weekday, i.month].some((told) => told !== undefined)),
  'bath-ph': some({
    ph: z.number().min(0).max(14),
    by: maybe(z.enum(['meter', 'strip'])),
    liquid: maybe(liquid),
    bottle: maybe(bottle),
  }),
  'bottle-discarded': some({ bottle }),
  'bottle-named': some({ bottle, name: text }),
  'ask-runs': none,
};

/** All types that words can have; for what looks whether each is reached. @internal */
export const INTENT_TYPES = Object.keys(FIELDS) as readonly SpokenType[];

/** The fields as an intent of this type, or undefined when they are not exactly one. */
export function asIntent(type: unknown, fields: Record<string, unknown>): Intent | undefined {
  if (typeof type !== 'string' || !Object.hasOwn(FIELDS, type)) return undefined;
  const schema = FIELDS[type as SpokenType];
  const told = Object.fromEntries(Object.entries(fields).filter(([, v]) => v !== undefined));
  return schema.safeParse(told).success ? ({ type, ...told } as Intent) : undefined;
}

/** The names of an intent's fields, in the order of the table, and whether it makes sense without them. */
export function fieldsOf(type: SpokenType): { name: string; needed: boolean }[] {
  const schema = FIELDS[type];
  if (!(schema instanceof z.ZodObject)) return [];
  return Object.entries(schema.shape).map(([name, of]) => ({
    name,
    needed: !(of instanceof z.ZodExactOptional),
  }));
}
