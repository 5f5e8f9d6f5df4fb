import { expose, stageOf } from '../world/film.js';
import type { LiquidId, VesselRef } from '../world/vessel.js';
import type { Bath } from './bath.js';
import { put, take } from './bench.js';
import { type Move, weigh } from './guard.js';
import { stepFor } from './guard-checks.js';
import { carriedInto, intoTank } from './guard-table.js';
import type { IntentOf } from './intent.js';
import { bottleFor, named, nowOf, outletOf, spokenReason } from './now.js';
import { challenge, deviate, unsure } from './run-moves.js';
import { filmNow, tempOf } from './run-state.js';
import { emptyTank } from './run-tank.js';
import { roleOf, type SheetStep } from './sheet.js';
import type { Turn } from './turn.js';

const now = (turn: Turn) => nowOf(turn.core, turn.sheet, turn.atMs);
const tank: VesselRef = { kind: 'tank' };

/** "The bath is in": its clock starts, whether or not the pour was announced. */
export function bathIn(turn: Turn, intent: IntentOf<'bath-in'>) {
  const { announced } = turn.core;
  const expected = announced?.kind === 'in' ? announced.liquid : (turn.dueStep?.liquid ?? null);
  const canPour = ['pouring', 'immersed', 'draining', 'rinsing', 'hanging'].includes(turn.place);
  if (intent.liquid !== undefined && roleOf(turn.sheet, intent.liquid) === undefined)
    return sayNoSuchLiquid(turn, intent.liquid);
  if (!canPour || !turn.core.film.loaded) return beforeLoading(turn, intent.liquid);
  if (intent.liquid === undefined && (turn.place === 'immersed' || turn.place === 'draining') && !announced)
    return sayIn(turn);
  // what "it" is was just in question
  if (intent.liquid === undefined && !announced && turn.context.pending?.kind === 'pour')
    return whichBath(turn);
  const liquid = intent.liquid ?? expected;
  if (liquid === null) return whichBath(turn);
  if (intent.liquid !== undefined && intent.liquid !== expected && doubtful(turn, intent.liquid)) {
    challenge(turn, { kind: 'bath-in', liquid, atMs: turn.atMs });
    const heard = closeBaths(turn, liquid).map((id) => named(turn.sheet, id));
    return turn.say('question', { id: 'confirm-bath-in', bath: named(turn.sheet, liquid), heard });
  }
  takeIn(turn, liquid, intent.liquid === undefined && announced?.kind !== 'in');
}

export function whichBath(turn: Turn) {
  challenge(turn, { kind: 'which-bath' });
  turn.say('question', { id: 'which-bath-in' });
}

/** A bath is in, and no word of the film: it counts from now once the film is said to be there. */
function beforeLoading(turn: Turn, liquid: LiquidId | undefined) {
  const mayBeLoaded = ['preparing', 'warming', 'loading'].includes(turn.place);
  if (!mayBeLoaded || liquid === undefined) return turn.say('answer', { id: 'not-now', now: now(turn) });
  challenge(turn, { kind: 'bath-in', liquid, atMs: turn.atMs });
  turn.say('question', { id: 'film-first', bath: named(turn.sheet, liquid) });
}

const closeBaths = (turn: Turn, liquid: LiquidId): LiquidId[] =>
  turn.heard.close.flatMap((i) =>
    i.type === 'bath-in' && i.liquid && i.liquid !== liquid ? [i.liquid] : [],
  );

const doubtful = (turn: Turn, liquid: LiquidId): boolean =>
  unsure(turn.heard, turn.config.confidenceFloor) || closeBaths(turn, liquid).length > 0;

function sayIn(turn: Turn) {
  const bath = turn.context.bath;
  if (bath) turn.say('answer', { id: 'bath-already-in', bath: named(turn.sheet, bath.liquid) });
}

export function sayNoSuchLiquid(turn: Turn, said: string) {
  const known = [...new Set(turn.sheet.steps.flatMap((s) => (s.liquid === null ? [] : [s.liquid])))];
  turn.say('question', {
    id: 'no-such-liquid',
    said,
    known: known.map((id) => named(turn.sheet, id).name),
  });
}

/** Takes a bath as being in the tank since `startedMs`: film, bench, clock and facts follow. */
export function takeIn(turn: Turn, liquid: LiquidId, assumed: boolean, startedMs = turn.atMs) {
  turn.send({ type: 'SETTLE' });
  const inTank = turn.context.bath;
  const refill = turn.place === 'draining' && inTank?.role === 'water';
  if (inTank?.liquid === liquid && !refill) return sayIn(turn);
  if (turn.place === 'rinsing' && roleOf(turn.sheet, liquid) === 'water')
    return turn.say('answer', { id: 'now', now: now(turn) });
  if (inTank) emptyTank(turn);
  const said =
    turn.core.announced?.kind === 'in' && turn.core.announced.liquid === liquid ? turn.core.announced : null;
  const from = said?.from ?? sourceOf(turn, liquid);
  const move: Move = {
    direction: 'bottle-to-tank',
    liquid,
    from,
    to: tank,
    volumeMl: turn.core.bench.tankMl,
  };
  const found = weigh(move, turn.view);
  const wrong = found.verdict === 'ruinous' && !said?.overridden;
  const accepted = said !== null && !wrong;
  const warn =
    accepted || found.verdict === 'clear' || found.verdict === 'harmless'
      ? null
      : { reason: found.reason, about: spokenReason(found.params, turn.view) };
  const due = turn.dueStep?.liquid ?? null;
  fill(turn, move, said?.overridden ?? false);
  const bath = bathFor(turn, liquid, wrong, startedMs);
  turn.send({ type: 'BATH_IN', bath });
  turn.set({ announced: null });
  turn.deed('bath-in');
  if (warn) deviate(turn, `${liquid} in without asking: ${warn.reason}`);
  if (wrong && warn) {
    const outlet = outletOf(turn.core, turn.sheet, liquid);
    turn.say('warning', {
      id: 'wrong-bath-in',
      bath: named(turn.sheet, liquid),
      ...warn,
      outlet,
      due: due === null || due === liquid ? null : named(turn.sheet, due),
    });
    return;
  }
  if (bath.stepId !== null && turn.core.runId !== null) {
    const tempC = tempOf(turn.core, liquid, from, turn.atMs);
    const reading = tempC === null ? {} : { tempC };
    turn.fact({ type: 'step-started', runId: turn.core.runId, stepId: bath.stepId, liquid, ...reading });
  }
  const { aimS, agitation } = bath;
  turn.say(warn ? 'warning' : 'answer', {
    id: 'bath-in',
    bath: named(turn.sheet, liquid),
    aimS,
    agitation,
    assumed,
    warn,
  });
}

/** Nobody said from where: the one bottle that holds it, a jug, or the tap. */
function sourceOf(turn: Turn, liquid: LiquidId): VesselRef {
  if (roleOf(turn.sheet, liquid) === 'water') return { kind: 'tap' };
  const number = bottleFor(turn.core, liquid);
  return number === null ? { kind: 'jug' } : { kind: 'bottle', number };
}

function fill(turn: Turn, move: Move, overridden: boolean) {
  const film = turn.core.film;
  const role = roleOf(turn.sheet, move.liquid);
  const { tankMl } = turn.core.bench;
  const [rest, out] = take(turn.core.bench, move.from, move.liquid, tankMl);
  // it is in, so the record of an empty bottle was wrong
  const volumeMl = out.volumeMl > 0 ? out.volumeMl : tankMl;
  const carried = film.carry !== null && role ? carriedInto[film.carry]?.[role] : undefined;
  const verdict = carried?.[0];
  const tainted =
    film.carry !== null && (verdict === 'recoverable' || verdict === 'ruinous')
      ? { by: film.carry, verdict }
      : null;
  turn.set({ bench: put(rest, tank, { liquid: move.liquid, volumeMl, tainted }) });
  turn.fact({
    type: 'poured',
    ...turn.runId,
    from: move.from,
    to: tank,
    liquid: move.liquid,
    volumeMl,
    overridden,
  });
}

function bathFor(turn: Turn, liquid: LiquidId, wrong: boolean, startedMs: number): Bath {
  const role = roleOf(turn.sheet, liquid) ?? 'water';
  const { stepIndex } = turn.context;
  const base = {
    liquid,
    role,
    startedMs,
    heldMs: 0,
    heldAtMs: null,
    agitated: 0,
    called: [],
  };
  const found = wrong ? null : stepOf(turn, liquid, role === 'water');
  if (!found) return { ...base, stepId: null, advanceTo: stepIndex, aimS: null, leadS: 0, agitation: null };
  const { step, index } = found;
  return {
    ...base,
    stepId: step.id,
    advanceTo: index >= stepIndex && !dueStillWanted(turn, step, index) ? index + 1 : stepIndex,
    aimS: step.time?.aimS ?? null,
    leadS: step.drain.leadS,
    agitation: step.agitation,
  };
}

/** The step a liquid means here: the one due, else the next that uses it, else an earlier one again. */
function stepOf(turn: Turn, liquid: LiquidId, isWater: boolean): { step: SheetStep; index: number } | null {
  const { steps } = turn.sheet;
  const { stepIndex } = turn.context;
  const due = steps[stepIndex];
  if (due?.liquid === liquid) return { step: due, index: stepIndex };
  // water out of turn is one rinse more, it does not skip ahead
  if (isWater) return null;
  const ahead = steps.findIndex((s, i) => i > stepIndex && s.liquid === liquid);
  const step = ahead >= 0 ? steps[ahead] : stepFor({ sheet: turn.sheet }, liquid);
  return step ? { step, index: ahead >= 0 ? ahead : -1 } : null;
}

/** A bath out of turn: is a bath that should have come before it still of use to the film afterwards? */
function dueStillWanted(turn: Turn, step: SheetStep, index: number): boolean {
  const role = step.liquid ? roleOf(turn.sheet, step.liquid) : undefined;
  if (index === turn.context.stepIndex || !role) return false;
  const after = expose(filmNow(turn.core, turn.atMs), { role, seconds: step.time?.aimS ?? 60 });
  const missed = turn.sheet.steps.slice(turn.context.stepIndex, index).flatMap((s) => {
    const missedRole = s.liquid ? roleOf(turn.sheet, s.liquid) : undefined;
    return missedRole && missedRole !== 'water' ? [missedRole] : [];
  });
  return missed.some((r) => intoTank[stageOf(after)][r][0] === 'clear');
}
