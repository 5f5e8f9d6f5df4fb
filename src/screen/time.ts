import type { ScreenView } from './view.js';

/** What the large digits say. `early` counts down, `late` up from the act that is overdue, `since` up from a start. */
export interface Digits {
  text: string;
  sense: 'early' | 'late' | 'since' | 'none';
  /** bench time at which the text changes next; null: never by itself */
  changesMs: number | null;
}

/**
 * The digits at a moment of the bench clock. A countdown shows 0:00 from the very instant that the act is due, so it
 * counts seconds that have begun; digits of all screens change at the same instants.
 */
export function digitsAt(view: Pick<ScreenView, 'act' | 'bath'>, benchMs: number): Digits {
  const { act, bath } = view;
  const stopped = bath?.stoppedMs ?? null;
  const nowMs = stopped === null ? benchMs : Math.min(stopped, benchMs);
  const running = (changesMs: number): number | null => (stopped === null ? changesMs : null);
  if (act.dueMs !== null) {
    const leftMs = act.dueMs - nowMs;
    if (leftMs > -1000) {
      const left = Math.max(0, Math.ceil(leftMs / 1000));
      const changesMs = left > 0 ? act.dueMs - (left - 1) * 1000 : act.dueMs + 1000;
      return { text: clockText(left), sense: 'early', changesMs: running(changesMs) };
    }
    const late = Math.floor(-leftMs / 1000);
    return {
      text: `+${clockText(late)}`,
      sense: 'late',
      changesMs: running(act.dueMs + (late + 1) * 1000),
    };
  }
  if (bath) {
    const since = Math.max(0, Math.floor((nowMs - bath.startedMs) / 1000));
    return {
      text: clockText(since),
      sense: 'since',
      changesMs: running(bath.startedMs + (since + 1) * 1000),
    };
  }
  return { text: '', sense: 'none', changesMs: null };
}

/** Seconds → "0:07", "12:30", "1:02:05" */
export function clockText(seconds: number): string {
  const two = (n: number): string => String(n).padStart(2, '0');
  const minutes = Math.floor(seconds / 60);
  if (minutes < 60) return `${minutes}:${two(seconds % 60)}`;
  return `${Math.floor(minutes / 60)}:${two(minutes % 60)}:${two(seconds % 60)}`;
}

/** The share of the bath's time that is left, 0 to 1; null: it has no clock. */
export function shareLeft(view: Pick<ScreenView, 'bath'>, benchMs: number): number | null {
  const { bath } = view;
  if (!bath || bath.endsMs === null) return null;
  const nowMs = bath.stoppedMs === null ? benchMs : Math.min(bath.stoppedMs, benchMs);
  const wholeMs = bath.endsMs - bath.startedMs;
  return wholeMs <= 0 ? 0 : Math.min(1, Math.max(0, (bath.endsMs - nowMs) / wholeMs));
}
