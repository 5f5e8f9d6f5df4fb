import { dangersBetween } from '../chemistry/fitness.js';
import { disposalOf } from '../chemistry/safety/disposal.js';
import { comesAsGas } from '../chemistry/safety/incompatible.js';
import { formsNamed } from '../chemistry/substances.js';
import { contaminationIn, formulasHold, withLastOnly } from '../world/contamination.js';
import { learntS } from '../world/handling.js';
import type { BottleRecord, TankBath } from '../world/records.js';
import { lastBath } from '../world/reduce.js';
import { runAtWork } from '../world/run-record.js';
import { type LiquidId, tank, type VesselRef, vesselKey } from '../world/vessel.js';
import { bottleAt, bottleOf, jugsOf, volumeOf } from '../world/vessels.js';
import { furtherCautions } from './cautions.js';
import { type Judgement, judge, type Move, type PourRequest, type Weighed } from './guard.js';
import { bottleFor, filmFinding, fitnessOf, gasIn } from './guard-checks.js';
import { type AskId, inJugFor } from './guard-resolve.js';
import { carriedIntoOf, givesGas, lacking, type ReasonId, severity } from './guard-table.js';
import type { Intent, IntentOf } from './intent.js';
import type { Announced } from './machine.js';
import type { Named, RunMessage } from './message.js';
import { nowOf, objection, objectionTo, spokenMove, spokenReason } from './now.js';
import {
  askWasIn,
  bathIn,
  couldBeIn,
  couldBeInS,
  doubtTold,
  emptyTank,
  fillS,
  inferIn,
  leaves,
  nextAfter,
  outInto,
  pourPart,
  runsOver,
  sayEmpty,
  sayIn,
  sayNoSuchLiquid,
  sayPoured,
  takeIn,
  warningOf,
  wentAllTheSame,
  wentTo,
} from './run-baths.js';
import { liquidOf } from './sheet.js';
import { kindOf } from './sink.js';
import type { Turn } from './turn.js';

type PourIntent = IntentOf<'pour-in' | 'pour-back' | 'pour-between' | 'pour-away'>;

/** The user says liquid is about to move: judge it, and clear, ask, warn or refuse. */
export function pour(turn: Turn, intent: PourIntent) {
  if (intent.type !== 'pour-in' && answersWhere(turn, intent, toOf(intent))) return;
  consider(turn, answering(turn, outOfItsBottle(turn, requestOf(intent))));
}

/** The bath that is due, "in" the bottle that it stands in, and none of it in a jug: as if no vessel had been said. */
function outOfItsBottle(turn: Turn, request: PourRequest): PourRequest {
  const { kind, liquid, from, to, volumeMl } = request;
  const { tank: held, jugs } = turn.world;
  const isDue = liquid !== undefined && turn.place === 'pouring' && turn.due.step?.liquid === liquid;
  if (kind !== 'between' || held.bath || !isDue || jugs[liquid] || volumeMl !== undefined) return request;
  if ((from && from.kind !== 'jug') || bottleAt(turn.world, to)?.liquid !== liquid) return request;
  return { kind: 'in', liquid };
}

const toOf = (intent: Exclude<PourIntent, { type: 'pour-in' }>): VesselRef | undefined =>
  intent.type === 'pour-away' ? { kind: 'sink' } : intent.to;

/** "Where did it go?" is answered by any sentence that names a vessel for that bath. */
function answersWhere(
  turn: Turn,
  { liquid, from }: { liquid?: LiquidId; from?: VesselRef },
  to: VesselRef | undefined,
): boolean {
  const { pending } = turn.context;
  const { bath } = turn.world.tank;
  if (pending?.kind !== 'where-went' || to === undefined || to.kind === 'tank') return false;
  if ((liquid !== undefined && liquid !== bath?.liquid) || from?.kind === 'bottle') return false;
  wentTo(turn, pending, to);
  return true;
}

const completed = (request: PourRequest, { liquid, vessel }: IntentOf<'part'>): PourRequest => {
  const place = request.kind === 'in' || request.kind === 'away' ? 'from' : 'to';
  return { ...request, ...(liquid && { liquid }), ...(vessel && { [place]: vessel }) };
};

function consider(turn: Turn, request: PourRequest) {
  const doubt = heardDoubt(turn, request);
  if (doubt) {
    const { liquid } = request;
    const place = request.kind === 'in' ? request.from : request.to;
    const params = { ...(liquid && { liquid }), ...(place?.kind === 'bottle' && { bottle: place.number }) };
    const open = { verdict: 'ask', reason: doubt.ask, params, proposal: request, stake: null } as const;
    return answerAsk(turn, request, [], open, doubt.heard);
  }
  if (isIn(turn, request)) return sayIn(turn);
  if (catchUp(turn, request)) decide(turn, request, []);
}

/** The same bath again, while the tank is full of it: nothing to top up. */
function isIn(turn: Turn, { kind, liquid }: PourRequest): boolean {
  const { bath, volumeMl } = turn.world.tank;
  if (kind !== 'in' || !bath || bath.role === 'water' || turn.place !== 'immersed') return false;
  return liquid === bath.liquid && volumeMl >= turn.tankMl;
}

/**
 * What these words prove to have happened, and nobody said: a cleared bath went in when it is now to come out; a
 * cleared return is done when the next bath is to go in. False: that has to be asked first.
 */
function catchUp(turn: Turn, request: PourRequest): boolean {
  const { announced } = turn.context;
  const { bath } = turn.world.tank;
  const leaving = request.kind === 'back' || (request.kind === 'away' && request.from?.kind !== 'bottle');
  if (leaving && request.from?.kind !== 'jug' && request.liquid !== undefined)
    inferNext(turn, request.liquid);
  const elsewhere =
    announced?.kind === 'out' && request.to && vesselKey(request.to) !== vesselKey(announced.to);
  if (leaving && elsewhere && pourPart(turn)) return true;
  if (!announced) return true;
  const same = request.liquid === undefined || request.liquid === announced.liquid;
  if (announced.kind === 'in' && !bath && leaving && same && request.from?.kind !== 'jug') {
    inferIn(turn, announced);
    return true;
  }
  if (announced.kind === 'out' && bath && request.kind === 'in') {
    const from = turn.named(bath.liquid);
    emptyTank(turn, { inferred: true, sinceMs: inferredEmptyMs(turn, announced) });
    turn.say('answer', { id: 'taken-out', bath: from, to: announced.to });
    return true;
  }
  const other = request.kind === 'in' && request.liquid !== undefined && request.liquid !== announced.liquid;
  const unsaid = couldBeIn(turn);
  if (!unsaid || !other || !turn.world.film.loaded) return true;
  askWasIn(turn, unsaid, request);
  return false;
}

/**
 * A bath leaves the tank that nobody said was in. It is the one that was due, or called: then what was in before it came
 * out when that was called, or said to, and it went in right after.
 */
function inferNext(turn: Turn, liquid: LiquidId) {
  const { announced, drainMs } = turn.context;
  const { film, tank, jugs } = turn.world;
  const { bath } = tank;
  if (!film.loaded || jugs[liquid] || (announced?.kind === 'in' && !bath)) return;
  const called = bath
    ? turn.place === 'draining' && liquid !== bath.liquid && liquid === nextAfter(turn)
    : false;
  const due = !bath && turn.place === 'pouring' && turn.due.wash === null && turn.due.step?.liquid === liquid;
  if (!called && !due) return;
  const last = film.history.at(-1);
  const outMs = bath
    ? announced
      ? inferredEmptyMs(turn, announced)
      : (drainMs ?? turn.atMs) + emptyingS * 1000
    : (last?.fromMs ?? turn.atMs) + (last?.seconds ?? 0) * 1000;
  if (turn.atMs - outMs < couldBeInS * 1000) return;
  const sinceMs = outMs + (bath ? 0 : fillS * 1000);
  takeIn(turn, liquid, { inferred: true, sinceMs });
  const out = bath ? turn.named(bath.liquid) : null;
  turn.say('answer', { id: 'taken-next', out, bath: turn.named(liquid), agoS: (turn.atMs - sinceMs) / 1000 });
}

/** Draining takes about this long, s. Source: common practice. */
const emptyingS = 15;
const inferredEmptyMs = (turn: Turn, announced: Announced): number => {
  const took = learntS(turn.world, 'drainS', turn.world.tank.volumeMl) ?? emptyingS;
  return Math.min(turn.atMs, announced.clearedMs + took * 1000);
};

const requestOf = ({ type, ...said }: PourIntent): PourRequest => ({
  kind: type.slice('pour-'.length) as PourRequest['kind'],
  ...said,
});

/** A part alone, such as "from bottle 2", fills the gap that was asked about; what was said now counts. */
function answering(turn: Turn, said: PourRequest): PourRequest {
  const { pending } = turn.context;
  if (pending?.kind !== 'pour' || pending.verdict !== 'ask' || pending.request.kind !== said.kind)
    return said;
  if (pending.reason === 'heard-two' || pending.reason === 'unsure-heard') return said;
  const complete = said.liquid !== undefined && (said.from !== undefined || said.to !== undefined);
  return complete ? said : { ...pending.request, ...said };
}

const isPour = (intent: Intent): intent is PourIntent => intent.type.startsWith('pour-');

/** Sound that could have been another bath or bottle, or that was hardly heard at all. */
function heardDoubt(turn: Turn, request: PourRequest): { ask: AskId; heard: Named[] } | null {
  const rivals = turn.heard.close
    .flatMap((i) => (isPour(i) ? [requestOf(i)] : i.type === 'part' ? [completed(request, i)] : []))
    .filter((r) => differs(r, request));
  if (rivals.length > 0) {
    const heard = [request, ...rivals].flatMap((r) => (r.liquid === undefined ? [] : [turn.named(r.liquid)]));
    return { ask: 'heard-two', heard };
  }
  return turn.unsure ? { ask: 'unsure-heard', heard: [] } : null;
}

/** Two readings contradict each other; one that merely says less does not. */
const differs = (a: PourRequest, b: PourRequest): boolean =>
  a.kind !== b.kind ||
  clash(a.liquid, b.liquid) ||
  clash(a.from && vesselKey(a.from), b.from && vesselKey(b.from)) ||
  clash(a.to && vesselKey(a.to), b.to && vesselKey(b.to));
const clash = (a: string | undefined, b: string | undefined): boolean =>
  a !== undefined && b !== undefined && a !== b;

/** Everything that speaks against a move, the worst first. */
const against = (judged: Weighed): ReasonId[] => [
  ...(severity[judged.verdict] >= severity.recoverable ? [judged.reason] : []),
  ...judged.also.map((a) => a.reason),
];

/** Judges a request and answers; `accepted` is what the user has just agreed to. */
export function decide(
  turn: Turn,
  request: PourRequest,
  vouched: AskId[],
  accepted: { verdict: 'recoverable' | 'ruinous'; named: ReasonId[] } | null = null,
) {
  const judgement = judge(request, turn.view, vouched);
  if (judgement.verdict === 'ask') {
    turn.send({ type: 'WITHDRAWN' });
    return answerAsk(turn, request, vouched, judgement);
  }
  const { verdict, reason, move, checks } = judgement;
  const also = judgement.also.map((a) => objection(a, turn.view));
  const worst = objection(judgement, turn.view);
  const spoken = spokenMove(move, turn.view);
  if (verdict === 'clear' || verdict === 'harmless') {
    goAhead(turn, move, vouched, false, against(judgement));
    const harmless = verdict === 'harmless';
    // what was left out on purpose is in nobody's way, and is said
    const leftOut = harmless && lacking[reason] !== undefined;
    turn.say(leftOut ? 'warning' : 'answer', {
      id: 'clear',
      move: spoken,
      ...worst,
      checks,
      harmless,
      leftOut,
    });
    return;
  }
  const named = against(judgement);
  const agreed =
    accepted !== null &&
    severity[accepted.verdict] >= severity[verdict] &&
    named.every((r) => accepted.named.includes(r));
  if (agreed) {
    const why = named.join(', ');
    // it was asked about, and that is enough
    const doubt = move.from.kind === 'bottle' && turn.world.bottles[move.from.number]?.doubt;
    if (move.from.kind === 'bottle' && doubt && named.includes(doubt))
      turn.fact({ type: 'bottle-doubted', bottle: move.from.number, doubt: null });
    doubtTold(turn, named);
    // what was said against a bath that goes back all the same is in its bottle from then on
    if (move.to.kind === 'bottle' && named.includes('said-against'))
      turn.fact({ type: 'bottle-doubted', bottle: move.to.number, doubt: 'unanswered' });
    if (verdict === 'ruinous')
      turn.fact({ type: 'overridden', ...turn.runId, move: describe(move), verdict, why });
    else turn.deviate(`${describe(move)}: ${why}`, undefined, move.to.kind === 'tank' ? named : []);
    const over = runsOver(turn, move);
    goAhead(turn, move, vouched, verdict === 'ruinous', named);
    const overridden = verdict === 'ruinous' ? [worst, ...also] : [];
    turn.say('answer', { id: 'overridden', move: spoken, checks, overridden, ...over });
    return;
  }
  turn.send({ type: 'WITHDRAWN' });
  turn.ask(
    { kind: 'pour', request, vouched, verdict, reason, named },
    'warning',
    verdict === 'ruinous'
      ? { id: 'ruinous', move: spoken, ...worst, also }
      : { id: 'recoverable', move: spoken, ...worst, also, checks },
  );
}

function answerAsk(
  turn: Turn,
  request: PourRequest,
  vouched: AskId[],
  judgement: Extract<Judgement, { verdict: 'ask' }>,
  heard: Named[] = [],
) {
  const { reason, params, proposal, stake } = judgement;
  // nothing of it stands here: then it is asked where such a bath goes
  if (reason === 'nothing-to-pour' && request.kind === 'away' && request.liquid !== undefined)
    return turn.say('answer', {
      id: 'where-it-goes',
      lines: disposalOf(request.liquid, !formulasHold(turn.sheet)),
    });
  const message: RunMessage = {
    id: 'ask',
    ask: reason,
    bath: params.liquid === undefined ? null : turn.named(params.liquid),
    holds: params.holds === undefined ? null : turn.named(params.holds),
    bottle: params.bottle ?? null,
    candidates: params.candidates ?? [],
    stake,
    about:
      stake === null ? null : spokenReason({ liquid: params.holds ?? params.liquid ?? 'water' }, turn.view),
    heard,
  };
  turn.ask(
    { kind: 'pour', request, vouched, verdict: 'ask', reason, proposal },
    stake === null ? 'question' : 'warning',
    message,
  );
}

const describe = (move: Move): string =>
  `${move.liquid} from ${vesselKey(move.from)} to ${vesselKey(move.to)}`;

/** A cleared pour: into or out of the tank it is only announced; between vessels it is taken as done. */
function goAhead(turn: Turn, move: Move, vouched: AskId[], overridden: boolean, against: ReasonId[]) {
  turn.send({ type: 'SETTLE' });
  const { liquid, from, to, volumeMl } = move;
  if (to.kind === 'tank' && vouched.includes('tank-not-empty')) emptyTank(turn, { inferred: true });
  turn.did();
  if (to.kind !== 'tank' && from.kind !== 'tank') return moveBetween(turn, move, overridden);
  if (to.kind !== 'tank') turn.send({ type: 'DRAIN', atMs: turn.atMs });
  const wholeMl = to.kind === 'tank' ? turn.tankMl : turn.world.tank.volumeMl - 1;
  const part = volumeMl !== null && volumeMl < wholeMl ? { volumeMl } : {};
  const way = to.kind === 'tank' ? ({ kind: 'in', from } as const) : ({ kind: 'out', to } as const);
  const announced = { ...way, liquid, overridden, clearedMs: turn.atMs, against, ...part };
  turn.send({ type: 'CLEARED', announced });
}

function moveBetween(turn: Turn, move: Move, overridden: boolean) {
  const { from, to, liquid, volumeMl } = move;
  if (!volumeMl) return;
  turn.fact({ type: 'poured', ...turn.runId, from, to, liquid, volumeMl, overridden });
}

/** What has been cleared, as a request, to be judged again. */
const requestOfCleared = (said: Announced): PourRequest => ({
  liquid: said.liquid,
  ...(said.volumeMl !== undefined && { volumeMl: said.volumeMl }),
  ...(said.kind === 'in' ? { kind: 'in', from: said.from } : { kind: 'back', to: said.to, from: tank }),
});

/**
 * A pour that was cleared and has not happened is judged again when anything has changed since. What is no longer
 * right is taken back aloud.
 */
export function recheckCleared(turn: Turn) {
  const said = turn.context.announced;
  if (!said || said.overridden) return;
  const request = requestOfCleared(said);
  const vouched: AskId[] = ['film-unknown', 'tank-not-empty', 'jug-unknown'];
  const found = judge(request, turn.view, vouched);
  const news =
    found.verdict === 'ask'
      ? found.reason === 'mismatch' || found.reason === 'bottle-unknown' || found.reason === 'bottle-empty'
      : against(found).some((r) => !said.against.includes(r));
  if (news) decide(turn, request, vouched);
}

/** A pour that waits is judged again when what it hangs on has changed. */
export function judgeAgain(turn: Turn) {
  const { pending } = turn.context;
  if (pending?.kind !== 'pour') return;
  const heardDoubt = pending.reason === 'heard-two' || pending.reason === 'unsure-heard';
  if (pending.verdict === 'ruinous' || heardDoubt) return;
  decide(turn, pending.request, pending.vouched);
}

/** "Bleach", or "bottle two": what was asked about or warned of with that part in it, or the pour in hand from somewhere else, is judged afresh. */
export function withPart(turn: Turn, said: IntentOf<'part'>): boolean {
  if (answersWhere(turn, said, said.vessel)) return true;
  const { pending, announced } = turn.context;
  const request = pending?.kind === 'pour' ? pending.request : announced && requestOfCleared(announced);
  if (!request) return false;
  consider(turn, completed(request, said));
  return true;
}

/** "Wait", "not yet", "wrong bottle": the pour in hand is called off. */
export function callOff(turn: Turn): boolean {
  const { announced, pending } = turn.context;
  if (!announced && !pending) return false;
  const liquid = announced?.liquid ?? (pending?.kind === 'pour' ? pending.request.liquid : undefined);
  turn.send({ type: 'WITHDRAWN' });
  turn.did();
  turn.say('answer', {
    id: 'called-off',
    bath: liquid === undefined ? null : turn.named(liquid),
    now: nowOf(turn),
  });
  return true;
}

/** A pour that has happened already: the world follows, and what it did is said. */
export function poured(turn: Turn, said: IntentOf<'poured'>) {
  const { liquid, from, toOf, volumeMl, agoS } = said;
  const sinceMs = turn.atMs - (agoS ?? 0) * 1000;
  if (liquid !== undefined && !liquidOf(turn.sheet, liquid)) return sayNoSuchLiquid(turn, liquid);
  const number = toOf === undefined ? null : bottleFor(turn, toOf);
  const to: VesselRef | undefined = number === null ? said.to : { kind: 'bottle', number };
  if (toOf !== undefined && to === undefined) return turn.say('question', { id: 'poured-what' });
  const { bath } = turn.world.tank;
  const left = bath?.liquid ?? liquid ?? lastBath(turn.world);
  const ofBath =
    said.share !== undefined && !bath && !from && liquid !== undefined ? bottleFor(turn, liquid) : null;
  const source = bottleAt(turn.world, from) ?? (ofBath === null ? undefined : turn.world.bottles[ofBath]);
  if (said.some && source?.liquid) return someOf(turn, source, to, volumeMl);
  if (said.some && left !== null) return someInto(turn, left, to, volumeMl);
  if (to?.kind === 'jug' && !bath && volumeMl === undefined) return measuredOut(turn, said);
  if (answersWhere(turn, said, to)) return;
  const { announced } = turn.context;
  // with its call to come out given, "the developer is back" tells of the bath that was in
  const leaves = to === undefined ? turn.place === 'draining' && liquid !== undefined : to.kind !== 'tank';
  const outOfTank =
    from?.kind === 'tank' ||
    (bath && from === undefined && leaves && (liquid === undefined || liquid === bath.liquid));
  if (outOfTank && to === undefined && bath) {
    const back: PourRequest = { kind: 'back', liquid: bath.liquid, from: tank };
    const judged = judge(back, turn.view);
    if (!('move' in judged)) return consider(turn, back);
    const { to: home } = judged.move;
    const isPart = volumeMl !== undefined && turn.world.tank.volumeMl - volumeMl >= 1;
    return isPart && home.kind === 'bottle'
      ? partOut(turn, bath, home, volumeMl)
      : pouredOut(turn, home, sinceMs);
  }
  if (from?.kind === 'tank' && !bath && to && left !== null && turn.world.jugs[left]) {
    const partMl = volumeMl ?? (said.share ?? 1) * turn.world.jugs[left].volumeMl;
    return pouredBetween(turn, left, { kind: 'jug' }, to, partMl);
  }
  if (outOfTank && to !== undefined) {
    const { volumeMl: inTankMl } = turn.world.tank;
    const partMl = volumeMl ?? (said.share === undefined ? undefined : said.share * inTankMl);
    if (bath && partMl !== undefined && to.kind === 'bottle' && inTankMl - partMl >= 1)
      return partOut(turn, bath, to, partMl);
    return pouredOut(turn, to, sinceMs);
  }
  // nothing leaves an empty tank, whatever it is called
  const nothing = { id: 'tank-already-empty', now: nowOf(turn) } as const;
  if (from?.kind === 'tank' && !bath && (to === undefined || to.kind === 'tank'))
    return turn.say('answer', nothing);
  if (to === undefined || to.kind === 'tank') {
    if (liquid === undefined && from === undefined && wentAllTheSame(turn, sinceMs)) return;
    const what = liquid ?? bottleAt(turn.world, from)?.liquid ?? undefined;
    if (bath && announced?.kind === 'out' && to === undefined && from === undefined)
      return pouredOut(turn, announced.to, sinceMs);
    if (what !== undefined && from !== undefined && turn.world.film.loaded)
      return takeIn(turn, what, { from, sinceMs, ...(volumeMl !== undefined && { volumeMl }) });
    return bathIn(turn, {
      type: 'bath-in',
      ...(what !== undefined && { liquid: what }),
      ...(agoS !== undefined && { agoS }),
    });
  }
  if (
    announced?.kind === 'in' &&
    !bath &&
    to.kind === 'bottle' &&
    (liquid === undefined || liquid === announced.liquid)
  ) {
    // it went in when it was cleared, and is back in a bottle: in its own, however soon
    const back = announced.from?.kind === 'bottle' && same(to, announced.from.number);
    if (back || couldBeIn(turn)) {
      inferIn(turn, announced);
      return pouredOut(turn, to, sinceMs);
    }
  }
  // it left the tank once: into this bottle instead, or on from there
  const stands = from === undefined && liquid !== undefined ? lastReturn(turn, liquid) : null;
  if (stands !== null && liquid !== undefined && to.kind === 'bottle' && !same(to, stands))
    return askElsewhere(turn, said, {
      id: 'went-elsewhere',
      bath: turn.named(liquid),
      stands,
      bottle: to.number,
    });
  if (from?.kind === 'tank' && !bath) return turn.say('answer', nothing);
  const shared =
    source && said.share !== undefined ? said.share * volumeOf(turn.world, source.number) : volumeMl;
  pouredBetween(turn, liquid, from, to, shared);
}

/** A part of a bottle, and nobody said how much: what was in the other one is doubted, and so is how much is left here. */
function someOf(turn: Turn, source: BottleRecord, to: VesselRef | undefined, volumeMl: number | undefined) {
  if (volumeMl !== undefined && to) return pouredBetween(turn, undefined, refOf(source), to, volumeMl);
  if (source.liquid && bottleAt(turn.world, to)?.liquid) someInto(turn, source.liquid, to, undefined);
  else turn.say('question', { id: 'poured-what', amount: true });
  turn.fact({ type: 'bottle-doubted', bottle: source.number, doubt: 'spilled' });
}
const refOf = ({ number }: BottleRecord): VesselRef => ({ kind: 'bottle', number });

/** A bath is in a jug, and in no tank: what was meant to go in, a tankful of it, unless it stands in one already. */
function measuredOut(turn: Turn, { liquid, from }: IntentOf<'poured'>) {
  const { announced } = turn.context;
  const meant = announced?.kind === 'in' ? announced.liquid : undefined;
  const due = jugsOf(turn.world).length > 0 ? null : turn.due.step?.liquid;
  const what = bottleAt(turn.world, from)?.liquid ?? liquid ?? meant ?? due ?? null;
  const number = from?.kind === 'bottle' ? from.number : what === null ? null : bottleFor(turn, what);
  if (announced?.kind === 'in') turn.send({ type: 'WITHDRAWN' });
  if (what === null || number === null || turn.world.jugs[what])
    return turn.say('answer', { id: 'now', now: nowOf(turn) });
  const volumeMl = Math.min(volumeOf(turn.world, number), turn.tankMl);
  pouredBetween(turn, what, { kind: 'bottle', number }, { kind: 'jug' }, volumeMl);
}

/** Some of a bath that was in the tank is in this bottle; without one it is with the rest of it, and that is no news. */
function someInto(turn: Turn, liquid: LiquidId, to: VesselRef | undefined, volumeMl: number | undefined) {
  const into = bottleAt(turn.world, to);
  if (into && into.liquid !== liquid) {
    const amount = volumeMl !== undefined && { volumeMl };
    contaminated(turn, { type: 'contaminated', liquid, intoBottle: into.number, ...amount });
    // some may be a good deal: it is no splash until its amount is told
    if (!amount) turn.fact({ type: 'bottle-doubted', bottle: into.number, doubt: 'unanswered', of: liquid });
    return;
  }
  const home = bottleFor(turn, liquid);
  const there = to ?? (home === null ? undefined : ({ kind: 'bottle', number: home } as const));
  if (there) sayPoured(turn, { liquid, from: tank, to: there, volumeMl: null }, null);
}

const askElsewhere = (turn: Turn, said: IntentOf<'poured'>, message: RunMessage) =>
  turn.ask({ kind: 'went-elsewhere', said, message }, 'question', message);

/** A part of the bath is in this bottle already, and the rest still in the tank. */
function partOut(turn: Turn, bath: TankBath, to: VesselRef, volumeMl: number) {
  const move: Move = { liquid: bath.liquid, from: tank, to, volumeMl };
  const warn = warningOf(turn, move);
  turn.send({ type: 'WITHDRAWN' });
  turn.send({ type: 'DRAIN', atMs: turn.atMs });
  turn.fact(leaves(turn, bath, to, volumeMl, false));
  turn.did();
  sayPoured(turn, move, warn);
}

function pouredOut(turn: Turn, to: VesselRef, sinceMs = turn.atMs) {
  if (!turn.world.tank.bath) return turn.say('answer', { id: 'tank-already-empty', now: nowOf(turn) });
  sayEmpty(turn, outInto(turn, to, sinceMs, false));
}

/** The bottle that this bath went into when it left the tank last; null: another bath left it last, or not into a bottle. */
export function lastReturn({ world }: Turn, liquid?: LiquidId): number | null {
  const last = runAtWork(world)?.pours.findLast((p) => p.from.kind === 'tank' || p.to.kind === 'tank');
  if (last?.to.kind !== 'bottle' || (liquid !== undefined && liquid !== last.liquid)) return null;
  return last.to.number;
}

export function pouredBetween(
  turn: Turn,
  liquid: LiquidId | undefined,
  said: VesselRef | undefined,
  to: VesselRef,
  volumeMl: number | undefined,
) {
  const number = liquid === undefined ? null : bottleFor(turn, liquid);
  // without a name it is what left the tank and is not back
  const inJug =
    liquid === undefined
      ? !turn.world.tank.bath && jugsOf(turn.world).length > 0
      : turn.world.jugs[liquid] !== undefined;
  const from =
    said ??
    (inJug ? ({ kind: 'jug' } as const) : undefined) ??
    (number !== null && !same(to, number) ? ({ kind: 'bottle', number } as const) : undefined);
  const there = bottleAt(turn.world, to);
  if (from === undefined && there && there.liquid === liquid && liquid !== undefined)
    return turn.say('answer', { id: 'part-alone', bath: null, bottle: there.number });
  const ofJug = from?.kind === 'jug' ? inJugFor(turn.world, there?.liquid ?? undefined) : undefined;
  const what = liquid ?? bottleAt(turn.world, from)?.liquid ?? ofJug;
  if (!what || from === undefined) return turn.say('question', { id: 'poured-what' });
  const whole = from.kind === 'bottle' ? volumeOf(turn.world, from.number) : turn.world.jugs[what]?.volumeMl;
  const move: Move = { liquid: what, from, to, volumeMl: volumeMl ?? whole ?? 0 };
  const warn = to.kind === 'bottle' ? warningOf(turn, move) : null;
  const over = runsOver(turn, move);
  moveBetween(turn, move, false);
  turn.did();
  sayPoured(turn, move, warn, over);
}

/** Some of one bath got into another: the bottle is what is in it now. */
export function contaminated(turn: Turn, named: IntentOf<'contaminated'>) {
  const said = { ...named, liquid: formsNamed(named.liquid)[0]?.id ?? named.liquid };
  if (said.intoVessel === 'tank') return gotIntoTank(turn, said);
  const { bath } = turn.world.tank;
  const target = said.intoLiquid === undefined ? null : bottleFor(turn, said.intoLiquid);
  // what is in the tank left it for there
  if (
    bath?.liquid === said.liquid &&
    said.volumeMl === undefined &&
    target !== null &&
    (turn.place === 'draining' || said.all)
  )
    return pouredOut(turn, { kind: 'bottle', number: target });
  turn.send({ type: 'SETTLE' });
  const number = said.intoBottle ?? target ?? (said.back ? lastReturn(turn) : null);
  const into = number === null ? undefined : turn.world.bottles[number];
  // of two that went into one bottle, the other one got into it
  const liquid = said.with !== undefined && into?.liquid === said.liquid ? said.with : said.liquid;
  if (said.intoBottle !== undefined && !into?.liquid) return turn.say('question', { id: 'poured-what' });
  if (into?.liquid === liquid && said.with === undefined) return turn.say('question', { id: 'poured-what' });
  if (!into?.liquid || into.liquid === liquid) {
    const { intoLiquid: _unknown, intoBottle: _none, back: _back, ...rest } = said;
    const both = said.with === undefined ? null : turn.named(said.with);
    return turn.ask({ kind: 'got-into', said: rest }, 'warning', {
      id: 'got-into-which',
      bath: turn.named(said.liquid),
      both,
      further: furtherCautions(said.liquid, liquidOf(turn.sheet, said.liquid) ?? null),
    });
  }
  const source = bottleFor(turn, liquid);
  const from: VesselRef = source === null ? { kind: 'tap' } : { kind: 'bottle', number: source };
  const held = source === null ? 0 : volumeOf(turn.world, source);
  const volumeMl = said.volumeMl ?? (said.all && held > 0 ? held : null);
  const to: VesselRef = { kind: 'bottle', number: into.number };
  const move: Move = { liquid, from, to, volumeMl };
  const judged = liquidOf(turn.sheet, liquid) ? warningOf(turn, move) : null;
  const over = runsOver(turn, move);
  if (volumeMl === null) turn.fact({ type: 'splashed', ...turn.runId, liquid, bottle: into.number });
  else moveBetween(turn, move, false);
  // what this did, whatever was the matter with it before
  const last = withLastOnly(bottleOf(turn.world, into.number));
  const found = fitnessOf(last, turn)
    .filter(({ entry: [, why] }) => ['spoilt', 'doubtful-mixture'].includes(why))
    .map((f) => objectionTo(into.liquid ?? liquid, f, turn.view));
  turn.say(found.length > 0 ? 'warning' : 'answer', {
    id: 'contaminated',
    bath: turn.named(liquid),
    into: turn.named(into.liquid),
    bottle: into.number,
    volumeMl,
    gas: gasIn(turn, last),
    ...(!liquidOf(turn.sheet, liquid) && { gases: contaminationIn(last, turn.sheet)?.gas ?? [] }),
    why: givesGas(judged) ? judged : null,
    found,
    ...over,
  });
}

/** Something got into the tank: it is in what stands there, or in the bath that goes in next. */
function gotIntoTank(turn: Turn, said: IntentOf<'contaminated'>) {
  const { bath } = turn.world.tank;
  const { liquid } = said;
  const of = liquidOf(turn.sheet, liquid);
  if (bath?.liquid === liquid) return sayIn(turn);
  if (turn.place === 'pouring' && turn.due.wash === null && turn.due.step?.liquid === liquid)
    return bathIn(turn, { type: 'bath-in', liquid });
  turn.send({ type: 'SETTLE' });
  const into = bath && bath.role !== 'water' ? liquidOf(turn.sheet, bath.liquid) : undefined;
  const film = of && turn.view.film.loaded ? filmFinding(liquid, turn.view, turn.view.film) : null;
  const met = of && into ? carriedIntoOf(of, into) : null;
  const worse = [film?.entry, met].find((e) => e && severity[e[0]] >= severity.recoverable);
  const dangers = into ? dangersBetween(kindOf(turn, liquid), kindOf(turn, into.id)) : [];
  turn.fact({ type: 'splashed', ...turn.runId, liquid, tank: true });
  if (film && worse) turn.fact({ type: 'film-doubted', of: [liquid] });
  turn.did();
  const params = { liquid, ...(into && { other: into.id }), ...film?.params };
  turn.say('warning', {
    id: 'got-into-tank',
    bath: turn.named(liquid),
    into: bath ? turn.named(bath.liquid) : null,
    warn: worse ? objection({ reason: worse[1], params }, turn.view) : null,
    harmless: of !== undefined && into !== undefined && met === null && !worse,
    thins: of?.role === 'water' && into !== undefined,
    gas: dangers.some(comesAsGas),
    dangers: dangers.map((d) => d.spoken),
  });
}

const same = (to: VesselRef, number: number): boolean => to.kind === 'bottle' && to.number === number;
