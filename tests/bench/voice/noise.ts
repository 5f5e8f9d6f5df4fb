import { normal, seeded } from './random.js';

const RATE = 16_000;

/** Kinds of background noise. `hum` and `fan` hold steady tones, a kind the network is not trained on. */
export const noiseKinds = ['water', 'fan', 'hum', 'babble'] as const;
export type NoiseKind = (typeof noiseKinds)[number];

type Maker = (length: number, random: () => number, talk: readonly Float32Array[]) => Float32Array;

/** Hiss that falls off with frequency, swelling slowly, with short ringing splashes: a running tap. */
const water: Maker = (length, random) => {
  const out = new Float32Array(length);
  const gauss = normal(random);
  let low = 0;
  let mid = 0;
  for (let i = 0; i < length; i++) {
    const w = gauss();
    low += 0.02 * (w - low);
    mid += 0.25 * (w - mid);
    out[i] = (1.6 * mid + 4 * low + 0.25 * w) * (1 + 0.25 * Math.sin((2 * Math.PI * 2.3 * i) / RATE));
  }
  for (let n = 0; n < length / 700; n++) {
    const at = Math.floor(random() * length);
    const hz = 400 + 3200 * random() ** 2;
    const size = 0.4 + random();
    const decay = 60 + 200 * random();
    for (let i = at; i < Math.min(length, at + 1600); i++) {
      const t = (i - at) / RATE;
      out[i] =
        (out[i] as number) + size * Math.exp(-decay * t) * Math.sin(2 * Math.PI * hz * t * (1 + 0.6 * t));
    }
  }
  return out;
};

/** Low rumble and the tones of blades and motor: an extractor fan. */
const fan: Maker = (length, random) => {
  const out = new Float32Array(length);
  const gauss = normal(random);
  const blades = 90 + 60 * random();
  const phase = Array.from({ length: 8 }, () => 2 * Math.PI * random());
  let low = 0;
  for (let i = 0; i < length; i++) {
    low += 0.06 * (gauss() - low);
    let v = 5 * low;
    for (let k = 1; k <= 8; k++)
      v += (0.7 / k) * Math.sin((2 * Math.PI * blades * k * i) / RATE + (phase[k - 1] as number));
    out[i] = v * (1 + 0.15 * Math.sin((2 * Math.PI * 0.7 * i) / RATE));
  }
  return out;
};

/** Mains hum with its harmonics and a beeping appliance. */
const hum: Maker = (length, random) => {
  const out = new Float32Array(length);
  const gauss = normal(random);
  const mains = random() < 0.5 ? 50 : 60;
  const beep = 900 + 1500 * random();
  for (let i = 0; i < length; i++) {
    let v = 0.05 * gauss();
    for (let k = 1; k <= 12; k++)
      v += (k % 2 ? 1 : 0.6) * (1 / k) * Math.sin((2 * Math.PI * mains * k * i) / RATE + k);
    if (i % RATE < RATE / 5) v += 0.35 * Math.sin((2 * Math.PI * beep * i) / RATE);
    out[i] = v;
  }
  return out;
};

/** Four talkers at once, cut from the given talk. */
const babble: Maker = (length, random, talk) => {
  const out = new Float32Array(length);
  for (let n = 0; n < 4; n++) {
    let at = -Math.floor(random() * RATE);
    while (at < length) {
      const clip = talk[Math.floor(random() * talk.length)];
      if (!clip || clip.length === 0) throw new Error('Babble needs talk to cut from.');
      const gain = 1 / rms(clip);
      for (let i = Math.max(0, -at); i < clip.length && at + i < length; i++)
        out[at + i] = (out[at + i] as number) + gain * (clip[i] as number);
      at += clip.length;
    }
  }
  return out;
};

const makers: Record<NoiseKind, Maker> = { water, fan, hum, babble };

export function rms(x: Float32Array): number {
  let p = 0;
  for (const v of x) p += v * v;
  return Math.sqrt(p / Math.max(1, x.length)) + 1e-9;
}

/** RMS of the blocks that hold speech (within 30 dB of the loudest), so pauses do not make a clip seem quieter. */
export function speechRms(x: Float32Array): number {
  const block = RATE / 50;
  const powers: number[] = [];
  for (let at = 0; at + block <= x.length; at += block) powers.push(rms(x.subarray(at, at + block)) ** 2);
  const top = Math.max(...powers, 1e-12);
  const active = powers.filter((p) => p > top / 1000);
  return Math.sqrt(active.reduce((a, b) => a + b, 0) / Math.max(1, active.length));
}

const FLOOR_DB = 30;
const PAD_S = 0.3;

/**
 * A clip as a microphone would have it: 0.3 s of room before and after, a white noise floor 30 dB under the
 * speech, and noise of a kind at a signal-to-noise ratio over the speech's active level.
 */
export function inNoise(
  clip: Float32Array,
  noise: { kind: NoiseKind; snrDb: number } | null,
  seed: number,
  talk: readonly Float32Array[] = [],
): Float32Array {
  const pad = Math.round(PAD_S * RATE);
  const out = new Float32Array(clip.length + 2 * pad);
  out.set(clip, pad);
  const level = speechRms(clip);
  const random = seeded(seed);
  const gauss = normal(random);
  const floor = level * 10 ** (-FLOOR_DB / 20);
  for (let i = 0; i < out.length; i++) out[i] = (out[i] as number) + floor * gauss();
  if (noise) {
    const n = makers[noise.kind](out.length, random, talk);
    const gain = (level * 10 ** (-noise.snrDb / 20)) / rms(n);
    for (let i = 0; i < out.length; i++) out[i] = (out[i] as number) + gain * (n[i] as number);
  }
  const peak = out.reduce((m, v) => Math.max(m, Math.abs(v)), 0);
  if (peak > 0.95) for (let i = 0; i < out.length; i++) out[i] = ((out[i] as number) * 0.95) / peak;
  return out;
}

/** Noise alone, at a loudness. */
export function noiseAlone(
  kind: NoiseKind,
  seconds: number,
  seed: number,
  talk: readonly Float32Array[] = [],
): Float32Array {
  const n = makers[kind](Math.round(seconds * RATE), seeded(seed), talk);
  const gain = 0.05 / rms(n);
  return n.map((v) => v * gain);
}
