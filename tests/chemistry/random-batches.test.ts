import { expect, it } from 'vitest';
import { checkBatches } from './batches-by-chance.js';

/** `npm run bench:chemistry` draws ten thousand. */
it('batches drawn by chance: water, parts and stocks fit; masses balance; nothing is below what the scale shows', () => {
  const counted = checkBatches(1000);
  expect(counted.planned + counted.refused).toBe(1000);
  expect(counted.planned).toBeGreaterThan(500);
  expect(counted.stocks).toBeGreaterThan(50);
  expect(counted.refused).toBeGreaterThan(50);
}, 60_000);
