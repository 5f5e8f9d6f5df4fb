import type { ScreenLine, ScreenView } from '../view.js';

/** From the programme to a screen. */
export type ToScreen =
  | { type: 'view'; view: ScreenView }
  /** all lines at first, then each as it comes */
  | { type: 'lines'; lines: ScreenLine[] }
  /** every second: the bench clock, and a sign of life */
  | { type: 'beat'; benchMs: number }
  /** the microphone's level, dB below full scale */
  | { type: 'level'; db: number }
  /** who is the microphone */
  | { type: 'microphone'; you: boolean; screen: string | null }
  /** the next binary message is this sound, 16-bit samples; answer `playing` when it begins */
  | { type: 'sound'; id: number; rate: number }
  | { type: 'hush' }
  /** what was pressed was meant for another moment, or too much came at once: one sentence */
  | { type: 'refused'; why: string }
  | { type: 'bye'; why: string };

/** From a screen. Binary messages are its microphone: 16-bit samples at 16 kHz. */
export type FromScreen =
  | { type: 'say'; words: string; moment: string | null }
  /** take or give back the microphone; `hold`: only while a hand is on it */
  | { type: 'microphone'; on: boolean; hold: boolean }
  | { type: 'speaker'; on: boolean }
  | { type: 'playing'; id: number };

const short = (value: unknown, most: number): value is string =>
  typeof value === 'string' && value.length <= most;

/** Null for anything that no screen of ours sends. */
export function readMessage(text: string): FromScreen | null {
  let m: Record<string, unknown>;
  try {
    m = JSON.parse(text) as Record<string, unknown>;
  } catch {
    return null;
  }
  if (typeof m !== 'object' || m === null) return null;
  switch (m.type) {
    case 'say':
      return short(m.words, 400) && m.words.trim() !== '' && (m.moment === null || short(m.moment, 2000))
        ? { type: 'say', words: m.words.replace(/\s+/g, ' ').trim(), moment: m.moment }
        : null;
    case 'microphone':
      return typeof m.on === 'boolean' && typeof m.hold === 'boolean'
        ? { type: 'microphone', on: m.on, hold: m.hold }
        : null;
    case 'speaker':
      return typeof m.on === 'boolean' ? { type: 'speaker', on: m.on } : null;
    case 'playing':
      return typeof m.id === 'number' ? { type: 'playing', id: m.id } : null;
    default:
      return null;
  }
}

/** The path and the questions of a request; null for what is no address. */
export function addressOf(url: string | undefined): { pathname: string; night: boolean } | null {
  try {
    const { pathname, searchParams } = new URL(url ?? '/', 'http://here');
    return { pathname, night: searchParams.get('night') === '1' };
  } catch {
    return null;
  }
}
