import { elapsedS, leftS } from './bath.js';
import { named, nowOf, outletOf } from './now.js';
import { challenge, decide } from './run-moves.js';
import { earlyS } from './run-state.js';
import { emptyTank } from './run-tank.js';
import type { Turn } from './turn.js';

const now = (turn: Turn) => nowOf(turn.core, turn.sheet, turn.atMs);
const noClock = (turn: Turn) => turn.say('answer', { id: 'no-clock', now: now(turn) });
/** Most a single "add time" may add, s. */
const mostAddedS = 1800;

export function hold(turn: Turn) {
  const { bath } = turn.context;
  if (turn.place !== 'immersed' || !bath || bath.heldAtMs !== null) return noClock(turn);
  turn.send({ type: 'HOLD', atMs: turn.atMs });
  turn.deed('hold');
  const doneS = elapsedS(bath, turn.atMs);
  turn.say('answer', { id: 'held', bath: named(turn.sheet, bath.liquid), doneS, aimS: bath.aimS });
}

export function resume(turn: Turn) {
  const { bath } = turn.context;
  if (turn.place !== 'immersed' || !bath) return noClock(turn);
  if (bath.heldAtMs === null) return turn.say('answer', { id: 'clock-runs', leftS: leftS(bath, turn.atMs) });
  const left = leftS(bath, turn.atMs);
  turn.send({ type: 'RESUME', atMs: turn.atMs });
  turn.deed('resume');
  turn.say('answer', { id: 'resumed', leftS: left });
}

export function addTime(turn: Turn, seconds: number) {
  const { bath } = turn.context;
  const timed = (turn.place === 'immersed' || turn.place === 'draining') && bath && bath.aimS !== null;
  if (!timed) return noClock(turn);
  if (!(seconds >= 1 && seconds <= mostAddedS)) return turn.say('question', { id: 'bad-seconds', seconds });
  turn.send({ type: 'ADD', seconds, elapsedS: elapsedS(bath, turn.atMs) });
  turn.deed('add-time');
  const after = turn.context.bath;
  turn.say('answer', { id: 'time-added', seconds, leftS: (after && leftS(after, turn.atMs)) ?? 0 });
}

/** The user wants the liquid out: right away when the time allows, else only after a confirm. */
export function drain(turn: Turn, agreed: boolean) {
  const { bath } = turn.context;
  if (turn.place !== 'immersed' || !bath) return turn.say('answer', { id: 'now', now: now(turn) });
  const early = earlyS(turn.core, turn.sheet, turn.atMs);
  if (early !== null && !agreed && bath.aimS !== null) {
    challenge(turn, { kind: 'drain-early' });
    const doneS = elapsedS(bath, turn.atMs);
    return turn.say('warning', {
      id: 'confirm-early',
      bath: named(turn.sheet, bath.liquid),
      doneS,
      aimS: bath.aimS,
    });
  }
  turn.send({ type: 'SETTLE' });
  turn.send({ type: 'DRAIN', atMs: turn.atMs });
  turn.deed('drain');
  sayDrain(turn, 'answer', turn.atMs);
}

/** Says to drain, where the bath goes, and what comes next. */
export function sayDrain(turn: Turn, kind: 'answer' | 'call', dueMs: number) {
  const { bath } = turn.context;
  if (!bath) return;
  const next = turn.sheet.steps[bath.advanceTo]?.liquid ?? null;
  const rinse = turn.sheet.steps.find((s) => s.id === bath.stepId)?.rinseAfter != null;
  turn.say(
    kind,
    {
      id: 'drain',
      bath: named(turn.sheet, bath.liquid),
      outlet: outletOf(turn.core, turn.sheet, bath.liquid),
      next: rinse || next === null ? null : named(turn.sheet, next),
    },
    dueMs,
  );
}

export function tankEmpty(turn: Turn) {
  const { bath } = turn.context;
  if (!bath && !turn.core.bench.tank) return turn.say('answer', { id: 'tank-already-empty', now: now(turn) });
  const { pending } = turn.context;
  turn.send({ type: 'SETTLE' });
  const liquid = turn.core.bench.tank?.liquid ?? bath?.liquid ?? 'water';
  const to = emptyTank(turn);
  turn.deed('tank-empty');
  turn.say('answer', {
    id: 'tank-is-empty',
    now: now(turn),
    jugged: to.kind === 'jug' ? named(turn.sheet, liquid) : null,
  });
  // the answer to "is the tank empty?" lets the pour that asked be judged
  if (pending?.kind === 'pour' && pending.reason === 'tank-not-empty')
    decide(turn, pending.request, pending.vouched);
}
