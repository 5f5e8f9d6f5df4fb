import { type FormChoice, planBatch } from '../batch.js';
import { formsNamed, formsOf, type Substance, substanceById } from '../substances.js';
import { batchOf, current, type MixInHand, said, withLine } from './state.js';
import { type Step, saying, weighMessage } from './step.js';

/** What was told of a jar. `purity` 0 to 1. */
export interface Jar {
  /** substance or family, when it was named */
  substance?: string;
  /** "monohydrate", "anhydrous" */
  hydrate?: string;
  purity?: number;
}

/** Percent as labels round them, of the strength of a solution. source: common practice */
const sameStrength = 0.02;

/** The form of a family that such words name, of a solution the one that is so strong; undefined: none, or several. */
export function formOf(of: Substance, { hydrate, purity }: Jar): Substance | undefined {
  const dissolved =
    purity === undefined
      ? undefined
      : formsOf(of).find((f) => f.liquid && Math.abs(f.liquid.massFraction - purity) <= sameStrength);
  if (dissolved !== undefined) return dissolved;
  if (of.measure === 'ml' && purity !== undefined) return undefined;
  if (hydrate === undefined) return of;
  return formsOf(of).find((f) => f.id.endsWith(`-${hydrate}`) || f.name.includes(hydrate));
}

/** What was told of a powder's purity; a solution's strength is its form. */
export const purityTold = (form: Substance, { purity }: Jar): number | undefined =>
  form.measure === 'g' ? purity : undefined;

/**
 * A jar's form or purity, told while mixing: of the part in hand, or of a part by its name. What is in the water already keeps
 * its moles.
 */
export function jarTold(mix: MixInHand, jar: Jar): Step {
  const { lines } = batchOf(mix);
  const named = jar.substance === undefined ? undefined : formsNamed(jar.substance)[0];
  const isMeant = ({ form }: (typeof lines)[number]): boolean =>
    named?.id === 'any-acid' ? form.classes.includes('acid') : form.family === named?.family;
  const index = named === undefined ? mix.index : lines.findIndex(isMeant);
  const line = lines[index];
  const state = mix.lines[index];
  if (line === undefined || state === undefined)
    return saying(mix, { id: 'jar-which', family: null, forms: lines.map((l) => l.form.name) });
  const form = formOf(named?.id === 'any-acid' ? line.form : (named ?? line.form), jar);
  if (form === undefined)
    return saying(mix, {
      id: 'jar-which',
      family: line.form.family,
      forms: formsOf(line.form).map((f) => f.name),
      ...(jar.purity !== undefined && line.form.measure === 'ml' && { strongPercent: jar.purity * 100 }),
    });
  const told = purityTold(form, jar);
  const purity = told ?? (form.id === line.form.id ? line.purity : 1);
  const choice: FormChoice = purity === 1 ? { substance: form.id } : { substance: form.id, purity };
  const changed: MixInHand = { ...mix, forms: { ...mix.forms, [line.component.substance]: choice } };
  const { recipe } = batchOf(mix);
  const planned = planBatch(recipe, mix.volumeMl, { forms: changed.forms, scaleStepG: mix.scaleStepG });
  if (!planned.ok) return saying(mix, { id: 'mix-unknown', why: planned.why });
  const now = planned.batch.lines[index];
  const share = state.inWater / line.amount;
  const counted =
    now === undefined || share === 0 ? changed : withLine(changed, index, { inWater: now.amount * share });
  const here = current(counted);
  const noted = {
    id: 'jar-noted' as const,
    name: substanceById(form.id)?.name ?? form.id,
    purityPercent: told === undefined ? null : told * 100,
    said: null,
  };
  if (index === mix.index && here !== undefined && mix.phase === 'weighing')
    return saying({ ...counted, question: null }, noted, weighMessage(counted));
  const toCome = now?.unit === 'ml' && share === 0 ? said(counted, now.amount, now.unit) : null;
  return saying(counted, { ...noted, said: toCome });
}
