import * as Plot from '@observablehq/plot';
import { clockText } from '../time.js';
import type { MarkKind, TimelineView } from '../view.js';
import { colourOf, day, type Look, svgOf } from './plot.js';

const marksShown: Readonly<Record<Exclude<MarkKind, 'call'>, { sign: string; words: string }>> = {
  slip: { sign: '▲', words: 'slip' },
  spill: { sign: '●', words: 'spill' },
  override: { sign: '■', words: 'guard overridden' },
  note: { sign: '✎', words: 'note' },
  undone: { sign: '↶', words: 'taken back' },
};

/** The run, a row for each step: a frame as planned, a bar as it went, calls as ticks, and signs for what was noted. */
export function timelineSvg(view: TimelineView, look: Look = day): string {
  const minute = (atMs: number): number => (atMs - view.startedMs) / 60_000;
  const rows = [...new Set([...view.planned.map((p) => p.name), ...view.real.map((r) => r.name)])];
  const signs = 'noted';
  const real = view.real.map((r) => ({ ...r, from: minute(r.fromMs), to: minute(r.toMs ?? view.nowMs) }));
  const calls = view.marks.flatMap((m) => {
    const within = view.real.find((r) => m.atMs >= r.fromMs && m.atMs <= (r.toMs ?? view.nowMs));
    return m.kind === 'call' && within ? [{ at: minute(m.atMs), name: within.name }] : [];
  });
  const noted = view.marks.flatMap((m) =>
    m.kind === 'call' ? [] : [{ at: minute(m.atMs), sign: marksShown[m.kind].sign, text: m.text }],
  );
  const used = [...new Set(view.marks.map((m) => m.kind))].filter((k) => k !== 'call');
  const last = Math.max(
    1,
    ...real.map((r) => r.to),
    ...view.planned.map((p) => minute(p.toMs)),
    ...noted.map((n) => n.at),
  );
  const strong = colourOf(look, 0);
  return svgOf(
    {
      height: 90 + 30 * (rows.length + 1),
      marginLeft: 190,
      marginRight: 120,
      x: { label: 'minutes from the start', domain: [0, last], grid: true },
      y: { domain: [...rows, signs], label: null },
      marks: [
        Plot.barX(
          view.planned.map((p) => ({ ...p, from: minute(p.fromMs), to: minute(p.toMs) })),
          { x1: 'from', x2: 'to', y: 'name', fill: 'none', stroke: look.soft, strokeDasharray: '3 2' },
        ),
        Plot.barX(real, {
          x1: 'from',
          x2: 'to',
          y: 'name',
          fill: strong,
          fillOpacity: 0.65,
          insetTop: 5,
          insetBottom: 5,
        }),
        Plot.tickX(calls, { x: 'at', y: 'name', stroke: look.ink, strokeWidth: 1.5 }),
        Plot.text(real, {
          x: 'to',
          y: 'name',
          dx: 5,
          textAnchor: 'start',
          fill: look.ink,
          text: (r: (typeof real)[number]) =>
            [
              r.actualS === null ? 'goes on' : clockText(Math.round(r.actualS)),
              r.startTempC === null ? '' : `${r.startTempC.toFixed(1)} °C`,
            ]
              .filter(Boolean)
              .join(', '),
        }),
        Plot.text(noted, {
          x: 'at',
          y: () => signs,
          text: 'sign',
          fill: look.ink,
          title: 'text',
          fontSize: 16,
        }),
      ],
    },
    look,
    `The run, ${view.sheet}`,
    `Dashed frames: as planned. Bars: as it went. Ticks: calls. ${used.map((k) => `${marksShown[k as Exclude<MarkKind, 'call'>].sign} ${marksShown[k as Exclude<MarkKind, 'call'>].words}`).join(', ')}`,
  );
}

/** The same signs in words, for a list below the picture. */
export const markSign = (kind: MarkKind): string =>
  kind === 'call' ? '│ call' : `${marksShown[kind].sign} ${marksShown[kind].words}`;
