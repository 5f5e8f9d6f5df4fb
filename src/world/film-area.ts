import type { FilmFormat, FilmRef } from './fact.js';

export const FORMATS = ['super-8', '16mm', '35mm', '120', '4x5', '8x10'] as const;

interface FormatSize {
  /** film width over both edges, mm; for sheets the shorter side */
  widthMm: number;
  /** length of one roll or the longer side of a sheet, mm; `anyLength`: cut to any, and taken when none was said */
  pieceMm: number;
  anyLength?: { source: string };
  source: string;
}

/** Nominal dimensions. Wetted area counts, so the width is edge to edge, perforations and margins included. */
export const sizes: Readonly<Record<FilmFormat, FormatSize>> = {
  'super-8': {
    widthMm: 7.975,
    pieceMm: 15_240,
    anyLength: { source: '50 ft cartridge, common practice' },
    source: 'from memory of SMPTE ST 149 (8 mm Type S raw stock): width 7.975 mm',
  },
  '16mm': {
    widthMm: 15.95,
    pieceMm: 30_480,
    anyLength: { source: '100 ft daylight spool, common practice' },
    source: 'from memory of ISO 69 and SMPTE ST 109 (16 mm raw stock): width 15.95 mm',
  },
  '35mm': {
    widthMm: 34.975,
    pieceMm: 1650,
    anyLength: { source: 'from memory of ISO 1007: a size 135 cassette of 36 exposures, about 1.65 m' },
    source:
      'from memory of ISO 491 and SMPTE ST 139 (35 mm raw stock) and ISO 1007 (size 135): width 34.975 mm',
  },
  '120': {
    widthMm: 61.5,
    pieceMm: 820,
    source: 'from memory of ISO 732 (roll film, sizes 120 and 220): width 61.5 mm, film length about 820 mm',
  },
  '4x5': {
    widthMm: 100.4,
    pieceMm: 125.8,
    source: 'from memory of ISO 1012 and ANSI IT1.25 (sheet film): 4 × 5 in nominal, cut to 100.4 × 125.8 mm',
  },
  '8x10': {
    widthMm: 201.7,
    pieceMm: 252.5,
    source:
      'from memory of ISO 1012 and ANSI IT1.25 (sheet film): 8 × 10 in nominal, cut to 201.7 × 252.5 mm',
  },
};

/** Area of one side of one film, m². Wrong or missing lengths fall back to the format's usual piece. */
export function filmAreaM2(film: FilmRef): number {
  const size = sizes[film.format];
  const count = film.count !== undefined && film.count > 0 ? film.count : 1;
  const said = size.anyLength && film.lengthM !== undefined && film.lengthM > 0 ? film.lengthM : undefined;
  const lengthM = said ?? size.pieceMm / 1000;
  return (size.widthMm / 1000) * lengthM * count;
}

export const filmsAreaM2 = (films: readonly FilmRef[]): number =>
  films.reduce((sum, film) => sum + filmAreaM2(film), 0);

/** 100 ft of 35 mm, the unit of the published replenishment rates, m². */
export const HUNDRED_FEET_35MM_M2 = 30.48 * (sizes['35mm'].widthMm / 1000);
