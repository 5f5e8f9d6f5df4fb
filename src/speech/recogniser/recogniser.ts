import { join } from 'node:path';
import type { Hearing, Hypothesis, Recogniser, WordGraph } from '../../language/types.js';
import { lexiconDir, lexiconFiles, modelsDir } from '../installed.js';
import { loadNetwork, type Network } from './acoustics/network.js';
import { type FreePath, freePathOf, type Posteriors, posteriorsOf } from './acoustics/posteriors.js';
import { faultOf, levelled } from './acoustics/sound.js';
import { type Alignment, align } from './decode/align.js';
import { type Found, search } from './decode/search.js';
import { backgroundGraph } from './graph/background.js';
import { type GrammarCache, grammarCache } from './graph/cache.js';
import type { PhoneGraph } from './graph/phone-graph.js';
import { type Lexicon, lexiconFor } from './lexicon/lexicon.js';
import { type Cues, cuesOf, lossesOf, wordScores } from './reject/cues.js';
import { confidenceOf, wordConfidence } from './reject/verdict.js';
import {
  type DecoderSettings,
  type RejectionSettings,
  readDecoderSettings,
  readRejectionSettings,
} from './settings.js';
import { LEARNING, type LearnOptions, type Lesson, learnVoice } from './voice/learn.js';
import { readVoiceProfile, type VoiceProfile, warped } from './voice/profile.js';

export interface RecogniserOptions {
  /** folder with config.json, phones.json, decoder.json, rejection.json and onnx/model.onnx; ours when not given */
  readonly modelDir?: string;
  /** folder with trade-words.dict, everyday-words.txt and letter-to-sound.json; ours when not given */
  readonly lexiconDir?: string;
}

/** What benches and calibration want to see besides the hearing. */
export interface Examination extends Hearing {
  cues: Cues | null;
}

/** A recogniser that also shows its reasons and takes constants to try. */
export interface OpenRecogniser extends Recogniser {
  recognise(pcm: Float32Array): Promise<Examination>;
  /** changes constants for what follows; used to choose them */
  tune(change: { decoder?: Partial<DecoderSettings>; rejection?: RejectionSettings }): void;
  /**
   * Compiles ahead what the first sentence under this graph would wait for.
   * @returns whether there was anything to compile
   * @throws Error with one clear sentence for the first word that cannot be spoken
   */
  prepare(graph: WordGraph): boolean;
  /**
   * Learns a user's voice from recordings with known words; changes nothing until `setVoice`.
   * @throws Error with one clear sentence when a word cannot be spoken
   */
  learnVoice(lessons: readonly Lesson[], options?: LearnOptions): Promise<VoiceProfile>;
  /**
   * Hears with a learnt voice from now on; null forgets it.
   * @param profile as `learnVoice` gave it, or what was read back from JSON
   * @returns null, or one clear sentence why the profile cannot be used (then it is not)
   */
  setVoice(profile: unknown): string | null;
}

/**
 * A recogniser on our own acoustic network, offline, on at most two threads.
 * @throws Error with one clear sentence when the model or a word list is missing or damaged
 */
export async function createRecogniser(options: RecogniserOptions = {}): Promise<OpenRecogniser> {
  const modelDir = options.modelDir ?? join(modelsDir(), 'tankside-acoustic');
  const wordsDir = options.lexiconDir ?? lexiconDir();
  const network = await loadNetwork(modelDir);
  const lexicon = lexiconFor(network.tokens, lexiconFiles(wordsDir));
  return new CtcRecogniser(
    network,
    lexicon,
    readDecoderSettings(modelDir),
    readRejectionSettings(modelDir),
    backgroundGraph(join(wordsDir, 'everyday-words.txt'), lexicon),
  );
}

interface Heard {
  posteriors: Posteriors;
  free: FreePath;
  pcm: Float32Array;
}

const BACKGROUND_WORD_PENALTY = -1.5;
const BACKGROUND_BEAM = 12;

class CtcRecogniser implements OpenRecogniser {
  private grammar: PhoneGraph | null = null;
  private voice: VoiceProfile | null = null;
  private readonly cache: GrammarCache;

  constructor(
    private readonly network: Network,
    private readonly lexicon: Lexicon,
    private decoder: DecoderSettings,
    private rejection: RejectionSettings,
    private readonly background: () => PhoneGraph,
  ) {
    this.cache = grammarCache((word) => lexicon.pronounce(word));
  }

  setGrammar(graph: WordGraph): void {
    this.grammar = this.cache.compiled(graph);
  }

  prepare(graph: WordGraph): boolean {
    if (this.cache.has(graph)) return false;
    this.cache.compiled(graph);
    this.background();
    return true;
  }

  tune(change: { decoder?: Partial<DecoderSettings>; rejection?: RejectionSettings }): void {
    this.decoder = { ...this.decoder, ...change.decoder };
    if (change.rejection) this.rejection = change.rejection;
  }

  learnVoice(lessons: readonly Lesson[], options: LearnOptions = LEARNING): Promise<VoiceProfile> {
    return learnVoice(this.network, this.lexicon, this.decoder.blankBias, lessons, options);
  }

  setVoice(profile: unknown): string | null {
    const read = profile === null ? null : readVoiceProfile(profile, this.network.tokens.count);
    this.voice = typeof read === 'string' ? null : read;
    return typeof read === 'string' ? read : null;
  }

  async recognise(pcm: Float32Array): Promise<Examination> {
    const began = performance.now();
    const fault = this.grammar
      ? faultOf(pcm)
      : 'No grammar is set; the recogniser does not know what may be said.';
    if (fault !== null || this.grammar === null) return nothing(fault ?? '', began);
    const warp = this.voice?.warp ?? 1;
    const { data, frames, frameMs } = await this.network.run(levelled(warped(pcm, warp)));
    const networkDone = performance.now();
    const tokens = this.network.tokens.count;
    const bias = Float32Array.from(this.voice?.bias ?? new Array<number>(tokens).fill(0));
    bias[0] = (bias[0] ?? 0) + this.decoder.blankBias;
    const posteriors = posteriorsOf(data, frames, tokens, frameMs * warp, bias, this.decoder.floor);
    const found = searchWidening(posteriors, this.grammar, this.decoder);
    const searchDone = performance.now();
    const heard: Heard = { posteriors, free: freePathOf(posteriors), pcm };
    const hearing = this.judged(heard, found);
    const done = performance.now();
    return {
      ...hearing,
      milliseconds: {
        network: networkDone - began,
        decoder: searchDone - networkDone,
        rejection: done - searchDone,
        total: done - began,
      },
    };
  }

  async close(): Promise<void> {
    await this.network.close();
  }

  private judged(heard: Heard, found: Found[]): Omit<Examination, 'milliseconds'> {
    if (heard.free.phones.length === 0) return no('No speech was heard.');
    const [best, ...rest] = found;
    const alignment = best && this.aligned(heard.posteriors, best);
    if (!best || !alignment) return no('Nothing that may be said now fits what was heard.');
    const [background] = search(heard.posteriors, this.background(), {
      width: 1,
      beam: BACKGROUND_BEAM,
      wordPenalty: BACKGROUND_WORD_PENALTY,
      sum: false,
    });
    const cues = cuesOf({
      ...heard,
      alignment,
      logScore: this.soundScore(best),
      backgroundLogScore: background?.logScore ?? best.logScore,
    });
    const confidence = confidenceOf(cues, this.rejection);
    const accepted = confidence >= 0.5;
    const hypothesis = this.hypothesis(heard, best, alignment, confidence);
    const alternatives = rest.flatMap((other) => {
      const placed = this.aligned(heard.posteriors, other);
      const share = confidence * Math.exp(Math.min(0, other.logScore - best.logScore));
      return placed ? [this.hypothesis(heard, other, placed, share)] : [];
    });
    const why = accepted
      ? {}
      : { why: 'That did not sound like anything that may be said now. Please say it again.' };
    return { accepted, best: hypothesis, alternatives, cues, ...why };
  }

  /** the score that the sound alone gives, without what the decoder adds a word */
  private soundScore(found: Found): number {
    return found.logScore - this.decoder.wordPenalty * found.words.length;
  }

  private aligned(posteriors: Posteriors, found: Found): Alignment | null {
    return align(
      posteriors,
      found.words.map((word) => this.lexicon.pronounce(word)),
    );
  }

  private hypothesis(heard: Heard, found: Found, alignment: Alignment, confidence: number): Hypothesis {
    const { frames, frameMs } = heard.posteriors;
    return {
      words: found.words.join(' '),
      confidence,
      score: (this.soundScore(found) - heard.free.total) / Math.max(1, frames),
      wordTimes: wordScores(lossesOf(heard.posteriors, heard.free, alignment), alignment).map((w) => ({
        word: found.words[w.word] ?? '',
        startMs: Math.round(w.from * frameMs),
        endMs: Math.round((w.to + 1) * frameMs),
        confidence: wordConfidence(w.perPhone),
      })),
    };
  }
}

/** The beam holds nearly always; where it lost every sentence, a wide one looks again. */
function searchWidening(posteriors: Posteriors, grammar: PhoneGraph, settings: DecoderSettings): Found[] {
  const found = search(posteriors, grammar, settings);
  return found.length > 0 ? found : search(posteriors, grammar, { ...settings, beam: 8 * settings.beam });
}

const no = (why: string): Omit<Examination, 'milliseconds'> => ({
  accepted: false,
  best: null,
  alternatives: [],
  cues: null,
  why,
});

const nothing = (why: string, began: number): Examination => ({
  ...no(why),
  milliseconds: { network: 0, decoder: 0, rejection: 0, total: performance.now() - began },
});
