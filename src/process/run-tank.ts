import { expose } from '../world/film.js';
import type { VesselRef } from '../world/vessel.js';
import { contactS, elapsedS } from './bath.js';
import { put, take } from './bench.js';
import { outletOf } from './now.js';
import { bathStep } from './run-state.js';
import type { Turn } from './turn.js';

const tank: VesselRef = { kind: 'tank' };

/**
 * The tank has run empty: the film keeps what the bath did to it, the bath goes where it was said to go, or
 * stands in a jug when it is used again, or is gone down the sink. Gives back where it went.
 */
export function emptyTank(turn: Turn): VesselRef {
  const { bath } = turn.context;
  const content = turn.core.bench.tank;
  if (bath) endStep(turn);
  const said = turn.core.announced?.kind === 'out' ? turn.core.announced : null;
  let to: VesselRef = { kind: 'sink' };
  if (content) {
    to = said?.to ?? (outletOf(turn.core, turn.sheet, content.liquid).to === 'sink' ? to : { kind: 'jug' });
    const [rest, out] = take(turn.core.bench, tank, content.liquid);
    turn.set({ bench: put(rest, to, out) });
    turn.fact({
      type: 'poured',
      ...turn.runId,
      from: tank,
      to,
      liquid: content.liquid,
      volumeMl: out.volumeMl,
      overridden: said?.overridden ?? false,
    });
  }
  turn.set({ announced: turn.core.announced?.kind === 'in' ? turn.core.announced : null });
  if (bath) turn.send({ type: 'EMPTY' });
  return to;
}

function endStep(turn: Turn) {
  const { bath } = turn.context;
  if (!bath) return;
  const step = bathStep(turn.core, turn.sheet);
  turn.set({ film: expose(turn.core.film, { role: bath.role, seconds: contactS(bath, turn.atMs) }) });
  if (!step || turn.core.runId === null) return;
  const heldNowMs = bath.heldAtMs === null ? 0 : turn.atMs - bath.heldAtMs;
  const actualS = elapsedS(bath, turn.atMs);
  turn.fact({
    type: 'step-ended',
    runId: turn.core.runId,
    stepId: step.id,
    plannedS: step.time?.aimS ?? actualS,
    actualS,
    heldS: (bath.heldMs + heldNowMs) / 1000,
  });
  const { time } = step;
  // draining is part of the time: the bath works on until the next one goes in
  if (time && (actualS < time.minS - step.drain.leadS || actualS > time.maxS))
    turn.fact({
      type: 'deviation',
      runId: turn.core.runId,
      stepId: step.id,
      what: `time: ${Math.round(actualS)} s, planned ${time.aimS} s`,
    });
}
