import { bathOf, planBatch } from './batch.js';
import { findRecipe, type Recipe, recipeForLiquid, recipes } from './recipes/index.js';
import { type Bath, equilibriumOf, portion, pourTogether, water, withSubstance } from './solution/bath.js';
import {
  findSubstance,
  formsNamed,
  type ReactiveClass,
  type Substance,
  substanceById,
  substances,
} from './substances.js';

/**
 * Something that was poured or put in: a bath by recipe id or by its liquid's id, `water`, or a substance by id or
 * name. Baths and liquids by `volumeMl`, solids by `massG`.
 */
export interface Part {
  of: string;
  volumeMl?: number;
  massG?: number;
  /** of a solid, 0 to 1 */
  purity?: number;
}

/** A part as chemistry sees it. `unknown`: nothing is known of it, and so of anything it is in. */
export interface KnownPart {
  name: string;
  kind: 'bath' | 'substance' | 'water' | 'unknown';
  recipe: Recipe | null;
  substance: Substance | null;
  bath: Bath;
  classes: ReadonlySet<ReactiveClass>;
}

/** A fresh bath of a recipe, in ml; plain water for null. */
export function freshBath(recipe: Recipe | null, volumeMl: number): Bath {
  if (recipe === null) return water(volumeMl);
  let litre = litres.get(recipe.id);
  if (litre === undefined) {
    const planned = planBatch(recipe, 1000);
    litre = planned.ok ? bathOf(planned.batch.lines, 1000) : water(1000);
    litres.set(recipe.id, litre);
  }
  return portion(litre, volumeMl);
}

/** One fresh litre of each recipe; a recipe is data that does not change. */
const litres = new Map<string, Bath>();

/** Below this a bath counts as an acid towards ferricyanide, sulphite and thiosulphate. source: common practice */
const acidPh = 4.5;
const causticPh = 12.5;

/** What a bath must not meet: its substances' classes, and acid or caustic by its own pH. */
export function classesOfBath(recipe: Recipe | null, bath: Bath): Set<ReactiveClass> {
  const out = new Set<ReactiveClass>(['water']);
  for (const c of recipe?.components ?? [])
    for (const k of substanceById(c.substance)?.classes ?? []) out.add(k);
  out.delete('acid');
  out.delete('caustic');
  out.delete('concentrated');
  const solved = equilibriumOf(bath);
  if (solved.ok && Object.keys(bath.moles).length > 0) {
    if (solved.value.ph < acidPh) out.add('acid');
    if (solved.value.ph > causticPh) out.add('caustic');
  }
  return out;
}

/**
 * What the baths of a process that has no recipes here are made of, as far as it makes danger. A colour bleach of today is
 * an ammonium iron complex with bromide. source: common practice; safety data sheets, section 3, from memory
 */
const kinds: Readonly<Record<string, readonly ReactiveClass[]>> = {
  developer: ['developing-agent', 'sulphite', 'carbonate', 'water'],
  stop: ['acid', 'water'],
  bleach: ['ammonium', 'bromide', 'water'],
  fixer: ['thiosulphate', 'sulphite', 'ammonium', 'water'],
};

/** A bath of which only its kind is known: its dangers count, its formula is unknown. */
export function bathOfKind(liquid: string, volumeMl: number): KnownPart {
  return {
    name: liquid.replace(/-/g, ' '),
    kind: 'unknown',
    recipe: null,
    substance: null,
    bath: water(volumeMl),
    classes: new Set(kinds[liquid] ?? ['water']),
  };
}

/** The recipe behind a name: recipe id, liquid id or the name of a bath. */
export const recipeNamed = (of: string): Recipe | undefined => {
  const byId = recipes.find((r) => r.id === of) ?? recipeForLiquid(of);
  if (byId !== undefined) return byId;
  const found = findRecipe(of);
  return found.ok ? found.recipe : undefined;
};

/** "Sulfite", by the salt alone: what the salts of one acid must not meet is the same. */
const saltNamed = (of: string): Substance | undefined =>
  substances.find(({ family, classes }) => family.endsWith(`-${of}`) && !classes.includes('acid'));

/** Looks a part up: water, then baths, then substances by id, family or name. Never throws. */
export function knownPart(part: Part): KnownPart {
  const volumeMl = part.volumeMl ?? 0;
  if (part.of === 'water') {
    return {
      name: 'water',
      kind: 'water',
      recipe: null,
      substance: null,
      bath: water(volumeMl),
      classes: new Set(['water']),
    };
  }
  const recipe = recipeNamed(part.of);
  if (recipe !== undefined) {
    const bath = freshBath(recipe, volumeMl);
    const classes = classesOfBath(recipe, freshBath(recipe, 1000));
    return {
      name: recipe.name,
      kind: 'bath',
      recipe,
      substance: null,
      bath,
      classes,
    };
  }
  const substance = formsNamed(part.of)[0] ?? findSubstance(part.of) ?? saltNamed(part.of);
  if (substance !== undefined) {
    // grams of a liquid by its density; a measure of powder by a bulk density of 1 g/ml (common practice)
    const density = substance.liquid?.densityGPerMl ?? 1;
    const ml = part.volumeMl ?? (part.massG ?? 0) / density;
    const amount = substance.measure === 'ml' ? ml : (part.massG ?? volumeMl);
    const start = water(substance.measure === 'ml' ? ml : 0);
    return {
      name: substance.name,
      kind: 'substance',
      recipe: null,
      substance,
      bath: withSubstance(start, substance, amount, part.purity ?? 1),
      classes: new Set(substance.classes),
    };
  }
  return {
    name: part.of.replace(/-/g, ' '),
    kind: 'unknown',
    recipe: null,
    substance: null,
    bath: water(volumeMl),
    classes: new Set(),
  };
}

/** All parts in one vessel, before anything reacts. */
export const together = (parts: readonly KnownPart[]): Bath =>
  parts.reduce((bath, p) => pourTogether(bath, p.bath), water(0));
