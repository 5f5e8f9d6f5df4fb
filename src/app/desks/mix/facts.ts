import type { BatchLine } from '../../../chemistry/batch.js';
import { problemsOf } from '../../../chemistry/coach/finish.js';
import { batchOf, type MixInHand } from '../../../chemistry/coach/state.js';
import { massOf } from '../../../chemistry/shelf/plan.js';
import type { IntentOf } from '../../../process/intent.js';
import type { Fact } from '../../../world/fact.js';
import type { MixState } from './bench.js';

/** What went into the water comes off the shelf, finished or given up. */
export function usedFacts(mix: MixInHand): Fact[] {
  return batchOf(mix).lines.flatMap((line, i): Fact[] => {
    const inWater = mix.lines[i]?.inWater ?? 0;
    if (inWater <= 0) return [];
    return [usedFact(line, inWater, mix.batch)];
  });
}

/** So much of a part was taken off the shelf for a batch, in the part's own unit. */
export const usedFact = ({ form, purity }: BatchLine, amount: number, batch: string): Fact => ({
  type: 'shelf-used',
  substance: form.id,
  massG: massOf(form, amount),
  batch,
  ...(purity < 1 && { purity }),
});

export function mixedFact(mix: MixInHand, bottle?: number): Fact {
  const { problems, unusable } = problemsOf(mix);
  return {
    type: 'mixed',
    batch: mix.batch,
    recipe: mix.recipe,
    liquid: batchOf(mix).recipe.liquid,
    volumeMl: mix.finalMl ?? mix.volumeMl,
    ...(bottle === undefined ? {} : { bottle }),
    ...(mix.ph === null || mix.phBy === 'strip' ? {} : { ph: mix.ph }),
    ...(problems.length === 0
      ? {}
      : { checks: { ok: false, why: problems, ...(unusable && { unusable: true as const }) } }),
  };
}

export function bottleFact(
  state: MixState,
  mix: MixInHand,
  bottle: number,
  holds?: IntentOf<'bottle-holds'>,
): Fact {
  const volumeMl = holds?.volumeMl ?? mix.finalMl ?? mix.volumeMl;
  return {
    type: 'bottle-set',
    bottle,
    liquid: batchOf(mix).recipe.liquid,
    volumeMl,
    capacityMl: holds?.capacityMl ?? Math.max(volumeMl, state.bottles[String(bottle)]?.capacityMl ?? 0),
    batch: mix.batch,
  };
}
