import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { expose, freshFilm, stageOf } from '../../src/world/film.js';
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
