import type { Situation } from '../../process/desk.js';

/** The film is in the process. */
export const FILM_IN_PROCESS: readonly Situation[] = ['loading', 'pouring', 'immersed', 'draining'];
/** … or hangs, wet. */
export const FILM_AT_STAKE: readonly Situation[] = [...FILM_IN_PROCESS, 'hanging'];
/** Hands are at the film and its baths, or an answer is awaited. */
export const MOVING: ReadonlySet<Situation> = new Set<Situation>(['challenged', ...FILM_IN_PROCESS]);
