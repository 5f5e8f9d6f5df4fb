import type { Interface } from 'node:readline';
import { Transform } from 'node:stream';
import { StringDecoder } from 'node:string_decoder';
import type { Hearing } from '../language/types.js';
import type { AssistantState, Reply } from './assistant.js';
import type { Bench } from './bench.js';
import type { BenchClock } from './clock.js';
import { Conversation, type ConversationPorts, type SpeechPort } from './conversation.js';

/** A timer that is later than this is split: Node's timers hold 24.8 days at most, and sleep makes long ones late. */
const longestTimerMs = 60_000;

/** A conversation in real time: deadlines are met by timers set to the absolute time of each. */
export class LiveConversation {
  readonly conversation: Conversation;
  readonly #clock: BenchClock;
  #timer: NodeJS.Timeout | null = null;

  constructor(bench: Bench, ports: Omit<ConversationPorts, 'assistant' | 'language'>, state: AssistantState) {
    this.#clock = ports.clock;
    this.conversation = new Conversation({ ...bench, ...ports }, state);
  }

  typed(line: string): void {
    this.conversation.typed(line);
    this.schedule();
  }

  heard(hearing: Hearing): void {
    this.conversation.heard(hearing);
    this.schedule();
  }

  /** Sets the timer for the next deadline; call after everything that may have moved it. */
  schedule(): void {
    if (this.#timer) clearTimeout(this.#timer);
    this.#timer = null;
    const due = this.conversation.nextWakeMs();
    if (due === null) return;
    const inMs = Math.min(longestTimerMs, Math.max(0, due - this.#clock.nowMs()));
    this.#timer = setTimeout(() => {
      this.conversation.timePassed();
      this.schedule();
    }, inMs);
  }

  stop(): void {
    if (this.#timer) clearTimeout(this.#timer);
  }
}

/** Feeds typed lines to `take` until the input ends or a line asks to leave; timers come between two lines. */
export async function typedLines(input: Interface, take: (line: string) => void): Promise<void> {
  for await (const raw of input) {
    const line = raw.trim();
    if (/^(exit|quit|bye|good ?bye)[.!]?$/i.test(line)) return;
    if (line === '') continue;
    take(line);
    await new Promise((next) => setImmediate(next));
  }
}

/**
 * Stands before the line editor: of a line that is too long the beginning goes through and the rest is dropped, since
 * the editor redraws the whole line with every character that is pasted.
 */
export class BoundedLines extends Transform {
  #length = 0;
  readonly #mostChars: number;
  readonly #dropped: (chars: number) => void;
  #lost = 0;

  constructor(mostChars: number, dropped: (chars: number) => void) {
    super({ decodeStrings: false, encoding: 'utf8' });
    this.#mostChars = mostChars;
    this.#dropped = dropped;
  }
  override _transform(chunk: Buffer | string, _encoding: string, done: () => void): void {
    let kept = '';
    for (const char of this.#decoder.write(chunk as Buffer)) {
      if (lineEnds.has(char)) this.#ended();
      else if (erases.has(char)) this.#length = Math.max(0, this.#length - 1);
      else if (this.#length >= this.#mostChars) {
        this.#lost++;
        continue;
      } else this.#length++;
      kept += char;
    }
    if (kept !== '') this.push(kept);
    done();
  }
  override _flush(done: () => void): void {
    this.#ended();
    done();
  }
  readonly #decoder = new StringDecoder('utf8');
  #ended(): void {
    if (this.#lost > 0) this.#dropped(this.#lost);
    this.#lost = 0;
    this.#length = 0;
  }
}

/** line feed, return, and the keys that empty the line or leave it */
const lineEnds = new Set(['\n', '\r', '\u0003', '\u0004', '\u0015']);
const erases = new Set(['\b', '\u007f']);

/** Collects replies instead of saying them. */
export class Hushed implements SpeechPort {
  readonly replies: Reply[] = [];
  say(reply: Reply): void {
    this.replies.push(reply);
  }
  prepare(): void {}
  quiet(): void {}
  sayAgain(): void {}
  adjust(): void {}
}
