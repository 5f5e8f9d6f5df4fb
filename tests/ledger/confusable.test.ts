import { dictionary } from 'cmu-pronouncing-dictionary';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkName, costByManner, phoneDistance, TOO_CLOSE } from '../../src/ledger/confusable.js';

const words = dictionary as Record<string, string | undefined>;
const phonesOf = (word: string): string[] | undefined => words[word]?.replace(/\d/g, '').split(' ');
const apart = (a: string, b: string): number =>
  phoneDistance(phonesOf(a) ?? [], phonesOf(b) ?? [], costByManner);

describe('names by ear', () => {
  it.each([
    ['bleach', 'beach'],
    ['fixer', 'mixer'],
    ['stop', 'step'],
    ['stop', 'shop'],
    ['fifteen', 'fifty'],
    ['one', 'won'],
  ])('%s and %s are too close', (a, b) => {
    expect(apart(a, b)).toBeLessThan(TOO_CLOSE);
  });

  it.each([
    ['developer', 'fixer'],
    ['bleach', 'juniper'],
    ['amber', 'granite'],
    ['prebath', 'indigo'],
  ])('%s and %s are not', (a, b) => {
    expect(apart(a, b)).toBeGreaterThanOrEqual(TOO_CLOSE);
  });

  it('measures a distance: same is nought, order does not matter', () => {
    const some = fc.constantFrom(
      'amber',
      'bleach',
      'fixer',
      'stop',
      'harbour',
      'granite',
      'developer',
      'coral',
    );
    fc.assert(
      fc.property(some, some, (a, b) => {
        expect(apart(a, a)).toBe(0);
        expect(apart(a, b)).toBeCloseTo(apart(b, a), 12);
        expect(apart(a, b)).toBeLessThanOrEqual(1);
      }),
    );
  });

  it('proposes a name that is clear of everything in use', () => {
    const taken = ['bleach', 'fixer', 'amber'];
    const { clash, better } = checkName('mixer', taken, phonesOf);
    expect(clash?.with).toBe('fixer');
    expect(better).not.toBeNull();
    expect(checkName(better ?? '', taken, phonesOf).clash).toBeNull();
    expect(checkName('violet', taken, phonesOf)).toMatchObject({ clash: null, better: null });
  });
});
