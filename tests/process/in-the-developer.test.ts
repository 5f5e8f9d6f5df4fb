import { describe, expect, it } from 'vitest';
import type { ProcessSheet } from '../../src/process/sheet.js';
import { atAimS } from '../../src/process/temperature.js';
import { atDeveloper, back, heard, into, isIn, last, named, out, withDeveloper } from './at-the-sink.js';
import type { BenchUser } from './bench-user.js';
import { sheet } from './sink.js';

const inTank = (user: BenchUser, tempC: number) =>
  user.fact({ type: 'temperature', vessel: { kind: 'tank' }, liquid: 'developer', tempC });
const withStep = (change: (step: ProcessSheet['steps'][number]) => object): ProcessSheet => ({
  ...sheet,
  id: 'other',
  steps: sheet.steps.map((s) => (s.id === 'developer' ? { ...s, ...change(s) } : s)),
});

describe('seconds at the aim', () => {
  it('follow straight lines between readings, the one at the very end with them', () => {
    const falling = atAimS(
      'ecn-2',
      41.1,
      [
        { tempC: 41.1, atMs: 0 },
        { tempC: 31.1, atMs: 100_000 },
      ],
      0,
      100_000,
    );
    // 2.5 times slower at the end than at the beginning
    expect(falling).toBeCloseTo((100 * (1 + 1 / 2.5)) / 2, 6);
    expect(atAimS('ecn-2', 41.1, [{ tempC: 41.1, atMs: 0 }], 0, 100_000)).toBeCloseTo(100, 6);
  });
  it('are the seconds themselves without a law or a reading, and none before the bath was in', () => {
    const read = [{ tempC: 31.1, atMs: 0 }];
    for (const [rate, readings] of [
      [undefined, read],
      ['ecn-2', []],
    ] as const) {
      expect(atAimS(rate, 41.1, readings, 0, 100_000)).toBe(100);
      expect(atAimS(rate, 41.1, readings, 0, -5_000)).toBe(0);
    }
  });
});

describe('developer in the tank', () => {
  it('off its temperature: said with what it does and what would make up for it, and written down', () => {
    const user = withDeveloper();
    user.wait(30);
    const [[tone, message] = []] = heard(inTank(user, 38.1));
    expect(tone).toBe('warning');
    expect(message).toMatchObject({ id: 'tank-off', offC: expect.closeTo(-3, 6), colour: true });
    const { effect, changeS } = message as { effect: number; changeS: number };
    // three degrees: a speed of 2.5 to the power of -0.3, for all but the first half minute
    expect(effect).toBeGreaterThan(-0.25);
    expect(effect).toBeLessThan(-0.15);
    expect(changeS).toBeGreaterThan(30);
    expect(last(user, 'deviation')).toMatchObject({ what: 'temperature in the tank: 38.1 °C, aim 41.1 °C' });
    const right = withDeveloper();
    right.wait(30);
    expect(heard(inTank(right, 41.1))).toEqual([]);
    expect(last(right, 'deviation')).toBeUndefined();
  });
  it('offers the time that makes up for it, where nothing else is asked and a twentieth is at stake', () => {
    const asked = (user: BenchUser) => user.context.pending?.kind ?? null;
    const cold = withDeveloper();
    cold.wait(30);
    inTank(cold, 38.1);
    expect(asked(cold)).toBe('change-time');
    const [, said] = heard(cold.say({ type: 'confirm' }))[0] ?? [];
    expect(said).toMatchObject({ id: 'time-added' });
    expect((said as { seconds: number }).seconds).toBeGreaterThan(30);
    const busy = withDeveloper();
    busy.wait(30);
    busy.say({ type: 'drain-now' });
    expect(heard(inTank(busy, 38.1))).toMatchObject([['warning', { id: 'tank-off' }]]);
    expect(asked(busy)).toBe('drain-early');
    const longer = (seconds: number) => {
      const user = withDeveloper();
      user.say({ type: 'add-time', seconds });
      return heard(inTank(user, 41.1));
    };
    // of 180 s
    expect(longer(9)).toEqual([]);
    expect(longer(10)).toMatchObject([['warning', { id: 'tank-off', changeS: -10 }]]);
  });
  it('is written with how long hands took, be it half a second', () => {
    const user = atDeveloper();
    user.say(into('developer', 2));
    user.wait(0.5);
    user.say(isIn('developer'));
    expect(last(user, 'poured')).toMatchObject({ tookS: 0.5 });
    user.wait(170);
    user.say(back('developer', 2));
    user.wait(0.5);
    user.say(out);
    expect(last(user, 'poured')).toMatchObject({ tookS: 0.5 });
  });
  it('without a temperature of the sheet counts as long as it is in', () => {
    const untempered = withStep(() => ({ temp: null }));
    const user = withDeveloper({ sheets: [untempered] });
    user.wait(172);
    user.say(back('developer', 2));
    user.wait(4);
    user.say(out);
    expect(last(user, 'poured')).toMatchObject({ effectiveS: 176, tookS: 4 });
    expect(user.world.film.developedS).toBe(176);
  });
  it('is not given another time by a sheet that has none for it, or no temperature', () => {
    for (const change of [{ temp: null }, { time: null }]) {
      const user = withDeveloper({ sheets: [withStep(() => change)] });
      expect(heard(user.say({ type: 'ask-time-at', tempC: 39 }))).toEqual([
        ['question', { id: 'time-at-what' }],
      ]);
    }
    expect(heard(withDeveloper().say({ type: 'ask-time-at', tempC: 39 }))).toMatchObject([
      ['answer', { id: 'time-at', bath: named('developer') }],
    ]);
  });
});

describe('a bottle that is told to hold', () => {
  it('what stood in a jug has that back, and so much more or less as was told', () => {
    const user = withDeveloper();
    user.wait(180);
    user.say(out);
    expect(user.world.jugs.developer?.volumeMl).toBe(500);
    user.say({ type: 'bottle-holds', bottle: 2, liquid: 'developer', volumeMl: 650 });
    expect(user.world.jugs.developer).toBeUndefined();
    expect(user.world.bottles[2]?.contents.volumeMl).toBe(650);
  });
});
