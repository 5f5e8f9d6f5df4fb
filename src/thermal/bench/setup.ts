import { bottleCapacityJPerK, type Placement, priorLogTauSd, priorTauS } from '../bottle.js';
import type { BottleMaterial } from '../materials.js';
import { tubLossWPerK } from '../tub.js';
import { waterCapacityJPerK } from '../water.js';
import { advance, type Belief, type BenchEstimate, type BenchVessel } from './estimate.js';
import { holdC, logHeat, logLoss, logRateOf, roomC, tempOf, tubC } from './model.js';

/** A value with its standard deviation. */
export interface Guess {
  value: number;
  sd: number;
}

export interface TubSetup {
  /** the controller's set point, °C */
  setC: number;
  /** someone read the set point off the controller; otherwise it is only what the sheet wants */
  setPointSeen: boolean;
  heaterOn: boolean;
  /** ml of water; 10 000 when not given */
  waterMl?: number;
  /** heater power, W; 1000 when not given, uncertain by half */
  heaterW?: number;
  roomC?: Guess;
  waterC?: Guess;
}

/** source: common practice (a storage box of 10 to 12 litres, an immersion circulator of 800 to 1200 W) */
const usualWaterMl = 10_000;
const usualHeaterW = 1000;
const usualRoom: Guess = { value: 21, sd: 2 };
/** nobody has read the tub: anything between cold tap and ready */
const unreadTub: Guess = { value: 32, sd: 8 };
export const holdSdC = { seen: 0.3, assumed: 0.8 } as const;
const heatLogSd = { given: 0.15, usual: 0.5 } as const;
const lossLogSd = 0.4;

/** A bench with a tub and no bottles yet. */
export function openBench(tub: TubSetup, atMs: number): BenchEstimate {
  const waterMl = tub.waterMl ?? usualWaterMl;
  const capacity = waterCapacityJPerK(waterMl, 30);
  const room = tub.roomC ?? usualRoom;
  const water = tub.waterC ?? unreadTub;
  const guesses: Guess[] = [];
  guesses[tubC] = water;
  guesses[holdC] = { value: tub.setC, sd: tub.setPointSeen ? holdSdC.seen : holdSdC.assumed };
  guesses[logHeat] = {
    value: Math.log((tub.heaterW ?? usualHeaterW) / capacity),
    sd: tub.heaterW && tub.waterMl ? heatLogSd.given : heatLogSd.usual,
  };
  guesses[logLoss] = { value: Math.log(tubLossWPerK(waterMl) / capacity), sd: lossLogSd };
  guesses[roomC] = room;
  const belief = independent(guesses);
  return {
    anchorMs: atMs,
    heaterOn: tub.heaterOn,
    tubWaterMl: waterMl,
    setC: tub.setC,
    tubReadings: 0,
    vessels: [],
    before: belief,
    readings: [],
    after: belief,
  };
}

export interface VesselSetup {
  key: string;
  placement: Placement;
  volumeMl: number;
  material: BottleMaterial;
  /** when nothing was read: near the room, but perhaps just mixed with warm water */
  tempC?: Guess;
}

const unreadVesselSdC = 5;

/** Puts a vessel on the bench at `atMs`; one of the same key is replaced. */
export function putVessel(estimate: BenchEstimate, setup: VesselSetup, atMs: number): BenchEstimate {
  const bench = advance(removeVessel(estimate, setup.key, atMs), atMs);
  const room = bench.before.mean[roomC] ?? usualRoom.value;
  const vessel: BenchVessel = {
    key: setup.key,
    placement: setup.placement,
    volumeMl: setup.volumeMl,
    material: setup.material,
    heatRatio: heatRatio(bench, setup.volumeMl, setup.material),
    elsewhere: null,
    readings: 0,
    lastReadMs: null,
  };
  const belief = extended(bench.before, [
    setup.tempC ?? { value: room + 2, sd: unreadVesselSdC },
    priorLogRate(vessel),
  ]);
  return { ...bench, vessels: [...bench.vessels, vessel], before: belief, after: belief };
}

export function removeVessel(estimate: BenchEstimate, key: string, atMs: number): BenchEstimate {
  const index = estimate.vessels.findIndex((v) => v.key === key);
  if (index < 0) return estimate;
  const bench = advance(estimate, atMs);
  const belief = without(bench.before, [tempOf(index), logRateOf(index)]);
  return { ...bench, vessels: bench.vessels.filter((_, i) => i !== index), before: belief, after: belief };
}

/** Into the tub, or out of it. The rate of the new place is the one learnt there before, or the prior. */
export function moveVessel(
  estimate: BenchEstimate,
  key: string,
  placement: Placement,
  atMs: number,
): BenchEstimate {
  const index = estimate.vessels.findIndex((v) => v.key === key);
  const vessel = estimate.vessels[index];
  if (!vessel || vessel.placement === placement) return estimate;
  const bench = advance(estimate, atMs);
  const p = bench.before.mean.length;
  const rate = logRateOf(index);
  const learnt = {
    placement: vessel.placement,
    mean: bench.before.mean[rate] ?? 0,
    variance: bench.before.covariance[rate * p + rate] ?? 0,
  };
  const moved: BenchVessel = { ...vessel, placement, elsewhere: learnt };
  const known = vessel.elsewhere?.placement === placement ? vessel.elsewhere : null;
  const guess: Guess = known ? { value: known.mean, sd: Math.sqrt(known.variance) } : priorLogRate(moved);
  return changed(bench, index, moved, replaced(bench.before, rate, guess));
}

/** The volume in a vessel changed (poured out or in); `mixedWith` says what joined it. */
export function changeVolume(
  estimate: BenchEstimate,
  key: string,
  volumeMl: number,
  atMs: number,
  mixedWith?: { tempC: number; sdC: number; volumeMl: number },
): BenchEstimate {
  const index = estimate.vessels.findIndex((v) => v.key === key);
  const vessel = estimate.vessels[index];
  if (!vessel) return estimate;
  if (volumeMl <= 0) return removeVessel(estimate, key, atMs);
  const bench = advance(estimate, atMs);
  const old = priorTauS(vessel.volumeMl, vessel.material, vessel.placement);
  const now = priorTauS(volumeMl, vessel.material, vessel.placement);
  let belief = shifted(bench.before, logRateOf(index), Math.log(old / now));
  if (mixedWith) {
    const share = Math.min(1, mixedWith.volumeMl / volumeMl);
    const { mean, sd } = meanSd(belief, tempOf(index));
    belief = replaced(belief, tempOf(index), {
      value: mean + share * (mixedWith.tempC - mean),
      sd: Math.hypot((1 - share) * sd, share * mixedWith.sdC),
    });
  }
  const next = { ...vessel, volumeMl, heatRatio: heatRatio(bench, volumeMl, vessel.material) };
  return changed(bench, index, next, belief);
}

/** Forgets a vessel's temperature (not its rate): a reading was confirmed that the model did not expect. */
export function doubtVessel(estimate: BenchEstimate, key: string, atMs: number): BenchEstimate {
  const bench = advance(estimate, atMs);
  const index = bench.vessels.findIndex((v) => v.key === key);
  const parameter = index < 0 ? tubC : tempOf(index);
  const { mean } = meanSd(bench.before, parameter);
  const belief = replaced(bench.before, parameter, { value: mean, sd: 15 });
  return { ...bench, before: belief, after: belief };
}

/** The controller was set to `setC`; its error (hold less scale), if learnt, stays. */
export function setTub(estimate: BenchEstimate, setC: number, atMs: number): BenchEstimate {
  const bench = advance(estimate, atMs);
  const { mean, sd } = meanSd(bench.before, holdC);
  const error = sd < holdSdC.seen ? mean - bench.setC : 0;
  const belief = replaced(bench.before, holdC, { value: setC + error, sd: Math.min(sd, holdSdC.seen) });
  return { ...bench, setC, before: belief, after: belief };
}

/** What the tub is taken to hold, while nobody has said what it is set to. */
export function assumeTub(estimate: BenchEstimate, setC: number, atMs: number): BenchEstimate {
  const bench = advance(estimate, atMs);
  const belief = replaced(bench.before, holdC, { value: setC, sd: holdSdC.assumed });
  return { ...bench, setC, before: belief, after: belief };
}

export function switchHeater(estimate: BenchEstimate, on: boolean, atMs: number): BenchEstimate {
  return estimate.heaterOn === on ? estimate : { ...advance(estimate, atMs), heaterOn: on };
}

const heatRatio = (bench: BenchEstimate, volumeMl: number, material: BottleMaterial): number =>
  bottleCapacityJPerK(volumeMl, material) / waterCapacityJPerK(bench.tubWaterMl, 30);

const priorLogRate = (vessel: BenchVessel): Guess => ({
  value: -Math.log(priorTauS(vessel.volumeMl, vessel.material, vessel.placement)),
  sd: priorLogTauSd[vessel.placement],
});

const changed = (
  bench: BenchEstimate,
  index: number,
  vessel: BenchVessel,
  belief: Belief,
): BenchEstimate => ({
  ...bench,
  vessels: bench.vessels.map((v, i) => (i === index ? vessel : v)),
  before: belief,
  after: belief,
});

function meanSd(belief: Belief, parameter: number): { mean: number; sd: number } {
  const p = belief.mean.length;
  return {
    mean: belief.mean[parameter] ?? 0,
    sd: Math.sqrt(Math.max(0, belief.covariance[parameter * p + parameter] ?? 0)),
  };
}

function independent(guesses: readonly Guess[]): Belief {
  const p = guesses.length;
  const covariance = new Array<number>(p * p).fill(0);
  guesses.forEach((g, i) => {
    covariance[i * p + i] = g.sd ** 2;
  });
  return { mean: guesses.map((g) => g.value), covariance };
}

function extended(belief: Belief, guesses: readonly Guess[]): Belief {
  const old = belief.mean.length;
  const p = old + guesses.length;
  const covariance = new Array<number>(p * p).fill(0);
  for (let r = 0; r < old; r++) {
    for (let c = 0; c < old; c++) covariance[r * p + c] = belief.covariance[r * old + c] ?? 0;
  }
  guesses.forEach((g, i) => {
    covariance[(old + i) * p + old + i] = g.sd ** 2;
  });
  return { mean: [...belief.mean, ...guesses.map((g) => g.value)], covariance };
}

function without(belief: Belief, dropped: readonly number[]): Belief {
  const old = belief.mean.length;
  const kept = Array.from({ length: old }, (_, i) => i).filter((i) => !dropped.includes(i));
  return {
    mean: kept.map((i) => belief.mean[i] ?? 0),
    covariance: kept.flatMap((r) => kept.map((c) => belief.covariance[r * old + c] ?? 0)),
  };
}

/** One parameter known anew, independent of the rest. */
function replaced(belief: Belief, parameter: number, guess: Guess): Belief {
  const p = belief.mean.length;
  const mean = [...belief.mean];
  mean[parameter] = guess.value;
  const covariance = [...belief.covariance];
  for (let i = 0; i < p; i++) {
    covariance[parameter * p + i] = 0;
    covariance[i * p + parameter] = 0;
  }
  covariance[parameter * p + parameter] = guess.sd ** 2;
  return { mean, covariance };
}

function shifted(belief: Belief, parameter: number, by: number): Belief {
  const mean = [...belief.mean];
  mean[parameter] = (mean[parameter] ?? 0) + by;
  return { mean, covariance: belief.covariance };
}
