import type { Placement } from '../bottle.js';

/**
 * The bench as a set of first-order equations (temperatures °C, time s):
 *
 *   tub:    dB/dt  = q·u − l·(B − R) − Σ r_i·k_i·(B − T_i)     over the vessels standing in it
 *   vessel: dT_i/dt = k_i·(A − T_i),  A = B in the tub, R in the room's air
 *
 * q: what the heater alone would warm the tub by, K/s; u = 1 until the tub reaches the hold temperature S, then
 * just enough to stay there; l: loss to the room, 1/s; r_i: heat capacity of the vessel over that of the tub's
 * water; k_i = 1/τ_i. Bottle, tub and room temperatures and the four kinds of rate are the parameters:
 *
 *   [ B, S, ln q, ln l, R,  T_0, ln k_0,  T_1, ln k_1, … ]
 */
export const tubC = 0;
export const holdC = 1;
export const logHeat = 2;
export const logLoss = 3;
export const roomC = 4;
export const tempOf = (vessel: number): number => 5 + 2 * vessel;
export const logRateOf = (vessel: number): number => 6 + 2 * vessel;
export const parameterCount = (vessels: number): number => 5 + 2 * vessels;

export interface BenchShape {
  heaterOn: boolean;
  vessels: readonly { placement: Placement; heatRatio: number }[];
}

/**
 * `state` holds the tub and the vessels in order; `sens`, when asked for, its derivative by every parameter, row
 * by row. Both are reused from one visit to the next.
 */
export type Visit = (index: number, state: Float64Array, sens: Float64Array) => void;

/**
 * Longest step of the midpoint rule, s: for the fastest vessels (τ 4 min) the error stays below 0.02 °C. After an
 * hour without a change everything moves slowly, and longer steps do.
 */
const maxStepS = (sinceStartS: number): number => (sinceStartS < 3600 ? 20 : 60);

/** Follows the bench from t = 0 through `timesS` (ascending, ≥ 0) and visits each. Pure. */
export function follow(
  shape: BenchShape,
  parameters: ArrayLike<number>,
  timesS: ArrayLike<number>,
  withSens: boolean,
  visit: Visit,
): void {
  const walk = createWalk(shape, parameters, withSens);
  let nowS = 0;
  for (let i = 0; i < timesS.length; i++) {
    const nextS = timesS[i] ?? nowS;
    const steps = Math.ceil((nextS - nowS) / maxStepS(nowS));
    for (let s = 0; s < steps; s++) walk.step((nextS - nowS) / steps);
    nowS = nextS;
    visit(i, walk.state, walk.sens);
  }
}

interface Walk {
  state: Float64Array;
  sens: Float64Array;
  step(seconds: number): void;
}

function createWalk(shape: BenchShape, parameters: ArrayLike<number>, withSens: boolean): Walk {
  const n = shape.vessels.length;
  const p = parameterCount(n);
  const at = (i: number): number => parameters[i] ?? 0;
  const hold = at(holdC);
  const heat = shape.heaterOn ? Math.exp(at(logHeat)) : 0;
  const loss = Math.exp(at(logLoss));
  const room = at(roomC);
  const rates = Float64Array.from(shape.vessels, (_, i) => Math.exp(at(logRateOf(i))));
  /** pull of vessel i on the tub, 1/s; 0 when it stands elsewhere */
  const pulls = Float64Array.from(shape.vessels, (v, i) =>
    v.placement === 'tub' ? v.heatRatio * (rates[i] ?? 0) : 0,
  );
  const inTub = Uint8Array.from(shape.vessels, (v) => (v.placement === 'tub' ? 1 : 0));
  const tubDamping = loss + pulls.reduce((s, x) => s + x, 0);

  const state = new Float64Array(n + 1);
  const sens = new Float64Array(withSens ? (n + 1) * p : 0);
  const midState = new Float64Array(state.length);
  const midSens = new Float64Array(sens.length);
  const slope = new Float64Array(state.length);
  const sensSlope = new Float64Array(sens.length);

  state[0] = at(tubC);
  for (let i = 0; i < n; i++) state[i + 1] = at(tempOf(i));
  if (withSens) {
    sens[tubC] = 1;
    for (let i = 0; i < n; i++) sens[(i + 1) * p + tempOf(i)] = 1;
  }

  const slopes = (x: Float64Array): void => {
    const tub = x[0] ?? 0;
    let change = (tub <= hold ? heat : 0) - loss * (tub - room);
    for (let i = 0; i < n; i++) {
      const t = x[i + 1] ?? 0;
      change -= (pulls[i] ?? 0) * (tub - t);
      slope[i + 1] = (rates[i] ?? 0) * ((inTub[i] ? tub : room) - t);
    }
    slope[0] = change;
  };

  const sensSlopes = (x: Float64Array, s: Float64Array): void => {
    const tub = x[0] ?? 0;
    for (let c = 0; c < p; c++) {
      let d = -tubDamping * (s[c] ?? 0);
      for (let i = 0; i < n; i++) {
        const row = (i + 1) * p + c;
        const own = s[row] ?? 0;
        d += (pulls[i] ?? 0) * own;
        sensSlope[row] = (rates[i] ?? 0) * ((inTub[i] ? (s[c] ?? 0) : 0) - own);
      }
      sensSlope[c] = d;
    }
    if (tub <= hold) add(sensSlope, logHeat, heat);
    add(sensSlope, logLoss, -loss * (tub - room));
    add(sensSlope, roomC, loss);
    for (let i = 0; i < n; i++) {
      const t = x[i + 1] ?? 0;
      const row = (i + 1) * p;
      add(sensSlope, logRateOf(i), -(pulls[i] ?? 0) * (tub - t));
      add(sensSlope, row + logRateOf(i), (rates[i] ?? 0) * ((inTub[i] ? tub : room) - t));
      if (!inTub[i]) add(sensSlope, row + roomC, rates[i] ?? 0);
    }
  };

  const step = (seconds: number): void => {
    const wasBelow = (state[0] ?? 0) <= hold;
    slopes(state);
    along(state, slope, seconds / 2, midState);
    if (withSens) {
      sensSlopes(state, sens);
      along(sens, sensSlope, seconds / 2, midSens);
    }
    if (wasBelow) throttle(midState, midSens);
    slopes(midState);
    along(state, slope, seconds, state);
    if (withSens) {
      sensSlopes(midState, midSens);
      along(sens, sensSlope, seconds, sens);
    }
    if (wasBelow) throttle(state, sens);
  };

  /** The controller cuts the heater back: the tub does not pass the hold temperature from below. */
  const throttle = (x: Float64Array, s: Float64Array): void => {
    if (!shape.heaterOn || (x[0] ?? 0) <= hold) return;
    x[0] = hold;
    if (!withSens) return;
    s.fill(0, 0, p);
    s[holdC] = 1;
  };

  return { state, sens, step };
}

function add(array: Float64Array, index: number, value: number): void {
  array[index] = (array[index] ?? 0) + value;
}

function along(from: Float64Array, slope: Float64Array, seconds: number, into: Float64Array): void {
  for (let i = 0; i < from.length; i++) into[i] = (from[i] ?? 0) + seconds * (slope[i] ?? 0);
}
