import { MF } from 'mf-parser';
import { describe, expect, it } from 'vitest';
import { atomicWeights, atomsOf, formulaWeight } from '../../src/chemistry/atoms.js';
import { substanceById, substances, substitute } from '../../src/chemistry/substances.js';

/** source: CIAAW, abridged standard atomic weights 2021 (Pure Appl. Chem. 94, 573), from memory of the table. */
const ciaaw: Record<string, number> = {
  H: 1.008,
  B: 10.81,
  C: 12.011,
  N: 14.007,
  O: 15.999,
  Na: 22.99,
  P: 30.974,
  S: 32.06,
  Cl: 35.45,
  K: 39.098,
  Fe: 55.845,
  Br: 79.904,
  Ag: 107.87,
  I: 126.9,
};

/** Chemical catalogues (CRC Handbook, Merck Index), from memory; g/mol to the digits given. */
const handbook: [string, number][] = [
  ['Na2CO3', 105.99],
  ['Na2CO3.H2O', 124.0],
  ['Na2CO3.10H2O', 286.14],
  ['Na2SO3', 126.04],
  ['Na2SO3.7H2O', 252.15],
  ['Na2S2O3.5H2O', 248.18],
  ['Na2S2O5', 190.11],
  ['K3Fe(CN)6', 329.24],
  ['Na2B4O7.10H2O', 381.37],
  ['(NH4)2S2O3', 148.21],
  ['NaBr', 102.89],
  ['KBr', 119.0],
  ['C6H8O7', 192.12],
  // CD-3 as sold, the sesquisulphate monohydrate
  ['C12H21N3O2S.1.5H2SO4.H2O', 436.52],
];

describe('atomic and formula weights', () => {
  it.each(Object.entries(ciaaw))('%s is the CIAAW weight', (element, weight) => {
    expect(atomicWeights[element]).toBe(weight);
  });

  it.each(Object.entries(atomicWeights))(
    '%s agrees with isotope masses and abundances in mf-parser',
    (element, weight) => {
      // an independent route: chemical-elements sums isotopes; differences come from abridging to five figures
      expect(Math.abs(new MF(element).getInfo().mass / weight - 1)).toBeLessThan(3e-4);
    },
  );

  it.each(handbook)('%s weighs what handbooks print', (formula, weight) => {
    const w = formulaWeight(formula);
    expect(w.ok && Math.abs(w.value / weight - 1)).toBeLessThan(2e-4);
  });

  it('every formula on the shelf agrees with the mass mf-parser gives its atoms', () => {
    let checked = 0;
    for (const s of substances) {
      if (s.formula === null) continue;
      const atoms = atomsOf(s.formula);
      const w = formulaWeight(s.formula);
      if (!atoms.ok || !w.ok) throw new Error(s.id);
      const mass = Object.entries(atoms.value).reduce((sum, [e, n]) => sum + new MF(e).getInfo().mass * n, 0);
      expect(Math.abs(mass / w.value - 1), s.id).toBeLessThan(2e-4);
      checked++;
    }
    expect(checked).toBeGreaterThan(30);
  });
});

describe('hydrate factors', () => {
  const factor = (from: string, to: string): number => {
    const a = substanceById(from);
    const b = substanceById(to);
    if (a === undefined || b === undefined) throw new Error(`${from} ${to}`);
    const r = substitute(a, 1, b);
    if (!r.ok) throw new Error(r.why);
    return r.amount;
  };

  /** source: M. Langford, "Basic Photography", appendix on chemicals: 1.2, 2.7 and 2, as printed to one figure. */
  it.each([
    ['sodium-carbonate-anhydrous', 'sodium-carbonate-monohydrate', 1.2],
    ['sodium-carbonate-anhydrous', 'sodium-carbonate-decahydrate', 2.7],
    ['sodium-sulfite-anhydrous', 'sodium-sulfite-heptahydrate', 2],
  ])('%s to %s is Langford’s factor', (from, to, printed) => {
    expect(Math.abs(factor(from, to) - printed)).toBeLessThan(0.05);
  });

  /** source: Kodak Publication J-1 and trade tables, from memory: hypo 1.57, borax penta for deca 0.764 */
  it.each([
    ['sodium-thiosulfate-anhydrous', 'sodium-thiosulfate-pentahydrate', 1.57],
    ['borax-decahydrate', 'borax-pentahydrate', 0.764],
    ['sodium-bromide', 'potassium-bromide', 1.157],
    // Kodak Module 9 (H-24.09), accelerator footnote: metabisulphite × 1.09 gives bisulphite
    ['sodium-metabisulfite', 'sodium-bisulfite', 1.09],
  ])('%s to %s is the trade’s factor', (from, to, printed) => {
    expect(Math.abs(factor(from, to) / printed - 1)).toBeLessThan(0.006);
  });
});
