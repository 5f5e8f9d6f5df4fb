import { FRAME_MS } from './frames.js';

const WINDOW_FRAMES = Math.round(8_000 / FRAME_MS);
/** a frame so far above the window's middle one is a voice, or a noise as loud as one, dB */
const STANDS_OUT_DB = 12;
/** so many of them are no knock on the table */
const VOICE_FRAMES = Math.round(400 / FRAME_MS);
/** voices whose peaks stay below this are raised, up to the aim, dB of full scale */
const SOFT_DB = -30;
const AIM_DB = -18;
const MOST_DB = 24;
const STEP_DB = 6;
/** peaks after the gain above this: it goes back, dB of full scale */
const LOUD_DB = -3;

/** Raises a microphone that is turned low, by what the voices in front of it come to; a quiet room's noise alone raises nothing. */
export class AutoGain {
  private gainDb = 0;
  private peaksDb: number[] = [];
  private told = false;

  /**
   * What the gain makes of one frame; the frame itself while there is none. `own`: the assistant is speaking, whose echo says nothing of how
   * loud people are.
   */
  apply(pcm: Float32Array, own = false): Float32Array {
    let peak = 1e-6;
    for (const v of pcm) peak = Math.max(peak, Math.abs(v));
    const peakDb = 20 * Math.log10(peak);
    if (!own) this.peaksDb.push(peakDb);
    if (peakDb + this.gainDb > LOUD_DB) this.gainDb = Math.max(0, LOUD_DB - peakDb);
    if (this.peaksDb.length >= WINDOW_FRAMES) this.weigh();
    if (this.gainDb === 0) return pcm;
    const gain = 10 ** (this.gainDb / 20);
    return pcm.map((v) => v * gain);
  }

  /** One sentence, the first time that it raises anything. */
  remark(): string | null {
    if (this.gainDb === 0 || this.told) return null;
    this.told = true;
    return 'The microphone is soft, so I make it louder here. Turn its level up, or come nearer.';
  }

  private weigh(): void {
    const sorted = this.peaksDb.sort((a, b) => a - b);
    this.peaksDb = [];
    const middleDb = sorted[sorted.length >> 1] ?? 0;
    const voices = sorted.filter((db) => db > middleDb + STANDS_OUT_DB);
    const voiceDb = voices.at(-Math.ceil(voices.length / 4)) ?? 0;
    if (voices.length < VOICE_FRAMES || voiceDb > SOFT_DB) return;
    this.gainDb = Math.min(MOST_DB, this.gainDb + STEP_DB, Math.max(this.gainDb, AIM_DB - voiceDb));
  }
}
