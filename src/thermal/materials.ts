/** What bottles, tanks, reels and film are made of. */
export interface Material {
  /** J/(g·K) */
  heatJPerGK: number;
  /** W/(m·K) */
  conductivityWPerMK: number;
  source: string;
}

export type BottleMaterial = 'glass' | 'plastic' | 'steel';

export const materials = {
  glass: {
    heatJPerGK: 0.84,
    conductivityWPerMK: 0.84,
    source:
      'OpenStax University Physics vol. 2, tables 1.3 (specific heat) and 1.5 (conductivity, from memory)',
  },
  /** polyethylene and polypropylene, of which bottles, tanks and reels are blown or moulded */
  plastic: {
    heatJPerGK: 1.9,
    conductivityWPerMK: 0.35,
    source: 'from memory of resin makers’ data: PE 1.9–2.3 J/(g·K), 0.33–0.5 W/(m·K); PP 1.7–1.9, 0.1–0.22',
  },
  steel: {
    heatJPerGK: 0.5,
    conductivityWPerMK: 15,
    source: 'from memory of steel tables, austenitic stainless (AISI 304): 0.50 J/(g·K), 15 W/(m·K)',
  },
  /** cellulose triacetate base with swollen gelatin */
  film: {
    heatJPerGK: 1.5,
    conductivityWPerMK: 0.2,
    source: 'from memory of polymer handbooks: cellulose acetates 1.3–1.7 J/(g·K)',
  },
} as const satisfies Record<BottleMaterial | 'film', Material>;

/** Usual wall thickness, m. source: common practice; a glass bottle 3 mm, a blown plastic bottle 1 mm, a steel can 0.5 mm */
export const wallM: Record<BottleMaterial, number> = { glass: 0.003, plastic: 0.001, steel: 0.0005 };

/** Usual wall mass as a share of the liquid's mass. source: common practice (a 1 litre glass bottle weighs 400–500 g, plastic 50–80 g) */
export const wallMassShare: Record<BottleMaterial, number> = { glass: 0.45, plastic: 0.06, steel: 0.2 };
