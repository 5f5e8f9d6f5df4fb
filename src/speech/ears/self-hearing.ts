import { SAMPLE_RATE_HZ, type Sound } from '../wav.js';
import { delayBetween } from './delay.js';
import { BLOCKS, EchoCanceller } from './echo-canceller.js';
import { FRAME_MS, FRAME_SAMPLES } from './frames.js';
import { resample } from './resample.js';
import { soundsLike } from './sounds-like.js';

/** the room goes on sounding for so long after the last sample was played, ms */
const TAIL_MS = 400;
/** the canceller must have heard so much of itself before it can tell its own voice from another, frames */
const LEARNING_FRAMES = Math.round(600 / FRAME_MS);
/** a player starts sounding some time after it was told to: up to so much, samples */
const MAX_DELAY_SAMPLES = 0.45 * SAMPLE_RATE_HZ;
/** the delay is looked for after so many frames of playing, and again until it is clear */
const DELAY_FRAMES = { first: 12, step: 6, last: 60 };
/** what is played is handed to the canceller so much early, so that no delay found a little long loses the start */
const LEAD_SAMPLES = 128;
/** what remains must stand so far above what usually remains of its own voice to be somebody else's, power ratio */
const STANDS_OUT = 5;
/** and so far above the room itself, power ratio */
const ABOVE_ROOM = 4;
/** only where its own voice is so far above the room does a frame tell what usually remains of it */
const TELLS_ABOVE_ROOM = 30;
/** usual remainder: follows about the upper quarter of frames, and leaves out those that are plainly another voice */
const REMAINDER = { first: 0.5, up: 1.1, down: 0.97, least: 0.005, most: 1, plainlyOther: 16 };
/** how fast the room's own level is followed while nothing is played, a frame */
const ROOM_FOLLOWS = 0.05;
/** a played frame of more power than this is not a pause; full scale is 1 */
const PLAYS = 1e-6;
/** above this likeness of its loudness in time and pitch range an utterance is the assistant's own */
const OWN_LIKENESS = 0.8;

/**
 * What an utterance may do: `all`, nothing was being said; `stop-words`, somebody spoke over the assistant, so only
 * what silences or stops is listened for; `own-voice`, it is the assistant itself.
 */
export type MayDo = 'all' | 'stop-words' | 'own-voice';

interface Segment {
  pcm: Float32Array;
  startMs: number;
  endMs: number;
  /** how much later the microphone hears it, once found */
  delaySamples: number | null;
  /** microphone frames since it began, until the delay is found */
  heard: Float32Array[];
  heardFromMs: number;
  /** of which the assistant sounded in so many */
  active: number;
}

/**
 * Keeps the assistant from hearing itself. Tell it what is played and when; every microphone frame goes through it
 * before the endpointer; ask it about every utterance.
 */
export class SelfHearing {
  private segments: Segment[] = [];
  private readonly canceller = new EchoCanceller();
  private learnt = 0;
  /** mean power of the room when nothing is played */
  private room = 1e-6;
  private remainder = REMAINDER.first;

  /** Sound begins to play now, ms on the clock of the microphone frames. */
  started(sound: Sound, atMs: number): void {
    const pcm = resample(sound.pcm, sound.sampleRate, SAMPLE_RATE_HZ);
    this.stopped(atMs);
    const endMs = atMs + (pcm.length * 1000) / SAMPLE_RATE_HZ;
    this.segments.push({
      pcm,
      startMs: atMs,
      endMs,
      delaySamples: null,
      heard: [],
      heardFromMs: 0,
      active: 0,
    });
    if (this.segments.length > 8) this.segments.shift();
  }

  /** Playing was cut off, or ended. */
  stopped(atMs: number): void {
    const last = this.segments.at(-1);
    if (last) last.endMs = Math.min(last.endMs, Math.max(atMs, last.startMs));
  }

  /** Whether the assistant, or the room after it, sounds at this time. */
  soundsAt(ms: number): boolean {
    return this.segments.some(({ startMs, endMs }) => ms >= startMs && ms <= endMs + TAIL_MS);
  }

  /** A microphone frame without the assistant's own voice. While nothing is played it is passed as it is. */
  frame(pcm: Float32Array, startMs: number): Float32Array {
    if (!this.soundsAt(startMs) && !this.soundsAt(startMs + FRAME_MS)) {
      this.room += ROOM_FOLLOWS * (Math.min(power(pcm), 4 * this.room) - this.room);
      return pcm;
    }
    const segment = this.segments.at(-1);
    if (!segment || (segment.delaySamples === null && !this.findDelay(segment, pcm, startMs))) {
      return this.hushed(pcm);
    }
    const played = this.delayed(segment, startMs);
    const { left, own } = this.canceller.push(played, pcm);
    const [ownPower, heardPower] = [power(own), power(pcm)];
    const leftPower = Math.min(power(left), heardPower);
    if (power(played) > PLAYS) this.learnt++;
    const usual = STANDS_OUT * this.remainder * ownPower + ABOVE_ROOM * this.room;
    const other = this.learnt > LEARNING_FRAMES && leftPower > usual;
    const ratio = leftPower / (ownPower + 1e-12);
    const tells = ownPower > TELLS_ABOVE_ROOM * this.room && ratio < REMAINDER.plainlyOther * this.remainder;
    if (tells) this.follow(ratio);
    return other ? left : this.hushed(left);
  }

  /** What the utterance may do. */
  judge(utterance: { pcm: Float32Array; startMs: number; endMs: number }): MayDo {
    const { pcm, startMs, endMs } = utterance;
    let overlapMs = 0;
    for (const s of this.segments) {
      overlapMs += Math.max(0, Math.min(endMs, s.endMs + TAIL_MS) - Math.max(startMs, s.startMs));
    }
    if (overlapMs === 0) return 'all';
    if (soundsLike(pcm, this.playedBetween(startMs, endMs)) > OWN_LIKENESS) return 'own-voice';
    const beganBefore = !this.soundsAt(startMs) && !this.soundsAt(startMs + 250);
    return beganBefore && overlapMs < 0.4 * (endMs - startMs) ? 'all' : 'stop-words';
  }

  /** brought down to the level of the room, below anything the endpointer would take for speech */
  private hushed(pcm: Float32Array): Float32Array {
    const gain = Math.min(1, Math.sqrt((0.5 * this.room) / (power(pcm) + 1e-12)));
    return pcm.map((v) => v * gain);
  }

  private follow(ratio: number): void {
    const next = this.remainder * (ratio > this.remainder ? REMAINDER.up : REMAINDER.down);
    this.remainder = Math.max(REMAINDER.least, Math.min(REMAINDER.most, next));
  }

  /** Until it is known how late the microphone hears this playing, its own voice cannot be told from another. */
  private findDelay(segment: Segment, pcm: Float32Array, startMs: number): boolean {
    if (segment.heard.length === 0) segment.heardFromMs = startMs;
    segment.heard.push(pcm);
    const count = segment.heard.length;
    if (power(this.playedBetween(startMs, startMs + FRAME_MS)) > PLAYS) segment.active++;
    if (segment.active < DELAY_FRAMES.first || count > DELAY_FRAMES.last || count % DELAY_FRAMES.step !== 0)
      return false;
    const heard = new Float32Array(count * FRAME_SAMPLES);
    segment.heard.forEach((frame, i) => {
      heard.set(frame, i * FRAME_SAMPLES);
    });
    const played = this.playedBetween(segment.heardFromMs, startMs + FRAME_MS);
    segment.delaySamples = delayBetween(played, heard, MAX_DELAY_SAMPLES);
    if (segment.delaySamples === null) return false;
    const before = Array.from({ length: BLOCKS }, (_, i) =>
      this.delayed(segment, startMs - (BLOCKS - i) * FRAME_MS),
    );
    this.canceller.prime(before);
    segment.heard = [];
    return true;
  }

  private delayed(segment: Segment, startMs: number): Float32Array {
    const delayMs = (((segment.delaySamples ?? 0) - LEAD_SAMPLES) * 1000) / SAMPLE_RATE_HZ;
    return this.playedBetween(startMs - delayMs, startMs - delayMs + FRAME_MS).subarray(0, FRAME_SAMPLES);
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

function power(pcm: Float32Array): number {
  let sum = 0;
  for (const v of pcm) sum += v * v;
  return sum / pcm.length;
}
