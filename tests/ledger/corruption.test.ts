import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { corrupt } from './corruption/harness.js';

/** A sample of tests/bench/ledger-corruption.ts, which does 500. */
it('gives back every entry whose bytes are intact, and is never silent about a lost one', () => {
  const dir = mkdtempSync(join(tmpdir(), 'tankside-corruption-'));
  try {
    const counts = corrupt(dir, 24, { seed: 20260504 });
    expect(counts.problems).toEqual([]);
    expect(counts).toMatchObject({ corruptions: 24, intactNotBack: 0, silent: 0, wrongly: 0, wrong: 0 });
    // the harness does harm, and most of it is made good
    expect(counts.lost).toBeGreaterThan(0);
    expect(counts.lost).toBeLessThan(counts.confirmed / 10);
  } finally {
    rmSync(dir, { recursive: true, force: true });
  }
}, 240_000);
