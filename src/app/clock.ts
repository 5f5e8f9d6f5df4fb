import { resumeClock } from '../ledger/clock.js';
import type { Journal } from '../ledger/journal.js';
import { systemMoment } from '../ledger/system-clock.js';

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

/** Uptime running ahead of the process's own clock by more than this, ms, means that the machine slept. */
const sleepGapMs = 1500;

/**
 * The clock of a live run. It ticks with the process's monotonic clock, so a changed calendar does not matter, and
 * time asleep counts: the bath does not sleep.
 */
export class RealClock implements BenchClock {
  #baseMs: number;
  #baseTickMs = tickMs();
  #baseUpMs = systemMoment().upMs;

  constructor(startAtMs: number) {
    this.#baseMs = startAtMs;
  }
  nowMs(): number {
    const passedMs = tickMs() - this.#baseTickMs;
    const upPassedMs = systemMoment().upMs - this.#baseUpMs;
    if (upPassedMs - passedMs <= sleepGapMs) return this.#baseMs + passedMs;
    this.#baseMs += upPassedMs;
    this.#baseTickMs = tickMs();
    this.#baseUpMs += upPassedMs;
    return this.#baseMs;
  }
  wallMs(): number {
    return Date.now();
  }
}

export const tickMs = (): number => Number(process.hrtime.bigint()) / 1e6;

/** The bench clock of a journal: from zero, or from where the last entry left it. `doubt` is a sentence to say. */
export function clockFor(journal: Journal): { clock: RealClock; doubt?: string } {
  const last = journal.lastMoment;
  if (!last) return { clock: new RealClock(0) };
  const { resumed, clock } = undisturbed(() => {
    const resumed = resumeClock(last, systemMoment());
    return { resumed, clock: new RealClock(resumed.atMs) };
  });
  return resumed.sentence ? { clock, doubt: resumed.sentence } : { clock };
}

/** Two readings with more than this between them are taken again, ms, so many times at most. */
const togetherMs = 2;
const mostTries = 20;

/** Does what reads two clocks that must be read together, again while the system took the processor in between. */
export function undisturbed<T>(read: () => T): T {
  for (let tries = 1; ; tries++) {
    const began = tickMs();
    const result = read();
    if (tickMs() - began <= togetherMs || tries === mostTries) return result;
  }
}
