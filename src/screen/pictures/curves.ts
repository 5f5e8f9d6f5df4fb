import * as Plot from '@observablehq/plot';
import type { CurvesView } from '../view.js';
import { colourOf, dashOf, day, type Look, svgOf } from './plot.js';

/**
 * Temperatures around now: readings as dots, reckoned curves with their 90 % bands, the sheet's limits as strips, and
 * when each bath comes within its own.
 */
export function curvesSvg(view: CurvesView, look: Look = day, title = 'Temperatures of the baths'): string {
  const minute = (atMs: number): number => (atMs - view.nowMs) / 60_000;
  const from = minute(view.fromMs);
  const to = minute(view.toMs);
  const limits = new Map(
    view.series.flatMap(({ aim }) => (aim ? [[`${aim.lowC}|${aim.highC}`, aim] as const] : [])),
  );
  const marks: Plot.Markish[] = [
    Plot.rect([...limits.values()], {
      x1: from,
      x2: to,
      y1: 'lowC',
      y2: 'highC',
      fill: look.ink,
      fillOpacity: 0.1,
    }),
    Plot.ruleX([0], { stroke: look.ink, strokeDasharray: '3 3' }),
    Plot.text(['now'], { x: 0, frameAnchor: 'top', dx: 4, dy: 2, textAnchor: 'start', fill: look.ink }),
  ];
  view.series.forEach((s, i) => {
    const stroke = colourOf(look, i);
    const curve = s.curve.map((c) => ({ ...c, minute: minute(c.atMs) }));
    marks.push(
      Plot.areaY(curve, { x: 'minute', y1: 'lowC', y2: 'highC', fill: stroke, fillOpacity: 0.14 }),
      Plot.line(curve, { x: 'minute', y: 'tempC', stroke, strokeWidth: 2, strokeDasharray: dashOf(i) }),
      Plot.dot(s.readings, { x: (r) => minute(r.atMs), y: 'tempC', r: 3.5, fill: stroke }),
    );
    if (s.readyMs === null) return;
    const ready = minute(s.readyMs);
    const at = curve.find((c) => c.minute >= ready);
    if (at) {
      marks.push(
        Plot.dot([at], { x: 'minute', y: 'tempC', r: 6, stroke, strokeWidth: 2, fill: look.ground }),
        Plot.text([at], {
          x: 'minute',
          y: 'tempC',
          text: () => `ready ${Math.round(ready)} min`,
          dy: -13,
          fill: stroke,
        }),
      );
    }
  });
  return svgOf(
    {
      height: 440,
      marginRight: 150,
      marginLeft: 46,
      x: { domain: [from, to], label: 'minutes from now' },
      y: { label: '°C', grid: true, nice: true },
      marks: [...marks, ...names(view, look, to)],
    },
    look,
    title,
    view.series.map((s) => `${s.name}: ${s.readings.length} readings`).join('; ') || 'Nothing was read yet.',
  );
}

/** Names at the ends of the lines, pushed apart so that they can be read. */
function names(view: CurvesView, look: Look, to: number): Plot.Markish[] {
  const ends = view.series
    .flatMap((s, i) => {
      const last = s.curve.at(-1) ?? s.readings.at(-1);
      return last ? [{ name: s.name, tempC: last.tempC, i }] : [];
    })
    .sort((a, b) => b.tempC - a.tempC);
  let taken = Number.POSITIVE_INFINITY;
  const temps = view.series.flatMap((s) => s.curve.map((c) => c.tempC));
  // about a line of text, in degrees
  const line = ((Math.max(...temps, 1) - Math.min(...temps, 0)) / 360) * 17;
  return ends.map(({ name, tempC, i }) => {
    taken = Math.min(tempC, taken - line);
    return Plot.text([name], { x: to, y: taken, dx: 8, textAnchor: 'start', fill: colourOf(look, i) });
  });
}
