import type { Triple } from '../scan/colour.js';
import { linearToSrgb } from '../scan/colour.js';
import { densityTables, type Transfer } from '../scan/density.js';
import { above, type FrameReading, type ScanFindings, USUAL_GAMMA } from '../scan/reading.js';
import { quantile } from '../scan/statistics.js';

/**
 * How a roll is turned into positives, the same for every frame. Log exposure of a channel is
 * `slope × density above base + offset`; then a tone curve. Plain data, so that it can be kept and changed.
 */
export interface Look {
  /** densities of the base as scanned */
  base: Triple;
  /** log exposure per density; its reciprocal is the layer's gamma */
  slope: Triple;
  offset: Triple;
  /** `print`: the curve of a print; `scene`: light as it was, cut off at black and white */
  tone: 'print' | 'scene';
}

export interface LookOptions {
  tone: 'print' | 'scene';
}

/** A grey of 18 percent lies this far below white in log exposure. source: log10 0.18 */
const GREY = Math.log10(0.18);
/** Share of picture pixels that may be lighter than white. source: common practice */
const WHITE_SHARE = 0.995;

/**
 * The look of a roll: base off, greys neutral from shadows to highlights, white where the lightest pictures are.
 * With patches of known light the gammas and the exposure are measured; else a usual gamma stands in.
 */
export function lookOf(
  findings: ScanFindings,
  frames: readonly FrameReading[],
  { tone }: LookOptions,
): Look | null {
  const { axis, base, layers } = findings;
  if (!axis) return null;
  const greenGamma = layers[1].gamma ?? USUAL_GAMMA;
  const lines = [axis.red, { offset: 0, slope: 1 }, axis.blue] as const;
  const perDensity = lines.map((l) => 1 / (l.slope * greenGamma)) as unknown as Triple;
  const white = whiteOf(frames, base.scanned, findings);
  const offset = lines.map((l) => -l.offset / (l.slope * greenGamma) - white) as unknown as Triple;
  return { base: base.scanned, slope: perDensity, offset, tone };
}

/** Log exposure, on the green layer's scale, that comes out white. */
function whiteOf(frames: readonly FrameReading[], base: Triple, { axis, layers }: ScanFindings): number {
  const gamma = layers[1].gamma ?? USUAL_GAMMA;
  const known = frames.flatMap((f) => f.patches).filter((p) => p.logE !== null);
  if (known.length >= 2 && layers[1].gamma !== null) {
    // light is known: white is at log exposure 0
    const zeros = known.map((p) => (p.density[1] - base[1]) / gamma - (p.logE ?? 0));
    return zeros.reduce((s, z) => s + z, 0) / zeros.length;
  }
  const points = above(frames, base);
  const n = points.length / 3;
  const lightness = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    const r = axis ? ((points[i * 3] as number) - axis.red.offset) / axis.red.slope : 0;
    const g = points[i * 3 + 1] as number;
    lightness[i] = (0.3 * r + 0.7 * g) / gamma;
  }
  lightness.sort();
  return quantile(lightness, WHITE_SHARE);
}

/**
 * A print's own curve: density of the print against log exposure, a logistic between white and deepest black, with
 * a slope that makes negative and print together a third steeper than the scene. Greys of 18 percent keep their place.
 * source: shape of print film and paper curves; overall contrast for a dim surround, common practice
 */
const PRINT = { deepest: 2.5, steep: 2.15 } as const;

const printDensity = (logE: number, at: number): number =>
  PRINT.deepest / (1 + Math.exp(PRINT.steep * (logE - at)));

/** Where the logistic gives 0.745, the density of an 18 percent grey. */
const greyAt = GREY - Math.log(PRINT.deepest / 0.745 - 1) / PRINT.steep;
const whiteDensity = printDensity(0, greyAt);

/** Light out, 0 to 1, for a log exposure with white at 0. */
export function toned(logE: number, tone: Look['tone']): number {
  if (tone === 'scene') return Math.min(1, 10 ** logE);
  // scaled so that white is paper white, and grey stays grey
  const share = (0.745 - 0) / (0.745 - whiteDensity);
  const d = (printDensity(logE, greyAt) - whiteDensity) * share;
  return Math.min(1, Math.max(0, 10 ** -d));
}

/** 16-bit sRGB of every code value, one table a channel. */
export function positiveTables(
  look: Look,
  codes: 256 | 65536,
  transfer: Transfer,
): [Uint16Array, Uint16Array, Uint16Array] {
  const densities = densityTables(codes, transfer);
  const table = (c: 0 | 1 | 2): Uint16Array =>
    Uint16Array.from(densities[c], (d) => {
      const logE = look.slope[c] * (d - look.base[c]) + look.offset[c];
      return Math.round(65535 * linearToSrgb(toned(logE, look.tone)));
    });
  return [table(0), table(1), table(2)];
}

/** Turns pixels of a negative into those of the positive, red, green and blue in turn. `out` may be `data` itself. */
export function applyTables(
  data: Uint8Array | Uint16Array,
  [red, green, blue]: readonly [Uint16Array, Uint16Array, Uint16Array],
  out: Uint16Array,
): void {
  const n = data.length - (data.length % 3);
  for (let i = 0; i < n; i += 3) {
    out[i] = red[data[i] as number] as number;
    out[i + 1] = green[data[i + 1] as number] as number;
    out[i + 2] = blue[data[i + 2] as number] as number;
  }
}
