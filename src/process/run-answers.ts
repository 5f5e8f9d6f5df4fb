import { liquids } from '../world/liquids.js';
import type { LiquidId } from '../world/vessel.js';
import { jugsOf } from '../world/vessels.js';
import { atStart, cautionsFor } from './cautions.js';
import { type DueStep, stepsOf } from './due.js';
import { nowOf } from './now.js';
import { sayNoSuchLiquid } from './run-baths.js';
import { liquidOf } from './sheet.js';
import { drainMs, leftS } from './timing.js';
import type { Turn } from './turn.js';

export function timeLeft(turn: Turn) {
  const { clock } = turn;
  if (!clock) return turn.say('answer', { id: 'no-clock', now: nowOf(turn) });
  const drain = drainMs(clock);
  turn.say('answer', {
    id: 'time-left',
    bath: turn.named(clock.liquid),
    leftS: leftS(clock, turn.atMs),
    drainS: drain === null ? null : (drain - turn.atMs) / 1000,
  });
}

/** The steps still before the film, the one in the tank left out. */
function ahead(turn: Turn): readonly DueStep[] {
  const steps = stepsOf(turn.sheet);
  const inTank = turn.clock?.step;
  if (inTank) return steps.slice(steps.findIndex((s) => s.id === inTank.id) + 1);
  if (!turn.world.film.loaded) return steps;
  const due = turn.due.step;
  return due ? steps.slice(steps.findIndex((s) => s.id === due.id)) : [];
}

/** Until a bath goes in: what is left of this one plus the planned times between. */
export function timeUntil(turn: Turn, liquid: LiquidId) {
  if (!liquidOf(turn.sheet, liquid)) return sayNoSuchLiquid(turn, liquid);
  const bath = turn.named(liquid);
  const { clock } = turn;
  const none = (why: 'not-in-sheet' | 'done' | 'in-it') =>
    turn.say('answer', { id: 'time-until-none', bath, why });
  if (!stepsOf(turn.sheet).some((s) => s.liquid === liquid)) return none('not-in-sheet');
  if (clock?.liquid === liquid) return none('in-it');
  const steps = ahead(turn);
  const target = steps.findIndex((s) => s.liquid === liquid);
  if (target < 0 || turn.place === 'closing' || turn.place === 'hanging') return none('done');
  const left = clock ? leftS(clock, turn.atMs) : 0;
  const between = steps.slice(0, target);
  const seconds = Math.max(0, left ?? 0) + between.reduce((sum, s) => sum + (s.time?.aimS ?? 0), 0);
  const notStarted = ['idle', 'preparing', 'warming', 'loading'].includes(turn.place);
  const atLeast = left === null || between.some((s) => s.time === null) || notStarted;
  turn.say('answer', { id: 'time-until', bath, seconds, atLeast });
}

export function whatNext(turn: Turn) {
  const { clock, due } = turn;
  if (!['pouring', 'immersed', 'draining'].includes(turn.place) || (!clock && due.wash !== null))
    return turn.say('answer', { id: 'now', now: nowOf(turn), brief: true });
  const [step, after] = ahead(turn);
  if (!step) return turn.say('answer', { id: 'now', now: nowOf(turn) });
  turn.say('answer', {
    id: 'next',
    step: step.name,
    bath: step.liquid === null ? null : turn.named(step.liquid),
    after: after?.liquid == null ? null : turn.named(after.liquid),
  });
}

export function where(turn: Turn) {
  const steps = turn.sheet.steps;
  const id = (turn.clock?.step ?? turn.due.step)?.id;
  const index = steps.findIndex((s) => s.id === id);
  turn.say('answer', {
    id: 'where',
    now: nowOf(turn),
    step: index < 0 ? steps.length : index + 1,
    of: steps.length,
    spill: turn.context.spill !== null,
    jugs: jugsOf(turn.world).map((liquid) => turn.named(liquid)),
  });
}

export function cautions(turn: Turn, substance: string | undefined) {
  if (substance === undefined)
    return turn.say('answer', { id: 'cautions', about: null, cautions: [...atStart, 'local-codes', 'help'] });
  const wanted = substance.toLowerCase();
  const known =
    liquidOf(turn.sheet, wanted) ?? liquids.find((l) => l.name === wanted || l.spoken.includes(wanted));
  if (!known) {
    return turn.say('answer', {
      id: 'cautions',
      about: substance,
      cautions: ['gloves', 'eyes', 'ventilation', 'data-sheet', 'local-codes', 'help'],
    });
  }
  turn.say('answer', { id: 'cautions', about: known.name, cautions: [...cautionsFor(known), 'help'] });
}
