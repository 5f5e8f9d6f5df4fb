/**
 * Liquid water at 0.1 MPa, from the IAPWS supplementary release SR6-08(2011), "Properties of Liquid Water at
 * 0.1 MPa", equations 2 and 4. Valid 253.15 K to 383.15 K; uncertainty there: density 1 part in 10⁶, heat
 * capacity 0.1 %. Working solutions are treated as water: a litre of developer holds some 30 g of salts, which
 * lowers its heat capacity by about 2 %, less than the spread of bottle walls.
 */
const gasConstantJPerKgK = 461.51805;
const pressurePa = 1e5;
const scaleK = 10;

/** [coefficient, power] of α = 10/(593 − T) and β = 10/(T − 232); T in kelvin */
type Series = readonly (readonly [number, number])[];

const volumeConstant = 1.93763157e-2;
const volumeAlpha: Series = [
  [6.74458446e3, 4],
  [-2.22521604e5, 5],
  [1.00231247e8, 7],
  [-1.63552118e9, 8],
  [8.32299658e9, 9],
];
const volumeBeta: Series = [
  [5.78545292e-3, 1],
  [-1.53195665e-2, 2],
  [3.11337859e-2, 3],
  [-4.23546241e-2, 4],
  [3.38713507e-2, 5],
  [-1.19946761e-2, 6],
];
const heatConstant = -8.983025854;
const heatAlpha: Series = [
  [-1.661470539e5, 4],
  [2.70878164e6, 5],
  [-1.557191544e8, 7],
];
const heatBeta: Series = [
  [-8.237426256e-1, 2],
  [1.908956353, 3],
  [-2.017597384, 4],
  [8.546361348e-1, 5],
];

const kelvin = (tempC: number): number => tempC + 273.15;

const sum = (series: Series, x: number): number => series.reduce((s, [c, n]) => s + c * x ** n, 0);

/** Second derivative terms: Σ n(n+1) c xⁿ⁺². */
const curvature = (series: Series, x: number): number =>
  series.reduce((s, [c, n]) => s + n * (n + 1) * c * x ** (n + 2), 0);

/** Density, g/ml (= kg/l), at −20 to 110 °C. */
export function waterDensityGPerMl(tempC: number): number {
  const t = kelvin(tempC);
  const series = volumeConstant + sum(volumeAlpha, scaleK / (593 - t)) + sum(volumeBeta, scaleK / (t - 232));
  const volumeM3PerKg = ((gasConstantJPerKgK * scaleK) / pressurePa) * series;
  return 1 / (1000 * volumeM3PerKg);
}

/** Isobaric heat capacity, J/(g·K), at −20 to 110 °C. */
export function waterHeatJPerGK(tempC: number): number {
  const t = kelvin(tempC);
  const tau = t / scaleK;
  const bend = curvature(heatAlpha, scaleK / (593 - t)) + curvature(heatBeta, scaleK / (t - 232));
  return (-gasConstantJPerKgK * (heatConstant + tau * bend)) / 1000;
}

/** Heat capacity of a volume of water, J/K. */
export const waterCapacityJPerK = (volumeMl: number, tempC: number): number =>
  volumeMl * waterDensityGPerMl(tempC) * waterHeatJPerGK(tempC);
