import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Bath, portion, pourTogether } from '../../src/chemistry/solution/bath.js';
import { oxidise } from '../../src/chemistry/solution/reactions.js';
import { type Equilibrium, solveEquilibrium } from '../../src/chemistry/solution/solver.js';
import { acidSystems, ionCharges, type TotalId } from '../../src/chemistry/solution/species.js';
import { anyTemp, anyTotals } from './arbitraries.js';

const solve = (totals: Partial<Record<TotalId, number>>, tempC: number): Equilibrium => {
  const r = solveEquilibrium(totals, { tempC });
  if (!r.ok) throw new Error(r.why);
  return r.value;
};

const charge = (name: string): number => {
  if (name === 'H+') return 1;
  if (name === 'OH-' || name === 'B3O3(OH)4-') return -1;
  const ion = (ionCharges as Record<string, number>)[name];
  if (ion !== undefined) return ion;
  for (const s of acidSystems) {
    const i = s.species.indexOf(name);
    if (i >= 0) return s.baseCharge + i;
  }
  throw new Error(name);
};

describe('equilibrium, for any mixture', () => {
  it('charges balance to 1e-9 of all charge', () => {
    fc.assert(
      fc.property(anyTotals, anyTemp, (totals, tempC) => {
        const e = solve(totals, tempC);
        let net = 0;
        let all = 0;
        for (const [name, m] of Object.entries(e.species)) {
          net += charge(name) * m;
          all += Math.abs(charge(name)) * m;
        }
        expect(Math.abs(net)).toBeLessThanOrEqual(1e-9 * all);
      }),
      { numRuns: 1500 },
    );
  });

  it('mass balances to 1e-9 for every kind', () => {
    fc.assert(
      fc.property(anyTotals, anyTemp, (totals, tempC) => {
        const e = solve(totals, tempC);
        for (const s of acidSystems) {
          const total = totals[s.id];
          if (total === undefined) continue;
          let held = s.species.reduce((sum, n) => sum + (e.species[n] ?? 0), 0);
          if (s.id === 'borate') held += 3 * (e.species['B3O3(OH)4-'] ?? 0);
          expect(Math.abs(held - total)).toBeLessThanOrEqual(1e-9 * total);
        }
      }),
      { numRuns: 1500 },
    );
  });

  it('activity rests: solving again from the answer moves nothing, and rounds stay below the limit', () => {
    fc.assert(
      fc.property(
        anyTotals,
        anyTemp,
        fc.double({ min: -2, max: 16, noNaN: true }),
        (totals, tempC, startPh) => {
          const e = solve(totals, tempC);
          const again = solveEquilibrium(totals, { tempC, startPh });
          expect(e.rounds).toBeLessThan(400);
          expect(again.ok && Math.abs(again.value.ph - e.ph)).toBeLessThan(1e-7);
        },
      ),
      { numRuns: 500 },
    );
  });

  it('more base never lowers the pH of a dilute mixture', () => {
    fc.assert(
      fc.property(anyTotals, fc.double({ min: 1e-6, max: 0.01, noNaN: true }), (totals, base) => {
        const dilute = Object.fromEntries(Object.entries(totals).map(([k, v]) => [k, v / 30]));
        const more = { ...dilute, Na: (dilute.Na ?? 0) + base };
        expect(solve(more, 25).ph).toBeGreaterThan(solve(dilute, 25).ph - 1e-9);
      }),
      { numRuns: 500 },
    );
  });

  it('buffer capacity is the slope of the titration curve at fixed activity', () => {
    const ideal = { activity: 'ideal', tempC: 25 } as const;
    fc.assert(
      fc.property(anyTotals, (totals) => {
        const e = solveEquilibrium(totals, ideal);
        if (!e.ok || e.value.bufferCapacity < 1e-6) return;
        const d = Math.min(1e-4, e.value.bufferCapacity * 1e-3);
        const up = solveEquilibrium({ ...totals, Na: (totals.Na ?? 0) + d }, ideal);
        if (!up.ok) throw new Error(up.why);
        const numeric = d / (up.value.ph - e.value.ph);
        expect(Math.abs(numeric / e.value.bufferCapacity - 1)).toBeLessThan(0.02);
      }),
      { numRuns: 300 },
    );
  });
});

describe('mixing and reacting', () => {
  const anyBath = fc.record({
    volumeMl: fc.double({ min: 1, max: 5000, noNaN: true }),
    moles: anyTotals,
    others: fc.constant({}),
  }) as fc.Arbitrary<Bath>;

  it('nothing is made or lost: a part and its rest pour back together', () => {
    fc.assert(
      fc.property(anyBath, fc.double({ min: 0, max: 1, noNaN: true }), (bath, share) => {
        const back = pourTogether(
          portion(bath, bath.volumeMl * share),
          portion(bath, bath.volumeMl * (1 - share)),
        );
        for (const [id, n] of Object.entries(bath.moles)) {
          expect(Math.abs((back.moles[id as TotalId] ?? 0) - n)).toBeLessThanOrEqual(1e-9 * n);
        }
      }),
    );
  });

  it('reactions keep iron and sulphur, and never go below zero', () => {
    const sum = (b: Bath, weights: Partial<Record<TotalId, number>>): number =>
      Object.entries(weights).reduce((s, [id, w]) => s + w * (b.moles[id as TotalId] ?? 0), 0);
    const iron = { ferricyanide: 1, ferrocyanide: 1 };
    const sulphur = { sulfite: 1, sulfate: 1, thiosulfate: 2, tetrathionate: 4 };
    fc.assert(
      fc.property(anyBath, (bath) => {
        const { bath: after } = oxidise(bath);
        for (const w of [iron, sulphur]) {
          expect(Math.abs(sum(after, w) - sum(bath, w))).toBeLessThanOrEqual(1e-9 * sum(bath, w));
        }
        for (const n of Object.values(after.moles)) expect(n).toBeGreaterThanOrEqual(0);
      }),
    );
  });
});
