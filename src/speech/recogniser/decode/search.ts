import type { Posteriors } from '../acoustics/posteriors.js';
import type { PhoneGraph } from '../graph/phone-graph.js';
import { Strings } from './strings.js';

export interface SearchOptions {
  /** distinct word strings kept alive in every state, 1 or more */
  readonly width: number;
  /** states scoring this much (natural log) below the best are dropped */
  readonly beam: number;
  /** added to the log score at every word; above 0 favours readings of more words */
  readonly wordPenalty: number;
  /** true: alignments of one word string add up (its probability); false: the best alignment alone counts */
  readonly sum: boolean;
}

export interface Found {
  words: string[];
  /** natural log; with `sum` it is the log probability of the words under the network alone */
  logScore: number;
}

/** Layers are large and asked for at every utterance: the last pair is kept while it fits. Searches never overlap. */
let spare: { states: number; width: number; pair: [Layer, Layer] } | null = null;

function layersFor(states: number, width: number, sum: boolean): [Layer, Layer] {
  if (!spare || spare.width !== width || spare.states < states || spare.states > 16 * states)
    spare = { states, width, pair: [new Layer(states, width), new Layer(states, width)] };
  for (const layer of spare.pair) layer.clear(sum);
  return spare.pair;
}

/** One frame's live states; every state holds up to `width` tokens (score, word string), best first. */
class Layer {
  readonly score: Float64Array;
  readonly string: Int32Array;
  readonly count: Uint8Array;
  readonly live: Int32Array;
  liveCount = 0;
  best = Number.NEGATIVE_INFINITY;
  private sum = false;

  constructor(
    states: number,
    private readonly width: number,
  ) {
    this.score = new Float64Array(states * width);
    this.string = new Int32Array(states * width);
    this.count = new Uint8Array(states);
    this.live = new Int32Array(states);
  }

  /** @param sum whether tokens of one string add up (true) or the better stays (false) */
  clear(sum: boolean): void {
    this.sum = sum;
    for (let i = 0; i < this.liveCount; i++) this.count[this.live[i] as number] = 0;
    this.liveCount = 0;
    this.best = Number.NEGATIVE_INFINITY;
  }

  put(state: number, logScore: number, string: number): void {
    const { score, width } = this;
    const strings = this.string;
    const first = state * width;
    const count = this.count[state] as number;
    const last = first + count;
    let slot = first;
    while (slot < last && strings[slot] !== string) slot++;
    let value = logScore;
    if (slot < last) {
      const old = score[slot] as number;
      if (this.sum) value = logAdd(old, value);
      else if (value <= old) return;
    } else if (count < width) {
      if (count === 0) this.live[this.liveCount++] = state;
      this.count[state] = count + 1;
    } else {
      slot = last - 1;
      if (value <= (score[slot] as number)) return;
    }
    while (slot > first && (score[slot - 1] as number) < value) {
      score[slot] = score[slot - 1] as number;
      strings[slot] = strings[slot - 1] as number;
      slot--;
    }
    score[slot] = value;
    strings[slot] = string;
    if (value > this.best) this.best = value;
  }
}

function logAdd(a: number, b: number): number {
  const d = a > b ? b - a : a - b;
  const top = Math.max(a, b);
  return d < -12 ? top : top + Math.log1p(Math.exp(d));
}

/**
 * Beam search through a grammar under CTC: a phone may hold, blanks may stand anywhere, the same phone twice in a
 * row needs a blank between. States 0 to phoneCount − 1 are phones, the rest blanks of places.
 * @returns distinct word strings, best first, at most `width`; empty when no sentence survives
 */
export function search(posteriors: Posteriors, graph: PhoneGraph, options: SearchOptions): Found[] {
  const strings = new Strings(graph.words.length + 1);
  const last = searched(posteriors, graph, strings, options);
  return last ? endings(last, graph, strings, options) : [];
}

/** The natural log score of the best beginning of a sentence; minus infinity when none survives. */
export function beginning(posteriors: Posteriors, graph: PhoneGraph, options: SearchOptions): number {
  const last = searched(posteriors, graph, new Strings(graph.words.length + 1), options);
  return last?.best ?? Number.NEGATIVE_INFINITY;
}

/** What lives after the last frame; null when nothing does. */
function searched(
  { frames, tokens, logProb }: Posteriors,
  graph: PhoneGraph,
  strings: Strings,
  { width, beam, wordPenalty, sum }: SearchOptions,
): Layer | null {
  if (frames === 0) return null;
  const { phone, into, childStart, exitStart, exitWord, exitTo, exitLogWeight } = graph;
  const phones = graph.phoneCount;
  let [now, next] = layersFor(phones + graph.placeCount, width, sum);

  const enter = (place: number, notPhone: number, score: number, string: number, row: number): void => {
    const end = childStart[place + 1] as number;
    for (let s = childStart[place] as number; s < end; s++) {
      const p = phone[s] as number;
      if (p !== notPhone) next.put(s, score + (logProb[row + p] as number), string);
    }
    next.put(phones + place, score + (logProb[row] as number), string);
  };

  enter(graph.start, -1, 0, 0, 0);
  for (let t = 1; t < frames; t++) {
    [now, next] = [next, now];
    next.clear(sum);
    const row = t * tokens;
    const floor = now.best - beam;
    for (let i = 0; i < now.liveCount; i++) {
      const state = now.live[i] as number;
      const first = state * width;
      const last = first + (now.count[state] as number);
      const isPhone = state < phones;
      const p = isPhone ? (phone[state] as number) : -1;
      const place = isPhone ? (into[state] as number) : state - phones;
      const exitsEnd = isPhone ? (exitStart[state + 1] as number) : 0;
      for (let k = first; k < last; k++) {
        const score = now.score[k] as number;
        if (score < floor) break;
        const string = now.string[k] as number;
        if (isPhone) next.put(state, score + (logProb[row + p] as number), string);
        if (place >= 0) enter(place, p, score, string, row);
        if (isPhone)
          for (let e = exitStart[state] as number; e < exitsEnd; e++)
            enter(
              exitTo[e] as number,
              p,
              score + wordPenalty + (exitLogWeight[e] as number),
              strings.after(string, exitWord[e] as number),
              row,
            );
      }
    }
    if (next.liveCount === 0) return null;
  }
  return next;
}

function endings(layer: Layer, graph: PhoneGraph, strings: Strings, options: SearchOptions): Found[] {
  const total = new Map<number, number>();
  const add = (string: number, score: number): void => {
    if (string === 0 || score === Number.NEGATIVE_INFINITY) return;
    const known = total.get(string);
    if (known === undefined) total.set(string, score);
    else total.set(string, options.sum ? logAdd(known, score) : Math.max(known, score));
  };
  for (let i = 0; i < layer.liveCount; i++) {
    const state = layer.live[i] as number;
    const first = state * options.width;
    const last = first + (layer.count[state] as number);
    for (let k = first; k < last; k++) {
      const score = layer.score[k] as number;
      const string = layer.string[k] as number;
      if (state >= graph.phoneCount) {
        const final = graph.finalLogWeight[state - graph.phoneCount];
        if (final !== undefined) add(string, score + final);
        continue;
      }
      for (let e = graph.exitStart[state] as number; e < (graph.exitStart[state + 1] as number); e++) {
        const final = graph.finalLogWeight[graph.exitTo[e] as number] as number;
        const extra = options.wordPenalty + (graph.exitLogWeight[e] as number) + final;
        if (final > Number.NEGATIVE_INFINITY)
          add(strings.after(string, graph.exitWord[e] as number), score + extra);
      }
    }
  }
  return [...total]
    .sort((a, b) => b[1] - a[1])
    .slice(0, options.width)
    .map(([string, logScore]) => ({ words: strings.spelled(string, graph.words), logScore }));
}
