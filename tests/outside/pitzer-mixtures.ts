import { freshBath } from '../../src/chemistry/mixture.js';
import { recipes } from '../../src/chemistry/recipes/index.js';
import { type Bath, concentrations, pourTogether, withSubstance } from '../../src/chemistry/solution/bath.js';
import { solveEquilibrium, type Totals } from '../../src/chemistry/solution/solver.js';
import { type Substance, substanceById } from '../../src/chemistry/substances.js';
import { seeded } from '../seeded.js';
import { pitzerKnows } from './pitzer.js';

/** The agent's salt as its sulphate and the acid it brings: at the pH of these baths the base itself holds no proton. */
export function known(bath: Bath): Totals {
  const totals: Record<string, number> = { ...concentrations(bath) };
  delete totals.cd3;
  for (const id of Object.keys(totals))
    if (!pitzerKnows.has(id)) throw new Error(`${id} is not in the Pitzer solver`);
  return totals as Totals;
}
export const ours = (bath: Bath): number => {
  const solved = solveEquilibrium(concentrations(bath));
  if (!solved.ok) throw new Error(solved.why);
  return solved.value.ph;
};
export const bath = (id: string, ml = 1000): Bath => {
  const recipe = recipes.find((r) => r.id === id);
  if (recipe === undefined) throw new Error(id);
  return freshBath(recipe, ml);
};

export interface Mixture {
  name: string;
  bath: Bath;
}

/** Spills of one bath into another, and slips of weighing, drawn by chance. */
export function mixtures(count: number): Mixture[] {
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
