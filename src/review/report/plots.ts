import * as Plot from '@observablehq/plot';
import { parseHTML } from 'linkedom';
import type { RunHistory, StepHistory } from '../record/history.js';
import type { Tables3 } from './report.js';

/** A document to draw in, for the plot library draws into pages. */
const { document } = parseHTML('<!doctype html><html><body></body></html>');

/** What is used of a drawn element; the types of a browser's page are not known here. */
interface Drawn {
  outerHTML: string;
  setAttribute(name: string, value: string): void;
}

/** Draws and gives the SVG as text; `label` is read out in its place. */
function drawn(label: string, options: Plot.PlotOptions): string {
  const node: unknown = Plot.plot({
    width: 860,
    marginLeft: 46,
    marginRight: 20,
    marginBottom: 42,
    style: { background: 'none', fontFamily: 'inherit', fontSize: '12px' },
    ...options,
    document: document as unknown as NonNullable<Plot.PlotOptions['document']>,
  });
  const svg = node as Drawn;
  svg.setAttribute('role', 'img');
  svg.setAttribute('aria-label', label);
  return svg.outerHTML;
}

const minutes = (s: number): number => s / 60;
const ink = 'var(--ink)';

/** What belongs to which liquid, in the colours of the page. */
export const roleColour: Readonly<Record<string, string>> = {
  developer: 'var(--developer)',
  bleach: 'var(--bleach)',
  fixer: 'var(--fixer)',
  stop: 'var(--stop)',
  'backing-remover': 'var(--backing)',
  rinse: 'var(--rinse)',
  water: 'var(--water)',
};
const colourOf = (s: StepHistory): string => roleColour[s.role ?? 'water'] ?? 'var(--water)';

interface Span {
  step: StepHistory;
  from: number;
  to: number;
}

const spansOf = (history: RunHistory): Span[] =>
  history.steps.flatMap((step) =>
    step.startedAtS === null || step.contactS === null
      ? []
      : [{ step, from: minutes(step.startedAtS), to: minutes(step.startedAtS + step.contactS) }],
  );

/** Every bath as a bar from full to empty, with a mark where its time was to end. */
export function timelinePlot(history: RunHistory): string | null {
  const spans = spansOf(history);
  if (spans.length === 0) return null;
  const aims = spans.flatMap(({ step, from }) =>
    step.timeS ? [{ name: step.name, at: from + minutes(step.timeS.aim) }] : [],
  );
  return drawn('Time line of the run: each bath from full to empty, with a mark where its time was to end', {
    height: 64 + 26 * spans.length,
    marginLeft: 180,
    x: { label: 'minutes', labelOffset: 38, grid: true },
    y: { label: null, domain: spans.map((s) => s.step.name) },
    marks: [
      Plot.barX(spans, {
        x1: 'from',
        x2: 'to',
        y: (s: Span) => s.step.name,
        fill: (s: Span) => colourOf(s.step),
        rx: 3,
        insetTop: 4,
        insetBottom: 4,
      }),
      Plot.tickX(aims, { x: 'at', y: 'name', stroke: ink, strokeWidth: 2 }),
    ],
    color: { type: 'identity' },
  });
}

/** Readings over the limits of each step; where none was taken there is only the band. */
export function temperaturePlot(history: RunHistory): string | null {
  const spans = spansOf(history).filter((s) => s.step.tempC !== null);
  const readings = spans.flatMap(({ step, from }) =>
    step.temps.map((t) => ({ at: from + minutes(t.atS), tempC: t.tempC, fill: colourOf(step) })),
  );
  if (spans.length === 0) return null;
  return drawn('Temperature: the band each step asks for, its aim, and what was read', {
    height: 260,
    x: { label: 'minutes', labelOffset: 38, grid: true },
    y: { label: '°C', nice: true, zero: false },
    marks: [
      Plot.rect(spans, {
        x1: 'from',
        x2: 'to',
        // a band of a tenth of a degree would not be seen
        y1: (s: Span) => Math.min(s.step.tempC?.low ?? 0, (s.step.tempC?.aim ?? 0) - 0.15),
        y2: (s: Span) => Math.max(s.step.tempC?.high ?? 0, (s.step.tempC?.aim ?? 0) + 0.15),
        fill: (s: Span) => colourOf(s.step),
        fillOpacity: 0.28,
      }),
      Plot.ruleY(spans, {
        x1: 'from',
        x2: 'to',
        y: (s: Span) => s.step.tempC?.aim ?? 0,
        stroke: (s: Span) => colourOf(s.step),
        strokeWidth: 2,
      }),
      Plot.dot(readings, {
        x: 'at',
        y: 'tempC',
        fill: 'fill',
        r: 5,
        stroke: 'var(--page)',
        strokeWidth: 1.5,
      }),
      Plot.text(readings, {
        x: 'at',
        y: 'tempC',
        text: (r: { tempC: number }) => r.tempC.toFixed(1),
        dy: -12,
        fill: ink,
      }),
    ],
    color: { type: 'identity' },
  });
}

/** How often each density occurs in the picture, layer by layer. */
export function densityPlot(tables: Tables3, width = 400): string {
  const layers = ['var(--red)', 'var(--green)', 'var(--blue)'] as const;
  const rows = tables.counts.flatMap((counts, c) =>
    counts.map((share, i) => ({ d: tables.from + i * tables.step, share, stroke: layers[c] ?? ink })),
  );
  return drawn('Histogram of densities above the base in the red, green and blue layer', {
    width,
    height: 160,
    marginLeft: 12,
    marginTop: 8,
    x: { label: 'density above base', labelOffset: 38 },
    y: { axis: null },
    marks: [
      Plot.areaY(rows, {
        x: 'd',
        y2: 'share',
        z: 'stroke',
        fill: 'stroke',
        fillOpacity: 0.13,
        curve: 'basis',
      }),
      Plot.lineY(rows, {
        x: 'd',
        y: 'share',
        z: 'stroke',
        stroke: 'stroke',
        strokeWidth: 1.8,
        curve: 'basis',
      }),
      Plot.ruleY([0], { stroke: ink, strokeOpacity: 0.4 }),
    ],
    color: { type: 'identity' },
  });
}

/** Where greys go from shadows to highlights in CIELAB: a straight print would stay in the middle. */
export function castPlot(points: readonly { a: number; b: number; name: string }[]): string {
  const reach = Math.max(12, ...points.flatMap((p) => [Math.abs(p.a), Math.abs(p.b)])) * 1.2;
  return drawn('Cast of greys in CIELAB from shadows over middle tones to highlights', {
    width: 320,
    height: 300,
    marginLeft: 40,
    x: { label: 'a* (green to red)', labelOffset: 38, domain: [-reach, reach] },
    y: { label: 'b* (blue to yellow)', domain: [-reach, reach] },
    marks: [
      Plot.ruleX([0], { stroke: ink, strokeOpacity: 0.35 }),
      Plot.ruleY([0], { stroke: ink, strokeOpacity: 0.35 }),
      Plot.line(points, { x: 'a', y: 'b', stroke: ink, strokeOpacity: 0.6, marker: 'arrow' }),
      Plot.dot(points, { x: 'a', y: 'b', fill: ink, r: 4 }),
      Plot.text(points, { x: 'a', y: 'b', text: 'name', dy: -11, fill: ink }),
    ],
  });
}
