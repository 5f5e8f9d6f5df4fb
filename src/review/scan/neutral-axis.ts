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
 * Before anything is seen: layers of one film have nearly one gamma, and with the base off greys begin together. How
 * far they come apart, as standard deviations, and what the prior weighs against the pixels of one step of density:
 * much where the colours of a picture scatter, little where its greys lie close together,
 * and the less the more frames there are. source: chosen on photographs put on simulated film (tests/outside)
 */
const PRIOR = { slope: 0.09, offset: 0.1, weighs: 0.25, against: 0.01 } as const;

/**
 * The greys of pictures without being told where they are: a line through the densities, fitted again and again to
 * the pixels nearest to it, each step of density with equal voice, and held to what films can do. `points`: red,
 * green, blue in turn, above base, of so many frames.
 */
export function neutralAxisOf(points: Float32Array, frames = 1): NeutralAxis | null {
  const n = Math.floor(points.length / 3);
  if (n < 24) return null;
  const channel = (c: number): Float64Array => {
    const values = new Float64Array(n);
    for (let i = 0; i < n; i++) values[i] = points[i * 3 + c] as number;
    return values.sort();
  };
  const sortedBy = [channel(0), channel(1), channel(2)] as const;
  const green = sortedBy[1];
  const low = quantile(green, 0.02);
  const high = quantile(green, 0.98);
  if (!(high - low > 0.05)) return null;
  const byQuantiles = (c: 0 | 2): Line => {
    const values = sortedBy[c];
    const slope =
      (quantile(values, 0.9) - quantile(values, 0.1)) / (quantile(green, 0.9) - quantile(green, 0.1));
    const kept = Math.min(1.25, Math.max(0.75, slope));
    return { slope: kept, offset: quantile(values, 0.5) - kept * quantile(green, 0.5) };
  };
  const as: Line = { slope: 1, offset: 0 };
  const cloud: Cloud = { points, low, high, counts: stepCounts(points, low, high), frames };
  const tries = [fitted(cloud, as, as), fitted(cloud, byQuantiles(0), byQuantiles(2))];
  const best = (tries[0]?.worth ?? 0) >= (tries[1]?.worth ?? 0) ? tries[0] : tries[1];
  if (!best) return null;
  const { red, blue } = best;
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

interface Cloud {
  points: Float32Array;
  low: number;
  high: number;
  /** pixels of each step of green density */
  counts: Float64Array;
  frames: number;
}

const stepOf = (g: number, { low, high }: Pick<Cloud, 'low' | 'high'>): number =>
  Math.min(STEPS - 1, Math.max(0, Math.floor(((g - low) / (high - low)) * STEPS)));

function stepCounts(points: Float32Array, low: number, high: number): Float64Array {
  const counts = new Float64Array(STEPS);
  for (let i = 1; i < points.length; i += 3) {
    const g = points[i] as number;
    if (g < low || g > high) continue;
    const s = stepOf(g, { low, high });
    counts[s] = (counts[s] as number) + 1;
  }
  return counts;
}

/** The lines that a start leads to. `worth`: share of steps that lie near them, less what the prior holds against them. */
function fitted(cloud: Cloud, red0: Line, blue0: Line): { red: Line; blue: Line; worth: number } {
  const { points, low, high, counts } = cloud;
  const n = Math.floor(points.length / 3);
  const least = Math.max(2, n / STEPS / 40);
  let [red, blue] = [red0, blue0];
  let width = 4 * NEUTRAL;
  let worth = 0;
  for (let round = 0; round < ROUNDS; round++) {
    const held = (PRIOR.weighs * width * width) / Math.sqrt(cloud.frames);
    const sums = [new Sums(), new Sums()] as const;
    worth = 0;
    for (let i = 0; i < n; i++) {
      const g = points[i * 3 + 1] as number;
      if (g < low || g > high) continue;
      const count = counts[stepOf(g, cloud)] as number;
      const r = points[i * 3] as number;
      const b = points[i * 3 + 2] as number;
      const off2 = (r - onLine(red, g)) ** 2 + (b - onLine(blue, g)) ** 2;
      const near = 1 / (1 + off2 / (width * width));
      const w = (near * near) / Math.max(least, count);
      worth += w;
      sums[0].add(g, r, w);
      sums[1].add(g, b, w);
    }
    red = sums[0].line(held) ?? red;
    blue = sums[1].line(held) ?? blue;
    width = Math.max(NEUTRAL, width * 0.8);
  }
  return { red, blue, worth: worth / STEPS - against(red) - against(blue) };
}

const against = ({ slope, offset }: Line): number =>
  PRIOR.against * (((slope - 1) / PRIOR.slope) ** 2 + (offset / PRIOR.offset) ** 2);

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
  /** `held`: the weight of the prior; none where greys are known. */
  line(held = 0): Line | null {
    const [forSlope, forOffset] = [held / PRIOR.slope ** 2, held / PRIOR.offset ** 2];
    const w = this.#w + forOffset;
    const xx = this.#xx + forSlope;
    const xy = this.#xy + forSlope;
    const det = w * xx - this.#x * this.#x;
    if (!(det > 1e-12)) return null;
    const slope = (w * xy - this.#x * this.#y) / det;
    return { slope, offset: (this.#y - slope * this.#x) / w };
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
