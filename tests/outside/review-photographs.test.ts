import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { differenceCiede2000 } from 'culori';
import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { openImage, readSmall } from '../../src/app/review-images.js';
import { applyTables, lookOf, positiveTables } from '../../src/review/positive/look.js';
import { type Lab, linearToLab, srgbToLinear, type Triple } from '../../src/review/scan/colour.js';
import { findingsOf, readFrame } from '../../src/review/scan/reading.js';
import { median } from '../../src/review/scan/statistics.js';
import { Dice } from '../review/simulate/dice.js';
import { someFilm } from '../review/simulate/film.js';
import { type Picture, type Strip, stripOf } from '../review/simulate/strip.js';

const ciede2000 = differenceCiede2000();
/** Colour difference CIEDE2000, by culori. */
const deltaE2000 = (one: Lab, two: Lab): number =>
  ciede2000({ mode: 'lab65', ...one }, { mode: 'lab65', ...two });

/**
 * Photographs that others took, from Debian's package mate-backgrounds (its copyright file names their makers and
 * licences). No negative with a clear licence was found in the packages at hand, so these are put on a simulated film
 * with grain, dust, rebate and perforations: the film is ours, the pictures are not.
 */
const folder = '/usr/share/backgrounds/mate/nature';
const names = existsSync(folder) ? readdirSync(folder).filter((n) => n.endsWith('.jpg')) : [];
const why = names.length === 0 ? ' (skipped: no photographs here; apt install mate-backgrounds)' : '';

const [W, H] = [360, 240];

async function photograph(name: string): Promise<Picture> {
  const { data, info } = await sharp(join(folder, name))
    .removeAlpha()
    .resize(W, H, { fit: 'cover' })
    .raw()
    .toBuffer({ resolveWithObject: true });
  return {
    width: info.width,
    height: info.height,
    light: Float32Array.from(data, (v) => srgbToLinear(v / 255)),
  };
}

let made: Promise<Picture[]> | null = null;
const photographs = (): Promise<Picture[]> => {
  made ??= Promise.all(names.map(photograph));
  return made;
};
const strips = (pictures: readonly Picture[], rebate: boolean): Strip[] =>
  pictures.map((p, i) => {
    const dice = new Dice(4_000 + i);
    return stripOf(p, someFilm(new Dice(77)), dice, { rebate });
  });

/** Mean light of 20 by 20 pixels of picture and positive; grain and dust are not what is compared. */
function fields(light: (x: number, y: number, c: number) => number): Triple[] {
  const out: Triple[] = [];
  for (let y = 0; y + 20 <= H; y += 20)
    for (let x = 0; x + 20 <= W; x += 20)
      out.push(
        [0, 1, 2].map((c) => {
          let sum = 0;
          for (let k = 0; k < 400; k++) sum += light(x + (k % 20), y + Math.floor(k / 20), c);
          return sum / 400;
        }) as unknown as Triple,
      );
  return out;
}

/** Median ΔE2000 of fields, once both have the same mean light: how bright a print is made is taste. */
function apart(made: readonly Triple[], was: readonly Triple[]): number {
  const meanOf = (all: readonly Triple[]): number => all.reduce((s, t) => s + t[1], 0) / all.length;
  const gain = meanOf(was) / Math.max(1e-6, meanOf(made));
  const scaled = made.map((t) => t.map((v) => Math.min(1, v * gain)) as unknown as Triple);
  return median(scaled.map((t, i) => deltaE2000(linearToLab(t), linearToLab(was[i] as Triple))));
}

describe.skipIf(names.length === 0)(`photographs${why}`, () => {
  it('as they are, are not taken for negatives', { timeout: 120_000 }, async () => {
    const taken: string[] = [];
    for (const name of names) {
      const { scan } = await readSmall(await openImage(join(folder, name)));
      if (!findingsOf([readFrame(scan)]).positive) taken.push(name);
    }
    expect(taken).toEqual([]);
  });

  it('on a strip with grain, dust, edge print and perforations, show their base and are taken for negatives', {
    timeout: 240_000,
  }, async () => {
    const pictures = await photographs();
    const missed: string[] = [];
    for (const [i, strip] of strips(pictures, true).entries()) {
      const frame = readFrame(strip.scan);
      const off = Math.max(...strip.base.map((b, c) => Math.abs(b - frame.base.density[c as 0])));
      if (frame.positive || frame.base.by !== 'found' || off > 0.05 || frame.base.light === null)
        missed.push(
          `${names[i]}: positive ${frame.positive}, base ${frame.base.by}, ${off.toFixed(3)} off, light ${frame.base.light !== null}`,
        );
    }
    expect(missed).toEqual([]);
  });

  it('without any clear film in sight, the base is said to be guessed', { timeout: 240_000 }, async () => {
    const pictures = await photographs();
    const frames = strips(pictures, false).map(({ scan }) => readFrame(scan));
    const roll = findingsOf(frames);
    expect(roll.positive).toBe(false);
    expect(roll.warnings.join(' ')).toContain('No clear film base is in the scan');
    // a single frame without any shadow, a flower from edge to edge, shows no base that could tell it
    const doubted = names.filter((_, i) => frames[i]?.positive);
    expect(doubted.length, doubted.join()).toBeLessThanOrEqual(names.length / 2);
  });

  it('come back nearer to what they were than by equalising each colour by itself', {
    timeout: 240_000,
  }, async () => {
    const pictures = await photographs();
    const roll = strips(pictures, true);
    const frames = roll.map(({ scan }) => readFrame(scan));
    const findings = findingsOf(frames);
    const look = lookOf(findings, frames, { tone: 'scene' });
    if (!look) throw new Error('no look');
    const ours: number[] = [];
    const plain: number[] = [];
    for (const [i, { scan, picture }] of roll.entries()) {
      const out = new Uint16Array(scan.data.length);
      applyTables(scan.data, positiveTables(look, 65536, scan.transfer), out);
      const at = (x: number, y: number, c: number): number =>
        ((y + picture.y) * scan.width + x + picture.x) * 3 + c;
      const was = fields((x, y, c) => (pictures[i] as Picture).light[(y * W + x) * 3 + c] as number);
      ours.push(
        apart(
          fields((x, y, c) => srgbToLinear((out[at(x, y, c)] as number) / 65535)),
          was,
        ),
      );
      plain.push(apart(equalised(scan.data as Uint16Array, at), was));
    }
    console.log(
      `photographs back from a simulated strip, one look for ${names.length} frames, no patches: median ΔE2000 ${median(ours).toFixed(1)} (each: ${ours.map((v) => v.toFixed(1)).join(' ')}); each colour stretched by itself: ${median(plain).toFixed(1)} (${plain.map((v) => v.toFixed(1)).join(' ')})`,
    );
    expect(median(ours)).toBeLessThan(median(plain));
  });
});

/** The plain way: turn the codes over and stretch each colour by itself. */
function equalised(data: Uint16Array, at: (x: number, y: number, c: number) => number): Triple[] {
  const ends = [0, 1, 2].map((c) => {
    const values: number[] = [];
    for (let y = 0; y < H; y += 4) for (let x = 0; x < W; x += 4) values.push(data[at(x, y, c)] as number);
    values.sort((a, b) => a - b);
    return [
      values[Math.floor(values.length * 0.01)] as number,
      values[Math.floor(values.length * 0.99)] as number,
    ] as const;
  });
  return fields((x, y, c) => {
    const [low, high] = ends[c] as readonly [number, number];
    const code = 1 - ((data[at(x, y, c)] as number) - low) / Math.max(1, high - low);
    return srgbToLinear(Math.min(1, Math.max(0, code)));
  });
}
