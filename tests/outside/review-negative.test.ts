import { differenceCiede2000 } from 'culori';
import { describe, expect, it } from 'vitest';
import { applyTables, lookOf, positiveTables } from '../../src/review/positive/look.js';
import { type Lab, linearToLab, srgbToLinear, type Triple } from '../../src/review/scan/colour.js';
import type { Scan } from '../../src/review/scan/density.js';
import { srgbTransfer } from '../../src/review/scan/icc.js';
import { findingsOf, type Patch, readFrame } from '../../src/review/scan/reading.js';

const ciede2000 = differenceCiede2000();
/** Colour difference CIEDE2000, by culori. */
const deltaE2000 = (one: Lab, two: Lab): number =>
  ciede2000({ mode: 'lab65', ...one }, { mode: 'lab65', ...two });

/** The 24 patches of a colour checker, sRGB. source: X-Rite, published sRGB values of the ColorChecker Classic, from memory */
const checker: readonly Triple[] = [
  [115, 82, 68],
  [194, 150, 130],
  [98, 122, 157],
  [87, 108, 67],
  [133, 128, 177],
  [103, 189, 170],
  [214, 126, 44],
  [80, 91, 166],
  [193, 90, 99],
  [94, 60, 108],
  [157, 188, 64],
  [224, 163, 46],
  [56, 61, 150],
  [70, 148, 73],
  [175, 54, 60],
  [231, 199, 31],
  [187, 86, 149],
  [8, 133, 161],
  [243, 243, 242],
  [200, 200, 200],
  [160, 160, 160],
  [122, 122, 121],
  [85, 85, 85],
  [52, 52, 52],
];

interface Negative {
  base: Triple;
  gamma: Triple;
  /** log exposure that the light adds to each layer */
  cast: Triple;
}

const W = 480;
const H = 340;
const EDGE = 30;
const cell = { w: 80, h: 70 };

/** Light of the scene at a pixel: the checker, six by four; null outside, where the base is clear. */
function sceneAt(x: number, y: number): Triple | null {
  const row = Math.floor((y - EDGE) / cell.h);
  const col = Math.floor(x / cell.w);
  if (y < EDGE || row > 3) return null;
  const codes = checker[row * 6 + col];
  return codes ? (codes.map((v) => srgbToLinear(v / 255)) as unknown as Triple) : null;
}

/** The scene on a film of known base, gammas and cast, scanned to 16-bit sRGB. */
function negativeOf({ base, gamma, cast }: Negative): Scan {
  const data = new Uint16Array(W * H * 3);
  for (let y = 0; y < H; y++)
    for (let x = 0; x < W; x++) {
      const light = sceneAt(x, y);
      for (let c = 0; c < 3; c++) {
        const k = c as 0 | 1 | 2;
        // the film holds everything down to a density of 0.05 below the darkest patch
        const d = base[k] + (light ? gamma[k] * (Math.log10(light[k]) + cast[k] + 2.6) : 0);
        const v = 10 ** -d;
        data[(y * W + x) * 3 + c] = Math.round(
          65535 * (v <= 0.0031308 ? 12.92 * v : 1.055 * v ** (1 / 2.4) - 0.055),
        );
      }
    }
  return { width: W, height: H, data, codes: 65536, transfer: srgbTransfer };
}

const greys: readonly Patch[] = [0, 1, 2, 3, 4, 5].map((col) => ({
  rect: { x: col * cell.w + 20, y: EDGE + 3 * cell.h + 20, width: 40, height: 30 },
  logE: Math.log10(srgbToLinear((checker[18 + col] as Triple)[1] / 255)),
}));

function differences(scan: Scan, patches: readonly Patch[] | undefined, exposure = 0): number[] {
  const reading = readFrame(scan, patches ? { patches } : {});
  const look = lookOf(findingsOf([reading]), [reading], { tone: 'scene' });
  if (!look) throw new Error('no look');
  const out = new Uint16Array(scan.data.length);
  applyTables(
    scan.data,
    positiveTables(
      { ...look, offset: look.offset.map((o) => o + exposure) as unknown as Triple },
      65536,
      scan.transfer,
    ),
    out,
  );
  return checker.map((codes, i) => {
    const at = ((EDGE + Math.floor(i / 6) * cell.h + 35) * W + (i % 6) * cell.w + 40) * 3;
    const made = [0, 1, 2].map((c) => srgbToLinear((out[at + c] as number) / 65535)) as unknown as Triple;
    const was = codes.map((v) => srgbToLinear(v / 255)) as unknown as Triple;
    return deltaE2000(linearToLab(made), linearToLab(was));
  });
}
const median = (v: number[]): number => v.toSorted((a, b) => a - b)[Math.floor(v.length / 2)] as number;

const films: readonly (readonly [string, Negative])[] = [
  ['a plain one', { base: [0.18, 0.55, 0.85], gamma: [0.55, 0.55, 0.55], cast: [0, 0, 0] }],
  ['layers of different gammas', { base: [0.2, 0.6, 0.92], gamma: [0.48, 0.55, 0.63], cast: [0, 0, 0] }],
  [
    'tungsten film in daylight',
    { base: [0.18, 0.55, 0.85], gamma: [0.52, 0.55, 0.6], cast: [-0.25, 0, 0.4] },
  ],
  ['a fogged base', { base: [0.4, 0.85, 1.3], gamma: [0.42, 0.45, 0.4], cast: [0.1, 0, -0.1] }],
];

describe('a synthetic negative of a colour checker', () => {
  it.each(films)('comes back within 2 ΔE2000 in the median, by its grey patches: %s', (_name, film) => {
    const all = differences(negativeOf(film), greys);
    expect(median(all)).toBeLessThanOrEqual(2);
    expect(Math.max(...all)).toBeLessThanOrEqual(4);
  });

  it.each(films)('gives back base, gammas and slopes: %s', (_name, film) => {
    const f = findingsOf([readFrame(negativeOf(film), { patches: greys })]);
    expect(f.base.by).toBe('found');
    for (const c of [0, 1, 2] as const) {
      expect(f.base.scanned[c]).toBeCloseTo(film.base[c], 2);
      expect(f.layers[c].gamma ?? 0).toBeCloseTo(film.gamma[c], 1.5);
      expect(f.layers[c].slope ?? 0).toBeCloseTo(film.gamma[c] / film.gamma[1], 1.5);
    }
  });
});

describe('crossover of known size', () => {
  const crossed = (red: number, blue: number) =>
    findingsOf([
      readFrame(
        negativeOf({ base: [0.18, 0.55, 0.85], gamma: [0.55 * red, 0.55, 0.55 * blue], cast: [0, 0, 0] }),
        { patches: greys },
      ),
    ]);

  it('is none where the layers have one gamma', () => {
    expect(crossed(1, 1).crossover?.size ?? 99).toBeLessThan(0.5);
  });

  it.each([
    [0.85, 1],
    [1.15, 1],
    [1, 0.85],
    [1, 1.2],
  ])('is found with its sign and size: red gamma × %f, blue × %f', (red, blue) => {
    const f = crossed(red, blue);
    // a flat red layer leaves highlights without red: a* goes down from shadows to highlights; blue likewise, b* up
    const a = f.crossover?.a ?? 0;
    const b = f.crossover?.b ?? 0;
    if (red !== 1) expect(Math.sign(a)).toBe(Math.sign(red - 1));
    if (blue !== 1) expect(Math.sign(b)).toBe(-Math.sign(blue - 1));
    expect(f.layers[0].slope ?? 0).toBeCloseTo(red, 2);
    expect(f.layers[2].slope ?? 0).toBeCloseTo(blue, 2);
    // by hand, from the scene and the true gammas: greys of the thinnest and densest tenth, printed at one gamma
    const greens: number[] = [];
    for (let y = EDGE; y < H; y += 2)
      for (let x = 0; x < W; x += 2) {
        const light = sceneAt(x, y);
        if (light) greens.push(0.55 * (Math.log10(light[1]) + 2.6));
      }
    greens.sort((m, n) => m - n);
    const printed = (share: number, luminance: number) => {
      const g = greens[Math.floor(share * greens.length)] as number;
      const layers = [10 ** (((red - 1) * g) / 0.55), 1, 10 ** (((blue - 1) * g) / 0.55)] as const;
      const sum = 0.2126 * layers[0] + 0.7152 * layers[1] + 0.0722 * layers[2];
      return linearToLab(layers.map((v) => (v / sum) * luminance) as unknown as Triple);
    };
    const [shadow, highlight] = [printed(0.1, 0.05), printed(0.9, 0.5)];
    const wanted = Math.hypot(highlight.a - shadow.a, highlight.b - shadow.b);
    expect(Math.abs((f.crossover?.size ?? 0) / wanted - 1)).toBeLessThan(0.15);
  });
});
