import type { Role } from '../world/liquids.js';
import type { LiquidId } from '../world/vessel.js';
import type { Agitation } from './sheet.js';

/** The liquid in the tank and its clock. All times are on the bench clock, ms, unless the name says seconds. */
export interface Bath {
  liquid: LiquidId;
  role: Role;
  /** the sheet's step whose times are used; null: a wrong bath, no times */
  stepId: string | null;
  /** the step that is due when the tank is empty again */
  advanceTo: number;
  startedMs: number;
  /** with added time; null: no clock, the user ends it */
  aimS: number | null;
  leadS: number;
  agitation: Agitation | null;
  /** total of finished holds */
  heldMs: number;
  heldAtMs: number | null;
  /** how many of the regular agitations were called */
  agitated: number;
  called: ('rest' | 'ten-seconds' | 'overdue')[];
}

/** When the bath's time is up, ms; null: it has none. */
export const aimMs = (bath: Bath): number | null =>
  bath.aimS === null ? null : bath.startedMs + bath.heldMs + bath.aimS * 1000;

/** No regular agitation is called from here to the drain call: hands get ready to pour, s. */
export const tenSecondsS = 10;

/** Regular agitations fall on multiples of their interval, after the first continuous stretch. */
export const firstMultiple = (a: Agitation): number => (a.everyS ? Math.floor(a.initialS / a.everyS) + 1 : 0);

/** How many regular agitations lie at or before this clock time, s. */
export function multiplesUpTo(agitation: Agitation | null, elapsedS: number): number {
  if (!agitation?.everyS) return 0;
  return Math.max(0, Math.floor(elapsedS / agitation.everyS) - firstMultiple(agitation) + 1);
}

/** Time the clock has run, s; a hold does not count. */
export const elapsedS = (bath: Bath, atMs: number): number =>
  ((bath.heldAtMs ?? atMs) - bath.startedMs - bath.heldMs) / 1000;

export const leftS = (bath: Bath, atMs: number): number | null =>
  bath.aimS === null ? null : bath.aimS - elapsedS(bath, atMs);

/** How long the liquid has touched the film, holds included, s. */
export const contactS = (bath: Bath, atMs: number): number => (atMs - bath.startedMs) / 1000;

/** Calls that a restored bath has missed are not made up, except the call to drain. */
export function forgetMissed(bath: Bath, atMs: number): Bath {
  const elapsed = elapsedS(bath, atMs);
  const called = new Set(bath.called);
  if (bath.agitation && bath.agitation.initialS > 0 && bath.agitation.initialS <= elapsed) called.add('rest');
  const drainS = bath.aimS === null ? 0 : bath.aimS - bath.leadS;
  if (drainS >= 2 * tenSecondsS && drainS - tenSecondsS <= elapsed) called.add('ten-seconds');
  return {
    ...bath,
    called: [...called],
    agitated: Math.max(bath.agitated, multiplesUpTo(bath.agitation, elapsed)),
  };
}
