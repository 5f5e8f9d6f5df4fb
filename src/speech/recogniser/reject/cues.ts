import type { FreePath, Posteriors } from '../acoustics/posteriors.js';
import { loudOverQuietDb } from '../acoustics/sound.js';
import type { Alignment } from '../decode/align.js';

/** What speaks for or against a reading being a command. Each is a plain number; these are the keys of rejection.json. */
export const cueNames = [
  /** reading's log score against the free phone path, per frame; ≤ 0 is usual */
  'perFrame',
  /** the same per phone of the reading */
  'perPhone',
  /** reading's log score against the best run of everyday words, per phone; above 0 speaks for a command */
  'overBackground',
  /** the worst word's log score against the free path, per phone */
  'worstWord',
  /** mean log probability of the reading's phones where they are loudest */
  'phoneCertainty',
  /** differences between the free phones and the reading's phones, per phone of the reading */
  'phoneErrors',
  /** phones that the network is sure of and the reading passes over, per phone of the reading */
  'contradicted',
  /** free phones before the first and after the last word */
  'phonesOutside',
  /** log of the number of phones: a short command proves less */
  'logPhones',
  /** phones a second within the words, as distance from an easy 11 */
  'haste',
  /** 1 when the hidden Markov models read the same sentence */
  'agreed',
  /** loud over quiet, in tens of dB */
  'loudness',
  /** how far loudness stays below 10 dB, in tens of dB: steady sound, perhaps no speech at all */
  'steadiness',
  /** how far loudness is above 25 dB, in tens of dB, 1 at most: in a quiet room a command is heard surely, so less sure is talk */
  'quietness',
] as const;

export type Cues = Readonly<Record<(typeof cueNames)[number], number>>;

export interface Evidence {
  posteriors: Posteriors;
  free: FreePath;
  alignment: Alignment;
  /** the reading's log score from the search */
  logScore: number;
  /** the best everyday-word path's log score */
  backgroundLogScore: number;
  /** whether the hidden Markov models read the same */
  agreed: boolean;
  pcm: Float32Array;
}

const EASY_PHONES_A_SECOND = 11;
const FLOOR = -20;
/** A phone is contradicted where the reading's own is so much less likely, in natural log: a few hundred times. */
const CONTRADICTION = -6;

export function cuesOf(e: Evidence): Cues {
  const phones = Math.max(1, e.alignment.phones.length);
  const { frames, frameMs } = e.posteriors;
  const first = e.alignment.phones[0]?.from ?? 0;
  const last = e.alignment.phones.at(-1)?.to ?? 0;
  const seconds = Math.max(frameMs, (last - first + 1) * frameMs) / 1000;
  const outside = e.free.phones.filter((p) => p.to < first || p.from > last).length;
  const losses = lossesOf(e.posteriors, e.free, e.alignment);
  const words = wordScores(losses, e.alignment);
  const loudness = loudOverQuietDb(e.pcm) / 10;
  return {
    perFrame: clamp((e.logScore - e.free.total) / Math.max(1, frames)),
    perPhone: clamp((e.logScore - e.free.total) / phones),
    overBackground: clamp((e.logScore - e.backgroundLogScore) / phones),
    worstWord: clamp(Math.min(...words.map((w) => w.perPhone))),
    phoneCertainty: clamp(certainty(e.posteriors, e.alignment)),
    phoneErrors: Math.min(
      3,
      editDistance(
        e.free.phones.map((p) => p.token),
        e.alignment.phones.map((p) => p.token),
      ) / phones,
    ),
    contradicted: Math.min(3, contradicted(e.free, losses) / phones),
    phonesOutside: Math.min(10, outside),
    logPhones: Math.log(phones),
    haste: Math.min(20, Math.abs(phones / seconds - EASY_PHONES_A_SECOND)) / 10,
    agreed: e.agreed ? 1 : 0,
    loudness,
    steadiness: Math.max(0, 1 - loudness),
    quietness: Math.min(1, Math.max(0, loudness - 2.5)),
  };
}

/** The reading's log score against the free path, frame by frame; between phones it has the blank. */
export function lossesOf(
  { frames, tokens, logProb }: Posteriors,
  free: FreePath,
  { phones }: Alignment,
): number[] {
  let at = 0;
  return Array.from({ length: frames }, (_, t) => {
    while (at < phones.length && (phones[at]?.to ?? 0) < t) at++;
    const here = phones[at];
    const token = here && here.from <= t ? here.token : 0;
    return (logProb[t * tokens + token] as number) - (free.logProb[t] as number);
  });
}

const contradicted = (free: FreePath, losses: readonly number[]): number =>
  free.phones.filter((p) => Math.max(...losses.slice(p.from, p.to + 1)) < CONTRADICTION).length;

const clamp = (v: number): number => Math.max(FLOOR, Math.min(-FLOOR, Number.isFinite(v) ? v : FLOOR));

function certainty({ tokens, logProb }: Posteriors, { phones }: Alignment): number {
  let sum = 0;
  for (const { token, from, to } of phones) {
    let best = Number.NEGATIVE_INFINITY;
    for (let t = from; t <= to; t++) best = Math.max(best, logProb[t * tokens + token] as number);
    sum += Math.max(FLOOR, best);
  }
  return sum / Math.max(1, phones.length);
}

export interface WordScore {
  word: number;
  from: number;
  to: number;
  /** log score against the free path in the word's stretch, per phone */
  perPhone: number;
}

/** Words in time. A word's stretch runs to the middle of the gaps around it, so that skipped phones count. */
export function wordScores(losses: readonly number[], alignment: Alignment): WordScore[] {
  const words: { word: number; from: number; to: number; phones: number }[] = [];
  for (const p of alignment.phones) {
    const last = words.at(-1);
    if (last && last.word === p.word) {
      last.to = p.to;
      last.phones++;
    } else words.push({ word: p.word, from: p.from, to: p.to, phones: 1 });
  }
  return words.map((w, i) => {
    const before = words[i - 1]?.to ?? w.from - 4;
    const after = words[i + 1]?.from ?? w.to + 4;
    const start = Math.max(0, Math.ceil((before + w.from) / 2));
    const end = Math.min(losses.length - 1, Math.floor((w.to + after) / 2));
    const sum = losses.slice(start, end + 1).reduce((a, b) => a + b, 0);
    return { word: w.word, from: w.from, to: w.to, perPhone: sum / w.phones };
  });
}

/** How many are put in, left out or changed from one row to the other. */
export function editDistance<T>(a: readonly T[], b: readonly T[]): number {
  let row = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++)
      next.push(
        Math.min(
          (row[j] ?? 0) + 1,
          (next[j - 1] ?? 0) + 1,
          (row[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1),
        ),
      );
    row = next;
  }
  return row[b.length] ?? 0;
}
