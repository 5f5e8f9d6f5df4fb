const LOBES = 16;
const KAISER_BETA = 8;

/** Modified Bessel function of the first kind, order 0, by its power series. */
function besselI0(x: number): number {
  let sum = 1;
  let term = 1;
  for (let k = 1; k < 40 && term > sum * 1e-12; k++) {
    term *= (x / (2 * k)) ** 2;
    sum += term;
  }
  return sum;
}

/**
 * Band-limited resampling with a Kaiser-windowed sinc (about 80 dB down in the stop band). Rates in hertz, > 0.
 * The pass band ends at 0.92 of the lower Nyquist rate, so that nothing above it folds into speech.
 */
export function resample(pcm: Float32Array, fromHz: number, toHz: number): Float32Array {
  if (fromHz === toHz) return pcm;
  const cutoff = 0.92 * Math.min(1, toHz / fromHz);
  const reach = LOBES / cutoff;
  const divisor = greatestCommonDivisor(fromHz, toHz);
  const phases = toHz / divisor;
  const step = fromHz / divisor;
  const taps = kernels(phases, reach, cutoff);
  const out = new Float32Array(Math.floor((pcm.length * toHz) / fromHz));
  const half = Math.floor(reach);
  for (let i = 0; i < out.length; i++) {
    const position = i * step;
    const centre = Math.floor(position / phases);
    const kernel = taps[position % phases] as Float32Array;
    let sum = 0;
    for (let k = -half; k <= half; k++) {
      const sample = pcm[centre + k];
      if (sample !== undefined) sum += sample * (kernel[k + half] as number);
    }
    out[i] = sum;
  }
  return out;
}

/**
 * For resampling in pieces that come out as the whole would: pieces begin at multiples of `stepFrames` of the input,
 * and `overlapFrames`, such a multiple too, covers the reach of the filter.
 */
export function resampleSteps(fromHz: number, toHz: number): { stepFrames: number; overlapFrames: number } {
  const stepFrames = fromHz / greatestCommonDivisor(fromHz, toHz);
  const reach = fromHz === toHz ? 0 : LOBES / (0.92 * Math.min(1, toHz / fromHz));
  return { stepFrames, overlapFrames: Math.ceil((reach + 1) / stepFrames) * stepFrames };
}

function kernels(phases: number, reach: number, cutoff: number): Float32Array[] {
  const half = Math.floor(reach);
  const norm = besselI0(KAISER_BETA);
  return Array.from({ length: phases }, (_, phase) => {
    const kernel = new Float32Array(2 * half + 1);
    let sum = 0;
    for (let k = -half; k <= half; k++) {
      const x = k - phase / phases;
      const inside = 1 - (x / (reach + 1)) ** 2;
      const window = inside > 0 ? besselI0(KAISER_BETA * Math.sqrt(inside)) / norm : 0;
      const arg = Math.PI * x * cutoff;
      const value = window * (x === 0 ? 1 : Math.sin(arg) / arg);
      kernel[k + half] = value;
      sum += value;
    }
    return kernel.map((v) => v / sum);
  });
}

function greatestCommonDivisor(a: number, b: number): number {
  return b === 0 ? a : greatestCommonDivisor(b, a % b);
}
