import type { Hearing } from '../language/types.js';
import type { AssistantState, Reply } from './assistant.js';
import type { Bench } from './bench.js';
import type { BenchClock } from './clock.js';
import { Conversation, type ConversationPorts, type SpeechPort } from './conversation.js';

/** A timer that is later than this is split: Node's timers hold 24.8 days at most, and sleep makes long ones late. */
const longestTimerMs = 60_000;

const afterFailureMs = 500;

/** What understanding a line may take, ms (tests/bench/ledger-fuzz.ts). */
const understandingMs = 200;

/** A conversation in real time: deadlines are met by timers set to the absolute time of each. */
export class LiveConversation {
  readonly conversation: Conversation;
  readonly #clock: BenchClock;
  #timer: NodeJS.Timeout | null = null;

  constructor(
    bench: Bench,
    ports: Omit<ConversationPorts, 'assistant' | 'language' | 'why'>,
    state: AssistantState,
  ) {
    this.#clock = ports.clock;
    this.conversation = new Conversation({ ...bench, ...ports }, state);
  }

  typed(line: string): void {
    this.conversation.typed(line);
    this.schedule();
  }

  /** `sure` false: asks whether it was meant */
  heard(hearing: Hearing, sure = true): void {
    this.conversation.heard(hearing, sure);
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
      try {
        this.conversation.timePassed();
      } catch (error) {
        // tried again soon, since a call that is due must not be lost; told of by whoever catches what is thrown
        this.#timer = setTimeout(() => this.schedule(), afterFailureMs);
        throw error;
      }
      this.schedule();
    }, inMs);
  }

  /** How long until a call that is due so soon that understanding a line might hold it up, ms; else 0. */
  callSoonMs(): number {
    const due = this.conversation.nextWakeMs();
    const leftMs = due === null ? 0 : due - this.#clock.nowMs();
    return leftMs > 0 && leftMs <= understandingMs ? leftMs : 0;
  }

  stop(): void {
    if (this.#timer) clearTimeout(this.#timer);
  }
}

/** Feeds typed lines to `take` until the input ends; timers come between two lines, and a line waits for a call that is due. */
export async function typedLines(
  input: AsyncIterable<string>,
  take: (line: string) => void,
  waitMs: () => number = () => 0,
): Promise<void> {
  for await (const raw of input) {
    const line = raw.trim();
    if (line === '') continue;
    const dueMs = waitMs();
    if (dueMs > 0) await new Promise((next) => setTimeout(next, dueMs));
    take(line);
    await new Promise((next) => setImmediate(next));
  }
}

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
