import type { TempState } from '../../../../process/temperature.js';
import type { VesselRef } from '../../../../world/vessel.js';

/** What a message is about: a liquid, the vessel it is in, or the room. */
export interface WarmSubject {
  /** as spoken */
  liquid: string | null;
  vessel: VesselRef | { kind: 'room' } | { kind: 'hot-tap' } | { kind: 'cold-tap' } | null;
}

/** How a bath stands to its aim. Times in s. `read` false: nobody has read it, all of this is a guess. */
export type WarmReady =
  | { state: 'no-aim' }
  | { state: 'in'; sinceS: number; leavesInS: number | null; leaving: 'hot' | 'cold' | null; sure: boolean }
  | { state: 'coming'; inS: number; earliestS: number; latestS: number | null; from: 'below' | 'above' }
  | { state: 'never'; endC: number; aimC: number; from: 'below' | 'above' };

export interface WarmItem {
  subject: WarmSubject;
  ready: WarmReady;
  tempC: number;
  /** half the 90 % band, °C */
  halfBandC: number;
  /** null: no aim on the sheet */
  aim: { aimC: number; lowC: number; highC: number } | null;
  /** how the last reading stands to the aim; null: no reading, or no aim */
  read: TempState | null;
  /** what it was last read at, °C */
  lastReadC: number | null;
  /** s since it was last read, it or what it was poured from; null: never */
  readAgoS: number | null;
  /** read within tolerance so lately that the reading itself is the answer */
  fresh: boolean;
  /** what it was read at before it was poured into where it is, °C */
  readBeforeC?: number;
}

export type WarmDoubt =
  /** nobody said what it is of */
  | { why: 'which' }
  | { why: 'impossible'; meantC: number | null }
  | { why: 'fahrenheit'; meantC: number }
  | { why: 'not-a-room'; fits: WarmSubject | null }
  | { why: 'other-vessel'; expectedC: number; fits: WarmSubject }
  | { why: 'unexpected'; expectedC: number }
  /** no bath in use is so cold or warm; `meantC`: with the point in another place it would be */
  | { why: 'unlikely'; meantC: number | null };

export type WarmMessage =
  | { id: 'warm-reading'; item: WarmItem; allReady: boolean; instead: WarmDropped | null }
  | { id: 'warm-noted'; subject: WarmSubject; tempC: number }
  | { id: 'warm-question'; subject: WarmSubject; heardC: number; doubt: WarmDoubt; tooHot?: true }
  | { id: 'warm-still-asking'; subject: WarmSubject; heardC: number }
  | ({ id: 'warm-dropped' } & WarmDropped)
  | {
      id: 'warm-all';
      items: WarmItem[];
      last: WarmItem | null;
      read: { subject: WarmSubject; inS: number } | null;
    }
  | { id: 'warm-one'; item: WarmItem; pour: WarmPour | null }
  | { id: 'warm-temperature'; item: WarmItem }
  /** what was read of it counts for nothing until it is read again */
  | { id: 'warm-doubted'; subject: WarmSubject; tempC: number }
  | { id: 'warm-unknown'; subject: WarmSubject }
  | { id: 'warm-nothing' }
  | {
      id: 'warm-tub-set';
      setC: number;
      /** s until the tub is there; null: not within hours, or never read */
      inS: number | null;
      hot: { addMl: number; hotC: number } | null;
    }
  | {
      id: 'warm-set-point';
      /** `reading`: it is taken to stay at what it was read at */
      from: 'sheet' | 'reading' | 'readings';
      verdict: 'too-low' | 'too-high' | 'slow';
      /** set on the controller, °C */
      setC: number;
      /** nobody said so */
      assumed: boolean;
      /** what the tub really holds, °C */
      holdsC: number;
      subject: WarmSubject;
      aimC: number;
      setToC: number;
    }
  | { id: 'warm-heater'; on: boolean; first: WarmItem | null }
  | { id: 'warm-moved'; item: WarmItem; into: boolean }
  | {
      id: 'warm-blend';
      aimC: number;
      volumeMl: number | null;
      hotMl: number;
      coldMl: number;
      hotShare: number;
    }
  | { id: 'warm-blend-needs'; hot: boolean; cold: boolean }
  | {
      id: 'warm-blend-fails';
      aimC: number;
      why: 'too-warm' | 'too-cold' | 'taps-alike';
      hotC: number;
      coldC: number;
    }
  /** rinse water was read; `costC` is what it takes from the bath that is poured after it (negative: gives) */
  | { id: 'warm-rinse'; tempC: number; costC: number }
  | { id: 'warm-curves'; any: boolean }
  /** `out`: baths that will not come into tolerance as things stand */
  | { id: 'warm-all-ready'; last: WarmItem; unread: WarmSubject[]; out: WarmSubject[] }
  | { id: 'warm-drift'; item: WarmItem; way: 'hot' | 'cold'; inTub: boolean }
  /** the tub is set for the developer and warmer than these baths may get */
  | { id: 'warm-take-out'; setC: number; subjects: WarmSubject[] };

export interface WarmDropped {
  subject: WarmSubject;
  heardC: number;
}

/** What the tank takes, and how warm to pour. */
export interface WarmPour {
  pourC: number;
  lossC: number;
  prewarm: boolean;
}
