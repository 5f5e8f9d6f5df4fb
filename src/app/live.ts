import type { Interpretation } from '../language/interpretation.js';
import type { Hearing } from '../language/types.js';
import type { Situation } from '../process/desk.js';
import type { AssistantState, Reply } from './assistant.js';
import type { Bench } from './bench.js';
import type { BenchClock } from './clock.js';
import { Conversation, type ConversationPorts, type SpeechPort } from './conversation.js';
import { type Opened, opened, worthReading } from './openly.js';
import { type Understanding, understandingThread } from './understanding.js';

/** A timer that is later than this is split: Node's timers hold 24.8 days at most, and sleep makes long ones late. */
const longestTimerMs = 60_000;

const afterFailureMs = 500;

/** In these nobody waits with wet hands for an answer. */
const AT_REST: ReadonlySet<Situation> = new Set(['anytime', 'preparing', 'warming', 'closing']);

/** What is taken to be needed of the loop by work that was not done yet, ms. */
const firstGuessMs = 50;
/** undo and correction go through the last events again */
const longGuessMs = 600;
const long: ReadonlySet<string> = new Set(['undo', 'redo', 'correct', 'confirm']);
/** A player that needs time to start is started so long before a call is due, ms. */
const readyMs = 1_000;
/** a call is given within this many milliseconds once it is due */
const justDueMs = 50;
/** Work took longer than expected by so much at most, and a slow one is forgotten by so much with every quick one. */
const slack = 1.5;
const forgets = 0.8;

/**
 * A conversation in real time: deadlines are met by timers set to the absolute time of each. What is typed is understood
 * in a thread of its own; what changes the state waits for a call that is due before it would be done.
 */
export class LiveConversation {
  readonly conversation: Conversation;
  readonly #clock: BenchClock;
  readonly #understanding: Understanding;
  readonly #speech: SpeechPort;
  #timer: NodeJS.Timeout | null = null;
  #readying: NodeJS.Timeout | undefined;
  /** one thing after another, in the order it was said */
  #turn: Promise<void> = Promise.resolve();
  /** told after everything that may have changed what can be said */
  onMoved: (() => void) | null = null;
  /** how long each kind of intent held the loop, ms */
  readonly #tookMs = new Map<string, number>();

  constructor(
    bench: Bench,
    ports: Omit<ConversationPorts, 'assistant' | 'language' | 'why'> &
      Partial<Pick<ConversationPorts, 'why'>>,
    state: AssistantState,
  ) {
    this.#clock = ports.clock;
    this.#speech = ports.speech;
    this.#understanding = understandingThread(bench.language, undefined, () =>
      this.conversation.situations().some((s) => !AT_REST.has(s)),
    );
    this.conversation = new Conversation({ ...bench, ...ports }, state);
  }

  /** Done when the line was acted on. */
  typed(line: string): Promise<void> {
    return this.#inTurn(async () => {
      const understood = await this.#understanding.typed(
        line,
        this.conversation.situations(),
        this.conversation.due(),
      );
      await this.#work(kindOf(understood), () => this.conversation.typed(line, understood));
    });
  }

  /** `sure` false: asks whether it was meant */
  heard(hearing: Hearing, sure = true): Promise<void> {
    return this.#inTurn(() => {
      const made = this.conversation.madeOf(hearing);
      return this.#work(kindOf(made?.understood), () => this.conversation.heard(hearing, sure, made));
    });
  }

  /** What comes of words that no grammar has; null: nothing. */
  async opened(hearing: Hearing): Promise<Opened | null> {
    const readings = worthReading(hearing);
    const meanings: Interpretation[] = [];
    for (const { words } of readings)
      meanings.push(
        await this.#understanding.typed(words, this.conversation.situations(), this.conversation.due()),
      );
    return opened(readings, meanings);
  }

  open(found: Opened): Promise<void> {
    return this.#inTurn(() => this.#work(kindOf(found.understood), () => void this.conversation.open(found)));
  }

  /** Makes the answer ready that a sentence would get; left out when a call is due. */
  expect(hearing: Hearing, inMs: number): void {
    if (this.#untilClearMs(longGuessMs) === 0) this.conversation.expect(hearing, inMs);
  }

  #inTurn(work: () => Promise<void>): Promise<void> {
    this.#turn = this.#turn.then(work).catch((error: unknown) => {
      // told of by the net under the run; the next line is taken all the same
      setImmediate(() => {
        throw error;
      });
    });
    return this.#turn;
  }

  async #work(kind: string, work: () => void): Promise<void> {
    await this.clear(this.#tookMs.get(kind) ?? (long.has(kind) ? longGuessMs : firstGuessMs));
    const began = performance.now();
    try {
      work();
    } finally {
      const tookMs = performance.now() - began;
      this.#tookMs.set(kind, Math.max(tookMs, forgets * (this.#tookMs.get(kind) ?? 0)));
      this.schedule();
    }
  }

  /** Waits until work of so many ms holds up no call, for two calls at most: what was said is done, however busy it is. */
  async clear(workMs: number = longGuessMs): Promise<void> {
    for (let waits = 0; waits < 2; waits += 1) {
      const ms = this.#untilClearMs(Math.min(workMs, longGuessMs));
      if (ms === 0) return;
      await new Promise((next) => setTimeout(next, ms));
    }
  }

  /** How long to wait until work of so many ms holds up no call; 0: it can begin. */
  #untilClearMs(workMs: number): number {
    const due = this.conversation.nextWakeMs();
    const leftMs = due === null ? Number.POSITIVE_INFINITY : due - this.#clock.nowMs();
    // one that is due this very moment is let go first too
    return leftMs > -justDueMs && leftMs < workMs * slack ? Math.max(1, leftMs + 1) : 0;
  }

  /** Sets the timer for the next deadline; call after everything that may have moved it. */
  schedule(): void {
    this.#clear();
    this.onMoved?.();
    const due = this.conversation.nextWakeMs();
    if (due === null) return;
    const inMs = Math.min(longestTimerMs, Math.max(0, due - this.#clock.nowMs()));
    if (this.conversation.speaksNext && inMs < longestTimerMs)
      this.#readying = setTimeout(() => this.#speech.ready?.(), Math.max(0, inMs - readyMs));
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

  #clear(): void {
    if (this.#timer) clearTimeout(this.#timer);
    clearTimeout(this.#readying);
    this.#timer = null;
  }

  stop(): void {
    this.#clear();
    this.#understanding.close();
  }
}

const kindOf = (understood: Interpretation | undefined): string =>
  understood?.kind === 'understood' ? understood.intent.type : (understood?.kind ?? '');

/** Feeds typed lines to `take` one after another until the input ends or it is `over`; timers come between two lines. */
export async function typedLines(
  input: AsyncIterable<string>,
  take: (line: string) => Promise<void> | void,
  over: () => boolean = () => false,
): Promise<void> {
  for await (const raw of input) {
    if (over()) return;
    const line = raw.trim();
    if (line === '') continue;
    await take(line);
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
