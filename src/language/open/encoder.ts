import { softmax } from './model.js';
import { type Pieces, piecesOf } from './pieces.js';

/**
 * A sentence encoder that has read English: one layer of a published transformer, in eight bits, with a line for each
 * command (`training/encoder.py`). Pure: the same words give the same probabilities.
 */
export interface Encoder {
  readonly classes: readonly string[];
  /** whether it read the word as one piece: an English word that is common, and so no slip of the keys */
  knows(word: string): boolean;
  /** the probability of each class, in the order of `classes`, for words as `normaliseTyped` leaves them */
  classify(words: readonly string[]): Float64Array;
}

/** What `training/encoder.py` wrote: the matrices' bytes, and what they are. */
export interface EncoderFile {
  readonly classes: readonly string[];
  /** subword pieces with their log probabilities, by number */
  readonly pieces: readonly (readonly [piece: string, score: number])[];
  readonly heads: number;
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

interface Matrix {
  readonly rows: number;
  readonly columns: number;
  readonly weights: Int8Array;
  /** what one step of each row is worth */
  readonly steps: Float32Array;
}

/** It was trained on so many pieces at most; what follows is not read. */
const MOST_PIECES = 28;
const EPSILON = 1e-6;

export function openEncoder(file: EncoderFile, bytes: ArrayBuffer): Encoder {
  const vector = (name: string): Float32Array => {
    const { rows, columns, at } = place(file, name);
    return new Float32Array(bytes, at, rows * columns);
  };
  const matrix = (name: string): Matrix => {
    const { rows, columns, at } = place(file, name);
    const weights = new Int8Array(bytes, at + 4 * rows, rows * columns);
    return { rows, columns, weights, steps: new Float32Array(bytes, at, rows) };
  };
  const embedding = matrix('embedding');
  const width = embedding.columns;
  const [timescales, residual, residualBias] = [
    vector('timescales'),
    matrix('residual'),
    vector('residual-bias'),
  ];
  const [scale0, shift0] = [vector('norm-0-scale'), vector('norm-0-shift')];
  const [mix, mixBias, out, outBias] = [matrix('qkv'), vector('qkv-bias'), matrix('out'), vector('out-bias')];
  const [scale1, shift1] = [vector('norm-1-scale'), vector('norm-1-shift')];
  const [up, upBias, down, downBias] = [matrix('up'), vector('up-bias'), matrix('down'), vector('down-bias')];
  const [scale2, shift2] = [vector('norm-2-scale'), vector('norm-2-shift')];
  const [head, headBias] = [matrix('head'), vector('head-bias')];
  const pieces: Pieces = piecesOf(file.pieces);

  const classify = (words: readonly string[]): Float64Array => {
    const ids = pieces(words.join(' ')).slice(0, MOST_PIECES);
    const n = ids.length;
    if (n === 0) return new Float64Array(file.classes.length).fill(1 / file.classes.length);
    const x = embedded(ids);
    const r = times(x, n, residual, residualBias);
    const normed = normalised(x, n, width, scale0, shift0);
    const attended = attention(times(normed, n, mix, mixBias), n);
    const y = added(times(attended, n, out, outBias), r);
    const inner = times(normalised(y, n, residual.rows, scale1, shift1), n, up, upBias);
    for (let i = 0; i < inner.length; i++) if ((inner[i] ?? 0) < 0) inner[i] = 0;
    const z = added(times(inner, n, down, downBias), y);
    const mean = new Float64Array(residual.rows);
    for (let i = 0; i < z.length; i++) {
      const c = i % mean.length;
      mean[c] = (mean[c] ?? 0) + (z[i] ?? 0) / n;
    }
    return softmax(times(normalised(mean, 1, mean.length, scale2, shift2, 1e-5), 1, head, headBias));
  };

  /** Twice the embedding and the waves of its place, as the published encoder adds them. */
  function embedded(ids: readonly number[]): Float64Array {
    const x = new Float64Array(ids.length * width);
    const half = width / 2;
    for (const [t, id] of ids.entries()) {
      const step = 2 * (embedding.steps[id] ?? 0);
      for (let c = 0; c < width; c++) {
        const wave = t * (timescales[c % half] ?? 0);
        x[t * width + c] =
          step * (embedding.weights[id * width + c] ?? 0) + (c < half ? Math.sin(wave) : Math.cos(wave));
      }
    }
    return x;
  }

  function attention(qkv: Float64Array, n: number): Float64Array {
    const result = new Float64Array(n * width);
    const size = width / file.heads;
    const at = (t: number, part: number, c: number): number => qkv[t * 3 * width + part * width + c] ?? 0;
    for (let h = 0; h < file.heads; h++) {
      for (let t = 0; t < n; t++) {
        const scores = new Float64Array(n);
        for (let s = 0; s < n; s++) {
          let dot = 0;
          for (let c = h * size; c < (h + 1) * size; c++) dot += at(t, 0, c) * at(s, 1, c);
          scores[s] = dot / Math.sqrt(size);
        }
        const weights = softmax(scores);
        for (let c = h * size; c < (h + 1) * size; c++) {
          let sum = 0;
          for (let s = 0; s < n; s++) sum += (weights[s] ?? 0) * at(s, 2, c);
          result[t * width + c] = sum;
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

/** `n` rows of `x` through a matrix, four at a time, in doubles throughout: turning numbers into others is what takes time. */
function times(x: Float64Array, n: number, m: Matrix, bias: Float32Array): Float64Array {
  const { rows, columns, weights, steps } = m;
  const y = new Float64Array(n * rows);
  const w = new Float64Array(columns);
  for (let row = 0; row < rows; row++) {
    w.set(weights.subarray(row * columns, (row + 1) * columns));
    const step = steps[row] as number;
    const shift = bias[row] as number;
    for (let t = 0; t < n; t += 4) {
      const a = t * columns;
      const b = Math.min(t + 1, n - 1) * columns;
      const c = Math.min(t + 2, n - 1) * columns;
      const d = Math.min(t + 3, n - 1) * columns;
      let p = 0.0;
      let q = 0.0;
      let r = 0.0;
      let s = 0.0;
      for (let i = 0; i < columns; i++) {
        const v = w[i] as number;
        p += v * (x[a + i] as number);
        q += v * (x[b + i] as number);
        r += v * (x[c + i] as number);
        s += v * (x[d + i] as number);
      }
      y[t * rows + row] = p * step + shift;
      if (t + 1 < n) y[(t + 1) * rows + row] = q * step + shift;
      if (t + 2 < n) y[(t + 2) * rows + row] = r * step + shift;
      if (t + 3 < n) y[(t + 3) * rows + row] = s * step + shift;
    }
  }
  return y;
}

function normalised(
  x: Float64Array,
  n: number,
  width: number,
  scale: Float32Array,
  shift: Float32Array,
  epsilon: number = EPSILON,
): Float64Array {
  const y = new Float64Array(x.length);
  for (let t = 0; t < n; t++) {
    let [sum, squares] = [0, 0];
    for (let c = 0; c < width; c++) sum += x[t * width + c] ?? 0;
    const mean = sum / width;
    for (let c = 0; c < width; c++) squares += ((x[t * width + c] ?? 0) - mean) ** 2;
    const spread = Math.sqrt(squares / width + epsilon);
    for (let c = 0; c < width; c++)
      y[t * width + c] = (((x[t * width + c] ?? 0) - mean) / spread) * (scale[c] ?? 0) + (shift[c] ?? 0);
  }
  return y;
}

function added(x: Float64Array, to: Float64Array): Float64Array {
  for (let i = 0; i < x.length; i++) x[i] = (x[i] ?? 0) + (to[i] ?? 0);
  return x;
}
