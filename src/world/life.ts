import type { ChangedTime } from '../chemistry/fitness.js';
import { type Recipe, recipes } from '../chemistry/recipes/index.js';
import {
  type ContaminationEffect,
  contaminationIn,
  formulasHold,
  isFormulated,
  ofRecipes,
  type SheetBaths,
} from './contamination.js';
import type { FilmRef } from './fact.js';
import { filmAreaM2, HUNDRED_FEET_35MM_M2 } from './film-area.js';
import {
  BAND_LOW,
  type Band,
  filmSilver,
  fixerSilverLimitGPerL,
  molar,
  rateOf,
  timeCompensation,
  USUAL_FILM,
} from './life-data.js';
import type { Liquid } from './liquids.js';
import type { BottleRecord } from './records.js';

const DAY_MS = 86_400_000;

export type LifeLimit = 'age' | 'film' | 'silver' | 'spoiled' | 'faulty' | 'unknown' | 'empty';

/** What a bottle can still do. */
export interface BottleLife {
  bottle: number;
  /** film area it can still take, m² */
  areaLeftM2: Band;
  /** the same in films of the kind asked about, whole films; `usual` is the number to act on */
  filmsLeft: Band & { film: FilmRef };
  /** film area its liquid has processed, m² */
  areaDoneM2: number;
  /** what ends its life first */
  limit: LifeLimit;
  /** what a wrong pour did to it, when there was one */
  spoilt: ContaminationEffect | null;
  ageDays: number | null;
  /** since it was mixed, and not since it was first heard of, which tells only how old it is at least */
  ageSure: boolean;
  /** days until it should be thrown away by age; negative: past it; null: nobody knows */
  keepDaysLeft: number | null;
  /** in a fixer, where all silver of the film ends after a bleach; else null */
  silverGPerL: Band | null;
}

/** A bath's recipe, as it was said; else that of its kind, for a process that the recipes are for. */
export const recipeOf = (
  bottle: Pick<BottleRecord, 'recipe' | 'liquid'>,
  baths: SheetBaths = ofRecipes,
): Recipe | undefined =>
  recipes.find((recipe) => recipe.id === bottle.recipe) ??
  (formulasHold(baths) ? recipes.find((recipe) => recipe.liquid === bottle.liquid) : undefined);

/** How much longer a step lasts with what is in this bottle: by what got into it, else by its own recipe; null: as usual. */
export function changedTime(bottle: BottleRecord, baths: SheetBaths = ofRecipes): ChangedTime | null {
  const recipe = recipeOf(bottle, baths);
  return (recipe && (contaminationIn(bottle, baths)?.time ?? recipe.time)) ?? null;
}

/**
 * Published and customary capacity of a fresh litre, m² of film: by its recipe, else as its sheet has it. Null: nothing is
 * known of such a bath.
 */
export function capacityM2PerL(recipe: Recipe | undefined, ofSheet?: Liquid['capacity']): Band | null {
  const capacity = recipe?.capacity ?? ofSheet;
  if (capacity === undefined) return null;
  const usual = capacity.filmsPerLitre * filmAreaM2(USUAL_FILM);
  const rate = recipe && rateOf(recipe.liquid);
  const published = rate === undefined ? usual : (HUNDRED_FEET_35MM_M2 / rate.per100ftMl) * 1000;
  return { low: usual * BAND_LOW, usual, high: Math.max(usual, published) };
}

/** How much film a bottle can still take. `film` is the kind to count in; the wall clock decides its age. */
export function bottleLife(
  bottle: BottleRecord,
  wallMs: number,
  baths: SheetBaths = ofRecipes,
  film: FilmRef = USUAL_FILM,
): BottleLife {
  const recipe = recipeOf(bottle, baths);
  // what was poured in by mistake or carried over does no work
  const own = bottle.liquid === null ? 0 : (bottle.contents.parts[bottle.liquid] ?? 0);
  const litres = own / 1000;
  const done = bottle.contents.workM2;
  const capacity = capacityM2PerL(recipe, baths.liquids?.find((l) => l.id === bottle.liquid)?.capacity);
  const leftM2 = band((k) => (capacity === null ? 0 : Math.max(0, capacity[k] * litres - done)));
  const { ageDays, ageSure, keepDaysLeft } = keeping(bottle, recipe, wallMs);
  const areaM2 = filmAreaM2(film);
  const films = (area: number): number => Math.floor(area / areaM2 + 1e-9);
  const spoilt = contaminationIn(bottle, baths);
  const silverGPerL =
    recipe?.working === 'thiosulfate' ? band((k) => perLitreWork(bottle) * filmSilver.coatedGPerM2[k]) : null;
  const limits: readonly (readonly [LifeLimit, boolean])[] = [
    ['empty', litres <= 0],
    ['faulty', bottle.problems.length > 0],
    ['spoiled', spoilt?.verdict === 'discard'],
    ['age', keepDaysLeft !== null && keepDaysLeft < 0],
    ['silver', silverGPerL !== null && silverGPerL.usual > fixerSilverLimitGPerL.usual],
    ['unknown', capacity === null],
  ];
  const limit = limits.find(([, reached]) => reached)?.[0] ?? 'film';
  const spent = limit === 'silver' || limit === 'spoiled' || limit === 'faulty';
  const areaLeftM2 = spent ? { ...leftM2, low: 0, usual: 0 } : leftM2;
  return {
    bottle: bottle.number,
    areaLeftM2,
    filmsLeft: { ...band((k) => films(areaLeftM2[k])), film },
    areaDoneM2: done,
    limit,
    spoilt,
    ageDays,
    ageSure,
    keepDaysLeft,
    silverGPerL,
  };
}

/** How old it is, where somebody knows, days. */
export const ageKnown = ({ ageDays, ageSure }: Pick<BottleLife, 'ageDays' | 'ageSure'>): number | null =>
  ageSure ? ageDays : null;

/** Age from mixing where that is known, else from filling, which only shows what is past its keeping. Used baths keep for less long than unused ones. */
function keeping(
  bottle: BottleRecord,
  recipe: Recipe | undefined,
  wallMs: number,
): Pick<BottleLife, 'ageDays' | 'ageSure' | 'keepDaysLeft'> {
  const ageSure = bottle.mixedWallMs !== null;
  const since = bottle.mixedWallMs ?? bottle.filledWallMs;
  if (since === null) return { ageDays: null, ageSure, keepDaysLeft: null };
  const ageDays = Math.max(0, (wallMs - since) / DAY_MS);
  if (recipe === undefined) return { ageDays, ageSure, keepDaysLeft: null };
  const keepsDays = bottle.contents.workM2 > 0 ? recipe.keeping.usedDays : recipe.keeping.unusedDays;
  const left = keepsDays - ageDays;
  return { ageDays, ageSure, keepDaysLeft: ageSure || left < 0 ? left : null };
}

const perLitreWork = (bottle: BottleRecord): number =>
  bottle.contents.volumeMl <= 0 ? 0 : bottle.contents.workM2 / (bottle.contents.volumeMl / 1000);

const band = (f: (k: keyof Band) => number): Band => ({ low: f('low'), usual: f('usual'), high: f('high') });

/** Developed silver, g per m² of film. */
const imageSilver = (k: keyof Band): number => filmSilver.coatedGPerM2[k] * filmSilver.developedShare[k];

export type Enough = 'yes' | 'tight' | 'no';

/** "Can I run `films` more?" Yes within the low edge; tight up to the usual figure or after a doubtful pour; no beyond. */
export function enoughFor(life: BottleLife, films: number): Enough {
  const over: readonly LifeLimit[] = ['age', 'spoiled', 'faulty', 'silver', 'empty', 'unknown'];
  if (over.includes(life.limit) || films > life.filmsLeft.usual) return 'no';
  const doubtful = life.spoilt !== null && life.spoilt.verdict !== 'use';
  return doubtful || films > life.filmsLeft.low ? 'tight' : 'yes';
}

export interface ReplenishAdvice {
  bottle: number;
  /** replenisher still owed for the film that went through, ml */
  addMl: number;
  /** take out first, so that it fits, ml */
  removeMl: number;
  regenerate: Regeneration | null;
}

/**
 * Back from ferro- to ferricyanide: 2 Fe(II) + S2O8²⁻ → 2 Fe(III) + 2 SO4²⁻, and the bromide the silver took.
 * source: stoichiometry; persulphate regeneration of ferricyanide bleach from memory of Kodak Publication H-24.06, Chemical
 * Recovery Procedures
 */
export interface Regeneration {
  potassiumPersulphateG: number;
  sodiumBromideG: number;
}

/** Replenisher owed by published rates, scaled by film area. Null when no rate is known for the bath. */
export function replenishAdvice(bottle: BottleRecord, baths: SheetBaths = ofRecipes): ReplenishAdvice | null {
  const rate = bottle.liquid !== null && isFormulated(bottle, baths) ? rateOf(bottle.liquid) : undefined;
  if (rate === undefined) return null;
  const owedMl = (bottle.filmAreaM2 / HUNDRED_FEET_35MM_M2) * rate.per100ftMl - bottle.replenishedMl;
  const addMl = Math.max(0, Math.round(owedMl));
  const room = bottle.capacityMl === null ? addMl : Math.max(0, bottle.capacityMl - bottle.contents.volumeMl);
  return {
    bottle: bottle.number,
    addMl,
    removeMl: Math.max(0, Math.ceil(addMl - room)),
    regenerate: regeneration(bottle, baths),
  };
}

/** Of what stoichiometry asks: what is left over would free bromine from the bromide. source: common practice */
const shortOfWhole = 0.85;

function regeneration(bottle: BottleRecord, baths: SheetBaths): Regeneration | null {
  if (recipeOf(bottle, baths)?.working !== 'ferricyanide' || bottle.contents.workM2 <= 0) return null;
  const silverMol = (bottle.contents.workM2 * imageSilver('usual')) / molar.silver;
  return {
    potassiumPersulphateG: shortOfWhole * (silverMol / 2) * molar.potassiumPersulphate,
    sodiumBromideG: silverMol * molar.sodiumBromide,
  };
}

export const compensationFor = (bottle: BottleRecord, baths: SheetBaths = ofRecipes): string | null =>
  (formulasHold(baths) ? timeCompensation[bottle.liquid ?? ''] : undefined) ?? null;
