import { describe, expect, it } from 'vitest';
import { AutoGain } from '../../../src/speech/ears/auto-gain.js';
import { FRAME_SAMPLES } from '../../../src/speech/ears/frames.js';
import { seeded } from '../../bench/voice/random.js';

const random = seeded(3);
const frame = (peak: number): Float32Array =>
  Float32Array.from({ length: FRAME_SAMPLES }, () => peak * (2 * random() - 1));
const peakOf = (pcm: Float32Array): number => pcm.reduce((m, v) => Math.max(m, Math.abs(v)), 0);

/** Seconds in a room: a second of voice in every four; the last voice's peak as it comes out. */
function heard(gain: AutoGain, seconds: number, voice: number, noise: number): number {
  let last = 0;
  for (let i = 0; i < seconds * 31; i++) {
    const speaks = i % 124 >= 93;
    const out = peakOf(gain.apply(frame(speaks ? voice : noise)));
    if (speaks) last = out;
  }
  return last;
}

describe('a microphone that is turned low', () => {
  it('is raised step by step for the voices in front of it, and that is said once', () => {
    const gain = new AutoGain();
    expect(gain.remark()).toBeNull();
    const out = heard(gain, 60, 0.01, 0.0005);
    expect(out).toBeGreaterThan(0.08);
    expect(out).toBeLessThan(0.16);
    expect(gain.remark()).toMatch(/soft/);
    expect(gain.remark()).toBeNull();
  });
  it('is not raised for the echo of its own voice', () => {
    const gain = new AutoGain();
    for (let i = 0; i < 60 * 31; i++) gain.apply(frame(i % 124 >= 93 ? 0.01 : 0.0005), i % 124 >= 93);
    expect(gain.remark()).toBeNull();
  });
  it('goes back at once when something is loud', () => {
    const gain = new AutoGain();
    heard(gain, 60, 0.01, 0.0005);
    expect(peakOf(gain.apply(frame(0.9)))).toBeLessThanOrEqual(0.91);
    expect(peakOf(gain.apply(frame(0.9)))).toBeLessThanOrEqual(0.91);
  });
  it('is let be where voices are loud enough, or there are none', () => {
    for (const [voice, noise] of [
      [0.3, 0.001],
      [0.0005, 0.0005],
    ] as const) {
      const gain = new AutoGain();
      heard(gain, 60, voice, noise);
      expect(gain.remark()).toBeNull();
      expect(peakOf(gain.apply(frame(0.01)))).toBeLessThan(0.0101);
    }
  });
});
