import { type FilmState, stageOf } from '../world/film.js';
import type { Role } from '../world/liquids.js';
import type { LiquidId } from '../world/vessel.js';
import { bottleOf } from './bench.js';
import type { GuardView, Move, ReasonParams } from './guard.js';
import {
  carriedInto,
  type Entry,
  intoBottle,
  intoTank,
  severity,
  tableEntry,
  toSink,
} from './guard-table.js';
import { liquidOf, roleOf, type SheetStep } from './sheet.js';

/** What the guard looked at beside chemistry; shown with the verdict. */
export interface Checks {
  /** room left in the bottle against what comes, ml */
  headroom?: { freeMl: number; neededMl: number };
  /** the funnel takes less than the whole */
  portions?: { count: number; eachMl: number };
  filter: boolean;
  temperature?: { aimC: number; minC: number; maxC: number; tempC: number | null };
  /** a bath that must not simply go down the drain */
  localCodes: boolean;
}

export interface Finding {
  entry: Entry;
  params: Partial<ReasonParams>;
}

/** The sheet's step that uses this bath; the first, when there are several. */
export const stepFor = (view: Pick<GuardView, 'sheet'>, liquid: LiquidId): SheetStep | undefined =>
  view.sheet.steps.find((s) => s.liquid === liquid && s.kind === 'bath') ??
  view.sheet.steps.find((s) => s.liquid === liquid);

const liquidForRole = (view: GuardView, role: Role): LiquidId | undefined =>
  view.sheet.steps.flatMap((s) =>
    s.liquid !== null && roleOf(view.sheet, s.liquid) === role ? [s.liquid] : [],
  )[0];

const worse = (a: Finding, b: Finding | null): Finding =>
  b && severity[b.entry[0]] > severity[a.entry[0]] ? b : a;

/** Into the tank: the film's state, then what clings to film and tank. */
export function carryEntry(move: Move, view: GuardView): Finding {
  const toppingUp = view.bench.tank?.liquid === move.liquid;
  const finding = onFilm(move, view, toppingUp ? view.filmBefore : view.film);
  return toppingUp && finding.entry[0] === 'clear' ? { entry: ['clear', 'top-up'], params: {} } : finding;
}

function onFilm(move: Move, view: GuardView, film: FilmState): Finding {
  const role = roleOf(view.sheet, move.liquid) ?? 'water';
  const base: Finding = { entry: intoTank[stageOf(film)][role], params: {} };
  if (film.carry === null || film.carry === role) return base;
  const entry = carriedInto[film.carry]?.[role];
  const other = liquidForRole(view, film.carry);
  return worse(base, entry ? { entry, params: { ...(other && { other }) } } : null);
}

/** Out of the tank, a jug or a bottle. */
export function outEntry(move: Move, view: GuardView): Finding {
  const role = roleOf(view.sheet, move.liquid) ?? 'water';
  const reusable = stepFor(view, move.liquid)?.reusable ?? false;
  if (move.direction === 'tank-to-sink')
    return { entry: reusable ? toSink[role] : ['clear', 'waste'], params: {} };
  const base: Finding = { entry: tableEntry(stageOf(view.film), role, move.direction), params: {} };
  const oneShot: Finding | null =
    move.direction === 'tank-to-bottle' && !reusable && role !== 'water'
      ? { entry: ['recoverable', 'one-shot-back'], params: {} }
      : null;
  return worse(worse(worse(base, bottleFinding(move, view, role)), taintFinding(move, view)), oneShot);
}

function bottleFinding(move: Move, view: GuardView, role: Role): Finding | null {
  if (move.to.kind !== 'bottle') return null;
  const bottle = bottleOf(view.bench, move.to.number);
  const params = { bottle: move.to.number, ...(bottle?.liquid && { other: bottle.liquid }) };
  if (!bottle || bottle.liquid === null) return { entry: ['clear', 'empty-bottle'], params };
  if (bottle.liquid === move.liquid) return { entry: ['clear', 'own-bottle'], params };
  if (bottle.volumeMl <= 0) return { entry: ['recoverable', 'other-label'], params };
  const held = roleOf(view.sheet, bottle.liquid);
  // two baths of one role under two names are still two baths
  if (held === undefined || held === role) return { entry: ['ruinous', 'mixes-baths'], params };
  return { entry: intoBottle[role][held], params };
}

function taintFinding(move: Move, view: GuardView): Finding | null {
  const source =
    move.from.kind === 'tank'
      ? view.bench.tank
      : move.from.kind === 'jug'
        ? view.bench.jugs.find((j) => j.liquid === move.liquid)
        : null;
  if (!source?.tainted) return null;
  const other = liquidForRole(view, source.tainted.by);
  return { entry: [source.tainted.verdict, 'tainted'], params: { ...(other && { other }) } };
}

/** Headroom, portions, filter, temperature, volume and time. */
export function checksFor(move: Move, view: GuardView): { shown: Checks; entries: Finding[] } {
  const entries: Finding[] = [];
  const step = stepFor(view, move.liquid);
  const role = roleOf(view.sheet, move.liquid);
  const shown: Checks = {
    filter: move.to.kind === 'bottle' && (step?.filter ?? false),
    localCodes: move.to.kind === 'sink' && role !== 'water',
  };
  if (move.to.kind === 'bottle' && move.volumeMl !== null) {
    const bottle = bottleOf(view.bench, move.to.number);
    if (bottle) {
      const freeMl = Math.max(0, bottle.capacityMl - bottle.volumeMl);
      shown.headroom = { freeMl, neededMl: move.volumeMl };
      if (freeMl < move.volumeMl)
        entries.push({
          entry: ['recoverable', 'no-headroom'],
          params: { bottle: move.to.number, ml: freeMl },
        });
    }
    if (move.volumeMl > view.funnelMl) {
      const count = Math.ceil(move.volumeMl / view.funnelMl);
      shown.portions = { count, eachMl: Math.round(move.volumeMl / count) };
    }
  }
  if (move.to.kind === 'tank') entries.push(...intoTankChecks(move, view, step, role, shown));
  if (move.from.kind === 'tank' && view.earlyS !== null && view.earlyS > 0)
    entries.push({ entry: ['recoverable', 'early'], params: { seconds: view.earlyS } });
  return { shown, entries };
}

function intoTankChecks(
  move: Move,
  view: GuardView,
  step: SheetStep | undefined,
  role: Role | undefined,
  shown: Checks,
): Finding[] {
  const entries: Finding[] = [];
  const aim = role === 'water' ? null : step?.temp;
  if (aim) {
    const tempC = view.tempOf(move.liquid, move.from);
    shown.temperature = { aimC: aim.aimC, minC: aim.minC, maxC: aim.maxC, tempC };
    // only the developer's temperature sets the picture; the others have wide limits
    if (role === 'developer' && tempC !== null && (tempC < aim.minC || tempC > aim.maxC))
      entries.push({
        entry: ['recoverable', tempC < aim.minC ? 'developer-cold' : 'developer-hot'],
        params: { tempC, aimC: aim.aimC },
      });
  }
  if (move.from.kind === 'bottle') {
    const volumeMl = bottleOf(view.bench, move.from.number)?.volumeMl ?? 0;
    const alreadyMl = view.bench.tank?.liquid === move.liquid ? view.bench.tank.volumeMl : 0;
    if (volumeMl + alreadyMl < view.bench.tankMl)
      entries.push({
        entry: ['recoverable', 'too-little'],
        params: { bottle: move.from.number, ml: volumeMl },
      });
  }
  return entries;
}

export const liquidName = (view: Pick<GuardView, 'sheet'>, id: LiquidId): string =>
  liquidOf(view.sheet, id)?.name ?? id;
