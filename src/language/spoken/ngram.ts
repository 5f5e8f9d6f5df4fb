/**
 * How likely a word is after the two before it, over classes of words: Kneser-Ney's interpolated trigrams, with one discount. Every
 * entry is a word, or a name of several words, and stands in one class; most classes have one entry.
 */
export interface WordModel {
  /** what is said, one or more words */
  readonly entries: readonly string[];
  /** the class of each entry */
  readonly classOf: Uint16Array;
  /** natural log; of each entry among those of its class */
  readonly withinLog: Float32Array;
  readonly classes: number;
  /** by class: −natural log, and what is left for words that were not seen after it, in steps of STEP */
  readonly one: Uint8Array;
  readonly oneLeft: Uint8Array;
  /** pairs whose first is class c: twoStart[c] to twoStart[c + 1] − 1, by rising second class */
  readonly twoStart: Uint32Array;
  readonly twoClass: Uint16Array;
  readonly two: Uint8Array;
  readonly twoLeft: Uint8Array;
  /** triples that begin with pair p, by rising third class */
  readonly threeStart: Uint32Array;
  readonly threeClass: Uint16Array;
  readonly three: Uint8Array;
}

/** The arrays of a word model, by name. */
export const WORD_ARRAYS = {
  classOf: Uint16Array,
  withinLog: Float32Array,
  one: Uint8Array,
  oneLeft: Uint8Array,
  twoStart: Uint32Array,
  twoClass: Uint16Array,
  two: Uint8Array,
  twoLeft: Uint8Array,
  threeStart: Uint32Array,
  threeClass: Uint16Array,
  three: Uint8Array,
} as const;

/** The class that begins sentences and the one that ends them. */
export const BEGIN = 0;
export const END = 1;

/** One step of a log probability, natural log. */
export const STEP = 1 / 16;

const DISCOUNT = 0.75;

/**
 * @param sentences of classes, without BEGIN and END
 * @param classes how many there are, at most 65,535
 */
export function countNgrams(
  sentences: Iterable<readonly number[]>,
  classes: number,
): Omit<WordModel, 'entries' | 'classOf' | 'withinLog'> {
  const triples = new Map<number, number>();
  const key = (a: number, b: number, c: number): number => (a * classes + b) * classes + c;
  const count = (into: Map<number, number>, k: number): void => {
    into.set(k, (into.get(k) ?? 0) + 1);
  };
  for (const s of sentences) {
    let [a, b] = [BEGIN, BEGIN];
    for (const c of [...s, END]) {
      count(triples, key(a, b, c));
      [a, b] = [b, c];
    }
  }
  // of shorter ones it counts after how many different words they come
  const pairs = new Map<number, number>();
  for (const k of triples.keys()) count(pairs, k % (classes * classes));
  const singles = new Map<number, number>();
  for (const k of pairs.keys()) count(singles, k % classes);

  const one = new Float64Array(classes);
  const all = pairs.size + classes;
  for (let c = 0; c < classes; c++) one[c] = ((singles.get(c) ?? 0) + 1) / all;

  const twoStart = new Uint32Array(classes + 1);
  const [afterPair, afterOne] = [sums(triples, classes), sums(pairs, classes)];
  const pairKeys = new Set(pairs.keys());
  // what was said twice before something is a history too: the beginning of a sentence
  for (const k of triples.keys()) pairKeys.add(Math.floor(k / classes));
  const sorted = [...pairKeys].sort((x, y) => x - y);
  const twoIndex = new Map(sorted.map((k, i) => [k, i]));
  const two = new Float64Array(sorted.length);
  const oneLeft = new Float64Array(classes).fill(1);
  for (const [c, { total, kinds }] of afterOne) oneLeft[c] = (DISCOUNT * kinds) / total;
  for (const [i, k] of sorted.entries()) {
    const [a, b] = [Math.floor(k / classes), k % classes];
    twoStart[a + 1] = i + 1;
    const total = afterOne.get(a)?.total ?? 1;
    const seen = Math.max(0, (pairs.get(k) ?? 0) - DISCOUNT) / total;
    two[i] = seen + (oneLeft[a] ?? 1) * (one[b] ?? 0);
  }
  for (let c = 1; c <= classes; c++) twoStart[c] = Math.max(twoStart[c] ?? 0, twoStart[c - 1] ?? 0);

  const threes = [...triples].sort(([x], [y]) => x - y);
  const threeStart = new Uint32Array(sorted.length + 1);
  const twoLeft = new Float64Array(sorted.length).fill(1);
  for (const [k, { total, kinds }] of afterPair) twoLeft[twoIndex.get(k) ?? 0] = (DISCOUNT * kinds) / total;
  const three = threes.map(([k, n], i) => {
    const [pair, c] = [Math.floor(k / classes), k % classes];
    const at = twoIndex.get(pair) ?? 0;
    threeStart[at + 1] = i + 1;
    const lower = twoIndex.get((pair % classes) * classes + c);
    const less = lower === undefined ? (one[c] ?? 0) : (two[lower] ?? 0);
    return (n - DISCOUNT) / (afterPair.get(pair)?.total ?? 1) + (twoLeft[at] ?? 1) * less;
  });
  for (let i = 1; i <= sorted.length; i++)
    threeStart[i] = Math.max(threeStart[i] ?? 0, threeStart[i - 1] ?? 0);
  return {
    ...{ classes, twoStart, threeStart },
    one: Uint8Array.from(one, inSteps),
    oneLeft: Uint8Array.from(oneLeft, inSteps),
    twoClass: Uint16Array.from(sorted, (k) => k % classes),
    two: Uint8Array.from(two, inSteps),
    twoLeft: Uint8Array.from(twoLeft, inSteps),
    threeClass: Uint16Array.from(threes, ([k]) => k % classes),
    three: Uint8Array.from(three, inSteps),
  };
}

/** By what comes before the last class: how often in all, and how many kinds. */
function sums(
  counts: ReadonlyMap<number, number>,
  classes: number,
): Map<number, { total: number; kinds: number }> {
  const found = new Map<number, { total: number; kinds: number }>();
  for (const [k, n] of counts) {
    const before = Math.floor(k / classes);
    const sum = found.get(before) ?? { total: 0, kinds: 0 };
    sum.total += n;
    sum.kinds++;
    found.set(before, sum);
  }
  return found;
}

const inSteps = (p: number): number => Math.min(255, Math.round(-Math.log(p) / STEP));

/**
 * Where one stands in a sentence: below `classes` the last class alone is known, above it is `classes` + the last pair.
 * `logProb` and `after` are of the last `take`.
 */
export class Walk {
  logProb = 0;
  after = 0;
  readonly start: number;

  constructor(private readonly model: WordModel) {
    this.start = this.stateOf(BEGIN, BEGIN);
  }

  /** The class comes next: its natural log probability, and where one stands then. */
  take(state: number, next: number): void {
    const m = this.model;
    let steps = 0;
    let last = state;
    let found = -1;
    if (state >= m.classes) {
      const pair = state - m.classes;
      last = m.twoClass[pair] as number;
      found = within(m.threeClass, m.threeStart[pair] as number, m.threeStart[pair + 1] as number, next);
      if (found < 0) steps = m.twoLeft[pair] as number;
    }
    const pair = within(m.twoClass, m.twoStart[last] as number, m.twoStart[last + 1] as number, next);
    if (found >= 0) steps = m.three[found] as number;
    else if (pair >= 0) steps += m.two[pair] as number;
    else steps += (m.oneLeft[last] as number) + (m.one[next] as number);
    this.logProb = -steps * STEP;
    this.after = pair >= 0 ? m.classes + pair : next;
  }

  private stateOf(a: number, b: number): number {
    const m = this.model;
    const pair = within(m.twoClass, m.twoStart[a] as number, m.twoStart[a + 1] as number, b);
    return pair >= 0 ? m.classes + pair : b;
  }
}

/** The place of a number in a part of a rising list; −1: it is not there. */
function within(list: Uint16Array, from: number, to: number, wanted: number): number {
  let [low, high] = [from, to - 1];
  while (low <= high) {
    const middle = (low + high) >> 1;
    const found = list[middle] as number;
    if (found === wanted) return middle;
    if (found < wanted) low = middle + 1;
    else high = middle - 1;
  }
  return -1;
}
