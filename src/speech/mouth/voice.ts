import type { Problem, Sound } from '../wav.js';

/** Something that turns a sentence into sound. */
export interface Voice {
  /** stable name for settings and caches, such as `flite-wasm:slt` */
  readonly id: string;
  /** for people: which programme speaks */
  readonly label: string;
  /** samples a second of its sound, where that is known before the first sentence */
  readonly sampleRate?: number;
  /** `rate`: 1 is the voice's own speed, 2 twice as fast; 0.5 to 2 */
  synthesise(text: string, rate: number): Promise<Sound | Problem>;
  /** makes ready, where that takes time: a sentence is likely soon */
  wake?(): void;
  /** frees what the voice holds; it may be used again after */
  close(): void;
}

export const SLOWEST_RATE = 0.5;
export const FASTEST_RATE = 2;

/** What may reach a synthesiser: one line of plain words, so that no engine takes text for a command. */
export function speakable(text: string): string {
  return text
    .replace(/°\s*C\b/g, ' degrees')
    .replace(/[^\p{L}\p{N}\s.,;:!?'%/+-]/gu, ' ')
    .replace(/\s+/g, ' ')
    .replace(/^[-\s]+/, '')
    .trim();
}
