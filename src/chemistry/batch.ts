import { volumeRange } from './quantities.js';
import type { Component, Recipe } from './recipes/index.js';
import { type Bath, equilibriumOf, water, withSubstance } from './solution/bath.js';
import { type Substance, substanceById, substitute } from './substances.js';

/** A form chosen for a component: what is really on the shelf, and how pure it is (0 to 1). */
export interface FormChoice {
  substance: string;
  purity?: number;
}

/** One thing to weigh or measure. `amount` and `tolerance` in `unit`. */
export interface BatchLine {
  component: Component;
  form: Substance;
  amount: number;
  unit: 'g' | 'ml';
  tolerance: number;
  /** what set the tolerance */
  toleranceFrom: 'analysis' | 'ph' | 'scale';
  /** one step of the scale is more than the whole analytical tolerance */
  coarseScale: boolean;
  /** how it is measured all the same: `amount` into `inMl` of water, and `takeMl` of that; null: it is not needed, or no way */
  stock: Stock | null;
  purity: number;
}

export interface Stock {
  /** g or ml, as the line is measured */
  amount: number;
  inMl: number;
  takeMl: number;
  keepDays: number;
}

/** A part that this scale cannot weigh. */
export interface TooCoarse {
  name: string;
  optional: boolean;
  step: number;
  unit: 'g' | 'ml';
}

export interface Batch {
  recipe: Recipe;
  volumeMl: number;
  lines: BatchLine[];
  /** null for a bath whose pH nothing holds or the model does not know */
  expectedPh: number | null;
  /** water to start with, ml: the recipe's share, less what the parts and stocks still to come take up */
  startWaterMl: number;
  /** empty when every part can be weighed or taken from a stock */
  tooCoarse: TooCoarse[];
}

export type BatchResult = { ok: true; batch: Batch } | { ok: false; why: string };

export interface BatchOptions {
  /** component substance id → form on the shelf */
  forms?: Readonly<Record<string, FormChoice>>;
  /** smallest step of the scale, g; 0.01 when not given */
  scaleStepG?: number;
  /** smallest step of the measure for liquids, ml; when not given a syringe's 0.1 below 10 ml, a graduate's 1 above */
  measureStepMl?: number;
}

/**
 * A recipe for a volume, in the forms on the shelf. Errors: a volume out of range (20 ml to 50 l), a form that
 * cannot stand in.
 */
export function planBatch(recipe: Recipe, volumeMl: number, options: BatchOptions = {}): BatchResult {
  if (!(volumeMl >= volumeRange.lowMl && volumeMl <= volumeRange.highMl)) {
    return {
      ok: false,
      why: `A volume from 20 millilitres to 50 litres can be mixed, not ${volumeMl} millilitres.`,
    };
  }
  const lines: BatchLine[] = [];
  for (const component of recipe.components) {
    const named = substanceById(component.substance);
    const choice = options.forms?.[component.substance];
    const form = substanceById(choice?.substance ?? component.substance);
    if (named === undefined || form === undefined) {
      return { ok: false, why: `The shelf does not know "${choice?.substance ?? component.substance}".` };
    }
    const purity = choice?.purity ?? 1;
    const amount = substitute(named, (component.perLitre * volumeMl) / 1000, form, purity);
    if (!amount.ok) return amount;
    lines.push({
      component,
      form,
      amount: amount.amount,
      unit: form.measure,
      tolerance: 0,
      toleranceFrom: 'analysis',
      coarseScale: false,
      stock: null,
      purity,
    });
  }
  const fresh = phOf(recipe, lines, volumeMl);
  for (const line of lines) setTolerance(line, recipe, lines, volumeMl, fresh, options);
  const tooCoarse: TooCoarse[] = [];
  for (const line of lines.filter((l) => l.coarseScale)) {
    line.stock = stockFor(line, recipe, lines, volumeMl, options);
    if (line.stock === null) tooCoarse.push(coarse(line, options));
  }
  const startWaterMl = startWater(recipe, lines, volumeMl);
  const expectedPh = recipe.ph === null ? null : fresh;
  return { ok: true, batch: { recipe, volumeMl, lines, expectedPh, startWaterMl, tooCoarse } };
}

/** The bath that stands in the jug with these lines in it, each scaled by `factor(line)`. */
export function bathOf(
  lines: readonly BatchLine[],
  volumeMl: number,
  factor: (l: BatchLine) => number = () => 1,
): Bath {
  return lines.reduce(
    (bath, l) => withSubstance(bath, l.form, l.amount * factor(l), l.purity),
    water(volumeMl),
  );
}

function phOf(
  recipe: Recipe,
  lines: BatchLine[],
  volumeMl: number,
  factor?: (l: BatchLine) => number,
): number | null {
  const solved = equilibriumOf(bathOf(lines, volumeMl, factor), { startPh: recipe.ph?.aim ?? 7 });
  return solved.ok ? solved.value.ph : null;
}

/**
 * Change of pH for one percent more of a line, at the batch's own volume: its leverage. pH units per percent.
 */
export function leverage(recipe: Recipe, lines: BatchLine[], volumeMl: number, line: BatchLine): number {
  const up = phOf(recipe, lines, volumeMl, (l) => (l === line ? 1.005 : 1));
  const down = phOf(recipe, lines, volumeMl, (l) => (l === line ? 0.995 : 1));
  return up === null || down === null ? 0 : Math.abs(up - down);
}

/** Weighing may take this share of a tolerance; purity, volume and the meter take the rest. source: common practice */
const weighingShare = 1 / 3;

/**
 * The tolerance is the tighter of a third of the analytical one and the error that would spend a third of the pH
 * tolerance; never below what the scale can show (one step), and then the line is marked.
 */
function setTolerance(
  line: BatchLine,
  recipe: Recipe,
  lines: BatchLine[],
  volumeMl: number,
  fresh: number | null,
  options: BatchOptions,
): void {
  const step = stepOf(line, options);
  const byAnalysis = line.amount * line.component.tolerance.fraction * weighingShare;
  let wanted = byAnalysis;
  if (recipe.ph?.buffered === true && fresh !== null) {
    const perPercent = leverage(recipe, lines, volumeMl, line);
    const byPh =
      perPercent > 0
        ? (((recipe.ph.tolerance * weighingShare) / perPercent) * line.amount) / 100
        : Number.POSITIVE_INFINITY;
    if (byPh < wanted) {
      wanted = byPh;
      line.toleranceFrom = 'ph';
    }
  }
  line.coarseScale = byAnalysis / weighingShare < step;
  if (wanted < step) line.toleranceFrom = 'scale';
  line.tolerance = Math.max(wanted, step);
}

const defaultStepG = 0.01;

/** Smallest step of what measures a line, in its unit. */
const stepOf = (line: Pick<BatchLine, 'unit' | 'amount'>, options: BatchOptions): number =>
  line.unit === 'g'
    ? (options.scaleStepG ?? defaultStepG)
    : (options.measureStepMl ?? (line.amount < 10 ? 0.1 : 1));

/** A stock is made in this much water; a syringe or small graduate takes one of these parts of it, the largest first. */
const stockMl = 100;
const stockParts: readonly number[] = [2, 5, 10, 20, 50, 100];

/** The first water is at least this share of the batch, or the powders have nothing to dissolve in. source: common practice */
const leastStart = 0.4;

/** What dissolved powder adds to the volume, ml per gram, on the high side. source: densities of common salts, 1.5 to 2.7 */
const mlPerGram = 0.5;

/** What a line takes of the volume, ml. */
const roomOf = (line: BatchLine): number =>
  line.stock !== null ? line.stock.takeMl : line.unit === 'ml' ? line.amount : line.amount * mlPerGram;

/**
 * A way round a coarse scale, for a substance that keeps when dissolved: as much into 100 ml of water as the scale
 * weighs well, and a part of it that leaves room for everything else.
 */
function stockFor(
  line: BatchLine,
  recipe: Recipe,
  lines: readonly BatchLine[],
  volumeMl: number,
  options: BatchOptions,
): Stock | null {
  const { stock } = line.form;
  if (stock === undefined) return null;
  const step = stepOf(line, options);
  const wanted = line.amount * line.component.tolerance.fraction;
  const others = lines.reduce((sum, l) => (l === line ? sum : sum + roomOf(l)), 0);
  const room = volumeMl * (1 - Math.min(recipe.startWater.fraction, leastStart)) - others;
  const times = stockParts.find((k) => wanted * k >= step * (1 - 1e-9) && stockMl / k <= room);
  return times === undefined
    ? null
    : { amount: line.amount * times, inMl: stockMl, takeMl: stockMl / times, keepDays: stock.keepDays };
}

function coarse(line: BatchLine, options: BatchOptions): TooCoarse {
  return {
    name: line.form.name,
    optional: line.component.optional === true,
    step: stepOf(line, options),
    unit: line.unit,
  };
}

/** Never so much that the parts still to come would lift the batch over its mark. */
function startWater(recipe: Recipe, lines: readonly BatchLine[], volumeMl: number): number {
  const parts = lines.reduce((sum, l) => sum + roomOf(l), 0);
  const wanted = Math.min(volumeMl * recipe.startWater.fraction, volumeMl * 0.98 - parts);
  const step = volumeMl < 200 ? 1 : 5;
  return Math.max(0, Math.floor(wanted / step + 1e-9) * step);
}

/** Volumes that are offered instead, ml. */
const rounder = [
  100, 150, 200, 250, 300, 400, 500, 600, 750, 1000, 1500, 2000, 3000, 5000, 10_000, 20_000, 50_000,
];

/** The least usual volume from `batch` on that this scale can weigh all parts of; null when none can be mixed at once. */
export function leastVolumeMl(batch: Batch, options: BatchOptions): number | null {
  const works = (volumeMl: number): boolean => {
    const planned = planBatch(batch.recipe, volumeMl, options);
    return planned.ok && planned.batch.tooCoarse.every((t) => t.optional);
  };
  return rounder.find((v) => v > batch.volumeMl && works(v)) ?? null;
}

/** The sentence that refuses a batch a scale cannot weigh, with the ways out; null when it can. */
export function refusalOf(batch: Batch, options: BatchOptions): string | null {
  const needed = batch.tooCoarse.filter((t) => !t.optional);
  const [first] = needed;
  if (first === undefined) return null;
  const least = leastVolumeMl(batch, options);
  const volume =
    least === null
      ? null
      : least >= 1000
        ? `${least / 1000} ${least === 1000 ? 'litre' : 'litres'}`
        : `${least} millilitres`;
  const tool = first.unit === 'g' ? 'scale' : 'measure';
  const shows = `A ${tool} that shows ${first.step} ${first.unit === 'g' ? 'grams' : 'millilitres'}`;
  const names = needed.map((t) => t.name).join(', ');
  return `${shows} is too coarse for this in ${batch.volumeMl} millilitres: ${names}. ${volume === null ? '' : `Mix ${volume} or more, or use`}${volume === null ? 'Use' : ''} a finer ${tool}.`;
}

/** The last day a bath should be trusted unused, as YYYY-MM-DD, from a mixing date of the same form. */
export function keepUntil(recipe: Recipe, mixedOn: string): string {
  const day = Date.parse(`${mixedOn}T00:00:00Z`);
  return new Date(day + recipe.keeping.unusedDays * 86_400_000).toISOString().slice(0, 10);
}
