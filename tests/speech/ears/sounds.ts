import { resample } from '../../../src/speech/ears/resample.js';
import { findVoice } from '../../../src/speech/mouth/voices.js';
import { isProblem } from '../../../src/speech/wav.js';

/** A repeatable stream of −1 to 1. */
export function noiseSource(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) | 0;
    return state / 2 ** 31;
  };
}

/** Broad noise as of running water: no lows, a slow flutter. `rms` of full scale. */
export function water(samples: number, rms: number, seed = 7): Float32Array {
  const next = noiseSource(seed);
  const out = new Float32Array(samples);
  let [fast, slow] = [0, 0];
  for (let i = 0; i < samples; i++) {
    const white = next();
    fast += 0.5 * (white - fast);
    slow += 0.05 * (white - slow);
    out[i] = fast - slow;
  }
  let sum = 0;
  for (const v of out) sum += v * v;
  const gain = rms / Math.sqrt(sum / samples);
  return out.map((v) => v * gain);
}

/** A sentence at 16 kHz, trimmed to where it sounds, at an rms of 0.05. */
export async function sentence(text: string, voice = 'flite-wasm:slt'): Promise<Float32Array> {
  const sound = (await findVoice(voice)?.synthesise(text, 1)) ?? { problem: `no voice ${voice}` };
  if (isProblem(sound)) throw new Error(sound.problem);
  const pcm = resample(sound.pcm, sound.sampleRate, 16_000);
  const from = pcm.findIndex((v) => Math.abs(v) > 0.01);
  const to = pcm.findLastIndex((v) => Math.abs(v) > 0.01);
  const trimmed = pcm.slice(from, to + 1);
  const rms = Math.sqrt(trimmed.reduce((sum, v) => sum + v * v, 0) / trimmed.length);
  return trimmed.map((v) => (v * 0.05) / rms);
}

/** Adds `what` into `into` from a sample on. */
export function mix(into: Float32Array, what: Float32Array, at: number, gain = 1): void {
  for (let i = 0; i < what.length && at + i < into.length; i++) {
    into[at + i] = (into[at + i] ?? 0) + (what[i] ?? 0) * gain;
  }
}
