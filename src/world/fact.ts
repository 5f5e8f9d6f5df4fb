import type { LiquidId, VesselRef } from './vessel.js';

/**
 * What really happened, as the ledger and the review keep it. Facts follow from journaled events by replay;
 * they are never the source. An undone deed gives an `undone` fact naming the facts it takes back.
 */
export type Fact =
  | { type: 'run-started'; runId: string; sheetId: string; tankMl: number; films: FilmRef[] }
  | { type: 'film-loaded'; runId: string }
  | { type: 'step-started'; runId: string; stepId: string; liquid?: LiquidId; tempC?: number }
  | {
      type: 'step-ended';
      runId: string;
      stepId: string;
      plannedS: number;
      actualS: number;
      tempC?: number;
      /** time the clock was held, s */
      heldS: number;
    }
  | {
      type: 'poured';
      runId?: string;
      from: VesselRef;
      to: VesselRef;
      liquid: LiquidId;
      volumeMl: number;
      overridden: boolean;
    }
  | {
      type: 'bottle-set';
      bottle: number;
      liquid: LiquidId | null;
      volumeMl: number;
      capacityMl: number;
      batch?: string;
    }
  | { type: 'spilled'; runId?: string; from?: VesselRef; liquid: LiquidId; volumeMl: number; place?: string }
  | { type: 'temperature'; runId?: string; vessel: VesselRef; liquid?: LiquidId; tempC: number }
  | { type: 'overridden'; runId?: string; move: string; verdict: string; why: string }
  | { type: 'deviation'; runId: string; stepId: string; what: string }
  | { type: 'note'; runId?: string; text: string }
  | { type: 'undone'; runId?: string; what: string; facts: Fact[] }
  | { type: 'bottle-discarded'; bottle: number; liquid: LiquidId; volumeMl: number }
  | { type: 'bottle-named'; bottle: number; name: string }
  /** dry chemicals: stock set by the user, or used by a mix; `substance` is a chemistry id */
  | { type: 'shelf-set'; substance: string; massG: number; purity?: number; pricePerKg?: number }
  | { type: 'shelf-used'; substance: string; massG: number; batch: string }
  | {
      type: 'mixed';
      batch: string;
      recipe: string;
      liquid: LiquidId;
      volumeMl: number;
      bottle?: number;
      ph?: number;
      /** what the weighings and readings at mixing showed: `why`, worst first, says what is wrong with the batch */
      checks?: { ok: boolean; why: string[] };
    }
  | { type: 'run-finished'; runId: string; complete: boolean };

export type FilmFormat = 'super-8' | '16mm' | '35mm' | '120' | '4x5' | '8x10';

/** One film in the tank. `lengthM` metres; for sheets and 120 the count matters. */
export interface FilmRef {
  stock: string;
  format: FilmFormat;
  lengthM?: number;
  count?: number;
  ratedIso?: number;
  usedIso?: number;
  notes?: string;
}
