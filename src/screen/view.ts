/**
 * What every screen shows: the terminal, the page, the pictures and the report of a run read this and nothing else.
 * Plain JSON. Moments are ms on the bench clock unless the name says wall; temperatures °C; volumes ml.
 */
export interface ScreenView {
  atMs: number;
  wallMs: number;
  /**
   * Changes whenever the run moves on or something is asked or answered: a button drawn for another moment must not
   * count any more.
   */
  moment: string;
  sheet: string;
  place: Place;
  bath: BathView | null;
  /** what the hands do next; the first of `acts` when it has a time */
  act: ActView;
  /** everything timed in the bath that stands in the tank, soonest first */
  acts: TimedAct[];
  motion: Motion;
  /** the bath after this one */
  next: { bath: string; bottle: number | null; aimC: number | null } | null;
  vessels: VesselView[];
  /** what waits for an answer, or an open spill; the newest first to be answered */
  open: { kind: 'warning' | 'question' | 'spill'; text: string } | null;
  heard: HeardView | null;
  ears: EarsView;
  /** sentences that make sense to press now; each is typed for the person, word for word */
  offers: Offer[];
  /** the screens' own texts in another language, by their English */
  words?: Readonly<Record<string, string>>;
}

/** Where the person is in the job. */
export type Place =
  | 'idle'
  | 'preparing'
  | 'warming'
  | 'loading'
  | 'pouring'
  | 'immersed'
  | 'draining'
  | 'rinsing'
  | 'hanging'
  | 'closing'
  | 'closed';

export interface BathView {
  name: string;
  vessel: string;
  startedMs: number;
  /** null: no clock, the person ends it */
  endsMs: number | null;
  /** the clock stands still since; null: it runs */
  stoppedMs: number | null;
}

/** The next act of the hands. `dueMs` null: when the person is ready. */
export interface ActView {
  words: string;
  dueMs: number | null;
}

export interface TimedAct {
  kind: 'agitate' | 'rest' | 'drain' | 'pour';
  words: string;
  dueMs: number;
}

/** What the tank should be doing. */
export type Motion = 'agitate' | 'rest' | 'still' | null;

/** How a figure is known. `reckoned` follows from earlier readings; `unknown` has no figure at all. */
export type Known = 'measured' | 'told' | 'reckoned' | 'assumed' | 'unknown';

export interface VesselView {
  key: string;
  label: string;
  /** null: empty, or nobody said */
  holds: string | null;
  holdsKnown: Known;
  volumeMl: number | null;
  temp: TempView;
  /** what the sheet asks of what it holds; null: nothing */
  aim: { aimC: number; lowC: number; highC: number } | null;
  fit: Fit;
  /** when it is expected to be within its limits; null: it is, or nobody can tell */
  readyMs: number | null;
}

export interface TempView {
  known: Known;
  /** null when unknown */
  tempC: number | null;
  /** the 90 % band of what was reckoned */
  lowC: number | null;
  highC: number | null;
  readMs: number | null;
}

export type Fit = 'within' | 'too-cold' | 'too-warm' | 'unknown';

export interface HeardView {
  words: string;
  /** 0 to 1 */
  confidence: number;
  understood: boolean;
  atMs: number;
}

export interface EarsView {
  /** null: nobody listens */
  microphone: 'computer' | 'screen' | null;
  /** name of the screen that is the microphone */
  screen: string | null;
}

export interface Offer {
  label: string;
  /** exactly what is typed */
  words: string;
  /** the one that fits best now */
  first: boolean;
}

/** One line of the conversation. */
export interface ScreenLine {
  id: number;
  kind: 'call' | 'answer' | 'warning' | 'question' | 'you' | 'aside' | 'picture';
  text: string;
  atMs: number;
}

/** The pictures' part, made only when one is drawn. */
export interface PicturesView {
  curves: CurvesView;
  timeline: TimelineView | null;
  bottles: BottleView[];
}

export interface CurvesView {
  fromMs: number;
  nowMs: number;
  toMs: number;
  series: CurveView[];
}

export interface CurveView {
  name: string;
  aim: { aimC: number; lowC: number; highC: number } | null;
  readings: { atMs: number; tempC: number }[];
  /** the reckoned curve with its 90 % band */
  curve: { atMs: number; tempC: number; lowC: number; highC: number }[];
  /** when it comes within its limits; null: it is, or never */
  readyMs: number | null;
}

/** One run, planned and real. */
export interface TimelineView {
  runId: string;
  sheet: string;
  films: string[];
  tankMl: number;
  startedMs: number;
  startedWallMs: number;
  endedMs: number | null;
  nowMs: number;
  complete: boolean | null;
  /** the sheet laid out from the first bath that went in */
  planned: { name: string; fromMs: number; toMs: number }[];
  real: {
    name: string;
    fromMs: number;
    /** null: it goes on */
    toMs: number | null;
    plannedS: number | null;
    actualS: number | null;
    heldS: number;
    startTempC: number | null;
    endTempC: number | null;
  }[];
  temps: { name: string; atMs: number; tempC: number }[];
  marks: { kind: MarkKind; text: string; atMs: number }[];
}

export type MarkKind = 'call' | 'slip' | 'spill' | 'override' | 'note' | 'undone';

/** A bottle's filling from the day it was mixed, and what it can still do. */
export interface BottleView {
  bottle: number;
  name: string | null;
  holds: string;
  known: Known;
  volumeMl: number;
  capacityMl: number | null;
  ageDays: number | null;
  /** until it should be thrown away by age; negative: past it */
  keepDaysLeft: number | null;
  doneM2: number;
  leftM2: { low: number; usual: number; high: number };
  /** what ends its life first, in words; null: not known */
  limit: string | null;
}

/** The day's plan as a chart. */
export interface DayView {
  startsWallMs: number;
  runs: { label: string; startsWallMs: number; endsWallMs: number }[];
  /** a bath that is used up */
  marks: { text: string; wallMs: number }[];
  note: string | null;
}
