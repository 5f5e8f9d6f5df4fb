import { epsilonTables, ionSizeTerm } from './activity.js';
import type { Totals } from './solver.js';
import {
  type AcidSystem,
  acidSystems,
  type Dissociation,
  type IonId,
  ionCharges,
  triborateLogK,
  waterDissociation,
} from './species.js';

/**
 * Arrays for one solution: species in a fixed order (H+, OH−, ions, then each system from base to acid; triborate
 * after borate), so that the solver's inner loop touches numbers only.
 */
export interface Layout {
  names: string[];
  charges: Float64Array;
  /** ion size terms of the activity model */
  sizes: Float64Array;
  systems: { system: AcidSystem; first: number; total: number; triborate: number | null }[];
  ions: { index: number; total: number }[];
  /** indices of two species and their ε, kg/mol */
  pairs: [number, number, number][];
  termsAt(tempC: number): TemperatureTerms;
}

/** Thermodynamic constants at a temperature: water, then log10 β of each system's species. */
export interface TemperatureTerms {
  logKw: number;
  logBeta: Float64Array[];
}

const gasR = 8.314462618;
const t0 = 298.15;

/** pK at a temperature by van 't Hoff with constant heat capacity change. °C. */
export function pkAt(d: Dissociation, tempC: number): number {
  const t = tempC + 273.15;
  const lnShift =
    (-(d.dH * 1000) / gasR) * (1 / t - 1 / t0) + (d.dCp / gasR) * (t0 / t - 1 + Math.log(t / t0));
  return d.pK - lnShift / Math.LN10;
}

export function layoutFor(totals: Totals): Layout {
  const names = ['H+', 'OH-'];
  const charges = [1, -1];
  const ions: Layout['ions'] = [];
  const systems: Layout['systems'] = [];
  for (const [id, z] of Object.entries(ionCharges)) {
    const total = totals[id as IonId] ?? 0;
    if (total <= 0) continue;
    ions.push({ index: names.length, total });
    names.push(id);
    charges.push(z);
  }
  for (const system of acidSystems) {
    const total = totals[system.id] ?? 0;
    if (total <= 0) continue;
    const first = names.length;
    system.species.forEach((name, protons) => {
      names.push(name);
      charges.push(system.baseCharge + protons);
    });
    let triborate: number | null = null;
    if (system.id === 'borate') {
      triborate = names.length;
      names.push('B3O3(OH)4-');
      charges.push(-1);
    }
    systems.push({ system, first, total, triborate });
  }
  return {
    names,
    charges: Float64Array.from(charges),
    sizes: Float64Array.from(names, ionSizeTerm),
    systems,
    ions,
    pairs: pairsOf(names),
    termsAt: (tempC) => ({
      logKw: -pkAt(waterDissociation, tempC),
      logBeta: systems.map(({ system }) => {
        const beta = new Float64Array(system.species.length);
        system.steps.forEach((d, i) => {
          beta[i + 1] = (beta[i] as number) + pkAt(d, tempC);
        });
        return beta;
      }),
    }),
  };
}

function pairsOf(names: string[]): [number, number, number][] {
  const out: [number, number, number][] = [];
  for (const table of epsilonTables) {
    const i = names.indexOf(table.cation);
    if (i < 0) continue;
    names.forEach((name, j) => {
      const e = table.pairs[name];
      if (e !== undefined && e !== 0) out.push([i, j, e]);
    });
  }
  return out;
}

export const chargeOfSpecies = (layout: Layout, i: number): number => layout.charges[i] as number;

/**
 * Writes every molality at a pH (activity scale) into `m` and returns the net charge, its slope per pH unit and
 * the sum of |charge| that rounding is measured against. Mass balance holds exactly by construction.
 */
export function fillSpecies(
  layout: Layout,
  terms: TemperatureTerms,
  logG: Float64Array,
  ph: number,
  m: Float64Array,
): { charge: number; slope: number; scale: number } {
  const g = (i: number): number => logG[i] as number;
  const h = 10 ** (-ph - g(0));
  const oh = 10 ** (terms.logKw + ph - g(1));
  m[0] = h;
  m[1] = oh;
  let charge = h - oh;
  let scale = h + oh;
  let slope = -h - oh;
  for (const { index, total } of layout.ions) {
    m[index] = total;
    const z = layout.charges[index] as number;
    charge += z * total;
    scale += Math.abs(z) * total;
  }
  layout.systems.forEach(({ system, first, total, triborate }, s) => {
    const beta = terms.logBeta[s] as Float64Array;
    const n = system.species.length;
    // relative amounts from log space, shifted by the largest so that nothing overflows
    let top = Number.NEGATIVE_INFINITY;
    for (let i = 0; i < n; i++) {
      const l = (beta[i] as number) - i * ph - g(first + i);
      m[first + i] = l;
      if (l > top) top = l;
    }
    let sum = 0;
    for (let i = 0; i < n; i++) {
      const r = 10 ** ((m[first + i] as number) - top);
      m[first + i] = r;
      sum += r;
    }
    const free = triborate === null ? total : freeBoron(first, triborate, total, sum, m, logG);
    let z1 = 0;
    let z2 = 0;
    let held = 0;
    for (let i = 0; i < n; i++) {
      const c = (free * (m[first + i] as number)) / sum;
      m[first + i] = c;
      const z = layout.charges[first + i] as number;
      z1 += z * c;
      z2 += z * z * c;
      held += c;
      scale += Math.abs(z) * c;
    }
    charge += z1;
    slope -= held > 0 ? z2 - (z1 * z1) / held : 0;
    if (triborate !== null) {
      const t = m[triborate] as number;
      charge -= t;
      scale += t;
      slope -= boronSlopeExtra(z1, held, t);
    }
  });
  return { charge, slope: slope * Math.LN10, scale };
}

/**
 * Boron not bound in triborate: the one positive root of free + 3 k free³ = total, by Newton from above, where it
 * converges monotonically. Stores the triborate molality.
 */
function freeBoron(
  first: number,
  tri: number,
  total: number,
  sum: number,
  m: Float64Array,
  logG: Float64Array,
): number {
  const base = (m[first] as number) / sum;
  const acid = (m[first + 1] as number) / sum;
  const logGammas = 2 * (logG[first + 1] as number) + (logG[first] as number) - (logG[tri] as number);
  const k = 10 ** (triborateLogK + logGammas) * base * acid * acid;
  let free = total;
  for (let i = 0; i < 100; i++) {
    const next = free - (free + 3 * k * free ** 3 - total) / (1 + 9 * k * free * free);
    if (!(next < free)) break;
    free = next;
  }
  m[tri] = k * free ** 3;
  return free;
}

/** Exact response of boron's charge to pH beyond that of the monomers alone, per ln(10). */
function boronSlopeExtra(z1: number, held: number, t: number): number {
  // fractions of free boron: base b (charge −1), acid a; total charge −(b f + t), t = K b a² f³
  const b = held > 0 ? -z1 / held : 0;
  const a = 1 - b;
  // with x = ln(10)·pH: b' = a b; ln t = const + ln b + 2 ln a + 3 ln f, so t'/t = a − 2 b + 3 f'/f
  // mass: f' + 3 t' = 0  →  f'/f = −3 (t/f)(a − 2 b)/(1 + 9 t/f)
  const r = held > 0 ? t / held : 0;
  const lnF = (-3 * r * (a - 2 * b)) / (1 + 9 * r);
  const tPrime = t * (a - 2 * b + 3 * lnF);
  return b * held * lnF + tPrime;
}
