import { describe, expect, it } from 'vitest';
import { type Bath, equilibriumOf, pourTogether } from '../../src/chemistry/solution/bath.js';

const ideal = { activity: 'ideal' } as const;
const ph = (b: Bath): number => {
  const r = equilibriumOf(b, ideal);
  if (!r.ok) throw new Error(r.why);
  return r.value.ph;
};
/** A bath of `volumeMl` at molarities. */
const bath = (volumeMl: number, molar: Record<string, number>): Bath => ({
  volumeMl,
  moles: Object.fromEntries(Object.entries(molar).map(([k, c]) => [k, (c * volumeMl) / 1000])),
  others: {},
});

/**
 * Titration curves with unit activity coefficients, as textbooks draw them.
 * source: Skoog, West, Holler, Crouch, "Fundamentals of Analytical Chemistry", 9th ed., ch. 14 (from memory of its
 * tables; Ka of acetic acid 1.75e-5 there).
 */
describe('titration curves of textbooks', () => {
  it.each([
    [0, 2.88],
    [10, 4.16],
    [25, 4.76],
    [40, 5.36],
    [49, 6.45],
    [50, 8.73],
    [51, 11.0],
    [60, 11.96],
    [75, 12.3],
  ])('50.00 ml of 0.1000 M acetic acid with %s ml of 0.1000 M sodium hydroxide: pH %s', (ml, printed) => {
    const mixed = pourTogether(bath(50, { acetate: 0.1 }), bath(ml, { Na: 0.1 }));
    expect(Math.abs(ph(mixed) - printed)).toBeLessThan(0.015);
  });

  it.each([
    [0, 1.3],
    [10, 1.6],
    [20, 2.15],
    [24, 2.87],
    [25, 7.0],
    [26, 11.12],
    [30, 11.8],
  ])(
    '50.00 ml of 0.0500 M hydrochloric acid with %s ml of 0.1000 M sodium hydroxide: pH %s',
    (ml, printed) => {
      const mixed = pourTogether(bath(50, { Cl: 0.05 }), bath(ml, { Na: 0.1 }));
      expect(Math.abs(ph(mixed) - printed)).toBeLessThan(0.015);
    },
  );
});

describe('worked examples of mixing', () => {
  /** source: Brown, LeMay, Bursten, "Chemistry: The Central Science", sample exercise on adding base to a buffer (from memory) */
  it('one litre of 0.300 M acetic acid and 0.300 M acetate goes from 4.74 to 4.80 with 0.020 mol of sodium hydroxide', () => {
    const buffer = bath(1000, { acetate: 0.6, Na: 0.3 });
    expect(Math.abs(ph(buffer) - 4.74)).toBeLessThan(0.02);
    expect(Math.abs(ph(pourTogether(buffer, bath(5, { Na: 4 }))) - 4.8)).toBeLessThan(0.02);
  });

  /** source: Harris, "Quantitative Chemical Analysis", ch. 10: an amphiprotic salt stands at ½(pK1 + pK2); exact at high concentration */
  it('sodium bicarbonate stands half way between the pK’s of carbonic acid', () => {
    expect(Math.abs(ph(bath(1000, { Na: 0.1, carbonate: 0.1 })) - (6.351 + 10.329) / 2)).toBeLessThan(0.01);
  });

  /** source: standard exercise, weak base of pKb 4.755 at 0.10 M: pH 11.12 */
  it('0.10 M ammonia has pH 11.12', () => {
    expect(Math.abs(ph(bath(1000, { ammonia: 0.1 })) - 11.12)).toBeLessThan(0.015);
  });

  /** source: standard exercise, carbonate as a base, Kb = Kw/K2: pH 11.62 to 11.66 at 0.10 M */
  it('0.10 M sodium carbonate has pH 11.6', () => {
    expect(Math.abs(ph(bath(1000, { Na: 0.2, carbonate: 0.1 })) - 11.65)).toBeLessThan(0.03);
  });

  it('equal volumes of equally strong strong acid and strong base leave neutral water', () => {
    expect(Math.abs(ph(pourTogether(bath(250, { Cl: 0.2 }), bath(250, { Na: 0.2 }))) - 7)).toBeLessThan(0.01);
  });
});
