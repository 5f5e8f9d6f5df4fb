import type { Role } from './liquids.js';
import { kept } from './run-record.js';
import type { LiquidId } from './vessel.js';

/** What kind of film a process is for. */
export interface FilmKind {
  /** a black antihalation layer (rem-jet) on the back, to be removed */
  backing: boolean;
  /** `dye`: the picture is dye and the silver comes out; `silver`: the silver is the picture */
  image: 'dye' | 'silver';
}

export const motionPictureFilm: FilmKind = { backing: true, image: 'dye' };

/** Of films that were told by their kind. Source: common practice. */
const stockKinds: Readonly<Record<string, FilmKind>> = {
  'black-and-white': { backing: false, image: 'silver' },
  'motion-picture': motionPictureFilm,
  c41: { backing: false, image: 'dye' },
  slide: { backing: false, image: 'dye' },
};

export const kindOfStock = (stock: string | undefined): FilmKind | undefined => stockKinds[stock ?? ''];

/** What the film is, chemically. Follows only from which liquids touched it and for how long. JSON-safe. */
export interface FilmState {
  loaded: boolean;
  kind: FilmKind;
  backing: 'on' | 'softened' | 'off';
  image: 'latent' | 'part-developed' | 'developed' | 'lost';
  /** metallic silver of the picture is still there */
  silver: boolean;
  /** light-sensitive or bleached silver halide is still there */
  halide: boolean;
  bleached: boolean;
  /** had its final rinse after a complete process */
  finished: boolean;
  /** time in the developer at the process's own temperature, s */
  developedS: number;
  /** what clings to film and tank since the last water, with the time the film spent in it */
  carry: Exclude<Role, 'water'> | null;
  /** water since the last bath: seconds, and how often the tank was filled with it */
  washS: number;
  washFills: number;
  /** every bath it has been in, in order */
  history: Contact[];
  /** ids of the sheet's steps that were left out on purpose */
  skipped: string[];
  /** what may have been on it in place of `last`, and was never settled; `asked`: and a pour was agreed to all the same */
  doubt?: { of: readonly LiquidId[]; last: LiquidId | null; asked: boolean };
}

export const noFilm: FilmState = {
  loaded: false,
  kind: motionPictureFilm,
  backing: 'on',
  image: 'latent',
  silver: false,
  halide: true,
  bleached: false,
  finished: false,
  developedS: 0,
  carry: null,
  washS: 0,
  washFills: 0,
  history: [],
  skipped: [],
};
export const freshFilm: FilmState = { ...noFilm, loaded: true };

/** A film of this kind, as it comes out of the camera. */
export const newFilm = (kind: FilmKind): FilmState => ({
  ...freshFilm,
  kind,
  backing: kind.backing ? 'on' : 'off',
});

/** One stay of the film in one liquid. */
export interface Contact {
  role: Role;
  liquid?: LiquidId;
  /** how long it touched the film, s */
  seconds: number;
  /** when it began on the bench clock, ms */
  fromMs?: number;
  /** the sheet's step it served */
  stepId?: string;
  /** developer: seconds at the process's own temperature that do the same; left out: as long as it was */
  effectiveS?: number;
  /** water that backing was still seen in */
  black?: true;
  /** how long the process wants, s; left out: any time that shows counts as whole */
  wantedS?: number;
}

/**
 * Shortest contact that changes the film, s. Bleach and fixer reach a latent image at once; developer needs a
 * while before there is a picture to speak of, and goes on working in plain water for longer than anything else
 * clings. Source: common practice.
 */
const takesS = {
  working: 15,
  softening: 5,
  rinsingBacking: 5,
  washing: 10,
  washingDeveloper: 45,
};

/** A shorter stay in a developer, bleach or fixer leaves nothing to go on with, s. */
export const leastWorkS = takesS.working;

/**
 * A bath that had this share of the wanted time has done its work: a development is whole near its time, while bleach
 * and fixer are given about twice as long as the film takes to clear. Source: common practice.
 */
const wholeShare = { developer: 0.85, clearing: 0.5 };

/** How long the film has been in a bath, with nothing but water between, s. */
function stayedS({ history }: FilmState, role: Role): number {
  const other = history.findLastIndex((c) => c.role !== role && c.role !== 'water');
  return history.slice(other + 1).reduce((n, c) => n + (c.role === role ? c.seconds : 0), 0);
}

/** What an earlier stay in a bath has done of its full time, s; of a bleach or fixer that had its time: nothing, it begins anew. */
export function hadS(film: FilmState, role: Role, fullS: number): number {
  if (role === 'developer') return film.developedS;
  const stayed = role === 'bleach' || role === 'fixer' ? stayedS(film, role) : 0;
  return stayed < wholeShare.developer * fullS ? stayed : 0;
}

/** Bleach or fixer has been on the film for long enough. */
const hasCleared = (film: FilmState, { role, seconds, wantedS = 0 }: Contact): boolean =>
  stayedS(film, role) + seconds >= Math.max(takesS.working, wholeShare.clearing * wantedS);

/** Water this long carries off what clings, s. */
export const washedAfterS = (carry: FilmState['carry']): number =>
  carry === 'developer' ? takesS.washingDeveloper : takesS.washing;

/** The film after one more contact. Pure; a contact of 0 s changes only what the film carries. */
export function expose(film: FilmState, contact: Contact): FilmState {
  const { role, seconds } = contact;
  const wet: FilmState = {
    ...film,
    history: film.loaded ? kept(film.history, contact) : film.history,
    ...(role === 'water'
      ? {
          // a splash of water does not wash off what clings
          carry: film.washS + seconds >= washedAfterS(film.carry) ? null : film.carry,
          washS: film.washS + seconds,
          washFills: film.washFills + 1,
        }
      : { carry: role, washS: 0, washFills: 0, finished: false }),
  };
  return film.loaded ? { ...wet, ...worksOn[role](film, contact) } : wet;
}

/** What each liquid changes in a film, beside that it clings to it. */
const worksOn: Readonly<Record<Role, (film: FilmState, contact: Contact) => Partial<FilmState>>> = {
  water: ({ backing }, { seconds, black }) =>
    backing === 'softened' && seconds >= takesS.rinsingBacking && !black ? { backing: 'off' } : {},
  'backing-remover': ({ backing }, { seconds }) =>
    backing === 'on' && seconds >= takesS.softening ? { backing: 'softened' } : {},
  developer: (film, contact) => develop(film, contact),
  stop: (film) => endDevelopment(film),
  bleach: (film, contact) => ({ ...endDevelopment(film), ...bleach(film, contact) }),
  fixer: (film, contact) => ({ ...endDevelopment(film), ...fix(film, contact) }),
  // over fixer that was never washed out it finishes nothing
  rinse: (film) => ({
    finished: film.image === 'developed' && !film.halide && isCleared(film) && film.carry !== 'fixer',
  }),
};

/** Nothing of the process is left to do but rinse: no silver in a dye picture. */
const isCleared = (film: FilmState): boolean => film.kind.image === 'silver' || film.bleached;

/** Acid, bleach or fixer end a development that was cut short: what is there is the picture. */
const endDevelopment = (film: FilmState): Partial<FilmState> =>
  film.image === 'part-developed' ? { image: 'developed' } : {};

function develop(film: FilmState, { seconds, effectiveS, wantedS }: Contact): Partial<FilmState> {
  if (seconds <= 0 || film.image === 'lost' || !film.halide) return {};
  // bleached silver is halide again: it all develops, over the whole picture
  if (film.bleached) return { image: 'lost' };
  const developedS = film.developedS + (effectiveS ?? seconds);
  if (developedS < takesS.working) return { developedS };
  const whole =
    wantedS === undefined || developedS >= wholeShare.developer * wantedS || film.image === 'developed';
  return { developedS, image: whole ? 'developed' : 'part-developed', silver: true };
}

function bleach(film: FilmState, contact: Contact): Partial<FilmState> {
  if (contact.seconds <= 0) return {};
  const pictureThere = film.image === 'developed' || film.image === 'part-developed';
  if (!pictureThere || film.kind.image === 'silver') return { image: 'lost' };
  return film.silver && hasCleared(film, contact) ? { silver: false, halide: true, bleached: true } : {};
}

function fix(film: FilmState, contact: Contact): Partial<FilmState> {
  if (contact.seconds <= 0) return {};
  if (film.image === 'latent') return { image: 'lost', halide: false };
  return hasCleared(film, contact) ? { halide: false } : {};
}

/** Where the film stands, as the step guard's table names it. */
export type FilmStage =
  | 'no-film'
  | 'backed'
  | 'softened'
  | 'cleared'
  /** in the developer for less than the process wants */
  | 'part-developed'
  | 'developed'
  /** fixed before it was bleached: the silver is still in a dye picture */
  | 'silver-kept'
  | 'bleached'
  | 'fixed'
  | 'finished'
  | 'lost';

export function stageOf(film: FilmState): FilmStage {
  if (!film.loaded) return 'no-film';
  if (film.image === 'lost') return 'lost';
  if (film.finished) return 'finished';
  if (film.image === 'latent')
    return film.backing === 'on' ? 'backed' : film.backing === 'softened' ? 'softened' : 'cleared';
  if (film.image === 'part-developed') return 'part-developed';
  if (film.halide) return film.bleached ? 'bleached' : 'developed';
  return film.silver && film.kind.image === 'dye' ? 'silver-kept' : 'fixed';
}
