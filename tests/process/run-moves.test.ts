import { describe, expect, it } from 'vitest';
import type { Intent } from '../../src/process/intent.js';
import type { ProcessSheet } from '../../src/process/sheet.js';
import { sheets } from '../../src/process/sheets/index.js';

import {
  about,
  atBleach,
  atDeveloper,
  atFixer,
  back,
  hanging,
  heard,
  into,
  isIn,
  known,
  last,
  named,
  out,
  pourNow,
  toBottle,
  waitFor,
  withDeveloper,
} from './at-the-sink.js';
import { BenchUser, bottle, ids } from './bench-user.js';

const tank = { kind: 'tank' } as const;
const jug = { kind: 'jug' } as const;
const tap = { kind: 'tap' } as const;
const sink = { kind: 'sink' } as const;
const yes: Intent = { type: 'confirm' };
const no: Intent = { type: 'cancel' };
const wait: Intent = { type: 'withdraw' };
const stop: Intent = { type: 'stop' };
const next: Intent = { type: 'next-step' };
const nothingWaits = [['answer', { id: 'nothing-waiting' }]];
const move = (liquid: string, number: number, volumeMl = 500) => ({
  bath: named(liquid),
  from: bottle(number),
  to: tank,
  volumeMl,
});
const movedBack = (liquid: string, number: number, volumeMl = 500) => ({
  bath: named(liquid),
  from: tank,
  to: bottle(number),
  volumeMl,
});
const sheet = sheets[0] as (typeof sheets)[number];
const running = (user: BenchUser) => user.world.run?.runId;

describe('a pour is judged', () => {
  it('clear: said whole, and kept until it happens', () => {
    const user = atDeveloper();
    const said = heard(user.say(into('developer', 2)));
    expect(said).toEqual([
      [
        'answer',
        {
          id: 'clear',
          move: move('developer', 2),
          reason: 'due',
          about: about('developer'),
          checks: {
            filter: false,
            localCodes: false,
            assumed: true,
            temperature: {
              aimC: 41.1,
              tempC: null,
              agoS: null,
              state: 'unread',
              effect: null,
              developer: true,
            },
          },
          harmless: false,
          leftOut: false,
        },
      ],
    ]);
    expect(user.context).toMatchObject({
      announced: {
        kind: 'in',
        liquid: 'developer',
        from: bottle(2),
        overridden: false,
        clearedMs: user.atMs,
      },
      pending: null,
    });
    expect(heard(user.say({ type: 'ask-where' }))).toMatchObject([
      ['answer', { now: pourNow('developer', 2, 41.1, { announced: true }) }],
    ]);
  });
  it('what can be put right goes with a yes, and is written down', () => {
    const user = atDeveloper();
    user.fact({ type: 'temperature', vessel: bottle(2), tempC: 39 });
    user.say({ type: 'bottle-holds', bottle: 2, liquid: 'developer', volumeMl: 300 });
    user.fact({ type: 'temperature', vessel: bottle(2), tempC: 39 });
    const said = user.say(into('developer', 2));
    expect(heard(said)).toMatchObject([
      [
        'warning',
        {
          id: 'recoverable',
          move: move('developer', 2),
          reason: 'developer-cold',
          about: about('developer', { tempC: 39, aimC: 41.1, agoS: 0 }),
          also: [
            { reason: 'too-little', about: about('developer', { bottle: 2, ml: expect.closeTo(300, 6) }) },
          ],
        },
      ],
    ]);
    expect(user.context.announced).toBeNull();
    expect(heard(user.say(yes))).toMatchObject([
      ['answer', { id: 'overridden', move: move('developer', 2) }],
    ]);
    expect(user.context.announced).toMatchObject({ liquid: 'developer', overridden: false });
    expect(last(user, 'deviation')).toEqual({
      type: 'deviation',
      runId: running(user),
      stepId: 'developer',
      what: 'developer from bottle-2 to tank: developer-cold, too-little',
      reasons: ['developer-cold', 'too-little'],
    });
    expect(user.facts('overridden')).toEqual([]);
  });
  it('what was agreed to is only what was said: something worse is said anew', () => {
    const user = atDeveloper();
    user.fact({ type: 'temperature', vessel: bottle(2), tempC: 39 });
    user.say(into('developer', 2));
    user.fact({ type: 'temperature', vessel: bottle(2), tempC: 43 });
    expect(user.context.pending).toMatchObject({ verdict: 'recoverable', reason: 'developer-hot' });
    const other = atDeveloper();
    other.fact({ type: 'temperature', vessel: bottle(2), tempC: 39 });
    other.say(into('developer', 2));
    // the mixing desk finds it to be spoilt meanwhile
    other.fact({ type: 'poured', from: jug, to: bottle(2), liquid: 'fixer', volumeMl: 30, overridden: true });
    expect(other.context.pending).toMatchObject({ verdict: 'ruinous', reason: 'spoilt' });
    expect(ids(other.say(yes))).toEqual(['needs-override']);
    expect(other.context.announced).toBeNull();
  });
  it('what ruins goes only by an override, which names all that speaks against it', () => {
    const user = atDeveloper();
    expect(heard(user.say(into('bleach', 4)))).toEqual([
      [
        'warning',
        {
          id: 'ruinous',
          move: move('bleach', 4),
          reason: 'bleach-kills-latent',
          about: about('bleach'),
          also: [],
        },
      ],
    ]);
    expect(heard(user.say(yes))).toEqual([
      ['warning', { id: 'needs-override', reason: 'bleach-kills-latent', about: about('bleach') }],
    ]);
    expect(heard(user.say({ type: 'override' }))).toMatchObject([
      ['answer', { id: 'overridden', move: move('bleach', 4) }],
    ]);
    expect(user.facts('overridden')).toEqual([
      {
        type: 'overridden',
        runId: running(user),
        move: 'bleach from bottle-4 to tank',
        verdict: 'ruinous',
        why: 'bleach-kills-latent',
      },
    ]);
    expect(user.facts('deviation')).toEqual([]);
    expect(user.context.announced).toMatchObject({ overridden: true });
    // and the next word does not take it back
    expect(ids(user.say({ type: 'note', text: 'a test strip' }))).toEqual(['note-taken']);
    expect(user.context.announced).toMatchObject({ liquid: 'bleach', overridden: true });
    expect(heard(user.say(isIn('bleach')))).toMatchObject([['answer', { id: 'bath-in', warn: null }]]);
    expect(last(user, 'poured')).toMatchObject({ overridden: true, stepId: 'bleach' });
  });
  it('an override is also a yes to what can be put right', () => {
    const user = atDeveloper();
    user.fact({ type: 'temperature', vessel: bottle(2), tempC: 39 });
    user.say(into('developer', 2));
    expect(ids(user.say({ type: 'override' }))).toEqual(['overridden']);
    expect(user.facts('deviation')).toHaveLength(1);
    expect(user.facts('overridden')).toEqual([]);
    expect(heard(atDeveloper().say({ type: 'override' }))).toEqual(nothingWaits);
    const early = withDeveloper();
    early.wait(20);
    early.say({ type: 'drain-now' });
    expect(heard(early.say({ type: 'override' }))).toEqual(nothingWaits);
  });
  it('out of the tank: it leaves, and is out when that is said', () => {
    const user = withDeveloper();
    user.wait(170);
    expect(heard(user.say(back('developer', 2)))).toMatchObject([
      ['answer', { id: 'clear', move: movedBack('developer', 2), reason: 'own-bottle' }],
    ]);
    expect(user.context).toMatchObject({ announced: { kind: 'out', to: bottle(2), clearedMs: user.atMs } });
    expect(user.desk.situations(user.state)[0]).toBe('draining');
    user.wait(9);
    user.say(out);
    expect(last(user, 'poured')).toMatchObject({ from: tank, to: bottle(2), overridden: false });
    expect(user.context.announced).toBeNull();
    const early = withDeveloper();
    early.wait(100);
    early.say(back('developer', 2));
    early.say({ type: 'override' });
    early.say(out);
    expect(last(early, 'poured')).toMatchObject({ to: bottle(2), overridden: false });
    const wrong = withDeveloper();
    wrong.wait(170);
    wrong.say(back('developer', 4));
    wrong.say({ type: 'override' });
    wrong.say(out);
    expect(last(wrong, 'poured')).toMatchObject({ to: bottle(4), overridden: true });
  });
  it('between vessels it is taken as done at once', () => {
    const user = withDeveloper();
    user.wait(178);
    user.say(out);
    const before = user.facts('poured').length;
    expect(heard(user.say(back('developer', 2)))).toMatchObject([['answer', { id: 'clear' }]]);
    expect(user.facts('poured').slice(before)).toEqual([
      {
        type: 'poured',
        runId: running(user),
        from: jug,
        to: bottle(2),
        liquid: 'developer',
        volumeMl: 500,
        overridden: false,
      },
    ]);
    expect(user.context.announced).toBeNull();
    const thrown = atDeveloper();
    thrown.say({ type: 'pour-away', from: bottle(4) });
    thrown.say(yes);
    expect(last(thrown, 'poured')).toMatchObject({
      from: bottle(4),
      to: sink,
      liquid: 'bleach',
      volumeMl: 600,
    });
    expect(thrown.context.pending).toBeNull();
  });
  it('the same bath again, while the tank is full of it, is in already; a tank half full is topped up', () => {
    const user = withDeveloper();
    user.wait(20);
    expect(ids(user.say(into('developer', 2)))).toEqual(['bath-already-in']);
    expect(ids(user.say({ type: 'pour-in', liquid: 'developer' }))).toEqual(['bath-already-in']);
    expect(ids(user.say({ type: 'pour-in' }))).toEqual(['ask']);
    const half = atDeveloper();
    half.say({ type: 'bottle-holds', bottle: 2, liquid: 'developer', volumeMl: 300 });
    half.say(isIn('developer'));
    half.say({ type: 'bottle-holds', bottle: 2, liquid: 'developer', volumeMl: 300 });
    half.say({ type: 'confirm' });
    expect(heard(half.say(into('developer', 2)))).toMatchObject([
      ['answer', { id: 'clear', reason: 'top-up' }],
    ]);
    const water = new BenchUser().ready().bath('prebath', 1, 10);
    water.say(isIn('water'));
    expect(ids(water.say({ type: 'pour-in', liquid: 'water' }))).toEqual(['clear']);
    const draining = withDeveloper();
    draining.wait(170);
    expect(ids(draining.say(into('developer', 2)))).toEqual(['clear']);
  });
});

describe('later words prove what nobody said', () => {
  it('a bath that comes out was in', () => {
    const cleared = (intent: Intent) => {
      const user = atDeveloper();
      user.say(into('developer', 2));
      user.wait(20);
      return { user, said: user.say(intent) };
    };
    const { user, said } = cleared(back('developer', 2));
    expect(heard(said)).toMatchObject([
      ['answer', { id: 'taken-in', bath: named('developer'), agoS: 10 }],
      ['warning', { id: 'recoverable', reason: 'early' }],
    ]);
    expect(user.world.tank.bath).toMatchObject({ inferred: true, sinceMs: user.atMs - 10_000 });
    expect(ids(cleared({ type: 'pour-back' }).said)).toEqual(['taken-in', 'recoverable']);
    expect(ids(cleared({ type: 'pour-away' }).said)[0]).toBe('taken-in');
    expect(ids(cleared({ type: 'pour-away', from: bottle(4) }).said)).toEqual(['recoverable']);
    expect(ids(cleared(back('bleach', 4)).said)).not.toContain('taken-in');
    expect(
      ids(cleared({ type: 'pour-between', liquid: 'developer', from: jug, to: bottle(2) }).said),
    ).not.toContain('taken-in');
  });
  it('a bath that was on its way out is out when the next one goes in', () => {
    const user = withDeveloper();
    user.wait(170);
    user.say(back('developer', 2));
    const sinceMs = user.atMs;
    user.wait(30);
    expect(heard(user.say(into('stop', 3)))).toMatchObject([
      ['answer', { id: 'taken-out', bath: named('developer'), to: bottle(2) }],
      ['answer', { id: 'clear', move: move('stop', 3) }],
    ]);
    // it takes fifteen seconds to run out
    expect(last(user, 'poured')).toMatchObject({ inferred: true, to: bottle(2), sinceMs: sinceMs + 15_000 });
    const soon = withDeveloper();
    soon.wait(170);
    soon.say(back('developer', 2));
    soon.wait(5);
    soon.say(into('stop', 3));
    expect(last(soon, 'poured')).not.toHaveProperty('sinceMs');
    expect(soon.world.film.developedS).toBe(175);
  });
  it('another pour in than was cleared is asked about, from fifteen seconds on', () => {
    const asked = (seconds: number) => {
      const user = atBleach();
      user.say(into('bleach', 4));
      user.wait(seconds);
      return { user, said: user.say(into('fixer', 5)) };
    };
    expect(ids(asked(14.9).said)).toEqual(['recoverable']);
    const { user, said } = asked(15);
    expect(heard(said)).toEqual([['question', { id: 'was-it-in', bath: named('bleach'), agoS: 15 }]]);
    expect(user.context.pending).toMatchObject({ kind: 'was-in', next: { kind: 'in', liquid: 'fixer' } });
    const after = user.say(yes);
    expect(ids(after)).toEqual(['taken-in', 'recoverable']);
    expect(user.world.film.history.at(-1)).toMatchObject({ role: 'bleach', seconds: 5 });
    const { user: other } = asked(15);
    expect(ids(other.say(no))).toEqual(['recoverable']);
    expect(other.context.announced).toBeNull();
    const same = atBleach();
    same.say(into('bleach', 4));
    same.wait(20);
    expect(ids(same.say(into('bleach', 4)))).toEqual(['clear']);
  });
});

describe('what was heard badly', () => {
  const closeTo = (...close: Intent[]) => ({ by: 'voice' as const, confidence: 0.9, close });
  it('two that contradict one another are read back; one that says less is none', () => {
    const ask = (intent: Intent, ...close: Intent[]) =>
      heard(atDeveloper().say(intent, closeTo(...close)))[0]?.[1];
    const two = {
      id: 'ask',
      ask: 'heard-two',
      bath: named('developer'),
      holds: null,
      bottle: 2,
      candidates: [],
      stake: null,
      about: null,
      heard: [named('developer'), named('fixer')],
    };
    expect(ask(into('developer', 2), into('fixer', 5))).toEqual(two);
    expect(ask(into('developer', 2), into('developer', 3))).toEqual({
      ...two,
      heard: [named('developer'), named('developer')],
    });
    expect(ask(into('developer', 2), back('developer', 2))).toMatchObject({ ask: 'heard-two' });
    expect(ask(into('developer', 2), { type: 'part', liquid: 'fixer' })).toEqual(two);
    expect(ask(into('developer', 2), { type: 'part', vessel: bottle(5) })).toMatchObject({
      ask: 'heard-two',
    });
    expect(ask(into('developer', 2), { type: 'pour-in', liquid: 'developer' })).toMatchObject({
      id: 'clear',
    });
    expect(ask(into('developer', 2), { type: 'pour-in' }, { type: 'note', text: 'x' })).toMatchObject({
      id: 'clear',
    });
    expect(ask({ type: 'pour-in', liquid: 'developer' }, into('developer', 3))).toMatchObject({
      id: 'clear',
    });
    const home = withDeveloper();
    home.wait(170);
    expect(heard(home.say(back('developer', 2), closeTo(back('developer', 3))))).toMatchObject([
      ['question', { ask: 'heard-two', bottle: 2 }],
    ]);
    expect(heard(home.say(back('developer', 2), closeTo(back('developer', 2))))).toMatchObject([
      ['answer', { id: 'clear' }],
    ]);
  });
  it('hardly heard at all is read back', () => {
    const user = atDeveloper();
    expect(heard(user.say(into('developer', 2), { by: 'voice', confidence: 0.64 }))).toMatchObject([
      ['question', { id: 'ask', ask: 'unsure-heard', bath: named('developer'), bottle: 2, heard: [] }],
    ]);
    expect(user.context.pending).toMatchObject({
      reason: 'unsure-heard',
      vouched: [],
      proposal: into('developer', 2).type && { kind: 'in', liquid: 'developer', from: bottle(2) },
    });
    expect(ids(user.say(yes))).toEqual(['clear']);
    expect(ids(atDeveloper().say(into('developer', 2), { by: 'voice', confidence: 0.65 }))).toEqual([
      'clear',
    ]);
    // a fact of another desk does not answer for the ears
    const other = atDeveloper();
    other.say(into('developer', 2), { by: 'voice', confidence: 0.5 });
    other.fact({ type: 'temperature', vessel: bottle(2), tempC: 41.1 });
    expect(other.context.pending).toMatchObject({ reason: 'unsure-heard' });
    // said again, it is not mixed with what was misheard
    expect(heard(other.say({ type: 'pour-in', liquid: 'developer' }))).toMatchObject([
      ['answer', { id: 'clear' }],
    ]);
  });
  it('a yes, an override or "no film" must be clear', () => {
    const user = atDeveloper();
    user.fact({ type: 'temperature', vessel: bottle(2), tempC: 39 });
    user.say(into('developer', 2));
    const badly = { by: 'voice' as const, confidence: 0.5 };
    expect(heard(user.say(yes, badly))).toEqual([['question', { id: 'say-again-clearly', word: 'confirm' }]]);
    for (const rival of [no, stop, { type: 'override' } as const])
      expect(ids(user.say(yes, closeTo(rival)))).toEqual(['say-again-clearly']);
    expect(heard(user.say({ type: 'override' }, closeTo(yes)))).toEqual([
      ['question', { id: 'say-again-clearly', word: 'override' }],
    ]);
    expect(user.context.announced).toBeNull();
    expect(ids(user.say(yes, closeTo(yes, next)))).toEqual(['overridden']);
    const open = new BenchUser();
    open.say({ type: 'begin-run' });
    open.say(into('developer', 2));
    expect(ids(open.say({ type: 'no-film' }, badly))).toEqual(['say-again-clearly']);
    expect(ids(open.say({ type: 'no-film' }))).toEqual(['clear']);
    expect(heard(open.say({ type: 'no-film' }))).toEqual(nothingWaits);
  });
});

describe('a part alone', () => {
  it('completes the pour that was asked about, or says the one in hand otherwise', () => {
    const user = atDeveloper();
    user.say({ type: 'pour-in' });
    expect(heard(user.say({ type: 'part', liquid: 'developer' }))).toMatchObject([
      ['answer', { id: 'clear', move: move('developer', 2) }],
    ]);
    expect(heard(user.say({ type: 'part', vessel: bottle(4) }))).toMatchObject([
      [
        'warning',
        {
          id: 'ask',
          ask: 'mismatch',
          stake: 'bleach-kills-latent',
          holds: named('bleach'),
          about: about('bleach'),
        },
      ],
    ]);
    const home = withDeveloper();
    home.wait(170);
    home.say(back('developer', 4));
    expect(heard(home.say({ type: 'part', vessel: bottle(2) }))).toMatchObject([
      ['answer', { id: 'clear', move: movedBack('developer', 2) }],
    ]);
    expect(heard(home.say({ type: 'part', vessel: bottle(3) }))).toMatchObject([
      ['warning', { id: 'ruinous', reason: 'acid-developer-bottle' }],
    ]);
  });
  it('with nothing asked asks what is meant; unknown baths are not believed', () => {
    const user = atDeveloper();
    expect(heard(user.say({ type: 'part', liquid: 'bleach' }))).toEqual([
      ['question', { id: 'part-alone', bath: named('bleach'), bottle: null }],
    ]);
    expect(heard(user.say({ type: 'part', vessel: bottle(4) }))).toEqual([
      ['question', { id: 'part-alone', bath: null, bottle: 4 }],
    ]);
    expect(heard(user.say({ type: 'part', vessel: jug }))).toEqual([
      ['question', { id: 'part-alone', bath: null, bottle: null }],
    ]);
    expect(heard(user.say({ type: 'part', liquid: 'toner' }))).toEqual([
      ['question', { id: 'no-such-liquid', said: 'toner', known }],
    ]);
    user.say({ type: 'spill', volumeMl: 20 });
    expect(heard(user.say({ type: 'part', liquid: 'bleach' }))).toMatchObject([
      ['warning', { id: 'spill-open', bath: named('bleach') }],
    ]);
  });
  it('answers which bath is in', () => {
    const user = atDeveloper();
    user.say(isIn('stop'), { by: 'voice', confidence: 0.5 });
    expect(ids(user.say({ type: 'part', liquid: 'developer' }))).toEqual(['bath-in']);
  });
  it('the same sentence again with less in it keeps what was said before, while that is asked', () => {
    const user = atDeveloper();
    user.say({ type: 'pour-in', from: bottle(9) });
    expect(heard(user.say({ type: 'pour-in', liquid: 'developer' }))).toMatchObject([
      ['question', { ask: 'bottle-unknown', bottle: 9 }],
    ]);
    expect(heard(user.say(into('developer', 2)))).toMatchObject([['answer', { id: 'clear' }]]);
    const refused = atDeveloper();
    refused.say(into('bleach', 4));
    expect(heard(refused.say({ type: 'pour-in', liquid: 'developer' }))).toMatchObject([
      ['answer', { id: 'clear', move: move('developer', 2) }],
    ]);
  });
});

describe('what completes a pour that was asked about, and what is a new one', () => {
  it('a vessel is where it comes from or goes to, as the pour was said', () => {
    const away = atDeveloper();
    expect(heard(away.say({ type: 'pour-away' }))).toMatchObject([['question', { ask: 'nothing-to-pour' }]]);
    expect(heard(away.say({ type: 'part', vessel: bottle(4) }))).toMatchObject([
      [
        'warning',
        { id: 'recoverable', reason: 'throws-away-good-bath', move: { from: bottle(4), to: sink } },
      ],
    ]);
    const between = atDeveloper();
    between.say({ type: 'pour-between', liquid: 'fixer', from: bottle(5) });
    expect(heard(between.say({ type: 'part', vessel: bottle(4) }))).toMatchObject([
      ['warning', { id: 'ruinous', reason: 'bleach-fixer-bottle' }],
    ]);
    const into2 = atDeveloper();
    into2.say({ type: 'pour-in', liquid: 'developer', from: bottle(9) });
    expect(heard(into2.say({ type: 'part', vessel: bottle(2) }))).toMatchObject([
      ['answer', { id: 'clear', move: move('developer', 2) }],
    ]);
  });
  it('another kind of pour, or one that is said whole, takes nothing over', () => {
    const user = withDeveloper();
    user.wait(170);
    user.say({ type: 'pour-in', liquid: 'stop', from: bottle(9) });
    expect(heard(user.say({ type: 'pour-back' }))).toMatchObject([
      ['answer', { id: 'clear', move: movedBack('developer', 2) }],
    ]);
    const whole = atDeveloper();
    whole.say({ type: 'pour-in', liquid: 'stop', from: bottle(9) });
    expect(heard(whole.say(into('developer', 2)))).toMatchObject([
      ['answer', { move: move('developer', 2) }],
    ]);
    const home = withDeveloper();
    home.say({ type: 'bottle-holds', bottle: 8, liquid: 'developer', volumeMl: 100 });
    home.wait(170);
    expect(ids(home.say({ type: 'pour-back', volumeMl: 300 }))).toEqual(['clear']);
    expect(heard(home.say(back('developer', 2)))).toMatchObject([
      ['answer', { move: movedBack('developer', 2) }],
    ]);
    const misheard = atDeveloper();
    misheard.say(into('developer', 2), { by: 'voice', confidence: 0.9, close: [into('fixer', 5)] });
    expect(heard(misheard.say({ type: 'pour-in', liquid: 'fixer' }))).toMatchObject([
      ['warning', { id: 'ruinous', move: move('fixer', 5) }],
    ]);
  });
  it('every kind of pour that was close to it counts as another reading', () => {
    const rivals: Intent[] = [
      { type: 'pour-in', liquid: 'developer' },
      { type: 'pour-between', liquid: 'developer', from: bottle(2) },
      { type: 'pour-away', liquid: 'developer' },
    ];
    for (const rival of rivals) {
      const user = withDeveloper();
      user.wait(170);
      const said = user.say(back('developer', 2), { by: 'voice', confidence: 0.9, close: [rival] });
      expect(heard(said), rival.type).toMatchObject([['question', { ask: 'heard-two' }]]);
    }
  });
});

describe('a cleared pour is looked at again when anything has changed', () => {
  const cleared = () => {
    const user = atDeveloper();
    user.say(into('developer', 2));
    return user;
  };
  it('what turned ruinous is withdrawn aloud', () => {
    const user = cleared();
    expect(
      heard(
        user.fact({
          type: 'poured',
          from: jug,
          to: bottle(2),
          liquid: 'fixer',
          volumeMl: 30,
          overridden: true,
        }),
      ),
    ).toMatchObject([
      ['warning', { id: 'ruinous', reason: 'spoilt', about: { bottle: 2, other: named('fixer') } }],
    ]);
    expect(user.context.announced).toBeNull();
  });
  it('an emptied bottle, or one that holds something else, as well', () => {
    const user = cleared();
    expect(
      heard(user.fact({ type: 'bottle-discarded', bottle: 2, liquid: 'developer', volumeMl: 500 })),
    ).toMatchObject([['question', { id: 'ask', ask: 'bottle-empty' }]]);
    expect(user.context.announced).toBeNull();
    const empty = cleared();
    expect(ids(empty.say({ type: 'bottle-empty', bottle: 2 }))).toEqual(['bottle-empty', 'ask']);
    expect(empty.context.announced).toBeNull();
  });
  it('what was known when it was cleared is not said again', () => {
    const user = atDeveloper();
    user.fact({ type: 'temperature', vessel: bottle(2), tempC: 39 });
    user.say(into('developer', 2));
    user.say(yes);
    expect(user.context.announced).not.toBeNull();
    expect(ids(user.say({ type: 'note', text: 'cold' }))).toEqual(['note-taken']);
    expect(ids(user.fact({ type: 'temperature', vessel: bottle(3), tempC: 20 }))).toEqual([]);
    expect(user.context.announced).toMatchObject({ liquid: 'developer' });
    // and what is new is
    expect(heard(user.say({ type: 'tank-takes', volumeMl: 800 }))).toMatchObject([
      ['answer', { id: 'tank-noted' }],
      ['warning', { id: 'recoverable', reason: 'developer-cold', also: [{ reason: 'too-little' }] }],
    ]);
  });
  it('a return that was cleared is looked at as well', () => {
    const user = withDeveloper();
    user.wait(170);
    user.say(back('developer', 2));
    expect(
      heard(user.say({ type: 'bottle-holds', bottle: 2, liquid: 'developer', volumeMl: 900 })),
    ).toMatchObject([
      ['answer', { id: 'bottle-noted' }],
      ['warning', { id: 'recoverable', reason: 'no-headroom', about: { ml: expect.closeTo(100, 6) } }],
    ]);
    expect(user.context.announced).toBeNull();
  });
  it('what was vouched for when it was cleared is not asked again', () => {
    const noted = (user: BenchUser) => {
      expect(user.context.announced).not.toBeNull();
      expect(ids(user.say({ type: 'note', text: 'x' }))).toEqual(['note-taken']);
      expect(ids(user.fact({ type: 'temperature', vessel: bottle(5), tempC: 20 }))).toEqual([]);
      expect(user.context.announced).not.toBeNull();
    };
    const jugged = atDeveloper();
    jugged.say({ type: 'pour-in', liquid: 'bleach', from: jug });
    jugged.say({ type: 'part', liquid: 'developer' });
    jugged.say(yes);
    noted(jugged);
    const bare = new BenchUser();
    bare.say({ type: 'begin-run' });
    bare.say(into('developer', 2));
    bare.say({ type: 'no-film' });
    noted(bare);
    expect(heard(bare.fact({ type: 'temperature', vessel: bottle(2), tempC: 39 }))).toMatchObject([
      ['warning', { id: 'recoverable', reason: 'developer-cold' }],
    ]);
    bare.say(yes);
    noted(bare);
  });
  it('what was refused stays refused, and what waits for an answer is judged again', () => {
    const refused = atDeveloper();
    refused.say(into('bleach', 4));
    expect(ids(refused.fact({ type: 'temperature', vessel: bottle(4), tempC: 38 }))).toEqual([]);
    expect(refused.context.pending).toMatchObject({ verdict: 'ruinous' });
    const asked = atDeveloper();
    asked.say(into('developer', 9));
    expect(
      ids(
        asked.fact({
          type: 'mixed',
          batch: 'D',
          recipe: 'ecn2-developer',
          liquid: 'developer',
          volumeMl: 900,
          bottle: 9,
        }),
      ),
    ).toEqual(['clear']);
  });
});

describe('calling off', () => {
  it('"wait", "stop" and "cancel" call off what was cleared or asked', () => {
    for (const word of [wait, stop]) {
      const user = atDeveloper();
      user.say(into('developer', 2));
      expect(heard(user.say(word))).toEqual([
        ['answer', { id: 'called-off', bath: named('developer'), now: pourNow('developer', 2, 41.1) }],
      ]);
      expect(user.context).toMatchObject({ announced: null, pending: null });
      user.say(into('bleach', 4));
      expect(heard(user.say(word))).toMatchObject([['answer', { id: 'called-off', bath: named('bleach') }]]);
      user.say({ type: 'pour-in' });
      expect(heard(user.say(word))).toMatchObject([['answer', { id: 'called-off', bath: null }]]);
    }
    const user = atDeveloper();
    expect(heard(user.say(no))).toEqual(nothingWaits);
    user.say(into('developer', 2));
    expect(heard(user.say(no))).toEqual([['answer', { id: 'cancelled' }]]);
    expect(user.context).toMatchObject({ announced: null, pending: null });
    user.say(into('bleach', 4));
    user.say(no);
    expect(user.context).toMatchObject({ announced: null, pending: null });
  });
  it('a no to a question leaves what was cleared', () => {
    const user = withDeveloper();
    user.wait(170);
    user.say(back('developer', 2));
    user.say({ type: 'close-run' });
    expect(user.context.pending).toMatchObject({ kind: 'close-early' });
    user.say(no);
    expect(user.context).toMatchObject({ announced: { kind: 'out' }, pending: null });
    user.say(back('developer', 4));
    user.say(no);
    expect(user.context).toMatchObject({ announced: null, pending: null });
  });
  it('with nothing in hand: "wait" holds up the person, "stop" asks what', () => {
    const user = withDeveloper();
    expect(ids(user.say(wait))).toEqual(['held-up']);
    expect(heard(user.say(stop))).toEqual([['question', { id: 'stop-what' }]]);
    expect(heard(user.say(stop))).toEqual([['question', { id: 'stop-what' }]]);
    expect(heard(user.say(yes))).toEqual([['question', { id: 'stop-what' }]]);
    const dry = atDeveloper();
    for (const word of [wait, stop])
      expect(heard(dry.say(word))).toEqual([['answer', { id: 'now', now: pourNow('developer', 2, 41.1) }]]);
    const idle = new BenchUser();
    expect(heard(idle.say(wait))).toEqual(nothingWaits);
    expect(heard(idle.say(stop))).toEqual([['answer', { id: 'nothing-to-stop' }]]);
    const draining = withDeveloper();
    draining.wait(170);
    expect(ids(draining.say(stop))).toEqual(['now']);
  });
});

describe('a question that is left behind', () => {
  it('doing something else leaves it; a note or a look does not', () => {
    const asked = (intent: Intent) => {
      const user = atDeveloper();
      user.say({ type: 'pour-in' });
      user.say(intent);
      return user.context.pending;
    };
    for (const type of ['begin-run', 'hold-clock', 'resume-clock', 'drain-now'] as const)
      expect(asked({ type }), type).toBeNull();
    expect(asked({ type: 'add-time', seconds: 10 })).toBeNull();
    for (const intent of [{ type: 'note', text: 'x' }, { type: 'ask-where' }, { type: 'ask-next' }] as const)
      expect(asked(intent), intent.type).toMatchObject({ kind: 'pour', verdict: 'ask' });
  });
  it('"next", "hung" and "close" as well, where they ask nothing themselves', () => {
    const clinging = atDeveloper();
    clinging.say(isIn('stop'));
    clinging.wait(5);
    clinging.say(out);
    clinging.say({ type: 'pour-in' });
    clinging.say(next);
    expect(clinging.context.pending).toBeNull();
    const developing = withDeveloper();
    developing.say({ type: 'pour-in' });
    developing.say({ type: 'film-hung' });
    expect(developing.context.pending).toBeNull();
    const idle = new BenchUser();
    idle.say({ type: 'pour-in' });
    expect(idle.context.pending).not.toBeNull();
    idle.say({ type: 'close-run' });
    expect(idle.context.pending).toBeNull();
  });
});

describe('a yes counts only just after its question', () => {
  const asked = (user: BenchUser, intent: Intent, seconds: number, answer: Intent = yes) => {
    user.say(intent);
    user.wait(seconds);
    return ids(user.say(answer));
  };
  const cold = () => {
    const user = atDeveloper();
    user.fact({ type: 'temperature', vessel: bottle(2), tempC: 39 });
    return user;
  };
  it('for a minute; later what still stands is asked again', () => {
    expect(asked(cold(), into('developer', 2), 60)).toEqual(['overridden']);
    expect(asked(cold(), into('developer', 2), 60.1)).toEqual(['recoverable']);
    expect(asked(atDeveloper(), { type: 'skip' }, 61)).toEqual(['confirm-skip']);
    const early = (seconds: number) => asked(withDeveloper(), { type: 'drain-now' }, seconds);
    expect(early(60)).toEqual(['drain']);
    expect(early(61)).toEqual(['confirm-early']);
    expect(asked(atDeveloper(), { type: 'close-run' }, 61)).toEqual(['confirm-close']);
    expect(asked(atDeveloper(), { type: 'film-hung' }, 61)).toEqual(['confirm-hang']);
    expect(asked(withDeveloper(), stop, 61)).toEqual(['nothing-waiting']);
    const gone = atDeveloper();
    gone.say({ type: 'skip' });
    gone.say(isIn('developer'));
    expect(heard(gone.say(yes))).toEqual(nothingWaits);
  });
  it('and not at all when it was said late', () => {
    const user = cold();
    user.say(into('developer', 2));
    const said = user.give({
      type: 'intent',
      intent: yes,
      atMs: user.atMs,
      wallMs: user.wallMs + user.atMs,
      heard: { by: 'typed', words: '', confidence: 1, close: [] },
      late: true,
    });
    expect(ids(said)).toEqual(['recoverable']);
    expect(heard(atDeveloper().say(yes))).toEqual(nothingWaits);
  });
  it('film that is loaded takes up what was said less than a minute before', () => {
    const said = (seconds: number) => {
      const user = new BenchUser();
      user.say({ type: 'begin-run' });
      user.say(isIn('prebath'));
      user.wait(seconds);
      return ids(user.say({ type: 'film-loaded' }));
    };
    expect(said(60)).toContain('bath-in');
    expect(said(61)).toEqual(['film-loaded']);
    const pour = (seconds: number) => {
      const user = new BenchUser();
      user.say({ type: 'begin-run' });
      user.say(into('bleach', 4));
      user.wait(seconds);
      return heard(user.say({ type: 'film-loaded' }));
    };
    expect(pour(60)).toMatchObject([
      ['answer', { id: 'film-loaded', now: null }],
      ['warning', { id: 'ruinous' }],
    ]);
    expect(pour(61)).toMatchObject([
      ['answer', { id: 'film-loaded', now: { do: 'pour', bath: named('prebath') } }],
    ]);
  });
});

describe('the run', () => {
  it('begins with cautions, what the bottles are taken to hold, and the tank', () => {
    const user = new BenchUser();
    const said = heard(user.say({ type: 'begin-run' }));
    const baths = ['prebath', 'developer', 'stop', 'bleach', 'fixer', 'final-rinse'];
    expect(said).toEqual([
      [
        'answer',
        {
          id: 'run-begun',
          sheet: 'ECN-2 with ferricyanide bleach',
          cautions: ['gloves', 'eyes', 'ventilation', 'acid-ferricyanide', 'acid-apart', 'data-sheet'],
          bottles: baths.map((id, i) => ({ bottle: i + 1, bath: named(id) })),
          assumed: true,
          tankMl: 500,
        },
      ],
    ]);
    expect(user.facts('run-started')).toEqual([
      { type: 'run-started', runId: 'run-20300105T090000', sheetId: sheet.id, tankMl: 500, films: [], sheet },
    ]);
    expect(user.facts('bottle-set')).toEqual(
      baths.map((liquid, i) => ({
        type: 'bottle-set',
        bottle: i + 1,
        liquid,
        volumeMl: 600,
        capacityMl: 1000,
        assumed: true,
      })),
    );
    expect(heard(user.say({ type: 'begin-run' }))).toEqual([
      ['answer', { id: 'run-already', now: { do: 'prepare' } }],
    ]);
    expect(user.facts('run-started')).toHaveLength(1);
  });
  it('by another sheet: its own bottles, and those of the first are taken away', () => {
    const user = new BenchUser();
    user.say({ type: 'begin-run' });
    user.say({ type: 'close-run' });
    user.say(yes);
    const before = user.facts('bottle-set').length;
    const said = heard(user.say({ type: 'begin-run', sheet: 'c41' }));
    expect(said).toMatchObject([['answer', { sheet: 'C-41', assumed: true }]]);
    const wanted = ['developer', 'bleach', 'fixer', 'final-rinse'];
    expect(user.facts('bottle-set').slice(before)).toEqual([
      ...[5, 6].map((b) => ({
        type: 'bottle-set',
        bottle: b,
        liquid: null,
        volumeMl: 0,
        capacityMl: 1000,
        assumed: true,
      })),
      ...wanted.map((liquid, i) => ({
        type: 'bottle-set',
        bottle: i + 1,
        liquid,
        volumeMl: 600,
        capacityMl: 1000,
        assumed: true,
      })),
    ]);
    expect(said[0]?.[1]).toMatchObject({
      bottles: wanted.map((id, i) => ({ bottle: i + 1, bath: named(id) })),
    });
    expect(user.state.sheetId).toBe('c41');
    const again = new BenchUser();
    for (const intent of [{ type: 'begin-run' }, { type: 'close-run' }, yes, { type: 'begin-run' }] as const)
      again.say(intent);
    expect(again.facts('run-started')).toHaveLength(2);
    expect(again.facts('bottle-set')).toHaveLength(6);
  });
  it('by a sheet with as many baths in another order, or with one less, the bottles follow', () => {
    const steps = (change: (all: ProcessSheet['steps']) => ProcessSheet['steps']): ProcessSheet => ({
      ...sheet,
      id: 'other',
      name: 'Other',
      steps: change(sheet.steps),
    });
    const holdsThen = (other: ProcessSheet) => {
      const user = new BenchUser({ sheets: [sheet, other] });
      for (const intent of [{ type: 'begin-run' }, { type: 'close-run' }, yes] as const) user.say(intent);
      user.say({ type: 'begin-run', sheet: 'other' });
      return Object.values(user.world.bottles).map((b) => b.liquid);
    };
    const at = (id: string) => sheet.steps.findIndex((s) => s.id === id);
    const swapped = steps((all) => {
      const bleach = all[at('bleach')] as ProcessSheet['steps'][number];
      const fixer = all[at('fixer')] as ProcessSheet['steps'][number];
      return all.with(at('bleach'), fixer).with(at('fixer'), bleach);
    });
    expect(holdsThen(swapped)).toEqual(['prebath', 'developer', 'stop', 'fixer', 'bleach', 'final-rinse']);
    const shorter = steps((all) => all.filter((s) => s.id !== 'final-rinse'));
    expect(holdsThen(shorter)).toEqual(['prebath', 'developer', 'stop', 'bleach', 'fixer', null]);
  });
  it('with bottles that were told nothing is taken for granted', () => {
    const user = new BenchUser();
    user.say({ type: 'bottle-holds', bottle: 3, liquid: 'developer', volumeMl: 400 });
    expect(heard(user.say({ type: 'begin-run' }))).toMatchObject([
      ['answer', { assumed: false, bottles: [{ bottle: 3, bath: named('developer') }] }],
    ]);
    expect(user.facts('bottle-set')).toHaveLength(1);
    const many = new BenchUser();
    for (const number of [1, 2, 3, 4, 5, 6, 7, 8])
      many.say({ type: 'bottle-holds', bottle: number, liquid: 'developer', volumeMl: 400 });
    const [begun] = many.say({ type: 'begin-run' });
    expect(begun?.message.id === 'run-begun' && begun.message.bottles).toHaveLength(8);
  });
  it('by a sheet that nobody knows does not begin', () => {
    const user = new BenchUser();
    expect(heard(user.say({ type: 'begin-run', sheet: 'e6' }))).toEqual([
      ['question', { id: 'no-such-sheet', said: 'e6', known: sheets.map((s) => s.name) }],
    ]);
    expect(user.world.run).toBeNull();
  });
  it('goes on by "next" where that is safe, and says what there is to do', () => {
    const user = new BenchUser();
    expect(heard(user.say(next))).toEqual([['answer', { id: 'now', now: { do: 'begin' } }]]);
    expect(ids(user.say({ type: 'begin-run' }))).toEqual(['run-begun']);
    expect(heard(user.say(next))).toMatchObject([
      [
        'answer',
        {
          id: 'now',
          now: {
            do: 'warm',
            targets: [
              { bath: named('prebath'), tempC: 27 },
              { bath: named('developer'), tempC: 41.1 },
              { bath: named('stop'), tempC: 38 },
              {},
              {},
              {},
            ],
            cautions: ['acid-into-water', 'children-food', 'local-codes'],
          },
        },
      ],
    ]);
    for (const _ of [1, 2])
      expect(heard(user.say(next))).toEqual([['answer', { id: 'now', now: { do: 'load' } }]]);
    user.say({ type: 'film-loaded' });
    expect(heard(user.say(next))).toEqual([
      ['answer', { id: 'now', now: pourNow('prebath', 1, 27) }],
      ['question', { id: 'confirm-skip', step: 'prebath', role: 'backing-remover' }],
    ]);
    user.say(into('prebath', 1));
    expect(heard(user.say(next))).toEqual([
      ['answer', { id: 'now', now: pourNow('prebath', 1, 27, { announced: true, agoS: 0 }) }],
    ]);
    user.say(isIn());
    user.wait(3);
    // it never ends a bath before its time
    expect(ids(user.say(next))).toEqual(['clock-runs']);
    user.wait(7);
    expect(ids(user.say(next))).toEqual(['tank-is-empty']);
  });
  it('a rinse by fills is done by "next", each fill ten seconds', () => {
    const user = new BenchUser().ready('ecn2-ferricyanide-home');
    user.water(60);
    user.bath('prebath', 1, 60).water(30).bath('developer', 2, 178).bath('stop', 3, 30);
    expect(heard(user.say(next))).toMatchObject([
      ['answer', { id: 'now', now: { do: 'pour', bath: named('bleach') } }],
    ]);
    expect(last(user, 'rinsed')).toEqual({ type: 'rinsed', runId: running(user), fills: 3, seconds: 30 });
    const user2 = new BenchUser().ready('ecn2-ferricyanide-home');
    user2.water(60);
    user2.bath('prebath', 1, 60).water(30).bath('developer', 2, 178).bath('stop', 3, 30);
    expect(heard(user2.say({ type: 'ask-where' }))).toMatchObject([
      ['answer', { now: { do: 'rinse', fills: 3, tempC: expect.any(Number) } }],
    ]);
    user2.say(into('bleach', 4));
    user2.say(yes);
    expect(ids(user2.say(next))).toEqual(['now']);
    expect(user2.facts('rinsed')).toEqual([]);
  });
  it('a rinse that was the last of the sheet leaves the film to be hung', () => {
    const fixer = sheet.steps.find((s) => s.id === 'fixer') as (typeof sheet.steps)[number];
    const rinseAfter = { fills: 3, temp: fixer.temp, source: 'common practice' } as typeof fixer.rinseAfter;
    const short = {
      ...sheet,
      steps: sheet.steps
        .filter((s) => s.id !== 'wash-after-fixer' && s.id !== 'final-rinse')
        .map((s) => (s.id === 'fixer' ? { ...s, rinseAfter } : s)),
    };
    const user = withDeveloper({ sheets: [short] });
    user.wait(170);
    user.say(back('developer', 2));
    user.say(out);
    user.bath('stop', 3, 30).water(30).bath('bleach', 4, 180).water(60).bath('fixer', 5, 120);
    expect(user.desk.situations(user.state)).toEqual(['pouring', 'anytime']);
    expect(heard(user.say(next))).toEqual([['answer', { id: 'now', now: { do: 'hang' } }]]);
    expect(user.desk.situations(user.state)).toEqual(['hanging', 'anytime']);
  });
  it('a step is left out only after a yes', () => {
    const user = atDeveloper();
    expect(heard(user.say({ type: 'skip' }))).toEqual([
      ['question', { id: 'confirm-skip', step: 'developer', role: 'developer' }],
    ]);
    expect(heard(user.say({ type: 'skip', liquid: 'developer' }))).toMatchObject([
      ['answer', { id: 'called-off' }],
    ]);
    expect(heard(user.say({ type: 'skip', liquid: 'developer' }))).toEqual([
      ['question', { id: 'confirm-skip', step: 'developer', role: 'developer' }],
    ]);
    user.say(no);
    expect(heard(user.say({ type: 'skip', liquid: 'stop' }))).toEqual([
      ['answer', { id: 'now', now: pourNow('developer', 2, 41.1) }],
    ]);
    expect(heard(user.say({ type: 'skip', liquid: 'toner' }))).toMatchObject([['answer', { id: 'now' }]]);
    const bleach = atBleach();
    bleach.say({ type: 'skip' });
    expect(heard(bleach.say(yes))).toMatchObject([['answer', { id: 'skipped', step: 'bleach' }]]);
    expect(last(bleach, 'deviation')).toEqual({
      type: 'deviation',
      runId: running(bleach),
      stepId: 'bleach',
      what: 'skipped',
    });
    expect(last(bleach, 'step-skipped')).toEqual({
      type: 'step-skipped',
      runId: running(bleach),
      stepId: 'bleach',
    });
    expect(bleach.context.pending).toBeNull();
    const developing = withDeveloper();
    expect(heard(developing.say({ type: 'skip' }))).toEqual([
      ['answer', { id: 'now', now: waitFor('developer', 180) }],
    ]);
    // a pour that was warned of is dropped
    const warned = atDeveloper();
    warned.say(into('bleach', 4));
    expect(heard(warned.say({ type: 'skip' }))).toMatchObject([
      ['answer', { id: 'called-off', bath: named('bleach') }],
    ]);
    const rinsed = hanging();
    expect(heard(rinsed.say({ type: 'skip' }))).toEqual([['answer', { id: 'now', now: { do: 'hang' } }]]);
  });
  it('the last rinse left out: the film hangs next', () => {
    const user = atFixer().bath('fixer', 5, 120).water(120);
    user.say({ type: 'skip' });
    expect(heard(user.say(yes))).toEqual([
      ['answer', { id: 'skipped', step: 'final rinse', now: { do: 'hang' } }],
    ]);
    expect(user.desk.situations(user.state)).toEqual(['hanging', 'anytime']);
  });
  it('film: said twice, said too late, said with no run', () => {
    const user = atDeveloper();
    expect(heard(user.say({ type: 'film-loaded' }))).toEqual([['answer', { id: 'film-already-loaded' }]]);
    const idle = new BenchUser();
    expect(heard(idle.say({ type: 'film-loaded' }))).toEqual([['answer', { id: 'film-loaded-no-run' }]]);
    expect(last(idle, 'film-loaded')).toEqual({ type: 'film-loaded', kind: { backing: true, image: 'dye' } });
    const hung = hanging();
    hung.say({ type: 'film-hung' });
    expect(heard(hung.say({ type: 'film-loaded' }))).toEqual([
      ['answer', { id: 'not-now', now: { do: 'close' } }],
    ]);
    expect(last(user, 'film-loaded')).toEqual({
      type: 'film-loaded',
      runId: running(user),
      kind: { backing: true, image: 'dye' },
    });
  });
  it('films told: what was told before and not now stays', () => {
    const user = new BenchUser();
    expect(heard(user.say({ type: 'films' }))).toEqual([['question', { id: 'films-what' }]]);
    user.say({ type: 'films', count: 3 });
    expect(last(user, 'films-told')).toEqual({
      type: 'films-told',
      films: [{ stock: 'film', format: '35mm', count: 3 }],
    });
    expect(heard(user.say({ type: 'films', pushStops: 1 }))).toEqual([
      [
        'answer',
        {
          id: 'films-noted',
          films: [{ stock: 'film', format: '35mm', count: 3, pushStops: 1 }],
          push: expect.stringContaining('No table for a push is published'),
        },
      ],
    ]);
  });
  it('the film is hung when it is through, or after a yes that names what it lacks', () => {
    const user = atBleach();
    const lacks = ['bleach', 'fixer', 'final-rinse'].map(named);
    expect(heard(user.say({ type: 'film-hung' }))).toEqual([
      ['question', { id: 'confirm-hang', missing: lacks, now: pourNow('bleach', 4, 38) }],
    ]);
    expect(user.facts('film-hung')).toEqual([]);
    expect(heard(user.say(yes))).toEqual([
      ['warning', { id: 'film-hung', backingLeft: false, fixerLeft: false, missing: lacks }],
    ]);
    expect(last(user, 'film-hung')).toEqual({
      type: 'film-hung',
      runId: running(user),
      lacking: ['bleach', 'fixer', 'final-rinse'],
    });
    expect(user.desk.situations(user.state)).toEqual(['closing', 'anytime']);
    const whole = hanging();
    expect(heard(whole.say({ type: 'film-hung' }))).toEqual([
      ['answer', { id: 'film-hung', backingLeft: false, fixerLeft: false, missing: [] }],
    ]);
    const developing = withDeveloper();
    expect(heard(developing.say({ type: 'film-hung' }))).toEqual([
      ['warning', { id: 'film-out', bath: named('developer'), doneS: 0, leftS: 180, light: true }],
    ]);
    expect(heard(new BenchUser().say({ type: 'film-hung' }))).toEqual([
      ['answer', { id: 'not-now', now: { do: 'begin' } }],
    ]);
    const backed = new BenchUser().ready();
    backed.say({ type: 'film-hung' });
    expect(heard(backed.say(yes))).toMatchObject([['warning', { backingLeft: true }]]);
    const lost = atDeveloper();
    lost.say(isIn('bleach'));
    lost.wait(5);
    lost.say(out);
    expect(heard(lost.say({ type: 'film-hung' }))).toEqual([
      ['answer', { id: 'film-hung', backingLeft: false, fixerLeft: false, missing: [] }],
    ]);
  });
  it('is closed when the film hangs, or after a yes; what still stands in the tank is drained', () => {
    const whole = hanging();
    whole.say({ type: 'film-hung' });
    expect(heard(whole.say({ type: 'close-run' }))).toEqual([
      ['answer', { id: 'run-closed', complete: true, jugs: [], missing: [] }],
    ]);
    expect(last(whole, 'run-finished')).toMatchObject({ complete: true });
    expect(heard(whole.say({ type: 'close-run' }))).toEqual([
      ['answer', { id: 'not-now', now: { do: 'begin' } }],
    ]);
    const user = withDeveloper();
    user.wait(60);
    expect(heard(user.say({ type: 'close-run' }))).toEqual([
      ['question', { id: 'confirm-close', now: waitFor('developer', 120) }],
    ]);
    expect(heard(user.say(yes))).toEqual([
      [
        'answer',
        {
          id: 'run-closed',
          complete: false,
          jugs: [named('developer')],
          missing: ['developer', 'stop', 'bleach', 'fixer', 'final-rinse'].map(named),
        },
      ],
    ]);
    expect(last(user, 'poured')).toMatchObject({ from: tank, to: jug, inferred: true });
    expect(last(user, 'run-finished')).toMatchObject({ complete: false });
    const lacking = atBleach();
    lacking.say({ type: 'film-hung' });
    lacking.say(yes);
    expect(heard(lacking.say({ type: 'close-run' }))).toMatchObject([
      ['answer', { complete: true, missing: ['bleach', 'fixer', 'final-rinse'].map(named) }],
    ]);
    expect(last(lacking, 'run-finished')).toMatchObject({ complete: false });
    // a film that came out without its baths is not forgotten
    expect(heard(lacking.say({ type: 'film-hung' }))).toEqual([
      ['warning', { id: 'closed-without', missing: ['bleach', 'fixer', 'final-rinse'].map(named) }],
    ]);
  });
  it('only the last film that came out without its baths is spoken of', () => {
    const short = (user: BenchUser) => {
      for (const intent of [
        { type: 'begin-run' },
        { type: 'film-loaded' },
        { type: 'film-hung' },
        yes,
        { type: 'close-run' },
      ] as const)
        user.say(intent);
      user.wait(60);
    };
    const user = new BenchUser();
    short(user);
    expect(ids(user.say({ type: 'film-hung' }))).toEqual(['closed-without']);
    user.say({ type: 'begin-run' });
    user.say({ type: 'close-run' });
    user.say(yes);
    expect(heard(user.say({ type: 'film-hung' }))).toEqual([
      ['answer', { id: 'not-now', now: { do: 'begin' } }],
    ]);
    user.wait(60);
    short(user);
    expect(ids(user.say({ type: 'close-run' }))).toEqual(['closed-without']);
  });
  it('says what comes next, and where it is', () => {
    const user = withDeveloper();
    expect(heard(user.say({ type: 'ask-next' }))).toEqual([
      ['answer', { id: 'next', step: 'stop bath', bath: named('stop'), after: named('water') }],
    ]);
    expect(heard(user.say({ type: 'ask-where' }))).toEqual([
      ['answer', { id: 'where', now: waitFor('developer', 180), step: 3, of: 11, spill: false, jugs: [] }],
    ]);
    const begun = new BenchUser();
    begun.say({ type: 'begin-run' });
    expect(heard(begun.say({ type: 'ask-next' }))).toEqual([
      ['answer', { id: 'now', now: { do: 'prepare' }, brief: true }],
    ]);
    const clinging = atBleach().bath('bleach', 4, 180);
    clinging.say({ type: 'spill', volumeMl: 5 });
    expect(heard(clinging.say({ type: 'ask-where' }))).toMatchObject([['answer', { step: 7, spill: true }]]);
    const carrying = atDeveloper();
    carrying.say(isIn('stop'));
    carrying.wait(5);
    carrying.say(out);
    expect(heard(carrying.say({ type: 'ask-next' }))).toMatchObject([
      [
        'answer',
        {
          id: 'now',
          now: { do: 'wash', reason: 'acid-before-developer', next: named('developer') },
          brief: true,
        },
      ],
    ]);
    expect(heard(carrying.say({ type: 'ask-where' }))).toMatchObject([['answer', { jugs: [named('stop')] }]]);
    const rinsing = atFixer().bath('fixer', 5, 120).water(120);
    expect(heard(rinsing.say({ type: 'ask-next' }))).toEqual([
      ['answer', { id: 'next', step: 'final rinse', bath: named('final-rinse'), after: null }],
    ]);
    rinsing.say(isIn('final-rinse'));
    expect(heard(rinsing.say({ type: 'ask-next' }))).toEqual([
      ['answer', { id: 'next', step: 'hang to dry', bath: null, after: null }],
    ]);
    expect(heard(hanging().say({ type: 'ask-next' }))).toMatchObject([
      ['answer', { id: 'now', now: { do: 'hang' }, brief: true }],
    ]);
    const lost = atDeveloper();
    lost.say(isIn('bleach'));
    lost.wait(5);
    lost.say(out);
    expect(heard(lost.say({ type: 'ask-where' }))).toMatchObject([
      ['answer', { now: { do: 'lost' }, step: 11, of: 11 }],
    ]);
    expect(heard(lost.say({ type: 'ask-next' }))).toEqual([['answer', { id: 'now', now: { do: 'lost' } }]]);
  });
});

describe('a pour that has happened already', () => {
  const told = (user: BenchUser, more: Partial<Extract<Intent, { type: 'poured' }>>) =>
    user.say({ type: 'poured', ...more });
  it('out of the tank: the bath is where it was said to go, and a slip or a wrong bottle is said', () => {
    const user = withDeveloper();
    user.wait(178);
    expect(heard(told(user, { to: bottle(2) }))).toEqual([
      ['answer', { id: 'tank-is-empty', now: pourNow('stop', 3, 38), jugged: null, slip: null }],
    ]);
    expect(last(user, 'poured')).toMatchObject({ from: tank, to: bottle(2) });
    const wrong = withDeveloper();
    wrong.wait(100);
    expect(heard(told(wrong, { from: tank, to: bottle(4) }))).toMatchObject([
      [
        'warning',
        {
          id: 'poured',
          bath: named('developer'),
          from: tank,
          to: bottle(4),
          warn: { reason: 'bleach-developer-bottle' },
        },
      ],
      ['warning', { id: 'tank-is-empty', slip: { kind: 'short' } }],
    ]);
    const named2 = withDeveloper();
    named2.wait(178);
    told(named2, { liquid: 'developer', to: sink });
    expect(last(named2, 'poured')).toMatchObject({ from: tank, to: sink });
    const dry = atDeveloper();
    expect(ids(told(dry, { from: tank, to: bottle(2) }))).toEqual(['tank-already-empty']);
  });
  it('into the tank: it is in, from where it was said', () => {
    const user = atDeveloper();
    expect(heard(told(user, { from: bottle(2) }))).toMatchObject([
      ['answer', { id: 'bath-in', assumed: false }],
    ]);
    expect(last(user, 'poured')).toMatchObject({ from: bottle(2), liquid: 'developer' });
    const jugged = atDeveloper();
    expect(ids(told(jugged, { liquid: 'developer', from: jug, to: tank }))).toEqual(['bath-in']);
    expect(last(jugged, 'poured')).toMatchObject({ from: jug });
    const bare = atDeveloper();
    expect(heard(told(bare, { to: tank }))).toMatchObject([
      ['answer', { id: 'bath-in', assumed: true, bath: named('developer') }],
    ]);
    expect(heard(told(atDeveloper(), { liquid: 'toner' }))).toMatchObject([
      ['question', { id: 'no-such-liquid' }],
    ]);
    const idle = new BenchUser();
    expect(ids(told(idle, { liquid: 'developer', from: bottle(2) }))).toEqual(['in-without-run']);
  });
  it('"poured", while a return is on its way: that is done', () => {
    const user = withDeveloper();
    user.wait(178);
    user.say(back('developer', 2));
    expect(ids(told(user, {}))).toEqual(['tank-is-empty']);
    expect(last(user, 'poured')).toMatchObject({ to: bottle(2) });
    const other = withDeveloper();
    other.wait(178);
    other.say(back('developer', 2));
    expect(ids(told(other, { from: bottle(3) }))).toContain('bath-in');
  });
  it('into a bottle, with a pour that was cleared: into its own, or from fifteen seconds on, it was in', () => {
    const cleared = (seconds: number, liquid?: string, number = 2) => {
      const user = atDeveloper();
      user.say(into('developer', 2));
      user.wait(seconds);
      return ids(told(user, { to: bottle(number), ...(liquid && { liquid }) }));
    };
    expect(cleared(15)).toEqual(['taken-in', 'tank-is-empty']);
    expect(cleared(15, 'developer')).toEqual(['taken-in', 'tank-is-empty']);
    expect(cleared(2, 'developer')).toEqual(['taken-in', 'tank-is-empty']);
    expect(cleared(15, 'developer', 7)).toContain('taken-in');
    expect(cleared(14.9, 'developer', 7)).not.toContain('taken-in');
    expect(cleared(20, 'stop')).not.toContain('taken-in');
  });
  it('between vessels: from where it stands, with what that did', () => {
    const user = atDeveloper();
    expect(
      heard(told(user, { liquid: 'fixer', from: bottle(5), to: bottle(4), volumeMl: 40 })),
    ).toMatchObject([
      [
        'warning',
        {
          id: 'poured',
          bath: named('fixer'),
          from: bottle(5),
          to: bottle(4),
          warn: {
            reason: 'bleach-fixer-bottle',
            about: about('fixer', { bottle: 4, other: named('bleach') }),
          },
        },
      ],
    ]);
    expect(last(user, 'poured')).toEqual({
      type: 'poured',
      runId: running(user),
      from: bottle(5),
      to: bottle(4),
      liquid: 'fixer',
      volumeMl: 40,
      overridden: false,
    });
    expect(heard(told(atDeveloper(), { from: bottle(5), to: sink }))).toEqual([
      ['answer', { id: 'poured', bath: named('fixer'), from: bottle(5), to: sink, warn: null, gas: false }],
    ]);
    const whole = atDeveloper();
    told(whole, { from: bottle(5), to: bottle(9) });
    expect(last(whole, 'poured')).toMatchObject({ volumeMl: 600 });
    const found = atDeveloper();
    expect(heard(told(found, { liquid: 'fixer', to: bottle(9) }))).toMatchObject([
      ['answer', { from: bottle(5), to: bottle(9) }],
    ]);
    const jugged = withDeveloper();
    jugged.wait(178);
    jugged.say(out);
    expect(heard(told(jugged, { liquid: 'developer', to: bottle(2) }))).toMatchObject([
      ['answer', { id: 'poured', from: jug, to: bottle(2) }],
    ]);
    expect(last(jugged, 'poured')).toMatchObject({ from: jug, volumeMl: 500 });
    expect(heard(told(atDeveloper(), { liquid: 'fixer', to: bottle(5) }))).toEqual([
      ['answer', { id: 'part-alone', bath: null, bottle: 5 }],
    ]);
    expect(heard(told(atDeveloper(), { to: bottle(9) }))).toEqual([['question', { id: 'poured-what' }]]);
    expect(heard(told(atDeveloper(), { liquid: 'developer', from: tap, to: bottle(9) }))).toMatchObject([
      ['answer', { id: 'poured' }],
    ]);
  });
});

describe('what is told of bottles, tank and spills', () => {
  const holds = (number: number, more: Partial<Extract<Intent, { type: 'bottle-holds' }>> = {}): Intent => ({
    type: 'bottle-holds',
    bottle: number,
    ...more,
  });
  it('a bottle: what it holds, as it was told or as bottles usually are', () => {
    const user = atDeveloper();
    expect(heard(user.say(holds(8, { liquid: 'developer' })))).toEqual([
      [
        'answer',
        {
          id: 'bottle-noted',
          bottle: 8,
          bath: named('developer'),
          volumeMl: 600,
          capacityMl: 1000,
          volumeAssumed: true,
          was: null,
        },
      ],
    ]);
    expect(last(user, 'bottle-set')).toEqual({
      type: 'bottle-set',
      bottle: 8,
      liquid: 'developer',
      volumeMl: 600,
      capacityMl: 1000,
      volumeAssumed: true,
    });
    user.say(holds(8, { volumeMl: 350, capacityMl: 500 }));
    expect(last(user, 'bottle-set')).toEqual({
      type: 'bottle-set',
      bottle: 8,
      liquid: 'developer',
      volumeMl: 350,
      capacityMl: 500,
      capacityTold: true,
    });
    user.say(holds(8));
    expect(last(user, 'bottle-set')).toMatchObject({ volumeMl: expect.closeTo(350, 9), capacityMl: 500 });
    user.say(holds(8, { full: true }));
    expect(last(user, 'bottle-set')).toMatchObject({ volumeMl: 500, volumeAssumed: true });
    user.say(holds(9, { liquid: 'stop', capacityMl: 250 }));
    expect(last(user, 'bottle-set')).toMatchObject({ volumeMl: 250, capacityMl: 250 });
    expect(heard(user.say(holds(12)))).toEqual([['question', { id: 'bottle-holds-what', bottle: 12 }]]);
    expect(heard(user.say(holds(8, { liquid: 'toner' })))).toEqual([
      ['question', { id: 'no-such-liquid', said: 'toner', known }],
    ]);
  });
  it.each<[string, Partial<Extract<Intent, { type: 'bottle-holds' }>> & { bottle: number }, string | null]>([
    ['no number', { bottle: 0 }, 'number'],
    ['half a number', { bottle: 1.5 }, 'number'],
    ['a hundred', { bottle: 100 }, 'number'],
    ['99', { bottle: 99 }, null],
    ['one', { bottle: 1, liquid: 'prebath' }, null],
    ['no capacity', { bottle: 8, capacityMl: 0, volumeMl: 0 }, 'capacity'],
    ['more than 20 litres', { bottle: 8, capacityMl: 20_001, volumeMl: 5 }, 'capacity'],
    ['20 litres', { bottle: 8, capacityMl: 20_000, volumeMl: 5 }, null],
    ['a capacity of half a millilitre', { bottle: 8, capacityMl: 0.5, volumeMl: 0.5 }, null],
    ['less than nothing', { bottle: 8, volumeMl: -1 }, 'volume'],
    ['nothing', { bottle: 8, volumeMl: 0 }, null],
    ['more than it takes', { bottle: 8, volumeMl: 1001 }, 'volume'],
    ['all it takes', { bottle: 8, volumeMl: 1000 }, null],
  ])('%s', (_, said, why) => {
    const [answer] = heard(atDeveloper().say({ type: 'bottle-holds', liquid: 'developer', ...said }));
    if (why === null) return expect(answer).toMatchObject(['answer', { id: 'bottle-noted' }]);
    expect(answer).toEqual([
      'question',
      {
        id: 'bad-bottle',
        why,
        volumeMl: said.volumeMl ?? 600,
        capacityMl: said.capacityMl ?? 1000,
        ...(why === 'volume' && { of: { bottle: 8, told: false } }),
      },
    ]);
  });
  it('a full bottle does not change by a word where that was told, or film is at stake', () => {
    const user = atDeveloper();
    expect(heard(user.say(holds(4, { liquid: 'developer' })))).toEqual([
      ['question', { id: 'bottle-doubt', bottle: 4, bath: named('developer'), holds: named('bleach') }],
    ]);
    expect(user.context.pending).toMatchObject({ kind: 'bottle-holds', waiting: null });
    expect(heard(user.say(yes))).toMatchObject([
      ['answer', { id: 'bottle-noted', bottle: 4, was: named('bleach') }],
    ]);
    user.say(holds(9, { liquid: 'stop', volumeMl: 0.5 }));
    expect(ids(user.say(holds(9, { liquid: 'developer' })))).toEqual(['bottle-doubt']);
    const idle = new BenchUser();
    idle.say({ type: 'begin-run' });
    expect(ids(idle.say(holds(4, { liquid: 'developer' })))).toEqual(['bottle-noted']);
    expect(ids(idle.say(holds(4, { liquid: 'bleach' })))).toEqual(['bottle-doubt']);
    idle.say(no);
    idle.say({ type: 'bottle-empty', bottle: 4 });
    expect(ids(idle.say(holds(4, { liquid: 'bleach' })))).toEqual(['bottle-noted']);
  });
  it('an empty bottle keeps its label and what it takes', () => {
    const user = atDeveloper();
    expect(heard(user.say({ type: 'bottle-empty', bottle: 4 }))).toEqual([
      ['answer', { id: 'bottle-empty', bottle: 4, was: named('bleach') }],
    ]);
    expect(last(user, 'bottle-set')).toEqual({
      type: 'bottle-set',
      bottle: 4,
      liquid: 'bleach',
      volumeMl: 0,
      capacityMl: 1000,
    });
    expect(heard(user.say({ type: 'bottle-empty', bottle: 8 }))).toEqual([
      ['answer', { id: 'bottle-empty', bottle: 8, was: null }],
    ]);
    expect(last(user, 'bottle-set')).toMatchObject({ liquid: null });
    expect(heard(user.say({ type: 'bottle-empty', bottle: 0 }))).toEqual([
      ['question', { id: 'bad-bottle', why: 'number', volumeMl: 0, capacityMl: 0 }],
    ]);
  });
  it('a tank takes from 50 ml to 10 litres', () => {
    const user = atDeveloper();
    for (const volumeMl of [50, 10_000]) {
      const short = volumeMl > 600 && { least: { bottle: 1, ml: 600 } };
      expect(heard(user.say({ type: 'tank-takes', volumeMl }))).toEqual([
        ['answer', { id: 'tank-noted', volumeMl, ...short }],
      ]);
      expect(last(user, 'tank-told')).toEqual({ type: 'tank-told', volumeMl });
    }
    for (const volumeMl of [49, 10_001, Number.NaN])
      expect(heard(user.say({ type: 'tank-takes', volumeMl }))).toEqual([
        ['question', { id: 'bad-tank', volumeMl }],
      ]);
    expect(user.facts('tank-told')).toHaveLength(2);
  });
  it('a note', () => {
    const user = atDeveloper();
    expect(heard(user.say({ type: 'note', text: '  the light was on ' }))).toEqual([
      ['answer', { id: 'note-taken', text: 'the light was on' }],
    ]);
    expect(last(user, 'note')).toEqual({ type: 'note', runId: running(user), text: 'the light was on' });
    expect(heard(user.say({ type: 'note', text: '  ' }))).toEqual([['question', { id: 'note-empty' }]]);
    expect(heard(user.say({ type: 'note' }))).toEqual([['question', { id: 'note-empty' }]]);
  });
  it('a spill: cautions first, then what is missing', () => {
    const asks = (intent: Partial<Extract<Intent, { type: 'spill' }>>) =>
      heard(atDeveloper().say({ type: 'spill', ...intent }))[0];
    const strict = ['gloves', 'acid-ferricyanide', 'acid-apart', 'ventilation', 'data-sheet'];
    expect(asks({})).toEqual(['warning', { id: 'spill-ask', missing: 'both', cautions: strict }]);
    expect(asks({ volumeMl: 20 })).toEqual([
      'warning',
      { id: 'spill-ask', missing: 'liquid', cautions: strict },
    ]);
    expect(asks({ liquid: 'bleach' })).toMatchObject(['warning', { missing: 'volume' }]);
    expect(asks({ liquid: 'bleach', place: 'eye' })).toEqual([
      'warning',
      {
        id: 'spill-ask',
        missing: 'volume-later',
        cautions: [],
        aid: 'eye',
      },
    ]);
    expect(asks({ place: 'eye' })).toMatchObject(['warning', { missing: 'later', aid: 'eye' }]);
    expect(asks({ liquid: 'water', place: 'eye' })).toMatchObject(['warning', { missing: 'volume' }]);
    expect(asks({ liquid: 'toner' })).toMatchObject([
      'warning',
      { id: 'spill-ask', further: [expect.stringContaining('I do not know toner'), expect.anything()] },
    ]);
    for (const volumeMl of [0, -1, 20_001])
      expect(asks({ liquid: 'bleach', volumeMl })).toEqual([
        'question',
        { id: 'bad-bottle', why: 'volume', volumeMl, capacityMl: 20_000 },
      ]);
    for (const volumeMl of [0.5, 20_000])
      expect(asks({ liquid: 'bleach', volumeMl })).toMatchObject(['warning', { id: 'spill-open', volumeMl }]);
  });
  it('a spill told in pieces is one; the next after it is another', () => {
    const user = atDeveloper();
    user.say({ type: 'spill', liquid: 'bleach', place: 'the floor' });
    expect(heard(user.say({ type: 'spill', volumeMl: 20 }))).toEqual([
      [
        'warning',
        { id: 'spill-open', bath: named('bleach'), volumeMl: 20, place: 'the floor', cautions: [] },
      ],
    ]);
    expect(user.facts('spilled')).toEqual([
      {
        type: 'spilled',
        runId: running(user),
        from: bottle(4),
        liquid: 'bleach',
        volumeMl: 20,
        place: 'the floor',
      },
    ]);
    const other = heard(user.say({ type: 'spill', liquid: 'stop' }));
    expect(other).toMatchObject([['warning', { id: 'spill-ask', missing: 'volume' }]]);
    expect(user.context.spill).toEqual({ liquid: 'stop', volumeMl: null, place: null });
    expect(heard(user.say({ type: 'spill-cleaned' }))).toEqual([
      ['answer', { id: 'spill-cleaned', spills: [{ bath: named('bleach'), place: 'the floor' }] }],
    ]);
    expect(last(user, 'spilled')).toEqual({
      type: 'spilled',
      runId: running(user),
      liquid: 'stop',
      volumeMl: 0,
    });
    expect(heard(user.say({ type: 'spill-cleaned' }))).toEqual([
      ['answer', { id: 'spill-cleaned', spills: [] }],
    ]);
    expect(heard(user.say({ type: 'spill-cleaned' }))).toEqual([['answer', { id: 'no-spill', never: null }]]);
    const place = atDeveloper();
    place.say({ type: 'spill', place: 'the floor', volumeMl: 9 });
    place.say({ type: 'spill-cleaned' });
    expect(last(place, 'spilled')).toEqual({
      type: 'spilled',
      runId: running(place),
      liquid: 'unknown',
      volumeMl: 9,
      place: 'the floor',
    });
    const known1 = atDeveloper();
    known1.say({ type: 'spill', liquid: 'stop', volumeMl: 9 });
    known1.say({ type: 'spill-cleaned' });
    expect(known1.facts('spilled')).toHaveLength(1);
  });
  it('a spill is out of the one vessel that has it, or has so much of it', () => {
    const from = (user: BenchUser, liquid: string, volumeMl: number) => {
      user.say({ type: 'spill', liquid, volumeMl });
      return last(user, 'spilled')?.from;
    };
    expect(from(atDeveloper(), 'bleach', 900)).toEqual(bottle(4));
    const developing = () => withDeveloper();
    expect(from(developing(), 'developer', 50)).toBeUndefined();
    expect(from(developing(), 'developer', 400)).toEqual(tank);
    const emptied = developing();
    expect(from(emptied, 'developer', 500)).toBeUndefined();
    expect(emptied.world.tank).toMatchObject({ volumeMl: 0, bath: null });
    expect(emptied.world.film.history.at(-1)).toMatchObject({ liquid: 'developer' });
    expect(from(developing(), 'developer', 900)).toBeUndefined();
    const jugged = developing();
    jugged.wait(178);
    jugged.say(out);
    expect(from(jugged, 'developer', 400)).toEqual(jug);
    expect(from(atDeveloper(), 'water', 40)).toBeUndefined();
    const empty = atDeveloper();
    empty.say({ type: 'bottle-empty', bottle: 4 });
    expect(from(empty, 'bleach', 40)).toBeUndefined();
  });
  it('cautions: of the day, of a bath, of what nobody knows', () => {
    const user = atDeveloper();
    const ask = (substance?: string) =>
      heard(user.say({ type: 'ask-cautions', ...(substance && { substance }) }))[0]?.[1];
    expect(ask()).toEqual({
      id: 'cautions',
      about: null,
      cautions: [
        'gloves',
        'eyes',
        'ventilation',
        'acid-ferricyanide',
        'acid-apart',
        'data-sheet',
        'local-codes',
        'help',
      ],
    });
    expect(ask('toner')).toEqual({
      id: 'cautions',
      about: 'toner',
      cautions: ['gloves', 'eyes', 'ventilation', 'data-sheet', 'local-codes', 'help'],
    });
    expect(ask('Developer')).toMatchObject({
      about: 'developer',
      cautions: expect.arrayContaining(['data-sheet', 'local-codes', 'help']),
    });
    expect(ask('stop bath')).toMatchObject({ about: 'stop bath' });
  });
});

describe('the calls, in full', () => {
  it('say how, what next, how much over, and what is missing', () => {
    const user = withDeveloper();
    const said = user.wait(230);
    const of = (id: string) => said.find((s) => s.message.id === id)?.message;
    expect(of('agitate')).toEqual({ id: 'agitate', turns: 2, style: 'inversion' });
    expect(of('drain')).toEqual({
      id: 'drain',
      bath: named('developer'),
      outlet: toBottle(2, true),
      next: named('stop'),
    });
    expect(of('pour-next')).toEqual({ id: 'pour-next', bath: named('stop'), bottle: 3 });
    expect(said.filter((s) => s.message.id === 'overdue').map((s) => s.message)).toEqual([
      { id: 'overdue', bath: named('developer'), overS: 15, effect: expect.closeTo(195 / 180 - 1, 9) },
      { id: 'overdue', bath: named('developer'), overS: 45, effect: expect.closeTo(225 / 180 - 1, 9) },
    ]);
    expect(said.every((s) => s.kind === 'call')).toBe(true);
    const bleach = atBleach();
    bleach.say(isIn('bleach'));
    expect(bleach.wait(200).find((s) => s.message.id === 'overdue')?.message).toEqual({
      id: 'overdue',
      bath: named('bleach'),
      overS: 15,
      effect: null,
    });
  });
  it('a cleared pour is asked after, and a return', () => {
    const user = atDeveloper();
    user.say(into('developer', 2));
    expect(user.wait(170).map((s) => s.message)).toEqual([
      { id: 'in-asked', bath: named('developer'), again: false },
      { id: 'in-asked', bath: named('developer'), again: true },
    ]);
    const home = withDeveloper();
    home.wait(178);
    home.say(back('developer', 2));
    expect(
      home
        .wait(101)
        .filter((s) => s.message.id === 'empty-asked')
        .map((s) => s.message),
    ).toEqual(Array(2).fill({ id: 'empty-asked' }));
  });
  it('a bath that began to drain early has the next called for as much sooner', () => {
    const user = withDeveloper();
    const t0 = user.atMs;
    user.wait(160);
    user.say({ type: 'drain-now' });
    const next = user.wait(30).find((s) => s.message.id === 'pour-next');
    expect(next?.dueMs).toBe(t0 + 175_000);
  });
  it('of what had to get out, whether it is out is asked, where nothing goes in behind it', () => {
    const user = atDeveloper();
    user.say({ type: 'bath-in', liquid: 'fixer' });
    user.wait(20);
    user.say({ type: 'drain-now' });
    expect(user.wait(30).map((s) => s.message)).toContainEqual({ id: 'empty-asked' });
  });
  it('a wake is asked for when it changes, and only then', () => {
    const user = withDeveloper();
    const effects = (intent: Intent): string[] => {
      const before = user.effects.length;
      user.say(intent);
      return user.effects.slice(before).flatMap((e) => (e.type === 'wake' ? [`wake ${e.atMs}`] : []));
    };
    expect(effects({ type: 'note', text: 'x' })).toEqual([]);
    user.wait(160);
    const t0 = user.atMs - 160_000;
    expect(effects({ type: 'add-time', seconds: 5 })).toEqual([`wake ${t0 + 170_000}`]);
    expect(user.state.wakeMs).toBe(t0 + 170_000);
  });
  it('situations open with the question, then the place, then a spill', () => {
    const user = atDeveloper();
    user.say(into('bleach', 4));
    user.say({ type: 'spill', volumeMl: 4 });
    expect(user.desk.situations(user.state)).toEqual(['challenged', 'pouring', 'spill', 'anytime']);
    expect(user.desk.situations(new BenchUser().state)).toEqual(['preparing', 'anytime']);
  });
  it('what is done by the user can be taken back; what is only asked is not a deed', () => {
    const did = (user: BenchUser, intent: Intent): boolean => {
      const before = user.effects.length;
      user.say(intent);
      return user.effects.slice(before).some((e) => e.type === 'did');
    };
    expect(did(new BenchUser(), { type: 'begin-run' })).toBe(true);
    expect(did(atDeveloper(), into('developer', 2))).toBe(true);
    expect(did(atDeveloper(), into('bleach', 4))).toBe(false);
    expect(did(atDeveloper(), isIn('developer'))).toBe(true);
    const user = withDeveloper();
    expect(did(user, { type: 'ask-time-left' })).toBe(false);
    expect(did(user, { type: 'add-time', seconds: 30 })).toBe(true);
    user.wait(200);
    expect(did(user, { type: 'drain-now' })).toBe(true);
    expect(did(user, out)).toBe(true);
    expect(did(user, { type: 'spill', volumeMl: 5 })).toBe(true);
    expect(did(user, { type: 'spill-cleaned' })).toBe(true);
    expect(did(user, { type: 'poured', liquid: 'developer', to: bottle(2) })).toBe(true);
    user.say(into('stop', 3));
    expect(did(user, wait)).toBe(true);
    user.say(into('stop', 3));
    expect(did(user, no)).toBe(true);
    const begun = new BenchUser();
    begun.say({ type: 'begin-run' });
    expect(did(begun, next)).toBe(true);
    const poured = withDeveloper();
    poured.wait(178);
    expect(did(poured, { type: 'poured', to: bottle(2) })).toBe(true);
    const rinsed = new BenchUser().ready('ecn2-ferricyanide-home');
    rinsed.water(60);
    rinsed.bath('prebath', 1, 60).water(30).bath('developer', 2, 178).bath('stop', 3, 30);
    expect(did(rinsed, next)).toBe(true);
  });
});
