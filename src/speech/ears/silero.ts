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
  readonly weight: Float32Array;
  readonly bias: Float32Array;
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
    weight: next(count * width),
    bias: next(count),
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
    const { input, weights, heardAndHidden } = this;
    const end = CONTEXT_SAMPLES + FRAME_SAMPLES;
    input.copyWithin(0, end - CONTEXT_SAMPLES, end);
    input.set(frame, CONTEXT_SAMPLES);
    for (let i = 0; i < MIRRORED_SAMPLES; i++) input[end + i] = input[end - 2 - i] as number;
    spectra(input, weights.window);
    for (const [i, rows] of weights.layers.entries()) convolve(i, rows);
    heardAndHidden.set(STEPS[LAYERS.length]?.[0] as Float64Array);
    this.remember();
    for (let u = 0; u < UNITS; u++) SAID[u] = Math.max(0, heardAndHidden[UNITS + u] as number);
    sums(weights.out, SAID, PROBABILITY);
    return sigmoid(PROBABILITY[0] as number);
  }

  reset(): void {
    this.heardAndHidden.fill(0);
    this.cell.fill(0);
    this.input.fill(0);
  }

  /** One step of long short-term memory; its gates stand in the order input, forget, cell, output. */
  private remember(): void {
    const { cell, heardAndHidden } = this;
    sums(this.weights.gates, heardAndHidden, GATES);
    for (let u = 0; u < UNITS; u++) {
      const forget = sigmoid(GATES[UNITS + u] as number);
      const taken = sigmoid(GATES[u] as number) * Math.tanh(GATES[2 * UNITS + u] as number);
      cell[u] = forget * (cell[u] as number) + taken;
      heardAndHidden[UNITS + u] = sigmoid(GATES[3 * UNITS + u] as number) * Math.tanh(cell[u] as number);
    }
  }
}

type Steps = readonly Float64Array[];

const fft = new FFT(WINDOW);
const SPECTRUM = fft.createComplexArray();
// what a frame needs on its way: made anew for every frame it would be most of the work. Nothing of it is kept for the next one
const PART: number[] = new Array(WINDOW).fill(0);
const FIRST_STEPS = stepsOf((CONTEXT_SAMPLES + FRAME_SAMPLES + MIRRORED_SAMPLES - WINDOW) / STEP + 1, BINS);
/** the spectrum, then what comes out of each layer */
const STEPS: Steps[] = [FIRST_STEPS];
for (const [i, { channels, stride }] of LAYERS.entries())
  STEPS.push(stepsOf(Math.ceil((STEPS[i] as Steps).length / stride), channels.out));
const AROUND = LAYERS.map(({ channels }) => new Float64Array(channels.in * KERNEL));
const GATES = new Float64Array(4 * UNITS);
const SAID = new Float64Array(UNITS);
const PROBABILITY = new Float64Array(1);

function stepsOf(count: number, channels: number): Steps {
  return Array.from({ length: count }, () => new Float64Array(channels));
}

/** The magnitudes of the spectrum at every step. */
function spectra(sound: Float32Array, window: Float32Array): void {
  for (const [t, magnitudes] of FIRST_STEPS.entries()) {
    for (let i = 0; i < WINDOW; i++) PART[i] = (window[i] as number) * (sound[t * STEP + i] as number);
    fft.realTransform(SPECTRUM, PART);
    for (let b = 0; b < BINS; b++) {
      const [real, imaginary] = [SPECTRUM[2 * b] as number, SPECTRUM[2 * b + 1] as number];
      magnitudes[b] = Math.sqrt(real * real + imaginary * imaginary);
    }
  }
}

/** Layer `i`. What comes out below nothing counts as nothing. */
function convolve(i: number, rows: Rows): void {
  const { channels, stride } = LAYERS[i] as Layer;
  const around = AROUND[i] as Float64Array;
  for (const [t, out] of (STEPS[i + 1] as Steps).entries()) {
    for (let k = 0; k < KERNEL; k++) {
      const step = (STEPS[i] as Steps)[t * stride + k - 1];
      for (let c = 0; c < channels.in; c++) around[c * KERNEL + k] = step ? (step[c] as number) : 0;
    }
    sums(rows, around, out);
    for (let o = 0; o < out.length; o++) out[o] = Math.max(0, out[o] as number);
  }
}

const AT = new Int32Array(BINS * KERNEL);
const VALUE = new Float64Array(BINS * KERNEL);

/** Each row's products with `x`, summed. Four rows go together, and what is nought in `x`, a third of it, is left out: half the time. */
function sums({ weight, bias }: Rows, x: Float64Array, out: Float64Array): void {
  const n = x.length;
  let count = 0;
  for (let i = 0; i < n; i++) {
    const v = x[i] as number;
    if (v === 0) continue;
    AT[count] = i;
    VALUE[count++] = v;
  }
  let row = 0;
  for (; row + 3 < out.length; row += 4) {
    let a = bias[row] as number;
    let b = bias[row + 1] as number;
    let c = bias[row + 2] as number;
    let d = bias[row + 3] as number;
    for (let i = 0; i < count; i++) {
      const v = VALUE[i] as number;
      const at = row * n + (AT[i] as number);
      a += (weight[at] as number) * v;
      b += (weight[at + n] as number) * v;
      c += (weight[at + 2 * n] as number) * v;
      d += (weight[at + 3 * n] as number) * v;
    }
    out[row] = a;
    out[row + 1] = b;
    out[row + 2] = c;
    out[row + 3] = d;
  }
  for (; row < out.length; row++) {
    let sum = bias[row] as number;
    for (let i = 0; i < count; i++)
      sum += (weight[row * n + (AT[i] as number)] as number) * (VALUE[i] as number);
    out[row] = sum;
  }
}

const sigmoid = (x: number): number => 1 / (1 + Math.exp(-x));
