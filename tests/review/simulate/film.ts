import type { Dice } from './dice.js';

/**
 * A make-believe colour negative: three layers with their own speed of development, coated one over the other, a
 * masked base, and a characteristic curve with toe and shoulder. Written from the physics, apart from the review's
 * tables: what a fault does here is a rate, a fog or a filter, not a likelihood.
 */
export interface Film {
  /** density of support and mask */
  base: number[];
  /** final gamma at full development */
  gammaAtEnd: number[];
  /** rate of development per nominal time; the lowest layer (red) is reached last */
  rate: number[];
  /** log exposure at which the toe begins, for a scene whose white is at 0 */
  toeAt: number[];
  fog: number[];
  dMax: number;
}

export interface Treatment {
  /** time × activity over nominal, for each layer */
  development: number[];
  fogAdded: number[];
  /** share of the image density added to every layer as silver */
  silver: number;
  /** density of salts left everywhere */
  haze: number;
  gammaLost: number[];
  speedLost: number[];
}

export const plainTreatment = (): Treatment => ({
  development: [1, 1, 1],
  fogAdded: [0, 0, 0],
  silver: 0,
  haze: 0,
  gammaLost: [0, 0, 0],
  speedLost: [0, 0, 0],
});

export function someFilm(dice: Dice): Film {
  return {
    base: [0.16 + dice.normal(0.015), 0.5 + dice.normal(0.025), 0.76 + dice.normal(0.03)],
    gammaAtEnd: [0.66, 0.64, 0.65].map((g) => g * (1 + dice.normal(0.02))),
    rate: [1.55, 1.9, 2.2],
    toeAt: [-1.85, -1.85, -1.85].map((t) => t + dice.normal(0.03)),
    fog: [0.04, 0.05, 0.07],
    dMax: 2.4,
  };
}

/** Density of one layer for a log exposure. */
export function layerDensity(film: Film, t: Treatment, c: number, logE: number): number {
  const dev = Math.max(0.02, t.development[c] as number);
  const rate = film.rate[c] as number;
  const grown = 1 - Math.exp(-rate * dev);
  const gamma = (film.gammaAtEnd[c] as number) * grown * (1 - (t.gammaLost[c] as number));
  const speed = 0.25 * Math.log10(dev) - (t.speedLost[c] as number);
  const x = logE - (film.toeAt[c] as number) + speed;
  // a soft toe: log of (1 + e^x), 0.12 wide, then a soft shoulder
  const bent = 0.12 * Math.log1p(Math.exp(Math.min(50, x / 0.12)));
  const straight = gamma * bent;
  const image = film.dMax * (1 - Math.exp(-straight / film.dMax));
  return (film.fog[c] as number) * dev ** 1.6 + (t.fogAdded[c] as number) + image;
}
