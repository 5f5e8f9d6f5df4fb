import { SAMPLE_RATE_HZ } from '../wav.js';

/** 512 samples, 32 ms: what the voice-activity model takes at once. */
export const FRAME_SAMPLES = 512;
export const FRAME_MS = (FRAME_SAMPLES * 1000) / SAMPLE_RATE_HZ;

export type SourceEvent =
  /** 512 samples; `startMs` on the monotonic clock */
  | { type: 'frame'; pcm: Float32Array; startMs: number }
  /** sound stopped coming; it is tried again after `retryInMs` */
  | { type: 'lost'; sentence: string; retryInMs: number }
  /** sound comes (again), from this recorder */
  | { type: 'listening'; recorder: string }
  /** sound comes, but it is silent, clipped, or otherwise of little use: one sentence */
  | { type: 'remark'; sentence: string };

/** Where frames come from. The stream ends when `signal` aborts or a recording is over; it never throws. */
export interface FrameSource {
  open(signal: AbortSignal): AsyncIterable<SourceEvent>;
}

export interface WavSourceOptions {
  /** the monotonic time of the first sample, ms; 0 when not given */
  startMs?: number;
  /** quiet to add after the last sample, ms, as a room would; 1000 when not given */
  tailMs?: number;
}

/**
 * A recording as microphone frames, as fast as they are taken; a piece is let go when its last frame was taken. The tail
 * is faint noise at −75 dB, as of a quiet room: digital silence is something no microphone gives.
 */
export function piecesSource(
  pieces: () => Iterable<Float32Array> | AsyncIterable<Float32Array>,
  options: WavSourceOptions = {},
): FrameSource {
  const startMs = options.startMs ?? 0;
  const tail = Math.round(((options.tailMs ?? 1000) * SAMPLE_RATE_HZ) / 1000);
  return {
    async *open(signal) {
      yield { type: 'listening', recorder: 'recording' };
      let frame = new Float32Array(FRAME_SAMPLES);
      let filled = 0;
      let at = 0;
      const take = (): SourceEvent => {
        const event: SourceEvent = {
          type: 'frame',
          pcm: frame,
          startMs: startMs + (at * 1000) / SAMPLE_RATE_HZ,
        };
        frame = new Float32Array(FRAME_SAMPLES);
        filled = 0;
        at += FRAME_SAMPLES;
        return event;
      };
      for await (const piece of pieces()) {
        for (let next = 0; next < piece.length; ) {
          if (signal.aborted) return;
          const part = piece.subarray(next, next + FRAME_SAMPLES - filled);
          frame.set(part, filled);
          filled += part.length;
          next += part.length;
          if (filled === FRAME_SAMPLES) yield take();
        }
      }
      const total = Math.ceil((at + filled + tail) / FRAME_SAMPLES) * FRAME_SAMPLES;
      let noise = 1;
      while (at < total && !signal.aborted) {
        for (; filled < FRAME_SAMPLES; filled += 1) {
          noise = (Math.imul(noise, 1664525) + 1013904223) | 0;
          frame[filled] = (noise / 2 ** 31) * 3e-4;
        }
        yield take();
      }
    },
  };
}

/** Cuts a stream of raw 16-bit little-endian bytes, in chunks of any size, into frames. */
export class FrameCutter {
  private odd: number | null = null;
  private frame = new Float32Array(FRAME_SAMPLES);
  private filled = 0;

  push(chunk: Uint8Array): Float32Array[] {
    const frames: Float32Array[] = [];
    for (const byte of chunk) {
      if (this.odd === null) {
        this.odd = byte;
        continue;
      }
      const value = ((byte << 24) >> 16) | this.odd;
      this.odd = null;
      this.frame[this.filled++] = value / 32768;
      if (this.filled === FRAME_SAMPLES) {
        frames.push(this.frame);
        this.frame = new Float32Array(FRAME_SAMPLES);
        this.filled = 0;
      }
    }
    return frames;
  }
}
