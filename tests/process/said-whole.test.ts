import { describe, expect, it } from 'vitest';
import { checksFor, freshMs, stepTime } from '../../src/process/guard-checks.js';
import { blackAndWhite } from '../../src/process/sheets/black-and-white.js';
import { c41 } from '../../src/process/sheets/c41.js';
import type { Fact } from '../../src/world/fact.js';
import { compensationFor } from '../../src/world/life.js';
import type { World } from '../../src/world/records.js';
import { fold } from '../../src/world/reduce.js';
import { atBleach, atDeveloper, back, heard, named, out, withDeveloper } from './at-the-sink.js';
import { BenchUser, bottle, ids } from './bench-user.js';
import { holds, sinkOf, tank, viewOf } from './sink.js';

const minute = 60_000;
const at = (world: World, fact: Fact, atMs: number): World => fold(world, { fact, atMs, wallMs: atMs });
const read = (tempC: number): Fact => ({
  type: 'temperature',
  vessel: bottle(2),
  liquid: 'developer',
  tempC,
});
const doubted = (tempC: number | null): Fact => ({ type: 'reading-doubted', vessel: bottle(2), tempC });
const reasons = (world: World, atMs: number) => {
  const move = {
    liquid: 'developer',
    from: bottle(2),
    to: tank,
    volumeMl: 500,
  } as const;
  return checksFor(move, viewOf(world, { atMs })).entries.map((f) => f.entry.join(' '));
};

describe('a reading', () => {
  it('of a quarter of an hour ago still sets the chart’s time, however long the clock has run', () => {
    const world = at(sinkOf(holds(2, 'developer', 600)), read(22), 40 * minute);
    const timeAt = (atMs: number) =>
      stepTime(viewOf(world, { sheet: blackAndWhite, atMs }), 'developer', bottle(2));
    expect(timeAt(40 * minute + freshMs)).toMatchObject({ seconds: 345 });
    expect(timeAt(40 * minute + freshMs + 1)).toBeNull();
  });
  it('that was asked about holds the developer back, until a later one or a word that drops it', () => {
    const start = sinkOf(holds(2, 'developer', 600));
    const first = at(start, read(41.1), 30 * minute);
    const doubt = at(first, doubted(31.1), 31 * minute);
    expect(reasons(start, 31 * minute)).toEqual([]);
    expect(reasons(at(start, doubted(31.1), 31 * minute), 32 * minute)).toEqual([
      'recoverable temperature-doubted',
    ]);
    expect(reasons(doubt, 32 * minute)).toEqual(['recoverable temperature-doubted']);
    expect(reasons(doubt, 31 * minute + freshMs)).toEqual(['recoverable temperature-doubted']);
    // no time makes it any surer
    expect(reasons(doubt, 31 * minute + freshMs + 1)).toEqual(['recoverable temperature-doubted']);
    expect(reasons(at(doubt, read(41.1), 32 * minute), 33 * minute)).toEqual([]);
    expect(reasons(at(doubt, doubted(null), 32 * minute), 33 * minute)).toEqual([]);
  });
});

describe('what is asked', () => {
  it('where we are: the first of all steps, and each after it', () => {
    const user = new BenchUser().ready();
    expect(heard(user.say({ type: 'ask-where' }))).toMatchObject([
      ['answer', { id: 'where', step: 1, of: 11 }],
    ]);
    expect(heard(atDeveloper().say({ type: 'ask-where' }))).toMatchObject([['answer', { step: 3 }]]);
  });
  it('what the film has had: of all, or of one bath', () => {
    const user = atBleach();
    expect(heard(user.say({ type: 'ask-film' }))).toMatchObject([
      ['answer', { id: 'film-so-far', asked: null }],
    ]);
    expect(heard(user.say({ type: 'ask-film', liquid: 'stop' }))).toMatchObject([
      ['answer', { id: 'film-so-far', asked: named('stop') }],
    ]);
  });
  it('when a bath comes that this sheet has not, and one that it has', () => {
    const user = new BenchUser({ sheets: [c41] }).ready();
    expect(heard(user.say({ type: 'ask-time-until', liquid: 'stop' }))).toEqual([
      ['answer', { id: 'time-until-none', bath: named('stop'), why: 'not-in-sheet' }],
    ]);
    expect(ids(user.say({ type: 'ask-time-until', liquid: 'bleach' }))).toEqual(['time-until']);
  });
  it('a longer time for a used developer: only of the process whose figures these are', () => {
    const used = sinkOf(holds(2, 'developer', 600)).bottles[2];
    if (!used) throw new Error('expected a bottle');
    expect(compensationFor(used)).toMatch(/No longer time/);
    expect(compensationFor(used, { rate: 'c-41' })).toBeNull();
    expect(compensationFor({ ...used, liquid: null })).toBeNull();
  });
});

describe('what is said of the time', () => {
  it('hot in the tank: so much less, yet no sooner than hands can', () => {
    const hot = (afterS: number, tempC: number) => {
      const user = withDeveloper();
      user.wait(afterS);
      const said = heard(
        user.fact({ type: 'temperature', vessel: { kind: 'tank' }, liquid: 'developer', tempC }),
      );
      const message = said[0]?.[1] as { changeS: number | null } | undefined;
      return message?.changeS;
    };
    // five degrees at half a minute: 145 s are left to the call, of which a third is too much
    expect(hot(30, 46.1)).toBeLessThan(-40);
    expect(hot(30, 46.1)).toBeGreaterThan(-70);
    // ten seconds before the call nothing can be done but that
    expect(hot(160, 46.1)).toBeNull();
    expect(hot(150, 51.1)).toBe(-10);
  });
  it('less time than it has had already: it is to be drained, by a yes', () => {
    const user = withDeveloper();
    user.wait(100);
    user.say({ type: 'add-time', seconds: 30 });
    const cold = withDeveloper();
    cold.wait(100);
    cold.fact({ type: 'temperature', vessel: { kind: 'tank' }, liquid: 'developer', tempC: 49.1 });
    cold.wait(70);
    expect(ids(cold.say({ type: 'confirm' }))).not.toContain('time-added');
  });
  it('a development that came out weak is written down with its share', () => {
    const user = withDeveloper();
    user.wait(5);
    user.fact({ type: 'temperature', vessel: { kind: 'tank' }, liquid: 'developer', tempC: 37.1 });
    user.say({ type: 'cancel' });
    user.wait(170);
    user.say(back('developer', 2));
    user.say(out);
    expect(user.facts('deviation').map((d) => d.what)).toContainEqual(
      expect.stringMatching(/^time: 175 s, planned 180 s, development -\d+ %$/),
    );
  });
  it('a bath that is going back is draining from that word on', () => {
    const user = withDeveloper();
    user.wait(120);
    expect(ids(user.say(back('developer', 2)))).toEqual(['recoverable']);
    expect(user.context.drainMs).toBeNull();
    user.say({ type: 'confirm' });
    expect(user.context.drainMs).toBe(user.atMs);
    expect(heard(user.say({ type: 'ask-where' }))).toMatchObject([['answer', { now: { do: 'drain' } }]]);
  });
});

describe('what is told of vessels', () => {
  it('a bottle that holds as little as before leaves the jug as it is', () => {
    const user = withDeveloper();
    user.wait(175);
    user.say(out);
    user.say({ type: 'bottle-holds', bottle: 2, liquid: 'developer', volumeMl: 100 });
    expect(user.world.jugs.developer?.volumeMl).toBe(500);
    expect(user.world.bottles[2]?.contents.volumeMl).toBe(100);
  });
  it('a bottle of the same says nothing of what it was, and one of another does', () => {
    const tell = (liquid: string) => {
      const user = new BenchUser().ready();
      const [, message] =
        heard(user.say({ type: 'bottle-holds', bottle: 3, liquid, volumeMl: 600 }))[0] ?? [];
      return message;
    };
    expect(tell('stop')).toMatchObject({ id: 'bottle-noted', was: null });
    expect(heard(new BenchUser().say({ type: 'bottle-holds', bottle: 9, liquid: 'stop' }))).toMatchObject([
      ['answer', { id: 'bottle-noted', was: null }],
    ]);
  });
  it('another tank may be taken until the film is in its bath, and not after', () => {
    const use = (user: BenchUser) => ids(user.say({ type: 'use-tank', tank: 2 }));
    const loading = new BenchUser();
    loading.say({ type: 'begin-run' });
    expect(use(loading)).toEqual(['tank-used']);
    loading.say({ type: 'next-step' });
    loading.say({ type: 'use-tank', tank: 1 });
    loading.say({ type: 'next-step' });
    expect(use(loading)).toEqual(['tank-used']);
    expect(use(withDeveloper())).toEqual(['tank-busy']);
    expect(use(atDeveloper())).toEqual(['tank-busy']);
  });
  it('another tank: what it takes is taken for granted until it is told', () => {
    const user = new BenchUser();
    const chosen = () => heard(user.say({ type: 'use-tank', tank: 2 }));
    expect(chosen()).toMatchObject([['answer', { id: 'tank-used', told: false }]]);
    user.say({ type: 'tank-takes', volumeMl: 300 });
    expect(chosen()).toMatchObject([['answer', { id: 'tank-used', volumeMl: 300, told: true }]]);
  });
  it('film that was told by its number alone stays of the kind that the sheet is for', () => {
    const user = new BenchUser().ready();
    user.say({ type: 'films', count: 2 });
    expect(user.world.film).toMatchObject({
      loaded: true,
      kind: { backing: true, image: 'dye' },
      backing: 'on',
    });
  });
  it('a bath that got into itself, or into nothing, is asked about', () => {
    const user = new BenchUser().ready();
    const into = (more: object) => ids(user.say({ type: 'contaminated', liquid: 'stop', ...more }));
    expect(into({ intoBottle: 3 })).toEqual(['poured-what']);
    expect(into({ intoBottle: 9 })).toEqual(['poured-what']);
    expect(into({ intoBottle: 4 })).not.toEqual(['poured-what']);
  });
  it('a bottle with a drop left still holds its bath', () => {
    const user = new BenchUser().ready();
    user.say({ type: 'bottle-holds', bottle: 1, liquid: 'prebath', volumeMl: 1 });
    expect(heard(user.say({ type: 'pour-in', liquid: 'prebath' }))).toMatchObject([
      ['warning', { id: 'recoverable', move: { from: bottle(1) } }],
    ]);
  });
});
