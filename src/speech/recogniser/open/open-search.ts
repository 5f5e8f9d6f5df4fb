import { END, Walk, type WordModel } from '../../../language/spoken/ngram.js';
import type { Posteriors } from '../acoustics/posteriors.js';
import { Strings } from '../decode/strings.js';
import type { WordTree } from './word-tree.js';

export interface OpenSettings {
  /** what a natural log of the word model counts beside one of the network */
  readonly lmWeight: number;
  /** natural log, added for every word */
  readonly wordPenalty: number;
  /** natural log; what lies further below the best is dropped */
  readonly beam: number;
  /** of each frame at most so many are kept */
  readonly most: number;
  /** readings that come back at most */
  readonly readings: number;
}

export interface OpenFound {
  words: string[];
  /** natural log; of network and word model together */
  logScore: number;
  /** natural log; the word model's share, unweighted */
  languageLog: number;
}

/** The entries said so far, and how likely the word model finds them. */
class WeighedStrings extends Strings {
  /** by string: where the word model stands after it */
  readonly state: number[];
  readonly languageLog = [0];

  constructor(
    private readonly model: WordModel,
    private readonly walk: Walk,
  ) {
    super(model.entries.length);
    this.state = [walk.start];
  }

  override after(string: number, entry: number): number {
    const id = super.after(string, entry);
    if (id < this.state.length) return id;
    this.walk.take(this.state[string] as number, this.model.classOf[entry] as number);
    this.state.push(this.walk.after);
    const log = this.walk.logProb + (this.model.withinLog[entry] as number);
    this.languageLog.push((this.languageLog[string] as number) + log);
    return id;
  }
}

const SLOTS = 1 << 15;
const MOST_KEPT = SLOTS / 2;

/** One frame's readings: where in the tree, whether in the blank after it, and the string before; each once. */
class Layer {
  readonly place = new Int32Array(MOST_KEPT);
  readonly string = new Int32Array(MOST_KEPT);
  readonly score = new Float64Array(MOST_KEPT);
  count = 0;
  best = Number.NEGATIVE_INFINITY;
  private readonly slots = new Int32Array(SLOTS).fill(-1);
  private readonly slotOf = new Int32Array(MOST_KEPT);

  clear(): void {
    for (let i = 0; i < this.count; i++) this.slots[this.slotOf[i] as number] = -1;
    this.count = 0;
    this.best = Number.NEGATIVE_INFINITY;
  }

  put(place: number, string: number, score: number): void {
    let slot = (Math.imul(place, 0x9e3779b1) ^ Math.imul(string, 0x85ebca6b)) >>> 17;
    for (;;) {
      const at = this.slots[slot] as number;
      if (at < 0) break;
      if (this.place[at] === place && this.string[at] === string) {
        if (score > (this.score[at] as number)) {
          this.score[at] = score;
          if (score > this.best) this.best = score;
        }
        return;
      }
      slot = (slot + 1) & (SLOTS - 1);
    }
    const at = this.count;
    if (at === MOST_KEPT) return;
    this.count++;
    this.slots[slot] = at;
    this.slotOf[at] = slot;
    this.place[at] = place;
    this.string[at] = string;
    this.score[at] = score;
    if (score > this.best) this.best = score;
  }

  /** The score that at most `most` lie above, or `beam` below the best. */
  line(beam: number, most: number): number {
    const floor = this.best - beam;
    if (this.count <= most) return floor;
    const bins = new Int32Array(BINS + 1);
    for (let i = 0; i < this.count; i++) {
      const bin = Math.floor(((this.best - (this.score[i] as number)) / beam) * BINS);
      if (bin <= BINS) bins[bin] = (bins[bin] as number) + 1;
    }
    let sum = 0;
    for (let bin = 0; bin < BINS; bin++) {
      sum += bins[bin] as number;
      if (sum > most) return this.best - (bin / BINS) * beam;
    }
    return floor;
  }
}
const BINS = 128;

let spare: [Layer, Layer] | null = null;

/**
 * What was said over the whole vocabulary: a beam through the tree of words under CTC, each word weighed by those before it.
 * @returns distinct word strings, best first; empty when nothing survives
 */
export function openSearch(
  { frames, tokens, logProb }: Posteriors,
  model: WordModel,
  tree: WordTree,
  { lmWeight, wordPenalty, beam, most, readings }: OpenSettings,
): OpenFound[] {
  if (frames === 0) return [];
  spare ??= [new Layer(), new Layer()];
  let [now, next] = spare;
  now.clear();
  next.clear();
  const walk = new Walk(model);
  const strings = new WeighedStrings(model, walk);
  const { phone, childStart, exitStart, exit, ahead } = tree;
  let line = Number.NEGATIVE_INFINITY;

  // place: twice the node, and one more in the blank after it
  const enter = (node: number, notPhone: number, score: number, string: number, row: number): void => {
    const first = childStart[node] as number;
    const end = childStart[node + 1] as number;
    if (first === end) return;
    const blank = score + (logProb[row] as number);
    if (blank > line) next.put(2 * node + 1, string, blank);
    const here = ahead[node] as number;
    for (let c = first; c < end; c++) {
      const p = phone[c] as number;
      if (p === notPhone) continue;
      const value = score + (logProb[row + p] as number) + lmWeight * ((ahead[c] as number) - here);
      if (value > line) next.put(2 * c, string, value);
    }
  };
  /** what ending the entry adds to the score that looked ahead to it */
  const ended = (node: number, string: number, after: number): number =>
    wordPenalty +
    lmWeight *
      ((strings.languageLog[after] as number) -
        (strings.languageLog[string] as number) -
        (ahead[node] as number) +
        (ahead[0] as number));

  enter(0, -1, 0, 0, 0);
  for (let t = 1; t < frames; t++) {
    [now, next] = [next, now];
    next.clear();
    const row = t * tokens;
    const floor = now.line(beam, most);
    line = Number.NEGATIVE_INFINITY;
    for (let i = 0; i < now.count; i++) {
      const score = now.score[i] as number;
      if (score < floor) continue;
      const string = now.string[i] as number;
      const place = now.place[i] as number;
      const node = place >> 1;
      line = next.best - beam;
      if ((place & 1) === 1) {
        enter(node, -1, score, string, row);
        continue;
      }
      const p = phone[node] as number;
      const stay = score + (logProb[row + p] as number);
      if (stay > line) next.put(place, string, stay);
      enter(node, p, score, string, row);
      const end = exitStart[node + 1] as number;
      for (let e = exitStart[node] as number; e < end; e++) {
        const after = strings.after(string, exit[e] as number);
        const value = score + ended(node, string, after);
        if (value > line) enter(0, p, value, after, row);
      }
    }
    if (next.count === 0) return [];
  }
  const total = new Map<number, number>();
  const finish = (string: number, score: number): void => {
    if (string === 0) return;
    walk.take(strings.state[string] as number, END);
    const whole = score + lmWeight * walk.logProb;
    total.set(string, Math.max(whole, total.get(string) ?? Number.NEGATIVE_INFINITY));
  };
  for (let i = 0; i < next.count; i++) {
    const place = next.place[i] as number;
    const node = place >> 1;
    const string = next.string[i] as number;
    const score = next.score[i] as number;
    if (place === 1) finish(string, score);
    else
      for (let e = exitStart[node] as number; e < (exitStart[node + 1] as number); e++) {
        const after = strings.after(string, exit[e] as number);
        finish(after, score + ended(node, string, after));
      }
  }
  return [...total]
    .sort(([, a], [, b]) => b - a)
    .slice(0, readings)
    .map(([string, logScore]) => ({
      words: strings.spelled(string, model.entries).flatMap((entry) => entry.split(' ')),
      logScore,
      languageLog: strings.languageLog[string] as number,
    }));
}
