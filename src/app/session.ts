import type { NewEntry } from '../ledger/entry.js';
import { type Journal, openJournal } from '../ledger/journal.js';
import {
  caughtUpSentence,
  isProblem,
  type JournalProblem,
  lostSentence,
  problemOf,
  unwrittenSentence,
} from '../ledger/problem.js';
import type { AssumedBottle } from '../ledger/state.js';
import { systemMoment } from '../ledger/system-clock.js';
import type { DeskEvent } from '../process/desk.js';
import type { Assistant, AssistantState } from './assistant.js';
import type { Bench } from './bench.js';
import { clockFor, type RealClock, undisturbed } from './clock.js';
import type { JournalPort } from './conversation.js';
import { exitCode, Refusal } from './exit.js';

/** Names the shape of the states kept at a start; those of any other program are passed over in any case. */
const stateVersion = '2';

/** So many entries at most are replayed at a start. */
const snapshotEvery = 250;

/** Where everything is gone through again, only so many of the newest entries are foreseen from: that is most of the work. */
const foreseenEntries = 160;

/** Where more than this have to be gone through, that is told, as it takes a while. */
const toldEntries = 1_000;

/** An entry that the disk did not take is tried again after so long, ms, then after twice that, and so on. */
const firstRetryMs = 1_000;
const slowestRetryMs = 30_000;

const mayPass: ReadonlySet<string> = new Set(['disk-error', 'disk-full', 'read-only', 'damaged']);

export interface SessionOptions {
  /** a sentence about the journal: it was mended, or what waited for the disk is written now */
  said?(sentence: string): void;
  /** the start goes through many entries anew: a line that tells it, and how far it is */
  progress?(line: string): void;
}

/** A journal opened for a live assistant, with the state that its entries lead to. */
export interface Session {
  bench: Bench;
  journal: Journal;
  port: JournalPort;
  clock: RealClock;
  state: AssistantState;
  /** sentences to say at the start, such as a clock that was set back */
  doubts: string[];
  /** keeps the state for a quick next start; call when nothing is due. What could not be written, as a sentence. */
  close(): string | null;
}

/**
 * A journal that has begun keeps the bottles it began with, whatever sheet is chosen now: `benchOf` gets them.
 * @throws Refusal with the journal's own sentence: in use, disk full, read-only, damaged (with where the copy is)
 */
export function openSession(
  folder: string,
  assumed: readonly AssumedBottle[],
  benchOf: (assumed: readonly AssumedBottle[]) => Bench,
  options: SessionOptions = {},
): Session {
  let journal = openJournal(folder, { stateVersion, assumed });
  // a disk that failed once may do it the next time, and somebody may stand at a bath
  if (isProblem(journal) && mayPass.has(journal.problem))
    journal = openJournal(folder, { stateVersion, assumed });
  if (isProblem(journal)) throw new Refusal(journal.sentence, exitCode.failed);
  const bench = benchOf(journal.assumed);
  const unusable: number[] = [];
  let state = restore(journal, bench.assistant, {
    passedOver: (seq) => unusable.push(seq),
    ...(options.progress && { progress: options.progress }),
  });
  const passedOver =
    unusable.length === 0
      ? []
      : [
          `${unusable.length === 1 ? 'One entry makes' : `${unusable.length} entries make`} no sense to me and ${unusable.length === 1 ? 'is' : 'are'} passed over, the first is number ${unusable[0]}. Check what is in the tank and the bottles.`,
        ];
  if (journal.lastSeq === 0) journal.saveSnapshot({ seq: 0, states: state });
  let sinceSnapshot = 0;
  const waiting: NewEntry[] = [];
  let retry: NodeJS.Timeout | null = null;
  /** why entries wait; null: none do */
  let retryOf: JournalProblem | null = null;
  /** those that wait are at least in the second copy's reserve */
  let inReserve = false;
  const { clock, doubt } = clockFor(journal);
  const keep = (): void => {
    if (sinceSnapshot === 0 || waiting.length > 0) return;
    journal.saveSnapshot({ seq: journal.lastSeq, states: state });
    sinceSnapshot = 0;
  };
  /** Writes all that waits, in order; why not, if it cannot. */
  const write = (): JournalProblem | null => {
    const before = journal.lastSeq;
    const done = tried(() => journal.append(waiting), journal.path);
    for (const note of journal.takeNotes()) options.said?.(note);
    if (isProblem(done)) {
      // in the journal, though its files are gone: what is in is not written a second time
      sinceSnapshot += waiting.splice(0, Math.max(0, journal.lastSeq - before)).length;
      inReserve = tried(() => journal.reserve(waiting), journal.path) === true;
      return done;
    }
    const [first] = waiting;
    if (retryOf !== null && first)
      journal.noteLate(waiting.length, first.event.wallMs, clock.wallMs(), retryOf.problem);
    retryOf = null;
    sinceSnapshot += waiting.length;
    waiting.length = 0;
    if (sinceSnapshot >= snapshotEvery) keep();
    return null;
  };
  const writeLater = (afterMs: number): void => {
    retry = setTimeout(() => {
      retry = null;
      if (write()) writeLater(Math.min(afterMs * 2, slowestRetryMs));
      else options.said?.(caughtUpSentence);
    }, afterMs).unref();
  };
  return {
    bench,
    journal,
    clock,
    state,
    doubts: [...journal.takeNotes(), ...passedOver, ...(doubt ? [doubt] : [])],
    port: {
      append(event, facts, next) {
        // the up-time of the event, not of its writing, or every restart would set the bench clock back
        const { moment, nowMs } = undisturbed(() => ({ moment: systemMoment(), nowMs: clock.nowMs() }));
        const { bootId } = moment;
        const upMs = moment.upMs - Math.max(0, nowMs - event.atMs);
        state = next;
        waiting.push({ event, source: sourceOf(event), facts, upMs, bootId });
        if (retry) {
          inReserve = tried(() => journal.reserve(waiting), journal.path) === true;
          return { problem: '' };
        }
        const failed = write();
        if (!failed) return null;
        retryOf = failed;
        writeLater(firstRetryMs);
        return { problem: unwrittenSentence(failed, inReserve) };
      },
    },
    close() {
      if (retry) clearTimeout(retry);
      const failed = waiting.length > 0 || retry !== null ? write() : null;
      keep();
      journal.close();
      return failed ? lostSentence(failed, Math.max(1, waiting.length), inReserve) : null;
    },
  };
}

/** A defect of ours must not stop the calls of a bath any more than a full disk. */
function tried<T>(work: () => T, path: string): T | JournalProblem {
  try {
    return work();
  } catch (error) {
    return problemOf('disk-error', path, error instanceof Error ? error.message : String(error));
  }
}

/** The newest snapshot, then every later entry through the same pure assistant; what they would say is not said again. */
export function restore(
  journal: Journal,
  assistant: Assistant,
  told: Pick<SessionOptions, 'progress'> & { passedOver?(seq: number): void } = {},
): AssistantState {
  const snapshot = journal.lastSeq > 0 ? journal.latestSnapshot() : null;
  let state = snapshot ? (snapshot.states as AssistantState) : assistant.initial;
  const foreseeAfter = journal.lastSeq - foreseenEntries;
  const from = snapshot?.seq ?? 0;
  const entries = journal.lastSeq - from;
  let tellAt = from + Math.ceil(entries / 4);
  const tell = (line: string): void => {
    if (entries > toldEntries) told.progress?.(line);
  };
  tell(`The program has changed, so I go through all ${entries} entries of the journal once.`);
  for (const { seq, event } of journal.entriesAfter(from)) {
    if (seq > tellAt) {
      tell(`${Math.round((100 * (seq - from)) / entries)} % done.`);
      tellAt += Math.ceil(entries / 4);
    }
    // a start must come through, whatever stands in the journal
    try {
      state = assistant.apply(state, seq > foreseeAfter ? event : { ...event, past: true }).state;
    } catch {
      told.passedOver?.(seq);
    }
  }
  return state;
}

const sourceOf = (event: DeskEvent): 'typed' | 'voice' | 'clock' | 'command' =>
  event.type === 'intent' ? event.heard.by : event.type === 'time' ? 'clock' : 'command';
