/** What can be mixed at once, ml. */
export const volumeRange = { lowMl: 20, highMl: 50_000 } as const;

const unitMl: Readonly<Record<string, number>> = {
  ml: 1,
  millilitre: 1,
  milliliter: 1,
  cl: 10,
  dl: 100,
  l: 1000,
  litre: 1000,
  liter: 1000,
};

export type QuantityResult = { ok: true; value: number } | { ok: false; why: string };

/** "600ml", "0.6 l", "600" (ml), "1.5 litres" → ml. Error: one sentence with an example. */
export function parseVolumeMl(text: string): QuantityResult {
  const m = /^\s*(\d+(?:[.,]\d+)?)\s*([a-z]*?)s?\s*$/i.exec(text);
  const factor = unitMl[(m?.[2] || 'ml').toLowerCase()];
  const value = Number((m?.[1] ?? '').replace(',', '.')) * (factor ?? Number.NaN);
  if (m === null || !Number.isFinite(value)) {
    return { ok: false, why: `"${text}" is not a volume; write it like 600ml or 1.5l.` };
  }
  if (value < volumeRange.lowMl || value > volumeRange.highMl) {
    return { ok: false, why: `A volume from 20 millilitres to 50 litres can be mixed, not "${text}".` };
  }
  return { ok: true, value };
}

const unitG: Readonly<Record<string, number>> = {
  mg: 0.001,
  g: 1,
  gram: 1,
  gramme: 1,
  kg: 1000,
  kilo: 1000,
  kilogram: 1000,
  oz: 28.349523125,
  ounce: 28.349523125,
  grain: 0.06479891,
  pound: 453.59237,
  ml: 1,
  l: 1000,
};

/** Grams in a unit said aloud. source: international avoirdupois pound, 1959 (exact). */
export const gramsPer = (unit: string): number | undefined => unitG[unit];

/** Measures of kitchens, ml: of the United States, and imperial. source: from memory of NIST SP 811, appendix B.8, and of the Weights and Measures Act 1985 (rounded). */
export const kitchenMl: Readonly<Record<string, { us: number; imperial: number }>> = {
  'fluid-ounce': { us: 29.5735, imperial: 28.4131 },
  pint: { us: 473.176, imperial: 568.261 },
  quart: { us: 946.353, imperial: 1136.52 },
  gallon: { us: 3785.41, imperial: 4546.09 },
};

/** "500g", "0.5 kg", "500" (g) → g; of a liquid, ml counts as the number. Error: one sentence with an example. */
export function parseMassG(text: string): QuantityResult {
  const m = /^\s*(\d+(?:[.,]\d+)?)\s*([a-z]*?)s?\s*$/i.exec(text);
  const value =
    Number((m?.[1] ?? '').replace(',', '.')) * (gramsPer((m?.[2] || 'g').toLowerCase()) ?? Number.NaN);
  return m !== null && Number.isFinite(value)
    ? { ok: true, value }
    : { ok: false, why: `"${text}" is not an amount; write it like 500g or 0.5kg.` };
}
