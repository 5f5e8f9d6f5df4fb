import type { Journal } from '../ledger/journal.js';
import type { DayPlan } from '../ledger/plan/types.js';
import { sheets } from '../process/sheets/index.js';
import { carryOver, ofRecipes, type SheetBaths } from '../world/contamination.js';
import { bottleLife, replenishAdvice } from '../world/life.js';
import type { BottleRecord, RunRecord } from '../world/records.js';
import { localDate } from './local-date.js';

const time = (wallMs: number): string =>
  new Date(wallMs).toLocaleTimeString('en-GB', { hour: '2-digit', minute: '2-digit' });

/** Columns padded to the widest cell; plain text that also reads well when piped. */
function table(rows: readonly (readonly string[])[]): string {
  const widths = (rows[0] ?? []).map((_, i) => Math.max(...rows.map((row) => (row[i] ?? '').length)));
  return rows
    .map((row) =>
      row
        .map((cell, i) => cell.padEnd(widths[i] ?? 0))
        .join('  ')
        .trimEnd(),
    )
    .join('\n');
}

/** What the sheet of the newest run says of its baths; with no run, what the recipes say. */
function bathsOf(journal: Journal): SheetBaths {
  const [newest] = journal.runs({ limit: 1 });
  return sheets.find((sheet) => sheet.id === newest?.sheetId) ?? ofRecipes;
}

export function bottlesTable(journal: Journal, wallMs: number): string {
  const bottles = journal.bottles();
  if (bottles.length === 0)
    return 'No bottle is on record yet. Say what a bottle holds, for example: bottle 2 holds 900 millilitres of developer.';
  const baths = bathsOf(journal);
  const rows = bottles.map((bottle) => {
    const life = bottleLife(bottle, wallMs, baths);
    const { low, usual, high } = life.filmsLeft;
    return [
      String(bottle.number),
      bottle.name ?? '',
      bottle.liquid ?? (bottle.discardedWallMs === null ? 'empty' : 'discarded'),
      `${Math.round(bottle.contents.volumeMl)}${bottle.capacityMl === null ? '' : ` of ${bottle.capacityMl}`} ml`,
      life.ageDays === null ? '' : `${life.ageSure ? '' : 'at least '}${Math.floor(life.ageDays)} d`,
      bottle.runs === 0 ? '' : `${bottle.runs} runs`,
      leftWords(bottle, life.limit, `${usual} (${low} to ${high})`),
      notes(bottle, baths),
    ];
  });
  return table([['No', 'name', 'holds', 'volume', 'age', 'served', '36 exp. films left', 'notes'], ...rows]);
}

const limitWords: Readonly<Record<string, string>> = {
  age: 'too old',
  silver: 'too much silver',
  spoiled: 'spoiled',
};

function leftWords(bottle: BottleRecord, limit: string, films: string): string {
  if (bottle.contents.volumeMl <= 0 || limit === 'unknown') return '';
  return limitWords[limit] ?? films;
}

function notes(bottle: BottleRecord, baths: SheetBaths): string {
  const wrong = bottle.contaminations.map(
    (one) => `${one.volumeMl === null ? 'some' : `${Math.round(one.volumeMl)} ml`} ${one.liquid} went in`,
  );
  const owed = replenishAdvice(bottle, baths)?.addMl ?? 0;
  return [
    ...(bottle.assumed ? ['assumed'] : []),
    ...wrong,
    ...(bottle.contents.volumeMl > 0 && owed >= 10 ? [`replenish ${owed} ml`] : []),
  ].join('; ');
}

export function bottlesJson(journal: Journal, wallMs: number): string {
  const baths = bathsOf(journal);
  return JSON.stringify(
    journal.bottles().map((bottle) => ({
      ...bottle,
      life: bottleLife(bottle, wallMs, baths),
      replenish: replenishAdvice(bottle, baths),
      carryOver: carryOver(bottle),
    })),
    null,
    2,
  );
}

export function runsTable(runs: readonly RunRecord[]): string {
  if (runs.length === 0) return 'No run matches.';
  const rows = runs.map((run) => [
    localDate(run.startedWallMs),
    run.runId,
    run.sheetId,
    run.films.map((f) => `${f.count ?? 1} × ${f.format} ${f.stock}`).join(', '),
    run.complete === null ? 'going on' : run.complete ? 'finished' : 'unfinished',
    [
      [run.deviations.length, 'deviations'],
      [run.spills.length, 'spills'],
      [run.overrides.length, 'overrides'],
    ]
      .filter(([n]) => n !== 0)
      .map(([n, what]) => `${n} ${what}`)
      .join(', '),
  ]);
  return table([['date', 'run', 'sheet', 'films', 'state', ''], ...rows]);
}

export function planText(plan: DayPlan): string {
  const rows = plan.runs.map((run) => [
    String(run.number),
    `${time(run.startsWallMs)} to ${time(run.endsWallMs)}`,
    run.sheetId,
    run.films.map((f) => `${f.format} ${f.stock}`).join(', '),
    run.pushStops === 0 ? '' : `push ${run.pushStops}`,
  ]);
  const needs = plan.needs.map((need) => [
    need.liquid,
    `${need.tankfulMl} ml`,
    `${Math.round(need.haveMl)} ml`,
    `${need.replenishMl} ml`,
    need.mixMl === 0 ? '' : `mix ${need.mixMl} ml`,
  ]);
  const hours = Math.floor(plan.totalS / 3600);
  const minutes = Math.round((plan.totalS % 3600) / 60);
  const parts = [
    ...(rows.length > 0 ? [table([['run', 'time', 'sheet', 'films', ''], ...rows])] : []),
    ...(rows.length > 0
      ? [
          `${hours} h ${minutes} min in all, warming included. ${Math.ceil(plan.waterMl / 100) / 10} litres of warm water.`,
        ]
      : []),
    ...(needs.length > 0 ? [table([['bath', 'tankful', 'have', 'replenish after', ''], ...needs])] : []),
    ...plan.runsOut.map(
      (out) =>
        `Bottle ${out.bottle} (${out.liquid}) is used up after run ${out.afterRun}, about ${time(out.wallMs)}.`,
    ),
    ...plan.notes,
    plan.breaks === null ? 'The day works.' : `It breaks: ${plan.breaks.sentence} ${plan.breaks.remedy}`,
  ];
  return parts.join('\n\n');
}
