import type { Reply } from '../../src/app/assistant.js';
import { createBench } from '../../src/app/bench.js';
import { SimulatedClock } from '../../src/app/clock.js';
import { Conversation } from '../../src/app/conversation.js';
import { letTimePass } from '../../src/app/play-script.js';
import { type Seen, screenView, type ViewSource } from '../../src/app/screen-view.js';
import type { LanguageCode } from '../../src/language/languages/words.js';
import type { ScreenLine, ScreenView } from '../../src/screen/view.js';

/** The whole assistant on a simulated clock, with the view that screens get. */
export class RunOnClock {
  readonly bench;
  readonly clock = new SimulatedClock();
  readonly conversation: Conversation;
  readonly replies: Reply[] = [];
  readonly lines: ScreenLine[] = [];
  seen: Seen = {
    asked: null,
    heard: null,
    ears: { microphone: null, screen: null },
    readBy: {},
  };
  onReply: (reply: Reply) => void = () => {};

  constructor(sheet = 'ecn2-ferricyanide', language: LanguageCode = 'en') {
    this.bench = createBench({ sheet, language });
    this.conversation = new Conversation({
      ...this.bench,
      clock: this.clock,
      journal: { append: () => null },
      speech: {
        say: (reply) => {
          this.replies.push(reply);
          this.#line(reply.kind, reply.text);
          if (reply.kind === 'warning' || reply.kind === 'question')
            this.seen = { ...this.seen, asked: reply.text };
          this.onReply(reply);
        },
        prepare() {},
        quiet() {},
        sayAgain() {},
        adjust() {},
      },
    });
  }

  say(...lines: string[]): this {
    for (const line of lines) {
      this.#line('you', line);
      this.conversation.typed(line);
    }
    return this;
  }

  pass(seconds: number): this {
    letTimePass(this.conversation, this.clock, seconds * 1000);
    return this;
  }

  source(): ViewSource {
    return {
      state: this.conversation.state,
      situations: this.conversation.situations(),
      bench: this.bench,
      seen: this.seen,
      atMs: this.clock.nowMs(),
      wallMs: this.clock.wallMs(),
    };
  }

  view(): ScreenView {
    return screenView(this.source());
  }

  #line(kind: ScreenLine['kind'], text: string): void {
    this.lines.push({ id: this.lines.length + 1, kind, text, atMs: this.clock.nowMs() });
  }
}

/** A run up to the developer standing in the tank for so many seconds. */
export const inDeveloper = (seconds: number): RunOnClock =>
  new RunOnClock()
    .say('begin the run', 'next step', 'developer is 41.1', 'bleach is 37.4', 'fixer is 36.2', 'next step')
    .say('film is loaded', 'prebath is in')
    .pass(10)
    .say('returning the prebath to bottle one', 'tank is empty', 'water is in')
    .pass(40)
    .say('tank is empty', 'developer is in')
    .pass(seconds);
