import { vesselKey } from '../world/vessel.js';
import { heedFact } from './bench.js';
import type { Desk, DeskEvent, Heard, Situation } from './desk.js';
import type { Effect } from './effect.js';
import type { RunIntent } from './intent.js';
import { placeOf, type RunPlace } from './machine.js';
import type { RunMessage } from './message.js';
import { bottleFor, named } from './now.js';
import * as answers from './run-answers.js';
import { bathIn } from './run-bath.js';
import { cancel, confirm, noFilm, override } from './run-challenge.js';
import * as clock from './run-clock.js';
import * as flow from './run-flow.js';
import { decide, pour } from './run-moves.js';
import { part } from './run-part.js';
import { recheckAnnounced } from './run-recheck.js';
import * as records from './run-records.js';
import { defaultConfig, type RunConfig, type RunState, Sheets, startState } from './run-state.js';
import { sheets as ownSheets } from './sheets/index.js';
import { type Deadline, nextDeadline } from './timing.js';
import { Turn } from './turn.js';

const notHeard: Heard = { by: 'typed', words: '', confidence: 1, close: [] };

/** One situation a place: its grammar already holds the neighbours' sentences that can come early or late. */
const situationOf: Record<RunPlace, Situation> = {
  idle: 'preparing',
  preparing: 'preparing',
  warming: 'warming',
  loading: 'loading',
  pouring: 'pouring',
  immersed: 'immersed',
  draining: 'draining',
  rinsing: 'draining',
  hanging: 'hanging',
  closing: 'closing',
  closed: 'preparing',
};

/**
 * The desk that takes a film load through a process sheet. Pure: the same events give the same state and effects.
 * `config` may leave anything out; see `defaultConfig`.
 */
export function createRunDesk(config: Partial<RunConfig> = {}): Desk<RunState, RunMessage> {
  const full: RunConfig = { ...defaultConfig, sheets: ownSheets, ...config };
  const sheets = new Sheets(full.sheets);

  return {
    id: 'run',
    initial: startState(full, sheets),
    situations(state) {
      const { context } = state.core.position;
      return [
        ...(context.pending ? (['challenged'] as const) : []),
        situationOf[placeOf(state.core.position)],
        ...(context.spill ? (['spill'] as const) : []),
        'anytime',
      ];
    },
    apply(state, event) {
      const effects: Effect<RunMessage>[] = [];
      const turnOn = (s: RunState, heard: Heard) =>
        new Turn(s, event.atMs, event.wallMs, heard, full, sheets);
      const finish = (turn: Turn, wakeBefore: number | null): RunState => {
        const wake = nextDeadline(turn.core.position)?.dueMs ?? null;
        const next = turn.finish(wakeBefore, wake);
        effects.push(...turn.effects);
        return next;
      };
      const catchUp = (s: RunState): RunState => {
        const first = nextDeadline(s.core.position);
        if (!first || first.dueMs > event.atMs) return s;
        const turn = turnOn(s, notHeard);
        for (
          let due: Deadline | null = first;
          due && due.dueMs <= event.atMs;
          due = nextDeadline(turn.core.position)
        )
          call(turn, due);
        return finish(turn, s.wakeMs);
      };

      if (event.type === 'intent' && !isRunIntent(event.intent.type)) return { state, effects: [] };
      const caughtUp = catchUp(state);
      const after = act(caughtUp, event, turnOn, finish, full);
      return { state: catchUp(after), effects: onlyLastWake(effects) };
    },
  };
}

function act(
  state: RunState,
  event: DeskEvent,
  turnOn: (s: RunState, heard: Heard) => Turn,
  finish: (turn: Turn, wakeBefore: number | null) => RunState,
  config: RunConfig,
): RunState {
  if (event.type === 'time') return state;
  if (event.type === 'fact') {
    return heed(state, event, turnOn, finish, config);
  }
  const turn = turnOn(state, event.heard);
  handle(turn, event.intent as RunIntent);
  return finish(turn, state.wakeMs);
}

/** Another desk's fact: vessels and temperatures follow, also in what undo would bring back. */
function heed(
  state: RunState,
  event: Extract<DeskEvent, { type: 'fact' }>,
  turnOn: (s: RunState, heard: Heard) => Turn,
  finish: (turn: Turn, wakeBefore: number | null) => RunState,
  config: RunConfig,
): RunState {
  const { fact, atMs } = event;
  const into = (core: RunState['core']): RunState['core'] => {
    const bench = heedFact(core.bench, fact, config.bottleCapacityMl);
    if (fact.type !== 'temperature') return bench === core.bench ? core : { ...core, bench };
    const reading = { tempC: fact.tempC, atMs };
    const liquid = fact.liquid === undefined ? {} : { [`liquid:${fact.liquid}`]: reading };
    return { ...core, temps: { ...core.temps, [vesselKey(fact.vessel)]: reading, ...liquid } };
  };
  const undo = state.undo.map((entry) => ({ ...entry, core: into(entry.core) }));
  const heeded = { ...state, core: into(state.core), undo };
  if (heeded.core === state.core) return heeded;
  const turn = turnOn(heeded, notHeard);
  records.judgeAgain(turn);
  recheckAnnounced(turn, turn.core.announced);
  return finish(turn, heeded.wakeMs);
}

const onlyLastWake = (effects: Effect<RunMessage>[]): Effect<RunMessage>[] => {
  const last = effects.findLastIndex((e) => e.type === 'wake');
  return effects.filter((e, i) => e.type !== 'wake' || i === last);
};

/** Doing something else leaves an open question behind; what was refused stays refused. */
const leavesQuestion: ReadonlySet<RunIntent['type']> = new Set([
  'begin-run',
  'next-step',
  'start-clock',
  'hold-clock',
  'resume-clock',
  'drain-now',
  'add-time',
  'film-hung',
  'close-run',
]);

type Handlers = { [T in RunIntent['type']]: (turn: Turn, intent: Extract<RunIntent, { type: T }>) => void };

const handlers: Handlers = {
  'begin-run': flow.begin,
  'film-loaded': flow.filmLoaded,
  'no-film': noFilm,
  'next-step': flow.nextStep,
  'bath-in': bathIn,
  'start-clock': (turn) =>
    turn.place === 'immersed' ? clock.resume(turn) : bathIn(turn, { type: 'bath-in' }),
  'hold-clock': clock.hold,
  'resume-clock': clock.resume,
  'drain-now': (turn) => clock.drain(turn, false),
  'tank-empty': clock.tankEmpty,
  'ask-time-left': answers.timeLeft,
  'ask-time-until': (turn, { liquid }) => answers.timeUntil(turn, liquid),
  'ask-next': answers.whatNext,
  'ask-where': answers.where,
  'ask-cautions': (turn, { substance }) => answers.cautions(turn, substance),
  'pour-in': pour,
  'pour-back': pour,
  'pour-between': pour,
  'pour-away': pour,
  'bottle-holds': records.bottleHoldsNow,
  'tank-takes': (turn, { volumeMl }) => records.tankTakes(turn, volumeMl),
  temperature: (turn, { of, tempC }) => records.temperature(turn, of, tempC, false),
  spill: records.spill,
  'spill-cleaned': records.spillCleaned,
  'add-time': (turn, { seconds }) => clock.addTime(turn, seconds),
  note: (turn, { text }) => records.note(turn, text),
  part,
  undo: flow.undo,
  confirm,
  cancel,
  override,
  stop: flow.stop,
  'film-hung': flow.filmHung,
  'close-run': (turn) => flow.closeRun(turn, false),
};

export const isRunIntent = (type: string): type is RunIntent['type'] => Object.hasOwn(handlers, type);

function handle<T extends RunIntent['type']>(turn: Turn, intent: Extract<RunIntent, { type: T }>) {
  if (leavesQuestion.has(intent.type)) turn.send({ type: 'SETTLE' });
  const handler = handlers[intent.type as T];
  const before = turn.core.announced;
  handler(turn, intent);
  recheckAnnounced(turn, before);
}

/** A deadline has come: the state moves and the call goes out with the time it was due. */
function call(turn: Turn, { call: key, dueMs }: Deadline) {
  const { bath } = turn.context;
  const next = turn.dueStep?.liquid ?? null;
  switch (key) {
    case 'drain':
      clock.sayDrain(turn, 'call', dueMs);
      break;
    case 'ten-seconds':
    case 'rest':
      turn.say('call', { id: key }, dueMs);
      break;
    case 'agitate':
      if (bath?.agitation)
        turn.say(
          'call',
          { id: 'agitate', turns: bath.agitation.inversions, style: bath.agitation.style },
          dueMs,
        );
      break;
    case 'overdue':
      if (bath) turn.say('call', { id: 'overdue', bath: named(turn.sheet, bath.liquid) }, dueMs);
      break;
    case 'pour-next': {
      const liquid = bath ? (turn.sheet.steps[bath.advanceTo]?.liquid ?? null) : next;
      const rinse = bath && turn.sheet.steps.find((s) => s.id === bath.stepId)?.rinseAfter;
      if (liquid !== null && !rinse) {
        const bottle = bottleFor(turn.core, liquid);
        turn.say('call', { id: 'pour-next', bath: named(turn.sheet, liquid), bottle }, dueMs);
      }
    }
  }
  turn.send({ type: 'DUE', call: key });
  const { pending } = turn.context;
  // the pour that was only too early has come due
  if (key === 'drain' && pending?.kind === 'pour' && pending.reason === 'early')
    decide(turn, pending.request, pending.vouched);
}
