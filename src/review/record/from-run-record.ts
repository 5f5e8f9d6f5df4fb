import { type Batch, bathOf as chemicalBath, planBatch } from '../../chemistry/batch.js';
import { errorEffect } from '../../chemistry/effects.js';
import { recipes } from '../../chemistry/recipes/index.js';
import { equilibriumOf } from '../../chemistry/solution/bath.js';
import { liquidOf, type ProcessSheet, type SheetStep } from '../../process/sheet.js';
import { agitationPlan } from '../../process/timing.js';
import { contaminationIn } from '../../world/contamination.js';
import { filmsAreaM2 } from '../../world/film-area.js';
import { capacityM2PerL, recipeOf } from '../../world/life.js';
import type { BottleRecord, RunRecord, StepRecord } from '../../world/records.js';
import { wentWithout } from '../../world/run-record.js';
import type { BathHistory, FilmHistory, RunHistory, Slip, StepHistory } from './history.js';
import {
  agitationForgotten,
  balanceOf,
  filterNoted,
  keptWarmNoted,
  lightNoted,
  yearsExpired,
} from './stocks.js';

const DAY_MS = 86_400_000;
/** A reading of a bottle this long before its pour still tells how warm the bath went in. source: common practice */
const READING_KEEPS_MS = 20 * 60_000;
/** A pour this long before the clock is the filling of this very bath. */
const FILL_WINDOW_MS = 90_000;

/** What was weighed for one batch, of jars that are not pure what is of use in it. Amounts in the unit of the recipe's line (g, or ml for liquids). */
export interface BatchRecord {
  batch: string;
  recipe: string;
  volumeMl: number;
  ph: number | null;
  used: { substance: string; massG: number }[];
}

export interface RecordSources {
  sheet: ProcessSheet;
  /** the bottle as it was when the bath was poured; null: not known */
  bottleBefore: (bottle: number, wallMs: number) => BottleRecord | null;
  batches: readonly BatchRecord[];
  /** when the assistant called by its clock, ms on the bench clock; null: not known */
  calledMs: readonly number[] | null;
}

/** A call this near to its time was that one; the journal writes them down as they go out. */
const CALL_MS = 2_000;

/** The one place that knows the present records: a run with its sheet, bottles and batches, as the review reads it. */
export function historyOf(run: RunRecord, sources: RecordSources): RunHistory {
  const { sheet, bottleBefore, batches } = sources;
  const steps = stepsOf(run, sources);
  const next = run.complete === false ? sheet.steps[reachedIn(run, sheet) + 1] : undefined;
  return {
    runId: run.runId,
    sheetName: sheet.name,
    rate: sheet.rate ?? null,
    startedWallMs: run.startedWallMs,
    endedWallMs: run.endedWallMs,
    complete: run.complete,
    ...(next && run.lacking.length === 0 && { closedBefore: next.name }),
    tankMl: run.tankMl,
    films: filmsOf(run),
    steps,
    baths: bathsOf(run, sheet, bottleBefore, batches),
    slips: slipsOf(run),
  };
}

function filmsOf(run: RunRecord): FilmHistory[] {
  const runNotes = run.notes.map((n) => n.text).join(' ');
  return run.films.map((film) => {
    const notes = `${film.notes ?? ''} ${runNotes}`;
    const push = /\b(push|pull)(?:ed)?(?: by)? (\d(?:\.\d)?)/i.exec(notes);
    const balance = balanceOf(film.stock);
    const light = lightNoted(notes);
    return {
      stock: film.stock,
      format: film.format,
      count: film.count ?? 1,
      pushStops:
        film.pushStops ?? (push ? Number(push[2]) * (push[1]?.toLowerCase() === 'pull' ? -1 : 1) : null),
      ratedAboveStops:
        film.ratedIso && film.usedIso ? Math.round(Math.log2(film.usedIso / film.ratedIso) * 10) / 10 : null,
      balance,
      exposedIn: light !== null && filterNoted(notes) ? balance : light,
      yearsExpired: yearsExpired(notes, run.startedWallMs),
      keptWarm: keptWarmNoted(film.notes ?? '') ? true : null,
    };
  });
}

/** Where the last step that was begun stands in the sheet; −1: none was. */
const reachedIn = (run: RunRecord, sheet: ProcessSheet): number =>
  Math.max(-1, ...run.steps.map((s) => sheet.steps.findIndex((x) => x.id === s.stepId)));

function stepsOf(run: RunRecord, sources: RecordSources): StepHistory[] {
  const { sheet } = sources;
  const reached = reachedIn(run, sheet);
  const skipped = wentWithout(run);
  // closed with the film still in it: what it never came to is to blame for nothing
  const over = run.complete === true || run.lacking.length > 0;
  const order = run.steps.map((s) => sheet.steps.findIndex((x) => x.id === s.stepId));
  return sheet.steps.flatMap((step, at): StepHistory[] => {
    const done = run.steps.find((s) => s.stepId === step.id);
    if (!done && step.kind === 'hang') return [];
    // a step still to come is no deviation
    if (!done && !over && at > reached && !skipped.has(step.id)) return [];
    const place = done ? run.steps.indexOf(done) : -1;
    return [stepOf(run, sources, step, done, place > 0 && order.slice(0, place).some((o) => o > at))];
  });
}

function stepOf(
  run: RunRecord,
  { sheet, calledMs }: RecordSources,
  step: SheetStep,
  done: StepRecord | undefined,
  outOfOrder: boolean,
): StepHistory {
  const { time, temp } = step;
  return {
    id: step.id,
    name: step.name,
    liquid: step.liquid,
    role: step.liquid === null ? null : (liquidOf(sheet, step.liquid)?.role ?? null),
    done: done !== undefined,
    startedAtS: done ? (done.startedWallMs - run.startedWallMs) / 1000 : null,
    contactS: done?.actualS ?? null,
    calledS: time === null ? null : (done?.plannedS ?? time.aimS) - step.drain.leadS,
    timeS: time && { aim: done?.plannedS ?? time.aimS, ...limitsAbout(time, done?.plannedS) },
    fillS: done ? fillOf(run, step, done) : null,
    tempC: temp && { aim: temp.aimC, low: temp.minC, high: temp.maxC },
    temps: done ? tempsOf(run, step, done) : [],
    agitation: done ? agitationOf(run, step, done, calledMs) : null,
    heldS: done?.heldS ?? 0,
    outOfOrder,
  };
}

function agitationOf(
  run: RunRecord,
  step: SheetStep,
  { startedAtMs, startedWallMs, actualS, plannedS }: StepRecord,
  calledMs: RecordSources['calledMs'],
): StepHistory['agitation'] {
  if (actualS === null) return null;
  const drainS = (plannedS ?? step.time?.aimS ?? actualS) - step.drain.leadS;
  const dueMs = agitationPlan(step.agitation, drainS)
    .againS.filter((s) => s < actualS)
    .map((s) => startedAtMs + s * 1000);
  if (dueMs.length === 0) return null;
  const silent =
    calledMs === null
      ? 0
      : dueMs.filter((due) => !calledMs.some((at) => at >= due - CALL_MS && at <= due + CALL_MS)).length;
  const forgotten = run.notes.filter(
    (n) =>
      n.wallMs >= startedWallMs &&
      n.wallMs <= startedWallMs + actualS * 1000 + FILL_WINDOW_MS &&
      agitationForgotten(n.text),
  ).length;
  return {
    calls: dueMs.length,
    missed: calledMs === null && forgotten === 0 ? null : Math.min(dueMs.length, silent + forgotten),
  };
}

/** The sheet's tolerance about a time that was changed for this run, as for a push. */
function limitsAbout(
  time: NonNullable<SheetStep['time']>,
  plannedS: number | null | undefined,
): { low: number; high: number } {
  const shift = (plannedS ?? time.aimS) - time.aimS;
  return { low: time.minS + shift, high: time.maxS + shift };
}

function fillOf(run: RunRecord, step: SheetStep, done: StepRecord): number | null {
  const pour = run.pours.findLast(
    (p) =>
      p.to.kind === 'tank' &&
      p.liquid === step.liquid &&
      p.wallMs <= done.startedWallMs &&
      p.wallMs >= done.startedWallMs - FILL_WINDOW_MS,
  );
  return pour ? (done.startedWallMs - pour.wallMs) / 1000 : null;
}

function tempsOf(run: RunRecord, step: SheetStep, done: StepRecord): StepHistory['temps'] {
  const { startedWallMs, actualS } = done;
  const endMs = startedWallMs + (actualS ?? 0) * 1000;
  const inside = run.temperatures.filter(
    (t) => t.vessel.kind === 'tank' && t.wallMs >= startedWallMs && t.wallMs <= endMs,
  );
  const before = run.temperatures.findLast(
    (t) =>
      t.liquid === step.liquid && t.wallMs <= startedWallMs && t.wallMs >= startedWallMs - READING_KEEPS_MS,
  );
  const start = done.startTempC ?? before?.tempC ?? null;
  return [
    ...(start === null ? [] : [{ atS: 0, tempC: start }]),
    ...inside.map((t) => ({ atS: (t.wallMs - startedWallMs) / 1000, tempC: t.tempC })),
    ...(done.endTempC === null || actualS === null || done.endTempC === start
      ? []
      : [{ atS: actualS, tempC: done.endTempC }]),
  ].sort((a, b) => a.atS - b.atS);
}

function bathsOf(
  run: RunRecord,
  sheet: ProcessSheet,
  bottleBefore: RecordSources['bottleBefore'],
  batches: readonly BatchRecord[],
): BathHistory[] {
  const seen = new Set<string>();
  return run.pours.flatMap((pour): BathHistory[] => {
    if (pour.to.kind !== 'tank' || pour.from.kind !== 'bottle' || seen.has(pour.liquid)) return [];
    seen.add(pour.liquid);
    const role = liquidOf(sheet, pour.liquid)?.role;
    const bottle = bottleBefore(pour.from.number, pour.wallMs);
    if (!role || !bottle) return [];
    const recipe = recipeOf({ recipe: bottle.recipe, liquid: pour.liquid }, sheet);
    const made = batches.find((b) => b.batch === bottle.batch);
    const since = bottle.mixedWallMs;
    const capacity = capacityM2PerL(recipe, liquidOf(sheet, pour.liquid)?.capacity);
    const litres = (bottle.contents.parts[pour.liquid] ?? 0) / 1000;
    const worked = bottle.contents.workM2;
    const mixing = made ? mixingOf(made) : { lines: [], ph: null, working: null };
    const lost = contaminationIn(bottle, sheet)?.strength ?? 1;
    return [
      {
        liquid: pour.liquid,
        role,
        bottle: bottle.number,
        batch: bottle.batch,
        ageDays: since === null ? null : Math.max(0, (pour.wallMs - since) / DAY_MS),
        keepsDays: recipe ? (worked > 0 ? recipe.keeping.usedDays : recipe.keeping.unusedDays) : null,
        loadShare:
          capacity === null || litres <= 0 || bottle.assumed ? null : worked / (capacity.usual * litres),
        ph: bottle.ph ?? mixing.ph,
        phAim: recipe?.ph?.aim ?? null,
        strength:
          made === undefined && bottle.contaminations.length === 0 ? null : (mixing.working ?? 1) * lost,
        // how much of a splash nobody measured is not known
        foreign: bottle.contaminations.flatMap(({ liquid, volumeMl, intoMl }) =>
          volumeMl === null ? [] : [{ liquid, share: volumeMl / Math.max(1, intoMl + volumeMl) }],
        ),
        mixing: mixing.lines,
      },
    ];
  });
}

/** Weighed against the recipe: lines out by more than their tolerance, the pH all lines together give, and the working part. */
function mixingOf(made: BatchRecord): {
  lines: BathHistory['mixing'];
  ph: number | null;
  working: number | null;
} {
  const recipe = recipes.find((r) => r.id === made.recipe);
  const planned = recipe && planBatch(recipe, made.volumeMl);
  if (!recipe || !planned?.ok) return { lines: [], ph: made.ph, working: null };
  const { batch } = planned;
  const ratios = new Map(
    batch.lines.flatMap((line) => {
      const used = made.used.filter((u) => u.substance === line.form.id).reduce((s, u) => s + u.massG, 0);
      // a form that stood in for another is not on the planned line: nothing is known of it then
      return used > 0 && line.unit === 'g' ? [[line, used / line.amount] as const] : [];
    }),
  );
  const off = [...ratios].filter(
    ([line, r]) => Math.abs(r - 1) > Math.max(0.02, line.tolerance / line.amount),
  );
  return {
    lines: off.map(([line, ratio]) => ({
      substance: line.form.name,
      ratio,
      phShift: errorEffect(batch, line, line.amount * ratio).phShift,
    })),
    ph: made.ph ?? phOf(batch, (line) => ratios.get(line) ?? 1),
    working: [...ratios].find(([line]) => line.component.substance === recipe.working)?.[1] ?? null,
  };
}

function phOf(batch: Batch, ratio: (line: Batch['lines'][number]) => number): number | null {
  if (batch.expectedPh === null) return null;
  const solved = equilibriumOf(chemicalBath(batch.lines, batch.volumeMl, ratio));
  return solved.ok ? solved.value.ph : null;
}

function slipsOf(run: RunRecord): Slip[] {
  const at = (wallMs: number): number => (wallMs - run.startedWallMs) / 1000;
  const slips: Slip[] = [
    ...run.spills.map((s) => ({
      kind: 'spill' as const,
      what: `${s.volumeMl} ml of ${s.liquid} spilled`,
      atS: at(s.wallMs),
    })),
    ...run.overrides.map((o) => ({
      kind: 'override' as const,
      what: `${o.move} (${o.why})`,
      atS: at(o.wallMs),
    })),
    ...run.deviations.map((d) => ({
      kind: 'deviation' as const,
      what: `${d.stepId}: ${d.what}`,
      atS: at(d.wallMs),
    })),
    ...run.notes.map((n) => ({ kind: 'note' as const, what: n.text, atS: at(n.wallMs) })),
    ...run.undone.map((u) => ({ kind: 'undone' as const, what: `taken back: ${u.what}`, atS: at(u.wallMs) })),
  ];
  return slips.sort((a, b) => a.atS - b.atS);
}

/** Area of the film of a run, m². */
export const runAreaM2 = (run: RunRecord): number => filmsAreaM2(run.films);
