import type { RejectionSettings } from '../settings.js';
import { type Cues, cueNames } from './cues.js';

/**
 * A reading that passes over so many phones that the network is sure of, per phone of its own, is not what was said
 * ("it is raining" is not "draining"). Of 734 development commands heard right none has so many, of talk nine in ten.
 */
const MOST_CONTRADICTED = 0.3;

/** Probability-like number that the reading is a command: logistic in the cues; 0.5 is the accept/reject line. */
export function confidenceOf(cues: Cues, { bias, weights }: RejectionSettings): number {
  if (cues.contradicted > MOST_CONTRADICTED) return 0;
  let z = bias;
  for (const name of cueNames) z += (weights[name] ?? 0) * cues[name];
  return 1 / (1 + Math.exp(-Math.max(-30, Math.min(30, z))));
}

/** A word's own confidence from its log score per phone: 0.5 at −1.5, falling below. */
export const wordConfidence = (perPhone: number): number => 1 / (1 + Math.exp(-2 * (perPhone + 1.5)));
