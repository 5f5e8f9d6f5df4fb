/**
 * The words a grammar allows, as a graph: every path from `start` to `end` is a sentence. The recogniser turns
 * it into phones; the interpreter walks it to find meaning. Words are lower case.
 */
export interface WordGraph {
  readonly name: string;
  readonly nodeCount: number;
  readonly start: number;
  readonly end: number;
  /** an arc with word null is free (epsilon); `tags` are met in order along a path; `weight` > 0, 1 when not given */
  readonly arcs: readonly WordArc[];
}

export interface WordArc {
  readonly from: number;
  readonly to: number;
  readonly word: string | null;
  readonly tags?: readonly string[];
  readonly weight?: number;
}

/** One reading of a stretch of sound. */
export interface Hypothesis {
  words: string;
  /** 0 to 1; calibrated so that 0.5 is the accept/reject line */
  confidence: number;
  /** log score per frame against the best free phone path, ≤ 0 is usual */
  score: number;
  wordTimes: {
    word: string;
    startMs: number;
    endMs: number;
    confidence: number;
  }[];
}

/** A reading over the whole vocabulary; its confidence is its share among the readings. */
export interface OpenReading extends Hypothesis {
  /** natural log by word: how likely such words are one after another */
  usual: number;
}

/** What the recogniser says of one utterance. */
export interface Hearing {
  /** where the grammar has no such sentence: what may have been said all the same, likeliest first */
  open?: readonly OpenReading[];
  accepted: boolean;
  best: Hypothesis | null;
  /** further readings, best first, never the best itself */
  alternatives: Hypothesis[];
  /** one clear sentence when nothing was accepted */
  why?: string;
  milliseconds: {
    network: number;
    decoder: number;
    rejection: number;
    total: number;
  };
}

/** Anything that turns sound into words under a grammar. Sound is mono, 16 kHz, −1 to 1. */
export interface Recogniser {
  setGrammar(graph: WordGraph): void;
  recognise(pcm: Float32Array): Promise<Hearing>;
  close(): Promise<void>;
}
