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

/**
 * Where other talk goes on, what is so far behind at a second look or later is let go: half of the talk then, and nine in ten after 1.8 s.
 * At the first look one of 52 strangers' commands in quiet was, for a breath before it.
 */
const LOST_BY_FRAME = -0.4;

export const isFar = ({ logScore, frames }: Shortfall, byFrame = FAR_BY_FRAME): boolean =>
  logScore < FAR_IN_ALL && logScore < byFrame * frames;

/** Looked at first after so many samples of the voice, then each time that it has grown by half. */
const FIRST = 12_800;
const GROWTH = 1.5;

/**
 * Whether sound that is still coming may become a sentence. It decides nothing but what work is worth doing before the sound
 * has ended: noise may hide a beginning that shows later.
 */
export class Outlook {
  hopeless = false;
  /** further still */
  lost = false;
  private from = -1;
  private next = FIRST;

  /** whether this beginning was looked at */
  get looked(): boolean {
    return this.next > FIRST;
  }

  /** @param shortfall of this part of the sound */
  constructor(private readonly shortfall: (part: Span) => Promise<Shortfall>) {}

  /** @param voice the part of the sound that holds the voice so far: it grows, or begins anew elsewhere */
  async look({ from, to }: Span): Promise<void> {
    if (from !== this.from) Object.assign(this, { from, next: FIRST, hopeless: false, lost: false });
    if (from + this.next > to) return;
    const behind = await this.shortfall({ from, to });
    this.hopeless = isFar(behind);
    this.lost = this.looked && isFar(behind, LOST_BY_FRAME);
    this.next = GROWTH * (to - from);
  }
}
