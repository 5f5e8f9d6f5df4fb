import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { crash } from '../ledger/crash/harness.js';
import { buildFaults } from '../ledger/faults/run.js';
import { inParts } from './parts.js';

/**
 * Kills a journaling child again and again, half of the times before a chosen call of the file layer (preloaded; needs
 * cc or TANKSIDE_FAULT_LAYER), half at a random moment, and prints what was found afterwards.
 *   npm run bench:build && node dist/.bench/tests/bench/ledger-crash.js [kills] [seed] [--parts N]
 */
const counts = await inParts(async ({ index, of }, [kills = '2000', seed = '1']) => {
  const dir = mkdtempSync(join(tmpdir(), 'tankside-crash-'));
  const layer = buildFaults(resolve('tests/ledger/faults/faults.c'), dir);
  if (layer === null) console.error('no C compiler, or not Linux: only timed kills are made');
  const done = await crash(dir, Math.ceil(Number(kills) / of), { seed: Number(seed) + index, layer });
  rmSync(dir, { recursive: true, force: true });
  return done;
});
console.table({ ...counts, problems: counts.problems.length });
for (const problem of new Set(counts.problems)) console.log(problem);
process.exitCode = counts.lost + counts.halfApplied + counts.wrongTime + counts.problems.length === 0 ? 0 : 1;
