import { rateLaws } from '../thermal/rate-data.js';
import type { Fact } from '../world/fact.js';
import { expose, type FilmState, hadS } from '../world/film.js';
import { learntS } from '../world/handling.js';
import type { Role } from '../world/liquids.js';
import type { TankBath } from '../world/records.js';
import { contactOf } from '../world/reduce.js';
import { type BottleRef, type LiquidId, tank, type VesselRef, vesselKey } from '../world/vessel.js';
import { bottleAt, contentsOf, overflowMl, readingOf, volumeOf } from '../world/vessels.js';
import { type Due, dueOf, indexOf, stepById, stepFor, stepsOf } from './due.js';
import { type Move, weigh } from './guard.js';
import { bottleFor, type StepTime, stepTime } from './guard-checks.js';
import type { AskId } from './guard-resolve.js';
import { givesGas, type ReasonId, severity } from './guard-table.js';
import type { IntentOf } from './intent.js';
import { unanswered } from './left-open.js';
import type { Announced } from './machine.js';
import type { Named, Objection, RanOver, RunMessage, Slip } from './message.js';
import { bottleHolds, nowOf, objection, outletOf } from './now.js';
import { answerWithinMs, type Pending } from './pending.js';
import { liquidOf, liquidsUsed, roleOf } from './sheet.js';
import { atAimS, speedOf, tempState } from './temperature.js';
import { type BathClock, contactS, drainMs, earlyS, leftS } from './timing.js';
import type { Turn } from './turn.js';

/** A pour takes about this long, from the word to the film being covered, s. Source: common practice. */
export const fillS = 10;

/** "The bath is in": its clock starts, whether or not the pour was announced. */
export function bathIn(turn: Turn, intent: IntentOf<'bath-in'>) {
  const cleared = turn.context.announced;
  if (intent.instead && cleared?.kind === 'in' && cleared.liquid !== intent.liquid)
    turn.send({ type: 'WITHDRAWN' });
  const { announced, pending } = turn.context;
  const { bath } = turn.world.tank;
  const inHand = announced?.kind === 'in' ? announced : null;
  if (intent.liquid !== undefined && !liquidOf(turn.sheet, intent.liquid))
    return sayNoSuchLiquid(turn, intent.liquid);
  if (!turn.world.film.loaded || !['pouring', 'immersed', 'draining', 'hanging'].includes(turn.place))
    return beforeLoading(turn, intent.liquid);
  // what "it" is was just in question
  if (intent.liquid === undefined && !inHand && pending?.kind === 'pour' && pending.request.kind === 'in')
    return inAllTheSame(turn, pending);
  if (intent.liquid === undefined && bath && !inHand && restIsIn(turn)) return takeIn(turn, bath.liquid);
  if (intent.liquid === undefined && bath && !inHand)
    return askWhereItWent(turn, null) ? undefined : sayIn(turn);
  if (intent.liquid === undefined && !inHand && pending?.kind === 'pour') return whichBath(turn);
  const expected = inHand?.liquid ?? turn.due.step?.liquid ?? null;
  const liquid = intent.liquid ?? expected;
  if (liquid === null) return whichBath(turn);
  const sinceMs = turn.atMs - (intent.agoS ?? 0) * 1000;
  if (intent.liquid !== undefined && intent.liquid !== expected && doubtful(turn, intent.liquid)) {
    const heard = closeBaths(turn, liquid).map((id) => turn.named(id));
    return askIn(turn, liquid, sinceMs, heard);
  }
  // how long it has been in already is told, and no other filling
  if (bath?.liquid === liquid && intent.agoS && !inHand && sinceMs < bath.sinceMs + fillS * 1000)
    return sayIn(turn);
  if (bath && contradicts(turn, liquid, sinceMs))
    return turn.ask({ kind: 'bath-in', liquid, atMs: Math.max(sinceMs, bath.sinceMs) }, 'question', {
      id: 'in-instead',
      bath: turn.named(liquid),
      holds: turn.named(bath.liquid),
      sinceS: (turn.atMs - bath.sinceMs) / 1000,
      inferred: bath.inferred,
    });
  // another bath is in, and nobody said what became of the one that was to go in before it
  const unsaid = couldBeIn(turn);
  if (unsaid && liquid !== unsaid.liquid && roleOf(turn.sheet, liquid) !== 'water') {
    return askWasIn(turn, unsaid, { bath: liquid, sinceMs });
  }
  if (askWhereItWent(turn, { liquid, sinceMs })) return;
  const volumeMl = intent.volumeMl ?? (intent.share === undefined ? undefined : intent.share * turn.tankMl);
  takeIn(turn, liquid, {
    assumed: intent.liquid === undefined && !inHand,
    sinceMs,
    ...(volumeMl !== undefined && { volumeMl }),
  });
}

/** "Go", "start": no word that a bath is in, where none was spoken of. */
export function startNow(turn: Turn) {
  const { announced, pending } = turn.context;
  const { step, wash } = turn.due;
  const due = wash ? 'water' : step?.liquid;
  if (turn.place !== 'pouring' || announced || pending || !due) return bathIn(turn, { type: 'bath-in' });
  askIn(turn, due, turn.atMs);
}

/** Whether the cleared bath went in, before what was said next is taken up. */
export const askWasIn = (
  turn: Turn,
  { liquid, clearedMs }: Announced,
  next: Extract<Pending, { kind: 'was-in' }>['next'],
) =>
  turn.ask({ kind: 'was-in', liquid, clearedMs, next }, 'question', {
    id: 'was-it-in',
    bath: turn.named(liquid),
    agoS: (turn.atMs - clearedMs) / 1000,
  });

/** Whether it is this bath that is in, since then; `heard`: what else was heard. */
const askIn = (turn: Turn, liquid: LiquidId, atMs: number, heard: Named[] = []) =>
  turn.ask({ kind: 'bath-in', liquid, atMs }, 'question', {
    id: 'confirm-bath-in',
    bath: turn.named(liquid),
    heard,
  });

/** The bath in the tank does not fill it, and its bottle has more: "it's in" is of the rest. */
function restIsIn(turn: Turn): boolean {
  const { bath } = turn.world.tank;
  const held = bottleAt(turn.world, bath?.from)?.contents.volumeMl ?? 0;
  const missingMl = missingIn(turn);
  return bath?.role !== 'water' && missingMl > 0 && held >= missingMl;
}

export const isOld = (turn: Turn, pending: Pending): boolean => turn.atMs - pending.askedMs > answerWithinMs;

/** The bottle that the bath in the tank was refused, and what waits there. */
function refusedReturn(turn: Turn): { to: BottleRef; bath: TankBath; pending: Pending } | null {
  const { pending } = turn.context;
  const { bath } = turn.world.tank;
  const refused = pending?.kind === 'pour' && pending.verdict === 'ruinous' ? pending.request : null;
  const to = refused?.kind === 'back' ? refused.to : undefined;
  if (!pending || to?.kind !== 'bottle' || !bath || bath.role === 'water') return null;
  return { to, bath, pending };
}

/** A return was refused, and "it has gone in": just after, into that bottle; later it is asked where. */
export function wentAllTheSame(turn: Turn, sinceMs: number): boolean {
  const refused = refusedReturn(turn);
  if (!refused || turn.late || isOld(turn, refused.pending)) return askWhereItWent(turn, null);
  sayEmpty(turn, outInto(turn, refused.to, sinceMs, false));
  return true;
}

/** A return was refused, and the bath is out since: where it went is asked before anything else. */
export function askWhereItWent(turn: Turn, next: { liquid: LiquidId; sinceMs: number } | null): boolean {
  const refused = refusedReturn(turn);
  if (!refused) return false;
  const { to, bath } = refused;
  const found = weigh({ liquid: bath.liquid, from: tank, to, volumeMl: null }, turn.view);
  const message: RunMessage = {
    id: 'where-went',
    bath: turn.named(bath.liquid),
    bottle: to.number,
    ...objection(found, turn.view),
    gas: givesGas(found),
  };
  turn.ask({ kind: 'where-went', message, emptyMs: next?.sinceMs ?? turn.atMs, next }, 'warning', message);
  return true;
}

/** The answer to that: it is in this vessel. */
export function wentTo(
  turn: Turn,
  { emptyMs, next }: Extract<Pending, { kind: 'where-went' }>,
  to: VesselRef,
) {
  turn.send({ type: 'SETTLE' });
  const slip = outInto(turn, to, emptyMs, true);
  if (next) return takeIn(turn, next.liquid, { sinceMs: next.sinceMs });
  sayEmpty(turn, slip);
}

/** What was in the tank is in this vessel since then. What that did is said; that it did nothing, only where it was asked. */
export function outInto(turn: Turn, to: VesselRef, sinceMs: number, asked: boolean): Slip | null {
  const { bath, volumeMl } = turn.world.tank;
  if (!bath) return null;
  const move: Move = { liquid: bath.liquid, from: tank, to, volumeMl };
  const warn = to.kind === 'sink' && asked ? null : warningOf(turn, move);
  const over = runsOver(turn, move);
  const slip = emptyTank(turn, { to, sinceMs });
  turn.did();
  if (warn || asked || over.lostMl) sayPoured(turn, move, warn, over);
  return slip;
}

/** That it is not settled what was on the film has been said of one pour, and that is enough. */
export function doubtTold(turn: Turn, said: readonly ReasonId[]) {
  const { doubt } = turn.view.film;
  if (doubt && said.includes('film-doubted'))
    turn.fact({ type: 'film-doubted', ...turn.runId, of: [...doubt.of], asked: true });
}

/** Said of a pour that has happened: what it did, and what ran over. */
export function sayPoured(
  turn: Turn,
  { liquid, from, to }: Move,
  warn: Objection | null,
  over: RanOver = {},
) {
  turn.say(warn ? 'warning' : 'answer', {
    id: 'poured',
    bath: turn.named(liquid),
    from,
    to,
    warn,
    gas: givesGas(warn),
    ...over,
  });
  if (warn) doubtTold(turn, [warn.reason]);
}

/** What of a move does not go into its bottle, for the words about it. */
export function runsOver({ world }: Turn, { to, volumeMl }: Move): RanOver {
  const bottle = bottleAt(world, to);
  const lostMl = bottle ? overflowMl(bottle, volumeMl ?? 0) : 0;
  return lostMl > 0 ? { lostMl, ...(bottle?.capacityTold && { sizeTold: true }) } : {};
}

export const sayEmpty = (turn: Turn, slip: Slip | null, jugged: Named | null = null) =>
  turn.say(slip && !slip.harmless ? 'warning' : 'answer', {
    id: 'tank-is-empty',
    now: nowOf(turn),
    jugged,
    slip,
  });

/** What a pour that nobody asked about did; null: no harm. Being early is said by the slip. */
export function warningOf(turn: Turn, move: Move) {
  const found = weigh(move, { ...turn.view, earlyS: null });
  return severity[found.verdict] < severity.recoverable ? null : objection(found, turn.view);
}

/**
 * Said to be in while another bath works in the tank: out of its turn well before that one's time is up, water
 * even in its turn once that one works, or from before that one went in. A bath that was just spoken of is no
 * contradiction: the hands are at it.
 */
function contradicts(turn: Turn, liquid: LiquidId, sinceMs: number): boolean {
  const { clock, context } = turn;
  if (!clock || clock.role === 'water' || liquid === clock.liquid || context.announced) return false;
  if (context.pending?.kind === 'pour' && context.pending.request.liquid === liquid) return false;
  if (sinceMs < clock.sinceMs) return true;
  if (turn.place !== 'immersed' || earlyS(clock, turn.atMs) === null) return false;
  if (liquid !== nextAfter(turn)) return true;
  return roleOf(turn.sheet, liquid) === 'water' && contactS(clock, turn.atMs) > fillS;
}

/** Questions that leave open which bath it is that was in the hand. */
const openBath: ReadonlySet<string> = new Set<AskId>([
  'mismatch',
  'heard-two',
  'unsure-heard',
  'bottle-unknown',
]);

/** A pour that was asked about or warned of has happened: that bath is in. After a refusal it is asked. */
function inAllTheSame(turn: Turn, pending: Extract<Pending, { kind: 'pour' }>) {
  const { from, liquid: said } = pending.request;
  const liquid = said ?? bottleAt(turn.world, from)?.liquid;
  if (!liquid || openBath.has(pending.reason)) return whichBath(turn);
  if (pending.verdict !== 'ruinous') return takeIn(turn, liquid, from && { from });
  askIn(turn, liquid, turn.atMs);
}

const whichBath = (turn: Turn) => turn.ask({ kind: 'which-bath' }, 'question', { id: 'which-bath-in' });

/** A bath is in, and no word of the film: it counts from now once the film is said to be there. */
function beforeLoading(turn: Turn, liquid: LiquidId | undefined) {
  if (turn.place === 'idle' && liquid !== undefined)
    return turn.say('warning', { id: 'in-without-run', bath: turn.named(liquid) });
  const mayBeLoaded = ['preparing', 'warming', 'loading'].includes(turn.place);
  if (!mayBeLoaded || liquid === undefined) return turn.say('answer', { id: 'not-now', now: nowOf(turn) });
  turn.ask({ kind: 'bath-in', liquid, atMs: turn.atMs }, 'question', {
    id: 'film-first',
    bath: turn.named(liquid),
  });
}

const closeBaths = (turn: Turn, liquid: LiquidId): LiquidId[] =>
  turn.heard.close.flatMap((i) =>
    i.type === 'bath-in' && i.liquid && i.liquid !== liquid ? [i.liquid] : [],
  );

const doubtful = (turn: Turn, liquid: LiquidId): boolean =>
  turn.unsure || closeBaths(turn, liquid).length > 0;

export function sayIn(turn: Turn) {
  const { clock } = turn;
  if (!clock) return;
  turn.say('answer', {
    id: 'bath-already-in',
    bath: turn.named(clock.liquid),
    sinceS: contactS(clock, turn.atMs),
    leftS: leftS(clock, turn.atMs),
  });
}

export function sayNoSuchLiquid(turn: Turn, said: string) {
  const known = liquidsUsed(turn.sheet).map((id) => turn.named(id).name);
  turn.say('question', { id: 'no-such-liquid', said, known });
}

interface Filling {
  /** so much of it was said to be in, ml; left out: a tankful */
  volumeMl?: number;
  /** not named by the user: the bath that was due is taken */
  assumed?: boolean;
  sinceMs?: number;
  /** later words prove that it went in */
  inferred?: boolean;
  from?: VesselRef;
}

/** Takes a bath as being in the tank: what was there is out, the film, vessels and clock follow. */
export function takeIn(turn: Turn, liquid: LiquidId, filling: Filling = {}) {
  const { announced, pending } = turn.context;
  const sinceMs = filling.sinceMs ?? turn.atMs;
  const refused = pending?.kind === 'pour' && pending.verdict === 'ruinous' && pending.request.kind === 'in';
  const claimed = filling.from && holdsAnother(turn, filling.from, liquid) ? filling.from : undefined;
  const asked = pending?.kind === 'pour' && openBath.has(pending.reason) ? pending.request.from : undefined;
  const open = claimed ?? asked;
  turn.send({ type: 'SETTLE' });
  const { bath } = turn.world.tank;
  const said = announced?.kind === 'in' && announced.liquid === liquid ? announced : null;
  const again =
    bath?.liquid === liquid && bath.role !== 'water' && announced?.kind !== 'out' && !said && !refused;
  const missingMl = missingIn(turn);
  const topUp = bath?.liquid === liquid && announced?.kind !== 'out' && missingMl > 0;
  if (again && !topUp) return sayIn(turn);
  const unsaid = bath && !topUp && announced?.kind !== 'out' && whereTo(turn).kind === 'jug';
  const jugged = unsaid ? turn.named(bath.liquid) : null;
  // the water of a wash was changed: the wash goes on
  const rinsed = bath?.role === 'water' && bath.liquid === liquid && turn.place === 'immersed';
  const ended = !topUp ? emptyTank(turn, { sinceMs, inferred: true }) : null;
  // the next bath is in: what was short before it is not poured in again
  const slip = ended && !rinsed ? { ...ended, restS: null } : null;
  const from = (claimed ? undefined : filling.from) ?? said?.from ?? sourceOf(turn, liquid);
  const named = open?.kind === 'bottle' && vesselKey(open) !== vesselKey(from) ? open.number : null;
  const wholeMl = topUp ? missingMl : turn.tankMl;
  const volumeMl = Math.min(filling.volumeMl ?? said?.volumeMl ?? wholeMl, wholeMl);
  const move: Move = { liquid, from, to: tank, volumeMl };
  const found = weigh(move, turn.view);
  const wrong = found.verdict === 'ruinous' && !said?.overridden;
  const accepted = said !== null && !wrong;
  const warn =
    accepted || severity[found.verdict] < severity.recoverable ? null : objection(found, turn.view);
  const due = turn.due.step?.liquid ?? null;
  const stepId = wrong ? null : topUp ? bath.stepId : stepIdFor(turn, liquid);
  const time = fill(turn, move, {
    overridden: said?.overridden ?? false,
    stepId,
    sinceMs,
    ...(rinsed && { hadS: turn.world.film.washS }),
    inferred: filling.inferred ?? false,
    tookS: said && !filling.inferred ? (sinceMs - said.clearedMs) / 1000 : null,
  });
  if (!topUp) turn.send({ type: 'FILLED', atMs: turn.atMs });
  if (claimed) for (const fact of unanswered(turn.world, [{ bottle: claimed.number }])) turn.fact(fact);
  turn.did();
  if (warn) {
    turn.deviate(`${liquid} in without asking: ${warn.reason}`, undefined, [warn.reason]);
    doubtTold(turn, [warn.reason]);
  }
  const bathNamed = turn.named(liquid);
  if (filling.inferred) return;
  if (wrong && warn) {
    turn.say('warning', {
      id: 'wrong-bath-in',
      bath: bathNamed,
      ...warn,
      outlet: outletOf(turn, liquid),
      due: due === null || due === liquid ? null : turn.named(due),
    });
    return;
  }
  const { clock } = turn;
  const readTempC = turn.world.tank.bath?.readings.at(-1)?.tempC;
  const agoS = (turn.atMs - sinceMs) / 1000;
  turn.say(warn || (slip && !slip.harmless) || named !== null ? 'warning' : 'answer', {
    id: 'bath-in',
    bath: bathNamed,
    aimS: clock?.aimS ?? null,
    ...(turn.world.tank.bath?.aimS !== undefined && time !== null && { why: time.why }),
    agitation: clock?.agitation && agoS < clock.agitation.initialS ? clock.agitation : null,
    assumed: filling.assumed ?? false,
    ...(filling.volumeMl !== undefined && missingIn(turn) > 0 && { missingMl: missingIn(turn) }),
    agoS,
    slip,
    ...(jugged && { jugged }),
    warn,
    ...(named !== null && {
      named: {
        bottle: named,
        holds: bottleHolds(turn, named),
        ...(claimed && { own: from.kind === 'bottle' ? from.number : null }),
      },
    }),
  });
  if (warn && offTemp.has(warn.reason) && readTempC !== undefined) tankRead(turn, readTempC);
  const drain = clock && drainMs(clock);
  // it has been in for longer than it should already
  if (drain !== null && drain <= turn.atMs) {
    turn.send({ type: 'DRAIN', atMs: turn.atMs });
    sayDrain(turn, 'call', turn.atMs);
  }
}

/** A bottle that by the record holds another bath is no source of this one. */
function holdsAnother({ world }: Turn, from: VesselRef, liquid: LiquidId): from is BottleRef {
  const bottle = bottleAt(world, from);
  return (
    bottle !== undefined && bottle.contents.volumeMl > 0 && bottle.liquid !== null && bottle.liquid !== liquid
  );
}

/** What the tank lacks, ml; 0: too little to be poured in. */
function missingIn({ tankMl, world }: Turn): number {
  const missingMl = tankMl - world.tank.volumeMl;
  return missingMl > leastTopUpMl ? missingMl : 0;
}

/** Less than this is no part of a bath that is still to go in, ml. Source: common practice. */
const leastTopUpMl = 20;

/** In all the same: how long it takes at that warmth is offered; not in yet: how to make it right. */
export const offTemp: ReadonlySet<ReasonId> = new Set<ReasonId>(['developer-cold', 'developer-hot']);

/** Nobody said from where: the one bottle that holds it, a jug, or the tap. */
export function sourceOf(turn: Turn, liquid: LiquidId): VesselRef {
  if (roleOf(turn.sheet, liquid) === 'water') return { kind: 'tap' };
  // what stands in a jug is taken where its bottle cannot fill the tank
  const number = bottleFor(turn, liquid);
  const jugMl = turn.world.jugs[liquid]?.volumeMl ?? 0;
  return number === null || volumeOf(turn.world, number) < Math.min(jugMl, turn.tankMl)
    ? { kind: 'jug' }
    : { kind: 'bottle', number };
}

/** The step a liquid serves here: the one due, else another that uses it; water out of turn is one rinse more. */
function stepIdFor(turn: Turn, liquid: LiquidId): string | null {
  const { step } = turn.due;
  if (step?.liquid === liquid) return step.id;
  if (roleOf(turn.sheet, liquid) === 'water') return null;
  const later = stepsOf(turn.sheet).find((s) => s.liquid === liquid && isStillToCome(turn, s.id));
  return (later ?? stepFor(turn.sheet, liquid))?.id ?? null;
}

function fill(
  turn: Turn,
  move: Move,
  how: {
    overridden: boolean;
    stepId: string | null;
    sinceMs: number;
    inferred: boolean;
    tookS: number | null;
    /** of the same wash so far, s */
    hadS?: number;
  },
): StepTime | null {
  const held = contentsOf(turn.world, move.from, move.liquid)?.volumeMl ?? 0;
  // it is in, so the record of an empty bottle was wrong
  const wantedMl = move.volumeMl ?? turn.tankMl;
  const volumeMl = held > 0 ? Math.min(held, wantedMl) : wantedMl;
  const role = roleOf(turn.sheet, move.liquid) ?? 'water';
  // out of its turn it has its time to do all the same
  const step = stepById(turn.sheet, how.stepId) ?? stepFor(turn.sheet, move.liquid);
  const run = turn.world.run;
  const time =
    how.hadS !== undefined && step?.time
      ? { seconds: Math.max(fillS, step.time.aimS - how.hadS), why: 'the wash goes on' }
      : stepTime(turn.view, move.liquid, move.from);
  if (how.stepId !== null && run !== null) {
    const reading = readingOf(turn.world, move.liquid, move.from);
    turn.fact({
      type: 'step-started',
      runId: run.runId,
      stepId: how.stepId,
      liquid: move.liquid,
      ...(reading && { tempC: reading.tempC }),
    });
  }
  const fact: Fact = {
    type: 'poured',
    ...turn.runId,
    from: move.from,
    to: tank,
    liquid: move.liquid,
    volumeMl,
    overridden: how.overridden,
    role,
    ...(how.stepId !== null && { stepId: how.stepId }),
    ...(how.sinceMs !== turn.atMs && { sinceMs: how.sinceMs }),
    ...(how.inferred && { inferred: true }),
    ...(how.tookS !== null && how.tookS > 0 && { tookS: how.tookS }),
    ...(step?.time && { wantedS: (role === 'developer' ? null : time?.seconds) ?? step.time.aimS }),
    ...(how.stepId !== null && time !== null && { aimS: time.seconds }),
  };
  turn.fact(fact);
  return time;
}

/** Added time at most, s. */
const mostAddedS = 1800;

export function addTime(turn: Turn, { seconds, inAll }: IntentOf<'add-time'>) {
  const { clock } = turn;
  if (seconds < 0) return turn.say('question', { id: 'bad-seconds', seconds });
  const left = inAll && clock ? leftS(clock, turn.atMs) : null;
  if (!clock || left === null) return changeTime(turn, seconds);
  const more = seconds - contactS(clock, turn.atMs) - left;
  // so long it is in anyway
  return Math.abs(more) < 1 ? clockRuns(turn) : changeTime(turn, Math.round(more));
}

/** More time for the bath in the tank, or (below 0) less: not less than it has had. */
export function changeTime(turn: Turn, seconds: number) {
  const { clock } = turn;
  if (!clock || clock.aimS === null) return noClock(turn);
  if (!(Math.abs(seconds) >= 1 && Math.abs(seconds) <= mostAddedS))
    return turn.say('question', { id: 'bad-seconds', seconds });
  if (seconds < 0 && turn.place !== 'immersed') return sayIn(turn);
  const leastS = (turn.atMs - (drainMs(clock) ?? turn.atMs)) / 1000;
  if (seconds < leastS) return drain(turn);
  turn.send({ type: 'ADD', seconds });
  turn.did();
  const left = (turn.clock && leftS(turn.clock, turn.atMs)) ?? 0;
  const effect = effectAt(turn, turn.atMs + left * 1000);
  const told = effect !== null && Math.abs(effect) > worthSaying ? effect : null;
  turn.say(told === null ? 'answer' : 'warning', { id: 'time-added', seconds, leftS: left, effect: told });
}

const noClock = (turn: Turn) => turn.say('answer', { id: 'no-clock', now: nowOf(turn) });

/** The person is held up. The chemistry goes on: that is said, and the calls go on too. */
export function heldUp(turn: Turn) {
  const { clock } = turn;
  if (!clock) return noClock(turn);
  turn.fact({ type: 'note', ...turn.runId, text: `held up during ${turn.named(clock.liquid).name}` });
  turn.say('answer', { id: 'held-up', bath: turn.named(clock.liquid), leftS: leftS(clock, turn.atMs) });
}

/** "Go on", "resume": how long the bath has been in, and what is left of it. */
export function clockRuns(turn: Turn) {
  const { clock } = turn;
  if (!clock) return noClock(turn);
  const left = leftS(clock, turn.atMs);
  // a longer prebath does no more harm than water
  const harm = left !== null && left < 0 && clock.role !== 'water' && clock.role !== 'backing-remover';
  turn.say(harm ? 'warning' : 'answer', {
    id: 'clock-runs',
    bath: turn.named(clock.liquid),
    sinceS: contactS(clock, turn.atMs),
    leftS: left === null || clock.role !== 'water' ? left : Math.max(0, left),
  });
}

/** The user wants the liquid out: right away when the time allows, else only after a confirm. */
export function drain(turn: Turn, agreed = false) {
  const { clock } = turn;
  const { announced } = turn.context;
  // nothing can be drained unless it went in
  if (!clock && announced?.kind === 'in') return askIn(turn, announced.liquid, wentInMs(turn, announced));
  if (!clock) return turn.say('answer', { id: 'now', now: nowOf(turn) });
  const early = turn.place === 'immersed' ? earlyS(clock, turn.atMs) : null;
  if (early !== null && !agreed && clock.aimS !== null) {
    return turn.ask({ kind: 'drain-early' }, 'warning', {
      id: 'confirm-early',
      bath: turn.named(clock.liquid),
      doneS: contactS(clock, turn.atMs),
      aimS: clock.aimS,
    });
  }
  turn.send({ type: 'SETTLE' });
  turn.send({ type: 'DRAIN', atMs: turn.atMs });
  turn.did();
  sayDrain(turn, 'answer', turn.atMs);
}

/** The film once it has had its whole time in the bath that is in; null: no bath of the sheet is. */
export function filmAfter({ clock, world, atMs }: Turn): FilmState | null {
  const { bath } = world.tank;
  if (!clock?.step || !bath) return null;
  const had = contactOf(bath, atMs);
  return expose(bath.filmBefore, { ...had, seconds: Math.max(had.seconds, clock.aimS ?? had.seconds) });
}

/** What is due when the bath that is in has had its time; null: that hangs on no bath. */
export const dueAfter = (turn: Turn): Due | null => {
  const film = filmAfter(turn);
  return film && dueOf(film, turn.sheet);
};

/** The bath that follows the one in the tank; null: a rinse, or none. */
export function nextAfter(turn: Turn): LiquidId | null {
  const after = dueAfter(turn);
  if (after?.wash) return 'water';
  return after?.step?.fills == null ? (after?.step?.liquid ?? null) : null;
}

/** Says to drain, where the bath goes, and what comes next. */
export function sayDrain(turn: Turn, kind: 'answer' | 'call', dueMs: number) {
  const { clock } = turn;
  if (!clock) return;
  const next = nextAfter(turn);
  turn.say(
    kind,
    {
      id: 'drain',
      bath: turn.named(clock.liquid),
      outlet: outletOf(turn, clock.liquid),
      next: next === null ? null : turn.named(next),
    },
    dueMs,
  );
}

/** When a pour that was cleared and never said to be in was done, by how long they take. */
const wentInMs = (turn: Turn, { clearedMs }: Announced): number =>
  Math.min(turn.atMs, clearedMs + (learntS(turn.world, 'fillS', turn.tankMl) ?? fillS) * 1000);

/** A pour that was cleared and never said to be in has happened, since later words speak of it. */
export function inferIn(turn: Turn, announced: Announced, untilMs = turn.atMs): void {
  const sinceMs = Math.min(untilMs, wentInMs(turn, announced));
  takeIn(turn, announced.liquid, { inferred: true, sinceMs });
  turn.say('answer', {
    id: 'taken-in',
    bath: turn.named(announced.liquid),
    agoS: (turn.atMs - sinceMs) / 1000,
  });
}

/** A cleared pour is taken for done by later words only after it could be, s. */
export const couldBeInS = 15;

/** The cleared pour that nobody said is in, once it could be; null: none. */
export function couldBeIn({ context: { announced }, world, atMs }: Turn) {
  if (announced?.kind !== 'in' || world.tank.bath) return null;
  return atMs - announced.clearedMs >= couldBeInS * 1000 ? announced : null;
}

/** Where what is in the tank goes: where it was said to go, or in a jug when it is used again, or down the sink. */
export function whereTo(turn: Turn): VesselRef {
  const { announced } = turn.context;
  if (announced?.kind === 'out') return announced.to;
  const liquid = turn.world.tank.bath?.liquid;
  return liquid === undefined || outletOf(turn, liquid).to === 'sink' ? { kind: 'sink' } : { kind: 'jug' };
}

interface Emptying {
  sinceMs?: number;
  inferred?: boolean;
  to?: VesselRef;
}

/** Baths that work until there is nothing left to do, and then rest. Source: common practice. */
const endsItself: ReadonlySet<Role> = new Set<Role>(['bleach', 'fixer']);

/** What is due now belongs before that step, so that it will be given once more anyway. */
function isStillToCome({ sheet, due }: Turn, stepId: string | null): boolean {
  const at = indexOf(sheet, stepId);
  return at < 0 || indexOf(sheet, due.step?.id) <= at;
}

/** So much of the bath left the tank for this vessel. */
export const leaves = (turn: Turn, bath: TankBath, to: VesselRef, volumeMl: number, overridden: boolean) => ({
  type: 'poured' as const,
  ...turn.runId,
  from: tank,
  to,
  liquid: bath.liquid,
  volumeMl,
  overridden,
  role: bath.role,
});

/** A part of the bath was cleared for a bottle: it is there, and the rest still in the tank. False: no part was. */
export function pourPart(turn: Turn): boolean {
  const { announced } = turn.context;
  const { bath, volumeMl } = turn.world.tank;
  if (announced?.kind !== 'out' || announced.volumeMl === undefined || !bath) return false;
  const { to } = announced;
  const partMl = Math.min(announced.volumeMl, volumeMl);
  turn.send({ type: 'WITHDRAWN' });
  if (volumeMl - partMl < 1) return false;
  turn.fact(leaves(turn, bath, to, partMl, announced.overridden));
  return true;
}

/** The tank has run empty. Gives back what was not as it should be. */
export function emptyTank(turn: Turn, how: Emptying = {}): Slip | null {
  const { bath, volumeMl } = turn.world.tank;
  if (!bath) return null;
  const sinceMs = Math.max(bath.sinceMs, how.sinceMs ?? turn.atMs);
  const to = how.to ?? whereTo(turn);
  if (pourPart(turn))
    return emptyTank(turn, {
      ...how,
      ...(how.to ? {} : { to: { kind: 'jug' } }),
    });
  const { announced } = turn.context;
  const effectiveS = effectiveContactS(turn, sinceMs);
  const ended = endStep(turn, sinceMs);
  const imageBefore = bath.filmBefore.image;
  // from the word that it leaves to the word that it is out
  const drainedS = announced?.kind === 'out' ? (sinceMs - announced.clearedMs) / 1000 : 0;
  turn.fact({
    ...leaves(turn, bath, to, volumeMl, announced?.kind === 'out' && announced.overridden),
    ...(sinceMs !== turn.atMs && { sinceMs }),
    ...(how.inferred ? { inferred: true } : drainedS > 0 && { tookS: drainedS }),
    ...(effectiveS !== null && { effectiveS }),
  });
  turn.send({ type: 'FILM_MOVED_ON', world: turn.world });
  const lost = turn.world.film.image === 'lost' && imageBefore !== 'lost';
  if (lost)
    return {
      kind: 'lost',
      bath: turn.named(bath.liquid),
      ...{ doneS: 0, aimS: 0, effect: null, restS: null },
      ...(turn.world.film.doubt && { doubted: true }),
    };
  if (ended?.kind !== 'short') return ended && { ...ended, restS: null };
  // they only have to reach the end: what is missing can be given at any time before the next bath
  const restS =
    endsItself.has(bath.role) && !isStillToCome(turn, bath.stepId)
      ? ended.aimS - ended.doneS
      : turn.due.restS;
  return { ...ended, restS };
}

/** Seconds in the developer at the sheet's temperature, from what was read; null: no developer. */
function effectiveContactS(turn: Turn, atMs: number): number | null {
  const { clock, world } = turn;
  if (clock?.role !== 'developer') return null;
  const aimC = aimOf(turn, clock)?.aimC;
  if (aimC === undefined) return Math.max(0, atMs - clock.sinceMs) / 1000;
  return atAimS(turn.sheet.rate, aimC, world.tank.bath?.readings ?? [], clock.sinceMs, atMs);
}

const aimOf = (turn: Turn, clock: BathClock) => stepFor(turn.sheet, clock.liquid)?.temp ?? null;

/** What an earlier stay in the developer has done, s at the sheet's temperature. */
const developedS = (turn: Turn): number => (turn.world.tank.bath?.filmBefore ?? turn.world.film).developedS;

/** Share of development more (+) or less (−) than wanted, were the developer to leave now; null: no law, no developer. */
export function effectAt(turn: Turn, atMs: number): number | null {
  const wantedS = turn.clock?.step?.time?.aimS;
  const doneS = effectiveContactS(turn, atMs);
  if (turn.sheet.rate === undefined || wantedS === undefined || doneS === null) return null;
  return (developedS(turn) + doneS) / wantedS - 1;
}

/** What the developer in the tank will have done when its time is up, at the temperature read last. */
export interface Outcome {
  /** share of development more (+) or less (−) than wanted */
  effect: number;
  /** s more (+) or less (−) that would make up for it */
  changeS: number;
}

export function outcomeOf(turn: Turn): Outcome | null {
  const { clock, world, sheet, atMs } = turn;
  const aim = clock && aimOf(turn, clock);
  const tempC = world.tank.bath?.readings.at(-1)?.tempC;
  const doneS = effectiveContactS(turn, atMs);
  if (!clock?.aimS || !aim || tempC === undefined || doneS === null || sheet.rate === undefined) return null;
  const left = leftS(clock, atMs) ?? 0;
  const speed = speedOf(sheet.rate, aim.aimC, tempC);
  const wantedS = clock.step?.time?.aimS ?? clock.aimS;
  const missingS = wantedS - developedS(turn) - doneS - Math.max(0, left) * speed;
  return { effect: -missingS / wantedS, changeS: missingS / speed };
}

/** A change of the time smaller than this is not worth the words, s. */
const leastChangeS = 5;

/** The developer was read in the tank: what that does to the picture, and what would make up for it; false: nothing worth a word. */
export function tankRead(turn: Turn, tempC: number): boolean {
  const { clock } = turn;
  const aim = clock && aimOf(turn, clock);
  if (!clock || !aim) return false;
  const state = tempState(aim, tempC);
  if (clock.role !== 'developer') return state === 'cold' && worksSlowly(turn, clock, aim.aimC - tempC);
  const outcome = outcomeOf(turn);
  const off = state === 'cold' || state === 'hot';
  if (!off && Math.abs(outcome?.effect ?? 0) <= worthSaying) return false;
  if (off) turn.deviate(`temperature in the tank: ${tempC} °C, aim ${aim.aimC} °C`);
  const drain = drainMs(clock) ?? turn.atMs;
  const soonestS = (turn.atMs - drain) / 1000 + leastChangeS;
  const changeS = Math.round(Math.max(soonestS, outcome?.changeS ?? 0));
  const message: RunMessage = {
    id: 'tank-off',
    bath: turn.named(clock.liquid),
    offC: tempC - aim.aimC,
    effect: outcome?.effect ?? null,
    changeS:
      outcome === null || turn.place !== 'immersed' || Math.abs(changeS) < leastChangeS ? null : changeS,
    colour: turn.sheet.rate !== undefined && rateLaws[turn.sheet.rate].colour,
  };
  const { pending } = turn.context;
  if (message.changeS === null || (pending && pending.kind !== 'change-time')) turn.say('warning', message);
  else turn.ask({ kind: 'change-time', seconds: changeS }, 'warning', message);
  return true;
}

/** A bleach or a fixer in the tank is so much too cold, °C: it needs warmth, and what longer time the sheet allows. */
function worksSlowly(turn: Turn, { liquid, role, step, aimS }: BathClock, coldC: number): boolean {
  if (role !== 'bleach' && role !== 'fixer') return false;
  const longerS = step?.time && aimS !== null ? step.time.maxS - aimS - turn.context.addedS : 0;
  const may = turn.place === 'immersed' && longerS >= leastChangeS;
  const message: RunMessage = {
    id: 'tank-slow',
    bath: turn.named(liquid),
    offC: -coldC,
    longerS: may ? longerS : null,
  };
  const { pending } = turn.context;
  if (!may || (pending && pending.kind !== 'change-time')) turn.say('warning', message);
  else turn.ask({ kind: 'change-time', seconds: longerS }, 'warning', message);
  return true;
}

/** A bath is too long or too short only beyond what hands can keep, s. Source: common practice. */
const handsS = 5;
/** A development this far from the wanted one is worth a word, share. Source: common practice. */
export const worthSaying = 0.05;

/** Writes down how long the step really took; gives back what was wrong with it. */
function endStep(turn: Turn, atMs: number): Slip | null {
  const { clock, world } = turn;
  const run = world.run;
  const step = clock?.step;
  if (!clock || !step || !world.film.loaded) return null;
  const actualS = contactS(clock, atMs);
  const aimS = clock.aimS ?? actualS;
  if (run !== null)
    turn.fact({
      type: 'step-ended',
      runId: run.runId,
      stepId: step.id,
      plannedS: Math.round(aimS * 1000) / 1000,
      actualS,
      heldS: 0,
    });
  const { time } = step;
  if (!time) return null;
  const { bath: inTank } = world.tank;
  const fullS = inTank?.aimS ?? time.aimS;
  const before = inTank ? hadS(inTank.filmBefore, clock.role, fullS) : 0;
  const { addedS } = turn.context;
  // draining is part of the time: the bath works on until the next one goes in
  const shortS = fullS - (time.aimS - time.minS) - before - clock.leadS - 2 + Math.min(0, addedS);
  const longS = fullS + (time.maxS - time.aimS) - before + Math.max(0, addedS) + handsS;
  const effect = effectAt(turn, atMs);
  const tooLong = actualS > longS || (actualS > longS - handsS && effect !== null && effect > worthSaying);
  const kind =
    actualS < shortS ? 'short' : tooLong ? 'long' : offKind(effect, effectiveContactS(turn, atMs), actualS);
  // a longer wash does no harm
  if (kind === null || (kind === 'long' && clock.role === 'water')) return null;
  const bath = turn.named(clock.liquid);
  const share = offBy(kind, effect);
  turn.deviate(`time: ${Math.round(actualS)} s, planned ${Math.round(aimS)} s${share}`, step.id);
  const harmless = kind === 'long' && mayBeLong(clock.role) && actualS <= longestS;
  return { kind, bath, doneS: actualS, aimS, effect, restS: null, ...(harmless && { harmless }) };
}

/** What has bleached or fixed all there is, and a wash, does no more in minutes. Source: common practice. */
export const mayBeLong = (role: Role): boolean => role === 'bleach' || role === 'fixer' || role === 'water';
const longestS = 30 * 60;

const offBy = (kind: Slip['kind'], effect: number | null): string =>
  effect !== null && (kind === 'weak' || kind === 'strong')
    ? `, development ${effect > 0 ? '+' : ''}${Math.round(effect * 100)} %`
    : '';

/** In time, and yet too little or too much, by its temperature. */
function offKind(
  effect: number | null,
  effectiveS: number | null,
  actualS: number,
): 'weak' | 'strong' | null {
  if (effect === null || effectiveS === null) return null;
  const byWarmth = effectiveS / Math.max(1, actualS) - 1;
  if (Math.abs(effect) <= worthSaying || Math.abs(byWarmth) <= worthSaying) return null;
  return effect < 0 ? 'weak' : 'strong';
}
