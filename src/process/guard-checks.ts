import { fitness } from '../chemistry/fitness.js';
import { substanceById } from '../chemistry/substances.js';
import { contaminationIn, type SheetBaths, withLastOnly } from '../world/contamination.js';
import { type FilmState, stageOf } from '../world/film.js';
import { bottleLife, changedTime } from '../world/life.js';
import type { Role } from '../world/liquids.js';
import type { BottleRecord } from '../world/records.js';
import { type LiquidId, type VesselRef, vesselKey } from '../world/vessel.js';
import { bottleAt, bottlesFor, contentsOf, readingOf } from '../world/vessels.js';
import { clinging, entryFor, stepFor, washedShort } from './due.js';
import type { GuardView, Move, ReasonParams } from './guard.js';
import {
  carriedIntoOf,
  type Entry,
  givesGas,
  intoBottleOf,
  otherFilm,
  type ReasonId,
  returned,
  severity,
  toSink,
} from './guard-table.js';
import { liquidOf, liquidsUsed, roleOf } from './sheet.js';
import { developmentEffect, type TempState, tempState, timeAt } from './temperature.js';

/** What the guard looked at beside chemistry; shown with the verdict. */
export interface Checks {
  /** the funnel takes less than the whole */
  portions?: { count: number; eachMl: number };
  filter: boolean;
  /** the film's backing was still on in it */
  backing?: boolean;
  temperature?: {
    aimC: number;
    /** the last reading; null: it was never read */
    tempC: number | null;
    /** how long ago that was, s */
    agoS: number | null;
    state: TempState | 'unread' | 'old';
    /** share of development more (+) or less (−) than wanted; null: no law is known */
    effect: number | null;
    developer: boolean;
  };
  /** this very bath takes another time than the sheet's */
  time?: StepTime;
  /** gas comes off with what is left in the tank: the cap stays open until it is out */
  openLid?: boolean;
  /** a bath that must not simply go down the drain */
  localCodes: boolean;
  /** what the vessel holds was never said: taken for granted */
  assumed?: boolean;
}

export interface StepTime {
  seconds: number;
  /** a clause: "hypo fixes more slowly" */
  why: string;
}

export interface Finding {
  entry: Entry;
  params: Partial<ReasonParams>;
}

/** A reading older than this says nothing about the bath now, ms. Source: common practice. */
export const freshMs = 15 * 60_000;

/** So far below its aim a bleach or a fixer may not come to its end in time, °C. Source: common practice. */
const slowC = 10;

/** A bath that nobody read for so long is as warm as the room, for all that is known, ms. Source: common practice. */
const longMs = 2 * 3_600_000;

const liquidForRole = ({ sheet }: Pick<GuardView, 'sheet'>, role: Role): LiquidId | undefined =>
  liquidsUsed(sheet).find((id) => roleOf(sheet, id) === role);

/** What is said before it goes ahead, and waits for a yes. */
export const recoverable = (reason: ReasonId, params: Finding['params'] = {}): Finding => ({
  entry: ['recoverable', reason],
  params,
});

const worse = (a: Finding, b: Finding | null): Finding =>
  b && severity[b.entry[0]] > severity[a.entry[0]] ? b : a;

/** Into the tank: the film's state, what clings to film and tank, and what the bath itself has been through. */
export function intoTankFinding(move: Move, view: GuardView): Finding {
  const bath = view.world.tank.bath;
  const toppingUp = bath?.liquid === move.liquid;
  const finding = filmFinding(move.liquid, view, toppingUp ? bath.filmBefore : view.film);
  return toppingUp && finding.entry[0] === 'clear' ? { entry: ['clear', 'top-up'], params: {} } : finding;
}

/** What a liquid does to a film: by itself, and with what clings to it. */
export function filmFinding(liquid: LiquidId, view: Pick<GuardView, 'sheet'>, film: FilmState): Finding {
  const role = roleOf(view.sheet, liquid) ?? 'water';
  const rest = film.developedS;
  const base: Finding = {
    entry: entryFor(film, view.sheet, role),
    params: stageOf(film) === 'part-developed' ? { seconds: rest } : {},
  };
  const carried = clinging(film, view.sheet, liquid);
  const other = film.carry && liquidForRole(view, film.carry);
  if (carried) return worse(base, { entry: carried, params: { ...(other && { other }) } });
  const short = washedShort(film, view.sheet, liquid);
  return worse(base, short && { entry: short.entry, params: { ...(short.of && { other: short.of }) } });
}

/** Out of the tank, a jug or a bottle. */
export function outFinding(move: Move, view: GuardView): Finding {
  const role = roleOf(view.sheet, move.liquid) ?? 'water';
  const reusable = stepFor(view.sheet, move.liquid)?.reusable ?? false;
  if (move.to.kind === 'sink') return { entry: toSink(role, reusable), params: {} };
  const outOfTank = move.from.kind === 'tank';
  const base: Finding = {
    entry: outOfTank ? returned(stageOf(view.film), role) : ['clear', 'own-bottle'],
    params: {},
  };
  const oneShot = outOfTank && !reusable && role !== 'water' ? recoverable('one-shot-back') : null;
  const found = [bottleFinding(move, view), badBottle(move, view), traceFinding(move, view), oneShot];
  return found.reduce<Finding>(worse, base);
}

function bottleFinding(move: Move, view: GuardView): Finding | null {
  if (move.to.kind !== 'bottle') return null;
  const bottle = view.world.bottles[move.to.number];
  const params = { bottle: move.to.number, ...(bottle?.liquid && { other: bottle.liquid }) };
  if (!bottle || bottle.liquid === null) return { entry: ['clear', 'empty-bottle'], params };
  if (bottle.liquid === move.liquid) return { entry: ['clear', 'own-bottle'], params };
  if (bottle.contents.volumeMl <= 0) return recoverable('other-label', params);
  const held = liquidOf(view.sheet, bottle.liquid);
  const poured = liquidOf(view.sheet, move.liquid);
  // two baths of one role under two names are still two baths
  if (!held || !poured || held.role === poured.role) return { entry: ['ruinous', 'mixes-baths'], params };
  return { entry: intoBottleOf(poured, held), params };
}

/** Into a bottle of its own that is not to be used: what goes in there is lost with it. */
export function badBottle(move: Move, view: GuardView): Finding | null {
  const bottle = bottleAt(view.world, move.to);
  if (!bottle || bottle.liquid !== move.liquid || bottle.contents.volumeMl <= 0) return null;
  const bad = fitnessOf(bottle, view).find(
    ({ entry: [verdict, reason] }) => verdict === 'ruinous' || reason === bottle.doubt,
  );
  const open = bad?.entry[1] === bottle.doubt && { unsettled: true as const };
  return bad ? recoverable('bad-bottle', { ...bad.params, ...open }) : null;
}

/** What clung to the film and got into this liquid, and what stands in a jug with it; the worst of it. */
export function traceFinding(move: Move, view: GuardView): Finding | null {
  const into = liquidOf(view.sheet, move.liquid);
  const contents = contentsOf(view.world, move.from, move.liquid);
  if (!contents || !into) return null;
  // a bottle's own record tells what was poured into it
  const mixed = move.from.kind === 'jug' ? Object.keys(contents.parts).filter((o) => o !== move.liquid) : [];
  const to = bottleAt(view.world, move.to);
  // a bottle that has had it already takes no more harm, and a jug keeps it apart
  const splashes =
    move.to.kind === 'jug'
      ? []
      : (contents.splashes ?? []).filter((s) => !to?.contaminations.some((c) => c.liquid === s));
  const entries = [
    ...[...contents.traces, ...splashes].map((other) => [other, carriedIntoOf] as const),
    ...mixed.map((other) => [other, intoBottleOf] as const),
  ].flatMap(([other, entryOf]) => {
    const foreign = liquidOf(view.sheet, other);
    // of what is no bath, nobody knows what little does no harm
    const entry = !foreign
      ? contents.traces.includes(other)
        ? null
        : splashed
      : foreign.role === 'water'
        ? contents.splashes?.includes(other)
          ? splashed
          : null
        : entryOf(foreign, into);
    return entry ? [{ entry: [entry[0], 'tainted'], params: { other } } satisfies Finding] : [];
  });
  const [first, ...others] = entries.filter(({ entry }) => severity[entry[0]] >= severity.recoverable);
  return first ? others.reduce(worse, first) : null;
}

const splashed: Entry = ['recoverable', 'tainted'];

/** The bath that clung to a film and came back into this bottle with its own, where that spoils it; null: none that does. */
export function taintIn({ liquid, contents }: BottleRecord, baths: SheetBaths): LiquidId | null {
  const into = liquidOf(baths, liquid);
  const spoils = (other: LiquidId): boolean => {
    const clings = liquidOf(baths, other);
    const entry = into && clings && clings.role !== 'water' ? carriedIntoOf(clings, into) : null;
    return entry !== null && severity[entry[0]] >= severity.recoverable;
  };
  return contents.traces.find(spoils) ?? null;
}

/** Headroom, portions, filter, temperature, volume, age, load, purity and time. */
export function checksFor(move: Move, view: GuardView): { shown: Checks; entries: Finding[] } {
  const entries: Finding[] = [];
  const step = stepFor(view.sheet, move.liquid);
  const role = roleOf(view.sheet, move.liquid);
  const shown: Checks = {
    filter: move.to.kind === 'bottle' && (step?.filter ?? false),
    localCodes: move.to.kind === 'sink' && role !== 'water',
  };
  if (shown.filter && move.from.kind === 'tank' && role === 'developer' && view.film.backing !== 'off')
    shown.backing = true;
  if (move.to.kind === 'bottle' && move.volumeMl !== null) {
    const bottle = view.world.bottles[move.to.number];
    if (bottle?.capacityMl != null) {
      const freeMl = Math.max(0, bottle.capacityMl - bottle.contents.volumeMl);
      if (freeMl < move.volumeMl)
        entries.push(recoverable('no-headroom', { bottle: move.to.number, ml: freeMl }));
    }
    if (move.volumeMl > view.funnelMl) {
      const count = Math.ceil(move.volumeMl / view.funnelMl);
      shown.portions = { count, eachMl: Math.round(move.volumeMl / count) };
    }
  }
  if (move.to.kind === 'tank') {
    const time = stepTime(view, move.liquid, move.from);
    if (time) shown.time = time;
    if (pressesOnLid(move, view, role)) shown.openLid = true;
    const other = otherFilm(view.world.films[0]?.stock, view.sheet);
    if (other && role === 'developer' && view.film.loaded && view.film.image === 'latent')
      entries.push(recoverable(other));
    temperatureCheck(move, view, role, shown, entries);
    sourceChecks(move, view, shown, entries);
  }
  const { doubt } = view.film;
  const poursBath =
    move.to.kind === 'tank' ? role !== 'water' : move.from.kind === 'tank' && move.to.kind === 'bottle';
  if (doubt && !doubt.asked && poursBath)
    entries.push(recoverable('film-doubted', { ...(doubt.of[0] !== undefined && { other: doubt.of[0] }) }));
  if (move.from.kind === 'tank' && view.earlyS !== null && view.earlyS > 0)
    entries.push(recoverable('early', { seconds: view.earlyS }));
  return { shown, entries };
}

/** Only the developer's temperature sets the picture; the others have wide limits. */
function temperatureCheck(
  move: Move,
  view: GuardView,
  role: Role | undefined,
  shown: Checks,
  entries: Finding[],
) {
  const aim = role === 'water' ? null : stepFor(view.sheet, move.liquid)?.temp;
  if (!aim) return;
  const reading = readingOf(view.world, move.liquid, move.from);
  const agoS = reading && (view.atMs - reading.atMs) / 1000;
  const state = reading && tempState(aim, reading.tempC);
  const off = state === 'cold' || state === 'hot';
  const old = agoS !== null && agoS * 1000 > freshMs;
  shown.temperature = {
    aimC: aim.aimC,
    tempC: reading?.tempC ?? null,
    agoS,
    state: state === null ? 'unread' : old ? 'old' : state,
    effect: reading && developmentEffect(view.sheet.rate, aim.aimC, reading.tempC),
    developer: role === 'developer',
  };
  const slow = role === 'bleach' || role === 'fixer';
  if (reading && slow && !old && reading.tempC < aim.aimC - slowC)
    entries.push(recoverable('bath-cold', { tempC: reading.tempC, aimC: aim.aimC }));
  const doubt = view.world.doubts[vesselKey(move.from)];
  if (doubt && (!reading || doubt.atMs >= reading.atMs))
    entries.push(recoverable('temperature-doubted', { tempC: doubt.tempC, aimC: aim.aimC }));
  if (role !== 'developer') return;
  // the tub or its controller may be degrees away from what is in the bottle
  const tub = view.world.readings[vesselKey({ kind: 'tub' })];
  if (!reading && !doubt && tub && view.atMs - tub.atMs <= longMs)
    entries.push(recoverable('developer-unread', { tempC: tub.tempC, aimC: aim.aimC }));
  if (!reading || agoS === null) return;
  const params = { tempC: reading.tempC, aimC: aim.aimC, agoS };
  const reason = old ? 'developer-was-off' : state === 'cold' ? 'developer-cold' : 'developer-hot';
  const { heaterOffMs = view.atMs } = view.world;
  // a tub that nobody heats lets it cool
  const cooledMs = view.atMs - Math.max(heaterOffMs, reading.atMs);
  if (agoS * 1000 > longMs || cooledMs > freshMs) entries.push(recoverable('developer-long-unread', params));
  // a published time makes up for it
  else if (off && !shown.time) entries.push(recoverable(reason, params));
}

/**
 * The time of a step with the very bath that is poured, where it is not the sheet's: what is in the bottle works more
 * slowly, or a published chart has a time for the developer's temperature.
 */
export function stepTime(
  view: Pick<GuardView, 'world' | 'sheet' | 'atMs'>,
  liquid: LiquidId,
  from: VesselRef,
): StepTime | null {
  const step = stepFor(view.sheet, liquid);
  if (!step?.time) return null;
  const bottle = bottleAt(view.world, from);
  const changed = bottle ? changedTime(bottle, view.sheet) : null;
  if (changed) {
    const seconds = Math.max(step.time.aimS * changed.factor, changed.atLeastS ?? 0);
    return { seconds: Math.round(seconds), why: changed.why };
  }
  if (roleOf(view.sheet, liquid) !== 'developer' || !step.temp) return null;
  const reading = readingOf(view.world, liquid, from);
  if (!reading || view.atMs - reading.atMs > freshMs) return null;
  const answer = timeAt(view.sheet.rate, step.time.aimS, step.temp, reading.tempC);
  return answer.offer === 'time'
    ? { seconds: Math.round(answer.seconds / 5) * 5, why: 'the chart has it so for its temperature' }
    : null;
}

/** Of the bath before, so much stays on reel and walls, as a share of the tank. source: common practice */
const staysBehind = 0.05;

/** Whether an acid meets enough carbonate in the tank to press on its cap. */
function pressesOnLid(move: Move, view: GuardView, role: Role | undefined): boolean {
  if (role !== 'stop' || view.film.carry === null) return false;
  const recipeFor = (liquid: LiquidId): string =>
    bottlesFor(view.world, liquid)
      .map((n) => view.world.bottles[n]?.recipe)
      .find((r) => r != null) ?? liquid;
  const before = liquidForRole(view, view.film.carry);
  if (before === undefined) return false;
  const parts = [
    { of: recipeFor(move.liquid), volumeMl: view.tankMl },
    { of: recipeFor(before), volumeMl: view.tankMl * staysBehind },
  ];
  return fitness({ bath: recipeFor(move.liquid), parts }).openLid;
}

/** Whether what got into a bottle last gives off gas with what is in it: two baths by the table, anything else by chemistry. */
export function gasIn({ sheet }: Pick<GuardView, 'sheet'>, bottle: BottleRecord): boolean {
  const into = liquidOf(sheet, bottle.liquid);
  const got = liquidOf(sheet, bottle.contaminations.at(-1)?.liquid ?? null);
  return got && into
    ? givesGas({ reason: intoBottleOf(got, into)[1] })
    : (contaminationIn(withLastOnly(bottle), sheet)?.gas.length ?? 0) > 0;
}

/** What the bath in the bottle or jug is still worth. */
function sourceChecks(move: Move, view: GuardView, shown: Checks, entries: Finding[]) {
  const trace = traceFinding(move, view);
  const place = move.from.kind === 'bottle' ? { bottle: move.from.number } : {};
  if (trace) entries.push({ ...trace, params: { ...trace.params, ...place } });
  const alreadyMl = view.world.tank.bath?.liquid === move.liquid ? view.world.tank.volumeMl : 0;
  const inMl = (move.volumeMl ?? view.tankMl) + alreadyMl;
  if (inMl < view.tankMl && roleOf(view.sheet, move.liquid) !== 'water')
    entries.push(recoverable('not-covered', { ml: inMl, ofMl: view.tankMl }));
  const bottle = bottleAt(view.world, move.from);
  const held = move.from.kind === 'jug' ? view.world.jugs[move.liquid] : bottle?.contents;
  if (held && held.volumeMl + alreadyMl < Math.min(inMl, view.tankMl))
    entries.push(recoverable('too-little', { ...place, ml: held.volumeMl }));
  if (!bottle) return;
  if (bottle.assumed) shown.assumed = true;
  entries.push(...fitnessOf(bottle, view));
}

/** A bath that was spoilt, mixed wrongly, worn out or too old. */
export function fitnessOf(
  bottle: BottleRecord,
  view: Pick<GuardView, 'wallMs' | 'world' | 'sheet'>,
): Finding[] {
  const found: Finding[] = [];
  const params = { bottle: bottle.number };
  const mixture = contaminationIn(bottle, view.sheet);
  if (mixture && mixture.verdict !== 'use') {
    const why = { ...params, other: mixture.contamination.liquid, ...(mixture.why && { why: mixture.why }) };
    found.push({
      entry: mixture.verdict === 'discard' ? ['ruinous', 'spoilt'] : ['recoverable', 'doubtful-mixture'],
      params: why,
    });
  }
  const { doubt, doubtOf } = bottle;
  if (doubt) found.push(recoverable(doubt, { ...params, ...(doubtOf != null && { other: doubtOf }) }));
  const [problem] = bottle.problems;
  if (problem !== undefined)
    found.push({
      entry: [bottle.unusable ? 'ruinous' : 'recoverable', 'faulty-batch'],
      params: { ...params, why: problem },
    });
  const life = bottleLife(bottle, view.wallMs, view.sheet);
  if (life.limit === 'age') found.push(recoverable('too-old', params));
  const worn = life.limit === 'silver' || (life.limit === 'film' && life.areaLeftM2.usual <= 0);
  if (worn)
    found.push(
      recoverable('spent', {
        ...params,
        films: Object.values(bottle.films).reduce((n, f) => n + f, 0),
      }),
    );
  return found;
}

/** The bottle that a liquid belongs to: the one that what is in the tank came from, else the one that holds it; null: none, or several. */
export function bottleFor(view: Pick<GuardView, 'world'>, liquid: LiquidId): number | null {
  const { bath } = view.world.tank;
  const home = bath?.liquid === liquid ? bottleAt(view.world, bath.from) : undefined;
  if (home?.liquid === liquid) return home.number;
  const [only, ...others] = bottlesFor(view.world, liquid);
  return only !== undefined && others.length === 0 ? only : null;
}

export const liquidName = (view: Pick<GuardView, 'sheet'>, id: LiquidId): string =>
  liquidOf(view.sheet, id)?.name ?? substanceById(id)?.name ?? id.replaceAll('-', ' ');
