import * as Plot from '@observablehq/plot';
import type { BottleView, DayView } from '../view.js';
import { capital } from '../words.js';
import { colourOf, day, type Look, svgOf } from './plot.js';

const percent = (done: number, left: number): number =>
  done + left <= 0 ? 100 : Math.min(100, (100 * done) / (done + left));

/** How far each bottle's filling is through its life, by the film it took and by its age; the line is the band. */
export function bottlesSvg(bottles: readonly BottleView[], look: Look = day): string {
  const rows = bottles.flatMap((b) => {
    const name = `Bottle ${b.bottle}, ${b.holds}`;
    const film = {
      row: `${name}: film`,
      used: percent(b.doneM2, b.leftM2.usual),
      low: percent(b.doneM2, b.leftM2.high),
      high: percent(b.doneM2, b.leftM2.low),
      text: `${b.doneM2.toFixed(2)} of ${(b.doneM2 + b.leftM2.usual).toFixed(2)} m²`,
      series: 0,
    };
    const known = b.ageDays !== null && b.keepDaysLeft !== null;
    const used = known ? percent(b.ageDays ?? 0, b.keepDaysLeft ?? 0) : 0;
    const age = {
      row: `${name}: age`,
      used,
      low: used,
      high: used,
      text: known
        ? `${Math.floor(b.ageDays ?? 0)} of ${Math.round((b.ageDays ?? 0) + (b.keepDaysLeft ?? 0))} days`
        : 'age not known',
      series: 1,
    };
    return b.doneM2 + b.leftM2.usual > 0 ? [film, age] : [age];
  });
  const bars = [0, 1].map((series) =>
    Plot.barX(
      rows.filter((r) => r.series === series),
      { x: 'used', y: 'row', fill: colourOf(look, series), fillOpacity: 0.65, insetTop: 4, insetBottom: 4 },
    ),
  );
  return svgOf(
    {
      height: 70 + 26 * Math.max(1, rows.length),
      marginLeft: 250,
      marginRight: 140,
      x: { domain: [0, 100], label: 'used up, % of its life', grid: true },
      y: { domain: rows.map((r) => r.row), label: null },
      marks: [
        ...bars,
        Plot.ruleY(
          rows.filter((r) => r.high > r.low),
          { x1: 'low', x2: 'high', y: 'row', stroke: look.ink, strokeWidth: 2 },
        ),
        Plot.text(rows, { x: 100, y: 'row', text: 'text', dx: 6, textAnchor: 'start', fill: look.ink }),
      ],
    },
    look,
    'What the bottles can still do',
    rows.map((r) => `${r.row}, ${Math.round(r.used)} percent used, ${r.text}`).join('; ') ||
      'No bottle is on record.',
  );
}

/** The day's runs on a clock, with the moments at which a bath is used up. */
export function daySvg(view: DayView, look: Look = day): string {
  const last = Math.max(
    view.startsWallMs + 3_600_000,
    ...view.runs.map((r) => r.endsWallMs),
    ...view.marks.map((m) => m.wallMs),
  );
  return svgOf(
    {
      height: 110 + 34 * Math.max(1, view.runs.length),
      marginLeft: 210,
      marginRight: 30,
      marginTop: 40,
      x: {
        type: 'time',
        domain: [new Date(view.startsWallMs), new Date(last)],
        label: null,
        grid: true,
        tickFormat: (d: Date) => d.toTimeString().slice(0, 5),
      },
      y: { domain: view.runs.map((r) => r.label), label: null },
      marks: [
        Plot.text(view.note === null ? [] : [view.note], {
          frameAnchor: 'top-left',
          dx: -190,
          dy: -34,
          textAnchor: 'start',
          fill: look.ink,
        }),
        Plot.barX(view.runs, {
          x1: (r) => new Date(r.startsWallMs),
          x2: (r) => new Date(r.endsWallMs),
          y: 'label',
          fill: colourOf(look, 0),
          fillOpacity: 0.65,
          insetTop: 5,
          insetBottom: 5,
        }),
        Plot.ruleX(view.marks, { x: (m) => new Date(m.wallMs), stroke: look.ink, strokeDasharray: '4 3' }),
        Plot.text(view.marks, {
          x: (m) => new Date(m.wallMs),
          frameAnchor: 'top',
          dy: -16,
          text: (m) => capital(m.text),
          fill: look.ink,
        }),
      ],
    },
    look,
    "The day's plan",
    [...view.runs.map((r) => r.label), view.note ?? ''].filter(Boolean).join('; '),
  );
}
