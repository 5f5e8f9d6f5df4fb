import type { FilmRef } from '../world/fact.js';
import type { World } from '../world/records.js';
import { filmNow } from '../world/reduce.js';
import type { LiquidId } from '../world/vessel.js';
import type { GuardView } from './guard.js';
import { createRunMachine, placeOf, type RunMachine, type RunPosition, startPosition } from './machine.js';
import { checkSheet, type ProcessSheet } from './sheet.js';
import { bathClock, earlyS } from './timing.js';

export interface RunConfig {
  /** the first is the one meant when none is named */
  sheets: readonly ProcessSheet[];
  /** what the tank takes until somebody says, ml */
  tankMl: number;
  /** what a bottle holds and takes when a bath is named without a volume, ml */
  bottleVolumeMl: number;
  bottleCapacityMl: number;
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

/** What everybody was sent away from. */
export type Danger = 'air' | 'fire' | 'current' | 'mercury';

/** What the run remembers beside the world. JSON-safe. */
export interface RunState {
  position: RunPosition;
  /** the sheet chosen last; a run that goes on has its own in the world */
  sheetId: string;
  /** the wake that was asked for last */
  wakeMs: number | null;
  /** what was poured away lately, the newest last, with no water after it */
  sink?: readonly { liquid: LiquidId; atMs: number }[];
  /** since then nobody is to be at the sink, or all hands help somebody (`hurt`); `told`: that the film can wait was said; `askedMs`: whether it is safe was asked then */
  out?: { sinceMs: number; told: boolean; from: Danger | 'hurt'; askedMs?: number } | null;
}

/** Sheets that runs were begun with, as they came back from a journal. */
const begunSheets = new WeakMap<object, ProcessSheet>();

export class Sheets {
  readonly #machines = new WeakMap<ProcessSheet, RunMachine>();
  constructor(readonly all: readonly ProcessSheet[]) {
    if (all.length === 0) throw new Error('expected at least one process sheet');
  }
  /** The sheet that a run was begun with, else the one chosen. */
  of(world: World, chosen: string): ProcessSheet {
    const begun = world.run?.sheet;
    if (!begun) return this.get(world.run?.sheetId ?? chosen);
    const known = begunSheets.get(begun) ?? this.all.find((s) => s === (begun as unknown));
    if (known) return known;
    const read = checkSheet(begun);
    const sheet = read.ok ? read.sheet : this.get(chosen);
    begunSheets.set(begun, sheet);
    return sheet;
  }
  get(id: string): ProcessSheet {
    const sheet = this.all.find((s) => s.id === id) ?? this.all[0];
    if (!sheet) throw new Error('expected at least one process sheet');
    return sheet;
  }
  machine(sheet: ProcessSheet): RunMachine {
    const known = this.#machines.get(sheet) ?? createRunMachine(sheet);
    this.#machines.set(sheet, known);
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

export function startState(sheets: Sheets): RunState {
  const sheet = sheets.get('');
  return { position: startPosition(sheets.machine(sheet)), sheetId: sheet.id, wakeMs: null };
}

export const guardView = (
  position: RunPosition,
  world: World,
  sheet: ProcessSheet,
  config: RunConfig,
  at: { atMs: number; wallMs: number },
): GuardView => ({
  sheet,
  world,
  film: filmNow(world, at.atMs),
  filmKnown: world.filmKnown,
  tankMl: world.tankMl ?? config.tankMl,
  funnelMl: config.funnelMl,
  ...at,
  // once draining has begun, that was agreed
  earlyS:
    placeOf(position) === 'immersed'
      ? earlyS(bathClock(world, sheet, position.context.addedS), at.atMs)
      : null,
});
