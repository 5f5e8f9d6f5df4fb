import type { MixMessage, Said } from '../../../chemistry/coach/messages.js';
import { batchOf, decimalsOf } from '../../../chemistry/coach/state.js';
import { whatIf as pouredInto } from '../../../chemistry/contamination.js';
import { dangersIn } from '../../../chemistry/fitness.js';
import { knownPart, together } from '../../../chemistry/mixture.js';
import { findRecipe, recipeForLiquid } from '../../../chemistry/recipes/index.js';
import { cautionsForSubstance, spokenCautionsFor } from '../../../chemistry/safety/cautions.js';
import { amountOf, massOf, planMix } from '../../../chemistry/shelf/plan.js';
import { formsNamed, type Substance, substanceById, substitute } from '../../../chemistry/substances.js';
import type { IntentOf } from '../../../process/intent.js';
import type { BottleSeen, MixDeskConfig, MixState } from './bench.js';

const saidOf = (config: MixDeskConfig, amount: number, unit: 'g' | 'ml'): Said => ({
  amount,
  unit,
  decimals: unit === 'g' ? decimalsOf(config.scaleStepG ?? 0.01) : 1,
});

/** Stock is said without false precision: whole grams above ten. */
const stockSaid = (s: Substance, massG: number): Said => ({
  amount: amountOf(s, massG),
  unit: s.measure,
  decimals: massG < 10 ? 1 : 0,
});

/** "What do I need for …": the amounts, what is short, and the cost per film. */
export function planned(state: MixState, config: MixDeskConfig, intent: IntentOf<'mix-plan'>): MixMessage {
  const found = findRecipe(intent.recipe);
  if (!found.ok) return { id: 'mix-unknown', why: found.why };
  const volumeMl = intent.volumeMl ?? 1000;
  const result = planMix(found.recipe, volumeMl, state.shelf, config.scaleStepG);
  if (!result.ok) return { id: 'mix-unknown', why: result.why };
  const { batch, short, costPerFilm, unpriced, filmsServed } = result.plan;
  return {
    id: 'mix-plan',
    name: found.recipe.name,
    volumeMl,
    parts: batch.lines.map((l) => ({ name: l.form.name, said: saidOf(config, l.amount, l.unit) })),
    short: short.map((s) => ({
      name: s.name,
      missing: saidOf(config, s.need - s.have, s.unit),
      optional: s.optional,
    })),
    costPerFilm,
    unpriced: unpriced.length,
    films: filmsServed,
    shelfKept: state.shelf.length > 0,
  };
}

/**
 * Both by id, volumes as said or as the bottles are known to hold. A liquid that stands in a bottle by the record is what
 * that bottle's batch was mixed from; a household thing is looked up by its own name.
 */
export function whatIf(state: MixState, intent: IntentOf<'what-if'>): MixMessage {
  const bottle = intent.intoBottle === undefined ? undefined : state.bottles[String(intent.intoBottle)];
  const intoLiquid = intent.intoLiquid ?? bottle?.liquid;
  if (intoLiquid === undefined) return { id: 'what-if-ask', why: 'into' };
  const holding = bottle ?? holderOf(state, intoLiquid);
  const into = holding?.recipe ?? intoLiquid;
  const poured = holderOf(state, intent.liquid)?.recipe ?? intent.liquid;
  if (intent.massG === undefined && intent.volumeMl === undefined) return mayMeet(poured, into);
  const intoMl = intent.intoVolumeMl ?? holding?.volumeMl;
  if (intoMl === undefined) return { id: 'what-if-ask', why: 'volume' };
  const amount = intent.massG === undefined ? { volumeMl: intent.volumeMl ?? 0 } : { massG: intent.massG };
  const answer = pouredInto({ of: poured, ...amount }, { of: into, volumeMl: intoMl }, holding?.problems);
  if (!answer.ok) return { id: 'mix-unknown', why: answer.why };
  const recorded = intent.intoVolumeMl === undefined ? { recordedMl: intoMl } : {};
  return { id: 'what-if', answer: answer.value, ...recorded };
}

/** Two things with no amounts said: what they do to each other in any. */
function mayMeet(a: string, b: string): MixMessage {
  const parts = [a, b].map((of) => knownPart({ of, volumeMl: 100, massG: 20 }));
  const dangers = dangersIn(parts, together(parts));
  const unknown = parts.filter((p) => p.kind === 'unknown').map((p) => p.name);
  return { id: 'may-meet', names: parts.map((p) => p.name), dangers: dangers.map((d) => d.spoken), unknown };
}

const holderOf = (state: MixState, liquid: string): BottleSeen | undefined =>
  Object.values(state.bottles).find((b) => b.liquid === liquid);

/** "How much borax do I have", or all of the shelf. */
export function shelfHave(state: MixState, intent: IntentOf<'shelf-have'>): MixMessage[] {
  if (intent.substance === undefined) {
    const items = state.shelf.flatMap((i) => {
      const s = substanceById(i.substance);
      return s === undefined || i.massG <= 0 ? [] : [{ name: s.name, said: stockSaid(s, i.massG) }];
    });
    return [{ id: 'shelf-all', items }];
  }
  const forms = formsNamed(intent.substance);
  if (forms.length === 0) return [{ id: 'shelf-unknown', substance: intent.substance }];
  const there = forms.filter((f) => state.shelf.some((i) => i.substance === f.id && i.massG > 0));
  if (there.length === 0)
    return [{ id: 'shelf-one', name: forms[0]?.family.replace(/-/g, ' ') ?? '', said: null }];
  return there.map((f) => {
    const massG = state.shelf.find((i) => i.substance === f.id)?.massG ?? 0;
    const enoughMl = enoughFor(state, f, massG);
    return {
      id: 'shelf-one',
      name: f.name,
      said: stockSaid(f, massG),
      ...(enoughMl === null ? {} : { enoughMl }),
    };
  });
}

/** How much of the open mix's bath this stock would make; null when it is no part of it. */
function enoughFor(state: MixState, form: Substance, massG: number): number | null {
  if (state.open === null) return null;
  const { recipe } = batchOf(state.open);
  for (const c of recipe.components) {
    const named = substanceById(c.substance);
    if (named === undefined || named.family !== form.family) continue;
    const perLitre = substitute(named, c.perLitre, form);
    if (perLitre.ok && perLitre.amount > 0) return (massG / massOf(form, perLitre.amount)) * 1000;
  }
  return null;
}

/** Cautions for a substance, a liquid, or what is in hand. */
export function cautionsAsked(state: MixState, about: string | undefined): MixMessage {
  if (about !== undefined) {
    const recipe = recipeForLiquid(about);
    if (recipe !== undefined)
      return { id: 'mix-cautions', about: recipe.name, cautions: spokenCautionsFor(recipe) };
    const form = formsNamed(about)[0];
    if (form !== undefined) {
      const note = form.note === undefined ? [] : [form.note];
      return { id: 'mix-cautions', about: form.name, cautions: [...cautionsForSubstance(form), ...note] };
    }
    return { id: 'shelf-unknown', substance: about };
  }
  if (state.open === null) return { id: 'mix-none' };
  const batch = batchOf(state.open);
  const forms = batch.lines.map((l) => l.form);
  return { id: 'mix-cautions', about: batch.recipe.name, cautions: spokenCautionsFor(batch.recipe, forms) };
}
