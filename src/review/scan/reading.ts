import {
  type Base,
  type Edges,
  edgesOf,
  findBase,
  guessBase,
  meanIn,
  type Rebate,
  type Rect,
  rebateOf,
  tilesOf,
} from './base.js';
import { castName, type Lab, linearToLab, type Triple } from './colour.js';
import { densityTables, type Scan } from './density.js';
import { axisThrough, type NeutralAxis, neutralAxisOf, onLine } from './neutral-axis.js';
import { mean, median, quantile, sorted, spread } from './statistics.js';

/** A patch known to be grey; `logE`: the log of the light it sent, where known (a step tablet, a grey scale). */
export interface Patch {
  rect: Rect;
  logE?: number;
}

export interface ReadOptions {
  base?: Rect;
  light?: Rect;
  patches?: readonly Patch[];
}

/** One frame, read. Densities are as scanned; the base has not been taken off. */
export interface FrameReading {
  base: Base;
  /** densities of picture pixels, red, green and blue in turn; about `SAMPLES` of them at most */
  points: Float32Array;
  /** share of picture pixels at the bottom and at the top of the scan's range, of the two worst channels */
  clipped: { dark: number; bright: number };
  /** how much of the scan's range of codes the picture takes in the channel that takes least, 0 to 1 */
  span: number;
  patches: { density: Triple; logE: number | null }[];
  edges: Edges;
  /** clear film lies along a side, or bare light is seen: the base is more than a shadow of the picture */
  edged: boolean;
  /** mean green density of 8 by 6 fields of the picture; NaN where there is none */
  fields: number[];
  /** nothing shows that it is a negative */
  positive: boolean;
}

/** Even, and darker to all three colours than film gets: the red layer of a masked film stays below. source: common practice */
const OPAQUE = { rough: 0.02, density: 2.05 } as const;

/** Picture pixels kept of each frame. */
const SAMPLES = 6000;

/** Reads a small copy of a frame, some hundred pixels wide. */
export function readFrame(scan: Scan, options: ReadOptions = {}): FrameReading {
  const tables = densityTables(scan.codes, scan.transfer);
  const tiles = tilesOf(scan, tables);
  const found = findBase(tiles);
  const guessed = found ?? guessBase(tiles);
  const light = options.light ? meanIn(scan, tables, options.light).density : guessed.light;
  const base: Base = options.base
    ? { ...guessed, by: 'given', density: meanIn(scan, tables, options.base).density, light }
    : { ...guessed, light };
  const top = scan.codes - 1;
  const rebate = rebateOf(tiles, base);
  // the picture: not the rebate, not bare light, not the opaque holder beside the film
  const picture = tiles.tiles.filter(
    (t) =>
      !rebate.tiles.has(t) &&
      !(t.rough < OPAQUE.rough && t.density.every((d) => d > OPAQUE.density)) &&
      !(base.light && t.density[1] < (base.light[1] + base.density[1]) / 2),
  );
  const size = tiles.sizePx;
  const stride = Math.max(1, Math.floor(Math.sqrt((picture.length * size * size) / SAMPLES)));
  const points: number[] = [];
  const dark = [0, 0, 0];
  const bright = [0, 0, 0];
  const codes: [number[], number[], number[]] = [[], [], []];
  let looked = 0;
  const fieldSum = new Float64Array(48);
  const fieldCount = new Float64Array(48);
  const take = (at: number): void => {
    const taken = [0, 1, 2].map((c) => tables[c as 0][scan.data[at + c] as number] as number);
    for (const c of [0, 1, 2] as const) codes[c].push(scan.data[at + c] as number);
    // dust, hairs and the holder's edge are no picture
    if (!taken.every((d) => d > OPAQUE.density)) points.push(...taken);
  };
  // the base is the lightest of what a scan's levels are set by
  const clear = [...base.tiles].filter((t) =>
    t.density.every((d, c) => Math.abs(d - base.density[c as 0]) < 0.05),
  );
  for (const { col, row } of clear)
    for (let k = 0; k < size; k++)
      for (const c of [0, 1, 2] as const)
        codes[c].push(scan.data[((row * size + k) * scan.width + col * size + k) * 3 + c] as number);
  for (const tile of picture) {
    const field =
      Math.min(5, Math.floor((tile.row / tiles.rows) * 6)) * 8 +
      Math.min(7, Math.floor((tile.col / tiles.cols) * 8));
    fieldSum[field] = (fieldSum[field] as number) + tile.density[1];
    fieldCount[field] = (fieldCount[field] as number) + 1;
    for (let y = tile.row * size; y < (tile.row + 1) * size; y++)
      for (let x = tile.col * size; x < (tile.col + 1) * size; x++) {
        const at = (y * scan.width + x) * 3;
        looked++;
        for (let c = 0; c < 3; c++) {
          const code = scan.data[at + c] as number;
          if (code === 0) dark[c] = (dark[c] as number) + 1;
          if (code === top) bright[c] = (bright[c] as number) + 1;
        }
        if (x % stride === 0 && y % stride === 0) take(at);
      }
  }
  const second = (counts: number[]): number =>
    (counts.toSorted((a, b) => b - a)[1] ?? 0) / Math.max(1, looked);
  return {
    base,
    points: Float32Array.from(points),
    clipped: { dark: second(dark), bright: second(bright) },
    span: Math.min(...codes.map((values) => spanOf(sorted(values), top))),
    patches: (options.patches ?? []).map((p) => ({
      density: meanIn(scan, tables, p.rect).density,
      logE: p.logE ?? null,
    })),
    edges: edgesOf(rebate, base),
    edged: base.by === 'given' || base.light !== null || rebate.tiles.size > 0,
    fields: Array.from(fieldSum, (s, i) => (fieldCount[i] ? s / (fieldCount[i] as number) : Number.NaN)),
    positive: !looksNegative(base, rebate, points),
  };
}

/** Share of the codes between the lowest and the highest hundredth. */
const spanOf = (codes: Float64Array, top: number): number =>
  codes.length === 0 ? 0 : (quantile(codes, 0.99) - quantile(codes, 0.01)) / top;

/** Densities of a masked base against each other; wide, for scanners' filters differ. source: makers' characteristic curves, from memory */
const MASK = {
  greenOverRed: { low: 0.1, high: 0.8 },
  blueOverGreen: { low: -0.05, high: 0.75 },
  blueOverRed: 0.2,
};
/** Points lighter than the base by this much in some colour are not of a negative with that base. */
const LIGHTER = 0.15;
/** Dust that was lifted, scratches and the edges of holes. */
const FEW = 0.02;

/**
 * Physics tells a negative: nothing on it but holes is lighter than its base in any colour, and the base is orange.
 * Where software has balanced the orange away, the clear edge must be there to show what it is: a base that was given,
 * bare light beside it, or clear film along two sides that face each other. Anything else may be a positive.
 */
function looksNegative(base: Base, rebate: Rebate, points: readonly number[]): boolean {
  if (base.by === 'given') return true;
  const [red, green, blue] = base.density;
  const within = (v: number, { low, high }: { low: number; high: number }): boolean => v > low && v < high;
  const masked =
    within(green - red, MASK.greenOverRed) &&
    within(blue - green, MASK.blueOverGreen) &&
    blue - red > MASK.blueOverRed;
  const edged = base.by === 'found' && (base.light !== null || rebate.facing);
  if (!masked && !edged) return false;
  let lighter = 0;
  for (let i = 0; i + 2 < points.length; i += 3)
    if (base.density.some((d, c) => (points[i + c] as number) < d - LIGHTER)) lighter++;
  return lighter <= (points.length / 3) * FEW;
}

/** What a roll's scans show. Densities above the base unless said otherwise. */
export interface ScanFindings {
  frames: number;
  base: { by: Base['by']; scanned: Triple; aboveLight: Triple | null; clipped: boolean };
  /** densities of bare light as scanned, where some is seen; equal when the scan's white is the light's */
  light: Triple | null;
  layers: readonly [LayerReading, LayerReading, LayerReading];
  axis: NeutralAxis | null;
  /** cast of greys when only the base is taken off, printed at one gamma for all layers */
  cast: { shadows: Cast; middle: Cast; highlights: Cast } | null;
  /** cast of the highlights less that of the shadows */
  crossover: (Pick<Lab, 'a' | 'b'> & { size: number }) | null;
  /** how far colours stray from grey, over the range of the green layer */
  colourfulness: number | null;
  clipped: number;
  /** how much of the range of codes the channel takes that takes least, in the middle frame, 0 to 1 */
  span: number;
  /** how far the base's colour differs from frame to frame, as density; null with fewer than three that show it */
  baseWanders: number | null;
  shadowsEmpty: number;
  edges: Edges;
  /** density that wanders across all frames alike; null with fewer than six frames */
  uneven: number | null;
  warnings: string[];
  positive: boolean;
}

export interface LayerReading {
  channel: 'red' | 'green' | 'blue';
  /** density of the base over bare light; null where no bare light is seen */
  dMin: number | null;
  middle: number;
  /** from the thinnest hundredth to the densest */
  range: number;
  /** density per log exposure; only from patches of known light */
  gamma: number | null;
  /** against the green layer, on greys */
  slope: number | null;
}

export type Cast = Pick<Lab, 'a' | 'b'> & { name: string };

/** A gamma that colour negatives come near. source: makers' data sheets, 0.5 to 0.6 */
export const USUAL_GAMMA = 0.55;

/** Puts the frames of one roll together: one base, one neutral axis. At least one frame. */
export function findingsOf(frames: readonly FrameReading[]): ScanFindings {
  const based = frames.filter((f) => f.base.by !== 'guessed');
  const trusted = based.length > 0 ? based : frames;
  const base = triple((c) => median(trusted.map((f) => f.base.density[c])));
  const lit = trusted.filter((f) => f.base.light !== null);
  const light = lit.length > 0 ? triple((c) => median(lit.map((f) => f.base.light?.[c] ?? 0))) : null;
  const by = based.some((f) => f.base.by === 'given') ? 'given' : based.length > 0 ? 'found' : 'guessed';
  const points = above(frames, base);
  const patches = frames
    .flatMap((f) => f.patches)
    .map((p) => ({
      logE: p.logE,
      density: triple((c) => p.density[c] - base[c]),
    }));
  const axis =
    (patches.length >= 2 ? axisThrough(patches.map((p) => p.density)) : null) ??
    neutralAxisOf(points, frames.length);
  const channel = (c: number): Float64Array => {
    const n = points.length / 3;
    const values = new Float64Array(n);
    for (let i = 0; i < n; i++) values[i] = points[i * 3 + c] as number;
    return values.sort();
  };
  const sortedBy = [channel(0), channel(1), channel(2)] as const;
  const green = sortedBy[1];
  const range = quantile(green, 0.99) - quantile(green, 0.01);
  const gammas = gammasOf(patches);
  const layer = (c: 0 | 1 | 2): LayerReading => ({
    channel: (['red', 'green', 'blue'] as const)[c],
    dMin: light ? base[c] - light[c] : null,
    middle: quantile(sortedBy[c], 0.5),
    range: quantile(sortedBy[c], 0.99) - quantile(sortedBy[c], 0.01),
    gamma: gammas?.[c] ?? null,
    slope: axis === null ? null : c === 0 ? axis.red.slope : c === 2 ? axis.blue.slope : 1,
  });
  const at = (share: number): number => quantile(green, share);
  const cast = axis && {
    shadows: castAt(axis, at(0.1), 0.05),
    middle: castAt(axis, at(0.5), 0.18),
    highlights: castAt(axis, at(0.9), 0.5),
  };
  const crossover = cast && {
    a: cast.highlights.a - cast.shadows.a,
    b: cast.highlights.b - cast.shadows.b,
    size: Math.hypot(cast.highlights.a - cast.shadows.a, cast.highlights.b - cast.shadows.b),
  };
  const positive = frames.filter((f) => f.positive).length * 2 > frames.length;
  return {
    frames: frames.length,
    base: {
      by,
      scanned: base,
      aboveLight: light && triple((c) => base[c] - light[c]),
      clipped: trusted.some((f) => f.base.clipped),
    },
    light,
    layers: [layer(0), layer(1), layer(2)],
    axis,
    cast,
    crossover,
    colourfulness: axis && range > 0.05 ? axis.scatter / range : null,
    clipped: mean(frames.map((f) => Math.min(f.clipped.dark, f.clipped.bright) * 2)),
    span: median(frames.map((f) => f.span)),
    baseWanders: wanders(based.map((f) => f.base.density)),
    shadowsEmpty: shareBelow(green, 0.05),
    edges: {
      fogged: median(frames.map((f) => f.edges.fogged)),
      stained: median(frames.map((f) => f.edges.stained)),
    },
    uneven: unevenness(frames),
    warnings: warningsOf(by, axis, positive, trusted),
    positive,
  };
}

/** A roll has one base; what moves its colour from frame to frame is done to each scan by itself. A median of differences, so that one misread frame does not count. */
function wanders(bases: readonly Triple[]): number | null {
  if (bases.length < 3) return null;
  const colours = [0, 2].map((c) => bases.map((b) => b[c as 0] - b[1]));
  return Math.max(
    ...colours.map((values) => {
      const middle = median(values);
      return median(values.map((v) => Math.abs(v - middle)));
    }),
  );
}

const triple = (of: (c: 0 | 1 | 2) => number): Triple => [of(0), of(1), of(2)];

/** Picture pixels of a roll looked at together; more tell no more. */
const ROLL_SAMPLES = 15_000;

/** Points of all frames above one base, every so many of them. */
export function above(frames: readonly FrameReading[], base: Triple): Float32Array {
  const total = frames.reduce((s, f) => s + f.points.length / 3, 0);
  const stride = Math.max(1, Math.round(total / ROLL_SAMPLES));
  const out: number[] = [];
  for (const { points } of frames)
    for (let i = 0; i + 2 < points.length; i += 3 * stride)
      for (let c = 0; c < 3; c++) out.push((points[i + c] as number) - (base[c as 0] as number));
  return Float32Array.from(out);
}

function shareBelow(sortedValues: Float64Array, limit: number): number {
  const i = sortedValues.findIndex((v) => v > limit);
  return (i < 0 ? sortedValues.length : i) / Math.max(1, sortedValues.length);
}

/** A grey of this green density, printed with one gamma for all layers to the given luminance. */
function castAt(axis: NeutralAxis, green: number, luminance: number): Cast {
  const r = 10 ** ((onLine(axis.red, green) - green) / USUAL_GAMMA);
  const b = 10 ** ((onLine(axis.blue, green) - green) / USUAL_GAMMA);
  const y = 0.2126 * r + 0.7152 + 0.0722 * b;
  const { a, b: yellow } = linearToLab([(r / y) * luminance, luminance / y, (b / y) * luminance]);
  return { a, b: yellow, name: castName({ a, b: yellow }) };
}

function gammasOf(patches: readonly { density: Triple; logE: number | null }[]): Triple | null {
  const known = patches.filter((p) => p.logE !== null);
  if (known.length < 2) return null;
  const mx = mean(known.map((p) => p.logE ?? 0));
  const sxx = known.reduce((s, p) => s + ((p.logE ?? 0) - mx) ** 2, 0);
  if (sxx === 0) return null;
  return triple((c) => {
    const my = mean(known.map((p) => p.density[c]));
    return known.reduce((s, p) => s + ((p.logE ?? 0) - mx) * (p.density[c] - my), 0) / sxx;
  });
}

/** Frames differ; what they have in common after that is the bath's, not the scenes'. */
function unevenness(frames: readonly FrameReading[]): number | null {
  if (frames.length < 6) return null;
  const flat = frames.map(({ fields }) => {
    const known = fields.filter((v) => !Number.isNaN(v));
    const middle = mean(known);
    return fields.map((v) => (Number.isNaN(v) ? 0 : v - middle));
  });
  const common: number[] = [];
  let chance = 0;
  for (let i = 0; i < 48; i++) {
    const values = flat.map((f) => f[i] as number);
    common.push(mean(values));
    chance += spread(values) ** 2 / (frames.length - 1) / 48;
  }
  return Math.sqrt(Math.max(0, mean(common.map((v) => v * v)) - chance));
}

function warningsOf(
  by: Base['by'],
  axis: NeutralAxis | null,
  positive: boolean,
  frames: readonly FrameReading[],
): string[] {
  return [
    ...(positive
      ? [
          'Nothing shows that this is a negative: it has neither the orange of a film’s base nor a clear edge that is its lightest part. It may be a positive already, or the scanning software has balanced the orange away. Scan the negative again as it is, with every correction off, or point to its clear edge: --base x,y,width,height.',
        ]
      : []),
    ...((by === 'guessed' || frames.filter((f) => f.edged).length * 2 <= frames.length) && !positive
      ? [
          'No clear film base is in the scan, so the lightest part of the picture stands for it. Scan with a little of the clear edge, or point to it: --base x,y,width,height.',
        ]
      : []),
    ...(frames.some((f) => f.base.clipped)
      ? [
          'The base is at the top of the scan’s range, so its true density is lost. Give the scan less exposure.',
        ]
      : []),
    ...(axis === null
      ? [
          'There is too little in the picture to judge colour from: it is all of one density, or almost nothing.',
        ]
      : []),
  ];
}
