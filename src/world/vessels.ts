import { blend, DROP_ML, draw, foreignShare, fresh, mainLiquid, NOTHING, withSplashes } from './contents.js';
import type { Account, BottleDoubt, BottleRecord, Contents, Reading, World } from './records.js';
import { runAtWork } from './run-record.js';
import { type LiquidId, type VesselRef, vesselKey } from './vessel.js';

const emptyBottle = (number: number): BottleRecord => ({
  number,
  name: null,
  capacityMl: null,
  capacityTold: false,
  ...emptied(),
  discardedWallMs: null,
});

/** What is said against a bottle, and what may be in it: the one is never kept without the other. */
export const heldAgainst = (doubt: BottleDoubt | null, of: LiquidId | null = null) => ({
  doubt,
  doubtOf: of,
});

/** What a new filling resets. */
export const emptied = () => ({
  assumed: false,
  volumeAssumed: false,
  liquid: null,
  batch: null,
  recipe: null,
  ph: null,
  contents: { ...NOTHING },
  filledWallMs: null,
  mixedWallMs: null,
  cameFrom: undefined,
  pouredOutMl: 0,
  pouredInMl: 0,
  replenishedMl: 0,
  spilledMl: 0,
  lostMl: 0,
  runs: 0,
  filmAreaM2: 0,
  films: {},
  contaminations: [],
  ...heldAgainst(null),
  problems: [],
});

export const bottleOf = (world: World, number: number): BottleRecord =>
  world.bottles[number] ?? emptyBottle(number);

/** The bottle that a vessel is, where it is one that was ever spoken of. */
export const bottleAt = (
  { bottles }: Pick<World, 'bottles'>,
  vessel: VesselRef | undefined,
): BottleRecord | undefined => (vessel?.kind === 'bottle' ? bottles[vessel.number] : undefined);

/** What this bottle holds was never said, or taken for granted: it may hold anything. */
export const isUnknown = ({ liquid, assumed }: BottleRecord): boolean => liquid === null && assumed;

/** Numbers of the bottles whose label says this liquid, lowest first. */
export const bottlesFor = (world: World, liquid: string): number[] =>
  Object.values(world.bottles)
    .filter((b) => b.liquid === liquid)
    .map((b) => b.number)
    .sort((a, b) => a - b);

export const volumeOf = (world: World, number: number): number =>
  world.bottles[number]?.contents.volumeMl ?? 0;

/** The last reading of this vessel, or of the liquid wherever it stood. */
export function readingOf(
  { readings }: Pick<World, 'readings'>,
  liquid: LiquidId,
  vessel: VesselRef,
): Reading | null {
  const [here, of] = [readings[vesselKey(vessel)], readings[`liquid:${liquid}`]];
  if (here && of) return here.atMs >= of.atMs ? here : of;
  return here ?? of ?? null;
}

/** The liquids that stand in jugs. */
export const jugsOf = (world: World): string[] => Object.keys(world.jugs);

/** What a vessel holds. */
export function contentsOf(world: World, vessel: VesselRef, liquid: string): Contents | null {
  switch (vessel.kind) {
    case 'bottle':
      return world.bottles[vessel.number]?.contents ?? null;
    case 'jug':
      return world.jugs[liquid] ?? null;
    case 'tank':
      return world.tank.volumeMl > 0 ? world.tank : null;
    default:
      return null;
  }
}

export const withBottle = (world: World, bottle: BottleRecord): World => ({
  ...world,
  bottles: { ...world.bottles, [bottle.number]: bottle },
});

const withJug = (world: World, liquid: string, contents: Contents): World => {
  const { [liquid]: _before, ...others } = world.jugs;
  return { ...world, jugs: contents.volumeMl > 0 ? { ...others, [liquid]: contents } : others };
};

/** A vessel holds this in place of what was in it. */
function withContents(world: World, vessel: VesselRef, liquid: string, contents: Contents): World {
  if (vessel.kind === 'bottle') return withBottle(world, { ...bottleOf(world, vessel.number), contents });
  if (vessel.kind === 'jug') return withJug(world, liquid, contents);
  return { ...world, tank: { ...contents, bath: contents.volumeMl > 0 ? world.tank.bath : null } };
}

/** The liquid in a vessel has done so much more work, m²; less below 0. An empty vessel has nothing to count. */
export function withWork(world: World, vessel: VesselRef, liquid: string, moreM2: number): World {
  const held = contentsOf(world, vessel, liquid);
  if (!held || held.volumeMl <= 0) return world;
  return withContents(world, vessel, liquid, { ...held, workM2: Math.max(0, held.workM2 + moreM2) });
}

export const withAccount = (world: World, change: Partial<Account>): World => {
  const account = { ...world.account };
  for (const key of Object.keys(change) as (keyof Account)[]) account[key] += change[key] ?? 0;
  return { ...world, account };
};

/** Takes liquid out of a vessel; what the ledger did not know of is entered as found. Tap and tub never run dry. */
export function takeFrom(
  world: World,
  from: VesselRef,
  liquid: string,
  volumeMl: number,
): { world: World; taken: Contents } {
  if (from.kind === 'tap' || from.kind === 'tub' || from.kind === 'sink')
    return { world: withAccount(world, { broughtMl: volumeMl }), taken: fresh(liquid, volumeMl) };
  const held = from.kind === 'tank' ? world.tank : (contentsOf(world, from, liquid) ?? NOTHING);
  const bottle = from.kind === 'bottle' ? bottleOf(world, from.number) : null;
  const { taken: drawn, left } = draw(held, volumeMl);
  const taken = bottle ? { ...drawn, ...withSplashes(drawn, splashesIn(bottle)) } : drawn;
  const missing = volumeMl - taken.volumeMl;
  const whole = missing > DROP_ML ? blend(taken, fresh(liquid, missing)) : taken;
  const gone = held.volumeMl - left.volumeMl - taken.volumeMl; // a last film below a drop
  const pouredOutMl = (bottle?.pouredOutMl ?? 0) + whole.volumeMl;
  const next = bottle
    ? withBottle(world, { ...bottle, liquid: bottle.liquid ?? liquid, contents: left, pouredOutMl })
    : withContents(world, from, liquid, left);
  const account = { foundMl: whole.volumeMl - taken.volumeMl, lostMl: gone };
  return { world: withAccount(next, account), taken: whole };
}

/** So much of what is poured in runs over, ml; by the size on record, told or taken for granted. */
export const overflowMl = ({ contents, capacityMl }: BottleRecord, pouredMl: number): number =>
  capacityMl === null ? 0 : Math.max(0, contents.volumeMl + pouredMl - capacityMl);

/** A share of another bath up to this is what stays on reel and walls and comes along, 0 to 1. Source: common practice. */
const carriedShare = 0.05;

export function putInto(
  world: World,
  to: VesselRef,
  what: Contents,
  liquid: string,
  from: VesselRef,
  wallMs: number,
): World {
  if (to.kind === 'tank') return { ...world, tank: { ...blend(world.tank, what), bath: world.tank.bath } };
  if (to.kind === 'jug') return withJug(world, liquid, blend(world.jugs[liquid] ?? NOTHING, what));
  if (to.kind !== 'bottle') return withAccount(world, { drainedMl: what.volumeMl });
  const before = bottleOf(world, to.number);
  const newFilling = before.contents.volumeMl < DROP_ML && before.liquid !== liquid;
  const bottle = newFilling ? { ...before, ...emptied(), liquid, discardedWallMs: null } : before;
  const dregsMl = newFilling ? before.contents.volumeMl : 0;
  const label = bottle.liquid ?? liquid;
  const poured = mainLiquid(what) ?? liquid;
  const wrong = label !== poured && label !== liquid && bottle.contents.volumeMl >= DROP_ML;
  // its own bath, with more of another one in it than the bottle has already
  const brings = !wrong && foreignShare(what, label) > foreignShare(bottle.contents, label) + carriedShare;
  const other = brings ? mainLiquid({ ...what, parts: { ...what.parts, [label]: 0 } }) : null;
  const got = wrong ? poured : other;
  // what has worked already, or fills an empty bottle, replenishes nothing
  const topped =
    (from.kind === 'jug' || from.kind === 'bottle') &&
    foreignShare(what, label) < 0.5 &&
    what.workM2 <= 0 &&
    bottle.contents.volumeMl >= DROP_ML;
  const origin = originOf(world, from, liquid);
  const source = origin && origin.number !== to.number ? origin : null;
  const { splashes = [], ...whole } = blend(bottle.contents, what);
  const { left } = draw(whole, overflowMl(before, what.volumeMl));
  const filled: BottleRecord = {
    ...bottle,
    liquid: label,
    contents: left,
    pouredInMl: bottle.pouredInMl + what.volumeMl,
    replenishedMl: bottle.replenishedMl + (topped ? what.volumeMl : 0),
    ...(newFilling && !origin && { filledWallMs: wallMs }),
    ...(source?.liquid === label && goesAlong(source, bottle, what.volumeMl)),
    contaminations:
      got === null
        ? bottle.contaminations
        : [
            ...bottle.contaminations,
            {
              wallMs,
              liquid: got,
              volumeMl: wrong ? what.volumeMl : (what.parts[got] ?? 0),
              intoLiquid: label,
              intoMl: bottle.contents.volumeMl,
            },
          ],
  };
  return withBottle(
    withAccount(world, { lostMl: dregsMl, spilledMl: whole.volumeMl - left.volumeMl }),
    // what is on its record already is not told twice
    splashedInto(
      filled,
      splashes.filter((s) => !splashesIn(bottle).includes(s)),
      wallMs,
    ),
  );
}

/** The bottle that the liquid came out of, through tank and jug; null: none that is known. */
function originOf(world: World, from: VesselRef, liquid: LiquidId): BottleRecord | null {
  const pours = runAtWork(world)?.pours ?? [];
  const at = pours.reduceRight<VesselRef>(
    (where, p) => (p.liquid === liquid && vesselKey(p.to) === vesselKey(where) ? p.from : where),
    from,
  );
  return bottleAt(world, at) ?? null;
}

/** What is known of a bath, and what speaks against it, goes with it into the next bottle. */
function goesAlong(from: BottleRecord, into: BottleRecord, pouredMl: number): Partial<BottleRecord> {
  const { recipe, batch, ph, runs, films, filmAreaM2 } = from;
  const mostly = pouredMl >= into.contents.volumeMl;
  const dates = [from, ...(into.contents.volumeMl < DROP_ML ? [] : [into])].map(
    ({ mixedWallMs, filledWallMs }) => mixedWallMs ?? filledWallMs,
  );
  const known = dates.filter((date) => date !== null);
  return {
    ...(into.contents.volumeMl < DROP_ML && { recipe, batch, ph, runs, films, filmAreaM2 }),
    // a little of an older one, to replenish it, makes no bath old
    ...(mostly && {
      ...(known.length < dates.length
        ? { filledWallMs: null, mixedWallMs: null }
        : { mixedWallMs: Math.min(...known) }),
      cameFrom: from.number,
    }),
    ...(!into.doubt && heldAgainst(from.doubt ?? null, from.doubtOf ?? null)),
    problems: [...new Set([...into.problems, ...from.problems])],
    ...((into.unusable || from.unusable) && { unusable: true }),
  };
}

/** What splashed into a bottle and was not measured. */
const splashesIn = ({ contaminations }: BottleRecord): LiquidId[] =>
  contaminations.flatMap((c) => (c.volumeMl === null ? [c.liquid] : []));

/** … with more of that. */
export function splashedInto(
  bottle: BottleRecord,
  splashes: readonly LiquidId[],
  wallMs: number,
): BottleRecord {
  const { liquid: intoLiquid, contents } = bottle;
  if (intoLiquid === null) return bottle;
  const added = splashes
    .filter((s) => s !== intoLiquid)
    .map((liquid) => ({ wallMs, liquid, volumeMl: null, intoLiquid, intoMl: contents.volumeMl }));
  return { ...bottle, contaminations: [...bottle.contaminations, ...added].slice(-20) };
}
