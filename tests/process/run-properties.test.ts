import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { phraseRun } from '../../src/language/languages/english/phrases/run.js';
import { imbalanceMl } from '../../src/ledger/state.js';
import type { SpokenMove } from '../../src/process/message.js';
import type { World } from '../../src/world/records.js';
import { filmNow } from '../../src/world/reduce.js';
import { anyPath } from './any-intent.js';
import { BenchUser } from './bench-user.js';
import { truthOf } from './truth.js';

/** The ruinous moves, written down a second time and independently of the guard's tables. */
function ruinous(move: SpokenMove, world: World, atMs: number): boolean {
  const film = filmNow(world, atMs);
  const liquid = move.bath.id;
  if (move.to.kind === 'tank') {
    const toppingUp = world.tank.bath?.liquid === liquid;
    if (film.loaded && film.image === 'latent' && (liquid === 'bleach' || liquid === 'fixer')) return true;
    if (film.loaded && film.image === 'developed' && film.halide && liquid === 'developer' && !toppingUp)
      return !film.finished;
    const forbidden = ['developer>bleach', 'bleach>developer', 'bleach>stop', 'fixer>developer'];
    return forbidden.includes(`${film.carry ?? 'nothing'}>${liquid}`);
  }
  if (move.to.kind !== 'bottle') return false;
  const bottle = world.bottles[move.to.number];
  if (!bottle || bottle.contents.volumeMl <= 0 || bottle.liquid === liquid || bottle.liquid === 'water')
    return false;
  return true;
}

describe('on any path of intents', () => {
  it('no ruinous move is cleared without an override, and every override is a fact', () => {
    let cleared = 0;
    let overrides = 0;
    fc.assert(
      fc.property(anyPath, (moments) => {
        const user = new BenchUser().ready();
        for (const [seconds, intent, heard] of moments) {
          user.wait(seconds);
          const before = user.world;
          const factsBefore = user.facts('overridden').length;
          for (const { message } of user.say(intent, heard)) {
            if (message.id !== 'clear' && message.id !== 'overridden') continue;
            cleared++;
            // a confirmed "the tank is empty" or a new reading comes before the pour is judged: judge on both states
            const bad = [before, user.world].every((world) => ruinous(message.move, world, user.atMs));
            if (!bad) continue;
            overrides++;
            expect(intent.type).toBe('override');
            expect(message.id).toBe('overridden');
            expect(user.facts('overridden').length).toBe(factsBefore + 1);
          }
        }
      }),
      { numRuns: 120 },
    );
    expect(cleared).toBeGreaterThan(300);
    expect(overrides).toBeGreaterThan(30);
  });

  it('a badly heard pour is never cleared in the same breath', () => {
    fc.assert(
      fc.property(anyPath, (moments) => {
        const user = new BenchUser().ready();
        for (const [seconds, intent] of moments) {
          user.wait(seconds);
          const said = user.say(intent, { by: 'voice', confidence: 0.4 });
          if (intent.type.startsWith('pour'))
            for (const { message } of said) expect(['clear', 'overridden']).not.toContain(message.id);
        }
      }),
      { numRuns: 30 },
    );
  });

  it('replaying the events gives the same state and effects, also through JSON', () => {
    fc.assert(
      fc.property(anyPath, fc.nat(60), (moments, cut) => {
        const user = new BenchUser().ready('ecn2-ferricyanide-home');
        for (const [seconds, intent, heard] of moments) {
          user.wait(seconds);
          user.say(intent, heard);
        }
        let state = user.desk.initial;
        let truth = truthOf();
        const effects: unknown[] = [];
        user.events.forEach((event, i) => {
          // a power cut anywhere: the state is read back from disk
          if (i === cut) {
            state = JSON.parse(JSON.stringify(state));
            truth = truthOf(JSON.parse(JSON.stringify(truth.world)));
          }
          const next = user.desk.apply(state, JSON.parse(JSON.stringify(event)), truth.at(event));
          state = next.state;
          effects.push(...next.effects);
        });
        expect(JSON.stringify(state)).toBe(JSON.stringify(user.state));
        expect(state).toEqual(user.state);
        expect(truth.world).toEqual(user.world);
        expect(JSON.stringify(effects)).toBe(JSON.stringify(user.effects));
      }),
      { numRuns: 40 },
    );
  });

  it('every answer has words, and every intent is answered', () => {
    fc.assert(
      fc.property(anyPath, (moments) => {
        const user = new BenchUser().ready();
        for (const [seconds, intent, heard] of moments) {
          for (const { message } of user.wait(seconds)) expect(phraseRun(message)).not.toBe('');
          const said = user.say(intent, heard);
          expect(said.length, JSON.stringify(intent)).toBeGreaterThan(0);
          for (const { message } of said) {
            const words = phraseRun(message);
            expect(words.length, words).toBeGreaterThan(3);
            expect(words).not.toMatch(/undefined|null|NaN|\[object|Infinity/);
            expect(words).not.toMatch(/ {2}|\.\./);
          }
        }
      }),
      { numRuns: 50 },
    );
  });

  it('no vessel goes below nothing, and a volume is never lost between vessels', () => {
    fc.assert(
      fc.property(anyPath, (moments) => {
        const user = new BenchUser().ready();
        for (const [seconds, intent, heard] of moments) {
          user.wait(seconds);
          user.say(intent, heard);
          const { world } = user;
          for (const { contents, capacityMl, capacityTold } of Object.values(world.bottles)) {
            expect(contents.volumeMl).toBeGreaterThanOrEqual(0);
            // what was only taken for granted gives way to what was poured
            if (capacityTold) expect(capacityMl).toBeGreaterThanOrEqual(contents.volumeMl);
          }
          for (const jug of Object.values(world.jugs)) expect(jug.volumeMl).toBeGreaterThan(0);
          expect(Math.abs(imbalanceMl(world))).toBeLessThan(1e-6);
        }
      }),
      { numRuns: 30 },
    );
  });
});
