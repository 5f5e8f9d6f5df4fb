import { expect, it } from 'vitest';
import { seeded } from '../seeded.js';
import { drawTruth, type Outcome, observe, quantile, score, thermometers } from './synthetic.js';

/** A seeded sample of what `tests/bench/thermal.ts` runs over 2,000 benches. */
it('after three readings the ready time is within a minute (median) and the 90 % band holds', () => {
  const random = seeded(2024);
  const outcomes: Outcome[] = [];
  for (let bench = 0; bench < 100; bench++) {
    const truth = drawTruth(random);
    const { estimate, atS } = observe(truth, random, 3, 180, thermometers.uniform);
    outcomes.push(...score(bench, truth, estimate, atS));
  }
  const errors = outcomes.flatMap((o) => (o.errorS === null ? [] : [Math.abs(o.errorS)]));
  expect(outcomes.length).toBeGreaterThan(400);
  expect(errors.length / outcomes.length).toBeGreaterThan(0.97);
  expect(quantile(errors, 0.5)).toBeLessThanOrEqual(60);
  const held = outcomes.filter((o) => o.inBand).length / outcomes.length;
  expect(held).toBeGreaterThanOrEqual(0.85);
  expect(held).toBeLessThanOrEqual(0.95);
});
