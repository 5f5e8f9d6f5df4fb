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

/** A moment's name: where the user is and what is due, e.g. `mixing reading`. */
export function momentName({ situations, due }: Moment): string {
  const place = TELLING.find((s) => situations.includes(s)) ?? 'anytime';
  const next = due[0]?.type;
  return next === undefined ? place : `${place} ${next}`;
}
