/**
 * What labels print for the first minute, then who decides. source: GHS precautionary statements P305+P351+P338,
 * P303+P361+P353, P301+P330+P331, P304+P340 (UN GHS rev. 9, annex 3, from memory); washing out with water at once also in
 * Kodak's MSDS of its RA-4 bleach-fix (2009), section 4.
 */
export type Exposure = 'eye' | 'skin' | 'swallowed' | 'breathed';

const first: Readonly<Record<Exposure, string>> = {
  eye: 'Rinse the eye with water now, lids open. Contact lenses out if you can. Keep rinsing for many minutes.',
  skin: 'Take off what is soaked; rinse the skin with water now.',
  swallowed: 'Rinse the mouth. Do not make yourself sick.',
  breathed: 'Go out into fresh air now, and rest.',
};

export const thenCall = 'Follow the safety data sheet; call your poison centre or emergency number.';

/** The first minute, in one or two short sentences; `thenCall` goes after it. */
export const firstAid = (how: Exposure): string => first[how];
