import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { crash } from './crash/harness.js';
import { buildFaults } from './faults/run.js';

/** A sample of tests/bench/ledger-crash.ts, which does 2,000. */
it('loses nothing, half-applies nothing and resumes with the right time when it is killed', async () => {
  const dir = mkdtempSync(join(tmpdir(), 'tankside-crash-'));
  try {
    const layer = buildFaults(new URL('./faults/faults.c', import.meta.url).pathname, dir);
    if (layer === null) console.log('no C compiler, or not Linux: only timed kills are made');
    const counts = await crash(dir, 24, { seed: 20260504, layer });
    expect(counts.problems).toEqual([]);
    expect(counts).toMatchObject({ kills: 24, lost: 0, halfApplied: 0, wrongTime: 0 });
    expect(counts.confirmed).toBeGreaterThan(24);
  } finally {
    rmSync(dir, { recursive: true, force: true });
  }
}, 240_000);
