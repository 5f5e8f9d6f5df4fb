import { type FilmState, hadS, leastWorkS, washedAfterS } from '../world/film.js';
import type { Role } from '../world/liquids.js';
import type { LiquidId } from '../world/vessel.js';
import { carriedEntry, type Entry, lacking, onFilm, type ReasonId, severity } from './guard-table.js';
import { type ProcessSheet, roleOf, type SheetStep } from './sheet.js';

/** A step of the sheet, or the rinse that a step asks for after itself. */
export interface DueStep extends SheetStep {
  /** how often to fill with water; null: one bath as the step says */
  fills: number | null;
}

const rinseOf = (step: SheetStep, rinse: NonNullable<SheetStep['rinseAfter']>): DueStep => ({
  ...step,
  id: `${step.id}-rinse`,
  name: 'rinse',
  kind: 'rinse',
  liquid: 'water',
  time: null,
  temp: rinse.temp,
  agitation: null,
  drain: { leadS: 0, source: rinse.source },
  reusable: false,
  returnsToBottle: false,
  filter: false,
  rinseAfter: null,
  cautions: [],
  fills: rinse.fills,
});

const expanded = new WeakMap<ProcessSheet, readonly DueStep[]>();

/** All steps in order; a rinse after a bath is a step of its own. */
export function stepsOf(sheet: ProcessSheet): readonly DueStep[] {
  const known = expanded.get(sheet);
  if (known) return known;
  const steps = sheet.steps.flatMap((s): DueStep[] => [
    { ...s, fills: null },
    ...(s.rinseAfter ? [rinseOf(s, s.rinseAfter)] : []),
  ]);
  expanded.set(sheet, steps);
  return steps;
}

export const stepById = (sheet: ProcessSheet, id: string | null): DueStep | undefined =>
  id === null ? undefined : stepsOf(sheet).find((s) => s.id === id);

/** How far down the sheet a step stands; -1: it is none of it. */
export const indexOf = (sheet: ProcessSheet, id: string | null | undefined): number =>
  stepsOf(sheet).findIndex((s) => s.id === id);

/** The step that uses this bath; the first, when there are several. */
export const stepFor = (sheet: ProcessSheet, liquid: LiquidId): DueStep | undefined =>
  stepsOf(sheet).find((s) => s.liquid === liquid && s.kind === 'bath') ??
  stepsOf(sheet).find((s) => s.liquid === liquid);

export interface Due {
  /** the step the film is ready for; null: nothing more can be done for it */
  step: DueStep | null;
  /** plain water has to come first, for this reason */
  wash: ReasonId | null;
  /** a development or a wash that goes on: what is left of it, s */
  restS: number | null;
}

/** A wash that had this share of its least time counts. Source: common practice. */
const washShare = 0.5;
/** One fill of a rinse without a time, s. Source: common practice. */
const fillS = 10;

/**
 * What comes next, from the film alone: the first step that the film does not show and that still does it good. A
 * step that the film no longer needs, or that would harm it now, is passed over.
 */
export function dueOf(film: FilmState, sheet: ProcessSheet): Due {
  if (film.image === 'lost') return { step: null, wash: null, restS: null };
  const steps = stepsOf(sheet);
  // a bath that was cut short has left the washes before it behind as well
  const lastDone = steps.findLastIndex(
    (s) => isBath(sheet, s) && (isDone(film, sheet, s) || restOf(film, sheet, s) !== null),
  );
  const index = steps.findIndex((s, i) => isWanted(film, sheet, s, i, lastDone));
  const step = steps[index];
  if (!step) return { step: null, wash: null, restS: null };
  return { step, wash: washBefore(film, sheet, step), restS: restOf(film, sheet, step) };
}

const isWater = (sheet: ProcessSheet, step: SheetStep): boolean => roleOf(sheet, step.liquid) === 'water';

/** Whether a step pours anything but water. */
const isBath = (sheet: ProcessSheet, step: SheetStep): boolean =>
  step.liquid !== null && !isWater(sheet, step);

function isWanted(
  film: FilmState,
  sheet: ProcessSheet,
  step: DueStep,
  index: number,
  lastDone: number,
): boolean {
  if (film.skipped.includes(step.id)) return false;
  if (step.kind === 'hang') return true;
  // backing that is taken off at the end is rinsed off then
  const late =
    (film.backing === 'softened' && !film.halide) || (isAfterFixer(sheet, index) && fixerLeft(film));
  const behind = index <= lastDone && !late;
  if (isWater(sheet, step)) return !behind && !washed(film, sheet, step, index);
  const role = roleOf(sheet, step.liquid);
  if (role === undefined || isDone(film, sheet, step)) return false;
  const [verdict, reason] = entryFor(film, sheet, role);
  return verdict === 'clear' || (verdict === 'harmless' && lacking[reason] !== undefined);
}

/** What a bath does to this film, with what was left out on purpose taken as agreed to. */
export function entryFor(film: FilmState, sheet: ProcessSheet, role: Role): Entry {
  const entry = onFilm(film, role);
  const wants = lacking[entry[1]];
  return wants !== undefined && leftOut(film, sheet).has(wants) ? ['harmless', entry[1]] : entry;
}

/** Roles of the steps that were left out on purpose. */
const leftOut = (film: FilmState, sheet: ProcessSheet): ReadonlySet<Role | undefined> =>
  new Set(
    stepsOf(sheet)
      .filter((s) => film.skipped.includes(s.id))
      .map((s) => roleOf(sheet, s.liquid)),
  );

/** Nothing but a splash of water since the fixer: it is still in the film, whatever came after. */
export function fixerLeft(film: FilmState): boolean {
  const fixed = film.history.findLastIndex((c) => c.role === 'fixer');
  if (fixed < 0) return false;
  const waterS = film.history.slice(fixed).reduce((n, c) => n + (c.role === 'water' ? c.seconds : 0), 0);
  return waterS < washedAfterS('fixer');
}

const bathBefore = (sheet: ProcessSheet, index: number): DueStep | undefined =>
  stepsOf(sheet)
    .slice(0, index)
    .findLast((s) => !isWater(sheet, s));

const isAfterFixer = (sheet: ProcessSheet, index: number): boolean =>
  roleOf(sheet, bathBefore(sheet, index)?.liquid ?? null) === 'fixer';

/** Whether the film shows that a bath did its work. */
export function isDone(film: FilmState, sheet: ProcessSheet, step: SheetStep): boolean {
  switch (roleOf(sheet, step.liquid)) {
    case 'backing-remover':
      return film.backing !== 'on' && (film.kind.backing || hasHad(film, 'backing-remover'));
    case 'developer':
      return film.image === 'developed';
    case 'stop':
      return afterDeveloper(film, 'stop');
    case 'bleach':
      return film.bleached;
    case 'fixer':
      return !film.halide && film.image !== 'lost';
    case 'rinse':
      // or the last bath of a film that others were left out of
      return film.finished || (film.carry === 'rinse' && !lacks(film, sheet, step));
    default:
      return false;
  }
}

/** Whether a bath before this step was neither given nor left out on purpose. */
const lacks = (film: FilmState, sheet: ProcessSheet, step: SheetStep): boolean =>
  stepsOf(sheet)
    .slice(0, indexOf(sheet, step.id))
    .some((s) => isBath(sheet, s) && !film.skipped.includes(s.id) && !isDone(film, sheet, s));

const hasHad = (film: FilmState, role: Role): boolean => film.history.some((c) => c.role === role);

function afterDeveloper(film: FilmState, role: Role): boolean {
  const developed = film.history.findLastIndex((c) => c.role === 'developer');
  return developed >= 0 && film.history.slice(developed).some((c) => c.role === role);
}

/** Water that a step asks for has been there: loose backing is off, or enough seconds or fills since the last bath. */
function washed(film: FilmState, sheet: ProcessSheet, step: DueStep, index: number): boolean {
  const before = bathBefore(sheet, index);
  // without backing, or with water before any bath: only the water itself counts
  if (!before) return film.washS >= washWantedS(step) || hasHadBath(film);
  const role = roleOf(sheet, before.liquid);
  // backing that was never softened does not come off in water, however often
  if (role === 'backing-remover' && film.kind.backing)
    return (
      film.backing === 'off' ||
      (film.backing === 'on' && (film.image !== 'latent' || film.skipped.includes(before.id)))
    );
  if (!isDone(film, sheet, before) && !film.skipped.includes(before.id)) return true;
  if (film.carry !== null) return false;
  return film.washS >= washWantedS(step) || (step.fills !== null && film.washFills >= step.fills);
}

const hasHadBath = (film: FilmState): boolean => film.history.some((c) => c.role !== 'water');

const washWantedS = (step: DueStep): number =>
  step.time ? Math.max(fillS, washShare * step.time.minS) : fillS * (step.fills ?? 1);

/** Water that takes the place of a stop bath on purpose has done it after this long, s. Source: common practice. */
export const waterStopsS = 25;

/** What clings to the film, against the bath that is to go in; null: nothing that it minds. */
export function clinging(film: FilmState, sheet: ProcessSheet, liquid: LiquidId): Entry | null {
  const stopped = film.carry === 'developer' && film.washS >= waterStopsS && leftOut(film, sheet).has('stop');
  return stopped ? null : carriedEntry(film, sheet, liquid);
}

/** What water that was out too soon has left on the film, against the bath that is to go in before that wash is done. */
export function washedShort(
  film: FilmState,
  sheet: ProcessSheet,
  liquid: LiquidId,
): { entry: Entry; of: LiquidId | undefined } | null {
  const { step } = dueOf(film, sheet);
  const last = film.history.findLast((c) => c.role !== 'water');
  if (film.carry !== null || film.washS === 0 || !last || !step?.time || !isWater(sheet, step)) return null;
  const entry = carriedEntry({ ...film, carry: last.role as FilmState['carry'] }, sheet, liquid);
  if (!entry || severity[entry[0]] < severity.recoverable) return null;
  // most of it is off: it does harm, and ruins nothing
  return { entry: ['recoverable', entry[1]], of: last.liquid };
}

/** What still clings to the film and would harm the bath that is due. */
function washBefore(film: FilmState, sheet: ProcessSheet, step: DueStep): ReasonId | null {
  if (step.liquid === null || isWater(sheet, step)) return null;
  const entry = clinging(film, sheet, step.liquid);
  return entry && severity[entry[0]] >= severity.recoverable ? entry[1] : null;
}

function restOf(film: FilmState, sheet: ProcessSheet, step: DueStep): number | null {
  if (!step.time || step.liquid === null || step.kind !== 'bath') return null;
  const had = hadS(film, roleOf(sheet, step.liquid) ?? 'water', step.time.aimS);
  return had >= leastWorkS ? step.time.aimS - had : null;
}

/** Baths of the sheet that this film should have had by now and did not get. */
export function missing(film: FilmState, sheet: ProcessSheet): DueStep[] {
  return stepsOf(sheet).filter(
    (s) =>
      isBath(sheet, s) &&
      s.kind !== 'hang' &&
      !isDone(film, sheet, s) &&
      // given, though not as the last of all
      !(roleOf(sheet, s.liquid) === 'rinse' && hasHad(film, 'rinse') && fixerLeft(film)),
  );
}
