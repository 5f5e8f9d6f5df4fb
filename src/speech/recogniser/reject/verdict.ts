import type { RejectionSettings } from '../settings.js';
import { type Cues, cueNames } from './cues.js';

/** Probability-like number that the reading is a command: logistic in the cues; 0.5 is the accept/reject line. */
export function confidenceOf(cues: Cues, { bias, weights }: RejectionSettings): number {
  let z = bias;
  for (const name of cueNames) z += (weights[name] ?? 0) * cues[name];
  return 1 / (1 + Math.exp(-Math.max(-30, Math.min(30, z))));
}

/** A word's own confidence from its log score per phone: 0.5 at −1.5, falling below. */
export const wordConfidence = (perPhone: number): number => 1 / (1 + Math.exp(-2 * (perPhone + 1.5)));
