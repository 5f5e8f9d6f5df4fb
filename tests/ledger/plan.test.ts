import { describe, expect, it } from 'vitest';
import { planDay } from '../../src/ledger/plan/plan-day.js';
import { readDay } from '../../src/ledger/plan/request.js';
import { sheetSeconds, waterFills } from '../../src/ledger/plan/times.js';
import type { DayPlan } from '../../src/ledger/plan/types.js';
import { bottledLiquids } from '../../src/process/sheet.js';
import { sheets } from '../../src/process/sheets/index.js';
import type { Fact } from '../../src/world/fact.js';
import { filmAreaM2 } from '../../src/world/film-area.js';
import { emptyWorld, fold } from '../../src/world/reduce.js';

const MIDNIGHT = Date.UTC(2026, 4, 4);
const nine = MIDNIGHT + 9 * 3_600_000;
const sheet = sheets[0];
if (sheet === undefined) throw new Error('no sheet');
const baths = bottledLiquids(sheet);
const fullShelf = baths.map((liquid, i) => ({ number: i + 1, liquid, volumeMl: 1000 }));
const holds = { '35mm': 2, '120': 1 };

function plan(day: object): DayPlan {
  const request = readDay(
    JSON.stringify({ tank: { volumeMl: 600, holds }, bottles: fullShelf, startsAt: '09:00', ...day }),
    {
      bottles: [],
      sheets,
      midnightWallMs: MIDNIGHT,
      nowWallMs: nine,
    },
  );
  if ('problems' in request) throw new Error(request.problems.join(' '));
  return planDay(request);
}
const film = (more: object = {}) => ({ stock: 'night', format: '35mm', ...more });

describe('a day at the sink', () => {
  it('fills the tank, adds up time and water, and asks for a tankful of each bath', () => {
    const day = plan({ films: [film({ count: 4 })] });
    expect(day.breaks).toBeNull();
    expect(day.runs.map((run) => run.films.length)).toEqual([2, 2]);
    expect(day.needs.map((need) => need.liquid).sort()).toEqual([...baths].sort());
    expect(day.waterMl).toBe(2 * waterFills(sheet) * 600);
    const [first, second] = day.runs;
    expect((first?.endsWallMs ?? 0) - (first?.startsWallMs ?? 0)).toBe(sheetSeconds(sheet) * 1000);
    // one set of reels: the second load waits until they are dry
    expect((second?.startsWallMs ?? 0) - (first?.endsWallMs ?? 0)).toBe(30 * 60_000);
    expect(day.totalS).toBe(((second?.endsWallMs ?? 0) - nine) / 1000);
    expect(day.needs.find((n) => n.liquid === 'developer')?.areaM2).toBeCloseTo(
      4 * filmAreaM2({ stock: '', format: '35mm' }),
      9,
    );
  });

  it('counts neither a spoilt bottle nor many small ones as a tankful', () => {
    const developerFrom = (...more: Fact[]) => {
      const told: Fact[] = [
        ...baths.map(
          (liquid, i): Fact => ({
            type: 'bottle-set',
            bottle: i + 1,
            liquid,
            volumeMl: 1000,
            capacityMl: 1000,
          }),
        ),
        ...more,
      ];
      const world = told.reduce((w, fact) => fold(w, { fact, atMs: 0, wallMs: nine }), emptyWorld());
      const { needs } = planDay({
        films: [
          { film: { stock: 'night', format: '35mm' }, sheetId: sheet.id, pushStops: 0, precious: false },
        ],
        sheets,
        bottles: Object.values(world.bottles),
        tank: { volumeMl: 600, holds },
        reelSets: 1,
        startsWallMs: nine,
        endsByWallMs: null,
      });
      return needs.find((n) => n.liquid === 'developer');
    };
    const developer = baths.indexOf('developer') + 1;
    const small = (bottle: number): Fact => ({
      type: 'bottle-set',
      bottle,
      liquid: 'developer',
      volumeMl: 350,
      capacityMl: 1000,
    });
    expect(developerFrom(small(8))).toMatchObject({ haveMl: 1350, mixMl: 0 });
    const spoilt: Fact = { type: 'splashed', liquid: 'fixer', bottle: developer };
    expect(developerFrom(small(8), spoilt)).toMatchObject({ haveMl: 1350, mixMl: 600 });
    const away: Fact = { type: 'bottle-discarded', bottle: developer, liquid: 'developer', volumeMl: 1000 };
    expect(developerFrom(small(8), small(9), away)).toMatchObject({ haveMl: 700, mixMl: 600 });
  });

  it('does not wait for reels when there are two sets', () => {
    const one = plan({ films: [film({ count: 4 })] });
    const two = plan({ films: [film({ count: 4 })], reelSets: 2 });
    expect(one.totalS - two.totalS).toBe(30 * 60);
  });

  it('groups by process and push, precious films first while the developer is fresh', () => {
    const day = plan({
      films: [
        film({ stock: 'plain a' }),
        film({ stock: 'pushed', push: 1 }),
        film({ stock: 'other', sheet: sheets[1]?.id }),
        film({ stock: 'plain b' }),
        film({ stock: 'wedding', precious: true }),
      ],
    });
    expect(day.runs.map((run) => run.films.map((f) => f.stock).join('+'))).toEqual([
      'wedding',
      'pushed',
      'plain a+plain b',
      'other',
    ]);
    expect(day.notes.join()).toContain('Pushed or pulled');
  });

  it('says when a bath runs out, and where the day breaks', () => {
    // 1 litre of developer takes 6 films: common practice, as the recipe states
    const fits = plan({ films: [film({ count: 6 })] });
    expect(fits.breaks).toBeNull();
    expect(fits.runsOut).toMatchObject([{ liquid: 'developer', afterRun: 3 }]);
    const day = plan({ films: [film({ count: 8 })] });
    expect(day.runs).toHaveLength(3);
    expect(day.breaks).toMatchObject({ run: 4, sentence: 'The developer is used up before run 4.' });
    expect(day.needs.find((n) => n.liquid === 'developer')?.mixMl).toBeGreaterThanOrEqual(600);
  });

  it.each([
    [{ films: [film()], bottles: [] }, 'no bottle holds any'],
    [
      { films: [film()], bottles: fullShelf.map((b) => ({ ...b, volumeMl: 500 })) },
      'needs 600 millilitres of prebath; the fullest bottle holds 500',
    ],
    [{ films: [film({ format: '8x10' })] }, 'The tank takes no 8x10 film.'],
    [{ films: [film({ sheet: 'nonsense' })] }, 'no process sheet called nonsense'],
    [{ films: [film({ count: 4 })], endsBy: '10:30' }, 'minutes after you want to stop'],
  ])('breaks a day that cannot work %#', (day, sentence) => {
    const broken = plan(day);
    expect(broken.breaks?.sentence).toContain(sentence);
    expect(broken.breaks?.remedy).not.toBe('');
  });

  it('names every fault of a plan file', () => {
    const context = { bottles: [], sheets, midnightWallMs: MIDNIGHT, nowWallMs: nine };
    expect(readDay('{', context)).toMatchObject({ problems: [expect.stringContaining('not JSON')] });
    expect(
      readDay(
        '{"films":[{"stock":"x","format":"ninety"}],"tank":{"volumeMl":-1,"holds":{}},"startsAt":"25:00"}',
        context,
      ),
    ).toEqual({
      problems: [
        'films.0.format: expected one of super-8, 16mm, 35mm, 120, 4x5, 8x10.',
        'tank.volumeMl: expected millilitres above 0.',
        'startsAt: expected a time of day such as "14:30".',
      ],
    });
  });
});
