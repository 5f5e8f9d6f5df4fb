import type { Tolerance, WhatIf } from '../contamination.js';
import type { StripVerdict } from '../control-strip.js';
import type { PhExplanation } from '../effects.js';
import type { Addition } from '../fitness.js';
import type { Harm } from '../safety/cautions.js';
import type { DayList } from '../shelf/buying.js';
import type { ReactiveClass } from '../substances.js';
import type { Phase } from './state.js';

/** An amount as it is said: number, unit, and the decimals the scale shows. */
export interface Said {
  amount: number;
  unit: 'g' | 'ml';
  decimals: number;
}

/** What a batch cannot become right with: too much of a part, or something that is none. */
export interface Spoiled {
  name: string;
  stranger?: true;
}

/** What the coach has to say, as data. Words are in src/language/languages/english/phrases/mix. */
export type MixMessage =
  | { id: 'mix-opened'; name: string; volumeMl: number; batch: string; cautions: string[]; parts: number }
  | { id: 'mix-unknown'; why: string }
  | { id: 'mix-how-much'; name: string }
  /** too small for the scale; so much can be mixed, and keeps so long */
  | { id: 'mix-ask-larger'; why: string; volumeMl: number; keepDays: number }
  | { id: 'mix-busy'; name: string }
  | { id: 'mix-none' }
  /** `scale`: something will be weighed, so the scale is set up too */
  | { id: 'mix-water'; volumeMl: number; lowC: number; highC: number; scale: boolean }
  | {
      id: 'mix-weigh';
      name: string;
      said: Said;
      tolerance: Said;
      position: number;
      of: number;
      note?: string;
      cautions: string[];
      /** rough look of a powder, teaspoons; a guard against a scale in ounces */
      teaspoons?: number;
      dilute?: { amount: Said; inMl: number; takeMl: number; keepDays: number };
      /** already weighed and set aside */
      aside?: Said;
    }
  /** measured for the stock of a part, or in it: so much of that goes into the batch */
  | { id: 'mix-stock'; name: string; inMl: number; takeMl: number }
  | { id: 'mix-right'; name: string; said: Said; heard?: string }
  | { id: 'mix-under'; name: string; said: Said; more: Said }
  | { id: 'mix-over'; name: string; said: Said; excess: Said }
  | { id: 'mix-set-grams'; said: Said }
  /** the unit that the scale stood in is counted in already */
  | { id: 'mix-unit-known' }
  | { id: 'mix-ask-unit'; value: number; unit: 'oz' | 'grain'; said: Said }
  | { id: 'mix-ask-tenfold'; value: number; said: Said; direction: 'more' | 'less' }
  | { id: 'mix-ask-tare'; name: string; excess: Said; sameAs?: string }
  | { id: 'mix-ask-form'; value: Said; name: string; other: string; family: string }
  /** `early`: it was named, and so many parts come before it; `isIn`: all of it is in already */
  | { id: 'mix-ask-jar'; value: Said; name: string; other: string; early?: number; isIn?: boolean }
  /** how much of a part the batch takes, and what of it is in the water */
  | { id: 'mix-amount'; name: string; said: Said; inWater: Said; settled: boolean }
  /** so much of another form has what so much of this one has, if it is pure */
  | { id: 'mix-instead'; name: string; said: Said; of: string; ofSaid: Said; note: string | null }
  /** named, and settled before; `name`: what is asked for */
  | { id: 'mix-in-already'; other: string; name: string | null }
  /** named, and no part of the recipe */
  /** `belongs`: it is a part of the recipe, and went in for another one */
  /** `gas`: the two give it off together */
  | {
      id: 'mix-stranger';
      name: string;
      bath: string;
      added: boolean;
      dangers: string[];
      gas: boolean;
      belongs?: true;
    }
  /** it stays stopped until it is given up */
  | { id: 'mix-held'; name: string }
  | { id: 'mix-ask-dissolved'; name: string; other: string }
  | {
      id: 'mix-weigh-again';
      name: string;
      said: Said;
      why: 'grams' | 'zero' | 'decimal' | 'form' | 'jar' | 'spilt';
    }
  /** some of it went astray */
  | { id: 'mix-spilt'; name: string; cautions: string[] }
  | { id: 'mix-form-changed'; name: string; said: Said }
  /** a form or purity was told; `said`: how much of a solution goes in, where that is still to come */
  | { id: 'jar-noted'; name: string; purityPercent: number | null; said: Said | null }
  /** `strongPercent`: a solution so strong was told, whose density is not known */
  | { id: 'jar-which'; family: string | null; forms: string[]; strongPercent?: number }
  | { id: 'mix-water-is'; tempC: number; lowC: number; highC: number; agent: boolean }
  | { id: 'shopping'; list: DayList; tankMl: number }
  | { id: 'control'; verdict: StripVerdict | null; strips: number }
  | {
      id: 'checks';
      name: string;
      ph: { aim: number; tolerance: number; buffered: boolean } | null;
      gravity: { aim: number; tolerance: number } | null;
    }
  | { id: 'keeping'; baths: { name: string; unusedDays: number; usedDays: number }[] }
  | { id: 'mix-aside'; other: string; name: string; said: Said }
  | { id: 'mix-no-weight'; name: string; said: Said }
  /** dissolved, while the figure that was told is in question */
  | { id: 'mix-ask-doubted'; name: string; value: number; said: Said }
  | { id: 'mix-part-in'; name: string; inWater: Said; more: Said }
  | { id: 'mix-missing'; name: string; optional: boolean; phWithout: number | null; ph: number | null }
  | { id: 'mix-out-of-order'; other: string; name: string; risky: boolean }
  /** weighed on while a question is open: it counts when that is answered (`waits`), or not at all */
  | { id: 'mix-untaken'; waits: boolean }
  | { id: 'mix-offer-scale'; name: string; excess: Said; volumeMl: number; phShift: number | null }
  | {
      id: 'mix-cannot-scale';
      name: string;
      excess: Said;
      because: 'jug' | 'range' | 'factor';
      phShift: number | null;
      strength: number;
    }
  /** it is carried on with although it cannot become right */
  /** too much of a part, or a stranger, is in it */
  | ({ id: 'mix-will-fail'; still?: true } & Spoiled)
  /** made up, and by its weighings not what the recipe says; `add` would bring it back */
  | { id: 'mix-failed'; name: string; problems: string[]; add: Addition[] }
  | { id: 'mix-scaled'; volumeMl: number; toAdd: number }
  | { id: 'mix-kept'; name: string; phShift: number | null }
  | { id: 'mix-little-short'; name: string; inWater: Said; short: Said }
  | { id: 'mix-make-up'; volumeMl: number }
  /** `grow`: the batch can still be made as large */
  /** `pourToMl`: nothing is in it yet, so the water can be poured off to this */
  | { id: 'mix-too-full'; volumeMl: number; strength: number; grow: boolean; pourToMl?: number }
  /** more water to begin with than was asked for, and less than the whole */
  | { id: 'mix-much-water'; volumeMl: number; aimMl: number; fullMl: number }
  /** what is dissolved cannot be taken out */
  | { id: 'mix-stays-in'; name: string }
  | { id: 'mix-too-little'; volumeMl: number; aimMl: number }
  | { id: 'mix-ask-ph'; aim: number; tolerance: number; gravity?: number }
  | { id: 'mix-gravity'; gravity: number; aim: number; tolerance: number; good: boolean; strength: number }
  | { id: 'mix-ph-good'; ph: number; aim: number }
  | { id: 'mix-ask-meter'; ph: number }
  | { id: 'mix-ph-near'; ph: number; aim: number; tolerance: number }
  | { id: 'mix-ph-off'; ph: number; aim: number; tolerance: number; slips: PhExplanation[] }
  | { id: 'mix-ask-bottle'; name: string; volumeMl: number; again?: boolean }
  | { id: 'mix-ask-taken'; bottle: number; holds: string }
  | {
      id: 'mix-done';
      name: string;
      liquid: string;
      batch: string;
      volumeMl: number;
      keepUntil: string;
      problems: string[];
      bottle?: number;
    }
  | { id: 'mix-label'; text: string }
  | { id: 'mix-stopped'; name: string; used: number }
  | { id: 'mix-ask-stop'; name: string }
  | { id: 'mix-ask-cleared'; name: string }
  | { id: 'mix-went-on' }
  | {
      id: 'mix-where';
      name: string;
      phase: string;
      next?: string;
      said?: Said;
      /** of the part in hand: so much is weighed, and not in the water yet */
      weighed?: Said;
      /** what is in the water so far */
      inWater: { name: string; said: Said }[];
      /** told, and asked about since */
      asked?: { name: string; said: Said };
      spoiled?: Spoiled;
      doneParts: number;
      of: number;
    }
  | { id: 'mix-not-now'; why: 'no-question' }
  | { id: 'mix-not-now'; why: 'not-yet'; phase: Phase }
  | { id: 'mix-bad-value'; why: 'negative' | 'ph' | 'unit' }
  | {
      id: 'until-spoiled';
      poured: string;
      into: string;
      volumeMl: number;
      /** the volume was told or is on record; else a litre is reckoned for */
      told: boolean;
      /** of other things, by the record, ml */
      already: number;
      most: Tolerance;
    }
  | {
      id: 'what-if';
      answer: WhatIf;
      /** not said, taken from the record, ml */
      recordedMl?: number;
      /** what household bleach would do there, where "bleach" may have meant that */
      ifHousehold: string[];
    }
  | { id: 'what-if-ask'; why: 'volume' | 'into' }
  /** two things without amounts */
  | {
      id: 'may-meet';
      names: string[];
      dangers: string[];
      unknown: string[];
      ifHousehold: string[];
      /** some of it is deadly in any amount, or one of them comes from a jar: no trace of it is harmless */
      never: boolean;
      /** baths of a process whose formulas are not kept */
      otherProcess: string[];
      /** what they do to each other comes off as a gas */
      gas: boolean;
      /** why the guard lets neither into the bottle of the other, where it has a reason of these two */
      spoils: string | null;
      /** they have met already */
      done?: true;
    }
  | {
      id: 'mix-plan';
      name: string;
      volumeMl: number;
      parts: { name: string; said: Said }[];
      short: { name: string; missing: Said; optional: boolean }[];
      costPerFilm: number;
      unpriced: number;
      films: number;
      /** false: nothing was ever put on the shelf, so nothing is said to be short */
      shelfKept: boolean;
    }
  | { id: 'mix-short'; short: { name: string; missing: Said; optional: boolean }[] }
  | { id: 'shelf-one'; name: string; said: Said | null; enoughMl?: number }
  | { id: 'shelf-all'; items: { name: string; said: Said }[] }
  | { id: 'shelf-added'; name: string; said: Said; purityPercent: number | null }
  | { id: 'shelf-which'; substance: string; forms: string[] }
  /** `bath`: what it must not meet, worst first, `gas`: or a poisonous one comes of it; and what it does by itself */
  | {
      id: 'mix-cautions';
      about: string;
      cautions: string[];
      bath?: { keepFrom: ReactiveClass[]; gas: boolean; harms: Harm[] };
    }
  | { id: 'shelf-unknown'; substance: string };
