import type { DeskEvent, Said } from '../../process/desk.js';
import type { Intent, IntentOf } from '../../process/intent.js';
import type { Fact } from '../../world/fact.js';
import type { World } from '../../world/records.js';
import { bottleAt, bottlesFor } from '../../world/vessels.js';
import type { AssistantState, Outcome } from '../assistant.js';
import { corrected, lastMoved, leftAsTold, leftFor, spokenOf } from '../correct.js';
import { type Day, eventsOf, intoTank, onlySay, outOfTank, say } from './day.js';
import { justNowMs } from './taking-back.js';

/** Whether a sentence, with what came of it, is the one that is put right. */
type IsIt = (said: Intent, facts: readonly Fact[]) => boolean;

/** What was said longer ago than this is not put right by "I meant", ms. */
const correctWithinMs = 10 * 60_000;
/** An act that was told so little late is as it was told, ms. */
export const noMatterMs = 5000;

const isPour = ({ type }: Intent): boolean => type.startsWith('pour-');
/** After these a pour that was cleared or refused is in hand no more. */
const callsOff: readonly Intent['type'][] = ['cancel', 'withdraw', 'stop'];

/** What comes of words that put something right ("no, bottle three", "a minute ago"): the same day with what was said as it was meant; null: these do not. */
export function putRight(day: Day, state: AssistantState, said: Said): Outcome | null {
  const intent = withItsBottle(said.intent, state.world);
  if (intent.type === 'correct' || intent.type === 'part') return ofCorrection(day, state, said, intent);
  if (intent.type === 'poured') return otherPlace(day, state, said, intent);
  const earlier =
    intent.type === 'temperature' && intent.anew
      ? { meant: { tempC: intent.tempC }, isIt: isReadingOf(intent) }
      : (howMuch(day, state, intent) ?? longerAgo(state, intent, said.atMs));
  return (
    earlier &&
    correct(day, day.caughtUp(state, said), said, { type: 'correct', ...earlier.meant }, earlier.isIt)
  );
}

/** "The stop bottle", of what was moved: by its number, where it is one. */
function withItsBottle(intent: Intent, world: World): Intent {
  if (intent.type !== 'correct' || !intent.moved || intent.liquid === undefined) return intent;
  const { liquid, moved, ...others } = intent;
  const [number, second] = bottlesFor(world, liquid);
  return number === undefined || second !== undefined
    ? { ...others, liquid }
    : { ...others, moved, vessel: { kind: 'bottle', number } };
}

function ofCorrection(
  day: Day,
  state: AssistantState,
  said: Said,
  intent: IntentOf<'correct' | 'part'>,
): Outcome | null {
  const as = (meant: Intent) => day.goOn(state, { ...said, intent: meant });
  const isCorrection = intent.type === 'correct';
  // every weighing of a mix, or all of one part, not a sentence that was told
  if (isCorrection && (intent.all || amountOfPart(intent) !== undefined)) return as(intent);
  const moved = isCorrection ? lastMoved(state.recent, intent, state.world.tank.bath !== null) : null;
  const other = moved?.to && otherPlace(day, state, said, moved.to);
  if (other) return other;
  const meant = settling(state.world, intent);
  if (meant === null) return null;
  if (meant.type === 'part') return as(meant);
  const doubted = meant === intent ? null : state.world.film.doubt?.last;
  const wasDoubted: IsIt = (_said, facts) =>
    facts.some((f) => f.type === 'poured' && f.to.kind === 'tank' && f.liquid === doubted);
  const now = day.caughtUp(state, said);
  const right = correct(day, now, said, meant, doubted ? wasDoubted : moved?.isIt);
  if (right) return withMended(now, right, meant);
  const { type: _, ...of } = meant;
  if (of.moved === 'from' && of.vessel) return as({ type: 'poured', from: of.vessel, to: { kind: 'tank' } });
  // "make it four minutes": so long in all
  if (of.seconds !== undefined && Object.keys(of).length === 1 && state.world.tank.bath)
    return as({ type: 'add-time', seconds: of.seconds, inAll: true });
  return onlySay(state, said, day.words.nothingTo('correct'), 'question');
}

/** `isIt`: the sentence that was wrong, where the words themselves do not say; `agreed`: to the harm that was done then. */
export function correct(
  day: Day,
  state: AssistantState,
  said: Said,
  { asTold, ...told }: IntentOf<'correct'>,
  isIt?: IsIt,
  agreed = false,
): Outcome | null {
  const spoken = spokenIn(state, told);
  const index = placeOf(state, spoken, told, isIt);
  const cleared = spoken.findLastIndex((i) => i?.type === 'pour-in');
  if (told.agoS !== undefined && !asTold && cleared > index)
    return wentIn(day, state, said, cleared, told.agoS);
  const wrong = state.recent[index]?.event;
  const sinceS = (said.atMs - (wrong?.atMs ?? said.atMs)) / 1000;
  const intent = asTold && told.agoS !== undefined ? { ...told, agoS: told.agoS + sinceS } : told;
  const { agoS } = intent;
  // so long ago from now, not from when it was first said
  const beforeS = (agoS ?? 0) - sinceS;
  const right = agoS === undefined ? intent : { ...intent, agoS: Math.max(0, beforeS) };
  const meant = wrong?.type === 'intent' ? corrected(wrong.intent, right) : null;
  if (agoS !== undefined && beforeS < 0 && (meant?.type === 'bath-in' || meant?.type === 'poured'))
    return wentIn(day, state, said, index, agoS, meant);
  if (wrong?.type !== 'intent' || meant === null || said.atMs - wrong.atMs > correctWithinMs) return null;
  // it is on record as it is told
  const { type: _, liquid, ...others } = intent;
  if (liquid && wrong.intent.type === 'bath-in' && wrong.intent.liquid === liquid && isEmpty(others))
    return onlySay(state, said, day.words.kept());
  const lead = say(said, day.words.corrected(day.words.describe(meant)));
  const since = state.recent.slice(index);
  // a pour that was called off since begins anew
  const poured = since.some((r) => r.facts.some((f) => f.type === 'poured'));
  if (isPour(meant) && !poured && spoken.slice(index + 1).some((i) => i && callsOff.includes(i.type))) {
    const anew = day.goOn(state, { ...said, intent: meant });
    return { ...anew, replies: [...lead, ...anew.replies] };
  }
  const events = eventsOf(state.recent).with(index, { ...wrong, intent: meant });
  const after = day.retold(state, events, day.words.describe(wrong.intent), said);
  // what the sentence itself would have been answered, had it been said so
  const again =
    agoS === undefined
      ? { ...wrong, intent: meant }
      : { ...said, intent: corrected(wrong.intent, intent) ?? meant };
  const answer = day.after(state, events.slice(0, index), again).replies;
  const harm = answer.filter((r) => r.kind === 'warning');
  // it has been in and is out, and with another bath there harm was done: nobody knows which one was meant
  if (!agreed && meant.type === 'bath-in' && since.some((r) => outOfTank(r.facts)) && harm.length > 0) {
    const text = day.words.asksIfMeant(day.words.describe(wrong.intent), day.words.describe(meant));
    return onlySay({ ...state, undoAsked: intent }, said, text, 'question');
  }
  const where = () => say(said, day.desks.where(after.state, said));
  // how warm a bath is that has gone in since: what that does to it there
  if (meant.type === 'temperature' && meant.of === after.state.world.tank.bath?.liquid) {
    const next = day.goOn(after.state, { ...said, intent: { type: 'ask-next' } });
    return { ...next, facts: [...after.facts, ...next.facts], replies: [...lead, ...next.replies] };
  }
  // what has happened since is not cleared again
  const overtaken =
    isPour(meant) &&
    after.state.recent.some((r, i) => i > index && r.deed && r.facts.some((f) => f.type === 'poured'));
  // so long after, what was to be done then is past
  const past = (meant.type === 'poured' || meant.type === 'bath-in') && said.atMs - wrong.atMs > justNowMs;
  // what is to be done at the bench is past when the mix is
  const mixed = meant.type === 'reading' && !day.desks.situations(after.state).includes('mixing');
  const more =
    overtaken || mixed ? where() : past ? [...harm, ...where()] : answer.filter((r) => r.kind !== 'call');
  return { ...after, replies: [...lead, ...more.map((r) => ({ ...r, atMs: said.atMs }))] };
}

/** A cleared pour that nobody said was in, or a bath that was said to be in too early: the same day again, with that said when it happened. */
function wentIn(
  day: Day,
  state: AssistantState,
  said: Said,
  from: number,
  agoS: number,
  instead?: Intent,
): Outcome {
  const all = eventsOf(state.recent);
  const backMs = Math.min(agoS * 1000, said.atMs - (all[from]?.atMs ?? said.atMs));
  const then = { atMs: said.atMs - backMs, wallMs: said.wallMs - backMs };
  const events = instead ? all.toSpliced(from, 1) : all;
  const later = events.findIndex((e, i) => i >= from && e.atMs > then.atMs);
  const intent = instead ?? { type: 'bath-in' };
  const told = events.toSpliced(later < 0 ? events.length : later, 0, { ...said, ...then, intent });
  const what = day.words.describe(intent);
  const after = day.retold(state, told, what, said);
  return day.told(after, said, day.words.corrected(what));
}

/** What left for a bottle, put right; null: it is told for the first time, or still to happen. */
function otherPlace(day: Day, state: AssistantState, said: Said, meant: IntentOf<'poured'>): Outcome | null {
  if (meant.instead === undefined) return null;
  const { bath } = state.world.tank;
  const open = day.desks.situations(state);
  const leaving =
    meant.instead === true &&
    bath !== null &&
    (meant.liquid === undefined || meant.liquid === bath.liquid) &&
    (open.includes('draining') || open.includes('challenged'));
  if (leaving) return null;
  const now = day.caughtUp(state, said);
  const { instead: _, ...what } = meant;
  const after = wentElsewhere(day, now, said, meant);
  return after && withMended(now, after, what);
}

/** A bath left for another place than was said: the same day again with that. Null: none left for there. */
function wentElsewhere(
  day: Day,
  state: AssistantState,
  said: Said,
  meant: IntentOf<'poured'>,
): Outcome | null {
  const index = state.recent.findLastIndex((r) => r.facts.some((f) => leftAsTold(f, meant)));
  const told = state.recent[index];
  const fact = told?.facts.findLast((f) => leftAsTold(f, meant));
  if (!told || !fact || told.event.type !== 'intent' || said.atMs - told.event.atMs > correctWithinMs)
    return null;
  const intent = leftFor(told.event.intent, fact, meant);
  const then = { ...told.event, intent };
  const all = eventsOf(state.recent);
  const events = intoTank(told.facts) ? all.toSpliced(index, 0, then) : all.with(index, then);
  const what = day.words.describe(intent);
  const after = day.retold(state, events, what, said);
  const { replies } = day.after(state, events.slice(0, index), then);
  const harm = replies.filter((r) => r.kind === 'warning').map((r) => ({ ...r, atMs: said.atMs }));
  const where = say(said, day.desks.where(after.state, said));
  return { ...after, replies: [...say(said, day.words.corrected(what)), ...harm, ...where] };
}

/** The outcome with what was put right in it, so that it can be taken back. */
function withMended(before: AssistantState, after: Outcome, what: Intent): Outcome {
  if (after.facts.length === 0) return after;
  const [old, now] = [eventsOf(before.recent), eventsOf(after.state.recent)];
  const only = (these: DeskEvent[], others: DeskEvent[]) =>
    these.filter((e) => e.type === 'intent' && !others.includes(e));
  const mended = { what, gone: only(old, now), added: only(now, old), last: true };
  return { ...after, state: { ...after.state, mended } };
}

/** What was said, where this may put it right: how long a bath is to have is of the one that is in, and water that is out again came of no bottle. */
function spokenIn({ recent, world }: AssistantState, meant: IntentOf<'correct'>): (Intent | null)[] {
  const wentInAt = meant.seconds === undefined ? -1 : recent.findLastIndex((r) => intoTank(r.facts));
  const isGone = (i: Intent): boolean =>
    i.type === 'bath-in' && i.liquid === 'water' && meant.vessel !== undefined && !world.tank.bath;
  return recent.map(({ event }, i) =>
    i > wentInAt && event.type === 'intent' && !isGone(event.intent) ? event.intent : null,
  );
}

/** Where the sentence stands that is put right. A pour that was cleared and has happened since is put right as what happened, and not cleared anew. */
function placeOf(
  { recent }: AssistantState,
  spoken: readonly (Intent | null)[],
  meant: IntentOf<'correct'>,
  isIt: IsIt | undefined,
): number {
  const named = isIt
    ? recent.findLastIndex((r) => r.event.type === 'intent' && isIt(r.event.intent, r.facts))
    : spokenOf(spoken, meant);
  if (spoken[named]?.type !== 'pour-in' || !(meant.liquid ?? meant.vessel)) return named;
  const went = recent.findIndex(
    ({ facts }, i) => i > named && spoken[i]?.type === 'bath-in' && intoTank(facts),
  );
  return Math.max(named, went);
}

const isEmpty = (fields: object): boolean => Object.keys(fields).length === 0;

const amountOfPart = (i: IntentOf<'correct'>): number | undefined =>
  i.substance === undefined ? undefined : (i.massG ?? i.volumeMl ?? i.value);

const isReadingOf =
  ({ of }: IntentOf<'temperature'>): IsIt =>
  (said) =>
    said.type === 'temperature' && JSON.stringify(said.of) === JSON.stringify(of);

/** While it is not settled what was in the tank, a bath that is named puts that right, or (`part`) is as it is on record. */
function settling(
  world: World,
  intent: IntentOf<'correct' | 'part'>,
): IntentOf<'correct'> | IntentOf<'part'> | null {
  const { film } = world;
  const { type, liquid: named, vessel, ...parts } = intent;
  const { moved: _, ...told } = parts as Partial<IntentOf<'correct'>>;
  const liquid = named ?? bottleAt(world, vessel)?.liquid;
  if (liquid == null || !film.doubt || 'tempC' in told) return type === 'correct' ? intent : null;
  // when it went in, and how much of it, goes with the bath
  if (liquid === film.doubt.last && isEmpty(told)) return { type: 'part', liquid };
  return film.doubt.of.includes(liquid) || type === 'correct'
    ? { ...told, type: 'correct', ...(vessel ? { vessel } : { liquid }) }
    : null;
}

/** "About 200 ml", of a spill that is open and was told with another amount; null: no such thing. */
function howMuch(
  day: Day,
  state: AssistantState,
  intent: Intent,
): { meant: { volumeMl: number }; isIt: IsIt } | null {
  if (intent.type !== 'spill' || !intent.again || !intent.volumeMl) return null;
  const { type: _, again: _again, volumeMl, ...more } = intent;
  if (!isEmpty(more) || !day.desks.situations(state).includes('spill')) return null;
  const last = state.recent.findLast(({ event }) => event.type === 'intent' && isSpill(event.intent));
  return last?.facts.some((f) => f.type === 'spilled')
    ? { meant: { volumeMl }, isIt: (_said, facts) => facts === last.facts }
    : null;
}
const isSpill = (said: Intent): boolean =>
  said.type === 'several' ? said.intents.some(isSpill) : said.type === 'spill';

/** "I drained it twenty seconds ago", of a tank that is empty, or of a bath that is in: it happened before it was said; null: nothing of the kind. */
function longerAgo(
  { world, recent }: AssistantState,
  intent: Intent,
  atMs: number,
): { meant: { agoS: number }; isIt: IsIt } | null {
  if ((intent.type !== 'tank-empty' && intent.type !== 'bath-in') || !intent.agoS) return null;
  const { bath } = world.tank;
  const isIt: IsIt = (_said, facts) => (intent.type === 'tank-empty' ? outOfTank : intoTank)(facts);
  const told = recent.findLast((r) => r.event.type === 'intent' && isIt(r.event.intent, r.facts));
  const sinceMs = intent.type === 'bath-in' ? bath?.sinceMs : bath ? undefined : told?.event.atMs;
  if (intent.type === 'bath-in' && intent.liquid !== undefined && intent.liquid !== bath?.liquid) return null;
  if (sinceMs === undefined || atMs - intent.agoS * 1000 > sinceMs - noMatterMs) return null;
  return { meant: { agoS: intent.agoS }, isIt };
}
