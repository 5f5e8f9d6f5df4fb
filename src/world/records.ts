import type { Strip } from '../chemistry/control-strip.js';
import type { Fact, FactOf, FilmFormat, FilmRef } from './fact.js';
import type { Contact, FilmState } from './film.js';
import type { Role } from './liquids.js';
import type { LiquidId, VesselRef } from './vessel.js';

/** A fact with its moment: `atMs` on the bench clock, `wallMs` on the calendar. */
export interface DatedFact {
  fact: Fact;
  atMs: number;
  wallMs: number;
}

/** What a vessel holds. `parts` sums to `volumeMl`. */
export interface Contents {
  volumeMl: number;
  /** ml of each liquid mixed in it; more than one after carry-over or a wrong pour */
  parts: Record<LiquidId, number>;
  /** film area this very liquid has processed, m²; it moves with the liquid when that is poured */
  workM2: number;
  /** what clung to film and got into it, too little to measure; how bad it is follows from the two liquids */
  traces: LiquidId[];
  /** what got into it and was not measured, while no bottle's record tells it */
  splashes?: LiquidId[];
}

/** What stands in the tank, and since when. */
export interface TankBath {
  /** the liquid as it was said, which is most of what is in there */
  liquid: LiquidId;
  role: Role;
  /** the sheet's step it serves; null: none, a wrong bath */
  stepId: string | null;
  /** since when it touches the film, ms on the bench clock */
  sinceMs: number;
  /** the film before it went in */
  filmBefore: FilmState;
  /** nobody said that it went in: later words proved it */
  inferred: boolean;
  /** where it came from */
  from: VesselRef;
  wantedS: number | null;
  /** backing was seen to come off into it */
  black?: true;
  /** seconds that this very bath takes, where that is not the sheet's time: a weaker batch, another temperature */
  aimS?: number;
  /** its temperature: as it was last read before it went in, and each reading in the tank */
  readings: Reading[];
}

/** A temperature that somebody read. */
export interface Reading {
  tempC: number;
  atMs: number;
}

export interface Contamination {
  wallMs: number;
  /** what was poured in; `volumeMl` null: it got in, and nobody measured how much */
  liquid: LiquidId;
  volumeMl: number | null;
  /** what it met, and how much of it */
  intoLiquid: LiquidId;
  intoMl: number;
}

/** `unanswered`: a question about it was left open; `spilled`: some of it is gone, and nobody said how much */
export type BottleDoubt =
  | 'oxidised'
  | 'gone-off'
  | 'mixed-wrong'
  | 'label-lost'
  | 'ph-off'
  | 'unanswered'
  | 'spilled';

/** One bottle, as of now. Amounts and counts are of the present filling; the number and name stay with the bottle. */
export interface BottleRecord {
  number: number;
  name: string | null;
  /** true while nobody has said what it holds: set up by default */
  assumed: boolean;
  /** somebody said what it holds, and nobody how much */
  volumeAssumed: boolean;
  capacityMl: number | null;
  /** somebody said how much it takes */
  capacityTold: boolean;
  liquid: LiquidId | null;
  batch: string | null;
  recipe: string | null;
  ph: number | null;
  contents: Contents;
  /** when this filling was put in the bottle, and when its batch was mixed (wall clock, ms) */
  filledWallMs: number | null;
  mixedWallMs: number | null;
  /** the bottle that most of it was decanted from */
  cameFrom?: number | undefined;
  pouredOutMl: number;
  pouredInMl: number;
  /** poured in from a jug or another bottle of the same liquid, as replenishment */
  replenishedMl: number;
  spilledMl: number;
  /** found missing when the bottle was measured: evaporation and what the film carried off */
  lostMl: number;
  /** runs this filling has served, and the film that went through */
  runs: number;
  filmAreaM2: number;
  films: Partial<Record<FilmFormat, number>>;
  contaminations: Contamination[];
  /** said against it, and not yet answered before a pour */
  doubt?: BottleDoubt | null;
  /** what may be in it, where the doubt is of that */
  doubtOf?: LiquidId | null;
  /** what was wrong with its batch when it was mixed */
  problems: string[];
  /** … and it is past saving: for the waste */
  unusable?: boolean;
  discardedWallMs: number | null;
}

export interface StepRecord {
  stepId: string;
  liquid: LiquidId | null;
  startedAtMs: number;
  startedWallMs: number;
  plannedS: number | null;
  actualS: number | null;
  heldS: number;
  startTempC: number | null;
  endTempC: number | null;
}

type PourRecord = Pick<FactOf<'poured'>, 'from' | 'to' | 'liquid' | 'volumeMl' | 'overridden'> & {
  wallMs: number;
};

/** One film load taken through a process. */
export interface RunRecord {
  runId: string;
  sheetId: string;
  tankMl: number;
  films: FilmRef[];
  startedAtMs: number;
  startedWallMs: number;
  endedWallMs: number | null;
  /** null while it goes on */
  complete: boolean | null;
  steps: StepRecord[];
  pours: PourRecord[];
  temperatures: { vessel: VesselRef; liquid: LiquidId | null; tempC: number; wallMs: number }[];
  deviations: { stepId: string; what: string; reasons?: readonly string[]; wallMs: number }[];
  spills: { liquid: LiquidId; volumeMl: number; place: string | null; wallMs: number }[];
  overrides: { move: string; verdict: string; why: string; wallMs: number }[];
  notes: { text: string; wallMs: number }[];
  undone: { what: string; wallMs: number }[];
  /** liquids whose work on this film has been counted */
  worked: LiquidId[];
  /** every bath the film was in, in order */
  contacts: Contact[];
  /** baths of the sheet that the film was hung without */
  lacking: LiquidId[];
}

export interface ShelfRecord {
  substance: string;
  massG: number;
  purity: number | null;
  pricePerKg: number | null;
}

/**
 * Every millilitre accounted for: what stands in bottles, tank and jug equals
 * brought + found − spilled − drained − lost.
 */
export interface Account {
  /** filled into bottles by mixing or by telling, and drawn from the tap */
  broughtMl: number;
  /** poured out of a vessel that should have held less: it was there, nobody had said so */
  foundMl: number;
  spilledMl: number;
  drainedMl: number;
  lostMl: number;
}

/** How long the last fillings and drainings of a tank took, s, oldest first. */
export interface Handling {
  fillS: number[];
  drainS: number[];
}

/** A tank with what is in it, while another one is at work. */
export type TankAside = Pick<World, 'tank' | 'tankMl' | 'film' | 'filmKnown' | 'films'>;

/** Everything that is true at the sink. Plain JSON. `runs` keeps those going on and the last few finished; the journal keeps all. */
export interface World {
  bottles: Record<number, BottleRecord>;
  /** the tank at work, with its film; the others stand aside under their names */
  tankKey: string;
  tanksAside: Record<string, TankAside>;
  /** by tank and volume, as its use has shown */
  handling: Record<string, Handling>;
  tank: Contents & { bath: TankBath | null };
  /** what the tank takes, ml; null: nobody said */
  tankMl: number | null;
  /** baths that stand in jugs, by the liquid they are called */
  jugs: Record<LiquidId, Contents>;
  film: FilmState;
  /** whether there is film in the tank was said */
  filmKnown: boolean;
  /** what is in the tank, as it was told; empty: nobody said */
  films: FilmRef[];
  /** by vessel, and by `liquid:ID` */
  readings: Record<string, Reading>;
  /** so much too high the thermometer in use reads, as it was told, °C; taken off every reading */
  thermometerErrorC?: number;
  /** since when the heater of the tub is off, as it was told, ms; left out: it is on */
  heaterOffMs?: number;
  /** by vessel: a reading that was asked about, and neither confirmed nor dropped */
  doubts: Record<string, Reading>;
  /** the run that goes on, with the sheet it was begun with */
  run: { runId: string; sheetId: string; sheet: Readonly<Record<string, unknown>> | null } | null;
  runs: Record<string, RunRecord>;
  shelf: Record<string, ShelfRecord>;
  /** control strips in the order they were read; the first is the reference */
  strips?: readonly Strip[];
  account: Account;
}
