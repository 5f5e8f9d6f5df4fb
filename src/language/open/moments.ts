import type { Moment, Situation } from '../../process/desk.js';
import type { Moments } from '../records.js';

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

/** So many sentences as in all moments alike stand beside those that were counted. */
const SMOOTHING = 6;
const MOST = 2.5;

/** What a moment adds to the log probability of each command: how much oftener than others it is said there. */
export function evidence(moments: Moments): (id: string, moment: string) => number {
  const all = new Map<string, number>();
  for (const counts of moments.values())
    for (const [moment, n] of counts) all.set(moment, (all.get(moment) ?? 0) + n);
  const whole = [...all.values()].reduce((s, n) => s + n, 0);
  return (id, moment) => {
    const share = (all.get(moment) ?? 0) / whole;
    const counts = moments.get(id);
    if (!counts || !share) return 0;
    const said = [...counts.values()].reduce((s, n) => s + n, 0);
    const here = ((counts.get(moment) ?? 0) + SMOOTHING * share) / (said + SMOOTHING);
    return Math.max(-MOST, Math.min(MOST, Math.log(here / share)));
  };
}
