/**
 * How the speed of development follows temperature. `honestC`: where a table of times by temperature exists, so
 * that a changed time can be answered for. Colour has none: the three layers answer differently (see `source`).
 */
export interface RateLaw {
  /** the temperature the process is timed for, °C */
  referenceC: number;
  /** factor of speed per 10 °C */
  q10: number;
  honestC: { low: number; high: number } | null;
  colour: boolean;
  source: string;
}

const colourDeveloper =
  'q10 from memory of low-temperature times printed for C-41 kits (8:30 at 29.4 °C against 3:30 at 38.9 °C), ' +
  'taken over for CD-3; that layers part company when temperature changes: Kodak H-24 series, “Effects of ' +
  'Mechanical and Chemical Variations”, whose plots are trends, not corrections';

export const rateLaws = {
  'ecn-2': {
    referenceC: 41.1,
    q10: 2.5,
    honestC: null,
    colour: true,
    source: `41.1 ± 0.1 °C: Kodak H-24.07, table of process steps; ${colourDeveloper}`,
  },
  'c-41': {
    referenceC: 37.8,
    q10: 2.5,
    honestC: null,
    colour: true,
    source: `37.8 ± 0.15 °C: Kodak Z-131, table 4-1; ${colourDeveloper}`,
  },
  'e-6': {
    referenceC: 38,
    q10: 2.5,
    honestC: null,
    colour: true,
    source: `38.0 ± 0.3 °C (first developer): from memory of Kodak Z-119; ${colourDeveloper}`,
  },
  'black-and-white': {
    referenceC: 20,
    q10: 2.2,
    honestC: { low: 18, high: 24 },
    colour: false,
    source:
      'fit to Kodak F-32 (T-MAX films, rotary tube): D-76 1.9 to 2.0, XTOL 2.3 to 2.8 between 20 and 24 °C; ' +
      'below 18 °C hydroquinone slows more than the rest (common practice)',
  },
} as const satisfies Record<string, RateLaw>;

export type RateId = keyof typeof rateLaws;
