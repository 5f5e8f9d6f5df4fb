import type { Situation } from '../../../process/desk.js';
import { line } from '../names.js';

/**
 * How people type what the grammars say in fewer ways. Nothing here means anything by itself: a pattern only turns
 * a whole line into a sentence that the grammars must know. Tried when the line as it stands means nothing.
 */
export interface Way {
  /** the situations in which it is meant so; everywhere when missing */
  in?: readonly Situation[];
  say: RegExp;
  /** sentences of the grammars; `$1` is what was captured. Two mean that both are possible, and are asked about */
  as: string | readonly string[];
}

export const wet: readonly Situation[] = [
  'pouring',
  'immersed',
  'draining',
  'hanging',
  'challenged',
  'loading',
  'warming',
  'preparing',
];
export const due: readonly Situation[] = ['pouring', 'draining', 'loading', 'challenged'];

export const way = (say: string, as: Way['as'], where?: readonly Situation[]): Way => ({
  say: line(say),
  as,
  ...(where && { in: where }),
});
