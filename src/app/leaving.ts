import { constants } from 'node:os';
import { LEAVES } from '../language/languages/english/lists.js';

/** Whether a typed line asks to leave. */
export const leaves = (line: string): boolean => LEAVES.test(line);

/** A bath in the tank is not left without a question; whoever asks twice goes. */
export class Leaving {
  #asked = false;
  readonly #inTheTank: () => string | null;

  /** `inTheTank`: what stands in it now, in words; null: nothing that needs calls */
  constructor(inTheTank: () => string | null) {
    this.#inTheTank = inTheTank;
  }
  /** Null: leave. Else what to say first. */
  asked(): string | null {
    const bath = this.#asked ? null : this.#inTheTank();
    if (bath === null) return null;
    this.#asked = true;
    return `${bath} If I stop now, nobody calls. To leave all the same, ask again (exit or Ctrl-C).`;
  }
  /** Anything else was said: the next time it is asked anew. */
  stays(): void {
    this.#asked = false;
  }
}

/**
 * Ctrl-C asks; SIGTERM and SIGHUP end at once, with all that was said on the disk and the exit code that such an end
 * has (128 and the signal's number). Returns what unhooks them.
 */
export function onSignals(on: { interrupt(): void; end(): void }): () => void {
  const interrupt = (): void => on.interrupt();
  const end = (signal: NodeJS.Signals): void => {
    process.exitCode = 128 + constants.signals[signal];
    on.end();
  };
  process.on('SIGINT', interrupt);
  process.on('SIGTERM', end);
  process.on('SIGHUP', end);
  return () => {
    process.off('SIGINT', interrupt);
    process.off('SIGTERM', end);
    process.off('SIGHUP', end);
  };
}
