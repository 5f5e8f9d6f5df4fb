import type { WarmPour } from '../../../language/languages/english/phrases/warm-message.js';
import type { IntentOf } from '../../../process/intent.js';
import { temperatureAt, tubKey } from '../../../thermal/bench/estimate.js';
import { curveOf } from '../../../thermal/bench/forecast.js';
import { nextReading } from '../../../thermal/bench/next-reading.js';
import { moveVessel, setTub, switchHeater } from '../../../thermal/bench/setup.js';
import { blend } from '../../../thermal/blend.js';
import { pourAdvice } from '../../../thermal/tank.js';
import { hotWaterToAdd } from '../../../thermal/tub.js';
import type { World } from '../../../world/records.js';
import { type LiquidId, type VesselRef, vesselKey } from '../../../world/vessel.js';
import { say, type Turn } from './calls.js';
import { awaited, type Bath, lastOf, type Outlook, outlookOf } from './items.js';
import {
  aimFor,
  defaultThermometerSdC,
  developerOf,
  opened,
  targetAt,
  targetOf,
  type WarmConfig,
  type WarmState,
} from './state.js';

/** Of a bath whose reading counts for nothing: so much; null: nothing speaks against it. */
export function answerDoubted(
  state: WarmState,
  config: WarmConfig,
  of: LiquidId | VesselRef | undefined,
  atMs: number,
  { doubts, readings }: Pick<World, 'doubts' | 'readings'>,
): Turn | null {
  const target = of === undefined ? null : targetOf(state, config, of);
  const doubted = target?.vessel && doubts[vesselKey(target.vessel)];
  // what was asked about, and never taken, is no reading of it
  const taken = target?.vessel && (readings[vesselKey(target.vessel)] ?? readings[`liquid:${target.liquid}`]);
  if (!target || !doubted || taken?.tempC !== doubted.tempC) return null;
  const { tempC } = doubted;
  return { state, effects: [say({ id: 'warm-doubted', subject: target.subject, tempC }, atMs)] };
}

export function answerReady(
  before: WarmState,
  config: WarmConfig,
  intent: IntentOf<'ask-ready'>,
  atMs: number,
): Turn {
  const state = opened(before, config, atMs);
  const outlook = outlookOf(state, config, atMs);
  if (!outlook) return { state, effects: [] };
  if (intent.liquid !== undefined) return answerOne(state, config, outlook, intent.liquid, atMs);
  const baths = awaited(outlook);
  if (baths.length === 0) return { state, effects: [say({ id: 'warm-nothing' }, atMs)] };
  const last = lastOf(outlook);
  const next = last?.readiness?.state === 'coming' ? adviseReading(state, config, outlook, last, atMs) : null;
  const items = baths.map((b) => b.item);
  return { state, effects: [say({ id: 'warm-all', items, last: last?.item ?? null, read: next }, atMs)] };
}

function answerOne(
  state: WarmState,
  config: WarmConfig,
  outlook: Outlook,
  liquid: string,
  atMs: number,
): Turn {
  const target = targetOf(state, config, liquid);
  const bath = outlook.baths.find((b) => b.key === target?.key);
  if (!target || !bath) {
    return { state, effects: [say({ id: 'warm-unknown', subject: { liquid, vessel: null } }, atMs)] };
  }
  const pour = liquid === developerOf(config) ? pourFor(state, config, atMs) : null;
  return { state, effects: [say({ id: 'warm-one', item: bath.item, pour }, atMs)] };
}

function adviseReading(
  state: WarmState,
  config: WarmConfig,
  outlook: Outlook,
  last: Bath,
  atMs: number,
): { subject: Bath['item']['subject']; inS: number } | null {
  if (last.readiness?.state !== 'coming') return null;
  const sdC = config.thermometerSdC ?? defaultThermometerSdC;
  const next = nextReading(outlook.forecast, last.key, last.readiness.inMs, sdC);
  const target = next && targetAt(state, config, next.key);
  return next && target ? { subject: target.subject, inS: (next.atMs - atMs) / 1000 } : null;
}

/** What the tank will take from the developer, when that matters against the sheet's limits. */
export function pourFor(state: WarmState, config: WarmConfig, atMs: number): WarmPour | null {
  const aim = aimFor(config, developerOf(config));
  const { bench } = state;
  if (!config.tank || !aim || !bench) return null;
  const around = temperatureAt(bench, config.tank.standsInTub ? tubKey : 'room', atMs);
  const room = temperatureAt(bench, 'room', atMs);
  if (!around || !room) return null;
  const before = { tempC: config.tank.standsInTub ? around.tempC : room.tempC, wet: false };
  const standing = { standingIn: config.tank.standsInTub ? 'tub' : 'air', tempC: around.tempC } as const;
  const { build, volumeMl } = config.tank;
  const advice = pourAdvice(build, before, volumeMl, aim, standing, config.developS ?? 180);
  const lossC = advice.pourC - advice.at.startC;
  if (lossC < 0.1 || Math.abs(advice.wantedC - aim.aimC) < 0.1) return null;
  return { pourC: advice.pourC, lossC, prewarm: advice.beyondTolerance };
}

export function answerTemperature(
  before: WarmState,
  config: WarmConfig,
  of: LiquidId | VesselRef,
  atMs: number,
): Turn {
  const state = opened(before, config, atMs);
  const target = targetOf(state, config, of);
  if (!target) {
    const subject = { liquid: typeof of === 'string' ? of : null, vessel: null };
    return { state, effects: [say({ id: 'warm-unknown', subject }, atMs)] };
  }
  const known = outlookOf(state, config, atMs)?.baths.find((b) => b.key === target.key);
  if (known) return { state, effects: [say({ id: 'warm-temperature', item: known.item }, atMs)] };
  const now = temperatureAt(state.bench, target.key, atMs);
  const last = state.log.findLast((r) => r.key === target.key);
  const item = {
    subject: target.subject,
    ready: { state: 'no-aim' as const },
    tempC: now?.tempC ?? 0,
    halfBandC: 1.6449 * (now?.sdC ?? 0),
    aim: null,
    read: null,
    lastReadC: last?.tempC ?? null,
    fresh: false,
    readAgoS: now && last ? (atMs - last.atMs) / 1000 : null,
  };
  return { state, effects: [say({ id: 'warm-temperature', item }, atMs)] };
}

export function tubSet(
  before: WarmState,
  config: WarmConfig,
  intent: IntentOf<'tub-set'>,
  atMs: number,
): Turn {
  const open = opened(before, config, atMs);
  const bench = setTub(open.bench, intent.tempC, atMs);
  const state: WarmState = { ...open, bench, called: { ...open.called, setPoint: [] } };
  const tub = outlookOf(state, config, atMs)?.forecast;
  const curve = tub && curveOf(tub, tubKey);
  const known = bench.tubReadings > 0;
  const at = curve?.tempC.findIndex((t) => t >= intent.tempC - 0.3) ?? -1;
  const inS = known && tub && at >= 0 ? (tub.afterMs[at] ?? 0) / 1000 : null;
  const hotC = state.taps.hotC;
  const now = temperatureAt(bench, tubKey, atMs);
  const add =
    known && now && hotC !== null && (inS === null || inS > 180)
      ? hotWaterToAdd(
          { waterMl: bench.tubWaterMl, loadJPerK: 0 },
          now.tempC,
          intent.tempC,
          hotC,
          bench.tubWaterMl / 2,
        )
      : null;
  const hot = add?.ok && hotC !== null && add.addMl > 0 ? { addMl: add.addMl, hotC } : null;
  return { state, effects: [say({ id: 'warm-tub-set', setC: intent.tempC, inS, hot }, atMs)] };
}

export function heater(
  before: WarmState,
  config: WarmConfig,
  intent: IntentOf<'heater'>,
  atMs: number,
): Turn {
  const open = opened(before, config, atMs);
  const state: WarmState = { ...open, bench: switchHeater(open.bench, intent.on, atMs) };
  const leaving = (outlookOf(state, config, atMs)?.baths ?? [])
    .filter((b) => b.readiness?.state === 'in' && b.readiness.leavesInMs !== null && b.item.readAgoS !== null)
    .sort((a, b) => leaves(a) - leaves(b));
  return {
    state,
    facts: [{ type: 'heater-told', on: intent.on }],
    effects: [say({ id: 'warm-heater', on: intent.on, first: leaving[0]?.item ?? null }, atMs)],
  };
}

const leaves = (b: Bath): number =>
  b.readiness?.state === 'in'
    ? (b.readiness.leavesInMs ?? Number.POSITIVE_INFINITY)
    : Number.POSITIVE_INFINITY;

export function moved(
  before: WarmState,
  config: WarmConfig,
  intent: IntentOf<'vessel-moved'>,
  atMs: number,
): Turn {
  const open = opened(before, config, atMs);
  const target = targetOf(open, config, intent.of);
  if (!target || !open.bench.vessels.some((v) => v.key === target.key)) {
    const subject = target?.subject ?? {
      liquid: typeof intent.of === 'string' ? intent.of : null,
      vessel: null,
    };
    return { state: open, effects: [say({ id: 'warm-unknown', subject }, atMs)] };
  }
  const bench = moveVessel(open.bench, target.key, intent.into ? 'tub' : 'air', atMs);
  const state: WarmState = { ...open, bench };
  const bath = outlookOf(state, config, atMs)?.baths.find((b) => b.key === target.key);
  if (!bath) return { state, effects: [] };
  // nobody has read it: where it is going would be a guess
  const item =
    bath.item.readAgoS === null ? { ...bath.item, ready: { state: 'no-aim' as const } } : bath.item;
  return { state, effects: [say({ id: 'warm-moved', item, into: intent.into }, atMs)] };
}

export function answerBlend(state: WarmState, intent: IntentOf<'ask-blend'>, atMs: number): Turn {
  const { hotC, coldC } = state.taps;
  if (hotC === null || coldC === null) {
    const message = { id: 'warm-blend-needs' as const, hot: hotC === null, cold: coldC === null };
    return { state, effects: [say(message, atMs)] };
  }
  const volumeMl = intent.volumeMl ?? null;
  const made = blend(intent.tempC, volumeMl ?? 1000, hotC, coldC);
  const message = made.ok
    ? {
        id: 'warm-blend' as const,
        aimC: intent.tempC,
        volumeMl,
        hotMl: made.hotMl,
        coldMl: made.coldMl,
        hotShare: made.hotShare,
      }
    : { id: 'warm-blend-fails' as const, aimC: intent.tempC, why: made.why, hotC, coldC };
  return { state, effects: [say(message, atMs)] };
}
