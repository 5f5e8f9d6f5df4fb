import type { Role } from './liquids.js';

/** What the film is, chemically. Follows only from which liquids touched it and for how long. */
export interface FilmState {
  loaded: boolean;
  /** the black antihalation layer (rem-jet) on the back */
  backing: 'on' | 'softened' | 'off';
  image: 'latent' | 'developed' | 'lost';
  /** metallic silver of the picture is still there */
  silver: boolean;
  /** light-sensitive or bleached silver halide is still there */
  halide: boolean;
  bleached: boolean;
  /** had its final rinse after a complete process */
  finished: boolean;
  /** what clings to film and tank since the last water, with the time the film spent in it */
  carry: Exclude<Role, 'water'> | null;
}

export const noFilm: FilmState = {
  loaded: false,
  backing: 'on',
  image: 'latent',
  silver: false,
  halide: true,
  bleached: false,
  finished: false,
  carry: null,
};
export const freshFilm: FilmState = { ...noFilm, loaded: true };

/** One stay of the film in one liquid. */
export interface Contact {
  role: Role;
  /** how long it touched the film, s */
  seconds: number;
}

/**
 * Shortest contact that changes the film, s. Bleach and fixer reach a latent image at once; developer needs a
 * while before there is a picture to speak of. Source: common practice.
 */
const takesS = { developer: 15, fixing: 15, bleaching: 15, softening: 5, rinsingBacking: 5, washing: 10 };

/** The film after one more contact. Pure; a contact of 0 s changes only what the film carries. */
export function expose(film: FilmState, { role, seconds }: Contact): FilmState {
  // a splash of water does not wash off what clings
  const washed = seconds >= takesS.washing ? null : film.carry;
  const wet: FilmState = { ...film, carry: role === 'water' ? washed : role };
  if (!film.loaded) return wet;
  switch (role) {
    case 'water':
      return {
        ...wet,
        backing: film.backing === 'softened' && seconds >= takesS.rinsingBacking ? 'off' : film.backing,
      };
    case 'backing-remover':
      return {
        ...wet,
        backing: film.backing === 'on' && seconds >= takesS.softening ? 'softened' : film.backing,
        finished: false,
      };
    case 'developer':
      return { ...wet, ...develop(film, seconds), finished: false };
    case 'stop':
      return { ...wet, finished: false };
    case 'bleach':
      return { ...wet, ...bleach(film, seconds), finished: false };
    case 'fixer':
      return { ...wet, ...fix(film, seconds), finished: false };
    case 'rinse':
      return { ...wet, finished: film.image === 'developed' && film.bleached && !film.halide };
  }
}

function develop(film: FilmState, seconds: number): Partial<FilmState> {
  if (seconds <= 0 || film.image === 'lost' || !film.halide) return {};
  // bleached silver is halide again: it all develops, over the whole picture
  if (film.bleached) return { image: 'lost' };
  return seconds >= takesS.developer ? { image: 'developed', silver: true } : {};
}

function bleach(film: FilmState, seconds: number): Partial<FilmState> {
  if (seconds <= 0) return {};
  if (film.image !== 'developed') return { image: 'lost' };
  return seconds >= takesS.bleaching && film.silver ? { silver: false, halide: true, bleached: true } : {};
}

function fix(film: FilmState, seconds: number): Partial<FilmState> {
  if (seconds <= 0) return {};
  if (film.image === 'latent') return { image: 'lost', halide: false };
  return seconds >= takesS.fixing ? { halide: false } : {};
}

/** Where the film stands, as the step guard's table names it. */
export type FilmStage =
  | 'no-film'
  | 'backed'
  | 'softened'
  | 'cleared'
  | 'developed'
  /** fixed before it was bleached: the silver is still in */
  | 'silver-kept'
  | 'bleached'
  | 'fixed'
  | 'finished'
  | 'lost';

export const filmStages: readonly FilmStage[] = [
  'no-film',
  'backed',
  'softened',
  'cleared',
  'developed',
  'silver-kept',
  'bleached',
  'fixed',
  'finished',
  'lost',
];

export function stageOf(film: FilmState): FilmStage {
  if (!film.loaded) return 'no-film';
  if (film.image === 'lost') return 'lost';
  if (film.finished) return 'finished';
  if (film.image === 'latent')
    return film.backing === 'on' ? 'backed' : film.backing === 'softened' ? 'softened' : 'cleared';
  if (film.halide) return film.bleached ? 'bleached' : 'developed';
  return film.silver ? 'silver-kept' : 'fixed';
}
