import type { Placement } from '../bottle.js';
import type { BottleMaterial } from '../materials.js';
import { fitBelief, type Observation } from './fit.js';
import { follow, parameterCount, roomC, tempOf, tubC } from './model.js';

/** The vessel keys that a reading may name besides the vessels themselves. */
export const tubKey = 'tub';
export const roomKey = 'room';

export interface BenchVessel {
  key: string;
  placement: Placement;
  volumeMl: number;
  material: BottleMaterial;
  /** heat capacity over that of the tub's water */
  heatRatio: number;
  /** ln k learnt where it stood before, so that a vessel put back is not learnt anew */
  elsewhere: { placement: Placement; mean: number; variance: number } | null;
  readings: number;
  lastReadMs: number | null;
}

export interface BenchReading {
  key: string;
  tempC: number;
  atMs: number;
  /** standard deviation of the thermometer, °C */
  sdC: number;
}

/** A normal distribution over the parameters of `model.ts`; `covariance` row by row. */
export interface Belief {
  mean: number[];
  covariance: number[];
}

/**
 * What is known of the bench, as plain data. `before` is the belief at `anchorMs` from all that happened up to
 * then; `after` adds the readings since. Whatever changes the equations (a bottle moved, the heater switched)
 * moves the anchor to that moment, so that between anchor and now the equations stay the same.
 */
export interface BenchEstimate {
  anchorMs: number;
  heaterOn: boolean;
  tubWaterMl: number;
  setC: number;
  tubReadings: number;
  vessels: BenchVessel[];
  before: Belief;
  readings: BenchReading[];
  after: Belief;
}

/** Readings since the anchor beyond this, or an anchor older than `maxSpanMs`, are folded into the belief. */
const maxReadings = 40;
const maxSpanMs = 90 * 60_000;

/** Takes a reading of `tub`, `room` or a vessel and fits the whole bench anew. */
export function takeReading(estimate: BenchEstimate, reading: BenchReading): BenchEstimate {
  const old =
    estimate.readings.length >= maxReadings || reading.atMs - estimate.anchorMs > maxSpanMs
      ? advance(estimate, reading.atMs)
      : estimate;
  // read again within the minute, and quite another figure: the later one counts
  const again = (r: BenchReading) =>
    r.key === reading.key &&
    reading.atMs - r.atMs < 60_000 &&
    Math.abs(r.tempC - reading.tempC) > 4 * reading.sdC;
  const kept = old.readings.filter((r) => !again(r));
  const readings = [...kept, { ...reading, atMs: Math.max(reading.atMs, old.anchorMs) }];
  const vessels = old.vessels.map((v) =>
    v.key === reading.key ? { ...v, readings: v.readings + 1, lastReadMs: reading.atMs } : v,
  );
  const tubReadings = old.tubReadings + (reading.key === tubKey ? 1 : 0);
  return refit({ ...old, readings, vessels, tubReadings });
}

/** The belief given all readings since the anchor. */
export function refit(estimate: BenchEstimate): BenchEstimate {
  const observations = estimate.readings
    .map(
      (r): Observation => ({
        row: rowOf(estimate, r.key),
        timeS: (r.atMs - estimate.anchorMs) / 1000,
        tempC: r.tempC,
        sdC: Math.hypot(r.sdC, modelSdC),
      }),
    )
    .filter((o) => o.row !== null)
    .sort((a, b) => a.timeS - b.timeS);
  return { ...estimate, after: fitBelief(estimate, estimate.before, observations, estimate.after.mean) };
}

/** Row of a key in the state: 0 the tub, then the vessels; `room` is the room; null when unknown. */
export function rowOf(estimate: BenchEstimate, key: string): number | 'room' | null {
  if (key === tubKey) return 0;
  if (key === roomKey) return 'room';
  const index = estimate.vessels.findIndex((v) => v.key === key);
  return index < 0 ? null : index + 1;
}

/** What the equations leave out (stirring, lids, draughts) widens a temperature by so much an hour, °C. */
const driftSdCPerHour = 0.15;

/** Moves the anchor to `atMs`: temperatures are those of then, readings are folded in. */
export function advance(estimate: BenchEstimate, atMs: number): BenchEstimate {
  const seconds = Math.max(0, (atMs - estimate.anchorMs) / 1000);
  const n = estimate.vessels.length;
  const p = parameterCount(n);
  const mean = [...estimate.after.mean];
  const jacobian = Array.from({ length: p }, (_, r) => {
    const row = new Array<number>(p).fill(0);
    row[r] = 1;
    return row;
  });
  follow(estimate, estimate.after.mean, [seconds], true, (_, state, sens) => {
    for (let i = 0; i <= n; i++) {
      const parameter = i === 0 ? tubC : tempOf(i - 1);
      mean[parameter] = state[i] ?? 0;
      jacobian[parameter] = Array.from(sens.subarray(i * p, (i + 1) * p));
    }
  });
  const covariance = carried(jacobian, estimate.after.covariance, p);
  const drift = driftSdCPerHour ** 2 * (seconds / 3600);
  for (const parameter of [tubC, ...estimate.vessels.map((_, i) => tempOf(i))]) {
    const d = parameter * p + parameter;
    covariance[d] = (covariance[d] ?? 0) + drift;
  }
  const belief = { mean, covariance };
  return { ...estimate, anchorMs: atMs, before: belief, readings: [], after: belief };
}

/** J Σ Jᵀ, kept symmetric. */
function carried(jacobian: number[][], covariance: readonly number[], p: number): number[] {
  const left = jacobian.map((row) =>
    Array.from({ length: p }, (_, c) => {
      let s = 0;
      for (let k = 0; k < p; k++) s += (row[k] ?? 0) * (covariance[k * p + c] ?? 0);
      return s;
    }),
  );
  const out = new Array<number>(p * p).fill(0);
  for (let r = 0; r < p; r++) {
    for (let c = r; c < p; c++) {
      let s = 0;
      const row = jacobian[c];
      for (let k = 0; k < p; k++) s += (left[r]?.[k] ?? 0) * (row?.[k] ?? 0);
      out[r * p + c] = s;
      out[c * p + r] = s;
    }
  }
  return out;
}

/** Mean and standard deviation of one parameter. */
export function parameterOf(belief: Belief, parameter: number): { mean: number; sd: number } {
  const p = belief.mean.length;
  return {
    mean: belief.mean[parameter] ?? 0,
    sd: Math.sqrt(Math.max(0, belief.covariance[parameter * p + parameter] ?? 0)),
  };
}

/** Temperature of tub (or room, or a vessel) at `atMs` ≥ the anchor, with its standard deviation; null: unknown key. */
export function temperatureAt(
  estimate: BenchEstimate,
  key: string,
  atMs: number,
): { tempC: number; sdC: number } | null {
  const row = rowOf(estimate, key);
  if (row === null) return null;
  if (row === 'room') {
    const room = parameterOf(estimate.after, roomC);
    return { tempC: room.mean, sdC: room.sd };
  }
  const p = parameterCount(estimate.vessels.length);
  const seconds = Math.max(0, (atMs - estimate.anchorMs) / 1000);
  let tempC = 0;
  let variance = 0;
  follow(estimate, estimate.after.mean, [seconds], true, (_, state, sens) => {
    tempC = state[row] ?? 0;
    variance = quadratic(sens, row * p, sens, row * p, estimate.after.covariance, p);
  });
  return { tempC, sdC: Math.sqrt(Math.max(0, variance) + modelSdC ** 2) };
}

/** What one reading differs from the best curve by even with a perfect thermometer (uneven bottles), °C. */
export const modelSdC = 0.05;

/** aᵀ Σ a for a row of length p inside a larger array; Σ is symmetric, so that one half of it is enough. */
export function variance(a: Float64Array, from: number, covariance: Float64Array, p: number): number {
  let total = 0;
  for (let r = 0; r < p; r++) {
    const left = a[from + r] as number;
    if (left === 0) continue;
    let s = 0;
    for (let c = r + 1; c < p; c++) s += (covariance[r * p + c] as number) * (a[from + c] as number);
    total += left * (2 * s + (covariance[r * p + r] as number) * left);
  }
  return total;
}

/** aᵀ Σ b for rows of length p inside larger arrays. */
export function quadratic(
  a: ArrayLike<number>,
  aFrom: number,
  b: ArrayLike<number>,
  bFrom: number,
  covariance: readonly number[],
  p: number,
): number {
  let total = 0;
  for (let r = 0; r < p; r++) {
    const left = a[aFrom + r] ?? 0;
    if (left === 0) continue;
    let s = 0;
    for (let c = 0; c < p; c++) s += (covariance[r * p + c] ?? 0) * (b[bFrom + c] ?? 0);
    total += left * s;
  }
  return total;
}
