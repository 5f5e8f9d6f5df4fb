import type { Strip } from '../chemistry/control-strip.js';
import type { FilmKind } from './film.js';
import type { FORMATS } from './film-area.js';
import type { Role } from './liquids.js';
import type { BottleDoubt } from './records.js';
import type { LiquidId, VesselRef } from './vessel.js';

/**
 * What really happened, as the ledger and the review keep it. Facts follow from journaled events by replay;
 * they are never the source. An undone deed gives an `undone` fact naming the facts it takes back.
 */
export type Fact =
  | {
      type: 'run-started';
      runId: string;
      sheetId: string;
      tankMl: number;
      films: FilmRef[];
      /** the process sheet itself, as it was when the run began: a later start goes on with this one */
      sheet?: Readonly<Record<string, unknown>>;
    }
  | { type: 'film-loaded'; runId?: string; kind?: FilmKind }
  /** it was said to be in the tank, and is not */
  | { type: 'film-out'; runId?: string }
  /** what is being processed; takes the place of what was told before */
  | { type: 'films-told'; runId?: string; films: FilmRef[] }
  /** `lacking`: baths of the sheet that the film never had */
  | { type: 'film-hung'; runId?: string; lacking?: LiquidId[] }
  | { type: 'step-skipped'; runId: string; stepId: string }
  /** the black backing still comes off */
  | { type: 'backing-seen'; runId?: string }
  /** rinsed by filling and emptying, without a word for each */
  | { type: 'rinsed'; runId?: string; fills: number; seconds: number }
  /** a bath that the film had before anything was said */
  | { type: 'film-had'; runId?: string; liquid: LiquidId; role: Role; seconds: number; stepId?: string }
  | { type: 'tank-told'; volumeMl: number }
  /** another tank is at work from here on; the one before keeps what is in it */
  | { type: 'tank-chosen'; tank: string }
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
      /** what it does to film, when it goes into or out of the tank */
      role?: Role;
      /** the sheet's step it serves */
      stepId?: string;
      /** when it happened, ms on the bench clock; left out: when it was said */
      sinceMs?: number;
      /** nobody said so: later words prove it */
      inferred?: true;
      /** how long the filling or draining took by the words that were said, s */
      tookS?: number;
      /** developer: seconds the process wants */
      wantedS?: number;
      /** into the tank: seconds that this very bath takes, where that is not the sheet's time */
      aimS?: number;
      /** developer, out of the tank: seconds at the process's own temperature */
      effectiveS?: number;
      /** out of a tank in which the film never was */
      withoutFilm?: true;
    }
  | {
      type: 'bottle-set';
      bottle: number;
      liquid: LiquidId | null;
      volumeMl: number;
      capacityMl: number;
      batch?: string;
      /** the capacity was told, not taken for granted */
      capacityTold?: true;
      /** nobody said so: taken for granted with the sheet */
      assumed?: true;
      /** what it holds was said, and not how much */
      volumeAssumed?: true;
    }
  /** two bottles changed places, or their labels did: what each holds, with its history, is the other's */
  | { type: 'bottles-swapped'; bottle: number; other: number }
  /** what a filling did, and when its batch was mixed, as it was told: `workM2` square metres of film in all */
  | {
      type: 'bottle-history';
      bottle: number;
      films?: Partial<Record<FilmFormat, number>>;
      workM2?: number;
      mixedWallMs?: number;
    }
  | { type: 'spilled'; runId?: string; from?: VesselRef; liquid: LiquidId; volumeMl: number; place?: string }
  | { type: 'temperature'; runId?: string; vessel: VesselRef; liquid?: LiquidId; tempC: number }
  /** the pH of what stands in a bottle, as it was read; `off`: not what the bath should have */
  | { type: 'bottle-ph'; bottle: number; ph: number; off: boolean }
  /** something was said against what a bottle holds; null: it is to be used all the same. `of`: what may be in it */
  | { type: 'bottle-doubted'; bottle: number; doubt: BottleDoubt | null; of?: LiquidId }
  /** what may have been on the film and was never settled; empty: it is. `asked`: a pour was agreed to all the same */
  | { type: 'film-doubted'; runId?: string; of: LiquidId[]; asked?: boolean }
  /** a reading that was asked about; `tempC` null: it was dropped */
  | { type: 'reading-doubted'; vessel: VesselRef; tempC: number | null }
  /** the thermometer in use reads so much too high, °C; below zero: too low; `shiftC`: what that makes of the readings of before */
  | { type: 'thermometer-told'; errorC: number; shiftC: number }
  | { type: 'heater-told'; on: boolean }
  | { type: 'overridden'; runId?: string; move: string; verdict: string; why: string }
  /** `reasons`: ids of what spoke against it */
  | { type: 'deviation'; runId: string; stepId: string; what: string; reasons?: readonly string[] }
  | { type: 'note'; runId?: string; text: string }
  | { type: 'undone'; runId?: string; what: string; facts: Fact[] }
  /** some of one bath, or a thing that is none, got into a bottle or the tank, and nobody measured how much: no volume changes */
  | { type: 'splashed'; runId?: string; liquid: LiquidId; bottle?: number; tank?: true }
  | {
      type: 'bottle-discarded';
      bottle: number;
      liquid: LiquidId;
      volumeMl: number;
    }
  | { type: 'bottle-named'; bottle: number; name: string }
  /** dry chemicals: stock set by the user, or used by a mix; `substance` is a chemistry id */
  | { type: 'shelf-set'; substance: string; massG: number; purity?: number; pricePerKg?: number }
  /** `purity` 0 to 1 of that jar, where it is less than 1 */
  | { type: 'shelf-used'; substance: string; massG: number; batch: string; purity?: number }
  | {
      type: 'mixed';
      batch: string;
      recipe: string;
      liquid: LiquidId;
      volumeMl: number;
      bottle?: number;
      ph?: number;
      /** what the weighings and readings at mixing showed: `why`, worst first, says what is wrong with the batch */
      checks?: { ok: boolean; why: string[] /** past saving: for the waste */; unusable?: true };
    }
  /** a control strip that was read: Status M densities by patch and channel; the first is the reference */
  | { type: 'control-strip'; date: string; patches: Strip['patches'] }
  | { type: 'run-finished'; runId: string; complete: boolean };

export type FactOf<T extends Fact['type']> = Extract<Fact, { type: T }>;

export type FilmFormat = (typeof FORMATS)[number];

/** One film in the tank. `lengthM` metres; for sheets and 120 the count matters. */
export interface FilmRef {
  stock: string;
  format: FilmFormat;
  lengthM?: number;
  count?: number;
  ratedIso?: number;
  usedIso?: number;
  /** stops of push (+) or pull (−) */
  pushStops?: number;
  /** a name for the roll */
  name?: string;
  /** nobody said what it is: taken for one film of the usual kind */
  assumed?: true;
  notes?: string;
}
