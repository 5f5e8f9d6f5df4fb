import { linearToSrgb } from '../../../src/review/scan/colour.js';
import type { Scan } from '../../../src/review/scan/density.js';
import { srgbTransfer } from '../../../src/review/scan/icc.js';
import type { Dice } from './dice.js';
import { type Film, layerDensity, plainTreatment, type Treatment } from './film.js';

/** Light of a picture, red, green and blue in turn, 0 to 1. */
export interface Picture {
  width: number;
  height: number;
  light: Float32Array;
}

export interface StripOptions {
  /** perforations, edge print and clear film above and below the picture; false: the picture alone fills the scan */
  rebate: boolean;
  /** log gains of the scan's light for each channel */
  tint?: readonly [number, number, number];
  treatment?: Treatment;
  /** log light on the film against a normal exposure */
  exposure?: number;
}

/** Where the picture lies in the scan, pixels. */
export interface Strip {
  scan: Scan;
  picture: { x: number; y: number };
  /** true densities of the base, with the scan's light taken into account */
  base: [number, number, number];
}

/**
 * A length of film as a copy stand sees it, with all that makes a real one hard to read: perforations with bare light,
 * edge print, clear film between frames, the next frame's edge, the holder's black border, light that falls off to the
 * corners, grain that grows with density, dust, hairs and scratches. 16-bit sRGB codes.
 */
export function stripOf(picture: Picture, film: Film, dice: Dice, options: StripOptions): Strip {
  const rim = options.rebate
    ? { x: Math.round(picture.width * 0.07), y: Math.round(picture.height * 0.2) }
    : { x: 0, y: 0 };
  const width = picture.width + 2 * rim.x;
  const height = picture.height + 2 * rim.y;
  const density = densities(picture, film, dice, options, rim, width, height);
  grain(density, film, dice, width);
  for (let k = 0; k < 40; k++) speck(density, dice, width, height);
  for (let k = 0; k < 4; k++) hair(density, dice, width, height);
  for (let k = 0; k < 2; k++) scratch(density, dice, width, height);
  if (options.rebate) perforate(density, width, height, rim.y, Math.round(picture.width / 8));
  const [lightD] = [0.06];
  const tint = options.tint ?? [0, 0, 0];
  const data = new Uint16Array(width * height * 3);
  const holder = options.rebate ? 6 : 0;
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const r2 = ((2 * x) / width - 1) ** 2 + ((2 * y) / height - 1) ** 2;
      const opaque = y < holder || y >= height - holder;
      for (let c = 0; c < 3; c++) {
        const i = (y * width + x) * 3 + c;
        const d = (density[i] as number) + lightD + 0.03 * r2 - (tint[c as 0] as number);
        // a little of the light strays into the shadows of the scan
        const light = opaque ? 0.002 : 0.998 * 10 ** -d + 0.001;
        const seen = Math.min(1, Math.max(0, light * (1 + dice.normal(0.004))));
        data[i] = Math.round(65535 * linearToSrgb(seen));
      }
    }
  const base = [0, 1, 2].map(
    (c) => (film.base[c] as number) + (film.fog[c] as number) + lightD - (tint[c as 0] as number),
  ) as [number, number, number];
  return {
    scan: { width, height, data, codes: 65536, transfer: srgbTransfer },
    picture: rim,
    base,
  };
}

function densities(
  picture: Picture,
  film: Film,
  dice: Dice,
  options: StripOptions,
  rim: { x: number; y: number },
  width: number,
  height: number,
): Float32Array {
  const treatment = options.treatment ?? plainTreatment();
  const curves = [0, 1, 2].map((c) =>
    Float32Array.from({ length: 700 }, (_, i) => layerDensity(film, treatment, c, -5 + i / 100)),
  );
  const at = (c: number, logE: number): number =>
    (film.base[c] as number) +
    ((curves[c] as Float32Array)[Math.min(699, Math.max(0, Math.round((logE + 5) * 100)))] as number);
  const prints = Array.from({ length: 14 }, () => ({
    x: dice.between(0, width),
    y: dice.chance(0.5) ? rim.y * 0.86 : height - rim.y * 0.92,
    wide: dice.between(4, 16),
  }));
  const gap = rim.x * 0.6;
  const out = new Float32Array(width * height * 3);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const inside =
        y >= rim.y &&
        y < height - rim.y &&
        (x < rim.x - gap || x >= rim.x) &&
        (x < width - rim.x || x >= width - rim.x + gap);
      const print =
        !inside &&
        prints.some((p) => Math.abs(x - p.x) < p.wide && Math.abs(y - p.y) < 4 && (x >> 1) % 3 > 0);
      // the next frames show the picture's own edges once more
      const px = Math.min(picture.width - 1, Math.max(0, x - rim.x));
      const py = Math.min(picture.height - 1, Math.max(0, y - rim.y));
      for (let c = 0; c < 3; c++) {
        const light = picture.light[(py * picture.width + px) * 3 + c] as number;
        const logE = inside
          ? Math.log10(Math.max(1e-4, 0.985 * light + 0.003)) + (options.exposure ?? 0)
          : print
            ? -0.6
            : -9;
        out[(y * width + x) * 3 + c] = at(c, logE);
      }
    }
  return out;
}

/** Clumps of about two pixels, coarser where there is more dye. */
function grain(density: Float32Array, film: Film, dice: Dice, width: number): void {
  const noise = Float32Array.from({ length: density.length }, () => dice.normal(1));
  for (let i = density.length - 1; i >= 0; i--) {
    const c = i % 3;
    const image = Math.max(0, (density[i] as number) - (film.base[c] as number) - (film.fog[c] as number));
    const clump =
      ((noise[i] as number) +
        (noise[i - 3] ?? 0) +
        (noise[i - 3 * width] ?? 0) +
        (noise[i - 3 * width - 3] ?? 0)) /
      2;
    density[i] = (density[i] as number) + clump * (0.008 + 0.028 * Math.sqrt(image)) * (c === 2 ? 1.4 : 1);
  }
}

function add(density: Float32Array, width: number, height: number, x: number, y: number, d: number): void {
  const [px, py] = [Math.round(x), Math.round(y)];
  if (px < 0 || py < 0 || px >= width || py >= height) return;
  for (let c = 0; c < 3; c++) {
    const i = (py * width + px) * 3 + c;
    density[i] = (density[i] as number) + d;
  }
}

function speck(density: Float32Array, dice: Dice, width: number, height: number): void {
  const [x, y, r, d] = [
    dice.between(0, width),
    dice.between(0, height),
    dice.between(0.7, 3.5),
    dice.between(0.4, 1.5),
  ];
  for (let dy = -4; dy <= 4; dy++)
    for (let dx = -4; dx <= 4; dx++)
      if (dx * dx + dy * dy <= r * r) add(density, width, height, x + dx, y + dy, d);
}

function hair(density: Float32Array, dice: Dice, width: number, height: number): void {
  let [x, y, turn] = [dice.between(0, width), dice.between(0, height), dice.between(0, 6.28)];
  for (let k = 0; k < 160; k++) {
    add(density, width, height, x, y, 0.9);
    turn += dice.normal(0.06);
    x += Math.cos(turn);
    y += Math.sin(turn);
  }
}

/** Along the film, on its base: it scatters light and prints thin. */
function scratch(density: Float32Array, dice: Dice, width: number, height: number): void {
  const y = dice.between(0.1, 0.9) * height;
  for (let x = 0; x < width; x++) add(density, width, height, x, y + Math.sin(x / 90), 0.18);
}

function perforate(density: Float32Array, width: number, height: number, rimY: number, pitch: number): void {
  const [wide, tall] = [pitch * 0.42, rimY * 0.44];
  for (const middle of [rimY * 0.45, height - rimY * 0.45])
    for (let cx = pitch / 2; cx < width; cx += pitch)
      for (let y = Math.ceil(middle - tall / 2); y < middle + tall / 2; y++)
        for (let x = Math.max(0, Math.ceil(cx - wide / 2)); x < Math.min(width, cx + wide / 2); x++) {
          // rounded corners
          const [ox, oy] = [Math.abs(x - cx) - wide / 2 + 4, Math.abs(y - middle) - tall / 2 + 4];
          if (ox > 0 && oy > 0 && ox * ox + oy * oy > 16) continue;
          for (let c = 0; c < 3; c++) density[(y * width + x) * 3 + c] = 0;
        }
}
