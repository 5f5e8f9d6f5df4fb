import { liquids } from '../world/liquids.js';
import type { LiquidId } from '../world/vessel.js';
import { leftS } from './bath.js';
import { atStart, cautionsFor } from './cautions.js';
import { named, nowOf } from './now.js';
import { sayNoSuchLiquid } from './run-bath.js';
import { liquidOf, roleOf, type SheetStep } from './sheet.js';
import type { Turn } from './turn.js';

const now = (turn: Turn) => nowOf(turn.core, turn.sheet, turn.atMs);

export function timeLeft(turn: Turn) {
  const { bath } = turn.context;
  if (!bath) return turn.say('answer', { id: 'no-clock', now: now(turn) });
  turn.say('answer', {
    id: 'time-left',
    bath: named(turn.sheet, bath.liquid),
    leftS: leftS(bath, turn.atMs),
    held: bath.heldAtMs !== null,
  });
}

/** Until a bath goes in: what is left of this one plus the planned times between. */
export function timeUntil(turn: Turn, liquid: LiquidId) {
  if (!liquidOf(turn.sheet, liquid)) return sayNoSuchLiquid(turn, liquid);
  const bath = named(turn.sheet, liquid);
  const { steps } = turn.sheet;
  const { stepIndex, bath: inTank } = turn.context;
  const none = (why: 'not-in-sheet' | 'done' | 'in-it') =>
    turn.say('answer', { id: 'time-until-none', bath, why });
  if (!steps.some((s) => s.liquid === liquid)) return none('not-in-sheet');
  if (inTank?.liquid === liquid) return none('in-it');
  const from = inTank ? inTank.advanceTo : stepIndex;
  const target = steps.findIndex((s, i) => i >= from && s.liquid === liquid);
  if (target < 0 || turn.place === 'closing' || turn.place === 'hanging') return none('done');
  const left = inTank ? leftS(inTank, turn.atMs) : 0;
  const between = steps.slice(from, target);
  const seconds = Math.max(0, left ?? 0) + between.reduce((sum, s) => sum + (s.time?.aimS ?? 0), 0);
  const open = (s: SheetStep) => s.time === null || s.rinseAfter !== null;
  const rinsing = turn.place === 'rinsing' || (inTank !== null && hasRinse(turn));
  const notStarted = ['idle', 'preparing', 'warming', 'loading'].includes(turn.place);
  const atLeast = left === null || between.some(open) || rinsing || notStarted;
  turn.say('answer', { id: 'time-until', bath, seconds, atLeast });
}

const hasRinse = (turn: Turn): boolean =>
  turn.sheet.steps.find((s) => s.id === turn.context.bath?.stepId)?.rinseAfter != null;

export function whatNext(turn: Turn) {
  const { bath, stepIndex } = turn.context;
  const { steps } = turn.sheet;
  if (['idle', 'closed', 'preparing', 'warming', 'closing'].includes(turn.place))
    return turn.say('answer', { id: 'now', now: now(turn), brief: true });
  const index = bath ? bath.advanceTo : stepIndex;
  const step = steps[index];
  if (!step) return turn.say('answer', { id: 'now', now: now(turn) });
  const after = steps[index + 1]?.liquid ?? null;
  turn.say('answer', {
    id: 'next',
    step: step.name,
    bath: step.liquid === null ? null : named(turn.sheet, step.liquid),
    after: after === null ? null : named(turn.sheet, after),
  });
}

export function where(turn: Turn) {
  const { steps } = turn.sheet;
  turn.say('answer', {
    id: 'where',
    now: now(turn),
    step: Math.min(turn.context.stepIndex + 1, steps.length),
    of: steps.length,
    spill: turn.context.spill !== null,
    jugs: turn.core.bench.jugs.map((j) => named(turn.sheet, j.liquid)),
  });
}

export function cautions(turn: Turn, substance: string | undefined) {
  if (substance === undefined)
    return turn.say('answer', { id: 'cautions', about: null, cautions: [...atStart, 'local-codes', 'help'] });
  const wanted = substance.toLowerCase();
  const known =
    liquidOf(turn.sheet, wanted) ?? liquids.find((l) => l.name === wanted || l.spoken.includes(wanted));
  const role = known && roleOf(turn.sheet, known.id);
  if (!role) {
    return turn.say('answer', {
      id: 'cautions',
      about: substance,
      cautions: ['gloves', 'eyes', 'ventilation', 'data-sheet', 'local-codes', 'help'],
    });
  }
  turn.say('answer', { id: 'cautions', about: known.name, cautions: [...cautionsFor(role), 'help'] });
}
