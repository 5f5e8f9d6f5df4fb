import type { WarmDoubt, WarmDropped } from '../../../language/languages/english/phrases/warm-message.js';
import type { IntentOf } from '../../../process/intent.js';
import { type Doubt, doubtReading, fitting } from '../../../thermal/bench/doubt.js';
import { type BenchEstimate, roomKey, takeReading, tubKey } from '../../../thermal/bench/estimate.js';
import { doubtVessel, putVessel } from '../../../thermal/bench/setup.js';
import { rinseCostC } from '../../../thermal/tank.js';
import type { Fact } from '../../../world/fact.js';
import type { World } from '../../../world/records.js';
import { type LiquidId, type VesselRef, vesselKey } from '../../../world/vessel.js';
import { say, type Turn } from './calls.js';
import { awaited, outlookOf } from './items.js';
import { tubAsRead } from './set-point.js';
import {
  aimFor,
  coldTapKey,
  defaultThermometerSdC,
  developerOf,
  hotTapKey,
  opened,
  type PendingReading,
  rinseKey,
  type Target,
  tankKey,
  targetAt,
  targetOf,
  type WarmConfig,
  type WarmState,
} from './state.js';

/** A spoken reading, or one from a probe: taken, or asked about. */
export function hearReading(
  before: WarmState,
  config: WarmConfig,
  of: LiquidId | VesselRef,
  tempC: number,
  atMs: number,
  jugs: World['jugs'] = {},
): Turn {
  const state = opened(before, config, atMs);
  const instead =
    state.pending === null || state.pending.doubt.why === 'which'
      ? null
      : { subject: state.pending.subject, heardC: state.pending.heardC };
  const clear: WarmState = { ...state, pending: null };
  const target = targetOf(clear, config, of, tempC) ?? inJug(of, jugs);
  if (!target) {
    const subject = { liquid: typeof of === 'string' ? of : null, vessel: null };
    return { state: clear, effects: [say({ id: 'warm-unknown', subject }, atMs)] };
  }
  const sdC = config.thermometerSdC ?? defaultThermometerSdC;
  const odd = doubtReading(state.bench, target.key, tempC, atMs, sdC);
  // what is out of the tub may stand in anything that cools it
  const outside = state.bench.vessels.some((v) => v.key === target.key && v.placement === 'air');
  if (odd && 'expectedC' in odd && outside && tempC >= coldestC && tempC < odd.expectedC) {
    const bench = doubtVessel(state.bench, target.key, atMs);
    return accept({ ...clear, bench }, config, target, tempC, atMs, instead);
  }
  const doubt = odd ? spokenDoubt(clear, config, odd) : unlikely(config, target, tempC);
  // what is said twice is meant
  const again = state.pending?.key === target.key && state.pending.heardC === tempC;
  if (again && state.pending?.takeC != null) return resolve(state, config, true, atMs);
  if (!doubt) return accept(clear, config, target, tempC, atMs, again ? null : instead);
  const pending: PendingReading = { ...target, heardC: tempC, doubt, takeC: takeable(doubt, tempC) };
  const message = {
    id: 'warm-question' as const,
    subject: target.subject,
    heardC: tempC,
    doubt: pending.doubt,
    ...(pending.takeC === tempC && tooHot(config, target, tempC) && { tooHot: true as const }),
  };
  return {
    state: { ...clear, pending },
    facts: doubtOf(pending, tempC),
    effects: [say(message, atMs, 'question')],
  };
}

/** Of what nobody named: it is taken of the one thing that it can be of, else that is asked. */
export function hearNameless(
  before: WarmState,
  config: WarmConfig,
  { tempC, last }: IntentOf<'temperature'>,
  atMs: number,
  { tank, jugs }: Pick<World, 'tank' | 'jugs'>,
): Turn {
  const state = opened(before, config, atMs);
  const of = whatWasRead(state, config, tempC, last ? readLast(state, config, tank) : undefined, atMs);
  if (of) return hearReading(state, config, of, tempC, atMs, jugs);
  const subject = { liquid: null, vessel: null };
  const doubt = { why: 'which' } as const;
  const pending: PendingReading = { ...nothingNamed, heardC: tempC, doubt, takeC: null };
  return {
    state: { ...state, pending },
    effects: [say({ id: 'warm-question', subject, heardC: tempC, doubt }, atMs, 'question')],
  };
}
const nothingNamed = { key: '', subject: { liquid: null, vessel: null }, liquid: null, vessel: null };

/** So long "it" is what was asked about, and what was read last, ms. Source: common practice. */
const askedLatelyMs = 2 * 60_000;
const readLatelyMs = 10 * 60_000;

/** What was read last, where it is said to be that; what was asked about; the only one known to be so warm. */
function whatWasRead(
  state: WarmState & { bench: BenchEstimate },
  config: WarmConfig,
  tempC: number,
  last: VesselRef | undefined,
  atMs: number,
): LiquidId | VesselRef | null {
  const { pending, asked, bench } = state;
  if (pending && pending.doubt.why !== 'which') return pending.vessel ?? pending.liquid;
  const readMs = state.log.at(-1)?.atMs ?? atMs;
  if (last && atMs - readMs <= readLatelyMs) return last;
  if (asked && atMs - asked.atMs <= askedLatelyMs) return asked.of;
  const [fits, another] = fitting(bench, tempC, atMs);
  return (fits !== undefined && another === undefined && targetAt(state, config, fits)?.vessel) || null;
}

/** The one thing that was read last; what has gone into the tank since. */
export function readLast(
  state: WarmState,
  config: WarmConfig,
  { bath }: World['tank'],
): VesselRef | undefined {
  const lastMs = state.log.at(-1)?.atMs ?? Number.NEGATIVE_INFINITY;
  if (bath && lastMs < bath.sinceMs) return { kind: 'tank' };
  const [key, ...more] = new Set(state.log.filter((r) => r.atMs === lastMs).map((r) => r.key));
  return key === undefined || more.length > 0
    ? undefined
    : (targetAt(state, config, key)?.vessel ?? undefined);
}

/**
 * Every bath that stands in a bottle, or (`others`) those that were not read with the last one; the developer,
 * read lately or where none was, is none of the others. One figure of all is of no other vessel; among others what was read lately and would not
 * fit was not meant.
 */
export function hearAll(
  before: WarmState,
  config: WarmConfig,
  { tempC, except, others }: IntentOf<'all-at'>,
  atMs: number,
): Turn {
  const state = opened(before, config, atMs);
  const baths = state.bench.vessels
    .flatMap((v) => targetAt(state, config, v.key) ?? [])
    .filter((t) => t.key !== tankKey && t.liquid !== except && aimFor(config, t.liquid) !== null);
  const log = state.log.filter((r) => baths.some((t) => t.key === r.key));
  const readSince = (ms: number): string[] => log.filter((r) => r.atMs >= ms).map((r) => r.key);
  const latest = readSince((log.at(-1)?.atMs ?? atMs) - askedLatelyMs);
  const own = baths.every((t) => latest.includes(t.key)) ? latest.slice(-1) : latest;
  let turn: Turn = { state: { ...state, pending: null }, effects: [], facts: [] };
  for (const { key, vessel, liquid } of baths) {
    const lately = readSince(atMs - readLatelyMs).includes(key);
    const byItself = liquid === developerOf(config) && (lately || log.length === 0);
    const alone = byItself || own.includes(key);
    if (vessel === null || turn.state.pending || (others && alone)) continue;
    const heard = hearReading(turn.state, config, vessel, tempC, atMs);
    const doubt = heard.state.pending?.doubt.why;
    const unforeseen = doubt === 'other-vessel' || doubt === 'unexpected';
    if (unforeseen && others && lately) continue;
    const next = unforeseen ? resolve(heard.state, config, true, atMs) : heard;
    const effects = [...turn.effects, ...next.effects];
    turn = { state: next.state, effects, facts: [...(turn.facts ?? []), ...(next.facts ?? [])] };
  }
  return turn;
}

/** Whether this would be too hot to pour. */
const tooHot = (config: WarmConfig, { liquid }: Target, tempC: number): boolean =>
  liquid !== null && tempC > (config.liquids[liquid]?.highC ?? tempC);

/** A bath that stands in no bottle, and in a jug. */
const inJug = (of: LiquidId | VesselRef, jugs: World['jugs']): Target | null => {
  if (typeof of !== 'string' || !jugs[of]) return null;
  const vessel = { kind: 'jug' } as const;
  return { key: vesselKey(vessel), subject: { liquid: of, vessel }, liquid: of, vessel };
};

/** No bath is let cool below this, °C. Source: common practice */
const coldestC = 15;

/**
 * A reading that nobody spoke (a probe, told as a fact): taken in silence when it fits; when it does not, asked about
 * once, so that a fault does not talk without end. One that is already in the log is an echo.
 */
export function hearQuietly(
  before: WarmState,
  config: WarmConfig,
  fact: Extract<Fact, { type: 'temperature' }>,
  atMs: number,
): Turn {
  const state = opened(before, config, atMs);
  const target = targetOf(state, config, fact.vessel, fact.tempC);
  const echo = state.log.some(
    (r) => r.key === target?.key && r.tempC === fact.tempC && atMs - r.atMs < echoMs,
  );
  if (!target || echo) return { state: before, effects: [] };
  const turn = hearReading({ ...state, pending: null }, config, fact.vessel, fact.tempC, atMs);
  if (turn.state.pending) return state.pending ? { state: before, effects: [] } : turn;
  return { state: { ...turn.state, pending: state.pending }, effects: [] };
}

const echoMs = 2000;

/** The world hears of a reading that is in doubt, and of its being dropped. */
const doubtOf = ({ vessel }: PendingReading, tempC: number | null): Fact[] =>
  vessel === null ? [] : [{ type: 'reading-doubted', vessel, tempC }];

/** What a confirm would take: the likely meaning, the number itself, or nothing. */
const takeable = (doubt: WarmDoubt, tempC: number): number | null =>
  doubt.why === 'impossible' || doubt.why === 'fahrenheit'
    ? doubt.meantC
    : doubt.why === 'unlikely'
      ? (doubt.meantC ?? tempC)
      : tempC;

/** A reading that no bath in use has; ten times as much may have been meant. */
function unlikely(config: WarmConfig, { liquid }: Target, tempC: number): WarmDoubt | null {
  const bath = liquid === null ? undefined : config.liquids[liquid];
  const range = bath?.plausibleC;
  if (!bath || !range || (tempC >= range.minC && tempC <= range.maxC)) return null;
  const meantC = tempC * 10;
  return { why: 'unlikely', meantC: Math.abs(meantC - bath.aimC) <= nearAimC ? meantC : null };
}
/** A lost point is thought of so near a bath's aim, °C. */
const nearAimC = 6;

function spokenDoubt(state: WarmState, config: WarmConfig, doubt: Doubt): WarmDoubt {
  if (doubt.why === 'other-vessel') {
    const fits = targetAt(state, config, doubt.fits)?.subject;
    return fits ? { ...doubt, fits } : { why: 'unexpected', expectedC: doubt.expectedC };
  }
  if (doubt.why === 'not-a-room') {
    const fits = doubt.fits === null ? null : (targetAt(state, config, doubt.fits)?.subject ?? null);
    return { why: 'not-a-room', fits };
  }
  return doubt;
}

/** The answer to an open question. */
export function resolve(before: WarmState, config: WarmConfig, yes: boolean, atMs: number): Turn {
  const { pending } = before;
  if (!pending) return { state: before, effects: [] };
  const { subject, heardC, takeC } = pending;
  if (!yes) {
    return {
      state: { ...before, pending: null },
      facts: doubtOf(pending, null),
      effects: [say({ id: 'warm-dropped', subject, heardC }, atMs)],
    };
  }
  if (pending.doubt.why === 'which') {
    const { doubt } = pending;
    return {
      state: before,
      effects: [say({ id: 'warm-question', subject, heardC, doubt }, atMs, 'question')],
    };
  }
  if (takeC === null) {
    return { state: before, effects: [say({ id: 'warm-still-asking', subject, heardC }, atMs, 'question')] };
  }
  const clear: WarmState = { ...before, pending: null };
  const unforeseen = pending.doubt.why === 'other-vessel' || pending.doubt.why === 'unexpected';
  // the bench was wrong about this vessel: what it believed of its temperature goes
  const bench = clear.bench && unforeseen ? doubtVessel(clear.bench, pending.key, atMs) : clear.bench;
  return accept({ ...clear, bench }, config, pending, takeC, atMs, null);
}

/** Rinse water is noted for the review, and its cost to the bath after it is said. */
function rinseRead(state: WarmState, config: WarmConfig, tempC: number, atMs: number): Turn {
  const fact: Fact = { type: 'temperature', vessel: { kind: 'tap' }, liquid: 'water', tempC };
  const aims = Object.entries(config.liquids)
    .filter(([id]) => id !== developerOf(config))
    .map(([, l]) => l.aimC);
  const nextC = aims.length > 0 ? aims.reduce((s, a) => s + a, 0) / aims.length : tempC;
  const costC = config.tank ? rinseCostC(config.tank.build, tempC, config.tank.volumeMl, nextC) : 0;
  return {
    state,
    facts: [fact],
    effects: [say({ id: 'warm-rinse', tempC, costC }, atMs)],
  };
}

/** Readings kept for the picture. */
const logged = 300;

function accept(
  before: WarmState,
  config: WarmConfig,
  target: Target,
  tempC: number,
  atMs: number,
  instead: WarmDropped | null,
): Turn {
  const { key, subject } = target;
  if (key === hotTapKey || key === coldTapKey) {
    const taps = { ...before.taps, ...(key === hotTapKey ? { hotC: tempC } : { coldC: tempC }) };
    return { state: { ...before, taps }, effects: [say({ id: 'warm-noted', subject, tempC }, atMs)] };
  }
  if (key === rinseKey) return rinseRead(before, config, tempC, atMs);
  const sdC = config.thermometerSdC ?? defaultThermometerSdC;
  const fact = factOf(target, tempC);
  const open = opened(before, config, atMs);
  const placed =
    key === tubKey
      ? tubAsRead(open, config, open.bench, tempC, atMs)
      : placedFor(open.bench, config, target, atMs);
  const bench = takeReading(placed, { key, tempC, atMs, sdC });
  const log = [...open.log, { key, tempC, atMs }].slice(-logged);
  const { asked: _, ...known } = open;
  const state: WarmState = { ...known, bench, log };
  const facts = fact ? [fact] : [];
  const outlook = outlookOf(state, config, atMs);
  const bath = outlook?.baths.find((b) => b.key === key);
  if (!outlook || !bath) {
    return { state, facts, effects: [say({ id: 'warm-noted', subject, tempC }, atMs)] };
  }
  const baths = awaited(outlook);
  const allIn =
    baths.length > 1 && baths.every((b) => b.item.readAgoS !== null && b.readiness?.state === 'in');
  const allReady = allIn && !state.called.allReady;
  const message = {
    id: 'warm-reading' as const,
    // what was read is what is spoken, not what the fit makes of it
    item: { ...bath.item, subject, tempC },
    allReady,
    instead,
  };
  return { state, facts, effects: [say(message, atMs)] };
}

/** A vessel that nobody mentioned before (a jug, the tank, a new bottle) is put on the bench by its reading. */
function placedFor(
  bench: NonNullable<WarmState['bench']>,
  config: WarmConfig,
  target: Target,
  atMs: number,
): NonNullable<WarmState['bench']> {
  const { key } = target;
  if (key === roomKey || bench.vessels.some((v) => v.key === key)) return bench;
  const inTub = key === tankKey ? (config.tank?.standsInTub ?? false) : key.startsWith('bottle');
  return putVessel(
    bench,
    {
      key,
      placement: inTub ? 'tub' : 'air',
      volumeMl: key === tankKey ? (config.tank?.volumeMl ?? 600) : 600,
      material: 'plastic',
      tempC: { value: 30, sd: 15 },
    },
    atMs,
  );
}

function factOf(target: Target, tempC: number): Fact | null {
  if (!target.vessel) return null;
  return {
    type: 'temperature',
    vessel: target.vessel,
    ...(target.liquid === null ? {} : { liquid: target.liquid }),
    tempC,
  };
}
