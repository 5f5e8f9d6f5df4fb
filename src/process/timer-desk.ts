import type { Desk, DeskEvent } from './desk.js';
import type { Effect } from './effect.js';

/** A reminder that was asked for. `dueMs` on the bench clock; `forS` as it was said, s. */
export interface Timer {
  dueMs: number;
  forS: number;
  text?: string;
}

/** Plain data; the soonest first. `waiting`: a reminder without a time was asked for, and what it is about. */
export interface TimerState {
  timers: readonly Timer[];
  waiting: { text?: string } | null;
}

export type TimerMessage =
  | { id: 'timer-set'; forS: number; text?: string }
  | { id: 'timer-due'; forS: number; text?: string }
  | { id: 'timer-when'; text?: string }
  | { id: 'timers'; left: readonly { leftS: number; text?: string }[] }
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

function rung(state: TimerState, atMs: number): Answer {
  const due = state.timers.filter((t) => t.dueMs <= atMs);
  if (due.length === 0) return { state, effects: [] };
  const timers = state.timers.filter((t) => t.dueMs > atMs);
  const calls = due.map(
    ({ dueMs, forS, text }): Effect<TimerMessage> => ({
      type: 'say',
      kind: 'call',
      message: { id: 'timer-due', forS, ...(text !== undefined && { text }) },
      dueMs,
    }),
  );
  return { state: { ...state, timers }, effects: [...calls, wake(timers)] };
}

function answered(state: TimerState, event: Extract<DeskEvent, { type: 'intent' }>): Answer {
  const { intent, atMs } = event;
  const say = (message: TimerMessage, kind: 'answer' | 'question' = 'answer'): Effect<TimerMessage> => ({
    type: 'say',
    kind,
    message,
    dueMs: atMs,
  });
  if (intent.type === 'remind') {
    const text = intent.text ?? state.waiting?.text;
    const about = text === undefined ? {} : { text };
    if (intent.seconds === undefined)
      return {
        state: { ...state, waiting: about },
        effects: [say({ id: 'timer-when', ...about }, 'question')],
      };
    if (state.timers.length >= MOST_TIMERS)
      return { state, effects: [say({ id: 'too-many-timers', most: MOST_TIMERS })] };
    const timer: Timer = { dueMs: atMs + intent.seconds * 1000, forS: intent.seconds, ...about };
    const timers = [...state.timers, timer].sort((a, b) => a.dueMs - b.dueMs);
    return {
      state: { timers, waiting: null },
      effects: [say({ id: 'timer-set', forS: timer.forS, ...about }), { type: 'did' }, wake(timers)],
    };
  }
  if (intent.type === 'ask-timers') {
    const left = state.timers.map(({ dueMs, text }) => ({
      leftS: (dueMs - atMs) / 1000,
      ...(text !== undefined && { text }),
    }));
    return { state, effects: [say({ id: 'timers', left })] };
  }
  if (intent.type === 'cancel-timer') {
    const gone = state.timers.filter((t) => intent.seconds === undefined || t.forS === intent.seconds);
    const timers = state.timers.filter((t) => !gone.includes(t));
    return {
      state: { timers, waiting: null },
      effects: [say({ id: 'timers-cancelled', count: gone.length }), { type: 'did' }, wake(timers)],
    };
  }
  return { state, effects: [] };
}

const wake = ([first]: readonly Timer[]): Effect<TimerMessage> => ({
  type: 'wake',
  atMs: first?.dueMs ?? null,
});
