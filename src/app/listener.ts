import type { Hearing } from '../language/types.js';
import { beginsWithCall } from '../language/understanding.js';
import type { Situation } from '../process/desk.js';
import {
  type Attention,
  type AttentionEvent,
  type AttentionMode,
  attend,
  attention,
  hears,
  STOP_WORDS,
  sentencesGraph,
} from '../speech/ears/attention.js';
import { Endpointer, type Utterance } from '../speech/ears/endpointer.js';
import type { FrameSource } from '../speech/ears/frames.js';
import { SelfHearing } from '../speech/ears/self-hearing.js';
import type { VoiceActivity } from '../speech/ears/silero.js';
import { deaf, type SituatedEar } from './hearing.js';

export interface ListenerOptions {
  source: FrameSource;
  ear: SituatedEar;
  /** null: endpoints by level alone */
  voiceActivity: VoiceActivity | null;
  mode: AttentionMode;
  situations(): Situation[];
  /** one utterance, as understood; `utterance` tells when speech ended */
  onHearing(hearing: Hearing, utterance: Utterance): void;
  /** the microphone came, went, or gives nothing: one sentence */
  onNotice(sentence: string): void;
}

/** A complete command must be this sure before a short pause may end it. */
const sureEnough = 0.6;

const stopGraph = sentencesGraph('stop-words', STOP_WORDS);

/** Microphone frames → the assistant's own voice taken out → utterances → words, as the attention mode allows. */
export class Listener {
  readonly selfHearing = new SelfHearing();
  #attention: Attention;
  readonly #options: ListenerOptions;
  readonly #endpointer: Endpointer;

  constructor(options: ListenerOptions) {
    this.#options = options;
    this.#attention = attention(options.mode);
    this.#endpointer = new Endpointer({
      model: options.voiceActivity,
      isComplete: async ({ pcm }) => {
        const hearing = await options.ear.hear(pcm, options.situations());
        return hearing.accepted && (hearing.best?.confidence ?? 0) >= sureEnough;
      },
    });
  }

  get mode(): AttentionMode {
    return this.#attention.mode;
  }

  attend(event: AttentionEvent): void {
    this.#attention = attend(this.#attention, event);
    if (event.type === 'key') this.#endpointer.open();
  }

  /** Listens until `signal` aborts or the recording is over. */
  async run(signal: AbortSignal): Promise<void> {
    for await (const event of this.#options.source.open(signal)) {
      if (event.type === 'frame') {
        const clean = this.selfHearing.frame(event.pcm, event.startMs);
        const found = await this.#endpointer.push(clean, event.startMs);
        for (const f of found) if (f.type === 'utterance') await this.#judge(f.utterance);
      } else if (event.type === 'lost') {
        const again = Math.round(event.retryInMs / 1000);
        this.#options.onNotice(`${event.sentence} I try again in ${again} s; typing works meanwhile.`);
      } else if (event.type === 'silent') this.#options.onNotice(event.sentence);
      else this.#options.onNotice('I am listening.');
    }
    for (const f of this.#endpointer.close()) if (f.type === 'utterance') await this.#judge(f.utterance);
  }

  async #judge(utterance: Utterance): Promise<void> {
    const { ear, situations, onHearing } = this.#options;
    const mayDo = this.selfHearing.judge(utterance);
    if (mayDo === 'own-voice') return;
    const allowed = hears(this.#attention, utterance);
    if (mayDo === 'stop-words' || allowed === 'stop-words') {
      onHearing(await ear.hearUnder(utterance.pcm, stopGraph), utterance);
      return;
    }
    const hearing = await ear.hear(utterance.pcm, situations());
    const called = hearing.accepted && beginsWithCall(hearing.best?.words ?? '');
    if (called) this.attend({ type: 'called', atMs: utterance.endMs });
    const heeded = allowed === 'all' || called;
    onHearing(heeded ? hearing : deaf('It did not begin with the call word.'), utterance);
  }
}
