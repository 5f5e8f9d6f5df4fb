import type { Intent } from './intent.js';
import { spokenReason } from './now.js';
import { takeIn } from './run-bath.js';
import { drain } from './run-clock.js';
import { closeRun, filmLoaded, skip } from './run-flow.js';
import { decide, unsure } from './run-moves.js';
import { bottleHoldsNow, temperature } from './run-records.js';
import type { Turn } from './turn.js';

/** A word that lets something go ahead must be heard well, and not be close to its opposite. */
function clearlyHeard(turn: Turn, word: 'confirm' | 'override'): boolean {
  const rival = (i: Intent) => i.type !== word && ['cancel', 'confirm', 'override', 'stop'].includes(i.type);
  if (!unsure(turn.heard, turn.config.confidenceFloor) && !turn.heard.close.some(rival)) return true;
  turn.say('question', { id: 'say-again-clearly', word });
  return false;
}

export function confirm(turn: Turn) {
  const { pending } = turn.context;
  if (!pending) return turn.say('answer', { id: 'nothing-waiting' });
  if (!clearlyHeard(turn, 'confirm')) return;
  switch (pending.kind) {
    case 'pour':
      return confirmPour(turn);
    case 'bath-in':
      return turn.core.film.loaded ? takeIn(turn, pending.liquid, false, pending.atMs) : filmLoaded(turn);
    case 'drain-early':
      return turn.place === 'immersed' ? drain(turn, true) : settled(turn);
    case 'skip':
      return skip(turn);
    case 'close-early':
      return closeRun(turn, true);
    case 'bottle-holds':
      turn.send({ type: 'SETTLE' });
      bottleHoldsNow(turn, pending.intent, true);
      if (pending.waiting) decide(turn, pending.waiting.request, pending.waiting.vouched);
      return;
    case 'temperature':
      turn.send({ type: 'SETTLE' });
      return temperature(turn, pending.of, pending.tempC, true);
    case 'which-bath':
      return turn.say('question', { id: 'which-bath-in' });
    case 'stop-what':
      return turn.say('question', { id: 'stop-what' });
  }
}

const settled = (turn: Turn) => {
  turn.send({ type: 'SETTLE' });
  turn.say('answer', { id: 'nothing-waiting' });
};

function confirmPour(turn: Turn) {
  const { pending } = turn.context;
  if (pending?.kind !== 'pour') return;
  const { request, vouched } = pending;
  if (pending.verdict === 'ask') {
    if (pending.proposal === null) return turn.say('question', { id: 'needs-answer', ask: pending.reason });
    return decide(turn, pending.proposal, [...vouched, pending.reason]);
  }
  if (pending.verdict === 'ruinous') {
    const about = spokenReason({ liquid: request.liquid ?? 'water' }, turn.view);
    return turn.say('warning', { id: 'needs-override', reason: pending.reason, about });
  }
  decide(turn, request, vouched, { verdict: pending.verdict, reason: pending.reason });
}

/** The answer to "is the film in the tank?" that lets a pour be judged without film. */
export function noFilm(turn: Turn) {
  const { pending } = turn.context;
  if (pending?.kind !== 'pour' || pending.reason !== 'film-unknown')
    return turn.say('answer', { id: 'nothing-waiting' });
  if (!clearlyHeard(turn, 'confirm')) return;
  decide(turn, pending.request, [...pending.vouched, 'film-unknown']);
}

/** The one way past a refusal. It never answers a question of what is meant. */
export function override(turn: Turn) {
  const { pending } = turn.context;
  if (pending?.kind !== 'pour') return turn.say('answer', { id: 'nothing-waiting' });
  if (!clearlyHeard(turn, 'override')) return;
  if (pending.verdict === 'ask') return turn.say('question', { id: 'needs-answer', ask: pending.reason });
  decide(turn, pending.request, pending.vouched, { verdict: pending.verdict, reason: pending.reason });
}

export function cancel(turn: Turn) {
  const announced = turn.core.announced?.kind === 'in';
  if (!turn.context.pending && !announced) return turn.say('answer', { id: 'nothing-waiting' });
  // a pour that was cleared and is called off
  if (!turn.context.pending) turn.set({ announced: null });
  turn.send({ type: 'SETTLE' });
  turn.say('answer', { id: 'cancelled' });
}
