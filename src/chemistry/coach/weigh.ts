import type { BatchLine } from '../batch.js';
import { errorEffect } from '../effects.js';
import { gramsPer } from '../quantities.js';
import { cautionsForSubstance } from '../safety/cautions.js';
import { formsNamed, substanceById } from '../substances.js';
import { type Judgement, judgeConverted, judgeReading } from './judge.js';
import type { MixMessage } from './messages.js';
import {
  batchOf,
  current,
  isOver,
  isShort,
  type LineState,
  type MixInHand,
  remaining,
  said,
  withLine,
} from './state.js';
import {
  advance,
  amiss,
  askWeigh,
  overInWater,
  type Step,
  saying,
  settle,
  stepShown,
  takeOf,
} from './step.js';
import { isPart, stranger } from './stranger.js';

export type ReadingUnit = 'g' | 'kg' | 'mg' | 'oz' | 'grain' | 'ml' | 'l';

/** A scale reading while weighing, or corrected before the powder is stirred in. */
export function takeReading(mix: MixInHand, value: number, unit?: ReadingUnit): Step {
  const now = current(mix);
  if (now === undefined || (mix.phase !== 'weighing' && mix.phase !== 'dissolving')) {
    return saying(mix, { id: 'mix-not-now', why: 'not-yet', phase: mix.phase });
  }
  const { line, state } = now;
  if (!Number.isFinite(value) || value < 0) return saying(mix, { id: 'mix-bad-value', why: 'negative' });
  const takeMl = takeOf(line, remaining(line, state));
  if (takeMl > 0 && Math.abs(value - takeMl) <= Math.max(0.1, 0.05 * takeMl) && (unit ?? 'ml') === 'ml') {
    return act({ ...mix, question: null }, { kind: 'right', amount: remaining(line, state) }, value);
  }
  const amount = inUnitOf(line, value, unit);
  if (amount === null) return saying(mix, { id: 'mix-bad-value', why: 'unit' });
  const asked: MixInHand = { ...mix, question: null };
  if (isForStock(mix, line, amount)) return saying(asked, ...stockTold(line, state));
  const ahead = goneOn(mix, value);
  if (ahead !== null) {
    const message: MixMessage = { id: 'mix-ask-dissolved', name: line.form.name, other: ahead };
    return saying({ ...mix, question: { kind: 'gone-on', value } }, message);
  }
  if (unit === undefined || unit === line.unit) {
    // a unit that was said rules out another unit, but not another jar or a boat not zeroed
    const judged = judgeReading(asked, line, state, value);
    const settled =
      unit !== undefined && judged.kind === 'unit' ? judgeConverted(line, state, value) : judged;
    return act(asked, settled, value);
  }
  const told: MixMessage[] =
    unit === 'oz' || unit === 'grain' ? [{ id: 'mix-set-grams', said: said(mix, amount, 'g') }] : [];
  const known = told.length > 0 ? withLine(asked, mix.index, { unitTold: true }) : asked;
  const step = act(known, judgeConverted(line, state, amount), amount);
  return { ...step, messages: [...told, ...step.messages] };
}

/** What was measured is what the stock of a part was to be made of. */
const isForStock = (mix: MixInHand, line: BatchLine, amount: number): boolean =>
  line.stock !== null &&
  Math.abs(amount - line.stock.amount) <= Math.max(stepShown(mix, line), STOCK_SLACK * line.stock.amount);
/** So closely a stock's own figure is measured, as a share. source: common practice */
const STOCK_SLACK = 0.05;

/** What is to be taken of a part's stock, ml; none: it is measured by itself. */
const stockTold = (line: BatchLine, state: LineState): MixMessage[] =>
  line.stock === null
    ? []
    : [
        {
          id: 'mix-stock',
          name: line.form.name,
          inMl: line.stock.inMl,
          takeMl: takeOf(line, remaining(line, state)),
        },
      ];

/**
 * The scale showed another unit at every weighing: what was weighed is so many times as much, but for what was put right before. The
 * worst of it is told.
 */
export function scaleWas(mix: MixInHand, unit: ReadingUnit): Step {
  const factor = gramsPer(unit) ?? 1;
  const { lines } = batchOf(mix);
  const was = (l: LineState, i: number): boolean =>
    lines[i]?.unit === 'g' && !l.unitTold && (l.inWater > 0 || l.onScale !== null || l.aside !== null);
  if (!mix.lines.some(was)) {
    const again = askWeigh(mix);
    return mix.lines.some((l) => l.unitTold) ? withFirst({ id: 'mix-unit-known' }, again) : again;
  }
  const times = (amount: number | null): number | null => amount && amount * factor;
  const meant: MixInHand = {
    ...mix,
    lastWeighed: null,
    question: null,
    lines: mix.lines.map((l, i) => {
      const line = lines[i];
      return was(l, i)
        ? {
            ...l,
            inWater: l.inWater * factor,
            onScale: times(l.onScale),
            aside: times(l.aside),
            settled: l.inWater > 0 && line !== undefined && !isShort(line, l.inWater * factor),
            unitTold: true,
          }
        : l;
    }),
  };
  const grams = (amount: number): MixMessage => ({ id: 'mix-set-grams', said: said(mix, amount, 'g') });
  const share = (i: number): number => (meant.lines[i]?.inWater ?? 0) / (lines[i]?.amount ?? 1);
  const changed = lines.map((_, i) => i).filter((i) => meant.lines[i] !== mix.lines[i]);
  const [worst = mix.index] = changed.sort((a, b) => share(b) - share(a));
  const line = lines[worst];
  const inWater = meant.lines[worst]?.inWater ?? 0;
  const now = current(meant);
  const onScale = changed.includes(mix.index) ? now?.state.onScale : null;
  const tooMuch = line !== undefined && isOver(line, inWater);
  if (!tooMuch && now !== undefined && onScale != null)
    return withFirst(
      grams(onScale),
      act({ ...meant, phase: 'weighing' }, judgeConverted(now.line, now.state, onScale), onScale),
    );
  const onward = tooMuch ? overInWater({ ...meant, phase: 'weighing', index: worst }) : advance(meant);
  return inWater > 0 ? withFirst(grams(inWater), onward) : onward;
}

const withFirst = (message: MixMessage, step: Step): Step => ({
  ...step,
  messages: [message, ...step.messages],
});

/** An amount in a line's own unit; null: a powder in millilitres, or a liquid in grams. */
export function inUnitOf(line: BatchLine, value: number, unit: ReadingUnit | undefined): number | null {
  if (unit === undefined) return value;
  const liquid = unit === 'ml' || unit === 'l';
  return liquid === (line.unit === 'ml') ? value * (gramsPer(unit) ?? 1) : null;
}

/** The next component's name, when a reading after a right one is for it and not for the one in hand. */
function goneOn(mix: MixInHand, value: number): string | null {
  const now = current(mix);
  if (mix.phase !== 'dissolving' || now === undefined) return null;
  const { lines } = batchOf(mix);
  const index = mix.lines.findIndex((l, i) => i > mix.index && !l.settled);
  const line = lines[index];
  const state = mix.lines[index];
  if (line === undefined || state === undefined) return null;
  const fits = (l: typeof line, s: typeof state): boolean => Math.abs(value - remaining(l, s)) <= l.tolerance;
  return fits(line, state) && !fits(now.line, now.state) ? line.form.name : null;
}

/** Takes a number at its word, after the user said the unit or the point is right. */
export function takeAtItsWord(mix: MixInHand, value: number): Step {
  const now = current(mix);
  return now === undefined
    ? saying(mix)
    : act({ ...mix, question: null }, judgeConverted(now.line, now.state, value), value);
}

function act(mix: MixInHand, judged: Judgement, value: number): Step {
  const now = current(mix);
  if (now === undefined) return saying(mix);
  const { line } = now;
  const name = line.form.name;
  const s = (amount: number) => said(mix, amount, line.unit);
  const target = s(remaining(line, now.state));
  const ask = (question: MixInHand['question'], message: MixMessage): Step =>
    saying({ ...withLine(mix, mix.index, { onScale: null }), phase: 'weighing', question }, message);
  switch (judged.kind) {
    case 'right': {
      const weighed = withLine(mix, mix.index, { onScale: judged.amount });
      const next: MixInHand = {
        ...weighed,
        phase: 'dissolving',
        lastWeighed: { name, amount: judged.amount },
      };
      return saying(next, { id: 'mix-right', name, said: s(judged.amount) });
    }
    case 'under':
      return saying(
        { ...withLine(mix, mix.index, { onScale: judged.amount }), phase: 'weighing' },
        { id: 'mix-under', name, said: s(judged.amount), more: s(judged.more) },
      );
    case 'over':
      return saying(
        { ...withLine(mix, mix.index, { onScale: judged.amount }), phase: 'weighing' },
        { id: 'mix-over', name, said: s(judged.amount), excess: s(judged.excess) },
      );
    case 'unit':
      return ask(
        { kind: 'unit', value, unit: judged.unit },
        { id: 'mix-ask-unit', value, unit: judged.unit, said: target },
      );
    case 'tenfold':
      return ask(
        { kind: 'tenfold', value, direction: judged.direction },
        { id: 'mix-ask-tenfold', value, said: target, direction: judged.direction },
      );
    case 'tare':
      return ask(
        { kind: 'tare', value, sameAs: judged.sameAs !== null },
        {
          id: 'mix-ask-tare',
          name,
          excess: s(judged.excess),
          ...(judged.sameAs === null ? {} : { sameAs: judged.sameAs }),
        },
      );
    case 'form': {
      const other = substanceById(judged.form)?.name ?? judged.form;
      return ask(
        { kind: 'form', value, form: judged.form },
        { id: 'mix-ask-form', value: s(value), name, other, family: line.form.family },
      );
    }
    case 'jar': {
      const other = batchOf(mix).lines[judged.line]?.form.name ?? '';
      const isIn = mix.lines[judged.line]?.settled === true;
      return ask(
        { kind: 'jar', value, line: judged.line },
        { id: 'mix-ask-jar', value: s(value), name, other, ...(isIn && { isIn }) },
      );
    }
  }
}

/** So much may a part lack, and the mixing goes on, as a share. Source: common practice. */
const LITTLE_SHORT = 0.05;

/** The powder in hand is in the water and gone. */
export function dissolved(mix: MixInHand): Step {
  if (mix.question?.kind === 'stranger') return stranger(mix, mix.question.of, true);
  const now = current(mix);
  if (now === undefined || (mix.phase !== 'weighing' && mix.phase !== 'dissolving')) {
    return saying(mix, { id: 'mix-not-now', why: 'not-yet', phase: mix.phase });
  }
  if (mix.question?.kind === 'jar') return otherIsIn(mix, mix.question.line, mix.question.value);
  const { line, state } = now;
  if (state.onScale === null) {
    const { question } = mix;
    const needed = { name: line.form.name, said: said(mix, remaining(line, state), line.unit) };
    if (question === null || !('value' in question))
      return line.stock === null
        ? saying(mix, { id: 'mix-no-weight', ...needed })
        : saying(mix, ...stockTold(line, state));
    // it was told, and asked about: that is answered first, and who says again that it is in has answered
    if (question.told)
      return dissolved(withLine({ ...mix, question: null }, mix.index, { onScale: question.value }));
    const asked: MixInHand = { ...mix, question: { ...question, told: true } };
    return saying(asked, { id: 'mix-ask-doubted', value: question.value, ...needed });
  }
  const inWater = state.inWater + state.onScale;
  const poured: MixInHand = {
    ...withLine(mix, mix.index, { inWater, onScale: null, aside: null }),
    question: null,
  };
  const wrong = amiss(poured);
  if (wrong === null) return settle(poured);
  // a scale that shows no finer, or a jar that is empty: the finished bath is judged by what is in it
  if (inWater < line.amount && inWater >= line.amount * (1 - LITTLE_SHORT)) {
    const onward = settle(poured);
    const short = said(mix, line.amount - inWater, line.unit);
    const told: MixMessage = {
      id: 'mix-little-short',
      name: line.form.name,
      inWater: said(mix, inWater, line.unit),
      short,
    };
    return { ...onward, messages: [told, ...onward.messages] };
  }
  return wrong;
}

/** A part other than the one in hand is in the water: it is counted, what that means is said, and the turn stays. */
export function otherIsIn(mix: MixInHand, index: number, value: number): Step {
  const other = batchOf(mix).lines[index];
  const before = mix.lines[index];
  if (other === undefined || before === undefined) return saying(mix);
  const inWater = before.inWater + value;
  const settled = !isShort(other, inWater);
  const counted: MixInHand = { ...withLine(mix, index, { inWater, settled, aside: null }), question: null };
  if (isOver(other, inWater)) return overInWater({ ...counted, index, phase: 'weighing' });
  const now = current(counted);
  if (now === undefined) return saying(counted);
  const onward = askWeigh(counted);
  const told: MixMessage = {
    id: 'mix-out-of-order',
    other: other.form.name,
    name: now.line.form.name,
    // a developing agent without sulphite, or metabisulphite before sulphite, is more than untidy
    risky: other.form.classes.includes('developing-agent') || now.line.form.classes.includes('sulphite'),
  };
  return { ...onward, messages: [told, ...onward.messages] };
}

/** "Next" before the component in hand is in: says what its lack would do, and asks only where it may be left out. */
export function skipAsked(mix: MixInHand): Step {
  const now = current(mix);
  if (now === undefined) return saying(mix);
  const { line, state } = now;
  // as much as there is: it goes in so
  if (state.onScale !== null && mix.phase === 'weighing' && state.inWater + state.onScale < line.amount)
    if (state.inWater + state.onScale >= line.amount * (1 - LITTLE_SHORT)) return dissolved(mix);
  if (state.onScale !== null && mix.phase === 'dissolving') return askWeigh(mix);
  // too much was read of it, and nobody said yet that it is in or out
  const excess = (state.onScale ?? 0) - remaining(line, state);
  if (state.onScale !== null && excess > line.tolerance) {
    const { name } = line.form;
    const [read, over] = [said(mix, state.onScale, line.unit), said(mix, excess, line.unit)];
    return saying(mix, { id: 'mix-over', name, said: read, excess: over });
  }
  const optional = line.component.optional === true;
  const without = errorEffect(batchOf(mix), line, state.inWater);
  return saying(optional ? { ...mix, question: { kind: 'leave-out' } } : mix, {
    id: 'mix-missing',
    name: line.form.name,
    optional,
    phWithout: without.ph,
    ph: batchOf(mix).expectedPh,
  });
}

/** "Take some out": what is only weighed comes off the scale, what is dissolved stays. */
export function takeOut(mix: MixInHand): Step {
  const now = current(mix);
  const { question } = mix;
  const stays: MixMessage = { id: 'mix-stays-in', name: batchOf(mix).recipe.name };
  if (question?.kind === 'scale' || question?.kind === 'restart') {
    const over = overInWater(mix);
    return { ...over, messages: [stays, ...over.messages] };
  }
  const weighed = question !== null && 'value' in question ? question.value : now?.state.onScale;
  const excess = now && weighed ? weighed - remaining(now.line, now.state) : 0;
  if (now === undefined || weighed == null || excess <= now.line.tolerance) return saying(mix, stays);
  const { name } = now.line.form;
  const [read, over] = [said(mix, weighed, now.line.unit), said(mix, excess, now.line.unit)];
  return saying(question && 'value' in question ? { ...mix, question: { ...question, told: true } } : mix, {
    id: 'mix-over',
    name,
    said: read,
    excess: over,
  });
}

/** Some of a powder went astray: what it does first, and of the part in hand nothing that was weighed counts any more. */
export function spilt(mix: MixInHand, of: string | undefined): Step {
  const now = current(mix);
  const own = now !== undefined && (of === undefined || isPart(now.line, of)) ? now : undefined;
  const form = own?.line.form ?? (of === undefined ? undefined : formsNamed(of)[0]);
  const told: MixMessage[] = form
    ? [{ id: 'mix-spilt', name: form.name, cautions: cautionsForSubstance(form) }]
    : [];
  const { phase, question } = mix;
  const onScale = phase === 'weighing' || phase === 'dissolving';
  // what stands against the whole batch waits on
  const weighs = question === null || 'value' in question || question.kind === 'aside';
  if (own === undefined || !onScale || !weighs) return saying(mix, ...told);
  const anew = zeroed(mix);
  return {
    ...anew,
    messages: [
      ...told,
      ...anew.messages.map((m) => (m.id === 'mix-weigh-again' ? { ...m, why: 'spilt' as const } : m)),
    ],
  };
}

/** "The scale is zeroed": the last number no longer counts. */
export function zeroed(mix: MixInHand): Step {
  const now = current(mix);
  if (mix.phase === 'water') return advance(mix);
  if (now === undefined || (mix.phase !== 'weighing' && mix.phase !== 'dissolving')) {
    return saying(mix, { id: 'mix-not-now', why: 'not-yet', phase: mix.phase });
  }
  const clean: MixInHand = {
    ...withLine(mix, mix.index, { onScale: null }),
    phase: 'weighing',
    question: null,
    lastWeighed: null,
  };
  return saying(clean, {
    id: 'mix-weigh-again',
    name: now.line.form.name,
    said: said(mix, remaining(now.line, now.state), now.line.unit),
    why: 'zero',
  });
}
