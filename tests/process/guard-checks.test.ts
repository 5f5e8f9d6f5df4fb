import { describe, expect, it } from 'vitest';
import { type GuardView, judge, type Move, weigh } from '../../src/process/guard.js';
import {
  badBottle,
  bottleFor,
  checksFor,
  fitnessOf,
  intoTankFinding,
  liquidName,
  outFinding,
  traceFinding,
} from '../../src/process/guard-checks.js';
import { liquidOf, type ProcessSheet } from '../../src/process/sheet.js';
import { c41 } from '../../src/process/sheets/c41.js';
import { developmentEffect, tempState, thermometerErrorC } from '../../src/process/temperature.js';
import { fresh } from '../../src/world/contents.js';
import type { Fact } from '../../src/world/fact.js';
import { expose, freshFilm } from '../../src/world/film.js';
import { filmAreaM2 } from '../../src/world/film-area.js';
import { USUAL_FILM } from '../../src/world/life-data.js';
import type { Liquid } from '../../src/world/liquids.js';
import type { BottleRecord, World } from '../../src/world/records.js';
import type { VesselRef } from '../../src/world/vessel.js';
import { readingOf } from '../../src/world/vessels.js';
import {
  bottle,
  holds,
  inTank,
  jug,
  readyFilm,
  sheet,
  sinkhole,
  sinkOf,
  tank,
  tap,
  viewOf,
  withJugs,
} from './sink.js';

const minute = 60_000;
const usual = sinkOf();
const move = (liquid: string, from: VesselRef, to: VesselRef, volumeMl: number | null = 500): Move => ({
  liquid,
  from,
  to,
  volumeMl,
});
const developerIn = move('developer', bottle(2), tank);
const shown = (m: Move, view: GuardView) => checksFor(m, view).shown;
const entries = (m: Move, view: GuardView) => checksFor(m, view).entries.map((e) => [...e.entry, e.params]);
const read = (tempC: number, vessel = bottle(2), liquid?: string): Fact => ({
  type: 'temperature',
  vessel,
  tempC,
  ...(liquid && { liquid }),
});

describe('a reading', () => {
  const of = (here: number | null, ofLiquid: number | null): number | undefined => {
    const world: World = {
      ...usual,
      readings: {
        ...(here !== null && { 'bottle-2': { tempC: 40, atMs: here } }),
        ...(ofLiquid !== null && { 'liquid:developer': { tempC: 41, atMs: ofLiquid } }),
      },
    };
    return readingOf(world, 'developer', bottle(2))?.tempC;
  };
  it('is the later of this vessel’s and this liquid’s; of two at once, the vessel’s', () => {
    expect(of(5, 4)).toBe(40);
    expect(of(4, 5)).toBe(41);
    expect(of(5, 5)).toBe(40);
    expect(of(5, null)).toBe(40);
    expect(of(null, 5)).toBe(41);
    expect(of(null, null)).toBeUndefined();
  });

  // H-24.07 asks the developer for 41.1 ± 0.1 °C; a household thermometer is out by 0.3
  it.each([
    [41.1, 'in', null],
    [41.2, 'in', null],
    [41.0, 'in', null],
    [41.5, 'near', null],
    [40.7, 'near', null],
    [41.6, 'hot', 'developer-hot'],
    [40.6, 'cold', 'developer-cold'],
  ] as const)('of %d °C in the developer is %s', (tempC, state, reason) => {
    const view = viewOf(sinkOf(read(tempC)), { atMs: 2 * minute });
    const effect = developmentEffect(sheet.rate, 41.1, tempC);
    expect(shown(developerIn, view).temperature).toEqual({
      aimC: 41.1,
      tempC,
      agoS: 120,
      state,
      effect,
      developer: true,
    });
    expect(entries(developerIn, view)).toEqual(
      reason === null ? [] : [['recoverable', reason, { tempC, aimC: 41.1, agoS: 120 }]],
    );
  });
  it('is trusted for a quarter of an hour and not for longer, whatever it said', () => {
    const at = (atMs: number, tempC: number) => viewOf(sinkOf(read(tempC)), { atMs });
    expect(shown(developerIn, at(15 * minute, 41.1)).temperature).toMatchObject({ state: 'in', agoS: 900 });
    expect(shown(developerIn, at(15 * minute + 1, 41.1)).temperature).toMatchObject({ state: 'old' });
    expect(entries(developerIn, at(15 * minute + 1, 41.1))).toEqual([]);
    expect(entries(developerIn, at(15 * minute, 38))).toEqual([
      ['recoverable', 'developer-cold', { tempC: 38, aimC: 41.1, agoS: 900 }],
    ]);
    expect(entries(developerIn, at(20 * minute, 38))).toEqual([
      ['recoverable', 'developer-was-off', { tempC: 38, aimC: 41.1, agoS: 1200 }],
    ]);
  });
  it('of the developer from more than two hours ago is none: it is as warm as the room, for all that is known', () => {
    const aged = (minutes: number, tempC = 41.1) =>
      entries(developerIn, viewOf(sinkOf(read(tempC)), { atMs: minutes * minute })).map(([, why]) => why);
    expect([aged(61), aged(120), aged(120.1), aged(121, 38)]).toEqual([
      [],
      [],
      ['developer-long-unread'],
      ['developer-long-unread'],
    ]);
  });
  it('far below its aim slows a bleach and a fixer, while it is fresh; a stop or a rinse is asked nothing', () => {
    const off = (liquid: string, number: number, tempC: number, minutes = 0) =>
      entries(
        move(liquid, bottle(number), tank),
        viewOf(sinkOf(read(tempC, bottle(number), liquid)), { atMs: minutes * minute }),
      );
    for (const [liquid, number] of [
      ['bleach', 4],
      ['fixer', 5],
    ] as const) {
      expect(off(liquid, number, 27.9)).toEqual([['recoverable', 'bath-cold', { tempC: 27.9, aimC: 38 }]]);
      expect(off(liquid, number, 28)).toEqual([]);
      expect(off(liquid, number, 27.9, 16)).toEqual([]);
    }
    expect(off('stop', 3, 20)).toEqual([]);
    expect(off('final-rinse', 6, 20)).toEqual([]);
  });
  it('that nobody took is said to be missing', () => {
    expect(shown(developerIn, viewOf(usual)).temperature).toEqual({
      aimC: 41.1,
      tempC: null,
      agoS: null,
      state: 'unread',
      effect: null,
      developer: true,
    });
  });
  it('of another bath is shown, and stops nothing; water has none to keep', () => {
    const bleach = move('bleach', bottle(4), tank);
    const view = viewOf(sinkOf(read(30, bottle(4))), { atMs: minute });
    expect(shown(bleach, view).temperature).toMatchObject({
      aimC: 38,
      tempC: 30,
      state: 'cold',
      developer: false,
    });
    expect(entries(bleach, view)).toEqual([]);
    expect(shown(move('water', tap, tank), view).temperature).toBeUndefined();
    // out of the tank nothing is asked of it
    expect(shown(move('developer', tank, bottle(2)), view).temperature).toBeUndefined();
  });
  it('has one verdict everywhere: in, near within the thermometer’s own error, cold or hot', () => {
    const aim = { aimC: 38, minC: 37, maxC: 39 };
    expect([37, 38, 39].map((t) => tempState(aim, t))).toEqual(['in', 'in', 'in']);
    expect([36.7, 39.3].map((t) => tempState(aim, t))).toEqual(['near', 'near']);
    expect([36.69, 39.31].map((t) => tempState(aim, t))).toEqual(['cold', 'hot']);
    expect(tempState(aim, 36.5, 0.5)).toBe('near');
    expect(tempState(aim, 39.4, 0.5)).toBe('near');
    expect(tempState(aim, 39.1, 0)).toBe('hot');
    expect(thermometerErrorC).toBe(0.3);
    // 40.8 + 0.3 is a little more than 41.1 in binary
    expect(tempState({ aimC: 40.8, minC: 40.8, maxC: 40.8 }, 41.1)).toBe('near');
    expect(tempState({ aimC: 41.1, minC: 41.1, maxC: 41.1 }, 40.8)).toBe('near');
  });
  it('without a law of the rate has no effect that could be named', () => {
    expect(developmentEffect(undefined, 41.1, 39)).toBeNull();
  });
});

describe('room, portions and filter', () => {
  const home = (more: Partial<GuardView> = {}, world = inTank(usual, 'developer')) => viewOf(world, more);
  const back = (volumeMl: number | null) => move('developer', tank, bottle(2), volumeMl);
  it('a bottle takes what fits to the millilitre', () => {
    expect(entries(back(1500), home({ funnelMl: 2000 }))).toEqual([]);
    expect(entries(back(1500.5), home({ funnelMl: 2000 }))).toEqual([
      ['recoverable', 'no-headroom', { bottle: 2, ml: 1500 }],
    ]);
    const full = home({}, inTank(sinkOf(holds(2, 'developer', 900, 800)), 'developer'));
    expect(entries(back(10), full)).toEqual([['recoverable', 'no-headroom', { bottle: 2, ml: 0 }]]);
  });
  it('a bottle of unknown size, or an unknown amount, is not held against it', () => {
    const world = inTank(usual, 'developer');
    const bottles = { ...world.bottles, 2: { ...(world.bottles[2] as BottleRecord), capacityMl: null } };
    expect(shown(back(5000), home({ funnelMl: 9000 }, { ...world, bottles }))).toEqual({
      filter: true,
      localCodes: false,
    });
    expect(shown(back(null), home())).toEqual({ filter: true, localCodes: false });
  });
  it('more than the funnel takes goes in equal portions', () => {
    const portions = (volumeMl: number, funnelMl: number) =>
      shown(back(volumeMl), home({ funnelMl })).portions;
    expect(portions(500, 500)).toBeUndefined();
    expect(portions(501, 500)).toEqual({ count: 2, eachMl: 251 });
    expect(portions(1000, 250)).toEqual({ count: 4, eachMl: 250 });
    expect(portions(1000, 300)).toEqual({ count: 4, eachMl: 250 });
  });
  it('the filter is the sheet’s, and only on the way into a bottle; local rules only at the sink', () => {
    expect(shown(back(100), home()).filter).toBe(true);
    expect(shown(move('stop', tank, bottle(3)), home()).filter).toBe(false);
    expect(shown(developerIn, home()).filter).toBe(false);
    expect(shown(move('toner', tank, bottle(3)), home()).filter).toBe(false);
    expect(shown(move('fixer', tank, sinkhole), home())).toMatchObject({ localCodes: true, filter: false });
    expect(shown(move('water', tank, sinkhole), home()).localCodes).toBe(false);
    expect(shown(back(100), home()).localCodes).toBe(false);
  });
  it('too soon is said only of what leaves the tank, and only when it is', () => {
    const early = { earlyS: 30 };
    expect(entries(back(480), home(early))).toEqual([['recoverable', 'early', { seconds: 30 }]]);
    expect(entries(back(480), home({ earlyS: 0.5 }))).toEqual([['recoverable', 'early', { seconds: 0.5 }]]);
    expect(entries(back(480), home({ earlyS: 0 }))).toEqual([]);
    expect(entries(back(480), home({ earlyS: null }))).toEqual([]);
    expect(entries(move('stop', bottle(3), bottle(2)), home(early))).toEqual([]);
  });
});

describe('a bottle of its own that is not to be used', () => {
  const home = usual.bottles[2] as BottleRecord;
  const doubted = { doubt: 'label-lost' } as const;
  const faulty = { problems: ['over'], unusable: true };
  it.each<[string, Partial<BottleRecord>, object | null]>([
    ['is sound', {}, null],
    ['is doubted', doubted, { unsettled: true }],
    [
      'is doubted, and holds no more than a drop',
      { ...doubted, contents: fresh('developer', 0.5) },
      { unsettled: true },
    ],
    ['is doubted, and empty', { ...doubted, contents: fresh('developer', 0) }, null],
    ['is doubted, and another bath’s', { ...doubted, liquid: 'fixer' }, null],
    ['was mixed past use', faulty, { why: 'over' }],
    ['was mixed past use, and is doubted', { ...faulty, ...doubted }, { unsettled: true }],
    ['was mixed not quite right', { problems: ['over'] }, null],
  ])('one that %s', (_, more, params) => {
    const view = viewOf({ ...usual, bottles: { ...usual.bottles, 2: { ...home, ...more } } });
    expect(badBottle(move('developer', tank, bottle(2)), view)).toEqual(
      params && { entry: ['recoverable', 'bad-bottle'], params: { bottle: 2, ...params } },
    );
    for (const elsewhere of [tank, jug, bottle(9)])
      expect(badBottle(move('developer', bottle(2), elsewhere), view)).toBeNull();
  });
});

describe('what is in the bottle', () => {
  const from2 = (world: World, more: Partial<GuardView> = {}) => entries(developerIn, viewOf(world, more));
  it('fills the tank, or that is said; what is in the tank already counts', () => {
    expect(from2(sinkOf(holds(2, 'developer', 500)))).toEqual([]);
    expect(from2(sinkOf(holds(2, 'developer', 499)))).toEqual([
      ['recoverable', 'too-little', { bottle: 2, ml: 499 }],
    ]);
    expect(from2(inTank(sinkOf(holds(2, 'developer', 20)), 'developer'))).toEqual([]);
    expect(from2(inTank(sinkOf(holds(2, 'developer', 19)), 'developer'))).toEqual([
      ['recoverable', 'too-little', { bottle: 2, ml: expect.closeTo(19, 9) }],
    ]);
    expect(from2(inTank(sinkOf(holds(2, 'developer', 20)), 'stop'))).toEqual([
      ['recoverable', 'too-little', { bottle: 2, ml: expect.closeTo(20, 9) }],
    ]);
  });
  it('that was only taken for granted is shown to be', () => {
    const assumed = sinkOf({
      type: 'bottle-set',
      bottle: 2,
      liquid: 'developer',
      volumeMl: 500,
      capacityMl: 1000,
      assumed: true,
    });
    const fresh2 = {
      ...assumed,
      bottles: { ...assumed.bottles, 2: { ...(assumed.bottles[2] as BottleRecord), assumed: true } },
    };
    expect(shown(developerIn, viewOf(fresh2)).assumed).toBe(true);
    expect(shown(developerIn, viewOf(usual)).assumed).toBeUndefined();
  });
  it('from a jug it must cover the film as well', () => {
    const { jugs, ...world } = withJugs(usual, 'developer');
    const holding = (volumeMl: number) => ({
      ...world,
      jugs: Object.fromEntries(Object.entries(jugs).map(([of, c]) => [of, { ...c, volumeMl }])),
    });
    const found = (volumeMl: number) => entries(move('developer', jug, tank), viewOf(holding(volumeMl)));
    expect(found(200)).toEqual([['recoverable', 'too-little', { ml: 200 }]]);
    expect(found(5000)).toEqual([]);
  });

  it('from a bottle nobody knows nothing of this can be said', () => {
    expect(entries(move('developer', bottle(9), tank), viewOf(usual))).toEqual([]);
  });

  const filled = (more: Partial<BottleRecord>): BottleRecord => ({
    ...(sinkOf({
      type: 'mixed',
      batch: 'D',
      recipe: 'ecn2-developer',
      liquid: 'developer',
      volumeMl: 1000,
      bottle: 2,
    }).bottles[2] as BottleRecord),
    ...more,
  });
  const dayMs = 86_400_000;
  const verdicts = (more: Partial<BottleRecord>, wallMs = 0) =>
    fitnessOf(filled(more), viewOf(usual, { wallMs })).map((f) => [...f.entry, f.params]);
  it('as it was mixed has nothing against it', () => {
    expect(verdicts({})).toEqual([]);
  });
  it('mixed wrongly says the worst of what was wrong', () => {
    expect(verdicts({ problems: ['weak', 'old'] })).toEqual([
      ['recoverable', 'faulty-batch', { bottle: 2, why: 'weak' }],
    ]);
  });
  it('too old, and worn out by film, each say so', () => {
    expect(verdicts({}, 400 * dayMs)).toEqual([['recoverable', 'too-old', { bottle: 2 }]]);
    const worn = { contents: { ...fresh('developer', 1000), workM2: 5 }, films: { '35mm': 30, '120': 3 } };
    expect(verdicts(worn)).toEqual([['recoverable', 'spent', { bottle: 2, films: 33 }]]);
    expect(
      verdicts({ contents: { ...fresh('developer', 1000), workM2: 0.1 }, films: { '35mm': 2 } }),
    ).toEqual([]);
    // six films a litre: the sixth is the last
    const films = (n: number) => ({
      contents: { ...fresh('developer', 1000), workM2: n * filmAreaM2(USUAL_FILM) },
      films: { '35mm': n },
    });
    expect(verdicts(films(5))).toEqual([]);
    expect(verdicts(films(6))).toEqual([['recoverable', 'spent', { bottle: 2, films: 6 }]]);
    // an empty bottle has nothing left, and no film is to blame
    expect(verdicts({ contents: fresh('developer', 0) })).toEqual([]);
  });
  it('with another bath in it is spoilt, doubtful, or as good as before', () => {
    const with_ = (liquid: string, ml: number): Partial<BottleRecord> => ({
      contents: {
        ...fresh('developer', 1000),
        volumeMl: 1000 + ml,
        parts: { developer: 1000, [liquid]: ml },
      },
      contaminations: [{ wallMs: 0, liquid, volumeMl: ml, intoLiquid: 'developer', intoMl: 1000 }],
    });
    expect(verdicts(with_('fixer', 30))).toEqual([
      [
        'ruinous',
        'spoilt',
        { bottle: 2, other: 'fixer', why: expect.stringMatching(/^Thiosulphate in a developer fogs/i) },
      ],
    ]);
    expect(verdicts(with_('prebath', 100))).toEqual([
      ['recoverable', 'doubtful-mixture', { bottle: 2, other: 'prebath', why: expect.any(String) }],
    ]);
    expect(verdicts(with_('prebath', 5))).toEqual([]);
    // nothing is known of it: no word of why, and no good word either
    expect(verdicts(with_('mystery', 30))).toEqual([
      ['recoverable', 'doubtful-mixture', expect.objectContaining({ bottle: 2, other: 'mystery' })],
    ]);
  });
  it('of another process with a bath in it: what ruins it here ruins it there, and no more is known', () => {
    const mixedWith = (liquid: string, ml: number) => ({
      ...filled({ recipe: null }),
      contents: {
        ...fresh('developer', 1000),
        volumeMl: 1000 + ml,
        parts: { developer: 1000, [liquid]: ml },
      },
      contaminations: [{ wallMs: 0, liquid, volumeMl: ml, intoLiquid: 'developer', intoMl: 1000 }],
    });
    const under = (liquid: string, ml: number) =>
      fitnessOf(mixedWith(liquid, ml), viewOf(usual, { sheet: c41 })).map((f) => [...f.entry, f.params]);
    expect(under('fixer', 30)).toEqual([['ruinous', 'spoilt', { bottle: 2, other: 'fixer' }]]);
    expect(under('prebath', 5)).toEqual([
      ['recoverable', 'doubtful-mixture', { bottle: 2, other: 'prebath' }],
    ]);
  });
  it('is found by its bath when one bottle alone has it', () => {
    expect(bottleFor({ world: usual }, 'developer')).toBe(2);
    expect(bottleFor({ world: usual }, 'toner')).toBeNull();
    expect(bottleFor({ world: sinkOf(holds(8, 'developer', 1)) }, 'developer')).toBeNull();
  });
  it('is called by the sheet’s name, else by its own', () => {
    expect(liquidName({ sheet }, 'stop')).toBe('stop bath');
    expect(liquidName({ sheet }, 'some-toner-two')).toBe('some toner two');
  });
});

describe('what clung to film', () => {
  const traced = (liquid: string, number: number, ...traces: string[]): World => {
    const world = sinkOf();
    const record = world.bottles[number] as BottleRecord;
    return {
      ...world,
      bottles: { ...world.bottles, [number]: { ...record, contents: { ...fresh(liquid, 500), traces } } },
    };
  };
  const found = (liquid: string, number: number, ...traces: string[]) =>
    traceFinding(move(liquid, bottle(number), tank), viewOf(traced(liquid, number, ...traces)));
  it('and got into a bath taints it as far as the two harm one another; the worst is named', () => {
    expect(found('developer', 2, 'fixer')).toEqual({
      entry: ['ruinous', 'tainted'],
      params: { other: 'fixer' },
    });
    expect(found('developer', 2, 'prebath')).toEqual({
      entry: ['recoverable', 'tainted'],
      params: { other: 'prebath' },
    });
    expect(found('developer', 2, 'prebath', 'fixer', 'bleach')).toMatchObject({ params: { other: 'fixer' } });
    expect(found('developer', 2, 'fixer', 'prebath')).toMatchObject({ params: { other: 'fixer' } });
    expect(found('bleach', 4, 'stop', 'fixer')).toMatchObject({ params: { other: 'stop' } });
  });
  it('does nothing where the two do not mind one another', () => {
    expect(found('developer', 2)).toBeNull();
    expect(found('developer', 2, 'water')).toBeNull();
    expect(found('developer', 2, 'developer')).toBeNull();
    expect(found('developer', 2, 'mystery')).toBeNull();
    expect(found('stop', 3, 'developer')).toBeNull();
    expect(found('prebath', 1, 'stop')).toBeNull();
  });
  it('does nothing to a bath whose sheet tolerates it', () => {
    const bleach = c41.steps.find((s) => s.liquid?.includes('bleach'))?.liquid as string;
    const developer = c41.steps.find((s) => s.liquid?.includes('developer'))?.liquid as string;
    const world = sinkOf(holds(8, bleach, 500));
    const record = world.bottles[8] as BottleRecord;
    const tainted = {
      ...world,
      bottles: {
        ...world.bottles,
        8: { ...record, contents: { ...fresh(bleach, 500), traces: [developer] } },
      },
    };
    expect(traceFinding(move(bleach, bottle(8), tank), viewOf(tainted, { sheet: c41 }))).toBeNull();
  });
  it('a liquid or vessel that is not known has none that could be named', () => {
    expect(traceFinding(move('developer', bottle(9), tank), viewOf(usual))).toBeNull();
    expect(found('toner', 2, 'fixer')).toBeNull();
  });
  it('stands in a jug with what was poured or splashed into its bottle, also by way of the tank', () => {
    const sinkAfter = (...facts: Fact[]) =>
      viewOf(sinkOf(holds(2, 'developer', 600), ...facts), { film: readyFilm });
    const poured = (from: VesselRef, to: VesselRef, liquid = 'developer', volumeMl = 500): Fact => ({
      type: 'poured',
      from,
      to,
      liquid,
      volumeMl,
      overridden: true,
      ...(to.kind === 'tank' && { role: 'developer' }),
    });
    const ways = [[poured(bottle(2), jug)], [poured(bottle(2), tank), poured(tank, jug)]];
    const splash: Fact = { type: 'splashed', liquid: 'bleach', bottle: 2 };
    for (const way of ways) {
      for (const fact of [splash, poured(bottle(4), bottle(2), 'bleach', 50)])
        for (const to of [tank, bottle(9)])
          expect(weigh(move('developer', jug, to), sinkAfter(fact, ...way))).toMatchObject({
            verdict: 'ruinous',
            reason: 'tainted',
          });
      expect(traceFinding(move('developer', jug, tank), sinkAfter(...way))).toBeNull();
      const thinned = sinkAfter(poured(tap, bottle(2), 'water', 50), ...way);
      expect(traceFinding(move('developer', jug, tank), thinned)).toBeNull();
    }
    // its own bottle has it on record, and takes it back
    const inTheTank = sinkAfter(splash, poured(bottle(2), tank));
    expect(traceFinding(move('developer', tank, bottle(2)), inTheTank)).toBeNull();
  });
  it('is found in a jug and in the tank as well, and speaks against the pour', () => {
    const tainted = (c: World['tank']['traces']) => ({ ...fresh('developer', 500), traces: c });
    const jugs = { ...usual, jugs: { developer: tainted(['fixer']) } };
    expect(weigh(move('developer', jug, tank), viewOf(jugs))).toMatchObject({
      verdict: 'ruinous',
      reason: 'tainted',
    });
    const held = inTank(usual, 'developer');
    const there = { ...held, tank: { ...held.tank, traces: ['prebath'] } };
    const film = expose(readyFilm, { role: 'developer', seconds: 180 });
    expect(outFinding(move('developer', tank, bottle(2)), viewOf(there, { film }))).toEqual({
      entry: ['recoverable', 'tainted'],
      params: { other: 'prebath' },
    });
  });
});

describe('into the tank', () => {
  it('on top of itself is a top-up, judged by the film before it went in', () => {
    const film = expose(readyFilm, { role: 'developer', seconds: 60, wantedS: 180 });
    const world = inTank(usual, 'developer', readyFilm);
    expect(intoTankFinding(developerIn, viewOf(world, { film }))).toEqual({
      entry: ['clear', 'top-up'],
      params: {},
    });
    const bleaching = inTank(usual, 'bleach', freshFilm);
    expect(intoTankFinding(move('bleach', bottle(4), tank), viewOf(bleaching))).toMatchObject({
      entry: ['ruinous', 'bleach-kills-latent'],
    });
    expect(intoTankFinding(developerIn, viewOf(usual))).toEqual({ entry: ['clear', 'due'], params: {} });
  });
  it('says how long the film has been developed, and which bath clings', () => {
    const part = { ...expose(readyFilm, { role: 'developer', seconds: 60, wantedS: 180 }), carry: null };
    expect(intoTankFinding(developerIn, viewOf(usual, { film: part }))).toEqual({
      entry: ['clear', 'rest-of-development'],
      params: { seconds: 60 },
    });
    const clinging = { ...readyFilm, carry: 'backing-remover' as const };
    expect(intoTankFinding(developerIn, viewOf(usual, { film: clinging }))).toEqual({
      entry: ['recoverable', 'prebath-in-developer'],
      params: { other: 'prebath' },
    });
    const acid = { ...readyFilm, carry: 'stop' as const };
    expect(intoTankFinding(developerIn, viewOf(usual, { film: acid }))).toEqual({
      entry: ['recoverable', 'acid-before-developer'],
      params: { other: 'stop' },
    });
    // of two that are as bad, the film's own state is named
    expect(
      intoTankFinding(
        move('final-rinse', bottle(6), tank),
        viewOf(usual, { film: { ...readyFilm, carry: 'stop' } }),
      ).entry,
    ).toEqual(['recoverable', 'wetting-early']);
  });
});

describe('out of the tank, a jug or a bottle', () => {
  it('a bath that is used once is not for its bottle', () => {
    const once = {
      ...sheet,
      steps: sheet.steps.map((s) => (s.liquid === 'stop' ? { ...s, reusable: false } : s)),
    };
    const view = viewOf(inTank(usual, 'stop'), { sheet: once });
    expect(outFinding(move('stop', tank, bottle(3)), view).entry).toEqual(['recoverable', 'one-shot-back']);
    expect(
      outFinding(move('stop', jug, bottle(3)), { ...view, world: withJugs(usual, 'stop') }).entry,
    ).toEqual(['clear', 'own-bottle']);
    expect(outFinding(move('stop', tank, sinkhole), view)).toEqual({ entry: ['clear', 'waste'], params: {} });
    expect(outFinding(move('stop', tank, sinkhole), viewOf(inTank(usual, 'stop')))).toEqual({
      entry: ['recoverable', 'throws-away-good-bath'],
      params: {},
    });
    expect(outFinding(move('water', tank, bottle(8)), viewOf(inTank(usual, 'water'))).entry).toEqual([
      'recoverable',
      'wash-water-back',
    ]);
  });
  it('into a bottle: empty, its own, under another label, or on top of another bath', () => {
    const from = (number: number, world: World) =>
      outFinding(move('fixer', bottle(5), bottle(number)), viewOf(world));
    expect(from(9, usual)).toEqual({ entry: ['clear', 'own-bottle'], params: {} });
    expect(from(8, sinkOf(holds(8, 'developer', 0)))).toEqual({
      entry: ['recoverable', 'other-label'],
      params: { bottle: 8, other: 'developer' },
    });
    expect(from(8, sinkOf(holds(8, 'developer', 0.5)))).toEqual({
      entry: ['ruinous', 'fixer-developer-bottle'],
      params: { bottle: 8, other: 'developer' },
    });
    expect(from(8, sinkOf(holds(8, 'second-fixer', 300)))).toEqual({
      entry: ['ruinous', 'mixes-baths'],
      params: { bottle: 8, other: 'second-fixer' },
    });
    // two fixers under two names are still two baths
    const fixer = liquidOf(sheet, 'fixer') as Liquid;
    const two = { ...sheet, liquids: [{ ...fixer, id: 'second-fixer' }] } as ProcessSheet;
    const view = viewOf(sinkOf(holds(8, 'second-fixer', 300)), { sheet: two });
    // no step of the sheet uses it: it is not used again
    expect(outFinding(move('second-fixer', tank, sinkhole), view).entry).toEqual(['clear', 'waste']);
    expect(outFinding(move('fixer', bottle(5), bottle(8)), view).entry).toEqual(['ruinous', 'mixes-baths']);
  });
});

describe('the verdict', () => {
  it('is the worst of all that speaks, with the rest beside it', () => {
    const film = { ...expose(readyFilm, { role: 'developer', seconds: 180 }), carry: null };
    const world = sinkOf(holds(2, 'developer', 100), read(38));
    expect(weigh(developerIn, viewOf(world, { film }))).toMatchObject({
      verdict: 'ruinous',
      reason: 'more-development',
      params: { liquid: 'developer' },
      move: developerIn,
      also: [
        { reason: 'developer-cold', params: { liquid: 'developer', tempC: 38, aimC: 41.1 } },
        { reason: 'too-little', params: { liquid: 'developer', bottle: 2, ml: expect.closeTo(100, 9) } },
      ],
    });
  });
  it('names the rest with the worse of it first, however it was found', () => {
    const film = { ...expose(readyFilm, { role: 'developer', seconds: 180 }), carry: null };
    const spoilt: Fact = {
      type: 'poured',
      from: bottle(5),
      to: bottle(2),
      liquid: 'fixer',
      volumeMl: 100,
      overridden: true,
    };
    const judged = weigh(developerIn, viewOf(sinkOf(read(38), spoilt), { film }));
    expect([judged.reason, ...judged.also.map((a) => a.reason)]).toEqual([
      'more-development',
      'spoilt',
      'developer-cold',
    ]);
  });
  it('of two that are as bad is the first, and what does no harm is not beside it', () => {
    const world = sinkOf(holds(2, 'developer', 100), read(38));
    const judged = judge({ kind: 'in', liquid: 'developer', from: bottle(2) }, viewOf(world));
    expect(judged).toMatchObject({ verdict: 'recoverable', reason: 'developer-cold' });
    expect('also' in judged && judged.also.map((a) => a.reason)).toEqual(['too-little']);
    const clean = judge({ kind: 'in', liquid: 'developer', from: bottle(2) }, viewOf(usual));
    expect(clean).toMatchObject({ verdict: 'clear', reason: 'due', also: [] });
  });
});
