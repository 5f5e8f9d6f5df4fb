import fc from 'fast-check';
import type { Fact } from '../../src/world/fact.js';
import type { DatedFact } from '../../src/world/records.js';
import type { VesselRef } from '../../src/world/vessel.js';

const bottle = fc.integer({ min: 1, max: 4 });
const liquid = fc.constantFrom('prebath', 'developer', 'stop', 'bleach', 'fixer');
const volumeMl = fc.oneof(fc.double({ min: 0, max: 1500, noNaN: true }), fc.integer({ min: 0, max: 1500 }));
export const vessel: fc.Arbitrary<VesselRef> = fc.oneof(
  { weight: 4, arbitrary: bottle.map((number) => ({ kind: 'bottle' as const, number })) },
  { weight: 4, arbitrary: fc.constant({ kind: 'tank' as const }) },
  {
    weight: 2,
    arbitrary: fc.constantFrom(
      { kind: 'jug' as const },
      { kind: 'tap' as const },
      { kind: 'sink' as const },
      { kind: 'tub' as const },
    ),
  },
);
const runId = fc.constantFrom('r1', 'r2');

export const deed: fc.Arbitrary<Fact> = fc.oneof(
  {
    weight: 6,
    arbitrary: fc
      .record({ runId, from: vessel, to: vessel, liquid, volumeMl, overridden: fc.boolean() })
      .map((r): Fact => ({ type: 'poured', ...r })),
  },
  {
    weight: 2,
    arbitrary: fc.oneof(
      fc.record({ from: vessel, liquid, volumeMl }).map((r): Fact => ({ type: 'spilled', ...r })),
      fc.record({ liquid, volumeMl }).map((r): Fact => ({ type: 'spilled', ...r })),
    ),
  },
  {
    weight: 2,
    arbitrary: fc
      .record({ bottle, liquid: fc.option(liquid), volumeMl, capacityMl: fc.constant(1000) })
      .map((r): Fact => ({ type: 'bottle-set', ...r })),
  },
  {
    weight: 1,
    arbitrary: fc.record({ bottle, liquid, volumeMl }).map((r): Fact => ({ type: 'bottle-discarded', ...r })),
  },
  {
    weight: 1,
    arbitrary: fc
      .record({ batch: fc.constantFrom('A', 'B'), liquid, volumeMl, bottle })
      .map((r): Fact => ({ type: 'mixed', recipe: 'x', ...r })),
  },
  {
    weight: 1,
    arbitrary: runId.map(
      (id): Fact => ({
        type: 'run-started',
        runId: id,
        sheetId: 's',
        tankMl: 600,
        films: [{ stock: 'f', format: '35mm' }],
      }),
    ),
  },
  { weight: 1, arbitrary: runId.map((id): Fact => ({ type: 'run-finished', runId: id, complete: true })) },
);

/** A sequence of deeds in which some are taken back, as undo does: the last few, newest first. */
export const history: fc.Arbitrary<Fact[]> = fc
  .array(fc.oneof({ weight: 5, arbitrary: deed }, { weight: 1, arbitrary: fc.integer({ min: 1, max: 3 }) }), {
    maxLength: 60,
  })
  .map((steps) => {
    const done: Fact[] = [];
    const standing: Fact[] = [];
    for (const step of steps) {
      if (typeof step !== 'number') {
        done.push(step);
        standing.push(step);
        continue;
      }
      const facts = standing.splice(Math.max(0, standing.length - step));
      if (facts.length > 0) done.push({ type: 'undone', what: 'the last step', facts });
    }
    return done;
  });

export const dated = (facts: readonly Fact[]): DatedFact[] =>
  facts.map((fact, i) => ({ fact, atMs: i * 1000, wallMs: 1_770_000_000_000 + i * 1000 }));
