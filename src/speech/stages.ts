import { channel } from 'node:diagnostics_channel';
import { performance } from 'node:perf_hooks';
import type { Sound } from './wav.js';

/** What an answer passes on its way, in this order. */
export const IN_TURN = ['paused', 'made-out', 'heard', 'spoken', 'sound-made', 'sound-played'] as const;
/** A call passes another one first: when it is due, or when it answers what somebody said. What was its own voice goes no further. */
export type Stage = (typeof IN_TURN)[number] | 'due' | 'answers' | 'own-voice';

export interface Passed {
  readonly stage: Stage;
  /** since 1970, so that another process can compare it, ms */
  readonly atMs: number;
  /** what was given to the player */
  readonly sound?: Sound;
  /** what the call says, or what was heard and whether it was taken for a command */
  readonly text?: string;
}

export const STAGES = 'tankside:stages';
const stages = channel(STAGES);

/** Tells whoever measures, through Node's diagnostics channel; costs nothing where nobody does. */
export function passed(stage: Stage, more: Omit<Passed, 'stage' | 'atMs'> = {}, agoMs = 0): void {
  if (!stages.hasSubscribers) return;
  const atMs = performance.timeOrigin + performance.now() - agoMs;
  stages.publish({ stage, atMs, ...more } satisfies Passed);
}
