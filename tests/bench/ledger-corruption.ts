import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { corrupt } from '../ledger/corruption/harness.js';

/**
 * Harms database, log and second copy, alone and together, and prints what a start made of it.
 *   npx tsc -p tests/bench/tsconfig.ledger.json && node dist/.bench/tests/bench/ledger-corruption.js [times] [seed]
 */
const times = Number(process.argv[2] ?? 500);
const dir = mkdtempSync(join(tmpdir(), 'tankside-corruption-'));
const counts = corrupt(dir, times, {
  seed: Number(process.argv[3] ?? 1),
  onEach: (c) => {
    if (c.corruptions % 50 === 0)
      console.log(`${c.corruptions}: ${c.silent} silent, ${c.intactNotBack} intact not back`);
  },
});
rmSync(dir, { recursive: true, force: true });
console.table(counts.hits);
console.table({ ...counts, hits: undefined, problems: counts.problems.length });
for (const problem of counts.problems.slice(0, 40)) console.log(problem);
process.exitCode = counts.silent + counts.intactNotBack + counts.wrongly + counts.wrong === 0 ? 0 : 1;
