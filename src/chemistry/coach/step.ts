import { dilutionFor } from '../batch.js';
import { errorEffect } from '../effects.js';
import { cautionsForSubstance } from '../safety/cautions.js';
import type { MixMessage } from './messages.js';
import { batchOf, current, type MixInHand, remaining, said, withLine } from './state.js';

/** Result of one coach event: the mix as it now stands, and what to say, in order. */
export interface Step {
  mix: MixInHand;
  messages: MixMessage[];
  /** true when the mix was given up: what went into the water is lost to the shelf */
  stopped?: boolean;
}

export const saying = (mix: MixInHand, ...messages: MixMessage[]): Step => ({
  mix,
  messages,
});

/** The sentence that asks for the component in hand. */
export function weighMessage(mix: MixInHand): MixMessage {
  const now = current(mix);
  if (now === undefined) return { id: 'mix-make-up', volumeMl: mix.volumeMl };
  const { line, state } = now;
  const left = remaining(line, state);
  const dilution = dilutionFor(line, mix.scaleStepG);
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
    ...(dilution === null
      ? {}
      : {
          dilute: {
            amount: said(mix, dilution.amount, line.unit),
            inMl: dilution.inMl,
            takeMl: dilution.takeMl,
          },
        }),
    ...(state.aside === null ? {} : { aside: said(mix, state.aside, line.unit) }),
  };
}

/**
 * A powder's look in level teaspoons of 5 ml at about 1 g/ml, to the half: no measure, only a guard against a scale
 * that shows ounces. Null where it would help nobody. source: common practice
 */
function teaspoonsOf(grams: number): number | null {
  const spoons = Math.round((grams / 5) * 2) / 2;
  return spoons >= 0.5 && spoons <= 6 ? spoons : null;
}

/** The next component that is not settled, or making up when there is none; with what is then to be said. */
export function advance(mix: MixInHand, from = 0): Step {
  const next = mix.lines.findIndex((l, i) => i >= from && !l.settled);
  const first = next >= 0 ? next : mix.lines.findIndex((l) => !l.settled);
  if (first < 0) {
    const up: MixInHand = {
      ...mix,
      phase: 'making-up',
      index: mix.lines.length,
      question: null,
    };
    return saying(up, { id: 'mix-make-up', volumeMl: up.volumeMl });
  }
  const moved: MixInHand = {
    ...mix,
    phase: 'weighing',
    index: first,
    question: null,
  };
  const aside = moved.lines[first]?.aside ?? null;
  return saying(aside === null ? moved : { ...moved, question: { kind: 'aside' } }, weighMessage(moved));
}

/** pH change if the component in hand stays at `total` in the finished bath. */
export function phShiftAt(mix: MixInHand, total: number): number | null {
  const line = batchOf(mix).lines[mix.index];
  return line === undefined ? null : errorEffect(batchOf(mix), line, total).phShift;
}

/** Most a batch may grow to swallow an overshoot. source: common practice; beyond it too many weighings are redone */
const maxScaling = 1.5;

/** After too much of a component went into the water: offer a larger batch, or say why it cannot be. */
export function overInWater(mix: MixInHand): Step {
  const now = current(mix);
  if (now === undefined) return saying(mix);
  const { line, state } = now;
  const factor = state.inWater / line.amount;
  const excess = said(mix, state.inWater - line.amount, line.unit);
  const phShift = phShiftAt(mix, state.inWater);
  const volumeMl = Math.round(mix.volumeMl * factor);
  if (factor > maxScaling || volumeMl > mix.jugMl) {
    const kept = withLine(mix, mix.index, { settled: true, kept: 'over' });
    const told: MixMessage = {
      id: 'mix-cannot-scale',
      name: line.form.name,
      excess,
      because: factor > maxScaling ? 'factor' : 'jug',
      phShift,
      strength: factor,
    };
    const onward = advance(kept, mix.index);
    return { ...onward, messages: [told, ...onward.messages] };
  }
  return saying(
    { ...mix, question: { kind: 'scale', factor } },
    { id: 'mix-offer-scale', name: line.form.name, excess, volumeMl, phShift },
  );
}

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
      const settled = l.inWater >= line.amount - line.tolerance;
      return { ...l, settled, onScale: null };
    }),
  };
  const toAdd = reopened.lines.filter((l, i) => !l.settled && i < mix.index).length;
  const onward = advance(reopened);
  return {
    ...onward,
    messages: [{ id: 'mix-scaled', volumeMl, toAdd }, ...onward.messages],
  };
}
