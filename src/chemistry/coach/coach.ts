import { type FormChoice, leastVolumeMl, planBatch, refusalOf } from '../batch.js';
import { findRecipe } from '../recipes/index.js';
import { spokenCautionsFor } from '../safety/cautions.js';
import { answerQuestion, stays } from './answer.js';
import { bottled, labelText, madeUp, phRead, toBottle } from './finish.js';
import { type Jar, jarTold } from './jar.js';
import type { MixMessage } from './messages.js';
import { amountOf, readScale, type ScaleReading, wasReally } from './named.js';
import {
  batchOf,
  current,
  emptyLine,
  type MixInHand,
  type QuestionOf,
  remaining,
  said,
  type Weighed,
} from './state.js';
import { advance, overInWater, type Step, saying, spoiledBy } from './step.js';
import { gotIn, isPart, stranger } from './stranger.js';
import { dissolved, type ReadingUnit, scaleWas, skipAsked, spilt, takeOut, zeroed } from './weigh.js';

/** What can happen at the mixing bench once a mix is open. */
export type CoachEvent =
  /** `leaving`: and this part is to be left out */
  | { type: 'next'; leaving?: string }
  | Weighed
  /** some of a powder is to come out again */
  | { type: 'take-out' }
  /** a part that was told of was really so much */
  | ({ type: 'was'; substance: string } & Pick<ScaleReading, 'value' | 'unit'>)
  | { type: 'zeroed' }
  /** all that was weighed was read in this unit, and taken for grams */
  | { type: 'scale-was'; unit: ReadingUnit }
  | { type: 'ph'; ph: number }
  | { type: 'made-up'; volumeMl?: number }
  | { type: 'bottle'; bottle: number }
  | { type: 'yes' }
  | { type: 'no' }
  | { type: 'where' }
  /** how much of a part */
  | { type: 'amount'; of: string }
  | { type: 'label' }
  | { type: 'jar'; jar: Jar }
  /** something got into the jug */
  | { type: 'stranger'; of: string }
  /** nothing strange is in it after all */
  | { type: 'cleared' }
  /** it smokes, or what met in it heats or gives off gas: told, and answered elsewhere */
  | { type: 'danger' }
  /** some of a powder, of the one in hand where none is named, went astray */
  | { type: 'spilt'; of?: string }
  /** temperature of the water in the jug, °C */
  | { type: 'water'; tempC: number }
  | { type: 'stop' };

export interface OpenMix {
  recipe: string;
  volumeMl: number;
  batch: string;
  /** YYYY-MM-DD */
  date: string;
  forms?: Record<string, FormChoice>;
  /** smallest step of the scale, g; 0.01 when not given */
  scaleStepG?: number;
  /** largest volume that jug and bottles take; half as much again as the batch when not given */
  jugMl?: number;
}

export type Opened =
  | { ok: true; mix: MixInHand; messages: MixMessage[] }
  /** `leastMl`: the least usual volume that can be mixed at once instead */
  | { ok: false; why: string; leastMl?: number };

/** Opens a mix: recipe, volume and forms are checked here once, so that no later step can fail on them. */
export function openMix(open: OpenMix): Opened {
  const found = findRecipe(open.recipe);
  if (!found.ok) return found;
  const forms = open.forms ?? {};
  const scaleStepG = open.scaleStepG ?? 0.01;
  const planned = planBatch(found.recipe, open.volumeMl, { forms, scaleStepG });
  if (!planned.ok) return planned;
  const refused = refusalOf(planned.batch, { forms, scaleStepG });
  if (refused !== null) {
    const leastMl = leastVolumeMl(planned.batch, { forms, scaleStepG });
    return { ok: false, why: refused, ...(leastMl === null ? {} : { leastMl }) };
  }
  const mix: MixInHand = {
    recipe: found.recipe.id,
    batch: open.batch,
    date: open.date,
    volumeMl: open.volumeMl,
    forms,
    scaleStepG,
    jugMl: open.jugMl ?? open.volumeMl * 1.5,
    phase: 'cautions',
    index: 0,
    lines: planned.batch.lines.map(emptyLine),
    question: null,
    lastWeighed: null,
    finalMl: null,
    ph: null,
  };
  const cautions = spokenCautionsFor(
    found.recipe,
    planned.batch.lines.map((l) => l.form),
  );
  const { name } = found.recipe;
  return {
    ok: true,
    mix,
    messages: [
      {
        id: 'mix-opened',
        name,
        volumeMl: open.volumeMl,
        batch: open.batch,
        cautions,
        parts: mix.lines.length,
      },
    ],
  };
}

/**
 * These may be said while the question of too much in the water is open. All else repeats the question, except that
 * whoever weighs on in a batch that cannot become right goes on with it as it is: marked as spoiled.
 */
const beside: CoachEvent['type'][] = [
  'yes',
  'no',
  'where',
  'amount',
  'label',
  'stop',
  'water',
  'stranger',
  'cleared',
  'scale-was',
  'take-out',
  'was',
  'danger',
  'spilt',
  'jar',
];

/** With a strange thing perhaps in the jug these wait for the answer; a reading of the right part is one. */
const onward: CoachEvent['type'][] = ['next', 'made-up', 'ph', 'bottle'];

/** One event at the bench. Pure; the same events give the same mix again. */
export function coach(mix: MixInHand, event: CoachEvent): Step {
  const { question } = mix;
  if (question?.kind === 'scale' && !beside.includes(event.type)) return weighedOn(mix, question, event);
  if ((question?.kind === 'restart' || question?.kind === 'spoiled') && !beside.includes(event.type))
    return goneOn(mix, event);
  if (question?.kind === 'held') return held(mix, event);
  if (question?.kind === 'stranger' && onward.includes(event.type)) return stranger(mix, question.of, false);
  switch (event.type) {
    case 'next': {
      const { leaving } = event;
      const now = current(mix);
      // a part that is not in hand is not left out: what there is of it is said
      if (leaving !== undefined && !(now && isPart(now.line, leaving)))
        return saying(mix, amountOf(mix, leaving) ?? where(mix));
      return next(mix);
    }
    case 'reading':
      return readScale(mix, event);
    case 'dissolved':
      return dissolved(mix);
    case 'take-out':
      return takeOut(mix);
    case 'was':
      return wasReally(mix, event);
    case 'zeroed':
      return zeroed(mix);
    case 'scale-was':
      return scaleWas(mix, event.unit);
    case 'ph':
      return phRead(mix, event.ph);
    case 'made-up':
      return madeUp(mix, event.volumeMl);
    case 'bottle':
      return mix.phase === 'bottling'
        ? bottled(mix, event.bottle)
        : saying(mix, { id: 'mix-not-now', why: 'not-yet', phase: mix.phase });
    case 'yes':
    case 'no':
      return answered(mix, event.type === 'yes');
    case 'where':
      return saying(mix, where(mix));
    case 'amount':
      return saying(mix, amountOf(mix, event.of) ?? where(mix));
    case 'label':
      return saying(mix, { id: 'mix-label', text: labelText(mix) });
    case 'jar':
      return jarTold(mix, event.jar);
    case 'water':
      return waterIs(mix, event.tempC);
    case 'stranger':
      return gotIn(mix, event.of) ?? saying(mix, where(mix));
    case 'cleared': {
      const name = mix.strangers?.at(-1);
      return name === undefined
        ? saying(mix, where(mix))
        : saying({ ...mix, question: { kind: 'cleared' } }, { id: 'mix-ask-cleared', name });
    }
    case 'danger':
      return { ...stays(mix), messages: [] };
    case 'spilt':
      return spilt(mix, event.of);
    case 'stop':
      // giving it up is what was asked
      if (question?.kind === 'spoiled' || question?.kind === 'restart') return answered(mix, true);
      return saying(
        { ...mix, question: { kind: 'stop' } },
        { id: 'mix-ask-stop', name: batchOf(mix).recipe.name },
      );
  }
}

/** Too much is in, and what to do is asked: what goes on from there as if it were left waits for the answer, all else is said to be lost. */
function weighedOn(mix: MixInHand, { waits = [] }: QuestionOf<'scale'>, event: CoachEvent): Step {
  const asked = overInWater(mix);
  const { question } = asked.mix;
  if (question?.kind !== 'scale') return asked;
  const isWeighed = event.type === 'reading' || event.type === 'dissolved';
  const goesOn = isWeighed && waits.length + (event.type === 'reading' ? 1 : 0) > 0 ? [...waits, event] : [];
  const isRight = goesOn.length > 0 && goneThrough(answeredAlone(mix, false), goesOn).left === 0;
  const kept = isRight ? goesOn : waits;
  const again = event.type === 'next' || (event.type === 'dissolved' && waits.length === 0);
  return {
    ...asked,
    mix: { ...asked.mix, question: { ...question, ...(kept.length > 0 && { waits: kept }) } },
    messages: [...(again ? [] : [{ id: 'mix-untaken', waits: isRight } as const]), ...asked.messages],
  };
}

/** What was weighed meanwhile, one after the other, until one of them is not right; `left`: so many from there on. */
function goneThrough(from: Step, events: readonly Weighed[]): { step: Step; left: number } {
  const [event, ...others] = events;
  if (event === undefined) return { step: from, left: 0 };
  const step = coach(from.mix, event);
  const right =
    step.mix.question === null &&
    step.mix !== from.mix &&
    (event.type === 'dissolved' || step.mix.phase === 'dissolving');
  return right ? goneThrough(step, others) : { step, left: events.length };
}

/** More that got in is told of; giving it up and taking back what was told are all that moves it. */
function held(mix: MixInHand, event: CoachEvent): Step {
  switch (event.type) {
    case 'yes':
    case 'stop':
      return answerQuestion(mix, true) ?? stays(mix);
    case 'label':
      return saying(mix, { id: 'mix-label', text: labelText(mix) });
    case 'stranger': {
      const step = gotIn(mix, event.of) ?? stays(mix);
      return { ...step, mix: { ...step.mix, question: mix.question } };
    }
    case 'danger':
      return saying(mix);
    case 'spilt':
      return spilt(mix, event.of);
    default:
      return stays(mix);
  }
}

function goneOn(mix: MixInHand, event: CoachEvent): Step {
  const marked = answerQuestion(mix, false);
  if (marked === null) return overInWater(mix);
  // what gives off gas is not worked on
  if (marked.mix.question?.kind === 'spoiled') return marked;
  const onward = coach(marked.mix, event);
  return { ...onward, messages: [...marked.messages.slice(0, 1), ...onward.messages] };
}

/** Yes with no question open means "go on"; no means nothing, and says so. */
function answered(mix: MixInHand, yes: boolean): Step {
  const step = answeredAlone(mix, yes);
  const { waits = [] } = mix.question?.kind === 'scale' ? mix.question : {};
  if (waits.length === 0) return step;
  const { step: onward, left } = goneThrough(step, waits);
  const lost: MixMessage[] = left > 1 ? [{ id: 'mix-untaken', waits: false }] : [];
  return { ...onward, messages: [...step.messages.slice(0, 1), ...onward.messages, ...lost] };
}

function answeredAlone(mix: MixInHand, yes: boolean): Step {
  return (
    answerQuestion(mix, yes) ?? (yes ? next(mix) : saying(mix, { id: 'mix-not-now', why: 'no-question' }))
  );
}

function next(mix: MixInHand): Step {
  switch (mix.phase) {
    case 'cautions': {
      const { lowC, highC } = batchOf(mix).recipe.startWater;
      const volumeMl = batchOf(mix).startWaterMl;
      const scale = batchOf(mix).lines.some((l) => l.unit === 'g');
      return saying(
        { ...mix, phase: 'water', question: null },
        { id: 'mix-water', volumeMl, lowC, highC, scale },
      );
    }
    case 'water':
      return advance(mix);
    case 'weighing':
      return skipAsked(mix);
    case 'dissolving':
      return current(mix)?.state.onScale == null ? skipAsked(mix) : dissolved(mix);
    case 'making-up':
      return saying(mix, { id: 'mix-make-up', volumeMl: mix.volumeMl });
    case 'ph':
      return toBottle(mix);
    case 'bottling':
      return mix.askedBottle ? bottled(mix) : toBottle({ ...mix, askedBottle: true }, true);
    case 'done':
      return saying(mix, { id: 'mix-none' });
  }
}

/** The water to dissolve in, held against the recipe. */
function waterIs(mix: MixInHand, tempC: number): Step {
  const { recipe, lines } = batchOf(mix);
  const { lowC, highC } = recipe.startWater;
  const agent = lines.some((l) => l.form.classes.includes('developing-agent'));
  return saying(mix, { id: 'mix-water-is', tempC, lowC, highC, agent });
}

function where(mix: MixInHand): MixMessage {
  const now = current(mix);
  const { lines } = batchOf(mix);
  const question = mix.question?.kind === 'jar' ? mix.question : undefined;
  const asked = question && lines[question.line];
  const doneParts = mix.lines.filter((l) => l.settled).length;
  const spoiled = spoiledBy(mix);
  const base = {
    id: 'mix-where' as const,
    name: batchOf(mix).recipe.name,
    phase: mix.phase,
    doneParts,
    of: mix.lines.length,
    ...(spoiled && { spoiled }),
    inWater: mix.lines.flatMap((l, i) => {
      const line = lines[i];
      return line && l.inWater > 0 ? [{ name: line.form.name, said: said(mix, l.inWater, line.unit) }] : [];
    }),
    ...(asked &&
      question && { asked: { name: asked.form.name, said: said(mix, question.value, asked.unit) } }),
  };
  if (now === undefined) return base;
  const { onScale } = now.state;
  const left = remaining(now.line, now.state);
  return {
    ...base,
    ...(mix.phase === 'dissolving' && onScale !== null && { weighed: said(mix, onScale, now.line.unit) }),
    next: now.line.form.name,
    ...(left > 0 && { said: said(mix, left, now.line.unit) }),
  };
}

export { labelText };
