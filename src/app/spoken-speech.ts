import { inOneBreath, type Verbosity } from '../language/breath.js';
import type { Mouth } from '../speech/mouth/mouth.js';
import type { Reply } from './assistant.js';
import type { SpeechPort } from './conversation.js';

const DAY_MS = 24 * 3600 * 1000;

/** Replies on the screen and aloud. Each sentence is shown at once; the mouth decides when it can be said. */
export class SpokenSpeech implements SpeechPort {
  readonly #mouth: Mouth;
  readonly #show: (reply: Reply) => void;
  readonly #now: () => number;
  #last: Reply | null = null;
  #verbosity: Verbosity = 'brief';
  /** what the last answer left out */
  #rest = '';
  /** what cautions were about that were said in full today, and what is known to be said next */
  readonly #told = new Set<string>();
  #dayBegan = 0;
  /** cautions that wait for an answer with room for them */
  #owed: readonly string[] = [];

  constructor(mouth: Mouth, show: (reply: Reply) => void, now: () => number) {
    this.#mouth = mouth;
    this.#show = show;
    this.#now = now;
  }
  say(reply: Reply): void {
    this.#last = reply;
    this.#show(reply);
    if (this.#now() - this.#dayBegan >= DAY_MS) {
      this.#told.clear();
      this.#dayBegan = this.#now();
    }
    // a call is timed: nothing is added to it
    const waiting = reply.kind === 'answer' ? this.#owed : [];
    const { said, rest, told, owed } = inOneBreath(reply.text, this.#verbosity, this.#told, waiting);
    this.#rest = rest;
    for (const c of told) this.#told.add(c);
    const still = reply.kind === 'answer' ? owed : [...this.#owed, ...owed];
    this.#owed = [...new Set(still)].filter((c) => !this.#told.has(c));
    this.#mouth.say(reply.kind, said);
  }
  prepare(texts: string[]): void {
    // as it is said now, and as it is said once that was heard
    const ways = texts.flatMap((t) => {
      const first = inOneBreath(t, this.#verbosity, this.#told);
      return [first.said, inOneBreath(t, this.#verbosity, new Set([...this.#told, ...first.told])).said];
    });
    void this.#mouth.prepare([...new Set(ways)]);
  }
  ready(): void {
    this.#mouth.ready();
  }
  more(): void {
    const rest = this.#rest;
    this.#rest = '';
    this.#mouth.say('answer', rest || 'That was all.', false);
  }
  verbosity(level: Verbosity): void {
    this.#verbosity = level;
  }
  quiet(): void {
    this.#mouth.quiet();
  }
  sayAgain(): void {
    if (this.#last) this.#show({ ...this.#last, atMs: this.#now() });
    if (!this.#mouth.sayAgain()) this.#tell('I have not said anything yet.');
  }
  adjust(change: 'louder' | 'softer' | 'slower' | 'faster'): void {
    const changed = this.#mouth[change]();
    this.#tell(
      changed ? `${change[0]?.toUpperCase()}${change.slice(1)}.` : `That is as ${farthest[change]} as I go.`,
    );
  }
  #tell(text: string): void {
    this.#show({ atMs: this.#now(), kind: 'answer', text, desk: 'talk' });
    this.#mouth.say('answer', text, false);
  }
}

const farthest = {
  louder: 'loud',
  softer: 'soft',
  slower: 'slow',
  faster: 'fast',
} as const;
