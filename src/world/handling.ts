import type { Handling, World } from './records.js';

/** Shorter is a word said in one breath with the one before; longer is somebody who was held up, s. Source: common practice. */
const believable = { minS: 3, maxS: 60 };
/** How many of the newest count, and how many make a habit. */
const KEPT = 7;
const ENOUGH = 3;

export const noHandling: Handling = { fillS: [], drainS: [] };

/** A tank with so much in it, as the record of its filling and draining is kept. */
const keyOf = (world: World, volumeMl: number): string => `${world.tankKey} ${Math.round(volumeMl)}`;

/** Takes down how long one filling or draining took, where that can be believed. */
export function handled(world: World, what: keyof Handling, volumeMl: number, seconds: number): World {
  if (!(seconds >= believable.minS && seconds <= believable.maxS)) return world;
  const key = keyOf(world, volumeMl);
  const before = world.handling[key] ?? noHandling;
  const after = { ...before, [what]: [...before[what], seconds].slice(-KEPT) };
  return { ...world, handling: { ...world.handling, [key]: after } };
}

/** How long this tank takes with so much in it, s, as its use has shown: the middle of the newest; null: not yet. */
export function learntS(world: World, what: keyof Handling, volumeMl: number): number | null {
  const seen = world.handling[keyOf(world, volumeMl)]?.[what] ?? [];
  if (seen.length < ENOUGH) return null;
  return seen.toSorted((a, b) => a - b)[Math.floor(seen.length / 2)] ?? null;
}
