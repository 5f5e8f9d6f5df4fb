import { describe, expect, it } from 'vitest';
import { debyeHuckelSlope, waterDensity } from '../../src/chemistry/solution/activity.js';
import { pkAt } from '../../src/chemistry/solution/layout.js';
import { type SolveOptions, solveEquilibrium, type Totals } from '../../src/chemistry/solution/solver.js';
import { waterDissociation } from '../../src/chemistry/solution/species.js';

const solve = (totals: Totals, options?: SolveOptions) => {
  const r = solveEquilibrium(totals, options);
  if (!r.ok) throw new Error(r.why);
  return r.value;
};

/**
 * NIST standard buffers, molal. source: R. G. Bates, J. Res. NBS 66A (1962) 179 and Staples, Bates, J. Res. NBS 73A
 * (1969) 37; also IUPAC Recommendations 2002 (Buck et al., Pure Appl. Chem. 74, 2169). From memory of
 * the tables.
 */
const buffers: { name: string; totals: Totals; at25: number; at40: number }[] = [
  { name: 'carbonate 0.025/0.025', totals: { Na: 0.075, carbonate: 0.05 }, at25: 10.012, at40: 9.889 },
  { name: 'borax 0.01', totals: { Na: 0.02, borate: 0.04 }, at25: 9.18, at40: 9.068 },
  {
    name: 'equimolal phosphate 0.025',
    totals: { K: 0.025, Na: 0.05, phosphate: 0.05 },
    at25: 6.865,
    at40: 6.838,
  },
  {
    name: 'phosphate 1:3.5',
    totals: { K: 0.008695, Na: 0.06086, phosphate: 0.039125 },
    at25: 7.413,
    at40: 7.38,
  },
  { name: 'hydrogen phthalate 0.05', totals: { K: 0.05, phthalate: 0.05 }, at25: 4.008, at40: 4.035 },
  { name: 'dihydrogen citrate 0.05', totals: { K: 0.05, citrate: 0.05 }, at25: 3.776, at40: 3.756 },
];

describe('standard buffers', () => {
  it.each(buffers)('$name within 0.02 at 25 °C and 0.03 at 40 °C', ({ totals, at25, at40 }) => {
    expect(Math.abs(solve(totals).ph - at25)).toBeLessThan(0.02);
    expect(Math.abs(solve(totals, { tempC: 40 }).ph - at40)).toBeLessThan(0.03);
  });
});

describe('what the model is built from', () => {
  it('Debye–Hückel slope as in Bates, "Determination of pH" (1973), appendix: 0.5108 at 25 °C, 0.5241 at 40 °C (from memory)', () => {
    expect(debyeHuckelSlope(25)).toBeCloseTo(0.5108, 3);
    expect(debyeHuckelSlope(40)).toBeCloseTo(0.5241, 3);
  });

  it('density of water as in the CRC Handbook: 0.99705 at 25 °C, 0.99222 at 40 °C', () => {
    expect(waterDensity(25)).toBeCloseTo(0.99705, 4);
    expect(waterDensity(40)).toBeCloseTo(0.99222, 4);
  });

  it('ion product of water as in Harned and Owen: pKw 14.167, 13.995, 13.535 at 20, 25, 40 °C (from memory)', () => {
    expect(Math.abs(pkAt(waterDissociation, 20) - 14.167)).toBeLessThan(0.01);
    expect(Math.abs(pkAt(waterDissociation, 25) - 13.995)).toBeLessThan(0.01);
    expect(Math.abs(pkAt(waterDissociation, 40) - 13.535)).toBeLessThan(0.01);
  });

  /** source: Robinson, Stokes, "Electrolyte Solutions", appendix 8.10, mean activity coefficients at 25 °C (from memory) */
  it.each([
    ['NaCl', { Na: 0.1, Cl: 0.1 }, 'Na', 'Cl', 1, 1, 0.778],
    ['NaCl', { Na: 1, Cl: 1 }, 'Na', 'Cl', 1, 1, 0.657],
    ['KCl', { K: 0.1, Cl: 0.1 }, 'K', 'Cl', 1, 1, 0.77],
    ['KCl', { K: 1, Cl: 1 }, 'K', 'Cl', 1, 1, 0.604],
    ['HCl', { Cl: 0.1 }, 'H+', 'Cl', 1, 1, 0.796],
    ['HCl', { Cl: 1 }, 'H+', 'Cl', 1, 1, 0.809],
    ['NaBr', { Na: 1, Br: 1 }, 'Na', 'Br', 1, 1, 0.687],
    ['Na2SO4', { Na: 0.2, sulfate: 0.1 }, 'Na', 'SO4--', 2, 1, 0.452],
    ['Na2SO4', { Na: 2, sulfate: 1 }, 'Na', 'SO4--', 2, 1, 0.204],
  ] as const)('mean activity coefficient of %s (%o) within 10 %%', (_n, totals, c, a, nc, na, printed) => {
    const { logGamma } = solve(totals);
    const mean = 10 ** ((nc * (logGamma[c] ?? 0) + na * (logGamma[a] ?? 0)) / (nc + na));
    expect(Math.abs(mean / printed - 1)).toBeLessThan(0.1);
  });

  it('says when it is asked beyond its range', () => {
    expect(solve({ Na: 5, Cl: 5 }).withinModel).toBe(false);
    expect(solveEquilibrium({ Na: 1 }, { tempC: 80 })).toMatchObject({ ok: false });
    expect(solveEquilibrium({ Na: -1 })).toMatchObject({ ok: false });
    expect(solveEquilibrium({ Na: Number.NaN })).toMatchObject({ ok: false });
  });
});
