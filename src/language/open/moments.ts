import type { Moment, Situation } from '../../process/desk.js';

/** Of several open situations the one that says most. */
const TELLING: readonly Situation[] = [
  'mixing',
  'challenged',
  'spill',
  'loading',
  'pouring',
  'immersed',
  'draining',
  'hanging',
  'closing',
  'preparing',
  'warming',
];

/** Where the user is. */
export const placeOf = ({ situations }: Pick<Moment, 'situations'>): string =>
  TELLING.find((s) => situations.includes(s)) ?? 'anytime';

/** A moment's name: where the user is and what is due, e.g. `mixing reading`. */
export function momentName(now: Moment): string {
  const place = placeOf(now);
  const next = now.due[0]?.type;
  return next === undefined ? place : `${place} ${next}`;
}
