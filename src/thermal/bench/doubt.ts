import { celsiusOfFahrenheit } from '../scales.js';
import { type BenchEstimate, modelSdC, roomKey, temperatureAt, tubKey } from './estimate.js';

/** Why a reading should be asked about before it is taken. */
export type Doubt =
  /** no bath of ours can be so warm or cold; `meantC` is what was probably said, when there is a likely slip */
  | { why: 'impossible'; meantC: number | null }
  | { why: 'fahrenheit'; meantC: number }
  /** far from what a room has; `fits` is the vessel it would suit */
  | { why: 'not-a-room'; fits: string | null }
  /** it does not suit this vessel, but it does suit another */
  | { why: 'other-vessel'; expectedC: number; fits: string }
  | { why: 'unexpected'; expectedC: number };

/** Working solutions at home: above ice, and well below what plastic tanks and gelatin stand. */
const liquidC = { low: 0.5, high: 65 };
const roomRangeC = { low: 5, high: 35 };

/** A gap to ask about: so many standard deviations, and at least so many degrees. People add water to tubs. */
const gapSds = 4;
const leastGapC = { vessel: 1.5, tub: 4 };
/** How near another vessel must be for "or was that the …?" */
const nearSds = 2.5;
const leastNearC = 0.8;
/** A vessel whose temperature is itself a guess fits everything, so it is not offered. */
const knownSdC = 1.5;

/** Checks one reading against what is possible and against the bench; null: nothing odd. */
export function doubtReading(
  estimate: BenchEstimate,
  key: string,
  tempC: number,
  atMs: number,
  thermometerSdC: number,
): Doubt | null {
  if (!Number.isFinite(tempC)) return { why: 'impossible', meantC: null };
  const expected = temperatureAt(estimate, key, atMs);
  if (tempC < liquidC.low || tempC > liquidC.high) return slip(tempC, expected?.tempC ?? null);
  if (key === roomKey) {
    if (tempC >= roomRangeC.low && tempC <= roomRangeC.high) return null;
    return { why: 'not-a-room', fits: nearest(estimate, key, tempC, atMs) };
  }
  if (!expected) return null;
  const sd = Math.hypot(expected.sdC, thermometerSdC, modelSdC);
  const gap = Math.abs(tempC - expected.tempC);
  const least = key === tubKey ? leastGapC.tub : leastGapC.vessel;
  if (gap <= Math.max(least, gapSds * sd)) return null;
  const fits = nearest(estimate, key, tempC, atMs);
  return fits
    ? { why: 'other-vessel', expectedC: expected.tempC, fits }
    : { why: 'unexpected', expectedC: expected.tempC };
}

/** What an impossible number may have been: a lost decimal point, or the other scale. */
function slip(tempC: number, expectedC: number | null): Doubt {
  const fahrenheit = celsiusOfFahrenheit(tempC);
  const tenth = tempC / 10;
  const likely = expectedC ?? usualC;
  const asTenth = tempC >= 100 && tenth >= 10 && tenth <= liquidC.high;
  const asFahrenheit = fahrenheit >= 15 && fahrenheit <= liquidC.high;
  if (asFahrenheit && !(asTenth && Math.abs(tenth - likely) < nearTenthC)) {
    return { why: 'fahrenheit', meantC: fahrenheit };
  }
  return { why: 'impossible', meantC: asTenth ? tenth : null };
}

/** "One hundred and six" is Fahrenheit, unless a bath at 10.6 °C is expected. */
const nearTenthC = 4;
const usualC = 38;

const nearest = (estimate: BenchEstimate, key: string, tempC: number, atMs: number): string | null =>
  fitting(estimate, tempC, atMs).find((other) => other !== key) ?? null;

/** What is known to be about so warm, the nearest first. */
export const fitting = (estimate: BenchEstimate, tempC: number, atMs: number): string[] =>
  [tubKey, ...estimate.vessels.map((v) => v.key)]
    .flatMap((key) => {
      const t = temperatureAt(estimate, key, atMs);
      if (!t || t.sdC > knownSdC) return [];
      const gap = Math.abs(tempC - t.tempC);
      return gap <= Math.max(leastNearC, nearSds * t.sdC) ? [{ key, gap }] : [];
    })
    .toSorted((a, b) => a.gap - b.gap)
    .map(({ key }) => key);
