import type { PhBy } from '../chemistry/ph-reading.js';
import type { Exposure } from '../chemistry/safety/first-aid.js';
import type { FilmFormat } from '../world/fact.js';
import type { LiquidId, VesselRef } from '../world/vessel.js';

/**
 * What the user meant, once words have been understood. One sentence gives one intent.
 * Optional fields were not said; the desk that answers asks for what it needs, it never guesses.
 * Units: `tempC` °C, `volumeMl` ml, `seconds` s, `massG` g.
 */
export type Intent =
  | RunIntent
  | WorldIntent
  | SpeechIntent
  | TalkIntent
  | MixIntent
  | WarmIntent
  | LedgerIntent
  /** heard as speech to the assistant, but not clear enough to act on */
  | { type: 'unsure'; candidates: Intent[] };

/** Taking one film load through the process. */
export type RunIntent =
  | { type: 'begin-run'; sheet?: string }
  | { type: 'film-loaded' }
  /** said when it is asked: there is no film in the tank */
  | { type: 'no-film' }
  | { type: 'next-step' }
  /** `agoS`: it went in that long before it was said; `volumeMl`, or `share` of a tankful: so much of it, where that was said */
  | {
      type: 'bath-in';
      liquid?: LiquidId;
      agoS?: number;
      volumeMl?: number;
      share?: number;
      /** put right: it, and not the bath that was cleared */
      instead?: true;
    }
  | { type: 'start-clock' }
  | { type: 'hold-clock' }
  | { type: 'resume-clock' }
  | { type: 'drain-now' }
  | { type: 'tank-empty'; agoS?: number }
  | { type: 'ask-time-left' }
  | { type: 'ask-time-until'; liquid: LiquidId }
  | { type: 'ask-next' }
  | { type: 'ask-where' }
  /** what the film has been through, or whether it has had one bath; how it will come out; or whether its last bath was long enough */
  | { type: 'ask-film'; liquid?: LiquidId; about?: 'outlook' | 'time' }
  | { type: 'ask-cautions'; substance?: string }
  /** bottle (or jug) to tank, about to happen; `besides`: what was said against it in the same sentence */
  | { type: 'pour-in'; liquid?: LiquidId; from?: VesselRef; besides?: string }
  /** tank to bottle, about to happen */
  | { type: 'pour-back'; liquid?: LiquidId; to?: VesselRef; volumeMl?: number; besides?: string }
  /** jug (or another bottle) to bottle, about to happen */
  | {
      type: 'pour-between';
      liquid?: LiquidId;
      from?: VesselRef;
      to?: VesselRef;
      volumeMl?: number;
      besides?: string;
    }
  /** tank (or bottle) to the sink or a waste container */
  | { type: 'pour-away'; liquid?: LiquidId; from?: VesselRef }
  | {
      type: 'bottle-holds';
      /** left out: the one bottle of this liquid */
      bottle?: number;
      liquid?: LiquidId;
      volumeMl?: number;
      capacityMl?: number;
      /** to the brim, or as full as it usually is */
      full?: true;
      /** as a share of how full it usually is */
      share?: number;
    }
  | { type: 'tank-takes'; volumeMl: number }
  /** another tank, by its number, or by its size among those that were told */
  | { type: 'use-tank'; tank?: number; size?: 'small' | 'large' }
  /** `anew`: what was read of it before was wrong; `byOther`: with another thermometer */
  | { type: 'temperature'; of: LiquidId | VesselRef; tempC: number; anew?: true; byOther?: true }
  /** the thermometer in use reads so much too high or too low, °C */
  | { type: 'thermometer-reads'; byC: number; way: 'high' | 'low' }
  /** `bottle`: all that was in it */
  | {
      type: 'spill';
      volumeMl?: number;
      liquid?: LiquidId;
      place?: string;
      bottle?: number;
      /** out of the tank, which is not tight */
      tank?: true;
      /** so much of what is there, or (`some`) nobody knows how much */
      share?: number;
      some?: true;
      /** more about the one that was told of */
      again?: true;
    }
  /** wiped up, `by`: with something that is no water */
  | { type: 'spill-cleaned'; by?: LiquidId; liquid?: LiquidId }
  /** so much more, or (`inAll`) so long in all */
  | { type: 'add-time'; seconds: number; inAll?: true }
  | { type: 'note'; text?: string }
  /** a bath or a bottle by itself: the answer to "which?" */
  | { type: 'part'; liquid?: LiquidId; vessel?: VesselRef }
  /** `denied`: what was said has not happened; `reading`: the last reading, whatever was said since */
  | { type: 'undo'; denied?: true; reading?: true }
  | { type: 'confirm' }
  | { type: 'cancel' }
  /** the explicit words that let a refused pour go ahead; nothing else does */
  | { type: 'override' }
  /** stop what? asked when it matters */
  | { type: 'stop' }
  | { type: 'film-hung' }
  | { type: 'close-run' };

/** What happened or is so at the sink, apart from the run's own steps, and what puts right what was said. */
export type WorldIntent =
  /** a pour that has happened already, however it was worded: "it's gone in", "the developer is in bottle 2" */
  | {
      type: 'poured';
      liquid?: LiquidId;
      from?: VesselRef;
      to?: VesselRef;
      /** into the bottle of this bath */
      toOf?: LiquidId;
      volumeMl?: number;
      /** so much of what was there */
      share?: number;
      /** a part of it, and nobody said how much */
      some?: true;
      /** and not where it was said to go */
      instead?: VesselRef;
      /** that long before it was said */
      agoS?: number;
    }
  | { type: 'bottle-empty'; bottle: number }
  /** puts right what was said last; what was not said stays as it was */
  | {
      type: 'correct';
      liquid?: LiquidId;
      vessel?: VesselRef;
      tempC?: number;
      volumeMl?: number;
      seconds?: number;
      massG?: number;
      /** the part of a mix that it was so much of */
      substance?: string;
      /** the scale showed this, not grams */
      unit?: 'oz' | 'grain' | 'kg' | 'mg';
      /** … at every weighing of this mix */
      all?: true;
      /** a bare number: "I said forty, not fourteen" */
      value?: number;
      /** … and the number that it puts right */
      wrong?: number;
      agoS?: number;
      /** a bath was mixed so long ago */
      ageDays?: number;
      /** `agoS` is from when it was told, not from now */
      asTold?: true;
      /** so much of a tankful */
      share?: number;
    }
  /** calls off a pour that was cleared, or (`wrong`) says that the vessel in the hand is the wrong one; `yet`: not yet; `no`: and no, or stop */
  | { type: 'withdraw'; wrong?: true; yet?: true; no?: true }
  /** away from the sink, for so long */
  | { type: 'away'; seconds?: number }
  /** everybody is called out of the room, is out of it, asks whether to go back, is back or about to be, or found the air clear */
  | { type: 'room'; is: 'out' | 'left' | 'asks' | 'back' | 'safe' }
  /** a bath, or a wash, was left out, and what that does is asked */
  | { type: 'left-out'; liquid?: LiquidId }
  /** not known to the user whether it is in the tank; `suspect`: that may have gone in, or `other`, and not the bath on record */
  | { type: 'in-doubt'; liquid?: LiquidId; suspect?: LiquidId | VesselRef; other?: LiquidId | VesselRef }
  | { type: 'redo' }
  /** takes so much off the time of the bath that is in */
  | { type: 'shorten'; seconds: number }
  /** the last bath was drained so much after its call */
  | { type: 'drained-late'; seconds: number }
  /** something got into a bath or a vessel; `all` of it; `with`: two went into one bottle */
  | {
      type: 'contaminated';
      liquid: LiquidId;
      with?: LiquidId;
      intoLiquid?: LiquidId;
      intoBottle?: number;
      /** the jug of the mix, or the tank */
      intoVessel?: 'jug' | 'tank';
      volumeMl?: number;
      all?: true;
    }
  /** two bottles changed places or labels; `sure`: and what each holds now was said with it */
  | {
      type: 'swapped';
      bottle?: number;
      other?: number;
      liquid?: LiquidId;
      otherLiquid?: LiquidId;
      sure?: true;
    }
  /** every bottle that is warming has this temperature */
  | { type: 'all-at'; tempC: number; except?: LiquidId }
  /** leaves out what is due, or the step of this liquid, on the user's word */
  /** `for`: this takes its place, as was said by who means it; `substance`: this part of the mix */
  | { type: 'skip'; liquid?: LiquidId; for?: LiquidId; substance?: string }
  /** a bath that the film had before anything was said */
  | { type: 'had-before'; liquid: LiquidId; seconds?: number }
  /** what was said to be in went into a tank without the film */
  | { type: 'tank-without-film'; liquid?: LiquidId }
  /** what is being processed; said before, during or after loading */
  | {
      type: 'films';
      count?: number;
      format?: FilmFormat;
      stock?: string;
      lengthM?: number;
      /** stops of push (+) or pull (-) */
      pushStops?: number;
      /** a name for the roll */
      name?: string;
    }
  /** why the picture is off; `cast`: the look complained of, such as green or flat */
  | { type: 'ask-why'; cast?: string; about?: 'cause' | 'change' }
  /** several facts in one sentence, in the order said */
  | { type: 'several'; intents: Intent[] };

/** About the talking itself; handled beside the run, never journaled as a deed. */
export type SpeechIntent =
  | { type: 'quiet' }
  | { type: 'say-again' }
  | { type: 'louder' }
  | { type: 'softer' }
  | { type: 'slower' }
  | { type: 'faster' }
  | { type: 'help'; topic?: string }
  /** the rest of the last answer */
  | { type: 'more' }
  | { type: 'verbosity'; level: 'brief' | 'normal' | 'full' };

/** A unit that is not used here, and what it is here can be asked. */
export type ConvertUnit =
  | 'fahrenheit'
  | 'celsius'
  | 'oz'
  | 'pound'
  | 'grain'
  | 'fluid-ounce'
  | 'pint'
  | 'quart'
  | 'gallon';

/** Questions and talk that change nothing; `src/app/desks/talk` answers them. */
export type TalkIntent =
  /** a question of the trade whose answer stands beside it in the grammars */
  | { type: 'ask-advice'; topic: string; liquid?: LiquidId; bottle?: number; other?: number }
  /** the temperature that a bath, or the one due, needs, and how exactly; `tempC`: and whether this is right for it */
  | { type: 'ask-target'; liquid?: LiquidId; tempC?: number }
  | { type: 'ask-duration'; liquid?: LiquidId }
  /** how long to develop at another temperature; its last reading when none was said */
  | { type: 'ask-time-at'; tempC?: number }
  /** when the whole run will be done */
  | { type: 'ask-end' }
  | { type: 'ask-clock' }
  /** what an amount or a temperature in another unit is in grams, millilitres or degrees */
  | { type: 'ask-convert'; value: number; unit: ConvertUnit }
  /** how long a bath really was in */
  | { type: 'ask-actual'; liquid?: LiquidId }
  | { type: 'ask-agitation' }
  /** which bottle a bath, or what is due, is in or goes to */
  | { type: 'ask-bottle-of'; liquid?: LiquidId }
  | { type: 'ask-volume'; liquid?: LiquidId }
  /** how much of a component an open mix needs */
  | { type: 'ask-amount'; substance?: string }
  | { type: 'ask-reason' }
  | { type: 'ask-disposal'; liquid?: LiquidId }
  | { type: 'ask-drying' }
  | { type: 'ask-shopping'; films?: number }
  | { type: 'ask-notes' }
  /** without `seconds` it is asked when */
  | { type: 'remind'; seconds?: number; text?: string }
  | { type: 'ask-timers' }
  /** all of them, or those that were set for so long */
  | { type: 'cancel-timer'; seconds?: number }
  /** somebody is hurt; without `how` it was not said where; `also`: and so too; `about`: whether the rinsing may end, that it is over, that it still hurts, what if, whom to call, or a contact lens that does not come out */
  | {
      type: 'hurt';
      how?: Exposure;
      also?: Exposure[];
      liquid?: LiquidId;
      about?: 'rinsing' | 'over' | 'still' | 'if' | 'call' | 'lens';
    }
  | { type: 'greeting' }
  | { type: 'thanks' }
  /** "give me a minute" */
  | { type: 'busy' }
  | { type: 'ask-identity' };

/** The mixing bench. */
export type MixIntent =
  | { type: 'mix-start'; recipe: string; volumeMl?: number }
  | { type: 'mix-plan'; recipe: string; volumeMl?: number }
  | { type: 'mix-next' }
  | { type: 'mix-where' }
  /** a scale reading; `unit` and what was weighed only when they were said; `added`: it is in the water */
  | {
      type: 'reading';
      value: number;
      unit?: 'g' | 'kg' | 'mg' | 'oz' | 'grain' | 'ml' | 'l';
      substance?: string;
      added?: true;
      /** all of it went in so many times */
      times?: number;
    }
  | { type: 'dissolved' }
  /** some of a powder is to come out again */
  | { type: 'take-out' }
  | { type: 'scale-zeroed' }
  | { type: 'ph-reading'; ph: number }
  | { type: 'made-up'; volumeMl?: number }
  | { type: 'ask-label' }
  | { type: 'mix-stop' }
  | { type: 'shelf-have'; substance?: string }
  | { type: 'shelf-add'; substance: string; massG: number; purityPercent?: number }
  /** what form a powder really is, and how pure: of a jar, or of the part in hand */
  | { type: 'jar-is'; substance?: string; hydrate?: string; purityPercent?: number }
  /** how long a bath keeps, unused and used */
  | { type: 'ask-keeping'; liquid?: LiquidId }
  /** the pH and specific gravity that a bath should have, and how they are read */
  | { type: 'ask-checks'; liquid?: LiquidId }
  /** how the control strips stand */
  | { type: 'ask-control' }
  | {
      type: 'what-if';
      /** of a liquid; `massG` of a solid */
      volumeMl?: number;
      massG?: number;
      /** a bath, a recipe or a substance by id; so is what it goes into */
      liquid: LiquidId;
      intoVolumeMl?: number;
      intoLiquid?: LiquidId;
      intoBottle?: number;
      /** how much of it, until the bath is spoiled */
      untilSpoiled?: boolean;
      /** they have met already */
      done?: true;
    };

/** Bottles, tub and tank coming to temperature. */
export type WarmIntent =
  | { type: 'ask-ready'; liquid?: LiquidId }
  | { type: 'ask-temperature'; of: LiquidId | VesselRef }
  | { type: 'tub-set'; tempC: number }
  | { type: 'heater'; on: boolean }
  | { type: 'vessel-moved'; of: LiquidId | VesselRef; into: boolean }
  | { type: 'ask-blend'; tempC: number; volumeMl?: number }
  | { type: 'show-curves' };

/** The bottles' memory. */
export type LedgerIntent =
  | { type: 'ask-bottle'; bottle: number }
  | { type: 'ask-bottles' }
  | { type: 'ask-age'; liquid?: LiquidId }
  | { type: 'ask-mixed'; liquid?: LiquidId }
  | { type: 'ask-fullest' }
  | { type: 'ask-life'; liquid?: LiquidId; bottle?: number; films?: number }
  /** whether every bath of the process is good for so many films more */
  | { type: 'ask-next-roll'; films?: number }
  | { type: 'ask-replenish'; liquid?: LiquidId }
  /** what a bath did and when it was mixed, before it came to this bench; `month` 1 to 12, the last one that is past */
  | {
      type: 'bath-history';
      liquid?: LiquidId;
      bottle?: number;
      films?: number;
      ageDays?: number;
      /** the last such day, 0 Sunday to 6 */
      weekday?: number;
      month?: number;
      day?: number;
    }
  /** the pH of a bath that stands mixed */
  | { type: 'bath-ph'; ph: number; by?: PhBy; liquid?: LiquidId; bottle?: number }
  | { type: 'bottle-discarded'; bottle: number }
  | { type: 'bottle-named'; bottle: number; name: string }
  | { type: 'ask-runs' };

/** What a bottle holds, its number known. */
export type BottleHolds = IntentOf<'bottle-holds'> & { bottle: number };

export type IntentOf<T extends Intent['type']> = Extract<Intent, { type: T }>;
