import { converter } from 'culori';
import fc from 'fast-check';
import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import {
  linearToLab,
  linearToSrgb,
  linearToXyz,
  srgbToLinear,
  type Triple,
  xyzToLab,
} from '../../src/review/scan/colour.js';
import { densityOf } from '../../src/review/scan/density.js';
import { transferOfIcc } from '../../src/review/scan/icc.js';

const channel = fc.double({ min: 0, max: 1, noNaN: true });

describe('colour against culori, a general colour library', () => {
  const toLrgb = converter('lrgb');
  const toXyz = converter('xyz65');
  const toLab = converter('lab65');

  it('gives the same light, XYZ and CIELAB for any sRGB colour', () => {
    fc.assert(
      fc.property(channel, channel, channel, (r, g, b) => {
        const codes = { mode: 'rgb', r, g, b } as const;
        const light: Triple = [srgbToLinear(r), srgbToLinear(g), srgbToLinear(b)];
        const lrgb = toLrgb(codes);
        expect(light[0]).toBeCloseTo(lrgb.r, 6);
        expect(light[2]).toBeCloseTo(lrgb.b, 6);
        const xyz = toXyz(codes);
        const ours = linearToXyz(light);
        expect(ours[0]).toBeCloseTo(xyz.x, 4);
        expect(ours[1]).toBeCloseTo(xyz.y, 4);
        expect(ours[2]).toBeCloseTo(xyz.z, 4);
        const lab = toLab(codes);
        const mine = linearToLab(light);
        expect(Math.hypot(mine.l - lab.l, mine.a - lab.a, mine.b - lab.b)).toBeLessThan(0.05);
      }),
    );
  });

  it('codes light back to where it came from', () => {
    fc.assert(
      fc.property(channel, (v) => {
        expect(linearToSrgb(srgbToLinear(v))).toBeCloseTo(v, 6);
      }),
    );
  });
});

describe('CIELAB and density by their definitions', () => {
  it('puts a grey of 18.42 percent at L* 50, and white at 100 (ISO/CIE 11664-4)', () => {
    expect(linearToLab([0.18418651851, 0.18418651851, 0.18418651851]).l).toBeCloseTo(50, 4);
    const white = linearToLab([1, 1, 1]);
    expect(white.l).toBeCloseTo(100, 6);
    expect(Math.hypot(white.a, white.b)).toBeLessThan(1e-6);
  });
  it('is straight below the cube root: L* is 903.3 Y near black', () => {
    expect(xyzToLab([0.0009505, 0.001, 0.001089]).l).toBeCloseTo(0.9033, 3);
  });
  it('takes density as the negative decadic logarithm of transmittance (ISO 5-1)', () => {
    for (const [t, d] of [
      [1, 0],
      [0.5, 0.30103],
      [0.1, 1],
      [0.01, 2],
      [0.001, 3],
    ] as const) {
      expect(densityOf(t)).toBeCloseTo(d, 5);
    }
  });
  it('adds up: two films one on the other have the sum of their densities', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.001, max: 1, noNaN: true }),
        fc.double({ min: 0.001, max: 1, noNaN: true }),
        (a, b) => {
          expect(densityOf(a * b)).toBeCloseTo(densityOf(a) + densityOf(b), 9);
        },
      ),
    );
  });
});

describe('tone curves of ICC profiles', () => {
  const embedded = async (name: 'srgb' | 'p3'): Promise<Uint8Array> => {
    const png = await sharp({ create: { width: 2, height: 2, channels: 3, background: '#888' } })
      .withIccProfile(name)
      .png()
      .toBuffer();
    const { icc } = await sharp(png).metadata();
    if (!icc) throw new Error('no profile');
    return icc;
  };
  // the profiles that libvips ships; Display P3 has the curve of IEC 61966-2-1 too
  it.each(['srgb', 'p3'] as const)('%s reads as IEC 61966-2-1', async (name) => {
    const transfer = transferOfIcc(await embedded(name));
    for (let v = 0; v <= 1.001; v += 0.05)
      for (const curve of transfer ?? []) expect(Math.abs(curve(v) - srgbToLinear(v))).toBeLessThan(0.002);
    expect(transfer).not.toBeNull();
  });

  /** The least profile with one curve for all channels. source: ICC.1:2022, 7.2 header, 7.3 tag table, 10.6 curveType */
  const profile = (curve: Buffer): Uint8Array => {
    const tags = ['rTRC', 'gTRC', 'bTRC'];
    const head = Buffer.alloc(128 + 4 + 12 * tags.length);
    head.writeUInt32BE(tags.length, 128);
    tags.forEach((tag, i) => {
      head.write(tag, 132 + 12 * i, 'latin1');
      head.writeUInt32BE(head.length, 136 + 12 * i);
      head.writeUInt32BE(curve.length, 140 + 12 * i);
    });
    return Buffer.concat([head, curve]);
  };
  const curv = (...values: number[]): Buffer => {
    const out = Buffer.alloc(12 + 2 * values.length);
    out.write('curv', 0, 'latin1');
    out.writeUInt32BE(values.length, 8);
    for (const [i, v] of values.entries()) out.writeUInt16BE(v, 12 + 2 * i);
    return out;
  };
  it('one number is a gamma in 256ths, none is a straight line, more are points', () => {
    expect(transferOfIcc(profile(curv(Math.round(1.8 * 256))))?.[0](0.5)).toBeCloseTo(0.5 ** 1.8, 2);
    expect(transferOfIcc(profile(curv()))?.[1](0.37)).toBe(0.37);
    expect(transferOfIcc(profile(curv(0, 16384, 65535)))?.[2](0.75)).toBeCloseTo((16384 / 65535 + 1) / 2, 4);
  });
  it('what is no profile, or has no curves, is none', () => {
    expect(transferOfIcc(new Uint8Array(10))).toBeNull();
    expect(transferOfIcc(new Uint8Array(300))).toBeNull();
  });
});
