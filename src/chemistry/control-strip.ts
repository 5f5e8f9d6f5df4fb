/**
 * A log of control strips: Status M densities of a strip exposed alike each time, held against a reference strip.
 * Limits: from memory of Kodak Z-131 (C-41 colour negative), which is the nearest that is known here; H-24 has its own for
 * ECN-2, which nobody could open here. Status M: ISO 5-3.
 */
export type Patch = 'dMin' | 'lowDensity' | 'highDensity';
export type Channel = 'red' | 'green' | 'blue';
export type Densities = Readonly<Record<Channel, number>>;

export interface Strip {
  /** YYYY-MM-DD, with anything after it that tells strips of a day apart */
  date: string;
  patches: Readonly<Record<Patch, Densities>>;
}

export const channels: readonly Channel[] = ['red', 'green', 'blue'];

/** What is plotted: D-min, speed (low density), contrast (high less low), each against the reference. */
export type Measure = 'dMin' | 'speed' | 'contrast';
export const measures: readonly Measure[] = ['dMin', 'speed', 'contrast'];

export const controlLimits: Readonly<Record<Measure, { action: number; control: number }>> = {
  dMin: { action: 0.03, control: 0.05 },
  speed: { action: 0.06, control: 0.08 },
  contrast: { action: 0.07, control: 0.09 },
};

export interface Deviation {
  measure: Measure;
  channel: Channel;
  /** density above (+) or below (−) the reference */
  by: number;
  level: 'in' | 'action' | 'out';
}

const of = (strip: Strip, measure: Measure, channel: Channel): number => {
  const { dMin, lowDensity, highDensity } = strip.patches;
  if (measure === 'dMin') return dMin[channel];
  return measure === 'speed' ? lowDensity[channel] : highDensity[channel] - lowDensity[channel];
};

/** Every measure of a strip against the reference. */
export const deviations = (strip: Strip, reference: Strip): Deviation[] =>
  measures.flatMap((measure) =>
    channels.map((channel): Deviation => {
      const by = of(strip, measure, channel) - of(reference, measure, channel);
      const { action, control } = controlLimits[measure];
      const size = Math.abs(by) - 1e-9;
      return { measure, channel, by, level: size > control ? 'out' : size > action ? 'action' : 'in' };
    }),
  );

export interface Drift {
  measure: Measure;
  channel: Channel;
  /** slope, density per strip, by least squares */
  perStrip: number;
  /** strips until the control limit at this slope; null: it does not drift towards it */
  stripsLeft: number | null;
}

/** Below this many strips a slope means nothing. source: common practice */
const fewest = 4;

/** A slope counts when it moves more over the log than its points scatter about it. */
export function drifts(strips: readonly Strip[], reference: Strip): Drift[] {
  if (strips.length < fewest) return [];
  return measures.flatMap((measure) =>
    channels.flatMap((channel): Drift[] => {
      const y = strips.map((s) => of(s, measure, channel) - of(reference, measure, channel));
      const n = y.length;
      const mx = (n - 1) / 2;
      const my = y.reduce((a, b) => a + b, 0) / n;
      const sxx = y.reduce((sum, _v, i) => sum + (i - mx) ** 2, 0);
      const slope = y.reduce((sum, v, i) => sum + (i - mx) * (v - my), 0) / sxx;
      const scatter = Math.sqrt(y.reduce((sum, v, i) => sum + (v - my - slope * (i - mx)) ** 2, 0) / (n - 2));
      if (Math.abs(slope) * (n - 1) <= Math.max(2 * scatter, 0.01)) return [];
      const now = my + slope * (n - 1 - mx);
      const left = (controlLimits[measure].control * Math.sign(slope) - now) / slope;
      return [{ measure, channel, perStrip: slope, stripsLeft: left > 0 ? Math.ceil(left) : 0 }];
    }),
  );
}

const header = 'date,patch,red,green,blue';
const patchNames: readonly Patch[] = ['dMin', 'lowDensity', 'highDensity'];

/** The log as comma-separated values, one line a patch; the first strip is the reference. */
export const writeStrips = (strips: readonly Strip[]): string =>
  [
    header,
    ...strips.flatMap((s) =>
      patchNames.map((p) => [s.date, p, ...channels.map((c) => s.patches[p][c].toFixed(2))].join(',')),
    ),
  ]
    .join('\n')
    .concat('\n');

/** Reads it back. Error: the line that cannot be read. */
export function readStrips(text: string): { ok: true; strips: Strip[] } | { ok: false; why: string } {
  const strips: Strip[] = [];
  const lines = text.split(/\r?\n/).filter((l) => l !== '' && l !== header);
  for (let i = 0; i < lines.length; i += patchNames.length) {
    const patches: Partial<Record<Patch, Densities>> = {};
    let date = '';
    for (const [k, patch] of patchNames.entries()) {
      const [day = '', name, ...numbers] = (lines[i + k] ?? '').split(',');
      const [red, green, blue] = numbers.map(Number);
      if (name !== patch || ![red, green, blue].every(isDensity)) {
        return {
          ok: false,
          why: `Line ${i + k + 2} of the control strips should be "${day || 'DATE'},${patch},RED,GREEN,BLUE".`,
        };
      }
      date = day;
      patches[patch] = { red: red ?? 0, green: green ?? 0, blue: blue ?? 0 };
    }
    strips.push({ date, patches: patches as Record<Patch, Densities> });
  }
  return { ok: true, strips };
}

/** Densities of negatives lie between clear and black. */
export const isDensity = (d: number | undefined): d is number => d !== undefined && d >= 0 && d <= 5;

/** Characters of the plot to either side of the reference; its edge is one and a half control limits. */
const half = 24;

/** A plot to print: one line a strip, oldest first; R, G and B at their deviation, `|` the reference, `:` the control limits. */
export function plotLines(strips: readonly Strip[], reference: Strip, measure: Measure): string[] {
  const { control } = controlLimits[measure];
  const column = (by: number): number =>
    half + Math.max(-half, Math.min(half, Math.round((by / (1.5 * control)) * half)));
  return strips.map((s) => {
    const row = Array.from({ length: 2 * half + 1 }, () => ' ');
    row[half] = '|';
    row[column(control)] = ':';
    row[column(-control)] = ':';
    for (const c of channels) {
      const at = column(of(s, measure, c) - of(reference, measure, c));
      row[at] = 'RGB*'.includes(row[at] ?? ' ') ? '*' : c.charAt(0).toUpperCase();
    }
    return `${s.date.padEnd(12)}${row.join('')}`;
  });
}

export interface StripVerdict {
  date: string;
  /** what is beyond its action or control limit; empty: in control */
  off: Deviation[];
  drifts: Drift[];
}

/** The newest strip against the first, and what drifts; null: fewer than two are noted. */
export function verdictOf(strips: readonly Strip[]): StripVerdict | null {
  const [reference] = strips;
  const newest = strips.at(-1);
  if (reference === undefined || newest === undefined || strips.length < 2) return null;
  return {
    date: newest.date,
    off: deviations(newest, reference).filter((d) => d.level !== 'in'),
    drifts: drifts(strips, reference),
  };
}
