import { type CoachEvent, coach, openMix } from '../../src/chemistry/coach/coach.js';
import type { MixMessage } from '../../src/chemistry/coach/messages.js';
import { batchOf, type MixInHand } from '../../src/chemistry/coach/state.js';
import { recipes } from '../../src/chemistry/recipes/index.js';
import { formsOf, substitute } from '../../src/chemistry/substances.js';
import { seeded } from '../seeded.js';

/** Slips that people make with a scale. The readings are reckoned here, not taken from the coach. */
export const slipKinds = [
  'ounces',
  'grains',
  'ten times',
  'a tenth',
  'the part before not tared',
  'an empty boat not tared',
  'another hydrate',
  'another jar',
  'left out',
  'too much',
  'wrong unit',
] as const;
export type SlipKind = (typeof slipKinds)[number];

/** What may be answered to each: a question or a warning that names it, never "right" and never "add more". */
const finds: Readonly<Record<SlipKind, readonly MixMessage['id'][]>> = {
  ounces: ['mix-ask-unit'],
  grains: ['mix-ask-unit'],
  'ten times': ['mix-ask-tenfold'],
  'a tenth': ['mix-ask-tenfold'],
  'the part before not tared': ['mix-ask-tare'],
  'an empty boat not tared': ['mix-ask-tare', 'mix-over'],
  'another hydrate': ['mix-ask-form'],
  'another jar': ['mix-ask-jar', 'mix-ask-dissolved'],
  'left out': ['mix-missing', 'mix-weigh', 'mix-no-weight', 'mix-stock'],
  'too much': ['mix-over', 'mix-ask-tare'],
  'wrong unit': ['mix-bad-value'],
};
/** A reading that fits two slips may be asked about as either. */
const asks = (id: MixMessage['id']): boolean => id.startsWith('mix-ask-');

export interface SlipCount {
  tried: Record<SlipKind, number>;
  /** asked about as another slip that the reading fits as well */
  asOther: Record<SlipKind, number>;
  missed: string[];
}

const none = (): Record<SlipKind, number> =>
  Object.fromEntries(slipKinds.map((k) => [k, 0])) as Record<SlipKind, number>;

const rounded = (value: number, step: number): number =>
  Math.round(Math.round(value / step) * step * 1e6) / 1e6;

/** Draws batches by chance and makes every slip at every part of each. */
export function checkSlips(count: number, seed = 14): SlipCount {
  const next = seeded(seed);
  const out: SlipCount = { tried: none(), asOther: none(), missed: [] };
  for (let i = 0; i < count; i++) {
    const recipe = recipes[Math.floor(next() * recipes.length)];
    if (recipe === undefined) throw new Error('no recipe');
    const volumeMl = Math.round(100 * 10 ** (next() * 1.5));
    const scaleStepG = [0.01, 0.01, 0.1][Math.floor(next() * 3)] ?? 0.01;
    const opened = openMix({ recipe: recipe.id, volumeMl, batch: 'X', date: '2026-04-02', scaleStepG });
    if (!opened.ok) continue;
    let mix = coach(coach(opened.mix, { type: 'next' }).mix, { type: 'next' }).mix;
    while (mix.phase === 'weighing') {
      const now = mix;
      for (const [kind, event] of slipsAt(now, scaleStepG, next)) {
        const [first] = coach(now, event).messages;
        out.tried[kind]++;
        const id = first?.id;
        if (id !== undefined && finds[kind].includes(id)) continue;
        if (id !== undefined && asks(id)) out.asOther[kind]++;
        else
          out.missed.push(
            `${kind}: ${recipe.id} ${volumeMl} ml, ${JSON.stringify(event)} at ${partOf(now)}: ${id}`,
          );
      }
      const line = batchOf(mix).lines[mix.index];
      if (line === undefined) break;
      const step = line.unit === 'g' ? scaleStepG : 0.01;
      const weighed = coach(mix, { type: 'reading', value: rounded(line.amount, step), unit: line.unit });
      mix = coach(weighed.mix, { type: 'dissolved' }).mix;
      if (mix.index === now.index && mix.phase === 'weighing') break;
    }
  }
  return out;
}

const partOf = (mix: MixInHand): string => {
  const line = batchOf(mix).lines[mix.index];
  return `${line?.amount.toFixed(3)} ${line?.unit} ${line?.form.id}, within ${line?.tolerance.toFixed(3)}`;
};

function slipsAt(mix: MixInHand, step: number, next: () => number): [SlipKind, CoachEvent][] {
  const { lines } = batchOf(mix);
  const line = lines[mix.index];
  if (line === undefined) return [];
  const { amount, tolerance } = line;
  const out: [SlipKind, CoachEvent][] = [['left out', { type: 'next' }]];
  /** a reading that is right anyway, or that the scale cannot show, is no slip that anybody could see */
  const add = (kind: SlipKind, value: number, shows = step): void => {
    const value_ = rounded(value, shows);
    if (value_ > 0 && Math.abs(value_ - amount) > tolerance * 1.0001)
      out.push([kind, { type: 'reading', value: value_ }]);
  };
  out.push(['left out', { type: 'dissolved' }]);
  out.push(['wrong unit', { type: 'reading', value: amount, unit: line.unit === 'g' ? 'ml' : 'g' }]);
  if (line.stock !== null) return out;
  if (line.unit !== 'g') {
    add('ten times', amount * 10, 0.1);
    return out;
  }
  add('ounces', amount / 28.3495, 0.01);
  add('grains', amount * 15.4324, 0.1);
  add('ten times', amount * 10);
  add('a tenth', amount / 10, step);
  add('too much', amount + tolerance * (1.5 + 4 * next()));
  add('an empty boat not tared', amount + 2 + 20 * next());
  const before = lines[mix.index - 1];
  if (before !== undefined && before.unit === 'g' && before.stock === null)
    add('the part before not tared', amount + rounded(before.amount, step));
  for (const form of formsOf(line.form)) {
    const equal =
      form.id === line.form.id || form.measure !== 'g' ? null : substitute(line.form, amount, form);
    // forms that weigh nearly the same are one within what this slip could cost
    if (equal?.ok === true && Math.abs(equal.amount / amount - 1) > 0.04)
      add('another hydrate', equal.amount);
  }
  lines.forEach((l, i) => {
    if (i > mix.index && l.unit === 'g' && l.stock === null) add('another jar', l.amount);
  });
  return out;
}
