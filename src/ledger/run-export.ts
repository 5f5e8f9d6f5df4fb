import { filmsAreaM2 } from '../world/film-area.js';
import type { RunRecord } from '../world/records.js';

/** One line a run, RFC 4180 (CRLF, quotes doubled); times ISO 8601, temperatures °C, volumes ml, areas m². */
export function runsCsv(runs: readonly RunRecord[]): string {
  const rows = [columns.map(([name]) => name), ...runs.map((run) => columns.map(([, value]) => value(run)))];
  return rows.map((row) => `${row.map(cell).join(',')}\r\n`).join('');
}

/** Everything on record about the runs, for other programs; the exchange format is what imports again. */
export const runsJson = (runs: readonly RunRecord[]): string => `${JSON.stringify(runs, null, 2)}\n`;

const iso = (wallMs: number | null): string => (wallMs === null ? '' : new Date(wallMs).toISOString());
const list = (items: readonly string[]): string => items.join('; ');

const columns: readonly (readonly [string, (run: RunRecord) => string | number])[] = [
  ['run', (r) => r.runId],
  ['sheet', (r) => r.sheetId],
  ['started', (r) => iso(r.startedWallMs)],
  ['ended', (r) => iso(r.endedWallMs)],
  ['complete', (r) => (r.complete === null ? '' : r.complete ? 'yes' : 'no')],
  ['tank_ml', (r) => r.tankMl],
  [
    'films',
    (r) =>
      list(
        r.films.map((f) =>
          [f.count ?? 1, f.format, f.stock, iso2(f), f.notes ?? ''].filter(Boolean).join(' '),
        ),
      ),
  ],
  ['film_area_m2', (r) => Math.round(filmsAreaM2(r.films) * 1e4) / 1e4],
  [
    'steps',
    (r) =>
      list(
        r.steps.map(
          (s) =>
            `${s.stepId} ${s.actualS ?? '?'} s of ${s.plannedS ?? '?'} s${temps(s.startTempC, s.endTempC)}`,
        ),
      ),
  ],
  ['deviations', (r) => list(r.deviations.map((d) => `${d.stepId}: ${d.what}`))],
  [
    'spills',
    (r) => list(r.spills.map((s) => `${s.volumeMl} ml ${s.liquid}${s.place === null ? '' : ` ${s.place}`}`)),
  ],
  ['overrides', (r) => list(r.overrides.map((o) => `${o.move}: ${o.why}`))],
  ['undone', (r) => list(r.undone.map((u) => u.what))],
  ['notes', (r) => list(r.notes.map((n) => n.text))],
];

const iso2 = (film: { ratedIso?: number; usedIso?: number }): string =>
  film.ratedIso === undefined && film.usedIso === undefined
    ? ''
    : `ISO ${film.ratedIso ?? '?'} used at ${film.usedIso ?? film.ratedIso ?? '?'}`;

const temps = (start: number | null, end: number | null): string => {
  const known = [start, end].filter((t) => t !== null);
  return known.length === 0 ? '' : ` at ${known.join(' to ')} °C`;
};

const cell = (value: string | number): string => {
  const text = String(value);
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
};
