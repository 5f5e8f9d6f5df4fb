import type { Recipe } from './types.js';

/** Lost in pouring and on wet film, of what is mixed. source: common practice */
const LOSS = 0.05;

/**
 * How much bath, ml, a tank and a number of 135-36 films ask for: enough to cover the reel, enough for the films, and the
 * share that is lost, rounded up to 10 ml.
 */
export function volumeNeeded(recipe: Recipe, tankMl: number, films: number): number {
  const forFilms = (films / recipe.capacity.filmsPerLitre) * 1000;
  return Math.ceil((Math.max(tankMl, forFilms) * (1 + LOSS)) / 10 - 1e-9) * 10;
}
