import type { Fact } from '../process/fact.js';
import type { VesselRef } from '../process/vessel.js';
import { blend, DROP_ML, draw, foreignShare, fresh, mainLiquid, NOTHING } from './contents.js';
import { filmsAreaM2 } from './film-area.js';
import type { Account, Bench, BottleRecord, Contents, DatedFact } from './records.js';
import { applyToRun } from './run-record.js';

type Of<T extends Fact['type']> = Extract<Fact, { type: T }>;

export const emptyBench = (): Bench => ({
  bottles: {},
  tank: { ...NOTHING },
  jug: { ...NOTHING },
  runs: {},
  shelf: {},
  account: { broughtMl: 0, foundMl: 0, spilledMl: 0, drainedMl: 0, lostMl: 0 },
});

const emptyBottle = (number: number): BottleRecord => ({
  number,
  name: null,
  capacityMl: null,
  ...emptied(),
  discardedWallMs: null,
});

/** What a new filling resets. */
const emptied = () => ({
  assumed: false,
  liquid: null,
  batch: null,
  recipe: null,
  ph: null,
  contents: { ...NOTHING },
  filledWallMs: null,
  mixedWallMs: null,
  pouredOutMl: 0,
  pouredInMl: 0,
  replenishedMl: 0,
  spilledMl: 0,
  lostMl: 0,
  runs: 0,
  filmAreaM2: 0,
  films: {},
  lastTempC: null,
  lastTempWallMs: null,
  contaminations: [],
});

export const bottleOf = (bench: Bench, number: number): BottleRecord =>
  bench.bottles[number] ?? emptyBottle(number);

const withBottle = (bench: Bench, bottle: BottleRecord): Bench => ({
  ...bench,
  bottles: { ...bench.bottles, [bottle.number]: bottle },
});

const withAccount = (bench: Bench, change: Partial<Account>): Bench => {
  const account = { ...bench.account };
  for (const key of Object.keys(change) as (keyof Account)[]) account[key] += change[key] ?? 0;
  return { ...bench, account };
};

/** Takes liquid out of a vessel; what the ledger did not know of is entered as found. Tap and tub never run dry. */
function takeFrom(
  bench: Bench,
  from: VesselRef,
  liquid: string,
  volumeMl: number,
): { bench: Bench; taken: Contents } {
  if (from.kind === 'tap' || from.kind === 'tub' || from.kind === 'sink')
    return { bench: withAccount(bench, { broughtMl: volumeMl }), taken: fresh(liquid, volumeMl) };
  const held =
    from.kind === 'bottle'
      ? bottleOf(bench, from.number).contents
      : from.kind === 'tank'
        ? bench.tank
        : bench.jug;
  const { taken, left } = draw(held, volumeMl);
  const missing = volumeMl - taken.volumeMl;
  const whole = missing > DROP_ML ? blend(taken, fresh(liquid, missing)) : taken;
  const gone = held.volumeMl - left.volumeMl - taken.volumeMl; // a last film below a drop
  let next = withAccount(bench, { foundMl: whole.volumeMl - taken.volumeMl, lostMl: gone });
  if (from.kind === 'bottle') {
    const bottle = bottleOf(next, from.number);
    const pouredOutMl = bottle.pouredOutMl + whole.volumeMl;
    next = withBottle(next, { ...bottle, liquid: bottle.liquid ?? liquid, contents: left, pouredOutMl });
  } else if (from.kind === 'tank') next = { ...next, tank: left };
  else next = { ...next, jug: left };
  return { bench: next, taken: whole };
}

function putInto(
  bench: Bench,
  to: VesselRef,
  what: Contents,
  liquid: string,
  from: VesselRef,
  wallMs: number,
): Bench {
  if (to.kind === 'tank') return { ...bench, tank: blend(bench.tank, what) };
  if (to.kind === 'jug') return { ...bench, jug: blend(bench.jug, what) };
  if (to.kind !== 'bottle') return withAccount(bench, { drainedMl: what.volumeMl });
  const before = bottleOf(bench, to.number);
  const newFilling = before.contents.volumeMl < DROP_ML && before.liquid !== liquid;
  const bottle = newFilling
    ? { ...before, ...emptied(), liquid, filledWallMs: wallMs, discardedWallMs: null }
    : before;
  const label = bottle.liquid ?? liquid;
  const poured = mainLiquid(what) ?? liquid;
  const wrong = label !== poured && label !== liquid && bottle.contents.volumeMl >= DROP_ML;
  const topped =
    (from.kind === 'jug' || from.kind === 'bottle') && foreignShare(what, label) < 0.5 && !newFilling;
  return withBottle(bench, {
    ...bottle,
    liquid: label,
    contents: blend(bottle.contents, what),
    pouredInMl: bottle.pouredInMl + what.volumeMl,
    replenishedMl: bottle.replenishedMl + (topped ? what.volumeMl : 0),
    filledWallMs: bottle.filledWallMs ?? wallMs,
    contaminations: wrong
      ? [
          ...bottle.contaminations,
          {
            wallMs,
            liquid: poured,
            volumeMl: what.volumeMl,
            intoLiquid: label,
            intoMl: bottle.contents.volumeMl,
          },
        ].slice(-20)
      : bottle.contaminations,
  });
}

function poured(bench: Bench, fact: Of<'poured'>, wallMs: number): Bench {
  if (!(fact.volumeMl > 0)) return bench;
  const run = fact.runId === undefined ? undefined : bench.runs[fact.runId];
  const works = fact.to.kind === 'tank' && run !== undefined && !run.worked.includes(fact.liquid);
  const { bench: drawn, taken } = takeFrom(bench, fact.from, fact.liquid, fact.volumeMl);
  let next = putInto(drawn, fact.to, taken, fact.liquid, fact.from, wallMs);
  if (!works || run === undefined) return next;
  const areaM2 = filmsAreaM2(run.films);
  next = { ...next, tank: { ...next.tank, workM2: next.tank.workM2 + areaM2 } };
  if (fact.from.kind !== 'bottle') return next;
  const bottle = bottleOf(next, fact.from.number);
  const films = { ...bottle.films };
  for (const film of run.films) films[film.format] = (films[film.format] ?? 0) + (film.count ?? 1);
  return withBottle(next, {
    ...bottle,
    runs: bottle.runs + 1,
    filmAreaM2: bottle.filmAreaM2 + areaM2,
    films,
  });
}

/** The user says what a bottle holds. The same liquid again is a measurement; anything else a new filling. */
function bottleSet(bench: Bench, fact: Of<'bottle-set'>, wallMs: number): Bench {
  const bottle = bottleOf(bench, fact.bottle);
  const had = bottle.contents.volumeMl;
  const capacityMl = fact.capacityMl > 0 ? fact.capacityMl : bottle.capacityMl;
  const volumeMl = Math.max(0, fact.volumeMl);
  const sameBatch = fact.batch === undefined || bottle.batch === null || bottle.batch === fact.batch;
  if (fact.liquid === null || fact.liquid !== bottle.liquid || !sameBatch) {
    const filled: BottleRecord = {
      ...bottle,
      ...emptied(),
      capacityMl,
      liquid: fact.liquid,
      batch: fact.batch ?? null,
      contents: fact.liquid === null ? { ...NOTHING } : fresh(fact.liquid, volumeMl),
      filledWallMs: fact.liquid === null ? null : wallMs,
      discardedWallMs: null,
    };
    const broughtMl = fact.liquid === null ? 0 : volumeMl;
    return withAccount(withBottle(bench, filled), { lostMl: had, broughtMl });
  }
  const change = volumeMl - had;
  const { taken, left } = draw(bottle.contents, -change);
  const contents = change < 0 ? left : blend(bottle.contents, fresh(fact.liquid, change));
  const lostMl = change < 0 ? had - left.volumeMl : 0;
  const measured = {
    ...bottle,
    assumed: false,
    capacityMl,
    contents,
    batch: fact.batch ?? bottle.batch,
    filledWallMs: bottle.filledWallMs ?? wallMs,
    // evaporation takes water, not the work done: what the film used up stays behind
    lostMl: bottle.lostMl + lostMl,
  };
  measured.contents = change < 0 ? { ...contents, workM2: contents.workM2 + taken.workM2 } : contents;
  return withAccount(withBottle(bench, measured), { lostMl, foundMl: Math.max(0, change) });
}

function mixed(bench: Bench, fact: Of<'mixed'>, wallMs: number): Bench {
  if (fact.bottle === undefined) return bench;
  const known = bottleOf(bench, fact.bottle);
  const next =
    known.batch === fact.batch && known.liquid === fact.liquid
      ? bench
      : bottleSet(
          withBottle(bench, { ...known, batch: known.batch ?? 'before' }),
          { ...fact, type: 'bottle-set', bottle: fact.bottle, capacityMl: known.capacityMl ?? 0 },
          wallMs,
        );
  const bottle = bottleOf(next, fact.bottle);
  return withBottle(next, { ...bottle, recipe: fact.recipe, ph: fact.ph ?? null, mixedWallMs: wallMs });
}

function spilled(bench: Bench, fact: Of<'spilled'>): Bench {
  if (!(fact.volumeMl > 0)) return bench;
  if (fact.from === undefined)
    return withAccount(bench, { foundMl: fact.volumeMl, spilledMl: fact.volumeMl });
  const { bench: drawn, taken } = takeFrom(bench, fact.from, fact.liquid, fact.volumeMl);
  const next = withAccount(drawn, { spilledMl: taken.volumeMl });
  if (fact.from.kind !== 'bottle') return next;
  const bottle = bottleOf(next, fact.from.number);
  return withBottle(next, {
    ...bottle,
    spilledMl: bottle.spilledMl + taken.volumeMl,
    pouredOutMl: bottle.pouredOutMl - taken.volumeMl,
  });
}

function discarded(bench: Bench, number: number, wallMs: number): Bench {
  const bottle = bottleOf(bench, number);
  const drainedMl = bottle.contents.volumeMl;
  return withAccount(withBottle(bench, { ...bottle, ...emptied(), discardedWallMs: wallMs }), { drainedMl });
}

function shelf(bench: Bench, fact: Of<'shelf-set'> | Of<'shelf-used'>): Bench {
  const had = bench.shelf[fact.substance];
  const record =
    fact.type === 'shelf-set'
      ? {
          substance: fact.substance,
          massG: fact.massG,
          purity: fact.purity ?? had?.purity ?? null,
          pricePerKg: fact.pricePerKg ?? had?.pricePerKg ?? null,
          usedG: had?.usedG ?? 0,
        }
      : {
          substance: fact.substance,
          massG: Math.max(0, (had?.massG ?? 0) - fact.massG),
          purity: had?.purity ?? null,
          pricePerKg: had?.pricePerKg ?? null,
          usedG: (had?.usedG ?? 0) + fact.massG,
        };
  return { ...bench, shelf: { ...bench.shelf, [fact.substance]: record } };
}

function temperature(bench: Bench, fact: Of<'temperature'>, wallMs: number): Bench {
  if (fact.vessel.kind !== 'bottle') return bench;
  const bottle = bottleOf(bench, fact.vessel.number);
  return withBottle(bench, { ...bottle, lastTempC: fact.tempC, lastTempWallMs: wallMs });
}

/** Applies one fact other than `undone`. Pure; the account balances before and after. */
export function applyFact(bench: Bench, { fact, atMs, wallMs }: DatedFact): Bench {
  const onVessels = ((): Bench => {
    switch (fact.type) {
      case 'poured':
        return poured(bench, fact, wallMs);
      case 'bottle-set':
        return bottleSet(bench, fact, wallMs);
      case 'mixed':
        return mixed(bench, fact, wallMs);
      case 'spilled':
        return spilled(bench, fact);
      case 'bottle-discarded':
        return discarded(bench, fact.bottle, wallMs);
      case 'bottle-named':
        return withBottle(bench, { ...bottleOf(bench, fact.bottle), name: fact.name });
      case 'shelf-set':
      case 'shelf-used':
        return shelf(bench, fact);
      case 'temperature':
        return temperature(bench, fact, wallMs);
      case 'run-started': // film goes into a dry tank; drops from the last run are gone
        return withAccount({ ...bench, tank: { ...NOTHING } }, { lostMl: bench.tank.volumeMl });
      default:
        return bench;
    }
  })();
  return applyToRun(onVessels, { fact, atMs, wallMs });
}
