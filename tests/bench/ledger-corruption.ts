import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { corrupt } from '../ledger/corruption/harness.js';
import { inParts } from './parts.js';

/**
 * Harms database, log, second copy and the note of how far it came, alone and together, and prints what a start made
 * of it.
 *   npm run bench:build && node dist/.bench/tests/bench/ledger-corruption.js [times] [seed] [--parts N]
 */
const counts = await inParts(({ index, of }, [times = '500', seed = '1']) => {
  const dir = mkdtempSync(join(tmpdir(), 'tankside-corruption-'));
  const done = corrupt(dir, Math.ceil(Number(times) / of), { seed: Number(seed) + index });
  rmSync(dir, { recursive: true, force: true });
  return done;
});
console.table(counts.hits);
console.table({ ...counts, hits: undefined, problems: counts.problems.length });
for (const problem of counts.problems.slice(0, 40)) console.log(problem);
process.exitCode = counts.silent + counts.intactNotBack + counts.wrongly + counts.wrong === 0 ? 0 : 1;
