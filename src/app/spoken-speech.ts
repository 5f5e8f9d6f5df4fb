import { type Breath, inOneBreath, namesNewCaution, type Verbosity } from '../language/breath.js';
import type { Mouth } from '../speech/mouth/mouth.js';
import type { Reply } from './assistant.js';
import type { SpeechPort } from './conversation.js';

/** Replies on the screen and aloud. Each sentence is shown at once; the mouth decides when it can be said. */
export class SpokenSpeech implements SpeechPort {
  readonly #mouth: Mouth;
  readonly #show: (reply: Reply) => void;
  readonly #now: () => number;
  #last: Reply | null = null;
  #verbosity: Verbosity = 'brief';
  /** what the last answer left out */
  #rest = '';
  /** cautions that were said in full since the start */
  readonly #warned = new Set<string>();

  constructor(mouth: Mouth, show: (reply: Reply) => void, now: () => number) {
    this.#mouth = mouth;
    this.#show = show;
    this.#now = now;
  }
  say(reply: Reply): void {
    this.#last = reply;
    this.#show(reply);
    const { said, rest, cautions } = this.#breath(reply.text);
    this.#rest = rest;
    for (const c of cautions) this.#warned.add(c);
    this.#mouth.say(reply.kind, said);
  }
  prepare(texts: string[]): void {
    void this.#mouth.prepare(texts.map((t) => this.#breath(t).said));
  }
  more(): void {
    const rest = this.#rest;
    this.#rest = '';
    this.#mouth.say('answer', rest || 'That was all.', false);
  }
  verbosity(level: Verbosity): void {
    this.#verbosity = level;
  }
  /** A caution that is new today is worth a second breath. */
  #breath(text: string): Breath {
    const short = inOneBreath(text, this.#verbosity, this.#warned);
    return this.#verbosity === 'brief' && namesNewCaution(text, this.#warned)
      ? inOneBreath(text, 'normal', this.#warned)
      : short;
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

const farthest = { louder: 'loud', softer: 'soft', slower: 'slow', faster: 'fast' } as const;
