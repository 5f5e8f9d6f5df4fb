import { expect, it } from 'vitest';
import { checkBatches } from './batches-by-chance.js';
import { checkSlips, slipKinds } from './slips-by-chance.js';

/** `npm run bench:chemistry` draws ten thousand. */
it('batches drawn by chance: water, parts and stocks fit; masses balance; nothing is below what the scale shows', () => {
  const counted = checkBatches(1000);
  expect(counted.planned + counted.refused).toBe(1000);
  expect(counted.planned).toBeGreaterThan(500);
  expect(counted.stocks).toBeGreaterThan(50);
  expect(counted.refused).toBeGreaterThan(50);
  // every refusal has its way out: nearly all by a larger batch
  expect(counted.larger + counted.finer).toBe(counted.refused);
}, 120_000);

it('slips at the scale, drawn by chance, are all asked about', () => {
  const { tried, missed } = checkSlips(40);
  for (const kind of slipKinds) expect(tried[kind], kind).toBeGreaterThan(20);
  expect(missed).toEqual([]);
}, 60_000);
