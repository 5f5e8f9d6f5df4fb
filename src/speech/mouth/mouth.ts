import { isProblem, type Sound } from '../wav.js';
import type { Playback, Player } from './player.js';
import { Prepared } from './prepared.js';
import {
  EMPTY_QUEUE,
  enqueue,
  finished,
  type Line,
  type Queue,
  type SpeechKind,
  silence,
  type Turn,
} from './queue.js';
import { FASTEST_RATE, SLOWEST_RATE, type Voice } from './voice.js';

const RATE_STEP = 1.15;
const VOLUME_STEP_DB = 4;
const QUIETEST_DB = -24;

export type MouthEvent =
  /** sound starts now; the ears' self-hearing gate wants to know what and when */
  | { type: 'started'; line: Line; sound: Sound; atMs: number }
  /** `ended` heard in full; `cut` by something more urgent; `silenced` by the user; `stale` came too late to be of use */
  | {
      type: 'stopped';
      line: Line;
      outcome: 'ended' | 'cut' | 'silenced' | 'stale' | 'unspoken';
      atMs: number;
    }
  /** speech is not possible now; the words are on the screen. One clear sentence, each only once. */
  | { type: 'problem'; sentence: string };

export interface MouthOptions {
  /** null: text only */
  voice: Voice | null;
  /** null: text only */
  player: Player | null;
  /** monotonic, ms */
  now(): number;
  onEvent(event: MouthEvent): void;
  prepared?: Prepared;
}

/**
 * The speaker: one line at a time, the most urgent first. Without a voice or a player it is text only, and every
 * line is reported as `unspoken` at once.
 */
export class Mouth {
  private queue: Queue = EMPTY_QUEUE;
  private playing: { line: Line; playback: Playback } | null = null;
  private last: { kind: SpeechKind; text: string } | null = null;
  private nextId = 1;
  /** counts starts and cuts: what an older start was waiting for no longer matters */
  private turns = 0;
  private rateNow = 1;
  private volumeDb = -VOLUME_STEP_DB * 2;
  private mute = false;
  /** of the last sound, samples a second */
  private sampleRate: number | null = null;
  private readonly told = new Set<string>();
  private readonly prepared: Prepared;

  constructor(private readonly options: MouthOptions) {
    this.prepared = options.prepared ?? new Prepared();
  }

  get textOnly(): boolean {
    return this.mute || !this.options.voice || !this.options.player;
  }

  get speaking(): boolean {
    return this.queue.speaking !== null;
  }

  /** 1 is the voice's own speed */
  get rate(): number {
    return this.rateNow;
  }

  /** 0 is full, −24 the quietest */
  get volume(): number {
    return this.volumeDb;
  }

  /**
   * Says the line as soon as its urgency allows; returns its id. `repeatable` false: "say that again" skips it, as for
   * an answer about the voice itself.
   */
  say(kind: SpeechKind, text: string, repeatable = true): number {
    const line: Line = { id: this.nextId++, kind, text, atMs: this.options.now() };
    if (repeatable) this.last = { kind, text };
    if (this.textOnly) this.report(line, 'unspoken');
    else this.take(enqueue(this.queue, line), 'cut');
    return line.id;
  }

  /** Makes sentences into sound ahead, one after another, so that a timed call sounds on time. */
  async prepare(texts: readonly string[]): Promise<void> {
    for (const text of texts) {
      const { voice } = this.options;
      if (!voice || this.textOnly) return;
      await this.prepared.get(text, voice, this.rateNow);
    }
  }

  /** Somebody speaks, so an answer is likely soon: a voice and a player that need time to start may begin. */
  wake(): void {
    if (this.textOnly) return;
    const { voice, player } = this.options;
    voice?.wake?.();
    const sampleRate = this.sampleRate ?? voice?.sampleRate;
    if (sampleRate && !this.playing) player?.wake?.(sampleRate);
  }

  /** Silence at once, also in mid-sentence; nothing that waited is said. Later lines are spoken again. */
  quiet(): void {
    this.take(silence(this.queue), 'silenced');
  }

  /** Says the last line again, cutting off nothing more urgent; false when nothing was said yet. */
  sayAgain(): boolean {
    if (!this.last) return false;
    this.say(this.last.kind === 'call' ? 'answer' : this.last.kind, this.last.text);
    return true;
  }

  /** Each returns false at the end of its range. */
  louder(): boolean {
    return this.setVolume(this.volumeDb + VOLUME_STEP_DB);
  }

  softer(): boolean {
    return this.setVolume(this.volumeDb - VOLUME_STEP_DB);
  }

  faster(): boolean {
    return this.setRate(this.rateNow * RATE_STEP);
  }

  slower(): boolean {
    return this.setRate(this.rateNow / RATE_STEP);
  }

  /** true: text only until turned back */
  setTextOnly(on: boolean): void {
    if (on) this.quiet();
    this.mute = on;
  }

  close(): void {
    this.quiet();
    this.options.voice?.close();
    this.options.player?.close?.();
  }

  private setVolume(db: number): boolean {
    const next = Math.max(QUIETEST_DB, Math.min(0, db));
    const changed = next !== this.volumeDb;
    this.volumeDb = next;
    return changed;
  }

  private setRate(rate: number): boolean {
    const next = Math.max(SLOWEST_RATE, Math.min(FASTEST_RATE, rate));
    const changed = Math.abs(next - this.rateNow) > 1e-9;
    this.rateNow = next;
    return changed;
  }

  private take(turn: Turn, why: 'cut' | 'silenced' | 'stale'): void {
    this.queue = turn.queue;
    if (turn.cut) {
      this.turns++;
      if (this.playing?.line === turn.cut) this.playing.playback.stop();
      this.playing = null;
      if (!turn.dropped.includes(turn.cut)) this.report(turn.cut, 'cut');
    }
    for (const line of turn.dropped) this.report(line, why);
    if (turn.start) void this.speak(turn.start);
  }

  private async speak(line: Line): Promise<void> {
    const { voice, player } = this.options;
    if (!voice || !player) return;
    const mine = ++this.turns;
    const made = await this.prepared.get(line.text, voice, this.rateNow);
    if (this.turns !== mine) return;
    if (isProblem(made)) {
      this.tell(made.problem);
      return this.over(line, 'unspoken');
    }
    const sound = { pcm: amplify(made.pcm, this.volumeDb), sampleRate: made.sampleRate };
    const playback = player.play(sound);
    this.sampleRate = sound.sampleRate;
    this.playing = { line, playback };
    this.options.onEvent({ type: 'started', line, sound, atMs: this.options.now() });
    const end = await playback.done;
    if (this.turns !== mine) return;
    this.playing = null;
    if (typeof end === 'object') this.tell(end.problem);
    this.over(line, typeof end === 'object' ? 'unspoken' : 'ended');
  }

  private over(line: Line, outcome: 'ended' | 'unspoken'): void {
    this.report(line, outcome);
    this.take(finished(this.queue, this.options.now()), 'stale');
  }

  private report(line: Line, outcome: 'ended' | 'cut' | 'silenced' | 'stale' | 'unspoken'): void {
    this.options.onEvent({ type: 'stopped', line, outcome, atMs: this.options.now() });
  }

  private tell(sentence: string): void {
    if (this.told.has(sentence)) return;
    this.told.add(sentence);
    this.options.onEvent({ type: 'problem', sentence });
  }
}

function amplify(pcm: Float32Array, db: number): Float32Array {
  if (db === 0) return pcm;
  const gain = 10 ** (db / 20);
  return pcm.map((v) => v * gain);
}
