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

  it('holds shift what is still to come by exactly their length', () => {
    const hold = fc.tuple(fc.integer({ min: 1, max: 60_000 }), fc.integer({ min: 1, max: 120_000 }));
    const plain = inDeveloper();
    const wanted = calls(plain.wait(200));
    fc.assert(
      fc.property(fc.array(hold, { maxLength: 4 }), (holds) => {
        const user = inDeveloper();
        const t0 = user.atMs;
        const got: (readonly [string, number])[] = [];
        const shifts: { fromClockMs: number; byMs: number }[] = [];
        let clockMs = 0;
        for (const [runMs, heldMs] of holds) {
          if (clockMs + runMs >= 165_000) break;
          clockMs += runMs;
          got.push(...calls(user.wait(runMs / 1000)));
          user.say({ type: 'hold-clock' });
          expect(user.wait(heldMs / 1000)).toEqual([]);
          user.say({ type: 'resume-clock' });
          shifts.push({ fromClockMs: clockMs, byMs: heldMs });
        }
        got.push(...calls(user.wait(200)));
        const shifted = wanted.map(([id, ms]) => {
          const passed = shifts.filter((s) => s.fromClockMs < ms - t0);
          return [id, ms + passed.reduce((sum, s) => sum + s.byMs, 0)] as const;
        });
        expect(got).toEqual(shifted);
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

describe('undo', () => {
  it('a drain said too early is taken back and the clock has lost nothing', () => {
    const user = inDeveloper();
    const t0 = user.atMs;
    user.wait(100);
    user.say({ type: 'drain-now' });
    user.say({ type: 'confirm' });
    user.wait(5);
    expect(ids(user.say({ type: 'undo' }))).toEqual(['undone']);
    const due = calls(user.wait(100)).map(([id, ms]) => [id, (ms - t0) / 1000]);
    expect(due.slice(0, 2)).toEqual([
      ['agitate', 120],
      ['agitate', 135],
    ]);
    expect(due).toContainEqual(['drain', 165]);
  });

  it('brings back exactly the state before, deed by deed, and names the facts it takes back', () => {
    const user = new BenchUser().ready();
    const trail = [JSON.stringify(user.state.core)];
    const deeds = [
      { type: 'pour-in', liquid: 'prebath', from: bottle(1) },
      { type: 'bath-in', liquid: 'prebath' },
      { type: 'drain-now' },
      { type: 'pour-back', liquid: 'prebath', to: bottle(1) },
      { type: 'tank-empty' },
      { type: 'bottle-holds', bottle: 7, liquid: 'fixer' },
      { type: 'spill', liquid: 'fixer', volumeMl: 20 },
      { type: 'note', text: 'tape on the reel' },
    ] as const;
    for (const deed of deeds) {
      user.say(deed);
      if (deed.type === 'drain-now') user.say({ type: 'confirm' });
      trail.push(JSON.stringify(user.state.core));
    }
    for (const before of trail.slice(0, -1).reverse()) {
      user.say({ type: 'undo' });
      expect(JSON.parse(JSON.stringify(user.state.core))).toEqual(JSON.parse(before));
    }
    const undone = user.facts('undone').flatMap((u) => u.facts.map((f) => f.type));
    expect(undone).toContain('poured');
    expect(undone).toContain('step-started');
    expect(undone).toContain('step-ended');
    expect(undone).toContain('spilled');
    expect(undone).toContain('note');
    expect(undone).not.toContain('undone');
  });

  it('a film thought lost through a misheard bath is safe again', () => {
    const user = new BenchUser().ready();
    user.say({ type: 'bath-in', liquid: 'bleach' });
    user.wait(10);
    user.say({ type: 'tank-empty' });
    expect(user.state.core.film.image).toBe('lost');
    user.say({ type: 'undo' });
    user.say({ type: 'undo' });
    expect(user.state.core.film.image).toBe('latent');
    expect(user.state.core.bench.bottles['4']?.volumeMl).toBe(600);
  });
});
