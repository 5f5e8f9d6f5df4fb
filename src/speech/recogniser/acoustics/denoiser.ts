import { join } from 'node:path';
import { openSmallModel, type SmallModel } from '../../onnx.js';

/** Samples of 16 kHz, a multiple of which is taken at once: how sound is cut into pieces makes no difference to the last bit. */
export const CLEANED_AT_ONCE = 512;
/** Four such pieces at once take half the time of one after another; beyond eight hardly less, and more memory. */
export const CLEANED_AT_MOST = 8 * CLEANED_AT_ONCE;

/** Samples the network sees at once, and the step from one such block to the next. */
const BLOCK = 512;
const STEP = 128;
/** A sample is whole once all the blocks that hold it are heard. */
const DELAY = BLOCK - STEP;
const STATE_SHAPE = [8, 1, 128];

/** Takes noise out of speech. */
export interface Denoiser {
  /** Begins a sound; what was before it is silence. */
  begin(): Cleaning;
}

/** One sound that is coming. */
export interface Cleaning {
  /** the next samples, a multiple of CLEANED_AT_ONCE → those that are clean by now, 24 ms behind */
  push(pcm: Float32Array): Promise<Float32Array>;
  /** What is still missing when the sound ends with these samples, any number; more may be pushed all the same. */
  rest(pcm: Float32Array): Promise<Float32Array>;
}

/**
 * DTLN (Westhausen and Meyer, "Dual-Signal Transformation LSTM Network for Real-Time Noise Suppression", Interspeech 2020), trained by
 * its authors on recorded speech and noise; made into one graph by training/denoiser.py. One thread.
 * @throws Error with one clear sentence when the model is missing or damaged
 */
export async function loadDenoiser(dir: string): Promise<Denoiser> {
  try {
    const model = await openSmallModel(join(dir, 'model.onnx'));
    return { begin: () => new Dtln(model) };
  } catch (cause) {
    throw new Error(
      `The noise model in "${dir}" cannot be used. Restore the models folder (git checkout models) or type instead of speaking.`,
      { cause },
    );
  }
}

/** What one step leaves for the next. */
interface Left {
  network: Float32Array;
  /** the sound before */
  sound: Float32Array;
  /** blocks summed so far, not yet whole */
  sums: Float32Array;
}

class Dtln implements Cleaning {
  private left: Left = {
    network: new Float32Array(8 * 128),
    sound: new Float32Array(DELAY),
    sums: new Float32Array(DELAY),
  };
  /** samples that came out, those before the beginning counted too */
  private out = 0;

  constructor(private readonly model: SmallModel) {}

  async push(pcm: Float32Array): Promise<Float32Array> {
    const { clean, left } = await this.step(pcm);
    const before = Math.max(0, DELAY - this.out);
    this.left = left;
    this.out += clean.length;
    return clean.subarray(before);
  }

  async rest(pcm: Float32Array): Promise<Float32Array> {
    const missing = Math.min(this.out, DELAY) + pcm.length;
    const padded = new Float32Array(Math.ceil((pcm.length + DELAY) / STEP) * STEP);
    padded.set(pcm);
    const { clean } = await this.step(padded);
    const before = Math.max(0, DELAY - this.out);
    return clean.subarray(before, before + missing);
  }

  private async step(pcm: Float32Array): Promise<{ clean: Float32Array; left: Left }> {
    const sound = new Float32Array(DELAY + pcm.length);
    sound.set(this.left.sound);
    sound.set(pcm, DELAY);
    const count = pcm.length / STEP;
    const blocks = new Float32Array(count * BLOCK);
    for (let i = 0; i < count; i++) blocks.set(sound.subarray(i * STEP, i * STEP + BLOCK), i * BLOCK);
    const { session, TensorOf } = this.model;
    const result = await session.run({
      blocks: new TensorOf('float32', blocks, [count, BLOCK]),
      state: new TensorOf('float32', this.left.network, STATE_SHAPE),
    });
    const made = result.clean?.data as Float32Array;
    const sums = new Float32Array(DELAY + pcm.length);
    sums.set(this.left.sums);
    for (let i = 0; i < made.length; i++) {
      const at = Math.floor(i / BLOCK) * STEP + (i % BLOCK);
      sums[at] = (sums[at] as number) + (made[i] as number);
    }
    return {
      clean: sums.subarray(0, pcm.length),
      left: {
        network: Float32Array.from(result.next?.data as Float32Array),
        sound: sound.slice(pcm.length),
        sums: sums.slice(pcm.length),
      },
    };
  }
}
