import { inWords } from '../ledger/clock.js';
import { systemMoment } from '../ledger/system-clock.js';
import { tickMs } from './clock.js';

/** One reading of all clocks, ms: the process's own (stands still in sleep), the machine's, the calendar. */
export interface Clocks {
  tickMs: number;
  upMs: number;
  wallMs: number;
}

export const readClocks = (): Clocks => {
  const { upMs, wallMs } = systemMoment();
  return { tickMs: tickMs(), upMs, wallMs };
};

/** More than this between what two clocks passed is sleep, or a calendar that was set, ms. */
const slackMs = 2_000;
/** A check that comes so much too late was held up: the process was stopped, ms. */
const stoppedMs = 5_000;

/** Notices between two checks what happened to time, and says what it means; null: nothing. */
export function createTimeWatch(everyMs: number, first: Clocks): (now: Clocks) => string | null {
  let before = first;
  return (now) => {
    const tickPassedMs = now.tickMs - before.tickMs;
    const upPassedMs = now.upMs - before.upMs;
    const setMs = now.wallMs - before.wallMs - upPassedMs;
    before = now;
    const said: string[] = [];
    if (upPassedMs - tickPassedMs > slackMs)
      said.push(
        `The computer slept for ${inWords(upPassedMs - tickPassedMs)}, and I called nothing. The baths went on.`,
      );
    else if (tickPassedMs > everyMs + stoppedMs)
      said.push(`I was stopped for ${inWords(tickPassedMs)}, and called nothing. The baths went on.`);
    if (Math.abs(setMs) > slackMs)
      said.push(
        `The computer's clock was set ${setMs < 0 ? 'back' : 'forward'} by ${inWords(Math.abs(setMs))}. Bath times are not affected.`,
      );
    return said.length > 0 ? said.join(' ') : null;
  };
}
