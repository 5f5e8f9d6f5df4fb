import type { BatchLine } from '../batch.js';
import { type Batch, type FormChoice, planBatch } from '../batch.js';
import type { PhBy } from '../ph-reading.js';
import { volumeRange } from '../quantities.js';
import { findRecipe } from '../recipes/index.js';
import type { Said } from './messages.js';
import type { ScaleReading } from './named.js';

/** Where a mix stands. */
export type Phase =
  | 'cautions'
  | 'water'
  | 'weighing'
  | 'dissolving'
  | 'making-up'
  | 'ph'
  | 'bottling'
  | 'done';

/** One component's progress. Amounts in its own unit, g or ml. */
export interface LineState {
  /** stirred in */
  inWater: number;
  /** last reading judged, not yet stirred in */
  onScale: number | null;
  /** weighed ahead of its turn */
  aside: number | null;
  settled: boolean;
  /** what the scale showed of it was told to be in another unit, and is counted so */
  unitTold?: true;
  /** left out on the user's word */
  kept: 'left-out' | null;
}

export type Weighed = ({ type: 'reading' } & ScaleReading) | { type: 'dissolved' };

/** A question that waits for yes or no; `told`: what is to be done if the powder is in the water already was said with it. */
export type Question = { told?: true } & (
  | { kind: 'unit'; value: number; unit: 'oz' | 'grain' }
  | { kind: 'tenfold'; value: number; direction: 'more' | 'less' }
  /** yes: the scale was zeroed with the boat on it */
  | { kind: 'tare'; value: number; sameAs: boolean }
  | { kind: 'form'; value: number; form: string }
  | { kind: 'jar'; value: number; line: number }
  /** `waits`: what was weighed on meanwhile, as it goes on with the batch left as it is */
  | { kind: 'scale'; factor: number; waits?: readonly Weighed[] }
  | { kind: 'leave-out' }
  /** a reading that fits the next component, before this one was called dissolved */
  | { kind: 'gone-on'; value: number; substance?: string }
  /** no part of the recipe is on the scale; yes: set aside */
  | { kind: 'stranger'; of: string }
  | { kind: 'aside' }
  /** too much in the water to carry on: yes gives the mix up */
  | { kind: 'restart' }
  /** something is in the water that is no part of it: yes gives the mix up */
  | { kind: 'spoiled'; of: string; belongs?: true }
  /** yes: what was told to be in it is not */
  | { kind: 'cleared' }
  /** something that went wrong in it is dangerous: nothing more is done but giving it up */
  | { kind: 'held' }
  /** yes: the reading was a meter's, not a strip's */
  | { kind: 'meter'; ph: number }
  /** yes: the batch is made as large as the water that is in already */
  | { kind: 'grow'; factor: number }
  | { kind: 'stop' }
);

export type QuestionOf<K extends Question['kind']> = Extract<Question, { kind: K }>;

/** All of one mix, plain data. The batch itself follows from recipe, volume and forms. */
export interface MixInHand {
  recipe: string;
  batch: string;
  /** YYYY-MM-DD */
  date: string;
  volumeMl: number;
  forms: Record<string, FormChoice>;
  scaleStepG: number;
  /** what the mixing jug can hold, ml */
  jugMl: number;
  phase: Phase;
  index: number;
  lines: LineState[];
  question: Question | null;
  /** names of what is in the water and no part of the recipe */
  strangers?: string[];
  /** last amount accepted on the scale, for a tare not zeroed */
  lastWeighed: { name: string; amount: number } | null;
  finalMl: number | null;
  /** which bottle it goes in was asked, and is asked once more before it is left without */
  askedBottle?: true;
  /** water that stands in the jug, where it is more than the whole batch is to have, ml */
  waterMl?: number;
  /** read by a meter, or by a strip, which shows half a unit */
  ph: number | null;
  phBy?: PhBy;
  /** specific gravity read by hydrometer */
  gravity?: number;
}

/** Plans already worked out, by all they follow from; a plan costs some thirty equilibria. */
const cached = new Map<string, Batch>();
const cacheSize = 32;

/** The batch of a mix. Its recipe and forms were checked when it was opened or changed, so it always plans; a larger one is planned where {@link tooLarge} says null. */
export function batchOf(mix: MixInHand): Batch {
  const key = JSON.stringify([mix.recipe, mix.volumeMl, mix.forms, mix.scaleStepG]);
  const known = cached.get(key);
  if (known !== undefined) return known;
  const found = findRecipe(mix.recipe);
  if (!found.ok) throw new Error(found.why);
  const planned = planBatch(found.recipe, mix.volumeMl, { forms: mix.forms, scaleStepG: mix.scaleStepG });
  if (!planned.ok) throw new Error(planned.why);
  if (cached.size >= cacheSize) cached.clear();
  cached.set(key, planned.batch);
  return planned.batch;
}

/** Why a batch cannot be made so large, ml: the jug does not hold it, or it is more than can be planned; null: it can. */
export const tooLarge = (mix: MixInHand, volumeMl: number): 'jug' | 'range' | null =>
  Math.round(volumeMl) > mix.jugMl ? 'jug' : volumeMl > volumeRange.highMl ? 'range' : null;

export const emptyLine = (): LineState => ({
  inWater: 0,
  onScale: null,
  aside: null,
  settled: false,
  kept: null,
});

/** The component in hand, with its progress; undefined when all are in. */
export function current(mix: MixInHand): { line: BatchLine; state: LineState } | undefined {
  const line = batchOf(mix).lines[mix.index];
  const state = mix.lines[mix.index];
  return line === undefined || state === undefined ? undefined : { line, state };
}

/** What is still to be weighed of a component. */
export const remaining = (line: BatchLine, state: LineState): number => line.amount - state.inWater;

/** Whether so much of a part is too much, or too little, by more than its tolerance. */
export const isOver = (line: BatchLine, amount: number): boolean =>
  amount > line.amount + line.tolerance * (1 + 1e-9);
export const isShort = (line: BatchLine, amount: number): boolean =>
  amount < line.amount - line.tolerance * (1 + 1e-9);

export const withLine = (mix: MixInHand, index: number, change: Partial<LineState>): MixInHand => ({
  ...mix,
  lines: mix.lines.map((l, i) => (i === index ? { ...l, ...change } : l)),
});

/** Decimals that a step shows: 0.01 → 2. */
export const decimalsOf = (step: number): number => Math.max(0, Math.ceil(-Math.log10(step) - 1e-9));

export const said = (mix: Pick<MixInHand, 'scaleStepG'>, amount: number, unit: 'g' | 'ml'): Said => ({
  amount,
  unit,
  decimals: unit === 'g' ? decimalsOf(mix.scaleStepG) : mlDecimals(Math.abs(amount)),
});

/** A syringe is read to a tenth, a graduate to one; what is below a syringe is only reckoned with. */
const mlDecimals = (amount: number): number => (amount < 0.5 ? 2 : amount < 10 ? 1 : 0);
