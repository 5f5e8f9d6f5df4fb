import { describe, expect, it } from 'vitest';
import { dueOf, fixerLeft, isDone, missing, stepById, stepFor, stepsOf } from '../../src/process/due.js';
import type { ProcessSheet } from '../../src/process/sheet.js';
import { blackAndWhite } from '../../src/process/sheets/black-and-white.js';
import { c41 } from '../../src/process/sheets/c41.js';
import { ecn2Ferricyanide as ecn2 } from '../../src/process/sheets/ecn2-ferricyanide.js';
import { ecn2FerricyanideHome as home } from '../../src/process/sheets/ecn2-ferricyanide-home.js';
import { expose, type FilmState, newFilm } from '../../src/world/film.js';
import type { Role } from '../../src/world/liquids.js';

type Bath = readonly [role: Role, seconds: number, wantedS?: number];
const through = (sheet: ProcessSheet, ...path: Bath[]): FilmState =>
  path.reduce<FilmState>(
    (film, [role, seconds, wantedS]) => expose(film, { role, seconds, ...(wantedS && { wantedS }) }),
    newFilm(sheet.film ?? { backing: true, image: 'dye' }),
  );
const prebath: Bath = ['backing-remover', 10];
const developer: Bath = ['developer', 180, 180];
const stop: Bath = ['stop', 30];
const bleach: Bath = ['bleach', 180];
const fixer: Bath = ['fixer', 120];
const rinse: Bath = ['rinse', 10];
const water = (seconds: number): Bath => ['water', seconds];
const bare = [prebath, water(30)];
const picture = [...bare, developer, stop, water(30)];
const noSilver = [...picture, bleach, water(60)];
const clear = [...noSilver, fixer, water(120)];

const dueAfter = (sheet: ProcessSheet, ...path: Bath[]) => {
  const { step, wash, restS } = dueOf(through(sheet, ...path), sheet);
  return [step?.id ?? null, wash, restS];
};

describe('what is due by the published sheet', () => {
  it.each<[string, Bath[], string | null, string | null, number | null]>([
    ['a film from the camera', [], 'prebath', null, null],
    ['the prebath, for too short a time', [['backing-remover', 4]], 'prebath', null, null],
    ['the prebath', [prebath], 'backing-removal', null, null],
    ['a splash of water after it', [prebath, water(4)], 'backing-removal', null, null],
    [
      'the backing off, and the prebath still clinging',
      [prebath, water(9)],
      'developer',
      'prebath-in-developer',
      null,
    ],
    ['the backing off and washed', bare, 'developer', null, null],
    ['water and no prebath', [water(60)], 'prebath', null, null],
    ['a third of the development', [...bare, ['developer', 60, 180]], 'developer', null, 120],
    ['less development than can be seen', [...bare, ['developer', 10, 180]], 'developer', null, null],
    ['nearly all of the development', [...bare, ['developer', 153, 180]], 'stop', null, null],
    ['the developer', [...bare, developer], 'stop', null, null],
    ['the developer, with the backing on', [developer], 'stop', null, null],
    ['the stop', [...bare, developer, stop], 'wash-after-stop', null, null],
    ['less than half of the wash', [...bare, developer, stop, water(14)], 'wash-after-stop', null, null],
    ['half of the wash', [...bare, developer, stop, water(15)], 'bleach', null, null],
    [
      'the bleach in the place of the stop',
      [...bare, developer, water(60), bleach],
      'wash-after-bleach',
      null,
      null,
    ],
    ['the bleach', [...picture, bleach], 'wash-after-bleach', null, null],
    ['a second of bleach', [...picture, ['bleach', 1]], 'wash-after-stop', null, null],
    ['half of the wash after it', [...picture, bleach, water(29)], 'wash-after-bleach', null, null],
    ['the wash after it', [...picture, bleach, water(30)], 'fixer', null, null],
    ['the wash in two goes', [...picture, bleach, water(20), water(20)], 'fixer', null, null],
    ['the fixer', [...noSilver, fixer], 'wash-after-fixer', null, null],
    ['the wash after the fixer', [...noSilver, fixer, water(59)], 'wash-after-fixer', null, null],
    ['enough of it', [...noSilver, fixer, water(60)], 'final-rinse', null, null],
    ['the final rinse', [...clear, rinse], 'hang', null, null],
    ['the fixer before the bleach', [...picture, fixer], 'bleach', 'fixer-in-bleach', null],
    ['that, and washed', [...picture, fixer, water(10)], 'bleach', null, null],
    ['bleach on no picture', [['bleach', 5]], null, null, null],
    ['fixer on no picture', [['fixer', 5]], null, null, null],
    [
      'the stop left on the film before the developer',
      [...bare, stop],
      'developer',
      'acid-before-developer',
      null,
    ],
    ['the final rinse too early', [...picture, rinse], 'wash-after-stop', null, null],
  ])('after %s', (_, path, step, wash, restS) => {
    expect(dueAfter(ecn2, ...path)).toEqual([step, wash, restS]);
  });

  it('a step that was left out on purpose is not asked for again; its wash still is', () => {
    const skip = (film: FilmState, ...skipped: string[]) => dueOf({ ...film, skipped }, ecn2);
    // the silver stays in it by choice, and the rinse was the last of all
    const silvered: Bath[] = [...picture, fixer, water(120)];
    expect(skip(through(ecn2, ...silvered), 'bleach').step?.id).toBe('final-rinse');
    expect(skip(through(ecn2, ...silvered, rinse), 'bleach').step?.id).toBe('hang');
    expect(skip(through(ecn2, ...picture, rinse), 'bleach').step?.id).toBe('wash-after-stop');
    expect(skip(through(ecn2, ...silvered, rinse), 'stop').step?.id).not.toBe('hang');
    expect(fixerLeft(through(ecn2, fixer))).toBe(true);
    expect(fixerLeft(through(ecn2, ...bare))).toBe(false);
    const developed = through(ecn2, ...bare, developer);
    expect(skip(developed, 'stop')).toMatchObject({ step: { id: 'wash-after-stop' }, wash: null });
    expect(skip(through(ecn2, ...bare, developer, water(60)), 'stop').step?.id).toBe('bleach');
    expect(skip(developed, 'stop', 'wash-after-stop')).toMatchObject({
      step: { id: 'bleach' },
      wash: 'developer-in-bleach',
    });
    // water alone does not take the backing off
    expect(skip(through(ecn2), 'prebath').step?.id).toBe('developer');
    expect(skip(through(ecn2, ...clear), 'final-rinse', 'hang').step).toBeNull();
  });
  it('a film without backing needs no prebath, and its water is only water', () => {
    const plain = newFilm({ backing: false, image: 'dye' });
    expect(dueOf(plain, ecn2).step?.id).toBe('developer');
    const wet = expose(plain, { role: 'backing-remover', seconds: 10 });
    expect(dueOf(wet, ecn2).step?.id).toBe('backing-removal');
    expect(dueOf(expose(wet, { role: 'water', seconds: 9 }), ecn2).step?.id).toBe('backing-removal');
    expect(dueOf(expose(wet, { role: 'water', seconds: 10 }), ecn2).step?.id).toBe('developer');
  });
  it('backing that came through the developer is no longer asked for', () => {
    expect(dueOf(through(ecn2, developer), ecn2).step?.id).toBe('stop');
    const softened = through(ecn2, prebath, developer);
    expect(dueOf(softened, ecn2).step?.id).toBe('stop');
  });
});

describe('what is due by the sheet for the sink at home', () => {
  it('begins with water, and rinses by so many fills', () => {
    const first = stepsOf(home)[0];
    expect(first).toMatchObject({ liquid: 'water' });
    expect(dueAfter(home)[0]).toBe(first?.id);
    const wanted = Math.max(10, (first?.time?.minS ?? 0) / 2);
    expect(dueAfter(home, water(wanted - 1))[0]).toBe(first?.id);
    expect(dueAfter(home, water(wanted))[0]).toBe('prebath');
    // whoever began with the prebath is not sent back to the soak
    expect(dueAfter(home, prebath)[0]).not.toBe(first?.id);
  });
  it('a rinse is done by its fills or by as many times ten seconds, and only when nothing clings', () => {
    const start = [water(600), ...bare, water(30), developer];
    const soaked = stepsOf(home).find((s) => s.fills !== null && s.id.startsWith('stop'));
    expect(soaked).toMatchObject({ fills: 3, kind: 'rinse', liquid: 'water', time: null, agitation: null });
    const dueOnce = (...rinses: Bath[]) => dueAfter(home, ...start, stop, ...rinses)[0];
    expect(dueOnce()).toBe('stop-rinse');
    expect(dueOnce(water(6), water(6))).toBe('stop-rinse');
    expect(dueOnce(water(6), water(6), water(6))).toBe('bleach');
    expect(dueOnce(water(29))).toBe('stop-rinse');
    expect(dueOnce(water(30))).toBe('bleach');
    expect(dueOnce(water(2), water(2), water(2))).toBe('stop-rinse');
  });
  it('its rinses are steps of their own, with the bath’s name before them', () => {
    const steps = stepsOf(home);
    const at = steps.findIndex((s) => s.id === 'stop');
    const [bath, rinsed] = steps.slice(at, at + 2);
    const after = bath?.rinseAfter;
    expect(after?.fills).toBe(3);
    expect(bath).toMatchObject({ fills: null });
    expect(rinsed).toEqual({
      ...bath,
      id: 'stop-rinse',
      name: 'rinse',
      kind: 'rinse',
      liquid: 'water',
      time: null,
      temp: after?.temp,
      agitation: null,
      drain: { leadS: 0, source: after?.source },
      reusable: false,
      returnsToBottle: false,
      filter: false,
      rinseAfter: null,
      cautions: [],
      fills: 3,
    });
    expect(stepsOf(home)).toBe(steps);
    expect(stepsOf(ecn2).map((s) => s.id)).toEqual(ecn2.steps.map((s) => s.id));
  });
});

describe('what is due by the other sheets', () => {
  it.each<[string, ProcessSheet, Bath[], string | null, string | null, number | null]>([
    ['C-41 begins', c41, [], 'developer', null, null],
    ['C-41: bleach straight after the developer', c41, [['developer', 195, 195]], 'bleach', null, null],
    ['C-41: cut short', c41, [['developer', 95, 195]], 'developer', null, 100],
    [
      'C-41: fixer after half of the wash',
      c41,
      [['developer', 195, 195], ['bleach', 390], water(98)],
      'fixer',
      null,
      null,
    ],
    [
      'C-41: final rinse',
      c41,
      [['developer', 195, 195], ['bleach', 390], water(195), ['fixer', 390], water(195)],
      'final-rinse',
      null,
      null,
    ],
    ['black and white begins', blackAndWhite, [], 'developer', null, null],
    ['black and white: the stop', blackAndWhite, [['developer', 405, 405]], 'stop', null, null],
    [
      'black and white: the fixer straight after it',
      blackAndWhite,
      [['developer', 405, 405], stop],
      'fixer',
      null,
      null,
    ],
    [
      'black and white: no stop was had',
      blackAndWhite,
      [['developer', 405, 405], water(60)],
      'stop',
      null,
      null,
    ],
    [
      'black and white: the wash',
      blackAndWhite,
      [['developer', 405, 405], stop, ['fixer', 420]],
      'wash-after-fixer',
      null,
      null,
    ],
    [
      'black and white: washed',
      blackAndWhite,
      [['developer', 405, 405], stop, ['fixer', 420], water(150)],
      'final-rinse',
      null,
      null,
    ],
    [
      'black and white: bleach takes the picture',
      blackAndWhite,
      [['developer', 405, 405], stop, ['bleach', 5]],
      null,
      null,
      null,
    ],
  ])('%s', (_, sheet, path, step, wash, restS) => {
    expect(dueAfter(sheet, ...path)).toEqual([step, wash, restS]);
  });
});

describe('a step of the sheet', () => {
  it('is found by its id, and by its liquid: a bath before a rinse, the first of several', () => {
    expect(stepById(ecn2, 'bleach')?.name).toBe('bleach');
    expect(stepById(ecn2, 'nonsense')).toBeUndefined();
    expect(stepById(ecn2, null)).toBeUndefined();
    expect(stepFor(ecn2, 'water')?.id).toBe('backing-removal');
    expect(stepFor(ecn2, 'stop')?.id).toBe('stop');
    expect(stepFor(ecn2, 'toner')).toBeUndefined();
    const rinseFirst = {
      ...ecn2,
      steps: [
        { ...(ecn2.steps[1] as ProcessSheet['steps'][number]), liquid: 'stop' },
        ...ecn2.steps.slice(2),
      ],
    };
    expect(stepFor(rinseFirst, 'stop')?.id).toBe('stop');
  });
  it('is done when the film shows it', () => {
    const done = (sheet: ProcessSheet, ...path: Bath[]) => {
      const film = through(sheet, ...path);
      return sheet.steps.filter((s) => isDone(film, sheet, s)).map((s) => s.id);
    };
    expect(done(ecn2)).toEqual([]);
    expect(done(ecn2, prebath)).toEqual(['prebath']);
    expect(done(ecn2, ...bare, ['developer', 60, 180])).toEqual(['prebath']);
    expect(done(ecn2, ...bare, developer)).toEqual(['prebath', 'developer']);
    expect(done(ecn2, stop, ...bare, developer)).toEqual(['prebath', 'developer']);
    expect(done(ecn2, ...picture)).toEqual(['prebath', 'developer', 'stop']);
    expect(done(ecn2, ...noSilver)).toEqual(['prebath', 'developer', 'stop', 'bleach']);
    expect(done(ecn2, ...clear)).toEqual(['prebath', 'developer', 'stop', 'bleach', 'fixer']);
    expect(done(ecn2, ...clear, rinse)).toEqual([
      'prebath',
      'developer',
      'stop',
      'bleach',
      'fixer',
      'final-rinse',
    ]);
    expect(done(ecn2, ...picture, fixer)).toEqual(['prebath', 'developer', 'stop', 'fixer']);
    // lost in the fixer: the halide is gone, and nothing was fixed
    expect(done(ecn2, fixer)).toEqual([]);
    expect(done(c41, prebath)).toEqual([]);
    // without backing only the bath itself tells
    const plain = newFilm({ backing: false, image: 'dye' });
    expect(ecn2.steps.filter((s) => isDone(plain, ecn2, s))).toEqual([]);
    expect(
      isDone(
        expose(plain, { role: 'backing-remover', seconds: 10 }),
        ecn2,
        ecn2.steps[0] as ProcessSheet['steps'][number],
      ),
    ).toBe(true);
  });
  it('that is missing is a bath, never water or hanging', () => {
    const lacks = (...path: Bath[]) => missing(through(ecn2, ...path), ecn2).map((s) => s.id);
    expect(lacks()).toEqual(['prebath', 'developer', 'stop', 'bleach', 'fixer', 'final-rinse']);
    expect(lacks(...picture)).toEqual(['bleach', 'fixer', 'final-rinse']);
    expect(lacks(...clear, rinse)).toEqual([]);
  });
});
