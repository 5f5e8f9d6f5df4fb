import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { crash, straceWorks } from './crash/harness.js';

/** A sample of tests/bench/ledger-crash.ts, which does 2,000. */
it('loses nothing, half-applies nothing and resumes with the right time when it is killed', async () => {
  const dir = mkdtempSync(join(tmpdir(), 'tankside-crash-'));
  const strace = straceWorks();
  if (!strace) console.log('strace is missing or may not trace: only timed kills are made');
  try {
    const counts = await crash(dir, 24, { seed: 20260504, strace });
    expect(counts.problems).toEqual([]);
    expect(counts).toMatchObject({ kills: 24, lost: 0, halfApplied: 0, wrongTime: 0 });
    expect(counts.confirmed).toBeGreaterThan(24);
  } finally {
    rmSync(dir, { recursive: true, force: true });
  }
}, 240_000);
