/** `warning` cuts off anything else; `call` is timed; `question` waits for an answer. */
export type ReplyKind = 'call' | 'answer' | 'warning' | 'question';

/** A message's words are chosen in src/language/languages/english/phrases; here it is data: an id and what it is about. */
export interface MessageLike {
  readonly id: string;
}

/** What a desk asks the outside to do. Nothing happens inside a pure room. */
export type Effect<M extends MessageLike = MessageLike> =
  | {
      type: 'say';
      kind: ReplyKind;
      message: M /** when it was due on the monotonic clock, ms */;
      dueMs: number;
    }
  /** deliver `{ type: 'time' }` at this monotonic time, ms; replaces any earlier wake of the same desk; null: none */
  | { type: 'wake'; atMs: number | null }
  /** the user did something that undo can take back, though no fact came of it */
  | { type: 'did' };
