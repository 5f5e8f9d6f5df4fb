import { FRAME_MS } from './frames.js';

const START_DB = -60;
const LOWEST_DB = -90;
/** falls to a quieter room within a few frames */
const FALL = 0.3;
/** rises towards what the model says is not speech, with a time constant of about half a second */
const RISE_KNOWN_NOISE = FRAME_MS / 500;
/** while it is not known whether this is speech, dB a second */
const RISE_UNKNOWN_DB = 1;
/** the quietest moment of so many blocks is noise whatever else was heard: even fast speech has gaps */
const BLOCK_FRAMES = Math.round(250 / FRAME_MS);
const BLOCKS = 10;

/**
 * Follows the level of what is always there: the room, a pump, a tap that was just opened. Pure but for its own
 * memory; one call a frame.
 */
export class NoiseFloor {
  private floorDb = START_DB;
  private started = false;
  private frames = 0;
  private blockMinDb = Number.POSITIVE_INFINITY;
  private readonly blockMinsDb: number[] = [];

  get db(): number {
    return this.floorDb;
  }

  /** `speech`: what the model says of this frame, 0 to 1; null when it was not asked */
  update(levelDb: number, speech: number | null): number {
    const level = Math.max(LOWEST_DB, levelDb);
    if (!this.started) {
      this.floorDb = Math.min(START_DB, level);
      this.started = true;
    }
    if (level < this.floorDb) this.floorDb += FALL * (level - this.floorDb);
    else if (speech !== null && speech < 0.2) this.floorDb += RISE_KNOWN_NOISE * (level - this.floorDb);
    else this.floorDb += Math.min(level - this.floorDb, (RISE_UNKNOWN_DB * FRAME_MS) / 1000);
    this.floorDb = Math.max(this.floorDb, this.windowMinDb(level));
    return this.floorDb;
  }

  private windowMinDb(level: number): number {
    this.blockMinDb = Math.min(this.blockMinDb, level);
    if (++this.frames % BLOCK_FRAMES === 0) {
      this.blockMinsDb.push(this.blockMinDb);
      if (this.blockMinsDb.length > BLOCKS) this.blockMinsDb.shift();
      this.blockMinDb = Number.POSITIVE_INFINITY;
    }
    if (this.blockMinsDb.length < BLOCKS) return LOWEST_DB;
    return Math.min(this.blockMinDb, ...this.blockMinsDb);
  }
}
