import { dangersIn } from '../fitness.js';
import { knownPart, together } from '../mixture.js';
import { batchOf, type MixInHand } from './state.js';
import { type Step, saying } from './step.js';

/**
 * A thing that is no part of this recipe: on the scale it stays out, in the water the batch is lost. `of` is what was said,
 * a substance or a family.
 */
export function stranger(mix: MixInHand, of: string, added: boolean, belongs = false): Step {
  const { recipe } = batchOf(mix);
  const parts = [knownPart({ of, massG: 20, volumeMl: 100 }), knownPart({ of: recipe.id, volumeMl: 100 })];
  const { name } = parts[0] ?? { name: of };
  const dangers = dangersIn(parts, together(parts)).map((d) => d.spoken);
  const next: MixInHand = added
    ? { ...mix, strangers: [...(mix.strangers ?? []), name], question: { kind: 'stop' } }
    : { ...mix, question: { kind: 'stranger', of } };
  return saying(next, {
    id: 'mix-stranger',
    name,
    bath: recipe.name,
    added,
    dangers,
    ...(belongs && { belongs: true as const }),
  });
}
