import type { Effect, MessageLike } from './effect.js';
import type { Intent } from './intent.js';

/** One thing that reaches a desk. `atMs` is the monotonic clock, `wallMs` the calendar; both are passed in. */
export type DeskEvent =
  | { type: 'intent'; intent: Intent; atMs: number; wallMs: number; heard: Heard }
  /** time has come; desks process every deadline due at or before `atMs`, in order */
  | { type: 'time'; atMs: number; wallMs: number };

/** How the words came in. Typed words have confidence 1 and no alternatives. */
export interface Heard {
  by: 'typed' | 'voice';
  words: string;
  /** 0 to 1 */
  confidence: number;
  /** other readings of the same sound that the recogniser found close, as intents */
  close: Intent[];
}

/**
 * A desk serves one part of the job: it is pure, keeps its state as plain JSON-safe data, and answers every
 * event with the next state and effects. Replaying the journaled events gives the same state again.
 */
export interface Desk<S, M extends MessageLike = MessageLike> {
  readonly id: 'run' | 'mix' | 'warm' | 'bottles';
  /** the situation names (see grammars/) whose sentences make sense now */
  situations(state: S): string[];
  apply(state: S, event: DeskEvent): { state: S; effects: Effect<M>[] };
}
