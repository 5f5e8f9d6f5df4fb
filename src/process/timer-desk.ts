import type { Desk, DeskEvent } from './desk.js';
import type { Effect, ReplyKind } from './effect.js';

/** What a reminder is about, where that was said. */
interface About {
  text?: string;
}

/** A reminder that was asked for. `dueMs` on the bench clock; `forS` as it was said, s. */
interface Timer extends About {
  dueMs: number;
  forS: number;
}

/** Plain data; the soonest first. `waiting`: a reminder without a time was asked for, and what it is about. */
interface TimerState {
  timers: readonly Timer[];
  waiting: About | null;
}

export type TimerMessage =
  | ({ id: 'timer-set'; forS: number } & About)
  | ({ id: 'timer-due'; forS: number } & About)
  | ({ id: 'timer-when' } & About)
  | { id: 'timers'; left: readonly ({ leftS: number } & About)[] }
  | { id: 'timers-cancelled'; count: number }
  | { id: 'too-many-timers'; most: number };

const MOST_TIMERS = 20;

/** Reminders and plain timers: said on time, listed, cancelled, and gone on with after a restart. */
export const createTimerDesk = (): Desk<TimerState, TimerMessage> => ({
  id: 'timers',
  initial: { timers: [], waiting: null },
  situations: () => [],
  apply(state, event) {
    if (event.type === 'time') return rung(state, event.atMs);
    if (event.type !== 'intent') return { state, effects: [] };
    return answered(state, event);
  },
});

type Answer = { state: TimerState; effects: Effect<TimerMessage>[] };

const say = (kind: ReplyKind, message: TimerMessage, dueMs: number): Effect<TimerMessage> => ({
  type: 'say',
  kind,
  message,
  dueMs,
});

function rung(state: TimerState, atMs: number): Answer {
  const due = state.timers.filter((t) => t.dueMs <= atMs);
  if (due.length === 0) return { state, effects: [] };
  const timers = state.timers.filter((t) => t.dueMs > atMs);
  const calls = due.map(({ dueMs, ...about }) => say('call', { id: 'timer-due', ...about }, dueMs));
  return { state: { ...state, timers }, effects: [...calls, wake(timers)] };
}

function answered(state: TimerState, event: Extract<DeskEvent, { type: 'intent' }>): Answer {
  const { intent, atMs } = event;
  const only = (message: TimerMessage, kind: ReplyKind = 'answer', next = state): Answer => ({
    state: next,
    effects: [say(kind, message, atMs)],
  });
  const set = (timers: readonly Timer[], message: TimerMessage): Answer => ({
    state: { timers, waiting: null },
    effects: [say('answer', message, atMs), { type: 'did' }, wake(timers)],
  });
  if (intent.type === 'remind') {
    const { text = state.waiting?.text, seconds: forS } = intent;
    const about = text === undefined ? {} : { text };
    if (forS === undefined)
      return only({ id: 'timer-when', ...about }, 'question', { ...state, waiting: about });
    if (state.timers.length >= MOST_TIMERS) return only({ id: 'too-many-timers', most: MOST_TIMERS });
    const timers = [...state.timers, { dueMs: atMs + forS * 1000, forS, ...about }];
    return set(
      timers.sort((a, b) => a.dueMs - b.dueMs),
      { id: 'timer-set', forS, ...about },
    );
  }
  if (intent.type === 'ask-timers') {
    const left = state.timers.map(({ dueMs, forS: _told, ...about }) => ({
      leftS: (dueMs - atMs) / 1000,
      ...about,
    }));
    return only({ id: 'timers', left });
  }
  if (intent.type === 'cancel-timer') {
    const timers = state.timers.filter((t) => intent.seconds !== undefined && t.forS !== intent.seconds);
    return set(timers, { id: 'timers-cancelled', count: state.timers.length - timers.length });
  }
  return { state, effects: [] };
}

const wake = ([first]: readonly Timer[]): Effect<TimerMessage> => ({
  type: 'wake',
  atMs: first?.dueMs ?? null,
});
