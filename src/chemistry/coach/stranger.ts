import type { BatchLine } from '../batch.js';
import { dangersBetween } from '../fitness.js';
import { knownPart, recipeNamed } from '../mixture.js';
import { comesAsGas, pairsBetweenClasses } from '../safety/incompatible.js';
import { formsNamed, type ReactiveClass } from '../substances.js';
import { batchOf, type MixInHand, said } from './state.js';
import { type Step, saying } from './step.js';

/**
 * A thing that is no part of this recipe: on the scale it stays out, in the water the batch is lost. `of` is what was said,
 * a substance or a family.
 */
export function stranger(mix: MixInHand, of: string, added: boolean, belongs = false): Step {
  const { recipe } = batchOf(mix);
  const { name } = knownPart({ of });
  const dangers = dangersBetween(of, recipe.id);
  const { strangers = [] } = mix;
  const next: MixInHand = added
    ? {
        ...mix,
        strangers: strangers.includes(name) ? strangers : [...strangers, name],
        question: { kind: 'spoiled', of, ...(belongs && { belongs: true as const }) },
      }
    : { ...mix, question: { kind: 'stranger', of } };
  return saying(next, {
    id: 'mix-stranger',
    name,
    bath: recipe.name,
    added,
    dangers: dangers.map((d) => d.spoken),
    gas: added && dangers.some(comesAsGas),
    ...(belongs && { belongs: true as const }),
  });
}

/** Something got into the jug, whatever was to be done next. A part of the recipe is none: it wants its weight; null: it is this bath. */
export function gotIn(mix: MixInHand, of: string): Step | null {
  const { recipe, lines } = batchOf(mix);
  if (recipeNamed(of)?.id === recipe.id) return null;
  const part = lines.find((line) => isPart(line, of));
  if (part === undefined) return stranger(mix, of, true);
  return saying(mix, { id: 'mix-no-weight', name: part.form.name, said: said(mix, part.amount, part.unit) });
}

const ACID: ReadonlySet<ReactiveClass> = new Set(['acid']);
const gasWithAcid = (classes: readonly ReactiveClass[]): boolean =>
  pairsBetweenClasses(new Set(classes), ACID).some(comesAsGas);

/** Whether a part of a recipe may be meant: by its family, the word that a family ends with, or the kind that it is of. */
export function isPart({ form }: BatchLine, of: string): boolean {
  const forms = formsNamed(of);
  // an acid that frees a gas of any other, as metabisulphite does, is not meant by the word alone
  if (of === 'any-acid') return form.classes.includes('acid') && !gasWithAcid(form.classes);
  return forms.length > 0
    ? forms.some((f) => f.family === form.family)
    : form.family === of || form.family.endsWith(`-${of}`);
}
