import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { crash, straceWorks } from '../ledger/crash/harness.js';

/**
 * Kills a journaling child again and again, half of the times before a chosen system call, half at a random
 * moment, and prints what was found afterwards.
 *   npx tsc -p tests/bench/tsconfig.ledger.json && node dist/.bench/tests/bench/ledger-crash.js [kills] [seed]
 */
const kills = Number(process.argv[2] ?? 2000);
const seed = Number(process.argv[3] ?? 1);
const dir = mkdtempSync(join(tmpdir(), 'tankside-crash-'));
const strace = straceWorks();
if (!strace) console.log('strace is missing or may not trace: only timed kills are made');
const counts = await crash(dir, kills, {
  seed,
  strace,
  onKill: (c) => {
    if (c.kills % 100 === 0)
      console.log(
        `${c.kills} kills, ${c.confirmed} confirmed, ${c.lost} lost, ${c.halfApplied} half-applied`,
      );
  },
});
rmSync(dir, { recursive: true, force: true });
console.table({ ...counts, problems: counts.problems.length });
for (const problem of new Set(counts.problems)) console.log(problem);
process.exitCode = counts.lost + counts.halfApplied + counts.wrongTime + counts.problems.length === 0 ? 0 : 1;
