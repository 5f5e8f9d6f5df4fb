import { type CoachEvent, coach, labelText, openMix } from '../../chemistry/coach/coach.js';
import { bottled, toBottle } from '../../chemistry/coach/finish.js';
import { formOf, type Jar, purityTold } from '../../chemistry/coach/jar.js';
import type { MixMessage } from '../../chemistry/coach/messages.js';
import { inPlaceOf } from '../../chemistry/coach/named.js';
import { batchOf, current, type MixInHand, type Phase, remaining } from '../../chemistry/coach/state.js';
import type { Step } from '../../chemistry/coach/step.js';
import { isPart } from '../../chemistry/coach/stranger.js';
import { verdictOf } from '../../chemistry/control-strip.js';
import { findRecipe } from '../../chemistry/recipes/index.js';
import { chooseForms } from '../../chemistry/shelf/plan.js';
import { formsNamed, formsOf, otherForm } from '../../chemistry/substances.js';
import type { Desk, DeskEvent } from '../../process/desk.js';
import type { Effect } from '../../process/effect.js';
import type { Intent, IntentOf } from '../../process/intent.js';
import type { Fact } from '../../world/fact.js';
import { localDate } from '../local-date.js';
import {
  cautionsAsked,
  checks,
  keeping,
  noRecipe,
  planned,
  shelfHave,
  shopping,
  whatIf,
} from './mix/answers.js';
import { emptyMixState, keptOf, type MixDeskConfig, type MixKept, type MixState, seen } from './mix/bench.js';
import { bottleFact, mixedFact, usedFacts } from './mix/facts.js';
import { kindOf } from './mix/reply-kind.js';

export type { MixMessage } from '../../chemistry/coach/messages.js';
export type { MixDeskConfig, MixKept } from './mix/bench.js';

type At = Pick<DeskEvent, 'atMs' | 'wallMs'>;
interface Turn {
  state: MixState;
  messages: MixMessage[];
  facts: Fact[];
}

/** The desk of the mixing bench: hears mixing intents, keeps one mix in hand, and the shelf. Pure. */
export function createMixDesk(config: MixDeskConfig = {}): Desk<MixKept, MixMessage> {
  return {
    id: 'mix',
    initial: emptyMixState,
    situations: (state) => {
      if (state.open === null) {
        if (state.waiting === null) return [];
        return state.waiting.volumeMl === undefined ? ['mixing'] : ['mixing', 'challenged'];
      }
      return state.open.question === null && state.askedBottle === null
        ? ['mixing']
        : ['mixing', 'challenged'];
    },
    due: ({ open, waiting }) => (open ? asksFor(open) : waiting ? [A_LITER] : []),
    making: ({ open }) => (open ? batchOf(open).recipe.liquid : null),
    apply(kept, event, truth) {
      if (event.type === 'time') return { state: kept, effects: [] };
      const state = seen(kept, truth.world, config.baths);
      const done =
        event.type === 'fact'
          ? bottledElsewhere(state, event.fact, event)
          : answered(state, event.intent, event, config);
      for (const fact of done.facts) truth.tell(fact);
      const effects: Effect<MixMessage>[] = done.messages.map((message) => ({
        type: 'say',
        kind: kindOf(message),
        message,
        dueMs: event.atMs,
      }));
      if (done.state.open !== kept.open) effects.push({ type: 'did' });
      return { state: keptOf(done.state), effects };
    },
  };
}

const turn = (state: MixState, messages: MixMessage[] = [], facts: Fact[] = []): Turn => ({
  state,
  messages,
  facts,
});

/** What the weight of another form is said for, g. */
const USUAL_G = 10;
const A_LITER: Intent = { type: 'reading', value: 1000, unit: 'ml' };
const NEUTRAL_PH = 7;

/** What the step in hand asks for. */
function asksFor(mix: MixInHand): Intent[] {
  switch (mix.phase) {
    case 'cautions':
    case 'water':
      return [{ type: 'mix-next' }];
    case 'weighing': {
      const now = current(mix);
      return now ? [{ type: 'reading', value: remaining(now.line, now.state), unit: now.line.unit }] : [];
    }
    case 'dissolving':
      return [{ type: 'dissolved' }];
    case 'making-up':
      return [{ type: 'made-up', volumeMl: mix.volumeMl }];
    case 'ph':
      return [{ type: 'ph-reading', ph: batchOf(mix).recipe.ph?.aim ?? NEUTRAL_PH }];
    case 'bottling':
      return [{ type: 'part' }];
    case 'done':
      return [];
  }
}

/** "Is the bottle empty?" is answered first; anything else leaves the question behind. */
function answered(state: MixState, intent: Intent, at: At, config: MixDeskConfig): Turn {
  const { askedBottle: bottle, open } = state;
  if (bottle === null || open === null) return handle(state, intent, at, config);
  const now = { ...state, askedBottle: null };
  if (intent.type === 'cancel') return turn(now, toBottle(open).messages);
  if (intent.type !== 'confirm') return handle(now, intent, at, config);
  return stepped(now, open, coach(open, { type: 'bottle', bottle }), bottle);
}

/** The finished mix may not go onto another bath unasked. */
function taken(state: MixState, mix: MixInHand, bottle: number, config: MixDeskConfig): MixMessage | null {
  const there = state.bottles[String(bottle)];
  const { liquid } = batchOf(mix).recipe;
  if (mix.phase !== 'bottling' || !there || there.volumeMl <= 0 || there.liquid === liquid) return null;
  return { id: 'mix-ask-taken', bottle, holds: config.liquidName?.(there.liquid) ?? there.liquid };
}

function handle(state: MixState, intent: Intent, at: At, config: MixDeskConfig): Turn {
  switch (intent.type) {
    case 'mix-start':
      return start(state, intent.recipe, intent.volumeMl, at, config);
    case 'mix-plan':
      return turn(state, [planned(state, config, intent)]);
    case 'what-if':
      return wouldMeet(state, intent);
    case 'shelf-have':
      return turn(state, shelfHave(state, intent));
    case 'shelf-add':
      return shelfAdd(state, intent);
    case 'jar-is':
      return jarIs(state, intent);
    case 'ask-amount': {
      const form = intent.substance === undefined ? undefined : otherForm(intent.substance);
      const asPlanned = form && formsOf(form).find((f) => f.name.startsWith('anhydrous'));
      const isIn = state.open && form && batchOf(state.open).lines.some((line) => isPart(line, form.id));
      const told = !isIn && asPlanned && inPlaceOf(asPlanned, USUAL_G, form, config.scaleStepG);
      if (told) return turn(state, [told]);
      break;
    }
    case 'ask-keeping':
      return turn(state, [
        keeping(state, intent.liquid ?? (state.open ? batchOf(state.open).recipe.liquid : undefined)),
      ]);
    case 'ask-checks':
      return turn(state, [checks(state, intent.liquid ?? state.open?.recipe)]);
    case 'ask-control':
      return turn(state, [{ id: 'control', verdict: verdictOf(state.strips), strips: state.strips.length }]);
    case 'ask-shopping':
      return turn(state, [shopping(state, intent.films)]);
    case 'temperature':
      if (state.open !== null)
        return turn(state, coach(state.open, { type: 'water', tempC: intent.tempC }).messages);
      break;
    case 'ask-cautions':
      return turn(state, [cautionsAsked(state, intent.substance)]);
    case 'ask-label':
      return label(state);
    case 'contaminated':
      return gotIn(state, intent.liquid);
    case 'ask-advice':
      if (intent.topic === 'good-after-all')
        return state.open === null
          ? turn(state)
          : stepped(state, state.open, coach(state.open, { type: 'cleared' }));
      return intent.topic === 'powder-spilled' ? powderSpilt(state, intent.liquid) : endangered(state);
    case 'pour-between': {
      const elsewhere = strayPour(state, intent);
      if (elsewhere !== null) return elsewhere;
      break;
    }
    case 'reading':
      if (state.open === null && state.waiting !== null) return volumeGiven(state, intent, at, config);
      break;
    case 'confirm':
      if (state.open === null && state.waiting?.volumeMl !== undefined)
        return start(state, state.waiting.recipe, state.waiting.volumeMl, at, config);
      break;
    case 'cancel':
      if (state.open === null && state.waiting !== null)
        return turn({ ...state, waiting: null }, [{ id: 'mix-none' }]);
      break;
  }
  const event = coachEvent(intent, state.open?.phase ?? null);
  if (event === null) return turn(state);
  if (state.open === null) return turn(state, [{ id: 'mix-none' }]);
  if (event.type === 'bottle' && event.bottle !== undefined) {
    const question = taken(state, state.open, event.bottle, config);
    if (question) return turn({ ...state, askedBottle: event.bottle }, [question]);
    // a bath that is not made yet is in it
    if (intent.type === 'poured' && state.open.phase !== 'bottling')
      return turn(state, coach(state.open, event).messages, [
        { type: 'bottle-doubted', bottle: event.bottle, doubt: 'unanswered' },
      ]);
  }
  return stepped(
    state,
    state.open,
    coach(state.open, event),
    event.type === 'bottle' ? event.bottle : undefined,
    intent,
  );
}

function gotIn(state: MixState, of: string): Turn {
  return state.open === null
    ? turn(state)
    : stepped(state, state.open, coach(state.open, { type: 'stranger', of }));
}

function powderSpilt(state: MixState, of: string | undefined): Turn {
  if (state.open === null) return turn(state);
  const { mix, messages } = coach(state.open, { type: 'spilt', ...(of !== undefined && { of }) });
  const [told] = messages;
  const text = `${told?.id === 'mix-spilt' ? told.name : 'a powder'} was spilled`;
  return turn({ ...state, open: mix }, messages, [{ type: 'note', text }]);
}

/** What is in the jug is dangerous as it is: the mix stays stopped. */
const endangered = (state: MixState, messages: MixMessage[] = []): Turn => {
  if (state.open === null) return turn(state, messages);
  const { mix } = coach(state.open, { type: 'danger' });
  return turn({ ...state, open: mix }, messages);
};

/** Two things that meet; of a thing alone, what it does in the jug, or to whatever it must not meet. */
function wouldMeet(state: MixState, intent: IntentOf<'what-if'>): Turn {
  const alone = intent.intoLiquid === undefined && intent.intoBottle === undefined;
  if (alone && state.open !== null) return turn(state, inJug(state, state.open, intent));
  if (alone) return turn(state, [cautionsAsked(state, intent.liquid)]);
  const answer = whatIf(state, intent);
  return intent.done && answer.id === 'may-meet' && answer.dangers.length > 0
    ? endangered(state, [answer])
    : turn(state, [answer]);
}

/** What a thing would do in the jug: a part of the recipe is in already, or has its turn. */
function inJug(state: MixState, mix: MixInHand, intent: IntentOf<'what-if'>): MixMessage[] {
  const { lines } = batchOf(mix);
  const index = lines.findIndex((line) => isPart(line, intent.liquid));
  const part = lines[index];
  if (part === undefined) return [whatIf(state, { ...intent, intoLiquid: mix.recipe })];
  if (!mix.lines[index]?.settled) return coach(mix, { type: 'where' }).messages;
  return [{ id: 'mix-in-already', other: part.form.name, name: current(mix)?.line.form.name ?? null }];
}

/** Some of what is in the jug went into a bottle that holds something else; null: it did not. */
function strayPour(state: MixState, { from, to, volumeMl }: IntentOf<'pour-between'>): Turn | null {
  const { open } = state;
  if (open === null || from?.kind !== 'jug' || to?.kind !== 'bottle') return null;
  const there = state.bottles[String(to.number)];
  const { liquid } = batchOf(open).recipe;
  if (there === undefined || there.liquid === liquid || (open.phase === 'bottling' && volumeMl === undefined))
    return null;
  const met = whatIf(state, { type: 'what-if', liquid, intoBottle: to.number, done: true });
  const fact: Fact =
    volumeMl === undefined
      ? { type: 'splashed', liquid, bottle: to.number }
      : { type: 'poured', liquid, volumeMl, from: { kind: 'jug' }, to, overridden: false };
  return turn(state, [met], [fact]);
}

/** What an intent means at the bench; null when it is none of the bench's. */
function coachEvent(intent: Intent, phase: Phase | null): CoachEvent | null {
  switch (intent.type) {
    case 'mix-next':
    case 'next-step':
    case 'close-run':
      return { type: 'next' };
    case 'skip':
      if (intent.liquid !== undefined) return null;
      return { type: 'next', ...(intent.substance !== undefined && { leaving: intent.substance }) };
    case 'ask-amount':
      return intent.substance === undefined ? { type: 'where' } : { type: 'amount', of: intent.substance };
    case 'mix-where':
    case 'ask-where':
    case 'ask-next':
      return { type: 'where' };
    case 'reading':
      if (intent.unit !== undefined || intent.substance !== undefined) return intent;
      // a bare number when the pH was asked for, or which bottle
      if (phase === 'ph') return { type: 'ph', ph: intent.value };
      if (phase === 'bottling' && Number.isInteger(intent.value))
        return { type: 'bottle', bottle: intent.value };
      return intent;
    case 'dissolved':
    case 'take-out':
      return { type: intent.type };
    case 'scale-zeroed':
      return { type: 'zeroed' };
    case 'correct':
      return intent.all && intent.unit ? { type: 'scale-was', unit: intent.unit } : partWas(intent);
    case 'ph-reading':
      return { type: 'ph', ph: intent.ph };
    case 'made-up':
      return intent.volumeMl === undefined
        ? { type: 'made-up' }
        : { type: 'made-up', volumeMl: intent.volumeMl };
    case 'bottle-holds':
      return intent.bottle === undefined ? null : { type: 'bottle', bottle: intent.bottle };
    case 'part':
      return intent.vessel?.kind === 'bottle' ? { type: 'bottle', bottle: intent.vessel.number } : null;
    case 'pour-between':
    case 'poured':
      return intent.to?.kind === 'bottle' ? { type: 'bottle', bottle: intent.to.number } : null;
    case 'mix-stop':
    case 'stop':
      return { type: 'stop' };
    case 'confirm':
      return { type: 'yes' };
    case 'cancel':
      return { type: 'no' };
    default:
      return null;
  }
}

/** "The carbonate was 18 grams" */
function partWas({ substance, massG, volumeMl, value }: IntentOf<'correct'>): CoachEvent | null {
  if (substance === undefined) return null;
  if (massG !== undefined) return { type: 'was', substance, value: massG, unit: 'g' };
  if (volumeMl !== undefined) return { type: 'was', substance, value: volumeMl, unit: 'ml' };
  return value === undefined ? null : { type: 'was', substance, value };
}

/** Files one step of the coach, with the facts that follow when a mix ends. */
function stepped(state: MixState, before: MixInHand, step: Step, bottle?: number, intent?: Intent): Turn {
  if (step.stopped === true) {
    const facts = usedFacts(step.mix);
    const { name } = batchOf(step.mix).recipe;
    return turn({ ...state, open: null }, [{ id: 'mix-stopped', name, used: facts.length }], facts);
  }
  if (step.mix.phase === 'done' && before.phase !== 'done') {
    const holds = intent?.type === 'bottle-holds' ? intent : undefined;
    const facts = [...usedFacts(step.mix), mixedFact(step.mix, bottle)];
    if (bottle !== undefined) facts.push(bottleFact(state, step.mix, bottle, holds));
    return turn({ ...state, open: null, last: step.mix, loose: bottle === undefined }, step.messages, facts);
  }
  return turn({ ...state, open: sameMix(before, step.mix) ? before : step.mix }, step.messages);
}

const sameMix = (a: MixInHand, b: MixInHand): boolean => a === b || JSON.stringify(a) === JSON.stringify(b);

/**
 * Another desk noted the bottle (said as "bottle two holds developer", or as a pour from the jug): the mix is done. One that was
 * left without a bottle is found by that, on its day.
 */
function bottledElsewhere(state: MixState, fact: Fact, { wallMs }: At): Turn {
  const isLoose = state.loose && state.last?.date === localDate(wallMs);
  const mix = state.open?.phase === 'bottling' ? state.open : isLoose ? state.last : null;
  if (mix === null) return turn(state);
  const { liquid } = batchOf(mix).recipe;
  const bottle =
    fact.type === 'bottle-set' && fact.liquid === liquid
      ? fact.bottle
      : fact.type === 'poured' &&
          fact.from.kind === 'jug' &&
          fact.to.kind === 'bottle' &&
          fact.liquid === liquid
        ? fact.to.number
        : null;
  if (bottle === null) return turn(state);
  if (mix.phase === 'done')
    return turn({ ...state, loose: false }, bottled(mix, bottle).messages, [mixedFact(mix, bottle)]);
  const done = stepped(state, mix, coach(mix, { type: 'bottle', bottle }), bottle);
  // the other desk's fact already says what the bottle holds
  return { ...done, facts: done.facts.filter((f) => f.type !== 'bottle-set') };
}

function start(
  state: MixState,
  recipe: string,
  volumeMl: number | undefined,
  at: At,
  config: MixDeskConfig,
): Turn {
  if (state.open !== null) return turn(state, [{ id: 'mix-busy', name: batchOf(state.open).recipe.name }]);
  const found = findRecipe(recipe);
  if (!found.ok) return turn(state, [{ id: 'mix-unknown', why: found.why }]);
  if (state.otherProcess) return turn(state, [noRecipe]);
  if (volumeMl === undefined) {
    return turn({ ...state, waiting: { recipe } }, [{ id: 'mix-how-much', name: found.recipe.name }]);
  }
  const date = localDate(at.wallMs);
  const number = (state.batches[date] ?? 0) + 1;
  // an overshoot may grow the batch no further than what it can be kept in
  const largest = Math.max(0, ...Object.values(state.bottles).map((b) => b.capacityMl));
  const vesselMl = config.jugMl ?? (largest > volumeMl ? largest : undefined);
  const opened = openMix({
    recipe,
    volumeMl,
    batch: `${found.recipe.short}-${date.replace(/-/g, '')}-${number}`,
    date,
    forms: chooseForms(found.recipe, volumeMl, state.shelf),
    ...(config.scaleStepG === undefined ? {} : { scaleStepG: config.scaleStepG }),
    ...(vesselMl === undefined ? {} : { jugMl: vesselMl }),
  });
  if (!opened.ok) {
    const { leastMl, why } = opened;
    if (leastMl === undefined) return turn(state, [{ id: 'mix-unknown', why }]);
    const keepDays = found.recipe.keeping.unusedDays;
    return turn({ ...state, waiting: { recipe, volumeMl: leastMl } }, [
      { id: 'mix-ask-larger', why, volumeMl: leastMl, keepDays },
    ]);
  }
  const shortOf = state.shelf.length === 0 ? [] : shortMessages(state, config, recipe, volumeMl);
  return turn({ ...state, open: opened.mix, waiting: null, batches: { ...state.batches, [date]: number } }, [
    ...opened.messages,
    ...shortOf,
  ]);
}

/** A shelf that is kept says what is short before a jar is opened; an empty one is no list of what is missing. */
function shortMessages(
  state: MixState,
  config: MixDeskConfig,
  recipe: string,
  volumeMl: number,
): MixMessage[] {
  const plan = planned(state, config, { type: 'mix-plan', recipe, volumeMl });
  return plan.id === 'mix-plan' && plan.short.length > 0 ? [{ id: 'mix-short', short: plan.short }] : [];
}

function volumeGiven(state: MixState, intent: IntentOf<'reading'>, at: At, config: MixDeskConfig): Turn {
  const recipe = state.waiting?.recipe ?? '';
  const factor = intent.unit === 'l' ? 1000 : intent.unit === 'ml' || intent.unit === undefined ? 1 : null;
  if (factor === null) return turn(state, [{ id: 'mix-bad-value', why: 'unit' }]);
  return start(state, recipe, intent.value * factor, at, config);
}

function shelfAdd(state: MixState, intent: IntentOf<'shelf-add'>): Turn {
  const named = formsNamed(intent.substance);
  // a jar of one form already there settles which form is meant
  const there = named.filter((f) => state.shelf.some((i) => i.substance === f.id));
  const forms = there.length === 1 ? there : named;
  const form = forms[0];
  if (form === undefined) return turn(state, [{ id: 'shelf-unknown', substance: intent.substance }]);
  if (forms.length > 1) {
    const names = forms.map((f) => f.name);
    return turn(state, [{ id: 'shelf-which', substance: form.family.replace(/-/g, ' '), forms: names }]);
  }
  const massG = (state.shelf.find((i) => i.substance === form.id)?.massG ?? 0) + intent.massG;
  const said = { amount: massG, unit: 'g' as const, decimals: 0 };
  const purity = intent.purityPercent === undefined ? {} : { purity: intent.purityPercent / 100 };
  return turn(
    state,
    [{ id: 'shelf-added', name: form.name, said, purityPercent: intent.purityPercent ?? null }],
    [{ type: 'shelf-set', substance: form.id, massG, ...purity }],
  );
}

/** A form or purity told: of the open mix's part, and of the jar on the shelf. */
function jarIs(state: MixState, { substance, hydrate, purityPercent }: IntentOf<'jar-is'>): Turn {
  const jar: Jar = {
    ...(substance !== undefined && { substance }),
    ...(hydrate !== undefined && { hydrate }),
    ...(purityPercent !== undefined && { purity: purityPercent / 100 }),
  };
  if (state.open !== null) {
    const step = coach(state.open, { type: 'jar', jar });
    return stepped(state, state.open, step);
  }
  const all = substance === undefined ? [] : formsNamed(substance);
  const onShelf = all.filter((f) => state.shelf.some((i) => i.substance === f.id));
  const named = onShelf.length === 1 ? onShelf : all;
  const form = named.length === 1 || hydrate !== undefined ? named[0] && formOf(named[0], jar) : undefined;
  if (form === undefined)
    return turn(state, [
      { id: 'jar-which', family: named[0]?.family ?? null, forms: named.map((f) => f.name) },
    ]);
  const there = state.shelf.find((i) => i.substance === form.id);
  if (there === undefined) return turn(state, [{ id: 'shelf-one', name: form.name, said: null }]);
  const told = purityTold(form, jar);
  const purity = told === undefined ? {} : { purity: told };
  return turn(
    state,
    [{ id: 'jar-noted', name: form.name, purityPercent: told === undefined ? null : told * 100, said: null }],
    [{ type: 'shelf-set', substance: form.id, massG: there.massG, ...purity }],
  );
}

function label(state: MixState): Turn {
  const mix = state.open ?? state.last;
  return turn(state, [mix === null ? { id: 'mix-none' } : { id: 'mix-label', text: labelText(mix) }]);
}
