import { hadS } from '../world/film.js';
import { learntS } from '../world/handling.js';
import type { Role } from '../world/liquids.js';
import type { World } from '../world/records.js';
import type { LiquidId } from '../world/vessel.js';
import { type DueStep, stepById, stepFor } from './due.js';
import { type CallKey, placeOf, type RunPosition } from './machine.js';
import type { Agitation, ProcessSheet } from './sheet.js';

/** The bath in the tank and its clock. Times on the bench clock, ms, unless the name says seconds. */
export interface BathClock {
  liquid: LiquidId;
  role: Role;
  /** the sheet's step whose times are used; null: none */
  step: DueStep | null;
  sinceMs: number;
  /** with added time, and without what an earlier stay in the same bath has done; null: the user ends it */
  aimS: number | null;
  leadS: number;
  agitation: Agitation | null;
}

/** A call and the exact time it is due on the bench clock, ms. */
export interface Deadline {
  call: CallKey;
  dueMs: number;
}

/** No regular agitation is called from here to the drain call: hands get ready to pour, s. */
export const tenSecondsS = 10;

/** A bath that still stands after its time is called out, so long after it, s. */
const overdueS = [15, 45, 105, 225];
/** A wrong bath is called out until it is out, s after it went in. */
const getOutS = [15, 30, 60];
/** A cleared pour that nobody said went in is asked about, s after the clearance. */
const inAskedS = 60;
/** … and so is a cleared return that nobody said is done, s after the clearance. */
const emptyAskedS = [40, 100];

/** The clock of what is in the tank; null: the tank is empty. */
export function bathClock(world: World, sheet: ProcessSheet, addedS: number): BathClock | null {
  const { bath } = world.tank;
  if (!bath) return null;
  const step = stepById(sheet, bath.stepId) ?? null;
  const fullS = bath.aimS ?? step?.time?.aimS ?? null;
  const aimS = fullS === null ? null : Math.max(5, fullS - hadS(bath.filmBefore, bath.role, fullS)) + addedS;
  return {
    liquid: bath.liquid,
    role: bath.role,
    step,
    sinceMs: bath.sinceMs,
    aimS,
    leadS: Math.min(
      leadOf(world, step ?? stepFor(sheet, bath.liquid)),
      (aimS ?? Number.POSITIVE_INFINITY) / 2,
    ),
    agitation: step?.agitation ?? null,
  };
}

/** The call to drain comes so long before the time is up as this tank takes to drain; as the sheet says until that is known. */
function leadOf(world: World, step: DueStep | null | undefined): number {
  const sheetS = step?.drain.leadS ?? 0;
  const learnt = learntS(world, 'drainS', world.tank.volumeMl);
  return sheetS === 0 || learnt === null ? sheetS : Math.round(learnt);
}

/** How long the liquid has touched the film, s. */
export const contactS = (clock: BathClock, atMs: number): number => (atMs - clock.sinceMs) / 1000;

/** What is left of the bath's time, s; below 0 it is over; null: it has none. */
export const leftS = (clock: BathClock, atMs: number): number | null =>
  clock.aimS === null ? null : clock.aimS - contactS(clock, atMs);

/** When the call to drain is due, ms; null: the user ends the bath. */
export const drainMs = (clock: BathClock): number | null =>
  clock.aimS === null ? null : clock.sinceMs + (clock.aimS - clock.leadS) * 1000;

/** How much too soon draining would be, s; null: it would not. */
export function earlyS(clock: BathClock | null, atMs: number): number | null {
  const time = clock?.step?.time;
  if (!clock || clock.aimS === null || !time) return null;
  const soonestS = clock.aimS - (time.aimS - time.minS) - clock.leadS;
  const short = soonestS - contactS(clock, atMs);
  return short > 0 ? short : null;
}

/** The calls that come next, all due at the same moment; none when nothing is timed. */
export function nextDeadlines(position: RunPosition, world: World, sheet: ProcessSheet): Deadline[] {
  const open = openCalls(position, world, sheet);
  return open.filter((d) => d.dueMs === open[0]?.dueMs);
}

/** Every call still to come, soonest first. */
export function openCalls(position: RunPosition, world: World, sheet: ProcessSheet): Deadline[] {
  const { calledMs } = position.context;
  return allCalls(position, world, sheet)
    .filter((d) => d.dueMs > calledMs)
    .sort((a, b) => a.dueMs - b.dueMs);
}

function allCalls(position: RunPosition, world: World, sheet: ProcessSheet): Deadline[] {
  const { context } = position;
  const clock = bathClock(world, sheet, context.addedS);
  // an empty reel waits for nothing
  if (!world.film.loaded) return [];
  switch (placeOf(position)) {
    case 'immersed':
      return clock ? immersedCalls(clock) : [];
    case 'draining':
      return clock ? drainingCalls(clock, position) : [];
    case 'pouring':
      return dryCalls(position, sheet);
    default:
      return [];
  }
}

/** A call so many seconds after a moment. */
const after = (call: CallKey, fromMs: number, s: number): Deadline => ({ call, dueMs: fromMs + s * 1000 });

function immersedCalls(clock: BathClock): Deadline[] {
  const at = (call: CallKey, s: number): Deadline => after(call, clock.sinceMs, s);
  if (clock.step === null && clock.role !== 'water') return getOutS.map((s) => at('get-out', s));
  const drainS = clock.aimS === null ? Number.POSITIVE_INFINITY : clock.aimS - clock.leadS;
  const calls: Deadline[] = [];
  if (Number.isFinite(drainS)) {
    calls.push(at('drain', drainS));
    if (drainS >= 2 * tenSecondsS) calls.push(at('ten-seconds', drainS - tenSecondsS));
  }
  const { restS, againS } = agitationPlan(clock.agitation, drainS);
  if (restS !== null) calls.push(at('rest', restS));
  return [...calls, ...againS.map((s) => at('agitate', s))];
}

/** Seconds into the bath: when the first continuous stretch ends, and when the regular agitations are called. */
export interface AgitationPlan {
  restS: number | null;
  againS: number[];
}

/** `drainS`: when the bath is drained; endless for one without a time, of which two hours are laid out. */
export function agitationPlan(a: Agitation | null, drainS: number): AgitationPlan {
  if (!a || a.style === 'still') return { restS: null, againS: [] };
  const lastS = drainS - tenSecondsS;
  const restS = a.initialS > 0 && a.initialS < lastS ? a.initialS : null;
  // regular agitations fall on multiples of their interval, after the first continuous stretch
  const everyS = a.everyS || Number.POSITIVE_INFINITY;
  const first = (Math.floor(a.initialS / everyS) + 1) * everyS;
  const againS: number[] = [];
  for (let s = first; s < Math.min(lastS, first + 7200); s += everyS) againS.push(s);
  return { restS, againS };
}

function drainingCalls(clock: BathClock, { context }: RunPosition): Deadline[] {
  const { drainMs: began, announced } = context;
  const aimMs = clock.aimS === null ? null : clock.sinceMs + clock.aimS * 1000;
  const next = pourNext(clock, aimMs, began);
  if (announced?.kind === 'out')
    return [...next, ...emptyAskedS.map((s) => after('empty-asked', announced.clearedMs, s))];
  if (aimMs === null) return next;
  return [...next, ...overdueS.map((s) => after('overdue', Math.max(aimMs, began ?? aimMs), s))];
}

/** When the next bath should go in; without a lead there is no moment between the two calls. */
function pourNext(clock: BathClock, aimMs: number | null, began: number | null): Deadline[] {
  if (clock.leadS === 0 || began === null) return [];
  return [
    { call: 'pour-next', dueMs: Math.min(aimMs ?? Number.POSITIVE_INFINITY, began + clock.leadS * 1000) },
  ];
}

function dryCalls({ context }: RunPosition, sheet: ProcessSheet): Deadline[] {
  const { announced } = context;
  if (announced?.kind !== 'in') return [];
  const step = stepFor(sheet, announced.liquid);
  const at = (s: number): Deadline => after('in-asked', announced.clearedMs, s);
  const overS = (step?.time?.aimS ?? 0) - (step?.drain.leadS ?? 0);
  return overS > inAskedS ? [at(inAskedS), at(overS)] : [at(inAskedS)];
}
