import type { Network } from '../acoustics/network.js';
import { posteriorsOf } from '../acoustics/posteriors.js';
import { levelled } from '../acoustics/sound.js';
import { align } from '../decode/align.js';
import type { Lexicon } from '../lexicon/lexicon.js';
import { type VoiceProfile, warped } from './profile.js';

export interface Lesson {
  /** 16 kHz mono */
  readonly pcm: Float32Array;
  /** what was said, lower-case words */
  readonly words: string;
}

export interface LearnOptions {
  /** rates to try; [1] leaves the voice's size alone */
  readonly warps: readonly number[];
  /** gain in mean log score a frame that another warp must bring */
  readonly warpGain: number;
  /** how strongly the biases are held at zero, in frames' worth of evidence; Infinity: no biases */
  readonly hold: number;
}

/** Chosen on development voices; see tests/bench/voice-teach.ts for what each part brings. */
export const LEARNING: LearnOptions = { warps: [0.92, 0.96, 1, 1.04, 1.08], warpGain: 0.005, hold: 20 };

const STEPS = 30;

/**
 * Learns a voice from recordings with known words: which playing rate fits the network best, and which phones it
 * should be readier or slower to hear. Recordings too short for their words are passed over.
 */
export async function learnVoice(
  network: Network,
  lexicon: Lexicon,
  blankBias: number,
  lessons: readonly Lesson[],
  options: LearnOptions = LEARNING,
): Promise<VoiceProfile> {
  const tokens = network.tokens.count;
  const base = new Float32Array(tokens);
  base[0] = blankBias;
  let best = { warp: 1, score: Number.NEGATIVE_INFINITY, frames: [] as Frame[], recordings: 0 };
  for (const warp of [...options.warps].sort((a, b) => Math.abs(a - 1) - Math.abs(b - 1))) {
    const heard = { warp, score: 0, frames: [] as Frame[], recordings: 0 };
    for (const { pcm, words } of lessons) {
      const logits = await network.run(levelled(warped(pcm, warp)));
      const posteriors = posteriorsOf(logits.data, logits.frames, tokens, logits.frameMs, base);
      const found = align(
        posteriors,
        words.split(' ').map((w) => lexicon.pronounce(w)),
      );
      if (!found) continue;
      heard.score += found.logScore / logits.frames;
      heard.recordings++;
      const said = new Int32Array(logits.frames);
      for (const p of found.phones) said.fill(p.token, p.from, p.to + 1);
      said.forEach((token, t) => {
        heard.frames.push({ token, logProb: posteriors.logProb.subarray(t * tokens, (t + 1) * tokens) });
      });
    }
    heard.score /= Math.max(1, heard.recordings);
    const needed = best.score === Number.NEGATIVE_INFINITY ? 0 : options.warpGain;
    if (heard.recordings > 0 && heard.score > best.score + needed) best = heard;
  }
  return {
    version: 1,
    tokens,
    warp: best.warp,
    bias: biases(best.frames, tokens, options.hold),
    recordings: best.recordings,
  };
}

interface Frame {
  token: number;
  logProb: Float32Array;
}

/** Biases that make the aligned tokens likelier (softmax regression on the bias alone, held near zero). */
function biases(frames: readonly Frame[], tokens: number, hold: number): number[] {
  const bias = new Array<number>(tokens).fill(0);
  if (!Number.isFinite(hold) || frames.length === 0) return bias;
  const odds = new Float64Array(tokens);
  for (let step = 0; step < STEPS; step++) {
    const gradient = bias.map((b) => -hold * b);
    const curve = bias.map(() => hold);
    for (const { token, logProb } of frames) {
      let total = 0;
      for (let i = 0; i < tokens; i++) {
        odds[i] = Math.exp((logProb[i] as number) + (bias[i] as number));
        total += odds[i] as number;
      }
      for (let i = 0; i < tokens; i++) {
        const p = (odds[i] as number) / total;
        gradient[i] = (gradient[i] as number) + (i === token ? 1 : 0) - p;
        curve[i] = (curve[i] as number) + p * (1 - p);
      }
    }
    for (let i = 1; i < tokens; i++)
      bias[i] = (bias[i] as number) + (gradient[i] as number) / (curve[i] as number);
  }
  return bias.map((b) => Math.round(b * 1000) / 1000);
}
