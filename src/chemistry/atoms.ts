import { MF } from 'mf-parser';

/**
 * Standard atomic weights, abridged to five figures.
 * source: IUPAC Commission on Isotopic Abundances and Atomic Weights, "Standard atomic weights of the elements
 * 2021", Pure Appl. Chem. 94 (2022) 573, table 2 (from memory of the table; checked in tests/outside/chem-atoms).
 */
export const atomicWeights: Readonly<Record<string, number>> = {
  H: 1.008,
  B: 10.81,
  C: 12.011,
  N: 14.007,
  O: 15.999,
  F: 18.998,
  Na: 22.99,
  Mg: 24.305,
  Al: 26.982,
  Si: 28.085,
  P: 30.974,
  S: 32.06,
  Cl: 35.45,
  K: 39.098,
  Ca: 40.078,
  Cr: 51.996,
  Mn: 54.938,
  Fe: 55.845,
  Cu: 63.546,
  Zn: 65.38,
  Br: 79.904,
  Ag: 107.87,
  I: 126.9,
  Ba: 137.33,
};

/** Atoms in a formula; a dot joins the parts of a salt: `Na2CO3.10H2O`, `C12H21N3O2S.1.5H2SO4.H2O`. */
export type Atoms = Record<string, number>;

export type FormulaResult<T> = { ok: true; value: T } | { ok: false; why: string };

const parts = (formula: string): { count: number; core: string }[] =>
  // a dot before a number that runs into letters starts a part; "1.5H2SO4" keeps its decimal point
  formula
    .split(/[·*]|(?<!\.\d*)\.(?=\d*\.?\d*[A-Z(])/)
    .filter((p) => p !== '')
    .map((p) => {
      const m = /^(\d+(?:\.\d+)?)?(.+)$/.exec(p.trim());
      return { count: m?.[1] === undefined ? 1 : Number(m[1]), core: m?.[2] ?? '' };
    });

/** Counts the atoms of a formula. Charges are not taken: write the salt. */
export function atomsOf(formula: string): FormulaResult<Atoms> {
  const total: Atoms = {};
  try {
    for (const { count, core } of parts(formula)) {
      for (const [element, n] of Object.entries(new MF(core).getInfo().atoms)) {
        total[element] = (total[element] ?? 0) + n * count;
      }
    }
  } catch (error) {
    const reason = error instanceof Error ? error.message : 'unreadable';
    return { ok: false, why: `The formula "${formula}" cannot be read: ${reason}.` };
  }
  if (Object.keys(total).length === 0) return { ok: false, why: `The formula "${formula}" names no atoms.` };
  return { ok: true, value: total };
}

/** Formula weight, g/mol, from standard atomic weights (five figures, so good to about 0.01 %). */
export function formulaWeight(formula: string): FormulaResult<number> {
  const atoms = atomsOf(formula);
  if (!atoms.ok) return atoms;
  let gPerMol = 0;
  for (const [element, n] of Object.entries(atoms.value)) {
    const weight = atomicWeights[element];
    if (weight === undefined) return { ok: false, why: `No atomic weight is kept for ${element}.` };
    gPerMol += weight * n;
  }
  return { ok: true, value: gPerMol };
}
