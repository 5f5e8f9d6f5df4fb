import { converter, differenceCiede2000 } from 'culori';
import fc from 'fast-check';
import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import {
  deltaE2000,
  linearToLab,
  linearToSrgb,
  linearToXyz,
  srgbToLinear,
  type Triple,
  xyzToLab,
} from '../../src/review/scan/colour.js';
import { densityOf, transmittanceOf } from '../../src/review/scan/density.js';
import { transferOfIcc } from '../../src/review/scan/icc.js';

const channel = fc.double({ min: 0, max: 1, noNaN: true });

describe('colour against culori, a general colour library', () => {
  const toLrgb = converter('lrgb');
  const toXyz = converter('xyz65');
  const toLab = converter('lab65');
  const theirs = differenceCiede2000();

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

  it('measures differences alike', () => {
    const axis = fc.double({ min: -90, max: 90, noNaN: true });
    const light = fc.double({ min: 0, max: 100, noNaN: true });
    fc.assert(
      fc.property(light, axis, axis, light, axis, axis, (l1, a1, b1, l2, a2, b2) => {
        const other = theirs({ mode: 'lab65', l: l1, a: a1, b: b1 }, { mode: 'lab65', l: l2, a: a2, b: b2 });
        const own = deltaE2000({ l: l1, a: a1, b: b1 }, { l: l2, a: a2, b: b2 });
        // culori may pass through another white first
        expect(Math.abs(own - other)).toBeLessThan(Math.max(0.25, 0.03 * other));
      }),
    );
  });
});

describe('CIEDE2000 against the published pairs', () => {
  // G. Sharma, W. Wu, E. N. Dalal, “The CIEDE2000 color-difference formula: implementation notes, supplementary test
  // data, and mathematical observations”, Color Research and Application 30 (2005), table 1
  const pairs: readonly (readonly [number, number, number, number, number, number, number])[] = [
    [50, 2.6772, -79.7751, 50, 0, -82.7485, 2.0425],
    [50, 3.1571, -77.2803, 50, 0, -82.7485, 2.8615],
    [50, 2.8361, -74.02, 50, 0, -82.7485, 3.4412],
    [50, -1.3802, -84.2814, 50, 0, -82.7485, 1.0],
    [50, -1.1848, -84.8006, 50, 0, -82.7485, 1.0],
    [50, -0.9009, -85.5211, 50, 0, -82.7485, 1.0],
    [50, 0, 0, 50, -1, 2, 2.3669],
    [50, -1, 2, 50, 0, 0, 2.3669],
    [50, 2.49, -0.001, 50, -2.49, 0.0009, 7.1792],
    [50, 2.49, -0.001, 50, -2.49, 0.0011, 7.2195],
    [50, -0.001, 2.49, 50, 0.0009, -2.49, 4.8045],
    [50, -0.001, 2.49, 50, 0.0011, -2.49, 4.7461],
    [50, 2.5, 0, 50, 0, -2.5, 4.3065],
    [50, 2.5, 0, 73, 25, -18, 27.1492],
    [50, 2.5, 0, 61, -5, 29, 22.8977],
    [50, 2.5, 0, 56, -27, -3, 31.903],
    [50, 2.5, 0, 58, 24, 15, 19.4535],
    [50, 2.5, 0, 50, 3.1736, 0.5854, 1.0],
    [60.2574, -34.0099, 36.2677, 60.4626, -34.1751, 39.4387, 1.2644],
    [63.0109, -31.0961, -5.8663, 62.8187, -29.7946, -4.0864, 1.263],
    [61.2901, 3.7196, -5.3901, 61.4292, 2.248, -4.962, 1.8731],
    [35.0831, -44.1164, 3.7933, 35.0232, -40.0716, 1.5901, 1.8645],
    [22.7233, 20.0904, -46.694, 23.0331, 14.973, -42.5619, 2.0373],
    [36.4612, 47.858, 18.3852, 36.2715, 50.5065, 21.2231, 1.4146],
    [90.8027, -2.0831, 1.441, 91.1528, -1.6435, 0.0447, 1.4441],
    [90.9257, -0.5406, -0.9208, 88.6381, -0.8985, -0.7239, 1.5381],
    [6.7747, -0.2908, -2.4247, 5.8714, -0.0985, -2.2286, 0.6377],
    [2.0776, 0.0795, -1.135, 0.9033, -0.0636, -0.5514, 0.9082],
  ];
  it.each(pairs)('%f %f %f and %f %f %f', (l1, a1, b1, l2, a2, b2, published) => {
    expect(deltaE2000({ l: l1, a: a1, b: b1 }, { l: l2, a: a2, b: b2 })).toBeCloseTo(published, 3);
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
      expect(transmittanceOf(d)).toBeCloseTo(t, 5);
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
