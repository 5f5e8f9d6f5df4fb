import drawille from 'drawille';
import type { CurvePlot, CurveSeries } from './desks/warm/plot-data.js';

export { type CurvePlot, type CurveSeries, plotOf } from './desks/warm/plot-data.js';

/** Okabe and Ito's colours, told apart by most colour-blind eyes. */
const colours = ['#0072b2', '#d55e00', '#009e73', '#cc79a7', '#56b4e9', '#e69f00', '#000000', '#8a7700'];
const colourOf = (i: number): string => colours[i % colours.length] ?? '#000000';

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

const escaped = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');
const n = (value: number): string => value.toFixed(1);

/**
 * All vessels' curves as an SVG picture: readings as dots, reckoned curves with their 90 % bands, the sheet's
 * limits as strips, a line at now. Stands alone (no script, no outside font), so that a report can hold it.
 */
export function curvesSvg(plot: CurvePlot, title = 'Bath temperatures'): string {
  const width = 860;
  const height = 460;
  const box = { left: 52, top: 40, right: width - 130, bottom: height - 48 };
  const f = frameOf(plot, box);
  const { stepC } = rangeOf(plot);
  const parts: string[] = [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" role="img" font-family="sans-serif" font-size="12">`,
    `<title>${escaped(title)}</title>`,
    `<rect width="${width}" height="${height}" fill="#ffffff"/>`,
    `<clipPath id="plot"><rect x="${box.left}" y="${box.top}" width="${box.right - box.left}" height="${box.bottom - box.top}"/></clipPath>`,
    `<text x="${box.left}" y="22" font-size="15">${escaped(title)}, °C by minutes from now</text>`,
  ];
  for (let t = f.lowC; t <= f.highC + 1e-9; t += stepC) {
    parts.push(
      `<line x1="${box.left}" x2="${box.right}" y1="${n(f.y(t))}" y2="${n(f.y(t))}" stroke="#dddddd"/>`,
      `<text x="${box.left - 6}" y="${n(f.y(t) + 4)}" text-anchor="end">${t}</text>`,
    );
  }
  for (const m of minuteMarks(plot)) {
    const x = n(f.x(plot.nowMs + m * 60_000));
    parts.push(
      `<line x1="${x}" x2="${x}" y1="${box.bottom}" y2="${box.bottom + 5}" stroke="#444444"/>`,
      `<text x="${x}" y="${box.bottom + 20}" text-anchor="middle">${m === 0 ? 'now' : m}</text>`,
    );
  }
  parts.push('<g clip-path="url(#plot)">');
  plot.series.forEach((s, i) => {
    if (s.aim) {
      const top = f.y(s.aim.highC);
      const tall = Math.max(1.5, f.y(s.aim.lowC) - top);
      parts.push(
        `<rect x="${box.left}" y="${n(top)}" width="${box.right - box.left}" height="${n(tall)}" fill="${colourOf(i)}" opacity="0.12"/>`,
      );
    }
  });
  plot.series.forEach((s, i) => {
    parts.push(...seriesSvg(s, f, colourOf(i)));
  });
  const now = n(f.x(plot.nowMs));
  parts.push(
    '</g>',
    `<line x1="${now}" x2="${now}" y1="${box.top}" y2="${box.bottom}" stroke="#444444" stroke-dasharray="4 4"/>`,
    ...legend(plot, f, box.right + 8),
    '</svg>',
  );
  return parts.join('\n');
}

function seriesSvg(s: CurveSeries, f: Frame, colour: string): string[] {
  const at = (atMs: number, tempC: number): string => `${n(f.x(atMs))},${n(f.y(tempC))}`;
  const upper = s.curve.map((c) => at(c.atMs, c.highC));
  const lower = s.curve.map((c) => at(c.atMs, c.lowC)).reverse();
  const line = s.curve.map((c) => at(c.atMs, c.tempC));
  return [
    `<polygon points="${[...upper, ...lower].join(' ')}" fill="${colour}" opacity="0.15"/>`,
    `<polyline points="${line.join(' ')}" fill="none" stroke="${colour}" stroke-width="2"/>`,
    ...s.readings.map(
      (r) => `<circle cx="${n(f.x(r.atMs))}" cy="${n(f.y(r.tempC))}" r="3.5" fill="${colour}"/>`,
    ),
  ];
}

/** Names beside the line ends, pushed apart so that they do not overprint. */
function legend(plot: CurvePlot, f: Frame, x: number): string[] {
  const ends = plot.series
    .map((s, i) => ({ name: s.name, colour: colourOf(i), y: f.y(s.curve.at(-1)?.tempC ?? f.lowC) }))
    .sort((a, b) => a.y - b.y);
  let free = 0;
  return ends.map((e) => {
    const y = Math.max(e.y + 4, free);
    free = y + 15;
    return `<text x="${x}" y="${n(y)}" fill="${e.colour}">${escaped(e.name)}</text>`;
  });
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
