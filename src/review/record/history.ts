import type { RateId } from '../../thermal/rate-data.js';
import type { FilmFormat } from '../../world/fact.js';
import type { Role } from '../../world/liquids.js';
import type { LiquidId } from '../../world/vessel.js';

/**
 * One run as the review reads it: what was aimed at beside what happened. Null is "not known", never "as it should
 * be". An adapter makes it from the present records (`from-run-record.ts`); nothing else here knows those.
 */
export interface RunHistory {
  runId: string;
  sheetName: string;
  /** how its development follows temperature; null: the sheet does not say */
  rate: RateId | null;
  startedWallMs: number;
  endedWallMs: number | null;
  /** null while it goes on */
  complete: boolean | null;
  /** the step it was closed before, with the film still in the tank */
  closedBefore?: string;
  tankMl: number;
  films: FilmHistory[];
  /** in the order of the sheet; a step that was passed over is here with `done: false` */
  steps: StepHistory[];
  baths: BathHistory[];
  /** spills, overrides, refusals, notes and what was taken back, as said */
  slips: Slip[];
}

export interface FilmHistory {
  stock: string;
  format: FilmFormat;
  count: number;
  /** stops of push (+) or pull (-); null: not said */
  pushStops: number | null;
  /** stops the film was rated above (+) its box speed; a film rated higher gets less light */
  ratedAboveStops: number | null;
  /** light the film is balanced for, from its name */
  balance: 'daylight' | 'tungsten' | null;
  /** light it was exposed in, when it was noted */
  exposedIn: 'daylight' | 'tungsten' | null;
  /** years past its date; 0 within it */
  yearsExpired: number | null;
  /** kept warm, by its notes */
  keptWarm: boolean | null;
}

export interface Range {
  aim: number;
  low: number;
  high: number;
}

export interface StepHistory {
  id: string;
  name: string;
  liquid: LiquidId | null;
  role: Role | null;
  done: boolean;
  /** from the start of the run, s */
  startedAtS: number | null;
  /** time in contact, from full to empty, s; includes draining */
  contactS: number | null;
  /** when the sheet's call to drain it comes, s; what is drained at its call is not short. Left out: not known */
  calledS?: number | null;
  /** time aimed at, s; null where the sheet sets none */
  timeS: Range | null;
  /** pouring in before the clock started, s; the film is wetted on average half of it */
  fillS: number | null;
  tempC: Range | null;
  /** temperatures in contact, `atS` from the start of the step */
  temps: { atS: number; tempC: number }[];
  /**
   * Regular agitations that the sheet asks for in that time, and how many were left out: not called, because the
   * assistant was off, or said to be forgotten. Whether a call was followed is not known otherwise.
   */
  agitation: { calls: number; missed: number | null } | null;
  /** time the clock was held, s */
  heldS: number;
  /** its place among the steps done does not follow the sheet */
  outOfOrder: boolean;
}

export interface BathHistory {
  liquid: LiquidId;
  role: Role;
  bottle: number | null;
  batch: string | null;
  ageDays: number | null;
  /** days the bath keeps in use */
  keepsDays: number | null;
  /** film through it before this run over what it is good for; 1 is at its limit */
  loadShare: number | null;
  ph: number | null;
  phAim: number | null;
  /** the working substance's concentration over the recipe's, after weighing and contamination; 1 is right */
  strength: number | null;
  /** ml of other liquids in it, over its volume */
  foreign: { liquid: LiquidId; share: number }[];
  /** what the batch record has against the recipe, in its own words */
  mixing: { substance: string; ratio: number; phShift: number | null }[];
}

export interface Slip {
  what: string;
  kind: 'spill' | 'override' | 'deviation' | 'note' | 'undone';
  /** from the start of the run, s */
  atS: number;
}

export const stepOf = (history: RunHistory, role: Role): StepHistory | undefined =>
  history.steps.find((s) => s.role === role);

export const bathOf = (history: RunHistory, role: Role): BathHistory | undefined =>
  history.baths.find((b) => b.role === role);
