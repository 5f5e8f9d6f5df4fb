import { CholeskyDecomposition, Matrix } from 'ml-matrix';
import type { Belief } from './estimate.js';
import { type BenchShape, follow, holdC, logHeat, parameterCount, roomC, tubC } from './model.js';

/** One reading: a row of the state (0 the tub) or the room, seconds after the anchor. */
export interface Observation {
  row: number | 'room' | null;
  timeS: number;
  tempC: number;
  sdC: number;
}

/**
 * Maximum a posteriori fit by Gauss–Newton with step halving, and the normal approximation there.
 *
 * Why not plain least squares: after one reading there are more unknowns than readings, and what is known
 * beforehand (a litre bottle takes some ten minutes, the controller is within half a degree) is what makes the
 * first forecast useful. The prior enters as its own squared residuals, so readings take over smoothly. The
 * derivatives come with the solution of the equations, so a fit is a handful of passes over the history.
 */
export function fitBelief(
  shape: BenchShape,
  prior: Belief,
  observations: readonly Observation[],
  guess: readonly number[],
): Belief {
  if (observations.length === 0) return prior;
  const first = descend(shape, prior, observations, guess);
  const plateau = shape.heaterOn ? plateauC(observations) : null;
  if (plateau === null) return first.belief;
  // A controller can be far off what its scale says. When the tub stands still, the same fit with a hold
  // temperature that may lie there competes, at the price that a wider prior costs (2 ln of its widening).
  const loose = loosened(prior, holdC, widening ** 2);
  const start = first.belief.mean.map((t, i) => (i === holdC || i === tubC ? plateau : t));
  const second = descend(shape, loose, observations, start);
  return second.cost + 2 * Math.log(widening) < first.cost ? second.belief : first.belief;
}

const widening = 5;
/** Two tub readings in a row no farther apart than this are a plateau, °C. */
const flatC = 0.6;

/** Mean of the last two tub readings when the tub stands still; null otherwise. */
function plateauC(observations: readonly Observation[]): number | null {
  const [b, a] = observations.filter((o) => o.row === 0).reverse();
  if (!a || !b || b.timeS - a.timeS < 60 || Math.abs(b.tempC - a.tempC) > flatC) return null;
  return (a.tempC + b.tempC) / 2;
}

const maxPasses = 8;

function descend(
  shape: BenchShape,
  prior: Belief,
  observations: readonly Observation[],
  guess: readonly number[],
): { belief: Belief; cost: number } {
  const problem = createProblem(shape, prior, observations);
  let theta = bestStart(problem, prior, observations, guess);
  let cost = problem.cost(theta);
  let covariance = prior.covariance;
  for (let pass = 0; pass < maxPasses; pass++) {
    const { step, spread } = problem.solve(theta);
    covariance = spread;
    let scale = 1;
    let next = theta.map((t, i) => t + (step[i] ?? 0));
    let nextCost = problem.cost(next);
    while (nextCost > cost + 1e-9 && scale > 1 / 64) {
      const shorter = scale / 2;
      scale = shorter;
      next = theta.map((t, i) => t + shorter * (step[i] ?? 0));
      nextCost = problem.cost(next);
    }
    if (nextCost > cost) break;
    const gained = cost - nextCost;
    theta = next;
    cost = nextCost;
    if (gained < 0.01) break;
  }
  return { belief: { mean: theta, covariance }, cost };
}

/**
 * Where the tub is held at its set point a reading says nothing of the heater, so a descent that starts there
 * cannot find a slower heater. A few starts with other heaters, the tub at its first reading, cost little.
 */
function bestStart(
  problem: Problem,
  prior: Belief,
  observations: readonly Observation[],
  guess: readonly number[],
): number[] {
  const p = prior.mean.length;
  const tubRead = observations.find((o) => o.row === 0);
  const heatSd = Math.sqrt(prior.covariance[logHeat * p + logHeat] ?? 0);
  const starts = [[...guess], [...prior.mean]];
  if (tubRead && heatSd > 0.01) {
    for (const shift of [-2, -1, 0, 1, 2]) {
      const start = [...prior.mean];
      start[logHeat] = (start[logHeat] ?? 0) + shift * heatSd;
      const reached = tubRead.tempC - Math.exp(start[logHeat] ?? 0) * tubRead.timeS;
      start[tubC] = Math.max(Math.min(start[tubC] ?? 0, tubRead.tempC), reached);
      starts.push(start);
    }
  }
  let best = starts[0] ?? [];
  let bestCost = Number.POSITIVE_INFINITY;
  for (const start of starts) {
    if (start.length !== p) continue;
    const cost = problem.cost(start);
    if (cost < bestCost) {
      best = start;
      bestCost = cost;
    }
  }
  return best;
}

interface Problem {
  cost(theta: readonly number[]): number;
  solve(theta: readonly number[]): { step: number[]; spread: number[] };
}

function createProblem(shape: BenchShape, prior: Belief, observations: readonly Observation[]): Problem {
  const p = parameterCount(shape.vessels.length);
  const times = observations.map((o) => o.timeS);
  const precision = inverse(square(prior.covariance, p));
  const away = (theta: readonly number[]): Matrix =>
    Matrix.columnVector(theta.map((t, i) => t - (prior.mean[i] ?? 0)));

  return {
    cost(theta) {
      const off = away(theta);
      let cost = off.transpose().mmul(precision).mmul(off).get(0, 0);
      follow(shape, theta, times, false, (i, state) => {
        const o = observations[i];
        if (!o || o.row === null) return;
        const predicted = o.row === 'room' ? theta[roomC] : state[o.row];
        cost += ((o.tempC - (predicted ?? 0)) / o.sdC) ** 2;
      });
      return Number.isFinite(cost) ? cost : Number.POSITIVE_INFINITY;
    },
    solve(theta) {
      const normal = precision.clone();
      const pull = precision.mmul(away(theta)).mul(-1);
      const row = new Float64Array(p);
      follow(shape, theta, times, true, (i, state, sens) => {
        const o = observations[i];
        if (!o || o.row === null) return;
        if (o.row === 'room') {
          row.fill(0);
          row[roomC] = 1;
        } else row.set(sens.subarray(o.row * p, (o.row + 1) * p));
        const predicted = o.row === 'room' ? theta[roomC] : state[o.row];
        const weight = 1 / o.sdC ** 2;
        const residual = o.tempC - (predicted ?? 0);
        for (let r = 0; r < p; r++) {
          const left = (row[r] ?? 0) * weight;
          if (left === 0) continue;
          pull.set(r, 0, pull.get(r, 0) + left * residual);
          for (let c = 0; c < p; c++) normal.set(r, c, normal.get(r, c) + left * (row[c] ?? 0));
        }
      });
      const spread = inverse(normal);
      return { step: spread.mmul(pull).to1DArray(), spread: spread.to1DArray() };
    },
  };
}

const square = (flat: readonly number[], p: number): Matrix => Matrix.from1DArray(p, p, flat as number[]);

/** Inverse of a symmetric positive definite matrix; a whisper on the diagonal keeps exactly known parameters legal. */
function inverse(matrix: Matrix): Matrix {
  const p = matrix.rows;
  const safe = Matrix.add(matrix, matrix.transpose()).mul(0.5);
  for (let i = 0; i < p; i++) safe.set(i, i, safe.get(i, i) * (1 + 1e-10) + 1e-12);
  const out = new CholeskyDecomposition(safe).solve(Matrix.eye(p));
  return out.add(out.transpose()).mul(0.5);
}

/** Adds variance to one parameter. */
function loosened(prior: Belief, parameter: number, times: number): Belief {
  const p = prior.mean.length;
  const d = parameter * p + parameter;
  const covariance = [...prior.covariance];
  covariance[d] = (covariance[d] ?? 0) * times;
  return { mean: prior.mean, covariance };
}
