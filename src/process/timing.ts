import { aimMs, type Bath, firstMultiple, tenSecondsS } from './bath.js';
import { type CallKey, placeOf, type RunPosition } from './machine.js';

/** A call and the exact time it is due on the bench clock, ms. */
export interface Deadline {
  call: CallKey;
  dueMs: number;
}

/** A bath that still stands after its time is called out once more, s. */
const overdueS = 15;

/** The next call due, or null when nothing is timed. Ties go to the more urgent call. */
export function nextDeadline(position: RunPosition): Deadline | null {
  const { bath, pourNextMs } = position.context;
  switch (placeOf(position)) {
    case 'immersed':
      return bath && bath.heldAtMs === null ? earliest(immersedCalls(bath)) : null;
    case 'draining':
      return earliest([...pourNext(pourNextMs), ...overdue(bath)]);
    case 'pouring':
      return earliest(pourNext(pourNextMs));
    default:
      return null;
  }
}

function immersedCalls(bath: Bath): Deadline[] {
  const base = bath.startedMs + bath.heldMs;
  const at = (call: CallKey, offsetS: number): Deadline => ({ call, dueMs: base + offsetS * 1000 });
  const drainS = bath.aimS === null ? Number.POSITIVE_INFINITY : bath.aimS - bath.leadS;
  const calls: Deadline[] = [];
  if (Number.isFinite(drainS)) {
    calls.push(at('drain', drainS));
    if (!bath.called.includes('ten-seconds') && drainS >= 2 * tenSecondsS)
      calls.push(at('ten-seconds', drainS - tenSecondsS));
  }
  const a = bath.agitation;
  if (!a || a.style === 'still') return calls;
  if (a.initialS > 0 && a.initialS < drainS - tenSecondsS && !bath.called.includes('rest'))
    calls.push(at('rest', a.initialS));
  if (a.everyS) {
    const offsetS = (firstMultiple(a) + bath.agitated) * a.everyS;
    if (offsetS < drainS - tenSecondsS) calls.push(at('agitate', offsetS));
  }
  return calls;
}

const pourNext = (dueMs: number | null): Deadline[] => (dueMs === null ? [] : [{ call: 'pour-next', dueMs }]);

function overdue(bath: Bath | null): Deadline[] {
  const aim = bath && aimMs(bath);
  if (!bath || aim === null || bath.called.includes('overdue')) return [];
  return [{ call: 'overdue', dueMs: aim + overdueS * 1000 }];
}

const earliest = (deadlines: Deadline[]): Deadline | null =>
  deadlines.reduce<Deadline | null>((best, d) => (best && best.dueMs <= d.dueMs ? best : d), null);
