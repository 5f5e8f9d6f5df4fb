import { bathOf, keepUntil } from '../batch.js';
import { explainPh } from '../effects.js';
import { type Addition, type Finding, fitness, isUsable } from '../fitness.js';
import { type PhBy, phSays } from '../ph-reading.js';
import { pairsOfBath } from '../safety/cautions.js';
import { deference, mixtureHazards } from '../safety/hazards.js';
import type { Bath } from '../solution/bath.js';
import type { MixMessage } from './messages.js';
import { batchOf, type MixInHand, tooLarge } from './state.js';
import { advance, askWeigh, type Step, saying } from './step.js';

/** A made-up volume this close to the mark needs no word. source: common practice, a graduate's class */
const fullness = 0.02;

/** Whether a volume is more than the batch is to have, ml. */
export const tooFull = (mix: MixInHand, volumeMl: number): boolean =>
  volumeMl > mix.volumeMl * (1 + fullness);

/** So much larger may a batch become for the water that is in. source: common practice; more is poured off or begun again */
const MOST_GROWN = 2;

/** "Made up": checks that all is in, and the volume when it was said. */
export function madeUp(mix: MixInHand, volumeMl?: number): Step {
  if (mix.phase !== 'making-up') {
    if (mix.phase !== 'weighing' && mix.phase !== 'dissolving' && mix.phase !== 'water')
      return saying(mix, { id: 'mix-not-now', why: 'not-yet', phase: mix.phase });
    if (volumeMl === undefined || !tooFull(mix, volumeMl))
      return mix.phase === 'water' ? advance(mix) : askWeigh(mix);
    // more water than the whole batch is to have, and parts are still to come
    const factor = volumeMl / mix.volumeMl;
    const jugMl = Math.max(mix.jugMl, volumeMl);
    const grow = factor <= MOST_GROWN && tooLarge({ ...mix, jugMl }, volumeMl) === null;
    const pourTo = mix.phase === 'water' ? { pourToMl: batchOf(mix).startWaterMl } : {};
    return saying(
      {
        ...mix,
        jugMl,
        ...(mix.phase !== 'water' && { waterMl: volumeMl }),
        question: grow ? { kind: 'grow', factor } : mix.question,
      },
      { id: 'mix-too-full', volumeMl, strength: 1 / factor, grow, ...pourTo },
    );
  }
  const aim = mix.volumeMl;
  const is = volumeMl ?? Math.max(aim, mix.waterMl ?? 0);
  if (is < aim * (1 - fullness)) return saying(mix, { id: 'mix-too-little', volumeMl: is, aimMl: aim });
  const told: MixMessage[] =
    is > aim * (1 + fullness) ? [{ id: 'mix-too-full', volumeMl: is, strength: aim / is, grow: false }] : [];
  const full: MixInHand = { ...mix, finalMl: is };
  const { problems, add } = problemsOf(full);
  if (problems.length > 0) told.push({ id: 'mix-failed', name: batchOf(mix).recipe.name, problems, add });
  const { ph } = batchOf(mix).recipe;
  if (ph === null || !ph.buffered) return after(told, toBottle(full));
  return saying({ ...full, phase: 'ph' }, ...told, {
    id: 'mix-ask-ph',
    aim: ph.aim,
    tolerance: ph.tolerance,
    ...(batchOf(mix).recipe.specificGravity === undefined
      ? {}
      : { gravity: batchOf(mix).recipe.specificGravity?.aim ?? 1 }),
  });
}

const after = (first: MixMessage[], step: Step): Step => ({
  ...step,
  messages: [...first, ...step.messages],
});

/** A pH read by meter or strip, cool: aims are at 25 °C. A number that could be either is asked about. */
export function phRead(mix: MixInHand, value: number): Step {
  const { recipe } = batchOf(mix);
  if (!(value >= 0 && value <= 14)) return saying(mix, { id: 'mix-bad-value', why: 'ph' });
  if ((mix.phase !== 'ph' && mix.phase !== 'bottling') || recipe.ph === null) {
    return saying(mix, { id: 'mix-not-now', why: 'not-yet', phase: mix.phase });
  }
  const gravity = recipe.specificGravity;
  // no pH of such a bath, but what a hydrometer shows
  if (gravity !== undefined && value > 0.98 && value < 1.4) return gravityRead(mix, value, gravity);
  if (phSays(recipe.ph, value) === 'unclear') {
    return saying({ ...mix, question: { kind: 'meter', ph: value } }, { id: 'mix-ask-meter', ph: value });
  }
  return phTaken(mix, value, 'meter');
}

/**
 * A specific gravity, by hydrometer: it shows a part left out or doubled, and water short or over, from about 5 percent on.
 * source: specific gravity as a check of mixing, Kodak CIS-61 (May 2010), p. 1
 */
function gravityRead(mix: MixInHand, value: number, gravity: { aim: number; tolerance: number }): Step {
  const { aim, tolerance } = gravity;
  const good = Math.abs(value - aim) <= tolerance + 1e-9;
  const strength = (value - 1) / (aim - 1);
  return saying(
    { ...mix, gravity: value },
    { id: 'mix-gravity', gravity: value, aim, tolerance, good, strength },
  );
}

/** The same once it is known what read it: a strip proves no more than half a unit. */
export function phTaken(mix: MixInHand, value: number, phBy: PhBy): Step {
  const { recipe } = batchOf(mix);
  if (recipe.ph === null) return saying(mix);
  const { aim, tolerance } = recipe.ph;
  const noted: MixInHand = { ...mix, ph: value, phBy, question: null };
  const says = phSays(recipe.ph, value, phBy);
  if (says === 'good') return after([{ id: 'mix-ph-good', ph: value, aim }], toBottle(noted));
  if (says === 'near') return after([{ id: 'mix-ph-near', ph: value, aim, tolerance }], toBottle(noted));
  const slips = explainPh(batchOf(mix), value).slice(0, 2);
  return saying({ ...noted, phase: 'ph' }, { id: 'mix-ph-off', ph: value, aim, tolerance, slips });
}

/** What is really in the jug: every part as it was weighed, in the volume it was made up to. */
export function madeOf(mix: MixInHand): Bath {
  const { lines } = batchOf(mix);
  const volumeMl = mix.finalMl ?? mix.volumeMl;
  return bathOf(lines, volumeMl, (line) => (mix.lines[lines.indexOf(line)]?.inWater ?? 0) / line.amount);
}

/** What the weighings, the volume and the pH say against the batch, worst first; none: it is what the recipe says. */
export function problemsOf(mix: MixInHand): { problems: string[]; add: Addition[]; unusable: boolean } {
  const { recipe } = batchOf(mix);
  const made = fitness({ bath: recipe.id, parts: [], made: madeOf(mix) });
  const problems = isUsable(made) ? [] : made.findings.filter((f) => f.level !== 'use').map(figure);
  const { specificGravity } = recipe;
  if (specificGravity !== undefined && mix.gravity !== undefined) {
    const { aim, tolerance } = specificGravity;
    if (Math.abs(mix.gravity - aim) > tolerance + 1e-9)
      problems.push(`specific gravity ${mix.gravity.toFixed(3)} read, ${aim.toFixed(3)} wanted`);
  }
  if (recipe.ph !== null && mix.ph !== null && phSays(recipe.ph, mix.ph, mix.phBy ?? 'meter') === 'off') {
    const read = mix.phBy === 'strip' ? `${mix.ph} by strip` : `${mix.ph.toFixed(2)} read`;
    problems.push(`pH ${read}, ${recipe.ph.aim.toFixed(2)} wanted`);
  }
  const strangers = mix.strangers ?? [];
  problems.push(...strangers.map((name) => `${name} is in it`));
  const unusable = made.verdict === 'discard' || strangers.length > 0;
  return { problems: [...new Set(problems)], add: strangers.length > 0 ? [] : made.add, unusable };
}

const percentOff = (share: number): string =>
  `${Math.round(Math.abs(share) * 100)} percent ${share < 0 ? 'too weak' : 'too strong'}`;

function figure(f: Finding): string {
  if (f.id === 'ph')
    return `the pH comes out ${Math.abs(f.value).toFixed(2)} too ${f.value < 0 ? 'low' : 'high'}: ${f.why}`;
  if (f.id === 'strength' || f.id === 'part')
    return `${percentOff(f.value)} in ${nameOf(f.of ?? '')}: ${f.why}`;
  return f.why;
}

const matterNames: Readonly<Record<string, string>> = {
  cd3: 'developing agent',
  Br: 'bromide',
  sulfite: 'sulphite',
  sulfate: 'sulphate',
  thiosulfate: 'thiosulphate',
  acetate: 'acid',
  citrate: 'acid',
};
const nameOf = (id: string): string => matterNames[id] ?? id;

export function toBottle(mix: MixInHand, again = false): Step {
  const { recipe } = batchOf(mix);
  return saying(
    { ...mix, phase: 'bottling' },
    {
      id: 'mix-ask-bottle',
      name: recipe.name,
      volumeMl: mix.finalMl ?? mix.volumeMl,
      ...(again && { again }),
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
    liquid: recipe.liquid,
    batch: mix.batch,
    volumeMl: mix.finalMl ?? mix.volumeMl,
    keepUntil: keepUntil(recipe, mix.date),
    problems: problemsOf(mix).problems,
    ...(bottle === undefined ? {} : { bottle }),
  });
}

/** The label, plain text, 40 columns, to print or copy. */
export function labelText(mix: MixInHand): string {
  const { recipe, lines } = batchOf(mix);
  const { problems } = problemsOf(mix);
  const dangers = new Set([
    ...pairsOfBath(recipe).map((p) => p.spoken),
    ...mixtureHazards(recipe, lines, mix.volumeMl),
  ]);
  const failed =
    mix.phase !== 'done'
      ? ['NOT FINISHED: do not use.']
      : problems.length === 0
        ? []
        : ['DO NOT USE: failed its checks.', ...problems.map(sentence)];
  const rule = '-'.repeat(40);
  return [
    rule,
    recipe.name.toUpperCase(),
    `${Math.round(mix.finalMl ?? mix.volumeMl)} ml    batch ${mix.batch}`,
    ...(failed.length > 0
      ? [`mixed ${mix.date}`, ...failed.flatMap((t) => wrap(t, 40))]
      : [
          `mixed ${mix.date}    keep until ${keepUntil(recipe, mix.date)}`,
          `used: keep ${recipe.keeping.usedDays} days`,
        ]),
    ...(recipe.time === undefined ? [] : wrap(`Step time: ${recipe.time.factor} times the usual.`, 40)),
    ...(mix.ph === null
      ? []
      : [`pH ${mix.phBy === 'strip' ? `${mix.ph} by strip` : mix.ph.toFixed(2)} at mixing`]),
    rule,
    ...[...dangers, 'Not for drinking. Keep from children.', deference].flatMap((t) => wrap(t, 40)),
    rule,
  ].join('\n');
}

const sentence = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;

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
