import * as ecn2 from './ecn2.js';
import * as home from './home.js';
import type { Recipe } from './types.js';

export type { Component, Recipe } from './types.js';

export const recipes: readonly Recipe[] = [
  ecn2.prebath,
  ecn2.developer,
  ecn2.stop,
  home.stopVinegar,
  home.stopCitric,
  ecn2.bleach,
  ecn2.fixer,
  ecn2.fixerSodium,
  ecn2.finalRinse,
  home.prebathHome,
  home.developerHome,
  home.finalRinseHome,
];

/** Other words for a bath; the first recipe of a liquid is the one meant. */
const liquidWords: Readonly<Record<string, string>> = {
  'backing remover': 'prebath',
  'backing removal': 'prebath',
  'rem jet remover': 'prebath',
  'remjet remover': 'prebath',
  dev: 'developer',
  fix: 'fixer',
  'stop bath': 'stop',
  rinse: 'final-rinse',
  stabiliser: 'final-rinse',
  'final rinse': 'final-rinse',
};

const plain = (text: string): string =>
  text
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, ' ')
    .trim();

export type RecipeResult = { ok: true; recipe: Recipe } | { ok: false; why: string };

/** The recipe that a liquid's id in a process sheet stands for, unless a bottle's batch says otherwise. */
export const recipeForLiquid = (liquid: string): Recipe | undefined =>
  recipes.find((r) => r.liquid === liquid);

/** A recipe by id, name or the name of its bath. Error: one sentence with the ids there are. */
export function findRecipe(text: string): RecipeResult {
  const wanted = plain(text);
  const found =
    recipes.find((r) => plain(r.id) === wanted || plain(r.name) === wanted) ??
    recipeForLiquid(liquidWords[wanted] ?? wanted.replace(/ /g, '-'));
  if (found !== undefined) return { ok: true, recipe: found };
  return {
    ok: false,
    why: `There is no recipe "${text}". There are: ${recipes.map((r) => r.id).join(', ')}.`,
  };
}
