import type { Fact } from '../world/fact.js';
import type { World } from '../world/records.js';
import type { LiquidId } from '../world/vessel.js';
import type { Effect, MessageLike } from './effect.js';
import type { Intent } from './intent.js';
import type { RunPlace } from './machine.js';

/**
 * One thing that reaches a desk. `atMs` is the bench clock (monotonic, ms, carried over a restart); `wallMs` the
 * calendar. Both are passed in.
 */
export type DeskEvent = {
  /** gone through again long after, with much to come: a desk may leave out what only foresees */
  past?: true;
} & (
  | {
      type: 'intent';
      intent: Intent;
      atMs: number;
      wallMs: number;
      heard: Heard;
      /** something else was asked or said since the last question: a yes is no answer to it */
      late?: true;
    }
  /** time has come; desks process every deadline due at or before `atMs`, in order */
  | { type: 'time'; atMs: number; wallMs: number }
  /** a fact that another desk has told, or that came without words; the world has it already */
  | { type: 'fact'; fact: Fact; atMs: number; wallMs: number }
);

/** Words that were said or typed. */
export type Said = Extract<DeskEvent, { type: 'intent' }>;

/** How the words came in. Typed words have confidence 1 and no alternatives. */
export interface Heard {
  by: 'typed' | 'voice';
  words: string;
  /** 0 to 1 */
  confidence: number;
  /** other readings of the same sound that the recogniser found close, as intents */
  close: Intent[];
}

/** Where the user is in the job; each has a grammar file of the same name, and `anytime` is always open. */
export type Situation =
  | 'anytime'
  | Exclude<RunPlace, 'idle' | 'closed'>
  /** a question or a refused pour waits for confirm, cancel or override */
  | 'challenged'
  | 'spill'
  | 'mixing';

/** Where the user is, and what they would say next if all goes as it should, likeliest first: evidence of what is meant. */
export interface Moment {
  readonly situations: readonly Situation[];
  readonly due: readonly Intent[];
}

export type DeskId = 'run' | 'mix' | 'warm' | 'bottles' | 'timers';

/**
 * A desk serves one part of the job: it is pure, keeps its state as plain JSON-safe data, and answers every
 * event with the next state and effects. Replaying the journaled events gives the same state again.
 */
export interface Desk<S, M extends MessageLike = MessageLike> {
  readonly id: DeskId;
  /** the state before anything was said */
  readonly initial: S;
  /** the situations whose sentences make sense now */
  situations(state: S): Situation[];
  /** what would be said next if all goes as it should, likeliest first; nothing when the desk expects no word */
  due?(state: S, world: World): Intent[];
  /** the bath that is being made in the jug; null: none */
  making?(state: S): LiquidId | null;
  /** whether something was let go ahead that a bare no calls off */
  inHand?(state: S): boolean;
  apply(state: S, event: DeskEvent, truth: Truth): { state: S; effects: Effect<M>[] };
}

/** What is true at the sink, and the one way to add to it. */
export interface Truth {
  /** with every fact told so far */
  readonly world: World;
  tell(fact: Fact): void;
}
