import { z } from 'zod';
import { FORMATS } from './film-area.js';
import { roles } from './liquids.js';
import type { BottleDoubt } from './records.js';
import type { LiquidId, VesselRef } from './vessel.js';

const id = z.string().min(1);
const liquid: z.ZodType<LiquidId> = id;
const text = z.string();
const number = z.number();
const amount = z.number().min(0);
const bottle = z.int().min(1);
const yes = z.literal(true);
const maybe = z.exactOptional;
const runId = id;
const role = z.enum(roles);
const format = z.enum(FORMATS);
const vessel: z.ZodType<VesselRef> = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('bottle'), number: bottle }),
  z.strictObject({ kind: z.enum(['tank', 'jug', 'tub', 'tap', 'sink']) }),
]);
const doubt: z.ZodType<BottleDoubt> = z.enum([
  ...(['oxidised', 'gone-off', 'mixed-wrong', 'label-lost', 'ph-off', 'unanswered', 'spilled'] as const),
]);

/** Fields that a newer tankside may add are kept, so that nothing is lost on the way through an older one. */
const open = <S extends z.ZodRawShape>(shape: S) => z.looseObject(shape) as unknown as z.ZodObject<S>;

const film = open({
  stock: text,
  format,
  /** metres; for sheets and 120 the count matters */
  lengthM: maybe(number),
  count: maybe(number),
  ratedIso: maybe(number),
  usedIso: maybe(number),
  /** stops of push (+) or pull (−) */
  pushStops: maybe(number),
  /** a name for the roll */
  name: maybe(text),
  /** nobody said what it is: taken for one film of the usual kind */
  assumed: maybe(yes),
  notes: maybe(text),
});
const films = z.array(film);

/** Status M */
const density = z.number().min(0).max(5);
const densities = open({ red: density, green: density, blue: density });

/**
 * What really happened, as the ledger and the review keep it. Facts follow from journaled events by replay;
 * they are never the source. What the compiler knows of a fact and what is checked of one from a file are both read from here.
 */
const FACTS = {
  'run-started': {
    runId,
    sheetId: id,
    tankMl: amount,
    films,
    /** the process sheet itself, as it was when the run began: a later start goes on with this one */
    sheet: maybe(z.record(text, z.unknown()).readonly()),
  },
  'film-loaded': {
    runId: maybe(runId),
    kind: maybe(open({ backing: z.boolean(), image: z.enum(['dye', 'silver']) })),
  },
  /** it was said to be in the tank, and is not */
  'film-out': { runId: maybe(runId) },
  /** what is being processed; takes the place of what was told before */
  'films-told': { runId: maybe(runId), films },
  /** `lacking`: baths of the sheet that the film never had */
  'film-hung': { runId: maybe(runId), lacking: maybe(z.array(liquid)) },
  'step-skipped': { runId, stepId: id },
  /** the black backing still comes off */
  'backing-seen': { runId: maybe(runId) },
  /** rinsed by filling and emptying, without a word for each */
  rinsed: { runId: maybe(runId), fills: z.int().min(1).max(20), seconds: amount },
  /** a bath that the film had before anything was said */
  'film-had': { runId: maybe(runId), liquid, role, seconds: amount, stepId: maybe(id) },
  'tank-told': { volumeMl: amount },
  /** another tank is at work from here on; the one before keeps what is in it */
  'tank-chosen': { tank: id },
  'step-started': { runId, stepId: id, liquid: maybe(liquid), tempC: maybe(number) },
  'step-ended': {
    runId,
    stepId: id,
    plannedS: number,
    actualS: number,
    tempC: maybe(number),
    /** time the clock was held, s */
    heldS: number,
  },
  poured: {
    runId: maybe(runId),
    from: vessel,
    to: vessel,
    liquid,
    volumeMl: amount,
    overridden: z.boolean(),
    /** what it does to film, when it goes into or out of the tank */
    role: maybe(role),
    /** the sheet's step it serves */
    stepId: maybe(id),
    /** when it happened, ms on the bench clock; left out: when it was said */
    sinceMs: maybe(number),
    /** nobody said so: later words prove it */
    inferred: maybe(yes),
    /** how long the filling or draining took by the words that were said, s */
    tookS: maybe(amount),
    /** developer: seconds the process wants */
    wantedS: maybe(amount),
    /** into the tank: seconds that this very bath takes, where that is not the sheet's time */
    aimS: maybe(amount),
    /** developer, out of the tank: seconds at the process's own temperature */
    effectiveS: maybe(amount),
    /** out of a tank in which the film never was */
    withoutFilm: maybe(yes),
  },
  'bottle-set': {
    bottle,
    liquid: liquid.nullable(),
    volumeMl: amount,
    capacityMl: amount,
    batch: maybe(text),
    /** the capacity was told, not taken for granted */
    capacityTold: maybe(yes),
    /** nobody said so: taken for granted with the sheet */
    assumed: maybe(yes),
    /** what it holds was said, and not how much */
    volumeAssumed: maybe(yes),
  },
  /** two bottles changed places, or their labels did: what each holds, with its history, is the other's */
  'bottles-swapped': { bottle, other: bottle },
  /** what a filling did, and when its batch was mixed, as it was told: `workM2` square metres of film in all */
  'bottle-history': {
    bottle,
    films: maybe(z.partialRecord(format, amount)),
    workM2: maybe(amount),
    mixedWallMs: maybe(number),
  },
  spilled: { runId: maybe(runId), from: maybe(vessel), liquid, volumeMl: amount, place: maybe(text) },
  temperature: { runId: maybe(runId), vessel, liquid: maybe(liquid), tempC: number },
  /** the pH of what stands in a bottle, as it was read; `off`: not what the bath should have */
  'bottle-ph': { bottle, ph: z.number().min(0).max(14), off: z.boolean() },
  /** something was said against what a bottle holds; null: it is to be used all the same. `of`: what may be in it */
  'bottle-doubted': { bottle, doubt: doubt.nullable(), of: maybe(liquid) },
  /** what may have been on the film and was never settled; empty: it is. `asked`: a pour was agreed to all the same */
  'film-doubted': { runId: maybe(runId), of: z.array(liquid), asked: maybe(z.boolean()) },
  /** a reading that was asked about; `tempC` null: it was dropped */
  'reading-doubted': { vessel, tempC: number.nullable() },
  /** the thermometer in use reads so much too high, °C; below zero: too low; `shiftC`: what that makes of the readings of before */
  'thermometer-told': { errorC: number, shiftC: number },
  'heater-told': { on: z.boolean() },
  overridden: { runId: maybe(runId), move: text, verdict: text, why: text },
  /** `reasons`: ids of what spoke against it */
  deviation: { runId, stepId: id, what: text, reasons: maybe(z.array(text).readonly()) },
  note: { runId: maybe(runId), text },
  /** some of one bath, or a thing that is none, got into a bottle or the tank, and nobody measured how much: no volume changes */
  splashed: { runId: maybe(runId), liquid: text, bottle: maybe(bottle), tank: maybe(yes) },
  'bottle-discarded': { bottle, liquid, volumeMl: amount },
  'bottle-named': { bottle, name: text },
  /** dry chemicals: stock set by the user, or used by a mix; `substance` is a chemistry id */
  'shelf-set': { substance: id, massG: amount, purity: maybe(number), pricePerKg: maybe(number) },
  /** `purity` 0 to 1 of that jar, where it is less than 1 */
  'shelf-used': { substance: id, massG: amount, batch: text, purity: maybe(number) },
  mixed: {
    batch: text,
    recipe: id,
    liquid,
    volumeMl: amount,
    bottle: maybe(bottle),
    ph: maybe(number),
    /** what the weighings and readings at mixing showed: `why`, worst first, says what is wrong with the batch; `unusable`: it is for the waste */
    checks: maybe(open({ ok: z.boolean(), why: z.array(text), unusable: maybe(yes) })),
  },
  /** a control strip that was read: densities by patch and channel; the first is the reference */
  'control-strip': {
    date: text,
    patches: open({ dMin: densities, lowDensity: densities, highDensity: densities }),
  },
  'run-finished': { runId, complete: z.boolean() },
};

type Facts = { [T in keyof typeof FACTS]: { type: T } & z.infer<z.ZodObject<(typeof FACTS)[T]>> };

export type Fact =
  | Facts[keyof Facts]
  /** an undone deed names the facts it takes back */
  | { type: 'undone'; runId?: string; what: string; facts: Fact[] };

export type FactOf<T extends Fact['type']> = Extract<Fact, { type: T }>;

export type FilmFormat = (typeof FORMATS)[number];

/** One film in the tank. */
export type FilmRef = z.infer<typeof film>;

const undone = open({
  type: z.literal('undone'),
  runId: maybe(runId),
  what: text,
  get facts() {
    return z.array(factSchema);
  },
});

/** Checks a fact that comes from a file. */
export const factSchema: z.ZodType<Fact> = z.discriminatedUnion('type', [
  undone,
  ...Object.entries(FACTS).map(([type, shape]) => open({ type: z.literal(type), ...shape })),
]) as z.ZodType<unknown> as z.ZodType<Fact>;
