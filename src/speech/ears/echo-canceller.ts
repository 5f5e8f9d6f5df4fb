import FFT from 'fft.js';
import { FRAME_SAMPLES } from './frames.js';

/** The room must fit in so many blocks of 32 ms: 0.38 s. */
export const BLOCKS = 12;
const SIZE = 2 * FRAME_SAMPLES;
const BINS = FRAME_SAMPLES + 1;
/** how constant the room is from block to block; nearer 1 settles finer but follows slower */
const CONSTANCY = 0.998;
/** as a power ratio; larger learns faster at first but overshoots */
const FIRST_UNCERTAINTY = 0.05;
/** echo paths are kept causal and short: so many blocks are put right at each frame, in turn */
const CONSTRAINED_A_FRAME = 4;

/**
 * Takes what the assistant itself plays out of what the microphone hears. A partitioned-block frequency-domain Kalman
 * filter (Enzner and Vary, Signal Processing 86, 2006; from memory of it): it learns the path from speaker to
 * microphone, and learns slowly while somebody else speaks too, because then its error is not its own.
 */
export class EchoCanceller {
  private readonly fft = new FFT(SIZE);
  private readonly played: Float64Array[] = spectra(BLOCKS);
  private readonly path: Float64Array[] = spectra(BLOCKS);
  private readonly uncertainty = Array.from({ length: BLOCKS }, () =>
    new Float64Array(BINS).fill(FIRST_UNCERTAINTY),
  );
  private readonly errorPower = new Float64Array(BINS);
  private previous = new Float32Array(FRAME_SAMPLES);
  private head = 0;
  private turn = 0;

  /**
   * One frame of 512 samples each: what was played in this time and what was heard. Answers what is left without its
   * own sound, and what it took that to be.
   */
  push(playedNow: Float32Array, heard: Float32Array): { left: Float32Array; own: Float32Array } {
    this.remember(playedNow);
    const sum = new Float64Array(2 * SIZE);
    for (let b = 0; b < BLOCKS; b++) addProduct(sum, this.block(b), this.path[b] as Float64Array);
    const estimate = this.backward(sum);
    const error = new Float64Array(SIZE);
    const left = new Float32Array(FRAME_SAMPLES);
    for (let i = 0; i < FRAME_SAMPLES; i++) {
      const value = (heard[i] ?? 0) - (estimate[FRAME_SAMPLES + i] ?? 0);
      error[FRAME_SAMPLES + i] = value;
      left[i] = value;
    }
    this.learn(this.forward(error));
    return { left, own: Float32Array.from(estimate.subarray(FRAME_SAMPLES)) };
  }

  /** Begins a new stretch: what was played in the frames just before it, oldest first. What was learnt is kept. */
  prime(before: readonly Float32Array[]): void {
    for (const block of this.played) block.fill(0);
    this.previous = new Float32Array(FRAME_SAMPLES);
    for (const frame of before) this.remember(frame);
  }

  private remember(playedNow: Float32Array): void {
    this.head = (this.head + BLOCKS - 1) % BLOCKS;
    const input = new Float64Array(SIZE);
    input.set(this.previous);
    input.set(playedNow, FRAME_SAMPLES);
    this.previous = Float32Array.from(playedNow);
    this.played[this.head] = this.forward(input);
  }

  private block(b: number): Float64Array {
    return this.played[(this.head + b) % BLOCKS] as Float64Array;
  }

  private learn(error: Float64Array): void {
    const expected = new Float64Array(BINS);
    for (let b = 0; b < BLOCKS; b++) {
      const x = this.block(b);
      const p = this.uncertainty[b] as Float64Array;
      for (let k = 0; k < BINS; k++) expected[k] = (expected[k] ?? 0) + 0.5 * (p[k] ?? 0) * power(x, k);
    }
    for (let k = 0; k < BINS; k++) {
      this.errorPower[k] = 0.7 * (this.errorPower[k] ?? 0) + 0.3 * power(error, k);
    }
    for (let b = 0; b < BLOCKS; b++) this.learnBlock(b, error, expected);
    for (let i = 0; i < CONSTRAINED_A_FRAME; i++) {
      this.constrain(this.turn);
      this.turn = (this.turn + 1) % BLOCKS;
    }
  }

  private learnBlock(b: number, error: Float64Array, expected: Float64Array): void {
    const x = this.block(b);
    const h = this.path[b] as Float64Array;
    const p = this.uncertainty[b] as Float64Array;
    for (let k = 0; k < BINS; k++) {
      const xr = x[2 * k] ?? 0;
      const xi = x[2 * k + 1] ?? 0;
      const xx = xr * xr + xi * xi;
      const gain = (p[k] ?? 0) / ((expected[k] ?? 0) + (this.errorPower[k] ?? 0) + 1e-9);
      const er = error[2 * k] ?? 0;
      const ei = error[2 * k + 1] ?? 0;
      h[2 * k] = (h[2 * k] ?? 0) + gain * (xr * er + xi * ei);
      h[2 * k + 1] = (h[2 * k + 1] ?? 0) + gain * (xr * ei - xi * er);
      const kept = CONSTANCY * CONSTANCY * (1 - 0.5 * gain * xx) * (p[k] ?? 0);
      p[k] = Math.max(1e-8, kept + (1 - CONSTANCY * CONSTANCY) * power(h, k));
    }
  }

  /** a block's path is 512 samples long: what the learning put in the other half is wrapped-round error */
  private constrain(b: number): void {
    const h = this.path[b] as Float64Array;
    mirror(h);
    const time = this.backward(h);
    time.fill(0, FRAME_SAMPLES);
    this.path[b] = this.forward(time);
  }

  private forward(time: Float64Array): Float64Array {
    const out = new Float64Array(2 * SIZE);
    this.fft.realTransform(out, time);
    return out;
  }

  private backward(spectrum: Float64Array): Float64Array {
    mirror(spectrum);
    const complex = new Float64Array(2 * SIZE);
    this.fft.inverseTransform(complex, spectrum);
    return Float64Array.from({ length: SIZE }, (_, i) => complex[2 * i] ?? 0);
  }
}

function spectra(count: number): Float64Array[] {
  return Array.from({ length: count }, () => new Float64Array(2 * SIZE));
}

function power(spectrum: Float64Array, k: number): number {
  return (spectrum[2 * k] ?? 0) ** 2 + (spectrum[2 * k + 1] ?? 0) ** 2;
}

function addProduct(sum: Float64Array, a: Float64Array, b: Float64Array): void {
  for (let k = 0; k < 2 * BINS; k += 2) {
    const [ar = 0, ai = 0, br = 0, bi = 0] = [a[k], a[k + 1], b[k], b[k + 1]];
    sum[k] = (sum[k] ?? 0) + ar * br - ai * bi;
    sum[k + 1] = (sum[k + 1] ?? 0) + ar * bi + ai * br;
  }
}

/** fills the upper half so that the spectrum is that of a real signal */
function mirror(spectrum: Float64Array): void {
  for (let k = 1; k < SIZE / 2; k++) {
    spectrum[2 * (SIZE - k)] = spectrum[2 * k] ?? 0;
    spectrum[2 * (SIZE - k) + 1] = -(spectrum[2 * k + 1] ?? 0);
  }
}
