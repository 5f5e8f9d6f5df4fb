import { hurtBy } from '../../process/cautions.js';
import type { DeskEvent, Said } from '../../process/desk.js';
import type { Intent, IntentOf } from '../../process/intent.js';
import type { AssistantState, Outcome } from '../assistant.js';
import { type Day, eventsOf, onlySay, type Remembered } from './day.js';

/** What was read off an instrument and told. */
const READINGS = new Set<Intent['type']>(['temperature', 'reading', 'ph-reading', 'all-at']);

/** So long "not yet" speaks of what was said last, ms. Source: common practice. */
export const justNowMs = 30_000;

/** What comes of words that take back (undo, redo, "not yet"): the same day without what was said, or with it again; null: these do not. */
export function takenBack(day: Day, state: AssistantState, said: Said): Outcome | null {
  const { intent } = said;
  const now = () => day.caughtUp(state, said);
  if (intent.type === 'redo') return redo(day, now(), said);
  if (intent.type === 'withdraw' && intent.yet && justIn(state, said)) return undo(day, now(), said, true);
  if (intent.type !== 'undo') return null;
  const { spill, reading, denied } = intent;
  if (spill && !lastSpill(state.recent))
    return day.goOn(state, { ...said, intent: { type: 'spill-cleaned' } });
  return intent.mended || (state.mended?.last && !reading && !denied && !spill)
    ? asFirstSaid(day, now(), said)
    : undo(day, now(), said, denied === true && justIn(state, said));
}

/** `agreed`: a running clock may be lost by it. */
export function undo(day: Day, state: AssistantState, said: Said, agreed: boolean): Outcome {
  const { reading, spill, of, tempC }: Partial<IntentOf<'undo'>> =
    said.intent.type === 'undo' ? said.intent : {};
  const isIt = (i: Intent): boolean =>
    READINGS.has(i.type) &&
    (tempC === undefined || ('tempC' in i && i.tempC === tempC)) &&
    (of === undefined || ('of' in i && JSON.stringify(i.of) === JSON.stringify(of)));
  const spills = spill ? lastSpill(state.recent) : null;
  const end = spills
    ? state.recent.indexOf(spills.at(-1) as Remembered)
    : state.recent.findLastIndex(
        (r) => r.deed && r.event.type === 'intent' && (!reading || isIt(r.event.intent)),
      );
  const start = spills ? end : askedBy(state.recent, end);
  const first = state.recent[start]?.event;
  if (first?.type !== 'intent') return onlySay(state, said, day.words.nothingTo('undo'));
  const what = day.words.describe(first.intent);
  const gone = spills ?? state.recent.slice(start, end + 1).filter((r) => r.event.type === 'intent');
  const left = eventsOf(state.recent.filter((r) => !gone.includes(r)));
  const after = day.retold(state, left, what, said);
  const clock = state.world.tank.bath;
  const clockLost =
    clock !== null && clock.role !== 'water' && after.state.world.tank.bath?.sinceMs !== clock.sinceMs;
  if (clockLost && !agreed) {
    const text = day.words.stopsClock(what, (said.atMs - clock.sinceMs) / 1000);
    return onlySay({ ...state, undoAsked: true }, said, text, 'question');
  }
  const undone = [...state.undone, { index: start, events: eventsOf(gone) }];
  return day.told({ ...after, state: { ...after.state, undone } }, said, day.words.undone(what));
}

function redo(day: Day, state: AssistantState, said: Said): Outcome {
  const last = state.undone.at(-1);
  const [first] = last?.events ?? [];
  if (!last || first?.type !== 'intent') return onlySay(state, said, day.words.nothingTo('redo'));
  const what = day.words.describe(first.intent);
  const events = eventsOf(state.recent).toSpliced(last.index, 0, ...last.events);
  const after = day.retold(state, events, what, said);
  const undone = state.undone.slice(0, -1);
  return day.told({ ...after, state: { ...after.state, undone } }, said, day.words.redone(what));
}

/** What was put right last was right before. */
function asFirstSaid(day: Day, state: AssistantState, said: Said): Outcome {
  const { mended, ...rest } = state;
  const all = eventsOf(state.recent);
  const isAdded = (e: DeskEvent): boolean =>
    mended?.added.some((a) => a === e || JSON.stringify(a) === JSON.stringify(e)) ?? false;
  const at = all.findIndex(isAdded);
  if (!mended || at < 0) return onlySay(state, said, day.words.nothingTo('undo'));
  const what = day.words.describe(mended.what);
  const events = all.filter((e) => !isAdded(e)).toSpliced(at, 0, ...mended.gone);
  return day.told(day.retold(rest, events, what, said), said, day.words.undone(what));
}

/** "Not yet": a bath was said to be in, or the tank to be empty, a moment ago, and nothing else since. */
function justIn({ recent, world }: AssistantState, { atMs }: Said): boolean {
  const last = recent.findLast((r) => r.event.type === 'intent');
  if (!last?.deed || last.event.type !== 'intent' || atMs - last.event.atMs > justNowMs) return false;
  const { type } = last.event.intent;
  return world.tank.bath ? type === 'bath-in' || type === 'poured' : type === 'tank-empty';
}

/** All that was told of the spill that was told last, on nobody; null: of none. */
function lastSpill(recent: readonly Remembered[]): Remembered[] | null {
  const told = recent.filter(
    ({ event }) =>
      event.type === 'intent' &&
      event.intent.type === 'spill' &&
      hurtBy(event.intent.place ?? null, null) === null,
  );
  const last = told.at(-1);
  // in one breath, or what it was, how much, where, one after another
  const before = told.findLastIndex(
    (r) => r !== last && r.event.atMs !== last?.event.atMs && r.facts.some((f) => f.type === 'spilled'),
  );
  return last ? told.slice(before + 1) : null;
}

/** A yes or an override is undone with what asked for it. */
function askedBy(recent: readonly Remembered[], index: number): number {
  const answer = recent[index]?.event;
  if (answer?.type !== 'intent' || !['confirm', 'override'].includes(answer.intent.type)) return index;
  const asked = recent.slice(0, index).findLastIndex((r) => r.event.type === 'intent');
  return asked < 0 ? index : askedBy(recent, asked);
}
