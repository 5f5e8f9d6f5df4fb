import { describe, expect, it } from 'vitest';
import { filmAreaM2, HUNDRED_FEET_35MM_M2, sizes } from '../../src/world/film-area.js';

/**
 * Film dimensions against the standards that fix them. The standards themselves are sold, so the figures are
 * from memory of them, cross-checked with makers' published frame and width data.
 */
describe('film areas', () => {
  it.each([
    // SMPTE ST 149, 8 mm Type S (Super 8) raw stock: 7.975 ± 0.025 mm; from memory of the standard
    ['super-8', 7.95, 8.0],
    // ISO 69 / SMPTE ST 109, 16 mm raw stock: 15.95 ± 0.025 mm; from memory of the standard
    ['16mm', 15.925, 15.975],
    // ISO 491 / SMPTE ST 139, 35 mm raw stock: 34.975 ± 0.025 mm, ISO 1007 (size 135) alike; from memory
    ['35mm', 34.95, 35.0],
    // ISO 732, sizes 120 and 220: 61.5 (+0, −1) mm nearly; from memory of the standard
    ['120', 60.5, 61.7],
  ] as const)('%s is as wide as its standard says', (format, minMm, maxMm) => {
    expect(sizes[format].widthMm).toBeGreaterThanOrEqual(minMm);
    expect(sizes[format].widthMm).toBeLessThanOrEqual(maxMm);
  });

  it('100 ft of 35 mm is 1.066 m², the unit of the published replenishment rates', () => {
    // 100 ft = 30.48 m exactly (international foot); × 0.034975 m
    expect(HUNDRED_FEET_35MM_M2).toBeCloseTo(1.066, 3);
    expect(filmAreaM2({ stock: 'x', format: '35mm', lengthM: 30.48 })).toBeCloseTo(HUNDRED_FEET_35MM_M2, 9);
  });

  it('16 mm takes about half the rate of 35 mm', () => {
    // Kodak Process ECP-2E Specifications (H-24.09, 2006), table 9-4: "for 16 mm film, use one-half the 35 mm rates"
    const ratio = filmAreaM2({ stock: 'x', format: '16mm', lengthM: 30.48 }) / HUNDRED_FEET_35MM_M2;
    expect(ratio).toBeGreaterThan(0.44);
    expect(ratio).toBeLessThan(0.5);
  });

  it('a 36-exposure cassette, a 120 roll, four 4 × 5 sheets and one 8 × 10 sheet are about the same 0.05 m²', () => {
    // common practice: all count as one "80 square inch" film (80 in² = 0.0516 m²) in capacity tables
    const eighty = 80 * 0.0254 ** 2;
    for (const film of [
      { stock: 'x', format: '35mm' as const },
      { stock: 'x', format: '120' as const },
      { stock: 'x', format: '4x5' as const, count: 4 },
      { stock: 'x', format: '8x10' as const },
    ]) {
      const area = filmAreaM2(film);
      expect(area / eighty).toBeGreaterThan(0.9);
      expect(area / eighty).toBeLessThan(1.13);
    }
  });

  it('a 50 ft Super 8 cartridge has 15.24 m of 8 mm film', () => {
    expect(filmAreaM2({ stock: 'x', format: 'super-8' })).toBeCloseTo(15.24 * 0.007975, 6);
  });
});
