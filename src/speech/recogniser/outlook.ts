import type { Span } from './acoustics/speech-span.js';

/** How far the best beginning of a sentence lies behind the free path of phones: natural log, 0 or less is usual. */
export interface Shortfall {
  logScore: number;
  frames: number;
}

/**
 * Beginnings of strangers' commands lie 0.03 behind by frame, and in a kitchen at 5 dB 0.1 to 0.3; everyday talk lies 0.35 behind
 * after 1.2 s and 0.45 after 3.
 */
const FAR_BY_FRAME = -0.25;
const FAR_IN_ALL = -12;

export const isFar = ({ logScore, frames }: Shortfall): boolean =>
  logScore < FAR_IN_ALL && logScore < FAR_BY_FRAME * frames;

/** Looked at first after so many samples of the voice, then each time that it has grown by half. */
const FIRST = 12_800;
const GROWTH = 1.5;

/**
 * Whether sound that is still coming may become a sentence. It decides nothing but what work is worth doing before the sound
 * has ended: noise may hide a beginning that shows later.
 */
export class Outlook {
  hopeless = false;
  private from = -1;
  private next = FIRST;

  /** @param shortfall of this part of the sound */
  constructor(private readonly shortfall: (part: Span) => Promise<Shortfall>) {}

  /** @param voice the part of the sound that holds the voice so far: it grows, or begins anew elsewhere */
  async look({ from, to }: Span): Promise<void> {
    if (from !== this.from) Object.assign(this, { from, next: FIRST, hopeless: false });
    if (from + this.next > to) return;
    this.hopeless = isFar(await this.shortfall({ from, to }));
    this.next = GROWTH * (to - from);
  }
}
