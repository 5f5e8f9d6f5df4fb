import { uptime as osUptime } from 'node:os';

/** The process's monotonic clock, ms. */
export const hrtime = (): number => Number(process.hrtime.bigint()) / 1e6;

/** Time since the machine was switched on, ms, time asleep included; resolution about 10 ms. */
export const uptime = (): number => osUptime() * 1000;
