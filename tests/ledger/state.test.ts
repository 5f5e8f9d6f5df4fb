import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addFact, emptyLedger, imbalanceMl, ledgerFrom, surviving } from '../../src/ledger/state.js';
import type { Fact } from '../../src/world/fact.js';
import type { World } from '../../src/world/records.js';
import { emptyWorld } from '../../src/world/reduce.js';
import { dated, deed, history } from './arbitraries.js';

const fold = (facts: readonly Fact[]): World => ledgerFrom(emptyWorld(), dated(facts)).bench;
const bottle = (number: number) => ({ kind: 'bottle' as const, number });
const tank = { kind: 'tank' as const };

describe('volumes', () => {
  it('are conserved across any sequence of pours, spills, corrections, mixes and undos', () => {
    fc.assert(
      fc.property(history, (facts) => {
        const bench = fold(facts);
        expect(Math.abs(imbalanceMl(bench))).toBeLessThan(1e-6);
        for (const { contents } of Object.values(bench.bottles)) {
          const parts = Object.values(contents.parts).reduce((a, b) => a + b, 0);
          expect(contents.volumeMl).toBeGreaterThanOrEqual(0);
          expect(Math.abs(parts - contents.volumeMl)).toBeLessThan(1e-6);
          expect(contents.workM2).toBeGreaterThanOrEqual(0);
        }
      }),
      { numRuns: 400 },
    );
  });

  it('are after an undo as if the deed had never been', () => {
    fc.assert(
      fc.property(
        fc.array(deed, { maxLength: 30 }),
        fc.array(deed, { minLength: 1, maxLength: 5 }),
        (before, taken) => {
          const undone: Fact = { type: 'undone', what: 'it', facts: taken };
          const withUndo = ledgerFrom(emptyWorld(), dated([...before, ...taken, undone])).bench;
          expect(withUndo).toEqual(fold(before));
        },
      ),
      { numRuns: 200 },
    );
  });

  it('follow from the facts that survive every undo', () => {
    fc.assert(
      fc.property(history, (facts) => {
        const left = surviving(dated(facts)).filter(({ fact }) => fact.type !== 'undone');
        expect(ledgerFrom(emptyWorld(), left).bench.bottles).toEqual(fold(facts).bottles);
      }),
    );
  });

  it('stay the same when the state is kept as JSON half-way', () => {
    fc.assert(
      fc.property(history, fc.nat(), (facts, cut) => {
        const all = dated(facts);
        const at = all.length === 0 ? 0 : cut % all.length;
        const half = ledgerFrom(emptyWorld(), all.slice(0, at));
        const kept = JSON.parse(JSON.stringify(half)) as typeof half;
        expect(all.slice(at).reduce(addFact, kept).bench).toEqual(fold(facts));
      }),
      { numRuns: 100 },
    );
  });
});

describe('a bottle', () => {
  const run: Fact = {
    type: 'run-started',
    runId: 'r',
    sheetId: 's',
    tankMl: 600,
    films: [{ stock: 'night film', format: '35mm', count: 2 }],
  };
  const pour = (
    from: Extract<Fact, { type: 'poured' }>['from'],
    to: typeof from,
    volumeMl: number,
    liquid = 'developer',
  ): Fact => ({
    type: 'poured',
    runId: 'r',
    from,
    to,
    liquid,
    volumeMl,
    overridden: false,
  });

  it('is charged with the film its liquid has processed, and keeps the charge when the liquid returns', () => {
    const bench = fold([
      { type: 'bottle-set', bottle: 2, liquid: 'developer', volumeMl: 1000, capacityMl: 1000 },
      run,
      pour(bottle(2), tank, 600),
      pour(tank, bottle(2), 590),
    ]);
    const record = bench.bottles[2];
    expect(record?.contents.volumeMl).toBeCloseTo(990, 6);
    expect(record?.runs).toBe(1);
    expect(record?.films).toEqual({ '35mm': 2 });
    // the 10 ml left on the film took their share of the work with them
    expect(record?.contents.workM2).toBeCloseTo((2 * 1.65 * 0.034975 * 590) / 600, 6);
    expect(bench.tank.volumeMl).toBeCloseTo(10, 6);
  });

  it('takes carry-over into the next bath', () => {
    const bench = fold([
      { type: 'bottle-set', bottle: 2, liquid: 'developer', volumeMl: 1000, capacityMl: 1000 },
      { type: 'bottle-set', bottle: 3, liquid: 'stop', volumeMl: 1000, capacityMl: 1250 },
      run,
      pour(bottle(2), tank, 600),
      pour(tank, bottle(2), 590),
      pour(bottle(3), tank, 600, 'stop'),
      pour(tank, bottle(3), 610, 'stop'),
    ]);
    expect(bench.bottles[3]?.contents.parts.developer).toBeCloseTo(10, 6);
    expect(bench.bottles[3]?.contaminations).toEqual([]);
  });

  it('remembers a wrong pour', () => {
    const bench = fold([
      { type: 'bottle-set', bottle: 2, liquid: 'developer', volumeMl: 500, capacityMl: 1000 },
      pour({ kind: 'jug' }, bottle(2), 40, 'prebath'),
    ]);
    expect(bench.bottles[2]?.contaminations).toMatchObject([
      { liquid: 'prebath', volumeMl: 40, intoLiquid: 'developer', intoMl: 500 },
    ]);
    expect(bench.bottles[2]?.liquid).toBe('developer');
  });

  it('books as lost what little was left under a new filling', () => {
    const bench = fold([
      { type: 'bottle-set', bottle: 2, liquid: 'developer', volumeMl: 0.0009, capacityMl: 1000 },
      pour({ kind: 'jug' }, bottle(2), 500, 'stop'),
    ]);
    expect(bench.bottles[2]?.liquid).toBe('stop');
    expect(bench.account.lostMl).toBeCloseTo(0.0009, 9);
    expect(Math.abs(imbalanceMl(bench))).toBeLessThan(1e-9);
  });

  it('books what evaporated when it is measured, and keeps the work done', () => {
    const bench = fold([
      { type: 'bottle-set', bottle: 2, liquid: 'developer', volumeMl: 1000, capacityMl: 1000 },
      run,
      pour(bottle(2), tank, 600),
      pour(tank, bottle(2), 600),
      { type: 'bottle-set', bottle: 2, liquid: 'developer', volumeMl: 960, capacityMl: 1000 },
    ]);
    expect(bench.bottles[2]?.lostMl).toBeCloseTo(40, 6);
    expect(bench.bottles[2]?.contents.workM2).toBeCloseTo(2 * 1.65 * 0.034975, 6);
  });

  it('counts a replenishment apart from a pour back', () => {
    const bench = fold([
      { type: 'bottle-set', bottle: 2, liquid: 'developer', volumeMl: 500, capacityMl: 1000 },
      pour({ kind: 'jug' }, bottle(2), 100),
    ]);
    expect(bench.bottles[2]?.replenishedMl).toBeCloseTo(100, 6);
  });

  it('starts anew when it is discarded and filled again', () => {
    const bench = fold([
      { type: 'bottle-set', bottle: 2, liquid: 'developer', volumeMl: 500, capacityMl: 1000 },
      run,
      pour(bottle(2), tank, 500),
      pour(tank, bottle(2), 500),
      { type: 'bottle-discarded', bottle: 2, liquid: 'developer', volumeMl: 500 },
      {
        type: 'mixed',
        batch: 'DEV 2',
        recipe: 'ecn2-developer',
        liquid: 'developer',
        volumeMl: 1000,
        bottle: 2,
      },
    ]);
    expect(bench.bottles[2]).toMatchObject({ runs: 0, filmAreaM2: 0, batch: 'DEV 2', capacityMl: 1000 });
    expect(bench.account.drainedMl).toBeCloseTo(500, 6);
  });

  it('is only assumed until someone says what it holds', () => {
    const assumed = emptyLedger([{ bottle: 1, liquid: 'prebath', volumeMl: 900, capacityMl: 1000 }]);
    expect(assumed.bench.bottles[1]).toMatchObject({ assumed: true, filledWallMs: null });
    const said = addFact(assumed, {
      fact: { type: 'bottle-set', bottle: 1, liquid: 'prebath', volumeMl: 850, capacityMl: 1000 },
      atMs: 1,
      wallMs: 1,
    });
    expect(said.bench.bottles[1]).toMatchObject({ assumed: false, filledWallMs: 1 });
  });
});
