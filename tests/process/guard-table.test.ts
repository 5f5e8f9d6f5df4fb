import { describe, expect, it } from 'vitest';
import { phraseRun } from '../../src/language/phrases/run.js';
import { type Bench, defaultBench } from '../../src/process/bench.js';
import { type GuardView, type Judgement, judge, type PourRequest } from '../../src/process/guard.js';
import { type Direction, directions } from '../../src/process/guard-table.js';
import { spokenMove, spokenReason } from '../../src/process/now.js';
import { ecn2Ferricyanide as sheet } from '../../src/process/sheets/ecn2-ferricyanide.js';
import {
  expose,
  type FilmStage,
  type FilmState,
  filmStages,
  freshFilm,
  noFilm,
  stageOf,
} from '../../src/world/film.js';
import type { Role } from '../../src/world/liquids.js';
import type { VesselRef } from '../../src/world/vessel.js';

/** The seven liquids in the order of the columns below; bottles 1 to 6 hold the first six, bottle 7 water. */
const columns = ['prebath', 'developer', 'stop', 'bleach', 'fixer', 'final-rinse', 'water'] as const;
type Liquid = (typeof columns)[number];

const wet = (film: FilmState, ...roles: Role[]): FilmState =>
  roles.reduce((f, role) => expose(f, { role, seconds: 120 }), film);
/** A film in each state, washed, so that nothing clings to it. */
const films: Record<FilmStage, FilmState> = {
  'no-film': noFilm,
  backed: freshFilm,
  softened: { ...wet(freshFilm, 'backing-remover'), carry: null },
  cleared: wet(freshFilm, 'backing-remover', 'water'),
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
  'rec acid-before-developer | RUIN bleach-kills-latent | RUIN fixer-kills-latent | rec wetting-early | ok water-safe';
const intoTank: Record<FilmStage, string> = {
  'no-film': same('no no-film'),
  backed: `ok due | rec backing-in-developer | ${latentTail}`,
  softened: `no again | rec backing-loose | ${latentTail}`,
  cleared: `no backing-already-off | ok due | ${latentTail}`,
  developed:
    'rec prebath-late | RUIN more-development | ok due | ok due | rec fixer-before-bleach | rec wetting-early | ok water-safe',
  'silver-kept':
    'rec taints-bath | rec nothing-to-develop | no no-use | ok due | no again | rec silver-left | ok water-safe',
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

const emptyBench = (): Bench => {
  const bench = defaultBench(sheet, { tankMl: 500, bottleVolumeMl: 500, bottleCapacityMl: 2000 });
  bench.bottles['7'] = { liquid: 'water', volumeMl: 500, capacityMl: 2000, assumed: false };
  return bench;
};
const bottle = (liquid: Liquid): VesselRef => ({ kind: 'bottle', number: columns.indexOf(liquid) + 1 });

function view(film: FilmState, bench: Bench): GuardView {
  return {
    sheet,
    film,
    filmBefore: film,
    filmKnown: true,
    bench,
    funnelMl: 1000,
    tempOf: () => null,
    earlyS: null,
  };
}

function ask(film: FilmState, liquid: Liquid, direction: Direction): Judgement {
  const bench = emptyBench();
  const loose = { liquid, volumeMl: 500, tainted: null };
  const requests: Record<Direction, PourRequest> = {
    'bottle-to-tank': { kind: 'in', liquid, from: bottle(liquid) },
    'tank-to-bottle': { kind: 'back', liquid, to: bottle(liquid) },
    'jug-to-bottle': { kind: 'between', liquid, from: { kind: 'jug' }, to: bottle(liquid) },
    'bottle-to-bottle': { kind: 'between', liquid, from: { kind: 'bottle', number: 8 }, to: bottle(liquid) },
    'tank-to-sink': { kind: 'away', liquid, from: { kind: 'tank' } },
  };
  if (direction.startsWith('tank')) bench.tank = loose;
  if (direction === 'jug-to-bottle') bench.jugs = [loose];
  if (direction === 'bottle-to-bottle')
    bench.bottles['8'] = { liquid, volumeMl: 500, capacityMl: 1000, assumed: false };
  return judge(requests[direction], view(film, bench));
}

describe('every film state × solution × direction has a stated verdict and reason', () => {
  it('the films are in the states they are named for', () => {
    for (const stage of filmStages) expect(stageOf(films[stage]), stage).toBe(stage);
  });
  for (const direction of directions)
    for (const stage of filmStages)
      it(`${direction}, film ${stage}`, () => {
        const cells = grid(expected[direction](stage));
        expect(cells).toHaveLength(columns.length);
        columns.forEach((liquid, i) => {
          const judgement = ask(films[stage], liquid, direction);
          const [code, reason] = cells[i] ?? ['ok', ''];
          expect([liquid, judgement.verdict, judgement.reason]).toEqual([liquid, verdicts[code], reason]);
          if (judgement.verdict === 'ask') return;
          const v = view(films[stage], emptyBench());
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
        const bench = emptyBench();
        bench.tank = { liquid, volumeMl: 500, tainted: null };
        const to: VesselRef = { kind: 'bottle', number: i + 1 };
        const judgement = judge({ kind: 'back', liquid, to }, view(films.finished, bench));
        expect([i + 1, judgement.verdict, judgement.reason]).toEqual([i + 1, verdicts[code], reason]);
      });
    });
  it('water dilutes any bath it is poured into', () => {
    for (const number of [1, 2, 3, 4, 5, 6]) {
      const bench = { ...emptyBench(), tank: { liquid: 'water', volumeMl: 500, tainted: null } };
      const judgement = judge(
        { kind: 'back', liquid: 'water', to: { kind: 'bottle', number } },
        view(films.fixed, bench),
      );
      expect([judgement.verdict, judgement.reason]).toEqual(['ruinous', 'dilutes']);
    }
  });
});

describe('what clings to the film counts', () => {
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
  ] as const)('%s on %s film, then %s: %s', (carry, stage, liquid, verdict, reason) => {
    const judgement = ask({ ...films[stage], carry }, liquid, 'bottle-to-tank');
    expect([judgement.verdict, judgement.reason]).toEqual([verdict, reason]);
  });
});
