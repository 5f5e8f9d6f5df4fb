import { joined as endToEnd } from '../../../src/speech/wav.js';

const RATE = 16_000;

/** Sound without the silence around it: 25 ms are kept before and 50 ms after, since words begin and end softly. */
export function trimmed(x: Float32Array): Float32Array {
  const top = x.reduce((m, v) => Math.max(m, Math.abs(v)), 0);
  let from = 0;
  let to = x.length;
  while (from < to && Math.abs(x[from] as number) < 0.02 * top) from++;
  while (to > from && Math.abs(x[to - 1] as number) < 0.02 * top) to--;
  return x.slice(Math.max(0, from - RATE / 40), Math.min(x.length, to + RATE / 20));
}

/** Words in a row, trimmed, 20 to 120 ms of silence between them; `random` gives 0 to 1. */
export function joined(words: readonly Float32Array[], random: () => number): Float32Array {
  const parts: Float32Array[] = [];
  for (const word of words) {
    if (parts.length > 0) parts.push(new Float32Array(Math.round((0.02 + 0.1 * random()) * RATE)));
    parts.push(trimmed(word));
  }
  return endToEnd(parts);
}

/** Played `size` times as fast: above 1 a shorter throat (higher formants and pitch, faster), below 1 a longer one. */
export function resized(x: Float32Array, size: number): Float32Array {
  const out = new Float32Array(Math.floor((x.length - 1) / size));
  for (let i = 0; i < out.length; i++) {
    const at = i * size;
    const left = Math.floor(at);
    const a = x[left] as number;
    out[i] = a + (at - left) * ((x[left + 1] ?? a) - a);
  }
  return out;
}
