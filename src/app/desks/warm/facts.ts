import { type BenchEstimate, refit, temperatureAt } from '../../../thermal/bench/estimate.js';
import { changeVolume, doubtVessel, type Guess, removeVessel } from '../../../thermal/bench/setup.js';
import { afterPourC } from '../../../thermal/tank.js';
import type { Fact } from '../../../world/fact.js';
import { vesselKey } from '../../../world/vessel.js';
import { opened, put, type WarmConfig, type WarmState } from './state.js';

type Poured = Extract<Fact, { type: 'poured' }>;

/** What another desk's fact changes for the temperatures: the estimate follows what the world says stands where. */
export function hear(before: WarmState, config: WarmConfig, fact: Fact, atMs: number): WarmState {
  switch (fact.type) {
    case 'run-started':
    case 'run-finished':
      return follow({ ...before, spent: [] }, config, null, atMs);
    case 'poured': {
      const spent =
        fact.to.kind === 'tank' && !before.spent.includes(fact.liquid)
          ? [...before.spent, fact.liquid]
          : before.spent;
      return follow(opened({ ...before, spent }, config, atMs), config, fact, atMs);
    }
    case 'bottle-set':
    case 'mixed':
    case 'spilled':
    case 'bottles-swapped':
    case 'bottle-discarded':
      return follow(opened(before, config, atMs), config, null, atMs);
    case 'thermometer-told':
      return shifted(before, fact.shiftC, atMs);
    default:
      return follow(before, config, null, atMs);
  }
}

/** All that was read so far was off by so much; what is left of a reading in the belief alone is open until it is read again. */
function shifted(state: WarmState, shiftC: number, atMs: number): WarmState {
  const really = <T extends { tempC: number }>(r: T): T => ({ ...r, tempC: r.tempC + shiftC });
  const log = state.log.map(really);
  if (!state.bench) return { ...state, log };
  const readings = state.bench.readings.map(really);
  const folded = state.bench.vessels.filter(
    (v) => v.lastReadMs !== null && !readings.some(({ key }) => key === v.key),
  );
  const bench = folded.reduce((b, v) => doubtVessel(b, v.key, atMs), refit({ ...state.bench, readings }));
  return { ...state, log, bench };
}

/** Vessels come, go and change volume as in the world. What was poured brings its own temperature along. */
export function follow(state: WarmState, config: WarmConfig, pour: Poured | null, atMs: number): WarmState {
  if (!state.bench) return state;
  const arriving = pour && arrival(state.bench, config, pour, atMs);
  const gone = Object.keys(state.stands).filter((key) => !state.holds[key]);
  let bench = gone.reduce((b, key) => removeVessel(b, key, atMs), state.bench);
  for (const [key, held] of Object.entries(state.holds)) {
    const filled = pour && vesselKey(pour.to) === key ? arriving : null;
    const stood = state.stands[key];
    const vessel = bench.vessels.find((v) => v.key === key);
    if (!vessel || stood !== held.liquid) bench = put(bench, config, key, held, atMs, filled?.guess);
    else if (vessel.volumeMl !== held.volumeMl)
      bench = changeVolume(
        bench,
        key,
        held.volumeMl,
        atMs,
        pour && filled ? mixedWith(pour, filled) : undefined,
      );
    if (filled?.readMs != null) bench = counted(bench, key, filled.readMs);
  }
  const stands = Object.fromEntries(Object.entries(state.holds).map(([key, h]) => [key, h.liquid]));
  const readySinceMs = Object.fromEntries(
    Object.entries(state.readySinceMs).filter(
      ([key]) => stands[key] !== undefined && stands[key] === state.stands[key],
    ),
  );
  return { ...state, bench, stands, readySinceMs };
}

const mixedWith = (pour: Poured, arriving: Arriving) => ({
  tempC: arriving.guess?.value ?? 30,
  sdC: arriving.guess?.sd ?? 8,
  volumeMl: pour.volumeMl,
});

/** A vessel filled from one that was read is as good as read when that was. */
const counted = (bench: BenchEstimate, key: string, lastReadMs: number): BenchEstimate => ({
  ...bench,
  vessels: bench.vessels.map((v) => (v.key === key ? { ...v, readings: 1, lastReadMs } : v)),
});

interface Arriving {
  guess?: Guess;
  /** when the vessel that it comes from was read; null: never */
  readMs: number | null;
}

/** Temperature of what was poured once it has met the vessel. Only the tank takes a noticeable part. */
function arrival(bench: BenchEstimate, config: WarmConfig, pour: Poured, atMs: number): Arriving {
  const from = vesselKey(pour.from);
  const source = temperatureAt(bench, from, atMs);
  const readMs = bench.vessels.find((v) => v.key === from)?.lastReadMs ?? null;
  if (!source) return { readMs };
  if (pour.to.kind !== 'tank' || !config.tank)
    return { guess: { value: source.tempC, sd: Math.hypot(source.sdC, 0.2) }, readMs };
  const tank = temperatureAt(bench, config.tank.standsInTub ? 'tub' : 'room', atMs);
  const before = { tempC: tank?.tempC ?? 21, wet: false };
  const value = afterPourC(config.tank.build, before, pour.volumeMl, source.tempC);
  return { guess: { value, sd: Math.hypot(source.sdC, 0.4) }, readMs };
}
