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
const INPUT_SAMPLES = CONTEXT_SAMPLES + FRAME_SAMPLES + MIRRORED_SAMPLES;
const WINDOW = 256;
const STEP = 128;
const BINS = WINDOW / 2 + 1;
const UNITS = 128;
const KERNEL = 3;

/** One layer of convolution over time: kernel 3, one step of nothing at each end. */
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
/** The product takes four numbers at a time: so wide is a step of so many channels, what is over being nought. */
const wide = (channels: number): number => 4 * Math.ceil(channels / 4);

/** The part of the standard's WebAssembly object used here; Node's own types leave it to the DOM's. */
declare const WebAssembly: {
  Memory: new (size: { initial: number }) => { readonly buffer: ArrayBuffer };
  Module: new (bytes: Uint8Array) => object;
  Instance: new (module: object, imports: object) => { readonly exports: Readonly<Record<string, unknown>> };
};
const PAGE = 65_536;

/** y[row] = max(least, w[row] · x + bias[row]); places are bytes in the memory. training/voice-activity.wat */
type Times = (
  w: number,
  bias: number,
  x: number,
  y: number,
  rows: number,
  columns: number,
  least: number,
) => void;

/** A matrix, row after row, and what is added to each row's sum. */
interface Rows {
  readonly weight: Float32Array;
  readonly bias: Float32Array;
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
    const read = (name: string): Buffer => readFileSync(join(modelsDir(), 'voice-activity', name));
    const network = networkIn(read('silero-16k.bin'), read('times.wasm'));
    return [new Silero(network), new Silero(network)];
  } catch (error) {
    return {
      problem: `The voice-activity model does not load (${String(error)}). Restore the models folder (git checkout models).`,
    };
  }
}

/** What a frame needs on its way, in one memory. Nothing of it is kept for the next one. */
interface Network {
  readonly window: Float32Array;
  /** the spectrum, then what comes out of each layer */
  readonly steps: readonly Steps[];
  /** what is heard, then what is remembered of before */
  readonly heardAndHidden: Float32Array;
  readonly gates: Float32Array;
  readonly out: Rows;
  convolve(): void;
  toGates(): void;
}

/** One step after the other, with one of nothing before and after them. */
interface Steps {
  readonly count: number;
  readonly width: number;
  readonly values: Float32Array;
}

/** `file` as training/voice-activity.mjs wrote it. @throws Error when it holds too few or too many numbers */
function networkIn(file: Buffer, kernel: Uint8Array): Network {
  const numbers = new Float32Array(file.buffer.slice(file.byteOffset, file.byteOffset + file.byteLength));
  const memory = new WebAssembly.Memory({ initial: Math.ceil((1.5 * file.byteLength) / PAGE) });
  let free = 0;
  const room = (count: number): Float32Array => {
    free += 4 * count;
    return new Float32Array(memory.buffer, free - 4 * count, count);
  };
  let at = 0;
  const next = (count: number): Float32Array => {
    at += count;
    return numbers.subarray(at - count, at);
  };
  const window = next(WINDOW).slice();
  const layers = LAYERS.map(({ channels }) => convolution(channels, next, room));
  const gates = { weight: room(8 * UNITS * UNITS), bias: room(4 * UNITS) };
  gates.weight.set(next(8 * UNITS * UNITS));
  gates.bias.set(next(4 * UNITS));
  const out = { weight: next(UNITS).slice(), bias: next(1).slice() };
  if (at !== numbers.length) throw new Error(`it holds ${numbers.length} numbers instead of ${at}`);

  const steps = [stepsIn(room, (INPUT_SAMPLES - WINDOW) / STEP + 1, BINS)];
  for (const [i, { channels, stride }] of LAYERS.entries())
    steps.push(stepsIn(room, Math.ceil((steps[i] as Steps).count / stride), channels.out));
  const heardAndHidden = room(2 * UNITS);
  const open = room(4 * UNITS);
  const times = new WebAssembly.Instance(new WebAssembly.Module(kernel), { silero: { memory } }).exports
    .times as Times;
  return {
    window,
    steps,
    heardAndHidden,
    gates: open,
    out,
    convolve() {
      for (const [i, { weight, bias }] of layers.entries()) {
        const [from, to] = [steps[i] as Steps, steps[i + 1] as Steps];
        const jump = (LAYERS[i] as Layer).stride * from.width;
        for (let t = 0; t < to.count; t++)
          times(
            weight.byteOffset,
            bias.byteOffset,
            from.values.byteOffset + 4 * t * jump,
            to.values.byteOffset + 4 * (t + 1) * to.width,
            to.width,
            KERNEL * from.width,
            // what comes out below nothing counts as nothing
            0,
          );
      }
    },
    toGates: () =>
      times(
        gates.weight.byteOffset,
        gates.bias.byteOffset,
        heardAndHidden.byteOffset,
        open.byteOffset,
        4 * UNITS,
        2 * UNITS,
        Number.NEGATIVE_INFINITY,
      ),
  };
}

/** A layer as three steps that stand one after the other meet it; the file has it channel by channel. */
function convolution(
  channels: Layer['channels'],
  next: (count: number) => Float32Array,
  room: (count: number) => Float32Array,
): Rows {
  const width = wide(channels.in);
  const weight = room(channels.out * KERNEL * width);
  const given = next(channels.out * KERNEL * channels.in);
  for (let o = 0; o < channels.out; o++)
    for (let c = 0; c < channels.in; c++)
      for (let k = 0; k < KERNEL; k++)
        weight[(o * KERNEL + k) * width + c] = given[(o * channels.in + c) * KERNEL + k] as number;
  const bias = room(channels.out);
  bias.set(next(channels.out));
  return { weight, bias };
}

const stepsIn = (room: (count: number) => Float32Array, count: number, channels: number): Steps => ({
  count,
  width: wide(channels),
  values: room((count + 2) * wide(channels)),
});

class Silero implements VoiceActivity {
  private readonly hidden = new Float32Array(UNITS);
  private readonly cell = new Float64Array(UNITS);
  private readonly input = new Float32Array(INPUT_SAMPLES);

  constructor(private readonly network: Network) {}

  async probability(frame: Float32Array): Promise<number> {
    const { input, network } = this;
    const end = CONTEXT_SAMPLES + FRAME_SAMPLES;
    input.copyWithin(0, end - CONTEXT_SAMPLES, end);
    input.set(frame, CONTEXT_SAMPLES);
    for (let i = 0; i < MIRRORED_SAMPLES; i++) input[end + i] = input[end - 2 - i] as number;
    spectra(input, network);
    network.convolve();
    this.remember();
    const { weight, bias } = network.out;
    let sum = bias[0] as number;
    for (let u = 0; u < UNITS; u++) sum += (weight[u] as number) * Math.max(0, this.hidden[u] as number);
    return sigmoid(sum);
  }

  reset(): void {
    this.hidden.fill(0);
    this.cell.fill(0);
    this.input.fill(0);
  }

  /** One step of long short-term memory; its gates stand in the order input, forget, cell, output. */
  private remember(): void {
    const { cell, hidden, network } = this;
    const { gates, heardAndHidden, steps } = network;
    const { values, width } = steps[LAYERS.length] as Steps;
    heardAndHidden.set(values.subarray(width, width + UNITS));
    heardAndHidden.set(hidden, UNITS);
    network.toGates();
    for (let u = 0; u < UNITS; u++) {
      const forget = sigmoid(gates[UNITS + u] as number);
      const taken = sigmoid(gates[u] as number) * Math.tanh(gates[2 * UNITS + u] as number);
      cell[u] = forget * (cell[u] as number) + taken;
      hidden[u] = sigmoid(gates[3 * UNITS + u] as number) * Math.tanh(cell[u] as number);
    }
  }
}

const fft = new FFT(WINDOW);
const SPECTRUM = fft.createComplexArray();
const PART: number[] = new Array(WINDOW).fill(0);

/** The magnitudes of the spectrum at every step. */
function spectra(sound: Float32Array, { window, steps }: Network): void {
  const { count, width, values } = steps[0] as Steps;
  for (let t = 0; t < count; t++) {
    for (let i = 0; i < WINDOW; i++) PART[i] = (window[i] as number) * (sound[t * STEP + i] as number);
    fft.realTransform(SPECTRUM, PART);
    for (let b = 0; b < BINS; b++) {
      const [real, imaginary] = [SPECTRUM[2 * b] as number, SPECTRUM[2 * b + 1] as number];
      values[(t + 1) * width + b] = Math.sqrt(real * real + imaginary * imaginary);
    }
  }
}

const sigmoid = (x: number): number => 1 / (1 + Math.exp(-x));
