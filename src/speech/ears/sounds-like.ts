import FFT from 'fft.js';

const SIZE = 512;
const HOP = 256;
/** band limits, Hz: where speech differs most from moment to moment */
const EDGES_HZ = [150, 350, 600, 950, 1450, 2150, 3200, 4800, 7000];
/** the player and the room delay the sound by up to so much */
const MAX_LAG_MS = 400;
const MAX_LAG_HOPS = Math.round((MAX_LAG_MS * 16) / HOP);

/**
 * How far two sounds rise and fall together, band by band, at the best delay of `heard` after `played`: 1 the same,
 * 0 unrelated. Both mono 16 kHz. It survives a room and a poor loudspeaker, which change the bands' levels but not
 * their rise and fall.
 */
export function soundsLike(heard: Float32Array, played: Float32Array): number {
  const a = bands(heard);
  const b = bands(played);
  let best = 0;
  for (let lag = 0; lag <= MAX_LAG_HOPS; lag++) best = Math.max(best, correlation(a, b, lag));
  return best;
}

function bands(pcm: Float32Array): Float64Array[] {
  const fft = new FFT(SIZE);
  const spectrum = new Float64Array(2 * SIZE);
  const frame = new Float64Array(SIZE);
  const rows: Float64Array[] = [];
  for (let at = 0; at + SIZE <= pcm.length; at += HOP) {
    for (let i = 0; i < SIZE; i++) {
      frame[i] = (pcm[at + i] ?? 0) * (0.5 - 0.5 * Math.cos((2 * Math.PI * i) / SIZE));
    }
    fft.realTransform(spectrum, frame);
    rows.push(
      Float64Array.from({ length: EDGES_HZ.length - 1 }, (_, band) => {
        const [from, to] = [bin(EDGES_HZ[band]), bin(EDGES_HZ[band + 1])];
        let sum = 0;
        for (let k = from; k < to; k++) sum += (spectrum[2 * k] ?? 0) ** 2 + (spectrum[2 * k + 1] ?? 0) ** 2;
        return Math.log10(sum / (to - from) + 1e-3);
      }),
    );
  }
  return rows;
}

function bin(hz = 0): number {
  return Math.round((hz * SIZE) / 16_000);
}

function correlation(heard: Float64Array[], played: Float64Array[], lag: number): number {
  const count = Math.min(heard.length - lag, played.length);
  if (count < 8) return 0;
  let [dot, aa, bb] = [0, 0, 0];
  for (let band = 0; band < EDGES_HZ.length - 1; band++) {
    const a = centred(heard, band, lag, count);
    const b = centred(played, band, 0, count);
    for (let i = 0; i < count; i++) {
      dot += (a[i] ?? 0) * (b[i] ?? 0);
      aa += (a[i] ?? 0) ** 2;
      bb += (b[i] ?? 0) ** 2;
    }
  }
  return aa > 0 && bb > 0 ? dot / Math.sqrt(aa * bb) : 0;
}

function centred(rows: Float64Array[], band: number, from: number, count: number): Float64Array {
  const values = Float64Array.from({ length: count }, (_, i) => rows[from + i]?.[band] ?? 0);
  const mean = values.reduce((sum, v) => sum + v, 0) / count;
  return values.map((v) => v - mean);
}
