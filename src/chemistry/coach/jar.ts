import { type FormChoice, planBatch } from '../batch.js';
import { formsNamed, formsOf, type Substance } from '../substances.js';
import { batchOf, current, type MixInHand, said, withLine } from './state.js';
import { amiss, askWeigh, type Step, saying, settle } from './step.js';
import { takeAtItsWord } from './weigh.js';

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
 * The mix with a part of another form or purity. What was weighed of that jar stays as many grams; only where it is now measured and
 * no longer weighed, as many moles.
 */
export function reformed(mix: MixInHand, index: number, choice: FormChoice): MixInHand {
  const line = batchOf(mix).lines[index];
  const state = mix.lines[index];
  if (line === undefined || state === undefined) return mix;
  const changed: MixInHand = { ...mix, forms: { ...mix.forms, [line.component.substance]: choice } };
  const now = batchOf(changed).lines[index];
  return now === undefined || now.unit === line.unit
    ? changed
    : withLine(changed, index, { inWater: (now.amount * state.inWater) / line.amount });
}

/**
 * A jar's form or purity, told while mixing: of the part in hand, or of a part by its name. What is weighed of it already is judged
 * anew, and the rest asked for.
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
  const { recipe } = batchOf(mix);
  const forms = { ...mix.forms, [line.component.substance]: choice };
  const planned = planBatch(recipe, mix.volumeMl, { forms, scaleStepG: mix.scaleStepG });
  if (!planned.ok) return saying(mix, { id: 'mix-unknown', why: planned.why });
  const now = planned.batch.lines[index];
  const toCome =
    now?.unit === 'ml' && state.inWater === 0 && (index !== mix.index || mix.phase !== 'weighing');
  const noted = {
    id: 'jar-noted' as const,
    name: form.name,
    purityPercent: told === undefined ? null : told * 100,
    said: toCome ? said(mix, now.amount, now.unit) : null,
  };
  const onward = judgedAnew(reformed(mix, index, choice), index);
  return { ...onward, messages: [noted, ...onward.messages] };
}

function judgedAnew(mix: MixInHand, index: number): Step {
  const now = current(mix);
  const state = mix.lines[index];
  if (index === mix.index && now?.state.onScale != null) return takeAtItsWord(mix, now.state.onScale);
  if (!state?.inWater) {
    return index === mix.index && mix.phase === 'weighing' ? askWeigh(mix) : saying(mix);
  }
  const wrong = amiss({ ...mix, index, question: null });
  if (wrong === null)
    return index === mix.index ? settle(mix) : saying(withLine(mix, index, { settled: true }));
  const { question } = mix;
  const busy = mix.phase === 'dissolving' || question?.kind === 'scale' || question?.kind === 'restart';
  if (index === mix.index || !busy || wrong.mix.question !== null) return wrong;
  // another part is in the boat, or there is too much of it: that comes first
  return askWeigh(withLine(mix, index, { settled: false }));
}
