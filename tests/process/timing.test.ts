import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { BenchUser, bottle, ids, type Said } from './bench-user.js';

const calls = (said: Said[]) =>
  said.filter((s) => s.kind === 'call').map((s) => [s.message.id, s.dueMs] as const);

/** Developer in, at the moment returned; the backing is off. */
function inDeveloper(config = {}): BenchUser {
  const user = new BenchUser(config).ready();
  user.bath('prebath', 1, 10).water(40);
  user.say({ type: 'pour-in', liquid: 'developer', from: bottle(2) });
  user.say({ type: 'bath-in', liquid: 'developer' });
  return user;
}

describe('calls come at absolute times', () => {
  it('a developer bath of 3:00 with 15 s of draining', () => {
    const user = inDeveloper();
    const t0 = user.atMs;
    const due = calls(user.wait(200)).map(([id, ms]) => [id, (ms - t0) / 1000]);
    expect(due).toEqual([
      ['rest', 15],
      ...[30, 45, 60, 75, 90, 105, 120, 135, 150].map((s) => ['agitate', s]),
      ['ten-seconds', 155],
      ['drain', 165],
      ['pour-next', 180],
      ['overdue', 195],
    ]);
  });

  it('each call is woken for at its due time, to the millisecond, however odd the start', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 999_999 }), (oddMs) => {
        const user = new BenchUser();
        user.atMs = oddMs;
        user.ready().bath('prebath', 1, 10).water(40);
        user.say({ type: 'bath-in', liquid: 'developer' });
        for (const s of user.wait(200)) expect(s.atMs).toBe(s.dueMs);
      }),
      { numRuns: 12 },
    );
  });

  it('late, early and bunched ticks change no due time and no order', () => {
    const exact = inDeveloper();
    const start = exact.atMs;
    const wanted = calls(exact.wait(200));
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 90_000 }), { minLength: 1, maxLength: 60 }), (gaps) => {
        const user = inDeveloper();
        const got: (readonly [string, number])[] = [];
        let at = start;
        for (const gap of [...gaps, 200_000]) {
          at = Math.min(at + gap, start + 200_000);
          got.push(...calls(user.give({ type: 'time', atMs: at, wallMs: user.wallMs + at })));
        }
        expect(got).toEqual(wanted);
      }),
      { numRuns: 30 },
    );
  });

  it('being held up stops no clock: it is said and noted, and every call comes when it would have', () => {
    const wanted = calls(inDeveloper().wait(200));
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 60_000 }), { maxLength: 4 }), (gaps) => {
        const user = inDeveloper();
        const t0 = user.atMs;
        let held = 0;
        const got: (readonly [string, number])[] = [];
        for (const [i, gapMs] of gaps.entries()) {
          if (user.atMs - t0 + gapMs >= 165_000) break;
          got.push(...calls(user.wait(gapMs / 1000)));
          const said = user.say({ type: i % 2 === 0 ? 'hold-clock' : 'resume-clock' });
          held += Number(i % 2 === 0);
          const leftS = 180 - (user.atMs - t0) / 1000;
          expect(said[0]?.message).toMatchObject({ id: i % 2 === 0 ? 'held-up' : 'clock-runs' });
          expect(said[0]?.message).toMatchObject({ leftS: expect.closeTo(leftS, 6) });
        }
        expect(user.facts('note')).toHaveLength(held);
        got.push(...calls(user.wait(200 - (user.atMs - t0) / 1000)));
        expect(got).toEqual(wanted);
      }),
      { numRuns: 30 },
    );
  });

  it('added time moves the drain call and brings the agitations between', () => {
    const user = inDeveloper();
    const t0 = user.atMs;
    user.wait(158);
    user.say({ type: 'add-time', seconds: 45 });
    const due = calls(user.wait(80)).map(([id, ms]) => [id, (ms - t0) / 1000]);
    expect(due).toEqual([
      ['agitate', 165],
      ['agitate', 180],
      ['agitate', 195],
      ['ten-seconds', 200],
      ['drain', 210],
      ['pour-next', 225],
    ]);
  });

  it('an event first meets every deadline before it', () => {
    const user = inDeveloper();
    user.atMs += 170_000;
    expect(ids(user.say({ type: 'ask-time-left' })).slice(-4)).toEqual([
      'agitate',
      'ten-seconds',
      'drain',
      'time-left',
    ]);
  });
});
