import {
  type Compensation,
  compensation,
  developmentShift,
  effectiveSeconds,
  speedAt,
} from '../thermal/rate.js';
import { type RateId, rateLaws } from '../thermal/rate-data.js';

/** What a process sheet asks, °C. */
export interface TempAim {
  aimC: number;
  minC: number;
  maxC: number;
}

/** What a household or darkroom thermometer can be out by, °C. Source: common practice. */
export const thermometerErrorC = 0.3;

/**
 * How a reading stands to the sheet. `near`: outside the sheet's tolerance by less than the thermometer itself can be
 * out, so that nobody can say that it is off.
 */
export type TempState = 'in' | 'near' | 'cold' | 'hot';

/** The one verdict on a reading, wherever it is spoken of. */
export function tempState(aim: TempAim, tempC: number, errorC = thermometerErrorC): TempState {
  const tiny = 1e-9;
  if (tempC >= aim.minC - tiny && tempC <= aim.maxC + tiny) return 'in';
  const outC = tempC < aim.minC ? aim.minC - tempC : tempC - aim.maxC;
  if (outC <= errorC + tiny) return 'near';
  return tempC < aim.minC ? 'cold' : 'hot';
}

/** How much more (+) or less (−) development a bath off its aim gives in the planned time; null: no law is known. */
export const developmentEffect = (rate: RateId | undefined, aimC: number, tempC: number): number | null =>
  rate === undefined ? null : developmentShift(rateLaws[rate], aimC, tempC);

/** Speed of development at `tempC`, 1 at the aim; 1 when no law is known. */
export const speedOf = (rate: RateId | undefined, aimC: number, tempC: number): number =>
  rate === undefined ? 1 : speedAt(rateLaws[rate], tempC, aimC);

/**
 * Seconds at the aim that develop as far as a bath did between two moments, from its readings in order: straight lines
 * between them, level before the first and after the last. With no reading or no law, the seconds themselves.
 */
export function atAimS(
  rate: RateId | undefined,
  aimC: number,
  readings: readonly { tempC: number; atMs: number }[],
  fromMs: number,
  toMs: number,
): number {
  const [first] = readings;
  if (rate === undefined || !first) return Math.max(0, toMs - fromMs) / 1000;
  const last = readings.findLast((r) => r.atMs <= toMs) ?? first;
  const between = readings.filter((r) => r.atMs > fromMs && r.atMs < toMs);
  const law = rateLaws[rate];
  const points = [{ ...first, atMs: fromMs }, ...between, { ...last, atMs: toMs }].map(({ tempC, atMs }) => ({
    tempC,
    atS: atMs / 1000,
  }));
  return effectiveSeconds(law, points) * speedAt(law, law.referenceC, aimC);
}

export type TimeAtTemp = Compensation | { offer: 'no'; why: 'no-law' };

/** A developing time for `tempC` in place of `plannedS` at the aim; offered only where a published table has one. */
export function timeAt(rate: RateId | undefined, plannedS: number, aim: TempAim, tempC: number): TimeAtTemp {
  const state = tempState(aim, tempC);
  if (state === 'in') return { offer: 'none-needed' };
  const limits = { aimC: aim.aimC, lowC: aim.minC, highC: aim.maxC };
  const answer: TimeAtTemp =
    rate === undefined
      ? { offer: 'no', why: 'no-law' }
      : compensation(rateLaws[rate], plannedS, limits, tempC);
  // what a thermometer cannot tell from the aim is no other temperature
  return state === 'near' && answer.offer === 'no' ? { offer: 'none-needed' } : answer;
}
