import { type Aim, isWithin } from './aim.js';
import type { RateLaw } from './rate-data.js';
import { kelvinOf } from './scales.js';

const gasConstantJPerMolK = 8.314462618; // CODATA 2018, exact

/** Speed of development at `tempC` over that at `referenceC`. */
export const speedAt = (law: Pick<RateLaw, 'q10'>, tempC: number, referenceC: number): number =>
  law.q10 ** ((tempC - referenceC) / 10);

/** Arrhenius: factor of speed for an activation energy in kJ/mol. */
export const arrheniusSpeed = (activationKJPerMol: number, tempC: number, referenceC: number): number =>
  Math.exp(
    ((activationKJPerMol * 1000) / gasConstantJPerMolK) * (1 / kelvinOf(referenceC) - 1 / kelvinOf(tempC)),
  );

/** Activation energy, kJ/mol, that gives `q10` over the ten degrees around `aroundC`. */
export const activationKJPerMol = (q10: number, aroundC: number): number =>
  (gasConstantJPerMolK * Math.log(q10) * kelvinOf(aroundC - 5) * kelvinOf(aroundC + 5)) / 10 / 1000;

export interface TimeAt {
  tempC: number;
  seconds: number;
}

export interface RateFit {
  q10: number;
  /** time the fit gives at the first temperature of the table, s */
  secondsAtFirst: number;
  /** largest and root-mean-square relative misfit of the published times */
  worst: number;
  rms: number;
}

/** Fits times by temperature with one q10, by least squares of the logarithms. At least two temperatures. */
export function fitQ10(table: readonly TimeAt[]): RateFit | null {
  const n = table.length;
  const first = table[0];
  if (!first || n < 2) return null;
  const x = table.map((t) => (t.tempC - first.tempC) / 10);
  const y = table.map((t) => Math.log(t.seconds));
  const mean = (v: number[]): number => v.reduce((s, a) => s + a, 0) / n;
  const mx = mean(x);
  const my = mean(y);
  const sxx = x.reduce((s, a) => s + (a - mx) ** 2, 0);
  if (sxx === 0) return null;
  const slope = x.reduce((s, a, i) => s + (a - mx) * ((y[i] ?? 0) - my), 0) / sxx;
  const intercept = my - slope * mx;
  const misfits = x.map((a, i) => Math.abs(Math.exp(intercept + slope * a - (y[i] ?? 0)) - 1));
  return {
    q10: Math.exp(-slope),
    secondsAtFirst: Math.exp(intercept),
    worst: Math.max(...misfits),
    rms: Math.sqrt(mean(misfits.map((m) => m ** 2))),
  };
}

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
  | { offer: 'time'; seconds: number; source: string }
  /** colour: a time can be named, but it holds for no more than one layer at once */
  | { offer: 'no'; why: 'layers'; shift: number; source: string }
  | { offer: 'no'; why: 'outside-table'; shift: number; low: number; high: number; source: string };

/** A changed time for a developer at `tempC`, where that is honest. */
export function compensation(law: RateLaw, plannedS: number, aim: Aim, tempC: number): Compensation {
  if (isWithin(aim, tempC)) return { offer: 'none-needed' };
  const shift = developmentShift(law, aim.aimC, tempC);
  const { source } = law;
  if (law.colour || !law.honestC) return { offer: 'no', why: 'layers', shift, source };
  const { low, high } = law.honestC;
  if (tempC < low || tempC > high) return { offer: 'no', why: 'outside-table', shift, low, high, source };
  return { offer: 'time', seconds: plannedS / speedAt(law, tempC, aim.aimC), source };
}
