import { describe, expect, it } from 'vitest';
import { recipes } from '../../src/chemistry/recipes/index.js';
import { carryOver, ofRecipes, worstContamination } from '../../src/world/contamination.js';
import { fresh, NOTHING } from '../../src/world/contents.js';
import type { Fact, FilmRef } from '../../src/world/fact.js';
import { filmAreaM2, HUNDRED_FEET_35MM_M2 } from '../../src/world/film-area.js';
import {
  bottleLife,
  capacityM2PerL,
  changedTime,
  compensationFor,
  enoughFor,
  recipeOf,
  replenishAdvice,
} from '../../src/world/life.js';
import {
  BAND_LOW,
  filmSilver,
  fixerSilverLimitGPerL,
  molar,
  rateOf,
  USUAL_FILM,
} from '../../src/world/life-data.js';
import { liquids } from '../../src/world/liquids.js';
import type { BottleRecord, Contamination } from '../../src/world/records.js';
import { emptyWorld, fold } from '../../src/world/reduce.js';

const dayMs = 86_400_000;
const oneFilm = filmAreaM2(USUAL_FILM);
const recipe = (id: string) => {
  const found = recipes.find((r) => r.id === id);
  if (!found) throw new Error(`expected a recipe ${id}`);
  return found;
};
/** A litre, mixed at time 0, and whatever else is so. */
function bottleOf(liquid: string, id: string, more: Partial<BottleRecord> = {}): BottleRecord {
  const fact: Fact = { type: 'mixed', batch: 'A', recipe: id, liquid, volumeMl: 1000, bottle: 1 };
  return { ...(fold(emptyWorld(), { fact, atMs: 0, wallMs: 0 }).bottles[1] as BottleRecord), ...more };
}
const developer = (more: Partial<BottleRecord> = {}) => bottleOf('developer', 'ecn2-developer', more);
const worked = (liquid: string, workM2: number, volumeMl = 1000) => ({
  contents: { ...fresh(liquid, volumeMl), workM2 },
});
const mixedWith = (liquid: string, ml: number, own = 1000): Partial<BottleRecord> => ({
  contents: { volumeMl: own + ml, parts: { developer: own, [liquid]: ml }, workM2: 0, traces: [] },
  contaminations: [{ wallMs: 0, liquid, volumeMl: ml, intoLiquid: 'developer', intoMl: own }],
});
const limitOf = (bottle: BottleRecord, wallMs = 0) => bottleLife(bottle, wallMs).limit;

describe('a bath that is none of the recipes', () => {
  const other = (more: Partial<BottleRecord> = {}) => developer({ recipe: null, ...more });
  const baths = {
    rate: 'c-41',
    liquids: liquids
      .filter(({ id }) => id === 'developer')
      .map((l) => ({ ...l, capacity: { filmsPerLitre: 8, source: 'kits' } })),
  };
  it('has no life that is known, unless its sheet says how much film a litre does', () => {
    expect(bottleLife(other(), 0, { rate: 'c-41' })).toMatchObject({ limit: 'unknown', keepDaysLeft: null });
    expect(bottleLife(other(), 0, baths)).toMatchObject({ limit: 'film', filmsLeft: { usual: 8, high: 8 } });
    const done = other(worked('developer', 6 * oneFilm));
    expect(bottleLife(done, 0, baths).filmsLeft).toMatchObject({ low: 0, usual: 2 });
    // its own batch goes before its sheet
    expect(bottleLife(developer(), 0, baths).filmsLeft.usual).toBe(
      recipe('ecn2-developer').capacity.filmsPerLitre,
    );
  });
  it('is not replenished by another process’s rates, nor given its times', () => {
    const used = other({ filmAreaM2: 2 });
    expect(replenishAdvice(used, { rate: 'c-41' })).toBeNull();
    expect(replenishAdvice(used)?.addMl).toBeGreaterThan(0);
    expect(replenishAdvice(developer({ filmAreaM2: 2 }), { rate: 'c-41' })?.addMl).toBeGreaterThan(0);
    const slow = bottleOf('fixer', 'ecn2-fixer-sodium', { recipe: null });
    expect(changedTime(slow, { rate: 'c-41' })).toBeNull();
    expect(changedTime({ ...slow, recipe: 'ecn2-fixer-sodium' }, { rate: 'c-41' })?.factor).toBe(2);
  });
});

describe('the life of a bottle', () => {
  const perLitre = recipe('ecn2-developer').capacity.filmsPerLitre;
  it('fresh: so many films a litre as the recipe says, two thirds of it for sure, the published rate at most', () => {
    const life = bottleLife(developer(), 0);
    const usual = perLitre * oneFilm;
    expect(life).toMatchObject({ bottle: 1, areaDoneM2: 0, limit: 'film', spoilt: null, ageDays: 0 });
    expect(life.areaLeftM2.low).toBeCloseTo(usual * BAND_LOW, 9);
    expect(life.areaLeftM2.usual).toBeCloseTo(usual, 9);
    expect(life.areaLeftM2.high).toBeCloseTo(
      (HUNDRED_FEET_35MM_M2 / (rateOf('developer')?.per100ftMl ?? 1)) * 1000,
      9,
    );
    expect(life.filmsLeft).toEqual({
      low: Math.floor(perLitre * BAND_LOW + 1e-9),
      usual: perLitre,
      high: 20,
      film: USUAL_FILM,
    });
    const half = bottleLife(developer(worked('developer', 0, 500)), 0);
    expect(half.areaLeftM2.usual).toBeCloseTo(usual / 2, 9);
  });
  it('used: what was done is taken off, down to nothing', () => {
    const life = bottleLife(developer(worked('developer', 2 * oneFilm)), 0);
    expect(life.areaDoneM2).toBeCloseTo(2 * oneFilm, 12);
    expect(life.filmsLeft).toMatchObject({ usual: perLitre - 2 });
    expect(bottleLife(developer(worked('developer', 50)), 0).areaLeftM2).toEqual({
      low: 0,
      usual: 0,
      high: 0,
    });
  });
  it('counted in films of another kind', () => {
    const sheetFilm: FilmRef = { stock: 'x', format: '4x5' };
    const life = bottleLife(developer(), 0, ofRecipes, sheetFilm);
    expect(life.filmsLeft.film).toBe(sheetFilm);
    expect(life.filmsLeft.usual).toBe(Math.floor((perLitre * oneFilm) / filmAreaM2(sheetFilm) + 1e-9));
  });
  it('what is not its own does no work', () => {
    const life = bottleLife(
      developer({
        contents: { ...fresh('developer', 500), volumeMl: 900, parts: { developer: 500, water: 400 } },
      }),
      0,
    );
    expect(life.areaLeftM2.usual).toBeCloseTo((perLitre * oneFilm) / 2, 9);
  });
  it('ends by what comes first: nothing in it, wrong, spoilt, old, silver, nothing known, film', () => {
    expect(limitOf(developer({ contents: NOTHING, problems: ['weak'] }))).toBe('empty');
    expect(limitOf(developer({ liquid: null }))).toBe('empty');
    expect(
      limitOf(
        developer({ liquid: 'mystery', recipe: null, contents: fresh('mystery', 500), problems: ['weak'] }),
      ),
    ).toBe('faulty');
    expect(limitOf(developer({ ...mixedWith('fixer', 30), problems: ['weak'] }), 900 * dayMs)).toBe('faulty');
    expect(limitOf(developer(mixedWith('fixer', 30)), 900 * dayMs)).toBe('spoiled');
    expect(limitOf(developer(mixedWith('prebath', 5)))).toBe('film');
    expect(limitOf(developer(), 900 * dayMs)).toBe('age');
    expect(limitOf(developer())).toBe('film');
  });
  it('has nothing left that could be counted on once it is wrong, spoilt or full of silver', () => {
    for (const more of [{ problems: ['weak'] }, mixedWith('fixer', 30)]) {
      const life = bottleLife(developer(more), 0);
      expect(life.areaLeftM2).toMatchObject({ low: 0, usual: 0 });
      expect(life.areaLeftM2.high).toBeGreaterThan(0);
      expect(life.filmsLeft).toMatchObject({ low: 0, usual: 0 });
    }
    const silverM2 = fixerSilverLimitGPerL.usual / filmSilver.coatedGPerM2.usual;
    const fixer = (m2: number) => bottleOf('fixer', 'ecn2-fixer', worked('fixer', m2));
    expect(limitOf(fixer(silverM2))).toBe('film');
    expect(limitOf(fixer(silverM2 * 1.001))).toBe('silver');
    expect(bottleLife(fixer(silverM2 * 1.001), 0).filmsLeft).toMatchObject({ low: 0, usual: 0 });
    expect(limitOf(bottleOf('fixer', 'ecn2-fixer', worked('fixer', silverM2 * 1.001, 2000)))).toBe('film');
  });
  it('says its age by the day it was mixed, and what it keeps once it was used', () => {
    const { unusedDays, usedDays } = recipe('ecn2-developer').keeping;
    expect(usedDays).toBeLessThan(unusedDays);
    const life = (more: Partial<BottleRecord>, days: number) => bottleLife(developer(more), days * dayMs);
    expect(life({}, 3)).toMatchObject({ ageDays: 3, keepDaysLeft: unusedDays - 3 });
    expect(life(worked('developer', 0.01), 3)).toMatchObject({ ageDays: 3, keepDaysLeft: usedDays - 3 });
    expect(life({}, unusedDays)).toMatchObject({ keepDaysLeft: 0, limit: 'film' });
    expect(life({}, unusedDays + 0.5)).toMatchObject({ keepDaysLeft: -0.5, limit: 'age' });
    expect(life({}, -2)).toMatchObject({ ageDays: 0, keepDaysLeft: unusedDays });
    expect(life({ mixedWallMs: null, filledWallMs: null }, 900)).toMatchObject({
      ageDays: null,
      keepDaysLeft: null,
      limit: 'film',
    });
    expect(life({ mixedWallMs: null, filledWallMs: dayMs }, 4).ageDays).toBe(3);
  });
  it('is enough for so many more films, or just, or not', () => {
    const life = bottleLife(developer(), 0);
    const { low, usual } = life.filmsLeft;
    expect([low, low + 1, usual, usual + 1].map((n) => enoughFor(life, n))).toEqual([
      'yes',
      'tight',
      'tight',
      'no',
    ]);
    expect(enoughFor(bottleLife(developer(mixedWith('prebath', 100)), 0), 1)).toBe('tight');
    expect(enoughFor(bottleLife(developer(mixedWith('prebath', 5)), 0), 1)).toBe('yes');
    for (const limit of ['age', 'spoiled', 'faulty', 'silver', 'empty', 'unknown'] as const)
      expect(enoughFor({ ...life, limit }, 1), limit).toBe('no');
    expect(enoughFor({ ...life, limit: 'film' }, 1)).toBe('yes');
  });
});

describe('a recipe', () => {
  it('is the batch’s own, else the first of that liquid', () => {
    expect(recipeOf({ recipe: 'ecn2-fixer-sodium', liquid: 'fixer' })?.id).toBe('ecn2-fixer-sodium');
    expect(recipeOf({ recipe: null, liquid: 'fixer' })?.id).toBe(
      recipes.find((r) => r.liquid === 'fixer')?.id,
    );
    expect(recipeOf({ recipe: null, liquid: null })).toBeUndefined();
  });
  it('has a capacity, and none where nothing is known', () => {
    expect(capacityM2PerL(undefined)).toBeNull();
    const unrated = recipes.find((r) => rateOf(r.liquid) === undefined);
    if (unrated) {
      const found = capacityM2PerL(unrated);
      expect(found?.high).toBe(found?.usual);
    }
    // a customary figure above the published one stands
    const generous = {
      ...recipe('ecn2-developer'),
      capacity: { ...recipe('ecn2-developer').capacity, filmsPerLitre: 500 },
    };
    expect(capacityM2PerL(generous)?.high).toBeCloseTo(500 * oneFilm, 9);
  });
});

it('what film leaves in a bath: all its silver in the fixer, and in no other', () => {
  const of = (liquid: string) =>
    bottleLife(bottleOf(liquid, `ecn2-${liquid}`, worked(liquid, 0.3)), 0).silverGPerL;
  for (const k of ['low', 'usual', 'high'] as const)
    expect(of('fixer')?.[k]).toBeCloseTo(0.3 * filmSilver.coatedGPerM2[k], 9);
  for (const liquid of ['developer', 'stop', 'bleach']) expect(of(liquid)).toBeNull();
});

describe('replenishing', () => {
  const perM2 = (rateOf('developer')?.per100ftMl ?? 0) / HUNDRED_FEET_35MM_M2;
  it('asks for what the film owes, less what was given, and for room in the bottle', () => {
    const advice = (more: Partial<BottleRecord>) => replenishAdvice(developer({ capacityMl: null, ...more }));
    expect(advice({ filmAreaM2: 0.5 })).toEqual({
      bottle: 1,
      addMl: Math.round(0.5 * perM2),
      removeMl: 0,
      regenerate: null,
    });
    expect(advice({ filmAreaM2: 0.5, replenishedMl: 100 })?.addMl).toBe(Math.round(0.5 * perM2 - 100));
    expect(advice({ filmAreaM2: 0.5, replenishedMl: 900 })?.addMl).toBe(0);
    const owed = Math.round(0.5 * perM2);
    expect(advice({ filmAreaM2: 0.5, capacityMl: 1100 })).toMatchObject({
      addMl: owed,
      removeMl: owed - 100,
    });
    expect(advice({ filmAreaM2: 0.5, capacityMl: 2000 })?.removeMl).toBe(0);
    expect(advice({ filmAreaM2: 0.5, capacityMl: 900 })?.removeMl).toBe(owed);
  });
  it('has no rate for a bath it does not know', () => {
    expect(replenishAdvice(developer({ liquid: 'mystery' }))).toBeNull();
    expect(replenishAdvice(developer({ liquid: null }))).toBeNull();
  });
  it('gives a used bleach its bromide back mole for mole, of persulphate less, for what is left over frees bromine', () => {
    const bleach = (work: number) =>
      replenishAdvice(bottleOf('bleach', 'ecn2-bleach', worked('bleach', work)))?.regenerate;
    const mol = (2 * filmSilver.coatedGPerM2.usual * filmSilver.developedShare.usual) / molar.silver;
    const whole = (mol / 2) * molar.potassiumPersulphate;
    expect(bleach(2)?.potassiumPersulphateG).toBeLessThan(0.9 * whole);
    expect(bleach(2)?.potassiumPersulphateG).toBeGreaterThan(0.75 * whole);
    expect(bleach(2)?.sodiumBromideG).toBeCloseTo(mol * molar.sodiumBromide, 9);
    expect(bleach(0)).toBeNull();
    expect(replenishAdvice(developer(worked('developer', 2)))?.regenerate).toBeNull();
  });
  it('no longer time is made up for a used developer', () => {
    expect(compensationFor(developer())).toMatch(/No longer time is published/);
    expect(compensationFor(bottleOf('fixer', 'ecn2-fixer'))).toBeNull();
    expect(compensationFor(developer({ liquid: null }))).toBeNull();
  });
});

describe('a wrong pour', () => {
  const pour = (liquid: string, volumeMl: number): Contamination => ({
    wallMs: 0,
    liquid,
    volumeMl,
    intoLiquid: 'developer',
    intoMl: 1000,
  });
  it('is judged by all that is in the bottle, and the largest is named', () => {
    const both = developer({
      contents: { volumeMl: 1035, parts: { developer: 1000, prebath: 5, fixer: 30 }, workM2: 0, traces: [] },
      contaminations: [pour('prebath', 5), pour('fixer', 30)],
    });
    expect(worstContamination(both)).toMatchObject({
      contamination: { liquid: 'fixer', volumeMl: 30 },
      verdict: 'discard',
      why: expect.stringMatching(/thiosulphate/i),
      strength: expect.closeTo(1000 / 1035, 2),
    });
    expect(worstContamination(both)).toBe(worstContamination(both));
    expect(
      worstContamination({ ...both, contaminations: both.contaminations.toReversed() })?.contamination.liquid,
    ).toBe('fixer');
  });
  it('too little to matter has no why; of what is not known there is no verdict', () => {
    expect(worstContamination(developer(mixedWith('prebath', 5)))).toMatchObject({ verdict: 'use', why: '' });
    expect(worstContamination(developer(mixedWith('prebath', 100)))).toMatchObject({
      verdict: 'care',
      why: expect.stringMatching(/./),
    });
    expect(worstContamination(developer(mixedWith('mystery', 100)))).toMatchObject({ verdict: null });
  });
  it('that leaves the bath fit has no why, though the bath itself takes longer than another', () => {
    const fixer = bottleOf('fixer', 'ecn2-fixer-sodium', {
      contents: { volumeMl: 1005, parts: { fixer: 1000, water: 5 }, workM2: 0, traces: [] },
      contaminations: [{ wallMs: 0, liquid: 'water', volumeMl: 5, intoLiquid: 'fixer', intoMl: 1000 }],
    });
    expect(worstContamination(fixer)).toMatchObject({ verdict: 'use', why: '', time: { factor: 2 } });
  });
  it('is nothing where there was none, in an empty bottle, or in one without a label', () => {
    expect(worstContamination(developer())).toBeNull();
    expect(worstContamination(developer({ ...mixedWith('fixer', 30), liquid: null }))).toBeNull();
    expect(worstContamination(developer({ ...mixedWith('fixer', 30), contents: NOTHING }))).toBeNull();
    expect(worstContamination(developer(mixedWith('fixer', 0.1, 0.4)))).not.toBeNull();
  });
  it('shares that came over, the largest first, from a thousandth on', () => {
    const parts = { developer: 979, prebath: 5, fixer: 15, stop: 1 };
    expect(carryOver(developer({ contents: { volumeMl: 1000, parts, workM2: 0, traces: [] } }))).toEqual([
      { liquid: 'fixer', share: 0.015 },
      { liquid: 'prebath', share: 0.005 },
      { liquid: 'stop', share: 0.001 },
    ]);
    const less = { developer: 999.1, stop: 0.9 };
    expect(
      carryOver(developer({ contents: { volumeMl: 1000, parts: less, workM2: 0, traces: [] } })),
    ).toEqual([]);
    expect(carryOver(developer({ contents: { ...NOTHING, parts: { stop: 1 } } }))).toEqual([]);
  });
});
