import type { FactOf } from './fact.js';
import type { DatedFact, RunRecord, StepRecord, World } from './records.js';
import { vesselKey } from './vessel.js';

/** Finished runs kept on the world for spoken answers; the journal's table keeps every run. */
const KEPT_FINISHED = 12;

/**
 * Of each kind so many are kept of a run: many more than a film brings in its hours, and a bound for one that nobody closes. The
 * journal keeps all.
 */
export const KEPT_OF_A_RUN = 160;

/** The list with one more; when it is full, the first half stays, with what came last. */
export function kept<T>(list: readonly T[], one: T): T[] {
  const half = KEPT_OF_A_RUN / 2;
  const last = list.length < KEPT_OF_A_RUN ? list.slice(half) : list.slice(half + 1);
  return [...list.slice(0, half), ...last, one];
}

/** What stands among the deviations of a run for a step that the film went without. */
export const WENT_WITHOUT = { skipped: 'skipped', water: 'water instead' } as const;

/** The steps of a run that the film is to go without. */
export const wentWithout = ({ deviations }: Pick<RunRecord, 'deviations'>): ReadonlySet<string> => {
  const texts: readonly string[] = Object.values(WENT_WITHOUT);
  return new Set(deviations.filter((d) => texts.includes(d.what)).map((d) => d.stepId));
};

/** The run that was begun last, over or not. */
export const newestRun = ({ runs }: Pick<World, 'runs'>): RunRecord | undefined =>
  Object.values(runs).sort((a, b) => b.startedAtMs - a.startedAtMs)[0];

/** The run that goes on. */
export const runAtWork = ({ run, runs }: Pick<World, 'run' | 'runs'>): RunRecord | undefined =>
  run === null ? undefined : runs[run.runId];

/** The run that a fact is told of. */
export const runOf = ({ run }: Pick<World, 'run'>): { runId?: string } =>
  run === null ? {} : { runId: run.runId };

export const withRun = (world: World, run: RunRecord): World => ({
  ...world,
  runs: { ...world.runs, [run.runId]: run },
});

type Kept = RunRecord['temperatures'][number];

/** A probe reads on and on: of the older half of a full list, the reading goes that is nearest to those around it in its vessel. */
function thinned(list: readonly Kept[], one: Kept): Kept[] {
  if (list.length < KEPT_OF_A_RUN) return [...list, one];
  const gapMs = (at: Kept, i: number): number => {
    const same = (r: Kept) => vesselKey(r.vessel) === vesselKey(at.vessel);
    const before = list.slice(0, i).findLast(same);
    const after = list.slice(i + 1).find(same);
    return before && after ? after.wallMs - before.wallMs : Infinity;
  };
  const gaps = list.slice(0, KEPT_OF_A_RUN / 2).map(gapMs);
  return [...list.toSpliced(gaps.indexOf(Math.min(...gaps)), 1), one];
}

/** A started run, before anything happened in it. */
const started = (fact: FactOf<'run-started'>, atMs: number, wallMs: number): RunRecord => ({
  runId: fact.runId,
  sheetId: fact.sheetId,
  tankMl: fact.tankMl,
  films: fact.films,
  startedAtMs: atMs,
  startedWallMs: wallMs,
  endedWallMs: null,
  complete: null,
  steps: [],
  pours: [],
  temperatures: [],
  deviations: [],
  spills: [],
  overrides: [],
  notes: [],
  undone: [],
  worked: [],
  contacts: [],
  lacking: [],
});

/** The run with one more fact in its record. */
function extended(run: RunRecord, { fact, atMs, wallMs }: DatedFact): RunRecord {
  switch (fact.type) {
    case 'step-started':
      return { ...run, steps: kept(run.steps, stepStarted(fact, atMs, wallMs)) };
    case 'step-ended':
      return { ...run, steps: stepEnded(run.steps, fact, atMs, wallMs) };
    case 'poured': {
      const { from, to, liquid, volumeMl, overridden } = fact;
      const works = to.kind === 'tank' && !run.worked.includes(liquid);
      return {
        ...run,
        pours: kept(run.pours, { from, to, liquid, volumeMl, overridden, wallMs }),
        worked: works ? [...run.worked, liquid] : run.worked,
      };
    }
    case 'temperature': {
      const { vessel, liquid = null, tempC } = fact;
      return { ...run, temperatures: thinned(run.temperatures, { vessel, liquid, tempC, wallMs }) };
    }
    case 'deviation': {
      const { stepId, what, reasons } = fact;
      const deviation = { stepId, what, ...(reasons && { reasons }), wallMs };
      return { ...run, deviations: kept(run.deviations, deviation) };
    }
    case 'spilled': {
      const { liquid, volumeMl, place = null } = fact;
      return { ...run, spills: kept(run.spills, { liquid, volumeMl, place, wallMs }) };
    }
    case 'overridden': {
      const { move, verdict, why } = fact;
      return { ...run, overrides: kept(run.overrides, { move, verdict, why, wallMs }) };
    }
    case 'films-told':
      return { ...run, films: fact.films };
    case 'film-hung':
      return { ...run, lacking: fact.lacking ?? [] };
    case 'note':
      return { ...run, notes: kept(run.notes, { text: fact.text, wallMs }) };
    case 'undone':
      return { ...run, undone: kept(run.undone, { what: fact.what, wallMs }) };
    case 'run-finished':
      return { ...run, complete: fact.complete, endedWallMs: wallMs };
    default:
      return run;
  }
}

const stepStarted = (
  fact: Pick<FactOf<'step-started'>, 'stepId' | 'liquid' | 'tempC'>,
  atMs: number,
  wallMs: number,
): StepRecord => ({
  stepId: fact.stepId,
  liquid: fact.liquid ?? null,
  startedAtMs: atMs,
  startedWallMs: wallMs,
  plannedS: null,
  actualS: null,
  heldS: 0,
  startTempC: fact.tempC ?? null,
  endTempC: null,
});

/** Ends the last open step of that name; a step whose start was never said is entered backwards from its end. */
function stepEnded(
  steps: StepRecord[],
  fact: FactOf<'step-ended'>,
  atMs: number,
  wallMs: number,
): StepRecord[] {
  const { stepId, plannedS, actualS, heldS, tempC: endTempC = null } = fact;
  const end = { plannedS, actualS, heldS, endTempC };
  const index = steps.findLastIndex((step) => step.stepId === stepId && step.actualS === null);
  const open = steps[index];
  if (open !== undefined) return steps.with(index, { ...open, ...end });
  const spentMs = actualS * 1000;
  return kept(steps, { ...stepStarted({ stepId }, atMs - spentMs, wallMs - spentMs), ...end });
}

/** Files the fact under its run. A fact of a run that is not known is kept in the journal, but has no sheet to go on. */
export function applyToRun(world: World, dated: DatedFact): World {
  const { fact, atMs, wallMs } = dated;
  const runId = 'runId' in fact ? fact.runId : undefined;
  const run = fact.type === 'run-started' ? started(fact, atMs, wallMs) : world.runs[runId ?? ''];
  if (run === undefined) return world;
  const next = withRun(world, extended(run, dated));
  return fact.type === 'run-finished' ? { ...next, runs: pruned(next.runs) } : next;
}

function pruned(runs: Record<string, RunRecord>): Record<string, RunRecord> {
  const finished = Object.values(runs)
    .filter((run) => run.complete !== null)
    .sort((a, b) => a.startedAtMs - b.startedAtMs);
  const dropped = finished.slice(0, -KEPT_FINISHED);
  return Object.fromEntries(Object.entries(runs).filter(([, run]) => !dropped.includes(run)));
}
