import { pushOf } from '../chemistry/push.js';
import type { Fact, FilmRef } from '../world/fact.js';
import { kindOfStock } from '../world/film.js';
import { newestRun, runAtWork, WENT_WITHOUT } from '../world/run-record.js';
import type { LiquidId } from '../world/vessel.js';
import { type Bottle, bottlesOf } from './bottles.js';
import { atStart } from './cautions.js';
import { type DueStep, fixerLeft, isDone, missing, stepFor, waterStopsS } from './due.js';
import { otherFilm } from './guard-table.js';
import type { Intent, IntentOf } from './intent.js';
import type { Named, StillOpen } from './message.js';
import { nowOf, objection, outletOf } from './now.js';
import type { Pending } from './pending.js';
import { filmOut } from './remarks.js';
import {
  askWhereItWent,
  changeTime,
  clockRuns,
  couldBeIn,
  couldBeInS,
  drain,
  emptyTank,
  heldUp,
  inferIn,
  isOld,
  leaves,
  sayEmpty,
  sayNoSuchLiquid,
  takeIn,
  tankRead,
  wentTo,
  whereTo,
} from './run-baths.js';
import { callOff, contaminated, decide } from './run-pours.js';
import { bottleHoldsNow, openSpills, swap } from './run-records.js';
import { bottledLiquids, filmKindOf, type ProcessSheet, roleOf } from './sheet.js';
import { contactS, earlyS, leftS } from './timing.js';
import type { Turn } from './turn.js';

const sayNow = (turn: Turn) => turn.say('answer', { id: 'now', now: nowOf(turn) });

export function begin(turn: Turn, intent: IntentOf<'begin-run'>) {
  if (turn.isActive) return turn.say('answer', { id: 'run-already', now: nowOf(turn) });
  const sheet = turn.sheets.find(intent.sheet);
  if (!sheet) {
    const known = turn.sheets.all.map((s) => s.name);
    return turn.say('question', { id: 'no-such-sheet', said: intent.sheet ?? '', known });
  }
  const untouched = Object.values(turn.world.bottles).every((b) => b.assumed);
  turn.set({ sheetId: sheet.id });
  if (untouched) for (const fact of assumedFacts(turn, sheet)) turn.fact(fact);
  const runId = `run-${new Date(turn.wallMs).toISOString().replace(/[-:]|\.\d+Z$/g, '')}`;
  turn.fact({
    type: 'run-started',
    runId,
    sheetId: sheet.id,
    tankMl: turn.tankMl,
    films: turn.config.films,
    sheet,
  });
  turn.send({ type: 'BEGIN', atMs: turn.atMs });
  turn.did();
  const bottles = Object.values(turn.world.bottles).flatMap((b) =>
    b.liquid === null ? [] : [{ bottle: b.number, bath: turn.named(b.liquid) }],
  );
  turn.say('answer', {
    id: 'run-begun',
    sheet: sheet.name,
    cautions: atStart(sheet),
    bottles: untouched ? bottles.slice(0, bottledLiquids(sheet).length) : bottles,
    assumed: untouched,
    tankMl: turn.tankMl,
  });
}

/** What a sheet's bottles are taken to hold, where nobody has said anything and another sheet was assumed before. */
function assumedFacts(turn: Turn, sheet: ProcessSheet): Fact[] {
  const wanted = bottlesOf(sheet, turn.config);
  const holds = (b: Bottle) => turn.world.bottles[b.bottle]?.liquid === b.liquid;
  if (wanted.every(holds) && Object.keys(turn.world.bottles).length === wanted.length) return [];
  const gone = Object.values(turn.world.bottles).filter((b) => !wanted.some((w) => w.bottle === b.number));
  const empty = gone.map(({ number: bottle, capacityMl }) => ({
    bottle,
    liquid: null,
    volumeMl: 0,
    capacityMl: capacityMl ?? turn.config.bottleCapacityMl,
  }));
  return [...empty, ...wanted].map((b): Fact => ({ type: 'bottle-set', ...b, assumed: true }));
}

export function filmLoaded(turn: Turn) {
  const early = ['preparing', 'warming', 'loading'].includes(turn.place);
  if (!early) {
    if (turn.isActive)
      return turn.say(
        'answer',
        turn.world.film.loaded ? { id: 'film-already-loaded' } : { id: 'not-now', now: nowOf(turn) },
      );
    // with no run under way it is a new film, whatever became of the last one
    turn.fact({ type: 'film-loaded', kind: filmKindOf(turn.sheet) });
    return turn.say('answer', { id: 'film-loaded-no-run' });
  }
  const { pending, announced } = turn.context;
  turn.send({ type: 'SETTLE' });
  turn.send({ type: 'LOADED' });
  turn.fact({ type: 'film-loaded', ...turn.runId, kind: filmKindOf(turn.sheet) });
  // what was cleared without film is judged again with it
  const cleared = announced?.kind === 'in' ? announced : null;
  const bath = pending?.kind === 'bath-in' && !isOld(turn, pending) ? pending : null;
  const waiting = cleared !== null || bath !== null || (pending?.kind === 'pour' && !isOld(turn, pending));
  turn.say('answer', { id: 'film-loaded', now: waiting ? null : nowOf(turn) });
  // what was said before the film was there is taken up now
  if (bath) takeIn(turn, bath.liquid, { sinceMs: bath.atMs });
  else if (waiting && pending?.kind === 'pour') decide(turn, pending.request, []);
  else if (cleared) decide(turn, { kind: 'in', liquid: cleared.liquid, from: cleared.from }, []);
}

/** What is in the tank to be developed; what was told before and not now stays. */
export function filmsTold(turn: Turn, { type: _type, ...said }: IntentOf<'films'>) {
  const before = turn.world.films[0];
  if (Object.keys(said).length === 0) return turn.say('question', { id: 'films-what' });
  const film: FilmRef = {
    stock: 'film',
    format: '35mm',
    count: 1,
    ...before,
    ...said,
  };
  turn.fact({ type: 'films-told', ...turn.runId, films: [film] });
  const push = said.pushStops ? { push: pushOf(said.pushStops, turn.sheet.rate) } : {};
  const other = otherFilm(film.stock, turn.sheet);
  const warn = other ? { warn: objection({ reason: other, params: { liquid: 'water' } }, turn.view) } : {};
  const kind = kindOfStock(said.stock);
  const unlike = kind?.image === 'dye' && !kind.backing && filmKindOf(turn.sheet).backing;
  const shifts = said.stock === 'slide' ? 'slide' : unlike ? 'other-colour' : null;
  turn.say(other || (shifts && filmKindOf(turn.sheet).image === 'dye') ? 'warning' : 'answer', {
    id: 'films-noted',
    films: [film],
    ...push,
    ...warn,
    ...(!other && shifts && { shifts }),
  });
}

/** "Next step": moves on where that is safe, and always says what there is to do. */
export function nextStep(turn: Turn) {
  switch (turn.place) {
    case 'idle':
    case 'closed':
      return sayNow(turn);
    case 'preparing':
    case 'warming':
      turn.send({ type: 'NEXT' });
      turn.did();
      return sayNow(turn);
    case 'loading':
      return sayNow(turn);
    case 'pouring':
      return nextWhileDry(turn);
    case 'immersed':
      // a bath is cut short by "drain now", and never by a "next" or "go on"
      return turn.clock && earlyS(turn.clock, turn.atMs) !== null ? clockRuns(turn) : drain(turn);
    case 'draining':
      return tankEmpty(turn);
    case 'hanging':
      return filmHung(turn);
    case 'closing':
      return closeRun(turn);
  }
}

function nextWhileDry(turn: Turn) {
  const { step, wash } = turn.due;
  if (turn.context.announced || !step || wash) return sayNow(turn);
  if (step.fills !== null) {
    turn.fact({ type: 'rinsed', ...turn.runId, fills: step.fills, seconds: step.fills * rinseFillS });
    turn.send({ type: 'FILM_MOVED_ON', world: turn.world });
    turn.did();
    return sayNow(turn);
  }
  sayNow(turn);
  // nobody means to leave out the picture by a "next"
  if (step.liquid !== null && roleOf(turn.sheet, step.liquid) !== 'developer') askSkip(turn, step);
}

/** One fill of a rinse that nobody timed, s. Source: common practice. */
const rinseFillS = 10;

const askSkip = (turn: Turn, step: DueStep) =>
  turn.ask({ kind: 'skip', stepId: step.id }, 'question', {
    id: 'confirm-skip',
    step: step.name,
    role: roleOf(turn.sheet, step.liquid) ?? null,
  });

/** "Skip it": a pour that was warned of is dropped; a step is left out only after a confirm. */
export function skipAsked(turn: Turn, { liquid, for: instead }: IntentOf<'skip'>) {
  if (instead !== undefined && liquid !== undefined && stopsInWater(turn, liquid)) return;
  if (callOff(turn)) return;
  const due = turn.due.step;
  if (turn.place !== 'pouring' || !due) return sayNow(turn);
  const step = liquid === undefined ? due : stepFor(turn.sheet, liquid);
  if (!step || step.liquid !== due.liquid) return sayNow(turn);
  askSkip(turn, due);
}

/** Development may end in plain water as well: told by who means it, it needs no second word. False: not that, or not now. */
function stopsInWater(turn: Turn, liquid: LiquidId): boolean {
  const step = stepFor(turn.sheet, liquid);
  if (!step || roleOf(turn.sheet, liquid) !== 'stop' || turn.world.film.skipped.includes(step.id))
    return false;
  const run = turn.world.run;
  const { film } = turn.world;
  if (run === null || !film.loaded || isDone(film, turn.sheet, step)) return false;
  turn.send({ type: turn.context.announced?.liquid === liquid ? 'WITHDRAWN' : 'SETTLE' });
  turn.fact({ type: 'step-skipped', runId: run.runId, stepId: step.id });
  turn.deviate(WENT_WITHOUT.water, step.id);
  turn.did();
  turn.say('answer', { id: 'water-stops', step: step.name, seconds: waterStopsS, now: nowOf(turn) });
  return true;
}

/** A bath that the film had before the first word: for its own time, from the bottle and back. */
export function hadBefore(turn: Turn, { liquid, seconds: told }: IntentOf<'had-before'>) {
  const role = roleOf(turn.sheet, liquid);
  if (role === undefined) return sayNoSuchLiquid(turn, liquid);
  if (!turn.world.film.loaded || turn.world.tank.bath || turn.place !== 'pouring')
    return turn.say('answer', { id: 'not-now', now: nowOf(turn) });
  turn.send({ type: 'SETTLE' });
  const { step } = turn.due;
  const own = step?.liquid === liquid ? step : stepFor(turn.sheet, liquid);
  const seconds = told ?? own?.time?.aimS ?? rinseFillS * (own?.fills ?? RINSES);
  turn.fact({ type: 'film-had', ...turn.runId, liquid, role, seconds, ...(own && { stepId: own.id }) });
  turn.send({ type: 'FILM_MOVED_ON', world: turn.world });
  turn.did();
  const lost = turn.world.film.image === 'lost';
  turn.say(lost ? 'warning' : 'answer', { id: 'had-before', bath: turn.named(liquid), lost });
}
/** A rinse that nobody counted is this many fills. Source: common practice. */
const RINSES = 4;

/** What was said to be in the tank is in another one, without the film: the film has had nothing of it. */
export function tankWithoutFilm(turn: Turn, { liquid }: IntentOf<'tank-without-film'>) {
  const { bath } = turn.world.tank;
  if (!bath || (liquid !== undefined && liquid !== bath.liquid))
    return turn.say('answer', { id: 'now', now: nowOf(turn) });
  turn.send({ type: 'SETTLE' });
  turn.fact({
    ...leaves(turn, bath, { kind: 'jug' }, turn.world.tank.volumeMl, false),
    withoutFilm: true,
  });
  turn.send({ type: 'FILM_MOVED_ON', world: turn.world });
  turn.did();
  turn.say('answer', {
    id: 'tank-without-film',
    bath: turn.named(bath.liquid),
    outlet: outletOf(turn, bath.liquid),
    now: nowOf(turn),
  });
}

function skip(turn: Turn, stepId: string) {
  turn.send({ type: 'SETTLE' });
  const { step } = turn.due;
  const run = turn.world.run;
  if (step?.id !== stepId || run === null) return sayNow(turn);
  turn.deviate(WENT_WITHOUT.skipped, step.id);
  turn.fact({ type: 'step-skipped', runId: run.runId, stepId });
  turn.send({ type: 'FILM_MOVED_ON', world: turn.world });
  turn.say('answer', { id: 'skipped', step: step.name, now: nowOf(turn) });
}

export function tankEmpty(turn: Turn, agoS = 0) {
  const { pending } = turn.context;
  const unsaid = couldBeIn(turn);
  if (unsaid) inferIn(turn, unsaid);
  const { bath } = turn.world.tank;
  // a bath in question is not in an empty tank
  if (!bath && pending?.kind === 'bath-in') turn.send({ type: 'SETTLE' });
  if (!bath) return turn.say('answer', { id: 'tank-already-empty', now: nowOf(turn) });
  // both in one breath
  if (bath.sinceMs === turn.atMs && !bath.inferred)
    return turn.say('question', { id: 'in-and-empty', bath: turn.named(bath.liquid) });
  if (askWhereItWent(turn, null)) return;
  turn.send({ type: 'SETTLE' });
  const { liquid } = bath;
  // a return that was warned of, and not called off, is done
  const warned = pending?.kind === 'pour' && pending.verdict !== 'ask' ? pending.request : null;
  const to = warned?.kind === 'back' ? warned.to : undefined;
  const jugged = (to ?? whereTo(turn)).kind === 'jug';
  const slip = emptyTank(turn, { sinceMs: turn.atMs - agoS * 1000, ...(to && { to }) });
  turn.did();
  sayEmpty(turn, slip, jugged ? turn.named(liquid) : null);
  // the answer to "is the tank empty?" lets the pour that asked be judged
  if (pending?.kind === 'pour' && pending.reason === 'tank-not-empty')
    decide(turn, pending.request, pending.vouched);
}

/** Baths without which the picture is not whole or does not last. */
const missed = (turn: Turn): Named[] => {
  const { film } = turn.world;
  if (!film.loaded || film.image === 'lost') return [];
  return missing(film, turn.sheet).flatMap((s) => (s.liquid === null ? [] : [turn.named(s.liquid)]));
};

/** Not yet, or not any more; a film that came out of the last run without its baths is not forgotten. */
function notNow(turn: Turn) {
  const lacking = newestRun(turn.world)?.lacking ?? [];
  if (turn.isActive || lacking.length === 0) return turn.say('answer', { id: 'not-now', now: nowOf(turn) });
  turn.say('warning', { id: 'closed-without', missing: lacking.map((id) => turn.named(id)) });
}

function sayHung(turn: Turn, missing: Named[], backingLeft: boolean) {
  const left = fixerLeft(turn.world.film);
  turn.say(missing.length > 0 || left ? 'warning' : 'answer', {
    id: 'film-hung',
    backingLeft,
    fixerLeft: left,
    missing,
  });
}

/** The baths that the film of this run was hung without. */
const hungWithout = (turn: Turn): Named[] =>
  (runAtWork(turn.world)?.lacking ?? []).map((id) => turn.named(id));

export function filmHung(turn: Turn, agreed = false) {
  const { film } = turn.world;
  if (turn.place === 'closing') return sayHung(turn, hungWithout(turn), false);
  const { clock } = turn;
  if (clock && clock.role !== 'water' && film.loaded)
    return turn.say('warning', {
      id: 'film-out',
      bath: turn.named(clock.liquid),
      doneS: contactS(clock, turn.atMs),
      leftS: leftS(clock, turn.atMs),
      light: !film.history.some((c) => c.role === 'bleach') && clock.role !== 'bleach',
    });
  if (!['hanging', 'pouring'].includes(turn.place) || !film.loaded) return notNow(turn);
  const lacking = missed(turn);
  const lost = film.image === 'lost';
  if (turn.place === 'pouring' && !agreed && !lost && lacking.length > 0)
    return turn.ask({ kind: 'hang-early' }, 'question', {
      id: 'confirm-hang',
      missing: lacking,
      now: nowOf(turn),
    });
  turn.send({ type: 'SETTLE' });
  turn.send({ type: 'HUNG' });
  sayHung(turn, lacking, film.kind.backing && film.backing !== 'off');
  turn.fact({ type: 'film-hung', ...turn.runId, lacking: lacking.map((b) => b.id) });
}

/** Whether the film may be hung as it is. */
export function mayHang(turn: Turn) {
  const { film, tank } = turn.world;
  const bath = tank.bath?.role === 'fixer';
  turn.say('answer', {
    id: 'may-hang',
    missing: film.loaded ? missed(turn) : [],
    fixerLeft: film.loaded && (bath || fixerLeft(film)),
    now: nowOf(turn),
  });
}

export function closeRun(turn: Turn, agreed = false) {
  const { run } = turn.world;
  if (!turn.isActive || run === null) return notNow(turn);
  const complete = turn.place === 'closing';
  if (!complete && !agreed)
    return turn.ask({ kind: 'close-early' }, 'question', { id: 'confirm-close', now: nowOf(turn) });
  if (turn.world.tank.bath) emptyTank(turn, { inferred: true });
  const lacking = complete ? hungWithout(turn) : missed(turn);
  const jugs = Object.keys(turn.world.jugs).map((liquid) => turn.named(liquid));
  const whole = complete && lacking.length === 0;
  turn.fact({ type: 'run-finished', runId: run.runId, complete: whole });
  turn.send({ type: 'SETTLE' });
  turn.send({ type: 'CLOSE' });
  const open = stillOpen(turn);
  turn.say(open ? 'warning' : 'answer', {
    id: 'run-closed',
    complete,
    jugs,
    missing: lacking,
    ...(open && { open }),
  });
  turn.send({ type: 'HEALED' });
}

/** What was told and never ended that can hurt somebody; null: nothing. */
function stillOpen(turn: Turn): StillOpen | null {
  const { hurt = [] } = turn.context;
  const spills = openSpills(turn);
  return spills.length + hurt.length > 0 ? { spills, hurt } : null;
}

/** "Stop": a pour in hand is called off; with a clock running it could mean three things. */
export function stop(turn: Turn) {
  if (turn.context.pending?.kind !== 'stop-what' && callOff(turn)) return;
  if (turn.place !== 'immersed')
    return turn.say('answer', turn.isActive ? { id: 'now', now: nowOf(turn) } : { id: 'nothing-to-stop' });
  turn.ask({ kind: 'stop-what' }, 'question', { id: 'stop-what' });
}

/** "Wait", "not yet": calls off the pour in hand; with a bath in the tank the person is held up. */
export function withdraw(turn: Turn, { wrong, yet, no }: IntentOf<'withdraw'>) {
  const { announced, pending } = turn.context;
  // "is it in?", "is it empty?": not yet, and it stays cleared; a no right after it was let go ahead calls it off
  const asked = announced && turn.atMs - announced.clearedMs >= couldBeInS * 1000;
  const off = no || announced?.overridden;
  const kept = asked ? !(no && announced.overridden) : announced?.kind === 'out' && !off;
  if (yet && !pending && kept) return sayNow(turn);
  if (callOff(turn)) return;
  const { bath } = turn.world.tank;
  if (wrong && bath)
    return turn.say('question', {
      id: 'wrong-bottle',
      bath: turn.named(bath.liquid),
      bottle: bath.from.kind === 'bottle' ? bath.from.number : null,
    });
  if (bath) return heldUp(turn);
  turn.say('answer', turn.isActive ? { id: 'now', now: nowOf(turn) } : { id: 'nothing-waiting' });
}

/** A word that lets something go ahead must be heard well, and not be close to its opposite. */
function clearlyHeard(turn: Turn, word: 'confirm' | 'override'): boolean {
  const rival = (i: Intent) => i.type !== word && ['cancel', 'confirm', 'override', 'stop'].includes(i.type);
  if (!turn.unsure && !turn.heard.close.some(rival)) return true;
  turn.say('question', { id: 'say-again-clearly', word });
  return false;
}

/** A yes counts only just after its question; later, what still stands is asked again. */
function isStale(turn: Turn, pending: Pending): boolean {
  if (!turn.late && !isOld(turn, pending)) return false;
  turn.send({ type: 'SETTLE' });
  askAgain(turn, pending);
  return true;
}

function askAgain(turn: Turn, pending: Pending) {
  const { step } = turn.due;
  switch (pending.kind) {
    case 'pour':
      return decide(turn, pending.request, pending.vouched);
    case 'skip':
      if (turn.place === 'pouring' && step?.id === pending.stepId) return askSkip(turn, step);
      break;
    case 'drain-early':
      return drain(turn);
    case 'change-time': {
      const reading = turn.world.tank.bath?.readings.at(-1);
      if (reading && tankRead(turn, reading.tempC)) return;
      break;
    }
    case 'close-early':
      return closeRun(turn);
    case 'hang-early':
      return filmHung(turn);
    case 'where-went':
      return turn.ask(pending, 'warning', pending.message);
  }
  turn.say('answer', { id: 'nothing-waiting' });
}

export function confirm(turn: Turn) {
  const { pending } = turn.context;
  if (!pending) return turn.say('answer', { id: 'nothing-waiting' });
  if (!clearlyHeard(turn, 'confirm') || isStale(turn, pending)) return;
  switch (pending.kind) {
    case 'pour':
      return confirmPour(turn);
    case 'bath-in':
      return turn.world.film.loaded
        ? takeIn(turn, pending.liquid, { sinceMs: pending.atMs })
        : filmLoaded(turn);
    case 'was-in': {
      turn.send({ type: 'SETTLE' });
      const { announced } = turn.context;
      if (announced) inferIn(turn, announced);
      emptyTank(turn, { inferred: true, ...('bath' in pending.next && { sinceMs: pending.next.sinceMs }) });
      return goOnWith(turn, pending.next);
    }
    case 'where-went':
      return turn.say('warning', pending.message);
    case 'went-elsewhere':
      return turn.say('question', pending.message);
    case 'drain-early':
      return turn.place === 'immersed' ? drain(turn, true) : settled(turn);
    case 'change-time':
      turn.send({ type: 'SETTLE' });
      return changeTime(turn, pending.seconds);
    case 'skip':
      return skip(turn, pending.stepId);
    case 'hang-early':
      return filmHung(turn, true);
    case 'close-early':
      return closeRun(turn, true);
    case 'bottle-holds':
      turn.send({ type: 'SETTLE' });
      for (const intent of pending.intents) bottleHoldsNow(turn, intent, true);
      if (pending.waiting) decide(turn, pending.waiting.request, pending.waiting.vouched);
      return;
    case 'swap':
      return swap(turn, pending.bottles);
    case 'got-into':
      return contaminated(turn, pending.said);
    case 'which-bath':
      return turn.say('question', { id: 'which-bath-in' });
    case 'stop-what':
      return turn.say('question', { id: 'stop-what' });
  }
}

/** What was said while a cleared bath was in question. */
function goOnWith(turn: Turn, next: Extract<Pending, { kind: 'was-in' }>['next']) {
  if ('bath' in next) return takeIn(turn, next.bath, { sinceMs: next.sinceMs });
  decide(turn, next, []);
}

const settled = (turn: Turn) => {
  turn.send({ type: 'SETTLE' });
  turn.say('answer', { id: 'nothing-waiting' });
};

function confirmPour(turn: Turn) {
  const { pending } = turn.context;
  if (pending?.kind !== 'pour') return;
  const { request, vouched } = pending;
  if (pending.verdict === 'ask') {
    if (pending.proposal === null) return turn.say('question', { id: 'needs-answer', ask: pending.reason });
    return decide(turn, pending.proposal, [...vouched, pending.reason]);
  }
  if (pending.verdict === 'ruinous') {
    const params = { liquid: request.liquid ?? 'water' };
    const { reason } = pending;
    return turn.say('warning', { id: 'needs-override', ...objection({ reason, params }, turn.view) });
  }
  decide(turn, request, vouched, { verdict: pending.verdict, named: pending.named });
}

/** The answer to "is the film in the tank?" that lets a pour be judged without film. */
export function noFilm(turn: Turn) {
  const { pending } = turn.context;
  if (pending?.kind !== 'pour' || pending.reason !== 'film-unknown') {
    if (!turn.world.film.loaded) return turn.say('answer', { id: 'nothing-waiting' });
    filmOut(turn, true);
    turn.did();
    return turn.say('answer', { id: 'no-film-in', now: nowOf(turn) });
  }
  if (!clearlyHeard(turn, 'confirm')) return;
  decide(turn, pending.request, [...pending.vouched, 'film-unknown']);
}

/** The one way past a refusal. It never answers a question of what is meant. */
export function override(turn: Turn) {
  const { pending } = turn.context;
  if (pending?.kind !== 'pour') return turn.say('answer', { id: 'nothing-waiting' });
  if (!clearlyHeard(turn, 'override')) return;
  if (pending.verdict === 'ask') return turn.say('question', { id: 'needs-answer', ask: pending.reason });
  decide(turn, pending.request, pending.vouched, { verdict: pending.verdict, named: pending.named });
}

export function cancel(turn: Turn) {
  const { pending, announced } = turn.context;
  if (!pending && !announced) return turn.say('answer', { id: 'nothing-waiting' });
  // it did not go in: the pour in hand is the new one
  if (pending?.kind === 'was-in') return goOnWith(turn, pending.next);
  // not there: aside, as a bath that is used again
  if (pending?.kind === 'where-went') return wentTo(turn, pending, { kind: 'jug' });
  // with nothing asked, a pour that was cleared is called off
  turn.send({ type: pending && pending.kind !== 'pour' ? 'SETTLE' : 'WITHDRAWN' });
  turn.did();
  turn.say('answer', { id: 'cancelled' });
}
