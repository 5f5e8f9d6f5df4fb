import { quantile, sorted } from './statistics.js';

/** Red and blue density of greys as straight lines of the green one: `d = offset + slope * green`, all above base. */
export interface NeutralAxis {
  red: Line;
  blue: Line;
  /** how far pixels stray from greys, as density: half of them lie nearer */
  scatter: number;
}

export interface Line {
  offset: number;
  slope: number;
}

export const onLine = (line: Line, green: number): number => line.offset + line.slope * green;

/** Steps of green density that count alike, so that a big sky does not decide alone. */
const STEPS = 24;
const ROUNDS = 25;
/** Pixels this far from the line hardly count. */
const NEUTRAL = 0.05;

/**
 * The greys of pictures without being told where they are: a line through the densities, fitted again and again to
 * the pixels nearest to it, each step of density with equal voice. `points`: red, green, blue in turn, above base.
 */
export function neutralAxisOf(points: Float32Array): NeutralAxis | null {
  const n = Math.floor(points.length / 3);
  if (n < 24) return null;
  const channel = (c: number): Float64Array => {
    const values = new Float64Array(n);
    for (let i = 0; i < n; i++) values[i] = points[i * 3 + c] as number;
    return values.sort();
  };
  const green = channel(1);
  const low = quantile(green, 0.02);
  const high = quantile(green, 0.98);
  if (!(high - low > 0.05)) return null;
  const start = (c: number): Line => {
    const values = channel(c);
    const slope =
      (quantile(values, 0.9) - quantile(values, 0.1)) / (quantile(green, 0.9) - quantile(green, 0.1));
    const kept = Math.min(1.8, Math.max(0.55, slope));
    return { slope: kept, offset: quantile(values, 0.5) - kept * quantile(green, 0.5) };
  };
  let red = start(0);
  let blue = start(2);
  const counts = new Float64Array(STEPS);
  const stepOf = (g: number): number =>
    Math.min(STEPS - 1, Math.max(0, Math.floor(((g - low) / (high - low)) * STEPS)));
  for (let i = 0; i < n; i++) {
    const g = points[i * 3 + 1] as number;
    if (g >= low && g <= high) {
      const s = stepOf(g);
      counts[s] = (counts[s] as number) + 1;
    }
  }
  const least = Math.max(2, n / STEPS / 40);
  let width = 4 * NEUTRAL;
  for (let round = 0; round < ROUNDS; round++) {
    const sums = [new Sums(), new Sums()] as const;
    for (let i = 0; i < n; i++) {
      const g = points[i * 3 + 1] as number;
      if (g < low || g > high) continue;
      const count = counts[stepOf(g)] as number;
      const r = points[i * 3] as number;
      const b = points[i * 3 + 2] as number;
      const off2 = (r - onLine(red, g)) ** 2 + (b - onLine(blue, g)) ** 2;
      const near = 1 / (1 + off2 / (width * width));
      const w = (near * near) / Math.max(least, count);
      sums[0].add(g, r, w);
      sums[1].add(g, b, w);
    }
    red = sums[0].line() ?? red;
    blue = sums[1].line() ?? blue;
    width = Math.max(NEUTRAL, width * 0.8);
  }
  const off = sorted(
    (function* () {
      for (let i = 0; i < n; i++) {
        const g = points[i * 3 + 1] as number;
        if (g >= low && g <= high)
          yield Math.hypot(
            (points[i * 3] as number) - onLine(red, g),
            (points[i * 3 + 2] as number) - onLine(blue, g),
          );
      }
    })(),
  );
  return { red, blue, scatter: quantile(off, 0.75) };
}

/** Weighted least squares of a line. */
class Sums {
  #w = 0;
  #x = 0;
  #y = 0;
  #xx = 0;
  #xy = 0;
  add(x: number, y: number, w: number): void {
    this.#w += w;
    this.#x += w * x;
    this.#y += w * y;
    this.#xx += w * x * x;
    this.#xy += w * x * y;
  }
  line(): Line | null {
    const det = this.#w * this.#xx - this.#x * this.#x;
    if (!(det > 1e-12)) return null;
    const slope = (this.#w * this.#xy - this.#x * this.#y) / det;
    return { slope, offset: (this.#y - slope * this.#x) / this.#w };
  }
}

/** The line through patches known to be grey; two at least, else null. */
export function axisThrough(patches: readonly (readonly [number, number, number])[]): NeutralAxis | null {
  const [red, blue] = [new Sums(), new Sums()];
  for (const [r, g, b] of patches) {
    red.add(g, r, 1);
    blue.add(g, b, 1);
  }
  const lines = [red.line(), blue.line()];
  return lines[0] && lines[1] ? { red: lines[0], blue: lines[1], scatter: 0 } : null;
}
