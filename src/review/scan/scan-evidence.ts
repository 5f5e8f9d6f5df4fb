import { type Evidence, type EvidenceId, type Observed, observed } from '../why/evidence.js';
import { castName } from './colour.js';
import { onLine } from './neutral-axis.js';
import type { ScanFindings } from './reading.js';

/**
 * What a plain negative looks like, to hold findings against. Scans differ from status M densitometry by their
 * filters, so these are wide.
 */
export const usual = {
  /** density range of the green layer, thinnest to densest hundredth */
  range: 0.9,
  /** density of middle tones over the base */
  middle: 0.56,
  /** red density of the base over bare light */
  redBase: 0.24,
  /** how much denser the base is to green than to red light, and to blue than to green */
  greenOverRed: { low: 0.22, high: 0.6 },
  blueOverGreen: { low: 0.08, high: 0.45 },
  /** scatter of colours about grey, over the range */
  colourfulness: 0.075,
  source: 'makers’ characteristic curves of colour negative films, from memory; common practice',
} as const;

const two = (v: number): string => v.toFixed(2);
const percent = (v: number): string => `${v < 0.1 ? Math.round(v * 1000) / 10 : Math.round(v * 100)} percent`;

/** A roll's findings as evidence. What a scan cannot show (the base's density without bare light) is left out. */
export function scanEvidence(f: ScanFindings): Observed {
  const seen = new Map<EvidenceId, Evidence>();
  const note = (id: EvidenceId, value: number, said: string): void => {
    seen.set(id, observed(id, value, said));
  };
  const [red, green, blue] = f.layers;
  if (f.axis) {
    const longer = Math.log2(green.range / usual.range);
    note('contrast-low', -longer, two(green.range));
    note('contrast-high', longer, two(green.range));
    note('image-thin', usual.middle - green.middle, two(usual.middle - green.middle));
    note('image-dense', green.middle - usual.middle, two(green.middle - usual.middle));
    note('shadows-empty', f.shadowsEmpty, percent(f.shadowsEmpty));
    const at = green.middle;
    const r = onLine(f.axis.red, at) - at;
    const b = onLine(f.axis.blue, at) - at;
    const words = f.cast ? castWords(f.cast.middle) : '';
    note('cast-blue', Math.min(b - r, 3 * b, -3 * r) / 2, words);
    note('cast-orange', Math.min(r - b, 3 * r, -3 * b) / 2, words);
    note('cast-green', Math.min(-(r + b) / 2, -Math.max(r, b) + 0.05), words);
    note('cast-magenta', Math.min((r + b) / 2, Math.min(r, b) + 0.05), words);
    const redSlope = red.slope ?? 1;
    const blueSlope = blue.slope ?? 1;
    note('red-flat', 1 - redSlope, percent(Math.abs(1 - redSlope)));
    note('red-steep', redSlope - 1, percent(Math.abs(1 - redSlope)));
    note('blue-flat', 1 - blueSlope, percent(Math.abs(1 - blueSlope)));
    note('blue-steep', blueSlope - 1, percent(Math.abs(1 - blueSlope)));
    if (f.colourfulness !== null)
      note(
        'colours-pale',
        Math.log2(usual.colourfulness / Math.max(1e-3, f.colourfulness)),
        two(f.colourfulness),
      );
  }
  note('clipped', f.clipped, percent(f.clipped));
  note('levels-stretched', f.span, percent(f.span));
  if (f.baseWanders !== null) note('base-wanders', f.baseWanders, two(f.baseWanders));
  if (f.base.by !== 'guessed') {
    const base = f.base.aboveLight ?? f.base.scanned;
    const gr = base[1] - base[0];
    const bg = base[2] - base[1];
    const mask = gr + bg;
    const gone = Math.min(1, Math.max(0, 1 - mask / (usual.greenOverRed.low + usual.blueOverGreen.low)));
    note('mask-missing', gone, percent(gone));
    const yellower = bg - usual.blueOverGreen.high + 0.08;
    note('base-yellow', yellower, two(Math.max(0, yellower)));
    // where bare light is seen, its own colour tells; else a base unlike any: too little blue density, or far too much
    const out = f.light
      ? Math.max(...f.light) - Math.min(...f.light)
      : Math.max(
          outside(gr, usual.greenOverRed),
          usual.blueOverGreen.low - bg,
          bg - usual.blueOverGreen.high - 0.25,
        );
    note('base-tinted', out, two(Math.max(0, out)));
    note('edge-stain', f.edges.stained, two(f.edges.stained));
    note('base-uneven', f.edges.fogged, two(f.edges.fogged));
  }
  if (f.base.aboveLight !== null && !f.base.clipped)
    note(
      'base-fog',
      f.base.aboveLight[0] - usual.redBase,
      two(Math.max(0, f.base.aboveLight[0] - usual.redBase)),
    );
  if (f.uneven !== null) note('uneven', f.uneven, two(f.uneven));
  return seen;
}

const outside = (v: number, { low, high }: { low: number; high: number }): number =>
  Math.max(low - v, v - high);

const castWords = (c: { a: number; b: number }): string =>
  `${castName(c) || 'hardly'}, a* ${Math.round(c.a)} b* ${Math.round(c.b)}`;
