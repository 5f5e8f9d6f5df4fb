import { FRAME_MS } from './frames.js';

/** an untouched microphone always has some noise; a muted one has none, or the ±1 of a recorder's dither */
const DITHER_PEAK = 2.5 / 32768;
const SILENT_FRAMES = Math.round(5_000 / FRAME_MS);
/** at the end of the scale */
const CLIPPED = 0.999;
/** so many frames of a stretch with some clipped samples are too loud, not a knock on the table */
const CLIPPING = { stretchFrames: Math.round(4_000 / FRAME_MS), frames: 12 };

/** Says, once each time it comes to that, that a microphone is muted or too loud. */
export class LevelWatch {
  private silent = 0;
  private frames = 0;
  private clipped = 0;
  private saidClipping = false;

  /** One frame; a sentence, or null when there is nothing to say. */
  remark(pcm: Float32Array): string | null {
    let [peak, ends] = [0, 0];
    for (const v of pcm) {
      const height = Math.abs(v);
      if (height > peak) peak = height;
      if (height >= CLIPPED) ends++;
    }
    this.silent = peak <= DITHER_PEAK ? this.silent + 1 : 0;
    if (this.silent === SILENT_FRAMES) return 'I hear nothing at all. Is the microphone muted?';
    if (ends > 1) this.clipped++;
    if (++this.frames % CLIPPING.stretchFrames !== 0) return null;
    const tooLoud = this.clipped >= CLIPPING.frames;
    this.clipped = 0;
    if (!tooLoud || this.saidClipping) return null;
    this.saidClipping = true;
    return 'The microphone is too loud and clips. Turn its level down.';
  }
}
