import { softmax } from './model.js';
import { type Pieces, piecesOf } from './pieces.js';

/**
 * A sentence encoder that has read English: the layers of a published transformer, in eight bits, with a line for each
 * command and one for each moment (`training/encoder.py`). Pure: the same words give the same probabilities.
 */
export interface Encoder {
  readonly classes: readonly string[];
  /** whether it read the word as one piece: an English word that is common, and so no slip of the keys */
  knows(word: string): boolean;
  /** the probability of each class, in the order of `classes`, for words as `normaliseTyped` leaves them, said in the moment of this name */
  classify(words: readonly string[], moment: string): Float64Array;
}

/** What `training/encoder.py` wrote: what the bytes of the matrices are. */
export interface EncoderFile {
  readonly classes: readonly string[];
  /** the two words of a moment's name, by number; the first of each stands for what is not known */
  readonly places: readonly string[];
  readonly dues: readonly string[];
  /** subword pieces with their log probabilities, by number */
  readonly pieces: readonly (readonly [piece: string, score: number])[];
  readonly heads: number;
  readonly layers: number;
  readonly tensors: Readonly<Record<string, TensorPlace>>;
}
interface TensorPlace {
  /** rows and columns; a vector has one row */
  readonly rows: number;
  readonly columns: number;
  /** where its numbers begin, bytes; of a matrix in eight bits first a float for each row, then the rows */
  readonly at: number;
  readonly bits: 8 | 32;
}

/** The part of the standard's WebAssembly object used here; Node's own types leave it to the DOM's. */
declare const WebAssembly: {
  Memory: new (size: { initial: number }) => { readonly buffer: ArrayBuffer };
  Module: new (bytes: Uint8Array) => object;
  Instance: new (module: object, imports: object) => { readonly exports: Readonly<Record<string, unknown>> };
};

/** It was trained on so many pieces at most; what follows is not read. */
const MOST_PIECES = 40;
/** Rows go through a matrix four at a time, the moment's before those of the pieces. */
const MOST_ROWS = 44;
const EPSILON = 1e-6;
const MOST_16_BITS = 32_767;
const PAGE = 65_536;

/** `training/times.wat`: where the weights, steps, bias, rows, their scales and the results are, and how many. */
type Times = (
  ...places: [w: number, steps: number, bias: number, x: number, scales: number, y: number, ...size: number[]]
) => void;

/** @param kernel `times.wasm`, the product that takes the time */
export function openEncoder(file: EncoderFile, bytes: Uint8Array, kernel: Uint8Array): Encoder {
  const widest = Math.max(...Object.values(file.tensors).map((t) => (t.rows > 1 ? t.columns : 0)));
  const longest = Math.max(
    ...['qkv', 'up'].map((m) => place(file, `0-${m}`).rows),
    file.classes.length,
    widest,
  );
  const [x16, scales] = [Math.ceil(bytes.length / 16) * 16, MOST_ROWS * 2 * widest];
  const y32 = x16 + scales + MOST_ROWS * 4;
  const memory = new WebAssembly.Memory({ initial: Math.ceil((y32 + MOST_ROWS * 4 * longest) / PAGE) });
  const { buffer } = memory;
  new Uint8Array(buffer).set(bytes);
  const module = new WebAssembly.Module(kernel);
  const multiply = new WebAssembly.Instance(module, { encoder: { memory } }).exports.times as Times;

  const vector = (name: string): Float32Array => {
    const { rows, columns, at } = place(file, name);
    return new Float32Array(buffer, at, rows * columns);
  };
  /** `n` rows of `x` through a matrix, each in steps of its own of 16 bits. */
  const times = (x: Float32Array, name: string, bias: string): Float32Array => {
    const { rows, columns, at } = place(file, name);
    const n = x.length / columns;
    const four = Math.ceil(n / 4) * 4;
    const inSteps = new Int16Array(buffer, x16, four * columns).fill(0);
    const worth = new Float32Array(buffer, x16 + scales, four).fill(0);
    for (let t = 0; t < n; t++) {
      let most = 0;
      for (let i = t * columns; i < (t + 1) * columns; i++) most = Math.max(most, Math.abs(x[i] as number));
      const scale = most / MOST_16_BITS || 1;
      for (let i = t * columns; i < (t + 1) * columns; i++) inSteps[i] = Math.round((x[i] as number) / scale);
      worth[t] = scale;
    }
    multiply(at + 4 * rows, at, place(file, bias).at, x16, x16 + scales, y32, rows, columns, four);
    return new Float32Array(buffer, y32, n * rows).slice();
  };
  const normed = (x: Float32Array, norm: string, epsilon = EPSILON): Float32Array =>
    normalised(x, vector(`${norm}-scale`), vector(`${norm}-shift`), epsilon);

  const embedding = place(file, 'embedding');
  const width = embedding.columns;
  const timescales = vector('timescales');
  const pieces: Pieces = piecesOf(file.pieces);
  const row = (name: string, number: number): Float32Array => {
    const { columns, at } = place(file, name);
    return new Float32Array(buffer, at + 4 * number * columns, columns);
  };

  const classify = (words: readonly string[], moment: string): Float64Array => {
    const ids = pieces(words.join(' ')).slice(0, MOST_PIECES);
    const known = (names: readonly string[], name = ''): number => Math.max(0, names.indexOf(name));
    const [at, next] = moment.split(' ');
    const [now, due] = [known(file.places, at), known(file.dues, next)];
    let x = embedded(ids, added(row('place', now).slice(), row('due', due)));
    for (let layer = 0; layer < file.layers; layer++) {
      const kept = file.tensors[`${layer}-residual`]
        ? times(x, `${layer}-residual`, `${layer}-residual-bias`)
        : x;
      const mixed = times(normed(x, `${layer}-norm-0`), `${layer}-qkv`, `${layer}-qkv-bias`);
      const y = added(times(attention(mixed, ids.length + 1), `${layer}-out`, `${layer}-out-bias`), kept);
      const inner = times(normed(y, `${layer}-norm-1`), `${layer}-up`, `${layer}-up-bias`).map((v) =>
        Math.max(0, v),
      );
      x = added(times(inner, `${layer}-down`, `${layer}-down-bias`), y);
    }
    const outer = x.length / (ids.length + 1);
    const mean = new Float32Array(outer);
    for (let i = 0; i < x.length; i++)
      mean[i % outer] = (mean[i % outer] ?? 0) + (x[i] ?? 0) / (ids.length + 1);
    const said = times(normed(mean, 'norm', 1e-5), 'head', 'head-bias');
    return softmax(Float64Array.from(added(added(said, row('place-bias', now)), row('due-bias', due))));
  };

  /** The moment, then each piece: twice its embedding and the waves of its place, as the published encoder adds them. */
  function embedded(ids: readonly number[], moment: Float32Array): Float32Array {
    const x = new Float32Array((ids.length + 1) * width);
    x.set(moment);
    const half = width / 2;
    const steps = new Float32Array(buffer, embedding.at, embedding.rows);
    const weights = new Int8Array(buffer, embedding.at + 4 * embedding.rows, embedding.rows * width);
    for (const [t, id] of ids.entries()) {
      const step = 2 * (steps[id] ?? 0);
      for (let c = 0; c < width; c++) {
        const wave = t * (timescales[c % half] ?? 0);
        x[(t + 1) * width + c] =
          step * (weights[id * width + c] ?? 0) + (c < half ? Math.sin(wave) : Math.cos(wave));
      }
    }
    return x;
  }

  function attention(qkv: Float32Array, n: number): Float32Array {
    const wide = qkv.length / n / 3;
    const result = new Float32Array(n * wide);
    const size = wide / file.heads;
    const at = (t: number, part: number, c: number): number => qkv[t * 3 * wide + part * wide + c] as number;
    for (let h = 0; h < file.heads; h++) {
      for (let t = 0; t < n; t++) {
        const scores = new Float32Array(n);
        for (let s = 0; s < n; s++) {
          let dot = 0;
          for (let c = h * size; c < (h + 1) * size; c++) dot += at(t, 0, c) * at(s, 1, c);
          scores[s] = dot / Math.sqrt(size);
        }
        const weights = softmax(scores);
        for (let c = h * size; c < (h + 1) * size; c++) {
          let sum = 0;
          for (let s = 0; s < n; s++) sum += (weights[s] as number) * at(s, 2, c);
          result[t * wide + c] = sum;
        }
      }
    }
    return result;
  }

  const whole = new Set(file.pieces.map(([piece]) => piece));
  return {
    classes: file.classes,
    knows: (word) => whole.has(`▁${word}`),
    classify,
  };
}

function place(file: EncoderFile, name: string): TensorPlace {
  const found = file.tensors[name];
  if (!found) throw new Error(`The sentence encoder has no ${name}.`);
  return found;
}

function normalised(
  x: Float32Array,
  scale: Float32Array,
  shift: Float32Array,
  epsilon: number,
): Float32Array {
  const width = scale.length;
  const y = new Float32Array(x.length);
  for (let from = 0; from < x.length; from += width) {
    let [sum, squares] = [0, 0];
    for (let c = 0; c < width; c++) sum += x[from + c] as number;
    const mean = sum / width;
    for (let c = 0; c < width; c++) squares += ((x[from + c] as number) - mean) ** 2;
    const spread = Math.sqrt(squares / width + epsilon);
    for (let c = 0; c < width; c++)
      y[from + c] = (((x[from + c] as number) - mean) / spread) * (scale[c] as number) + (shift[c] as number);
  }
  return y;
}

function added(x: Float32Array, to: Float32Array): Float32Array {
  for (let i = 0; i < x.length; i++) x[i] = (x[i] as number) + (to[i] as number);
  return x;
}
