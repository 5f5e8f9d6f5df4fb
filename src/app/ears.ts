import { performance } from 'node:perf_hooks';
import { isGuarded } from '../language/interpret.js';
import type { Hearing } from '../language/types.js';
import type { AttentionMode } from '../speech/ears/attention.js';
import type { Utterance } from '../speech/ears/endpointer.js';
import type { FrameSource } from '../speech/ears/frames.js';
import { microphone } from '../speech/ears/microphone.js';
import { availableRecorders, howToGetRecorder } from '../speech/ears/recorders.js';
import type { MouthEvent } from '../speech/mouth/mouth.js';
import type { SecondOpinion } from '../speech/second-opinion/whisper.js';
import type { Bench } from './bench.js';
import { type SituatedEar, situatedEar } from './hearing.js';
import { Listener } from './listener.js';
import type { LiveConversation } from './live.js';
import { crossChecked, openSecondOpinion } from './second-opinion.js';
import { spokenNote } from './spoken-note.js';
import { sparing, supervised } from './supervised.js';

export interface EarsOptions {
  bench: Bench;
  live: LiveConversation;
  mode: AttentionMode;
  /** where the learnt voice, a second opinion's model and spoken notes are kept */
  dataFolder: string;
  /** one line for the screen */
  notice(sentence: string): void;
  /** somebody begins to speak: an answer is likely soon */
  speechBegan(): void;
  /** what the recogniser made of each utterance */
  heard?(hearing: Hearing): void;
  /** where sound comes from: the computer's microphone when not given */
  source?: FrameSource;
  /** one line to say */
  ask(sentence: string): void;
}

/** The microphone of a live run. Without one, or without the model, typing goes on and one line says why. */
export class Ears {
  readonly #options: EarsOptions;
  readonly #stop = new AbortController();
  #listener: Listener | null = null;
  #ear: SituatedEar | null = null;
  #opinion: SecondOpinion | null = null;
  #dictating = false;
  /** what the ears say of themselves, no line more than twice */
  readonly #tell: (sentence: string) => void;

  constructor(options: EarsOptions) {
    this.#options = options;
    this.#tell = sparing(options.notice);
  }

  /** Hears until `stop`. Whatever fails within starts anew, with the reason in one line; the run goes on meanwhile. */
  async start(): Promise<void> {
    await supervised('The ears', this.#tell, this.#stop.signal, () => this.#hear());
  }

  async #hear(): Promise<void> {
    const { bench, live, mode, dataFolder } = this.#options;
    const notice = this.#tell;
    if (!this.#options.source && availableRecorders().length === 0) {
      notice(howToGetRecorder());
      return;
    }
    await this.#ear?.close().catch(() => {});
    try {
      this.#ear = await situatedEar(bench.language, { dataFolder, notice });
    } catch (error) {
      notice(`I cannot hear: ${error instanceof Error ? error.message : String(error)}`);
      return;
    }
    this.#opinion = await openSecondOpinion(dataFolder, notice);
    this.#listener = new Listener({
      source: this.#options.source ?? microphone({ now: () => performance.now() }),
      ear: this.#ear,
      mode,
      situations: () => live.conversation.situations(),
      onHearing: (hearing) => this.#heard(hearing),
      onNotice: this.#tell,
      onSpeech: () => this.#options.speechBegan(),
      onGuess: (hearing, inMs) => live.conversation.expect(hearing, inMs),
      check: (hearing, pcm) => this.#check(hearing, pcm),
      dictating: () => this.#dictating,
      onDictation: (utterance) => this.#dictated(utterance),
    });
    await this.#listener.run(this.#stop.signal);
  }

  /** What the mouth plays must not be taken for a command. */
  mouthEvent(event: Exclude<MouthEvent, { type: 'problem' }>): void {
    const self = this.#listener?.selfHearing;
    if (event.type === 'started') self?.started(event.sound, event.atMs);
    else if (event.type === 'silent') self?.stopped(event.atMs);
    if (event.type === 'stopped' && event.line.kind === 'question') {
      this.#listener?.attend({ type: 'asked', atMs: event.atMs });
    }
  }

  /** The push-to-talk key. True when it was taken. */
  key(name: string): boolean {
    if (this.#listener?.mode !== 'push-to-talk' || name !== 'space') return false;
    this.#listener.attend({ type: 'key', atMs: performance.now() });
    return true;
  }

  async stop(): Promise<void> {
    this.#stop.abort();
    await this.#ear?.close();
  }

  #heard(hearing: Hearing): void {
    const { live, notice, ask } = this.#options;
    this.#options.heard?.(hearing);
    if (hearing.accepted) notice(`heard: ${hearing.best?.words}`);
    const meant = this.#meaning(hearing);
    if (meant?.type === 'note' && meant.text === undefined) {
      this.#dictating = true;
      ask('Go ahead with the note.');
      return;
    }
    live.heard(hearing);
  }

  async #dictated(utterance: Utterance): Promise<void> {
    this.#dictating = false;
    const { live, dataFolder, notice } = this.#options;
    const text = await spokenNote(utterance.pcm, dataFolder, this.#opinion);
    if ('problem' in text) notice(text.problem);
    else live.typed(`note ${text.text}`);
  }

  async #check(hearing: Hearing, pcm: Float32Array): Promise<Hearing> {
    const meant = this.#meaning(hearing);
    if (!this.#opinion || !meant || !isGuarded(meant)) return hearing;
    const graph = this.#options.bench.language.graph(this.#options.live.conversation.situations());
    return crossChecked(hearing, pcm, graph, this.#opinion);
  }

  #meaning(hearing: Hearing) {
    const { bench, live } = this.#options;
    if (!hearing.accepted || !hearing.best) return null;
    const meant = bench.language.heard(hearing.best.words, live.conversation.situations());
    return meant.kind === 'understood' ? meant.intent : null;
  }
}
