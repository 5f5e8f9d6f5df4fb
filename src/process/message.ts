import type { LiquidId, VesselRef } from '../world/vessel.js';
import type { CautionId } from './cautions.js';
import type { Checks } from './guard-checks.js';
import type { AskId } from './guard-resolve.js';
import type { Direction, ReasonId } from './guard-table.js';
import type { DeedId } from './run-state.js';
import type { Agitation } from './sheet.js';

/** A liquid with the name it is spoken by. */
export interface Named {
  id: LiquidId;
  name: string;
}

/** Where a bath goes when it leaves the tank. */
export type Outlet =
  | { to: 'bottle'; bottle: number; filter: boolean }
  | { to: 'sink' }
  /** reusable, but no single bottle is known for it */
  | { to: 'aside'; filter: boolean };

/** What there is to do at this moment; the answer to "next step", "where are we" and much else. */
export type Now =
  | { do: 'begin' }
  | { do: 'prepare' }
  | { do: 'warm'; targets: { bath: Named; tempC: number }[]; cautions: CautionId[] }
  | { do: 'load' }
  | {
      do: 'pour';
      step: string;
      bath: Named;
      /** null: from the tap, or not known */
      bottle: number | null;
      tempC: number | null;
      /** said and cleared, but not yet in */
      announced: boolean;
    }
  | { do: 'wait'; bath: Named; secondsLeft: number | null; held: boolean }
  | { do: 'drain'; bath: Named; outlet: Outlet }
  | { do: 'rinse'; fills: number; tempC: number | null }
  | { do: 'hang' }
  | { do: 'close' };

/** What a reason is about, named for speech. */
export interface Spoken {
  bath: Named;
  other: Named | null;
  bottle: number | null;
  tempC: number | null;
  aimC: number | null;
  ml: number | null;
  seconds: number | null;
}

export interface SpokenMove {
  direction: Direction;
  bath: Named;
  from: VesselRef;
  to: VesselRef;
  volumeMl: number | null;
}

/** Everything the run desk can say; the words are in src/language/phrases/run.ts. */
export type RunMessage =
  | {
      id: 'run-begun';
      sheet: string;
      cautions: CautionId[];
      bottles: { bottle: number; bath: Named }[];
      assumed: boolean;
      tankMl: number;
    }
  | { id: 'run-already'; now: Now }
  | { id: 'no-such-sheet'; said: string; known: string[] }
  | { id: 'now'; now: Now /** without the lists said before */; brief?: true }
  | { id: 'where'; now: Now; step: number; of: number; spill: boolean; jugs: Named[] }
  | { id: 'next'; step: string; bath: Named | null; after: Named | null }
  | { id: 'film-loaded'; now: Now | null }
  | { id: 'film-already-loaded' }
  // moves
  | { id: 'clear'; move: SpokenMove; reason: ReasonId; about: Spoken; checks: Checks; harmless: boolean }
  | {
      id: 'recoverable';
      move: SpokenMove;
      reason: ReasonId;
      about: Spoken;
      /** further things against it */
      also: { reason: ReasonId; about: Spoken }[];
      checks: Checks;
    }
  | { id: 'ruinous'; move: SpokenMove; reason: ReasonId; about: Spoken }
  | {
      id: 'ask';
      ask: AskId;
      bath: Named | null;
      holds: Named | null;
      bottle: number | null;
      candidates: number[];
      /** a confirm will do */
      confirmable: boolean;
      stake: ReasonId | null;
      about: Spoken | null;
      heard: Named[];
    }
  | { id: 'overridden'; move: SpokenMove; checks: Checks }
  | { id: 'needs-override'; reason: ReasonId; about: Spoken }
  | { id: 'needs-answer'; ask: AskId }
  | { id: 'nothing-waiting' }
  | { id: 'cancelled' }
  | { id: 'say-again-clearly'; word: 'override' | 'confirm' }
  // baths
  | {
      id: 'bath-in';
      bath: Named;
      aimS: number | null;
      agitation: Agitation | null;
      /** not named by the user: the bath that was due is taken */
      assumed: boolean;
      warn: { reason: ReasonId; about: Spoken } | null;
    }
  | { id: 'wrong-bath-in'; bath: Named; reason: ReasonId; about: Spoken; outlet: Outlet; due: Named | null }
  | { id: 'bath-already-in'; bath: Named }
  | { id: 'confirm-bath-in'; bath: Named; heard: Named[] }
  | { id: 'which-bath-in' }
  /** a bath or a bottle named, and nothing asked */
  | { id: 'part-alone'; bath: Named | null; bottle: number | null }
  | { id: 'film-first'; bath: Named }
  | { id: 'tank-is-empty'; now: Now; jugged: Named | null }
  | { id: 'tank-already-empty'; now: Now }
  | { id: 'confirm-early'; bath: Named; doneS: number; aimS: number }
  | { id: 'confirm-skip'; step: string }
  | { id: 'skipped'; step: string; now: Now }
  // clock
  | { id: 'held'; bath: Named; doneS: number; aimS: number | null }
  | { id: 'resumed'; leftS: number | null }
  | { id: 'clock-runs'; leftS: number | null }
  | { id: 'no-clock'; now: Now }
  | { id: 'time-added'; seconds: number; leftS: number }
  | { id: 'bad-seconds'; seconds: number }
  | { id: 'time-left'; bath: Named; leftS: number | null; held: boolean }
  | { id: 'time-until'; bath: Named; seconds: number; atLeast: boolean }
  | { id: 'time-until-none'; bath: Named; why: 'not-in-sheet' | 'done' | 'in-it' }
  // calls
  | { id: 'agitate'; turns: number; style: Agitation['style'] }
  | { id: 'rest' }
  | { id: 'ten-seconds' }
  | { id: 'drain'; bath: Named; outlet: Outlet; next: Named | null }
  | { id: 'pour-next'; bath: Named; bottle: number | null }
  | { id: 'overdue'; bath: Named }
  // records
  | { id: 'temperature'; of: string; tempC: number; aimC: number | null; offC: number | null }
  | { id: 'temperature-doubt'; of: string; tempC: number; minC: number; maxC: number }
  | {
      id: 'bottle-noted';
      bottle: number;
      bath: Named;
      volumeMl: number;
      capacityMl: number;
      was: Named | null;
    }
  | { id: 'bottle-holds-what'; bottle: number }
  | { id: 'bottle-doubt'; bottle: number; bath: Named; holds: Named | null }
  | { id: 'bad-bottle'; why: 'volume' | 'capacity' | 'number'; volumeMl: number; capacityMl: number }
  | { id: 'no-such-liquid'; said: string; known: string[] }
  | { id: 'tank-noted'; volumeMl: number }
  | { id: 'bad-tank'; volumeMl: number }
  | {
      id: 'spill-open';
      bath: Named | null;
      volumeMl: number | null;
      place: string | null;
      cautions: CautionId[];
    }
  | { id: 'spill-ask'; missing: 'liquid' | 'volume' | 'both' | 'later'; cautions: CautionId[] }
  | { id: 'spill-cleaned' }
  | { id: 'no-spill' }
  | { id: 'note-taken'; text: string }
  | { id: 'note-empty' }
  | { id: 'cautions'; about: string | null; cautions: CautionId[] }
  | { id: 'undone'; what: DeedId; now: Now }
  | { id: 'nothing-to-undo' }
  // ending
  | { id: 'film-hung'; backingLeft: boolean }
  | { id: 'confirm-close'; now: Now }
  | { id: 'run-closed'; complete: boolean; jugs: Named[] }
  | { id: 'stop-what' }
  | { id: 'nothing-to-stop' }
  | { id: 'not-now'; now: Now };
