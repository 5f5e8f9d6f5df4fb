import { type BenchEstimate, temperatureAt } from '../../../thermal/bench/estimate.js';
import { changeVolume, type Guess, putVessel, removeVessel } from '../../../thermal/bench/setup.js';
import { afterPourC } from '../../../thermal/tank.js';
import type { Fact } from '../../../world/fact.js';
import { type VesselRef, vesselKey } from '../../../world/vessel.js';
import { type Held, opened, remembered, type WarmConfig, type WarmState } from './state.js';

/** What another desk's fact changes on the bench. */
export function hear(before: WarmState, config: WarmConfig, fact: Fact, atMs: number): WarmState {
  switch (fact.type) {
    case 'run-started':
    case 'run-finished':
      return before.spent.length > 0 ? { ...before, spent: [] } : before;
    case 'bottle-set':
      return setBottle(remembered(opened(before, config, atMs), markOf(fact)), config, fact, atMs);
    case 'mixed':
      if (fact.bottle === undefined) return before;
      return put(
        remembered(opened(before, config, atMs), markOf(fact)),
        config,
        { kind: 'bottle', number: fact.bottle },
        fact.liquid,
        fact.volumeMl,
        atMs,
      );
    case 'poured':
      return poured(remembered(used(opened(before, config, atMs), fact), markOf(fact)), config, fact, atMs);
    case 'spilled':
      return fact.from
        ? take(remembered(opened(before, config, atMs), markOf(fact)), fact.from, fact.volumeMl, atMs)
        : before;
    case 'bottle-discarded':
      return empty(
        remembered(opened(before, config, atMs), markOf(fact)),
        vesselKey({ kind: 'bottle', number: fact.bottle }),
        atMs,
      );
    case 'undone':
      return undo(before, fact.facts);
    default:
      return before;
  }
}

function used<S extends WarmState>(state: S, fact: Extract<Fact, { type: 'poured' }>): S {
  if (fact.to.kind !== 'tank' || state.spent.includes(fact.liquid)) return state;
  return { ...state, spent: [...state.spent, fact.liquid] };
}

/** How a fact is told from others when it is taken back. */
export function markOf(fact: Fact): string {
  switch (fact.type) {
    case 'temperature':
      return `temperature ${vesselKey(fact.vessel)} ${fact.tempC}`;
    case 'poured':
      return `poured ${vesselKey(fact.from)} ${vesselKey(fact.to)} ${fact.volumeMl}`;
    case 'bottle-set':
      return `bottle-set ${fact.bottle} ${fact.liquid} ${fact.volumeMl}`;
    case 'spilled':
      return `spilled ${fact.volumeMl}`;
    default:
      return fact.type;
  }
}

/** Goes back to the bench before the earliest of the facts taken back that is still remembered. */
function undo(state: WarmState, facts: readonly Fact[]): WarmState {
  const marks = facts.map(markOf);
  const index = state.past.findIndex((p) => marks.includes(p.what));
  const past = state.past[index];
  if (!past) return state;
  // deeds after it that are not taken back would be lost with it: keep the bench when there are any
  if (state.past.slice(index).some((p) => !marks.includes(p.what))) return state;
  const log = state.log.slice(0, past.logged);
  return { ...state, bench: past.bench, holds: past.holds, log, past: state.past.slice(0, index) };
}

function setBottle(
  state: WarmState,
  config: WarmConfig,
  fact: Extract<Fact, { type: 'bottle-set' }>,
  atMs: number,
): WarmState {
  const vessel: VesselRef = { kind: 'bottle', number: fact.bottle };
  const key = vesselKey(vessel);
  if (fact.liquid === null || fact.volumeMl <= 0) return empty(state, key, atMs);
  const held = state.holds[key];
  if (held?.liquid === fact.liquid) {
    return changed(state, key, { ...held, volumeMl: fact.volumeMl, assumed: false }, atMs);
  }
  return put(state, config, vessel, fact.liquid, fact.volumeMl, atMs);
}

/** A liquid stands in a vessel from now on. The place the sheet assumed for it gives way, with what it learnt. */
function put(
  state: WarmState,
  config: WarmConfig,
  vessel: VesselRef,
  liquid: string,
  volumeMl: number,
  atMs: number,
  tempC?: Guess,
): WarmState {
  const key = vesselKey(vessel);
  const held: Held = { liquid, volumeMl, vessel, assumed: false };
  const assumed = Object.entries(state.holds).find(([k, h]) => h.assumed && h.liquid === liquid && k !== key);
  const base = empty(state, key, atMs);
  if (assumed && base.bench && vessel.kind === 'bottle') {
    const [oldKey] = assumed;
    const { [oldKey]: _, ...others } = base.holds;
    const vessels = base.bench.vessels.map((v) => (v.key === oldKey ? { ...v, key } : v));
    const readings = base.bench.readings.map((r) => (r.key === oldKey ? { ...r, key } : r));
    const renamed = {
      ...base,
      bench: { ...base.bench, vessels, readings },
      holds: { ...others, [key]: held },
    };
    return changed(renamed, key, held, atMs);
  }
  if (!base.bench) return base;
  const sheet = config.liquids[liquid];
  const inTub = vessel.kind === 'tank' ? (config.tank?.standsInTub ?? false) : (sheet?.inTub ?? true);
  const bench = putVessel(
    base.bench,
    {
      key,
      placement: vessel.kind === 'jug' || !inTub ? 'air' : 'tub',
      volumeMl,
      material: sheet?.material ?? 'plastic',
      ...(tempC ? { tempC } : {}),
    },
    atMs,
  );
  return { ...base, bench, holds: { ...base.holds, [key]: held } };
}

function changed(
  state: WarmState,
  key: string,
  held: Held,
  atMs: number,
  mixedWith?: { tempC: number; sdC: number; volumeMl: number },
): WarmState {
  if (!state.bench) return state;
  const same = state.bench.vessels.find((v) => v.key === key)?.volumeMl === held.volumeMl && !mixedWith;
  const bench = same ? state.bench : changeVolume(state.bench, key, held.volumeMl, atMs, mixedWith);
  return { ...state, bench, holds: { ...state.holds, [key]: held } };
}

function empty(state: WarmState, key: string, atMs: number): WarmState {
  const { [key]: gone, ...holds } = state.holds;
  const { [key]: _, ...readySinceMs } = state.readySinceMs;
  if (!state.bench || (!gone && !state.bench.vessels.some((v) => v.key === key))) return state;
  return { ...state, bench: removeVessel(state.bench, key, atMs), holds, readySinceMs };
}

function take(state: WarmState, from: VesselRef, volumeMl: number, atMs: number): WarmState {
  const key = vesselKey(from);
  const held = state.holds[key];
  if (!held) return state;
  const left = held.volumeMl - volumeMl;
  // a few millilitres cling to the walls: that is an empty vessel
  return left < 20 ? empty(state, key, atMs) : changed(state, key, { ...held, volumeMl: left }, atMs);
}

function poured(
  state: WarmState,
  config: WarmConfig,
  fact: Extract<Fact, { type: 'poured' }>,
  atMs: number,
): WarmState {
  const { bench } = state;
  if (!bench) return state;
  const source = temperatureAt(bench, vesselKey(fact.from), atMs);
  const read = (bench.vessels.find((v) => v.key === vesselKey(fact.from))?.readings ?? 0) > 0;
  const arriving = source && arrival(bench, config, fact, source, atMs);
  const after = take(state, fact.from, fact.volumeMl, atMs);
  if (fact.to.kind === 'sink' || fact.to.kind === 'tap' || fact.to.kind === 'tub') return after;
  const key = vesselKey(fact.to);
  const there = after.holds[key];
  if (there && there.liquid === fact.liquid) {
    const held = { ...there, volumeMl: there.volumeMl + fact.volumeMl };
    const mixed = arriving
      ? { tempC: arriving.value, sdC: arriving.sd, volumeMl: fact.volumeMl }
      : { tempC: 30, sdC: 8, volumeMl: fact.volumeMl };
    return changed(after, key, held, atMs, mixed);
  }
  const next = put(after, config, fact.to, fact.liquid, fact.volumeMl, atMs, arriving ?? undefined);
  return read ? counted(next, key, atMs) : next;
}

/** A vessel filled from one that was read is as good as read. */
function counted(state: WarmState, key: string, atMs: number): WarmState {
  if (!state.bench) return state;
  const vessels = state.bench.vessels.map((v) =>
    v.key === key ? { ...v, readings: 1, lastReadMs: atMs } : v,
  );
  return { ...state, bench: { ...state.bench, vessels } };
}

/** Temperature of what was poured once it has met the vessel. Only the tank takes a noticeable part. */
function arrival(
  bench: BenchEstimate,
  config: WarmConfig,
  fact: Extract<Fact, { type: 'poured' }>,
  source: { tempC: number; sdC: number },
  atMs: number,
): Guess {
  if (fact.to.kind !== 'tank' || !config.tank)
    return { value: source.tempC, sd: Math.hypot(source.sdC, 0.2) };
  const around = config.tank.standsInTub ? 'tub' : 'room';
  const tank = temperatureAt(bench, around, atMs);
  const value = afterPourC(
    config.tank.build,
    { tempC: tank?.tempC ?? 21, wet: false },
    fact.volumeMl,
    source.tempC,
  );
  return { value, sd: Math.hypot(source.sdC, 0.4) };
}
