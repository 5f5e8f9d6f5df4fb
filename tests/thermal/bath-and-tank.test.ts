import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { blend } from '../../src/thermal/blend.js';
import { mixedTempC, water } from '../../src/thermal/calorimetry.js';
import { compensation, developmentShift, effectiveSeconds } from '../../src/thermal/rate.js';
import { rateLaws } from '../../src/thermal/rate-data.js';
import {
  afterPourC,
  pourAdvice,
  rinseCostC,
  smallPlasticTank,
  stepTemperatures,
} from '../../src/thermal/tank.js';
import { hotWaterToAdd, setPointVerdict } from '../../src/thermal/tub.js';
import { aimWithin } from './aims.js';

describe('blending hot and cold', () => {
  it('gives back the temperature asked for', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 40, max: 65, noNaN: true }),
        fc.double({ min: 5, max: 22, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (hotC, coldC, share) => {
          const aimC = coldC + share * (hotC - coldC);
          const made = blend(aimC, 2000, hotC, coldC);
          if (!made.ok) throw new Error(made.why);
          expect(made.hotMl + made.coldMl).toBeCloseTo(2000, 6);
          expect(mixedTempC([water(made.hotMl, hotC), water(made.coldMl, coldC)])).toBeCloseTo(aimC, 6);
        },
      ),
    );
  });
  it('says why it cannot', () => {
    expect(blend(41, 1000, 38, 12)).toEqual({ ok: false, why: 'too-warm' });
    expect(blend(8, 1000, 50, 12)).toEqual({ ok: false, why: 'too-cold' });
    expect(blend(20, 1000, 20.2, 20)).toEqual({ ok: false, why: 'taps-alike' });
  });
});

describe('the tub', () => {
  const tub = { waterMl: 10_000, loadJPerK: 0 };
  it('hot water brings it to the set point at once', () => {
    const add = hotWaterToAdd(tub, 30, 41, 60);
    if (!add.ok) throw new Error(add.why);
    expect(mixedTempC([water(add.addMl, 60), water(10_000, 30)])).toBeCloseTo(41, 1);
    expect(hotWaterToAdd(tub, 30, 41, 40)).toMatchObject({ ok: false, why: 'not-hot-enough' });
    expect(hotWaterToAdd(tub, 30, 41, 60, 3000)).toMatchObject({ ok: false, why: 'too-much' });
    expect(hotWaterToAdd(tub, 42, 41, 60)).toEqual({ ok: true, addMl: 0 });
  });
  it('a controller left two degrees low cannot bring the developer to its aim', () => {
    const developer = aimWithin(41.1, 0.1);
    expect(setPointVerdict(39.1, developer)).toBe('too-low');
    expect(setPointVerdict(41.18, developer)).toBe('fits');
    expect(setPointVerdict(41.1, developer)).toBe('slow');
    expect(setPointVerdict(42, developer)).toBe('too-high');
  });
});

describe('the tank', () => {
  const cold = { tempC: 20, wet: false };
  const table = { standingIn: 'air', tempC: 20 } as const;
  const aim = aimWithin(41.1, 0.5);
  it('takes heat from the pour; steel takes less than plastic', () => {
    const plastic = afterPourC(smallPlasticTank, cold, 600, 41.1);
    const steel = afterPourC({ ...smallPlasticTank, material: 'steel', tankMassG: 250 }, cold, 600, 41.1);
    expect(plastic).toBeLessThan(41.1);
    expect(plastic).toBeGreaterThan(36);
    expect(steel).toBeGreaterThan(plastic);
    expect(afterPourC(smallPlasticTank, { tempC: 41.1, wet: false }, 600, 41.1)).toBeCloseTo(41.1, 9);
  });
  it('cools during the step on the table, and hardly in the tub', () => {
    const warm = { tempC: 41.1, wet: false };
    const onTable = stepTemperatures(smallPlasticTank, warm, 600, 41.1, table, 180);
    const inTub = stepTemperatures(
      smallPlasticTank,
      warm,
      600,
      41.1,
      { standingIn: 'tub', tempC: 41.3 },
      180,
    );
    expect(onTable.endC).toBeLessThan(41.1 - 0.2);
    expect(Math.abs(inTub.endC - 41.1)).toBeLessThan(0.15);
    expect(onTable.meanC).toBeGreaterThan(onTable.endC);
  });
  it('advises to pour warmer, within the sheet, and says when that is not enough', () => {
    const slight = pourAdvice(smallPlasticTank, { tempC: 40.5, wet: false }, 600, aim, table, 180);
    expect(slight.beyondTolerance).toBe(false);
    expect(slight.pourC).toBeGreaterThan(aim.aimC);
    expect(slight.at.meanC).toBeCloseTo(aim.aimC, 3);
    const much = pourAdvice(smallPlasticTank, cold, 600, aim, table, 180);
    expect(much.beyondTolerance).toBe(true);
    expect(much.pourC).toBe(aim.highC);
  });
  it('a cold rinse costs the next bath, a warm one gives', () => {
    expect(rinseCostC(smallPlasticTank, 20, 600, 38)).toBeGreaterThan(1);
    expect(rinseCostC(smallPlasticTank, 38, 600, 38)).toBeCloseTo(0, 9);
    expect(rinseCostC(smallPlasticTank, 45, 600, 38)).toBeLessThan(0);
  });
});

describe('development against temperature', () => {
  const law = rateLaws['ecn-2'];
  it('a steady history at the reference counts second for second', () => {
    const steady = [0, 60, 180].map((atS) => ({ atS, tempC: 41.1 }));
    expect(effectiveSeconds(law, steady)).toBeCloseTo(180, 9);
    expect(effectiveSeconds(law, [])).toBe(0);
  });
  it('a bath that falls from 41.1 to 39.1 develops as one at 40.1 would, a little more', () => {
    const falling = Array.from({ length: 19 }, (_, i) => ({ atS: i * 10, tempC: 41.1 - (i * 2) / 18 }));
    const flat = 180 * 2.5 ** -0.1;
    expect(effectiveSeconds(law, falling)).toBeGreaterThan(flat);
    expect(effectiveSeconds(law, falling)).toBeLessThan(flat * 1.01);
  });
  it('colour: names the shift, never a time', () => {
    const aim = aimWithin(41.1, 0.1);
    expect(compensation(law, 180, aim, 41.05)).toEqual({ offer: 'none-needed' });
    const cold = compensation(law, 180, aim, 39.1);
    expect(cold).toMatchObject({ offer: 'no', why: 'layers' });
    expect(developmentShift(law, 41.1, 39.1)).toBeCloseTo(2.5 ** -0.2 - 1, 9);
  });
  it('black and white: a time inside the table, none outside', () => {
    const bw = rateLaws['black-and-white'];
    const aim = aimWithin(20, 0.5);
    const warm = compensation(bw, 480, aim, 22);
    expect(warm.offer === 'time' && warm.seconds).toBeCloseTo(480 / 2.2 ** 0.2, 6);
    expect(compensation(bw, 480, aim, 27)).toMatchObject({ offer: 'no', why: 'outside-table', high: 24 });
    expect(compensation(bw, 480, aim, 16)).toMatchObject({ offer: 'no', low: 18 });
  });
  it('every law names its source', () => {
    for (const l of Object.values(rateLaws)) expect(l.source.length).toBeGreaterThan(20);
  });
});
