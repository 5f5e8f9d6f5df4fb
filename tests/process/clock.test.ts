import { describe, expect, it } from 'vitest';
import { stepById } from '../../src/process/due.js';
import type { Announced, RunContext, RunPosition } from '../../src/process/machine.js';
import type { ProcessSheet } from '../../src/process/sheet.js';
import {
  bathClock,
  contactS,
  drainMs,
  earlyS,
  leftS,
  nextDeadlines,
  openCalls,
  tenSecondsS,
} from '../../src/process/timing.js';
import { expose, type FilmState, noFilm } from '../../src/world/film.js';
import type { World } from '../../src/world/records.js';
import { bottle, inTank, readyFilm, sheet, sinkOf, tank } from './sink.js';

const t0 = 1_000_000;
const standing = (liquid: string, stepId: string | null, film: FilmState = readyFilm): World => {
  const world = inTank(sinkOf(), liquid, film);
  const { bath } = world.tank;
  if (!bath) throw new Error('expected a bath');
  return {
    ...world,
    film: { ...film, loaded: true },
    tank: { ...world.tank, bath: { ...bath, stepId, sinceMs: t0 } },
  };
};
const nothing: RunContext = {
  calledMs: 0,
  addedS: 0,
  drainMs: null,
  announced: null,
  pending: null,
  spill: null,
};
const at = (processing: unknown, context: Partial<RunContext> = {}): RunPosition =>
  ({
    value: { run: { underWay: { processing } }, pour: 'none', spill: 'none' },
    context: { ...nothing, ...context },
  }) as RunPosition;
const immersed = (context: Partial<RunContext> = {}) => at({ wet: 'working' }, context);
const draining = (context: Partial<RunContext> = {}) => at({ wet: 'draining' }, context);
const dry = (context: Partial<RunContext> = {}) => at('dry', context);
/** The calls still to come: what, and how many seconds after the bath went in. */
const calls = (position: RunPosition, world: World, by: ProcessSheet = sheet) =>
  openCalls(position, world, by).map((d) => [d.call, (d.dueMs - t0) / 1000]);
const changed = (id: string, change: Partial<ProcessSheet['steps'][number]>): ProcessSheet => ({
  ...sheet,
  steps: sheet.steps.map((s) => (s.id === id ? { ...s, ...change } : s)),
});
const shaking = (initialS: number, everyS: number | null, style: 'inversion' | 'still' = 'inversion') => ({
  style,
  initialS,
  everyS,
  inversions: 2,
  source: 'common practice',
});

describe('the clock of a bath', () => {
  const clock = (liquid: string, stepId: string | null, addedS = 0, film = readyFilm) =>
    bathClock(standing(liquid, stepId, film), sheet, addedS);
  it('is the step’s, from when the bath touched the film', () => {
    expect(bathClock(sinkOf(), sheet, 0)).toBeNull();
    const step = stepById(sheet, 'developer');
    expect(clock('developer', 'developer')).toEqual({
      liquid: 'developer',
      role: 'developer',
      step,
      sinceMs: t0,
      aimS: 180,
      leadS: 15,
      agitation: step?.agitation,
    });
    // it takes as long to run out, whether its time has come or not
    expect(clock('bleach', null)).toMatchObject({ step: null, aimS: null, leadS: 15, agitation: null });
    expect(clock('water', 'backing-removal')).toMatchObject({
      aimS: null,
      leadS: 0,
      step: { id: 'backing-removal' },
    });
  });
  it('counts an earlier stay in the developer, and leaves at least five seconds; other baths begin anew', () => {
    const had = (seconds: number) => expose(readyFilm, { role: 'developer', seconds, wantedS: 180 });
    expect(clock('developer', 'developer', 0, had(60))?.aimS).toBe(120);
    expect(clock('developer', 'developer', 30, had(60))?.aimS).toBe(150);
    expect(clock('developer', 'developer', 0, had(175))?.aimS).toBe(5);
    expect(clock('developer', 'developer', 0, had(179))?.aimS).toBe(5);
    expect(clock('developer', 'developer', 20, had(179))?.aimS).toBe(25);
    expect(clock('stop', 'stop', 0, had(60))?.aimS).toBe(30);
  });
  it('takes added time on, and keeps its time to drain, which is at most half of it', () => {
    expect(clock('developer', 'developer', 45)).toMatchObject({ aimS: 225, leadS: 15 });
    expect(clock('stop', 'stop')).toMatchObject({ aimS: 30, leadS: 10 });
    const had = expose(readyFilm, { role: 'developer', seconds: 160, wantedS: 180 });
    expect(clock('developer', 'developer', 0, had)).toMatchObject({ aimS: 20, leadS: 10 });
    expect(clock('prebath', 'prebath')).toMatchObject({ aimS: 10, leadS: 0 });
  });
  it('says what was had, what is left, when to drain and how much too soon that would be', () => {
    const developer = clock('developer', 'developer');
    const water = clock('water', 'backing-removal');
    if (!developer || !water) throw new Error('expected two clocks');
    expect(contactS(developer, t0 + 61_500)).toBe(61.5);
    expect(leftS(developer, t0 + 61_500)).toBe(118.5);
    expect(leftS(developer, t0 + 200_000)).toBe(-20);
    expect(leftS(water, t0)).toBeNull();
    expect(drainMs(developer)).toBe(t0 + 165_000);
    expect(drainMs(water)).toBeNull();
    // 180 s with 5 s of tolerance below, 15 s of draining before the end
    expect(earlyS(developer, t0 + 100_000)).toBe(60);
    expect(earlyS(developer, t0 + 159_500)).toBe(0.5);
    expect(earlyS(developer, t0 + 160_000)).toBeNull();
    expect(earlyS(developer, t0 + 170_000)).toBeNull();
    expect(earlyS(clock('developer', 'developer', 30), t0 + 100_000)).toBe(90);
    expect(earlyS(water, t0)).toBeNull();
    expect(earlyS(null, t0)).toBeNull();
    expect(earlyS(clock('bleach', null), t0)).toBeNull();
  });
});

describe('the calls while a bath stands', () => {
  it('agitation on multiples of its interval, the last ten seconds, and draining', () => {
    expect(tenSecondsS).toBe(10);
    expect(calls(immersed(), standing('developer', 'developer'))).toEqual([
      ['rest', 15],
      ...[30, 45, 60, 75, 90, 105, 120, 135, 150].map((s) => ['agitate', s]),
      ['ten-seconds', 155],
      ['drain', 165],
    ]);
    expect(calls(immersed(), standing('stop', 'stop'))).toEqual([
      ['ten-seconds', 10],
      ['drain', 20],
    ]);
    expect(calls(immersed(), standing('prebath', 'prebath'))).toEqual([['drain', 10]]);
  });
  it('no word of ten seconds where there are not twenty', () => {
    const of = (leadS: number) =>
      calls(immersed(), standing('stop', 'stop'), changed('stop', { drain: { leadS, source: '' } }));
    expect(of(10)).toContainEqual(['ten-seconds', 10]);
    expect(of(11)).toEqual([['drain', 19]]);
  });
  it('an interval that the first stretch is no multiple of, none at all, and still', () => {
    const of = (agitation: ReturnType<typeof shaking> | null) =>
      calls(immersed(), standing('developer', 'developer'), changed('developer', { agitation })).filter(
        ([call]) => call === 'rest' || call === 'agitate',
      );
    expect(of(shaking(20, 60))).toEqual([
      ['rest', 20],
      ['agitate', 60],
      ['agitate', 120],
    ]);
    expect(of(shaking(60, 60))).toEqual([
      ['rest', 60],
      ['agitate', 120],
    ]);
    expect(of(shaking(0, 60))).toEqual([
      ['agitate', 60],
      ['agitate', 120],
    ]);
    expect(of(shaking(20, null))).toEqual([['rest', 20]]);
    // hands get ready to pour: nothing from ten seconds before the drain on
    expect(of(shaking(20, 31))).toEqual([['rest', 20], ...[31, 62, 93, 124].map((s) => ['agitate', s])]);
    expect(of(shaking(155, null))).toEqual([]);
    expect(of(shaking(154, null))).toEqual([['rest', 154]]);
    expect(of(shaking(0.5, null))).toEqual([['rest', 0.5]]);
    expect(of(shaking(15, 15, 'still'))).toEqual([]);
    expect(of(null)).toEqual([]);
  });
  it('a bath that the user ends is agitated for two hours at most, and never called out', () => {
    const step = changed('backing-removal', { agitation: shaking(30, 600) });
    const world = standing('water', 'backing-removal');
    const found = calls(immersed(), world, step);
    expect(found).toEqual([
      ['rest', 30],
      ...Array.from({ length: 12 }, (_, i) => ['agitate', 600 * (i + 1)]),
    ]);
    expect(calls(immersed(), world)).toEqual([]);
  });
  it('a wrong bath is called out three times; a rinse more than the sheet has is not', () => {
    expect(calls(immersed(), standing('bleach', null))).toEqual([15, 30, 60].map((s) => ['get-out', s]));
    expect(calls(immersed(), standing('water', null))).toEqual([]);
  });
  it('what was called is not called again, and what is due at one moment comes together', () => {
    const world = standing('developer', 'developer');
    const first = (s: number) => calls(immersed({ calledMs: t0 + s * 1000 }), world)[0];
    expect(first(154.9)).toEqual(['ten-seconds', 155]);
    expect(first(155)).toEqual(['drain', 165]);
    expect(first(165)).toBeUndefined();
    const announced: Announced = {
      kind: 'out',
      liquid: 'developer',
      to: bottle(2),
      overridden: false,
      clearedMs: t0 + 140_000,
      against: [],
    };
    expect(nextDeadlines(draining({ drainMs: t0 + 165_000, announced }), world, sheet)).toEqual([
      { call: 'pour-next', dueMs: t0 + 180_000 },
      { call: 'empty-asked', dueMs: t0 + 180_000 },
    ]);
    expect(nextDeadlines(immersed(), world, sheet)).toEqual([{ call: 'rest', dueMs: t0 + 15_000 }]);
    expect(nextDeadlines(immersed({ calledMs: t0 + 165_000 }), world, sheet)).toEqual([]);
  });
  it('nothing stands, nothing is called', () => {
    expect(calls(immersed(), sinkOf())).toEqual([]);
    expect(calls(draining(), sinkOf())).toEqual([]);
    expect(calls(at('through'), standing('developer', 'developer'))).toEqual([]);
  });
});

describe('the calls while it runs out', () => {
  const world = standing('developer', 'developer');
  const out: Announced = {
    kind: 'out',
    liquid: 'developer',
    to: bottle(2),
    overridden: false,
    clearedMs: t0 + 166_000,
    against: [],
  };
  it('the next bath at the end of this one; sooner when it began to leave sooner', () => {
    const next = (beganS: number) => calls(draining({ drainMs: t0 + beganS * 1000 }), world)[0];
    expect(next(165)).toEqual(['pour-next', 180]);
    expect(next(150)).toEqual(['pour-next', 165]);
    expect(next(172)).toEqual(['pour-next', 180]);
    expect(calls(draining(), world)[0]).toEqual(['overdue', 195]);
  });
  it('without a time to drain there is no moment between the two', () => {
    expect(calls(draining({ drainMs: t0 + 10_000 }), standing('prebath', 'prebath'))).toEqual(
      [25, 55, 115, 235].map((s) => ['overdue', s]),
    );
  });
  it('and when it still stands it is called out four times, from its end or from when it began to leave', () => {
    expect(calls(draining({ drainMs: t0 + 165_000 }), world)).toEqual([
      ['pour-next', 180],
      ['overdue', 195],
      ['overdue', 225],
      ['overdue', 285],
      ['overdue', 405],
    ]);
    expect(calls(draining({ drainMs: t0 + 190_000 }), world)).toEqual([
      ['pour-next', 180],
      ['overdue', 205],
      ['overdue', 235],
      ['overdue', 295],
      ['overdue', 415],
    ]);
    expect(calls(draining({ drainMs: t0 + 90_000 }), standing('water', 'backing-removal'))).toEqual([]);
  });
  it('a cleared return that nobody said is done is asked about twice, in the place of that', () => {
    expect(calls(draining({ drainMs: t0 + 166_000, announced: out }), world)).toEqual([
      ['pour-next', 180],
      ['empty-asked', 206],
      ['empty-asked', 266],
    ]);
    expect(
      calls(draining({ drainMs: t0 + 90_000, announced: out }), standing('water', 'backing-removal')),
    ).toEqual([
      ['empty-asked', 206],
      ['empty-asked', 266],
    ]);
  });
});

describe('the calls while the tank is empty', () => {
  const film = { ...sinkOf(), film: readyFilm };
  const cleared = (liquid: string): Announced => ({
    kind: 'in',
    liquid,
    from: bottle(2),
    overridden: false,
    clearedMs: t0,
    against: [],
  });
  it('a cleared pour that nobody said went in is asked about, and again when it would be over', () => {
    expect(calls(dry({ announced: cleared('developer') }), film)).toEqual([
      ['in-asked', 60],
      ['in-asked', 165],
    ]);
    expect(calls(dry({ announced: cleared('stop') }), film)).toEqual([['in-asked', 60]]);
    expect(calls(dry({ announced: cleared('toner') }), film)).toEqual([['in-asked', 60]]);
    const time = (aimS: number) =>
      changed('stop', { time: { aimS, minS: aimS, maxS: aimS, source: '', toleranceSource: '' } });
    expect(calls(dry({ announced: cleared('stop') }), film, time(70))).toEqual([['in-asked', 60]]);
    expect(calls(dry({ announced: cleared('stop') }), film, time(71))).toEqual([
      ['in-asked', 60],
      ['in-asked', 61],
    ]);
  });
  it('nothing is asked without film, and of nothing that was cleared', () => {
    expect(calls(dry({ announced: cleared('developer') }), { ...film, film: noFilm })).toEqual([]);
    expect(calls(dry(), film)).toEqual([]);
    const out: Announced = {
      kind: 'out',
      liquid: 'developer',
      to: tank,
      overridden: false,
      clearedMs: t0,
      against: [],
    };
    expect(calls(dry({ announced: out }), film)).toEqual([]);
  });
});
