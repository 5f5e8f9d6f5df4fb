import type { Hearing } from '../language/types.js';
import { beginsWithCall } from '../language/understanding.js';
import type { Situation } from '../process/desk.js';
import {
  type Attention,
  type AttentionEvent,
  type AttentionMode,
  attend,
  attention,
  type Hears,
  STOP_WORDS,
  sentencesGraph,
} from '../speech/ears/attention.js';
import { ENDPOINT_DEFAULTS } from '../speech/ears/endpoint-core.js';
import type { Utterance } from '../speech/ears/endpointer.js';
import type { FrameSource } from '../speech/ears/frames.js';
import { type EarsOptions, listen } from '../speech/ears/listen.js';
import { SelfHearing } from '../speech/ears/self-hearing.js';
import { deaf, type SituatedEar } from './hearing.js';

export interface ListenerOptions {
  source: FrameSource;
  ear: SituatedEar;
  mode: AttentionMode;
  situations(): Situation[];
  /** one utterance as understood, and how it came */
  onHearing(hearing: Hearing, how: Overheard): void;
  /** somebody begins to speak */
  onSpeech?(): void;
  /** what seemed to be somebody was the assistant's own voice */
  onOwnVoice?(): void;
  /** this may be what is being said, and would count in so many ms: a chance to get an answer ready */
  onGuess?(hearing: Hearing, inMs: number): void;
  /** the microphone came, went, or gives nothing: one sentence */
  onNotice(sentence: string): void;
  /** true: the next utterance is free speech for `onDictation`, not a command */
  dictating?(): boolean;
  onDictation?(utterance: Utterance): Promise<void>;
  /** a second look at what was heard, before it counts */
  check?(hearing: Hearing, pcm: Float32Array): Promise<Hearing>;
  /** Silero's when not given; null: endpoints by level alone */
  loadModel?: EarsOptions['loadModel'];
}

export interface Overheard {
  utterance: Utterance;
  /** the assistant was speaking, or just had been */
  overVoice: boolean;
  /** with the call word, or while the key was held */
  called: boolean;
}

/** A complete command must be this sure before a short pause may end it. */
const sureEnough = 0.6;

/** From the lull at which a guess begins to the pause that may end an utterance, ms. */
const lullToPauseMs = ENDPOINT_DEFAULTS.shortHangMs - ENDPOINT_DEFAULTS.lullMs;

/** A word that silences, with the quiet around it, is no longer than this, ms. */
const longestStopWordMs = 1_800;

const stopGraph = sentencesGraph('stop-words', STOP_WORDS);

/** Microphone frames → the assistant's own voice taken out → utterances → words, as the attention mode allows. */
export class Listener {
  readonly selfHearing = new SelfHearing();
  #attention: Attention;
  readonly #options: ListenerOptions;
  #partial: { startMs: number; hearing: Hearing } | null = null;
  /** how long the last sentence took to decide, ms */
  #decisionMs = 0;

  constructor(options: ListenerOptions) {
    this.#options = options;
    this.#attention = attention(options.mode);
  }

  get mode(): AttentionMode {
    return this.#attention.mode;
  }

  attend(event: AttentionEvent): void {
    this.#attention = attend(this.#attention, event);
  }

  /** Listens until `signal` aborts or the recording is over. */
  async run(signal: AbortSignal): Promise<void> {
    const { source, ear, situations, onHearing, onNotice, loadModel } = this.#options;
    const ears = listen(
      {
        source,
        attention: () => this.#attention,
        selfHearing: this.selfHearing,
        isComplete: async ({ pcm, startMs }) => {
          const hearing = await ear.hear(pcm, situations());
          this.#partial = { startMs, hearing };
          this.#decisionMs = hearing.milliseconds.total;
          return isSure(hearing);
        },
        onLull: ({ pcm }) => this.#guess(pcm),
        ...(loadModel === undefined ? {} : { loadModel }),
      },
      signal,
    );
    for await (const event of ears) {
      if (event.type === 'speech') {
        this.#options.onSpeech?.();
        ear.prepare?.(situations());
      } else if (event.type === 'listening') {
        onNotice('I am listening.');
        ear.prepare?.(situations());
      } else if (event.type === 'problem') onNotice(`${event.sentence} Typing works meanwhile.`);
      else if (event.type === 'utterance') {
        if (this.#options.dictating?.() && event.hears === 'all')
          await this.#options.onDictation?.(event.utterance);
        else {
          const { utterance, overVoice } = event;
          const { hearing, called } = await this.#judge(utterance, event.hears, overVoice);
          onHearing(hearing, { utterance, overVoice, called: called || this.mode === 'push-to-talk' });
        }
      } else if (event.type === 'own-voice') this.#options.onOwnVoice?.();
    }
  }

  /** Hears what was said so far, where that is done before the pause comes; a slow machine leaves it. */
  async #guess(pcm: Float32Array): Promise<void> {
    const { ear, situations, onGuess, dictating } = this.#options;
    if (!onGuess || dictating?.() || this.#decisionMs > lullToPauseMs) return;
    const hearing = await ear.hear(pcm, situations());
    if (isSure(hearing)) onGuess(hearing, lullToPauseMs);
  }

  /** What ended because it was whole has been heard already, at the pause. */
  #wholeAlready({ reason, startMs }: Utterance): Hearing | null {
    const partial = this.#partial;
    this.#partial = null;
    return reason === 'complete' && partial?.startMs === startMs ? partial.hearing : null;
  }

  /** Over its own voice, what was heard as no command may still be one of the few words that silence it. */
  async #hear(utterance: Utterance, overVoice: boolean): Promise<Hearing> {
    const { ear, situations } = this.#options;
    const hearing = this.#wholeAlready(utterance) ?? (await ear.hear(utterance.pcm, situations()));
    if (hearing.accepted || !overVoice || utterance.endMs - utterance.startMs > longestStopWordMs)
      return hearing;
    const stop = await ear.hearUnder(utterance.pcm, stopGraph);
    return stop.accepted ? stop : hearing;
  }

  async #judge(
    utterance: Utterance,
    allowed: Hears,
    overVoice: boolean,
  ): Promise<{ hearing: Hearing; called: boolean }> {
    const { ear, check } = this.#options;
    if (allowed === 'stop-words')
      return { hearing: await ear.hearUnder(utterance.pcm, stopGraph), called: false };
    const hearing = await this.#hear(utterance, overVoice);
    const called = hearing.accepted && beginsWithCall(hearing.best?.words ?? '');
    if (called) this.attend({ type: 'called', atMs: utterance.endMs });
    if (allowed !== 'all' && !called)
      return { hearing: deaf('It did not begin with the call word.'), called };
    const inCall = called || this.mode === 'call-word';
    return { hearing: (await check?.(hearing, utterance.pcm)) ?? hearing, called: inCall };
  }
}

const isSure = (hearing: Hearing): boolean =>
  hearing.accepted && (hearing.best?.confidence ?? 0) >= sureEnough;
