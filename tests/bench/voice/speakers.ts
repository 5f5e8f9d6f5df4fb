import FFT from 'fft.js';
import { EigenvalueDecomposition, Matrix } from 'ml-matrix';
import { mean, spread } from '../../../src/review/scan/statistics.js';
import { rms } from './noise.js';

const SIZE = 512;
const HOP = 160;
const BANDS = 24;
/** groups of clips; more than 50 people spoke the 310 */
const GROUPS = 50;
/** of the loudest moment's amplitude: about -30 dB */
const SOFTEST = 0.03;
/** samples of quiet kept around a voice */
const AROUND = 3200;
/** Hz */
const LOWEST_BAND = 100;
const HIGHEST_BAND = 7600;
/** a voice's pitch lies between, Hz */
const PITCH = { low: 70, high: 350 };

/**
 * Folds of clips that hold whole speakers, as far as can be told by ear.
 * @param clips mono 16 kHz
 * @returns the fold of every clip, from 0
 */
export const foldsBySpeaker = (clips: readonly Float32Array[], folds: number): number[] =>
  foldsOf(groupsBySpeaker(clips), folds);

/** The group that each clip belongs to, from 0; a group sounds like one speaker at one microphone. Mono 16 kHz. */
export const groupsBySpeaker = (clips: readonly Float32Array[]): number[] =>
  speakerGroups(
    clips.map((pcm) => halvesOfVoice(pcm).map(voiceprint)),
    GROUPS,
  );

/** The first and the second half of what lies between the first and the last loud moment. */
function halvesOfVoice(pcm: Float32Array): Float32Array[] {
  const loud = (at: number): number => rms(pcm.subarray(at, at + HOP));
  const at = Array.from({ length: Math.floor(pcm.length / HOP) }, (_, i) => i * HOP);
  const line = SOFTEST * Math.max(...at.map(loud));
  const spoken = at.filter((i) => loud(i) >= line);
  const from = Math.max(0, (spoken[0] ?? 0) - AROUND);
  const to = Math.min(pcm.length, (spoken.at(-1) ?? pcm.length) + AROUND);
  const middle = Math.round((from + to) / 2);
  return [pcm.subarray(from, middle), pcm.subarray(middle, to)];
}

/**
 * What tells who speaks and into what, whatever is said: how loud each band is on the mean while somebody speaks, against the mean of
 * all bands, in quiet the same, and the pitch. Natural logs. Mono 16 kHz.
 */
function voiceprint(pcm: Float32Array): number[] {
  const rows = logBands(pcm);
  const loudness = rows.map((row) => mean(row));
  const sorted = [...loudness].sort((a, b) => a - b);
  const at = (share: number): number => sorted[Math.floor(share * (sorted.length - 1))] ?? 0;
  const spoken = rows.filter((_, i) => (loudness[i] as number) >= at(0.75));
  const quiet = rows.filter((_, i) => (loudness[i] as number) <= at(0.2));
  const shape = (some: number[][]): number[] => {
    const bands = Array.from({ length: BANDS }, (_, b) => mean(some.map((row) => row[b] as number)));
    return bands.map((v) => v - mean(bands));
  };
  return [...shape(spoken), ...shape(quiet), mean(quiet.map(mean)), ...pitch(pcm)];
}

/**
 * Clips in groups that each sound like one speaker at one microphone: the nearest two groups become one until so many are left (mean
 * distance between their clips). How far the two halves of a clip lie apart tells what does not tell the speaker: that counts little.
 * No speaker is known, so a speaker may still be in two groups, and two in one.
 * @param halves voiceprints of the two halves of every clip
 * @returns the group of every clip, from 0
 */
function speakerGroups(halves: readonly (readonly number[])[][], count: number): number[] {
  const points = told(halves);
  const distance = points.map((a) =>
    points.map((b) => Math.sqrt(a.reduce((s, v, i) => s + (v - (b[i] ?? 0)) ** 2, 0))),
  );
  let groups = points.map((_, i) => [i]);
  const apart = (a: readonly number[], b: readonly number[]): number =>
    mean(a.flatMap((i) => b.map((j) => distance[i]?.[j] ?? 0)));
  while (groups.length > count) {
    let nearest = { a: 0, b: 1, far: Number.POSITIVE_INFINITY };
    for (const [a, one] of groups.entries())
      for (const [b, other] of groups.entries()) {
        if (b <= a) continue;
        const far = apart(one, other);
        if (far < nearest.far) nearest = { a, b, far };
      }
    const joined = [...(groups[nearest.a] ?? []), ...(groups[nearest.b] ?? [])];
    groups = [...groups.filter((_, i) => i !== nearest.a && i !== nearest.b), joined];
  }
  const of = new Array<number>(points.length).fill(0);
  for (const [g, clips] of groups.entries()) for (const i of clips) of[i] = g;
  return of;
}

/** Whole groups dealt out to folds, the largest first, each to the fold that has least: the fold of every clip. */
function foldsOf(groups: readonly number[], folds: number): number[] {
  const size = new Map<number, number>();
  for (const g of groups) size.set(g, (size.get(g) ?? 0) + 1);
  const load = new Array<number>(folds).fill(0);
  const fold = new Map<number, number>();
  for (const [g, clips] of [...size].sort((a, b) => b[1] - a[1])) {
    const least = load.indexOf(Math.min(...load));
    fold.set(g, least);
    load[least] = (load[least] ?? 0) + clips;
  }
  return groups.map((g) => fold.get(g) ?? 0);
}

function logBands(pcm: Float32Array): number[][] {
  const fft = new FFT(SIZE);
  const mel = (hz: number): number => 2595 * Math.log10(1 + hz / 700);
  const bin = (band: number): number => {
    const at = mel(LOWEST_BAND) + (band / BANDS) * (mel(HIGHEST_BAND) - mel(LOWEST_BAND));
    return Math.round((700 * (10 ** (at / 2595) - 1) * SIZE) / 16_000);
  };
  const edges = Array.from({ length: BANDS + 1 }, (_, b) => bin(b)).map((k, b, all) =>
    Math.max(k, (all[0] ?? 0) + b),
  );
  const spectrum = new Float64Array(2 * SIZE);
  const frame = new Float64Array(SIZE);
  const rows: number[][] = [];
  for (let at = 0; at + SIZE <= pcm.length; at += HOP) {
    for (let i = 0; i < SIZE; i++)
      frame[i] = (pcm[at + i] ?? 0) * (0.5 - 0.5 * Math.cos((2 * Math.PI * i) / SIZE));
    fft.realTransform(spectrum, frame);
    const row = Array.from({ length: BANDS }, (_, b) => {
      let sum = 0;
      for (let k = edges[b] ?? 0; k < (edges[b + 1] ?? 0); k++)
        sum += (spectrum[2 * k] ?? 0) ** 2 + (spectrum[2 * k + 1] ?? 0) ** 2;
      return Math.log(sum + 1e-6);
    });
    rows.push(row);
  }
  return rows;
}

/** The middle and the spread of the pitch where the sound repeats itself well: log2 of Hz. */
function pitch(pcm: Float32Array): number[] {
  const [shortest, longest] = [16_000 / PITCH.high, 16_000 / PITCH.low].map(Math.round) as [number, number];
  const found: number[] = [];
  for (let at = 0; at + 2 * longest <= pcm.length; at += 800) {
    let best = { lag: 0, like: 0 };
    const of = (lag: number): number => {
      let [dot, aa, bb] = [0, 1e-6, 1e-6];
      for (let i = at; i < at + longest; i += 2) {
        const [a, b] = [pcm[i] as number, pcm[i + lag] as number];
        dot += a * b;
        aa += a * a;
        bb += b * b;
      }
      return dot / Math.sqrt(aa * bb);
    };
    for (let lag = shortest; lag <= longest; lag++) {
      const like = of(lag);
      if (like > best.like) best = { lag, like };
    }
    if (best.like > 0.85) found.push(Math.log2(16_000 / best.lag));
  }
  found.sort((a, b) => a - b);
  const middle = found[Math.floor(found.length / 2)] ?? Math.log2(150);
  return [middle, spread(found)];
}

/** Clips as points whose coordinates differ by about 1 between two halves of a clip, on the mean. */
function told(halves: readonly (readonly number[])[][]): number[][] {
  const rows = standardised(halves.flat());
  const clips = halves.map((_, i) => [rows[2 * i] ?? [], rows[2 * i + 1] ?? []] as const);
  const apart = new Matrix(clips.map(([a, b]) => a.map((v, k) => v - (b[k] ?? 0))));
  const within = apart
    .transpose()
    .mmul(apart)
    .div(2 * clips.length);
  const ridge = 0.1 * (within.trace() / within.rows);
  const { realEigenvalues, eigenvectorMatrix } = new EigenvalueDecomposition(within, {
    assumeSymmetric: true,
  });
  const middle = new Matrix(clips.map(([a, b]) => a.map((v, k) => (v + (b[k] ?? 0)) / 2))).mmul(
    eigenvectorMatrix,
  );
  return middle.to2DArray().map((row) => row.map((v, k) => v / Math.sqrt((realEigenvalues[k] ?? 0) + ridge)));
}

function standardised(rows: readonly (readonly number[])[]): number[][] {
  const width = rows[0]?.length ?? 0;
  const columns = Array.from({ length: width }, (_, k) => rows.map((row) => row[k] ?? 0));
  const centre = columns.map(mean);
  const scale = columns.map((c) => spread(c) + 1e-9);
  return rows.map((row) => row.map((v, k) => (v - (centre[k] ?? 0)) / (scale[k] ?? 1)));
}
