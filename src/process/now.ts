import type { BottleRecord } from '../world/records.js';
import { type LiquidId, tank } from '../world/vessel.js';
import { bottlesFor } from '../world/vessels.js';
import { atPreparing } from './cautions.js';
import { stepFor } from './due.js';
import type { GuardView, Move, ReasonParams } from './guard.js';
import { badBottle, bottleFor, type Finding, fitnessOf, liquidName, traceFinding } from './guard-checks.js';
import type { ReasonId } from './guard-table.js';
import type { Named, Now, Objection, Outlet, Spoken, SpokenMove } from './message.js';
import { bottledLiquids, type ProcessSheet, roleOf } from './sheet.js';
import { leftS } from './timing.js';
import type { Turn } from './turn.js';

/** Where a bath goes when it is drained: back to its bottle when it is used again. */
export function outletOf(turn: Turn, liquid: LiquidId): Outlet {
  const step = stepFor(turn.sheet, liquid);
  const move: Move = { liquid, from: tank, to: { kind: 'jug' }, volumeMl: null };
  if (turn.world.tank.bath?.liquid === liquid && traceFinding(move, turn.view))
    return { to: 'aside', filter: false };
  if (!step?.reusable || !step.returnsToBottle) return { to: 'sink' };
  const bottle = bottleFor(turn, liquid);
  return bottle === null || badBottle({ ...move, to: { kind: 'bottle', number: bottle } }, turn.view)
    ? { to: 'aside', filter: step.filter }
    : { to: 'bottle', bottle, filter: step.filter };
}

/** What there is to do now. */
export function nowOf(turn: Turn): Now {
  const { sheet, clock, context } = turn;
  switch (turn.place) {
    case 'preparing':
      return { do: 'prepare' };
    case 'warming':
      return { do: 'warm', targets: warmTargets(sheet), cautions: [...atPreparing] };
    case 'loading':
      return { do: 'load' };
    case 'immersed':
    case 'draining': {
      if (!clock) return { do: 'hang' };
      const bath = turn.named(clock.liquid);
      const wrong = (clock.step === null && clock.role !== 'water') || !turn.world.film.loaded;
      if (turn.place === 'draining' || wrong)
        return { do: 'drain', bath, outlet: outletOf(turn, clock.liquid) };
      return { do: 'wait', bath, secondsLeft: leftS(clock, turn.atMs) };
    }
    case 'pouring':
    case 'hanging':
      return dueNow(turn, context.announced?.kind === 'in' ? context.announced : null);
    case 'closing':
      return { do: 'close' };
    case 'idle':
    case 'closed':
      return { do: 'begin' };
  }
}

function dueNow(
  turn: Turn,
  announced: { liquid: LiquidId; from: Move['from']; clearedMs: number } | null,
): Now {
  const { step, wash, restS } = turn.due;
  if (announced) {
    return {
      do: 'pour',
      step: step?.name ?? announced.liquid,
      bath: turn.named(announced.liquid),
      bottle: announced.from.kind === 'bottle' ? announced.from.number : null,
      tempC: stepFor(turn.sheet, announced.liquid)?.temp?.aimC ?? null,
      announced: true,
      agoS: (turn.atMs - announced.clearedMs) / 1000,
      restS: null,
    };
  }
  if (!step) return { do: 'lost', ...(turn.world.film.doubt && { doubted: true }) };
  if (step.liquid === null) return { do: 'hang' };
  const bath = turn.named(step.liquid);
  const late = roleOf(turn.sheet, step.liquid) === 'backing-remover' && turn.world.film.image !== 'latent';
  if (wash)
    return {
      do: 'wash',
      ...objection({ reason: wash, params: { liquid: step.liquid } }, turn.view),
      next: bath,
    };
  const clingsS = clinging(turn);
  if (step.fills !== null) return { do: 'rinse', fills: step.fills, tempC: step.temp?.aimC ?? null };
  const { bottle, unfit } = standing(turn, step.liquid);
  return {
    do: 'pour',
    step: step.name,
    bath,
    bottle,
    ...(unfit && { unfit: objectionTo(step.liquid, unfit, turn.view) }),
    tempC: step.temp?.aimC ?? null,
    announced: false,
    ...(clingsS !== null && { clingsS }),
    restS,
    ...(late && { because: 'backing-still-on' }),
  };
}

/** The one bottle to pour a bath from; null: none, or several. `unfit`: why none of them may be poured. */
export function standing(turn: Turn, liquid: LiquidId): { bottle: number | null; unfit: Finding | null } {
  const all = bottlesFor(turn.world, liquid).flatMap((number) => turn.world.bottles[number] ?? []);
  const ruined = (b: BottleRecord) => fitnessOf(b, turn.view).find(({ entry }) => entry[0] === 'ruinous');
  const fit = all.filter((b) => !ruined(b));
  const full = fit.filter((b) => b.contents.volumeMl > 0);
  const [only, ...others] = full.length > 0 ? full : fit;
  const [spoilt] = only ? [] : all;
  return {
    bottle: only && others.length === 0 ? only.number : null,
    unfit: (spoilt && ruined(spoilt)) ?? null,
  };
}

/** For how long the developer that clings to the film has worked on, s; null: none does, or only just. */
function clinging({ world, atMs }: Turn): number | null {
  const last = world.film.history.at(-1);
  if (world.film.carry !== 'developer' || last?.role !== 'developer' || last.fromMs === undefined)
    return null;
  const seconds = atMs / 1000 - (last.fromMs / 1000 + last.seconds);
  return seconds >= clingsWorthS ? seconds : null;
}

/** Longer than any hands need between two baths, s. Source: common practice. */
const clingsWorthS = 45;

/** What each bottled bath should come to, in the order of use. */
const warmTargets = (sheet: ProcessSheet): { bath: Named; tempC: number }[] =>
  bottledLiquids(sheet).flatMap((liquid) => {
    const aim = stepFor(sheet, liquid)?.temp?.aimC;
    return aim === undefined ? [] : [{ bath: named({ sheet }, liquid), tempC: aim }];
  });

const named = (view: Pick<GuardView, 'sheet'>, id: LiquidId): Named => ({ id, name: liquidName(view, id) });

const untold = {
  bottle: null,
  tempC: null,
  aimC: null,
  ml: null,
  seconds: null,
  agoS: null,
  films: null,
  why: null,
};

export const spokenReason = ({ liquid, other, ...told }: ReasonParams, view: GuardView): Spoken => ({
  ...untold,
  ...told,
  bath: named(view, liquid),
  other: other === undefined ? null : named(view, other),
});

export const objection = (
  { reason, params }: { reason: ReasonId; params: ReasonParams },
  view: GuardView,
): Objection => ({ reason, about: spokenReason(params, view) });

/** What was found of this bath. */
export const objectionTo = (liquid: LiquidId, { entry, params }: Finding, view: GuardView): Objection =>
  objection({ reason: entry[1], params: { liquid, ...params } }, view);

export const spokenMove = ({ liquid, ...move }: Move, view: GuardView): SpokenMove => ({
  bath: named(view, liquid),
  ...move,
});

/** Label of a bottle with what it holds, for reading back. */
export const bottleHolds = (turn: Turn, number: number): Named | null => {
  const liquid = turn.world.bottles[number]?.liquid ?? null;
  return liquid === null ? null : turn.named(liquid);
};
