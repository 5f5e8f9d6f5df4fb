import { debyeHuckelSlope, sitLimit } from './activity.js';
import { chargeOfSpecies, fillSpecies, type Layout, layoutFor, type TemperatureTerms } from './layout.js';
import type { TotalId } from './species.js';

/** Totals, mol per kg of water; protons are not counted, they follow from electroneutrality. */
export type Totals = Readonly<Partial<Record<TotalId, number>>>;

export interface Equilibrium {
  /** −log10 of hydrogen ion activity */
  ph: number;
  /** mol/kg */
  ionicStrength: number;
  /** van Slyke buffer capacity, mol of strong base per kg per pH unit */
  bufferCapacity: number;
  /** molality of every species, mol/kg */
  species: Record<string, number>;
  /** log10 of each species' activity coefficient */
  logGamma: Record<string, number>;
  /** activity rounds and charge-balance evaluations used */
  rounds: number;
  evaluations: number;
  /** charge left over, as a fraction of all charge: rounding only */
  netCharge: number;
  /** false above the ionic strength the activity model is good for, and where the activities came to no rest */
  withinModel: boolean;
}

export type SolveResult = { ok: true; value: Equilibrium } | { ok: false; why: string };

export interface SolveOptions {
  /** °C, 0 to 60; 25 when not given */
  tempC?: number;
  /** `ideal` takes every activity coefficient as 1, as textbook exercises do; SIT when not given */
  activity?: 'sit' | 'ideal';
  /** a pH near the answer; only speed depends on it */
  startPh?: number;
}

const phLow = -3;
const phHigh = 17;
const maxRounds = 400;

/**
 * Ionic equilibrium of a mixed solution. The inner problem, charge against pH at fixed activity coefficients, is
 * monotone, so a bracketed Newton search cannot fail; the outer loop renews the coefficients until they rest.
 * Errors: a negative or non-finite total, a temperature outside 0–60 °C.
 */
export function solveEquilibrium(totals: Totals, options: SolveOptions = {}): SolveResult {
  const tempC = options.tempC ?? 25;
  if (!(tempC >= 0 && tempC <= 60)) {
    return { ok: false, why: `The solution model holds from 0 to 60 degrees, not at ${tempC}.` };
  }
  for (const [id, m] of Object.entries(totals)) {
    if (!(m >= 0 && Number.isFinite(m)))
      return { ok: false, why: `The amount of ${id} is ${m}; it must be zero or more.` };
  }
  return { ok: true, value: iterate(layoutFor(totals), tempC, options) };
}

function iterate(layout: Layout, tempC: number, options: SolveOptions): Equilibrium {
  const terms = layout.termsAt(tempC);
  const n = layout.names.length;
  const logG = new Float64Array(n);
  const previous = new Float64Array(n);
  const m = new Float64Array(n);
  const slope = debyeHuckelSlope(tempC);
  let ph = options.startPh ?? 7;
  let evaluations = 0;
  let lastChange = Number.POSITIVE_INFINITY;
  let damping = 1;
  let rested = false;
  let rounds = 0;
  for (; rounds < maxRounds; rounds++) {
    const found = balancePh(layout, terms, logG, m, ph);
    ph = found.ph;
    evaluations += found.evaluations;
    previous.set(logG);
    if (options.activity === 'ideal') {
      rested = true;
      break;
    }
    activity(layout, m, slope, logG);
    let change = 0;
    for (let i = 0; i < n; i++) change = Math.max(change, Math.abs(at(logG, i) - at(previous, i)));
    rested = change < 1e-11;
    if (rested) break;
    // a fixed-point step that does not shrink is halved: strong electrolytes make the plain step overshoot
    if (change > 0.7 * lastChange) damping = Math.max(0.05, damping * 0.6);
    lastChange = change;
    if (damping < 1)
      for (let i = 0; i < n; i++) logG[i] = at(previous, i) + damping * (at(logG, i) - at(previous, i));
  }
  logG.set(previous);
  return report(layout, terms, logG, m, ph, rounds, evaluations, rested);
}

/** Newton on charge, kept inside a bracket that bisection halves whenever Newton would leave it or stall. */
function balancePh(
  layout: Layout,
  terms: TemperatureTerms,
  logG: Float64Array,
  m: Float64Array,
  start: number,
) {
  let low = phLow;
  let high = phHigh;
  let ph = Math.min(high, Math.max(low, start));
  let evaluations = 0;
  for (; evaluations < 200; ) {
    const { charge, slope, scale } = fillSpecies(layout, terms, logG, ph, m);
    evaluations++;
    if (Math.abs(charge) <= 1e-15 * scale) break;
    if (charge > 0) low = ph;
    else high = ph;
    if (high - low < 1e-14 * Math.max(1, Math.abs(ph))) break;
    const newton = ph - charge / slope;
    const next = newton > low && newton < high && slope < 0 ? newton : (low + high) / 2;
    if (Math.abs(next - ph) < 2e-16 * Math.max(1, Math.abs(ph))) break;
    // far from the root Newton creeps along the exponential of H+ or OH−: no step may exceed two units unhalved
    ph = Math.abs(next - ph) > 2 ? (low + high) / 2 : next;
  }
  return { ph, evaluations };
}

function activity(layout: Layout, m: Float64Array, slope: number, out: Float64Array): void {
  let i2 = 0;
  for (let i = 0; i < m.length; i++) i2 += at(m, i) * at(layout.charges, i) ** 2;
  const root = Math.sqrt(i2 / 2);
  for (let i = 0; i < m.length; i++) {
    out[i] = (-(at(layout.charges, i) ** 2) * slope * root) / (1 + at(layout.sizes, i) * root);
  }
  // ε sums are damped beyond the range SIT is measured in, so that absurd mixtures still have an answer
  const strength = i2 / 2;
  const fade = strength > 2 * sitLimit ? (2 * sitLimit) / strength : 1;
  for (const [i, j, e] of layout.pairs) {
    out[i] = at(out, i) + e * at(m, j) * fade;
    out[j] = at(out, j) + e * at(m, i) * fade;
  }
}

function report(
  layout: Layout,
  terms: TemperatureTerms,
  logG: Float64Array,
  m: Float64Array,
  ph: number,
  rounds: number,
  evaluations: number,
  rested: boolean,
): Equilibrium {
  const { slope, charge, scale } = fillSpecies(layout, terms, logG, ph, m);
  const species: Record<string, number> = {};
  const logGamma: Record<string, number> = {};
  let i2 = 0;
  layout.names.forEach((name, i) => {
    species[name] = at(m, i);
    logGamma[name] = at(logG, i);
    i2 += at(m, i) * chargeOfSpecies(layout, i) ** 2;
  });
  return {
    ph,
    ionicStrength: i2 / 2,
    bufferCapacity: -slope,
    species,
    logGamma,
    rounds,
    evaluations,
    netCharge: charge / scale,
    withinModel: rested && i2 / 2 <= sitLimit,
  };
}

const at = (a: Float64Array, i: number): number => a[i] as number;
