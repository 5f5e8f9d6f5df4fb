import { keepUntil } from '../batch.js';
import { explainPh } from '../effects.js';
import { deference, hazardLine } from '../safety/hazards.js';
import { pairsFor } from '../safety/incompatible.js';
import type { MixMessage } from './messages.js';
import { batchOf, type MixInHand } from './state.js';
import { advance, type Step, saying } from './step.js';

/** A made-up volume this close to the mark needs no word. source: common practice, a graduate's class */
const fullness = 0.02;

/** "Made up": checks that all is in, and the volume when it was said. */
export function madeUp(mix: MixInHand, volumeMl?: number): Step {
  if (mix.phase !== 'making-up') {
    return mix.phase === 'weighing' || mix.phase === 'dissolving'
      ? advance(mix)
      : saying(mix, { id: 'mix-not-now', why: 'not-yet', phase: mix.phase });
  }
  const aim = mix.volumeMl;
  const is = volumeMl ?? aim;
  if (is < aim * (1 - fullness)) return saying(mix, { id: 'mix-too-little', volumeMl: is, aimMl: aim });
  const told: MixMessage[] =
    is > aim * (1 + fullness) ? [{ id: 'mix-too-full', volumeMl: is, strength: aim / is }] : [];
  const full: MixInHand = { ...mix, finalMl: is };
  const { ph } = batchOf(mix).recipe;
  if (ph === null || !ph.buffered) return after(told, toBottle(full));
  return saying({ ...full, phase: 'ph' }, ...told, {
    id: 'mix-ask-ph',
    aim: ph.aim,
    tolerance: ph.tolerance,
  });
}

const after = (first: MixMessage[], step: Step): Step => ({
  ...step,
  messages: [...first, ...step.messages],
});

/** Indicator strips are read to half a unit; a whole or half number is taken for one. source: common practice */
const stripStep = 0.5;

/** A pH read by meter or strip, cool: aims are at 25 °C. */
export function phRead(mix: MixInHand, value: number): Step {
  const { recipe } = batchOf(mix);
  if (!(value >= 0 && value <= 14)) return saying(mix, { id: 'mix-bad-value', why: 'ph' });
  if ((mix.phase !== 'ph' && mix.phase !== 'bottling') || recipe.ph === null) {
    return saying(mix, { id: 'mix-not-now', why: 'not-yet', phase: mix.phase });
  }
  const noted: MixInHand = { ...mix, ph: value };
  const { aim, tolerance } = recipe.ph;
  if (Math.abs(value - aim) <= tolerance + 1e-9) {
    return after([{ id: 'mix-ph-good', ph: value, aim }], toBottle(noted));
  }
  if (Number.isInteger(value * 2) && Math.abs(value - aim) <= stripStep) {
    return after([{ id: 'mix-ph-near', ph: value, aim }], toBottle(noted));
  }
  const slips = explainPh(batchOf(mix), value).slice(0, 2);
  return saying({ ...noted, phase: 'ph' }, { id: 'mix-ph-off', ph: value, aim, tolerance, slips });
}

export function toBottle(mix: MixInHand): Step {
  const { recipe } = batchOf(mix);
  return saying(
    { ...mix, phase: 'bottling' },
    {
      id: 'mix-ask-bottle',
      name: recipe.name,
      volumeMl: mix.finalMl ?? mix.volumeMl,
    },
  );
}

/** Into a bottle, or none named: the mix is done. */
export function bottled(mix: MixInHand, bottle?: number): Step {
  const { recipe } = batchOf(mix);
  const done: MixInHand = { ...mix, phase: 'done' };
  return saying(done, {
    id: 'mix-done',
    name: recipe.name,
    batch: mix.batch,
    volumeMl: mix.finalMl ?? mix.volumeMl,
    keepUntil: keepUntil(recipe, mix.date),
    ...(bottle === undefined ? {} : { bottle }),
  });
}

/** The label, plain text, 40 columns, to print or copy. */
export function labelText(mix: MixInHand): string {
  const { recipe, lines } = batchOf(mix);
  const forms = lines.map((l) => l.form);
  const dangers = new Set([
    ...forms.flatMap((f) => pairsFor(f)).map((p) => p.spoken),
    ...forms.map(hazardLine).filter((line) => line !== null),
  ]);
  const rule = '-'.repeat(40);
  return [
    rule,
    recipe.name.toUpperCase(),
    `${Math.round(mix.finalMl ?? mix.volumeMl)} ml    batch ${mix.batch}`,
    `mixed ${mix.date}    keep until ${keepUntil(recipe, mix.date)}`,
    `used: keep ${recipe.keeping.usedDays} days`,
    ...(mix.ph === null ? [] : [`pH ${mix.ph.toFixed(2)} at mixing`]),
    rule,
    ...[...dangers, 'Not for drinking. Keep from children.', deference].flatMap((t) => wrap(t, 40)),
    rule,
  ].join('\n');
}

function wrap(text: string, width: number): string[] {
  const out: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    if (line !== '' && line.length + 1 + word.length > width) {
      out.push(line);
      line = word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  return line === '' ? out : [...out, line];
}
