import { describe, expect, it } from 'vitest';
import { freePathOf, posteriorsOf } from '../../../src/speech/recogniser/acoustics/posteriors.js';
import { align } from '../../../src/speech/recogniser/decode/align.js';
import { type Cues, cuesOf } from '../../../src/speech/recogniser/reject/cues.js';
import { confidenceOf } from '../../../src/speech/recogniser/reject/verdict.js';

const TOKENS = 5;

/** A network that is sure of one token in every frame; 0 is the blank. */
function sureOf(tokens: readonly number[], sureness = 12) {
  const logits = new Float32Array(tokens.length * TOKENS);
  tokens.forEach((token, t) => {
    logits[t * TOKENS + token] = sureness;
  });
  return posteriorsOf(logits, tokens.length, TOKENS, 20, new Float32Array(TOKENS));
}

function cuesFor(
  heard: readonly number[],
  reading: number[],
  sureness?: number,
  pcm = new Float32Array(heard.length * 320).fill(0.1),
): Cues {
  const posteriors = sureOf(heard, sureness);
  const alignment = align(posteriors, [[reading]]);
  if (!alignment) throw new Error('the reading is longer than the sound');
  return cuesOf({
    posteriors,
    free: freePathOf(posteriors),
    alignment,
    logScore: alignment.logScore,
    backgroundLogScore: alignment.logScore,
    agreed: true,
    pcm,
  });
}

const accepting = { bias: 20, weights: {} };

describe('phones that were heard and the reading passes over', () => {
  it('are none where the reading is what was heard', () => {
    const cues = cuesFor([0, 1, 0, 2, 0, 3, 0], [1, 2, 3]);
    expect(cues.contradicted).toBe(0);
    expect(confidenceOf(cues, accepting)).toBeGreaterThan(0.99);
  });

  it('count within and outside the words, per phone of the reading', () => {
    expect(cuesFor([0, 1, 0, 4, 0, 2, 0, 3, 0], [1, 2, 3]).contradicted).toBeCloseTo(1 / 3);
    expect(cuesFor([4, 0, 1, 0, 2, 0, 3, 0, 4], [1, 2, 3]).contradicted).toBeCloseTo(2 / 3);
  });

  it('refuse a reading whatever else speaks for it', () => {
    expect(confidenceOf(cuesFor([0, 1, 0, 4, 0, 2, 0, 3, 0], [1, 2, 3]), accepting)).toBe(0);
  });

  it('do not count where the network is unsure', () => {
    expect(cuesFor([0, 1, 0, 4, 0, 2, 0, 3, 0], [1, 2, 3], 3).contradicted).toBe(0);
  });
});

it.each([
  { loudOverQuietDb: 20, quietness: 0 },
  { loudOverQuietDb: 30, quietness: 0.5 },
  { loudOverQuietDb: 50, quietness: 1 },
])('a voice $loudOverQuietDb dB over the rest: quietness $quietness', ({ loudOverQuietDb, quietness }) => {
  const frames = [0, 1, 0, 2, 0, 3, 0];
  const pcm = new Float32Array(frames.length * 320).fill(0.5 * 10 ** (-loudOverQuietDb / 20));
  pcm.fill(0.5, 640, 1280);
  expect(cuesFor(frames, [1, 2, 3], 12, pcm).quietness).toBeCloseTo(quietness, 3);
});
