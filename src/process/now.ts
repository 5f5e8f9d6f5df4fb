import type { LiquidId } from '../world/vessel.js';
import { leftS } from './bath.js';
import { bottleOf, bottlesFor } from './bench.js';
import { atPreparing } from './cautions.js';
import type { GuardView, Move, ReasonParams } from './guard.js';
import { liquidName, stepFor } from './guard-checks.js';
import { placeOf } from './machine.js';
import type { Named, Now, Outlet, Spoken, SpokenMove } from './message.js';
import type { RunCore } from './run-state.js';
import { bottledLiquids, type ProcessSheet } from './sheet.js';

export const named = (sheet: ProcessSheet, id: LiquidId): Named => ({ id, name: liquidName({ sheet }, id) });

/** The one bottle that holds a liquid; null: none, or several. */
export function bottleFor(core: RunCore, liquid: LiquidId): number | null {
  const [only, ...others] = bottlesFor(core.bench, liquid);
  return only !== undefined && others.length === 0 ? only : null;
}

/** Where a bath goes when it is drained: back to its bottle when it is used again. */
export function outletOf(core: RunCore, sheet: ProcessSheet, liquid: LiquidId): Outlet {
  const step = stepFor({ sheet }, liquid);
  const { tank } = core.bench;
  if (tank?.liquid === liquid && tank.tainted) return { to: 'aside', filter: false };
  if (!step?.reusable || !step.returnsToBottle) return { to: 'sink' };
  const bottle = bottleFor(core, liquid);
  return bottle === null
    ? { to: 'aside', filter: step.filter }
    : { to: 'bottle', bottle, filter: step.filter };
}

/** What there is to do now. */
export function nowOf(core: RunCore, sheet: ProcessSheet, atMs: number): Now {
  const { context } = core.position;
  const place = placeOf(core.position);
  const step = sheet.steps[context.stepIndex];
  switch (place) {
    case 'preparing':
      return { do: 'prepare' };
    case 'warming':
      return { do: 'warm', targets: warmTargets(sheet), cautions: [...atPreparing] };
    case 'loading':
      return { do: 'load' };
    case 'pouring':
      return step?.liquid ? pourNow(core, sheet, step.liquid) : { do: 'hang' };
    case 'immersed':
    case 'draining': {
      const bath = context.bath;
      if (!bath) return { do: 'hang' };
      if (place === 'draining' || bath.stepId === null)
        return { do: 'drain', bath: named(sheet, bath.liquid), outlet: outletOf(core, sheet, bath.liquid) };
      return {
        do: 'wait',
        bath: named(sheet, bath.liquid),
        secondsLeft: leftS(bath, atMs),
        held: bath.heldAtMs !== null,
      };
    }
    case 'rinsing': {
      const rinse = sheet.steps[context.stepIndex - 1]?.rinseAfter;
      return { do: 'rinse', fills: rinse?.fills ?? 1, tempC: rinse?.temp?.aimC ?? null };
    }
    case 'hanging':
      return { do: 'hang' };
    case 'closing':
      return { do: 'close' };
    case 'idle':
    case 'closed':
      return { do: 'begin' };
  }
}

function pourNow(core: RunCore, sheet: ProcessSheet, liquid: LiquidId): Now {
  const step = sheet.steps[core.position.context.stepIndex];
  const announced = core.announced?.kind === 'in' ? core.announced : null;
  const id = announced?.liquid ?? liquid;
  return {
    do: 'pour',
    step: step?.name ?? id,
    bath: named(sheet, id),
    bottle: announced?.from.kind === 'bottle' ? announced.from.number : bottleFor(core, id),
    tempC: step?.temp?.aimC ?? null,
    announced: announced !== null,
  };
}

/** What each bottled bath should come to, in the order of use. */
const warmTargets = (sheet: ProcessSheet) =>
  bottledLiquids(sheet).flatMap((liquid) => {
    const aim = stepFor({ sheet }, liquid)?.temp?.aimC;
    return aim === undefined ? [] : [{ bath: named(sheet, liquid), tempC: aim }];
  });

export function spokenReason(params: ReasonParams, view: GuardView): Spoken {
  return {
    bath: named(view.sheet, params.liquid),
    other: params.other === undefined ? null : named(view.sheet, params.other),
    bottle: params.bottle ?? null,
    tempC: params.tempC ?? null,
    aimC: params.aimC ?? null,
    ml: params.ml ?? null,
    seconds: params.seconds ?? null,
  };
}

export const spokenMove = (move: Move, view: GuardView): SpokenMove => ({
  direction: move.direction,
  bath: named(view.sheet, move.liquid),
  from: move.from,
  to: move.to,
  volumeMl: move.volumeMl,
});

/** Label of a bottle with what it holds, for reading back. */
export const bottleHolds = (core: RunCore, sheet: ProcessSheet, number: number): Named | null => {
  const liquid = bottleOf(core.bench, number)?.liquid ?? null;
  return liquid === null ? null : named(sheet, liquid);
};
