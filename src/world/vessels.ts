import { blend, DROP_ML, draw, foreignShare, fresh, mainLiquid, NOTHING } from './contents.js';
import type { Account, Bench, BottleRecord, Contents } from './records.js';
import type { VesselRef } from './vessel.js';

const emptyBottle = (number: number): BottleRecord => ({
  number,
  name: null,
  capacityMl: null,
  ...emptied(),
  discardedWallMs: null,
});

/** What a new filling resets. */
export const emptied = () => ({
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

export const withBottle = (bench: Bench, bottle: BottleRecord): Bench => ({
  ...bench,
  bottles: { ...bench.bottles, [bottle.number]: bottle },
});

export const withAccount = (bench: Bench, change: Partial<Account>): Bench => {
  const account = { ...bench.account };
  for (const key of Object.keys(change) as (keyof Account)[]) account[key] += change[key] ?? 0;
  return { ...bench, account };
};

/** Takes liquid out of a vessel; what the ledger did not know of is entered as found. Tap and tub never run dry. */
export function takeFrom(
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

export function putInto(
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
  const dregsMl = newFilling ? before.contents.volumeMl : 0;
  const label = bottle.liquid ?? liquid;
  const poured = mainLiquid(what) ?? liquid;
  const wrong = label !== poured && label !== liquid && bottle.contents.volumeMl >= DROP_ML;
  const topped =
    (from.kind === 'jug' || from.kind === 'bottle') && foreignShare(what, label) < 0.5 && !newFilling;
  return withBottle(withAccount(bench, { lostMl: dregsMl }), {
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
