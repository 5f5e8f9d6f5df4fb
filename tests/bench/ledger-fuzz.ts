import { fuzz } from '../fuzz/parsers.js';
import { inParts } from './parts.js';

/**
 * Gives every reader of outside input broken input, and counts crashes and what would hold up the calls (CPU time).
 *   npm run bench:build && node dist/.bench/tests/bench/ledger-fuzz.js [inputs] [seed] [--parts N]
 */
const counts = await inParts(({ index, of }, [inputs = '1000000', seed = '1']) =>
  fuzz(Math.ceil(Number(inputs) / of), Number(seed) + index),
);
console.table(
  Object.fromEntries(
    Object.entries(counts).map(([name, c]) => [
      name,
      { ...c, slowestMs: Math.round(c.slowestMs), problems: c.problems.length },
    ]),
  ),
);
const problems = Object.entries(counts).flatMap(([name, c]) =>
  c.problems.slice(0, 5).map((p) => `${name}: ${p}`),
);
for (const problem of problems) console.log(problem);
const all = Object.values(counts);
console.log(
  `${all.reduce((n, c) => n + c.inputs, 0)} inputs, ${all.reduce((n, c) => n + c.crashed, 0)} crashes, ${all.reduce((n, c) => n + c.slow, 0)} over 200 ms`,
);
process.exitCode = problems.length === 0 ? 0 : 1;
