import { describe, expect, it } from 'vitest';
import { whatIf } from '../../src/chemistry/contamination.js';
import { fitness } from '../../src/chemistry/fitness.js';
import { knownPart } from '../../src/chemistry/mixture.js';
import { incompatiblePairs } from '../../src/chemistry/safety/incompatible.js';
import { substances } from '../../src/chemistry/substances.js';
import { sayWhatIf } from '../../src/language/languages/english/phrases/mix-what-if.js';

/**
 * A hundred pairs of things from under the sink, the garage and the darkroom, as they are called, with what must be said.
 * The words are the danger a chemist would name: from Bretherick's Handbook of Reactive Chemical Hazards, from poison
 * centres' warnings on cleaners, and from CLP supplemental statements EUH031 and EUH032, all from memory; one line each.
 * `gas-deadly`, `gas`, `explosion`, `fire`, `heat`, `pressure`: at least that much must be named. `spoils`: no danger to
 * people, but the bath must not be used. `none`: nothing may be called dangerous.
 */
const pairs: readonly [string, string, string][] = [
  // chlorine from acid on hypochlorite
  ['vinegar', 'household bleach', 'gas-deadly'],
  ['citric acid', 'household bleach', 'gas-deadly'],
  ['battery acid', 'chlorine bleach', 'gas-deadly'],
  ['concentrated sulphuric acid', 'chlorine bleach', 'gas-deadly'],
  ['glacial acetic acid', 'household bleach', 'gas-deadly'],
  ['muriatic acid', 'household bleach', 'gas-deadly'],
  ['toilet cleaner', 'household bleach', 'gas-deadly'],
  ['descaler', 'chlorine bleach', 'gas-deadly'],
  ['sodium metabisulphite', 'household bleach', 'gas-deadly'],
  ['household bleach', 'stop', 'gas-deadly'],
  ['household bleach', 'ecn2-stop-vinegar', 'gas-deadly'],
  ['household bleach', 'ecn2-stop-citric', 'gas-deadly'],
  ['vinegar', 'drain cleaner', 'gas-deadly'],
  ['persulphate', 'household bleach', 'gas'],
  // chloramines
  ['ammonia', 'household bleach', 'gas-deadly'],
  ['household bleach', 'fixer', 'gas-deadly'],
  ['ammonium thiosulphate', 'household bleach', 'gas-deadly'],
  ['ammonium persulphate', 'household bleach', 'gas-deadly'],
  ['ammonium thiocyanate', 'household bleach', 'gas-deadly'],
  ['drain cleaner', 'fixer', 'gas-deadly'],
  // cyanide
  ['household bleach', 'bleach', 'gas-deadly'],
  ['household bleach', 'potassium ferricyanide', 'gas-deadly'],
  ['drain cleaner', 'bleach', 'gas-deadly'],
  ['vinegar', 'bleach', 'gas-deadly'],
  ['citric acid', 'bleach', 'gas-deadly'],
  ['battery acid', 'bleach', 'gas-deadly'],
  ['sulphuric acid', 'bleach', 'gas-deadly'],
  ['glacial acetic acid', 'bleach', 'gas-deadly'],
  ['muriatic acid', 'bleach', 'gas-deadly'],
  ['toilet cleaner', 'bleach', 'gas-deadly'],
  ['stop', 'bleach', 'gas-deadly'],
  ['ecn2-stop-vinegar', 'bleach', 'gas-deadly'],
  ['ecn2-stop-citric', 'bleach', 'gas-deadly'],
  ['stop', 'potassium ferricyanide', 'gas-deadly'],
  ['battery acid', 'potassium thiocyanate', 'gas-deadly'],
  ['vinegar', 'ammonium thiocyanate', 'gas-deadly'],
  ['household bleach', 'potassium thiocyanate', 'gas-deadly'],
  ['permanganate', 'potassium thiocyanate', 'gas-deadly'],
  ['hydrogen peroxide', 'thiocyanate', 'gas-deadly'],
  ['persulphate', 'thiocyanate', 'gas-deadly'],
  ['dichromate', 'thiocyanate', 'gas-deadly'],
  // hydrogen sulphide
  ['vinegar', 'sepia toner', 'gas-deadly'],
  ['stop', 'sepia toner', 'gas-deadly'],
  ['battery acid', 'sodium sulphide', 'gas-deadly'],
  // sulphur dioxide
  ['vinegar', 'fixer', 'gas'],
  ['citric acid', 'fixer', 'gas'],
  ['battery acid', 'fixer', 'gas'],
  ['concentrated sulphuric acid', 'fixer', 'gas'],
  ['glacial acetic acid', 'fixer', 'gas'],
  ['muriatic acid', 'hypo', 'gas'],
  ['battery acid', 'sodium metabisulphite', 'gas'],
  ['citric acid', 'sodium sulphite', 'gas'],
  ['fixer', 'stop', 'gas'],
  ['ecn2-fixer-sodium', 'stop', 'gas'],
  // ammonia
  ['caustic soda', 'fixer', 'gas'],
  ['lye', 'ammonium thiosulphate', 'gas'],
  ['oven cleaner', 'fixer', 'gas'],
  ['potassium hydroxide', 'ammonium thiocyanate', 'gas'],
  // bromine, chlorine and organic poisons
  ['persulphate', 'sodium bromide', 'gas'],
  ['persulphate', 'bleach', 'gas'],
  ['household bleach', 'potassium bromide', 'gas'],
  ['permanganate', 'muriatic acid', 'gas-deadly'],
  ['rubbing alcohol', 'household bleach', 'gas'],
  ['acetone', 'household bleach', 'gas'],
  ['methylated spirit', 'chlorine bleach', 'gas'],
  ['formalin', 'household bleach', 'gas'],
  ['formalin', 'muriatic acid', 'gas'],
  ['vinegar', 'hydrogen peroxide', 'gas'],
  ['household bleach', 'developer', 'gas'],
  ['cd3', 'household bleach', 'gas'],
  // explosion and fire
  ['acetone', 'hydrogen peroxide', 'explosion'],
  ['permanganate', 'concentrated sulphuric acid', 'explosion'],
  ['permanganate', 'battery acid', 'explosion'],
  ['permanganate', 'strong hydrogen peroxide', 'explosion'],
  ['permanganate', 'ammonia', 'explosion'],
  ['permanganate', 'rubbing alcohol', 'fire'],
  ['permanganate', 'acetone', 'fire'],
  ['permanganate', 'formalin', 'fire'],
  ['dichromate', 'rubbing alcohol', 'fire'],
  ['persulphate', 'rubbing alcohol', 'fire'],
  // heat
  ['permanganate', 'hypo', 'heat'],
  ['dichromate', 'sodium metabisulphite', 'heat'],
  ['dichromate', 'battery acid', 'heat'],
  ['household bleach', 'hypo', 'heat'],
  ['household bleach', 'sodium sulphite', 'heat'],
  ['persulphate', 'hypo', 'heat'],
  ['hydrogen peroxide', 'hypo', 'heat'],
  ['caustic soda', 'battery acid', 'heat'],
  ['drain cleaner', 'concentrated sulphuric acid', 'heat'],
  ['ammonia', 'battery acid', 'heat'],
  ['formalin', 'ammonia', 'heat'],
  ['water', 'concentrated sulphuric acid', 'heat'],
  // pressure in something shut
  ['hydrogen peroxide', 'household bleach', 'pressure'],
  ['strong hydrogen peroxide', 'bleach', 'pressure'],
  ['vinegar', 'baking soda', 'pressure'],
  ['battery acid', 'washing soda', 'pressure'],
  ['ecn2-stop-vinegar', 'baking soda', 'pressure'],
  // no danger to people, but no bath any more
  ['vinegar', 'developer', 'spoils'],
  ['washing-up liquid', 'developer', 'spoils'],
  ['caustic soda', 'prebath', 'spoils'],
  ['baking soda', 'stop', 'pressure'],
  // harmless
  ['sodium bromide', 'potassium bromide', 'none'],
  ['water', 'developer', 'none'],
  ['borax', 'boric acid', 'none'],
];

const rank = ['none', 'pressure', 'heat', 'fire', 'gas', 'explosion', 'gas-deadly'];
const named: Record<string, string> = {
  'deadly gas': 'gas-deadly',
  'toxic gas': 'gas',
  explosion: 'explosion',
  fire: 'fire',
  heat: 'heat',
  pressure: 'pressure',
};

/** 60 ml or 60 g into 600. */
const part = (of: string, amount: number) => {
  const known = knownPart({ of, volumeMl: 1 });
  return known.substance?.measure === 'g' ? { of, massG: amount } : { of, volumeMl: amount };
};

describe('a hundred pairs of household and darkroom things', () => {
  it('there are a hundred, and every thing in them is known by that name', () => {
    expect(pairs.length).toBeGreaterThanOrEqual(100);
    for (const [a, b] of pairs) {
      expect(knownPart({ of: a, volumeMl: 1 }).kind, a).not.toBe('unknown');
      expect(knownPart({ of: b, volumeMl: 1 }).kind, b).not.toBe('unknown');
    }
  });

  it.each(pairs)('%s and %s: %s', (a, b, want) => {
    for (const [poured, into] of [
      [a, b],
      [b, a],
    ] as const) {
      const result = whatIf(part(poured, 60), part(into, 600));
      if (!result.ok) throw new Error(result.why);
      const { dangers, fitness: fit } = result.value;
      const worst = Math.max(0, ...dangers.map((d) => rank.indexOf(named[d.danger] ?? 'none')));
      const usable = fit.verdict === 'fit' || fit.verdict === 'fit-changed-time';
      if (want === 'none') expect(dangers).toEqual([]);
      else expect(usable, `${poured} into ${into} is called usable`).toBe(false);
      if (want !== 'none' && want !== 'spoils') {
        expect(worst, `${poured} into ${into}`).toBeGreaterThanOrEqual(rank.indexOf(want));
        const said = sayWhatIf(result.value);
        expect(said, 'said first').toMatch(
          /^[^.]*(gas|chlor|cyan|sulph|ammonia|brom|fire|explo|heat|oxygen|foam|boil|poison|react|acid|fumes|vapour)/i,
        );
        expect(said).not.toMatch(/^Use it|\. Use it\./);
      }
    }
  });

  it('what nobody knows is never cleared', () => {
    for (const [poured, into] of [
      ['soup', 'developer'],
      ['developer', 'soup'],
      ['soup', 'soup'],
    ] as const) {
      const result = whatIf({ of: poured, volumeMl: 1 }, { of: into, volumeMl: 600 });
      if (!result.ok) throw new Error(result.why);
      expect(result.value.fitness.verdict).toBe('unknown');
      expect(sayWhatIf(result.value)).toContain('I do not know soup');
    }
  });

  it('every pair is of two things that substances are, and has a source', () => {
    const known = new Set(['water', ...substances.flatMap((s) => s.classes)]);
    for (const { a, b, source } of incompatiblePairs) {
      expect([...known], `${a} and ${b}`).toEqual(expect.arrayContaining([a, b]));
      expect(source).not.toBe('');
    }
  });

  it('stop on the remnants of baking soda in a shut tank: open the lid', () => {
    const fit = fitness({
      bath: 'stop',
      parts: [
        { of: 'stop', volumeMl: 500 },
        { of: 'ecn2-prebath-home', volumeMl: 30 },
      ],
    });
    expect(fit.openLid).toBe(true);
    // all of the bicarbonate: 80 g/l × 30 ml / 84.01 g/mol × 24.8 l/mol = 0.71 l, less what the water holds
    expect(fit.gases.find((g) => g.id === 'carbon dioxide')?.litres).toBeGreaterThan(0.2);
    expect(fit.gases.find((g) => g.id === 'carbon dioxide')?.litres).toBeLessThan(0.71);
  });

  /** The review's two faults: what a bottle's own recipe says, and what a batch failed in, go before the usual. */
  it('goes by the batch on record', () => {
    const into = { of: 'developer', volumeMl: 600 };
    const soda = whatIf({ of: 'ecn2-prebath-home', volumeMl: 20 }, into);
    expect(soda.ok && soda.value.fitness.verdict).not.toBe('fit');
    const failed = fitness({
      bath: 'prebath',
      parts: [{ of: 'prebath', volumeMl: 600 }],
      checks: { ok: false, why: ['ten times the caustic'] },
    });
    expect(failed.verdict).toBe('discard');
    expect(failed.reasons).toEqual(['ten times the caustic']);
  });
});
