import type { Fact } from '../world/fact.js';
import type { World } from '../world/records.js';
import type { Desk, DeskEvent, Situation, Truth } from './desk.js';
import { dueOf } from './due.js';
import type { Effect } from './effect.js';
import type { Intent, IntentOf } from './intent.js';
import { settleOpen } from './left-open.js';
import { type CallKey, placeOf, type RunPlace } from './machine.js';
import type { RunMessage } from './message.js';
import { standing } from './now.js';
import { remarked } from './remarks.js';
import * as room from './room.js';
import * as answers from './run-answers.js';
import * as baths from './run-baths.js';
import * as flow from './run-flow.js';
import * as pours from './run-pours.js';
import * as records from './run-records.js';
import { defaultConfig, type RunConfig, type RunState, Sheets, startState } from './run-state.js';
import { liquidOf, type ProcessSheet } from './sheet.js';
import { sheets as ownSheets } from './sheets/index.js';
import { meetInSink, rinsed } from './sink.js';
import { contactS, type Deadline, nextDeadlines } from './timing.js';
import { notHeard, Turn } from './turn.js';

/** One situation a place: its grammar already holds the neighbours' sentences that can come early or late. */
const situationOf = (place: RunPlace): Situation =>
  place === 'idle' || place === 'closed' ? 'preparing' : place;

/**
 * The desk that takes a film load through a process sheet. Pure: the same events on the same world give the same
 * state and effects. `config` may leave anything out; see `defaultConfig`.
 */
export function createRunDesk(config: Partial<RunConfig> = {}): Desk<RunState, RunMessage> {
  const full: RunConfig = { ...defaultConfig, sheets: ownSheets, ...config };
  const sheets = new Sheets(full.sheets);

  const turnOn = (state: RunState, event: DeskEvent, truth: Truth): Turn => {
    const heard = event.type === 'intent' ? event.heard : notHeard;
    const late = event.type === 'intent' && event.late === true;
    return new Turn(state, truth, event.atMs, event.wallMs, heard, late, full, sheets);
  };

  return {
    id: 'run',
    initial: startState(sheets),
    situations(state) {
      const { context } = state.position;
      const here = situationOf(placeOf(state.position));
      // a bath that is in before the film was spoken of asks for the words of loading
      const { pending } = context;
      const asksForFilm =
        pending?.kind === 'bath-in' || (pending?.kind === 'pour' && pending.reason === 'film-unknown');
      const early = asksForFilm && (here === 'preparing' || here === 'warming');
      return [
        ...(context.pending || room.isAsked(state) ? (['challenged'] as const) : []),
        here,
        ...(early ? (['loading'] as const) : []),
        ...(context.spill ? (['spill'] as const) : []),
        'anytime',
      ];
    },
    inHand: ({ position }) => position.context.announced !== null,
    due: (state, world) => dueNext(state, world, sheets.of(world, state.sheetId)),
    apply(state, event, truth) {
      if (event.type === 'intent' && !isRunIntent(event.intent.type)) return { state, effects: [] };
      const turn = turnOn(state, event, truth);
      makeCalls(turn);
      if (event.type === 'intent') handle(turn, event.intent as RunDeskIntent);
      meetInSink(turn);
      if (event.type === 'intent') room.leaveOrBack(turn, event.intent);
      if (event.type === 'fact') heed(turn, event.fact);
      makeCalls(turn);
      const dueMs = deadlines(turn)[0]?.dueMs ?? null;
      const effects: Effect<RunMessage>[] = [...turn.effects];
      if (dueMs !== state.wakeMs) effects.push({ type: 'wake', atMs: dueMs });
      return { state: { ...turn.state, wakeMs: dueMs }, effects };
    },
  };
}

/** What somebody would say next whose run goes as it should. */
function dueNext(state: RunState, world: World, sheet: ProcessSheet): Intent[] {
  if (room.isOut(state)) return [{ type: 'room', is: 'back' }];
  const hurt = (state.position.context.hurt ?? []).length > 0;
  return [
    ...dueOfRun(state, world, sheet),
    ...(hurt ? [{ type: 'hurt' as const, about: 'still' as const }] : []),
  ];
}

function dueOfRun({ position }: RunState, world: World, sheet: ProcessSheet): Intent[] {
  const { announced } = position.context;
  switch (placeOf(position)) {
    case 'loading':
      return [{ type: 'film-loaded' }];
    case 'pouring': {
      if (announced?.kind === 'in') return [{ type: 'bath-in', liquid: announced.liquid }];
      const liquid = dueOf(world.film, sheet).step?.liquid;
      return liquid ? ['pour-in' as const, 'bath-in' as const].map((type) => ({ type, liquid })) : [];
    }
    case 'draining': {
      const liquid = world.tank.bath?.liquid;
      const back = liquid ? [{ type: 'pour-back' as const, liquid }] : [];
      return [{ type: 'drain-now' }, ...back, { type: 'tank-empty' }];
    }
    case 'hanging':
      return [{ type: 'film-hung' }];
    case 'closing':
      return [{ type: 'close-run' }];
    default:
      return [];
  }
}

const deadlines = (turn: Turn): Deadline[] => nextDeadlines(turn.state.position, turn.world, turn.sheet);

function makeCalls(turn: Turn) {
  for (let due = deadlines(turn); due[0] && due[0].dueMs <= turn.atMs; due = deadlines(turn)) {
    if (turn.state.out) room.calledTo(turn, due[0].dueMs);
    else for (const one of due) call(turn, one);
    turn.send({ type: 'CALLED', calls: due.map((d) => d.call), atMs: due[0].dueMs });
    const { pending } = turn.context;
    // the pour that was only too early has come due
    if (
      !turn.state.out &&
      due.some((d) => d.call === 'drain') &&
      pending?.kind === 'pour' &&
      pending.reason === 'early'
    )
      pours.decide(turn, pending.request, pending.vouched);
  }
}

/** Another desk told a fact, and the world has it: what waits, and what was cleared, is judged again. */
function heed(turn: Turn, fact: Fact) {
  if (fact.type === 'temperature' && fact.vessel.kind === 'tank') {
    const unsaid = baths.couldBeIn(turn);
    if (unsaid) {
      // it is read where it was cleared to go: it went in, and this is its reading
      baths.inferIn(turn, unsaid);
      turn.fact({ ...fact, liquid: unsaid.liquid });
    }
    baths.tankRead(turn, fact.tempC);
  }
  // a reading in doubt is asked about by the desk that heard it
  if (fact.type !== 'reading-doubted') pours.judgeAgain(turn);
  pours.recheckCleared(turn);
}

/** Doing something else leaves an open question behind; what was refused stays refused. */
const leavesQuestion: ReadonlySet<Intent['type']> = new Set<Intent['type']>([
  'begin-run',
  'next-step',
  'hold-clock',
  'resume-clock',
  'drain-now',
  'add-time',
  'shorten',
  'film-hung',
  'close-run',
]);

type Handlers = { [T in Intent['type']]: (turn: Turn, intent: IntentOf<T>) => void };

const handlers = {
  'begin-run': flow.begin,
  'film-loaded': flow.filmLoaded,
  'no-film': flow.noFilm,
  films: flow.filmsTold,
  'next-step': flow.nextStep,
  skip: flow.skipAsked,
  'had-before': flow.hadBefore,
  'tank-without-film': flow.tankWithoutFilm,
  'bath-in': baths.bathIn,
  poured: (turn, said) => rinsed(turn, said) || records.cameBack(turn, said) || pours.poured(turn, said),
  'start-clock': (turn) => (turn.world.tank.bath ? baths.clockRuns(turn) : baths.startNow(turn)),
  'hold-clock': baths.heldUp,
  'resume-clock': baths.clockRuns,
  'drain-now': (turn) => baths.drain(turn),
  'tank-empty': (turn, { agoS }) => flow.tankEmpty(turn, agoS),
  'ask-time-left': answers.timeLeft,
  'ask-time-until': (turn, { liquid }) => answers.timeUntil(turn, liquid),
  'ask-next': answers.whatNext,
  'ask-target': (turn, { liquid }) => answers.target(turn, liquid),
  'ask-where': answers.where,
  'ask-duration': (turn, { liquid }) => answers.duration(turn, liquid),
  'ask-time-at': (turn, { tempC }) => answers.timeAtTemperature(turn, tempC),
  'ask-film': answers.filmSoFar,
  contaminated: pours.contaminated,
  swapped: records.swapAsked,
  'ask-advice': remarked,
  'ask-cautions': (turn, { substance }) => answers.cautions(turn, substance),
  'pour-in': pours.pour,
  'pour-back': pours.pour,
  'pour-between': pours.pour,
  'pour-away': pours.pour,
  'bottle-holds': records.bottleTold,
  'bottle-empty': records.bottleEmpty,
  'thermometer-reads': records.thermometerReads,
  'tank-takes': (turn, { volumeMl }) => records.tankTakes(turn, volumeMl),
  'use-tank': records.useTank,
  spill: records.spill,
  'spill-cleaned': records.spillCleaned,
  hurt: answers.hurt,
  'add-time': (turn, said) => baths.addTime(turn, said),
  shorten: (turn, { seconds }) => baths.changeTime(turn, -seconds),
  note: (turn, { text }) => records.note(turn, text),
  part,
  confirm: flow.confirm,
  cancel: flow.cancel,
  override: flow.override,
  withdraw: flow.withdraw,
  away: (turn, { seconds }) => answers.away(turn, seconds),
  room: (turn, { is }) => room.told(turn, is),
  'left-out': (turn, { liquid }) => answers.leftOut(turn, liquid),
  'in-doubt': answers.inDoubt,
  stop: flow.stop,
  'film-hung': (turn) => flow.filmHung(turn),
  'ask-drying': flow.mayHang,
  'close-run': (turn) => flow.closeRun(turn),
} satisfies Partial<Handlers>;

type RunType = keyof typeof handlers;
type RunDeskIntent = IntentOf<RunType>;

export const isRunIntent = (type: string): type is RunType => Object.hasOwn(handlers, type);

function handle(turn: Turn, intent: RunDeskIntent) {
  settleOpen(turn, intent);
  if (leavesQuestion.has(intent.type)) turn.send({ type: 'SETTLE' });
  const handler = handlers[intent.type] as (turn: Turn, intent: RunDeskIntent) => void;
  const before = turn.context.announced;
  if (room.holds(turn, intent)) return;
  handler(turn, intent);
  // what is asked about now is judged once it is answered
  if (turn.context.announced === before && turn.context.pending?.askedMs !== turn.atMs)
    pours.recheckCleared(turn);
}

/** "Bleach", or "bottle two": the answer to what was asked; with nothing asked it only asks what is meant. */
function part(turn: Turn, said: IntentOf<'part'>) {
  const { liquid, vessel } = said;
  const { pending, spill: open } = turn.context;
  if (liquid !== undefined && turn.world.film.doubt?.last === liquid) return answers.settled(turn, liquid);
  if (liquid !== undefined && !liquidOf(turn.sheet, liquid)) return baths.sayNoSuchLiquid(turn, liquid);
  if (liquid !== undefined && (pending?.kind === 'bath-in' || pending?.kind === 'which-bath'))
    return baths.bathIn(turn, { type: 'bath-in', liquid });
  if (pending?.kind === 'got-into') return pours.contaminated(turn, { ...pending.said, ...intoOf(said) });
  if (pours.withPart(turn, said)) return;
  if (liquid !== undefined && open?.liquid === null)
    return records.spill(turn, { type: 'spill', liquid, again: true });
  turn.say('question', {
    id: 'part-alone',
    bath: liquid === undefined ? null : turn.named(liquid),
    bottle: vessel?.kind === 'bottle' ? vessel.number : null,
  });
}

/** The bottle, or the bath whose bottle it is, that something got into. */
const intoOf = ({ liquid, vessel }: IntentOf<'part'>) => ({
  ...(liquid !== undefined && { intoLiquid: liquid }),
  ...(vessel?.kind === 'bottle' && { intoBottle: vessel.number }),
});

/** A deadline has come: the call goes out with the time it was due. */
function call(turn: Turn, { call: key, dueMs }: Deadline) {
  if (key === 'drain') return baths.sayDrain(turn, 'call', dueMs);
  const message = calledOut(turn, key, dueMs);
  if (message) turn.say('call', message, dueMs);
}

function calledOut(turn: Turn, key: Exclude<CallKey, 'drain'>, dueMs: number): RunMessage | null {
  const { clock } = turn;
  const { announced } = turn.context;
  switch (key) {
    case 'ten-seconds':
    case 'rest':
      return { id: key };
    case 'agitate': {
      const { agitation } = clock ?? {};
      return agitation ? { id: key, turns: agitation.inversions, style: agitation.style } : null;
    }
    case 'overdue': {
      if (clock?.aimS == null) return null;
      const overS = contactS(clock, dueMs) - clock.aimS;
      return { id: key, bath: turn.named(clock.liquid), overS, effect: baths.effectAt(turn, dueMs) };
    }
    case 'get-out':
      return clock && { id: key, bath: turn.named(clock.liquid) };
    case 'in-asked': {
      if (announced?.kind !== 'in') return null;
      return { id: key, bath: turn.named(announced.liquid), again: dueMs - announced.clearedMs > 60_000 };
    }
    case 'empty-asked':
      if (announced?.kind !== 'out') return null;
      return { id: key };
    case 'pour-next': {
      const next = baths.nextAfter(turn);
      if (next !== null) return { id: key, bath: turn.named(next), bottle: standing(turn, next).bottle };
      // of a bath that has no time nobody knows when it is out
      return clock?.aimS === null ? { id: 'empty-asked' } : null;
    }
  }
}
