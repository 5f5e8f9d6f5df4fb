/** Hz; every sound the recogniser takes is mono at this rate. */
export const SAMPLE_RATE = 16_000;
const SHORTEST_S = 0.15;
const LONGEST_S = 30;
/** −1 to 1; below this peak a clip is silence whatever it holds */
const SILENT_PEAK = 1e-4;

/** One clear sentence when a clip cannot hold a command, else null. */
export function faultOf(pcm: Float32Array): string | null {
  if (pcm.length === 0) return 'The recording is empty.';
  if (pcm.length < SHORTEST_S * SAMPLE_RATE)
    return `The recording lasts ${Math.round((pcm.length / SAMPLE_RATE) * 1000)} milliseconds; a word needs at least ${SHORTEST_S * 1000}.`;
  if (pcm.length > LONGEST_S * SAMPLE_RATE)
    return `The recording lasts ${Math.round(pcm.length / SAMPLE_RATE)} seconds; give one command at a time, at most ${LONGEST_S} seconds.`;
  let peak = 0;
  for (const v of pcm) {
    if (!Number.isFinite(v))
      return 'The recording holds values that are not numbers; expected samples from −1 to 1.';
    const a = v < 0 ? -v : v;
    if (a > peak) peak = a;
  }
  return peak < SILENT_PEAK ? 'The recording is silent.' : null;
}

/** Without offset and at one loudness (RMS 0.1, peaks not beyond 1), so a quiet microphone sounds like a loud one. */
export function levelled(pcm: Float32Array): Float32Array {
  let mean = 0;
  for (const v of pcm) mean += v;
  mean /= pcm.length;
  let power = 0;
  for (const v of pcm) power += (v - mean) * (v - mean);
  const gain = 0.1 / Math.sqrt(power / pcm.length + 1e-12);
  const out = new Float32Array(pcm.length);
  for (let i = 0; i < pcm.length; i++) out[i] = ((pcm[i] as number) - mean) * gain;
  return out;
}

/** Rough signal over noise in dB, 0 to 60: loud 20 ms blocks (95th percentile) against quiet ones (10th). */
export function loudOverQuietDb(pcm: Float32Array): number {
  const block = SAMPLE_RATE / 50;
  const powers: number[] = [];
  for (let at = 0; at + block <= pcm.length; at += block) {
    let p = 0;
    for (let i = at; i < at + block; i++) p += (pcm[i] as number) ** 2;
    powers.push(p / block);
  }
  if (powers.length === 0) return 0;
  powers.sort((a, b) => a - b);
  const at = (q: number): number => powers[Math.min(powers.length - 1, Math.floor(q * powers.length))] ?? 0;
  const ratio = (at(0.95) + 1e-10) / (at(0.1) + 1e-10);
  return Math.max(0, Math.min(60, 10 * Math.log10(ratio)));
}
