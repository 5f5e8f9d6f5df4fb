import { type Endpointer, LevelMeter } from './endpointer.js';
import { FRAME_MS } from './frames.js';
import { OWN_LIKENESS, type SelfHearing } from './self-hearing.js';

/**
 * One frame that may be somebody's over its own voice is reason enough to fall silent. A voice is told by the model; sooner, with a mere
 * suspicion, by how loud the sound is that its own voice was taken out of. Above the floor, dB.
 */
const VOICE = 0.4;
const SUSPICION = 0.05;
const LOUD_DB = 20;
/** Nothing of its own voice is left so loud, however like it the whole may sound: in 390 s of it by two echo paths no frame was. */
const TOO_LOUD_DB = 30;
/** What the canceller takes along with its own voice shows in the sound as it came: it is loud, and suddenly little like what is played. */
const CAME_LOUD_DB = 25;
const UNLIKE = 0.5;
/** so long after it was like that; where it never is, the comparison says nothing, ms */
const LATELY_MS = 1_500;
/** a canceller that was at rest begins with what was left in it, ms */
const BEGINS_MS = 160;

/** Whether somebody may be speaking over the assistant's own voice. Asked of every frame, in order. */
export class Interruption {
  private readonly came = new LevelMeter();
  private wasLikeMs = Number.NEGATIVE_INFINITY;

  constructor(private readonly self: Pick<SelfHearing, 'soundsAt' | 'likenessUntil'>) {}

  /** @param pcm the frame as it came; @param endpointer has just taken what is left of it */
  begins(
    pcm: Float32Array,
    startMs: number,
    { voice, aboveDb, core }: Pick<Endpointer, 'voice' | 'aboveDb' | 'core'>,
  ): boolean {
    const loud = this.came.db(pcm) - core.floor.db > CAME_LOUD_DB;
    const likely = voice > VOICE || (voice > SUSPICION && aboveDb > LOUD_DB);
    if (!(loud || likely) || !this.self.soundsAt(startMs - BEGINS_MS)) return false;
    const like = this.self.likenessUntil(startMs + FRAME_MS);
    if (like > OWN_LIKENESS) this.wasLikeMs = startMs;
    const suddenly = loud && like < UNLIKE && startMs - this.wasLikeMs < LATELY_MS;
    return suddenly || (likely && (like <= OWN_LIKENESS || aboveDb > TOO_LOUD_DB));
  }
}
