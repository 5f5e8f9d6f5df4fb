import { planBatch } from '../batch.js';
import { type Recipe, recipes } from '../recipes/index.js';
import { volumeNeeded } from '../recipes/volume.js';
import type { Substance } from '../substances.js';
import { amountOf, chooseForms, massOf, type ShelfItem } from './plan.js';

/** Packages that shops usually have, g or ml. source: common practice */
const usualPacks = { g: [100, 250, 500, 1000, 5000], ml: [100, 250, 500, 1000, 5000] } as const;

export interface ToBuy {
  substance: string;
  name: string;
  unit: 'g' | 'ml';
  /** what the day takes, what the shelf has, and what is then short */
  need: number;
  have: number;
  short: number;
  /** whole packages that cover it */
  packs: { count: number; size: number };
  /** price of the packages, where a price per kilogram is known */
  price: number | null;
  optional: boolean;
}

export interface BathOfDay {
  recipe: string;
  name: string;
  volumeMl: number;
  /** days it keeps unused and used */
  unusedDays: number;
  usedDays: number;
}

export interface DayList {
  films: number;
  baths: BathOfDay[];
  buy: ToBuy[];
  /** sum of the known prices, and the names of what has none */
  cost: number;
  unpriced: string[];
}

/** A bath is mixed so large where nobody told what the tank takes: a bottle usually holds it, ml. source: common practice */
export const usualBathMl = 600;

/** The recipes of one process, the first for each liquid. */
export const usualRecipes = (): Recipe[] =>
  recipes.filter((r, i) => recipes.findIndex((o) => o.liquid === r.liquid) === i);

/**
 * One list for a day of `films` 135-36 films: every bath mixed once, enough for the tank and for the films, less what
 * the shelf has. Errors: a number of films that is not 1 to 99, a tank below 100 ml.
 */
export function dayList(
  films: number,
  tankMl: number,
  shelf: readonly ShelfItem[],
  of: readonly Recipe[] = usualRecipes(),
): { ok: true; list: DayList } | { ok: false; why: string } {
  if (!(Number.isInteger(films) && films >= 1 && films <= 99))
    return { ok: false, why: 'Say for how many films, from 1 to 99.' };
  if (!(tankMl >= 100)) return { ok: false, why: 'A tank takes at least 100 millilitres.' };
  const need = new Map<string, { form: Substance; amount: number; optional: boolean }>();
  const baths: BathOfDay[] = [];
  for (const recipe of of) {
    const volumeMl = volumeNeeded(recipe, tankMl, films);
    const planned = planBatch(recipe, volumeMl, { forms: chooseForms(recipe, volumeMl, shelf) });
    if (!planned.ok) return planned;
    baths.push({
      recipe: recipe.id,
      name: recipe.name,
      volumeMl,
      unusedDays: recipe.keeping.unusedDays,
      usedDays: recipe.keeping.usedDays,
    });
    for (const line of planned.batch.lines) {
      const before = need.get(line.form.id);
      need.set(line.form.id, {
        form: line.form,
        amount: (before?.amount ?? 0) + line.amount,
        optional: line.component.optional === true && before?.optional !== false,
      });
    }
  }
  const buy: ToBuy[] = [];
  for (const { form, amount, optional } of need.values()) {
    const item = shelf.find((i) => i.substance === form.id);
    const have = amountOf(form, item?.massG ?? 0);
    const short = amount - have;
    if (short <= 1e-9) continue;
    const packs = packsFor(form, short);
    const price =
      item?.pricePerKg === undefined
        ? null
        : (item.pricePerKg * massOf(form, packs.count * packs.size)) / 1000;
    buy.push({
      substance: form.id,
      name: form.name,
      unit: form.measure,
      need: amount,
      have,
      short,
      packs,
      price,
      optional,
    });
  }
  const cost = buy.reduce((sum, b) => sum + (b.price ?? 0), 0);
  const unpriced = buy.filter((b) => b.price === null).map((b) => b.name);
  return { ok: true, list: { films, baths, buy, cost, unpriced } };
}

/** More packages of one size than this are a nuisance. source: common practice */
const mostPacks = 4;

/** As many packages of one size as leave the least over; of equals the fewer. */
function packsFor(form: Substance, short: number): { count: number; size: number } {
  const sizes = form.packs ?? usualPacks[form.measure];
  const all = sizes.map((size) => ({ size, count: Math.ceil(short / size - 1e-9) }));
  const few = all.filter((p) => p.count <= mostPacks);
  const choice = few.length > 0 ? few : all.slice(-1);
  return choice.reduce((a, b) => (b.count * b.size <= a.count * a.size ? b : a));
}
