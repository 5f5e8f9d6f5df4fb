import type { Fact } from '../world/fact.js';
import type { Role } from '../world/liquids.js';
import type { LiquidId, VesselRef } from '../world/vessel.js';
import { bottledLiquids, type ProcessSheet } from './sheet.js';

export interface BottleState {
  /** the last liquid it held; null: nobody said. With volume 0 it is empty; null with volume: unlabelled */
  liquid: LiquidId | null;
  volumeMl: number;
  capacityMl: number;
  /** set up by default, not by word or deed */
  assumed: boolean;
}

export interface Loose {
  liquid: LiquidId;
  volumeMl: number;
  /** what clung to the film and got into it, and how bad that is for its bottle */
  tainted: Taint | null;
}

export interface Taint {
  by: Role;
  verdict: 'recoverable' | 'ruinous';
}

/** What every vessel holds, as far as is known. JSON-safe. */
export interface Bench {
  bottles: Record<string, BottleState>;
  tank: Loose | null;
  /** baths that stand drained in jugs, waiting to go back */
  jugs: Loose[];
  tankMl: number;
}

export interface BenchDefaults {
  tankMl: number;
  bottleVolumeMl: number;
  bottleCapacityMl: number;
}

/** Bottles 1, 2, 3… hold the sheet's baths in the order they are used. */
export function defaultBench(sheet: ProcessSheet, defaults: BenchDefaults): Bench {
  const bottles = bottledLiquids(sheet).map((liquid, i): [string, BottleState] => [
    String(i + 1),
    { liquid, volumeMl: defaults.bottleVolumeMl, capacityMl: defaults.bottleCapacityMl, assumed: true },
  ]);
  return { bottles: Object.fromEntries(bottles), tank: null, jugs: [], tankMl: defaults.tankMl };
}

export const bottleOf = (bench: Bench, number: number): BottleState | undefined =>
  bench.bottles[String(number)];

/** Numbers of the bottles whose label says this liquid, lowest first. */
export const bottlesFor = (bench: Bench, liquid: LiquidId): number[] =>
  Object.entries(bench.bottles)
    .filter(([, b]) => b.liquid === liquid)
    .map(([n]) => Number(n))
    .sort((a, b) => a - b);

export const withBottle = (bench: Bench, number: number, bottle: BottleState): Bench => ({
  ...bench,
  bottles: { ...bench.bottles, [String(number)]: bottle },
});

/** Takes up to `volumeMl` out of a vessel; what comes out is the liquid and its volume. */
export function take(bench: Bench, from: VesselRef, liquid: LiquidId, volumeMl?: number): [Bench, Loose] {
  const nothing: Loose = { liquid, volumeMl: volumeMl ?? 0, tainted: null };
  if (from.kind === 'bottle') {
    const bottle = bottleOf(bench, from.number);
    if (!bottle) return [bench, nothing];
    const out = Math.min(volumeMl ?? bottle.volumeMl, bottle.volumeMl);
    return [
      withBottle(bench, from.number, { ...bottle, volumeMl: bottle.volumeMl - out }),
      { liquid, volumeMl: out, tainted: null },
    ];
  }
  if (from.kind === 'tank') {
    const tank = bench.tank ?? nothing;
    const out = Math.min(volumeMl ?? tank.volumeMl, tank.volumeMl);
    const left = tank.volumeMl - out;
    return [
      { ...bench, tank: left > 0 ? { ...tank, volumeMl: left } : null },
      { ...tank, volumeMl: out },
    ];
  }
  if (from.kind === 'jug') {
    const jug = bench.jugs.find((j) => j.liquid === liquid);
    if (!jug) return [bench, nothing];
    const out = Math.min(volumeMl ?? jug.volumeMl, jug.volumeMl);
    const left = { ...jug, volumeMl: jug.volumeMl - out };
    const jugs = bench.jugs.flatMap((j) => (j !== jug ? [j] : left.volumeMl > 0 ? [left] : []));
    return [
      { ...bench, jugs },
      { ...jug, volumeMl: out },
    ];
  }
  return [bench, { ...nothing, volumeMl: volumeMl ?? bench.tankMl }];
}

/** Puts liquid into a vessel; the sink keeps nothing. */
export function put(bench: Bench, to: VesselRef, what: Loose): Bench {
  if (to.kind === 'bottle') {
    const bottle = bottleOf(bench, to.number);
    return withBottle(bench, to.number, {
      liquid: what.liquid,
      volumeMl: (bottle?.volumeMl ?? 0) + what.volumeMl,
      capacityMl: Math.max(bottle?.capacityMl ?? 0, (bottle?.volumeMl ?? 0) + what.volumeMl),
      assumed: bottle?.assumed ?? false,
    });
  }
  if (to.kind === 'tank') {
    const volumeMl = (bench.tank?.liquid === what.liquid ? bench.tank.volumeMl : 0) + what.volumeMl;
    return { ...bench, tank: { ...what, volumeMl, tainted: what.tainted ?? bench.tank?.tainted ?? null } };
  }
  if (to.kind === 'jug') {
    const same = bench.jugs.find((j) => j.liquid === what.liquid);
    const rest = bench.jugs.filter((j) => j !== same);
    return {
      ...bench,
      jugs: [
        ...rest,
        {
          ...what,
          volumeMl: (same?.volumeMl ?? 0) + what.volumeMl,
          tainted: what.tainted ?? same?.tainted ?? null,
        },
      ],
    };
  }
  return bench;
}

/** Another desk's fact, as far as it changes what a vessel holds. */
export function heedFact(bench: Bench, fact: Fact, capacityMl: number): Bench {
  switch (fact.type) {
    case 'bottle-set':
      return withBottle(bench, fact.bottle, {
        liquid: fact.liquid,
        volumeMl: fact.volumeMl,
        capacityMl: fact.capacityMl,
        assumed: false,
      });
    case 'bottle-discarded': {
      const before = bottleOf(bench, fact.bottle);
      return withBottle(bench, fact.bottle, {
        liquid: null,
        volumeMl: 0,
        capacityMl: before?.capacityMl ?? capacityMl,
        assumed: false,
      });
    }
    case 'mixed': {
      const what: Loose = { liquid: fact.liquid, volumeMl: fact.volumeMl, tainted: null };
      if (fact.bottle === undefined) return put(bench, { kind: 'jug' }, what);
      const before = bottleOf(bench, fact.bottle);
      return withBottle(bench, fact.bottle, {
        liquid: fact.liquid,
        volumeMl: fact.volumeMl,
        capacityMl: Math.max(before?.capacityMl ?? capacityMl, fact.volumeMl),
        assumed: false,
      });
    }
    case 'poured': {
      const [rest, out] = take(bench, fact.from, fact.liquid, fact.volumeMl);
      return put(rest, fact.to, { ...out, liquid: fact.liquid, volumeMl: fact.volumeMl });
    }
    default:
      return bench;
  }
}
