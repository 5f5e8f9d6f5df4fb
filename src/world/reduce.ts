import { blend, DROP_ML, draw, fresh, NOTHING, withSplashes } from './contents.js';
import type { FactOf, FilmRef } from './fact.js';
import {
  type Contact,
  expose,
  type FilmState,
  kindOfStock,
  motionPictureFilm,
  newFilm,
  noFilm,
} from './film.js';
import { filmsAreaM2 } from './film-area.js';
import { handled } from './handling.js';
import { USUAL_FILM } from './life-data.js';
import type { BottleDoubt, BottleRecord, DatedFact, Reading, TankAside, TankBath, World } from './records.js';
import { applyToRun, kept, runAtWork, withRun } from './run-record.js';
import { type LiquidId, tank, type VesselRef, vesselKey } from './vessel.js';
import {
  bottleAt,
  bottleOf,
  bottlesFor,
  emptied,
  heldAgainst,
  putInto,
  readingOf,
  splashedInto,
  takeFrom,
  withAccount,
  withBottle,
  withWork,
} from './vessels.js';

/** The tank that is meant until another is named. */
export const FIRST_TANK = '1';

export const emptyWorld = (): World => ({
  bottles: {},
  tankKey: FIRST_TANK,
  tanksAside: {},
  handling: {},
  ...newTank(),
  jugs: {},
  readings: {},
  doubts: {},
  run: null,
  runs: {},
  shelf: {},
  account: { broughtMl: 0, foundMl: 0, spilledMl: 0, drainedMl: 0, lostMl: 0 },
});

/** Counted when nobody said what is in the tank: one film of the usual kind, and known to be a guess. */
const assumedFilm: FilmRef = { ...USUAL_FILM, assumed: true };

/** The films in the tank, as told; else one that is taken for granted. */
export const filmsIn = (world: World): readonly FilmRef[] =>
  world.films.length > 0 ? world.films : [assumedFilm];

function poured(before: World, fact: FactOf<'poured'>, atMs: number, wallMs: number): World {
  if (!(fact.volumeMl > 0)) return before;
  const sinceMs = fact.sinceMs ?? atMs;
  const leaving = emptiesTank(before, fact.from, fact.volumeMl);
  // more of the bath that is in: the film stays in it
  const topUp = fact.to.kind === 'tank' && before.tank.bath?.liquid === fact.liquid;
  const world = leaving || (fact.to.kind === 'tank' && !topUp) ? endContact(before, sinceMs, fact) : before;
  const { world: drawn, taken } = takeFrom(world, fact.from, fact.liquid, fact.volumeMl);
  const traces = [...taken.traces, ...(fact.to.kind === 'tank' ? carriedOver(world, fact) : [])];
  const what = { ...taken, traces: [...new Set(traces)] };
  const put = putInto(drawn, fact.to, what, fact.liquid, fact.from, wallMs);
  const done = fact.to.kind === 'tank' ? 'fillS' : 'drainS';
  const moved = fact.tookS === undefined ? put : handled(put, done, fact.volumeMl, fact.tookS);
  return fact.to.kind === 'tank' && !topUp ? intoTank(world, moved, fact, sinceMs) : moved;
}

/** Whether so much out of this vessel leaves nothing in the tank. */
const emptiesTank = ({ tank }: World, from: VesselRef, volumeMl: number): boolean =>
  from.kind === 'tank' && volumeMl >= tank.volumeMl - DROP_ML;

/** The liquid that clings to the film and gets into the next bath; of the bath's own there is nothing to say. */
function carriedOver(world: World, fact: FactOf<'poured'>): LiquidId[] {
  const { carry, history } = world.film;
  if (carry === null || carry === fact.role || fact.role === undefined || fact.role === 'water') return [];
  return [history.findLast((c) => c.role === carry)?.liquid ?? carry];
}

/** A bath that the film had before anybody spoke of it. */
function filmHad(world: World, { liquid, role, seconds, stepId, runId }: FactOf<'film-had'>): World {
  if (world.tank.bath) return world;
  const contact: Contact = {
    role,
    liquid,
    seconds,
    wantedS: seconds,
    ...(stepId !== undefined && { stepId }),
  };
  const next: World = { ...world, film: expose(world.film, contact) };
  const run = runId === undefined ? undefined : world.runs[runId];
  if (!run) return next;
  const had = { ...run, contacts: kept(run.contacts, contact) };
  const [number, other] = bottlesFor(world, liquid);
  if (role === 'water' || number === undefined || other !== undefined || run.worked.includes(liquid))
    return withRun(next, had);
  const worked = withRun(next, { ...had, worked: [...run.worked, liquid] });
  return served(withWork(worked, { kind: 'bottle', number }, liquid, filmsAreaM2(filmsIn(world))), number);
}

/** The film's stay in what is in the tank is over, or goes on in a mixture. */
function endContact(
  world: World,
  atMs: number,
  { effectiveS, withoutFilm }: Pick<FactOf<'poured'>, 'effectiveS' | 'withoutFilm'> = {},
): World {
  const { bath } = world.tank;
  if (!bath) return world;
  // the film was not in it
  if (withoutFilm) return { ...world, film: bath.filmBefore, tank: { ...world.tank, bath: null } };
  const contact: Contact = {
    ...contactOf(bath, atMs),
    ...(effectiveS !== undefined && { effectiveS }),
  };
  const next: World = {
    ...world,
    film: expose(bath.filmBefore, contact),
    tank: { ...world.tank, bath: null },
  };
  const run = runAtWork(world);
  return run && world.film.loaded ? withRun(next, { ...run, contacts: kept(run.contacts, contact) }) : next;
}

export const contactOf = (bath: TankBath, atMs: number): Contact => ({
  role: bath.role,
  liquid: bath.liquid,
  seconds: Math.max(0, atMs - bath.sinceMs) / 1000,
  fromMs: bath.sinceMs,
  ...(bath.stepId !== null && { stepId: bath.stepId }),
  ...(bath.wantedS !== null && { wantedS: bath.wantedS }),
  ...(bath.black && { black: bath.black }),
});

/** The film as it is now, with the time it has spent in what is in the tank. */
export const filmNow = (world: World, atMs: number): FilmState =>
  world.tank.bath ? expose(world.tank.bath.filmBefore, contactOf(world.tank.bath, atMs)) : world.film;

function intoTank(before: World, after: World, fact: FactOf<'poured'>, sinceMs: number): World {
  const last = readingOf(before, fact.liquid, fact.from);
  const bath: TankBath = {
    liquid: fact.liquid,
    role: fact.role ?? 'water',
    stepId: fact.stepId ?? null,
    sinceMs,
    filmBefore: before.film,
    inferred: fact.inferred ?? false,
    from: fact.from,
    wantedS: fact.wantedS ?? null,
    ...(fact.aimS !== undefined && { aimS: fact.aimS }),
    // as of the moment that it goes in
    readings: last ? [{ ...last, atMs: sinceMs }] : [],
  };
  const filled: World = { ...after, tank: { ...after.tank, bath } };
  const run = fact.runId === undefined ? undefined : filled.runs[fact.runId];
  if (run === undefined || run.worked.includes(fact.liquid)) return filled;
  const areaM2 = filmsAreaM2(filmsIn(filled));
  const next: World = { ...filled, tank: { ...filled.tank, workM2: filled.tank.workM2 + areaM2 } };
  return fact.from.kind === 'bottle' ? served(next, fact.from.number) : next;
}

/** What is in this bottle has served the films of one more run. */
function served(world: World, number: number): World {
  const bottle = bottleOf(world, number);
  const films = filmsIn(world);
  return withBottle(world, {
    ...bottle,
    runs: bottle.runs + 1,
    filmAreaM2: bottle.filmAreaM2 + filmsAreaM2(films),
    films: counted(bottle.films, films, 1),
  });
}

type FilmCounts = BottleRecord['films'];

const counted = (before: FilmCounts, films: readonly FilmRef[], sign: 1 | -1): FilmCounts => {
  const counts = { ...before };
  for (const { format, count = 1 } of films)
    counts[format] = Math.max(0, (counts[format] ?? 0) + sign * count);
  return counts;
};

/** It is other film than was thought: what the baths have done in this run is counted anew. */
function filmsTold(world: World, films: FilmRef[]): World {
  const run = runAtWork(world);
  const before = filmsIn(world);
  const moreM2 = filmsAreaM2(films) - filmsAreaM2(before);
  const worked = (at: World, liquid: LiquidId): World => {
    const pours = run?.pours.filter((p) => p.liquid === liquid) ?? [];
    const from = pours.find((p) => p.to.kind === 'tank')?.from;
    const bottle = bottleAt(at, from);
    const served = bottle !== undefined && bottle.runs > 0 && bottle.liquid === liquid;
    const counts = served ? counted(counted(bottle.films, before, -1), films, 1) : {};
    const next = served
      ? withBottle(at, { ...bottle, filmAreaM2: Math.max(0, bottle.filmAreaM2 + moreM2), films: counts })
      : at;
    const stands = pours.reduce<VesselRef>(
      (where, p) => (vesselKey(p.from) === vesselKey(where) ? p.to : where),
      tank,
    );
    return withWork(next, stands, liquid, moreM2);
  };
  const kind = kindOfStock(films[0]?.stock);
  const told = onFilm({ ...world, films }, (f) =>
    kind && f.loaded ? { ...f, kind, ...(!kind.backing && { backing: 'off' }) } : f,
  );
  return (run?.worked ?? []).reduce(worked, told);
}

/** The user says what a bottle holds. The same liquid again is a measurement; anything else a new filling. */
function bottleSet(world: World, fact: FactOf<'bottle-set'>, wallMs: number): World {
  const bottle = bottleOf(world, fact.bottle);
  const had = bottle.contents.volumeMl;
  const capacityMl = fact.capacityMl > 0 ? fact.capacityMl : bottle.capacityMl;
  const capacityTold = fact.capacityTold ?? bottle.capacityTold;
  const volumeMl = Math.max(0, fact.volumeMl);
  const sameBatch = fact.batch === undefined || bottle.batch === null || bottle.batch === fact.batch;
  if (fact.liquid === null || fact.liquid !== bottle.liquid || !sameBatch) {
    const filled: BottleRecord = {
      ...bottle,
      ...emptied(),
      capacityMl,
      capacityTold,
      liquid: fact.liquid,
      batch: fact.batch ?? null,
      contents: fact.liquid === null ? { ...NOTHING } : fresh(fact.liquid, volumeMl),
      filledWallMs: fact.liquid === null ? null : wallMs,
      discardedWallMs: null,
      volumeAssumed: fact.volumeAssumed ?? false,
      ...(fact.assumed && { assumed: true, filledWallMs: null }),
    };
    const broughtMl = fact.liquid === null ? 0 : volumeMl;
    return withAccount(withBottle(world, filled), { lostMl: had, broughtMl });
  }
  const change = volumeMl - had;
  const { taken, left } = draw(bottle.contents, -change);
  const lostMl = change < 0 ? had - left.volumeMl : 0;
  const measured = {
    ...bottle,
    assumed: fact.assumed ?? false,
    volumeAssumed: fact.volumeAssumed ?? false,
    capacityMl,
    capacityTold,
    // evaporation takes water, not the work done: what the film used up stays behind
    contents:
      change < 0
        ? { ...left, workM2: left.workM2 + taken.workM2 }
        : blend(bottle.contents, fresh(fact.liquid, change)),
    batch: fact.batch ?? bottle.batch,
    // how much there is answers no question of what it has become
    ...(!STAYS_SO.has(bottle.doubt ?? null) && heldAgainst(null)),
    filledWallMs: bottle.filledWallMs ?? wallMs,
    lostMl: bottle.lostMl + lostMl,
  };
  return withAccount(withBottle(world, measured), { lostMl, foundMl: Math.max(0, change) });
}

const STAYS_SO: ReadonlySet<BottleDoubt | null> = new Set<BottleDoubt>([
  'oxidised',
  'gone-off',
  'mixed-wrong',
  'ph-off',
]);

function mixed(world: World, fact: FactOf<'mixed'>, wallMs: number): World {
  if (fact.bottle === undefined) return world;
  const known = bottleOf(world, fact.bottle);
  const next =
    known.batch === fact.batch && known.liquid === fact.liquid
      ? world
      : bottleSet(
          withBottle(world, { ...known, batch: known.batch ?? 'before' }),
          { ...fact, type: 'bottle-set', bottle: fact.bottle, capacityMl: known.capacityMl ?? 0 },
          wallMs,
        );
  const bottle = bottleOf(next, fact.bottle);
  return withBottle(next, {
    ...bottle,
    recipe: fact.recipe,
    ph: fact.ph ?? null,
    mixedWallMs: wallMs,
    problems: fact.checks && !fact.checks.ok ? fact.checks.why : [],
    unusable: fact.checks?.unusable === true,
  });
}

function spilled(before: World, fact: FactOf<'spilled'>, atMs: number): World {
  if (!(fact.volumeMl > 0)) return before;
  if (fact.from === undefined)
    return withAccount(before, { foundMl: fact.volumeMl, spilledMl: fact.volumeMl });
  const world = emptiesTank(before, fact.from, fact.volumeMl) ? endContact(before, atMs) : before;
  const { world: drawn, taken } = takeFrom(world, fact.from, fact.liquid, fact.volumeMl);
  const next = withAccount(drawn, { spilledMl: taken.volumeMl });
  if (fact.from.kind !== 'bottle') return next;
  const bottle = bottleOf(next, fact.from.number);
  return withBottle(next, {
    ...bottle,
    ...(bottle.doubt === 'spilled' && heldAgainst(null)),
    spilledMl: bottle.spilledMl + taken.volumeMl,
    pouredOutMl: bottle.pouredOutMl - taken.volumeMl,
  });
}

function splashed(world: World, { liquid, bottle, tank }: FactOf<'splashed'>, wallMs: number): World {
  if (tank) return { ...world, tank: { ...world.tank, ...withSplashes(world.tank, [liquid]) } };
  const known = bottle === undefined ? undefined : world.bottles[bottle];
  return known ? withBottle(world, splashedInto(known, [liquid], wallMs)) : world;
}

/** Number, name and size stay with the bottle; everything else goes with what is in it. */
function bottlesSwapped(world: World, { bottle: a, other: b }: FactOf<'bottles-swapped'>): World {
  const told = (bottle: BottleRecord) => ({
    ...bottle,
    volumeAssumed: bottle.volumeAssumed || bottle.assumed,
  });
  const [one, two] = [told(bottleOf(world, a)), told(bottleOf(world, b))];
  // what they hold was said with it, and how much was not
  const stays = ({ number, name, capacityMl, capacityTold }: BottleRecord) => ({
    ...{ number, name, capacityMl, capacityTold },
    assumed: false,
  });
  const swapped = withBottle(withBottle(world, { ...two, ...stays(one) }), { ...one, ...stays(two) });
  const keys = [a, b].map((number) => vesselKey({ kind: 'bottle', number }));
  return {
    ...swapped,
    readings: exchanged(swapped.readings, keys),
    doubts: exchanged(swapped.doubts, keys),
  };
}

/** What is kept under each of two keys, under the other. */
function exchanged(
  kept: Record<string, Reading>,
  [a = '', b = '']: readonly string[],
): Record<string, Reading> {
  const { [a]: ofA, [b]: ofB, ...others } = kept;
  return { ...others, ...(ofB && { [a]: ofB }), ...(ofA && { [b]: ofA }) };
}

/** A pH that is as it should be takes the doubt of an earlier one away. */
function bottlePh(world: World, { bottle, ph, off }: FactOf<'bottle-ph'>): World {
  const record = bottleOf(world, bottle);
  const changed = off || record.doubt === 'ph-off';
  return withBottle(world, { ...record, ph, ...(changed && heldAgainst(off ? 'ph-off' : null)) });
}

/** What was told of a filling takes the place of what was on record. */
function bottleHistory(world: World, fact: FactOf<'bottle-history'>): World {
  const bottle = bottleOf(world, fact.bottle);
  const { films = bottle.films, workM2 = bottle.contents.workM2, mixedWallMs = bottle.mixedWallMs } = fact;
  const told = { ...world, bottles: { ...world.bottles } };
  for (const one of Object.values(world.bottles))
    if (one.cameFrom === fact.bottle && one.liquid === bottle.liquid && one.mixedWallMs === null)
      told.bottles[one.number] = { ...one, mixedWallMs };
  return withBottle(told, {
    ...bottle,
    assumed: false,
    volumeAssumed: bottle.volumeAssumed || bottle.assumed,
    mixedWallMs,
    films,
    filmAreaM2: fact.workM2 ?? bottle.filmAreaM2,
    contents: { ...bottle.contents, workM2 },
  });
}

function discarded(world: World, number: number, wallMs: number): World {
  const bottle = bottleOf(world, number);
  const drainedMl = bottle.contents.volumeMl;
  const empty = withBottle(world, { ...bottle, ...emptied(), discardedWallMs: wallMs });
  return forgetReading(withAccount(empty, { drainedMl }), number, bottle.liquid);
}

function shelf(world: World, fact: FactOf<'shelf-set'> | FactOf<'shelf-used'>): World {
  const had = world.shelf[fact.substance];
  const set = fact.type === 'shelf-set' ? fact : null;
  const record = {
    substance: fact.substance,
    massG: set ? set.massG : Math.max(0, (had?.massG ?? 0) - fact.massG),
    purity: set?.purity ?? had?.purity ?? null,
    pricePerKg: set?.pricePerKg ?? had?.pricePerKg ?? null,
  };
  return { ...world, shelf: { ...world.shelf, [fact.substance]: record } };
}

/** A probe in the tank reads on; the newest are kept. */
const KEPT_READINGS = 60;

/** A reading too odd to be believed stands until it is confirmed, dropped or read again. */
function doubted(world: World, { vessel, tempC }: FactOf<'reading-doubted'>, atMs: number): World {
  const { [vesselKey(vessel)]: _settled, ...others } = world.doubts;
  return { ...world, doubts: tempC === null ? others : { ...others, [vesselKey(vessel)]: { tempC, atMs } } };
}

/** What was read so far was read with the same thermometer: it counts as what it really was, and is doubted for that no more. */
function thermometerTold(world: World, { errorC, shiftC }: FactOf<'thermometer-told'>): World {
  const really = (reading: Reading): Reading => ({ ...reading, tempC: reading.tempC + shiftC });
  const { bath } = world.tank;
  return {
    ...world,
    thermometerErrorC: errorC,
    readings: Object.fromEntries(Object.entries(world.readings).map(([key, r]) => [key, really(r)])),
    doubts: Object.fromEntries(
      Object.entries(world.doubts).filter(([key, { tempC }]) => world.readings[key]?.tempC !== tempC),
    ),
    tank: bath ? { ...world.tank, bath: { ...bath, readings: bath.readings.map(really) } } : world.tank,
  };
}

function temperature(world: World, fact: FactOf<'temperature'>, atMs: number): World {
  const reading = { tempC: fact.tempC, atMs };
  const ofLiquid = fact.liquid === undefined ? {} : { [`liquid:${fact.liquid}`]: reading };
  const { [vesselKey(fact.vessel)]: _settled, ...doubts } = world.doubts;
  const read: World = {
    ...world,
    readings: { ...world.readings, [vesselKey(fact.vessel)]: reading, ...ofLiquid },
    doubts,
  };
  const { bath } = read.tank;
  if (fact.vessel.kind === 'tank' && bath)
    return {
      ...read,
      tank: { ...read.tank, bath: { ...bath, readings: [...bath.readings, reading].slice(-KEPT_READINGS) } },
    };
  return fact.vessel.kind === 'bottle' ? withBottle(read, bottleOf(read, fact.vessel.number)) : read;
}

/** A bottle that holds something else now says nothing of how warm that is; nor does the liquid that was thrown out with it. */
function forgetReading(world: World, bottle: number, thrownOut: LiquidId | null = null): World {
  const key = vesselKey({ kind: 'bottle', number: bottle });
  const { [key]: _stale, [`liquid:${thrownOut}`]: _gone, ...readings } = world.readings;
  const { [key]: _doubt, ...doubts } = world.doubts;
  return { ...world, readings, doubts };
}

/** What is said to be in a bottle that was empty: nobody has read that. */
const foundIn = (world: World, { bottle, liquid, assumed }: FactOf<'bottle-set'>): LiquidId | null =>
  !assumed && bottleOf(world, bottle).contents.volumeMl < DROP_ML ? liquid : null;

/** The film, and what it was before the bath that is in, with this change. */
function onFilm(world: World, change: (film: FilmState) => FilmState, more: { black?: true } = {}): World {
  const { bath } = world.tank;
  const tank = {
    ...world.tank,
    bath: bath && { ...bath, filmBefore: change(bath.filmBefore), ...more },
  };
  return { ...world, film: change(world.film), tank };
}

/** The water that is in does not count as a rinse; without any the backing is as loose as before it. */
const backingSeen = (world: World): World =>
  onFilm(world, (film) => (film.backing === 'off' ? { ...film, backing: 'softened' } : film), {
    black: true,
  });

/** The bath, and no water, that was in the tank last by the record. */
export const lastBath = ({ tank: { bath }, film: { history } }: World): LiquidId | null =>
  (bath?.role === 'water' ? undefined : bath?.liquid) ??
  history.findLast((c) => c.role !== 'water')?.liquid ??
  null;

/** What is on record as its last bath is no doubt. */
function filmDoubted(world: World, { of, asked = false }: FactOf<'film-doubted'>): World {
  const last = world.film.doubt?.last ?? lastBath(world);
  const open = of.filter((liquid) => liquid !== last);
  return onFilm(world, ({ doubt: _before, ...film }) => ({
    ...film,
    ...(open.length > 0 && { doubt: { of: open, last, asked } }),
  }));
}

/** Another tank comes to the sink, as it was left, or new; the one before is set aside with all that is in it. */
function tankChosen(world: World, key: string): World {
  if (key === world.tankKey) return world;
  const { tank, tankMl, film, filmKnown, films } = world;
  const { [key]: chosen = newTank(), ...others } = world.tanksAside;
  const aside = { tank, tankMl, film, filmKnown, films };
  return { ...world, ...chosen, tankKey: key, tanksAside: { ...others, [world.tankKey]: aside } };
}

const newTank = (): TankAside => ({
  tank: { ...NOTHING, bath: null },
  tankMl: null,
  film: noFilm,
  filmKnown: false,
  films: [],
});

/** Film goes into a dry tank; drops from the last run are gone. */
function runStarted(world: World, fact: FactOf<'run-started'>): World {
  return withAccount(
    {
      ...world,
      tank: { ...NOTHING, bath: null },
      tankMl: fact.tankMl,
      film: noFilm,
      filmKnown: false,
      films: fact.films.length > 0 ? fact.films : world.films,
      run: { runId: fact.runId, sheetId: fact.sheetId, sheet: fact.sheet ?? null },
    },
    { lostMl: world.tank.volumeMl },
  );
}

/** Applies one fact other than `undone`. Pure; the account balances before and after. */
export function fold(world: World, { fact, atMs, wallMs }: DatedFact): World {
  const onVessels = ((): World => {
    switch (fact.type) {
      case 'poured':
        return poured(world, fact, atMs, wallMs);
      case 'bottle-set':
        return forgetReading(bottleSet(world, fact, wallMs), fact.bottle, foundIn(world, fact));
      case 'mixed':
        return mixed(world, fact, wallMs);
      case 'spilled':
        return spilled(world, fact, atMs);
      case 'splashed':
        return splashed(world, fact, wallMs);
      case 'bottle-doubted':
        return withBottle(world, { ...bottleOf(world, fact.bottle), ...heldAgainst(fact.doubt, fact.of) });
      case 'film-doubted':
        return filmDoubted(world, fact);
      case 'bottle-ph':
        return bottlePh(world, fact);
      case 'bottles-swapped':
        return bottlesSwapped(world, fact);
      case 'bottle-history':
        return bottleHistory(world, fact);
      case 'bottle-discarded':
        return discarded(world, fact.bottle, wallMs);
      case 'bottle-named':
        return withBottle(world, { ...bottleOf(world, fact.bottle), name: fact.name });
      case 'shelf-set':
      case 'shelf-used':
        return shelf(world, fact);
      case 'control-strip':
        return { ...world, strips: [...(world.strips ?? []), { date: fact.date, patches: fact.patches }] };
      case 'temperature':
        return temperature(world, fact, atMs);
      case 'reading-doubted':
        return doubted(world, fact, atMs);
      case 'run-started':
        return runStarted(world, fact);
      case 'run-finished':
        return { ...world, run: null, films: [] };
      case 'film-loaded': {
        const film = newFilm(kindOfStock(world.films[0]?.stock) ?? fact.kind ?? motionPictureFilm);
        return { ...world, filmKnown: true, film: { ...film, carry: world.film.carry } };
      }
      case 'film-out':
        return onFilm({ ...world, filmKnown: false }, ({ carry }) => ({ ...noFilm, carry }));
      case 'films-told':
        return filmsTold(world, fact.films);
      case 'film-hung':
        return { ...world, filmKnown: true, film: { ...noFilm, carry: world.film.carry } };
      case 'step-skipped':
        return onFilm(world, (film) => ({ ...film, skipped: [...film.skipped, fact.stepId] }));
      case 'backing-seen':
        return backingSeen(world);
      case 'film-had':
        return filmHad(world, fact);
      case 'rinsed': {
        const each = fact.seconds / Math.max(1, fact.fills);
        const rinse: Contact = { role: 'water', liquid: 'water', seconds: each };
        const rinses = Array.from({ length: fact.fills }, () => rinse);
        return { ...world, film: rinses.reduce((film, one) => expose(film, one), world.film) };
      }
      case 'tank-chosen':
        return tankChosen(world, fact.tank);
      case 'thermometer-told':
        return thermometerTold(world, fact);
      case 'heater-told': {
        const { heaterOffMs = atMs, ...heated } = world;
        return fact.on ? heated : { ...world, heaterOffMs };
      }
      case 'tank-told':
        return { ...world, tankMl: fact.volumeMl };
      default:
        return world;
    }
  })();
  return applyToRun(onVessels, { fact, atMs, wallMs });
}
