/** One reading of the machine's clocks. */
export interface Moment {
  /** calendar, ms since 1970 UTC; may jump when someone sets the clock */
  wallMs: number;
  /** since the machine started, ms; counts on over a crash of tankside, starts again after a reboot */
  upMs: number;
  /** changes with every start of the machine; null where the system does not tell */
  bootId: string | null;
}

export interface Resumed {
  /** the bench clock to go on from, ms */
  atMs: number;
  /** false: how long the bench stood alone is not known for certain; ask the user before trusting a bath's time */
  sure: boolean;
  /** what to tell the user, when there is something to tell */
  sentence?: string;
}

/** Clocks read a moment apart; more than this between them is a clock that was set. */
const SLACK_MS = 2_000;

/**
 * The bench clock after a restart: the last journaled reading plus the time that really passed. Within one start
 * of the machine the up-time decides, whatever was done to the calendar clock; after a reboot only the calendar is
 * left, and it is believed unless it runs backwards.
 */
export function resumeClock(last: Moment & { atMs: number }, now: Moment): Resumed {
  const wallPassedMs = now.wallMs - last.wallMs;
  const upPassedMs = now.upMs - last.upMs;
  const sameBoot =
    last.bootId !== null && now.bootId !== null
      ? last.bootId === now.bootId && upPassedMs >= 0
      : upPassedMs >= 0 && Math.abs(wallPassedMs - upPassedMs) <= SLACK_MS;
  if (sameBoot) {
    const shiftMs = wallPassedMs - upPassedMs;
    if (Math.abs(shiftMs) <= SLACK_MS) return { atMs: last.atMs + upPassedMs, sure: true };
    return {
      atMs: last.atMs + upPassedMs,
      sure: true,
      sentence: `The computer's clock was set ${shiftMs < 0 ? 'back' : 'forward'} by ${inWords(Math.abs(shiftMs))}. Bath times are not affected.`,
    };
  }
  if (wallPassedMs >= 0) return { atMs: last.atMs + wallPassedMs, sure: true };
  return {
    atMs: last.atMs,
    sure: false,
    sentence: `The computer's clock is ${inWords(-wallPassedMs)} behind the last entry, so I cannot tell how long the bench stood alone. Check the time of any bath that was in the tank.`,
  };
}

/** "30 seconds", "2 minutes", "1 hour" */
export function inWords(ms: number): string {
  const seconds = Math.round(ms / 1000);
  if (seconds < 120) return `${seconds} seconds`;
  const minutes = Math.round(seconds / 60);
  if (minutes === 60) return '1 hour';
  return minutes < 120 ? `${minutes} minutes` : `${Math.round(minutes / 60)} hours`;
}
