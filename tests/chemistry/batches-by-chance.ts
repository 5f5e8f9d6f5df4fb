import {
  type Batch,
  type BatchLine,
  leastVolumeMl,
  planBatch,
  refusalOf,
} from '../../src/chemistry/batch.js';
import { recipes } from '../../src/chemistry/recipes/index.js';
import { molesIn, substanceById } from '../../src/chemistry/substances.js';
import { seeded } from '../seeded.js';

/** What a line takes of the jug, ml, reckoned here by itself: a powder swells the water by at most half a ml per gram. */
const room = (l: BatchLine): number =>
  l.stock !== null ? l.stock.takeMl : l.unit === 'ml' ? l.amount : 0.5 * l.amount;

/**
 * What keeps when it is dissolved by itself in stoppered water, written here from chemistry: bromides, an organic antifoggant,
 * a sequestrant and wetting agents. Sulphites and developing agents take up oxygen, caustic takes up carbon dioxide.
 */
const keepsDissolved = new Set([
  'sodium-bromide',
  'potassium-bromide',
  'potassium-iodide',
  'anti-fog-9',
  'anti-calcium-4',
  'stabiliser-additive',
  'wetting-agent',
]);

/**
 * A refusal is right when some part that cannot be left out is so small that one step of the scale is more than its whole
 * analytical tolerance, and it either does not keep in a stock or no stock of it leaves room for the rest.
 */
function wronglyRefused(batch: Batch, scaleStepG: number): string | null {
  const small = batch.lines.filter((l) => {
    const step = l.unit === 'g' ? scaleStepG : l.amount < 10 ? 0.1 : 1;
    return (
      l.component.optional !== true && l.stock === null && step > l.amount * l.component.tolerance.fraction
    );
  });
  if (small.length === 0) return 'every part can be weighed';
  const way = small.find((l) => {
    if (!keepsDissolved.has(l.form.id)) return false;
    // a hundredth to a half of 100 ml of stock: is there one that can be weighed and fits beside the rest?
    const others = batch.lines.reduce((sum, o) => (o === l ? sum : sum + room(o)), 0);
    const step = l.unit === 'g' ? scaleStepG : 0.1;
    return [2, 5, 10, 20, 50, 100].some(
      (k) =>
        l.amount * l.component.tolerance.fraction * k >= step && 100 / k + others <= 0.5 * batch.volumeMl,
    );
  });
  return way === undefined || small.length > 1 ? null : `${way.form.id} could be taken from a stock`;
}

export interface Counted {
  planned: number;
  refused: number;
  stocks: number;
  /** refused batches that can be mixed at once in a larger usual volume, and those that need a finer scale */
  larger: number;
  finer: number;
  /** refusals by what was too small for the scale */
  because: Record<string, number>;
}

/** Draws `count` batches by chance, every `of`th from `part` on, and checks each. @throws Error naming the first that does not balance */
export function checkBatches(count: number, part = 0, of = 1): Counted {
  const next = seeded(count);
  const counted: Counted = { planned: 0, refused: 0, stocks: 0, larger: 0, finer: 0, because: {} };
  for (let i = 0; i < count; i++) {
    const recipe = recipes[Math.floor(next() * recipes.length)];
    if (recipe === undefined) throw new Error('no recipe');
    const volumeMl = Math.round(20 * 10 ** (next() * 3));
    const scaleStepG = [0.001, 0.01, 0.1, 1][Math.floor(next() * 4)] ?? 0.01;
    const purity = next() < 0.2 ? 0.9 + next() * 0.1 : 1;
    const forms = Object.fromEntries(
      recipe.components.map((c) => [c.substance, { substance: c.substance, purity }]),
    );
    if (i % of !== part) continue;
    const result = planBatch(recipe, volumeMl, { scaleStepG, forms });
    if (!result.ok) throw new Error(result.why);
    const { batch } = result;
    const at = `${recipe.id}, ${volumeMl} ml, scale ${scaleStepG}`;
    if (batch.tooCoarse.some((t) => !t.optional)) {
      counted.refused++;
      const wrong = wronglyRefused(batch, scaleStepG);
      if (wrong !== null) throw new Error(`${at}: refused, though ${wrong}`);
      for (const t of batch.tooCoarse)
        if (!t.optional) counted.because[t.name] = (counted.because[t.name] ?? 0) + 1;
      // the way out that is offered does work
      const least = leastVolumeMl(batch, { scaleStepG, forms });
      if (least === null) counted.finer++;
      else {
        counted.larger++;
        const bigger = planBatch(recipe, least, { scaleStepG, forms });
        if (!bigger.ok || refusalOf(bigger.batch, { scaleStepG, forms }) !== null)
          throw new Error(`${at}: ${least} ml is offered, and refused too`);
      }
      continue;
    }
    counted.planned++;
    const parts = batch.lines.reduce((sum, l) => sum + room(l), 0);
    if (batch.startWaterMl + parts > volumeMl) throw new Error(`${at}: over its mark`);
    if (batch.startWaterMl < 0.3 * volumeMl)
      throw new Error(`${at}: only ${batch.startWaterMl} ml to dissolve in`);
    for (const l of batch.lines) {
      const named = substanceById(l.component.substance);
      const wanted = (l.component.perLitre * volumeMl) / 1000;
      const moles = named === undefined ? null : molesIn(named, wanted);
      const got = molesIn(l.form, l.amount, l.purity);
      if (moles !== null && got !== null) {
        const balance = Math.abs((got * l.form.active) / (moles * (named?.active ?? 1)) - 1);
        // the purity of a liquid is its strength, which is in its form
        if (l.unit === 'g' && balance > 1e-9) throw new Error(`${at}: ${l.form.id} off by ${balance}`);
      }
      const step = l.unit === 'g' ? scaleStepG : l.amount < 10 ? 0.1 : 1;
      if (l.stock === null) {
        const tooCoarse = batch.tooCoarse.some((t) => t.name === l.form.name);
        if (!tooCoarse && l.amount < step) throw new Error(`${at}: ${l.form.id} below the scale`);
      } else {
        counted.stocks++;
        const { amount, inMl, takeMl } = l.stock;
        if (amount < step) throw new Error(`${at}: stock of ${l.form.id} below the scale`);
        const taken = (amount * takeMl) / inMl;
        if (Math.abs(taken / l.amount - 1) > 1e-9) throw new Error(`${at}: stock of ${l.form.id}`);
        if (['cd3', 'sodium-hydroxide', 'sodium-sulfite-anhydrous'].includes(l.form.id))
          throw new Error(`${at}: ${l.form.id} does not keep in water`);
      }
    }
  }
  return counted;
}
