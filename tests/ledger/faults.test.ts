import { mkdtempSync, rmSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { buildChild } from './crash/build-child.js';
import { buildFaults, runFaults } from './faults/run.js';

/** A sample of tests/bench/ledger-faults.ts, which makes every single call fail. */
it('calls on time and loses nothing without a word, whichever call of the file layer fails', (context) => {
  const dir = mkdtempSync(join(tmpdir(), 'tankside-faults-'));
  try {
    const library = buildFaults(new URL('./faults/faults.c', import.meta.url).pathname, dir);
    if (library === null) {
      console.log('no C compiler, or not Linux: the file layer is not made to fail');
      return context.skip();
    }
    const day = buildChild(join(dir, 'program'), 'tests/ledger/faults/day.ts');
    for (const name of ['grammars', 'models'])
      symlinkSync(new URL(`../../${name}`, import.meta.url).pathname, join(dir, 'program', name));
    const counts = runFaults(library, day, dir, 60);
    expect(counts.problems).toEqual([]);
    expect(counts).toMatchObject({ callsLate: 0, crashed: 0, silentLoss: 0 });
    expect(counts.failed).toBeGreaterThan(10);
  } finally {
    rmSync(dir, { recursive: true, force: true });
  }
}, 240_000);
