import type { BatchLine } from '../batch.js';
import { formsNamed, otherForm, type Substance, substitute } from '../substances.js';
import { madeUp, tooFull } from './finish.js';
import { formOf, jarTold, reformed } from './jar.js';
import type { MixMessage } from './messages.js';
import { batchOf, current, type MixInHand, remaining, said, withLine } from './state.js';
import { advance, amiss, askWeigh, type Step, saying, settle } from './step.js';
import { isPart, stranger } from './stranger.js';
import { inUnitOf, otherIsIn, type ReadingUnit, takeReading } from './weigh.js';

export interface ScaleReading {
  value: number;
  unit?: ReadingUnit;
  /** what was weighed, when it was named: id, family, or the word that a family ends with ("carbonate") */
  substance?: string;
  /** it is in the water already */
  added?: boolean;
  /** all of it went in so many times */
  times?: number;
  /** … and so much beside it */
  more?: number;
  /** it was told to be so much before */
  instead?: number;
}

type Named = ScaleReading & { substance: string };

/** A reading; with the name of what was weighed it counts for what it was said to be, whatever was asked for. */
export function readScale(mix: MixInHand, reading: ScaleReading): Step {
  const { value, unit, substance, added = false, times, more, instead } = reading;
  const volumeMl = unit === 'l' ? value * 1000 : value;
  if (substance === 'water') return waterIn(mix, volumeMl);
  if ((times ?? more ?? instead) !== undefined) return allIn(mix, reading);
  if (substance === undefined) {
    // a volume by itself, where only water has one
    if ((mix.phase === 'water' || mix.phase === 'making-up') && (unit === 'ml' || unit === 'l'))
      return waterIn(mix, volumeMl);
    const meant = fittingUnit(mix, value, unit);
    return meant === undefined
      ? takeReading(mix, value, unit)
      : takenFor(mix, meant.index, { ...reading, substance: meant.family });
  }
  const named: Named = { ...reading, substance };
  const { lines } = batchOf(mix);
  const now = current(mix);
  if (mix.phase === 'cautions' || mix.phase === 'water' || mix.phase === 'done')
    return takeReading(mix, value, unit);
  const forms = formsNamed(substance);
  const isNamed = (line: BatchLine): boolean => isPart(line, substance);
  const index = now !== undefined && isNamed(now.line) ? mix.index : lines.findIndex(isNamed);
  const asked = lines[index];
  if (asked === undefined) return stranger(mix, substance, added);
  // in the place of another part, and nobody knows how much
  if (added && value === 0) return stranger(mix, substance, added, true);
  const [form] = forms;
  if (forms.length === 1 && form !== undefined && form.id !== asked.form.id) {
    // all of it is in: this is of a second jar
    const same = substitute(form, value, asked.form);
    if (mix.lines[index]?.settled)
      return same.ok && form.measure === asked.form.measure
        ? takenFor(mix, index, { ...named, value: same.amount })
        : takenFor(mix, index, named);
    // said to be another form than was planned: reckoned with as that
    const told = jarTold(mix, { substance });
    if (told.mix === mix) return told;
    const choice = told.mix.forms[asked.component.substance];
    const step = takenFor(choice === undefined ? mix : reformed(mix, index, choice), index, named);
    return { ...step, messages: [...told.messages.slice(0, 1), ...step.messages] };
  }
  return takenFor(mix, index, named);
}

/**
 * Water has no weight to be told: it is what stands in the jug at the start, `volumeMl` of it where that was said, what fills it up,
 * and what thins a bath that was made up.
 */
function waterIn(mix: MixInHand, volumeMl: number): Step {
  const { startWaterMl } = batchOf(mix);
  switch (mix.phase) {
    case 'ph':
    case 'bottling':
      return volumeMl > 0
        ? madeUp({ ...mix, phase: 'making-up' }, (mix.finalMl ?? mix.volumeMl) + volumeMl)
        : saying(mix);
    case 'making-up':
      return tooFull(mix, volumeMl) ? madeUp(mix, volumeMl) : advance(mix);
    case 'weighing':
    case 'dissolving':
      return withMuch(madeUp(mix, volumeMl));
    case 'cautions':
    case 'water': {
      if (tooFull(mix, volumeMl)) return madeUp({ ...mix, phase: 'water' }, volumeMl);
      return withMuch(advance(mix));
    }
    case 'done':
      return saying(mix, { id: 'mix-none' });
  }
  /** More than to begin with leaves the parts less room. */
  function withMuch(onward: Step): Step {
    if (volumeMl <= startWaterMl * (1 + ROOM) || tooFull(mix, volumeMl)) return onward;
    const told = { id: 'mix-much-water', volumeMl, aimMl: startWaterMl, fullMl: mix.volumeMl } as const;
    return { ...onward, messages: [told, ...onward.messages] };
  }
}
/** So much more water than to begin with still leaves the parts their room. source: common practice */
const ROOM = 0.1;

/** What was told of a part was wrong: it is counted anew, and weighed on, told to be too much, or left as it is. */
export function wasReally(mix: MixInHand, told: Pick<Named, 'value' | 'unit' | 'substance'>): Step {
  const { lines } = batchOf(mix);
  const index = lines.findIndex((line) => isPart(line, told.substance));
  const line = lines[index];
  const before = mix.lines[index];
  if (line === undefined || before === undefined || before.inWater === 0 || before.onScale !== null)
    return readScale(mix, told);
  const inWater = inUnitOf(line, told.value, told.unit);
  if (inWater === null) return saying(mix, { id: 'mix-bad-value', why: 'unit' });
  const counted = { ...withLine(mix, index, { inWater, settled: true, kept: null }), question: null };
  const wrong = amiss({ ...counted, index });
  if (wrong !== null) return wrong;
  const noted = amountOf(counted, told.substance);
  const onward = mix.index === index ? advance(counted) : askWeigh(counted);
  return { ...onward, messages: [...(noted ? [noted] : []), ...onward.messages] };
}

/** So much of another form of the same salt has what so much of this one has; null: it is this very one. */
export function inPlaceOf(
  of: Substance,
  amount: number,
  form: Substance,
  scaleStepG = 0.01,
): MixMessage | null {
  const same = substitute(of, amount, form);
  if (form.id === of.id || !same.ok) return null;
  const { name, note = null } = form;
  const as = (n: number, unit: 'g' | 'ml') => said({ scaleStepG }, n, unit);
  return {
    id: 'mix-instead',
    name,
    said: as(same.amount, form.measure),
    of: of.name,
    ofSaid: as(amount, of.measure),
    note,
  };
}

/** How much of a part the batch takes; null: it is no part. */
export function amountOf(mix: MixInHand, of: string): MixMessage | null {
  const { lines } = batchOf(mix);
  const index = lines.findIndex((line) => isPart(line, of));
  const [line, state] = [lines[index], mix.lines[index]];
  const named = (l: BatchLine): Substance | undefined =>
    line ? otherForm(of) : formOf(l.form, { hydrate: of });
  const planned = [...lines.slice(mix.index), ...lines].find((l) => (line ? l === line : named(l)));
  const form = planned && named(planned);
  const told = form && planned && inPlaceOf(planned.form, planned.amount, form, mix.scaleStepG);
  if (told) return told;
  if (!line || !state) return null;
  return {
    id: 'mix-amount',
    name: line.form.name,
    said: said(mix, line.amount, line.unit),
    inWater: said(mix, state.inWater, line.unit),
    settled: state.settled,
  };
}

/**
 * All that went in of a part, where its amount was told before, or in parts: the one that was named, else the one that has its amount
 * so far, else the one in hand, else the last that is in.
 */
function allIn(mix: MixInHand, { value, unit, substance, times = 1, more = 0, instead }: ScaleReading): Step {
  const { lines } = batchOf(mix);
  const had = mix.lines.map(({ inWater, onScale }) => (inWater > 0 ? inWater : (onScale ?? 0)));
  const now = current(mix);
  const before = instead ?? value;
  const isTold = (amount: number, i: number): boolean =>
    lines[i] !== undefined &&
    amount > 0 &&
    inUnitOf(lines[i], value, unit) !== null &&
    Math.abs(amount - before) <= lines[i].tolerance;
  const isDue =
    instead === undefined && now !== undefined && isTold(remaining(now.line, now.state), mix.index);
  const toldBefore = isDue ? -1 : had.findLastIndex(isTold);
  const unnamed =
    toldBefore >= 0
      ? toldBefore
      : value > 0 && now !== undefined
        ? mix.index
        : had.findLastIndex((amount) => amount > 0);
  const index = substance === undefined ? unnamed : lines.findIndex((line) => isPart(line, substance));
  const line = lines[index];
  if (line === undefined) return substance === undefined ? saying(mix) : stranger(mix, substance, true);
  const { name } = line.form;
  const [once, beside] = [
    value > 0 ? inUnitOf(line, value, unit) : (had[index] ?? 0),
    inUnitOf(line, more, unit),
  ];
  if (once === null || beside === null) return saying(mix, { id: 'mix-bad-value', why: 'unit' });
  const inWater = once * times + beside;
  if (inWater === 0)
    return saying(mix, { id: 'mix-no-weight', name, said: said(mix, line.amount, line.unit) });
  const counted = { ...withLine(mix, index, { inWater, onScale: null }), index, question: null };
  return amiss(counted) ?? settle(counted);
}

/** An amount in a unit that the part in hand does not have, and that another part has just so: that one is meant. */
function fittingUnit(
  mix: MixInHand,
  value: number,
  unit: ReadingUnit | undefined,
): { index: number; family: string } | undefined {
  const now = current(mix);
  if (now === undefined || mix.phase !== 'weighing' || inUnitOf(now.line, value, unit) !== null)
    return undefined;
  const { lines } = batchOf(mix);
  const index = lines.findIndex((line, i) => {
    const amount = inUnitOf(line, value, unit);
    return (
      mix.lines[i]?.settled === false && amount !== null && Math.abs(amount - line.amount) <= line.tolerance
    );
  });
  const line = lines[index];
  return line && { index, family: line.form.family };
}

function takenFor(mix: MixInHand, index: number, { value, unit, substance, added }: Named): Step {
  if (index === mix.index) return takeReading(mix, value, unit);
  const now = current(mix);
  const line = batchOf(mix).lines[index];
  const state = mix.lines[index];
  if (line === undefined || state === undefined) return saying(mix);
  const amount = inUnitOf(line, value, unit);
  if (amount === null) return saying(mix, { id: 'mix-bad-value', why: 'unit' });
  if (added) return otherIsIn(mix, index, amount);
  const other = line.form.name;
  if (state.settled || now === undefined)
    return saying(mix, { id: 'mix-in-already', other, name: now?.line.form.name ?? null });
  const { name } = now.line.form;
  if (mix.phase === 'dissolving')
    return saying(
      { ...mix, question: { kind: 'gone-on', value: amount, substance } },
      { id: 'mix-ask-dissolved', name, other },
    );
  const early = mix.lines.filter((l, i) => i >= mix.index && i < index && !l.settled).length;
  return saying(
    {
      ...withLine(mix, mix.index, { onScale: null }),
      question: { kind: 'jar', value: amount, line: index },
    },
    { id: 'mix-ask-jar', value: said(mix, amount, line.unit), name, other, ...(early > 0 && { early }) },
  );
}
