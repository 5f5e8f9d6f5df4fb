import { describe, expect, it } from 'vitest';
import {
  advance,
  type BenchEstimate,
  parameterOf,
  takeReading,
  temperatureAt,
} from '../../src/thermal/bench/estimate.js';
import { curveOf, forecast, readiness } from '../../src/thermal/bench/forecast.js';
import { holdC, logRateOf } from '../../src/thermal/bench/model.js';
import { nextReading } from '../../src/thermal/bench/next-reading.js';
import {
  changeVolume,
  moveVessel,
  openBench,
  putVessel,
  removeVessel,
  setTub,
  switchHeater,
} from '../../src/thermal/bench/setup.js';
import { priorTauS } from '../../src/thermal/bottle.js';
import { newtonTempC } from '../../src/thermal/newton.js';
import { aimWithin } from './aims.js';

const minute = 60_000;
const tub = { setC: 41.3, setPointSeen: true, heaterOn: true, waterMl: 10_000, heaterW: 1000 };

function warmBench(startC = 22): BenchEstimate {
  let b = openBench({ ...tub, waterC: { value: 41.3, sd: 0.2 } }, 0);
  b = putVessel(b, { key: 'bottle-1', placement: 'tub', volumeMl: 1000, material: 'glass' }, 0);
  return takeReading(b, { key: 'bottle-1', tempC: startC, atMs: 0, sdC: 0.2 });
}

describe('what is believed of the bench', () => {
  it('starts from glass or plastic and volume, and says so with a wide band', () => {
    expect(priorTauS(1000, 'glass', 'tub')).toBeGreaterThan(priorTauS(1000, 'plastic', 'tub'));
    expect(priorTauS(2000, 'plastic', 'tub')).toBeGreaterThan(priorTauS(500, 'plastic', 'tub'));
    expect(priorTauS(1000, 'glass', 'air')).toBeGreaterThan(5 * priorTauS(1000, 'glass', 'tub'));
    const f = forecast(warmBench(), 0);
    const curve = curveOf(f, 'bottle-1');
    const told = curve && readiness(f, curve, aimWithin(38, 1));
    expect(told?.state).toBe('coming');
    if (told?.state === 'coming') {
      expect(told.earliestMs).toBeLessThan(0.75 * told.inMs);
      expect(told.latestMs ?? 0).toBeGreaterThan(1.3 * told.inMs);
    }
  });

  it('learns the time constant from readings and narrows the band', () => {
    const tau = 900;
    let b = warmBench();
    const before = parameterOf(b.after, logRateOf(0));
    for (const m of [3, 6, 9]) {
      b = takeReading(b, {
        key: 'bottle-1',
        tempC: newtonTempC(22, 41.3, tau, m * 60),
        atMs: m * minute,
        sdC: 0.2,
      });
    }
    const after = parameterOf(b.after, logRateOf(0));
    expect(Math.exp(-after.mean) / tau).toBeCloseTo(1, 1);
    expect(after.sd).toBeLessThan(before.sd / 4);
  });

  it('is plain data: JSON out and in changes nothing', () => {
    const b = takeReading(warmBench(), { key: 'tub', tempC: 41.1, atMs: minute, sdC: 0.2 });
    const again = JSON.parse(JSON.stringify(b)) as BenchEstimate;
    expect(again).toEqual(b);
    expect(temperatureAt(again, 'bottle-1', 5 * minute)).toEqual(temperatureAt(b, 'bottle-1', 5 * minute));
  });

  it('moving the anchor keeps the temperature and does not narrow its band', () => {
    const b = takeReading(warmBench(), { key: 'bottle-1', tempC: 26, atMs: 3 * minute, sdC: 0.2 });
    const direct = temperatureAt(b, 'bottle-1', 20 * minute);
    const moved = temperatureAt(advance(b, 10 * minute), 'bottle-1', 20 * minute);
    expect(moved?.tempC).toBeCloseTo(direct?.tempC ?? 0, 1);
    expect(moved?.sdC ?? 0).toBeGreaterThan(0.98 * (direct?.sdC ?? 0));
  });

  it('a controller that holds two degrees low is learnt from the tub, against what its scale says', () => {
    let b = warmBench(30);
    for (const m of [2, 4, 6, 8]) b = takeReading(b, { key: 'tub', tempC: 39.3, atMs: m * minute, sdC: 0.2 });
    const hold = parameterOf(b.after, holdC);
    expect(hold.mean).toBeCloseTo(39.3, 0);
    expect(hold.sd).toBeLessThan(0.25);
    const f = forecast(b, 8 * minute);
    const curve = curveOf(f, 'bottle-1');
    expect(curve && readiness(f, curve, aimWithin(41.1, 0.3)).state).toBe('never');
  });

  it('a slow heater is not mistaken for a low set point', () => {
    let b = openBench({ setC: 41.3, setPointSeen: true, heaterOn: true }, 0);
    // 0.4 °C a minute: far slower than the usual heater
    for (const m of [0, 3, 6, 9])
      b = takeReading(b, { key: 'tub', tempC: 24 + 0.4 * m, atMs: m * minute, sdC: 0.2 });
    expect(Math.abs(parameterOf(b.after, holdC).mean - 41.3)).toBeLessThan(1);
    const later = temperatureAt(b, 'tub', 20 * minute);
    expect(later?.tempC).toBeGreaterThan(30.5);
    expect(later?.tempC).toBeLessThan(33);
  });

  it('heater off: a bath in tolerance is foretold to leave it, cold', () => {
    let b = warmBench(41.2);
    b = switchHeater(b, false, minute);
    const f = forecast(b, minute);
    const curve = curveOf(f, 'bottle-1');
    const told = curve && readiness(f, curve, aimWithin(41.1, 0.3));
    expect(told?.state).toBe('in');
    if (told?.state === 'in') {
      expect(told.leaving).toBe('cold');
      expect(told.leavesInMs ?? 0).toBeGreaterThan(2 * minute);
    }
  });

  it('a bottle warmer than the tub comes into tolerance from above', () => {
    const b = warmBench(46);
    const f = forecast(b, 0);
    const curve = curveOf(f, 'bottle-1');
    expect(curve && readiness(f, curve, aimWithin(41.1, 0.5))).toMatchObject({
      state: 'coming',
      from: 'above',
    });
  });

  it('moved out of the tub it cools slowly; put back, what was learnt there holds', () => {
    let b = warmBench();
    for (const m of [3, 6, 9]) {
      b = takeReading(b, {
        key: 'bottle-1',
        tempC: newtonTempC(22, 41.3, 900, m * 60),
        atMs: m * minute,
        sdC: 0.2,
      });
    }
    const learnt = parameterOf(b.after, logRateOf(0));
    const out = moveVessel(b, 'bottle-1', 'air', 10 * minute);
    const then = temperatureAt(out, 'bottle-1', 10 * minute)?.tempC ?? 0;
    const later = temperatureAt(out, 'bottle-1', 20 * minute)?.tempC ?? 0;
    expect(later).toBeLessThan(then);
    expect(then - later).toBeLessThan(2);
    const back = moveVessel(out, 'bottle-1', 'tub', 20 * minute);
    expect(parameterOf(back.after, logRateOf(0)).mean).toBeCloseTo(learnt.mean, 6);
  });

  it('half poured out it warms faster; all poured out it is gone', () => {
    const b = warmBench();
    const half = changeVolume(b, 'bottle-1', 500, minute);
    expect(parameterOf(half.after, logRateOf(0)).mean).toBeGreaterThan(
      parameterOf(b.after, logRateOf(0)).mean,
    );
    expect(changeVolume(b, 'bottle-1', 0, minute).vessels).toHaveLength(0);
    expect(removeVessel(b, 'bottle-2', minute)).toBe(b);
  });

  it('warm liquid poured in mixes by volume', () => {
    const b = changeVolume(warmBench(20), 'bottle-1', 2000, 1000, { tempC: 40, sdC: 0.1, volumeMl: 1000 });
    expect(temperatureAt(b, 'bottle-1', 1000)?.tempC).toBeCloseTo(30, 0);
  });

  it('a new set point keeps the controller error that was learnt', () => {
    let b = warmBench(30);
    for (const m of [2, 4, 6, 8]) b = takeReading(b, { key: 'tub', tempC: 39.3, atMs: m * minute, sdC: 0.1 });
    const set = setTub(b, 43.3, 9 * minute);
    expect(parameterOf(set.after, holdC).mean).toBeCloseTo(41.3, 0);
  });

  it('two hundred readings keep the state small', () => {
    let b = warmBench();
    for (let i = 1; i <= 200; i++) {
      b = takeReading(b, { key: 'bottle-1', tempC: 41.2, atMs: i * 10_000 + 3600_000, sdC: 0.2 });
    }
    expect(b.readings.length).toBeLessThanOrEqual(40);
    expect(JSON.stringify(b).length).toBeLessThan(10_000);
  });
});

describe('the next reading', () => {
  it('is of something that tells, before the bath is ready, and promises a real gain', () => {
    const b = takeReading(warmBench(), { key: 'bottle-1', tempC: 27, atMs: 3 * minute, sdC: 0.2 });
    const f = forecast(b, 3 * minute);
    const curve = curveOf(f, 'bottle-1');
    const told = curve && readiness(f, curve, aimWithin(39, 0.5));
    if (told?.state !== 'coming') throw new Error('expected the bottle to be on its way');
    const next = nextReading(f, 'bottle-1', told.inMs, 0.2);
    expect(next).not.toBeNull();
    expect((next?.atMs ?? 0) - 3 * minute).toBeLessThanOrEqual(told.inMs);
    expect(next?.sdAfterS ?? 1).toBeLessThan(0.9 * (next?.sdBeforeS ?? 0));
    // the promise is kept: with that reading taken as foretold, the time is known as well as was said
    const at = next?.atMs ?? 0;
    const tempC = temperatureAt(b, next?.key ?? '', at)?.tempC ?? 0;
    const then = forecast(takeReading(b, { key: next?.key ?? '', tempC, atMs: at, sdC: 0.2 }), at);
    const after = curveOf(then, 'bottle-1');
    const bandOf = (r: ReturnType<typeof readiness> | undefined): number =>
      r?.state === 'coming' ? (r.latestMs ?? Number.POSITIVE_INFINITY) - r.earliestMs : 0;
    expect(bandOf(after && readiness(then, after, aimWithin(39, 0.5)))).toBeLessThan(bandOf(told));
  });

  it('is not asked for when nothing is left to learn', () => {
    let b = warmBench();
    for (let m = 1; m <= 12; m++) {
      for (const key of ['bottle-1', 'tub']) {
        const tempC = key === 'tub' ? 41.3 : newtonTempC(22, 41.3, 700, m * 60);
        b = takeReading(b, { key, tempC, atMs: m * minute, sdC: 0.02 });
      }
    }
    const f = forecast(b, 12 * minute);
    const curve = curveOf(f, 'bottle-1');
    const told = curve && readiness(f, curve, aimWithin(39, 0.5));
    if (told?.state === 'coming') expect(nextReading(f, 'bottle-1', told.inMs, 2)).toBeNull();
  });
});
