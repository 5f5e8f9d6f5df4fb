import type { WarmDoubt, WarmSubject } from '../../../language/languages/english/phrases/warm-message.js';
import type { Aim } from '../../../thermal/aim.js';
import { type BenchEstimate, roomKey, tubKey } from '../../../thermal/bench/estimate.js';
import { type Guess, openBench, putVessel } from '../../../thermal/bench/setup.js';
import type { BottleMaterial } from '../../../thermal/materials.js';
import type { RateId } from '../../../thermal/rate-data.js';
import type { TankBuild } from '../../../thermal/tank.js';
import { liquidById } from '../../../world/liquids.js';
import type { World } from '../../../world/records.js';
import type { LiquidId, VesselRef } from '../../../world/vessel.js';
import { vesselKey } from '../../../world/vessel.js';

/** One bath as the process sheet wants it, and where it stands at first. */
export interface WarmLiquid extends Aim {
  volumeMl: number;
  /** number of the bottle that holds it, when known */
  bottle?: number;
  /** a reading outside this is asked about before it is believed, °C */
  plausibleC?: { minC: number; maxC: number };
  material?: BottleMaterial;
  /** false: it does not stand in the tub at first */
  inTub?: boolean;
}

export interface WarmConfig {
  liquids: Readonly<Record<LiquidId, WarmLiquid>>;
  /** the bath whose temperature makes the picture; `developer` when not given */
  developer?: LiquidId;
  /** how its speed follows temperature; left out: no cost is named */
  rate?: RateId;
  /** planned time in the developer, s */
  developS?: number;
  tub: {
    /** the controller's set point, °C */
    targetC: number;
    waterMl?: number;
    heaterW?: number;
    /** true: read off the controller; otherwise taken from the sheet */
    seen?: boolean;
  };
  tank?: { volumeMl: number; build: TankBuild; standsInTub: boolean };
  roomC?: number;
  /** standard deviation of the thermometer, °C; 0.2 when not given */
  thermometerSdC?: number;
  /** a liquid's spoken name; left out: the well-known name, or its id */
  liquidName?: (id: LiquidId) => string;
}

export interface Held {
  liquid: LiquidId;
  volumeMl: number;
  vessel: VesselRef | null;
  /** set up from the sheet, not by word or deed */
  assumed: boolean;
}

export interface PendingReading {
  key: string;
  subject: WarmSubject;
  liquid: LiquidId | null;
  vessel: VesselRef | null;
  heardC: number;
  doubt: WarmDoubt;
  /** the value a confirm takes; null: it cannot be taken at all */
  takeC: number | null;
}

/** What the warming desk remembers itself. Plain data; see `createWarmDesk`. */
export interface WarmKept {
  bench: BenchEstimate | null;
  /** the liquid that each vessel's estimate is of */
  stands: Record<string, LiquidId>;
  pending: PendingReading | null;
  taps: { hotC: number | null; coldC: number | null };
  /** when a bath came (by reckoning) into tolerance, ms */
  readySinceMs: Record<string, number>;
  /** when it is expected to, ms */
  expectedMs: Record<string, number>;
  /** called out already: everything ready; drifting, by key; set points, by what was said */
  called: { allReady: boolean; drift: string[]; setPoint: string[] };
  /** baths that have been in the tank in this run: their bottles need not be kept warm any more */
  spent: LiquidId[];
  /** what somebody asked the temperature of last */
  asked?: { of: LiquidId | VesselRef; atMs: number };
  /** readings taken, for the picture */
  log: { key: string; tempC: number; atMs: number }[];
}

/** … and what it reads from the world at each event: what stands in each vessel, by bench key. */
export interface WarmState extends WarmKept {
  holds: Record<string, Held>;
}

export const initialState: WarmKept = {
  bench: null,
  stands: {},
  pending: null,
  taps: { hotC: null, coldC: null },
  readySinceMs: {},
  expectedMs: {},
  called: { allReady: false, drift: [], setPoint: [] },
  spent: [],
  log: [],
};

/** A few millilitres cling to the walls: that is an empty vessel. */
const drainedMl = 20;

export function seen(kept: WarmKept, world: World): WarmState {
  const holds: Record<string, Held> = {};
  const stand = (vessel: VesselRef, liquid: LiquidId | null, volumeMl: number, assumed = false) => {
    if (liquid !== null && volumeMl >= drainedMl)
      holds[vesselKey(vessel)] = { liquid, volumeMl, vessel, assumed };
  };
  const bottles = Object.values(world.bottles);
  // what somebody said stands in a bottle is no longer awaited in the one it was taken to be in
  const told = new Set(
    bottles.flatMap((b) => (b.assumed || b.contents.volumeMl < drainedMl ? [] : [b.liquid])),
  );
  for (const b of bottles.filter((b) => !b.assumed || !told.has(b.liquid)))
    stand({ kind: 'bottle', number: b.number }, b.liquid, b.contents.volumeMl, b.assumed);
  stand({ kind: 'tank' }, world.tank.bath?.liquid ?? null, world.tank.volumeMl);
  const [jug] = Object.entries(world.jugs);
  if (jug) stand({ kind: 'jug' }, jug[0], jug[1].volumeMl);
  return { ...kept, holds };
}

export function keptOf({ holds: _seen, ...kept }: WarmState): WarmKept {
  return kept;
}

export const tankKey = 'tank';
export const defaultThermometerSdC = 0.2;

/** Puts a vessel with what it holds on the bench, where such a vessel stands. */
export function put(
  bench: BenchEstimate,
  config: WarmConfig,
  key: string,
  held: Held,
  atMs: number,
  tempC?: Guess,
): BenchEstimate {
  const sheet = config.liquids[held.liquid];
  const inTub = key === tankKey ? (config.tank?.standsInTub ?? false) : (sheet?.inTub ?? true);
  return putVessel(
    bench,
    {
      key,
      placement: key === 'jug' || !inTub ? 'air' : 'tub',
      volumeMl: held.volumeMl,
      material: sheet?.material ?? 'plastic',
      ...(tempC ? { tempC } : {}),
    },
    atMs,
  );
}

/** The bench as the sheet sets it up, at the moment of the first event. */
export function opened(
  state: WarmState,
  config: WarmConfig,
  atMs: number,
): WarmState & { bench: BenchEstimate } {
  if (state.bench) return { ...state, bench: state.bench };
  const { tub } = config;
  let bench = openBench(
    {
      setC: tub.targetC,
      setPointSeen: tub.seen ?? false,
      heaterOn: true,
      ...(tub.waterMl === undefined ? {} : { waterMl: tub.waterMl }),
      ...(tub.heaterW === undefined ? {} : { heaterW: tub.heaterW }),
      ...(config.roomC === undefined ? {} : { roomC: { value: config.roomC, sd: 1 } }),
    },
    atMs,
  );
  const stands: Record<string, LiquidId> = {};
  for (const [key, held] of Object.entries(state.holds)) {
    bench = put(bench, config, key, held, atMs);
    stands[key] = held.liquid;
  }
  return { ...state, bench, stands };
}

/** What an utterance or a probe may name. */
export interface Target {
  key: string;
  subject: WarmSubject;
  liquid: LiquidId | null;
  vessel: VesselRef | null;
}

const roomNames = ['room', 'air', 'darkroom'];
const hotNames = ['hot', 'hot-tap', 'hot-water', 'hot water', 'hot tap'];
const coldNames = ['cold', 'cold-tap', 'cold-water', 'cold water', 'cold tap'];
const rinseNames = ['water', 'rinse', 'wash', 'rinse-water', 'wash-water'];
export const rinseKey = 'rinse';
export const hotTapKey = 'hot-tap';
export const coldTapKey = 'cold-tap';

/** Tap water from here on is the hot tap, when only "the tap" was said, °C. */
const hotFromC = 30;

const plain = (key: string, subject: WarmSubject, vessel: VesselRef | null = null): Target => ({
  key,
  subject,
  liquid: null,
  vessel,
});

/** Finds what was meant; null when it is a liquid that stands nowhere. `tempC` tells the hot tap from the cold. */
export function targetOf(
  state: WarmState,
  config: WarmConfig,
  of: LiquidId | VesselRef,
  tempC?: number,
): Target | null {
  if (typeof of === 'string') {
    if (roomNames.includes(of)) return plain(roomKey, { liquid: null, vessel: { kind: 'room' } });
    if (hotNames.includes(of)) return plain(hotTapKey, { liquid: null, vessel: { kind: 'hot-tap' } });
    if (coldNames.includes(of)) return plain(coldTapKey, { liquid: null, vessel: { kind: 'cold-tap' } });
    const key = keysHolding(state, of)[0];
    if (key) return targetAt(state, config, key);
    return rinseNames.includes(of)
      ? plain(rinseKey, { liquid: 'rinse water', vessel: null }, { kind: 'tap' })
      : null;
  }
  if (of.kind === 'tap') {
    return (tempC ?? 0) >= hotFromC
      ? plain(hotTapKey, { liquid: null, vessel: { kind: 'hot-tap' } }, of)
      : plain(coldTapKey, { liquid: null, vessel: { kind: 'cold-tap' } }, of);
  }
  const key = vesselKey(of);
  if (key === tubKey) return plain(tubKey, { liquid: null, vessel: of }, of);
  return targetAt(state, config, key) ?? plain(key, { liquid: null, vessel: of }, of);
}

/** The bench keys that hold a liquid: the tank first, then the fullest vessel. */
function keysHolding(state: WarmState, liquid: LiquidId): string[] {
  return Object.entries(state.holds)
    .filter(([, h]) => h.liquid === liquid)
    .sort(
      ([a, x], [b, y]) =>
        Number(b === tankKey) - Number(a === tankKey) ||
        Number(x.assumed) - Number(y.assumed) ||
        y.volumeMl - x.volumeMl,
    )
    .map(([key]) => key);
}

export function targetAt(state: WarmState, config: WarmConfig, key: string): Target | null {
  if (key === tubKey) return plain(tubKey, { liquid: null, vessel: { kind: 'tub' } }, { kind: 'tub' });
  const held = state.holds[key];
  if (!held) return null;
  return {
    key,
    subject: subjectOf(config, held.liquid, held.vessel),
    liquid: held.liquid,
    vessel: held.vessel,
  };
}

export function subjectOf(
  config: WarmConfig,
  liquid: LiquidId | null,
  vessel: VesselRef | null,
): WarmSubject {
  return { liquid: liquid === null ? null : nameOf(config, liquid), vessel };
}

const nameOf = (config: WarmConfig, id: LiquidId): string =>
  config.liquidName?.(id) ?? liquidById(id)?.name ?? id.replaceAll('-', ' ');

export const aimFor = (config: WarmConfig, liquid: LiquidId | null): Aim | null =>
  (liquid === null ? undefined : config.liquids[liquid]) ?? null;

export const developerOf = (config: WarmConfig): LiquidId => config.developer ?? 'developer';
