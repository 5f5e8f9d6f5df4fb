import type { Fact, FilmRef } from '../world/fact.js';
import { expose, type FilmState, noFilm } from '../world/film.js';
import { type LiquidId, type VesselRef, vesselKey } from '../world/vessel.js';
import { contactS, elapsedS } from './bath.js';
import { type Bench, type BenchDefaults, defaultBench } from './bench.js';
import type { GuardView } from './guard.js';
import { createRunMachine, placeOf, type RunMachine, type RunPosition, startPosition } from './machine.js';
import type { ProcessSheet, SheetStep } from './sheet.js';

export interface RunConfig extends BenchDefaults {
  /** the first is the one meant when none is named */
  sheets: readonly ProcessSheet[];
  /** what the funnel or filter takes at a time, ml */
  funnelMl: number;
  /** below this a spoken pour is asked about; 0 to 1 */
  confidenceFloor: number;
  films: FilmRef[];
}

export const defaultConfig: Omit<RunConfig, 'sheets'> = {
  tankMl: 500,
  bottleVolumeMl: 600,
  bottleCapacityMl: 1000,
  funnelMl: 250,
  confidenceFloor: 0.65,
  films: [],
};

/** A pour that was cleared and is about to happen. */
export type Announced =
  | { kind: 'in'; liquid: LiquidId; from: VesselRef; overridden: boolean }
  | { kind: 'out'; liquid: LiquidId; to: VesselRef; overridden: boolean };

/** What undo brings back. JSON-safe. */
export interface RunCore {
  position: RunPosition;
  sheetId: string;
  runId: string | null;
  /** before the bath that is in the tank */
  film: FilmState;
  bench: Bench;
  /** by `liquid:ID` or vessel */
  temps: Record<string, { tempC: number; atMs: number }>;
  announced: Announced | null;
}

export type DeedId =
  | 'begin'
  | 'next'
  | 'film-loaded'
  | 'pour-cleared'
  | 'poured'
  | 'bath-in'
  | 'hold'
  | 'resume'
  | 'add-time'
  | 'drain'
  | 'tank-empty'
  | 'rinsed'
  | 'skip'
  | 'bottle'
  | 'tank'
  | 'temperature'
  | 'spill'
  | 'spill-cleaned'
  | 'note'
  | 'hung'
  | 'close';

export interface UndoEntry {
  what: DeedId;
  core: RunCore;
  facts: Fact[];
}

export interface RunState {
  core: RunCore;
  /** newest last */
  undo: UndoEntry[];
  /** the wake that was asked for last */
  wakeMs: number | null;
}

/** A reading older than this says nothing about the bath now. Source: common practice. */
const freshMs = 15 * 60_000;

export class Sheets {
  readonly #machines = new Map<string, RunMachine>();
  constructor(readonly all: readonly ProcessSheet[]) {
    if (all.length === 0) throw new Error('expected at least one process sheet');
  }
  get(id: string): ProcessSheet {
    const sheet = this.all.find((s) => s.id === id) ?? this.all[0];
    if (!sheet) throw new Error('expected at least one process sheet');
    return sheet;
  }
  machine(id: string): RunMachine {
    const known = this.#machines.get(id) ?? createRunMachine(this.get(id));
    this.#machines.set(id, known);
    return known;
  }
  /** By id, name or spoken name; the first when nothing was said. */
  find(said: string | undefined): ProcessSheet | undefined {
    if (said === undefined) return this.all[0];
    const wanted = said.toLowerCase();
    return this.all.find(
      (s) => s.id === wanted || s.name.toLowerCase() === wanted || s.spoken.includes(wanted),
    );
  }
}

export function startState(config: RunConfig, sheets: Sheets): RunState {
  const sheet = sheets.get(config.sheets[0]?.id ?? '');
  return {
    core: {
      position: startPosition(sheets.machine(sheet.id)),
      sheetId: sheet.id,
      runId: null,
      film: noFilm,
      bench: defaultBench(sheet, config),
      temps: {},
      announced: null,
    },
    undo: [],
    wakeMs: null,
  };
}

/** The film with the time it has spent in the bath that is in the tank. */
export function filmNow(core: RunCore, atMs: number): FilmState {
  const { bath } = core.position.context;
  return bath ? expose(core.film, { role: bath.role, seconds: contactS(bath, atMs) }) : core.film;
}

export const bathStep = (core: RunCore, sheet: ProcessSheet): SheetStep | undefined =>
  sheet.steps.find((s) => s.id === core.position.context.bath?.stepId);

/** How much too soon draining would be, s; null: it would not. */
export function earlyS(core: RunCore, sheet: ProcessSheet, atMs: number): number | null {
  const { bath } = core.position.context;
  const time = bathStep(core, sheet)?.time;
  // once draining has begun, that was agreed
  if (placeOf(core.position) !== 'immersed' || !bath || bath.aimS === null || !time) return null;
  const soonest = bath.aimS - (time.aimS - time.minS) - bath.leadS;
  const short = soonest - elapsedS(bath, atMs);
  return short > 0 ? short : null;
}

export function tempOf(core: RunCore, liquid: LiquidId, vessel: VesselRef, atMs: number): number | null {
  const fresh = (key: string): number | null => {
    const reading = core.temps[key];
    return reading && atMs - reading.atMs <= freshMs ? reading.tempC : null;
  };
  return fresh(vesselKey(vessel)) ?? fresh(`liquid:${liquid}`);
}

export const guardView = (
  core: RunCore,
  sheet: ProcessSheet,
  config: RunConfig,
  atMs: number,
): GuardView => ({
  sheet,
  film: filmNow(core, atMs),
  filmBefore: core.film,
  filmKnown: core.film.loaded || ['closing', 'closed'].includes(placeOf(core.position)),
  bench: core.bench,
  funnelMl: config.funnelMl,
  tempOf: (liquid, vessel) => tempOf(core, liquid, vessel, atMs),
  earlyS: earlyS(core, sheet, atMs),
});
