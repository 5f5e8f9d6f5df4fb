import type { SpanSettings } from '../settings.js';
import { SAMPLE_RATE } from './sound.js';

/** Samples of one voice-activity frame. */
export const VOICE_FRAME = 512;

/** Where a voice begins and ends in a recording: samples, `to` not included. */
export interface Span {
  readonly from: number;
  readonly to: number;
}

export const sameSpan = (a: Span | undefined, b: Span): boolean => a?.from === b.from && a.to === b.to;

/** What the span is found from: one whole frame of VOICE_FRAME samples. */
export interface VoiceFrame {
  /** probability of speech */
  readonly speech: number;
  /** level above the rumble, as it came and of what the denoiser left of it, dB */
  readonly cameDb: number;
  readonly cleanDb: number;
}

/** Probability of speech at which a stretch begins, and at which it goes on. */
const BEGIN_ABOVE = 0.5;
const GO_ON_ABOVE = 0.35;
const SHORTEST_FRAMES = 3;
/** Kept before and after, s: a quiet first or last consonant is no voice yet. After it more would only be more to wait for. */
const MARGIN_S = { before: 0.25, after: 0.1 };

/**
 * The part of a recording that holds the voice, with a quarter of a second before and a tenth after: first to last stretch of speech,
 * pauses between included. Null when no voice is found.
 * @param samples of the recording
 * @param frames its whole frames
 */
export function speechSpan(
  samples: number,
  frames: readonly VoiceFrame[],
  { weakerDb, lessPerS, farWeakerDb }: SpanSettings,
): Span | null {
  const stretches = stretchesOf(frames).map((s) => ({ ...s, ...strength(frames.slice(s.from, s.to)) }));
  if (stretches.length === 0) return null;
  const main = stretches.reduce((best, s) => (s.weight > best.weight ? s : best));
  const at = stretches.indexOf(main);
  // outwards to both sides; what is too weak is passed over: a word may follow a breath
  const span = [...stretches.slice(0, at).reverse(), ...stretches.slice(at + 1)].reduce(
    (inner: Stretch, outer) => {
      const gapS = (Math.max(inner.from - outer.to, outer.from - inner.to) * VOICE_FRAME) / SAMPLE_RATE;
      const weaker = Math.max(farWeakerDb, weakerDb - lessPerS * gapS);
      if (outer.strengthDb <= main.strengthDb - weaker) return inner;
      return { from: Math.min(inner.from, outer.from), to: Math.max(inner.to, outer.to) };
    },
    main,
  );
  return {
    from: Math.max(0, span.from * VOICE_FRAME - MARGIN_S.before * SAMPLE_RATE),
    to: Math.min(samples, span.to * VOICE_FRAME + MARGIN_S.after * SAMPLE_RATE),
  };
}

interface Stretch {
  from: number;
  to: number;
}

function stretchesOf(frames: readonly VoiceFrame[]): Stretch[] {
  const found: Stretch[] = [];
  let from = -1;
  for (let i = 0; i <= frames.length; i++) {
    const p = frames[i]?.speech ?? 0;
    if (from < 0 && p >= BEGIN_ABOVE) from = i;
    else if (from >= 0 && p < GO_ON_ABOVE) {
      if (i - from >= SHORTEST_FRAMES) found.push({ from, to: i });
      from = -1;
    }
  }
  return found;
}

/**
 * What noise in a stretch counts, of 1, and what a doubt about the voice: dB for a tenth of the probability, where the denoiser took
 * NOISY_DB or more. All were chosen on strangers in a kitchen.
 */
const NOISE_COUNTS = 0.5;
const DOUBT_DB = 100;
const NOISY_DB = 2;

/**
 * How surely a stretch is the voice: its level without noise, less what was noise in it, less the doubt whether it is a voice
 * at all, which in quiet there is no need for; its weight counts its length too. dB
 */
function strength(frames: readonly VoiceFrame[]): { strengthDb: number; weight: number } {
  const voice = upperFifth(frames.map((f) => f.speech)) ?? 0;
  const cleanDb = upperFifth(frames.map((f) => f.cleanDb)) ?? -100;
  const cameDb = upperFifth(frames.map((f) => f.cameDb)) ?? -100;
  const noiseDb = cameDb - cleanDb;
  const doubt = DOUBT_DB * Math.min(1, Math.max(0, noiseDb) / NOISY_DB) * Math.log10(voice);
  const strengthDb = cleanDb - NOISE_COUNTS * noiseDb + doubt;
  return { strengthDb, weight: strengthDb + 10 * Math.log10(frames.length) };
}

/** What a fifth of the values reach, nearly. */
const upperFifth = (values: readonly number[]): number | undefined =>
  [...values].sort((a, b) => a - b)[Math.floor(0.8 * (values.length - 1))];

/** The level above the rumble of the frame that begins at this sample. dB */
export function levelDb(pcm: Float32Array, at: number): number {
  let power = 0;
  for (let i = at; i < at + VOICE_FRAME; i++) power += ((pcm[i] as number) - 0.95 * (pcm[i - 1] ?? 0)) ** 2;
  return 10 * Math.log10(power / VOICE_FRAME + 1e-10);
}
