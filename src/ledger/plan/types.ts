import type { ProcessSheet } from '../../process/sheet.js';
import type { FilmFormat, FilmRef } from '../../world/fact.js';
import type { BottleRecord } from '../../world/records.js';
import type { LiquidId } from '../../world/vessel.js';

export interface PlannedFilm {
  film: FilmRef;
  sheetId: string;
  /** development beyond or short of normal, stops; 0 when not given. Loads never mix it. */
  pushStops: number;
  /** goes first, while the developer is freshest */
  precious: boolean;
}

export interface DayRequest {
  films: readonly PlannedFilm[];
  tank: { volumeMl: number; holds: Partial<Record<FilmFormat, number>> };
  /** sets of reels; with one, the next load waits until they are dry */
  reelSets: number;
  bottles: readonly BottleRecord[];
  sheets: readonly ProcessSheet[];
  startsWallMs: number;
  /** null: no hurry */
  endsByWallMs: number | null;
}

export interface PlannedRun {
  number: number;
  sheetId: string;
  films: FilmRef[];
  pushStops: number;
  areaM2: number;
  startsWallMs: number;
  endsWallMs: number;
}

export interface LiquidNeed {
  liquid: LiquidId;
  /** must stand ready at once: a tankful, ml */
  tankfulMl: number;
  /** film area it has to take today, m² */
  areaM2: number;
  /** what the bottles can still take, m²: usual figure */
  canTakeM2: number;
  haveMl: number;
  replenishMl: number;
  /** fresh bath to mix so that the whole day works, ml; 0 when there is enough */
  mixMl: number;
}

export interface DayBreak {
  /** the run that cannot be done, from 1 */
  run: number;
  sentence: string;
  remedy: string;
}

export interface DayPlan {
  runs: PlannedRun[];
  totalS: number;
  waterMl: number;
  needs: LiquidNeed[];
  /** the run after which a bath is used up */
  runsOut: { liquid: LiquidId; bottle: number; afterRun: number; wallMs: number }[];
  /** null: the day works */
  breaks: DayBreak | null;
  notes: string[];
}
