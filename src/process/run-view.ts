import type { World } from '../world/records.js';
import type { LiquidId } from '../world/vessel.js';
import { type DueStep, indexOf, stepsOf } from './due.js';
import { bottleFor } from './guard-checks.js';
import type { Now, Outlet } from './message.js';
import { nowOf, outletOf } from './now.js';
import { defaultConfig, type RunState, Sheets } from './run-state.js';
import type { ProcessSheet } from './sheet.js';
import { type Deadline, openCalls } from './timing.js';
import { notHeard, Turn } from './turn.js';

/** The run as it stands, to be looked at: everything is read from the world and the run's own state. */
export interface RunView extends Pick<Turn, 'sheet' | 'place' | 'clock' | 'due' | 'context' | 'tankMl'> {
  now: Now;
  /** every call still to come in this bath, soonest first */
  calls: Deadline[];
  /** the step after the one in the tank, or the one that is due and not yet in hand */
  next: DueStep | null;
  outletOf(liquid: LiquidId): Outlet;
  bottleFor(liquid: LiquidId): number | null;
}

export function runView(
  state: RunState,
  world: World,
  sheets: readonly ProcessSheet[],
  at: { atMs: number; wallMs: number },
): RunView {
  const truth = { world, tell: () => {} };
  const config = { ...defaultConfig, sheets };
  const turn = new Turn(state, truth, at.atMs, at.wallMs, notHeard, false, config, new Sheets(sheets));
  const { sheet, clock, due } = turn;
  const inTank = clock?.step ?? null;
  const index = indexOf(sheet, (inTank ?? due.step)?.id);
  const ahead = inTank || turn.place === 'pouring' ? index + 1 : index;
  return {
    sheet,
    place: turn.place,
    clock,
    due,
    now: nowOf(turn),
    context: turn.context,
    tankMl: turn.tankMl,
    calls: openCalls(state.position, world, sheet),
    next: (index < 0 ? undefined : stepsOf(sheet)[ahead]) ?? null,
    outletOf: (liquid) => outletOf(turn, liquid),
    bottleFor: (liquid) => bottleFor(turn, liquid),
  };
}
