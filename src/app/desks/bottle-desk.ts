import { checkName, type PhoneCost, type PhonesOf } from '../../ledger/confusable.js';
import type { BottlesMessage } from '../../ledger/messages.js';
import type { Desk, Said } from '../../process/desk.js';
import type { Effect, ReplyKind } from '../../process/effect.js';
import type { IntentOf } from '../../process/intent.js';
import { unanswered } from '../../process/left-open.js';
import { bathsAtWork, ofRecipes, type SheetBaths } from '../../world/contamination.js';
import type { Fact } from '../../world/fact.js';
import { filmAreaM2 } from '../../world/film-area.js';
import type { BottleRecord } from '../../world/records.js';
import { fold } from '../../world/reduce.js';
import type { Bench } from './bottle-answers.js';
import * as answer from './bottle-answers.js';

export interface BottleDeskConfig {
  /** names of liquids and films the run can say, so that a bottle's name is not taken for one of them */
  spokenWords?: readonly string[];
  /** sounds of words, from the pronouncing dictionary; left out: names are not checked by ear */
  phonesOf?: PhonesOf;
  /** from the recogniser's own confusion counts */
  phoneCost?: PhoneCost;
  /** a liquid's spoken name; left out: its id */
  liquidName?: (id: string) => string;
  /** what the chosen sheet says of its baths; a run's own sheet goes before it. Left out: the baths are those of the recipes */
  baths?: SheetBaths;
}

/** Plain data. `open` is a question waiting for confirm or cancel. */
export interface BottlesState {
  runsStarted: number;
  open: { do: 'discard' | 'vouch'; bottle: number } | { do: 'name'; bottle: number; name: string } | null;
}

type Reply = { kind: ReplyKind; message: BottlesMessage };
type Step = { state: BottlesState; reply?: Reply; facts?: Fact[] };

/** The desk that keeps the bottles' memory and answers for it. Pure. */
export function createBottleDesk(config: BottleDeskConfig = {}): Desk<BottlesState, BottlesMessage> {
  const names = config.liquidName ?? ((id: string) => id);
  return {
    id: 'bottles',
    initial: { runsStarted: 0, open: null },
    situations: (state) => (state.open === null ? [] : ['challenged']),
    apply(state, event, truth) {
      if (event.type === 'time') return { state, effects: [] };
      if (event.type === 'fact') {
        const started = event.fact.type === 'run-started' ? 1 : 0;
        return { state: { ...state, runsStarted: state.runsStarted + started }, effects: [] };
      }
      const { world } = truth;
      const baths = bathsAtWork(world, config.baths ?? ofRecipes);
      const bench = { world, names, baths, wallMs: event.wallMs };
      const { state: next, reply, facts = [] } = answered(state, bench, event, config);
      for (const fact of facts) truth.tell(fact);
      const effects: Effect<BottlesMessage>[] = reply ? [{ type: 'say', ...reply, dueMs: event.atMs }] : [];
      return { state: next, effects };
    },
  };
}

const say = (message: BottlesMessage, kind: ReplyKind = 'answer'): Reply => ({ kind, message });

function answered(
  before: BottlesState,
  bench: Bench,
  { intent, heard }: Said,
  config: BottleDeskConfig,
): Step {
  if (intent.type === 'confirm' || intent.type === 'cancel' || intent.type === 'override')
    return settled(before, bench, intent.type === 'confirm');
  const state = { ...before, open: null };
  /** Of one bath; where nothing says of which, of all. */
  const ofBath = (
    liquid: string | undefined,
    tell: (bench: Bench, liquid: string) => BottlesMessage,
  ): Step => ({ state, reply: say(liquid === undefined ? answer.bottles(bench) : tell(bench, liquid)) });
  switch (intent.type) {
    case 'ask-bottle':
      return { state, reply: say(answer.bottle(bench, intent.bottle)) };
    case 'ask-bottles':
      return { state, reply: say(answer.bottles(bench)) };
    case 'ask-volume':
      return { state, reply: say(answer.bottles(bench, intent.liquid)) };
    case 'ask-keeping': {
      const number = answer.marred(bench, intent.liquid);
      return number === undefined
        ? { state }
        : { state, reply: say(answer.bottle(bench, number), 'warning') };
    }
    case 'ask-age':
      return ofBath(intent.liquid, answer.age);
    case 'ask-mixed':
      return ofBath(intent.liquid, answer.mixed);
    case 'ask-fullest':
      return { state, reply: say(answer.fullest(bench)) };
    case 'ask-life':
      return { state, reply: say(lifeOf(bench, intent)) };
    case 'ask-next-roll':
      return { state, reply: say(answer.nextRoll(bench, intent.films ?? 1)) };
    case 'ask-replenish':
      return ofBath(intent.liquid, answer.replenish);
    case 'ask-runs':
      return { state, reply: say(answer.runs(bench.world, state.runsStarted)) };
    case 'bath-history':
      return historyTold(state, bench, intent);
    case 'bath-ph':
      return phTold(state, bench, intent);
    case 'ask-advice':
      return intent.topic === 'good-after-all'
        ? vouchAsked(before, bench, intent)
        : { state: before, reply: say(answer.spilt(bench, intent.liquid)) };
    case 'bottle-discarded':
      return heard.by === 'voice'
        ? discardAsked(state, bench, intent.bottle)
        : discarded(state, bench, intent.bottle);
    case 'bottle-named':
      return nameAsked(state, bench, intent.bottle, intent.name, config);
    default:
      return { state: before };
  }
}

/** What a bath did, and when it was mixed, before this bench knew of it. */
function historyTold(state: BottlesState, bench: Bench, said: IntentOf<'bath-history'>): Step {
  const { world, wallMs } = bench;
  const found = onlyOne(bench, said);
  if ('id' in found) return { state, reply: say(found, 'question') };
  const { record } = found;
  const film = answer.usualFilm(world);
  const today = new Date(wallMs).getDay();
  if (said.weekday === today)
    return { state, reply: say({ id: 'history-which-day', weekday: today }, 'question') };
  const ageDays = said.weekday === undefined ? said.ageDays : (today - said.weekday + 7) % 7;
  const mixedWallMs =
    ageDays !== undefined
      ? wallMs - ageDays * answer.DAY_MS
      : said.month === undefined
        ? undefined
        : answer.lastTime(said.month, said.day, wallMs);
  const fact: Fact = {
    type: 'bottle-history',
    bottle: record.number,
    ...(said.films !== undefined && {
      films: { [film.format]: said.films },
      workM2: filmAreaM2(film) * said.films,
    }),
    ...(mixedWallMs !== undefined && { mixedWallMs }),
  };
  const after = fold(world, { fact, atMs: 0, wallMs });
  const told = say(answer.history({ ...bench, world: after }, record.number, said));
  return { state, facts: [fact], reply: told };
}
/** Of the bottle that was named, of the bath that was, or of all that a film goes through. */
function lifeOf(bench: Bench, { bottle, liquid, films }: IntentOf<'ask-life'>): BottlesMessage {
  const holds = bottle === undefined ? liquid : bench.world.bottles[bottle]?.liquid;
  if (holds) return answer.life(bench, holds, films ?? null, bottle);
  return bottle === undefined ? answer.nextRoll(bench, films ?? 1) : answer.bottle(bench, bottle);
}

/** The bottle that was named, or the one of the bath that was; else what is asked. */
function onlyOne(
  { world, names }: Bench,
  said: { bottle?: number; liquid?: string },
): { record: BottleRecord } | Extract<BottlesMessage, { id: 'history-of-which' }> {
  const found =
    said.bottle !== undefined
      ? [world.bottles[said.bottle]].filter((b) => b !== undefined)
      : said.liquid === undefined
        ? []
        : answer.holding(world, said.liquid);
  const [record, second] = found;
  if (record && !second) return { record };
  const liquid = said.liquid === undefined ? null : names(said.liquid);
  return { id: 'history-of-which', liquid, bottles: found.map((b) => b.number) };
}

/** A pH that is off stands against the bath until it is poured all the same, or read as it should be. */
function phTold(state: BottlesState, bench: Bench, said: IntentOf<'bath-ph'>): Step {
  const found = onlyOne(bench, said);
  if ('id' in found) return { state, reply: say(found, 'question') };
  const noted = answer.phIs(found.record, said, bench);
  const { bottle, ph, off } = noted;
  const fact: Fact = { type: 'bottle-ph', bottle, ph, off };
  return { state, facts: [fact], reply: say(noted, off ? 'warning' : 'answer') };
}

/** Throwing away is read back first where it was heard: a number misheard would empty the wrong bottle's record. */
function discardAsked(state: BottlesState, bench: Bench, bottle: number): Step {
  const { world, names } = bench;
  const record = world.bottles[bottle];
  if (record === undefined || record.contents.volumeMl <= 0) return discarded(state, bench, bottle);
  // until it is answered nobody knows whether anything is in it
  const facts = unanswered(world, [{ bottle }]);
  return {
    state: { ...state, open: { do: 'discard', bottle } },
    facts,
    reply: say({ id: 'discard-asked', line: answer.line(record, names) }, 'question'),
  };
}

/** A bath that is well after all: what was said against it is read back before it is dropped. */
function vouchAsked(before: BottlesState, bench: Bench, said: { bottle?: number; liquid?: string }): Step {
  const { record, doubt } = answer.doubted(bench, said);
  if (record === undefined || doubt === null) {
    const number = answer.marred(bench, said.liquid);
    const found: BottlesMessage =
      number === undefined ? { id: 'nothing-against' } : answer.bottle(bench, number);
    return { state: before, reply: say(found) };
  }
  return {
    state: { ...before, open: { do: 'vouch', bottle: record.number } },
    reply: say({ id: 'vouch-asked', line: answer.line(record, bench.names), doubt }, 'question'),
  };
}

function discarded(state: BottlesState, { world, names, baths }: Bench, bottle: number): Step {
  const record = world.bottles[bottle];
  const volumeMl = record?.contents.volumeMl ?? 0;
  if (record?.liquid == null) return { state, reply: say({ id: 'nothing-to-discard', bottle }) };
  const { liquid } = record;
  return {
    state,
    // of an empty one as well: what comes into it next is another filling
    facts: [{ type: 'bottle-discarded', bottle, liquid, volumeMl }],
    reply: say(
      volumeMl > 0
        ? { id: 'discarded', bottle, liquid: names(liquid), waste: answer.wasteKind(record, baths) }
        : { id: 'nothing-to-discard', bottle },
    ),
  };
}

function nameAsked(
  state: BottlesState,
  { world }: Bench,
  bottle: number,
  name: string,
  config: BottleDeskConfig,
): Step {
  const named: Step = {
    state,
    facts: [{ type: 'bottle-named', bottle, name }],
    reply: say({ id: 'named', bottle, name }),
  };
  if (config.phonesOf === undefined) return named;
  const others = Object.values(world.bottles).flatMap((one) =>
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

function settled(before: BottlesState, bench: Bench, confirmed: boolean): Step {
  const { open } = before;
  const state = { ...before, open: null };
  if (open === null) return { state };
  if (open.do === 'vouch' && confirmed)
    return {
      state,
      facts: [{ type: 'bottle-doubted', bottle: open.bottle, doubt: null }],
      reply: say({ id: 'vouched', bottle: open.bottle }),
    };
  const settles = open.do === 'discard' ? unanswered(bench.world, [{ bottle: open.bottle }], true) : [];
  if (!confirmed) return { state, facts: settles, reply: say({ id: 'left-alone' }) };
  if (open.do === 'name')
    return {
      state,
      facts: [{ type: 'bottle-named', bottle: open.bottle, name: open.name }],
      reply: say({ id: 'named', bottle: open.bottle, name: open.name }),
    };
  return discarded(state, bench, open.bottle);
}
