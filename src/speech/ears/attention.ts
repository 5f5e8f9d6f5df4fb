import type { WordArc, WordGraph } from '../../language/types.js';

/** Always listening; only after the call word; only on the key (space bar or a foot pedal that types one). */
export type AttentionMode = 'always' | 'call-word' | 'push-to-talk';

export interface AttentionSettings {
  /** how long the ear stays open after the call word, or after the assistant asked, ms */
  openMs: number;
  /** a held key repeats; without a repeat for so long it was let go, ms. Longer than the first repeat's delay. */
  keyReleaseMs: number;
}

export const ATTENTION_DEFAULTS: AttentionSettings = { openMs: 8000, keyReleaseMs: 700 };

/** Plain data; times are monotonic, ms. */
export interface Attention {
  readonly mode: AttentionMode;
  /** an utterance that begins before this is listened to */
  readonly openUntilMs: number;
  /** the key is down, as far as is known, and was pressed at this time */
  readonly keySinceMs: number | null;
  readonly keySeenMs: number;
}

export type AttentionEvent =
  | { type: 'mode'; mode: AttentionMode }
  /** the key was pressed, or repeats because it is held */
  | { type: 'key'; atMs: number }
  /** the key was let go, where that can be known */
  | { type: 'key-up'; atMs: number }
  /** the assistant asked something: the answer needs no call word */
  | { type: 'asked'; atMs: number }
  /** the call word was heard */
  | { type: 'called'; atMs: number };

export function attention(mode: AttentionMode = 'always'): Attention {
  return {
    mode,
    openUntilMs: Number.NEGATIVE_INFINITY,
    keySinceMs: null,
    keySeenMs: Number.NEGATIVE_INFINITY,
  };
}

export function attend(state: Attention, event: AttentionEvent, settings = ATTENTION_DEFAULTS): Attention {
  switch (event.type) {
    case 'mode':
      return attention(event.mode);
    case 'key':
      return {
        ...state,
        keySinceMs: keyIsDown(state, event.atMs, settings) ? state.keySinceMs : event.atMs,
        keySeenMs: event.atMs,
      };
    case 'key-up':
      return { ...state, keySinceMs: null };
    case 'asked':
      return state.mode === 'call-word' ? open(state, event.atMs + settings.openMs) : state;
    case 'called':
      return open(state, event.atMs + settings.openMs);
  }
}

function open(state: Attention, untilMs: number): Attention {
  return { ...state, openUntilMs: Math.max(state.openUntilMs, untilMs) };
}

export function keyIsDown(state: Attention, nowMs: number, settings = ATTENTION_DEFAULTS): boolean {
  const sinceMs = state.keySinceMs;
  return sinceMs !== null && nowMs >= sinceMs && nowMs - state.keySeenMs <= settings.keyReleaseMs;
}

/**
 * What of an utterance counts: `all`; `after-call-word`, a command that begins with the call word; `stop-words`, only
 * what silences or stops, which is heard always and in every mode.
 */
export type Hears = 'all' | 'after-call-word' | 'stop-words';

/** How to listen to the utterance that begins at `startMs` and ended at `endMs`. */
export function hears(
  state: Attention,
  utterance: { startMs: number; endMs: number },
  settings = ATTENTION_DEFAULTS,
): Hears {
  if (state.mode === 'always') return 'all';
  if (state.mode === 'call-word') return utterance.startMs <= state.openUntilMs ? 'all' : 'after-call-word';
  const keyMs = state.keySinceMs ?? Number.POSITIVE_INFINITY;
  const overlaps = keyMs <= utterance.endMs && state.keySeenMs + settings.keyReleaseMs >= utterance.startMs;
  return overlaps ? 'all' : 'stop-words';
}

/** Splits off what silences or stops, and what begins with the call word, from a mode that hears no more. */
export const STOP_WORDS: readonly string[] = ['quiet', 'be quiet', 'silence', 'stop', 'stop talking', 'hush'];

/** A grammar of a few fixed sentences, such as the stop words. */
export function sentencesGraph(name: string, sentences: readonly string[]): WordGraph {
  const arcs: WordArc[] = [];
  let nodeCount = 2;
  for (const sentence of sentences) {
    const words = sentence.split(' ');
    let from = 0;
    words.forEach((word, i) => {
      const to = i === words.length - 1 ? 1 : nodeCount++;
      arcs.push({ from, to, word });
      from = to;
    });
  }
  return { name, nodeCount, start: 0, end: 1, arcs };
}
