import type { Exposure } from '../chemistry/safety/first-aid.js';
import { type CautionId, liquids } from '../world/liquids.js';
import type { BottleRecord } from '../world/records.js';
import { filmNow } from '../world/reduce.js';
import { newestRun } from '../world/run-record.js';
import type { LiquidId } from '../world/vessel.js';
import { jugsOf, readingOf } from '../world/vessels.js';
import { atStart, cautionsFor, onSkin } from './cautions.js';
import { type DueStep, indexOf, missing, stepFor, stepsOf } from './due.js';
import { judge } from './guard.js';
import { filmFinding, gasIn, type StepTime, stepTime } from './guard-checks.js';
import { severity } from './guard-table.js';
import type { IntentOf } from './intent.js';
import { stakesIn, unanswered } from './left-open.js';
import type { Named } from './message.js';
import { nowOf, spokenReason } from './now.js';
import { doubtOnFilm, lightReached, outlook, wasLit } from './remarks.js';
import {
  dueAfter,
  effectAt,
  filmAfter,
  mayBeLong,
  offTemp,
  outcomeOf,
  sayNoSuchLiquid,
  sourceOf,
  tankRead,
  worthSaying,
} from './run-baths.js';
import { noteHurt } from './run-records.js';
import { developingStep, liquidOf, roleOf } from './sheet.js';
import { timeAt } from './temperature.js';
import { drainMs, leftS } from './timing.js';
import type { Turn } from './turn.js';

export function timeLeft(turn: Turn) {
  const { clock } = turn;
  if (!clock) return turn.say('answer', { id: 'no-clock', now: nowOf(turn) });
  const drain = drainMs(clock);
  const outcome = outcomeOf(turn);
  turn.say('answer', {
    id: 'time-left',
    bath: turn.named(clock.liquid),
    leftS: leftS(clock, turn.atMs),
    drainS: drain === null ? null : (drain - turn.atMs) / 1000,
    ...(outcome && { effect: outcome.effect }),
  });
}

/** The steps still before the film, the one in the tank left out. */
function ahead(turn: Turn): readonly DueStep[] {
  const steps = stepsOf(turn.sheet);
  const then = dueAfter(turn);
  if (then) return then.step ? steps.slice(steps.indexOf(then.step)) : [];
  if (!turn.world.film.loaded) return steps;
  const due = turn.due.step;
  return due ? steps.slice(indexOf(turn.sheet, due.id)) : [];
}

/** Until a bath goes in: what is left of this one plus the planned times between. */
export function timeUntil(turn: Turn, liquid: LiquidId) {
  if (!liquidOf(turn.sheet, liquid)) return sayNoSuchLiquid(turn, liquid);
  const bath = turn.named(liquid);
  const { clock } = turn;
  const none = (why: 'not-in-sheet' | 'done' | 'in-it') =>
    turn.say('answer', { id: 'time-until-none', bath, why });
  if (!stepsOf(turn.sheet).some((s) => s.liquid === liquid)) return none('not-in-sheet');
  if (clock?.liquid === liquid) return none('in-it');
  const steps = ahead(turn);
  const target = steps.findIndex((s) => s.liquid === liquid);
  if (target < 0 || turn.place === 'closing' || turn.place === 'hanging') return none('done');
  const left = clock ? leftS(clock, turn.atMs) : 0;
  const between = steps.slice(0, target);
  const seconds =
    Math.max(0, left ?? 0) + between.reduce((sum, s) => sum + (timeOf(turn, s)?.seconds ?? 0), 0);
  const notStarted = ['idle', 'preparing', 'warming', 'loading'].includes(turn.place);
  const atLeast = left === null || between.some((s) => s.time === null) || notStarted;
  turn.say('answer', { id: 'time-until', bath, seconds, atLeast });
}

export function whatNext(turn: Turn) {
  const { clock, due } = turn;
  if (firstOfAll(turn)) return;
  const now = nowOf(turn);
  // a bath that does not belong in goes out before anything comes next
  const first =
    !turn.world.film.loaded ||
    (now.do === 'drain' && turn.place === 'immersed') ||
    (!clock && (due.wash !== null || (now.do === 'pour' && now.unfit !== undefined)));
  if (!['pouring', 'immersed', 'draining'].includes(turn.place) || first)
    return turn.say('answer', { id: 'now', now, brief: true });
  const [step, after] = ahead(turn);
  if (!step) return turn.say('answer', { id: 'now', now });
  const bath = step.liquid === null ? null : turn.named(step.liquid);
  const omitted = omittedBefore(turn, step).map((s) => turn.named(s.liquid ?? s.id));
  const left = omitted.length > 0 ? { omitted } : {};
  const then = after?.liquid == null ? null : turn.named(after.liquid);
  // what clings to the film by then would harm that bath
  const next = dueAfter(turn)?.wash
    ? { step: 'wash with water', bath: turn.named('water'), after: bath }
    : { step: step.name, bath, after: then };
  turn.say('answer', { id: 'next', ...next, ...left });
}

/** Gas lately made in a bottle, a developer that is off and waits for a word, or is in as it is: what to do about these goes before the run. */
export const firstOfAll = (turn: Turn): boolean => sayGas(turn) || sayWarmIt(turn) || sayTankOff(turn);

function sayTankOff(turn: Turn): boolean {
  const read = turn.place === 'immersed' ? turn.world.tank.bath?.readings.at(-1) : undefined;
  const { effect = 0 } = outcomeOf(turn) ?? {};
  return read !== undefined && Math.abs(effect) > worthSaying && tankRead(turn, read.tempC);
}

function sayGas(turn: Turn): boolean {
  for (const bottle of Object.values(turn.world.bottles)) {
    const got = gasLately(turn, bottle);
    if (got === null || bottle.liquid === null) continue;
    const [bath, into] = [turn.named(got), turn.named(bottle.liquid)];
    turn.say('warning', { id: 'gas-there', bottle: bottle.number, bath, into });
    return true;
  }
  return false;
}

function sayWarmIt(turn: Turn): boolean {
  const { pending } = turn.context;
  if (pending?.kind !== 'pour' || pending.verdict === 'ask' || !offTemp.has(pending.reason)) return false;
  const judged = judge(pending.request, turn.view, pending.vouched);
  if (!('move' in judged)) return false;
  const { liquid, from } = judged.move;
  const reading = readingOf(turn.world, liquid, from);
  const aimC = stepFor(turn.sheet, liquid)?.temp?.aimC;
  if (!reading || aimC === undefined) return false;
  const hot = pending.reason === 'developer-hot';
  turn.say('answer', { id: 'warm-it', bath: turn.named(liquid), tempC: reading.tempC, aimC, hot });
  return true;
}

/** What got into a bottle within the last minutes and gives off gas there; null: nothing. */
function gasLately(turn: Turn, bottle: BottleRecord): LiquidId | null {
  const found = bottle.contaminations.findLast(
    (c) => turn.wallMs - c.wallMs < airingMs && gasIn(turn, { ...bottle, contaminations: [c] }),
  );
  return found?.liquid ?? null;
}

/** So long a room is aired after a gas, ms. Source: common practice. */
const airingMs = 15 * 60_000;

/** Baths that belong before this step, and that nobody gave or left out on purpose. */
function omittedBefore(turn: Turn, step: DueStep): DueStep[] {
  const film = filmAfter(turn) ?? filmNow(turn.world, turn.atMs);
  return missing(film, turn.sheet).filter(
    (s) =>
      indexOf(turn.sheet, s.id) < indexOf(turn.sheet, step.id) &&
      !film.skipped.includes(s.id) &&
      (film.kind.backing || roleOf(turn.sheet, s.liquid) !== 'backing-remover'),
  );
}

export function where(turn: Turn) {
  const steps = turn.sheet.steps;
  const id = (turn.clock?.step ?? turn.due.step)?.id;
  const index = steps.findIndex((s) => s.id === id);
  const inProcess = ['pouring', 'immersed', 'draining', 'hanging'].includes(turn.place);
  const { volumeMl: ml } = turn.world.tank;
  const empty = !turn.world.tank.bath && ['pouring', 'hanging'].includes(turn.place);
  const inTank = (empty || (turn.world.tank.bath && ml < turn.tankMl - 1)) && { ml, ofMl: turn.tankMl };
  turn.say('answer', {
    id: 'where',
    now: nowOf(turn),
    step: !inProcess ? null : index < 0 ? steps.length : index + 1,
    of: steps.length,
    spill: turn.context.spill !== null,
    ...((turn.context.hurt ?? []).length > 0 && { hurt: turn.context.hurt }),
    ...(inTank && { inTank }),
    ...doubtOnFilm(turn),
    jugs: jugsOf(turn.world).map((liquid) => turn.named(liquid)),
  });
}

const isRinsed = (how: Exposure): boolean => ['eye', 'face', 'skin'].includes(how);

/** Somebody is hurt, or still is: what was told before counts where it is not said anew. */
export function hurt(turn: Turn, { how, also = [], about, liquid, who }: IntentOf<'hurt'>) {
  const open = turn.context.hurt ?? [];
  const told = how === undefined ? [] : [how, ...also];
  if (about === 'over' || (about === 'unsure' && (who || open.length === 0))) {
    turn.send({ type: 'HEALED', ...(told.length > 0 && { of: told }), ...(who && { who }) });
    const hows = (turn.context.hurt ?? []).slice(-1);
    return hows.length === 0
      ? turn.say('answer', { id: 'hurt-over' })
      : turn.say('warning', { id: 'hurt', hows, asks: 'over', cautions: [] });
  }
  // nobody is hurt: it is the film that is rinsed
  if (about === 'rinsing' && how === undefined && open.length === 0 && turn.isActive) return timeLeft(turn);
  if (about !== 'if' && about !== 'call') {
    for (const one of told) noteHurt(turn, one, who);
    turn.did();
  }
  const rinsing = about === 'rinsing' || (about === 'still' && open.slice(-1).some(isRinsed));
  turn.say('warning', {
    id: 'hurt',
    hows: how === undefined ? open.slice(-1) : told,
    asks:
      about === 'call' || about === 'lens' ? about : about === 'unsure' ? 'over' : rinsing ? 'rinsing' : null,
    cautions: told.includes('skin') ? onSkin(liquidOf(turn.sheet, liquid ?? null)) : [],
  });
}

/** What the film has been through so far, the bath in the tank with it. */
export function filmSoFar(turn: Turn, { liquid, about }: IntentOf<'ask-film'>) {
  if (about === 'outlook' || (turn.world.film.doubt && liquid === undefined)) return outlook(turn);
  const film = filmNow(turn.world, turn.atMs);
  const run = newestRun(turn.world);
  // the film is hung: what its run has on record
  const over = film.loaded ? undefined : run;
  const had: { bath: Named; seconds: number }[] = [];
  for (const { liquid, role, seconds } of over?.contacts ?? film.history) {
    const bath = turn.named(liquid ?? role);
    const last = had.at(-1);
    if (last?.bath.id === bath.id) last.seconds += seconds;
    else had.push({ bath, seconds });
  }
  const last = had.findLast((h) => roleOf(turn.sheet, h.bath.id) !== 'water')?.bath.id;
  const asked = liquid ?? (about === 'time' ? last : undefined);
  turn.say('answer', {
    id: 'film-so-far',
    loaded: film.loaded,
    had,
    missing: (over?.lacking ?? missing(film, turn.sheet).flatMap((s) => s.liquid ?? [])).map((id) =>
      turn.named(id),
    ),
    hung: over !== undefined,
    asked: asked === undefined ? null : turn.named(asked),
    time: (about === 'time' && asked !== undefined && stepFor(turn.sheet, asked)?.time) || null,
    inNow: asked !== undefined && asked === turn.clock?.liquid,
    off: run?.deviations.filter((d) => d.what !== lightReached).length ?? 0,
    light: wasLit(run),
  });
}

export function cautions(turn: Turn, substance: string | undefined) {
  const say = (about: string | null, cautions: readonly CautionId[]) =>
    turn.say('answer', { id: 'cautions', about, cautions: [...cautions, 'help'] });
  if (substance === undefined) return say(null, [...atStart(turn.sheet), 'local-codes']);
  const wanted = substance.toLowerCase();
  const known =
    liquidOf(turn.sheet, wanted) ?? liquids.find((l) => l.name === wanted || l.spoken.includes(wanted));
  if (!known) return say(substance, ['gloves', 'eyes', 'ventilation', 'data-sheet', 'local-codes']);
  say(known.name, cautionsFor(turn.sheet, known));
}

/** A developing time for another temperature: that which was said, else the last reading. */
export function timeAtTemperature(turn: Turn, said: number | undefined) {
  const step = developingStep(turn.sheet);
  if (!step?.temp || !step.time || step.liquid === null) return turn.say('question', { id: 'time-at-what' });
  const tempC = said ?? readingOf(turn.world, step.liquid, sourceOf(turn, step.liquid))?.tempC;
  if (tempC === undefined) return turn.say('question', { id: 'time-at-what' });
  turn.say('answer', {
    id: 'time-at',
    bath: turn.named(step.liquid),
    tempC,
    aimC: step.temp.aimC,
    plannedS: step.time.aimS,
    answer: timeAt(turn.sheet.rate, step.time.aimS, step.temp, tempC),
  });
}

/** A step's time with the bath that stands ready for it; null: it has none. */
function timeOf(turn: Turn, step: DueStep): StepTime | null {
  if (!step.time || step.liquid === null) return null;
  const changed = stepTime(turn.view, step.liquid, sourceOf(turn, step.liquid));
  return changed ?? { seconds: step.time.aimS, why: '' };
}

/** How warm a bath has to be: the one that was named, is in, or comes next; while they warm, each of them. */
export function target(turn: Turn, asked: LiquidId | undefined) {
  const next = turn.place === 'pouring' ? turn.due.step?.liquid : undefined;
  const liquid = asked ?? turn.clock?.liquid ?? next ?? undefined;
  if (liquid === undefined)
    return turn.place === 'warming' ? turn.say('answer', { id: 'now', now: nowOf(turn) }) : whatNext(turn);
  const step = turn.clock?.liquid === liquid ? turn.clock.step : stepFor(turn.sheet, liquid);
  turn.say('answer', { id: 'target', bath: turn.named(liquid), temp: step?.temp ?? null });
}

/** "How long is the fixer?" */
export function duration(turn: Turn, asked: LiquidId | undefined) {
  const { announced } = turn.context;
  const liquid = asked ?? (announced?.kind === 'in' ? announced.liquid : undefined);
  if (liquid === undefined) return whatNext(turn);
  if (!liquidOf(turn.sheet, liquid)) return sayNoSuchLiquid(turn, liquid);
  const step = stepFor(turn.sheet, liquid);
  const time = step ? timeOf(turn, step) : null;
  turn.say('answer', {
    id: 'duration',
    bath: turn.named(liquid),
    seconds: time?.seconds ?? null,
    why: time?.why || null,
  });
}

/** Somebody leaves the sink: what goes on meanwhile, and what falls due before they are back. */
export function away(turn: Turn, seconds: number | undefined) {
  const { clock, world } = turn;
  const backMs = turn.atMs + (seconds ?? 0) * 1000;
  const drain = clock && drainMs(clock);
  const left = clock && leftS(clock, backMs);
  const clings = !clock && world.film.carry === 'developer' ? (turn.due.step?.liquid ?? null) : null;
  turn.fact({ type: 'note', ...turn.runId, text: `away${seconds === undefined ? '' : ` for ${seconds} s`}` });
  const harmless = clock !== null && mayBeLong(clock.role);
  turn.say(clings !== null || (!harmless && left !== null && left < 0) ? 'warning' : 'answer', {
    id: 'away',
    harmless,
    bath: clock ? turn.named(clock.liquid) : null,
    backS: seconds ?? null,
    drainS: drain === null ? null : (drain - turn.atMs) / 1000,
    overS: left === null ? null : Math.max(0, -left),
    effect: clock && seconds !== undefined ? effectAt(turn, backMs) : null,
    first: clings === null ? null : turn.named(clings),
    now: nowOf(turn),
  });
}

/** What leaving a bath out does to this film: to the bath that is in, else to the one that would come next. */
export function leftOut(turn: Turn, liquid: LiquidId | undefined) {
  const { world, sheet } = turn;
  const asked = liquid ?? turn.due.step?.liquid ?? 'water';
  const role = roleOf(sheet, asked);
  if (role === undefined) return sayNoSuchLiquid(turn, asked);
  const { bath } = world.tank;
  const film = bath && bath.role !== role ? bath.filmBefore : world.film;
  const ahead = stepsOf(sheet)
    .slice(indexOf(sheet, turn.due.step?.id))
    .find((s) => s.liquid !== null && s.liquid !== asked && roleOf(sheet, s.liquid) !== 'water');
  const next = bath && bath.role !== role && bath.role !== 'water' ? bath.liquid : (ahead?.liquid ?? null);
  const harmed = next === null ? null : filmFinding(next, turn.view, film);
  const bad = harmed !== null && severity[harmed.entry[0]] >= severity.recoverable ? harmed : null;
  const had =
    role === 'water'
      ? film.washS
      : film.history.filter((c) => c.role === role).reduce((n, c) => n + c.seconds, 0);
  const inNow = bath && bath.liquid === next ? turn.named(next) : null;
  turn.say(bad ? 'warning' : 'answer', {
    id: 'left-out',
    bath: turn.named(asked),
    role,
    reason: bad?.entry[1] ?? null,
    about: spokenReason({ liquid: next ?? asked, ...bad?.params }, turn.view),
    inNow,
    hadS: had,
    now: nowOf(turn),
  });
}

/** It was the bath that is on record after all. */
export function settled(turn: Turn, liquid: LiquidId) {
  turn.fact({ type: 'film-doubted', ...turn.runId, of: [] });
  turn.did();
  turn.say('answer', { id: 'film-settled', bath: turn.named(liquid), now: nowOf(turn) });
}

/** Nobody is sure what is in the tank, or was: what is believed, what speaks against it, and by what it can be told. */
export function inDoubt(turn: Turn, said: IntentOf<'in-doubt'>) {
  for (const fact of unanswered(turn.world, stakesIn(turn.world, said))) turn.fact(fact);
  const { bath } = turn.world.tank;
  const doubt = said.suspect === undefined ? {} : doubtOnFilm(turn);
  turn.say(doubt.doubt?.warn ? 'warning' : 'answer', {
    id: 'in-doubt',
    ...doubt,
    now: nowOf(turn),
    holds: bath && {
      bath: turn.named(bath.liquid),
      sinceS: (turn.atMs - bath.sinceMs) / 1000,
      inferred: bath.inferred,
    },
  });
}
