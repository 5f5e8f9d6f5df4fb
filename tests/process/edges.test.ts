import { describe, expect, it } from 'vitest';
import { resolve } from '../../src/process/guard-resolve.js';
import type { Intent } from '../../src/process/intent.js';
import { ecn2Ferricyanide } from '../../src/process/sheets/ecn2-ferricyanide.js';
import { speedOf } from '../../src/process/temperature.js';
import type { Fact } from '../../src/world/fact.js';
import {
  atBleach,
  atDeveloper,
  atFixer,
  back,
  developed,
  hanging,
  has,
  heard,
  into,
  isIn,
  last,
  named,
  out,
  withDeveloper,
  yes,
} from './at-the-sink.js';
import { BenchUser, bottle, ids } from './bench-user.js';
import { holds, sinkOf, viewOf } from './sink.js';

const drainNow: Intent = { type: 'drain-now' };
const read = (vessel: number | 'tank', liquid: string, tempC: number): Fact => ({
  type: 'temperature',
  vessel: vessel === 'tank' ? { kind: 'tank' } : bottle(vessel),
  liquid,
  tempC,
});
const said = (user: BenchUser, intent: Intent) => heard(user.say(intent));
const cleared = (liquid: string, number: number) => {
  const user = atDeveloper();
  user.say(into(liquid, number));
  return user;
};

describe('a bath that may have been on the film', () => {
  it('is on record with its run while nobody is sure', () => {
    const user = atDeveloper();
    user.say({ type: 'in-doubt', suspect: 'fixer' });
    expect(user.facts('film-doubted')).toMatchObject([{ of: ['fixer'], runId: user.world.run?.runId }]);
    expect(user.world.run).not.toBeNull();
  });
});

describe('what comes next', () => {
  it('is offered to whoever listens while a bath is drained: that it drains, where it goes, that it is out', () => {
    const user = withDeveloper();
    user.wait(170);
    expect(user.desk.due?.(user.state, user.world)).toEqual([
      drainNow,
      { type: 'pour-back', liquid: 'developer' },
      out,
    ]);
  });
  it('names no backing remover as left out to film that has no backing', () => {
    const bare = new BenchUser();
    bare.say({ type: 'films', stock: 'black-and-white' });
    bare.ready();
    bare.say(into('developer', 2));
    bare.say(yes);
    bare.say(isIn('developer'));
    expect(bare.world.film.kind.backing).toBe(false);
    expect(said(bare, { type: 'ask-next' })).toEqual([
      ['answer', { id: 'next', step: 'stop bath', bath: named('stop'), after: named('water') }],
    ]);
  });
  it('where gas was made is that alone', () => {
    const user = atFixer();
    user.say({ type: 'contaminated', liquid: 'stop', intoBottle: 4 });
    expect(ids(user.say({ type: 'ask-next' }))).toEqual(['gas-there']);
  });
  it('with a developer that is too cold and waits for a word is to warm it, whether or not its bottle was said', () => {
    for (const from of [{ from: bottle(2) }, {}]) {
      const user = atDeveloper();
      user.fact(read(2, 'developer', 37));
      expect(said(user, { type: 'pour-in', liquid: 'developer', ...from })).toMatchObject([
        ['warning', { reason: 'developer-cold' }],
      ]);
      expect(said(user, { type: 'ask-next' })).toMatchObject([
        ['answer', { id: 'warm-it', tempC: 37, aimC: 41.1, hot: false }],
      ]);
    }
  });
});

describe('a pour', () => {
  it('that was warned of and went in all the same came from the bottle that was named', () => {
    const user = atDeveloper();
    user.say(has(7, 'developer', 600));
    user.fact(read(7, 'developer', 37));
    user.say(into('developer', 7));
    user.say(isIn());
    expect(user.world.tank.bath?.from).toEqual(bottle(7));
    expect(user.world.bottles[7]?.contents.volumeMl).toBeCloseTo(100, 6);
  });
  it('said to come out of a bottle that holds another bath holds that bottle, and what speaks against it already stays', () => {
    const doubtOf = (...before: Intent[]) => {
      const user = atDeveloper();
      for (const told of before) user.say(told);
      user.say({ type: 'poured', liquid: 'developer', from: bottle(4), to: { kind: 'tank' } });
      expect(user.world.tank.bath?.from).toEqual(bottle(2));
      return user.world.bottles[4]?.doubt;
    };
    expect(doubtOf()).toBe('unanswered');
    expect(doubtOf({ type: 'ask-advice', topic: 'labels-lost', bottle: 4 })).toBe('label-lost');
  });
  it('of nothing is none', () => {
    const user = atDeveloper();
    user.say({ type: 'bottle-empty', bottle: 5 });
    user.say({ type: 'poured', liquid: 'fixer', from: bottle(5), to: bottle(8) });
    expect(user.facts('poured').filter((p) => p.liquid === 'fixer')).toEqual([]);
  });
  it('of a part that is all that is left: the bath has ended', () => {
    const user = withDeveloper();
    user.wait(170);
    user.say({ type: 'pour-back', liquid: 'developer', to: bottle(2), volumeMl: 300 });
    user.say({ type: 'spill', liquid: 'developer', volumeMl: 200, place: 'table' });
    expect(user.world.tank.volumeMl).toBeCloseTo(300, 6);
    user.say(out);
    expect(user.world.tank.bath).toBeNull();
    expect(last(user, 'step-ended')).toMatchObject({ stepId: 'developer', actualS: 170 });
  });
  it('that is overridden names everything that it overrides; one that a yes lets through overrides nothing', () => {
    const user = atDeveloper();
    user.say(into('fixer', 5));
    expect(said(user, { type: 'override' })).toMatchObject([
      ['answer', { id: 'overridden', overridden: [{ reason: 'fixer-kills-latent' }] }],
    ]);
  });
  it('without a bottle is of one that holds any, be it half a millilitre', () => {
    const world = sinkOf(holds(2, 'developer', 0.5));
    expect(resolve({ kind: 'in', liquid: 'developer' }, viewOf(world), [])).toMatchObject({
      ask: 'propose',
      params: { bottle: 2 },
    });
  });
});

describe('how long a tank takes to run empty', () => {
  it('is learnt, and counted where nobody said that it was', () => {
    const user = atDeveloper();
    for (let i = 0; i < 3; i++) {
      user.say(isIn('water'));
      user.wait(20);
      user.say({ type: 'pour-away', from: { kind: 'tank' } });
      user.wait(25);
      user.say(out);
    }
    user.say(into('developer', 2));
    user.say(isIn('developer'));
    user.wait(165);
    user.say(back('developer', 2));
    user.wait(60);
    user.say(into('stop', 3));
    expect(last(user, 'step-ended')).toMatchObject({ stepId: 'developer', actualS: 190 });
  });
});

describe('all of a bath in another', () => {
  const all = (user: BenchUser) =>
    user.say({ type: 'contaminated', liquid: 'stop', intoBottle: 1, all: true });
  it('is as much as its bottle holds, be it less than a millilitre; of an empty one nobody knows how much', () => {
    const little = atBleach();
    little.say(has(3, 'stop', 0.8));
    all(little);
    expect(last(little, 'poured')).toMatchObject({
      liquid: 'stop',
      from: bottle(3),
      to: bottle(1),
      volumeMl: expect.closeTo(0.8, 6),
    });
    const none = atBleach();
    none.say({ type: 'bottle-empty', bottle: 3 });
    all(none);
    expect(none.facts('splashed')).toMatchObject([{ liquid: 'stop', bottle: 1 }]);
  });
});

describe('what is told of bottles', () => {
  it('their size alone, their size and contents, and how much', () => {
    const user = atDeveloper();
    user.say({ type: 'bottle-holds', bottle: 4, capacityMl: 1500 });
    expect(user.world.bottles[4]).toMatchObject({ assumed: true, capacityMl: 1500 });
    user.say({ type: 'bottle-holds', bottle: 4, capacityMl: 1500, liquid: 'bleach' });
    expect(user.world.bottles[4]).toMatchObject({ assumed: false });
    user.say({ type: 'bottle-holds', bottle: 5, capacityMl: 1500, volumeMl: 700 });
    expect(user.world.bottles[5]).toMatchObject({ assumed: false, contents: { volumeMl: 700 } });
    user.say({ type: 'bottle-holds', bottle: 6, volumeMl: 500 });
    expect(user.world.bottles[6]).toMatchObject({ assumed: false, capacityTold: false });
  });
  it('full is no less than it had', () => {
    const user = atDeveloper();
    user.say(has(4, 'bleach', 800));
    user.say({ type: 'bottle-holds', bottle: 4, full: true });
    expect(user.world.bottles[4]?.contents.volumeMl).toBe(800);
  });
  it('the baths of two that changed places', () => {
    expect(said(atDeveloper(), { type: 'swapped', liquid: 'bleach', otherLiquid: 'fixer' })).toMatchObject([
      ['question', { id: 'swap-asked', bottles: [{ bottle: 4 }, { bottle: 5 }] }],
    ]);
  });
  it('the baths of two change places unless one is told to take less than the other holds', () => {
    const swapped = (more: object) => {
      const user = atDeveloper();
      user.say(has(4, 'bleach', 1200, { capacityMl: 1500 }));
      user.say(has(5, 'fixer', 300, more));
      return said(user, { type: 'swapped', bottle: 4, other: 5 });
    };
    expect(swapped({})).toMatchObject([['question', { id: 'swap-asked' }]]);
    expect(swapped({ capacityMl: 1200 })).toMatchObject([['question', { id: 'swap-asked' }]]);
    expect(swapped({ capacityMl: 1100 })).toMatchObject([
      ['question', { id: 'bad-bottle', volumeMl: 1200, capacityMl: 1100, of: { bottle: 5 } }],
    ]);
  });
  it('a spill is of the one bottle that holds any, be it half a millilitre', () => {
    const user = atDeveloper();
    user.say(has(5, 'fixer', 0.5));
    user.say({ type: 'spill', liquid: 'fixer', volumeMl: 20, place: 'table' });
    expect(last(user, 'spilled')).toMatchObject({ from: bottle(5) });
  });
});

describe('developer in the tank', () => {
  it('read a moment that a pour can take after it was cleared: it went in', () => {
    const user = atDeveloper();
    user.say(into('developer', 2));
    user.wait(15);
    user.fact(read('tank', 'developer', 41.1));
    expect(user.world.tank.bath).toMatchObject({ liquid: 'developer', inferred: true });
  });
  it('in time and yet too little by its temperature is weak, and too much strong', () => {
    for (const [tempC, kind] of [
      [38, 'weak'],
      [44, 'strong'],
    ] as const) {
      const user = withDeveloper();
      user.fact(read('tank', 'developer', tempC));
      user.wait(170);
      user.say(back('developer', 2));
      user.wait(10);
      expect(said(user, out)).toMatchObject([['warning', { id: 'tank-is-empty', slip: { kind } }]]);
    }
  });
  it('whose effect nothing is known of: no change of its time is offered', () => {
    const user = withDeveloper();
    user.wait(20);
    expect(said(user, { type: 'ask-time-left' })).toEqual([
      ['answer', { id: 'time-left', bath: named('developer'), leftS: 160, drainS: 145 }],
    ]);
  });
  it('that is drained already, or off by a trifle, is offered no other time', () => {
    const late = withDeveloper();
    late.wait(170);
    expect(late.context.pending).toBeNull();
    expect(heard(late.fact(read('tank', 'developer', 38)))).toMatchObject([
      ['warning', { id: 'tank-off', changeS: null }],
    ]);
    expect(late.context.pending).toBeNull();
    const trifle = withDeveloper();
    trifle.wait(160);
    expect(heard(trifle.fact(read('tank', 'developer', 43)))).toMatchObject([
      ['warning', { id: 'tank-off' }],
    ]);
  });
});

describe('developer that the sheet gives no temperature', () => {
  it('has no effect of its temperature, though it was read', () => {
    const steps = ecn2Ferricyanide.steps.map((s) => (s.id === 'developer' ? { ...s, temp: null } : s));
    const user = withDeveloper({ sheets: [{ ...ecn2Ferricyanide, steps }] });
    user.fact(read('tank', 'developer', 38));
    user.wait(20);
    expect(said(user, { type: 'ask-time-left' })).toEqual([
      ['answer', { id: 'time-left', bath: named('developer'), leftS: 160, drainS: 145 }],
    ]);
  });
});

describe('the film is out', () => {
  it('before its bleach light harms it, and in the bleach or after it no more than it has', () => {
    const out = (user: BenchUser, light: boolean) =>
      expect(said(user, { type: 'film-hung' })).toMatchObject([['warning', { id: 'film-out', light }]]);
    out(withDeveloper(), true);
    const bleaching = atBleach();
    bleaching.say(into('bleach', 4));
    bleaching.say(isIn('bleach'));
    out(bleaching, false);
    const fixing = atFixer();
    fixing.say(into('fixer', 5));
    fixing.say(isIn('fixer'));
    out(fixing, false);
  });
  it('and one bath is missing: that is a warning; without any it is none', () => {
    const user = atFixer().bath('fixer', 5, 120).water(300);
    user.say({ type: 'film-hung' });
    expect(said(user, yes)).toMatchObject([
      ['warning', { id: 'film-hung', fixerLeft: false, missing: [named('final-rinse')] }],
    ]);
    expect(said(hanging(), { type: 'film-hung' })).toMatchObject([
      ['answer', { id: 'film-hung', fixerLeft: false, missing: [] }],
    ]);
  });
});

describe('a step', () => {
  it('is left out once, by the yes to the question about it, while it is still due', () => {
    const user = developed();
    user.say({ type: 'skip' });
    user.fact({ type: 'film-had', liquid: 'stop', role: 'stop', seconds: 30, stepId: 'stop' });
    user.say(yes);
    expect(user.facts('step-skipped')).toEqual([]);
    const other = developed();
    other.say({ type: 'skip' });
    other.say(yes);
    other.say(yes);
    expect(other.facts('step-skipped')).toMatchObject([{ stepId: 'stop' }]);
  });
});

describe('development without a law of its rate', () => {
  it('goes at one speed', () => {
    expect(speedOf(undefined, 20, 30)).toBe(1);
  });
});

describe('told or asked between the words of a run', () => {
  it('how long, right after a pour was cleared, is how long that bath takes', () => {
    const user = developed();
    user.say(into('stop', 3));
    expect(said(user, { type: 'ask-duration' })).toMatchObject([
      ['answer', { id: 'duration', bath: named('stop'), seconds: 30 }],
    ]);
    // what is on its way out is not what is asked about
    const draining = withDeveloper();
    draining.wait(170);
    draining.say(back('developer', 2));
    expect(ids(draining.say({ type: 'ask-duration' }))).toEqual(['next']);
  });
  it('a tank read right after a clearance does not say that the bath is in; read later it does', () => {
    for (const [seconds, isThere] of [
      [10, false],
      [20, true],
    ] as const) {
      const user = atDeveloper();
      user.say(into('developer', 2));
      user.wait(seconds);
      user.fact(read('tank', 'developer', 41.1));
      expect([seconds, user.world.tank.bath?.liquid === 'developer']).toEqual([seconds, isThere]);
    }
  });
  it('water in place of the stop bath: the stop bath is not asked for again, and after its time the bleach is due', () => {
    const user = developed();
    expect(ids(user.say({ type: 'skip', liquid: 'stop', for: 'water' }))).toEqual(['water-stops']);
    expect(last(user, 'step-skipped')).toMatchObject({ stepId: 'stop' });
    user.water(25);
    expect(said(user, into('bleach', 4))).toMatchObject([
      ['answer', { id: 'clear', move: { bath: named('bleach') } }],
    ]);
  });
  it('a rinse that was had before the first word, and that nobody counted, is four fills', () => {
    const user = new BenchUser().ready().bath('prebath', 1, 10);
    user.say({ type: 'had-before', liquid: 'water' });
    expect(last(user, 'film-had')).toMatchObject({ liquid: 'water', seconds: 40 });
  });
  it('a bleach cut short is to be given for what the sheet’s time lacks; out before it did anything, whole', () => {
    for (const [seconds, added, restS] of [
      [10, 0, null],
      [60, 0, 120],
      [60, 60, 120],
    ] as const) {
      const user = atBleach();
      user.say(into('bleach', 4));
      user.say(isIn('bleach'));
      if (added > 0) user.say({ type: 'add-time', seconds: added });
      user.wait(seconds);
      expect(said(user, out)).toMatchObject([
        ['warning', { id: 'tank-is-empty', slip: { kind: 'short', restS } }],
      ]);
    }
  });
  it('“it’s in” after a pour that left open which bath it was is asked about', () => {
    const bleach = into('bleach', 4);
    const openly: [Intent, object][] = [
      [into('bleach', 5), {}],
      [into('developer', 9), {}],
      [bleach, { by: 'voice', confidence: 0.9, close: [into('fixer', 5)] }],
      [bleach, { by: 'voice', confidence: 0.3 }],
    ];
    const asked = openly.map(([intent, how]) => {
      const user = atBleach();
      return [...user.say(intent, how), ...user.say(isIn())].map(({ message }) =>
        message.id === 'ask' ? message.ask : message.id,
      );
    });
    expect(asked).toEqual([
      ['mismatch', 'which-bath-in'],
      ['bottle-unknown', 'which-bath-in'],
      ['heard-two', 'which-bath-in'],
      ['unsure-heard', 'which-bath-in'],
    ]);
  });
  it('of a part that was cleared for a bottle, and an empty tank: the part is there, the rest in a jug', () => {
    const user = withDeveloper();
    user.wait(170);
    user.say({ type: 'pour-back', liquid: 'developer', to: bottle(2), volumeMl: 300 });
    user.say(out);
    expect(user.world.bottles[2]?.contents.volumeMl).toBeCloseTo(400, 6);
    expect(user.world.jugs.developer?.volumeMl).toBeCloseTo(200, 6);
  });
  it('“put it back in” after a development that was cut short is its rest, from the jug', () => {
    const user = withDeveloper();
    user.wait(60);
    user.say(out);
    expect(user.world.jugs.developer?.volumeMl).toBeCloseTo(500, 6);
    expect(said(user, { type: 'pour-back' })).toMatchObject([
      [
        'answer',
        { id: 'clear', move: { bath: named('developer'), from: { kind: 'jug' }, to: { kind: 'tank' } } },
      ],
    ]);
    // with nothing begun it is no pour into the tank
    const none = atDeveloper();
    expect(ids(none.say({ type: 'pour-back' }))).toEqual(['ask']);
  });
  it('film of another kind is warned of before the developer, and before no other bath', () => {
    const user = new BenchUser();
    user.say({ type: 'films', stock: 'black-and-white' });
    user.ready();
    expect(said(user, into('developer', 2))).toMatchObject([['warning', { reason: 'silver-film' }]]);
    user.say(yes);
    user.say(isIn('developer'));
    user.wait(170);
    user.say(back('developer', 2));
    user.say(out);
    const reasons = JSON.stringify([said(user, into('stop', 3)), said(user, into('developer', 2))]);
    expect(reasons).not.toContain('silver-film');
  });
  it('what goes in from a jug is no more than the jug has', () => {
    const user = atDeveloper();
    user.say(has(2, 'developer', 50));
    user.say(isIn('developer'));
    user.wait(170);
    user.say(out);
    expect(user.world.jugs.developer?.volumeMl).toBeCloseTo(50, 6);
    user.say(isIn('developer'));
    expect(user.world.tank.volumeMl).toBeCloseTo(50, 6);
  });
  it('more time by nothing is no time, where no clock runs', () => {
    expect(ids(developed().say({ type: 'add-time', seconds: 0 }))).toEqual(['no-clock']);
  });
  it('half of the bath is back in its bottle: half is in the tank, it drains, and nobody is told to agitate', () => {
    const user = withDeveloper();
    user.wait(60);
    expect(ids(user.say({ type: 'poured', from: { kind: 'tank' }, to: bottle(2), share: 0.5 }))).toEqual([
      'poured',
    ]);
    expect(user.world.tank.volumeMl).toBeCloseTo(250, 6);
    expect(user.world.tank.bath?.liquid).toBe('developer');
    expect(ids(user.wait(60))).not.toContain('agitate');
    user.say(out);
    expect(last(user, 'step-ended')).toMatchObject({ stepId: 'developer', actualS: 120 });
  });
  it('a bottle that is told again takes back its bath from the jug, and never one that something got into', () => {
    for (const [spoilt, inJugMl] of [
      [false, undefined],
      [true, 500],
    ] as const) {
      const user = withDeveloper();
      user.wait(170);
      user.say(out);
      if (spoilt)
        user.fact({
          type: 'poured',
          from: bottle(4),
          to: { kind: 'jug' },
          liquid: 'developer',
          volumeMl: 100,
          overridden: true,
        });
      user.say({ type: 'bottle-holds', bottle: 2, liquid: 'developer' });
      expect([spoilt, user.world.jugs.developer?.volumeMl]).toEqual([
        spoilt,
        inJugMl && expect.closeTo(inJugMl + 100, 6),
      ]);
    }
  });
});

describe('what goes on', () => {
  it('is not told anew with the word that the film is in the tank, where a pour or a bath waited for it', () => {
    const early = (intent: Intent) => {
      const user = new BenchUser();
      user.say({ type: 'begin-run' });
      user.say(intent);
      return said(user, { type: 'film-loaded' })[0];
    };
    for (const intent of [into('prebath', 1), isIn('prebath'), into('fixer', 5)])
      expect([intent, early(intent)]).toMatchObject([intent, ['answer', { id: 'film-loaded', now: null }]]);
    expect(early({ type: 'ask-time-left' })).toMatchObject([
      'answer',
      { id: 'film-loaded', now: { do: 'pour' } },
    ]);
  });
  it('film that the bath is not for is noted with a warning, and film that it is for with none', () => {
    const noted = (stock: string) => said(atDeveloper(), { type: 'films', stock })[0]?.[0];
    expect([noted('black-and-white'), noted('slide'), noted('film')]).toEqual([
      'warning',
      'warning',
      'answer',
    ]);
  });
  it('the film is what it is told to be, though it was loaded before', () => {
    const user = new BenchUser().ready();
    user.say({ type: 'films', stock: 'black-and-white' });
    expect(user.world.film).toMatchObject({ kind: { image: 'silver', backing: false }, backing: 'off' });
  });
  it('with the last bath left out the film is through: it hangs next', () => {
    const user = atFixer().bath('fixer', 5, 120).water(120);
    user.say({ type: 'skip' });
    user.say(yes);
    expect(user.desk.due?.(user.state, user.world)).toEqual([{ type: 'film-hung' }]);
    expect(said(user, { type: 'next-step' })).toMatchObject([['warning', { id: 'film-hung' }]]);
    expect(user.desk.due?.(user.state, user.world)).toEqual([{ type: 'close-run' }]);
  });
  it('a bath that is in while another one works is asked about: not after water, not the same one, not where that one leaves', () => {
    const told = (user: BenchUser, liquid: string) => ids(user.say(isIn(liquid)));
    const rinsing = developed();
    rinsing.say(isIn('water'));
    rinsing.wait(10);
    expect(ids(rinsing.say(isIn('stop', 15)))).not.toContain('in-instead');
    const developing = withDeveloper();
    expect(told(developing, 'developer')).not.toContain('in-instead');
    expect(told(developing, 'fixer')).toContain('in-instead');
    const leaving = withDeveloper();
    leaving.say(back('developer', 2));
    leaving.say(yes);
    expect(told(leaving, 'fixer')).not.toContain('in-instead');
  });
  it('what is due goes in where it gets into a tank that waits for it, and is no bath where water or no film is there', () => {
    const got = (user: BenchUser, liquid: string) =>
      ids(user.say({ type: 'contaminated', liquid, intoVessel: 'tank' }));
    expect(got(atDeveloper(), 'developer')).toEqual(['bath-in']);
    expect(got(atDeveloper(), 'stop')).toEqual(['got-into-tank']);
    const rinsing = atDeveloper();
    rinsing.say(isIn('water'));
    expect(got(rinsing, 'developer')).toEqual(['got-into-tank']);
    const loading = new BenchUser();
    for (const type of ['begin-run', 'next-step', 'next-step'] as const) loading.say({ type });
    expect(got(loading, 'prebath')).toEqual(['got-into-tank']);
  });
  const called = () => {
    const user = withDeveloper();
    user.wait(300);
    return user;
  };
  const inJug = () => {
    const user = called();
    user.say({ type: 'poured', liquid: 'developer', to: { kind: 'jug' } });
    return user;
  };
  it.each<[string, () => BenchUser, object, [from: object, liquid: string, volumeMl: number] | null]>([
    ['of the tank, while nothing is named', withDeveloper, {}, [{ kind: 'tank' }, 'developer', 250]],
    ['of the tank that is named', withDeveloper, { tank: true }, [{ kind: 'tank' }, 'developer', 250]],
    [
      'of the tank, as its bath leaves it',
      called,
      { liquid: 'developer' },
      [{ kind: 'tank' }, 'developer', 250],
    ],
    [
      'of the rest in its bottle, before that',
      withDeveloper,
      { liquid: 'developer' },
      [bottle(2), 'developer', 50],
    ],
    ['of its bottle, before it went in', atDeveloper, { liquid: 'developer' }, [bottle(2), 'developer', 300]],
    ['of its jug', inJug, { liquid: 'developer' }, [{ kind: 'jug' }, 'developer', 250]],
    ['of another bath’s bottle', withDeveloper, { liquid: 'bleach' }, [bottle(4), 'bleach', 300]],
    ['of the bottle that is named', called, { bottle: 5 }, [bottle(5), 'fixer', 300]],
    ['of nothing, where no tank or bottle is meant', atDeveloper, {}, null],
    ['of nothing, where the tank is empty', atDeveloper, { tank: true }, null],
    ['of nothing, where nobody knows the bottle', called, { bottle: 9 }, null],
  ])('half of it was spilled: %s', (_, sink, more, expected) => {
    const user = sink();
    user.say({ type: 'spill', share: 0.5, place: 'table', ...more });
    const [from, liquid, volumeMl] = expected ?? [];
    if (expected) expect(last(user, 'spilled')).toMatchObject({ from, liquid, volumeMl });
    else expect(user.facts('spilled')).toEqual([]);
  });
  it('a bath of which nobody knows how much was spilled is doubted where it stands in a bottle', () => {
    const spilt = (more: object) => {
      const user = called();
      expect(ids(user.say({ type: 'spill', some: true, place: 'table', ...more }))).toEqual(['spill-ask']);
      return [user.context.spill?.liquid, user.facts('bottle-doubted').map((f) => [f.bottle, f.doubt])];
    };
    expect(spilt({})).toEqual(['developer', []]);
    expect(spilt({ bottle: 5 })).toEqual(['fixer', [[5, 'spilled']]]);
    expect(spilt({ liquid: 'bleach' })).toEqual(['bleach', [[4, 'spilled']]]);
  });
  it.each<[string, () => BenchUser, string, string?]>([
    ['asks whether the bath that is due is in', atDeveloper, 'confirm-bath-in', 'developer'],
    [
      'asks whether the water of a wash is in',
      () => new BenchUser().ready().bath('prebath', 1, 20),
      'confirm-bath-in',
      'water',
    ],
    ['means the bath that was cleared', () => cleared('developer', 2), 'bath-in', 'developer'],
    ['means the bath that waits for a yes', () => cleared('bleach', 4), 'confirm-bath-in', 'bleach'],
    ['runs already', withDeveloper, 'clock-runs', 'developer'],
    ['means nothing before the film is in the tank', () => new BenchUser(), 'not-now'],
  ])('"start": %s', (_, sink, id, bath) => {
    const [[, message] = []] = said(sink(), { type: 'start-clock' });
    expect(message).toMatchObject({ id, ...(bath && { bath: { id: bath } }) });
  });
  it('whether a bottle may still be used is answered of that bottle, whatever speaks against another', () => {
    const user = atDeveloper();
    user.say({ type: 'ask-advice', topic: 'labels-lost', bottle: 4 });
    const good = (number: number) => said(user, { type: 'ask-advice', topic: 'still-good', bottle: number });
    expect(good(4)).toMatchObject([['warning', { id: 'still-good', bath: named('bleach') }]]);
    expect(good(5)).toEqual([['answer', { id: 'still-good', bath: named('fixer'), found: null }]]);
    expect(good(9)).toEqual(good(4));
  });
  it('bottles that changed places once change no second time', () => {
    const user = atDeveloper();
    user.say({ type: 'swapped', bottle: 4, other: 5 });
    expect(said(user, yes)).toMatchObject([['answer', { id: 'swapped' }]]);
    expect(said(user, yes)).toEqual([['answer', { id: 'nothing-waiting' }]]);
  });
  it('a bottle that is named again with what it holds keeps the volume that was told', () => {
    const user = new BenchUser();
    const told = { type: 'bottle-holds', bottle: 2, liquid: 'developer' } as const;
    expect(said(user, told)).toMatchObject([['answer', { volumeMl: 600, volumeAssumed: true }]]);
    user.say({ ...told, volumeMl: 450 });
    expect(said(user, told)).toMatchObject([['answer', { volumeMl: 450, volumeAssumed: false }]]);
  });
  it('a bath that the film had before is noted, and told where it cost the picture', () => {
    const had = (liquid: string) => said(new BenchUser().ready(), { type: 'had-before', liquid });
    expect(had('prebath')).toEqual([['answer', { id: 'had-before', bath: named('prebath'), lost: false }]]);
    expect(had('fixer')).toEqual([['warning', { id: 'had-before', bath: named('fixer'), lost: true }]]);
  });
  it('water is in as it should be once the bath before it has hardly touched the film, and asked about once that works', () => {
    const told = (afterS: number) => {
      const user = developed();
      user.say(into('stop', 3));
      user.say(isIn('stop'));
      user.wait(afterS);
      return ids(user.say(isIn('water')));
    };
    expect(told(10)).not.toContain('in-instead');
    expect(told(11)).toContain('in-instead');
  });
});

describe('whence and whither', () => {
  it('who names no bottle takes its bath from the bottle that fills the tank, and not from a jug with less in it', () => {
    const user = withDeveloper();
    user.wait(170);
    user.say({ type: 'pour-back', liquid: 'developer', to: bottle(2), volumeMl: 450 });
    user.say(out);
    user.say(isIn('developer'));
    expect([user.world.bottles[2]?.contents.volumeMl, user.world.tank.bath?.from]).toEqual([
      expect.closeTo(50, 6),
      bottle(2),
    ]);
  });
  it('a return that was warned of, and not called off, is done; one that was asked about stands in a jug', () => {
    const emptied = (intent: Intent) => {
      const user = withDeveloper();
      user.say(intent);
      user.wait(20);
      user.say(out);
      return user.world.bottles[2]?.contents.volumeMl;
    };
    expect(emptied(back('developer', 2))).toBeCloseTo(600, 6);
    expect(emptied({ type: 'pour-back', liquid: 'fixer', to: bottle(2) })).toBeCloseTo(100, 6);
  });
  it('“not yet” to whether the tank is empty leaves the return cleared', () => {
    const user = withDeveloper();
    user.wait(170);
    user.say(back('developer', 2));
    expect(ids(user.say({ type: 'withdraw', yet: true }))).toEqual(['now']);
    expect(user.context.announced).toMatchObject({ kind: 'out', to: bottle(2) });
  });
  it('a bath that did not go in is cleared no more, whatever becomes of the pour that came after it', () => {
    const user = atDeveloper();
    user.say(into('developer', 2));
    user.wait(60);
    expect(ids(user.say(into('fixer', 5)))).toEqual(['was-it-in']);
    user.say({ type: 'cancel' });
    expect(user.context).toMatchObject({ announced: null, pending: { kind: 'pour', verdict: 'ruinous' } });
  });
  it('a part alone fills the gap that was asked about, whichever of the two came first', () => {
    const bath: Intent = { type: 'pour-in', liquid: 'developer' };
    const from: Intent = { type: 'pour-in', from: bottle(9) };
    for (const words of [
      [bath, from],
      [from, bath],
    ]) {
      const user = atDeveloper();
      user.say(has(7, 'developer', 600));
      for (const intent of words) user.say(intent);
      expect(user.context.pending).toMatchObject({ request: { from: bottle(9), liquid: 'developer' } });
    }
  });
  it('what went back into its bottle is on record there: into another is asked, and from its bottle on into another is a pour', () => {
    const moved = (more: object) =>
      said(developed(), { type: 'poured', liquid: 'developer', to: bottle(7), ...more });
    expect(moved({})).toMatchObject([['question', { id: 'went-elsewhere', stands: 2, bottle: 7 }]]);
    expect(moved({ from: bottle(2) })).toMatchObject([['answer', { id: 'poured', to: bottle(7) }]]);
  });
  it('so much came back as was told: of the bath that was named, and of the last one where none was', () => {
    const cameBack = (more: object) => {
      const user = developed().bath('stop', 3, 30);
      user.say({ type: 'poured', from: { kind: 'tank' }, volumeMl: 400, ...more });
      return [2, 3].map((number) => Math.round(user.world.bottles[number]?.contents.volumeMl ?? 0));
    };
    expect([cameBack({}), cameBack({ liquid: 'developer' })]).toEqual([
      [600, 500],
      [500, 600],
    ]);
  });
  it('two millilitres less a half that stay in the tank are a part of it', () => {
    const user = withDeveloper();
    user.wait(170);
    user.say({ type: 'poured', from: { kind: 'tank' }, to: bottle(2), volumeMl: 498.5 });
    expect(user.world.tank.volumeMl).toBeCloseTo(1.5, 6);
  });
  it('a bath that drains, and went into another one’s bottle, is out of the tank and in there', () => {
    const user = atBleach();
    user.say(into('bleach', 4));
    user.say(isIn('bleach'));
    user.wait(180);
    user.say({ type: 'contaminated', liquid: 'bleach', intoLiquid: 'fixer' });
    expect(user.world.tank.bath).toBeNull();
    expect(user.world.bottles[5]?.contents.parts.bleach).toBeGreaterThan(400);
  });
  it('the larger tank is the one of two that was told to take more', () => {
    const user = new BenchUser();
    user.say({ type: 'tank-takes', volumeMl: 900 });
    user.say({ type: 'use-tank', tank: 2 });
    user.say({ type: 'tank-takes', volumeMl: 300 });
    expect(said(user, { type: 'use-tank', size: 'large' })).toMatchObject([
      ['answer', { id: 'tank-used', tank: '1', volumeMl: 900 }],
    ]);
    expect(said(user, { type: 'use-tank', size: 'small' })).toMatchObject([
      ['answer', { id: 'tank-used', tank: '2', volumeMl: 300 }],
    ]);
  });
  it('what runs out of the tank is what is in it; what was spilt from nobody knows where is asked', () => {
    const spilt = (more: object) => {
      const user = withDeveloper();
      user.say({ type: 'spill', volumeMl: 20, place: 'table', ...more });
      return user.context.spill?.liquid;
    };
    expect([spilt({ tank: true }), spilt({}), spilt({ tank: true, liquid: 'stop' })]).toEqual([
      'developer',
      null,
      'stop',
    ]);
  });
  it('gas is told of what got in last, and not again of what had got in before it', () => {
    const user = atDeveloper();
    const got = ['vinegar', 'cinnamon'].flatMap((liquid) =>
      said(user, { type: 'contaminated', liquid, intoBottle: 4, volumeMl: 20 }),
    );
    expect(got).toMatchObject([
      ['warning', { gas: true }],
      ['warning', { gas: false, gases: [] }],
    ]);
  });
});
