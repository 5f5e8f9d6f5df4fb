import { describe, expect, it } from 'vitest';
import {
  type Announced,
  createRunMachine,
  placeOf,
  type RunContext,
  type RunEvent,
  type RunPosition,
  startPosition,
  step,
} from '../../src/process/machine.js';
import type { Pending } from '../../src/process/pending.js';
import { expose, type FilmState } from '../../src/world/film.js';
import { emptyWorld } from '../../src/world/reduce.js';
import { bottle, readyFilm, sheet } from './sink.js';

const machine = createRunMachine(sheet);
const play = (...events: RunEvent[]): RunPosition =>
  events.reduce((position, event) => step(machine, position, event), startPosition(machine));
const from = (position: RunPosition, ...events: RunEvent[]): RunPosition =>
  events.reduce((p, event) => step(machine, p, event), position);
const begin: RunEvent = { type: 'BEGIN', atMs: 5 };
const toDry: RunEvent[] = [begin, { type: 'LOADED' }];
const toWet: RunEvent[] = [...toDry, { type: 'FILLED', atMs: 100 }];
const into: Announced = {
  kind: 'in',
  liquid: 'stop',
  from: bottle(3),
  overridden: false,
  clearedMs: 50,
  against: [],
};
const out: Announced = {
  kind: 'out',
  liquid: 'stop',
  to: bottle(3),
  overridden: false,
  clearedMs: 50,
  against: [],
};
const pending: Pending = { kind: 'which-bath', askedMs: 9 };
const asked: RunEvent = { type: 'CHALLENGE', pending };
const empty: RunContext = {
  calledMs: 0,
  addedS: 0,
  drainMs: null,
  announced: null,
  pending: null,
  spill: null,
};
const whole = (
  [
    ['developer', 180],
    ['stop', 30],
    ['water', 60],
    ['bleach', 180],
    ['water', 60],
    ['fixer', 120],
    ['water', 120],
    ['rinse', 10],
  ] as const
).reduce<FilmState>((film, [role, seconds]) => expose(film, { role, seconds }), readyFilm);
const movedOn = (film: FilmState): RunEvent => ({ type: 'FILM_MOVED_ON', world: { ...emptyWorld(), film } });
const pourState = (position: RunPosition) => (position.value as Record<string, unknown>).pour;

describe('the places of a run', () => {
  it.each<[string, RunEvent[], string]>([
    ['nothing', [], 'idle'],
    ['a next before it was begun', [{ type: 'NEXT' }], 'idle'],
    ['the beginning', [begin], 'preparing'],
    ['next', [begin, { type: 'NEXT' }], 'warming'],
    ['next, next', [begin, { type: 'NEXT' }, { type: 'NEXT' }], 'loading'],
    ['next, next, next', [begin, { type: 'NEXT' }, { type: 'NEXT' }, { type: 'NEXT' }], 'loading'],
    ['film while preparing', [begin, { type: 'LOADED' }], 'pouring'],
    ['film while warming', [begin, { type: 'NEXT' }, { type: 'LOADED' }], 'pouring'],
    ['film while loading', [begin, { type: 'NEXT' }, { type: 'NEXT' }, { type: 'LOADED' }], 'pouring'],
    ['a bath', toWet, 'immersed'],
    ['a bath on top', [...toWet, { type: 'FILLED', atMs: 200 }], 'immersed'],
    ['a call that is no drain', [...toWet, { type: 'CALLED', calls: ['agitate'], atMs: 150 }], 'immersed'],
    ['the call to drain', [...toWet, { type: 'CALLED', calls: ['agitate', 'drain'], atMs: 150 }], 'draining'],
    ['draining by hand', [...toWet, { type: 'DRAIN', atMs: 150 }], 'draining'],
    [
      'more time while draining',
      [...toWet, { type: 'DRAIN', atMs: 150 }, { type: 'ADD', seconds: 9 }],
      'immersed',
    ],
    [
      'a bath while draining',
      [...toWet, { type: 'DRAIN', atMs: 150 }, { type: 'FILLED', atMs: 160 }],
      'immersed',
    ],
    ['the tank run empty', [...toWet, movedOn(readyFilm)], 'pouring'],
    ['the last bath run empty', [...toWet, movedOn(whole)], 'hanging'],
    ['the last rinse passed by', [...toDry, movedOn(whole)], 'hanging'],
    ['a rinse passed by', [...toDry, movedOn(readyFilm)], 'pouring'],
    ['one bath more before hanging', [...toDry, movedOn(whole), { type: 'FILLED', atMs: 9 }], 'immersed'],
    ['hung', [...toDry, movedOn(whole), { type: 'HUNG' }], 'closing'],
    ['hung before it was through', [...toDry, { type: 'HUNG' }], 'closing'],
    ['closed', [...toDry, { type: 'CLOSE' }], 'closed'],
    ['begun anew', [...toDry, { type: 'CLOSE' }, begin], 'preparing'],
    ['begun while it goes on', [...toDry, begin], 'pouring'],
    ['drained with an empty tank', [...toDry, { type: 'DRAIN', atMs: 9 }], 'pouring'],
  ])('after %s', (_, events, place) => {
    expect(placeOf(play(...events))).toBe(place);
  });
});

describe('what a run remembers', () => {
  it('begins with nothing but the moment; an open spill stays', () => {
    expect(startPosition(machine)).toEqual({
      value: { run: 'idle', pour: 'none', spill: 'none' },
      context: empty,
    });
    const spill = { liquid: 'stop', volumeMl: 5, place: null };
    const busy = play(
      ...toWet,
      { type: 'ADD', seconds: 9 },
      { type: 'DRAIN', atMs: 150 },
      { type: 'SPILLED', spill },
      { type: 'CLEARED', announced: into },
      asked,
      { type: 'CLOSE' },
    );
    expect(busy.context).toEqual({ calledMs: 100, addedS: 9, drainMs: 150, announced: into, pending, spill });
    expect(from(busy, begin).context).toEqual({ ...empty, calledMs: 5, spill });
  });
  it('a bath starts its own clock, and what was cleared or asked is settled by it', () => {
    const before = play(...toDry, { type: 'CLEARED', announced: into }, asked);
    expect(before.context).toEqual({ ...empty, calledMs: 5, announced: into, pending });
    expect(from(before, { type: 'FILLED', atMs: 100 }).context).toEqual({ ...empty, calledMs: 100 });
    const again = from(
      play(...toWet),
      { type: 'ADD', seconds: 30 },
      { type: 'DRAIN', atMs: 150 },
      { type: 'FILLED', atMs: 300 },
    );
    expect(again.context).toEqual({ ...empty, calledMs: 300 });
    expect(from(play(...toDry, movedOn(whole)), { type: 'FILLED', atMs: 40 }).context).toEqual({
      ...empty,
      calledMs: 40,
    });
  });
  it('calls that were made, in every place of a bath', () => {
    const called = (atMs: number): RunEvent => ({ type: 'CALLED', calls: ['in-asked'], atMs });
    expect(play(...toDry, called(70)).context.calledMs).toBe(70);
    expect(play(...toWet, called(170)).context).toMatchObject({ calledMs: 170, drainMs: null });
    expect(play(...toWet, { type: 'CALLED', calls: ['drain'], atMs: 165 }).context).toMatchObject({
      calledMs: 165,
      drainMs: 165,
    });
    expect(play(...toWet, { type: 'DRAIN', atMs: 150 }, called(170)).context).toMatchObject({
      calledMs: 170,
      drainMs: 150,
    });
  });
  it('time adds up, and takes the draining back', () => {
    const added = play(
      ...toWet,
      { type: 'ADD', seconds: 30 },
      { type: 'DRAIN', atMs: 150 },
      { type: 'ADD', seconds: 15 },
    );
    expect(added.context).toMatchObject({ addedS: 45, drainMs: null });
  });
  it('an empty tank ends the draining and a return, not a pour that was cleared into it', () => {
    const draining = play(...toWet, { type: 'DRAIN', atMs: 150 });
    for (const film of [readyFilm, whole]) {
      const cleared = (announced: Announced) =>
        from(draining, { type: 'CLEARED', announced }, movedOn(film)).context;
      expect(cleared(out)).toMatchObject({ drainMs: null, announced: null });
      expect(cleared(into)).toMatchObject({ drainMs: null, announced: into });
    }
  });
});

describe('the pour in hand', () => {
  it('is cleared, withdrawn, or in question; a clearance answers what was asked', () => {
    const cleared = play(...toDry, asked, { type: 'CLEARED', announced: into });
    expect([pourState(cleared), cleared.context]).toEqual([
      'cleared',
      { ...empty, calledMs: 5, announced: into },
    ]);
    const withdrawn = from(cleared, asked, { type: 'WITHDRAWN' });
    expect([pourState(withdrawn), withdrawn.context]).toEqual(['none', { ...empty, calledMs: 5 }]);
    const questioned = from(cleared, asked);
    expect([pourState(questioned), questioned.context]).toEqual([
      'questioned',
      { ...empty, calledMs: 5, announced: into, pending },
    ]);
  });
  it('a question that is settled leaves what was cleared, or nothing', () => {
    const settle: RunEvent = { type: 'SETTLE' };
    const still = play(...toDry, { type: 'CLEARED', announced: into }, asked, settle);
    expect([pourState(still), still.context]).toEqual([
      'cleared',
      { ...empty, calledMs: 5, announced: into },
    ]);
    const none = play(...toDry, asked, settle);
    expect([pourState(none), none.context]).toEqual(['none', { ...empty, calledMs: 5 }]);
  });
  it('a bath that went in, or a new run, leaves none', () => {
    expect(pourState(play(...toDry, { type: 'CLEARED', announced: into }, { type: 'FILLED', atMs: 9 }))).toBe(
      'none',
    );
    expect(pourState(play({ type: 'CLEARED', announced: into }, begin))).toBe('none');
    expect(pourState(play(...toDry, asked, { type: 'CLEARED', announced: into }, asked))).toBe('questioned');
  });
});

describe('a spill', () => {
  const spill = { liquid: 'stop', volumeMl: null, place: 'the floor' };
  it('is open until it is cleaned up, and what is said of it later takes its place', () => {
    const open = play({ type: 'SPILLED', spill });
    expect(open).toMatchObject({ value: { spill: 'open' }, context: { spill } });
    const more = from(open, { type: 'SPILLED', spill: { ...spill, volumeMl: 40 } });
    expect(more).toMatchObject({ value: { spill: 'open' }, context: { spill: { volumeMl: 40 } } });
    expect(more.context.otherSpills).toBeUndefined();
    const another = from(more, { type: 'SPILLED', spill, beside: true });
    expect(another.context).toMatchObject({ spill, otherSpills: [{ volumeMl: 40 }] });
    const one = from(another, { type: 'CLEANED' });
    expect(one).toMatchObject({
      value: { spill: 'open' },
      context: { spill: { volumeMl: 40 }, otherSpills: [] },
    });
    expect(from(one, { type: 'CLEANED' })).toMatchObject({
      value: { spill: 'none' },
      context: { spill: null },
    });
  });
  it('on somebody is an injury, the last one last, until that is over', () => {
    const hurt = play(
      { type: 'HURT', how: 'eye' },
      { type: 'HURT', how: 'skin' },
      { type: 'HURT', how: 'eye' },
    );
    expect(hurt.context.hurt).toEqual(['skin', 'eye']);
    expect(from(hurt, { type: 'HEALED' }).context.hurt).toEqual([]);
  });
});
