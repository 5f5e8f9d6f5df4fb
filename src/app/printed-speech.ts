import type { Reply } from './assistant.js';
import type { SpeechPort } from './conversation.js';

/** A mouth without a voice: every reply is printed; talk about the talking is answered in words. */
export class PrintedSpeech implements SpeechPort {
  #last: Reply | null = null;
  readonly #show: (reply: Reply) => void;
  readonly #clock: { nowMs(): number };

  constructor(show: (reply: Reply) => void, clock: { nowMs(): number }) {
    this.#show = show;
    this.#clock = clock;
  }
  say(reply: Reply): void {
    this.#last = reply;
    this.#show(reply);
  }
  prepare(): void {}
  quiet(): void {}
  sayAgain(): void {
    if (this.#last) this.#show({ ...this.#last, atMs: this.#clock.nowMs() });
    else this.#tell('I have not said anything yet.');
  }
  more(): void {
    this.#tell('That was all: each answer is shown in full.');
  }
  adjust(change: 'louder' | 'softer' | 'slower' | 'faster'): void {
    this.#tell(`${change[0]?.toUpperCase()}${change.slice(1)}.`);
  }
  #tell(text: string): void {
    this.#show({ atMs: this.#clock.nowMs(), kind: 'answer', text, desk: 'talk' });
  }
}
