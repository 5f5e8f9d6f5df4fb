import { formulaWeight } from './atoms.js';
import { householdForms } from './household.js';
import { liquidForms } from './liquids.js';
import { solidForms } from './solids.js';
import type { TotalId } from './solution/species.js';

/** What can go wrong with a substance near another; pairs are in safety/incompatible. */
export type ReactiveClass =
  | 'acid'
  | 'sulphite'
  | 'thiosulphate'
  | 'ferricyanide'
  | 'hypochlorite'
  | 'caustic'
  | 'carbonate'
  | 'ammonium'
  | 'developing-agent'
  | 'bromide'
  /** strong enough to boil when water meets it */
  | 'concentrated'
  | 'chloride-acid'
  | 'ammonia'
  | 'peroxide'
  | 'persulphate'
  | 'permanganate'
  | 'dichromate'
  | 'thiocyanate'
  | 'formaldehyde'
  | 'sulphide'
  | 'alcohol'
  | 'ketone'
  /** plain water and all baths of water */
  | 'water';

/**
 * One form of a chemical as it stands on the shelf. Forms of one `family` can stand for one another, mole for
 * mole of `active` parts: hydrates of a salt, strengths of an acid, sodium or potassium bromide by halide.
 */
export interface Substance {
  id: string;
  /** said aloud and printed */
  name: string;
  family: string;
  formula: string | null;
  /** family units in one formula unit */
  active: number;
  /** one formula unit gives this to the solution, mol per mol; electrically neutral */
  gives: Readonly<Partial<Record<TotalId, number>>>;
  measure: 'g' | 'ml';
  /** liquids: mass fraction of the formula, and density in g/ml */
  liquid?: { massFraction: number; densityGPerMl: number };
  /** further content of a technical liquid, mol per litre */
  alsoMolPerL?: Readonly<Partial<Record<TotalId, number>>>;
  aliases: readonly string[];
  classes: readonly ReactiveClass[];
  /** GHS hazard statement codes; empty: not classified */
  hazards: readonly string[];
  note?: string;
  /** keeps when dissolved alone, so that a little of it may be taken from a stock solution; absent: it does not */
  stock?: { keepDays: number; source: string };
  /** whole packages it is usually sold in, g or ml as it is measured; absent: as solids and liquids usually are */
  packs?: readonly number[];
  source: string;
}

export const substances: readonly Substance[] = [...solidForms, ...liquidForms, ...householdForms];

const byId = new Map(substances.map((s) => [s.id, s]));

export const substanceById = (id: string): Substance | undefined => byId.get(id);

/** Lower case, no punctuation, British spelling, words in any order: how names are compared. */
const plain = (text: string): string =>
  text
    .toLowerCase()
    .replace(/sulf/g, 'sulph')
    .replace(/[^a-z0-9]+/g, ' ')
    .trim()
    .split(' ')
    // one or many
    .map((w) => (w.length > 3 ? w.replace(/([^s])s$/, '$1') : w))
    // "sodium carbonate, anhydrous" and "anhydrous sodium carbonate" are one name
    .sort()
    .join(' ');

/** All forms of a formula, as it is typed without brackets or dots; without its water all hydrates. */
function ofFormula(text: string): Substance[] {
  const bare = (formula: string): string => formula.toLowerCase().replace(/[^a-z0-9]/g, '');
  const wanted = bare(text);
  return substances.filter(
    ({ formula }) =>
      formula !== null && [formula, formula.split('.')[0] ?? ''].some((f) => bare(f) === wanted),
  );
}

/** A substance by id, name, alias or formula as typed or spoken; undefined when nothing fits. */
export function findSubstance(text: string): Substance | undefined {
  const wanted = plain(text);
  return (
    substances.find((s) => [s.id, s.name, ...s.aliases].some((n) => plain(n) === wanted)) ??
    ofFormula(text)[0]
  );
}

/**
 * The forms a name may mean: one when the name settles it, several when a hydrate or strength was not said, none when
 * it is unknown. Family ids count as names.
 */
export function formsNamed(text: string): Substance[] {
  const id = byId.get(text);
  if (id !== undefined) return [id];
  const family = substances.filter((s) => plain(s.family) === plain(text));
  if (family.length > 0) return family;
  const found = findSubstance(text);
  if (found === undefined) return [];
  const same = ofFormula(text);
  return same.includes(found) ? same : [found];
}

/** Forms that may stand for this one, itself first. */
export const formsOf = (s: Substance): Substance[] => [
  s,
  ...substances.filter((o) => o.family === s.family && o.id !== s.id),
];

/** The one form of a powder that a name means, where the salt has others; `than`: where that names the same salt. */
export function otherForm(name: string, than?: string): Substance | undefined {
  const [form, ...more] = formsNamed(name);
  const same =
    than === undefined ||
    `-${form?.family}`.endsWith(`-${than}`) ||
    formsNamed(than).some((f) => f.family === form?.family);
  const others = form?.measure === 'g' ? formsOf(form).filter((f) => f.measure === 'g') : [];
  return same && more.length === 0 && others.length > 1 ? form : undefined;
}

/** g/mol of the formula; null for goods whose formula is not published. */
export function weightOf(s: Substance): number | null {
  if (s.formula === null) return null;
  const w = formulaWeight(s.formula);
  return w.ok ? w.value : null;
}

/** Formula units in an amount (g of a solid at its purity, ml of a liquid), mol; null when no formula is known. */
export function molesIn(s: Substance, amount: number, purity = 1): number | null {
  const w = weightOf(s);
  if (w === null) return null;
  const massG =
    s.liquid === undefined ? amount * purity : amount * s.liquid.densityGPerMl * s.liquid.massFraction;
  return massG / w;
}

export type AmountResult = { ok: true; amount: number } | { ok: false; why: string };

/**
 * How much of `to` holds as much as `amount` of `from`, mole for mole of the family's active part: carbonate
 * anhydrous to monohydrate, 7 N acid to battery acid, sodium bromide to potassium bromide. Amounts in g or ml
 * as each form is measured; `purity` of the form used, 0 to 1. Errors: different families, unknown formula.
 */
export function substitute(from: Substance, amount: number, to: Substance, purity = 1): AmountResult {
  if (from.id === to.id) return { ok: true, amount: amount / purity };
  if (from.family !== to.family) return { ok: false, why: `${to.name} cannot stand in for ${from.name}.` };
  const moles = molesIn(from, amount);
  const perUnit = molesIn(to, 1, purity);
  if (moles === null || perUnit === null || perUnit <= 0) {
    return {
      ok: false,
      why: `The formula of ${moles === null ? from.name : to.name} is not known, so no amount follows.`,
    };
  }
  return { ok: true, amount: (moles * from.active) / to.active / perUnit };
}
