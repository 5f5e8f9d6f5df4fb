import { SAMPLE_RATE_HZ } from '../wav.js';
import { FRAME_MS, FRAME_SAMPLES } from './frames.js';

const EXACT_FRAME_MS = (FRAME_SAMPLES * 1000) / SAMPLE_RATE_HZ;
/** about two seconds: even a busy machine takes one frame in time within it */
const WINDOW_FRAMES = 64;
/** when all of a window came so much later than before, samples were lost or the machine slept, ms */
const LOST_MS = 60;

/**
 * When frames began, from when they arrived. A frame may arrive late, when the machine is busy, but never early: the
 * earliest of a window tells how the count of samples stands to the clock. Times never go back.
 */
export class FrameClock {
  private count = 0;
  private offsetMs = Number.POSITIVE_INFINITY;
  private windowMs: number[] = [];
  private lastMs = Number.NEGATIVE_INFINITY;

  /** The frame that arrived at `nowMs` began at … ms. */
  startOf(nowMs: number): number {
    const lateMs = nowMs - FRAME_MS - this.count * EXACT_FRAME_MS;
    this.windowMs.push(lateMs);
    if (this.windowMs.length > WINDOW_FRAMES) this.windowMs.shift();
    const earliestMs = Math.min(...this.windowMs);
    const full = this.windowMs.length === WINDOW_FRAMES;
    if (lateMs < this.offsetMs || (full && earliestMs > this.offsetMs + LOST_MS)) this.offsetMs = earliestMs;
    this.lastMs = Math.max(this.lastMs, this.offsetMs + this.count++ * EXACT_FRAME_MS);
    return this.lastMs;
  }
}
