import { readFileSync } from 'node:fs';
import { uptime } from 'node:os';
import type { Moment } from './clock.js';

/** Linux names each start of the machine; elsewhere the calendar and the up-time are compared instead. */
function readBootId(): string | null {
  try {
    return readFileSync('/proc/sys/kernel/random/boot_id', 'utf8').trim();
  } catch {
    return null;
  }
}

/** Linux tells the up-time, sleep included, in hundredths of a second; `os.uptime` may give whole seconds only. */
function readUptimeMs(): number {
  try {
    return Math.round(Number.parseFloat(readFileSync('/proc/uptime', 'latin1')) * 1000);
  } catch {
    return uptime() * 1000;
  }
}

let bootId: string | null | undefined;

/** Reads the machine's clocks now. The up-time includes sleep. */
export function systemMoment(): Moment {
  bootId ??= readBootId();
  return { wallMs: Date.now(), upMs: readUptimeMs(), bootId };
}
