import { describe, expect, it } from 'vitest';
import { celsiusOfFahrenheit, fahrenheitOf } from '../../src/thermal/scales.js';
import { waterDensityGPerMl, waterHeatJPerGK } from '../../src/thermal/water.js';

/**
 * Saturated liquid water by the NIST formulation (IAPWS-95), as tabled in Perry's Chemical Engineers' Handbook,
 * 9th ed., table 2-135: kelvin, mol/dm³, kJ/(mol·K). Between saturation and 0.1 MPa density differs by less than
 * 5 parts in 10⁵, heat capacity by less than 3 in 10⁴.
 */
const perry: [number, number, number][] = [
  [280, 55.501, 0.075688],
  [290, 55.44, 0.075429],
  [300, 55.315, 0.07532],
  [310, 55.139, 0.075294],
  [320, 54.919, 0.075317],
  [330, 54.662, 0.075373],
  [340, 54.371, 0.075456],
];
/** g/mol. source: IAPWS G5-01 */
const molarMass = 18.015268;

describe('water against NIST and IAPWS', () => {
  it.each(perry)('density and heat capacity at %d K', (kelvin, molPerDm3, kJPerMolK) => {
    const tempC = kelvin - 273.15;
    const density = (molPerDm3 * molarMass) / 1000;
    const heat = (kJPerMolK * 1000) / molarMass;
    expect(Math.abs(waterDensityGPerMl(tempC) / density - 1)).toBeLessThan(1e-4);
    expect(Math.abs(waterHeatJPerGK(tempC) / heat - 1)).toBeLessThan(5e-4);
  });

  it('density at 260 K agrees with the check value printed by the iapws Python package for SR6-08', () => {
    // iapws 1.5, docstring of _Liquid: 997.0683602710492 kg/m³
    expect(waterDensityGPerMl(260 - 273.15) * 1000).toBeCloseTo(997.0683602710492, 9);
  });

  it('25 °C and the densest water', () => {
    // from memory of the CIPM formula (Tanaka et al. 2001): 997.0470 kg/m³ at 25 °C; 999.975 at 3.98 °C
    expect(waterDensityGPerMl(25) * 1000).toBeCloseTo(997.047, 2);
    expect(waterDensityGPerMl(3.98) * 1000).toBeCloseTo(999.975, 2);
    expect(waterDensityGPerMl(2)).toBeLessThan(waterDensityGPerMl(4));
    expect(waterDensityGPerMl(6)).toBeLessThan(waterDensityGPerMl(4));
  });
});

describe('thermometer scales', () => {
  // fixed points by definition, NIST SP 811; 41.1 °C = 106 °F as Kodak H-24.07 prints the ECN-2 developer
  it.each([
    [-40, -40],
    [0, 32],
    [37, 98.6],
    [100, 212],
  ])('%d °C is %d °F', (c, f) => {
    expect(fahrenheitOf(c)).toBeCloseTo(f, 10);
    expect(celsiusOfFahrenheit(f)).toBeCloseTo(c, 10);
  });
  it('106 °F is the ECN-2 developer, 100 °F the C-41 developer', () => {
    expect(celsiusOfFahrenheit(106)).toBeCloseTo(41.1, 1);
    expect(celsiusOfFahrenheit(100)).toBeCloseTo(37.8, 1);
  });
});
