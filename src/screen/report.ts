import { bottlesSvg } from './pictures/bottles.js';
import { curvesSvg } from './pictures/curves.js';
import { escaped } from './pictures/plot.js';
import { markSign, timelineSvg } from './pictures/timeline.js';
import { clockText } from './time.js';
import type { PicturesView, TimelineView } from './view.js';

/** The report of one run: a page that stands alone, with its pictures, for keeping or printing. */
export function runReport({ curves, timeline, bottles }: PicturesView): string {
  if (!timeline) throw new Error('there is no run to report');
  const date = new Date(timeline.startedWallMs);
  const title = `Run of ${date.toLocaleDateString('sv-SE')}, ${timeline.sheet}`;
  const parts = [
    `<h1>${escaped(title)}</h1>`,
    `<p>${escaped(summary(timeline))}</p>`,
    '<h2>As planned and as it went</h2>',
    `<figure>${timelineSvg(timeline)}<figcaption>Dashed frames: as planned. Bars: as it went. Ticks: calls.</figcaption></figure>`,
    steps(timeline),
    '<h2>What was noted</h2>',
    noted(timeline),
    '<h2>Temperatures</h2>',
    curves.series.length > 0
      ? `<figure>${curvesSvg({ ...curves, toMs: Math.max(curves.nowMs, curves.fromMs + 60_000) })}<figcaption>Dots: read. Curves: reckoned, with the band that holds nine times in ten.</figcaption></figure>`
      : '<p>No bath was read.</p>',
    temperatures(timeline),
    '<h2>The bottles after it</h2>',
    bottles.length > 0
      ? `<figure>${bottlesSvg(bottles)}<figcaption>Estimates from film area and age. When in doubt, discard; local rules say where it goes.</figcaption></figure>`
      : '<p>No bottle is on record.</p>',
    '<p class="foot">Written by tankside from its journal. The safety data sheets and your local rules decide, not this report.</p>',
  ];
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escaped(title)}</title>
<style>
body { margin: 2rem auto; max-width: 60rem; padding: 0 1rem; font: 1rem/1.45 "Avenir Next", "Segoe UI", "Noto Sans", sans-serif; color: #0c1738; background: #fff; }
h1, h2 { line-height: 1.15; border-bottom: 4px solid #17308f; padding-bottom: .2rem; }
figure { margin: 1rem 0; }
svg { width: 100%; height: auto; }
table { border-collapse: collapse; width: 100%; }
th, td { text-align: left; padding: .25rem .6rem; border-bottom: 1px solid #8a94b5; }
figcaption, .foot { color: #46506e; }
</style>
</head>
<body>
<main>
${parts.join('\n')}
</main>
</body>
</html>
`;
}

function summary(run: TimelineView): string {
  const lasted =
    run.endedMs === null ? '' : ` It took ${clockText(Math.round((run.endedMs - run.startedMs) / 1000))}.`;
  const films = run.films.length > 0 ? run.films.join(', ') : 'no film was named';
  const end =
    run.complete === null
      ? 'It goes on.'
      : run.complete
        ? 'It was taken to its end.'
        : 'It was closed before its end.';
  return `Film: ${films}. Tank: ${run.tankMl} ml. ${end}${lasted}`;
}

const cell = (text: string): string => `<td>${escaped(text)}</td>`;
const table = (head: readonly string[], rows: readonly (readonly string[])[]): string =>
  `<table><thead><tr>${head.map((h) => `<th scope="col">${escaped(h)}</th>`).join('')}</tr></thead><tbody>${rows
    .map((row) => `<tr>${row.map(cell).join('')}</tr>`)
    .join('')}</tbody></table>`;

const temp = (c: number | null): string => (c === null ? 'not read' : `${c.toFixed(1)} °C`);
const time = (s: number | null): string => (s === null ? '–' : clockText(Math.round(s)));

/** By how much it was longer or shorter, from a second on. */
function off({ plannedS, actualS }: TimelineView['real'][number]): string {
  const s = plannedS === null || actualS === null ? 0 : Math.round(actualS - plannedS);
  return s === 0 ? '' : ` (${s > 0 ? '+' : '−'}${clockText(Math.abs(s))})`;
}

const steps = (run: TimelineView): string =>
  table(
    ['Step', 'began', 'planned', 'was', 'held', 'temperature'],
    run.real.map((r) => [
      r.name,
      clockText(Math.max(0, Math.round((r.fromMs - run.startedMs) / 1000))),
      time(r.plannedS),
      time(r.actualS) + off(r),
      r.heldS > 0 ? clockText(Math.round(r.heldS)) : '–',
      temp(r.startTempC),
    ]),
  );

function noted(run: TimelineView): string {
  const marks = run.marks.filter((m) => m.kind !== 'call');
  if (marks.length === 0) return '<p>No slip, spill, override or note is on record.</p>';
  return table(
    ['when', 'what', ''],
    marks.map((m) => [
      clockText(Math.max(0, Math.round((m.atMs - run.startedMs) / 1000))),
      markSign(m.kind),
      m.text,
    ]),
  );
}

const temperatures = (run: TimelineView): string =>
  run.temps.length === 0
    ? ''
    : table(
        ['when', 'bath', 'read'],
        run.temps.map((t) => [
          clockText(Math.max(0, Math.round((t.atMs - run.startedMs) / 1000))),
          t.name,
          temp(t.tempC),
        ]),
      );
