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
  purity: number;
}

export interface Batch {
  recipe: Recipe;
  volumeMl: number;
  lines: BatchLine[];
  /** null for a bath whose pH nothing holds or the model does not know */
  expectedPh: number | null;
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
      return {
        ok: false,
        why: `The shelf does not know "${choice?.substance ?? component.substance}".`,
      };
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
      purity,
    });
  }
  const fresh = phOf(recipe, lines, volumeMl);
  for (const line of lines) setTolerance(line, recipe, lines, volumeMl, fresh, options);
  return {
    ok: true,
    batch: {
      recipe,
      volumeMl,
      lines,
      expectedPh: recipe.ph === null ? null : fresh,
    },
  };
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
  const solved = equilibriumOf(bathOf(lines, volumeMl, factor), {
    startPh: recipe.ph?.aim ?? 7,
  });
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
  const step =
    line.unit === 'g'
      ? (options.scaleStepG ?? 0.01)
      : (options.measureStepMl ?? (line.amount < 10 ? 0.1 : 1));
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

/**
 * A way round a coarse scale: put `amount` into `inMl` of water and take `takeMl` of that. Null when the scale is
 * fine enough. The stock is strong enough to weigh well and the part taken easy to measure.
 */
export function dilutionFor(
  line: BatchLine,
  stepG = 0.01,
): { amount: number; inMl: number; takeMl: number } | null {
  if (!line.coarseScale) return null;
  const step = line.unit === 'g' ? stepG : 0.1;
  const wanted = line.amount * line.component.tolerance.fraction;
  const times = [2, 5, 10, 20, 50, 100].find((k) => wanted * k >= step) ?? 100;
  return { amount: line.amount * times, inMl: 100, takeMl: 100 / times };
}

/** The last day a bath should be trusted unused, as YYYY-MM-DD, from a mixing date of the same form. */
export function keepUntil(recipe: Recipe, mixedOn: string): string {
  const day = Date.parse(`${mixedOn}T00:00:00Z`);
  return new Date(day + recipe.keeping.unusedDays * 86_400_000).toISOString().slice(0, 10);
}
