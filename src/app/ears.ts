import { performance } from 'node:perf_hooks';
import { isGuarded } from '../language/interpret.js';
import type { Hearing } from '../language/types.js';
import type { Intent } from '../process/intent.js';
import type { AttentionMode } from '../speech/ears/attention.js';
import { closeEchoCancelling } from '../speech/ears/echo-canceller.js';
import type { Utterance } from '../speech/ears/endpointer.js';
import type { FrameSource } from '../speech/ears/frames.js';
import { microphone } from '../speech/ears/microphone.js';
import { availableRecorders, howToGetRecorder } from '../speech/ears/recorders.js';
import type { Mouth, MouthEvent } from '../speech/mouth/mouth.js';
import type { SecondOpinion } from '../speech/second-opinion/whisper.js';
import type { Bench } from './bench.js';
import { TalkMeter, weigh } from './evidence.js';
import { type SituatedEar, situatedEar } from './hearing.js';
import { Listener, type ListenerOptions, type Overheard } from './listener.js';
import type { LiveConversation } from './live.js';
import { crossChecked, openSecondOpinion } from './second-opinion.js';
import { spokenNote } from './spoken-note.js';
import { sparing, supervised } from './supervised.js';

export interface EarsOptions {
  bench: Bench;
  live: LiveConversation;
  mode: AttentionMode;
  /** where a second opinion's model and spoken notes are kept */
  dataFolder: string;
  /** one line for the screen */
  notice(sentence: string): void;
  /** what the recogniser made of each utterance */
  heard?(hearing: Hearing): void;
  /** where sound comes from: the computer's microphone when not given */
  source?: FrameSource;
  /** what understands sound: the installed recogniser when not given */
  openEar?: typeof situatedEar;
  /** what tells speech from noise: Silero's model when not given; null: by level alone */
  loadModel?: ListenerOptions['loadModel'];
  mouth: Pick<Mouth, 'wake' | 'giveWay' | 'goOn' | 'drop' | 'quiet'>;
  /** one line to say */
  ask(sentence: string): void;
}

/** After falling silent in vain so often within so long it speaks on over talk, ms. */
const mostInVain = 5;
const inVainMs = 60_000;

/** An answer is under way before the grammar of what may be said next is put together, ms. */
const answeredMs = 300;

/** The microphone of a live run. Without one, or without the model, typing goes on and one line says why. */
export class Ears {
  readonly #options: EarsOptions;
  readonly #stop = new AbortController();
  #listener: Listener | null = null;
  #ear: SituatedEar | null = null;
  #opinion: SecondOpinion | null = null;
  #dictating = false;
  readonly #talk = new TalkMeter();
  #saying: { text: string; endMs: number } | null = null;
  #askedMs: number | null = null;
  #gaveWayMs: number | null = null;
  #ready: NodeJS.Timeout | null = null;
  /** when it fell silent for what was no command, ms */
  #inVain: number[] = [];
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
      this.#ear = await (this.#options.openEar ?? situatedEar)(bench.language, notice);
    } catch (error) {
      notice(`I cannot hear: ${error instanceof Error ? error.message : String(error)}`);
      return;
    }
    // asked to end while they were being opened
    if (this.#stop.signal.aborted) return this.#ear.close();
    this.#opinion = await openSecondOpinion(dataFolder, notice);
    this.#listener = new Listener({
      source: this.#options.source ?? microphone({ now: () => performance.now() }),
      ear: this.#ear,
      mode,
      situations: () => live.conversation.situations(),
      onHearing: (hearing, how) => this.#heard(hearing, how),
      onNotice: this.#tell,
      onSpeech: () => this.#speechBegan(),
      onOwnVoice: () => {
        this.#gaveWayMs = null;
        this.#options.mouth.goOn();
      },
      onGuess: (hearing, inMs) => live.expect(hearing, inMs),
      opens: (atMs) => !this.#talk.goesOn(atMs),
      check: (hearing, pcm) => this.#check(hearing, pcm),
      dictating: () => this.#dictating,
      onDictation: (utterance) => this.#dictated(utterance),
      ...(this.#options.loadModel === undefined ? {} : { loadModel: this.#options.loadModel }),
    });
    live.onMoved = () => this.#getReady();
    await this.#listener.run(this.#stop.signal);
  }

  /** What the mouth plays must not be taken for a command. */
  mouthEvent(event: Exclude<MouthEvent, { type: 'problem' }>): void {
    const self = this.#listener?.selfHearing;
    if (event.type === 'started') self?.started(event.sound, event.atMs);
    else if (event.type === 'silent') self?.stopped(event.atMs);
    if (event.type === 'started') this.#saying = { text: event.line.text, endMs: Number.POSITIVE_INFINITY };
    if (event.type === 'silent') return;
    // who has read it answers before it was said to its end
    if (event.line.kind === 'question' || event.line.kind === 'warning') this.#askedMs = event.atMs;
    if (event.type !== 'stopped') return;
    if (this.#saying?.text === event.line.text) this.#saying.endMs = event.atMs;
    if (event.line.kind === 'question') this.#listener?.attend({ type: 'asked', atMs: event.atMs });
  }

  /** Whether its own voice sounds at this time on the clock of the frames, ms. */
  ownVoiceAt(ms: number): boolean {
    return this.#listener?.selfHearing.soundsAt(ms) ?? false;
  }

  /** The push-to-talk key. True when it was taken. */
  key(name: string): boolean {
    if (this.#listener?.mode !== 'push-to-talk' || name !== 'space') return false;
    this.#listener.attend({ type: 'key', atMs: performance.now() });
    return true;
  }

  /** A hand is on a talk field: what is said now counts, in whatever mode. */
  held(): void {
    const mode = this.#listener?.mode;
    const atMs = performance.now();
    if (mode === 'push-to-talk') this.#listener?.attend({ type: 'key', atMs });
    if (mode === 'call-word') this.#listener?.attend({ type: 'called', atMs });
  }

  async stop(): Promise<void> {
    this.#stop.abort();
    await this.#ear?.close();
    await closeEchoCancelling();
  }

  #getReady(): void {
    this.#ready ??= setTimeout(() => {
      this.#ready = null;
      this.#listener?.getReady();
    }, answeredMs).unref();
  }

  /** Falls silent for whoever speaks, unless that was for nothing several times of late, as with a radio. */
  #speechBegan(): void {
    const { mouth } = this.#options;
    // a voice's engine takes a fifth of a second of a core to start: hardly any of such talk is answered
    if (!this.#talk.goesOn(performance.now())) mouth.wake();
    this.#inVain = this.#inVain.filter((ms) => performance.now() - ms < inVainMs);
    if (this.#inVain.length < mostInVain && mouth.giveWay()) this.#gaveWayMs = performance.now();
  }

  #heard(hearing: Hearing, how: Overheard): void {
    const { live, notice, mouth, ask } = this.#options;
    this.#options.heard?.(hearing);
    if (hearing.open) {
      void this.#heardOpenly(hearing, how);
      return;
    }
    const meant = this.#meaning(hearing);
    const verdict = meant
      ? this.#weigh(meant, hearing, how)
      : this.#ambiguous(hearing, how.utterance.endMs)
        ? 'act'
        : 'pass';
    const words = hearing.best?.words ?? '';
    if (verdict === 'pass') {
      if (meant) this.#tell(`I heard “${words}”, but did not take it for a command to me.`);
      this.#passed(how);
      return;
    }
    const interrupted = this.#gaveWayMs !== null;
    this.#gaveWayMs = null;
    notice(`heard: ${words}`);
    if (meant?.type === 'stop' && interrupted) {
      mouth.quiet();
      return;
    }
    mouth.drop();
    if (meant?.type === 'note' && meant.text === undefined && verdict === 'act') {
      this.#dictating = true;
      ask('Go ahead with the note.');
      return;
    }
    void live.heard(hearing, verdict === 'act');
  }

  /** What no grammar has is answered or asked about where that is likely to be meant. */
  async #heardOpenly(hearing: Hearing, how: Overheard): Promise<void> {
    const { live, notice, mouth } = this.#options;
    const found = await live.opened(hearing);
    if (!found) return this.#passed(how);
    this.#gaveWayMs = null;
    notice(`heard: ${found.reading.words}`);
    mouth.drop();
    void live.open(found);
  }

  /** That was not for the assistant. */
  #passed({ utterance: { startMs, speechEndMs } }: Overheard): void {
    this.#talk.heard(startMs, speechEndMs);
    if (this.#gaveWayMs !== null) this.#inVain.push(this.#gaveWayMs);
    this.#gaveWayMs = null;
    this.#options.mouth.goOn();
  }

  /** Words that mean several things are asked about, where no talk goes on. */
  #ambiguous(hearing: Hearing, atMs: number): boolean {
    const { bench, live } = this.#options;
    if (!hearing.accepted || !hearing.best || this.#talk.goesOn(atMs)) return false;
    return bench.language.heard(hearing.best.words, live.conversation.situations()).kind === 'unsure';
  }

  #weigh(intent: Intent, hearing: Hearing, { utterance, overVoice, called }: Overheard) {
    const { startMs } = utterance;
    const saying = this.#saying;
    return weigh({
      intent,
      confidence: hearing.best?.confidence ?? 0,
      words: hearing.best?.words ?? '',
      overVoice,
      ownWords: saying && startMs < saying.endMs + 1000 ? saying.text : '',
      sinceAskedMs: this.#askedMs === null ? Number.POSITIVE_INFINITY : startMs - this.#askedMs,
      talk: this.#talk.goesOn(utterance.endMs),
      called,
    });
  }

  async #dictated(utterance: Utterance): Promise<void> {
    this.#dictating = false;
    const { live, dataFolder, notice } = this.#options;
    const text = await spokenNote(utterance.pcm, dataFolder, this.#opinion);
    if ('problem' in text) notice(text.problem);
    else void live.typed(`note ${text.text}`);
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
