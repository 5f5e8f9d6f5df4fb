import type { BatchLine } from '../batch.js';
import { errorEffect } from '../effects.js';
import { cautionsForSubstance } from '../safety/cautions.js';
import type { MixMessage, Spoiled } from './messages.js';
import {
  batchOf,
  current,
  isOver,
  isShort,
  type LineState,
  type MixInHand,
  remaining,
  said,
  tooLarge,
  withLine,
} from './state.js';

/** Result of one coach event: the mix as it now stands, and what to say, in order. */
export interface Step {
  mix: MixInHand;
  messages: MixMessage[];
  /** true when the mix was given up: what went into the water is lost to the shelf */
  stopped?: boolean;
}

export const saying = (mix: MixInHand, ...messages: MixMessage[]): Step => ({ mix, messages });

/** The sentence that asks for the component in hand. */
export function weighMessage(mix: MixInHand): MixMessage {
  const now = current(mix);
  if (now === undefined) return { id: 'mix-make-up', volumeMl: mix.volumeMl };
  const { line, state } = now;
  const left = remaining(line, state);
  const { stock } = line;
  const teaspoons = line.unit === 'g' && state.inWater === 0 ? teaspoonsOf(left) : null;
  return {
    id: 'mix-weigh',
    name: line.form.name,
    said: said(mix, left, line.unit),
    tolerance: said(mix, line.tolerance, line.unit),
    position: mix.index + 1,
    of: mix.lines.length,
    cautions: state.inWater > 0 ? [] : cautionsForSubstance(line.form),
    ...(line.component.note === undefined ? {} : { note: line.component.note }),
    ...(teaspoons === null ? {} : { teaspoons }),
    ...(stock === null
      ? {}
      : {
          dilute: {
            amount: said(mix, stock.amount, line.unit),
            inMl: stock.inMl,
            takeMl: takeOf(line, left),
            keepDays: stock.keepDays,
          },
        }),
    ...(state.aside === null ? {} : { aside: said(mix, state.aside, line.unit) }),
  };
}

/**
 * The component in hand once more, with the question that goes with it: what becomes of too much of it, to stir in what is weighed,
 * whether what was set aside is still as it was, or to weigh it.
 */
export function askWeigh(mix: MixInHand): Step {
  const now = current(mix);
  const quiet: MixInHand = { ...mix, question: null };
  if (now !== undefined && isOver(now.line, now.state.inWater))
    return overInWater({ ...quiet, phase: 'weighing' });
  if (now !== undefined && mix.phase === 'dissolving' && now.state.onScale !== null) {
    const weighed = said(mix, now.state.onScale, now.line.unit);
    return saying(quiet, { id: 'mix-right', name: now.line.form.name, said: weighed });
  }
  return saying(
    now?.state.aside == null ? quiet : { ...mix, question: { kind: 'aside' } },
    weighMessage(mix),
  );
}

/** How much of its stock holds what is left to add of a line, ml to a tenth. */
export const takeOf = (line: BatchLine, left: number): number =>
  line.stock === null ? 0 : Math.round(((line.stock.takeMl * left) / line.amount) * 10) / 10;

/**
 * A powder's look in level teaspoons of 5 ml at about 1 g/ml, to the half: no measure, only a guard against a scale
 * that shows ounces. Null where it would help nobody. source: common practice
 */
function teaspoonsOf(grams: number): number | null {
  const spoons = Math.round((grams / 5) * 2) / 2;
  return spoons >= 0.5 && spoons <= 6 ? spoons : null;
}

/** The next component that is not settled, or making up when there is none; with what is then to be said. */
export function advance(mix: MixInHand): Step {
  const first = mix.lines.findIndex((l) => !l.settled);
  if (first < 0) {
    const up: MixInHand = { ...mix, phase: 'making-up', index: mix.lines.length, question: null };
    return saying(up, { id: 'mix-make-up', volumeMl: up.volumeMl });
  }
  const onward = askWeigh({ ...mix, phase: 'weighing', index: first });
  const spoiled = spoiledBy(mix);
  return spoiled
    ? { ...onward, messages: [{ id: 'mix-will-fail', ...spoiled, still: true }, ...onward.messages] }
    : onward;
}

/** What makes a batch useless that goes on all the same. */
export function spoiledBy(mix: MixInHand): Spoiled | undefined {
  const stranger = mix.strangers?.at(-1);
  if (stranger !== undefined) return { name: stranger, stranger: true };
  const over = batchOf(mix).lines.find((line, i) => {
    const state = mix.lines[i];
    return state?.settled && state.inWater > stillUsable * line.amount && isOver(line, state.inWater);
  });
  return over && { name: over.form.name };
}

/** pH change if the component in hand stays at `total` in the finished bath. */
export function phShiftAt(mix: MixInHand, total: number): number | null {
  const line = batchOf(mix).lines[mix.index];
  return line === undefined ? null : errorEffect(batchOf(mix), line, total).phShift;
}

/** Most a batch may grow to swallow an overshoot. source: common practice; beyond it too many weighings are redone */
const maxScaling = 1.5;

/** An overshoot up to this is carried on with, and the finished bath is checked. source: common practice */
const stillUsable = 1.1;

/** After too much of a component went into the water: offer a larger batch, or say why it cannot be. */
export function overInWater(mix: MixInHand): Step {
  const now = current(mix);
  if (now === undefined) return saying(mix);
  const { line, state } = now;
  const factor = state.inWater / line.amount;
  const excess = said(mix, state.inWater - line.amount, line.unit);
  const phShift = phShiftAt(mix, state.inWater);
  const volumeMl = mix.volumeMl * factor;
  const because = factor > maxScaling ? 'factor' : tooLarge(mix, volumeMl);
  if (because !== null) {
    const told: MixMessage = {
      id: 'mix-cannot-scale',
      name: line.form.name,
      excess,
      because,
      phShift,
      strength: factor,
    };
    // so much is no weighing error to carry on with: the batch is begun again, or marked as spoiled
    if (factor > stillUsable) return saying({ ...mix, question: { kind: 'restart' } }, told);
    const onward = settle(mix);
    return { ...onward, messages: [told, ...onward.messages] };
  }
  return saying(
    { ...mix, question: { kind: 'scale', factor } },
    { id: 'mix-offer-scale', name: line.form.name, excess, volumeMl: Math.round(volumeMl), phShift },
  );
}

/** The part in hand by what of it is in the water: told to be too much, or weighed on; null: it is right. */
export function amiss(mix: MixInHand): Step | null {
  const now = current(mix);
  if (now === undefined) return null;
  const { line, state } = now;
  const weighing: MixInHand = { ...withLine(mix, mix.index, { settled: false }), phase: 'weighing' };
  if (isOver(line, state.inWater)) return overInWater(weighing);
  if (!isShort(line, state.inWater)) return null;
  return saying(weighing, {
    id: 'mix-part-in',
    name: line.form.name,
    inWater: said(mix, state.inWater, line.unit),
    more: said(mix, line.amount - state.inWater, line.unit),
  });
}

/** The part in hand is in as it is, and the next has its turn. */
export const settle = (mix: MixInHand, kept: LineState['kept'] = null): Step =>
  advance(withLine(mix, mix.index, { settled: true, onScale: null, kept }));

/** Smallest amount the scale or measure shows, in the line's unit. */
export const stepShown = (mix: MixInHand, line: BatchLine): number =>
  line.unit === 'g' ? mix.scaleStepG : line.amount < 10 ? 0.1 : 1;

/** The whole batch grown by a factor: earlier components come round again for the difference. */
export function scaleBatch(mix: MixInHand, factor: number): Step {
  const volumeMl = mix.volumeMl * factor;
  const grown: MixInHand = { ...mix, volumeMl, question: null };
  const lines = batchOf(grown).lines;
  const reopened: MixInHand = {
    ...grown,
    lines: grown.lines.map((l, i) => {
      const line = lines[i];
      if (line === undefined || l.kept === 'left-out') return l;
      const left = line.amount - l.inWater;
      // what the scale cannot show is not asked for again
      const settled = left <= line.tolerance || (line.stock === null && left < stepShown(mix, line));
      return { ...l, settled, onScale: null };
    }),
  };
  const toAdd = reopened.lines.filter((l, i) => !l.settled && i < mix.index).length;
  const onward = advance(reopened);
  return { ...onward, messages: [{ id: 'mix-scaled', volumeMl, toAdd }, ...onward.messages] };
}
