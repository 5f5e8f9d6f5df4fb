import { z } from 'zod';
import type { Fact } from '../world/fact.js';
import { FORMATS } from '../world/film-area.js';
import { roles } from '../world/liquids.js';

/** Checks facts that come from a file. The type annotation at the end keeps this in step with src/world/fact.ts. */
const id = z.string().min(1);
const amount = z.number().min(0);
const vessel = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('bottle'), number: z.int().min(1) }),
  z.strictObject({ kind: z.enum(['tank', 'jug', 'tub', 'tap', 'sink']) }),
]);
const film = z.looseObject({
  stock: z.string(),
  format: z.enum(['super-8', '16mm', '35mm', '120', '4x5', '8x10']),
  lengthM: z.number().optional(),
  count: z.number().optional(),
  ratedIso: z.number().optional(),
  usedIso: z.number().optional(),
  notes: z.string().optional(),
});
const runId = id;
const maybeRun = id.optional();

const density = z.number().min(0).max(5);
const densities = z.looseObject({ red: density, green: density, blue: density });

const plain = [
  z.looseObject({
    type: z.literal('run-started'),
    runId,
    sheetId: id,
    tankMl: amount,
    films: z.array(film),
  }),
  z.looseObject({ type: z.literal('film-loaded'), runId: maybeRun }),
  z.looseObject({ type: z.literal('films-told'), runId: maybeRun, films: z.array(film) }),
  z.looseObject({ type: z.literal('film-hung'), runId: maybeRun, lacking: z.array(id).optional() }),
  z.looseObject({ type: z.literal('step-skipped'), runId, stepId: id }),
  z.looseObject({ type: z.literal('backing-seen'), runId: maybeRun }),
  z.looseObject({
    type: z.literal('rinsed'),
    runId: maybeRun,
    fills: z.int().min(1).max(20),
    seconds: amount,
  }),
  z.looseObject({
    type: z.literal('film-had'),
    runId: maybeRun,
    liquid: id,
    role: z.enum(roles),
    seconds: amount,
    stepId: id.optional(),
  }),
  z.looseObject({ type: z.literal('tank-told'), volumeMl: amount }),
  z.looseObject({ type: z.literal('tank-chosen'), tank: id }),
  z.looseObject({
    type: z.literal('bottle-doubted'),
    bottle: z.int().min(1),
    doubt: z.enum(['oxidised', 'gone-off', 'label-lost', 'ph-off', 'unanswered', 'spilled']).nullable(),
    of: id.optional(),
  }),
  z.looseObject({
    type: z.literal('film-doubted'),
    runId: maybeRun,
    of: z.array(id),
    asked: z.boolean().optional(),
  }),
  z.looseObject({
    type: z.literal('bottle-ph'),
    bottle: z.int().min(1),
    ph: z.number().min(0).max(14),
    off: z.boolean(),
  }),
  z.looseObject({ type: z.literal('film-out'), runId: maybeRun }),
  z.looseObject({ type: z.literal('reading-doubted'), vessel, tempC: z.number().nullable() }),
  z.looseObject({ type: z.literal('heater-told'), on: z.boolean() }),
  z.looseObject({ type: z.literal('thermometer-told'), errorC: z.number(), shiftC: z.number() }),
  z.looseObject({
    type: z.literal('step-started'),
    runId,
    stepId: id,
    liquid: id.optional(),
    tempC: z.number().optional(),
  }),
  z.looseObject({
    type: z.literal('step-ended'),
    runId,
    stepId: id,
    plannedS: z.number(),
    actualS: z.number(),
    tempC: z.number().optional(),
    heldS: z.number(),
  }),
  z.looseObject({
    type: z.literal('poured'),
    runId: maybeRun,
    from: vessel,
    to: vessel,
    liquid: id,
    volumeMl: amount,
    overridden: z.boolean(),
    role: z.enum(roles).optional(),
    sinceMs: z.number().optional(),
    tookS: amount.optional(),
    wantedS: amount.optional(),
    aimS: amount.optional(),
    effectiveS: amount.optional(),
  }),
  z.looseObject({
    type: z.literal('bottle-set'),
    bottle: z.int().min(1),
    liquid: id.nullable(),
    volumeMl: amount,
    capacityMl: amount,
    batch: z.string().optional(),
  }),
  z.looseObject({
    type: z.literal('bottles-swapped'),
    bottle: z.int().min(1),
    other: z.int().min(1),
  }),
  z.looseObject({
    type: z.literal('bottle-history'),
    bottle: z.int().min(1),
    films: z.partialRecord(z.enum(FORMATS), amount).optional(),
    workM2: amount.optional(),
    mixedWallMs: z.number().optional(),
  }),
  z.looseObject({
    type: z.literal('spilled'),
    runId: maybeRun,
    from: vessel.optional(),
    liquid: id,
    volumeMl: amount,
    place: z.string().optional(),
  }),
  z.looseObject({
    type: z.literal('temperature'),
    runId: maybeRun,
    vessel,
    liquid: id.optional(),
    tempC: z.number(),
  }),
  z.looseObject({
    type: z.literal('overridden'),
    runId: maybeRun,
    move: z.string(),
    verdict: z.string(),
    why: z.string(),
  }),
  z.looseObject({
    type: z.literal('deviation'),
    runId,
    stepId: id,
    what: z.string(),
    reasons: z.array(z.string()).optional(),
  }),
  z.looseObject({ type: z.literal('note'), runId: maybeRun, text: z.string() }),
  z.looseObject({
    type: z.literal('bottle-discarded'),
    bottle: z.int().min(1),
    liquid: id,
    volumeMl: amount,
  }),
  z.looseObject({
    type: z.literal('splashed'),
    liquid: z.string(),
    bottle: z.int().min(1).optional(),
    tank: z.literal(true).optional(),
  }),
  z.looseObject({ type: z.literal('bottle-named'), bottle: z.int().min(1), name: z.string() }),
  z.looseObject({
    type: z.literal('shelf-set'),
    substance: id,
    massG: amount,
    purity: z.number().optional(),
    pricePerKg: z.number().optional(),
  }),
  z.looseObject({
    type: z.literal('shelf-used'),
    substance: id,
    massG: amount,
    batch: z.string(),
    purity: z.number().optional(),
  }),
  z.looseObject({
    type: z.literal('mixed'),
    batch: z.string(),
    recipe: id,
    liquid: id,
    volumeMl: amount,
    bottle: z.int().min(1).optional(),
    ph: z.number().optional(),
    checks: z.looseObject({ ok: z.boolean(), why: z.array(z.string()) }).optional(),
  }),
  z.looseObject({
    type: z.literal('control-strip'),
    date: z.string(),
    patches: z.looseObject({ dMin: densities, lowDensity: densities, highDensity: densities }),
  }),
  z.looseObject({ type: z.literal('run-finished'), runId, complete: z.boolean() }),
] as const;

const undone = z.looseObject({
  type: z.literal('undone'),
  runId: maybeRun,
  what: z.string(),
  get facts() {
    return z.array(factSchema);
  },
});

/** Fields that a newer tankside may add are kept, so that nothing is lost on the way through an older one. */
export const factSchema: z.ZodType<Fact> = z.discriminatedUnion('type', [
  ...plain,
  undone,
]) as unknown as z.ZodType<Fact>;
