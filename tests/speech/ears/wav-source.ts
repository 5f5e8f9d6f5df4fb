import { type FrameSource, piecesSource, type WavSourceOptions } from '../../../src/speech/ears/frames.js';
import type { Recording } from '../../../src/speech/wav.js';

/** A whole recording as microphone frames. */
export const wavSource = (recording: Recording, options: WavSourceOptions = {}): FrameSource =>
  piecesSource(() => [recording.pcm], options);
