import type { Aim } from './aim.js';
import { waterCapacityJPerK } from './water.js';

/** A tub of water. */
export interface Tub {
  waterMl: number;
  /** heat capacity of all that stands in it, J/K */
  loadJPerK: number;
}

/**
 * Heat lost by an open tub, W/K. source: own estimate from Incropera et al. table 1.1 (from memory): about
 * 12 W/(m²·K) through the walls and, with evaporation, 35 W/(m²·K) from the open surface near 40 °C, for a box
 * twice as long as deep. A lid halves it.
 */
export function tubLossWPerK(waterMl: number, lid = false): number {
  const sideM = ((waterMl * 1e-6) / 4) ** (1 / 3);
  const surfaceM2 = 4 * sideM ** 2;
  const wallM2 = 2 * 3 * sideM ** 2 + 2 * sideM ** 2;
  return (12 * wallM2 + 35 * surfaceM2) * (lid ? 0.5 : 1);
}

const capacityJPerK = (tub: Tub, aroundC: number): number =>
  waterCapacityJPerK(tub.waterMl, aroundC) + tub.loadJPerK;

export type HotWater =
  | { ok: true; addMl: number }
  | { ok: false; why: 'not-hot-enough' | 'too-much'; addMl?: number };

/**
 * Hot water to add (tub and load at `fromC`) to be at `toC` at once, ml. `roomMl` is what the tub still takes.
 * The bottles follow only slowly: for the water alone pass a tub with no load.
 */
export function hotWaterToAdd(
  tub: Tub,
  fromC: number,
  toC: number,
  hotC: number,
  roomMl = Number.POSITIVE_INFINITY,
): HotWater {
  if (toC <= fromC) return { ok: true, addMl: 0 };
  if (hotC <= toC) return { ok: false, why: 'not-hot-enough' };
  const addMl = (capacityJPerK(tub, fromC) * (toC - fromC)) / (waterCapacityJPerK(1, hotC) * (hotC - toC));
  return addMl > roomMl ? { ok: false, why: 'too-much', addMl } : { ok: true, addMl };
}

/**
 * `too-low`: bottles in the tub never get warmer than the tub, so the lower limit is out of reach; `slow`: the limit is reached
 * only just, and the last tenths take very long; `too-high`: left in the tub, the liquid will drift above its upper limit.
 */
export type SetPointVerdict = 'fits' | 'too-low' | 'slow' | 'too-high';

/**
 * Less than this above the lower limit and the end of the warming crawls: e.g. ln(20/0.1) = 5.3 time constants; a bath set to its
 * upper limit gets there sooner and still may stay.
 */
const crawlC = 0.15;

/** Can a tub held at `setC` bring a liquid within its limits, and keep it there? All °C. */
export function setPointVerdict(setC: number, aim: Aim): SetPointVerdict {
  if (setC <= aim.lowC) return 'too-low';
  if (setC > aim.highC) return 'too-high';
  return setC < aim.lowC + crawlC ? 'slow' : 'fits';
}
