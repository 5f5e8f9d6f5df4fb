/** Exit codes scripts can rely on. */
export const exitCode = {
  ok: 0,
  /** something went wrong that is not the user's input */
  failed: 1,
  /** the words on the command line, or a file they name, cannot be used */
  badInput: 2,
  /** nothing wrong, but the answer is no: a clip was no command, a check found a fault */
  no: 3,
} as const;

/** A problem a person can act on; shown as one sentence, never as a stack trace. */
export class Refusal extends Error {
  readonly code: number;
  constructor(sentence: string, code: number = exitCode.badInput) {
    super(sentence);
    this.name = 'Refusal';
    this.code = code;
  }
}
