import { type BatchLine, leastVolumeMl, planBatch, refusalOf } from '../../src/chemistry/batch.js';
import { recipes } from '../../src/chemistry/recipes/index.js';
import { molesIn, substanceById } from '../../src/chemistry/substances.js';
import { seeded } from '../seeded.js';

/** What a line takes of the jug, ml, reckoned here by itself: a powder swells the water by at most half a ml per gram. */
const room = (l: BatchLine): number =>
  l.stock !== null ? l.stock.takeMl : l.unit === 'ml' ? l.amount : 0.5 * l.amount;

/** Draws batches by chance and checks each. @throws Error naming the first that does not balance */
export function checkBatches(count: number): { planned: number; refused: number; stocks: number } {
  const next = seeded(count);
  const counted = { planned: 0, refused: 0, stocks: 0 };
  for (let i = 0; i < count; i++) {
    const recipe = recipes[Math.floor(next() * recipes.length)];
    if (recipe === undefined) throw new Error('no recipe');
    const volumeMl = Math.round(20 * 10 ** (next() * 3));
    const scaleStepG = [0.001, 0.01, 0.1, 1][Math.floor(next() * 4)] ?? 0.01;
    const purity = next() < 0.2 ? 0.9 + next() * 0.1 : 1;
    const forms = Object.fromEntries(
      recipe.components.map((c) => [c.substance, { substance: c.substance, purity }]),
    );
    const result = planBatch(recipe, volumeMl, { scaleStepG, forms });
    if (!result.ok) throw new Error(result.why);
    const { batch } = result;
    const at = `${recipe.id}, ${volumeMl} ml, scale ${scaleStepG}`;
    if (batch.tooCoarse.some((t) => !t.optional)) {
      counted.refused++;
      // the way out that is offered does work; tried for some, as each costs many plans
      if (counted.refused % 20 === 0) {
        const least = leastVolumeMl(batch, { scaleStepG, forms });
        const bigger = least === null ? null : planBatch(recipe, least, { scaleStepG, forms });
        if (bigger?.ok === true && refusalOf(bigger.batch, { scaleStepG, forms }) !== null)
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
