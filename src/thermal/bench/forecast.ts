import { type Aim, isWithin } from '../aim.js';
import { type BenchEstimate, modelSdC, tubKey, variance } from './estimate.js';
import { follow, parameterCount } from './model.js';

/** 5 % and 95 % points of the standard normal distribution. */
const z90 = 1.6449;

export type Readiness =
  /**
   * within tolerance now; `sureInMs` is when that holds with 95 % (0: now; null: not foreseen); `leavesInMs`: see
   * `leaving`; null: stays for as far as is looked
   */
  | { state: 'in'; sureInMs: number | null; leavesInMs: number | null; leaving: 'hot' | 'cold' | null }
  /** will be within tolerance; 90 % band of the time, its far end null when the band never closes */
  | {
      state: 'coming';
      from: 'below' | 'above';
      inMs: number;
      earliestMs: number;
      latestMs: number | null;
    }
  /** not within the horizon; `endC` is where it is then */
  | { state: 'never'; from: 'below' | 'above'; endC: number };

/** One curve of the bench from now on; `tempC` and `sdC` at `Forecast.afterMs`. */
export interface Curve {
  key: string;
  tempC: Float64Array;
  sdC: Float64Array;
}

export interface Forecast {
  atMs: number;
  /** ms from `atMs`: every half minute for an hour, then every two minutes to four hours */
  afterMs: Float64Array;
  /** the tub first, then the vessels in the estimate's order */
  curves: Curve[];
  /** per time, the derivative of every curve by every parameter */
  sensitivities: Float64Array[];
  covariance: readonly number[];
}

const grid = Float64Array.from([
  ...Array.from({ length: 120 }, (_, i) => i * 30_000),
  ...Array.from({ length: 91 }, (_, i) => 3_600_000 + i * 120_000),
]);

/** Follows the bench from `atMs` (≥ the anchor) for four hours. */
export function forecast(estimate: BenchEstimate, atMs: number): Forecast {
  const startS = Math.max(0, (atMs - estimate.anchorMs) / 1000);
  const p = parameterCount(estimate.vessels.length);
  const curves = [tubKey, ...estimate.vessels.map((v) => v.key)].map(
    (key): Curve => ({ key, tempC: new Float64Array(grid.length), sdC: new Float64Array(grid.length) }),
  );
  const sensitivities: Float64Array[] = [];
  const covariance = estimate.after.covariance;
  const spread = Float64Array.from(covariance);
  const times = grid.map((ms) => startS + ms / 1000);
  follow(estimate, estimate.after.mean, times, true, (i, state, sens) => {
    curves.forEach((curve, row) => {
      curve.tempC[i] = state[row] ?? 0;
      curve.sdC[i] = Math.sqrt(Math.max(0, variance(sens, row * p, spread, p)) + modelSdC ** 2);
    });
    sensitivities.push(sens.slice());
  });
  return { atMs, afterMs: grid, curves, sensitivities, covariance };
}

export const curveOf = (f: Forecast, key: string): Curve | undefined => f.curves.find((c) => c.key === key);

/** Temperature now with its 90 % band, °C. */
export function nowOf(curve: Curve): { tempC: number; lowC: number; highC: number; sdC: number } {
  const tempC = curve.tempC[0] ?? 0;
  const sdC = curve.sdC[0] ?? 0;
  return { tempC, lowC: tempC - z90 * sdC, highC: tempC + z90 * sdC, sdC };
}

/**
 * When a vessel is within its aim. The band is read off the curve's own band: the time before which it is ready
 * with probability 5 % is where the upper edge of the 90 % temperature band meets the limit, and so on.
 */
export function readiness(f: Forecast, curve: Curve, aim: Aim): Readiness {
  const { lowC: low, highC: high } = aim;
  const now = curve.tempC[0] ?? 0;
  if (isWithin(aim, now)) {
    const leaves = leaving(f, curve, aim);
    return {
      state: 'in',
      sureInMs: firstInside(f, curve, low, high),
      leavesInMs: leaves?.inMs ?? null,
      leaving: leaves?.way ?? null,
    };
  }
  const below = now < low;
  const limit = below ? low : high;
  const sign = below ? 1 : -1;
  const inMs = firstPast(f, curve, limit, sign, 0, 0);
  if (inMs === null) {
    return { state: 'never', from: below ? 'below' : 'above', endC: curve.tempC.at(-1) ?? now };
  }
  return {
    state: 'coming',
    from: below ? 'below' : 'above',
    inMs,
    earliestMs: firstPast(f, curve, limit, sign, z90, 0) ?? 0,
    latestMs: firstPast(f, curve, limit, sign, -z90, 0),
  };
}

/** A bath counts as leaving only when it is out with 84 %: a curve that grazes its limit is no news. */
const leavingSds = 1;

/** When a bath will have left its limits (84 % sure), and by which; null: not within the horizon. 0: it has. */
export function leaving(f: Forecast, curve: Curve, aim: Aim): { inMs: number; way: 'hot' | 'cold' } | null {
  const hot = firstPast(f, curve, aim.highC, 1, -leavingSds, 0);
  const cold = firstPast(f, curve, aim.lowC, -1, -leavingSds, 0);
  if (hot !== null && (cold === null || hot <= cold)) return { inMs: hot, way: 'hot' };
  return cold === null ? null : { inMs: cold, way: 'cold' };
}

/** First time, ms from now, at which the nearer limit is passed with 95 %; null when it never is. */
function firstInside(f: Forecast, curve: Curve, low: number, high: number): number | null {
  const nearLow = (curve.tempC[0] ?? 0) - low < high - (curve.tempC[0] ?? 0);
  return nearLow ? firstPast(f, curve, low, 1, -z90, 0) : firstPast(f, curve, high, -1, -z90, 0);
}

/**
 * First time, ms from now and not before `fromMs`, at which the curve (moved by `z` standard deviations in the
 * direction of travel) passes `limitC` going up (`sign` 1) or down (−1); null when it does not.
 */
function firstPast(
  f: Forecast,
  curve: Curve,
  limitC: number,
  sign: 1 | -1,
  z: number,
  fromMs: number,
): number | null {
  const gap = (i: number): number => sign * ((curve.tempC[i] ?? 0) - limitC) + z * (curve.sdC[i] ?? 0);
  for (let i = 0; i < f.afterMs.length; i++) {
    const here = f.afterMs[i] ?? 0;
    if (here < fromMs || gap(i) < 0) continue;
    if (i === 0) return 0;
    const before = gap(i - 1);
    const start = f.afterMs[i - 1] ?? 0;
    return before >= 0 ? here : start + ((here - start) * -before) / (gap(i) - before);
  }
  return null;
}
