import { describe, expect, it } from 'vitest';
import { whatIf } from '../../src/chemistry/contamination.js';
import { fitness } from '../../src/chemistry/fitness.js';
import { knownPart, together } from '../../src/chemistry/mixture.js';
import { recipes } from '../../src/chemistry/recipes/index.js';
import { pourTogether } from '../../src/chemistry/solution/bath.js';

/**
 * Every bath into every bath at four ratios, 1, 5, 20 and 100 ml into 600 ml, against what chemistry says of them.
 * Written from the chemistry below and not from what the product answered. `.` must be usable, `x` must not be used as
 * it is, `o` may be either: a chemist would not quarrel. `!` after a cell: a gas or a heat must be named.
 *
 * Into a bath in front of undeveloped film (prebath): ferricyanide bleaches and thiosulphate dissolves the latent image at
 * millimoles (James, The Theory of the Photographic Process, 4th ed., ch. 7, from memory), so any bleach or fixer is the end.
 * Into the developer: pH 10.25 ± 0.05 and CD-3 ± 5 % (H-24.07, from memory), so a hundred in six hundred of anything is too
 * much, and any ferricyanide or thiosulphate too. Into an acid: thiosulphate drops sulphur, ferricyanide makes prussic acid.
 * Into ferricyanide: no acid ever, thiosulphate makes Farmer's reducer. Into the final rinse: it dries in the film, so nothing.
 */
const kinds: Record<string, string> = {
  'ecn2-prebath': 'pre',
  'ecn2-prebath-home': 'soda',
  'ecn2-developer': 'dev',
  'ecn2-developer-home': 'dev',
  'ecn2-stop': 'acid',
  'ecn2-stop-vinegar': 'acid',
  'ecn2-stop-citric': 'acid',
  'ecn2-bleach': 'bleach',
  'ecn2-fixer': 'fix',
  'ecn2-fixer-sodium': 'fix',
  'ecn2-final-rinse': 'rinse',
  'ecn2-final-rinse-home': 'rinse',
  water: 'water',
};

/** [into][poured] */
const expected: Record<string, Record<string, string>> = {
  pre: {
    pre: '..oo',
    soda: '..oo',
    dev: '.oxx',
    acid: '.oox',
    bleach: 'xxxx',
    fix: 'xxxx',
    rinse: '..oo',
    water: '...o',
  },
  soda: {
    pre: '..oo',
    soda: '....',
    dev: '.oxx',
    acid: '.oox',
    bleach: 'xxxx',
    fix: 'xxxx',
    rinse: '..oo',
    water: '...o',
  },
  dev: {
    pre: '..ox',
    soda: '.oxx',
    dev: '..oo',
    acid: '.oxx',
    bleach: 'xxxx',
    fix: 'xxxx',
    rinse: '..ox',
    water: '...x',
  },
  acid: {
    pre: '..oo',
    soda: '.ooo',
    dev: '..oo',
    acid: '..oo',
    bleach: 'xxxx!',
    fix: 'xxxx!',
    rinse: '..oo',
    water: '...o',
  },
  bleach: {
    pre: '..oo',
    soda: '.oox',
    dev: '.oox',
    acid: 'xxxx!',
    bleach: '....',
    fix: 'xxxx',
    rinse: '..oo',
    water: '...o',
  },
  fix: {
    pre: '..oo',
    soda: '.oox',
    dev: '..ox',
    acid: '.oox!',
    bleach: 'ooxx',
    fix: '..oo',
    rinse: '..oo',
    water: '...o',
  },
  rinse: {
    pre: 'xxxx',
    soda: 'xxxx',
    dev: 'xxxx',
    acid: 'xxxx',
    bleach: 'xxxx',
    fix: 'xxxx',
    rinse: '.ooo',
    water: '...o',
  },
};
const ratiosMl = [1, 5, 20, 100] as const;

const cases = recipes.flatMap((into) =>
  [...recipes.map((r) => r.id), 'water']
    .filter((p) => p !== into.id)
    .map((poured) => ({ into: into.id, poured })),
);

describe('every bath into every bath at four ratios', () => {
  it('nothing unusable is called usable, nothing plainly usable is thrown away, no danger is left unsaid', () => {
    const wrong: string[] = [];
    let judged = 0;
    for (const { into, poured } of cases) {
      const row = expected[kinds[into] ?? '']?.[kinds[poured] ?? ''];
      if (row === undefined) throw new Error(`nothing is expected of ${poured} into ${into}`);
      ratiosMl.forEach((ml, i) => {
        const result = whatIf({ of: poured, volumeMl: ml }, { of: into, volumeMl: 600 });
        if (!result.ok) throw new Error(result.why);
        const { verdict } = result.value.fitness;
        const usable = verdict === 'fit' || verdict === 'fit-changed-time';
        const want = row[i];
        const at = `${ml} ml ${poured} into ${into}: ${verdict}`;
        if (want === 'x' && usable) wrong.push(`${at}, must not be used`);
        if (want === '.' && !usable) wrong.push(`${at}, is usable`);
        if (row.endsWith('!') && ml >= 20 && result.value.dangers.length === 0)
          wrong.push(`${at}, danger unsaid`);
        judged++;
      });
    }
    expect(judged).toBeGreaterThan(288);
    expect(wrong).toEqual([]);
  });

  it('what it says can be brought back is right again once that is added', () => {
    let restored = 0;
    for (const { into, poured } of cases) {
      for (const ml of ratiosMl) {
        const result = whatIf({ of: poured, volumeMl: ml }, { of: into, volumeMl: 600 });
        if (!result.ok || result.value.fitness.verdict !== 'restorable') continue;
        const { add } = result.value.fitness;
        const start = together([
          knownPart({ of: into, volumeMl: 600 }),
          knownPart({ of: poured, volumeMl: ml }),
        ]);
        const made = add.reduce((bath, a) => {
          const stirred = knownPart(
            a.unit === 'g' ? { of: a.of, massG: a.amount } : { of: a.of, volumeMl: a.amount },
          );
          const both = pourTogether(bath, stirred.bath);
          // powders and parts without their water leave the volume as it is
          return a.unit === 'g' || a.dry === true ? { ...both, volumeMl: bath.volumeMl } : both;
        }, start);
        const after = fitness({ bath: into, parts: [], made }).verdict;
        expect(['fit', 'fit-changed-time'], `${ml} ml ${poured} into ${into}`).toContain(after);
        restored++;
      }
    }
    expect(restored).toBeGreaterThan(20);
  });

  it('a bath by itself is fit, or fit for the longer time that its recipe gives', () => {
    for (const r of recipes) {
      const result = whatIf({ of: 'water', volumeMl: 0.001 }, { of: r.id, volumeMl: 600 });
      expect(result.ok && result.value.fitness.verdict, r.id).toBe(
        r.time === undefined ? 'fit' : 'fit-changed-time',
      );
    }
  });
});
