import { describe, expect, it } from 'vitest';
import type { Intent, IntentOf } from '../../src/process/intent.js';
import {
  about,
  atBleach,
  atDeveloper,
  atFixer,
  back,
  developed,
  hanging,
  heard,
  into,
  isIn,
  known,
  last,
  named,
  out,
  pourNow,
  waitFor,
  withDeveloper,
} from './at-the-sink.js';
import { BenchUser, bottle, ids } from './bench-user.js';

const stopNext = pourNow('stop', 3, 38);

describe('somebody leaves the sink', () => {
  const leave = (user: BenchUser, seconds?: number) =>
    heard(user.say({ type: 'away', ...(seconds !== undefined && { seconds }) }));
  it('with a bath in the tank: when it is to be drained, and how much over they are back', () => {
    const user = withDeveloper();
    user.wait(60);
    const said = {
      id: 'away',
      bath: named('developer'),
      drainS: 105,
      first: null,
      harmless: false,
      now: waitFor('developer', 120),
    };
    expect(leave(user, 60)).toEqual([['answer', { ...said, backS: 60, overS: 0, effect: 120 / 180 - 1 }]]);
    expect(leave(user, 120)).toMatchObject([['answer', { overS: 0, effect: 0 }]]);
    expect(leave(user, 200)).toEqual([
      ['warning', { ...said, backS: 200, overS: 80, effect: 260 / 180 - 1 }],
    ]);
    expect(user.facts('note').at(-1)).toMatchObject({
      text: 'away for 200 s',
      runId: user.world.run?.runId,
    });
    expect(leave(user)).toEqual([['answer', { ...said, backS: null, overS: 0, effect: null }]]);
    expect(last(user, 'note')?.text).toBe('away');
  });
  it('with developer on the film: the bath that ends it has to go in first', () => {
    const dry = {
      id: 'away',
      bath: null,
      drainS: null,
      overS: null,
      effect: null,
      harmless: false,
    };
    const user = developed();
    expect(leave(user, 60)).toEqual([
      ['warning', { ...dry, backS: 60, first: named('stop'), now: stopNext }],
    ]);
    user.bath('stop', 3, 30);
    expect(leave(user, 60)).toMatchObject([['answer', { ...dry, first: null }]]);
  });
  it('with water in the tank nothing is over', () => {
    const user = atFixer();
    user.say(isIn('water'));
    expect(leave(user, 600)).toMatchObject([
      ['answer', { bath: named('water'), drainS: null, overS: null, effect: null, harmless: true }],
    ]);
  });
});

describe('what it does to leave a bath out', () => {
  const leftOut = (user: BenchUser, liquid?: string) =>
    heard(user.say({ type: 'left-out', ...(liquid && { liquid }) }));
  it('to the bath after it, with nothing in the tank', () => {
    const user = developed();
    const said = { id: 'left-out', inNow: null, hadS: 0, now: stopNext };
    const stop = [
      'warning',
      {
        ...said,
        bath: named('stop'),
        role: 'stop',
        reason: 'developer-in-bleach',
        about: about('bleach', { other: named('developer') }),
      },
    ];
    expect(leftOut(user, 'stop')).toEqual([stop]);
    expect(leftOut(user)).toEqual([stop]);
    expect(leftOut(user, 'water')).toEqual([
      [
        'answer',
        {
          ...said,
          bath: named('water'),
          role: 'water',
          reason: null,
          about: about('stop'),
        },
      ],
    ]);
    const fixing = atFixer();
    expect(leftOut(fixing)).toMatchObject([
      [
        'warning',
        {
          bath: named('fixer'),
          reason: 'wetting-early',
          about: { bath: named('final-rinse') },
        },
      ],
    ]);
    expect(leftOut(fixing, 'water')).toMatchObject([['answer', { reason: null, hadS: 60 }]]);
    expect(leftOut(fixing, 'bleach')).toMatchObject([['answer', { reason: null, hadS: 180 }]]);
  });
  it('to the bath that is in, by the film before it', () => {
    const user = withDeveloper();
    user.wait(60);
    const now = waitFor('developer', 120);
    const developerIn = {
      id: 'left-out',
      reason: null,
      about: about('developer'),
      inNow: named('developer'),
      now,
    };
    expect(leftOut(user, 'prebath')).toEqual([
      [
        'answer',
        {
          ...developerIn,
          bath: named('prebath'),
          role: 'backing-remover',
          hadS: 10,
        },
      ],
    ]);
    expect(leftOut(user, 'water')).toEqual([
      ['answer', { ...developerIn, bath: named('water'), role: 'water', hadS: 40 }],
    ]);
    // the bath itself: what the next one does to film that was never in it
    expect(leftOut(user, 'developer')).toMatchObject([
      [
        'warning',
        {
          reason: 'stop-before-developer',
          about: { bath: named('stop') },
          inNow: null,
        },
      ],
    ]);
    const early = new BenchUser().ready();
    early.say(isIn('developer'));
    expect(leftOut(early, 'prebath')).toMatchObject([
      ['warning', { reason: 'backing-in-developer', inNow: named('developer'), hadS: 0 }],
    ]);
    // water is nothing that could be harmed
    const rinsing = developed();
    rinsing.say(isIn('water'));
    expect(leftOut(rinsing, 'stop')).toMatchObject([
      ['warning', { reason: 'developer-in-bleach', inNow: null }],
    ]);
  });
  it('of a bath that nobody knows is not told', () => {
    expect(leftOut(withDeveloper(), 'varnish')).toEqual([
      ['question', { id: 'no-such-liquid', said: 'varnish', known }],
    ]);
  });
});

describe('what is believed', () => {
  it('of the tank, and since when', () => {
    const ask = (user: BenchUser) => heard(user.say({ type: 'in-doubt' }));
    const user = withDeveloper();
    user.wait(60);
    expect(ask(user)).toEqual([
      [
        'answer',
        {
          id: 'in-doubt',
          now: waitFor('developer', 120),
          holds: { bath: named('developer'), sinceS: 60, inferred: false },
        },
      ],
    ]);
    expect(ask(developed())).toEqual([['answer', { id: 'in-doubt', now: stopNext, holds: null }]]);
    const silent = developed();
    silent.wait(30);
    silent.say(back('stop', 3));
    expect(ask(silent)).toMatchObject([
      ['answer', { holds: { bath: named('stop'), sinceS: 20, inferred: true } }],
    ]);
  });
  it('of what the film has had: one entry for each stay, and two for one bath that went on', () => {
    const had = (user: BenchUser) =>
      user
        .say({ type: 'ask-film' })
        .flatMap(({ message }) => (message.id === 'film-so-far' ? message.had : []))
        .map(({ bath, seconds }) => [bath.id, seconds]);
    const early = [
      ['prebath', 10],
      ['water', 40],
      ['developer', 170],
    ];
    expect(had(developed())).toEqual(early);
    const rinsed = developed();
    rinsed.bath('stop', 3, 30).water(20).water(25);
    const all = [...early, ['stop', 30], ['water', 45]];
    expect(had(rinsed)).toEqual(all);
    expect(heard(rinsed.say({ type: 'ask-film' }))).toMatchObject([
      ['answer', { missing: ['bleach', 'fixer', 'final-rinse'].map(named), off: 0, hung: false }],
    ]);
    const hung = hanging();
    hung.say({ type: 'film-hung' });
    const whole = had(hung);
    expect(whole).toHaveLength(10);
    expect(whole.at(-1)).toEqual(['final-rinse', 12]);
    hung.say({ type: 'close-run' });
    expect(had(hung)).toEqual(whole);
    expect(heard(hung.say({ type: 'ask-film' }))).toMatchObject([['answer', { missing: [], hung: true }]]);
  });
  it('of when a bath comes: no more of one that is behind, or once all is over', () => {
    const until = (user: BenchUser, liquid: string) => heard(user.say({ type: 'ask-time-until', liquid }));
    const none = (liquid: string, why: string) => [
      ['answer', { id: 'time-until-none', bath: named(liquid), why }],
    ];
    const user = withDeveloper();
    expect(until(user, 'developer')).toEqual(none('developer', 'in-it'));
    expect(until(user, 'prebath')).toEqual(none('prebath', 'done'));
    // three minutes, half a minute of stop bath, half a minute of water
    expect(until(user, 'bleach')).toEqual([
      [
        'answer',
        {
          id: 'time-until',
          bath: named('bleach'),
          seconds: 240,
          atLeast: false,
        },
      ],
    ]);
    const over = hanging();
    expect(until(over, 'bleach')).toEqual(none('bleach', 'done'));
    over.say({ type: 'film-hung' });
    expect(until(over, 'bleach')).toEqual(none('bleach', 'done'));
    const before = new BenchUser();
    before.say({ type: 'begin-run' });
    expect(until(before, 'prebath')).toMatchObject([
      ['answer', { id: 'time-until', seconds: 0, atLeast: true }],
    ]);
  });
  it('of what comes next, with what was left out before it', () => {
    const next = (user: BenchUser) => heard(user.say({ type: 'ask-next' }))[0]?.[1];
    const user = new BenchUser().ready();
    expect(next(user)).toEqual({
      id: 'next',
      step: 'prebath',
      bath: named('prebath'),
      after: named('water'),
    });
    user.say(isIn('developer'));
    const stop = {
      id: 'next',
      step: 'stop bath',
      bath: named('stop'),
      after: named('water'),
    };
    expect(next(user)).toEqual({ ...stop, omitted: [named('prebath')] });
    expect(next(withDeveloper())).toEqual(stop);
    const skipped = new BenchUser().ready();
    skipped.say({ type: 'skip' });
    skipped.say({ type: 'confirm' });
    skipped.say(isIn('developer'));
    expect(next(skipped)).toEqual(stop);
    user.wait(170);
    user.say(back('developer', 2));
    user.say(out);
    user.bath('stop', 3, 30).water(30);
    user.say(isIn('fixer'));
    user.wait(120);
    // the bleach was passed over and is due after all: fixer would get into it
    expect(next(user)).toEqual({
      id: 'next',
      step: 'wash with water',
      bath: named('water'),
      after: named('bleach'),
      omitted: [named('prebath')],
    });
  });
});

describe('a return that was refused, and the tank is empty', () => {
  const refused = () => {
    const user = withDeveloper();
    user.wait(170);
    expect(ids(user.say(back('developer', 4)))).toEqual(['ruinous']);
    return user;
  };
  const asked = {
    id: 'where-went',
    bath: named('developer'),
    bottle: 4,
    reason: 'bleach-developer-bottle',
    about: about('developer', { other: named('bleach'), bottle: 4 }),
    gas: false,
  };
  const emptied = {
    id: 'tank-is-empty',
    now: stopNext,
    jugged: null,
    slip: null,
  };
  const went = (to: object) => ({
    id: 'poured',
    bath: named('developer'),
    from: { kind: 'tank' },
    to,
    gas: false,
  });
  it('asks where it went, as often as it takes', () => {
    const user = refused();
    expect(heard(user.say(out))).toEqual([['warning', asked]]);
    expect(heard(user.say({ type: 'confirm' }))).toEqual([['warning', asked]]);
    user.wait(70);
    expect(heard(user.say({ type: 'confirm' }))).toEqual([['warning', asked]]);
    expect(user.world.tank.bath?.liquid).toBe('developer');
  });
  it('"no": then it stands aside', () => {
    const user = refused();
    user.say(out);
    user.wait(5);
    expect(heard(user.say({ type: 'cancel' }))).toEqual([
      ['answer', { ...went({ kind: 'jug' }), warn: null }],
      ['answer', emptied],
    ]);
    expect(user.world.jugs.developer?.volumeMl).toBe(500);
    expect(last(user, 'poured')).toMatchObject({
      sinceMs: user.atMs - 5000,
      to: { kind: 'jug' },
    });
  });
  it.each<[string, Intent, object]>([
    ['a bottle by its number', { type: 'part', vessel: bottle(2) }, bottle(2)],
    ['a return said anew', back('developer', 2), bottle(2)],
    ['poured, and where', { type: 'poured', to: bottle(2) }, bottle(2)],
    ['down the drain', { type: 'pour-away', liquid: 'developer' }, { kind: 'sink' }],
  ])('%s answers it', (_what, answer, to) => {
    const user = refused();
    user.say(out);
    expect(heard(user.say(answer))).toEqual([
      ['answer', { ...went(to), warn: null }],
      ['answer', emptied],
    ]);
    expect(last(user, 'poured')).toMatchObject({
      from: { kind: 'tank' },
      to,
      liquid: 'developer',
    });
    expect(user.context.pending).toBeNull();
  });
  it('the refused bottle all the same: what that did is said, and how soon it was out does not hide it', () => {
    for (const seconds of [170, 60]) {
      const user = withDeveloper();
      user.wait(seconds);
      user.say(back('developer', 4));
      user.say(out);
      const warn = { reason: 'bleach-developer-bottle', about: asked.about };
      expect(heard(user.say({ type: 'part', vessel: bottle(4) }))[0]).toEqual([
        'warning',
        { ...went(bottle(4)), warn, lostMl: 100 },
      ]);
      expect(user.world.bottles[4]?.contents.volumeMl).toBe(1000);
      expect(user.world.bottles[4]?.contents.parts).toMatchObject({
        bleach: expect.closeTo((600 * 1000) / 1100, 6),
      });
    }
  });
  it('other baths, and other vessels they come from, are no answer', () => {
    const user = refused();
    user.say(out);
    expect(ids(user.say(back('stop', 3)))).toEqual(['ask']);
    const other = refused();
    other.say(out);
    other.say({
      type: 'pour-between',
      liquid: 'developer',
      from: bottle(2),
      to: bottle(9),
    });
    expect(other.world.tank.bath?.liquid).toBe('developer');
  });
  it('and the next bath is in: that is taken up with the answer, from when it was said', () => {
    const user = refused();
    user.wait(10);
    expect(heard(user.say(isIn('stop')))).toEqual([['warning', asked]]);
    const saidMs = user.atMs;
    user.wait(12);
    expect(heard(user.say({ type: 'part', vessel: bottle(2) }))).toMatchObject([
      ['answer', went(bottle(2))],
      ['answer', { id: 'bath-in', bath: named('stop'), agoS: 12 }],
    ]);
    expect(user.facts('poured').slice(-2)).toMatchObject([
      { to: bottle(2), sinceMs: saidMs, effectiveS: 180 },
      { to: { kind: 'tank' }, liquid: 'stop', sinceMs: saidMs },
    ]);
  });
});

describe('a bath that leaves, and nobody said it was in', () => {
  it('was in since the one before it was out, from fifteen seconds on', () => {
    const leaves = (seconds: number) => {
      const user = developed();
      user.wait(seconds);
      return { user, said: heard(user.say(back('stop', 3))) };
    };
    expect(leaves(14).said).toMatchObject([['question', { id: 'ask', ask: 'nothing-to-pour' }]]);
    expect(leaves(15).said).toMatchObject([
      ['answer', { id: 'taken-next', out: null, bath: named('stop'), agoS: 5 }],
      ['warning', { id: 'recoverable', reason: 'early', about: { seconds: 10 } }],
    ]);
    const { user, said } = leaves(40);
    expect(said[0]).toEqual(['answer', { id: 'taken-next', out: null, bath: named('stop'), agoS: 30 }]);
    expect(last(user, 'poured')).toMatchObject({
      liquid: 'stop',
      inferred: true,
      sinceMs: user.atMs - 30_000,
    });
  });
  it('went in when the one before it was called out, and had drained', () => {
    const leaves = (seconds: number) => {
      const user = withDeveloper();
      user.wait(seconds);
      return heard(user.say(back('stop', 3)));
    };
    const mismatch = [['question', { id: 'ask', ask: 'tank-mismatch', bath: named('stop') }]];
    expect(leaves(164)).toMatchObject(mismatch);
    expect(leaves(194)).toMatchObject(mismatch);
    expect(leaves(195)[0]).toEqual([
      'answer',
      {
        id: 'taken-next',
        out: named('developer'),
        bath: named('stop'),
        agoS: 15,
      },
    ]);
  });
  it('or when that was said to leave', () => {
    const user = withDeveloper();
    user.wait(170);
    user.say(back('developer', 2));
    user.wait(40);
    expect(heard(user.say(back('stop', 3)))[0]).toEqual([
      'answer',
      {
        id: 'taken-next',
        out: named('developer'),
        bath: named('stop'),
        agoS: 25,
      },
    ]);
    expect(user.facts('poured').slice(-2)).toMatchObject([
      {
        to: bottle(2),
        sinceMs: user.atMs - 25_000,
        inferred: true,
        effectiveS: 185,
      },
      { liquid: 'stop', sinceMs: user.atMs - 25_000 },
    ]);
  });
  it('only the bath that was due, and none that stands in a jug', () => {
    const user = developed();
    user.wait(60);
    expect(heard(user.say(back('bleach', 4)))).toMatchObject([['question', { ask: 'nothing-to-pour' }]]);
    const jugged = withDeveloper();
    jugged.wait(170);
    jugged.say(out);
    jugged.wait(60);
    expect(heard(jugged.say(back('developer', 2)))).toMatchObject([
      ['answer', { id: 'clear', move: { from: { kind: 'jug' } } }],
    ]);
  });
});

describe('"in", against what is believed', () => {
  it('out of turn and well before the time is up is asked about', () => {
    const bleachAt = (seconds: number) => {
      const user = withDeveloper();
      user.wait(seconds);
      return heard(user.say(isIn('bleach')));
    };
    expect(bleachAt(100)).toEqual([
      [
        'question',
        {
          id: 'in-instead',
          bath: named('bleach'),
          holds: named('developer'),
          sinceS: 100,
          inferred: false,
        },
      ],
    ]);
    expect(bleachAt(165)).toMatchObject([['warning', { id: 'wrong-bath-in' }]]);
    const next = withDeveloper();
    next.wait(100);
    expect(heard(next.say(isIn('stop')))).toMatchObject([
      ['warning', { id: 'bath-in', slip: { kind: 'short', doneS: 100 } }],
    ]);
    const water = atDeveloper();
    water.say(isIn('water'));
    water.wait(2);
    expect(ids(water.say(isIn('fixer')))).toEqual(['wrong-bath-in']);
  });
  it('from before the other one went in is asked about, and a yes counts from then', () => {
    const user = withDeveloper();
    user.wait(10);
    expect(ids(user.say(isIn('stop', 20)))).toEqual(['in-instead']);
    const [said] = heard(user.say({ type: 'confirm' }));
    expect(said).toMatchObject(['warning', { id: 'bath-in', bath: named('stop'), agoS: 10 }]);
    expect(user.facts('poured').slice(-2)).toMatchObject([
      { liquid: 'developer', sinceMs: user.atMs - 10_000, effectiveS: 0 },
      { liquid: 'stop', sinceMs: user.atMs - 10_000 },
    ]);
  });
  it('of a bath that was just spoken of is none', () => {
    const user = withDeveloper();
    user.wait(100);
    user.say(into('bleach', 4));
    expect(ids(user.say(isIn('bleach')))).not.toContain('in-instead');
  });
  it('in the same breath with "empty" is one too many', () => {
    const user = withDeveloper();
    expect(heard(user.say(out))).toEqual([['question', { id: 'in-and-empty', bath: named('developer') }]]);
    user.wait(1);
    expect(ids(user.say(out))).toEqual(['tank-is-empty']);
  });
  it('with another pour in question, it is asked which', () => {
    const user = developed();
    user.say({ type: 'pour-between', liquid: 'stop', to: bottle(9) });
    expect(ids(user.say(isIn()))).toEqual(['which-bath-in']);
    const mixedUp = developed();
    mixedUp.say({ type: 'pour-in', liquid: 'stop', from: bottle(4) });
    expect(ids(mixedUp.say(isIn()))).toEqual(['which-bath-in']);
  });
  it('is too late once the run is closed, with or without the film', () => {
    const user = atDeveloper();
    user.say({ type: 'close-run' });
    user.say({ type: 'confirm' });
    expect(ids(user.say(isIn('developer')))).toEqual(['not-now']);
    expect(ids(user.say({ type: 'poured', liquid: 'varnish', to: bottle(2) }))).toEqual(['no-such-liquid']);
  });
  it('of a developer that was cold: what makes up for it is offered once, where nobody had agreed to it', () => {
    const cold = (tempC: number) => {
      const user = atDeveloper();
      user.fact({ type: 'temperature', vessel: bottle(2), liquid: 'developer', tempC });
      return user;
    };
    const unasked = cold(38.1);
    expect(ids(unasked.say(isIn('developer')))).toEqual(['bath-in', 'tank-off']);
    const agreed = cold(38.1);
    agreed.say(into('developer', 2));
    agreed.say({ type: 'confirm' });
    expect(ids(agreed.say(isIn('developer')))).toEqual(['bath-in']);
    const early = new BenchUser().ready();
    early.fact({ type: 'temperature', vessel: bottle(2), liquid: 'developer', tempC: 41.1 });
    expect(ids(early.say(isIn('developer')))).toEqual(['bath-in']);
  });
  it('of a pour that was refused is asked once more, and then believed', () => {
    const user = developed();
    expect(ids(user.say({ type: 'pour-in', from: bottle(4) }))).toEqual(['ruinous']);
    expect(heard(user.say(isIn()))).toEqual([
      ['question', { id: 'confirm-bath-in', bath: named('bleach'), heard: [] }],
    ]);
    expect(heard(user.say({ type: 'confirm' }))).toEqual([
      [
        'warning',
        {
          id: 'wrong-bath-in',
          bath: named('bleach'),
          reason: 'developer-in-bleach',
          about: about('bleach', { other: named('developer') }),
          outlet: { to: 'aside', filter: false },
          due: named('stop'),
        },
      ],
    ]);
  });
});

describe('hands that think again', () => {
  it('"wrong bottle", with the bath in: which one it was by the record', () => {
    const wrong = (user: BenchUser) => heard(user.say({ type: 'withdraw', wrong: true }));
    expect(wrong(withDeveloper())).toEqual([
      ['question', { id: 'wrong-bottle', bath: named('developer'), bottle: 2 }],
    ]);
    const rinsing = atFixer();
    rinsing.say(isIn('water'));
    expect(wrong(rinsing)).toEqual([
      ['question', { id: 'wrong-bottle', bath: named('water'), bottle: null }],
    ]);
    expect(ids(developed().say({ type: 'withdraw', wrong: true }))).toEqual(['now']);
  });
  it('less time: what is left of it, or out with it by a yes', () => {
    const shorten = (user: BenchUser, seconds: number) => heard(user.say({ type: 'shorten', seconds }));
    const user = withDeveloper();
    user.wait(100);
    expect(shorten(user, 30)).toEqual([
      ['warning', { id: 'time-added', seconds: -30, leftS: 50, effect: expect.closeTo(-30 / 180) }],
    ]);
    // 35 s are left to the call
    expect(shorten(user, 36)).toEqual([
      [
        'warning',
        {
          id: 'confirm-early',
          bath: named('developer'),
          doneS: 100,
          aimS: 150,
        },
      ],
    ]);
    expect(shorten(user, 35)).toMatchObject([
      ['warning', { id: 'time-added', leftS: 15 }],
      ['call', { id: 'drain' }],
    ]);
    expect(shorten(user, 0.5)).toEqual([['question', { id: 'bad-seconds', seconds: -0.5 }]]);
    expect(shorten(user, 10)).toMatchObject([['answer', { id: 'bath-already-in', sinceS: 100 }]]);
  });
  it('a bleach or fixer that is out too soon goes in again for the rest; a stop bath stays out', () => {
    const short = (user: BenchUser, liquid: string, seconds: number) => {
      user.say(isIn(liquid));
      user.wait(seconds);
      user.say({ type: 'drain-now' });
      user.say({ type: 'confirm' });
      return heard(user.say(out)).map(([, message]) => (message as { slip?: unknown }).slip);
    };
    const slip = { kind: 'short', effect: null };
    expect(short(atBleach(), 'bleach', 30)).toEqual([
      { ...slip, bath: named('bleach'), doneS: 30, aimS: 180, restS: 150 },
    ]);
    expect(short(atFixer(), 'fixer', 30)).toEqual([
      { ...slip, bath: named('fixer'), doneS: 30, aimS: 120, restS: 90 },
    ]);
    // it did nothing at all, and is due anyway
    expect(short(atBleach(), 'bleach', 10)).toMatchObject([{ doneS: 10, restS: null }]);
    expect(short(developed(), 'stop', 4)).toMatchObject([{ doneS: 4, aimS: 30, restS: null }]);
  });
  it('a development that came out strong is written down with its share', () => {
    const user = withDeveloper();
    user.wait(5);
    user.fact({ type: 'temperature', vessel: { kind: 'tank' }, liquid: 'developer', tempC: 44.1 });
    user.say({ type: 'cancel' });
    user.wait(165);
    user.say(back('developer', 2));
    user.say(out);
    expect(last(user, 'deviation')?.what).toMatch(/^time: 170 s, planned 180 s, development \+\d+ %$/);
  });
  it('more than a bottle takes, by a yes: what runs over is lost and said', () => {
    const user = new BenchUser().ready();
    user.say({
      type: 'bottle-holds',
      bottle: 1,
      liquid: 'prebath',
      volumeMl: 800,
    });
    user.say({
      type: 'bottle-holds',
      bottle: 7,
      liquid: 'prebath',
      volumeMl: 500,
      capacityMl: 1000,
    });
    expect(
      heard(
        user.say({
          type: 'pour-between',
          liquid: 'prebath',
          from: bottle(7),
          to: bottle(1),
        }),
      ),
    ).toMatchObject([['warning', { id: 'recoverable', reason: 'no-headroom', about: { ml: 200 } }]]);
    expect(heard(user.say({ type: 'confirm' }))).toMatchObject([
      ['answer', { id: 'overridden', overridden: [], lostMl: 300 }],
    ]);
    expect(user.world.account.spilledMl).toBeCloseTo(300, 6);
    expect(user.world.bottles[1]?.contents.volumeMl).toBeCloseTo(1000, 6);
    expect(last(user, 'deviation')?.what).toBe('prebath from bottle-7 to bottle-1: no-headroom');
  });
});

describe('some of one bath in another', () => {
  const got = (user: BenchUser, liquid: string, more: object) =>
    heard(
      user.say({
        type: 'contaminated',
        liquid,
        ...more,
      } as IntentOf<'contaminated'>),
    );
  const found = (reason: string, liquid: string, more: object) => [{ reason, about: about(liquid, more) }];
  it('a splash has no amount and spoils all the same', () => {
    const user = atFixer();
    expect(got(user, 'fixer', { intoLiquid: 'developer' })).toEqual([
      [
        'warning',
        {
          id: 'contaminated',
          bath: named('fixer'),
          into: named('developer'),
          bottle: 2,
          volumeMl: null,
          gas: false,
          why: null,
          found: found('spoilt', 'developer', {
            other: named('fixer'),
            bottle: 2,
            why: expect.stringMatching(/thiosulphate/),
          }),
        },
      ],
    ]);
    expect(last(user, 'splashed')).toEqual({
      type: 'splashed',
      runId: user.world.run?.runId,
      liquid: 'fixer',
      bottle: 2,
    });
    expect(user.world.bottles[2]?.contents.parts).toEqual({ developer: 600 });
  });
  it('an amount moves, from the bottle that holds it or the tap', () => {
    const user = atFixer();
    expect(got(user, 'fixer', { intoBottle: 2, volumeMl: 10 })).toMatchObject([
      ['warning', { volumeMl: 10 }],
    ]);
    expect(user.world.bottles[2]?.contents.parts).toEqual({
      developer: 600,
      fixer: 10,
    });
    expect(user.world.bottles[5]?.contents.volumeMl).toBe(590);
    expect(got(user, 'water', { intoBottle: 5, volumeMl: 20 })).toMatchObject([['answer', { found: [] }]]);
    expect(last(user, 'poured')).toMatchObject({
      from: { kind: 'tap' },
      to: bottle(5),
      volumeMl: 20,
    });
    expect(got(user, 'water', { intoBottle: 3 })).toMatchObject([
      [
        'warning',
        {
          gas: false,
          why: null,
          found: found('doubtful-mixture', 'stop', {
            other: named('water'),
            bottle: 3,
            why: 'it is weaker by as much',
          }),
        },
      ],
    ]);
  });
  it('what can give off a gas is said for that', () => {
    expect(got(atFixer(), 'stop', { intoBottle: 4, volumeMl: 5 })).toMatchObject([
      [
        'warning',
        {
          gas: true,
          why: {
            reason: 'acid-ferricyanide-bottle',
            about: about('stop', { other: named('bleach'), bottle: 4 }),
          },
          found: [{ reason: 'spoilt' }],
        },
      ],
    ]);
  });
});
