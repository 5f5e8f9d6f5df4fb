import { type Aim, isWithin } from '../../src/thermal/aim.js';
import { type BenchEstimate, takeReading } from '../../src/thermal/bench/estimate.js';
import { curveOf, forecast, readiness } from '../../src/thermal/bench/forecast.js';
import { openBench, putVessel } from '../../src/thermal/bench/setup.js';
import { priorTauS } from '../../src/thermal/bottle.js';
import type { BottleMaterial } from '../../src/thermal/materials.js';
import { aimWithin } from './aims.js';

/**
 * Synthetic benches with known truth. The truth is integrated apart from the code under test: one-second Euler
 * steps, a proportional controller instead of a hard limit, heat capacities from round numbers. Constants are
 * drawn wider and flatter than the model's priors assume.
 */
export interface Truth {
  /** temperature of tub ([0]) and vessels at whole seconds */
  curves: Float64Array[];
  aims: Aim[];
  /** second at which vessel i comes within its aim for the first time; null: not in four hours */
  readyS: (number | null)[];
  vessels: { key: string; volumeMl: number; material: BottleMaterial }[];
  told: { setC: number; waterMl?: number; heaterW?: number };
}

export const normal = (random: () => number): number =>
  Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());

const between = (random: () => number, low: number, high: number): number => low + (high - low) * random();
const pick = <T>(random: () => number, from: readonly T[]): T =>
  from[Math.floor(random() * from.length)] as T;

const horizonS = 4 * 3600;

export function drawTruth(random: () => number): Truth {
  const waterMl = between(random, 7000, 15000);
  const heaterW = between(random, 500, 1300);
  const roomC = between(random, 17, 26);
  const setC = 41.1 + between(random, 0, 0.8);
  const holdC = setC + 0.25 * normal(random);
  const lossWPerK = (waterMl / 10000) ** (2 / 3) * between(random, 4, 13);
  const count = 3 + Math.floor(random() * 4);
  const vessels = Array.from({ length: count }, (_, i) => ({
    key: `bottle-${i + 1}`,
    volumeMl: pick(random, [500, 600, 1000, 1000, 2000]),
    material: pick(random, ['glass', 'plastic'] as const),
  }));
  const tau = vessels.map(
    (v) => priorTauS(v.volumeMl, v.material, 'tub') * Math.exp(between(random, -0.6, 0.6)),
  );
  const start = vessels.map(() => between(random, 15, 34));
  const aims = vessels.map(
    (_, i): Aim =>
      i === 0 ? aimWithin(41.1, 0.3) : aimWithin(pick(random, [38, 40, 41]), pick(random, [1, 1.5, 2])),
  );
  const curves = Array.from({ length: count + 1 }, () => new Float64Array(horizonS + 1));
  // most fill the tub from the hot tap, some heat it from cold
  let tub = random() < 0.7 ? between(random, 33, 43) : between(random, 16, 33);
  const temps = [...start];
  const tubCapacity = waterMl * 4.16;
  for (let s = 0; s <= horizonS; s++) {
    curves.forEach((c, i) => {
      c[s] = i === 0 ? tub : (temps[i - 1] ?? 0);
    });
    const power = heaterW * Math.min(1, Math.max(0, (holdC + 0.15 - tub) / 0.3));
    let watts = power - lossWPerK * (tub - roomC);
    vessels.forEach((v, i) => {
      const capacity = v.volumeMl * (v.material === 'glass' ? 4.5 : 4.25);
      const flow = (capacity / (tau[i] ?? 1)) * (tub - (temps[i] ?? 0));
      watts -= flow;
      temps[i] = (temps[i] ?? 0) + flow / capacity;
    });
    tub += watts / tubCapacity;
  }
  const readyS = aims.map((aim, i) => firstWithin(curves[i + 1] as Float64Array, aim));
  const told = random() < 0.5 ? { setC, waterMl, heaterW } : { setC };
  return { curves, aims, readyS, vessels, told };
}

function firstWithin(curve: Float64Array, aim: Aim): number | null {
  const at = curve.findIndex((t) => isWithin(aim, t));
  return at < 0 ? null : at;
}

/** One forecast of one vessel against the truth. */
export interface Outcome {
  bench: number;
  tubStartC: number;
  vessel: number;
  errorS: number | null;
  inBand: boolean;
  bandS: number;
}

export interface Thermometer {
  name: string;
  read(random: () => number, tempC: number): number;
  sdC: number;
}

export const thermometers: Record<'uniform' | 'normal', Thermometer> = {
  uniform: {
    name: 'error even within ±0.2 °C',
    read: (random, t) => t + between(random, -0.2, 0.2),
    sdC: 0.2 / Math.sqrt(3),
  },
  normal: { name: 'normal error, sd 0.2 °C', read: (random, t) => t + 0.2 * normal(random), sdC: 0.2 },
};

/** The bench as the program sees it after `rounds` rounds of readings of everything, `everyS` apart. */
export function observe(
  truth: Truth,
  random: () => number,
  rounds: number,
  everyS: number,
  thermometer: Thermometer,
): { estimate: BenchEstimate; atS: number } {
  let bench = openBench({ ...truth.told, setPointSeen: true, heaterOn: true }, 0);
  for (const v of truth.vessels) bench = putVessel(bench, { ...v, placement: 'tub' }, 0);
  let atS = 0;
  for (let round = 0; round < rounds; round++) {
    atS = round * everyS;
    ['tub', ...truth.vessels.map((v) => v.key)].forEach((key, row) => {
      const tempC = thermometer.read(random, truth.curves[row]?.[atS] ?? 0);
      bench = takeReading(bench, { key, tempC, atMs: atS * 1000, sdC: thermometer.sdC });
    });
  }
  return { estimate: bench, atS };
}

/** Forecasts of all vessels not yet ready. */
export function score(bench: number, truth: Truth, estimate: BenchEstimate, atS: number): Outcome[] {
  const f = forecast(estimate, atS * 1000);
  return truth.vessels.flatMap((v, i): Outcome[] => {
    const ready = truth.readyS[i] ?? null;
    const aim = truth.aims[i];
    const curve = curveOf(f, v.key);
    if (!aim || !curve || (ready !== null && ready <= atS)) return [];
    const trueS = ready === null ? null : ready - atS;
    const told = readiness(f, curve, aim);
    const [point, low, high] =
      told.state === 'in'
        ? [0, 0, told.sureInMs]
        : told.state === 'coming'
          ? [told.inMs, told.earliestMs, told.latestMs]
          : [null, null, null];
    const inBand =
      trueS === null
        ? high === null
        : low !== null && trueS * 1000 >= low && (high === null || trueS * 1000 <= high);
    return [
      {
        bench,
        tubStartC: truth.curves[0]?.[0] ?? 0,
        vessel: i,
        errorS: trueS === null || point === null ? null : point / 1000 - trueS,
        inBand,
        bandS: ((high ?? Number.POSITIVE_INFINITY) - (low ?? 0)) / 1000,
      },
    ];
  });
}

export const quantile = (values: readonly number[], q: number): number => {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(q * sorted.length))] ?? Number.NaN;
};
