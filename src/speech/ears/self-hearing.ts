import { isProblem, joined, type Problem, SAMPLE_RATE_HZ, type Sound } from '../wav.js';
import { type EchoCanceller, openEchoCanceller } from './echo-canceller.js';
import { FRAME_MS, FRAME_SAMPLES } from './frames.js';
import { resample } from './resample.js';
import { soundsLike } from './sounds-like.js';

/** the player and the room are late by up to half a second, and the room goes on sounding a little, ms */
const TAIL_MS = 700;
/** what the microphone heard is this much like what was played, in loudness by time and pitch: nobody else spoke */
export const OWN_LIKENESS = 0.88;
/** so much is kept to judge by, a little more than the longest utterance, frames */
const KEPT_FRAMES = Math.round(14_000 / FRAME_MS);
/** so much tells whether what begins is another voice, ms */
const ONSET_MS = 480;
/** nothing comes back of so much of what is played, longer than any echo is late: headphones. Frames that are loud enough to tell */
const NO_ECHO_FRAMES = 20;
const LOUD = 10 ** (-45 / 20);
/** a frame this much louder than the quietest of late holds more than the room's own noise, as a ratio of amplitudes */
const MORE_THAN_ROOM = 2;
/** an utterance that begins so soon after its own sound may have lost its beginning, ms */
const NEAR_MS = 250;

/**
 * Whose an utterance is: `clear`, nothing was being said; `over-voice`, somebody spoke over the assistant, and may have
 * been heard less well; `own-voice`, it is the assistant itself.
 */
export type Whose = 'clear' | 'over-voice' | 'own-voice';

interface Segment {
  pcm: Float32Array;
  startMs: number;
  endMs: number;
}

/**
 * Keeps the assistant from hearing itself. Tell it what is played and when; every microphone frame goes through it
 * before the endpointer; ask it about every utterance. `open` null: nothing is taken out, so it is deaf while it speaks.
 */
export class SelfHearing {
  private segments: Segment[] = [];
  private canceller: EchoCanceller | Problem | null = null;
  /** frames as they were heard, and what was left of them */
  private heard: { pcm: Float32Array; left: Float32Array; startMs: number }[] = [];
  /** loud frames that were played one after another without anything to be heard of them */
  private unheard = 0;
  /** when its voice was last cut off in the middle, ms */
  cutOffMs = Number.NEGATIVE_INFINITY;
  /** how loud the room is by itself, as an amplitude */
  private room = Number.POSITIVE_INFINITY;

  constructor(private readonly open: () => EchoCanceller | Problem = openEchoCanceller) {}

  /** One clear sentence when the echo canceller does not work here. */
  get problem(): string | null {
    this.canceller ??= this.open();
    return isProblem(this.canceller) ? this.canceller.problem : null;
  }

  /** Sound begins to play now, ms on the clock of the microphone frames. */
  started(sound: Sound, atMs: number): void {
    const pcm = resample(sound.pcm, sound.sampleRate, SAMPLE_RATE_HZ);
    this.stopped(atMs);
    this.segments.push({ pcm, startMs: atMs, endMs: atMs + (pcm.length * 1000) / SAMPLE_RATE_HZ });
    if (this.segments.length > 8) this.segments.shift();
  }

  /** Playing was cut off, or ended. */
  stopped(atMs: number): void {
    const last = this.segments.at(-1);
    if (!last || last.endMs <= atMs) return;
    last.endMs = Math.max(atMs, last.startMs);
    this.cutOffMs = atMs;
  }

  /** Whether the assistant, or the room after it, sounds at this time. */
  soundsAt(ms: number): boolean {
    return this.segments.some(({ startMs, endMs }) => ms >= startMs && ms <= endMs + TAIL_MS);
  }

  /** A microphone frame without the assistant's own voice. While nothing is played it is passed as it is. */
  frame(pcm: Float32Array, startMs: number): Float32Array {
    const left = this.without(pcm, startMs);
    this.heard.push({ pcm, left, startMs });
    if (this.heard.length > KEPT_FRAMES) this.heard.shift();
    return left;
  }

  private without(pcm: Float32Array, startMs: number): Float32Array {
    const level = rms(pcm);
    this.room = Math.min(level, 1.01 * this.room);
    if (!this.soundsAt(startMs) && !this.soundsAt(startMs + FRAME_MS)) return pcm;
    if (this.problem !== null || !this.canceller || isProblem(this.canceller))
      return pcm.map((v) => v * 1e-3);
    const played = this.playedBetween(startMs, startMs + FRAME_MS).subarray(0, FRAME_SAMPLES);
    if (this.unheard < NO_ECHO_FRAMES && rms(played) > LOUD)
      this.unheard = level > MORE_THAN_ROOM * this.room ? 0 : this.unheard + 1;
    const left = this.canceller.push(played, pcm);
    // the canceller, which cannot find an echo that is not there, would take a voice for one
    return this.unheard < NO_ECHO_FRAMES ? left : pcm;
  }

  /** Whose the utterance is. */
  judge({ startMs, endMs }: { startMs: number; endMs: number }): Whose {
    const sounded = this.segments.some((s) => startMs - NEAR_MS < s.endMs + TAIL_MS && endMs > s.startMs);
    if (!sounded) return 'clear';
    if (this.likeness(startMs, endMs) > OWN_LIKENESS) {
      this.unheard = 0;
      return 'own-voice';
    }
    // an utterance brings a third of a second from before its first word: who answers at once does not speak over it
    return this.segments.some((s) => startMs < s.endMs && endMs > s.startMs) ? 'over-voice' : 'clear';
  }

  /** Whether what was heard just before `endMs` is no more than its own voice. */
  isOwn(endMs: number): boolean {
    return this.judge({ startMs: endMs - ONSET_MS, endMs }) === 'own-voice';
  }

  /** How much what was heard just before `endMs` is like what was played, from 0 to 1. */
  likenessUntil(endMs: number): number {
    return this.likeness(endMs - ONSET_MS, endMs);
  }

  /** What was heard, with its own voice still in it; null where nothing was taken out of it, as with headphones. */
  untouched(startMs: number, endMs: number): Float32Array | null {
    const frames = this.framesBetween(startMs, endMs);
    return frames.some(({ pcm, left }) => left !== pcm) ? asHeard(frames) : null;
  }

  /** How much that is like what was played. */
  private likeness(startMs: number, endMs: number): number {
    const frames = this.framesBetween(startMs, endMs);
    return soundsLike(asHeard(frames), this.playedBetween(frames[0]?.startMs ?? startMs, endMs));
  }

  private framesBetween(startMs: number, endMs: number) {
    return this.heard.filter((f) => f.startMs >= startMs && f.startMs < endMs);
  }

  close(): void {
    if (this.canceller && !isProblem(this.canceller)) this.canceller.close();
    this.canceller = null;
  }

  private playedBetween(fromMs: number, toMs: number): Float32Array {
    const out = new Float32Array(Math.max(0, Math.round(((toMs - fromMs) * SAMPLE_RATE_HZ) / 1000)));
    for (const { pcm, startMs, endMs } of this.segments) {
      const shift = Math.round(((fromMs - startMs) * SAMPLE_RATE_HZ) / 1000);
      const last = Math.min(pcm.length, Math.round(((endMs - startMs) * SAMPLE_RATE_HZ) / 1000));
      for (let i = Math.max(0, -shift); i < out.length && i + shift < last; i++) {
        out[i] = (out[i] ?? 0) + (pcm[i + shift] ?? 0);
      }
    }
    return out;
  }
}

const asHeard = (frames: readonly { pcm: Float32Array }[]): Float32Array =>
  joined(frames.map(({ pcm }) => pcm));

const rms = (pcm: Float32Array): number => Math.sqrt(pcm.reduce((sum, v) => sum + v * v, 0) / pcm.length);
