import { describe, expect, it } from 'vitest';
import { follow, holdC, logRateOf, parameterCount, tempOf } from '../../src/thermal/bench/model.js';
import { waterCapacityJPerK } from '../../src/thermal/water.js';

const shape = {
  heaterOn: true,
  vessels: [
    { placement: 'tub' as const, heatRatio: 0.1 },
    { placement: 'tub' as const, heatRatio: 0.05 },
    { placement: 'air' as const, heatRatio: 0.1 },
  ],
};
const parameters = [30, 41.3, Math.log(0.02), Math.log(1e-4), 21, 18, -6.4, 45, -6.1, 40, -9];

function at(seconds: number, p: readonly number[] = parameters, s = shape): Float64Array {
  let out = new Float64Array();
  follow(s, p, [seconds], false, (_, state) => {
    out = state.slice();
  });
  return out;
}

describe('the bench equations', () => {
  it('a vessel warmer than the tub cools to it while a colder one warms', () => {
    const now = at(900);
    expect(now[1]).toBeGreaterThan(18);
    expect(now[2]).toBeLessThan(45);
    expect(now[3]).toBeLessThan(40);
  });

  it('the tub stops at the hold temperature, not above it', () => {
    for (const s of [600, 1200, 3600, 7200]) expect(at(s)[0]).toBeLessThanOrEqual(41.3 + 1e-9);
    expect(at(7200)[0]).toBeCloseTo(41.3, 6);
    expect(at(7200)[1]).toBeCloseTo(41.3, 1);
  });

  it('conserves heat: heater off and nothing lost, tub and bottles end at their common temperature', () => {
    const closed = { heaterOn: false, vessels: shape.vessels.slice(0, 2) };
    const lossless = [...parameters.slice(0, 9)];
    lossless[3] = -40;
    const end = at(4 * 3600, lossless, closed);
    const common = (30 + 0.1 * 18 + 0.05 * 45) / 1.15;
    for (const t of end) expect(t).toBeCloseTo(common, 3);
  });

  it('agrees with one-second steps to 0.02 °C', () => {
    const fine = new Float64Array([30, 18]);
    const q = 0.02;
    const k = Math.exp(-6.4);
    for (let s = 0; s < 1500; s++) {
      const tub = fine[0] ?? 0;
      const flow = k * (tub - (fine[1] ?? 0));
      fine[0] = Math.min(41.3, tub + q - 1e-4 * (tub - 21) - 0.1 * flow);
      fine[1] = (fine[1] ?? 0) + flow;
    }
    const coarse = at(1500, parameters.slice(0, 7), { heaterOn: true, vessels: shape.vessels.slice(0, 1) });
    expect(coarse[0]).toBeCloseTo(fine[0] ?? 0, 1);
    expect(Math.abs((coarse[1] ?? 0) - (fine[1] ?? 0))).toBeLessThan(0.02);
  });

  it('its derivatives are those of finite differences', () => {
    const p = parameterCount(3);
    for (const seconds of [300, 1500]) {
      let sens = new Float64Array();
      follow(shape, parameters, [seconds], true, (_, __, s) => {
        sens = s.slice();
      });
      for (let c = 0; c < p; c++) {
        const h = 1e-4;
        const up = at(
          seconds,
          parameters.map((v, i) => (i === c ? v + h : v)),
        );
        const down = at(
          seconds,
          parameters.map((v, i) => (i === c ? v - h : v)),
        );
        for (let r = 0; r < 4; r++) {
          const slope = ((up[r] ?? 0) - (down[r] ?? 0)) / (2 * h);
          expect(Math.abs((sens[r * p + c] ?? 0) - slope), `row ${r}, parameter ${c}`).toBeLessThan(0.05);
        }
      }
    }
    expect(holdC).toBe(1);
    expect([tempOf(0), logRateOf(0)]).toEqual([5, 6]);
  });

  it('the energy balance of a tub alone gives the same time to the set point', () => {
    const tub = { waterMl: 10_000, heaterW: 1000, lossWPerK: 5, roomC: 21, loadJPerK: 0 };
    const capacity = waterCapacityJPerK(10_000, 33);
    const top = tub.roomC + tub.heaterW / tub.lossWPerK;
    const seconds = (capacity / tub.lossWPerK) * Math.log((top - 25) / (top - 41.3));
    const p = [25, 60, Math.log(1000 / capacity), Math.log(5 / capacity), 21];
    expect(at(seconds, p, { heaterOn: true, vessels: [] })[0]).toBeCloseTo(41.3, 1);
  });
});
