import type { PhAim } from './recipes/types.js';

/** What read a pH. */
export type PhBy = 'meter' | 'strip';

/** Indicator strips are read to half a unit of pH. source: common practice */
const STRIP_STEP = 0.5;

/**
 * What a pH, read cool, says of a bath: it is as the recipe wants it; a strip that is near proves no more; it is off; or
 * nobody said what read it, and by a strip it would be near and by a meter off.
 */
export function phSays(wanted: PhAim, ph: number, by?: PhBy): 'good' | 'near' | 'off' | 'unclear' {
  const off = Math.abs(ph - wanted.aim);
  if (off <= wanted.tolerance + 1e-9) return 'good';
  if (off > STRIP_STEP + wanted.tolerance || by === 'meter') return 'off';
  if (by === 'strip') return 'near';
  return Number.isInteger(ph * 2) ? 'unclear' : 'off';
}
