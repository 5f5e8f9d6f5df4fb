/** What is said, as the desks name it: a warning cuts off anything else; a call is timed. */
export type SpeechKind = 'warning' | 'call' | 'question' | 'answer';

interface Manners {
  /** higher is said first */
  priority: number;
  /** the kinds that it cuts off in mid-sentence */
  cuts: readonly SpeechKind[];
  /** after being cut off it is said again, from its start, if it was asked for less than so long ago */
  againWithinMs: number;
}

const MANNERS: Record<SpeechKind, Manners> = {
  warning: { priority: 3, cuts: ['call', 'question', 'answer'], againWithinMs: 30_000 },
  call: { priority: 2, cuts: ['question', 'answer'], againWithinMs: 10_000 },
  question: { priority: 1, cuts: [], againWithinMs: 60_000 },
  answer: { priority: 0, cuts: [], againWithinMs: 10_000 },
};

export interface Line {
  readonly id: number;
  readonly kind: SpeechKind;
  readonly text: string;
  /** when it was asked for, ms on the monotonic clock */
  readonly atMs: number;
}

/** What the mouth is saying and will say. Plain data; the functions below answer with the next one. */
export interface Queue {
  readonly speaking: Line | null;
  /** in the order in which they will be said */
  readonly waiting: readonly Line[];
}

export const EMPTY_QUEUE: Queue = { speaking: null, waiting: [] };

export interface Turn {
  queue: Queue;
  /** the line now speaking must be silenced */
  cut: Line | null;
  /** said next, starting now */
  start: Line | null;
  /** will never be said */
  dropped: Line[];
}

/** A new line comes: it may cut off the one speaking, start at once, or wait for its turn. */
export function enqueue(queue: Queue, line: Line): Turn {
  const { speaking } = queue;
  if (!speaking)
    return { queue: { speaking: line, waiting: queue.waiting }, cut: null, start: line, dropped: [] };
  if (!MANNERS[line.kind].cuts.includes(speaking.kind)) {
    return { queue: { speaking, waiting: insert(queue.waiting, line) }, cut: null, start: null, dropped: [] };
  }
  const again = line.atMs - speaking.atMs < MANNERS[speaking.kind].againWithinMs;
  const waiting = again ? insert(queue.waiting, speaking) : queue.waiting;
  return { queue: { speaking: line, waiting }, cut: speaking, start: line, dropped: again ? [] : [speaking] };
}

/** The line speaking came to its end: the next starts, and answers grown stale in waiting are dropped. */
export function finished(queue: Queue, nowMs: number): Turn {
  const fresh = (line: Line) =>
    line.kind !== 'answer' || nowMs - line.atMs < MANNERS.answer.againWithinMs * 2;
  const waiting = queue.waiting.filter(fresh);
  const dropped = queue.waiting.filter((line) => !fresh(line));
  const [start = null, ...rest] = waiting;
  return { queue: { speaking: start, waiting: rest }, cut: null, start, dropped };
}

/** Silence at once: the line speaking is cut and nothing that waited is said. */
export function silence(queue: Queue): Turn {
  const dropped = queue.speaking ? [queue.speaking, ...queue.waiting] : [...queue.waiting];
  return { queue: EMPTY_QUEUE, cut: queue.speaking, start: null, dropped };
}

/** Among equals the one asked for first is said first; one cut off comes back before its equals. */
function insert(waiting: readonly Line[], line: Line): Line[] {
  const after = (other: Line) =>
    MANNERS[other.kind].priority < MANNERS[line.kind].priority ||
    (MANNERS[other.kind].priority === MANNERS[line.kind].priority && other.id > line.id);
  const at = waiting.findIndex(after);
  return at < 0 ? [...waiting, line] : [...waiting.slice(0, at), line, ...waiting.slice(at)];
}
