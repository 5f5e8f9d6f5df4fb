import { describe, expect, it } from 'vitest';
import { freshBath } from '../../src/chemistry/mixture.js';
import { recipes } from '../../src/chemistry/recipes/index.js';
import { type Bath, concentrations, pourTogether, withSubstance } from '../../src/chemistry/solution/bath.js';
import { solveEquilibrium, type Totals } from '../../src/chemistry/solution/solver.js';
import { type Substance, substanceById } from '../../src/chemistry/substances.js';
import { seeded } from '../seeded.js';
import { pitzerKnows, pitzerPh } from './pitzer.js';

/** The agent's salt as its sulphate and the acid it brings: at the pH of these baths the base itself holds no proton. */
function known(bath: Bath): Totals {
  const totals: Record<string, number> = { ...concentrations(bath) };
  delete totals.cd3;
  for (const id of Object.keys(totals))
    if (!pitzerKnows.has(id)) throw new Error(`${id} is not in the Pitzer solver`);
  return totals as Totals;
}
const ours = (bath: Bath): number => {
  const solved = solveEquilibrium(concentrations(bath));
  if (!solved.ok) throw new Error(solved.why);
  return solved.value.ph;
};
const bath = (id: string, ml = 1000): Bath => {
  const recipe = recipes.find((r) => r.id === id);
  if (recipe === undefined) throw new Error(id);
  return freshBath(recipe, ml);
};

/** Every bath whose parts the other solver has coefficients for. */
describe('pH by Pitzer’s equations, independent of the product', () => {
  it.each([
    'ecn2-prebath',
    'ecn2-prebath-home',
    'ecn2-developer',
    'ecn2-developer-home',
    'ecn2-stop',
    'ecn2-stop-vinegar',
  ])('%s agrees within 0.05', (id) => {
    const b = bath(id);
    expect(Math.abs(ours(b) - pitzerPh(known(b)))).toBeLessThan(0.05);
  });

  /** Coefficients of sulphite and thiosulphate are from memory, and ammonium thiosulphate's are not known here. */
  it('the hypo fixer agrees within 0.08', () => {
    const b = bath('ecn2-fixer-sodium');
    expect(Math.abs(ours(b) - pitzerPh(known(b)))).toBeLessThan(0.08);
  });

  /** source: NIST primary standards, from memory of the tables: 10.012, 9.180 */
  it('finds the carbonate and borax standards itself', () => {
    expect(pitzerPh({ Na: 0.075, carbonate: 0.05 })).toBeCloseTo(10.012, 1);
    expect(pitzerPh({ Na: 0.02, borate: 0.04 })).toBeCloseTo(9.18, 1);
  });
});

interface Mixture {
  name: string;
  bath: Bath;
}

/** Spills of one bath into another, and slips of weighing, drawn by chance. */
function mixtures(count: number): Mixture[] {
  const next = seeded(14);
  const pick = <T>(from: readonly T[]): T => from[Math.floor(next() * from.length)] as T;
  const baths = ['ecn2-prebath', 'ecn2-prebath-home', 'ecn2-developer', 'ecn2-stop', 'ecn2-stop-vinegar'];
  const powders = [
    'sodium-hydroxide',
    'sodium-bicarbonate',
    'sodium-carbonate-anhydrous',
    'borax-decahydrate',
    'boric-acid',
    'sodium-bromide',
    'sodium-sulfate-anhydrous',
    'potassium-carbonate',
  ];
  return Array.from({ length: count }, () => {
    const into = pick(baths);
    const poured = pick(baths.filter((b) => b !== into));
    const ml = Math.round(5 + next() * 150);
    const mixed = pourTogether(bath(into, 600), bath(poured, ml));
    if (next() < 0.4) return { name: `${ml} ml ${poured} in 600 ml ${into}`, bath: mixed };
    const powder = pick(powders);
    const grams = Math.round(next() * 50) / 10;
    return {
      name: `${ml} ml ${poured} and ${grams} g ${powder} in 600 ml ${into}`,
      bath: withSubstance(mixed, substanceById(powder) as Substance, grams),
    };
  });
}

describe('forty mixtures', () => {
  it('agree within 0.05 wherever something holds the pH', () => {
    const far: string[] = [];
    let worst = 0;
    for (const m of mixtures(40)) {
      const solved = solveEquilibrium(concentrations(m.bath));
      if (!solved.ok) throw new Error(solved.why);
      const off = solved.value.ph - pitzerPh(known(m.bath));
      // where nothing holds the pH, a hundredth of a millimole moves it: compare the alkali that would close the gap
      const alkali = Math.abs(off) * solved.value.bufferCapacity;
      if (Math.abs(off) > 0.05 && alkali > 0.0005)
        far.push(
          `${m.name}: ${off.toFixed(3)} at ${solved.value.ph.toFixed(2)}, beta ${solved.value.bufferCapacity.toFixed(4)}`,
        );
      else worst = Math.max(worst, Math.abs(off));
    }
    expect(far).toEqual([]);
    expect(worst).toBeGreaterThan(0.005);
  });
});
