import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { buildFaults, runFaults } from '../ledger/faults/run.js';
import { inParts } from './parts.js';

/**
 * A scripted day with every single open, read, write, sync, truncate, rename and unlink below the journal's folder
 * failing once, each in turn (a preloaded file layer; needs Linux, and cc or TANKSIDE_FAULT_LAYER).
 *   npm run bench:build && node dist/.bench/tests/bench/ledger-faults.js [every n-th place] [--parts N]
 */
const counts = await inParts(({ index, of }, [every = '1']) => {
  const dir = mkdtempSync(join(tmpdir(), 'tankside-faults-'));
  const library = buildFaults(resolve('tests/ledger/faults/faults.c'), dir);
  if (library === null) throw new Error('this bench needs Linux and a C compiler (cc)');
  const day = new URL('../ledger/faults/day.js', import.meta.url).pathname;
  const done = runFaults(library, day, dir, Number(every) * of, Number(every) * index);
  rmSync(dir, { recursive: true, force: true });
  return done;
});
console.table({ ...counts, problems: counts.problems.length });
for (const problem of counts.problems.slice(0, 40)) console.log(problem.slice(0, 700));
process.exitCode = counts.problems.length === 0 ? 0 : 1;
