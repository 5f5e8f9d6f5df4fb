/** The chemistry room's front door. */
export { atomicWeights, atomsOf, formulaWeight } from './atoms.js';
export {
  type Batch,
  type BatchLine,
  type BatchOptions,
  bathOf,
  type FormChoice,
  keepUntil,
  planBatch,
  refusalOf,
  type Stock,
} from './batch.js';
export { type CoachEvent, coach, openMix } from './coach/coach.js';
export type { MixMessage, Said } from './coach/messages.js';
export { batchOf, type MixInHand } from './coach/state.js';
export {
  type Finding,
  type Tolerance,
  toleranceOf,
  type Verdict,
  type WhatIf,
  whatIf,
  whatIfPoured,
} from './contamination.js';
export { errorEffect, explainPh } from './effects.js';
export {
  type Addition,
  type ChangedTime,
  type Fitness,
  type FitnessAsk,
  type FitnessVerdict,
  fitness,
} from './fitness.js';
export { type Gas, gasesOf } from './gas.js';
export { type BathLimits, limitsOf } from './limits.js';
export { freshBath, type KnownPart, knownPart, type Part, recipeNamed } from './mixture.js';
export { pushOf } from './push.js';
export { parseMassG, parseVolumeMl, volumeRange } from './quantities.js';
export { filmUnits, volumeNeeded } from './recipes/film.js';
export {
  findRecipe,
  type Recipe,
  recipeForLiquid,
  recipes,
} from './recipes/index.js';
export {
  cautionsFor,
  cautionsForSubstance,
  spillCautions,
} from './safety/cautions.js';
export { disposalOf } from './safety/disposal.js';
export type { Exposure } from './safety/first-aid.js';
export { deference, emergency } from './safety/hazards.js';
export {
  type IncompatiblePair,
  incompatiblePairs,
  pairsBetween,
} from './safety/incompatible.js';
export { type DayList, dayList } from './shelf/buying.js';
export {
  afterSet,
  afterUse,
  amountOf,
  chooseForms,
  type MixPlan,
  massOf,
  planMix,
  type ShelfItem,
} from './shelf/plan.js';
export {
  type Bath,
  equilibriumOf,
  portion,
  pourTogether,
} from './solution/bath.js';
export { silverLeft } from './solution/reactions.js';
export { solveEquilibrium } from './solution/solver.js';
export {
  findSubstance,
  formsOf,
  type Substance,
  substanceById,
  substances,
  substitute,
} from './substances.js';
