import { describe, expect, it } from 'vitest';
import { doubtReading } from '../../src/thermal/bench/doubt.js';
import { takeReading } from '../../src/thermal/bench/estimate.js';
import { openBench, putVessel } from '../../src/thermal/bench/setup.js';

const minute = 60_000;
function bench() {
  let b = openBench({ setC: 41.3, setPointSeen: true, heaterOn: true, waterC: { value: 40, sd: 1 } }, 0);
  for (const [key, tempC] of [
    ['fixer', 35],
    ['bleach', 24],
    ['developer', 39],
  ] as const) {
    b = putVessel(b, { key, placement: 'tub', volumeMl: 1000, material: 'plastic' }, 0);
    b = takeReading(b, { key, tempC, atMs: 0, sdC: 0.2 });
  }
  return takeReading(b, { key: 'tub', tempC: 40.5, atMs: 0, sdC: 0.2 });
}
const doubt = (key: string, tempC: number, atMs = minute) => doubtReading(bench(), key, tempC, atMs, 0.2);

describe('odd readings', () => {
  it('410: a lost decimal point', () => {
    expect(doubt('fixer', 410)).toEqual({ why: 'impossible', meantC: 41 });
    expect(doubt('fixer', 364)).toEqual({ why: 'impossible', meantC: 36.4 });
  });
  it('minus three, and what is no number', () => {
    expect(doubt('fixer', -3)).toEqual({ why: 'impossible', meantC: null });
    expect(doubt('fixer', Number.NaN)).toEqual({ why: 'impossible', meantC: null });
    expect(doubt('fixer', 700)).toEqual({ why: 'impossible', meantC: null });
  });
  it('the other scale', () => {
    const d = doubt('fixer', 96);
    expect(d?.why).toBe('fahrenheit');
    if (d?.why === 'fahrenheit') expect(d.meantC).toBeCloseTo(35.6, 1);
    expect(doubt('developer', 106)?.why).toBe('fahrenheit');
  });
  it('forty one for the room', () => {
    expect(doubt('room', 41)).toMatchObject({ why: 'not-a-room', fits: 'tub' });
    expect(doubt('room', 21)).toBeNull();
  });
  it('a swapped vessel', () => {
    expect(doubt('fixer', 25.1)).toMatchObject({ why: 'other-vessel', fits: 'bleach' });
    expect(doubt('fixer', 29)).toMatchObject({ why: 'unexpected' });
  });
  it('takes what fits, what is near, and a first reading of a bottle nobody read', () => {
    expect(doubt('fixer', 35.6)).toBeNull();
    expect(doubt('fixer', 34.4)).toBeNull();
    const b = putVessel(bench(), { key: 'stop', placement: 'tub', volumeMl: 600, material: 'glass' }, minute);
    for (const t of [12, 20, 30, 38]) expect(doubtReading(b, 'stop', t, minute, 0.2)).toBeNull();
  });
  it('lets people add hot or cold water to the tub', () => {
    expect(doubt('tub', 38)).toBeNull();
    expect(doubt('tub', 30)).not.toBeNull();
  });
  it('a vessel that is not on the bench is only held to what is possible', () => {
    expect(doubt('jug', 12)).toBeNull();
    expect(doubt('jug', 410)).not.toBeNull();
  });
});
