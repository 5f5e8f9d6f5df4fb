import FFT from 'fft.js';

/** a peak this far above the usual height of the correlation is the direct sound, not chance */
const CLEAR_PEAK = 9;

/** where speech and small loudspeakers both have something */
const BAND_HZ = { from: 250, to: 6000 };
/** 1 would count a frequency that holds nothing but noise like any other */
const WHITENING = 0.7;
/** the ends are faded: a cut at the same place in both looks like a delay of nought */
const FADE_SAMPLES = 800;

/**
 * How much later `heard` holds what `played` holds, in samples, 0 to `maxLag`; null when that is not clear. Generalised
 * cross-correlation with phase transform (Knapp and Carter, IEEE Trans. ASSP-24, 1976; from memory of it): every
 * frequency counts alike, so that a room or a poor loudspeaker does not blur the peak.
 */
export function delayBetween(played: Float32Array, heard: Float32Array, maxLag: number): number | null {
  const size = 2 ** Math.ceil(Math.log2(Math.max(played.length, heard.length) + maxLag));
  const fft = new FFT(size);
  const a = spectrum(fft, played, size);
  const b = spectrum(fft, heard, size);
  const cross = new Float64Array(2 * size);
  for (let k = 0; k <= size / 2; k++) {
    const [ar = 0, ai = 0, br = 0, bi = 0] = [a[2 * k], a[2 * k + 1], b[2 * k], b[2 * k + 1]];
    const re = ar * br + ai * bi;
    const im = ar * bi - ai * br;
    const hz = (k * 16_000) / size;
    if (hz < BAND_HZ.from || hz > BAND_HZ.to) continue;
    const magnitude = Math.hypot(re, im) ** WHITENING + 1e-9;
    cross[2 * k] = re / magnitude;
    cross[2 * k + 1] = im / magnitude;
  }
  fft.completeSpectrum(cross);
  const lags = new Float64Array(2 * size);
  fft.inverseTransform(lags, cross);
  let [best, at, sum] = [0, 0, 0];
  for (let lag = 0; lag <= maxLag; lag++) {
    const height = Math.abs(lags[2 * lag] ?? 0);
    sum += height;
    if (height > best) [best, at] = [height, lag];
  }
  return best > (CLEAR_PEAK * sum) / (maxLag + 1) ? at : null;
}

function spectrum(fft: FFT, pcm: Float32Array, size: number): Float64Array {
  const input = new Float64Array(size);
  input.set(pcm);
  for (let i = 0; i < FADE_SAMPLES && i < pcm.length; i++) {
    input[i] = (input[i] ?? 0) * (i / FADE_SAMPLES);
    const end = pcm.length - 1 - i;
    input[end] = (input[end] ?? 0) * (i / FADE_SAMPLES);
  }
  const out = new Float64Array(2 * size);
  fft.realTransform(out, input);
  return out;
}
