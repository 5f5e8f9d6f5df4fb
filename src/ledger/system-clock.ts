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

let bootId: string | null | undefined;

/** Reads the machine's clocks now. The up-time includes sleep. */
export function systemMoment(): Moment {
  bootId ??= readBootId();
  return { wallMs: Date.now(), upMs: uptime() * 1000, bootId };
}
