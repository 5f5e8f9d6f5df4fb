import { describe, expect, it } from 'vitest';
import { phraseRun } from '../../src/language/languages/english/phrases/run.js';
import { type GuardView, type Judgement, judge, type PourRequest } from '../../src/process/guard.js';
import { carriedEntry } from '../../src/process/guard-table.js';
import { spokenMove, spokenReason } from '../../src/process/now.js';
import { ecn2Ferricyanide as sheet } from '../../src/process/sheets/ecn2-ferricyanide.js';
import { fresh } from '../../src/world/contents.js';
import type { Fact } from '../../src/world/fact.js';
import {
  expose,
  type FilmStage,
  type FilmState,
  freshFilm,
  newFilm,
  noFilm,
  stageOf,
} from '../../src/world/film.js';
import type { Role } from '../../src/world/liquids.js';
import type { World } from '../../src/world/records.js';
import type { VesselRef } from '../../src/world/vessel.js';
import { holds, inTank, sinkOf, viewOf } from './sink.js';

/** The seven liquids in the order of the columns below; bottles 1 to 6 hold the first six, bottle 7 water. */
const columns = ['prebath', 'developer', 'stop', 'bleach', 'fixer', 'final-rinse', 'water'] as const;
type Liquid = (typeof columns)[number];

/** From where to where a liquid can go. */
const directions = [
  'bottle-to-tank',
  'tank-to-bottle',
  'jug-to-bottle',
  'bottle-to-bottle',
  'tank-to-sink',
] as const;
type Direction = (typeof directions)[number];

const wet = (film: FilmState, ...roles: Role[]): FilmState =>
  roles.reduce((f, role) => expose(f, { role, seconds: 120 }), film);
/** Developed for a third of the time that the process wants, and taken out. */
const partDeveloped = (film: FilmState): FilmState =>
  wet(expose(film, { role: 'developer', seconds: 60, wantedS: 180 }), 'water');
/** A film in each state, washed, so that nothing clings to it. */
const films: Record<FilmStage, FilmState> = {
  'no-film': noFilm,
  backed: freshFilm,
  softened: { ...wet(freshFilm, 'backing-remover'), carry: null },
  cleared: wet(freshFilm, 'backing-remover', 'water'),
  'part-developed': partDeveloped(wet(freshFilm, 'backing-remover', 'water')),
  developed: wet(freshFilm, 'backing-remover', 'water', 'developer', 'stop', 'water'),
  'silver-kept': wet(freshFilm, 'backing-remover', 'water', 'developer', 'stop', 'fixer', 'water'),
  bleached: wet(freshFilm, 'backing-remover', 'water', 'developer', 'stop', 'water', 'bleach', 'water'),
  fixed: wet(
    freshFilm,
    'backing-remover',
    'water',
    'developer',
    'stop',
    'water',
    'bleach',
    'water',
    'fixer',
    'water',
  ),
  finished: {
    ...wet(freshFilm, 'developer', 'stop', 'water', 'bleach', 'water', 'fixer', 'water', 'rinse'),
    carry: null,
  },
  lost: wet(freshFilm, 'bleach', 'water'),
};

/** ok: clear, no: harmless, rec: recoverable, RUIN: ruinous; then the reason. Stated here by hand. */
const verdicts = { ok: 'clear', no: 'harmless', rec: 'recoverable', RUIN: 'ruinous' } as const;
const grid = (text: string): [keyof typeof verdicts, string][] =>
  text
    .trim()
    .split(/\s*\|\s*/)
    .map((cell) => cell.split(' ') as [keyof typeof verdicts, string]);

const same = (cell: string): string => Array(7).fill(cell).join(' | ');
const latentTail =
  'rec stop-before-developer | RUIN bleach-kills-latent | RUIN fixer-kills-latent | rec wetting-early | ok water-safe';
const intoTank: Record<FilmStage, string> = {
  'no-film': same('no no-film'),
  backed: `ok due | rec backing-in-developer | ${latentTail}`,
  softened: `no again | rec backing-loose | ${latentTail}`,
  cleared: `no backing-already-off | ok due | ${latentTail}`,
  'part-developed':
    'rec prebath-late | ok rest-of-development | rec developer-short | RUIN developer-in-bleach | rec fixer-before-bleach | rec wetting-early | ok water-safe',
  developed:
    'rec prebath-late | RUIN more-development | ok due | ok due | rec fixer-before-bleach | rec wetting-early | ok water-safe',
  'silver-kept':
    'rec taints-bath | rec nothing-to-develop | no no-use | ok due | rec fixer-before-bleach | rec silver-left | ok water-safe',
  bleached:
    'rec taints-bath | RUIN redevelops | no no-use | no again | ok due | rec wetting-early | ok water-safe',
  fixed:
    'rec taints-bath | rec nothing-to-develop | no no-use | no no-use | no again | ok due | ok water-safe',
  finished: `${Array(5).fill('rec finished-film').join(' | ')} | no again | no washes-off-rinse`,
  lost: `${Array(6).fill('no image-lost').join(' | ')} | ok water-safe`,
};
const ownBottle = `${Array(6).fill('ok own-bottle').join(' | ')} | `;
const outOfTank = (stage: FilmStage): string =>
  (
    ({
      backed: `ok own-bottle | rec backing-in-developer | ${Array(4).fill('ok own-bottle').join(' | ')} | rec wash-water-back`,
      softened: `ok own-bottle | rec backing-loose | ${Array(4).fill('ok own-bottle').join(' | ')} | rec wash-water-back`,
    }) as Partial<Record<FilmStage, string>>
  )[stage] ?? `${ownBottle}rec wash-water-back`;
const sink = `${Array(6).fill('rec throws-away-good-bath').join(' | ')} | ok waste`;
const expected: Record<Direction, (stage: FilmStage) => string> = {
  'bottle-to-tank': (stage) => intoTank[stage],
  'tank-to-bottle': outOfTank,
  'jug-to-bottle': () => `${ownBottle}ok own-bottle`,
  'bottle-to-bottle': () => `${ownBottle}ok own-bottle`,
  'tank-to-sink': () => sink,
};

/** The bottles in the order of the columns, and whatever else has happened since. */
const worldOf = (...facts: Fact[]): World => sinkOf(holds(7, 'water', 500), ...facts);
const bottle = (liquid: Liquid): VesselRef => ({ kind: 'bottle', number: columns.indexOf(liquid) + 1 });
const view = (film: FilmState, world: World): GuardView => viewOf(world, { film });

function ask(film: FilmState, liquid: Liquid, direction: Direction): Judgement {
  let world = worldOf();
  const requests: Record<Direction, PourRequest> = {
    'bottle-to-tank': { kind: 'in', liquid, from: bottle(liquid) },
    'tank-to-bottle': { kind: 'back', liquid, to: bottle(liquid) },
    'jug-to-bottle': { kind: 'between', liquid, from: { kind: 'jug' }, to: bottle(liquid) },
    'bottle-to-bottle': { kind: 'between', liquid, from: { kind: 'bottle', number: 8 }, to: bottle(liquid) },
    'tank-to-sink': { kind: 'away', liquid, from: { kind: 'tank' } },
  };
  if (direction.startsWith('tank')) world = inTank(world, liquid, film, 500);
  if (direction === 'jug-to-bottle') world = { ...world, jugs: { [liquid]: fresh(liquid, 500) } };
  if (direction === 'bottle-to-bottle')
    world = worldOf({ type: 'bottle-set', bottle: 8, liquid, volumeMl: 500, capacityMl: 1000 });
  return judge(requests[direction], view(film, world));
}

/** A row of the table, cell by cell; what is said of each is short and whole. */
function rowHolds(film: FilmState, row: string, direction: Direction) {
  const cells = grid(row);
  expect(cells).toHaveLength(columns.length);
  columns.forEach((liquid, i) => {
    const judgement = ask(film, liquid, direction);
    const [code, reason] = cells[i] ?? ['ok', ''];
    expect([liquid, judgement.verdict, judgement.reason]).toEqual([liquid, verdicts[code], reason]);
    if (judgement.verdict === 'ask') return;
    const v = view(film, worldOf());
    const said = phraseRun({
      id: 'recoverable',
      move: spokenMove(judgement.move, v),
      reason: judgement.reason,
      about: spokenReason(judgement.params, v),
      also: [],
      checks: judgement.checks,
    });
    expect(said.length, said).toBeLessThan(200);
    expect(said).not.toMatch(/undefined|null|NaN/);
  });
}

const filmStages = Object.keys(films) as FilmStage[];

describe('every film state × solution × direction has a stated verdict and reason', () => {
  it('the films are in the states they are named for', () => {
    for (const stage of filmStages) expect(stageOf(films[stage]), stage).toBe(stage);
  });
  for (const direction of directions)
    for (const stage of filmStages)
      it(`${direction}, film ${stage}`, () => rowHolds(films[stage], expected[direction](stage), direction));
});

describe('where the silver is the picture', () => {
  const camera = newFilm({ backing: false, image: 'silver' });
  const silver: Partial<Record<FilmStage, { film: FilmState; row: string }>> = {
    cleared: { film: camera, row: `no backing-already-off | ok due | ${latentTail}` },
    'part-developed': {
      film: partDeveloped(camera),
      row: 'rec prebath-late | ok rest-of-development | rec developer-short | RUIN bleach-takes-silver | rec developer-short | rec wetting-early | ok water-safe',
    },
    developed: {
      film: wet(camera, 'developer', 'stop', 'water'),
      row: 'rec prebath-late | RUIN more-development | ok due | RUIN bleach-takes-silver | ok due | rec wetting-early | ok water-safe',
    },
    fixed: {
      film: wet(camera, 'developer', 'stop', 'fixer', 'water'),
      row: 'rec taints-bath | rec nothing-to-develop | no no-use | RUIN bleach-takes-silver | no again | ok due | ok water-safe',
    },
    finished: {
      film: { ...wet(camera, 'developer', 'stop', 'fixer', 'water', 'rinse'), carry: null },
      row: 'rec finished-film | rec finished-film | rec finished-film | RUIN bleach-takes-silver | rec finished-film | no again | no washes-off-rinse',
    },
    lost: { film: wet(camera, 'fixer', 'water'), row: intoTank.lost },
  };
  for (const [stage, { film, row }] of Object.entries(silver))
    it(`film ${stage}`, () => {
      expect(stageOf(film)).toBe(stage);
      rowHolds(film, row, 'bottle-to-tank');
    });
});

describe('a bath into each bottle', () => {
  const poured: Record<Exclude<Liquid, 'water'>, string> = {
    prebath: `ok own-bottle | RUIN prebath-in-developer-bottle | ${Array(4).fill('RUIN mixes-baths').join(' | ')}`,
    developer:
      'RUIN mixes-baths | ok own-bottle | RUIN acid-developer-bottle | RUIN bleach-developer-bottle | RUIN fixer-developer-bottle | RUIN mixes-baths',
    stop: 'RUIN mixes-baths | RUIN acid-developer-bottle | ok own-bottle | RUIN acid-ferricyanide-bottle | RUIN acid-thiosulphate-bottle | RUIN mixes-baths',
    bleach:
      'RUIN mixes-baths | RUIN bleach-developer-bottle | RUIN acid-ferricyanide-bottle | ok own-bottle | RUIN bleach-fixer-bottle | RUIN mixes-baths',
    fixer:
      'RUIN mixes-baths | RUIN fixer-developer-bottle | RUIN acid-thiosulphate-bottle | RUIN bleach-fixer-bottle | ok own-bottle | RUIN mixes-baths',
    'final-rinse': `${Array(5).fill('RUIN mixes-baths').join(' | ')} | ok own-bottle`,
  };
  for (const [liquid, row] of Object.entries(poured))
    it(`${liquid}`, () => {
      grid(row).forEach(([code, reason], i) => {
        const world = inTank(worldOf(), liquid, films.finished, 500);
        const to: VesselRef = { kind: 'bottle', number: i + 1 };
        const judgement = judge({ kind: 'back', liquid, to }, view(films.finished, world));
        expect([i + 1, judgement.verdict, judgement.reason]).toEqual([i + 1, verdicts[code], reason]);
      });
    });
  it('water dilutes any bath it is poured into', () => {
    for (const number of [1, 2, 3, 4, 5, 6]) {
      const world = inTank(worldOf(), 'water', films.fixed, 500);
      const judgement = judge(
        { kind: 'back', liquid: 'water', to: { kind: 'bottle', number } },
        view(films.fixed, world),
      );
      expect([judgement.verdict, judgement.reason]).toEqual(['ruinous', 'dilutes']);
    }
  });
});

describe('what clings to the film counts', () => {
  const none = 'ok -';
  /** What clings, a row each, against what goes in, in the order of the columns. */
  const clinging: Record<Exclude<Role, 'water'>, string> = {
    'backing-remover': `${none} | rec prebath-in-developer | ${Array(5).fill(none).join(' | ')}`,
    developer: `rec prebath-late | ${none} | ${none} | RUIN developer-in-bleach | rec developer-in-fixer | rec taints-bath | no water-before-stop`,
    stop: `${none} | rec acid-before-developer | ${none} | rec acid-in-bleach | ${none} | rec taints-bath | ${none}`,
    bleach: `rec taints-bath | RUIN bleach-in-developer | RUIN acid-on-ferricyanide | ${none} | rec bleach-in-fixer | rec taints-bath | ${none}`,
    fixer: `rec taints-bath | RUIN fixer-in-developer | rec acid-on-fixer | rec fixer-in-bleach | ${none} | rec fixer-left | ${none}`,
    rinse: `${none} | rec wetting-in-developer | ${Array(5).fill(none).join(' | ')}`,
  };
  for (const [carry, row] of Object.entries(clinging) as [Exclude<Role, 'water'>, string][])
    it(`${carry}, and what goes in after it`, () => {
      grid(row).forEach(([code, reason], i) => {
        const entry = carriedEntry({ ...films.cleared, carry }, sheet, columns[i] ?? '');
        expect([columns[i], entry]).toEqual([columns[i], reason === '-' ? null : [verdicts[code], reason]]);
      });
      expect(carriedEntry({ ...films.cleared, carry }, sheet, 'toner')).toBeNull();
    });
  it('nothing clings, nothing counts', () => {
    for (const liquid of columns)
      expect(carriedEntry({ ...films.cleared, carry: null }, sheet, liquid)).toBeNull();
  });
  it.each([
    ['developer', 'developed', 'bleach', 'ruinous', 'developer-in-bleach'],
    ['developer', 'developed', 'water', 'harmless', 'water-before-stop'],
    ['developer', 'developed', 'stop', 'clear', 'due'],
    ['stop', 'developed', 'bleach', 'recoverable', 'acid-in-bleach'],
    ['bleach', 'bleached', 'stop', 'ruinous', 'acid-on-ferricyanide'],
    ['bleach', 'bleached', 'fixer', 'recoverable', 'bleach-in-fixer'],
    ['fixer', 'fixed', 'developer', 'ruinous', 'fixer-in-developer'],
    ['fixer', 'fixed', 'final-rinse', 'recoverable', 'fixer-left'],
    ['fixer', 'silver-kept', 'bleach', 'recoverable', 'fixer-in-bleach'],
    ['backing-remover', 'cleared', 'developer', 'recoverable', 'prebath-in-developer'],
    ['developer', 'part-developed', 'developer', 'clear', 'rest-of-development'],
    ['developer', 'part-developed', 'fixer', 'recoverable', 'fixer-before-bleach'],
  ] as const)('%s on %s film, then %s: %s', (carry, stage, liquid, verdict, reason) => {
    const judgement = ask({ ...films[stage], carry }, liquid, 'bottle-to-tank');
    expect([judgement.verdict, judgement.reason]).toEqual([verdict, reason]);
  });
});

describe('what the bath in the bottle has been through counts', () => {
  const poured = (liquid: string, number: number, volumeMl: number): Fact => ({
    type: 'poured',
    from: { kind: 'jug' },
    to: { kind: 'bottle', number },
    liquid,
    volumeMl,
    overridden: true,
  });
  const mixed = (ok: boolean): Fact => ({
    type: 'mixed',
    batch: 'D1',
    recipe: 'ecn2-developer',
    liquid: 'developer',
    volumeMl: 1000,
    bottle: 2,
    ...(!ok && { checks: { ok, why: ['the pH was 0.4 off'] } }),
  });
  const dayMs = 86_400_000;
  it.each([
    ['as it was mixed', [mixed(true)], 0, 'clear', 'due'],
    ['some fixer in it', [mixed(true), poured('fixer', 2, 30)], 0, 'ruinous', 'spoilt'],
    ['a little prebath in it', [mixed(true), poured('prebath', 2, 5)], 0, 'clear', 'due'],
    ['much prebath in it', [mixed(true), poured('prebath', 2, 100)], 0, 'recoverable', 'doubtful-mixture'],
    ['mixed wrongly', [mixed(false)], 0, 'recoverable', 'faulty-batch'],
    ['a year old', [mixed(true)], 365, 'recoverable', 'too-old'],
  ] as const)('%s', (_, facts, days, verdict, reason) => {
    const v = { ...view(films.cleared, worldOf(...facts)), wallMs: days * dayMs };
    const judgement = judge({ kind: 'in', liquid: 'developer', from: bottle('developer') }, v);
    expect([judgement.verdict, judgement.reason]).toEqual([verdict, reason]);
  });
});

describe('acid and a bleach', () => {
  const iron = {
    id: 'iron-bleach',
    name: 'iron bleach',
    spoken: ['iron bleach'],
    role: 'bleach' as const,
    plausibleC: { minC: 10, maxC: 50 },
    cautions: [],
    onSpill: [],
    ferricyanide: false,
  };
  const own = { ...iron, id: 'own-bleach', ferricyanide: undefined };
  const both = { ...sheet, liquids: [iron, own] };
  it.each([
    ['bleach', ['ruinous', 'acid-on-ferricyanide']],
    ['iron-bleach', ['recoverable', 'taints-bath']],
    // nobody said what is in it
    ['own-bleach', ['ruinous', 'acid-on-ferricyanide']],
  ])('on film that comes out of the %s is judged by what that one holds', (liquid, entry) => {
    const film: FilmState = {
      ...films.bleached,
      carry: 'bleach',
      history: [{ role: 'bleach', liquid, seconds: 180 }],
    };
    expect(carriedEntry(film, both, 'stop')).toEqual(entry);
    expect(carriedEntry({ ...film, carry: null }, both, 'stop')).toBeNull();
  });
});
