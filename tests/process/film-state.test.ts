import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fixerLeft, washedShort } from '../../src/process/due.js';
import { ecn2Ferricyanide as sheet } from '../../src/process/sheets/ecn2-ferricyanide.js';
import {
  type Contact,
  expose,
  type FilmState,
  freshFilm,
  hadS,
  newFilm,
  noFilm,
  stageOf,
  washedAfterS,
} from '../../src/world/film.js';
import { type Role, roles } from '../../src/world/liquids.js';

const through = (...path: [Role, number][]) =>
  path.reduce((film, [role, seconds]) => expose(film, { role, seconds }), freshFilm);

describe('film state', () => {
  it('a whole process ends finished, with the backing off and no silver', () => {
    const film = through(
      ['backing-remover', 10],
      ['water', 60],
      ['developer', 180],
      ['stop', 30],
      ['water', 30],
      ['bleach', 180],
      ['water', 60],
      ['fixer', 120],
      ['water', 120],
      ['rinse', 10],
    );
    expect(stageOf(film)).toBe('finished');
    expect(film).toMatchObject({
      backing: 'off',
      silver: false,
      halide: false,
      bleached: true,
      carry: 'rinse',
    });
  });
  it('one second of bleach or fixer loses a latent image; no time at all does not', () => {
    expect(stageOf(through(['bleach', 1]))).toBe('lost');
    expect(stageOf(through(['fixer', 1]))).toBe('lost');
    expect(stageOf(through(['bleach', 0]))).toBe('backed');
  });
  it('fixer before bleach can be made good: bleach it and fix it again', () => {
    const kept = through(['developer', 180], ['stop', 30], ['fixer', 120], ['water', 60]);
    expect(stageOf(kept)).toBe('silver-kept');
    const bleached = expose(kept, { role: 'bleach', seconds: 180 });
    expect(stageOf(bleached)).toBe('bleached');
    expect(stageOf(expose(bleached, { role: 'fixer', seconds: 120 }))).toBe('fixed');
  });
  it('developer after bleach loses the picture, after fixer it does not', () => {
    const bleached = through(['developer', 180], ['stop', 30], ['bleach', 180], ['water', 60]);
    expect(stageOf(expose(bleached, { role: 'developer', seconds: 20 }))).toBe('lost');
    const fixed = expose(bleached, { role: 'fixer', seconds: 120 });
    expect(stageOf(expose(fixed, { role: 'developer', seconds: 20 }))).toBe('fixed');
  });
  it('a lost picture never comes back, and ten seconds of water leave nothing clinging', () => {
    const contact = fc.tuple(fc.constantFrom(...roles), fc.integer({ min: 0, max: 600 }));
    fc.assert(
      fc.property(fc.array(contact, { maxLength: 12 }), (path) => {
        let film = freshFilm;
        let lost = false;
        for (const [role, seconds] of path) {
          const before = film.carry;
          film = expose(film, { role, seconds });
          if (lost) expect(film.image).toBe('lost');
          lost = film.image === 'lost';
          if (role !== 'water') expect(film.carry).toBe(role);
          else if (seconds >= 10) expect(film.carry).toBeNull();
          else expect(film.carry).toBe(before);
        }
      }),
    );
  });
});

describe('how long a bath must touch the film', () => {
  const had = (film: FilmState, role: Role, seconds: number, more: Partial<Contact> = {}) =>
    expose(film, { role, seconds, ...more });
  const bare = through(['backing-remover', 10], ['water', 60]);
  const developed = through(['developer', 180], ['stop', 30], ['water', 60]);
  const bleached = had(developed, 'bleach', 180);

  it('backing softens in five seconds, and comes off in five more of water', () => {
    expect(had(freshFilm, 'backing-remover', 4).backing).toBe('on');
    expect(had(freshFilm, 'backing-remover', 5).backing).toBe('softened');
    const soft = had(freshFilm, 'backing-remover', 5);
    expect(had(soft, 'water', 4).backing).toBe('softened');
    expect(had(soft, 'water', 5).backing).toBe('off');
    expect(had(soft, 'backing-remover', 60).backing).toBe('softened');
    expect(had(freshFilm, 'water', 60).backing).toBe('on');
    expect(had(bare, 'backing-remover', 60).backing).toBe('off');
  });
  it('a picture shows after fifteen seconds of developer, and is whole at 85 hundredths of what is wanted', () => {
    expect(had(bare, 'developer', 14)).toMatchObject({ image: 'latent', developedS: 14, silver: false });
    expect(had(bare, 'developer', 15)).toMatchObject({ image: 'developed', developedS: 15, silver: true });
    const wanted = { wantedS: 200 };
    expect(had(bare, 'developer', 169, wanted)).toMatchObject({ image: 'part-developed', silver: true });
    expect(had(bare, 'developer', 170, wanted).image).toBe('developed');
    // in two goes, and by what it did at its temperature
    const part = had(bare, 'developer', 100, wanted);
    expect(had(part, 'developer', 69, wanted)).toMatchObject({ image: 'part-developed', developedS: 169 });
    expect(had(part, 'developer', 70, wanted)).toMatchObject({ image: 'developed', developedS: 170 });
    expect(had(bare, 'developer', 100, { wantedS: 200, effectiveS: 180 })).toMatchObject({
      image: 'developed',
      developedS: 180,
    });
    expect(had(bare, 'developer', 300, { wantedS: 200, effectiveS: 100 })).toMatchObject({
      image: 'part-developed',
    });
    // what was whole stays whole, whatever is wanted now
    expect(had(developed, 'developer', 1, { wantedS: 900 }).image).toBe('developed');
  });
  it('acid, bleach or fixer end a development that was cut short; water does not', () => {
    const part = had(bare, 'developer', 60, { wantedS: 180 });
    expect(stageOf(part)).toBe('part-developed');
    expect(had(part, 'water', 60).image).toBe('part-developed');
    for (const role of ['stop', 'bleach', 'fixer'] as const)
      expect(had(part, role, 20).image, role).toBe('developed');
    expect(stageOf(had(part, 'bleach', 20))).toBe('bleached');
    for (const role of ['stop', 'backing-remover', 'water', 'rinse'] as const)
      expect(had(bare, role, 20).image, role).toBe('latent');
  });
  it('bleach and fixer take fifteen seconds for their work on a picture', () => {
    expect(had(developed, 'bleach', 14)).toMatchObject({ bleached: false, silver: true, halide: true });
    expect(had(developed, 'bleach', 15)).toMatchObject({ bleached: true, silver: false, halide: true });
    expect(had(bleached, 'fixer', 14).halide).toBe(true);
    expect(had(bleached, 'fixer', 15).halide).toBe(false);
    expect(had(developed, 'fixer', 15)).toMatchObject({ halide: false, image: 'developed', silver: true });
    for (const role of ['bleach', 'fixer', 'developer'] as const)
      expect(had(bleached, role, 0), role).toMatchObject({
        image: 'developed',
        bleached: true,
        halide: true,
      });
    // no silver to take: nothing is bleached
    expect(had({ ...developed, silver: false }, 'bleach', 60)).toMatchObject({ bleached: false });
    expect(had({ ...bare, image: 'part-developed', silver: true }, 'bleach', 60)).toMatchObject({
      bleached: true,
      image: 'developed',
    });
  });
  it('a latent picture is gone at once in bleach or fixer, with its halide in the fixer', () => {
    expect(had(bare, 'bleach', 0.5)).toMatchObject({ image: 'lost', halide: true });
    expect(had(bare, 'fixer', 0.5)).toMatchObject({ image: 'lost', halide: false });
    for (const role of ['bleach', 'fixer'] as const) expect(had(bare, role, 0).image).toBe('latent');
  });
  it('developer does nothing where there is no halide, and fogs everything where it was bleached', () => {
    const fixed = had(bleached, 'fixer', 60);
    expect(had(fixed, 'developer', 60)).toMatchObject({
      image: 'developed',
      developedS: 180,
      bleached: true,
    });
    expect(had(bleached, 'developer', 0.5)).toMatchObject({ image: 'lost' });
    const lost = had(bare, 'bleach', 5);
    expect(had(lost, 'developer', 60)).toMatchObject({ image: 'lost', developedS: 0 });
  });
  it('plain water carries off what clings in ten seconds, developer in 45, added up', () => {
    expect(washedAfterS('developer')).toBe(45);
    for (const carry of ['stop', 'bleach', 'fixer', 'rinse', 'backing-remover', null] as const)
      expect(washedAfterS(carry)).toBe(10);
    const wet = had(bare, 'developer', 60);
    expect(had(wet, 'water', 44)).toMatchObject({ carry: 'developer', washS: 44, washFills: 1 });
    expect(had(wet, 'water', 45)).toMatchObject({ carry: null, washS: 45, washFills: 1 });
    expect(had(had(wet, 'water', 25), 'water', 20)).toMatchObject({ carry: null, washS: 45, washFills: 2 });
    expect(had(had(developed, 'stop', 5), 'water', 9).carry).toBe('stop');
    expect(had(had(developed, 'stop', 5), 'water', 10).carry).toBeNull();
    expect(had(had(wet, 'water', 45), 'stop', 0)).toMatchObject({ carry: 'stop', washS: 0, washFills: 0 });
  });
  it('the final rinse finishes a film that is developed, bleached and fixed, and any other bath undoes that', () => {
    const fixed = through(['developer', 180], ['stop', 30], ['bleach', 60], ['fixer', 60], ['water', 60]);
    const done = had(fixed, 'rinse', 1);
    expect(done.finished).toBe(true);
    expect(had(bleached, 'rinse', 60).finished).toBe(false);
    expect(had(had(developed, 'fixer', 60), 'rinse', 60).finished).toBe(false);
    expect(had(bare, 'rinse', 60).finished).toBe(false);
    expect(had({ ...fixed, image: 'lost' }, 'rinse', 60).finished).toBe(false);
    for (const role of roles)
      expect(had(done, role, 20).finished, role).toBe(role === 'water' || role === 'rinse');
    const silver = newFilm({ backing: false, image: 'silver' });
    const negative = [
      ['developer', 400],
      ['stop', 30],
      ['fixer', 400],
      ['water', 60],
    ] as const;
    const whole = negative.reduce<FilmState>((f, [role, s]) => had(f, role, s), silver);
    expect(stageOf(whole)).toBe('fixed');
    expect(had(whole, 'rinse', 30).finished).toBe(true);
    expect(stageOf(had(whole, 'bleach', 1))).toBe('lost');
  });
  it('a tank without film carries what was in it, and nothing else', () => {
    expect(had(noFilm, 'fixer', 60)).toEqual({ ...noFilm, carry: 'fixer' });
    expect(had(had(noFilm, 'fixer', 60), 'water', 20)).toEqual({ ...noFilm, washS: 20, washFills: 1 });
    expect(stageOf(noFilm)).toBe('no-film');
  });
  it('every contact is in the film’s history, in order', () => {
    const film = through(['backing-remover', 10], ['water', 20]);
    expect(film.history).toEqual([
      { role: 'backing-remover', seconds: 10 },
      { role: 'water', seconds: 20 },
    ]);
    expect(newFilm({ backing: true, image: 'dye' })).toEqual(freshFilm);
    expect(newFilm({ backing: false, image: 'silver' })).toMatchObject({ backing: 'off', loaded: true });
  });
  it('has had of a bleach what it had with nothing but water between, be it the first bath of all', () => {
    expect(hadS(through(['bleach', 60], ['water', 10], ['bleach', 30], ['water', 10]), 'bleach', 180)).toBe(
      90,
    );
    expect(hadS(through(['bleach', 60], ['fixer', 30], ['bleach', 30]), 'bleach', 180)).toBe(30);
    expect(hadS(through(['bleach', 60], ['water', 10], ['bleach', 120]), 'bleach', 180)).toBe(0);
  });
});

describe('what water leaves', () => {
  it('of a fixer is still in the film until ten seconds of it, whatever came after', () => {
    const left = (...after: [Role, number][]) => fixerLeft(through(['fixer', 120], ...after));
    expect(fixerLeft(through(['developer', 180]))).toBe(false);
    expect(left()).toBe(true);
    expect(left(['water', 9.5], ['rinse', 60])).toBe(true);
    expect(left(['water', 10])).toBe(false);
    expect(left(['water', 6], ['rinse', 60], ['water', 4])).toBe(false);
  });
  it('that was out too soon does harm in the bath after that wash, and ruins nothing', () => {
    const start: [Role, number][] = [
      ['backing-remover', 10],
      ['water', 60],
      ['developer', 180],
      ['stop', 30],
      ['water', 30],
    ];
    const bleached: [Role, number][] = [...start, ['bleach', 180]];
    const short = (liquid: string, ...path: [Role, number][]) => washedShort(through(...path), sheet, liquid);
    expect(short('fixer', ...bleached, ['water', 12])?.entry).toEqual(['recoverable', 'bleach-in-fixer']);
    expect(short('water', ...bleached, ['water', 12])).toBeNull();
    expect(short('fixer', ...bleached, ['water', 60])).toBeNull();
    expect(short('fixer', ...bleached, ['water', 5])).toBeNull();
    expect(short('fixer', ...bleached)).toBeNull();
    expect(short('developer', ['water', 12])).toBeNull();
  });
});
