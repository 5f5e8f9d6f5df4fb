import type { Words } from '../language/languages/words.js';
import { MOVING } from '../language/meaning/situations.js';
import type { DeskEvent, DeskId, Said, Situation } from '../process/desk.js';
import type { ReplyKind } from '../process/effect.js';
import type { Intent, IntentOf } from '../process/intent.js';
import type { Fact } from '../world/fact.js';
import type { World } from '../world/records.js';
import type { LiquidId } from '../world/vessel.js';
import { Day, intoTank, onlySay, type Remembered } from './assistant/day.js';
import { Desks, type Post } from './assistant/desks.js';
import { correct, putRight } from './assistant/putting-right.js';
import { justNowMs, takenBack, undo } from './assistant/taking-back.js';
import { ofTopic } from './assistant/topic.js';
import { isTimed, ofWhatWasSaid } from './correct.js';

/** Everything that events change, without the memory of how it came about. Plain data. */
export interface Core {
  /** what is true at the sink: every desk reads it, none keeps a copy */
  world: World;
  desks: Record<DeskId, unknown>;
  wakes: Record<DeskId, number | null>;
  /** the desk that asked last, so that a bare "confirm" reaches it */
  asking: DeskId | null;
  /** something else was said since it asked */
  askedLongAgo: boolean;
  /** the desk that the user did something with last */
  atWork: DeskId | null;
}

/** Plain data: JSON in, JSON out, the same again after a restart. */
export interface AssistantState extends Core {
  /** the core before `recent` */
  base: Core;
  recent: Remembered[];
  /** the core after the first of `recent` that leave next, as long as none of them is told otherwise */
  next?: Core;
  /** what undo took back, newest last: the events, and where they stood in `recent` */
  undone: { index: number; events: DeskEvent[] }[];
  /** an undo that would stop a running clock waits for a yes, or a correction of a bath that is out again */
  undoAsked: boolean | IntentOf<'correct'>;
  /** what was put right last: the events that it took away and those in their place; `last`: nothing was done since */
  mended?: { what: Intent; gone: DeskEvent[]; added: DeskEvent[]; last: boolean };
}

/** One thing to say. `atMs` is when it was due on the bench clock. */
export interface Reply {
  atMs: number;
  kind: ReplyKind;
  text: string;
  /** what "more" says of it */
  more?: string;
  desk: DeskId | 'talk';
}

export interface Outcome {
  state: AssistantState;
  replies: Reply[];
  facts: Fact[];
}

/** One event in, the next state and what to say out. Pure; `src/app/session.ts` gives it a journal and a clock. */
export interface Assistant {
  readonly initial: AssistantState;
  apply(state: AssistantState, event: DeskEvent): Outcome;
  situations(state: AssistantState): Situation[];
  /** what a sentence may mean after what was said last, `atMs` on the bench clock; several: it is asked which */
  mayMean(state: AssistantState, intent: Intent, atMs: number): Intent[];
  /** what would be said next if all goes as it should, likeliest first */
  due(state: AssistantState): Intent[];
  nextWakeMs(state: AssistantState): number | null;
}

/** Binds the desks into one assistant. The order of `posts` is the order in which desks hear an event. */
export function createAssistant(posts: readonly Post[], world: World, words: Words['assistant']): Assistant {
  const desks = new Desks(posts, world);
  const day = new Day(desks, words);

  /** The answer to whether a clock may be stopped, or harm was done. */
  function answered(state: AssistantState, said: Said): Outcome | null {
    const { undoAsked: asked } = state;
    if (!asked) return null;
    if (said.intent.type === 'cancel') return onlySay({ ...state, undoAsked: false }, said, words.kept());
    const now = day.caughtUp(state, said);
    // nothing leads on past what may have been another bath
    if (said.intent.type === 'ask-next' && asked !== true) return correct(day, now, said, asked);
    if (said.intent.type !== 'confirm') return null;
    return asked === true ? undo(day, now, said, true) : correct(day, now, said, asked, undefined, true);
  }

  const situations = (state: AssistantState): Situation[] => {
    const open = desks.situations(state);
    if (state.undoAsked) open.push('challenged');
    // a mix that was left open for the run comes after all else
    const aside = state.atWork === 'run' && state.world.run !== null;
    const others = open.filter((s) => s !== 'mixing');
    const mix = open.filter((s) => s === 'mixing');
    return [...new Set<Situation>(aside ? [...others, 'anytime', ...mix] : [...mix, 'anytime', ...others])];
  };

  return {
    initial: { ...desks.initial, base: desks.initial, recent: [], undone: [], undoAsked: false },
    apply(state, event) {
      if (event.type !== 'intent') return day.goOn(state, event);
      const said = { ...event, intent: ofTopic(state, event.intent, () => desks.due(state)) };
      return (
        answered(state, said) ??
        takenBack(day, state, said) ??
        putRight(day, state, said) ??
        day.goOn(state, said)
      );
    },
    situations,
    due: (state) => desks.due(state),
    mayMean(state, intent, atMs) {
      const open = situations(state);
      if (intent.type === 'poured') return whereItStands(intent, open, state.world.tank.bath?.liquid);
      if (intent.type !== 'correct' || open.includes('spill') || !open.some((s) => MOVING.has(s)))
        return [intent];
      const last = state.recent.findLast(
        ({ event, deed }) => event.type === 'intent' && (deed || isTimed(event.intent)),
      );
      const said = last?.event.type === 'intent' ? last.event.intent : undefined;
      if (said?.type === 'reading' || (said?.type === 'correct' && said.substance)) return [intent];
      const justPoured = last !== undefined && atMs - last.event.atMs <= justNowMs && intoTank(last.facts);
      return ofWhatWasSaid(intent, said, state.world.tank.bath, justPoured);
    },
    nextWakeMs(state) {
      const due = Object.values(state.wakes).filter((w): w is number => w !== null);
      return due.length > 0 ? Math.min(...due) : null;
    },
  };
}

/** "The developer is in bottle five" while it works in the tank: where it is kept, or where it has gone. */
function whereItStands(
  { stands, ...poured }: IntentOf<'poured'>,
  open: readonly Situation[],
  bath: LiquidId | undefined,
): Intent[] {
  const { liquid, to } = poured;
  if (!stands || liquid === undefined || liquid !== bath || to?.kind !== 'bottle') return [poured];
  return open.includes('immersed') ? [{ type: 'bottle-holds', bottle: to.number, liquid }, poured] : [poured];
}
