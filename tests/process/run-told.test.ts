import { describe, expect, it } from 'vitest';
import type { Intent, IntentOf } from '../../src/process/intent.js';
import {
  atBleach,
  atDeveloper,
  atFixer,
  back,
  developed,
  heard,
  named,
  out,
  withDeveloper,
} from './at-the-sink.js';
import { BenchUser, bottle, ids } from './bench-user.js';

const yes: Intent = { type: 'confirm' };
const next: Intent = { type: 'ask-next' };
type Hurt = Omit<IntentOf<'hurt'>, 'type'>;

describe('somebody is hurt', () => {
  const told = (user: BenchUser, hurt: Hurt) => heard(user.say({ type: 'hurt', ...hurt }));
  const hurt = (hows: string[], asks: string | null, cautions: string[] = []) => [
    ['warning', { id: 'hurt', hows, asks, cautions }],
  ];
  const over = [['answer', { id: 'hurt-over' }]];
  it.each<[string, Hurt[], Hurt, unknown, string[]]>([
    ['an eye', [], { how: 'eye' }, hurt(['eye'], null), ['eye']],
    [
      'skin, with developer',
      [],
      { how: 'skin', liquid: 'developer' },
      hurt(['skin'], null, ['developer-skin']),
      ['skin'],
    ],
    ['skin, with stop bath', [], { how: 'skin', liquid: 'stop' }, hurt(['skin'], null), ['skin']],
    [
      'an eye and skin in one',
      [],
      { how: 'eye', also: ['skin'] },
      hurt(['eye', 'skin'], null),
      ['eye', 'skin'],
    ],
    ['only what if', [], { how: 'eye', about: 'if' }, hurt(['eye'], null), []],
    ['whom to call, of nobody yet', [], { how: 'eye', about: 'call' }, hurt(['eye'], 'call'), []],
    ['whom to call', [{ how: 'eye' }], { about: 'call' }, hurt(['eye'], 'call'), ['eye']],
    ['a lens in the eye', [{ how: 'eye' }], { about: 'lens' }, hurt(['eye'], 'lens'), ['eye']],
    ['an eye that is rinsed', [{ how: 'eye' }], { about: 'rinsing' }, hurt(['eye'], 'rinsing'), ['eye']],
    [
      'an eye said to be rinsed at once',
      [],
      { how: 'eye', about: 'rinsing' },
      hurt(['eye'], 'rinsing'),
      ['eye'],
    ],
    ['an eye that hurts still', [{ how: 'eye' }], { about: 'still' }, hurt(['eye'], 'rinsing'), ['eye']],
    [
      'breath that is short still',
      [{ how: 'breathed' }],
      { about: 'still' },
      hurt(['breathed'], null),
      ['breathed'],
    ],
    [
      'the last of two, the other one before',
      [{ how: 'breathed' }, { how: 'skin' }],
      { about: 'still' },
      hurt(['skin'], 'rinsing'),
      ['breathed', 'skin'],
    ],
    ['and nobody knows whether still', [{ how: 'eye' }], { about: 'unsure' }, hurt(['eye'], 'over'), ['eye']],
    ['nobody', [], { about: 'unsure' }, over, []],
    ['no more', [{ how: 'eye' }, { how: 'skin' }], { about: 'over' }, over, []],
    [
      'one no more, the other still',
      [{ how: 'eye' }, { how: 'skin' }],
      { how: 'skin', about: 'over' },
      hurt(['eye'], 'over'),
      ['eye'],
    ],
  ])('%s', (_what, before, now, answer, open) => {
    const user = withDeveloper();
    for (const one of before) told(user, one);
    expect(told(user, now)).toEqual(answer);
    expect(user.context.hurt ?? []).toEqual(open);
  });
  it.each([
    ['speaker', 'speaker', []],
    ['another', 'another', []],
    ['another', 'speaker', ['eye']],
    ['speaker', 'another', ['eye']],
    [undefined, 'speaker', ['eye']],
    [undefined, 'another', []],
  ] as const)('of %s, and %s is well', (whose, who, open) => {
    const user = withDeveloper();
    told(user, { how: 'eye', ...(whose && { who: whose }) });
    expect(told(user, { about: 'over', who })).toEqual(open.length > 0 ? hurt(['eye'], 'over') : over);
    expect(user.context.hurt).toEqual(open);
  });
  it('nobody, and rinsing is of the film: how long yet; with no run it is of whoever might be hurt', () => {
    expect(told(withDeveloper(), { about: 'rinsing' })).toMatchObject([
      ['answer', { id: 'time-left', bath: named('developer') }],
    ]);
    expect(told(new BenchUser(), { about: 'rinsing' })).toEqual(hurt([], 'rinsing'));
  });
});

describe('gas in a bottle', () => {
  const nextAfter = (liquid: string, intoBottle: number, seconds: number) => {
    const user = atFixer();
    user.say({ type: 'contaminated', liquid, intoBottle });
    user.wait(seconds);
    return ids(user.say(next))[0];
  };
  it.each([
    ['goes before the run', 'stop', 4, 14 * 60, 'gas-there'],
    ['has left the room after a quarter of an hour', 'stop', 4, 15 * 60, 'aired'],
    ['is not made by every bath', 'prebath', 2, 0, 'next'],
  ])('%s', (_what, liquid, number, seconds, id) => {
    expect(nextAfter(liquid, number, seconds)).toBe(id);
  });
});

describe('what the film had', () => {
  it.each<[string, Omit<IntentOf<'ask-film'>, 'type'>, unknown]>([
    ['at all', {}, { asked: null, time: null }],
    [
      'and how long: the last bath that is no water',
      { about: 'time' },
      { asked: named('stop'), time: { aimS: 30 } },
    ],
    [
      'of one bath, and how long',
      { about: 'time', liquid: 'developer' },
      { asked: named('developer'), time: { aimS: 180 } },
    ],
    ['of one bath', { liquid: 'developer' }, { asked: named('developer'), time: null }],
  ])('%s', (_what, about, answer) => {
    expect(heard(atBleach().say({ type: 'ask-film', ...about }))).toMatchObject([
      ['answer', { id: 'film-so-far', ...(answer as object) }],
    ]);
  });
});

describe('which bottle a bath got into', () => {
  it.each<[string, Omit<IntentOf<'part'>, 'type'>]>([
    ['by its number', { vessel: bottle(4) }],
    ['by its bath', { liquid: 'bleach' }],
  ])('is answered %s', (_what, part) => {
    const user = atFixer();
    expect(ids(user.say({ type: 'contaminated', liquid: 'stop' }))).toEqual(['got-into-which']);
    expect(user.facts('splashed')).toEqual([]);
    user.say({ type: 'part', ...part });
    expect(user.facts('splashed')).toMatchObject([{ liquid: 'stop', bottle: 4 }]);
  });
});

describe('the bath that is due, said to go into its own bottle', () => {
  const intoOwn = (liquid: string, number: number): Intent => ({
    type: 'pour-between',
    liquid,
    to: bottle(number),
  });
  const isMeantIn = (user: BenchUser, intent: Intent) => {
    user.say(intent);
    const { announced } = user.context;
    return announced?.kind === 'in' && announced.liquid === 'developer';
  };
  it.each<[string, boolean, () => BenchUser, Intent]>([
    ['goes into the tank', true, atDeveloper, intoOwn('developer', 2)],
    [
      'goes into the tank, from a jug that holds none of it',
      true,
      atDeveloper,
      { ...intoOwn('developer', 2), from: { kind: 'jug' } } as Intent,
    ],
    [
      'is poured there if an amount is said',
      false,
      atDeveloper,
      { ...intoOwn('developer', 2), volumeMl: 50 } as Intent,
    ],
    ['is poured there if it is another bottle’s', false, atDeveloper, intoOwn('developer', 4)],
    ['is poured there if it is not due', false, developed, intoOwn('developer', 2)],
    ['is poured there if a bath is in the tank', false, withDeveloper, intoOwn('developer', 2)],
    [
      'is poured back if some of it stands in a jug',
      false,
      () => {
        const user = atDeveloper();
        user.say({
          type: 'poured',
          liquid: 'developer',
          from: bottle(2),
          to: { kind: 'jug' },
          volumeMl: 100,
        });
        return user;
      },
      intoOwn('developer', 2),
    ],
  ])('%s', (_what, meant, user, intent) => {
    expect(isMeantIn(user(), intent)).toBe(meant);
  });
});

describe('some of a bath', () => {
  it.each<[string, object, string[]]>([
    ['that went nowhere that was said is with the rest in its bottle', {}, ['poured']],
    ['that went into its own bottle', { to: bottle(2) }, ['poured']],
  ])('%s', (_what, to, said) => {
    const user = developed();
    expect(ids(user.say({ type: 'poured', liquid: 'developer', some: true, ...to }))).toEqual(said);
    expect(user.world.bottles[2]?.doubt).toBeNull();
  });
  it('that went into another bath leaves that one in doubt', () => {
    const user = developed();
    user.say({ type: 'poured', liquid: 'developer', some: true, to: bottle(4) });
    expect(user.world.bottles[4]?.doubt).toBe('unanswered');
  });
  it('back in its bottle, and the tank empty: what was left stands in a jug', () => {
    const user = withDeveloper();
    user.wait(170);
    user.say({ ...back('developer', 2), volumeMl: 300 } as Intent);
    user.say(out);
    expect(user.world.tank.bath).toBeNull();
    expect(user.world.bottles[2]?.contents.volumeMl).toBeCloseTo(400, 6);
    expect(user.world.jugs.developer?.volumeMl).toBeCloseTo(200, 6);
  });
});

describe('a return that was refused, and went in all the same', () => {
  const refused = () => {
    const user = withDeveloper();
    user.wait(170);
    expect(ids(user.say(back('developer', 4)))).toEqual(['ruinous']);
    return user;
  };
  it('just after is in that bottle, and it is said what it did', () => {
    const user = refused();
    expect(heard(user.say({ type: 'poured' }))).toMatchObject([
      ['warning', { id: 'poured' }],
      ['answer', { id: 'tank-is-empty' }],
    ]);
    expect(user.world.tank.bath).toBeNull();
    expect(user.world.bottles[4]?.contaminations).toMatchObject([{ liquid: 'developer' }]);
  });
  it('long after is asked about', () => {
    const user = refused();
    user.wait(300);
    user.say({ type: 'poured' });
    expect(user.context.pending?.kind).toBe('where-went');
  });
});

describe('two bottles', () => {
  const swapped: Intent = { type: 'swapped', bottle: 4, other: 5 };
  it('that changed places are asked about, and told at once where it is sure', () => {
    const asked = atDeveloper();
    expect(ids(asked.say(swapped))).toEqual(['swap-asked']);
    expect(asked.facts('bottles-swapped')).toEqual([]);
    const sure = atDeveloper();
    expect(heard(sure.say({ ...swapped, sure: true }))).toMatchObject([
      ['answer', { id: 'swapped', bottles: [{ bottle: 4 }, { bottle: 5 }] }],
    ]);
    expect(sure.facts('bottles-swapped')).toMatchObject([{ bottle: 4, other: 5 }]);
    expect([4, 5].map((n) => sure.world.bottles[n]?.liquid)).toEqual(['fixer', 'bleach']);
  });
  it.each([
    ['in one breath are confirmed together', 0, ['fixer', 'bleach']],
    ['one after the other are two questions, and the yes is to the last', 5, ['bleach', 'bleach']],
  ])('told to hold something else %s', (_what, seconds, hold) => {
    const user = atDeveloper();
    user.say({ type: 'bottle-holds', bottle: 4, liquid: 'fixer', volumeMl: 500 });
    user.wait(seconds);
    user.say({ type: 'bottle-holds', bottle: 5, liquid: 'bleach', volumeMl: 500 });
    user.say(yes);
    expect([4, 5].map((n) => user.world.bottles[n]?.liquid)).toEqual(hold);
  });
});

describe('water, after a spill of developer and with the wash due', () => {
  it.each<[string, object, string[]]>([
    ['by itself is what goes in next', {}, ['part-alone']],
    ['with a place is a second spill', { place: 'table' }, []],
    ['with an amount is a second spill', { volumeMl: 50 }, []],
    ['is none where it is another bath', { liquid: 'stop' }, []],
  ])('%s', (_what, more, said) => {
    const user = new BenchUser().ready().bath('prebath', 1, 10);
    user.say({ type: 'spill', liquid: 'developer', volumeMl: 20 });
    const answered = ids(user.say({ type: 'spill', liquid: 'water', ...more }));
    expect(answered.filter((id) => id === 'part-alone')).toEqual(said);
  });
});

describe('a developer that is too cold', () => {
  it.each<[string, Intent]>([
    ['only the bottle was said', { type: 'pour-in', from: bottle(2) }],
    ['only the bath was said', { type: 'pour-in', liquid: 'developer' }],
  ])('is to be warmed, though %s', (_what, pour) => {
    const user = atDeveloper();
    user.fact({ type: 'temperature', vessel: bottle(2), liquid: 'developer', tempC: 37 });
    expect(heard(user.say(pour))).toMatchObject([['warning', { reason: 'developer-cold' }]]);
    expect(heard(user.say(next))).toMatchObject([
      ['answer', { id: 'warm-it', bath: named('developer'), tempC: 37, hot: false }],
    ]);
    // with the bottle empty no such pour is left to warm for
    user.say({ type: 'bottle-empty', bottle: 2 });
    expect(ids(user.say(next))).not.toContain('warm-it');
  });
  it('in a jug is to be warmed there', () => {
    const user = atDeveloper();
    user.say({ type: 'poured', liquid: 'developer', from: bottle(2), to: { kind: 'jug' }, volumeMl: 500 });
    user.fact({ type: 'temperature', vessel: { kind: 'jug' }, liquid: 'developer', tempC: 37 });
    expect(heard(user.say({ type: 'pour-in', from: { kind: 'jug' } }))).toMatchObject([
      ['warning', { reason: 'developer-cold' }],
    ]);
    expect(ids(user.say(next))).toEqual(['warm-it']);
  });
});
