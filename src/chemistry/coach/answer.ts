import { substanceById } from '../substances.js';
import { phTaken } from './finish.js';
import { reformed } from './jar.js';
import type { MixMessage } from './messages.js';
import { readScale } from './named.js';
import {
  batchOf,
  current,
  type MixInHand,
  type Question,
  type QuestionOf,
  remaining,
  said,
  withLine,
} from './state.js';
import { askWeigh, phShiftAt, type Step, saying, scaleBatch, settle } from './step.js';
import { stranger } from './stranger.js';
import { dissolved, takeAtItsWord } from './weigh.js';

type Answers = { [K in Question['kind']]: (mix: MixInHand, q: QuestionOf<K>, yes: boolean) => Step };

const again = (mix: MixInHand, why: 'grams' | 'zero' | 'decimal' | 'form' | 'jar'): Step => {
  const now = current(mix);
  if (now === undefined) return saying(mix);
  const left = said(mix, remaining(now.line, now.state), now.line.unit);
  return saying(mix, { id: 'mix-weigh-again', name: now.line.form.name, said: left, why });
};

/** What yes and no mean to each question. The question itself is already cleared. */
const answers: Answers = {
  // "Is the scale showing ounces?"
  unit: (mix, q, yes) =>
    yes ? again(withLine(mix, mix.index, { unitTold: true }), 'grams') : takeAtItsWord(mix, q.value),
  // "Did I get the point wrong?"
  tenfold: (mix, q, yes) => (yes ? again(mix, 'decimal') : takeAtItsWord(mix, q.value)),
  // "Was it zeroed with the empty boat on it?"
  tare: (mix, q, yes) => (yes ? takeAtItsWord(mix, q.value) : again({ ...mix, lastWeighed: null }, 'zero')),
  // "Is it really the other form?"
  form: (mix, q, yes) => (yes ? changeForm(mix, q) : takeAtItsWord(mix, q.value)),
  // "Did you weigh the other jar?"
  jar: (mix, q, yes) => {
    if (!yes) return takeAtItsWord(mix, q.value);
    return mix.lines[q.line]?.settled ? again(mix, 'jar') : setAside(mix, q);
  },
  // "Is that really on the scale?"
  stranger: (mix, _q, yes) => again(mix, yes ? 'jar' : 'form'),
  scale: (mix, q, yes) => {
    if (yes) return scaleBatch(mix, q.factor);
    const now = current(mix);
    if (now === undefined) return saying(mix);
    const onward = settle(mix);
    const phShift = phShiftAt(mix, now.state.inWater);
    return {
      ...onward,
      messages: [{ id: 'mix-kept', name: now.line.form.name, phShift }, ...onward.messages],
    };
  },
  grow: (mix, q, yes) => (yes ? scaleBatch(mix, q.factor) : goOn(mix)),
  'leave-out': (mix, _q, yes) => (yes ? settle(mix, 'left-out') : askWeigh(mix)),
  // "Is the one before dissolved?"
  'gone-on': (mix, q, yes) => {
    if (!yes) return askWeigh(mix);
    const onward = dissolved(mix);
    return onward.mix.phase === 'weighing' && onward.mix.question === null
      ? readScale(onward.mix, q)
      : onward;
  },
  aside: (mix, _q, yes) => {
    const now = current(mix);
    if (now === undefined) return saying(mix);
    const bare = withLine(mix, mix.index, { aside: null });
    return yes && now.state.aside !== null ? takeAtItsWord(bare, now.state.aside) : again(bare, 'jar');
  },
  // "Is it not in it?"
  cleared: ({ strangers = [], ...mix }, _q, yes) =>
    yes
      ? goOn(mix)
      : marked(
          { id: 'mix-will-fail', name: strangers.at(-1) ?? '', stranger: true },
          goOn({ ...mix, strangers }),
        ),
  // "Give it up and start again?"
  restart: (mix, _q, yes) => {
    if (yes) return { mix, messages: [], stopped: true };
    const now = current(mix);
    const told = { id: 'mix-will-fail', name: now?.line.form.name ?? '' } as const;
    return marked(told, settle(mix));
  },
  // "It is spoiled: shall I give it up?"
  spoiled: (mix, q, yes) => {
    if (yes) return { mix, messages: [], stopped: true };
    const told = stranger(mix, q.of, true, q.belongs);
    if (told.messages.some((m) => m.id === 'mix-stranger' && m.gas)) return told;
    return marked({ id: 'mix-will-fail', name: mix.strangers?.at(-1) ?? '', stranger: true }, goOn(mix));
  },
  // "Shall I give it up?" nothing else is left
  held: (mix, q, yes) => (yes ? { mix, messages: [], stopped: true } : stays({ ...mix, question: q })),
  // "Was that a meter?"
  meter: (mix, q, yes) => phTaken(mix, q.ph, yes ? 'meter' : 'strip'),
  stop: (mix, _q, yes) => (yes ? { mix, messages: [], stopped: true } : goOn(mix)),
};

/** That it is spoiled is said once. */
const marked = (told: Extract<MixMessage, { id: 'mix-will-fail' }>, onward: Step): Step => ({
  ...onward,
  messages: [told, ...onward.messages.filter((m) => m.id !== 'mix-will-fail')],
});

/** What went wrong in it is dangerous: it stays as it is. */
export const stays = (mix: MixInHand): Step =>
  saying({ ...mix, question: { kind: 'held' } }, { id: 'mix-held', name: batchOf(mix).recipe.name });

/** After "no, do not stop": the thing in hand once more. */
function goOn(mix: MixInHand): Step {
  const atPart = current(mix) !== undefined && mix.phase !== 'cautions' && mix.phase !== 'water';
  return atPart ? askWeigh(mix) : saying(mix, { id: 'mix-went-on' });
}

/** Yes or no to the open question; null when there is none. */
export function answerQuestion(mix: MixInHand, yes: boolean): Step | null {
  const q = mix.question;
  if (q === null) return null;
  const handler = answers[q.kind] as (mix: MixInHand, q: Question, yes: boolean) => Step;
  return handler({ ...mix, question: null }, q, yes);
}

function changeForm(mix: MixInHand, q: QuestionOf<'form'>): Step {
  const name = substanceById(q.form)?.name ?? q.form;
  const step = takeAtItsWord(reformed(mix, mix.index, { substance: q.form }), q.value);
  return {
    ...step,
    messages: [{ id: 'mix-form-changed', name, said: said(mix, q.value, 'g') }, ...step.messages],
  };
}

function setAside(mix: MixInHand, q: QuestionOf<'jar'>): Step {
  const now = current(mix);
  const other = batchOf(mix).lines[q.line];
  if (now === undefined || other === undefined) return saying(mix);
  const kept = withLine(mix, q.line, { aside: q.value });
  const left = said(mix, remaining(now.line, now.state), now.line.unit);
  return saying(kept, { id: 'mix-aside', other: other.form.name, name: now.line.form.name, said: left });
}
