import { classesOfBath, freshBath } from '../mixture.js';
import type { Recipe } from '../recipes/index.js';
import { type ReactiveClass, type Substance, substanceById } from '../substances.js';
import { deference, emergency, hazardLine, hazardsOf, needsAir } from './hazards.js';
import { type IncompatiblePair, pairsFor } from './incompatible.js';

const solid = (s: Substance | undefined): s is Substance => s !== undefined;

/** Substances a recipe is made of, in the forms it names. */
export const substancesOf = (recipe: Recipe): Substance[] =>
  recipe.components.map((c) => substanceById(c.substance)).filter(solid);

/** What the mixed liquid reacts with: classes of its substances, less those used up (a trace of acid salt). */
function pairsOfRecipe(recipe: Recipe): IncompatiblePair[] {
  const seen = new Set<IncompatiblePair>();
  for (const s of substancesOf(recipe)) for (const p of pairsFor(s)) seen.add(p);
  return [...seen];
}

/** Everything to know before the first jar of a recipe is opened, as short sentences, most dangerous first. */
export function cautionsFor(recipe: Recipe, forms: readonly Substance[] = substancesOf(recipe)): string[] {
  const out = ['Gloves and goggles on, children and pets out, no food and no kitchen ware.'];
  if (needsAir(forms.map((f) => f.id))) out.push('Open a window or run the fan.');
  out.push(...pairsOfRecipe(recipe).map((p) => p.spoken));
  for (const f of forms) {
    const line = hazardLine(f);
    if (line !== null) out.push(`${line}.`);
  }
  out.push(...recipe.mixing, deference, emergency);
  return [...new Set(out)];
}

/** Worst hazards said for one jar; the label and the data sheet have them all. */
const spokenHazards = 2;
/** And pairs, worst first. */
const spokenPairs = 3;

/** The words for one jar: its worst hazards first, then its incompatible pairs, worst first, less those with what is not there. */
export function cautionsForSubstance(s: Substance, notThere?: ReactiveClass): string[] {
  const worst = hazardsOf(s).slice(0, spokenHazards);
  const said = worst.map((h) => h.spoken).join(', and ');
  const pairs = pairsFor(s)
    .filter((p) => notThere === undefined || (p.a !== notThere && p.b !== notThere))
    .slice(0, spokenPairs)
    .map((p) => p.spoken);
  return worst.length === 0 ? pairs : [`${capital(s.name)}: ${said}.`, ...pairs];
}

/** What is spoken when a mix is opened: short enough to listen to, every dangerous pair in it. */
export function spokenCautionsFor(
  recipe: Recipe,
  forms: readonly Substance[] = substancesOf(recipe),
): string[] {
  const out = ['Gloves and goggles on. No food, no kitchen ware.'];
  // the finished bath burns or sensitises, by what is in it
  out.push(...burns(recipe, forms));
  if (needsAir(forms.map((f) => f.id))) out.push('Open a window.');
  const pairs = new Set(forms.flatMap((f) => pairsFor(f)));
  out.push(...[...pairs].filter((p) => p.danger !== 'pressure').map((p) => p.spoken), deference);
  return out;
}

/** What a finished bath must not meet, by what is in it and by its own pH: the trace of an acid salt in a fixer is no acid. */
export const pairsOfBath = (recipe: Recipe): IncompatiblePair[] =>
  pairsFor({ classes: [...classesOfBath(recipe, freshBath(recipe, 1000))] });

/** The words for a bath in its bottle: that it burns or sensitises, and what it must not meet, worst first. */
export function spokenCautionsOfBath(recipe: Recipe): string[] {
  const forms = substancesOf(recipe);
  return [
    'Gloves and goggles on.',
    ...burns(recipe, forms),
    ...(needsAir(forms.map((f) => f.id)) ? ['Open a window.'] : []),
    ...pairsOfBath(recipe).map((p) => p.spoken),
    deference,
  ];
}

/** What a bath does to somebody by itself. */
export type Harm = 'burns' | 'allergy' | 'caustic';

const burns = (recipe: Recipe, forms: readonly Substance[]): string[] =>
  harmsOf(recipe, forms).map((h) => h.spoken);

/** What of a bath's hazards is worth saying aloud: that it burns, or can cause an allergy, and by what. */
export function harmsOf(
  recipe: Recipe,
  forms: readonly Substance[] = substancesOf(recipe),
): { of: Harm; spoken: string }[] {
  const acid = forms.find((f) => f.classes.includes('acid') && f.hazards.includes('H314'));
  const agent = forms.find((f) => f.classes.includes('developing-agent'));
  const caustic = forms.find((f) => f.classes.includes('caustic'));
  return [
    ...(acid !== undefined && (recipe.ph?.aim ?? 7) <= 2
      ? [
          {
            of: 'burns' as const,
            spoken: `It is ${acid.family.replace(/-/g, ' ').replace('sulfuric', 'sulphuric')}: it burns skin and eyes.`,
          },
        ]
      : []),
    ...(agent === undefined
      ? []
      : [{ of: 'allergy' as const, spoken: 'Its developing agent can cause a lasting skin allergy.' }]),
    ...(caustic === undefined
      ? []
      : [{ of: 'caustic' as const, spoken: `It is mixed with ${caustic.name}, which burns.` }]),
  ];
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
