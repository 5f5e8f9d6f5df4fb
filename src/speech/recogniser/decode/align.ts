import type { Posteriors } from '../acoustics/posteriors.js';

/** One phone of an aligned sentence: which word, which token, the frames it sounds in (inclusive). */
export interface AlignedPhone {
  word: number;
  token: number;
  from: number;
  to: number;
}

export interface Alignment {
  phones: AlignedPhone[];
  /** best path's natural log score */
  logScore: number;
}

interface Chain {
  token: number[];
  word: number[];
  /** states that may come one frame before */
  before: number[][];
  ends: number[];
  starts: number[];
}

/**
 * Places known words in time: the best CTC path through any of their pronunciations.
 * @param sayings for each word in order its pronunciations
 * @returns null when the sound is too short to hold the words
 */
export function align(
  posteriors: Posteriors,
  sayings: readonly (readonly (readonly number[])[])[],
): Alignment | null {
  const { frames, tokens, logProb } = posteriors;
  const chain = chainOf(sayings);
  const states = chain.token.length;
  let now = new Float64Array(states).fill(Number.NEGATIVE_INFINITY);
  let next = new Float64Array(states);
  const from = new Int32Array(frames * states).fill(-1);
  for (const s of chain.starts) now[s] = logProb[chain.token[s] as number] ?? 0;
  for (let t = 1; t < frames; t++) {
    for (let s = 0; s < states; s++) {
      let best = now[s] as number;
      let by = s;
      for (const b of chain.before[s] as number[])
        if ((now[b] as number) > best) {
          best = now[b] as number;
          by = b;
        }
      next[s] = best + (logProb[t * tokens + (chain.token[s] as number)] as number);
      from[t * states + s] = by;
    }
    [now, next] = [next, now];
  }
  let end = -1;
  for (const s of chain.ends) if (end < 0 || (now[s] as number) > (now[end] as number)) end = s;
  if (end < 0 || !Number.isFinite(now[end] as number)) return null;
  const phones: AlignedPhone[] = [];
  let at = end;
  let ahead = -1;
  for (let t = frames - 1; t >= 0; t--) {
    if (chain.token[at] !== 0) {
      const first = phones.at(-1);
      if (first && ahead === at) first.from = t;
      else phones.push({ word: chain.word[at] as number, token: chain.token[at] as number, from: t, to: t });
    }
    ahead = at;
    at = from[t * states + at] as number;
  }
  return { phones: phones.reverse(), logScore: now[end] as number };
}

/** States in a row: a blank before each word, then each pronunciation as phones with blanks between. */
function chainOf(sayings: readonly (readonly (readonly number[])[])[]): Chain {
  const chain: Chain = { token: [], word: [], before: [], ends: [], starts: [] };
  const add = (token: number, word: number, before: number[]): number => {
    chain.before.push(before);
    chain.word.push(word);
    return chain.token.push(token) - 1;
  };
  const follow = (states: readonly number[], token: number): number[] =>
    states.filter((s) => chain.token[s] !== token);
  let open: number[] = [];
  sayings.forEach((said, word) => {
    const gap = add(0, word, open);
    if (word === 0) chain.starts.push(gap);
    const tails: number[] = [];
    for (const phones of said) {
      let blank = gap;
      let spoken = open;
      phones.forEach((token, i) => {
        const here = add(token, word, [blank, ...follow(spoken, token)]);
        if (word === 0 && i === 0) chain.starts.push(here);
        spoken = [here];
        if (i < phones.length - 1) blank = add(0, word, [here]);
      });
      tails.push(...spoken);
    }
    open = tails;
  });
  const last = add(0, sayings.length, open);
  chain.ends.push(last, ...open);
  return chain;
}
