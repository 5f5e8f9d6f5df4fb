import { checkName, type PhoneCost, type PhonesOf } from '../../ledger/confusable.js';
import type { BottlesMessage } from '../../ledger/messages.js';
import type { Desk, DeskEvent } from '../../process/desk.js';
import type { Effect, ReplyKind } from '../../process/effect.js';
import type { Intent, IntentOf } from '../../process/intent.js';
import { bathsAtWork, ofRecipes, type SheetBaths } from '../../world/contamination.js';
import type { Fact } from '../../world/fact.js';
import { filmAreaM2 } from '../../world/film-area.js';
import type { BottleRecord, World } from '../../world/records.js';
import { fold } from '../../world/reduce.js';
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
  open: { do: 'discard'; bottle: number } | { do: 'name'; bottle: number; name: string } | null;
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
      const { state: next, reply, facts = [] } = answered(state, world, event.intent, event, config, names);
      for (const fact of facts) truth.tell(fact);
      const effects: Effect<BottlesMessage>[] = reply ? [{ type: 'say', ...reply, dueMs: event.atMs }] : [];
      return { state: next, effects };
    },
  };
}

const say = (message: BottlesMessage, kind: ReplyKind = 'answer'): Reply => ({ kind, message });

function answered(
  before: BottlesState,
  world: World,
  intent: Intent,
  event: Extract<DeskEvent, { type: 'intent' }>,
  config: BottleDeskConfig,
  names: (id: string) => string,
): Step {
  const baths = bathsAtWork(world, config.baths ?? ofRecipes);
  if (intent.type === 'confirm' || intent.type === 'cancel' || intent.type === 'override')
    return settled(before, world, intent.type === 'confirm', names, baths);
  const state = { ...before, open: null };
  /** Of one bath; where nothing says of which, of all. */
  const ofBath = (liquid: string | undefined, tell: (liquid: string) => BottlesMessage): Step => ({
    state,
    reply: say(liquid === undefined ? answer.bottles(world, names, baths) : tell(liquid)),
  });
  switch (intent.type) {
    case 'ask-bottle':
      return { state, reply: say(answer.bottle(world, intent.bottle, event.wallMs, names, baths)) };
    case 'ask-bottles':
      return { state, reply: say(answer.bottles(world, names, baths)) };
    case 'ask-volume':
      return { state, reply: say(answer.bottles(world, names, baths, intent.liquid)) };
    case 'ask-age':
      return ofBath(intent.liquid, (liquid) => answer.age(world, liquid, event.wallMs, names, baths));
    case 'ask-mixed':
      return ofBath(intent.liquid, (liquid) => answer.mixed(world, liquid, event.wallMs, names));
    case 'ask-fullest':
      return { state, reply: say(answer.fullest(world, names)) };
    case 'ask-life':
      return { state, reply: say(lifeOf(world, intent, event.wallMs, names, baths)) };
    case 'ask-next-roll':
      return { state, reply: say(answer.nextRoll(world, intent.films ?? 1, event.wallMs, names, baths)) };
    case 'ask-replenish':
      return ofBath(intent.liquid, (liquid) => answer.replenish(world, liquid, names, baths));
    case 'ask-runs':
      return { state, reply: say(answer.runs(world, state.runsStarted)) };
    case 'bath-history':
      return historyTold(state, world, intent, event.wallMs, names, baths);
    case 'bath-ph':
      return phTold(state, world, intent, names, baths);
    case 'bottle-discarded':
      return discardAsked(state, world, intent.bottle, names);
    case 'bottle-named':
      return nameAsked(state, world, intent.bottle, intent.name, config);
    default:
      return { state: before };
  }
}

/** What a bath did, and when it was mixed, before this bench knew of it. */
function historyTold(
  state: BottlesState,
  world: World,
  said: IntentOf<'bath-history'>,
  wallMs: number,
  names: (id: string) => string,
  baths: SheetBaths,
): Step {
  const found = onlyOne(world, said, names);
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
        : answer.lastTime(said.month, said.day ?? MID_MONTH, wallMs);
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
  const told = say(answer.history(after, record.number, said, wallMs, names, baths));
  return { state, facts: [fact], reply: told };
}
/** Only the month was said. */
const MID_MONTH = 15;

/** Of the bottle that was named, of the bath that was, or of all that a film goes through. */
function lifeOf(
  world: World,
  { bottle, liquid, films }: IntentOf<'ask-life'>,
  wallMs: number,
  names: (id: string) => string,
  baths: SheetBaths,
): BottlesMessage {
  const holds = bottle === undefined ? liquid : world.bottles[bottle]?.liquid;
  if (holds) return answer.life(world, holds, films ?? null, wallMs, names, baths, bottle);
  return bottle === undefined
    ? answer.nextRoll(world, films ?? 1, wallMs, names, baths)
    : answer.bottle(world, bottle, wallMs, names, baths);
}

/** The bottle that was named, or the one of the bath that was; else what is asked. */
function onlyOne(
  world: World,
  said: { bottle?: number; liquid?: string },
  names: (id: string) => string,
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
function phTold(
  state: BottlesState,
  world: World,
  said: IntentOf<'bath-ph'>,
  names: (id: string) => string,
  baths: SheetBaths,
): Step {
  const found = onlyOne(world, said, names);
  if ('id' in found) return { state, reply: say(found, 'question') };
  const noted = answer.phIs(found.record, said, names, baths);
  const { bottle, ph, off } = noted;
  const fact: Fact = { type: 'bottle-ph', bottle, ph, off };
  return { state, facts: [fact], reply: say(noted, off ? 'warning' : 'answer') };
}

/** Throwing away is read back first: a number misheard would empty the wrong bottle's record. */
function discardAsked(
  state: BottlesState,
  world: World,
  bottle: number,
  names: (id: string) => string,
): Step {
  const record = world.bottles[bottle];
  if (record === undefined || record.contents.volumeMl <= 0) {
    // what comes into it next is another filling
    const liquid = record?.liquid;
    const facts: Fact[] = liquid ? [{ type: 'bottle-discarded', bottle, liquid, volumeMl: 0 }] : [];
    return { state, facts, reply: say({ id: 'nothing-to-discard', bottle }) };
  }
  return {
    state: { ...state, open: { do: 'discard', bottle } },
    reply: say({ id: 'discard-asked', line: answer.line(record, names) }, 'question'),
  };
}

function nameAsked(
  state: BottlesState,
  world: World,
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

function settled(
  before: BottlesState,
  world: World,
  confirmed: boolean,
  names: (id: string) => string,
  baths: SheetBaths,
): Step {
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
  const record = world.bottles[open.bottle];
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
      waste: answer.wasteKind(record, baths),
    }),
  };
}
