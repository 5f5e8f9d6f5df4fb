import { clockText } from '../time.js';
import type { BottleView, DayView, TimelineView } from '../view.js';
import { capital } from '../words.js';
import { markSign } from './timeline.js';

/** The same pictures in characters, for a terminal; no row is longer than `columns`. */

const cut = (text: string, columns: number): string =>
  text.length <= columns ? text.padEnd(columns) : `${text.slice(0, Math.max(0, columns - 1))}…`;

/** A bar of cells; later ones are put over earlier ones. */
class Cells {
  readonly #cells: string[];
  constructor(
    readonly wide: number,
    private readonly from: number,
    private readonly to: number,
  ) {
    this.#cells = Array.from({ length: wide }, () => ' ');
  }
  at(value: number): number {
    const share = (value - this.from) / Math.max(1e-9, this.to - this.from);
    return Math.min(this.wide - 1, Math.max(0, Math.floor(share * this.wide)));
  }
  fill(from: number, to: number, sign: string): this {
    // however short, it is there
    for (let i = this.at(from); i <= Math.max(this.at(from), this.at(to) - 1); i++) this.#cells[i] = sign;
    return this;
  }
  put(value: number, sign: string): this {
    this.#cells[this.at(value)] = sign;
    return this;
  }
  write(value: number, text: string): this {
    const start = Math.min(this.wide - text.length, this.at(value));
    const free = this.#cells.slice(Math.max(0, start - 1), start + text.length + 1).every((c) => c === ' ');
    if (start >= 0 && free)
      [...text].forEach((c, i) => {
        this.#cells[start + i] = c;
      });
    return this;
  }
  toString(): string {
    return this.#cells.join('');
  }
}

/** Whole steps of a scale, six at most. */
const steps = (last: number): number[] => {
  const step = [1, 2, 5, 10, 15, 20, 30, 60, 120].find((s) => last / s <= 6) ?? Math.ceil(last / 6);
  return Array.from({ length: Math.floor(last / step) + 1 }, (_, i) => i * step);
};

/** The run, a row for each step: light cells as planned, full ones as it went, a stroke for each call. */
export function timelineRows(view: TimelineView, columns = 78): string {
  const minute = (atMs: number): number => (atMs - view.startedMs) / 60_000;
  const names = [...new Set([...view.planned.map((p) => p.name), ...view.real.map((r) => r.name)])];
  const nameWide = Math.min(24, Math.max(...names.map((n) => n.length), 5));
  const wide = Math.max(12, columns - nameWide - 20);
  const last = Math.max(
    1,
    ...view.planned.map((p) => minute(p.toMs)),
    ...view.real.map((r) => minute(r.toMs ?? view.nowMs)),
  );
  const cells = (): Cells => new Cells(wide, 0, last);
  const rows = names.map((name) => {
    const bar = cells();
    for (const p of view.planned) if (p.name === name) bar.fill(minute(p.fromMs), minute(p.toMs), '░');
    const real = view.real.filter((r) => r.name === name);
    for (const r of real) {
      const toMs = r.toMs ?? view.nowMs;
      bar.fill(minute(r.fromMs), minute(toMs), '█');
      for (const m of view.marks)
        if (m.kind === 'call' && m.atMs >= r.fromMs && m.atMs < toMs) bar.put(minute(m.atMs), '┃');
    }
    const end = real.at(-1);
    const label = !end
      ? ''
      : [
          end.actualS === null ? 'goes on' : clockText(Math.round(end.actualS)),
          end.startTempC === null ? '' : `${end.startTempC.toFixed(1)} °C`,
        ]
          .filter(Boolean)
          .join(', ');
    return `${cut(name, nameWide)} ${bar} ${label}`;
  });
  const scale = cells();
  for (const m of steps(last)) scale.write(m, String(m));
  const noted = view.marks.filter((m) => m.kind !== 'call');
  const signs = cells();
  for (const m of noted) signs.put(minute(m.atMs), markSign(m.kind).slice(0, 1));
  return [
    ...rows,
    ...(noted.length > 0 ? [`${cut('noted', nameWide)} ${signs}`] : []),
    `${cut('', nameWide)} ${scale} minutes`,
    '░ planned  █ as it went  ┃ called',
    ...noted.map(
      (m) =>
        `${clockText(Math.max(0, Math.round(minute(m.atMs) * 60))).padStart(6)} ${markSign(m.kind)}: ${m.text}`,
    ),
  ]
    .map((row) => row.trimEnd())
    .map((row) => (row.length <= columns ? row : cut(row, columns)))
    .join('\n');
}

/** How far each bottle's filling is through its life, by film and by age. */
export function bottleRows(bottles: readonly BottleView[], columns = 78): string {
  if (bottles.length === 0) return 'No bottle is on record.';
  const wide = Math.max(10, columns - 50);
  const bar = (share: number): string =>
    String(new Cells(wide, 0, 1).fill(0, 1, '░').fill(0, Math.min(1, share), share > 0 ? '█' : '░'));
  const share = (done: number, left: number): number =>
    done + left <= 0 ? 1 : Math.min(1, done / (done + left));
  return bottles
    .flatMap((b) => {
      const whole = b.doneM2 + b.leftM2.usual;
      const known = b.ageDays !== null && b.keepDaysLeft !== null;
      const [age, keeps] = [b.ageDays ?? 0, b.keepDaysLeft ?? 0];
      return [
        ...(whole > 0
          ? [
              [
                'film',
                share(b.doneM2, b.leftM2.usual),
                `${b.doneM2.toFixed(2)} of ${whole.toFixed(2)} m²`,
              ] as const,
            ]
          : []),
        [
          'age',
          known ? share(age, keeps) : 0,
          known ? `${Math.floor(age)} of ${Math.round(age + keeps)} days` : 'not known',
        ] as const,
      ].map(
        ([what, used, text], i) =>
          `${cut(i === 0 ? `${b.bottle} ${b.holds}${b.known === 'assumed' ? '?' : ''}` : '', 20)} ${what.padEnd(4)} ${bar(used)} ${text}`,
      );
    })
    .map((row) => cut(row, columns).trimEnd())
    .join('\n');
}

/** The day's runs on a clock, and when a bath is used up. */
export function dayRows(view: DayView, columns = 78): string {
  const lastMs = Math.max(
    view.startsWallMs + 3_600_000,
    ...view.runs.map((r) => r.endsWallMs),
    ...view.marks.map((m) => m.wallMs),
  );
  const nameWide = Math.min(28, Math.max(8, ...view.runs.map((r) => r.label.length)));
  const wide = Math.max(12, columns - nameWide - 1);
  const cells = (): Cells => new Cells(wide, view.startsWallMs, lastMs);
  const clock = (wallMs: number): string => new Date(wallMs).toTimeString().slice(0, 5);
  const scale = cells();
  const hourMs = 3_600_000;
  const step = Math.max(1, Math.ceil((lastMs - view.startsWallMs) / hourMs / 6)) * hourMs;
  for (let at = Math.ceil(view.startsWallMs / step) * step; at < lastMs; at += step)
    scale.write(at, clock(at));
  return [
    ...view.runs.map((r) => `${cut(r.label, nameWide)} ${cells().fill(r.startsWallMs, r.endsWallMs, '█')}`),
    `${cut('', nameWide)} ${scale}`,
    ...view.marks.map((m) => `${clock(m.wallMs)}  ${capital(m.text)}`),
  ]
    .map((row) => row.trimEnd())
    .join('\n');
}
