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
import type { SoFar, Utterance } from '../speech/ears/endpointer.js';
import type { FrameSource } from '../speech/ears/frames.js';
import { COVERED_MS, type EarsOptions, listen } from '../speech/ears/listen.js';
import { SelfHearing } from '../speech/ears/self-hearing.js';
import { passed } from '../speech/stages.js';
import { without } from '../speech/without.js';
import { deaf, type OngoingHearing, opening, type SituatedEar } from './hearing.js';

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
  /** whether what no grammar has may be meant at all, at this time on the clock of the frames; never when not given */
  opens?(atMs: number): boolean;
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

/**
 * A complete command must be this sure before a short pause may end it; and more, where the reading so far is half another sentence. That
 * reading is one recogniser's alone: of strangers' short questions it is wrong about one in four.
 */
const sureEnough = 0.6;
const sureAgainstReading = 0.9;
/** After so long a pause the reading no longer counts against it, ms. */
const longerPauseMs = 350;
/** so sure where its own voice may be among what was heard */
const sureUntouched = 0.75;

/** From the lull at which a guess begins to the pause that may end an utterance, ms. */
const lullToPauseMs = ENDPOINT_DEFAULTS.shortHangMs - ENDPOINT_DEFAULTS.lullMs;

/** A word that silences, with the quiet around it, is no longer than this, ms. */
const longestStopWordMs = 1_800;

const stopGraph = sentencesGraph('stop-words', STOP_WORDS);

/** Microphone frames → the assistant's own voice taken out → utterances → words, as the attention mode allows. */
export class Listener {
  readonly selfHearing = without('barge-in')
    ? new SelfHearing(() => ({ problem: 'Left out for a test.' }))
    : new SelfHearing();
  #attention: Attention;
  readonly #options: ListenerOptions;
  /** what is heard while it comes */
  #ongoing: { startMs: number; hearing: OngoingHearing } | null = null;
  /** what was heard at a pause, of speech that ended at this time */
  #paused: { startMs: number; speechEndMs: number; hearing: Hearing } | null = null;

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

  /** What can be said may have changed: its grammar is put together before anybody speaks, not while. */
  getReady(): void {
    if (!this.#ongoing) this.#options.ear.prepare(this.#options.situations());
  }

  /** Listens until `signal` aborts or the recording is over. */
  async run(signal: AbortSignal): Promise<void> {
    const { source, ear, situations, onHearing, onNotice, loadModel } = this.#options;
    const ears = listen(
      {
        source,
        attention: () => this.#attention,
        selfHearing: this.selfHearing,
        onSound: (piece) => this.#sound(piece),
        isComplete: (soFar) => this.#isComplete(soFar),
        onLull: ({ startMs }) => this.#guess(startMs),
        ...(loadModel === undefined ? {} : { loadModel }),
      },
      signal,
    );
    for await (const event of ears) {
      if (event.type === 'speech') {
        this.#options.onSpeech?.();
        ear.prepare(situations());
      } else if (event.type === 'listening') {
        onNotice('I am listening.');
        ear.prepare(situations());
      } else if (event.type === 'problem') onNotice(`${event.sentence} Typing works meanwhile.`);
      else if (event.type === 'utterance') {
        if (this.#options.dictating?.() && event.hears === 'all')
          await this.#options.onDictation?.(event.utterance);
        else {
          const { utterance, overVoice } = event;
          const { hearing, called } = await this.#judge(utterance, event.hears, overVoice);
          const { accepted, best } = hearing;
          passed('heard', {
            text: `${accepted ? 'taken' : 'left'}: ${best?.words} ${best?.confidence.toFixed(2)}`,
          });
          onHearing(hearing, { utterance, overVoice, called: called || this.mode === 'push-to-talk' });
        }
      } else if (event.type === 'own-voice') {
        const { utterance } = event;
        const stop = await this.#stopWord(utterance);
        if (stop) onHearing(stop, { utterance, overVoice: true, called: false });
        else {
          passed('own-voice');
          this.#options.onOwnVoice?.();
        }
      }
    }
  }

  #sound({ pcm, startMs }: { pcm: Float32Array; startMs: number }): void {
    const { ear, situations, opens } = this.#options;
    if (this.#ongoing?.startMs !== startMs) {
      const amongTalk = this.mode === 'always' && !(opens?.(startMs) ?? true);
      this.#ongoing = { startMs, hearing: ear.begin(situations(), amongTalk) };
    }
    this.#ongoing.hearing.push(pcm);
  }

  /** What may be said so far gets an answer ready. */
  async #guess(startMs: number): Promise<void> {
    const { onGuess, dictating } = this.#options;
    if (!onGuess || dictating?.() || this.#ongoing?.startMs !== startMs) return;
    const { words, whole } = await this.#ongoing.hearing.guess();
    if (whole) onGuess(guessed(words), lullToPauseMs);
  }

  async #isComplete({ pcm, startMs, speechEndMs }: SoFar): Promise<boolean> {
    const ongoing = this.#ongoing;
    passed('paused');
    if (ongoing?.startMs !== startMs) return false;
    const { words, whole, hopeless } = await ongoing.hearing.guess();
    if (hopeless) return false;
    const hearing = await ongoing.hearing.hear(pcm, this.#options.situations());
    this.#paused = { startMs, speechEndMs, hearing };
    passed('made-out');
    const half = words !== '' && !whole && startMs + pcm.length / 16 - speechEndMs < longerPauseMs;
    return sureness(hearing) >= (half ? sureAgainstReading : sureEnough);
  }

  /** What was said, of sound that came already: at a pause after which nothing more was said, or now. */
  async #heard({ pcm, startMs, speechEndMs }: Utterance): Promise<Hearing> {
    const { ear, situations } = this.#options;
    const paused = this.#paused;
    const ongoing = this.#ongoing;
    this.#paused = null;
    this.#ongoing = null;
    if (paused?.startMs === startMs && paused.speechEndMs === speechEndMs) return paused.hearing;
    return ongoing?.startMs === startMs
      ? ongoing.hearing.hear(pcm, situations())
      : ear.hear(pcm, situations());
  }

  /**
   * Over its own voice it soon falls silent, and taking that voice out may have hurt the other's: the sound as it came is heard too.
   * What is no command by either may still be one of the few words that silence it.
   */
  async #hear(utterance: Utterance, overVoice: boolean): Promise<Hearing> {
    const { ear, situations } = this.#options;
    const { startMs, endMs } = utterance;
    const cancelled = await this.#heard(utterance);
    if (!overVoice || sureness(cancelled) >= sureAgainstReading) return cancelled;
    const sound = this.selfHearing.untouched(startMs, endMs);
    const untouched = sound && (await ear.hear(sound, situations()));
    const better = untouched && sureness(untouched) >= Math.max(sureUntouched, sureness(cancelled));
    const hearing = better ? untouched : cancelled;
    return hearing.accepted ? hearing : ((await this.#stopWord(utterance)) ?? hearing);
  }

  /**
   * One of the few words that silence it. Short ones over a loud echo are like its own voice, of which most of the sound is: of sixty,
   * fourteen were taken for that. What came before the word that it fell silent for is its own voice's, and is left out.
   */
  async #stopWord({ pcm, startMs, endMs }: Utterance): Promise<Hearing | null> {
    const cutOffMs = this.selfHearing.cutOffMs;
    const fromMs = cutOffMs < endMs ? Math.max(startMs, cutOffMs - COVERED_MS) : startMs;
    // without a canceller it is deaf while it speaks, and what it made faint is no less plain to the recogniser
    if (this.selfHearing.problem || endMs - fromMs > longestStopWordMs) return null;
    const left = pcm.subarray(Math.round(16 * (fromMs - startMs)));
    const look = async (sound: Float32Array | null): Promise<Hearing | null> => {
      const stop = sound && (await this.#options.ear.hearUnder(sound, stopGraph));
      return stop && sureness(stop) >= sureUntouched ? stop : null;
    };
    const stop = (await look(left)) ?? (await look(this.selfHearing.untouched(fromMs, endMs)));
    this.getReady();
    return stop;
  }

  /**
   * What no grammar has, over the whole vocabulary: while no talk goes on, or where the call word or the key says that it is meant. Of its
   * own voice it would make words.
   */
  async #opened(hearing: Hearing, utterance: Utterance, overVoice: boolean): Promise<Hearing> {
    const { ear, opens } = this.#options;
    if (hearing.accepted || overVoice || !opens) return hearing;
    const opened = await opening(ear, hearing);
    const meant = this.mode !== 'always' || opens(utterance.endMs);
    return meant || beginsWithCall(opened.open?.[0]?.words ?? '') ? opened : hearing;
  }

  async #judge(
    utterance: Utterance,
    allowed: Hears,
    overVoice: boolean,
  ): Promise<{ hearing: Hearing; called: boolean }> {
    const { ear, check } = this.#options;
    if (allowed === 'stop-words')
      return {
        hearing: await ear.hearUnder(utterance.pcm, stopGraph),
        called: false,
      };
    const hearing = await this.#opened(await this.#hear(utterance, overVoice), utterance, overVoice);
    const called = beginsWithCall((hearing.accepted ? hearing.best : hearing.open?.[0])?.words ?? '');
    if (called) this.attend({ type: 'called', atMs: utterance.endMs });
    if (allowed !== 'all' && !called)
      return { hearing: deaf('It did not begin with the call word.'), called };
    const inCall = called || this.mode === 'call-word';
    return { hearing: (await check?.(hearing, utterance.pcm)) ?? hearing, called: inCall };
  }
}

/** 0: no command */
const sureness = ({ accepted, best }: Hearing): number => (accepted ? (best?.confidence ?? 0) : 0);

/** A guess in the shape of a hearing. */
const guessed = (words: string): Hearing => ({
  accepted: true,
  best: { words, confidence: sureEnough, score: 0, wordTimes: [] },
  alternatives: [],
  milliseconds: { network: 0, decoder: 0, rejection: 0, total: 0 },
});
