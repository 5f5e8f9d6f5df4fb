import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bathOf, keepUntil, leverage, planBatch, refusalOf } from '../../src/chemistry/batch.js';
import { errorEffect, explainPh } from '../../src/chemistry/effects.js';
import { findRecipe, recipes } from '../../src/chemistry/recipes/index.js';
import { volumeNeeded } from '../../src/chemistry/recipes/volume.js';
import { cautionsFor, spokenCautionsFor } from '../../src/chemistry/safety/cautions.js';
import { formsOf, substanceById, substances, substitute } from '../../src/chemistry/substances.js';

const recipe = (id: string) => {
  const r = findRecipe(id);
  if (!r.ok) throw new Error(r.why);
  return r.recipe;
};
const plan = (id: string, ml: number, options = {}) => {
  const b = planBatch(recipe(id), ml, options);
  if (!b.ok) throw new Error(b.why);
  return b.batch;
};

describe('a recipe for a volume', () => {
  it('amounts follow the volume, whatever form is on the shelf, mole for mole', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...recipes),
        fc.double({ min: 20, max: 50_000, noNaN: true }),
        fc.nat(),
        (r, ml, pick) => {
          const named = plan(r.id, ml);
          const forms = Object.fromEntries(
            r.components.map((c) => {
              const s = substanceById(c.substance);
              const options = s === undefined ? [] : formsOf(s).filter((f) => f.formula !== null);
              return [
                c.substance,
                { substance: options[pick % Math.max(1, options.length)]?.id ?? c.substance },
              ];
            }),
          );
          const other = plan(r.id, ml, { forms });
          const a = bathOf(named.lines, ml).moles;
          const b = bathOf(other.lines, ml).moles;
          for (const id of [
            'carbonate',
            'sulfite',
            'thiosulfate',
            'borate',
            'Br',
            'ferricyanide',
            'cd3',
          ] as const) {
            // technical ammonium thiosulphate carries a little sulphite, so that sum may differ
            if (id === 'sulfite' && r.id === 'ecn2-fixer') continue;
            expect(Math.abs((a[id] ?? 0) - (b[id] ?? 0))).toBeLessThanOrEqual(1e-9 * (a[id] ?? 0) + 1e-15);
          }
        },
      ),
      { numRuns: 200 },
    );
  });

  it('the tolerance is never finer than the scale, and a coarse scale is told a way round', () => {
    const rinse = plan('ecn2-final-rinse', 600).lines[0];
    if (rinse === undefined) throw new Error('no line');
    expect(rinse.coarseScale).toBe(true);
    expect(rinse.tolerance).toBe(0.1);
    const way = rinse.stock;
    expect(way).not.toBeNull();
    // what is taken out holds what was wanted
    expect(((way?.amount ?? 0) * (way?.takeMl ?? 0)) / (way?.inMl ?? 1)).toBeCloseTo(rinse.amount, 9);
    const kitchen = plan('ecn2-developer', 600, { scaleStepG: 1 });
    expect(kitchen.lines.filter((l) => l.coarseScale).map((l) => l.form.id)).toContain('cd3');
    // a developing agent does not keep in water: a larger batch, not a stock
    expect(kitchen.lines.find((l) => l.form.id === 'cd3')?.stock).toBeNull();
    expect(refusalOf(kitchen, { scaleStepG: 1 })).toContain('Mix 10 litres or more');
  });

  it('leverage: carbonate and CD-3 move the developer’s pH, bromide hardly', () => {
    const b = plan('ecn2-developer', 600);
    const of = (id: string) => {
      const line = b.lines.find((l) => l.form.id === id);
      if (line === undefined) throw new Error(id);
      return leverage(b.recipe, b.lines, 600, line);
    };
    expect(of('cd3')).toBeGreaterThan(20 * of('sodium-bromide'));
    expect(of('sodium-carbonate-anhydrous')).toBeGreaterThan(of('sodium-sulfite-anhydrous'));
  });

  it('a tolerance is set by pH where pH is the tighter', () => {
    const stepless = plan('ecn2-fixer', 1000, { scaleStepG: 0.0001 });
    for (const l of stepless.lines) {
      const shift = errorEffect(stepless, l, l.amount + l.tolerance).phShift ?? 0;
      expect(Math.abs(shift)).toBeLessThanOrEqual(0.2 / 3 + 0.005);
    }
  });

  it('refuses what cannot be', () => {
    expect(planBatch(recipe('ecn2-stop'), 1)).toMatchObject({ ok: false });
    expect(planBatch(recipe('ecn2-stop'), Number.NaN)).toMatchObject({ ok: false });
    const swap = { forms: { 'sulfuric-acid-7n': { substance: 'sodium-hydroxide' } } };
    expect(planBatch(recipe('ecn2-stop'), 500, swap)).toMatchObject({
      ok: false,
      why: expect.stringContaining('cannot stand in'),
    });
  });

  it('a form and back again is the same amount', () => {
    for (const s of substances) {
      for (const f of formsOf(s)) {
        const there = substitute(s, 10, f);
        if (!there.ok) continue;
        const back = substitute(f, there.amount, s);
        expect(back.ok && Math.abs(back.amount - 10)).toBeLessThan(1e-9);
      }
    }
  });

  it('keep-until crosses a month and a leap day', () => {
    expect(keepUntil(recipe('ecn2-developer'), '2028-02-20')).toBe('2028-03-05');
  });
});

describe('how much is needed', () => {
  /** 6 films a litre, as the recipe states */
  it.each([
    ['the tank', 600, 2, 630],
    ['the films', 300, 12, 2100],
  ])('%s, and the loss', (_name, tankMl, films, ml) => {
    expect(volumeNeeded(recipe('ecn2-developer'), tankMl, films)).toBe(ml);
  });
});

describe('slips that a pH betrays', () => {
  it('names the component left out, from its own pH', () => {
    const b = plan('ecn2-developer', 600);
    for (const id of ['sodium-bicarbonate', 'cd3']) {
      const line = b.lines.find((l) => l.form.id === id);
      if (line === undefined) throw new Error(id);
      const { ph } = errorEffect(b, line, 0);
      expect(explainPh(b, ph ?? 0)[0]).toMatchObject({ kind: 'left-out', substance: id, misfit: 0 });
    }
  });

  it('says nothing of a pH that is right', () => {
    const b = plan('ecn2-developer', 600);
    expect(explainPh(b, b.expectedPh ?? 0)).toEqual([]);
  });
});

describe('cautions', () => {
  it('every recipe says who decides, and its dangerous pairs before a jar is opened', () => {
    for (const r of recipes) {
      expect(cautionsFor(r)).toContain('The safety data sheet and your local rules decide.');
      expect(spokenCautionsFor(r).length).toBeGreaterThan(1);
    }
    expect(spokenCautionsFor(recipe('ecn2-bleach')).join()).toContain('hydrogen cyanide');
    expect(spokenCautionsFor(recipe('ecn2-bleach')).join()).toContain('chlorine bleach');
    expect(spokenCautionsFor(recipe('ecn2-fixer')).join()).toContain('sulphur dioxide');
    expect(spokenCautionsFor(recipe('ecn2-fixer')).join()).toContain('chloramine');
    expect(spokenCautionsFor(recipe('ecn2-prebath')).join()).toContain('boil and spit');
  });
});
