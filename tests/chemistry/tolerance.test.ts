import { describe, expect, it } from 'vitest';
import { toleranceOf } from '../../src/chemistry/contamination.js';
import { fitness } from '../../src/chemistry/fitness.js';

const baths = ['prebath', 'developer', 'stop', 'bleach', 'fixer', 'water'];
const pairs = baths.flatMap((poured) =>
  baths.filter((into) => into !== poured && into !== 'water').map((into) => [poured, into] as const),
);

describe('how much a bath takes', () => {
  it.each(pairs)('%s in the %s: the verdict turns there and nowhere before', (poured, into) => {
    const most = toleranceOf(poured, [{ of: into, volumeMl: 600 }]);
    const verdict = (ml: number): string =>
      fitness({
        bath: into,
        parts: [
          { of: into, volumeMl: 600 },
          { of: poured, volumeMl: ml },
        ],
      }).verdict;
    const gone = ['discard', 'unknown'];
    const end = most.spoiledFrom ?? 600;
    const below = [0.01, 0.1, 0.3, 0.6, 0.9, 0.98].map((share) => verdict(end * share));
    expect(most.spoiledFrom === 0 ? [] : below.filter((v) => gone.includes(v))).toEqual([]);
    const past = [1.02, 1.5, 3].map((times) => Math.max(end * times, 0.01)).filter((ml) => ml <= 600);
    if (most.spoiledFrom !== null) expect(past.map(verdict).filter((v) => !gone.includes(v))).toEqual([]);
    expect(most.feltFrom ?? 600).toBeLessThanOrEqual(end * 1.01);
  });

  it('counts what is already in it', () => {
    const clean = toleranceOf('prebath', [{ of: 'developer', volumeMl: 600 }]).spoiledFrom ?? 0;
    const used = toleranceOf('prebath', [
      { of: 'developer', volumeMl: 570 },
      { of: 'prebath', volumeMl: 30 },
    ]).spoiledFrom;
    expect(used ?? 0).toBeGreaterThan(clean - 40);
    expect(used ?? 0).toBeLessThan(clean - 20);
  });

  it('says nothing of a bath that is spoiled already, and of what nobody knows', () => {
    expect(
      toleranceOf('prebath', [{ of: 'developer', volumeMl: 600 }], ['it was weighed wrong']).fitNow,
    ).toBe(false);
    expect(toleranceOf('zorblax', [{ of: 'developer', volumeMl: 600 }]).spoiledFrom).toBe(0);
  });
});

describe('a bath whose pH is beyond what the model is good for', () => {
  const fixerWith = (of: string, massG: number) =>
    fitness({
      bath: 'fixer',
      parts: [
        { of: 'fixer', volumeMl: 1000 },
        { of, massG },
      ],
    });

  it('is unknown, and says why', () => {
    expect(fixerWith('sodium-chloride', 20)).toMatchObject({
      verdict: 'unknown',
      reasons: expect.arrayContaining(['it holds more salt than I can reckon a pH for']),
    });
  });

  it('is no better for it where something else ends it, and can be brought back into range by fresh bath', () => {
    expect(fixerWith('sodium-chloride', 100).verdict).toBe('discard');
    const thinned = fixerWith('sodium-sulfate', 20);
    expect(thinned.findings).toContainEqual(expect.objectContaining({ id: 'model', level: 'unknown' }));
    expect(thinned).toMatchObject({ verdict: 'restorable', add: [{ of: 'ecn2-fixer' }] });
  });
});
