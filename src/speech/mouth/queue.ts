/** What is said, as the desks name it: a call to act is timed; a warning must be heard, and heard soon. */
export type SpeechKind = 'warning' | 'call' | 'question' | 'answer';

interface Manners {
  /** higher is said first */
  priority: number;
  /** the kinds that it cuts off in mid-sentence */
  cuts: readonly SpeechKind[];
  /** after being cut off it goes on where it was, if it was asked for less than so long ago */
  againWithinMs: number;
}

/** A call is on time or it is wrong, so it cuts whatever sounds; all else waits for it and goes on after. */
const MANNERS: Record<SpeechKind, Manners> = {
  call: { priority: 3, cuts: ['warning', 'question', 'answer'], againWithinMs: 10_000 },
  warning: { priority: 2, cuts: ['question', 'answer'], againWithinMs: 30_000 },
  question: { priority: 1, cuts: [], againWithinMs: 60_000 },
  answer: { priority: 0, cuts: [], againWithinMs: 10_000 },
};

export interface Line {
  readonly id: number;
  readonly kind: SpeechKind;
  readonly text: string;
  /** when it was asked for, ms on the monotonic clock */
  readonly atMs: number;
  /** pieces said in full */
  readonly breaths: number;
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

/** The first breath of a call is what there is to do; the rest of it is worth no more than an answer. */
const standing = (line: Line): SpeechKind =>
  line.kind === 'call' && line.breaths > 0 ? 'answer' : line.kind;
const priority = (line: Line): number => MANNERS[standing(line)].priority;

/** A new line comes: it may cut off the one speaking, start at once, or wait for its turn. */
export function enqueue(queue: Queue, line: Line): Turn {
  const { speaking } = queue;
  if (!speaking)
    return { queue: { speaking: line, waiting: queue.waiting }, cut: null, start: line, dropped: [] };
  if (!MANNERS[line.kind].cuts.includes(standing(speaking)))
    return { queue: { speaking, waiting: insert(queue.waiting, line) }, cut: null, start: null, dropped: [] };
  const again = line.atMs - speaking.atMs < MANNERS[speaking.kind].againWithinMs;
  const waiting = again ? insert(queue.waiting, speaking) : queue.waiting;
  return { queue: { speaking: line, waiting }, cut: speaking, start: line, dropped: again ? [] : [speaking] };
}

/** A piece of the line speaking was said in full: what is more urgent may go on from here. */
export function breath(queue: Queue): Turn {
  if (!queue.speaking) return { queue, cut: null, start: null, dropped: [] };
  const speaking = { ...queue.speaking, breaths: queue.speaking.breaths + 1 };
  const [first, ...rest] = queue.waiting;
  if (!first || priority(first) <= priority(speaking))
    return { queue: { ...queue, speaking }, cut: null, start: speaking, dropped: [] };
  return {
    queue: { speaking: first, waiting: insert(rest, speaking) },
    cut: null,
    start: first,
    dropped: [],
  };
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

/** Somebody went on to something else: answers not yet said in full are of no use any more. */
export function overtaken(queue: Queue): Turn {
  const isAnswer = (line: Line) => line.kind === 'answer';
  const dropped = [queue.speaking, ...queue.waiting].filter((line) => line !== null && isAnswer(line));
  const waiting = queue.waiting.filter((line) => !isAnswer(line));
  const { speaking } = queue;
  if (!speaking || !isAnswer(speaking))
    return { queue: { speaking, waiting }, cut: null, start: null, dropped: dropped as Line[] };
  const [start = null, ...rest] = waiting;
  return { queue: { speaking: start, waiting: rest }, cut: speaking, start, dropped: dropped as Line[] };
}

/** Among equals the one asked for first is said first; one cut off comes back before its equals. */
function insert(waiting: readonly Line[], line: Line): Line[] {
  const after = (other: Line) =>
    priority(other) < priority(line) || (priority(other) === priority(line) && other.id > line.id);
  const at = waiting.findIndex(after);
  return at < 0 ? [...waiting, line] : [...waiting.slice(0, at), line, ...waiting.slice(at)];
}
