import drawille from 'drawille';
import type { CurvesView } from '../view.js';

/** What is drawn of a curve; when it is ready is said in words. */
type CurvePlot = Omit<CurvesView, 'series'> & {
  series: readonly Omit<CurvesView['series'][number], 'readyMs'>[];
};

interface Frame {
  x(atMs: number): number;
  y(tempC: number): number;
  lowC: number;
  highC: number;
}

/** Range of temperatures shown, in whole steps. Bands beyond it are cut off. */
function rangeOf(plot: CurvePlot): { lowC: number; highC: number; stepC: number } {
  const all = plot.series.flatMap((s) => [
    ...s.readings.map((r) => r.tempC),
    ...s.curve.map((c) => c.tempC),
    ...(s.aim ? [s.aim.lowC, s.aim.highC] : []),
  ]);
  if (all.length === 0) return { lowC: 15, highC: 45, stepC: 5 };
  const low = Math.min(...all);
  const high = Math.max(...all);
  const stepC = high - low > 12 ? 5 : high - low > 4 ? 2 : 1;
  return {
    lowC: Math.floor((low - 0.2) / stepC) * stepC,
    highC: Math.ceil((high + 0.2) / stepC) * stepC,
    stepC,
  };
}

function frameOf(plot: CurvePlot, box: { left: number; top: number; right: number; bottom: number }): Frame {
  const { lowC, highC } = rangeOf(plot);
  const spanMs = plot.toMs - plot.fromMs;
  return {
    lowC,
    highC,
    x: (atMs) => box.left + ((atMs - plot.fromMs) / spanMs) * (box.right - box.left),
    y: (tempC) => box.bottom - ((tempC - lowC) / (highC - lowC)) * (box.bottom - box.top),
  };
}

/** Minutes from now at which the time axis is marked. */
function minuteMarks(plot: CurvePlot): number[] {
  const span = (plot.toMs - plot.fromMs) / 60_000;
  const step = [1, 2, 5, 10, 15, 30].find((s) => span / s <= 9) ?? 60;
  const first = Math.ceil((plot.fromMs - plot.nowMs) / 60_000 / step);
  const last = Math.floor((plot.toMs - plot.nowMs) / 60_000 / step);
  return Array.from({ length: last - first + 1 }, (_, i) => (first + i) * step);
}

interface Canvas {
  set(x: number, y: number): void;
  frame(delimiter?: string): string;
}
/** The library's types describe an ES module, but it is CommonJS: its default import is the class itself. */
const BrailleCanvas = drawille as unknown as new (width: number, height: number) => Canvas;

/**
 * The same picture in braille characters for a terminal of `columns` by `rows`. Curves are labelled by letter at
 * their right ends; dotted lines are the sheet's limits.
 */
export function curvesBraille(plot: CurvePlot, columns = 72, rows = 18): string {
  const margin = 6;
  const dots = { wide: Math.max(20, columns - margin - 3) * 2, high: Math.max(6, rows - 3) * 4 };
  const canvas = new BrailleCanvas(dots.wide, dots.high);
  const f = frameOf(plot, { left: 0, top: 0, right: dots.wide - 1, bottom: dots.high - 1 });
  const dot = (x: number, y: number): void => canvas.set(Math.round(x), Math.round(y));
  for (const s of plot.series) {
    for (const limit of s.aim ? [s.aim.lowC, s.aim.highC] : []) {
      for (let x = 0; x < dots.wide; x += 4) dot(x, f.y(limit));
    }
    for (let i = 1; i < s.curve.length; i++) {
      const a = s.curve[i - 1];
      const b = s.curve[i];
      if (a && b) segment(dot, f.x(a.atMs), f.y(a.tempC), f.x(b.atMs), f.y(b.tempC));
    }
    for (const r of s.readings) cross(dot, f.x(r.atMs), f.y(r.tempC));
  }
  for (let y = 0; y < dots.high; y += 3) dot(f.x(plot.nowMs), y);

  const lines = canvas
    .frame('\n')
    .split('\n')
    .filter((_, i, all) => i > 0 && i < all.length - 1);
  const rowOf = (tempC: number): number =>
    Math.min(lines.length - 1, Math.max(0, Math.floor(f.y(tempC) / 4)));
  const ends = new Map<number, string>();
  plot.series.forEach((s, i) => {
    const row = rowOf(s.curve.at(-1)?.tempC ?? f.lowC);
    ends.set(row, `${ends.get(row) ?? ''}${letter(i)}`);
  });
  const { stepC } = rangeOf(plot);
  const ticks = new Map<number, string>();
  for (let t = f.lowC; t <= f.highC + 1e-9; t += stepC) ticks.set(rowOf(t), String(t));
  const body = lines.map(
    (line, i) =>
      `${(ticks.get(i) ?? '').padStart(margin - 1)} ${line}${ends.has(i) ? ` ${ends.get(i)}` : ''}`,
  );
  return [...body, timeAxis(plot, f, margin, dots.wide / 2), key(plot)].join('\n');
}

const letter = (i: number): string => String.fromCharCode(97 + (i % 26));

function segment(dot: (x: number, y: number) => void, x1: number, y1: number, x2: number, y2: number): void {
  const steps = Math.max(1, Math.ceil(Math.max(Math.abs(x2 - x1), Math.abs(y2 - y1))));
  for (let i = 0; i <= steps; i++) dot(x1 + ((x2 - x1) * i) / steps, y1 + ((y2 - y1) * i) / steps);
}

function cross(dot: (x: number, y: number) => void, x: number, y: number): void {
  for (const [dx, dy] of [
    [0, 0],
    [1, 0],
    [-1, 0],
    [0, 1],
    [0, -1],
  ] as const)
    dot(x + dx, y + dy);
}

function timeAxis(plot: CurvePlot, f: Frame, margin: number, columns: number): string {
  const cells = new Array<string>(margin + columns + 4).fill(' ');
  for (const m of minuteMarks(plot)) {
    const text = m === 0 ? 'now' : String(m);
    const start = margin + Math.round(f.x(plot.nowMs + m * 60_000) / 2) - Math.floor(text.length / 2);
    const free = cells.slice(start - 1, start + text.length + 1).every((c) => c === ' ');
    if (start < 0 || start + text.length > cells.length || !free) continue;
    [...text].forEach((c, i) => {
      cells[start + i] = c;
    });
  }
  return `${cells.join('').trimEnd()} min`;
}

const key = (plot: CurvePlot): string => plot.series.map((s, i) => `${letter(i)} ${s.name}`).join(', ');
