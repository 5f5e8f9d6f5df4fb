import { blend, draw, fresh, NOTHING } from './contents.js';
import type { Fact } from './fact.js';
import { filmsAreaM2 } from './film-area.js';
import type { Bench, BottleRecord, DatedFact } from './records.js';
import { applyToRun } from './run-record.js';
import { bottleOf, emptied, putInto, takeFrom, withAccount, withBottle } from './vessels.js';

type Of<T extends Fact['type']> = Extract<Fact, { type: T }>;

export const emptyBench = (): Bench => ({
  bottles: {},
  tank: { ...NOTHING },
  jug: { ...NOTHING },
  runs: {},
  shelf: {},
  account: { broughtMl: 0, foundMl: 0, spilledMl: 0, drainedMl: 0, lostMl: 0 },
});

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
