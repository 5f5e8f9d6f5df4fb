import { water } from './calorimetry.js';

export type Blend =
  | { ok: true; hotMl: number; coldMl: number; hotShare: number }
  | { ok: false; why: 'too-warm' | 'too-cold' | 'taps-alike' };

/**
 * Hot and cold water for `volumeMl` at `aimC`. Volumes in ml as measured at each tap's own temperature.
 * Fails when the aim lies outside the two taps, or when they are within half a degree of each other.
 */
export function blend(aimC: number, volumeMl: number, hotC: number, coldC: number): Blend {
  if (Math.abs(hotC - coldC) < 0.5) return { ok: false, why: 'taps-alike' };
  if (aimC > Math.max(hotC, coldC)) return { ok: false, why: 'too-warm' };
  if (aimC < Math.min(hotC, coldC)) return { ok: false, why: 'too-cold' };
  const hot = water(1, hotC).capacityJPerK;
  const cold = water(1, coldC).capacityJPerK;
  const share = (cold * (aimC - coldC)) / (hot * (hotC - aimC) + cold * (aimC - coldC));
  return { ok: true, hotMl: share * volumeMl, coldMl: (1 - share) * volumeMl, hotShare: share };
}
