import { type PhBy, phSays } from '../../chemistry/ph-reading.js';
import { cautionsForSubstance } from '../../chemistry/safety/cautions.js';
import { substanceById } from '../../chemistry/substances.js';
import type { BottleLine, BottlesMessage, LifeIs, WasteKind, WrongPour } from '../../ledger/messages.js';
import { taintIn } from '../../process/guard-checks.js';
import type { IntentOf } from '../../process/intent.js';
import { defaultConfig } from '../../process/run-state.js';
import { type ContaminationEffect, contaminationIn, type SheetBaths } from '../../world/contamination.js';
import { blend } from '../../world/contents.js';
import type { FilmRef } from '../../world/fact.js';
import { filmAreaM2 } from '../../world/film-area.js';
import {
  ageKnown,
  type BottleLife,
  bottleLife,
  compensationFor,
  enoughFor,
  recipeOf,
  replenishAdvice,
} from '../../world/life.js';
import { USUAL_FILM } from '../../world/life-data.js';
import { liquidById } from '../../world/liquids.js';
import type { BottleRecord, Contents, World } from '../../world/records.js';
import { newestRun } from '../../world/run-record.js';
import { isUnknown, withBottle } from '../../world/vessels.js';

type Names = (id: string) => string;
export const DAY_MS = 86_400_000;

/** What every answer goes by. */
export interface Bench {
  world: World;
  /** spoken names of liquids, by id */
  names: Names;
  baths: SheetBaths;
  /** the calendar, ms */
  wallMs: number;
}

const all = (world: World): BottleRecord[] =>
  Object.values(world.bottles).sort((a, b) => a.number - b.number);

export const line = (bottle: BottleRecord, names: Names): BottleLine => ({
  bottle: bottle.number,
  name: bottle.name,
  liquid: bottle.liquid === null ? null : names(bottle.liquid),
  volumeMl: bottle.contents.volumeMl,
  assumed: bottle.assumed,
  volumeAssumed: bottle.volumeAssumed,
});

/** A pH that was read of a bottle, beside what its recipe wants. What was read off before stands until one is good. */
export function phIs(
  bottle: BottleRecord,
  { ph, by }: { ph: number; by?: PhBy },
  { names, baths }: Bench,
): Extract<BottlesMessage, { id: 'ph-noted' }> {
  const aim = recipeOf(bottle, baths)?.ph ?? null;
  const says = aim === null ? null : phSays(aim, ph, by);
  const off = says === 'off' || (says !== 'good' && bottle.doubt === 'ph-off');
  const liquid = bottle.liquid === null ? 'bath' : names(bottle.liquid);
  return { id: 'ph-noted', bottle: bottle.number, liquid, ph, aim, says, off };
}

const filmsThrough = (bottle: BottleRecord): number =>
  Object.values(bottle.films).reduce((sum, count) => sum + count, 0);

export function bottle(bench: Bench, number: number): BottlesMessage {
  const { names, baths, wallMs } = bench;
  const record = bench.world.bottles[number];
  if (record === undefined || isUnknown(record)) return { id: 'bottle-unknown', bottle: number };
  const inJugMl = record.liquid === null ? 0 : (bench.world.jugs[record.liquid]?.volumeMl ?? 0);
  return {
    id: 'bottle-is',
    line: line(record, names),
    ...(inJugMl > 0 && { inJugMl }),
    ageDays: ageKnown(bottleLife(record, wallMs, baths)),
    films: filmsThrough(record),
    problem: record.problems[0] ?? null,
    wrongPour: wrongPour(contaminationIn(record, baths), names),
    ...heldAgainst(record, bench),
    discarded: record.discardedWallMs !== null && record.liquid === null,
  };
}

/** What was said against a bottle and is not settled, and what came into it with the film. */
function heldAgainst(record: BottleRecord, { names, baths }: Bench) {
  const named = (id: string | null | undefined): string | null => (id == null ? null : names(id));
  return {
    doubt: record.doubt ?? null,
    doubtOf: named(record.doubtOf),
    taint: named(taintIn(record, baths)),
  };
}

const wrongPour = (effect: ContaminationEffect | null, names: Names): WrongPour | null =>
  effect === null
    ? null
    : {
        liquid: names(effect.contamination.liquid),
        volumeMl: effect.contamination.volumeMl,
        verdict: effect.verdict,
        why: effect.why,
        time: effect.time,
      };

/** What is in the bottles, or in those of one liquid. */
export function bottles({ world, names, baths }: Bench, liquid?: string): BottlesMessage {
  const held =
    liquid === undefined ? all(world).filter((one) => one.contents.volumeMl > 0) : holding(world, liquid);
  const lines = held.map((one) => line(one, names));
  const isAsked = (of: string): boolean => of !== 'water' && (liquid === undefined || of === liquid);
  const inJugs = Object.entries(world.jugs).flatMap(([of, { volumeMl }]) =>
    isAsked(of) ? [{ liquid: names(of), volumeMl }] : [],
  );
  const { bath } = world.tank;
  const elsewhere = {
    ...(inJugs.length > 0 && { inJugs }),
    ...(bath && isAsked(bath.liquid) && { inTank: names(bath.liquid) }),
  };
  if (lines.length === 0 && liquid !== undefined && Object.keys(elsewhere).length === 0)
    return { id: 'no-such-liquid', liquid: names(liquid) };
  if (lines.length === 0 && liquid === undefined) return { id: 'no-bottles' };
  const tankMl = world.tankMl ?? defaultConfig.tankMl;
  const short = liquid !== undefined && held.reduce((ml, b) => ml + b.contents.volumeMl, 0) < tankMl;
  const spoiled = held.filter((one) => isSpoiled(one, baths)).map((one) => one.number);
  return {
    id: 'bottles-are',
    lines,
    ...(spoiled.length > 0 && { spoiled }),
    ...elsewhere,
    ...(short && Object.keys(elsewhere).length === 0 && { shortOfMl: tankMl }),
  };
}

/** Whether a bottle's own answer says not to use it. */
const isSpoiled = (bottle: BottleRecord, baths: SheetBaths): boolean =>
  bottle.problems.length > 0 ||
  bottle.doubt === 'unanswered' ||
  taintIn(bottle, baths) !== null ||
  contaminationIn(bottle, baths)?.verdict === 'discard';

/** The bottle, of one liquid or of all, that something is on record against. */
export const marred = (bench: Bench, liquid?: string): number | undefined =>
  all(bench.world).find(
    (one) =>
      (liquid === undefined || one.liquid === liquid) &&
      one.contents.volumeMl > 0 &&
      (isSpoiled(one, bench.baths) || isHeld(one, bench.baths) || one.contaminations.length > 0),
  )?.number;

/** What was spilled by the record, of one bath or of all. */
export function spilt({ world, names }: Bench, liquid?: string): BottlesMessage {
  const of = (counts: (one: BottleRecord) => boolean) =>
    all(world).flatMap((one) =>
      one.liquid !== null && (liquid === undefined || one.liquid === liquid) && counts(one)
        ? [{ liquid: names(one.liquid), volumeMl: one.spilledMl }]
        : [],
    );
  const each = of((one) => one.spilledMl > 0);
  const unsaid = of((one) => one.doubt === 'spilled').map((one) => one.liquid);
  return { id: 'spilt-is', each, unsaid, allMl: liquid === undefined ? world.account.spilledMl : null };
}

/** The one bottle, of those that may be meant, that was said not to be well; what may be in it, or how much of it, is settled by saying that. */
export function doubted({ world }: Bench, said: { bottle?: number; liquid?: string }) {
  const found = all(world).filter(
    ({ number, liquid, doubt = null }) =>
      doubt !== null &&
      doubt !== 'unanswered' &&
      doubt !== 'spilled' &&
      doubt !== 'ph-off' &&
      (said.bottle === undefined
        ? said.liquid === undefined || liquid === said.liquid
        : number === said.bottle),
  );
  const record = found.length === 1 ? found[0] : undefined;
  return { record, doubt: record?.doubt ?? null };
}

/** More than how much is left of it is in doubt. */
const isHeld = (one: BottleRecord, baths: SheetBaths): boolean =>
  ((one.doubt ?? null) !== null && one.doubt !== 'spilled') || taintIn(one, baths) !== null;

/** The bottles of a liquid that hold any, fullest first. */
export const holding = (world: World, liquid: string): BottleRecord[] =>
  all(world)
    .filter((one) => one.liquid === liquid && one.contents.volumeMl > 0)
    .sort((a, b) => b.contents.volumeMl - a.contents.volumeMl);

/** With what stands in the tank and in jugs back in the bottle that it came from. */
function withAllBack(world: World): World {
  const { bath, ...inTank } = world.tank;
  const home = bath?.from.kind === 'bottle' ? world.bottles[bath.from.number] : undefined;
  const back = (into: World, bottle: BottleRecord | undefined, liquid: string, contents: Contents): World =>
    bottle?.liquid === liquid
      ? withBottle(into, { ...bottle, contents: blend(bottle.contents, contents) })
      : into;
  return Object.entries(world.jugs).reduce(
    (into, [liquid, contents]) => {
      const [bottle, ...others] = all(into).filter((b) => b.liquid === liquid);
      return others.length > 0 ? into : back(into, bottle, liquid, contents);
    },
    bath ? back(world, home, bath.liquid, inTank) : world,
  );
}

export function age(bench: Bench, liquid: string): BottlesMessage {
  const { world, names, baths, wallMs } = bench;
  const record = holding(world, liquid)[0];
  if (record === undefined) return { id: 'no-such-liquid', liquid: names(liquid) };
  const life = bottleLife(record, wallMs, baths);
  const ageDays = ageKnown(life);
  if (ageDays === null && life.ageDays !== null && life.keepDaysLeft === null) return mixed(bench, liquid);
  return {
    id: 'age-is',
    liquid: names(liquid),
    bottle: record.number,
    ageDays: ageDays ?? life.ageDays,
    keepDaysLeft: life.keepDaysLeft,
  };
}

export function mixed({ world, names, wallMs }: Bench, liquid: string): BottlesMessage {
  const record = holding(world, liquid)[0];
  if (record === undefined) return { id: 'no-such-liquid', liquid: names(liquid) };
  return {
    id: 'mixed-on',
    liquid: names(liquid),
    bottle: record.number,
    wallMs: record.mixedWallMs,
    filledWallMs: record.filledWallMs,
    ageDays: record.mixedWallMs === null ? null : Math.max(0, (wallMs - record.mixedWallMs) / DAY_MS),
  };
}

/** The last time that this day of the year was here, ms on the calendar; without a day the middle of what has passed of the month. */
export function lastTime(month: number, day: number | undefined, wallMs: number): number {
  const now = new Date(wallMs);
  for (let year = now.getFullYear(); ; year--) {
    const first = new Date(year, month - 1).getTime();
    const mid = (first + Math.min(wallMs, new Date(year, month).getTime())) / 2;
    const at = day === undefined ? mid : new Date(year, month - 1, day).getTime();
    // there is no 29 February in most years
    if (first <= wallMs && at <= wallMs && new Date(at).getMonth() === month - 1) return at;
  }
}

/** What was told of a bottle's past, and what it is still good for. */
export function history(
  { world, names, baths, wallMs }: Bench,
  number: number,
  said: Pick<IntentOf<'bath-history'>, 'films' | 'ageDays' | 'weekday' | 'month'>,
): BottlesMessage {
  const record = world.bottles[number] as BottleRecord;
  const film = usualFilm(world);
  const life = bottleLife(record, wallMs, baths, film);
  return {
    id: 'history-noted',
    bottle: number,
    liquid: record.liquid === null ? '' : names(record.liquid),
    films: said.films ?? null,
    aged: (said.ageDays ?? said.weekday ?? said.month) !== undefined,
    ageDays: ageKnown(life),
    keepDaysLeft: life.keepDaysLeft,
    spent: life.limit === 'silver' || (life.limit === 'film' && life.areaLeftM2.usual <= 0),
    left: life.limit === 'unknown' ? null : life.filmsLeft.usual,
    filmWords: filmWords(film),
  };
}

export function fullest({ world, names }: Bench): BottlesMessage {
  const record = all(world).toSorted((a, b) => b.contents.volumeMl - a.contents.volumeMl)[0];
  return record === undefined || record.contents.volumeMl <= 0
    ? { id: 'no-bottles' }
    : { id: 'fullest-is', line: line(record, names) };
}

/** The kind of film to count in: that of the newest run, else a 36-exposure film. */
export function usualFilm(world: World): FilmRef {
  const film = newestRun(world)?.films[0];
  if (film === undefined) return USUAL_FILM;
  return film.count === undefined ? film : { ...film, count: 1 };
}

export function filmWords(film: FilmRef): string {
  const metres = film.lengthM === undefined ? null : Math.round(film.lengthM * 10) / 10;
  switch (film.format) {
    case 'super-8':
      return metres === null ? 'Super 8 cartridges' : `${metres} metre lengths of Super 8`;
    case '16mm':
      return metres === null ? '100 foot rolls of 16 millimetre' : `${metres} metre lengths of 16 millimetre`;
    case '35mm':
      return metres === null ? '36 exposure films' : `${metres} metre lengths of 35 millimetre`;
    case '120':
      return '120 roll films';
    case '4x5':
      return '4 by 5 sheets';
    case '8x10':
      return '8 by 10 sheets';
  }
}

export function life(bench: Bench, liquid: string, films: number | null, bottle?: number): BottlesMessage {
  const { world, names, baths, wallMs } = bench;
  const held = holding(withAllBack(world), liquid).filter((b) => bottle === undefined || b.number === bottle);
  const first = held[0];
  if (first === undefined) return { id: 'no-such-liquid', liquid: names(liquid) };
  const film = usualFilm(world);
  const lives = held.map((one) => bottleLife(one, wallMs, baths, film));
  const doubted = new Set(
    held.filter((b) => isHeld(world.bottles[b.number] ?? first, baths)).map((b) => b.number),
  );
  const usable = lives.filter((one) => one.limit === 'film');
  const free = usable.filter((one) => !doubted.has(one.bottle));
  const good = free.length > 0 ? free : usable;
  const counted = good.length > 0 ? good : lives.slice(0, 1);
  const lead = counted[0] as BottleLife;
  const inDoubt = held.find((b) => b.number === lead.bottle && doubted.has(b.number));
  const sum = (k: 'low' | 'usual' | 'high'): number => counted.reduce((n, one) => n + one.filmsLeft[k], 0);
  const left = { low: sum('low'), usual: sum('usual'), high: sum('high') };
  return {
    id: 'life-is',
    liquid: names(liquid),
    bottles: counted.map((one) => one.bottle),
    films,
    filmWords: filmWords(film),
    left,
    enough:
      films === null ? null : inDoubt ? 'no' : enoughFor({ ...lead, filmsLeft: { ...left, film } }, films),
    limit: lead.limit,
    problem: first.problems[0] ?? null,
    ageDays: ageKnown(lead),
    keepDaysLeft: lead.keepDaysLeft,
    doneFilms: counted.reduce((n, one) => n + one.areaDoneM2, 0) / filmAreaM2(film),
    mixedHere: held.every((one) => one.mixedWallMs !== null || !counted.some((c) => c.bottle === one.number)),
    wrongPour: wrongPour(lead.spoilt, names),
    against: inDoubt ? heldAgainst(inDoubt, bench) : null,
    silverGPerL: lead.silverGPerL?.usual ?? null,
    compensation: lead.areaDoneM2 > 0 ? compensationFor(first, baths) : null,
  };
}

/** Whether every bath of the process stands ready for so many films more, and what speaks against it. */
export function nextRoll(bench: Bench, films: number): BottlesMessage {
  const { world, names, baths } = bench;
  const tankMl = world.tankMl ?? defaultConfig.tankMl;
  const used = (baths.steps ?? []).flatMap((s) => (s.liquid === null || s.liquid === 'water' ? [] : [s]));
  const wanted = [...new Map(used.map((s) => [s.liquid as string, s])).values()];
  const short: { liquid: string; haveMl: number; wantMl: number }[] = [];
  const lives: LifeIs[] = [];
  for (const { liquid, reusable } of wanted) {
    if (liquid === null) continue;
    const inBottles = holding(world, liquid).reduce((ml, b) => ml + b.contents.volumeMl, 0);
    const inTankMl = world.tank.bath?.liquid === liquid ? world.tank.volumeMl : 0;
    const haveMl = inBottles + inTankMl + (world.jugs[liquid]?.volumeMl ?? 0);
    const wantMl = reusable ? tankMl : tankMl * films;
    if (haveMl < wantMl) short.push({ liquid: names(liquid), haveMl, wantMl });
    const found = life(bench, liquid, films);
    if (haveMl >= wantMl && found.id === 'life-is' && found.limit !== 'unknown') lives.push(found);
  }
  return { id: 'next-roll', films, short, lives };
}

export function replenish({ world, names, baths }: Bench, liquid: string): BottlesMessage {
  const record = holding(world, liquid)[0];
  if (record === undefined) return { id: 'no-such-liquid', liquid: names(liquid) };
  const advice = replenishAdvice(record, baths);
  if (advice === null) return { id: 'replenish-unknown', liquid: names(liquid) };
  return {
    id: 'replenish-is',
    liquid: names(liquid),
    bottle: record.number,
    addMl: advice.addMl,
    removeMl: advice.removeMl,
    regenerate:
      advice.regenerate === null
        ? null
        : {
            persulphateG: advice.regenerate.potassiumPersulphateG,
            bromideG: advice.regenerate.sodiumBromideG,
            cautions: persulphateCautions(),
          },
  };
}

export function runs(world: World, total: number): BottlesMessage {
  const last = newestRun(world);
  if (last === undefined) return { id: 'no-runs' };
  return {
    id: 'runs-are',
    total,
    last: {
      startedWallMs: last.startedWallMs,
      sheet: last.sheetId,
      complete: last.complete,
      films: last.films.reduce((n, film) => n + (film.count ?? 1), 0),
      deviations: last.deviations.length,
    },
  };
}

/** Which rule of disposal a bath falls under. source: common practice; local codes decide */
export function wasteKind(record: BottleRecord, baths: SheetBaths): WasteKind {
  switch (recipeOf(record, baths)?.working) {
    case 'thiosulfate':
      return 'silver';
    case 'ferricyanide':
      return 'ferricyanide';
    case 'cd3':
      return 'developer';
    default:
      return liquidById(record.liquid ?? '')?.role === 'fixer' ? 'silver' : 'plain';
  }
}

/** What the jar of persulphate says, and what it must not meet. */
const persulphateCautions = (): string[] => {
  const persulphate = substanceById('potassium-persulfate');
  return persulphate === undefined ? [] : cautionsForSubstance(persulphate);
};
