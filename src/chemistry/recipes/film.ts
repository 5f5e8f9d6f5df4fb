import type { Recipe } from './types.js';

/** One 135-36 film, the trade's unit of bath capacity (80 square inches), m². source: common practice. */
export const filmUnitM2 = 0.0516;

/** Width or sheet area by format. `wide`: m, times the length; `sheet`: m², times the count. */
const formats: Readonly<Record<string, { wide?: number; sheet?: number; lengthM?: number; source: string }>> =
  {
    'super-8': { wide: 0.008, lengthM: 15.2, source: 'ISO 1700 width; 50 ft cartridge' },
    '16mm': { wide: 0.016, lengthM: 30.5, source: 'ISO 25 width; 100 ft spool' },
    '35mm': {
      wide: 0.035,
      lengthM: 1.475,
      source: 'ISO 1007 width; the trade counts 36 exposures as 80 square inches',
    },
    '120': { sheet: 0.0506, source: 'ISO 732, 61 mm by 83 cm' },
    '4x5': { sheet: 0.0129, source: 'nominal' },
    '8x10': { sheet: 0.0516, source: 'nominal' },
  };

export interface FilmAmount {
  format: string;
  lengthM?: number;
  count?: number;
}

/** Film area, m². A length counts for roll film (one standard roll when not given), a count for all. */
export function filmAreaM2(film: FilmAmount): number {
  const f = formats[film.format];
  if (f === undefined) return (film.count ?? 1) * filmUnitM2;
  const one = f.sheet ?? (f.wide ?? 0.035) * (film.lengthM ?? f.lengthM ?? 1.475);
  return one * (film.count ?? 1);
}

/** Films in units of one 135-36. */
export const filmUnits = (films: readonly FilmAmount[]): number =>
  films.reduce((sum, f) => sum + filmAreaM2(f), 0) / filmUnitM2;

export interface Need {
  volumeMl: number;
  /** which of the two set it */
  because: 'tank' | 'capacity';
  /** 135-36 films this volume can serve */
  filmsServed: number;
}

/**
 * How much bath a tank and a number of films ask for: enough to cover the reel, enough for the films' area, and
 * the share lost in pouring and on wet film, rounded up to 10 ml. `lossFraction` 0.05 when not given
 * (source: common practice).
 */
export function volumeNeeded(
  recipe: Recipe,
  tankMl: number,
  films: readonly FilmAmount[],
  lossFraction = 0.05,
): Need {
  const byCapacity = (filmUnits(films) / recipe.capacity.filmsPerLitre) * 1000;
  const because = byCapacity > tankMl ? 'capacity' : 'tank';
  const volumeMl = Math.ceil((Math.max(tankMl, byCapacity) * (1 + lossFraction)) / 10 - 1e-9) * 10;
  return { volumeMl, because, filmsServed: (volumeMl / 1000) * recipe.capacity.filmsPerLitre };
}
