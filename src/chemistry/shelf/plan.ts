import { type Batch, type FormChoice, planBatch } from '../batch.js';
import type { Recipe } from '../recipes/index.js';
import { formsOf, type Substance, substanceById, substitute } from '../substances.js';

/** One jar or bottle of dry or liquid chemical. Liquids are kept by mass too, so that one rule serves. */
export interface ShelfItem {
  /** substance id: names the hydrate or strength */
  substance: string;
  massG: number;
  /** 0 to 1; 1 when not given */
  purity?: number;
  pricePerKg?: number;
  /** YYYY-MM-DD, when it was bought or last set */
  date?: string;
}

/** Grams of an amount as measured: g as it is, ml by density (1 where none is known). */
export const massOf = (s: Substance, amount: number): number =>
  s.measure === 'g' ? amount : amount * (s.liquid?.densityGPerMl ?? 1);

/** The amount as measured of a mass: the other way round. */
export const amountOf = (s: Substance, massG: number): number =>
  s.measure === 'g' ? massG : massG / (s.liquid?.densityGPerMl ?? 1);

const itemFor = (shelf: readonly ShelfItem[], id: string): ShelfItem | undefined =>
  shelf.find((i) => i.substance === id);

/**
 * A form for each component: the one the recipe names if there is enough of it, else another form of the family
 * that there is enough of, else whichever there is most of.
 */
export function chooseForms(
  recipe: Recipe,
  volumeMl: number,
  shelf: readonly ShelfItem[],
): Record<string, FormChoice> {
  const out: Record<string, FormChoice> = {};
  for (const c of recipe.components) {
    const named = substanceById(c.substance);
    if (named === undefined) continue;
    const ranked = formsOf(named)
      .map((form) => ({ form, item: itemFor(shelf, form.id) }))
      .map(({ form, item }) => {
        const need = substitute(named, (c.perLitre * volumeMl) / 1000, form, item?.purity ?? 1);
        const share =
          item === undefined || !need.ok || need.amount <= 0 ? 0 : item.massG / massOf(form, need.amount);
        return { form, item, share: Math.min(1, share) };
      });
    const best = ranked.reduce((a, b) => (b.share > a.share ? b : a));
    if (best.share > 0) {
      const { purity } = best.item ?? {};
      out[c.substance] =
        purity === undefined ? { substance: best.form.id } : { substance: best.form.id, purity };
    }
  }
  return out;
}

export interface Shortage {
  substance: string;
  name: string;
  unit: 'g' | 'ml';
  need: number;
  have: number;
  optional: boolean;
}

export interface MixPlan {
  batch: Batch;
  forms: Record<string, FormChoice>;
  short: Shortage[];
  /** cost of what has a price, in the shelf's currency */
  cost: number;
  /** names of what has no price, so that the cost is not taken for all of it */
  unpriced: string[];
  filmsServed: number;
  costPerFilm: number;
}

export type PlanResult = { ok: true; plan: MixPlan } | { ok: false; why: string };

/** What a mix takes from the shelf, what is short, and the cost, before any jar is opened. */
export function planMix(
  recipe: Recipe,
  volumeMl: number,
  shelf: readonly ShelfItem[],
  scaleStepG?: number,
): PlanResult {
  const forms = chooseForms(recipe, volumeMl, shelf);
  const planned = planBatch(recipe, volumeMl, { forms, ...(scaleStepG === undefined ? {} : { scaleStepG }) });
  if (!planned.ok) return planned;
  const short: Shortage[] = [];
  const unpriced: string[] = [];
  let cost = 0;
  for (const line of planned.batch.lines) {
    const item = itemFor(shelf, line.form.id);
    const massG = massOf(line.form, line.amount);
    if (item?.pricePerKg === undefined) unpriced.push(line.form.name);
    else cost += (item.pricePerKg * massG) / 1000;
    if (massG > (item?.massG ?? 0) + 1e-9) {
      short.push({
        substance: line.form.id,
        name: line.form.name,
        unit: line.unit,
        need: line.amount,
        have: amountOf(line.form, item?.massG ?? 0),
        optional: line.component.optional === true,
      });
    }
  }
  const filmsServed = (volumeMl / 1000) * recipe.capacity.filmsPerLitre;
  return {
    ok: true,
    plan: {
      batch: planned.batch,
      forms,
      short,
      cost,
      unpriced,
      filmsServed,
      costPerFilm: filmsServed > 0 ? cost / filmsServed : 0,
    },
  };
}
