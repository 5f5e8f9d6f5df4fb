import type { LiquidId } from './vessel.js';

/** What film takes out of a bath and what the trade puts back. */
export interface BathRate {
  liquid: LiquidId;
  /** replenisher per 100 ft (30.5 m) of 35 mm film, ml; halve it for 16 mm */
  per100ftMl: number;
  source: string;
}

const h2407 =
  'from memory of Kodak Publication H-24.07 (1996), mechanical specifications for Process ECN-2, replenishment rates per 100 ft of 35 mm film';

export const bathRates: readonly BathRate[] = [
  {
    liquid: 'prebath',
    per100ftMl: 400,
    source: `${h2407}; agrees with the 200 ml per 100 ft of 16 mm printed by R. Schaller, Process ECP2-A and ECN-2 (2004)`,
  },
  { liquid: 'developer', per100ftMl: 900, source: h2407 },
  { liquid: 'stop', per100ftMl: 600, source: h2407 },
  { liquid: 'bleach', per100ftMl: 200, source: h2407 },
  { liquid: 'fixer', per100ftMl: 600, source: h2407 },
  { liquid: 'final-rinse', per100ftMl: 400, source: h2407 },
];

export const rateOf = (liquid: LiquidId): BathRate | undefined =>
  bathRates.find((rate) => rate.liquid === liquid);

/** A figure with its band. */
export interface Band {
  low: number;
  usual: number;
  high: number;
}
type Figure = Band & { source: string };

/** Silver in a colour camera film before processing, g/m², and the part that development turns to metal. */
export const filmSilver = {
  coatedGPerM2: {
    low: 4,
    usual: 6,
    high: 8,
    source: 'from memory of published coating weights of colour negative camera films, 4 to 8 g/m²',
  },
  /** share of the coated silver developed in an average picture */
  developedShare: {
    low: 0.1,
    usual: 0.18,
    high: 0.3,
    source: 'common practice in silver-recovery estimates: a tenth to a third of the silver is image',
  },
} as const satisfies Record<string, Figure>;

/** Molar masses, g/mol. source: IUPAC standard atomic weights 2021. */
export const molar = {
  silver: 107.868,
  sodiumBromide: 102.894,
  potassiumPersulphate: 270.32,
} as const;

/** Silver in a fixer, g/l, above which film may hold back silver salts. */
export const fixerSilverLimitGPerL: Figure = {
  low: 5,
  usual: 8,
  high: 12,
  source:
    'common practice: 5 g/l for a single fixer that must keep for archives, about 10 g/l in replenished colour fixers',
};

/** Film counted when none is said: one 36-exposure cassette of 35 mm. */
export const USUAL_FILM = { stock: 'a 36 exposure film', format: '35mm' } as const;

/** Lower edge of the band as a share of the usual capacity: dense pictures, half-full bottles. source: common practice */
export const BAND_LOW = 2 / 3;

/**
 * Longer development as a bath ages. H-24.07 holds development constant by replenishment and gives no table of
 * longer times, so none is offered: a made-up factor would cost the film.
 */
export const timeCompensation: Readonly<Record<LiquidId, string>> = {
  developer: 'No longer time is published for a used E C N two developer; replenish it or mix fresh.',
};
