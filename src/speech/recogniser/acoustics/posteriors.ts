/**
 * What the network hears: for every frame the log probability of every token, row after row. Token 0 is the CTC
 * blank. `frameMs` is the step from one frame to the next.
 */
export interface Posteriors {
  readonly frames: number;
  readonly tokens: number;
  readonly logProb: Float32Array;
  readonly frameMs: number;
}

/**
 * Logits to log probabilities.
 * @param bias added to each token's logit before normalising (blank penalty)
 * @param floor least log probability; a trained network is surer than it should be
 */
export function posteriorsOf(
  logits: Float32Array,
  frames: number,
  tokens: number,
  frameMs: number,
  bias: Float32Array,
  floor = Number.NEGATIVE_INFINITY,
): Posteriors {
  const logProb = new Float32Array(frames * tokens);
  for (let row = 0; row < frames * tokens; row += tokens) {
    let top = Number.NEGATIVE_INFINITY;
    for (let i = 0; i < tokens; i++) {
      const v = (logits[row + i] as number) + (bias[i] as number);
      logProb[row + i] = v;
      if (v > top) top = v;
    }
    let total = 0;
    for (let i = 0; i < tokens; i++) total += Math.exp((logProb[row + i] as number) - top);
    const norm = top + Math.log(total);
    for (let i = 0; i < tokens; i++) logProb[row + i] = Math.max(floor, (logProb[row + i] as number) - norm);
  }
  return { frames, tokens, logProb, frameMs };
}

/** With no token less likely than this, natural log. */
export const floored = (posteriors: Posteriors, floor: number): Posteriors => ({
  ...posteriors,
  logProb: posteriors.logProb.map((v) => Math.max(floor, v)),
});

/** The best token of every frame, with no grammar at all. */
export interface FreePath {
  /** token by frame */
  readonly token: Int32Array;
  /** its log probability by frame */
  readonly logProb: Float32Array;
  readonly total: number;
  /** phones after CTC merging: token and the frames it is seen in, inclusive */
  readonly phones: { token: number; from: number; to: number }[];
}

export function freePathOf({ frames, tokens, logProb }: Posteriors): FreePath {
  const token = new Int32Array(frames);
  const best = new Float32Array(frames);
  const phones: FreePath['phones'] = [];
  let total = 0;
  for (let t = 0; t < frames; t++) {
    let at = 0;
    for (let i = 1; i < tokens; i++)
      if ((logProb[t * tokens + i] as number) > (logProb[t * tokens + at] as number)) at = i;
    token[t] = at;
    best[t] = logProb[t * tokens + at] as number;
    total += best[t] as number;
    const last = phones.at(-1);
    if (at === 0) continue;
    if (last && last.token === at && last.to === t - 1) last.to = t;
    else phones.push({ token: at, from: t, to: t });
  }
  return { token, logProb: best, total, phones };
}
