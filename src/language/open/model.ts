/** A small classifier of sentences: multinomial logistic regression over word n-grams. Pure; trained where it is built. */
export interface Model {
  readonly classes: readonly string[];
  readonly features: ReadonlyMap<string, number>;
  /** where the weights of each feature begin in `columns` and `weights`; one more than there are features */
  readonly starts: Uint32Array;
  /** the class of each weight */
  readonly columns: Uint8Array;
  /** in units of `step`; what is not there is zero */
  readonly weights: Int8Array;
  readonly step: number;
}

export interface Example {
  words: readonly string[];
  label: string;
}

/** Words, pairs, triples and pairs with one word between, with the sentence's ends. */
export function featuresOf(words: readonly string[]): string[] {
  const w = ['^', ...words, '$'];
  const found = new Set<string>();
  for (const [i, a] of w.entries()) {
    const [b, c] = [w[i + 1], w[i + 2]];
    if (i > 0 && b !== undefined) found.add(a);
    if (b === undefined) continue;
    found.add(`${a} ${b}`);
    if (c !== undefined) found.add(`${a} ${b} ${c}`).add(`${a} * ${c}`);
  }
  return [...found];
}

const EPOCHS = 5;
const RATE = 0.4;
const DECAY = 2e-5;
/** a class this far from wrong is left as it is */
const LEAST_ERROR = 2e-4;
/** a weight of fewer steps is left out */
const LEAST_STEPS = 2;
/** a feature met less often tells nothing */
const LEAST = 2;

/** Learns by stochastic gradient with Adagrad steps; the same examples and dice give the same model. */
export function train(examples: readonly Example[], random: () => number): Model {
  const counts = new Map<string, number>();
  const extracted = examples.map((e) => featuresOf(e.words));
  for (const f of extracted.flat()) counts.set(f, (counts.get(f) ?? 0) + 1);
  const kept = [...counts].filter(([f, n]) => n >= LEAST || !f.includes(' ')).map(([f]) => f);
  const features = new Map(kept.map((f, i) => [f, i]));
  const classes = [...new Set(examples.map((e) => e.label))];
  if (classes.length > 256) throw new Error(`${classes.length} commands are more than a byte can number.`);
  const width = classes.length;
  const weights = new Float32Array(features.size * width);
  const steps = new Float32Array(features.size * width).fill(1e-2);
  const labels = examples.map((e) => classes.indexOf(e.label));
  const rows = extracted.map((fs) => Int32Array.from(fs.flatMap((f) => features.get(f) ?? [])));
  const perLabel = new Float32Array(width);
  for (const l of labels) perLabel[l] = (perLabel[l] ?? 0) + 1;
  const order = examples.map((_, i) => i);
  for (let epoch = 0; epoch < EPOCHS; epoch++) {
    shuffle(order, random);
    for (const at of order) {
      const row = rows[at] ?? new Int32Array();
      const label = labels[at] ?? 0;
      const p = softmax(denseLogits(width, weights, row));
      // rare commands count as much as those with many wordings
      const importance = 1 / Math.sqrt(perLabel[label] ?? 1);
      for (let c = 0; c < width; c++) {
        const error = ((p[c] ?? 0) - (c === label ? 1 : 0)) * importance;
        if (Math.abs(error) < LEAST_ERROR) continue;
        for (const f of row) {
          const k = f * width + c;
          const w = weights[k] ?? 0;
          const gradient = error + DECAY * w;
          const step = (steps[k] ?? 0) + gradient * gradient;
          steps[k] = step;
          weights[k] = w - (RATE * gradient) / Math.sqrt(step);
        }
      }
    }
  }
  // a byte a weight: the smallest steps change nothing that is heard
  const step = weights.reduce((most, w) => Math.max(most, Math.abs(w)), 0) / 127 || 1;
  const starts = new Uint32Array(features.size + 1);
  const columns: number[] = [];
  const kept8: number[] = [];
  for (let f = 0; f < features.size; f++) {
    for (let c = 0; c < width; c++) {
      const w = Math.round((weights[f * width + c] ?? 0) / step);
      if (Math.abs(w) < LEAST_STEPS) continue;
      columns.push(c);
      kept8.push(w);
    }
    starts[f + 1] = columns.length;
  }
  return {
    classes,
    features,
    starts,
    columns: Uint8Array.from(columns),
    weights: Int8Array.from(kept8),
    step,
  };
}

/** The probability of each class, in the order of `classes`. */
export function classify(model: Model, words: readonly string[]): Float32Array {
  const z = new Float32Array(model.classes.length);
  for (const name of featuresOf(words)) {
    const f = model.features.get(name);
    if (f === undefined) continue;
    for (let i = model.starts[f] ?? 0; i < (model.starts[f + 1] ?? 0); i++) {
      const c = model.columns[i] ?? 0;
      z[c] = (z[c] ?? 0) + (model.weights[i] ?? 0) * model.step;
    }
  }
  return softmax(z);
}

function denseLogits(width: number, weights: Float32Array, row: Int32Array): Float32Array {
  const z = new Float32Array(width);
  for (const f of row) for (let c = 0; c < width; c++) z[c] = (z[c] ?? 0) + (weights[f * width + c] ?? 0);
  return z;
}

/** Logarithms turned into probabilities, in their own place. */
export function softmax<T extends Float32Array | Float64Array>(z: T): T {
  const top = Math.max(...z);
  let sum = 0;
  for (let i = 0; i < z.length; i++) {
    z[i] = Math.exp((z[i] ?? 0) - top);
    sum += z[i] ?? 0;
  }
  for (let i = 0; i < z.length; i++) z[i] = (z[i] ?? 0) / sum;
  return z;
}

function shuffle(list: number[], random: () => number): void {
  for (let i = list.length - 1; i > 0; i--) {
    const j = Math.floor(random() * (i + 1));
    [list[i], list[j]] = [list[j] ?? 0, list[i] ?? 0];
  }
}
