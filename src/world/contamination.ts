import { type ChangedTime, type Fitness, fitness } from '../chemistry/fitness.js';
import { comesAsGas } from '../chemistry/safety/incompatible.js';
import type { Liquid } from './liquids.js';
import type { BottleRecord, Contamination, World } from './records.js';
import type { LiquidId } from './vessel.js';

export interface ContaminationEffect {
  contamination: Contamination;
  /** null: nothing is known of one of the two liquids */
  verdict: 'use' | 'care' | 'discard' | null;
  /** the finding that decides, in words; '' when nothing does */
  why: string;
  /** the bath's working part, 1 = fresh; null: not known */
  strength: number | null;
  /** usable, for so much longer */
  time: ChangedTime | null;
  /** what is said of the gases that harm, which they can give off together */
  gas: readonly string[];
}

const verdicts: Readonly<Record<Fitness['verdict'], ContaminationEffect['verdict']>> = {
  fit: 'use',
  // longer, and then it does its work
  'fit-changed-time': 'use',
  restorable: 'care',
  discard: 'discard',
  unknown: null,
};

/**
 * What the wrong pours did to what is in a bottle now, by the solution model over everything that is in it; null when
 * nothing foreign is. The pour named is the largest.
 */
export function worstContamination(bottle: BottleRecord): ContaminationEffect | null {
  const known = effects.get(bottle);
  if (known !== undefined) return known;
  const found = effectOn(bottle);
  effects.set(bottle, found);
  return found;
}

/** The model takes milliseconds, and the same bottle is asked about many times. */
const effects = new WeakMap<BottleRecord, ContaminationEffect | null>();

/** A splash that nobody measured is reckoned as this much, ml; it is never spoken of as an amount. Source: common practice. */
const splashMl = 20;
const amountMl = ({ volumeMl }: Contamination): number => volumeMl ?? splashMl;

function effectOn(bottle: BottleRecord): ContaminationEffect | null {
  const [worst] = bottle.contaminations.toSorted((a, b) => amountMl(b) - amountMl(a));
  const { liquid } = bottle;
  if (!worst || liquid === null || bottle.contents.volumeMl <= 0) return null;
  const splashes = bottle.contaminations.flatMap((c) =>
    c.volumeMl === null ? [[c.liquid, splashMl] as const] : [],
  );
  const parts = [...Object.entries(bottle.contents.parts), ...splashes].map(([of, volumeMl]) => ({
    of: of === liquid ? (bottle.recipe ?? of) : of,
    volumeMl,
  }));
  const found = fitness({ bath: bottle.recipe ?? liquid, parts });
  // water dilutes, and nobody knows by how much
  const thinned = worst.liquid === 'water' && worst.volumeMl === null && verdicts[found.verdict] === 'use';
  const verdict = thinned ? 'care' : verdicts[found.verdict];
  // what the foreign bath does by itself says more than the numbers it shifts
  const telling = found.findings.find(
    (f) => f.level === 'discard' && (f.id === 'danger' || f.id === 'foreign'),
  );
  return {
    contamination: worst,
    verdict,
    why: thinned
      ? 'it is weaker by as much'
      : verdict === 'use'
        ? ''
        : (telling?.why ?? found.reasons[0] ?? ''),
    strength: found.strength,
    time: found.time ?? null,
    gas: found.dangers.filter(comesAsGas).map((d) => d.spoken),
  };
}

/** The bottle without what got into it later than this. */
export function asAt(bottle: BottleRecord, wallMs: number): BottleRecord {
  const since = bottle.contaminations.filter((c) => c.wallMs > wallMs);
  const [first] = since;
  if (!first) return bottle;
  const later = (of: LiquidId): number =>
    since.reduce((ml, c) => ml + (c.liquid === of ? (c.volumeMl ?? 0) : 0), 0);
  const before = Object.entries(bottle.contents.parts).map(([of, ml]) => [of, Math.max(0, ml - later(of))]);
  return {
    ...bottle,
    contaminations: bottle.contaminations.filter((c) => c.wallMs <= wallMs),
    contents: { ...bottle.contents, volumeMl: first.intoMl, parts: Object.fromEntries(before) },
  };
}

/** What a process sheet says of its baths. */
export interface SheetBaths {
  rate?: string | undefined;
  liquids?: readonly Liquid[] | undefined;
  /** what is used, and whether it can be used again */
  steps?: readonly { liquid: LiquidId | null; reusable: boolean }[] | undefined;
}

/** The bottle as it would be with nothing in it but the last thing that got in. */
export function withLastOnly(bottle: BottleRecord): BottleRecord {
  const last = bottle.contaminations.at(-1);
  if (!last) return bottle;
  const parts = {
    [last.intoLiquid]: last.intoMl,
    ...(last.volumeMl !== null && { [last.liquid]: last.volumeMl }),
  };
  const volumeMl = last.intoMl + (last.volumeMl ?? 0);
  return {
    ...bottle,
    contaminations: [last],
    contents: { ...bottle.contents, volumeMl, parts },
  };
}

/** The process that the recipes are for. */
export const ofRecipes: SheetBaths = { rate: 'ecn-2' };

/** The sheet of the run that goes on, else the one that was chosen. */
export const bathsAtWork = ({ run }: Pick<World, 'run'>, chosen: SheetBaths): SheetBaths =>
  (run?.sheet as SheetBaths | null | undefined) ?? chosen;

/** Whether a bath nobody said the recipe of may be taken for one of the recipes. */
export const formulasHold = (baths: SheetBaths): boolean => baths.rate === ofRecipes.rate;

/** Whether a bottle's bath is known by a recipe: as it was said, or as one of the recipes. */
export const isFormulated = ({ recipe }: Pick<BottleRecord, 'recipe'>, baths: SheetBaths): boolean =>
  recipe !== null || formulasHold(baths);

/** What other liquids did to a bottle of such a sheet; null when nothing got in. */
export function contaminationIn(bottle: BottleRecord, baths: SheetBaths): ContaminationEffect | null {
  const reckoned = worstContamination(bottle);
  return isFormulated(bottle, baths) ? reckoned : unformulated(reckoned);
}

/** Of a bath without a recipe: what ruins one with a recipe is taken to ruin it; more is not known. */
function unformulated(effect: ContaminationEffect | null): ContaminationEffect | null {
  const ruined = effect?.verdict === 'discard';
  return effect && { ...effect, verdict: ruined ? 'discard' : null, why: '', strength: null, time: null };
}

/** Share of a bottle that came over from each other bath, 0 to 1, largest first; below a tenth of a percent left out. */
export function carryOver(bottle: BottleRecord): { liquid: LiquidId; share: number }[] {
  const { parts, volumeMl } = bottle.contents;
  return Object.entries(parts)
    .filter(([liquid]) => liquid !== bottle.liquid)
    .map(([liquid, ml]) => ({ liquid, share: volumeMl <= 0 ? 0 : ml / volumeMl }))
    .filter(({ share }) => share >= 0.001)
    .sort((a, b) => b.share - a.share);
}
