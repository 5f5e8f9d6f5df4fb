import type { RunHistory } from '../record/history.js';
import { castName } from '../scan/colour.js';
import type { FrameReading, LayerReading, ScanFindings } from '../scan/reading.js';
import type { Deviation } from '../why/deviations.js';
import type { RankedCause, Verdict } from '../why/rank.js';
import { castPlot, densityPlot, temperaturePlot, timelinePlot } from './plots.js';
import { style } from './style.js';

/** Shares of picture pixels by density, red, green and blue. */
export interface Tables3 {
  from: number;
  step: number;
  counts: readonly [number[], number[], number[]];
}

/** One frame for the page; pictures as data URIs. */
export interface ReportFrame {
  name: string;
  negative: string;
  positive: string | null;
  densities: Tables3;
}

export interface ReportInput {
  history: RunHistory | null;
  deviations: readonly Deviation[];
  verdict: Verdict;
  /** the two sentences of the spoken answer, and of "what should I change" */
  cause: string;
  change: string;
  findings: ScanFindings | null;
  frames: readonly ReportFrame[];
  notes: readonly string[];
}

/** Histogram of a frame above the roll's base, 0 to 2.4 in steps of 0.05. */
export function densitiesOf(frame: FrameReading, base: readonly [number, number, number]): Tables3 {
  const from = -0.1;
  const step = 0.05;
  const bins = 50;
  const counts = [0, 1, 2].map(() => new Array<number>(bins).fill(0)) as [number[], number[], number[]];
  const n = Math.max(1, frame.points.length / 3);
  for (let i = 0; i < frame.points.length; i++) {
    const c = (i % 3) as 0 | 1 | 2;
    const at = Math.round(((frame.points[i] as number) - base[c] - from) / step);
    if (at >= 0 && at < bins) counts[c][at] = (counts[c][at] as number) + 1 / n;
  }
  return { from, step, counts };
}

const escapes: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };
export const escaped = (text: string): string => text.replace(/[&<>"]/g, (c) => escapes[c] ?? c);

const capital = (s: string): string => s.charAt(0).toUpperCase() + s.slice(1);
const percent = (share: number): string => `${Math.round(share * 100)} %`;
const number = (v: number | null, places = 2): string => (v === null ? '' : v.toFixed(places));

/** The whole page: one file, nothing loaded from anywhere. */
export function reportHtml(input: ReportInput): string {
  const { history, findings } = input;
  const title = history
    ? `Run of ${new Date(history.startedWallMs).toLocaleDateString('sv-SE')}`
    : 'A negative, read';
  const parts = [
    header(input, title),
    causesPart(input.verdict),
    input.frames.length > 0 ? framesPart(input) : '',
    findings ? negativePart(findings) : '',
    history ? runPart(history) : '',
    history ? deviationsPart(input.deviations) : '',
    history && history.baths.length > 0 ? bottlesPart(history) : '',
    history && history.slips.length > 0 ? slipsPart(history) : '',
    notesPart(input),
  ];
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>${escaped(title)}</title>
<style>${style}</style>
</head>
<body><main>
${parts.filter(Boolean).join('\n')}
</main></body>
</html>
`;
}

const section = (title: string, body: string, kind = ''): string =>
  `<section${kind ? ` class="${kind}"` : ''}><h2>${escaped(title)}</h2>${body}</section>`;

function header({ history, cause, change }: ReportInput, title: string): string {
  const films = history?.films
    .map((f) => `${f.count} × ${f.format} ${f.stock}${f.pushStops ? `, push ${f.pushStops}` : ''}`)
    .join(', ');
  const about = history ? [history.sheetName, films].filter(Boolean).join(' · ') : '';
  return `<header><p class="about">${escaped(about)}</p><h1>${escaped(title)}</h1>
<p class="lead">${escaped(cause)}</p><p>${escaped(change)}</p></header>`;
}

function causesPart(verdict: Verdict): string {
  const shown = verdict.ranked.filter((c, i) => i < 3 || c.probability > 0.05).slice(0, 5);
  const nothing = `<li class="cause"><div class="bar" style="--share:${Math.round(verdict.nothingWrong * 100)}%"></div><div class="cause-body"><h3>Nothing that this evidence can show <span>${percent(verdict.nothingWrong)}</span></h3></div></li>`;
  const tied =
    verdict.tied.length > 0
      ? `<p class="tied">What is known cannot tell the first two apart.</p>`
      : verdict.besides
        ? `<p class="tied">Beside the first there is a second: ${escaped(verdict.besides.name)}.</p>`
        : '';
  const left =
    verdict.leftOver.length > 0
      ? `<p class="small">Seen, and not explained by the first: ${escaped(verdict.leftOver.map((e) => e.words).join('; '))}.</p>`
      : '';
  const next = verdict.nextTest
    ? `<p class="next"><b>Cheapest next test:</b> ${escaped(verdict.nextTest.does)}.</p>`
    : '';
  const items = [...shown.map(causeItem), verdict.nothingWrong > 0.02 ? nothing : ''];
  return section('What it was', `${tied}<ol class="causes">${items.join('')}</ol>${left}${next}`);
}

function causeItem(c: RankedCause): string {
  const line = (label: string, text: string): string =>
    text ? `<p><b>${label}</b> ${escaped(text)}</p>` : '';
  return `<li class="cause"><div class="bar" style="--share:${Math.round(c.probability * 100)}%"></div><div class="cause-body">
<h3>${escaped(capital(c.name))} <span>${percent(c.probability)}</span></h3>
${line('For:', c.for.map((e) => e.words).join('; '))}${line(
  'Against:',
  c.against
    .slice(0, 3)
    .map((e) => e.words)
    .join('; '),
)}
<p><b>Explains</b> ${percent(c.explains)} of what was out of the ordinary. <b>Then:</b> ${escaped(c.change)}.</p>
<p class="small">Source: ${escaped(c.source)}</p></div></li>`;
}

function framesPart({ frames }: ReportInput): string {
  const one = (f: ReportFrame): string => `<figure class="frame">
<div class="pair"><img src="${f.negative}" alt="Negative ${escaped(f.name)}">${f.positive ? `<img src="${f.positive}" alt="Positive of ${escaped(f.name)}">` : ''}</div>
${densityPlot(f.densities)}<figcaption>${escaped(f.name)}</figcaption></figure>`;
  return section(
    'Frames',
    `<p class="small">As scanned, and balanced: base taken off, greys straightened, one look for all. Below, how often each density occurs above the base.</p><div class="frames">${frames.map(one).join('')}</div>`,
  );
}

function negativePart(f: ScanFindings): string {
  const row = (l: LayerReading): string =>
    `<tr><th scope="row"><i style="background:var(--${l.channel})"></i>${l.channel}</th><td>${number(l.dMin) || 'no bare light seen'}</td><td>${number(l.middle)}</td><td>${number(l.range)}</td><td>${number(l.slope)}</td><td>${number(l.gamma) || 'no known patches'}</td></tr>`;
  const table = `<table><thead><tr><th>layer</th><th>D-min over light</th><th>middle tones</th><th>range</th><th>slope against green</th><th>gamma</th></tr></thead><tbody>${f.layers.map(row).join('')}</tbody></table>`;
  if (!f.cast || !f.crossover) return section('The negative', table);
  const named = [
    { ...f.cast.shadows, name: 'shadows' },
    { ...f.cast.middle, name: 'middle' },
    { ...f.cast.highlights, name: 'highlights' },
  ];
  const cross = `Crossover, highlights less shadows: a* ${number(f.crossover.a, 1)}, b* ${number(f.crossover.b, 1)}, size ${number(f.crossover.size, 1)}. ${
    f.crossover.size < 6
      ? 'One correction for the whole picture is enough.'
      : `${leaning(f.cast)}: no single filter takes that out; curves for each colour do.`
  }`;
  return section(
    'The negative',
    `${table}<div class="side"><div>${castPlot(named)}</div><div><p>Cast of greys in CIELAB, with only the base taken off and one gamma for all layers.</p><p>${escaped(cross)}</p><p class="small">Base ${f.base.by}, red ${number(f.base.scanned[0])}, green ${number(f.base.scanned[1])}, blue ${number(f.base.scanned[2])} as scanned; ${f.frames} ${f.frames === 1 ? 'frame' : 'frames'} read. Densities as ISO 5-1 defines them, through the scanner’s own filters and not those of status M.</p></div></div>`,
  );
}

function leaning({ shadows, highlights }: NonNullable<ScanFindings['cast']>): string {
  const [low, high] = [castName(shadows) || 'nowhere', castName(highlights) || 'nowhere'];
  if (low !== high) return `Shadows lean ${low}, highlights ${high}`;
  const more = Math.hypot(highlights.a, highlights.b) > Math.hypot(shadows.a, shadows.b);
  return `All lean ${low}, ${more ? 'highlights' : 'shadows'} the most`;
}

function runPart(history: RunHistory): string {
  const timeline = timelinePlot(history);
  const temperature = temperaturePlot(history);
  return section(
    'The run',
    `${timeline ? `<div class="plot">${timeline}</div><p class="small">Bars from full to empty; the mark is where the time was to end.</p>` : ''}${temperature ? `<h3>Temperature</h3><div class="plot">${temperature}</div><p class="small">Bands and lines: what each step asks for. Dots: what was read.</p>` : ''}`,
  );
}

const arrows = { up: '↑', down: '↓', shifts: '↔' } as const;

function deviationsPart(deviations: readonly Deviation[]): string {
  if (deviations.length === 0)
    return section('Deviations', '<p>None: every step on record kept to its sheet.</p>');
  const rows = deviations
    .map((d) => {
      const effects = d.effects
        .map((e) => `${e.layer ? `${e.layer} layer ` : ''}${e.on} ${arrows[e.way]}`)
        .join(', ');
      return `<tr><td>${escaped(capital(d.what))}</td><td>${escaped(effects)}</td><td class="small">${escaped(d.source)}</td></tr>`;
    })
    .join('');
  return section(
    'Deviations',
    `<table><thead><tr><th>what</th><th>expected effect</th><th>source</th></tr></thead><tbody>${rows}</tbody></table>`,
  );
}

function bottlesPart(history: RunHistory): string {
  const rows = history.baths
    .map((b) => {
      const age =
        b.ageDays === null
          ? ''
          : `${Math.floor(b.ageDays)} d${b.keepsDays === null ? '' : ` of ${b.keepsDays}`}`;
      const foreign = b.foreign.map((f) => `${(f.share * 100).toFixed(1)} % ${f.liquid}`).join(', ');
      return `<tr><th scope="row">${escaped(b.liquid)}</th><td>${b.bottle ?? ''}</td><td>${escaped(b.batch ?? '')}</td><td>${age}</td><td>${b.loadShare === null ? '' : percent(b.loadShare)}</td><td>${number(b.ph)}</td><td>${b.strength === null ? '' : percent(b.strength)}</td><td>${escaped(foreign)}</td></tr>`;
    })
    .join('');
  return section(
    'The bottles, as they went in',
    `<table><thead><tr><th>bath</th><th>bottle</th><th>batch</th><th>age</th><th>used</th><th>pH</th><th>strength</th><th>mixed in</th></tr></thead><tbody>${rows}</tbody></table>`,
  );
}

function slipsPart(history: RunHistory): string {
  const items = history.slips
    .map((s) => `<li><span class="when">${minutesOf(s.atS)}</span>${escaped(s.what)}</li>`)
    .join('');
  return section('Said and noted', `<ul class="slips">${items}</ul>`);
}

const minutesOf = (s: number): string =>
  `${Math.floor(s / 60)}:${String(Math.floor(Math.abs(s) % 60)).padStart(2, '0')}`;

function notesPart({ notes, findings }: ReportInput): string {
  const all = [...notes, ...(findings?.warnings ?? [])];
  return `<footer>${all.map((n) => `<p>${escaped(n)}</p>`).join('')}<p>Shares are what this evidence makes of the causes that are known here; they are not measurements. Effects are trends from published handbooks and the trade.</p></footer>`;
}
