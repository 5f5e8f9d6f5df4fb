import type { Contents } from './records.js';
import type { LiquidId } from './vessel.js';

export const NOTHING: Contents = { volumeMl: 0, parts: {}, workM2: 0, traces: [] };

/** Below this a vessel counts as empty, ml: far less than a drop (about 0.05 ml), far more than rounding. */
export const DROP_ML = 0.001;

export const fresh = (liquid: LiquidId, volumeMl: number): Contents =>
  volumeMl <= 0 ? NOTHING : { volumeMl, parts: { [liquid]: volumeMl }, workM2: 0, traces: [] };

/** Takes `volumeMl` out of a well-mixed vessel, at most what it holds. */
export function draw(from: Contents, volumeMl: number): { taken: Contents; left: Contents } {
  const share = from.volumeMl <= 0 ? 0 : Math.min(1, Math.max(0, volumeMl) / from.volumeMl);
  const taken = scale(from, share);
  const left = scale(from, 1 - share);
  return { taken, left: left.volumeMl < DROP_ML ? { ...NOTHING } : left };
}

export function blend(a: Contents, b: Contents): Contents {
  const parts = { ...a.parts };
  for (const [liquid, ml] of Object.entries(b.parts)) parts[liquid] = (parts[liquid] ?? 0) + ml;
  return {
    volumeMl: a.volumeMl + b.volumeMl,
    parts,
    workM2: a.workM2 + b.workM2,
    traces: [...new Set([...a.traces, ...b.traces])],
    ...withSplashes(a, b.splashes),
  };
}

export function scale(c: Contents, factor: number): Contents {
  const parts: Record<LiquidId, number> = {};
  for (const [liquid, ml] of Object.entries(c.parts)) if (ml * factor > 0) parts[liquid] = ml * factor;
  return {
    volumeMl: c.volumeMl * factor,
    parts,
    workM2: c.workM2 * factor,
    traces: c.traces,
    ...withSplashes(c),
  };
}

/** What splashed into it, with more of that; each once. */
export function withSplashes(
  { splashes = [] }: Pick<Contents, 'splashes'>,
  more: readonly LiquidId[] = [],
): Pick<Contents, 'splashes'> {
  const all = [...new Set([...splashes, ...more])];
  return all.length > 0 ? { splashes: all } : {};
}

/** The liquid there is most of, or null for an empty vessel. */
export function mainLiquid(c: Contents): LiquidId | null {
  let best: LiquidId | null = null;
  for (const [liquid, ml] of Object.entries(c.parts))
    if (best === null || ml > (c.parts[best] ?? 0)) best = liquid;
  return best;
}

/** Share of the volume that is not `liquid`, 0 to 1: carry-over and wrong pours. */
export const foreignShare = (c: Contents, liquid: LiquidId): number =>
  c.volumeMl <= 0 ? 0 : Math.max(0, 1 - (c.parts[liquid] ?? 0) / c.volumeMl);
