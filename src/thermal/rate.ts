import { type Aim, isWithin } from './aim.js';
import type { RateLaw } from './rate-data.js';

/** Speed of development at `tempC` over that at `referenceC`. */
export const speedAt = (law: Pick<RateLaw, 'q10'>, tempC: number, referenceC: number): number =>
  law.q10 ** ((tempC - referenceC) / 10);

export interface TempAt {
  atS: number;
  tempC: number;
}

/**
 * Time at the reference temperature that develops as far as the given history: ∫ speed dt by the trapezium
 * rule. The history ascends in time; before its first and after its last point nothing counts.
 */
export function effectiveSeconds(law: RateLaw, history: readonly TempAt[]): number {
  let total = 0;
  for (let i = 1; i < history.length; i++) {
    const a = history[i - 1];
    const b = history[i];
    if (!a || !b) continue;
    const mean = (speedAt(law, a.tempC, law.referenceC) + speedAt(law, b.tempC, law.referenceC)) / 2;
    total += mean * Math.max(0, b.atS - a.atS);
  }
  return total;
}

/** What developing at `tempC` for the planned time costs: −0.1 is a tenth less development than wanted. */
export const developmentShift = (law: RateLaw, aimC: number, tempC: number): number =>
  speedAt(law, tempC, aimC) - 1;

export type Compensation =
  /** within tolerance: nothing to do */
  | { offer: 'none-needed' }
  | { offer: 'time'; seconds: number }
  /** colour: a time can be named, but it holds for no more than one layer at once */
  | { offer: 'no'; why: 'layers'; shift: number }
  | { offer: 'no'; why: 'outside-table'; shift: number; low: number; high: number };

/** A changed time for a developer at `tempC`, where that is honest. */
export function compensation(law: RateLaw, plannedS: number, aim: Aim, tempC: number): Compensation {
  if (isWithin(aim, tempC)) return { offer: 'none-needed' };
  const shift = developmentShift(law, aim.aimC, tempC);
  if (law.colour || !law.honestC) return { offer: 'no', why: 'layers', shift };
  const { low, high } = law.honestC;
  if (tempC < low || tempC > high) return { offer: 'no', why: 'outside-table', shift, low, high };
  return { offer: 'time', seconds: plannedS / speedAt(law, tempC, aim.aimC) };
}
