import { describe, expect, it } from 'vitest';
import { digitsAt, shareLeft } from '../../src/screen/time.js';
import type { TimedAct } from '../../src/screen/view.js';
import { inDeveloper, RunOnClock } from './run-on-clock.js';

/** Which act a call is about, by its first word. */
const actOf: Readonly<Record<string, TimedAct['kind']>> = {
  Rest: 'rest',
  Agitate: 'agitate',
  Drain: 'drain',
};

describe('the view that all screens read', () => {
  it('foresees every call of a whole bath at the very millisecond the machine makes it', () => {
    const run = inDeveloper(0);
    const foreseen = run.view().acts;
    const made: { kind: TimedAct['kind']; atMs: number }[] = [];
    run.onReply = ({ kind, text, atMs }) => {
      const act = actOf[text.split(/[ .:]/)[0] ?? ''];
      if (kind === 'call' && act) made.push({ kind: act, atMs });
    };
    run.pass(170);
    const asCalls = foreseen
      .filter((a) => a.kind !== 'pour')
      .map(({ kind, dueMs }) => ({ kind, atMs: dueMs }));
    expect(made.length).toBeGreaterThan(8);
    expect(asCalls).toEqual(made);
  });

  it('counts down to the next act, whatever it is, and shows how much of the bath is left', () => {
    const run = inDeveloper(100);
    const view = run.view();
    expect(view.bath?.name).toBe('developer');
    expect(view.act).toEqual({ words: '2 inversions', dueMs: view.acts[0]?.dueMs });
    expect(digitsAt(view, run.clock.nowMs()).text).toBe('0:05');
    expect(shareLeft(view, run.clock.nowMs())).toBeCloseTo(80 / 180, 6);
    expect(view.motion).toBe('rest');
    expect(view.next).toEqual({ bath: 'stop bath', bottle: 3, aimC: 38 });
    const drain = view.acts.find((a) => a.kind === 'drain');
    expect(drain && drain.dueMs - run.clock.nowMs()).toBe(65_000);
  });

  it('goes on counting while the person is held up: the chemistry does not wait', () => {
    const run = inDeveloper(62).say('hold the clock');
    const before = digitsAt(run.view(), run.clock.nowMs()).text;
    run.pass(1);
    expect(digitsAt(run.view(), run.clock.nowMs()).text).not.toBe(before);
    expect(run.view().bath?.stoppedMs).toBeNull();
  });

  it('counts up in water without a clock', () => {
    const run = new RunOnClock()
      .say('begin the run', 'next step', 'next step', 'film is loaded', 'prebath is in')
      .pass(10)
      .say('tank is empty', 'water is in')
      .pass(25);
    expect(digitsAt(run.view(), run.clock.nowMs())).toMatchObject({ text: '0:25', sense: 'since' });
    expect(shareLeft(run.view(), run.clock.nowMs())).toBeNull();
  });

  it('gives no figure for a bath that nobody read, and says how each one is known', () => {
    const run = new RunOnClock().say('begin the run', 'next step', 'developer is 40.6');
    const vessel = (n: number) => run.view().vessels.find((v) => v.key === `bottle-${n}`);
    expect(vessel(4)).toMatchObject({ holds: 'bleach', holdsKnown: 'assumed', fit: 'unknown' });
    expect(vessel(4)?.temp).toEqual({ known: 'unknown', tempC: null, lowC: null, highC: null, readMs: null });
    expect(vessel(2)?.temp).toMatchObject({ known: 'told', tempC: 40.6 });
    expect(vessel(2)?.fit).toBe('too-cold');
    run.seen = { ...run.seen, readBy: { 'bottle-2': 'measured' } };
    expect(vessel(2)?.temp.known).toBe('measured');
    run.pass(90);
    const later = vessel(2)?.temp;
    expect(later?.known).toBe('reckoned');
    expect(later && later.lowC !== null && later.tempC !== null && later.lowC < later.tempC).toBe(true);
    run.say('bottle 4 holds 700 millilitres of bleach');
    expect(vessel(4)?.holdsKnown).toBe('told');
  });

  it('shows a refused pour until it is answered, and offers no way past the guard but words', () => {
    const run = new RunOnClock().say('begin the run', 'next step', 'next step', 'film is loaded');
    const before = run.view();
    run.say('pouring the bleach in from bottle four');
    const refused = run.view();
    expect(refused.open).toMatchObject({ kind: 'warning' });
    expect(refused.open?.text).toContain('Bleach before the developer destroys the picture');
    expect(refused.moment).not.toBe(before.moment);
    expect(refused.offers.map((o) => o.words)).toEqual(['cancel']);
    run.say('cancel');
    expect(run.view().open).toBeNull();
  });

  it('offers only sentences that are understood, each step of a whole run, and they lead to its end', () => {
    const run = new RunOnClock().say('begin the run');
    const places = new Set<string>();
    for (let i = 0; i < 90 && run.view().place !== 'closed'; i++) {
      const view = run.view();
      places.add(view.place);
      const chosen = view.offers[0];
      if (!chosen) throw new Error(`nothing to press in ${view.place}`);
      for (const { words } of view.offers) {
        expect(run.bench.language.typed(words, run.conversation.situations()).kind, words).toBe('understood');
      }
      if (view.place === 'immersed') {
        const drain = view.acts.find((a) => a.kind === 'drain');
        run.pass(drain ? Math.max(0, (drain.dueMs - run.clock.nowMs()) / 1000) : 40);
        if (run.view().place === 'immersed') run.say(drain ? chosen.words : 'tank is empty');
      } else run.say(chosen.words);
      // a question is answered with yes, as a person would who did what it asks
      if (run.view().open?.kind === 'question') run.say('confirm');
    }
    expect(run.view().place).toBe('closed');
    for (const place of ['preparing', 'warming', 'loading', 'pouring', 'immersed', 'draining', 'hanging'])
      expect(places).toContain(place);
  });
});
