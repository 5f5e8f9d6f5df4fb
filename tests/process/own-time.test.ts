import { describe, expect, it } from 'vitest';
import { checksFor, freshMs, type StepTime, stepTime } from '../../src/process/guard-checks.js';
import type { ProcessSheet } from '../../src/process/sheet.js';
import { blackAndWhite } from '../../src/process/sheets/black-and-white.js';
import { timeAt } from '../../src/process/temperature.js';
import type { Fact } from '../../src/world/fact.js';
import type { FilmState } from '../../src/world/film.js';
import { atDeveloper, heard, into, isIn, known, last, named, out, withDeveloper } from './at-the-sink.js';
import { BenchUser, bottle as bottleOf } from './bench-user.js';
import { bottle, holds, jug, readyFilm, sheet, sinkOf, tank, viewOf } from './sink.js';

const mixed = (recipe: string, liquid: string, number: number): Fact => ({
  type: 'mixed',
  batch: recipe,
  recipe,
  liquid,
  volumeMl: 1000,
  bottle: number,
});
const read = (tempC: number): Fact => ({ type: 'temperature', vessel: bottle(8), tempC });

describe('a step’s time is that of the bath that is poured', () => {
  const of = (recipe: string, liquid: string, from = bottle(8)): StepTime | null =>
    stepTime(viewOf(sinkOf(mixed(recipe, liquid, 8))), liquid, from);
  it('where its recipe works more slowly, so many times as long, or as long as it must at least', () => {
    expect(of('ecn2-fixer-sodium', 'fixer')).toEqual({
      seconds: 240,
      why: 'sodium thiosulphate fixes more slowly than ammonium',
    });
    expect(of('ecn2-stop-vinegar', 'stop')).toMatchObject({ seconds: 60 });
    // twice ten seconds would do; soda wants a minute at least
    expect(of('ecn2-prebath-home', 'prebath')).toMatchObject({ seconds: 60 });
  });
  it('is the sheet’s where nothing is known to be otherwise', () => {
    expect(of('ecn2-fixer', 'fixer')).toBeNull();
    expect(of('ecn2-fixer-sodium', 'fixer', bottle(5))).toBeNull();
    expect(of('ecn2-fixer-sodium', 'fixer', jug)).toBeNull();
    expect(of('ecn2-fixer-sodium', 'water', bottle(8))).toBeNull();
    expect(of('ecn2-fixer-sodium', 'toner')).toBeNull();
    const slow = {
      ...sheet,
      steps: sheet.steps.map((s) =>
        s.id === 'stop' && s.time ? { ...s, time: { ...s.time, aimS: 90 } } : s,
      ),
    };
    expect(
      stepTime(viewOf(sinkOf(mixed('ecn2-stop-vinegar', 'stop', 8)), { sheet: slow }), 'stop', bottle(8)),
    ).toMatchObject({ seconds: 180 });
  });
  it('a black-and-white developer off its temperature has the chart’s time, to five seconds', () => {
    const at = (tempC: number, atMs = 0, liquid = 'developer') =>
      stepTime(
        viewOf(sinkOf(holds(8, liquid, 600), read(tempC)), { sheet: blackAndWhite, atMs }),
        liquid,
        bottle(8),
      );
    expect(at(22)).toEqual({ seconds: 345, why: 'the chart has it so for its temperature' });
    expect(at(18)).toMatchObject({ seconds: 475 });
    expect(at(20)).toBeNull();
    expect(at(27)).toBeNull();
    expect(at(22, freshMs)).toMatchObject({ seconds: 345 });
    expect(at(22, freshMs + 1)).toBeNull();
    expect(at(22, 0, 'fixer')).toBeNull();
    // only development goes by the chart, and only where the sheet has a temperature for it
    const [dev] = blackAndWhite.steps;
    const narrow = (id: string, temp: ProcessSheet['steps'][number]['temp']) => ({
      ...blackAndWhite,
      steps: blackAndWhite.steps.map((s) => (s.id === id ? { ...s, temp } : s)),
    });
    const by = (own: ProcessSheet, liquid: string) =>
      stepTime(viewOf(sinkOf(holds(8, liquid, 600), read(22)), { sheet: own }), liquid, bottle(8));
    expect(by(narrow('fixer', dev?.temp ?? null), 'fixer')).toBeNull();
    expect(by(narrow('developer', null), 'developer')).toBeNull();
    const unread = viewOf(sinkOf(holds(8, 'developer', 600)), { sheet: blackAndWhite });
    expect(stepTime(unread, 'developer', bottle(8))).toBeNull();
    // and nothing is warned of that the time makes up for
    const view = viewOf(sinkOf(holds(8, 'developer', 600), read(22)), { sheet: blackAndWhite });
    const move = {
      liquid: 'developer',
      from: bottle(8),
      to: tank,
      volumeMl: 500,
    } as const;
    expect(checksFor(move, view)).toMatchObject({ shown: { time: { seconds: 345 } }, entries: [] });
    const off = viewOf(sinkOf(holds(8, 'developer', 600), read(27)), { sheet: blackAndWhite });
    expect(checksFor(move, off).entries.map((e) => e.entry)).toEqual([['recoverable', 'developer-hot']]);
  });
  it('without a law of the rate, in layers, or in tolerance no other time is offered', () => {
    const aim = { aimC: 41.1, minC: 41, maxC: 41.2 };
    expect(timeAt('ecn-2', 180, aim, 41.2)).toEqual({ offer: 'none-needed' });
    expect(timeAt(undefined, 180, aim, 39)).toEqual({ offer: 'no', why: 'no-law' });
    expect(timeAt('ecn-2', 180, aim, 39)).toMatchObject({ offer: 'no', why: 'layers' });
  });
});

describe('an acid on carbonate in a closed tank', () => {
  const soda = mixed('ecn2-prebath-home', 'prebath', 1);
  const shown = (carry: FilmState['carry'], liquid: string, ...facts: Fact[]) =>
    checksFor(
      { liquid, from: bottle(3), to: tank, volumeMl: 500 },
      viewOf(sinkOf(...facts), { film: { ...readyFilm, carry } }),
    ).shown.openLid;
  it('presses on the lid where soda clings to the film; not with borax, washed off, or without acid', () => {
    expect(shown('backing-remover', 'stop', soda)).toBe(true);
    expect(shown('backing-remover', 'stop', soda, mixed('ecn2-stop-vinegar', 'stop', 3))).toBe(true);
    // the bottle that was mixed tells, whichever number it has
    expect(shown('backing-remover', 'stop', holds(8, 'prebath', 300), { ...soda, bottle: 9 } as Fact)).toBe(
      true,
    );
    expect(shown('backing-remover', 'stop')).toBeUndefined();
    expect(shown('developer', 'stop', soda)).toBeUndefined();
    expect(shown(null, 'stop', soda)).toBeUndefined();
    expect(shown('backing-remover', 'bleach', soda)).toBeUndefined();
  });
});

describe('the run keeps the bath’s own time', () => {
  const slow = () => {
    const user = atDeveloper();
    user.fact({ type: 'bottle-discarded', bottle: 3, liquid: 'stop', volumeMl: 600 });
    user.fact(mixed('ecn2-stop-vinegar', 'stop', 3));
    user.say(into('developer', 2));
    user.say(isIn('developer'));
    user.wait(178);
    user.say(out);
    return user;
  };
  it('in the clearance, on the clock, and in what is written', () => {
    const user = slow();
    expect(heard(user.say(into('stop', 3)))).toMatchObject([
      ['answer', { id: 'clear', checks: { time: { seconds: 60 } } }],
    ]);
    expect(heard(user.say(isIn('stop')))).toMatchObject([
      ['answer', { id: 'bath-in', aimS: 60, why: 'a weak acid stops development more slowly' }],
    ]);
    expect(last(user, 'poured')).toMatchObject({ aimS: 60 });
    expect(user.wait(49).map((s) => s.message.id)).not.toContain('drain');
    expect(user.wait(1).map((s) => s.message.id)).toContain('drain');
    user.wait(9);
    expect(heard(user.say(out))).toMatchObject([['answer', { slip: null }]]);
    expect(last(user, 'step-ended')).toMatchObject({ plannedS: 60, actualS: 59 });
    // 60 s with 5 s of tolerance, 10 s of draining and 2 s for hands; the sheet's 30 s over and 5 s for hands
    for (const [seconds, kind] of [
      [42.9, 'short'],
      [43, null],
      [95, null],
      [95.1, 'long'],
    ] as const) {
      const other = slow();
      other.say(isIn('stop'));
      other.wait(seconds);
      const message = other.say(out).at(-1)?.message;
      expect([seconds, message?.id === 'tank-is-empty' && (message.slip?.kind ?? null)]).toEqual([
        seconds,
        kind,
      ]);
    }
  });
  it('asked about: so long, and why', () => {
    const user = slow();
    const ask = (liquid?: string, u: BenchUser = user) =>
      heard(u.say({ type: 'ask-duration', ...(liquid && { liquid }) }))[0];
    expect(ask('stop')).toEqual([
      'answer',
      { id: 'duration', bath: named('stop'), seconds: 60, why: 'a weak acid stops development more slowly' },
    ]);
    expect(ask('bleach')).toEqual([
      'answer',
      { id: 'duration', bath: named('bleach'), seconds: 180, why: null },
    ]);
    expect(ask('water')).toEqual([
      'answer',
      { id: 'duration', bath: named('water'), seconds: null, why: null },
    ]);
    expect(ask('toner')).toEqual(['question', { id: 'no-such-liquid', said: 'toner', known }]);
    expect(ask()).toMatchObject(['answer', { id: 'next' }]);
    const two = atDeveloper();
    two.say({ type: 'bottle-holds', bottle: 8, liquid: 'stop', volumeMl: 600 });
    expect(ask('stop', two)).toMatchObject(['answer', { seconds: 30, why: null }]);
    expect(heard(slow().say({ type: 'ask-time-until', liquid: 'bleach' }))).toMatchObject([
      ['answer', { id: 'time-until', seconds: 60 + 30 }],
    ]);
  });
  it('at another temperature: as it was said, else as it was read', () => {
    const ask = (u: BenchUser, tempC?: number) =>
      heard(u.say({ type: 'ask-time-at', ...(tempC !== undefined && { tempC }) }))[0];
    const user = withDeveloper();
    expect(ask(user)).toEqual(['question', { id: 'time-at-what' }]);
    expect(ask(user, 39)).toEqual([
      'answer',
      {
        id: 'time-at',
        bath: named('developer'),
        tempC: 39,
        aimC: 41.1,
        plannedS: 180,
        answer: expect.objectContaining({ offer: 'no', why: 'layers' }),
      },
    ]);
    user.fact({ type: 'temperature', vessel: bottleOf(2), tempC: 41.1 });
    expect(ask(user)).toMatchObject(['answer', { tempC: 41.1, answer: { offer: 'none-needed' } }]);
    const two = atDeveloper();
    two.say({ type: 'bottle-holds', bottle: 8, liquid: 'developer', volumeMl: 600 });
    two.fact({ type: 'temperature', vessel: { kind: 'jug' }, tempC: 40 });
    expect(ask(two)).toMatchObject(['answer', { tempC: 40 }]);
    const idle = new BenchUser();
    expect(ask(idle, 41.1)).toMatchObject(['answer', { id: 'time-at' }]);
  });
});
