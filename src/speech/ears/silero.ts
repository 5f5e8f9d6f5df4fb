import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import FFT from 'fft.js';
import { modelsDir } from '../installed.js';
import type { Problem } from '../wav.js';
import { FRAME_SAMPLES } from './frames.js';

/** Says how likely a frame holds speech. Frames must come in order; `reset` before a stretch that does not follow. */
export interface VoiceActivity {
  /** 512 samples at 16 kHz → 0 to 1 */
  probability(frame: Float32Array): Promise<number>;
  reset(): void;
}

/** the model looks this far back into the frame before, by its authors' own calling code (Silero VAD 5, MIT) */
const CONTEXT_SAMPLES = 64;
/** and so many samples at the end are met once more, backwards */
const MIRRORED_SAMPLES = 64;
const WINDOW = 256;
const STEP = 128;
const BINS = WINDOW / 2 + 1;
const UNITS = 128;
const KERNEL = 3;

/** One layer of convolution over time: kernel 3, one frame of nothing at each end. */
interface Layer {
  readonly channels: { readonly in: number; readonly out: number };
  readonly stride: number;
}
const LAYERS: readonly Layer[] = [
  { channels: { in: BINS, out: 128 }, stride: 1 },
  { channels: { in: 128, out: 64 }, stride: 2 },
  { channels: { in: 64, out: 64 }, stride: 2 },
  { channels: { in: 64, out: UNITS }, stride: 1 },
];

/** A matrix, row after row, and what is added to each row's sum. */
interface Rows {
  readonly weight: Float64Array;
  readonly bias: Float64Array;
}

interface Weights {
  readonly window: Float32Array;
  readonly layers: readonly Rows[];
  /** of the long short-term memory: what is heard, then what was remembered */
  readonly gates: Rows;
  readonly out: Rows;
}

/**
 * Silero's voice-activity model, version 5, the 16 kHz half of it, reckoned here: with a runtime it took 10 to 30 MB in each of two
 * processes, and as long.
 */
export async function loadSilero(): Promise<VoiceActivity | Problem> {
  const pair = await loadTwoSileros();
  return 'problem' in pair ? pair : pair[0];
}

/** Two that hear different sounds and share the model. */
export async function loadTwoSileros(): Promise<[VoiceActivity, VoiceActivity] | Problem> {
  try {
    const weights = weightsIn(readFileSync(join(modelsDir(), 'voice-activity', 'silero-16k.bin')));
    return [new Silero(weights), new Silero(weights)];
  } catch (error) {
    return {
      problem: `The voice-activity model does not load (${String(error)}). Restore the models folder (git checkout models).`,
    };
  }
}

/** In the order in which training/voice-activity.mjs wrote them. @throws Error when there are too few or too many */
function weightsIn(file: Buffer): Weights {
  const all = new Float32Array(file.buffer.slice(file.byteOffset, file.byteOffset + file.byteLength));
  let at = 0;
  const next = (count: number): Float32Array => {
    at += count;
    return all.slice(at - count, at);
  };
  const rows = (count: number, width: number): Rows => ({
    weight: Float64Array.from(next(count * width)),
    bias: Float64Array.from(next(count)),
  });
  const weights: Weights = {
    window: next(WINDOW),
    layers: LAYERS.map(({ channels }) => rows(channels.out, channels.in * KERNEL)),
    gates: rows(4 * UNITS, 2 * UNITS),
    out: rows(1, UNITS),
  };
  if (at !== all.length) throw new Error(`it holds ${all.length} numbers instead of ${at}`);
  return weights;
}

class Silero implements VoiceActivity {
  /** what is heard, then what is remembered of before */
  private readonly heardAndHidden = new Float64Array(2 * UNITS);
  private readonly cell = new Float64Array(UNITS);
  private readonly input = new Float32Array(CONTEXT_SAMPLES + FRAME_SAMPLES + MIRRORED_SAMPLES);

  constructor(private readonly weights: Weights) {}

  async probability(frame: Float32Array): Promise<number> {
    const { input, weights } = this;
    const end = CONTEXT_SAMPLES + FRAME_SAMPLES;
    input.copyWithin(0, end - CONTEXT_SAMPLES, end);
    input.set(frame, CONTEXT_SAMPLES);
    for (let i = 0; i < MIRRORED_SAMPLES; i++) input[end + i] = input[end - 2 - i] as number;
    const encoded = LAYERS.reduce(
      (steps, layer, i) => convolved(steps, layer, weights.layers[i] as Rows),
      spectra(input, weights.window),
    );
    this.remember(encoded[0] as Float64Array);
    const said = this.heardAndHidden.subarray(UNITS).map((v) => Math.max(0, v));
    return sigmoid(sums(weights.out, said)[0] as number);
  }

  reset(): void {
    this.heardAndHidden.fill(0);
    this.cell.fill(0);
    this.input.fill(0);
  }

  /** One step of long short-term memory; its gates stand in the order input, forget, cell, output. */
  private remember(heard: Float64Array): void {
    this.heardAndHidden.set(heard);
    const gate = sums(this.weights.gates, this.heardAndHidden);
    const at = (row: number): number => gate[row] as number;
    for (let u = 0; u < UNITS; u++) {
      const kept = sigmoid(at(UNITS + u)) * (this.cell[u] as number);
      this.cell[u] = kept + sigmoid(at(u)) * Math.tanh(at(2 * UNITS + u));
      this.heardAndHidden[UNITS + u] = sigmoid(at(3 * UNITS + u)) * Math.tanh(this.cell[u] as number);
    }
  }
}

const fft = new FFT(WINDOW);

/** The magnitudes of the spectrum at every step. */
function spectra(sound: Float32Array, window: Float32Array): Float64Array[] {
  const steps = (sound.length - WINDOW) / STEP + 1;
  const spectrum = fft.createComplexArray();
  const part: number[] = new Array(WINDOW).fill(0);
  const out: Float64Array[] = [];
  for (let t = 0; t < steps; t++) {
    for (let i = 0; i < WINDOW; i++) part[i] = (window[i] as number) * (sound[t * STEP + i] as number);
    fft.realTransform(spectrum, part);
    const magnitudes = new Float64Array(BINS);
    for (let b = 0; b < BINS; b++) {
      const [real, imaginary] = [spectrum[2 * b] as number, spectrum[2 * b + 1] as number];
      magnitudes[b] = Math.sqrt(real * real + imaginary * imaginary);
    }
    out.push(magnitudes);
  }
  return out;
}

/** What comes out below nothing counts as nothing. */
function convolved(steps: readonly Float64Array[], { channels, stride }: Layer, rows: Rows): Float64Array[] {
  const out: Float64Array[] = [];
  for (let t = 0; t < steps.length; t += stride) {
    const around = new Float64Array(channels.in * KERNEL);
    for (let k = 0; k < KERNEL; k++) {
      const step = steps[t + k - 1];
      if (step) for (let c = 0; c < channels.in; c++) around[c * KERNEL + k] = step[c] as number;
    }
    const next = sums(rows, around);
    for (let o = 0; o < next.length; o++) next[o] = Math.max(0, next[o] as number);
    out.push(next);
  }
  return out;
}

/** Each row's products with `x`, summed. Four rows go together: a third of the time of one by one. */
function sums({ weight, bias }: Rows, x: Float64Array): Float64Array {
  const n = x.length;
  const out = bias.slice();
  let row = 0;
  for (; row + 3 < out.length; row += 4) {
    let [a, b, c, d] = [0, 0, 0, 0];
    for (let i = 0, at = row * n; i < n; i++, at++) {
      const v = x[i] as number;
      a += (weight[at] as number) * v;
      b += (weight[at + n] as number) * v;
      c += (weight[at + 2 * n] as number) * v;
      d += (weight[at + 3 * n] as number) * v;
    }
    out[row] = (out[row] as number) + a;
    out[row + 1] = (out[row + 1] as number) + b;
    out[row + 2] = (out[row + 2] as number) + c;
    out[row + 3] = (out[row + 3] as number) + d;
  }
  for (; row < out.length; row++)
    for (let i = 0; i < n; i++)
      out[row] = (out[row] as number) + (weight[row * n + i] as number) * (x[i] as number);
  return out;
}

const sigmoid = (x: number): number => 1 / (1 + Math.exp(-x));
