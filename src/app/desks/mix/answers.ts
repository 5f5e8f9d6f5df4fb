import type { MixMessage, Said } from '../../../chemistry/coach/messages.js';
import { batchOf, decimalsOf } from '../../../chemistry/coach/state.js';
import { whatIf as pouredInto, toleranceOf } from '../../../chemistry/contamination.js';
import { dangersBetween } from '../../../chemistry/fitness.js';
import { bathOfKind, classesOfBath, freshBath, knownPart, recipeNamed } from '../../../chemistry/mixture.js';
import { findRecipe, recipes } from '../../../chemistry/recipes/index.js';
import {
  cautionsForSubstance,
  type Harm,
  harmsOf,
  spokenCautionsFor,
  spokenCautionsOfBath,
} from '../../../chemistry/safety/cautions.js';
import { deference } from '../../../chemistry/safety/hazards.js';
import { comesAsGas, enemiesOf, pairsFor } from '../../../chemistry/safety/incompatible.js';
import { dayList, usualBathMl, usualRecipes } from '../../../chemistry/shelf/buying.js';
import { amountOf, massOf, planMix } from '../../../chemistry/shelf/plan.js';
import { formsNamed, type Substance, substanceById, substitute } from '../../../chemistry/substances.js';
import { intoBottleOf } from '../../../process/guard-table.js';
import type { IntentOf } from '../../../process/intent.js';
import { liquidOf } from '../../../process/sheet.js';
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

/** Where the sheet at work is of another process than the recipes. */
export const noRecipe: MixMessage = {
  id: 'mix-unknown',
  why: "I have no recipe for the baths of this process. Buy a kit for it: the maker's sheet decides what to mix.",
};

/** "What do I need for …": the amounts, what is short, and the cost per film. */
export function planned(state: MixState, config: MixDeskConfig, intent: IntentOf<'mix-plan'>): MixMessage {
  const found = findRecipe(intent.recipe);
  if (!found.ok) return { id: 'mix-unknown', why: found.why };
  if (state.otherProcess) return noRecipe;
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
  const unformulated = [poured, into].filter((of) => state.otherProcess && liquidIds.has(of));
  if (intent.untilSpoiled === true)
    return state.otherProcess
      ? mayMeet(poured, into, unformulated)
      : untilSpoiled(poured, into, intent.intoVolumeMl, holding);
  if (intent.done) return { ...mayMeet(poured, into, unformulated), done: true };
  if (unformulated.length > 0 || (intent.massG === undefined && intent.volumeMl === undefined))
    return mayMeet(poured, into, unformulated);
  const intoMl = intent.intoVolumeMl ?? holding?.volumeMl;
  if (intoMl === undefined) {
    const met = mayMeet(poured, into, unformulated);
    const harmless = met.dangers.length + met.unknown.length + met.ifHousehold.length === 0;
    return harmless ? { id: 'what-if-ask', why: 'volume' } : met;
  }
  const amount = intent.massG === undefined ? { volumeMl: intent.volumeMl ?? 0 } : { massG: intent.massG };
  const answer = pouredInto({ of: poured, ...amount }, { of: into, volumeMl: intoMl }, holding?.problems);
  if (!answer.ok) return { id: 'mix-unknown', why: answer.why };
  const recorded = intent.intoVolumeMl === undefined ? { recordedMl: intoMl } : {};
  return {
    id: 'what-if',
    answer: answer.value,
    ...recorded,
    ifHousehold: ifHousehold(poured, into),
  };
}

/** With what is in the bottle by the record; without a bottle or a volume, for a fresh litre. */
function untilSpoiled(
  poured: string,
  into: string,
  toldMl: number | undefined,
  holding: BottleSeen | undefined,
): MixMessage {
  const recipe = recipeNamed(into);
  if (recipe === undefined) return { id: 'what-if-ask', why: 'into' };
  const volumeMl = toldMl ?? holding?.volumeMl ?? 1000;
  const there = toldMl === undefined ? Object.entries(holding?.parts ?? {}) : [];
  const others = there.filter(([of]) => of !== holding?.liquid).map(([of, ml]) => ({ of, volumeMl: ml }));
  const already = others.reduce((ml, part) => ml + part.volumeMl, 0);
  return {
    id: 'until-spoiled',
    poured: knownPart({ of: poured }).name,
    into: recipe.name,
    volumeMl,
    told: toldMl !== undefined || holding !== undefined,
    already,
    most: toleranceOf(poured, [{ of: into, volumeMl: volumeMl - already }, ...others], holding?.problems),
  };
}

const liquidIds: ReadonlySet<string> = new Set(recipes.map((r) => r.liquid));

/** Two things with no amounts said: what they do to each other in any. */
function mayMeet(a: string, b: string, otherProcess: readonly string[]): MayMeet {
  const parts = [a, b].map((of) =>
    otherProcess.includes(of) ? bathOfKind(of, 100) : knownPart({ of, volumeMl: 100, massG: 20 }),
  );
  const dangers = dangersBetween(...parts);
  return {
    id: 'may-meet',
    names: parts.map((p) => p.name),
    dangers: dangers.map((d) => d.spoken),
    unknown: parts.filter((p) => p.kind === 'unknown' && !liquidIds.has(p.name)).map((p) => p.name),
    never: dangers.some((d) => d.danger === 'deadly gas') || parts.some((p) => p.kind !== 'bath'),
    ifHousehold: ifHousehold(a, b),
    otherProcess: [...new Set(otherProcess)],
    gas: dangers.some(comesAsGas),
    spoils: spoils(a, b),
  };
}
/** What the guard's table has of one bath in the bottle of another. */
function spoils(a: string, b: string): string | null {
  const of = (id: string) => liquidOf({}, recipeNamed(id)?.liquid ?? id);
  const [poured, held] = [of(a), of(b)];
  return poured && held ? intoBottleOf(poured, held)[1] : null;
}
type MayMeet = Extract<MixMessage, { id: 'may-meet' }>;

/** "Bleach" beside a thing of the household may be the one from the laundry: what that would do is said too. */
function ifHousehold(a: string, b: string): string[] {
  const [bleach, other] = a === 'bleach' ? [a, b] : [b, a];
  if (bleach !== 'bleach' || recipeNamed(other) !== undefined) return [];
  return dangersBetween('chlorine-bleach', other).map((d) => d.spoken);
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

/** What a bath must not meet, and only what frees a gas with it where anything does. */
function inShort(bath: Pick<Substance, 'classes'>, harms: Harm[]) {
  const enemies = enemiesOf(bath);
  const gases = enemies.filter(comesAsGas);
  const worst = gases.length > 0 ? gases : enemies;
  return { keepFrom: worst.map((e) => e.of), gas: gases.length > 0, harms };
}

/** Cautions for a substance, a liquid, or what is in hand. */
export function cautionsAsked(state: MixState, about: string | undefined): MixMessage {
  if (about !== undefined) {
    const named = recipeNamed(holderOf(state, about)?.recipe ?? about);
    if (state.otherProcess && liquidIds.has(about)) {
      const bath = { classes: [...bathOfKind(about, 0).classes] };
      const pairs = pairsFor(bath).map((p) => p.spoken);
      return {
        id: 'mix-cautions',
        about: about.replace(/-/g, ' '),
        cautions: ['Gloves and goggles on. I keep no formula of it.', ...pairs, deference],
        bath: inShort(bath, []),
      };
    }
    if (named !== undefined)
      return {
        id: 'mix-cautions',
        about: named.name,
        cautions: spokenCautionsOfBath(named),
        bath: inShort(
          { classes: [...classesOfBath(named, freshBath(named, 1000))] },
          harmsOf(named).map((h) => h.of),
        ),
      };
    const form = formsNamed(about)[0];
    if (form !== undefined) {
      const note = form.note === undefined ? [] : [form.note];
      return {
        id: 'mix-cautions',
        about: form.name,
        cautions: [...cautionsForSubstance(form, state.otherProcess ? 'ferricyanide' : undefined), ...note],
      };
    }
    return { id: 'shelf-unknown', substance: about };
  }
  if (state.open === null) return { id: 'mix-none' };
  const batch = batchOf(state.open);
  const forms = batch.lines.map((l) => l.form);
  return { id: 'mix-cautions', about: batch.recipe.name, cautions: spokenCautionsFor(batch.recipe, forms) };
}

/** What to buy for a day of films, in whole packages, less what the shelf has. */
export function shopping(state: MixState, films: number | undefined): MixMessage {
  if (state.otherProcess) return noRecipe;
  const tankMl = state.tankMl ?? usualBathMl;
  const day = dayList(films ?? 1, tankMl, state.shelf);
  return day.ok ? { id: 'shopping', list: day.list, tankMl } : { id: 'mix-unknown', why: day.why };
}

/** How long a bath keeps by its recipe; all of them when none was named. */
export function keeping(state: MixState, liquid: string | undefined): MixMessage {
  const recipe = liquid === undefined ? undefined : recipeNamed(holderOf(state, liquid)?.recipe ?? liquid);
  if (liquid !== undefined && (recipe === undefined || state.otherProcess))
    return {
      id: 'mix-unknown',
      why: `I keep no keeping time for ${liquid.replace(/-/g, ' ')} here; the maker's sheet has it.`,
    };
  const baths = (recipe === undefined ? usualRecipes() : [recipe]).map(({ name, keeping: k }) => ({
    name,
    unusedDays: k.unusedDays,
    usedDays: k.usedDays,
  }));
  return { id: 'keeping', baths };
}

/** The pH and specific gravity that a bath's recipe gives, and whether they prove much. */
export function checks(state: MixState, liquid: string | undefined): MixMessage {
  if (liquid === undefined) return { id: 'mix-unknown', why: 'I do not know which bath is meant.' };
  const recipe = state.otherProcess ? undefined : recipeNamed(holderOf(state, liquid)?.recipe ?? liquid);
  if (recipe === undefined)
    return { id: 'mix-unknown', why: `I keep no figures for ${liquid.replace(/-/g, ' ')} here.` };
  const { name, ph, specificGravity } = recipe;
  return { id: 'checks', name, ph, gravity: specificGravity ?? null };
}
