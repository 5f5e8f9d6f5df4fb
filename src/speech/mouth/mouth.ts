import { passed } from '../stages.js';
import { isProblem, type Sound } from '../wav.js';
import { lastPause, pieces } from './pieces.js';
import type { Playback, PlaybackEnd, Player } from './player.js';
import { Prepared } from './prepared.js';
import {
  breath,
  EMPTY_QUEUE,
  enqueue,
  finished,
  type Line,
  overtaken,
  type Queue,
  type SpeechKind,
  silence,
  type Turn,
} from './queue.js';
import { FASTEST_RATE, SLOWEST_RATE, type Voice } from './voice.js';

const RATE_STEP = 1.15;
const VOLUME_STEP_DB = 4;
const QUIETEST_DB = -24;
/** from handing a sound to a player to hearing it, about, ms */
const PLAYER_DELAY_MS = 120;
/** a player may take so much longer than its sound, ms */
const PLAYER_GRACE_MS = 4_000;
/** it stays silent for somebody's voice for so long at most, ms */
const LONGEST_PAUSE_MS = { warning: 2_000, call: 0, question: 4_000, answer: 4_000 } as const;

/** How far a line has been said. */
interface Progress {
  readonly pieces: readonly string[];
  at: number;
  /** of this piece so much was said before it was cut, s */
  fromS: number;
  /** failures of the player */
  tries: number;
}

export type MouthEvent =
  /** sound starts now, a piece of the line; the ears want to know what and when */
  | { type: 'started'; line: Line; sound: Sound; atMs: number }
  /** the sound was cut off */
  | { type: 'silent'; atMs: number }
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
  private playing: { line: Line; playback: Playback; sound: Sound; atMs: number } | null = null;
  private readonly progress = new Map<number, Progress>();
  /** somebody speaks: silent until they were heard, or for so long at most */
  private pause: NodeJS.Timeout | null = null;
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
    const line: Line = { id: this.nextId++, kind, text, atMs: this.options.now(), breaths: 0 };
    if (repeatable) this.last = { kind, text };
    if (this.textOnly) this.report(line, 'unspoken');
    else this.take(enqueue(this.queue, line), 'cut');
    return line.id;
  }

  /** Makes sentences into sound ahead, one after another, so that a timed call sounds on time. */
  async prepare(texts: readonly string[]): Promise<void> {
    for (const piece of texts.flatMap(pieces)) {
      const { voice } = this.options;
      if (!voice || this.textOnly) return;
      await this.prepared.get(piece, voice, this.rateNow);
    }
  }

  /** Somebody speaks, so an answer is likely soon: a voice and a player that need time to start may begin. */
  wake(): void {
    if (!this.textOnly) this.options.voice?.wake?.();
    if (!this.playing) this.ready();
  }

  /** Something that is made into sound already is said within a second, whatever is said now: a player for it may begin. */
  ready(): void {
    const { voice, player } = this.options;
    const sampleRate = this.sampleRate ?? voice?.sampleRate;
    if (sampleRate && !this.textOnly) player?.wake?.(sampleRate);
  }

  /**
   * Somebody speaks: falls silent, and stays so until `goOn` or `drop`, or for a few seconds. A call to act is said
   * whatever sounds. False when nothing was being said.
   */
  giveWay(): boolean {
    const line = this.playing?.line ?? this.queue.speaking;
    if (!line || line.kind === 'call' || this.pause) return false;
    this.halt();
    this.pause = setTimeout(() => this.goOn(), LONGEST_PAUSE_MS[line.kind]);
    this.pause.unref();
    return true;
  }

  /** What was said was no command: goes on where it was. */
  goOn(): void {
    if (!this.pause) return;
    this.endPause();
    if (this.queue.speaking) void this.speak(this.queue.speaking);
  }

  /** What was said was a command: what was being answered is dropped; warnings and calls go on where they were. */
  drop(): void {
    const speaking = this.queue.speaking;
    this.take(overtaken(this.queue), 'cut');
    if (speaking !== null && speaking.id === this.queue.speaking?.id) this.goOn();
    else this.endPause(this.queue.speaking);
  }

  private endPause(start: Line | null = null): void {
    if (!this.pause) return;
    clearTimeout(this.pause);
    this.pause = null;
    if (start) void this.speak(start);
  }

  /** Silence at once, also in mid-sentence; nothing that waited is said. Later lines are spoken again. */
  quiet(): void {
    this.endPause();
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
      this.halt();
      if (!turn.dropped.some(({ id }) => id === turn.cut?.id)) this.report(turn.cut, 'cut');
    }
    for (const line of turn.dropped) {
      this.progress.delete(line.id);
      this.report(line, why);
    }
    if (!turn.start) return;
    if (turn.start.kind === 'call') this.endPause();
    if (!this.pause) void this.speak(turn.start);
  }

  /** Silences what sounds now, and notes where it was. */
  private halt(): void {
    this.turns++;
    const { playing } = this;
    this.playing = null;
    if (!playing) return;
    playing.playback.stop();
    const at = this.progressOf(playing.line);
    const saidS = (this.options.now() - playing.atMs - PLAYER_DELAY_MS) / 1000;
    at.fromS += lastPause(playing.sound.pcm, playing.sound.sampleRate, Math.max(0, saidS));
    this.emit({ type: 'silent', atMs: this.options.now() });
  }

  private progressOf(line: Line): Progress {
    const known = this.progress.get(line.id);
    if (known) return known;
    const fresh: Progress = { pieces: pieces(line.text), at: 0, fromS: 0, tries: 0 };
    this.progress.set(line.id, fresh);
    return fresh;
  }

  /** Says the piece at which the line stands. */
  private async speak(line: Line): Promise<void> {
    const { voice } = this.options;
    if (!voice) return;
    const mine = ++this.turns;
    const at = this.progressOf(line);
    passed('spoken');
    const piece = at.pieces[at.at] ?? '';
    // what is ready is with the player before whoever asked for it goes on to write the journal, which may take a disk a second
    const made =
      this.prepared.ready(piece, voice, this.rateNow) ??
      (await this.prepared.get(piece, voice, this.rateNow));
    passed('sound-made');
    if (this.turns !== mine) return;
    if (isProblem(made)) return this.failed(line, made.problem);
    const sound = part(made, at.fromS, this.volumeDb);
    const playback = this.play(sound);
    passed('sound-played', { sound });
    this.sampleRate = sound.sampleRate;
    this.playing = { line, playback, sound, atMs: this.options.now() };
    this.emit({ type: 'started', line, sound, atMs: this.options.now() });
    this.getReady(at, voice, sound);
    const end = await playback.done;
    if (this.turns !== mine) return;
    this.playing = null;
    if (typeof end === 'object') {
      if (at.tries++ === 0) return void this.speak(line);
      return this.failed(line, end.problem);
    }
    at.at++;
    at.fromS = 0;
    if (at.at < at.pieces.length) this.take(breath(this.queue), 'stale');
    else this.over(line, 'ended');
  }

  /** The next piece is made, and the player for it started, while this one sounds. */
  private getReady(at: Progress, voice: Voice, { sampleRate }: Sound): void {
    const next = at.pieces[at.at + 1];
    if (next === undefined) return;
    void this.prepared.get(next, voice, this.rateNow).then(() => this.options.player?.wake?.(sampleRate));
  }

  /** A player that neither ends nor fails would hold up every call after it: it is ended from here. */
  private play(sound: Sound): Playback {
    const { player } = this.options;
    try {
      if (!player) throw new Error('there is no player');
      const playback = player.play(sound);
      const lengthMs = (1000 * sound.pcm.length) / sound.sampleRate;
      let timer: NodeJS.Timeout | undefined;
      const late = new Promise<PlaybackEnd>((resolve) => {
        timer = setTimeout(() => {
          playback.stop();
          resolve({ problem: `The player ${player.id} did not come to its end. Check the speaker.` });
        }, lengthMs + PLAYER_GRACE_MS);
      });
      const done = Promise.race([playback.done, late]).finally(() => clearTimeout(timer));
      return { done, stop: () => playback.stop() };
    } catch (error) {
      return { done: Promise.resolve({ problem: `No sound came out: ${String(error)}.` }), stop() {} };
    }
  }

  private failed(line: Line, problem: string): void {
    this.tell(problem);
    this.over(line, 'unspoken');
  }

  private over(line: Line, outcome: 'ended' | 'unspoken'): void {
    this.progress.delete(line.id);
    this.report(line, outcome);
    this.take(finished(this.queue, this.options.now()), 'stale');
  }

  private report(line: Line, outcome: 'ended' | 'cut' | 'silenced' | 'stale' | 'unspoken'): void {
    this.emit({ type: 'stopped', line, outcome, atMs: this.options.now() });
  }

  /** who listens must not be able to stop the mouth */
  private emit(event: MouthEvent): void {
    try {
      this.options.onEvent(event);
    } catch (error) {
      if (event.type !== 'problem') this.tell(`What I said could not be followed: ${String(error)}.`);
    }
  }

  private tell(sentence: string): void {
    if (this.told.has(sentence)) return;
    this.told.add(sentence);
    this.emit({ type: 'problem', sentence });
  }
}

/** what is left of a sound from `fromS` on, at this volume */
function part({ pcm, sampleRate }: Sound, fromS: number, db: number): Sound {
  const gain = 10 ** (db / 20);
  return { pcm: pcm.subarray(Math.round(fromS * sampleRate)).map((v) => v * gain), sampleRate };
}
