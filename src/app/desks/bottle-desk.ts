import { checkName, type PhoneCost, type PhonesOf } from '../../ledger/confusable.js';
import type { BottlesMessage } from '../../ledger/messages.js';
import { type AssumedBottle, addFact, emptyLedger, type LedgerState } from '../../ledger/state.js';
import type { Desk, DeskEvent } from '../../process/desk.js';
import type { Effect, ReplyKind } from '../../process/effect.js';
import type { Intent } from '../../process/intent.js';
import type { Fact } from '../../world/fact.js';
import * as answer from './bottle-answers.js';

export interface BottleDeskConfig {
  /** the bottles the run takes for granted at first; the journal is given the same list */
  assumed?: readonly AssumedBottle[];
  /** names of liquids and films the run can say, so that a bottle's name is not taken for one of them */
  spokenWords?: readonly string[];
  /** sounds of words, from the pronouncing dictionary; left out: names are not checked by ear */
  phonesOf?: PhonesOf;
  /** from the recogniser's own confusion counts */
  phoneCost?: PhoneCost;
  /** a liquid's spoken name; left out: its id */
  liquidName?: (id: string) => string;
}

/** Plain data. `open` is a question waiting for confirm or cancel. */
export interface BottlesState {
  ledger: LedgerState;
  runsStarted: number;
  open: { do: 'discard'; bottle: number } | { do: 'name'; bottle: number; name: string } | null;
}

type Reply = { kind: ReplyKind; message: BottlesMessage };
type Step = { state: BottlesState; reply?: Reply; facts?: Fact[] };

/** The desk that keeps the bottles' memory and answers for it. Pure. */
export function createBottleDesk(config: BottleDeskConfig = {}): Desk<BottlesState, BottlesMessage> {
  const names = config.liquidName ?? ((id: string) => id);
  return {
    id: 'bottles',
    initial: { ledger: emptyLedger(config.assumed), runsStarted: 0, open: null },
    situations: (state) => (state.open === null ? [] : ['challenged']),
    apply(state, event) {
      if (event.type === 'time') return { state, effects: [] };
      if (event.type === 'fact') return { state: remember(state, event.fact, event), effects: [] };
      const { state: next, reply, facts = [] } = answered(state, event.intent, event, config, names);
      const remembered = facts.reduce((s, fact) => remember(s, fact, event), next);
      const effects: Effect<BottlesMessage>[] = facts.map((fact) => ({ type: 'fact', fact }));
      if (reply !== undefined) effects.push({ type: 'say', ...reply, dueMs: event.atMs });
      return { state: remembered, effects };
    },
  };
}

function remember(state: BottlesState, fact: Fact, at: { atMs: number; wallMs: number }): BottlesState {
  const ledger = addFact(state.ledger, { fact, atMs: at.atMs, wallMs: at.wallMs });
  return { ...state, ledger, runsStarted: state.runsStarted + (fact.type === 'run-started' ? 1 : 0) };
}

const say = (message: BottlesMessage, kind: ReplyKind = 'answer'): Reply => ({ kind, message });

function answered(
  before: BottlesState,
  intent: Intent,
  event: Extract<DeskEvent, { type: 'intent' }>,
  config: BottleDeskConfig,
  names: (id: string) => string,
): Step {
  if (intent.type === 'confirm' || intent.type === 'cancel' || intent.type === 'override')
    return settled(before, intent.type === 'confirm', names);
  const state = { ...before, open: null };
  const { bench } = state.ledger;
  switch (intent.type) {
    case 'ask-bottle':
      return { state, reply: say(answer.bottle(bench, intent.bottle, event.wallMs, names)) };
    case 'ask-bottles':
      return { state, reply: say(answer.bottles(bench, names)) };
    case 'ask-age':
      return { state, reply: say(answer.age(bench, intent.liquid, event.wallMs, names)) };
    case 'ask-mixed':
      return { state, reply: say(answer.mixed(bench, intent.liquid, event.wallMs, names)) };
    case 'ask-fullest':
      return { state, reply: say(answer.fullest(bench, names)) };
    case 'ask-life':
      return {
        state,
        reply: say(answer.life(bench, intent.liquid, intent.films ?? null, event.wallMs, names)),
      };
    case 'ask-replenish':
      return { state, reply: say(answer.replenish(bench, intent.liquid, names)) };
    case 'ask-runs':
      return { state, reply: say(answer.runs(bench, state.runsStarted)) };
    case 'bottle-discarded':
      return discardAsked(state, intent.bottle, names);
    case 'bottle-named':
      return nameAsked(state, intent.bottle, intent.name, config);
    default:
      return { state: before };
  }
}

/** Throwing away is read back first: a number misheard would empty the wrong bottle's record. */
function discardAsked(state: BottlesState, bottle: number, names: (id: string) => string): Step {
  const record = state.ledger.bench.bottles[bottle];
  if (record === undefined || record.contents.volumeMl <= 0)
    return { state, reply: say({ id: 'nothing-to-discard', bottle }) };
  return {
    state: { ...state, open: { do: 'discard', bottle } },
    reply: say({ id: 'discard-asked', line: answer.line(record, names) }, 'question'),
  };
}

function nameAsked(state: BottlesState, bottle: number, name: string, config: BottleDeskConfig): Step {
  const named: Step = {
    state,
    facts: [{ type: 'bottle-named', bottle, name }],
    reply: say({ id: 'named', bottle, name }),
  };
  if (config.phonesOf === undefined) return named;
  const others = Object.values(state.ledger.bench.bottles).flatMap((one) =>
    one.name !== null && one.number !== bottle ? [one.name] : [],
  );
  const taken = [...others, ...(config.spokenWords ?? [])];
  const { clash, unknown, better } = checkName(name, taken, config.phonesOf, config.phoneCost);
  if (clash === null && unknown.length === 0) return named;
  const open = better === null ? null : ({ do: 'name', bottle, name: better } as const);
  const message: BottlesMessage =
    clash !== null
      ? { id: 'name-asked', bottle, name, soundsLike: clash.with, better }
      : { id: 'name-unknown-word', bottle, name, word: unknown[0] ?? name, better };
  return { state: { ...state, open }, reply: say(message, open === null ? 'answer' : 'question') };
}

function settled(before: BottlesState, confirmed: boolean, names: (id: string) => string): Step {
  const { open } = before;
  const state = { ...before, open: null };
  if (open === null) return { state };
  if (!confirmed) return { state, reply: say({ id: 'left-alone' }) };
  if (open.do === 'name')
    return {
      state,
      facts: [{ type: 'bottle-named', bottle: open.bottle, name: open.name }],
      reply: say({ id: 'named', bottle: open.bottle, name: open.name }),
    };
  const record = state.ledger.bench.bottles[open.bottle];
  if (record === undefined || record.liquid === null)
    return { state, reply: say({ id: 'nothing-to-discard', bottle: open.bottle }) };
  const { liquid } = record;
  return {
    state,
    facts: [{ type: 'bottle-discarded', bottle: open.bottle, liquid, volumeMl: record.contents.volumeMl }],
    reply: say({
      id: 'discarded',
      bottle: open.bottle,
      liquid: names(liquid),
      waste: answer.wasteKind(record),
    }),
  };
}
