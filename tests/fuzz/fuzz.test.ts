import { expect, it } from 'vitest';
import { fuzz } from './parsers.js';

/** A sample of tests/bench/ledger-fuzz.ts, which gives 1,000,000; how long each takes is measured there. */
it('no reader of outside input crashes on broken input', async () => {
  const counts = await fuzz(6_000, 20260504);
  const crashes = Object.entries(counts).flatMap(([name, c]) =>
    c.crashed > 0 ? [`${name}: ${c.problems[0]}`] : [],
  );
  expect(crashes).toEqual([]);
  expect(Object.values(counts).every((c) => c.inputs > 10)).toBe(true);
}, 240_000);
