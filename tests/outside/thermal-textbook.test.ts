import { describe, expect, it } from 'vitest';
import { follow, parameterCount } from '../../src/thermal/bench/model.js';
import { mixedTempC, solid } from '../../src/thermal/calorimetry.js';
import { newtonTempC } from '../../src/thermal/newton.js';

describe('Newton cooling, worked examples', () => {
  it('OpenStax Calculus vol. 2, section 4.3: a pizza from 350 °F in a 75 °F kitchen', () => {
    // 340 °F after 5 minutes; 300 °F after 27.09 minutes (figures as repeated in public course notes)
    const tau = -5 / Math.log((340 - 75) / (350 - 75));
    expect(newtonTempC(350, 75, tau, 27.0874)).toBeCloseTo(300, 3);
  });

  it('Boyce and DiPrima, Elementary Differential Equations, section 2.3 (from memory): coffee', () => {
    // 200 °F, 190 °F after one minute in a 70 °F room; 150 °F after ln(13/8)/ln(13/12) = 6.07 minutes
    const tau = 1 / Math.log(13 / 12);
    expect(newtonTempC(200, 70, tau, 1)).toBeCloseTo(190, 9);
    expect(newtonTempC(200, 70, tau, 6.07)).toBeCloseTo(150, 1);
  });

  it('Incropera et al., Fundamentals of Heat and Mass Transfer, example 5.1 (from memory): a thermocouple', () => {
    // junction of 0.706 mm: ρ 8500, c 400, h 400 → τ = ρ c D/(6 h) = 1 s; 25 °C to 199 °C in gas at 200 °C: 5.2 s
    expect(newtonTempC(25, 200, (8500 * 400 * 7.06e-4) / (6 * 400), 5.2)).toBeCloseTo(199, 1);
  });

  it('HELM workbook 19.4: θ = θs + (θ0 − θs) e^(kt) is what the whole bench reduces to for one vessel in air', () => {
    const shape = { heaterOn: false, vessels: [{ placement: 'air' as const, heatRatio: 0.1 }] };
    const parameters = new Array<number>(parameterCount(1)).fill(0);
    // tub, hold, heat, loss, room, vessel, rate
    [30, 41, -5, -20, 20, 70, Math.log(1 / 600)].forEach((v, i) => {
      parameters[i] = v;
    });
    const times = [60, 300, 600, 1800];
    follow(shape, parameters, times, false, (i, state) => {
      expect(state[1]).toBeCloseTo(newtonTempC(70, 20, 600, times[i] ?? 0), 2);
    });
  });
});

describe('calorimetry, worked examples', () => {
  it('OpenStax University Physics vol. 2, section 1.4: water poured into a hot pan', () => {
    // 0.250 kg of water at 20 °C into 0.500 kg of aluminium at 150 °C: 59.1 °C, c 4186 and 900 J/(kg·K)
    const final = mixedTempC([solid(500, 0.9, 150), solid(250, 4.186, 20)]);
    expect(final).toBeCloseTo(59.1, 1);
  });
  it('Giancoli, Physics, chapter 14 (from memory): tea into a glass cup', () => {
    // 200 cm³ of tea at 95 °C into 150 g of glass at 25 °C: 86 °C, c 4186 and 840 J/(kg·K)
    expect(Math.round(mixedTempC([solid(200, 4.186, 95), solid(150, 0.84, 25)]))).toBe(86);
  });
});
