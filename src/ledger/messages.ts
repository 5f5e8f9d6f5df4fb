import type { ChangedTime } from '../chemistry/fitness.js';
import type { Enough, LifeLimit } from '../world/life.js';
import type { BottleDoubt } from '../world/records.js';

/** One bottle in a few spoken words. `liquid` is the liquid's spoken name. */
export interface BottleLine {
  bottle: number;
  name: string | null;
  liquid: string | null;
  volumeMl: number;
  /** true: set up by default, nobody has said so */
  assumed: boolean;
  /** what it holds was said, and not how much */
  volumeAssumed?: boolean;
}

/** What the bottles' desk says; the words are in src/language/languages/english/phrases/bottles.ts. */
export type LifeIs = Extract<BottlesMessage, { id: 'life-is' }>;

export type BottlesMessage =
  | {
      id: 'bottle-is';
      line: BottleLine;
      ageDays: number | null;
      films: number;
      /** so much of the bath stands in a jug beside it, ml */
      inJugMl?: number;
      /** what was wrong with the batch */
      problem: string | null;
      /** the worst thing poured in that does not belong */
      wrongPour: WrongPour | null;
      /** what was said against it, and not settled since */
      doubt: BottleDoubt | null;
      /** what may be in it, where the doubt is of that */
      doubtOf?: string | null;
      /** what came into it with the film, and spoils it */
      taint: string | null;
      discarded: boolean;
    }
  | { id: 'bottle-unknown'; bottle: number }
  /** `shortOfMl`: what the tank takes, where these hold less */
  | {
      id: 'bottles-are';
      /** of the bath that was asked about: what stands in a jug, and that it is in the tank */
      inJugs?: { liquid: string; volumeMl: number }[];
      inTank?: string;
      lines: BottleLine[];
      /** these are not to be used; their own answers say why */
      spoiled?: readonly number[];
      shortOfMl?: number;
    }
  | { id: 'no-bottles' }
  | { id: 'no-such-liquid'; liquid: string }
  | { id: 'age-is'; liquid: string; bottle: number; ageDays: number | null; keepDaysLeft: number | null }
  | {
      id: 'mixed-on';
      liquid: string;
      bottle: number;
      wallMs: number | null;
      filledWallMs: number | null;
      ageDays: number | null;
    }
  | { id: 'fullest-is'; line: BottleLine }
  | {
      id: 'life-is';
      liquid: string;
      bottles: number[];
      /** asked for, or null: how many at all */
      films: number | null;
      filmWords: string;
      left: { low: number; usual: number; high: number };
      enough: Enough | null;
      limit: LifeLimit;
      /** what was wrong with the batch */
      problem: string | null;
      ageDays: number | null;
      keepDaysLeft: number | null;
      doneFilms: number;
      /** it was mixed at this bench, so all that it has done is on record */
      mixedHere: boolean;
      silverGPerL: number | null;
      wrongPour: WrongPour | null;
      /** against every bottle that is counted */
      against: { doubt: BottleDoubt | null; doubtOf: string | null; taint: string | null } | null;
      compensation: string | null;
    }
  /** `short`: of these there is less than it takes; `lives`: the baths that have a capacity */
  | {
      id: 'next-roll';
      films: number;
      short: { liquid: string; haveMl: number; wantMl: number }[];
      lives: LifeIs[];
    }
  | {
      id: 'replenish-is';
      liquid: string;
      bottle: number;
      addMl: number;
      removeMl: number;
      regenerate: { cautions: string[]; persulphateG: number; bromideG: number } | null;
    }
  | { id: 'replenish-unknown'; liquid: string }
  /** which bottle is meant: none is known of it, or several hold it */
  /** it was said to be mixed on the day of the week that today is, 0 Sunday to 6 */
  | { id: 'history-which-day'; weekday: number }
  | { id: 'history-of-which'; liquid: string | null; bottles: number[] }
  | {
      id: 'history-noted';
      bottle: number;
      liquid: string;
      /** as told; null: only its age was */
      films: number | null;
      /** its age was told as well */
      aged: boolean;
      ageDays: number | null;
      keepDaysLeft: number | null;
      spent: boolean;
      /** films it is still good for; null: nothing is known of such a bath */
      left: number | null;
      filmWords: string;
    }
  /** `aim` null: none is known of this bath; `says`: by the coach's rule; `off`: this reading or an earlier one stands against it */
  | {
      id: 'ph-noted';
      bottle: number;
      liquid: string;
      ph: number;
      aim: { aim: number; tolerance: number } | null;
      says: 'good' | 'near' | 'off' | 'unclear' | null;
      off: boolean;
    }
  | { id: 'discard-asked'; line: BottleLine }
  /** what was said against it is to be dropped */
  | { id: 'vouch-asked'; line: BottleLine; doubt: BottleDoubt }
  | { id: 'vouched'; bottle: number }
  | { id: 'nothing-against' }
  /** `unsaid`: nobody said how much; `allMl`: with what came of no bottle */
  | { id: 'spilt-is'; each: { liquid: string; volumeMl: number }[]; unsaid: string[]; allMl: number | null }
  | { id: 'discarded'; bottle: number; liquid: string | null; waste: WasteKind }
  | { id: 'nothing-to-discard'; bottle: number }
  | { id: 'name-asked'; bottle: number; name: string; soundsLike: string; better: string | null }
  | { id: 'name-unknown-word'; bottle: number; name: string; word: string; better: string | null }
  | { id: 'named'; bottle: number; name: string }
  | { id: 'left-alone' }
  | {
      id: 'runs-are';
      total: number;
      last: {
        startedWallMs: number;
        sheet: string;
        complete: boolean | null;
        films: number;
        deviations: number;
      };
    }
  | { id: 'no-runs' };

/** `verdict` null: its effect is not known. `why` is a clause, lower case, '' when there is none. */
export interface WrongPour {
  liquid: string;
  /** null: nobody measured it */
  volumeMl: number | null;
  verdict: 'use' | 'care' | 'discard' | null;
  why: string;
  /** usable, for so much longer */
  time: ChangedTime | null;
}

/** What a discarded bath must be kept out of the drain for, where codes forbid it. */
export type WasteKind = 'silver' | 'ferricyanide' | 'developer' | 'plain';
