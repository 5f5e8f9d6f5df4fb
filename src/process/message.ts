import type { Exposure } from '../chemistry/safety/first-aid.js';
import type { FilmRef } from '../world/fact.js';
import type { CautionId, Role } from '../world/liquids.js';
import type { LiquidId, VesselRef } from '../world/vessel.js';
import type { Move, ReasonParams } from './guard.js';
import type { Checks } from './guard-checks.js';
import type { AskId } from './guard-resolve.js';
import type { ReasonId } from './guard-table.js';
import type { Danger } from './run-state.js';
import type { Agitation } from './sheet.js';
import type { TempAim, TimeAtTemp } from './temperature.js';

/** A liquid with the name it is spoken by. */
export interface Named {
  id: LiquidId;
  name: string;
}

/** What may have been on the film, `last` of it by the record, and what it would have done. */
export interface FilmDoubt {
  of: Named[];
  last: Named | null;
  warn: Objection | null;
}

/** How far the film was when light reached it. */
export type LightStage = 'no-film' | 'sensitive' | 'bleaching' | 'bleached' | 'fixing' | 'fixed';

/** What a run leaves open that can hurt somebody: a spill, where it is and of what; who was hurt, and how. */
export interface StillOpen {
  spills: { bath: Named | null; place: string | null }[];
  hurt: Exposure[];
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
      /** … so long ago, s */
      agoS?: number;
      /** developer clings to the film and has worked on for so long, s */
      clingsS?: number;
      /** a development or wash that goes on: what is left of it, s */
      restS: number | null;
      /** why it comes out of its turn */
      because?: ReasonId;
      /** why what stands ready for it must not be poured */
      unfit?: Objection;
    }
  /** plain water first, and why */
  | (Objection & { do: 'wash'; next: Named })
  | { do: 'wait'; bath: Named; secondsLeft: number | null }
  /** the time is up, or the bath is the wrong one */
  | { do: 'drain'; bath: Named; outlet: Outlet }
  | { do: 'rinse'; fills: number; tempC: number | null }
  /** the picture is gone: nothing more can be done for it */
  | { do: 'lost'; doubted?: true }
  | { do: 'hang' }
  | { do: 'close' };

/** A bath that was not in for as long as it should, or (`weak`, `strong`) not as warm. */
export interface Slip {
  kind: 'short' | 'long' | 'weak' | 'strong' | 'lost';
  bath: Named;
  doneS: number;
  aimS: number;
  /** share of development more (+) or less (−) than wanted; null: not known, or no developer */
  effect: number | null;
  /** what can still be done: the rest of it, s */
  restS: number | null;
  /** it is not settled that it was this bath */
  doubted?: true;
  /** longer than it was to be, and works no further */
  harmless?: true;
}

type Told = Required<Omit<ReasonParams, 'liquid' | 'other' | 'ofMl' | 'unsettled'>>;

/** What a reason is about, named for speech. */
export type Spoken = { [K in keyof Told]: Told[K] | null } & Pick<ReasonParams, 'ofMl' | 'unsettled'> & {
    bath: Named;
    other: Named | null;
  };

/** What speaks against a pour or a bath. */
export interface Objection {
  reason: ReasonId;
  about: Spoken;
}

export type SpokenMove = Omit<Move, 'liquid'> & { bath: Named };

/** What does not go into a bottle and is lost, ml; `sizeTold`: what it takes was told, and is not taken for granted. */
export interface RanOver {
  lostMl?: number;
  sizeTold?: true;
}

/** A bottle, and what it holds: before or after it changed places with another. */
export interface SwapSide {
  bottle: number;
  bath: Named | null;
}

/** Everything the run desk can say; the words are in src/language/languages/english/phrases/run.ts. */
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
  /** `inTank`: how full the tank is, ml, where it is not full of a bath */
  | {
      id: 'where';
      now: Now;
      doubt?: FilmDoubt;
      /** null: none is begun, or all are done */
      step: number | null;
      of: number;
      spill: boolean;
      hurt?: Exposure[];
      jugs: Named[];
      inTank?: { ml: number; ofMl: number };
    }
  | {
      id: 'next';
      step: string;
      bath: Named | null;
      after: Named | null;
      /** baths before it that were neither given nor left out on purpose */
      omitted?: Named[];
    }
  | { id: 'film-loaded'; now: Now | null }
  | { id: 'film-already-loaded' }
  | { id: 'film-loaded-no-run' }
  /** `push`: why no other time follows from a push or pull that was told */
  | {
      id: 'films-noted';
      films: FilmRef[];
      push?: string;
      warn?: Objection;
      shifts?: 'slide' | 'other-colour';
    }
  | { id: 'time-at'; bath: Named; tempC: number; aimC: number; plannedS: number; answer: TimeAtTemp }
  | { id: 'time-at-what' }
  | { id: 'duration'; bath: Named; seconds: number | null; why: string | null }
  /** where a used bath goes: whole sentences */
  | { id: 'where-it-goes'; lines: string[] }
  | { id: 'films-what' }
  // moves
  /** `leftOut`: it lacks a bath that was left out on purpose */
  | (Objection & { id: 'clear'; move: SpokenMove; checks: Checks; harmless: boolean; leftOut: boolean })
  /** `also`: further things against it */
  | (Objection & { id: 'recoverable'; move: SpokenMove; also: Objection[]; checks: Checks })
  | (Objection & { id: 'ruinous'; move: SpokenMove; also: Objection[] })
  | {
      id: 'ask';
      ask: AskId;
      bath: Named | null;
      holds: Named | null;
      bottle: number | null;
      candidates: number[];
      stake: ReasonId | null;
      about: Spoken | null;
      heard: Named[];
    }
  /** `overridden`: everything that was, the worst first; empty after a mere warning */
  | (RanOver & { id: 'overridden'; move: SpokenMove; checks: Checks; overridden: Objection[] })
  /** a bath is out of the tank whose return into `bottle` was refused; `gas`: the two can give one off */
  | (Objection & { id: 'where-went'; bath: Named; bottle: number; gas: boolean })
  | (Objection & { id: 'needs-override' })
  | { id: 'needs-answer'; ask: AskId }
  | { id: 'nothing-waiting' }
  | { id: 'cancelled' }
  | { id: 'called-off'; bath: Named | null; now: Now }
  | { id: 'was-it-in'; bath: Named; agoS: number }
  /** taken for true from later words */
  | { id: 'taken-in'; bath: Named; agoS: number }
  | { id: 'taken-out'; bath: Named; to: VesselRef }
  | (RanOver & {
      id: 'poured';
      /** it can give off a gas where it went */
      gas: boolean;
      bath: Named;
      from: VesselRef;
      to: VesselRef;
      warn: Objection | null;
    })
  /** `amount`: a part of it, and how much */
  | { id: 'poured-what'; amount?: true }
  /** some of one bath got into another */
  | (RanOver & {
      id: 'contaminated';
      bath: Named;
      into: Named;
      bottle: number | null;
      /** null: nobody said how much */
      volumeMl: number | null;
      /** the two can give off a gas; `why`: two baths of the sheet */
      gas: boolean;
      why: Objection | null;
      /** what is said of them, where it is no bath of the sheet */
      gases?: readonly string[];
      found: Objection[];
    })
  /** something got into the tank: into this bath there, or before the next one; null: no film, no bath */
  | {
      id: 'got-into-tank';
      bath: Named;
      into: Named | null;
      /** what it does to the film, or to the bath that is there */
      warn: Objection | null;
      harmless: boolean;
      /** by water, and nobody said how much */
      thins: boolean;
      gas: boolean;
      dangers: string[];
    }
  /** in which bottle it is; `both`: the other of two that went into one */
  | { id: 'got-into-which'; bath: Named; both: Named | null; further: string[] }
  /** it left the tank into one bottle by the record, and into another by what is said */
  | { id: 'went-elsewhere'; bath: Named; stands: number; bottle: number }
  | { id: 'swap-asked'; bottles: readonly [SwapSide, SwapSide] }
  | { id: 'swapped'; bottles: readonly [SwapSide, SwapSide] }
  | { id: 'swap-what' }
  /** the film left a bath that works on it */
  | {
      id: 'film-out';
      bath: Named;
      doneS: number;
      leftS: number | null;
      light: boolean;
    }
  /** what can be done about a developer that is too warm or too cold */
  | { id: 'warm-it'; bath: Named; tempC: number; aimC: number; hot: boolean }
  /** what got into a bottle can give off gas there */
  | { id: 'gas-there'; bottle: number; bath: Named; into: Named }
  /** what the film has had, in order, and what of the sheet it has not */
  | {
      id: 'film-so-far';
      /** in the tank, by what was told */
      loaded: boolean;
      had: { bath: Named; seconds: number }[];
      missing: Named[];
      asked: Named | null;
      /** the sheet's time for the bath that was asked about, s */
      time: { aimS: number; minS: number; maxS: number } | null;
      /** it is in the tank */
      inNow: boolean;
      /** it is out of the tank: what is missing was never given */
      hung: boolean;
      /** light reached it on the way */
      light: boolean;
      /** how often its run went otherwise than the sheet has it */
      off: number;
    }
  | {
      id: 'outlook';
      /** there is, or was, a film */
      loaded: boolean;
      doubt?: FilmDoubt;
      lost: boolean;
      /** share of development more (+) or less (−) than wanted; null: none worth a word */
      effect: number | null;
      light: boolean;
      /** light came on while it was not in the tank yet */
      lightBefore: boolean;
      notTurned: boolean;
      turnedMore: boolean;
      /** ids of what spoke against its pours */
      reasons: readonly string[];
      bath: Named | null;
      now: Now | null;
    }
  | { id: 'film-settled'; bath: Named; now: Now }
  | { id: 'no-film-in'; now: Now }
  | { id: 'say-again-clearly'; word: 'override' | 'confirm' }
  // baths
  | {
      id: 'bath-in';
      bath: Named;
      aimS: number | null;
      /** why that is not the sheet's time; left out: it is */
      why?: string;
      agitation: Agitation | null;
      /** not named by the user: the bath that was due is taken */
      assumed: boolean;
      /** less than the tank takes, by so much, ml */
      missingMl?: number;
      /** it went in that long ago, s */
      agoS: number;
      /** what the bath before it did not get */
      slip: Slip | null;
      /** … is taken to be in a jug: nobody said where it went */
      jugged?: Named;
      warn: Objection | null;
      /**
       * another bottle was named for it: what that one holds; null: not known; `own`: it was said to have come out of it, and
       * this is its own bottle
       */
      named?: { bottle: number; holds: Named | null; own?: number | null };
    }
  | (Objection & { id: 'wrong-bath-in'; bath: Named; outlet: Outlet; due: Named | null })
  | { id: 'bath-already-in'; bath: Named; sinceS: number; leftS: number | null }
  | { id: 'confirm-bath-in'; bath: Named; heard: Named[] }
  /** another bath is said to be in than the one that is believed to be; `sinceS`: how long, `inferred`: nobody said so */
  | {
      id: 'in-instead';
      bath: Named;
      holds: Named;
      sinceS: number;
      inferred: boolean;
    }
  | { id: 'in-and-empty'; bath: Named }
  /** taken for true: what was in came out, and the next went in, as it was called */
  | { id: 'taken-next'; out: Named | null; bath: Named; agoS: number }
  | { id: 'which-bath-in' }
  /** a bath or a bottle named, and nothing asked */
  | { id: 'part-alone'; bath: Named | null; bottle: number | null }
  | { id: 'film-first'; bath: Named }
  | { id: 'tank-is-empty'; now: Now; jugged: Named | null; slip: Slip | null }
  | { id: 'tank-already-empty'; now: Now }
  | { id: 'confirm-early'; bath: Named; doneS: number; aimS: number }
  /** `role`: of the bath that would be missing */
  | { id: 'confirm-skip'; step: string; role: Role | null }
  | { id: 'skipped'; step: string; now: Now }
  | { id: 'still-good'; bath: Named | null; found: Objection | null }
  /** `bath`: what works on meanwhile */
  | { id: 'light-in'; stage: LightStage; bath: Named | null; now: Now | null }
  /** `dark`: the film must not see light yet */
  | { id: 'backing-left'; stage: 'rinsing' | 'dark' | 'light'; now: Now | null }
  /** a bath that stands mixed was not mixed as it should be */
  | { id: 'mixed-wrong'; bath: Named }
  | { id: 'agitated-more'; developing: boolean }
  | { id: 'milky'; stage: 'before' | 'fixing' | 'after' }
  | { id: 'water-stops'; step: string; seconds: number; now: Now }
  | { id: 'had-before'; bath: Named; lost: boolean }
  | { id: 'tank-without-film'; bath: Named; outlet: Outlet; now: Now }
  // clock
  /** the person is held up; the chemistry is not */
  | { id: 'held-up'; bath: Named; leftS: number | null }
  | { id: 'clock-runs'; bath: Named; sinceS: number; leftS: number | null }
  /** somebody leaves the sink; `backS`: for so long. Left out `bath`: nothing is in the tank */
  | {
      id: 'away';
      bath: Named | null;
      backS: number | null;
      /** until the call to drain, s */
      drainS: number | null;
      /** the bath's time over when they are back, s */
      overS: number | null;
      effect: number | null;
      /** the developer that clings goes on: this has to go in first */
      first: Named | null;
      /** the bath may be in for longer */
      harmless: boolean;
      now: Now;
    }
  /** nobody stays at the sink while the room is not safe; `film`: one is in the process, and can wait */
  /** `leave`: they are told to leave only now */
  | { id: 'outside'; film: boolean; leave?: true }
  /** somebody is rinsed, or helped otherwise, and the film waits */
  | { id: 'hands-full'; film: boolean }
  | { id: 'aired'; from: Danger }
  /** the bottle in the hand was the wrong one, and its bath is in by the record */
  | { id: 'wrong-bottle'; bath: Named; bottle: number | null }
  /** what leaving a bath or a wash out does now; `reason` null: nothing */
  | {
      id: 'left-out';
      bath: Named;
      role: Role;
      reason: ReasonId | null;
      about: Spoken;
      /** the bath that it harms is in already */
      inNow: Named | null;
      hadS: number;
      now: Now;
    }
  /** what is believed of the tank, and how one can tell */
  | {
      id: 'in-doubt';
      doubt?: FilmDoubt;
      now: Now;
      holds: { bath: Named; sinceS: number; inferred: boolean } | null;
    }
  | { id: 'no-clock'; now: Now }
  /** `effect`: what the developer will then have done more (+) or less (-), as a share, where it is worth the words */
  | { id: 'time-added'; seconds: number; leftS: number; effect: number | null }
  | { id: 'bad-seconds'; seconds: number }
  /** `drainS`: until the call to drain, the next act of the hands */
  | { id: 'time-left'; bath: Named; leftS: number | null; drainS: number | null; effect?: number }
  | { id: 'time-until'; bath: Named; seconds: number; atLeast: boolean }
  | { id: 'time-until-none'; bath: Named; why: 'not-in-sheet' | 'done' | 'in-it' }
  // calls
  | { id: 'agitate'; turns: number; style: Agitation['style'] }
  | { id: 'rest' }
  | { id: 'ten-seconds' }
  | { id: 'drain'; bath: Named; outlet: Outlet; next: Named | null }
  | { id: 'pour-next'; bath: Named; bottle: number | null }
  | { id: 'overdue'; bath: Named; overS: number; effect: number | null }
  | { id: 'get-out'; bath: Named }
  | { id: 'in-asked'; bath: Named; again: boolean }
  | { id: 'empty-asked' }
  /** how warm a bath has to be; null: the sheet does not say */
  | { id: 'target'; bath: Named; temp: TempAim | null }
  /** a bleach or a fixer that is too cold in the tank: what the sheet lets its time be longer; null: nothing */
  | { id: 'tank-slow'; bath: Named; offC: number; longerS: number | null }
  /** the developer in the tank is off its aim by `offC`; `changeS` would make up for it, null: nothing would */
  | {
      id: 'tank-off';
      bath: Named;
      offC: number;
      effect: number | null;
      changeS: number | null;
      colour: boolean;
    }
  // records
  | {
      id: 'bottle-noted';
      bottle: number;
      bath: Named;
      volumeMl: number;
      capacityMl: number;
      /** nobody said how much it is */
      volumeAssumed: boolean;
      was: Named | null;
    }
  | { id: 'bottle-takes'; bottle: number; capacityMl: number }
  | { id: 'bottle-holds-what'; bottle: number }
  | { id: 'bottle-empty'; bottle: number; was: Named | null }
  | { id: 'bottle-doubt'; bottle: number; bath: Named; holds: Named | null }
  | {
      id: 'bad-bottle';
      why: 'volume' | 'capacity' | 'number';
      volumeMl: number;
      capacityMl: number;
      /** the bottle that it does not fit, and whether somebody told its size */
      of?: { bottle: number; told: boolean };
    }
  | { id: 'no-such-liquid'; said: string; known: string[] }
  /** `over`: more than that is in it by the record */
  /** `least`: the bottle that holds least, and too little to fill it */
  | {
      id: 'tank-noted';
      volumeMl: number;
      over?: { bath: Named; ml: number };
      least?: { bottle: number; ml: number };
    }
  /** `wasC`: it is another one, and the one of before read so much too high */
  | { id: 'thermometer-noted'; errorC: number; wasC?: number }
  | { id: 'bad-tank'; volumeMl: number }
  | { id: 'tank-used'; tank: string; volumeMl: number; told: boolean; film: boolean }
  /** no two tanks were told by their sizes */
  | { id: 'tank-size'; volumeMl: number; aside: number }
  | { id: 'tank-busy'; tank: string; now: Now }
  | {
      id: 'spill-open';
      aid?: Exposure;
      bath: Named | null;
      volumeMl: number | null;
      place: string | null;
      cautions: CautionId[];
      /** all that this bottle holds by the record; `sure`: somebody said how much that is */
      allOf?: { bottle: number; sure: boolean };
      /** first aid, or what a thing that is no bath of the sheet does: whole sentences */
      further?: string[];
      /** what is left in the tank that it ran out of, and what that takes */
      left?: { ml: number; ofMl: number };
    }
  | {
      id: 'spill-ask';
      missing: 'liquid' | 'volume' | 'both' | 'later' | 'volume-later' | 'nothing' | null;
      /** somebody has it on him: the first minute goes before all else */
      aid?: Exposure;
      /** out of the tank, which is not tight */
      leak?: true;
      cautions: CautionId[];
      further?: string[];
    }
  /** `spills`: others that were told of and are not cleaned up */
  | { id: 'spill-cleaned'; spills: StillOpen['spills'] }
  | { id: 'sink-rinsed' }
  /** these two met in the sink or on a spill */
  | { id: 'met'; bath: Named; with: Named; gas: boolean; dangers: readonly string[] }
  /** `hows`: what is told now, else what was told before; `asks`: whether the rinsing may end, whom to call, of a contact lens that does not come out, or whether it is over */
  | {
      id: 'hurt';
      hows: Exposure[];
      asks: 'rinsing' | 'call' | 'lens' | 'over' | null;
      cautions: CautionId[];
    }
  | { id: 'hurt-over' }
  /** `never`: what it was cleaned with gives off gas with one of the baths */
  | { id: 'no-spill'; never: Named | null }
  | { id: 'note-taken'; text: string }
  | { id: 'note-empty' }
  | { id: 'cautions'; about: string | null; cautions: CautionId[] }
  // ending
  | { id: 'film-hung'; backingLeft: boolean; fixerLeft: boolean; missing: Named[] }
  | { id: 'closed-without'; missing: Named[] }
  /** how to hang it, or why not yet */
  | { id: 'may-hang'; missing: Named[]; fixerLeft: boolean; now: Now }
  | { id: 'confirm-hang'; missing: Named[]; now: Now }
  | { id: 'confirm-close'; now: Now }
  | { id: 'run-closed'; complete: boolean; jugs: Named[]; missing: Named[]; open?: StillOpen }
  | { id: 'stop-what' }
  | { id: 'nothing-to-stop' }
  | { id: 'in-without-run'; bath: Named }
  | { id: 'not-now'; now: Now };
