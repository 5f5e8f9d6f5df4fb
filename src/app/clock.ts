import { readFileSync } from 'node:fs';
import { hrtime, uptime } from './system-time.js';

/**
 * Two clocks: the bench clock (ms, monotonic, goes on across a restart) for durations and the calendar for dates.
 */
export interface BenchClock {
  nowMs(): number;
  wallMs(): number;
}

/** For scripts, tests and rehearsal: time passes only when told to. */
export class SimulatedClock implements BenchClock {
  #nowMs = 0;
  readonly #wallStartMs: number;
  constructor(wallStartMs = Date.UTC(2026, 0, 10, 9, 0, 0)) {
    this.#wallStartMs = wallStartMs;
  }
  nowMs(): number {
    return this.#nowMs;
  }
  wallMs(): number {
    return this.#wallStartMs + this.#nowMs;
  }
  /** Never goes back: an earlier time is ignored. */
  moveTo(atMs: number): void {
    this.#nowMs = Math.max(this.#nowMs, atMs);
  }
}

/** Where the bench clock stood, as the journal last saw it. */
export interface ClockMark {
  atMs: number;
  wallMs: number;
  bootId: string;
  /** time since that machine was switched on, ms, suspended time included */
  upMs: number;
}

export interface ClockStart {
  clock: RealClock;
  /** one sentence when the time since the last entry could not be known for certain */
  doubt?: string;
}

/** A wake from sleep shows as uptime running ahead of the process's own clock by more than this, ms. */
const sleepGapMs = 1500;

/**
 * The clock of a live run. Durations follow the machine's uptime, so a changed wall clock does not matter while
 * the machine stays on, and time asleep counts (the bath does not sleep).
 */
export class RealClock implements BenchClock {
  readonly bootId: string;
  #offsetMs: number;
  #lastUpMs: number;
  #lastTickMs: number;

  private constructor(offsetMs: number, bootId: string) {
    this.#offsetMs = offsetMs;
    this.bootId = bootId;
    this.#lastUpMs = uptime();
    this.#lastTickMs = hrtime();
  }

  /** Goes on from `mark`; with no mark the bench clock starts at zero. */
  static start(mark: ClockMark | null): ClockStart {
    const bootId = readBootId();
    const upMs = uptime();
    if (!mark) return { clock: new RealClock(-upMs, bootId) };
    if (mark.bootId === bootId) return { clock: new RealClock(mark.atMs - mark.upMs, bootId) };
    const goneMs = Date.now() - mark.wallMs;
    const clock = new RealClock(mark.atMs + Math.max(0, goneMs) - upMs, bootId);
    if (goneMs >= 0) return { clock };
    return {
      clock,
      doubt:
        'This computer’s date is earlier than the last entry in the journal, so the time that passed while it was off is not known. Check its clock, and tell me if the film waited in a bath.',
    };
  }

  nowMs(): number {
    return this.upMs() + this.#offsetMs;
  }

  /** Uptime in ms at the process clock's resolution, with sleep added when it happened. */
  upMs(): number {
    const tickMs = hrtime();
    const coarseMs = uptime();
    const fineMs = this.#lastUpMs + (tickMs - this.#lastTickMs);
    const sleptMs = coarseMs - fineMs;
    if (sleptMs > sleepGapMs) {
      this.#lastUpMs = coarseMs;
      this.#lastTickMs = tickMs;
      return coarseMs;
    }
    return fineMs;
  }

  wallMs(): number {
    return Date.now();
  }
}

function readBootId(): string {
  try {
    return readFileSync('/proc/sys/kernel/random/boot_id', 'utf8').trim();
  } catch {
    // Other systems have no boot id; the minute of switching on serves, since uptime and date agree to a second.
    return `boot-${Math.round((Date.now() - uptime()) / 60_000)}`;
  }
}
