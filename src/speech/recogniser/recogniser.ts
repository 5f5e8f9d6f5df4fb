import { join } from 'node:path';
import type { Hearing, Hypothesis, OpenReading, Recogniser, WordGraph } from '../../language/types.js';
import { loadTwoSileros } from '../ears/silero.js';
import { lexiconDir, lexiconFiles, modelsDir, vocabularyFile } from '../installed.js';
import { isProblem } from '../wav.js';
import { type Denoiser, loadDenoiser } from './acoustics/denoiser.js';
import { loadNetwork, type Network } from './acoustics/network.js';
import { type FreePath, floored, freePathOf, type Posteriors, posteriorsOf } from './acoustics/posteriors.js';
import { faultOf, levelled } from './acoustics/sound.js';
import { type Span, sameSpan } from './acoustics/speech-span.js';
import { type Alignment, align } from './decode/align.js';
import { beginning, type Found, search } from './decode/search.js';
import { backgroundGraph } from './graph/background.js';
import { type GrammarCache, grammarCache } from './graph/cache.js';
import type { PhoneGraph } from './graph/phone-graph.js';
import { type Reading, SphinxModels } from './hmm/sphinx.js';
import { type Lexicon, lexiconFor, pronunciations } from './lexicon/lexicon.js';
import { Ongoing, type TwoListeners } from './ongoing.js';
import { type OpenSettings, openSearch } from './open/open-search.js';
import { type Vocabulary, vocabularyFrom } from './open/vocabulary.js';
import { isFar, Outlook, type Shortfall } from './outlook.js';
import { type Cues, cuesOf, lossesOf, wordScores } from './reject/cues.js';
import { confidenceOf, wordConfidence } from './reject/verdict.js';
import {
  type DecoderSettings,
  type RejectionSettings,
  readDecoderSettings,
  readRejectionSettings,
} from './settings.js';

export interface RecogniserOptions {
  /** folder with config.json, phones.json, decoder.json, rejection.json and onnx/model.onnx; ours when not given */
  readonly modelDir?: string;
  /** folder with trade-words.dict, everyday-words.txt and letter-to-sound.json; ours when not given */
  readonly lexiconDir?: string;
}

/** What benches and calibration want to see besides the hearing. */
export interface Examination extends Hearing {
  cues: Cues | null;
  /** the sentences that were weighed against each other, best first */
  considered: Considered[];
}

export interface Considered {
  words: string;
  /** natural log; the network's score */
  network: number;
  /** natural log; how well the hidden Markov models find it to fit; null where they were not asked */
  fit: number | null;
  cues: Cues;
}

/** An utterance that is still coming: most of the work is done while it does. */
export interface Utterance {
  /** what came since the last time */
  push(pcm: Float32Array): Promise<void>;
  /** what it may be so far */
  guess(): Guess;
  /** What was said, in its first samples or all of it: the same as `recognise` says of them. */
  hear(samples?: number): Promise<Examination>;
}

export interface Guess {
  words: string;
  /** whether the words are a whole sentence of the grammar */
  whole: boolean;
  /** whether a sentence may go on after them */
  mayGoOn: boolean;
  /** nothing that may be said now begins like this */
  hopeless: boolean;
}

/** A recogniser that also shows its reasons and takes constants to try. */
export interface OpenRecogniser extends Recogniser {
  /**
   * Begins an utterance under the grammar that is set. One at a time: those before are heard anew when asked.
   * @param amongTalk other talk goes on: what begins like no sentence is not listened to any further, and was nothing
   */
  begin(amongTalk?: boolean): Utterance;
  recognise(pcm: Float32Array): Promise<Examination>;
  /**
   * What was said in the sound that was heard last, whatever the grammar: readings over the whole vocabulary, best first; none where no
   * voice was found in it.
   */
  openly(): OpenReading[];
  /** changes constants for what follows; used to choose them */
  tune(change: { decoder?: Partial<DecoderSettings>; rejection?: RejectionSettings }): void;
  /**
   * Compiles ahead what the first sentence under this graph would wait for.
   * @returns whether there was anything to compile
   * @throws Error with one clear sentence for the first word that cannot be spoken
   */
  prepare(graph: WordGraph): boolean;
}

/**
 * A recogniser that asks two: our own acoustic network, and hidden Markov models of people's speech. Every sound is first freed of
 * most of its noise and cut to the voice in it. Offline, on one thread.
 * @throws Error with one clear sentence when the model or a word list is missing or damaged
 */
export async function createRecogniser(options: RecogniserOptions = {}): Promise<OpenRecogniser> {
  const modelDir = options.modelDir ?? join(modelsDir(), 'tankside-acoustic');
  const wordsDir = options.lexiconDir ?? lexiconDir();
  const network = await loadNetwork(modelDir);
  const files = lexiconFiles(wordsDir);
  const lexicon = lexiconFor(network.tokens, files);
  const listeners = await loadTwoSileros();
  return new JointRecogniser(
    network,
    await loadDenoiser(join(modelsDir(), 'dtln')),
    await SphinxModels.load(join(modelsDir(), 'en-us-hmm'), pronunciations(files)),
    isProblem(listeners) ? null : listeners,
    lexicon,
    readDecoderSettings(modelDir),
    readRejectionSettings(modelDir),
    backgroundGraph(join(wordsDir, 'everyday-words.txt'), lexicon),
    vocabularyFrom(vocabularyFile(), network.tokens.names, lexicon),
  );
}

interface Heard {
  posteriors: Posteriors;
  free: FreePath;
  /** natural log; of the best run of everyday words */
  background: number | null;
  pcm: Float32Array;
  /** the same part of the sound with less of its noise */
  cleaner: Float32Array;
  /** what the hidden Markov models read */
  read(): Reading | null;
}

/** A sentence that may have been said. */
interface Candidate {
  words: string[];
  alignment: Alignment;
  /** natural log, by both recognisers where both were asked; comes to the same units for all of one utterance */
  logScore: number;
  /** natural log; how well the hidden Markov models find the sound to fit; null where they were not asked */
  fit: number | null;
}

/** What was made of a part of the sound before it was asked for. */
interface Early extends Examined {
  span: Span;
  under: DecoderSettings;
  /** the words that were read up to its end, which may be half a sentence */
  soFar: string;
}

/** What was made of a part of the sound, and of what; null: of nothing. */
interface Examined {
  examination: Examination;
  heard: Heard | null;
}

interface Candidates {
  /** best first */
  list: Candidate[];
  /** the hidden Markov models' own reading, '' for none */
  reading: string;
}

const UNLIKE_ANYTHING = 'That did not sound like anything that may be said now. Please say it again.';

/** Eight seconds, samples: of 156 strangers' commands none takes as long. */
const LONG = 128_000;

/** A sentence of the network's that would be less likely than this even if the other recogniser read the same is no command. */
const LEAST_HOPE = 0.1;

/** A surprise counts less where only the outlook is asked, so that a narrow beam gets past it. Natural logs. */
const OUTLOOK_FLOOR = -4;
const OUTLOOK_BEAM = 8;

/** How many times as wide a beam is that looks again. */
const WIDER = 8;

/** Chosen on sentences of the bench in development voices. */
const OPEN: OpenSettings = {
  lmWeight: 1,
  wordPenalty: 0,
  beam: 14,
  most: 800,
  readings: 6,
};

const BACKGROUND_WORD_PENALTY = -1.5;
const BACKGROUND_BEAM = 12;

/**
 * Sentences that the network finds so nearly as likely as its best are put to the other recogniser, natural log. On 930 sounds of
 * strangers this decides nearly as asking about all does (303, 298, 261 right against 302, 299, 266), for a third of the sounds.
 */
const NEARLY_AS_LIKELY = 3;

class JointRecogniser implements OpenRecogniser {
  private grammar: PhoneGraph | null = null;
  /** what was made of the sound that was heard last */
  private last: Heard | null = null;
  /** the sound that is heard at present */
  private ongoing: Ongoing | null = null;
  private readonly cache: GrammarCache;

  constructor(
    private readonly network: Network,
    private readonly denoiser: Denoiser,
    private readonly hmm: SphinxModels,
    private readonly listeners: TwoListeners | null,
    private readonly lexicon: Lexicon,
    private decoder: DecoderSettings,
    private rejection: RejectionSettings,
    private readonly background: () => PhoneGraph,
    private readonly vocabulary: () => Vocabulary | null,
  ) {
    this.cache = grammarCache((word) => lexicon.pronounce(word));
  }

  setGrammar(graph: WordGraph): void {
    this.grammar = this.cache.compiled(graph);
    this.hmm.setGrammar(graph);
  }

  prepare(graph: WordGraph): boolean {
    const known = this.cache.has(graph);
    this.cache.compiled(graph);
    this.hmm.prepare(graph);
    this.background();
    return !known;
  }

  tune(change: Parameters<OpenRecogniser['tune']>[0]): void {
    this.decoder = { ...this.decoder, ...change.decoder };
    if (change.rejection) this.rejection = change.rejection;
  }

  private coming(): Ongoing {
    return new Ongoing(this.denoiser, this.listeners, this.hmm, () => this.decoder);
  }

  async recognise(sound: Float32Array): Promise<Examination> {
    const began = performance.now();
    const ongoing = this.coming();
    this.ongoing = ongoing;
    if (faultOf(sound) === null) await ongoing.push(sound);
    return this.hear(ongoing, sound, began);
  }

  begin(amongTalk = false): Utterance {
    const ongoing = this.coming();
    const outlook = new Outlook((part) => this.shortfall(ongoing.part(part)));
    const under = this.grammar;
    this.ongoing = ongoing;
    // while it is being said; whoever needs it is told if it fails
    void this.hmm.ready().catch(() => {});
    let early: Early | null = null;
    const goesOn = (): boolean => this.ongoing === ongoing && this.grammar === under;
    const letGo = (): boolean => amongTalk && outlook.lost && goesOn();
    return {
      push: async (pcm) => {
        if (letGo()) return;
        await ongoing.push(pcm);
        const span = ongoing.begun();
        if (!span || !goesOn()) return;
        await outlook.look(span);
        if (outlook.hopeless || sameSpan(early?.span, span)) return;
        // most talk is known for that at the first look: until then nothing is read
        if (!outlook.looked && !ongoing.isOver(span)) return;
        ongoing.read(span);
        if (!ongoing.isOver(span) || span.to - span.from > LONG) return;
        const soFar = ongoing.guess();
        early = { span, soFar, under: this.decoder, ...(await this.examined(ongoing, span)) };
      },
      guess: () => {
        const { hopeless } = outlook;
        if (hopeless || !goesOn()) return { ...this.hmm.guessed(''), hopeless };
        const span = ongoing.begun();
        if (early && span && sameSpan(early.span, span))
          return { ...this.hmm.guessed(early.soFar), hopeless };
        if (span) ongoing.read(span);
        return { ...this.hmm.guessed(ongoing.guess()), hopeless };
      },
      hear: async (samples) => {
        if (letGo()) {
          this.last = null;
          return nothing(UNLIKE_ANYTHING, performance.now());
        }
        const sound = ongoing.all(samples);
        return goesOn() ? this.hear(ongoing, sound, performance.now(), early) : this.recognise(sound);
      },
    };
  }

  private async hear(
    ongoing: Ongoing,
    sound: Float32Array,
    began: number,
    early: Early | null = null,
  ): Promise<Examination> {
    this.last = null;
    const fault = this.grammar
      ? faultOf(sound)
      : 'No grammar is set; the recogniser does not know what may be said.';
    if (fault !== null) return nothing(fault, began);
    const span = await ongoing.span(sound.length);
    // what is longer than any command is searched only where it may be one all the same
    if (span.to - span.from > LONG && isFar(await this.shortfall(ongoing.part(span))))
      return nothing(UNLIKE_ANYTHING, began);
    const known = early !== null && early.under === this.decoder && sameSpan(early.span, span);
    const { examination, heard } = known ? early : await this.examined(ongoing, span);
    this.last = heard;
    const total = performance.now() - began;
    return {
      ...examination,
      milliseconds: { ...(known ? NO_TIME : examination.milliseconds), total },
    };
  }

  /** What was said in this part of the sound, under the grammar that is set. */
  private async examined(ongoing: Ongoing, span: Span): Promise<Examined> {
    const began = performance.now();
    if (this.grammar === null) return { examination: nothing('', began), heard: null };
    const pcm = ongoing.part(span);
    const posteriors = await this.posteriors(pcm, this.decoder.floor);
    const networkDone = performance.now();
    const found = this.found(posteriors, this.grammar);
    const searchDone = performance.now();
    const read = (): Reading | null => ongoing.reading(span);
    const cleaner = ongoing.cleanerPart(span);
    const free = freePathOf(posteriors);
    const background = this.backgroundLogScore(posteriors);
    await this.hmm.ready();
    const heard: Heard = { posteriors, free, background, pcm, cleaner, read };
    const hearing = this.judged(heard, this.candidates(heard, found));
    const done = performance.now();
    const milliseconds = {
      network: networkDone - began,
      decoder: searchDone - networkDone,
      rejection: done - searchDone,
      total: done - began,
    };
    return { examination: { ...hearing, milliseconds }, heard };
  }

  openly(): OpenReading[] {
    const heard = this.last;
    const vocabulary = heard && heard.free.phones.length > 0 ? this.vocabulary() : null;
    if (!heard || !vocabulary) return [];
    const found = openSearch(heard.posteriors, vocabulary.model, vocabulary.tree, OPEN);
    const best = found[0]?.logScore ?? 0;
    const sum = found.reduce((total, f) => total + Math.exp(f.logScore - best), 0);
    return found.flatMap(({ words, logScore, languageLog }) => {
      const candidate = this.candidate(heard.posteriors, words);
      if (!candidate) return [];
      const share = Math.exp(logScore - best) / sum;
      return [
        {
          ...this.hypothesis(heard, candidate, share),
          usual: languageLog / words.length,
        },
      ];
    });
  }

  /** The beam holds nearly always; where it lost every sentence of what begins like one, a wide one looks again. */
  private found(posteriors: Posteriors, grammar: PhoneGraph): Found[] {
    const found = search(posteriors, grammar, this.decoder);
    if (found.length > 0 || isFar(this.behind(floored(posteriors, OUTLOOK_FLOOR), grammar))) return found;
    return search(posteriors, grammar, { ...this.decoder, beam: WIDER * this.decoder.beam });
  }

  private async posteriors(pcm: Float32Array, floor: number): Promise<Posteriors> {
    const { data, frames, frameMs } = await this.network.run(levelled(pcm));
    const tokens = this.network.tokens.count;
    const bias = new Float32Array(tokens);
    bias[0] = this.decoder.blankBias;
    return posteriorsOf(data, frames, tokens, frameMs, bias, floor);
  }

  private backgroundLogScore(posteriors: Posteriors): number | null {
    const settings = { width: 1, beam: BACKGROUND_BEAM, wordPenalty: BACKGROUND_WORD_PENALTY, sum: false };
    return search(posteriors, this.background(), settings)[0]?.logScore ?? null;
  }

  private async shortfall(pcm: Float32Array): Promise<Shortfall> {
    const posteriors = await this.posteriors(pcm, OUTLOOK_FLOOR);
    return this.grammar ? this.behind(posteriors, this.grammar) : { logScore: 0, frames: posteriors.frames };
  }

  private behind(posteriors: Posteriors, grammar: PhoneGraph): Shortfall {
    const best = beginning(posteriors, grammar, { ...this.decoder, width: 1, beam: OUTLOOK_BEAM });
    return { logScore: best - freePathOf(posteriors).total, frames: posteriors.frames };
  }

  async close(): Promise<void> {
    await this.network.close();
    this.hmm.close();
  }

  /** The network's sentences and the other recogniser's, in the order that the scores of both together give. */
  private candidates(heard: Heard, found: Found[]): Candidates {
    if (heard.free.phones.length === 0) return { list: [], reading: '' };
    const held = found.flatMap((f) => this.candidate(heard.posteriors, f.words) ?? []);
    const first = held[0];
    // where agreement would not save it the other recogniser need not be asked: most talk ends here
    const agreed = { list: held, reading: first?.words.join(' ') ?? '' };
    const cues = this.considered(heard, agreed)[0]?.cues;
    if (!cues || confidenceOf(cues, this.rejection) < LEAST_HOPE) return { list: held, reading: '' };
    const reading = heard.read()?.words ?? '';
    // agreed, or nothing read: nothing to weigh
    if (reading === '' || first?.words.join(' ') === reading) return { list: held, reading };
    const known = held.some((c) => c.words.join(' ') === reading);
    const also = known ? null : this.candidate(heard.posteriors, reading.split(' '));
    const all = also ? [...held, also] : held;
    const line = Math.max(...all.map((c) => c.logScore)) - NEARLY_AS_LIKELY;
    const near = all.filter((c) => c.logScore >= line);
    if (near.length < 2) return { list: all, reading };
    const weighed = near.map((c) => {
      const fit = this.hmm.fit(heard.cleaner, c.words)?.logScore ?? null;
      const logScore = fit === null ? Number.NEGATIVE_INFINITY : c.logScore + this.decoder.hmmWeight * fit;
      return { ...c, fit, logScore };
    });
    // the rest keeps its distance from the network's best
    const shift = Math.max(...weighed.map((c) => c.logScore)) - line - NEARLY_AS_LIKELY;
    const rest = all.filter((c) => c.logScore < line).map((c) => ({ ...c, logScore: c.logScore + shift }));
    return { list: [...weighed.sort((a, b) => b.logScore - a.logScore), ...rest], reading };
  }

  private candidate(posteriors: Posteriors, words: string[]): Candidate | null {
    const alignment = align(
      posteriors,
      words.map((word) => this.lexicon.pronounce(word)),
    );
    return alignment && { words, alignment, logScore: alignment.logScore, fit: null };
  }

  private judged(heard: Heard, candidates: Candidates): Omit<Examination, 'milliseconds'> {
    if (heard.free.phones.length === 0) return no('No speech was heard.');
    const [best, ...rest] = candidates.list;
    if (!best) return no('Nothing that may be said now fits what was heard.');
    const considered = this.considered(heard, candidates);
    const cues = considered[0]?.cues ?? null;
    const confidence = cues ? confidenceOf(cues, this.rejection) : 0;
    const accepted = confidence >= 0.5;
    const hypothesis = this.hypothesis(heard, best, confidence);
    const alternatives = rest.map((other) =>
      this.hypothesis(heard, other, confidence * Math.exp(Math.min(0, other.logScore - best.logScore))),
    );
    const why = accepted ? {} : { why: UNLIKE_ANYTHING };
    return { accepted, best: hypothesis, alternatives, cues, considered, ...why };
  }

  private considered(heard: Heard, { list, reading }: Candidates): Considered[] {
    const weighed = list.filter((c, i) => i === 0 || c.fit !== null);
    return weighed.map((c) => {
      const words = c.words.join(' ');
      const network = c.alignment.logScore;
      const cues = cuesOf({
        ...heard,
        alignment: c.alignment,
        logScore: network,
        backgroundLogScore: heard.background ?? network,
        agreed: words === reading,
      });
      return { words, network, fit: c.fit, cues };
    });
  }

  private hypothesis(heard: Heard, { words, alignment }: Candidate, confidence: number): Hypothesis {
    const { frames, frameMs } = heard.posteriors;
    return {
      words: words.join(' '),
      confidence,
      score: (alignment.logScore - heard.free.total) / Math.max(1, frames),
      wordTimes: wordScores(lossesOf(heard.posteriors, heard.free, alignment), alignment).map((w) => ({
        word: words[w.word] ?? '',
        startMs: Math.round(w.from * frameMs),
        endMs: Math.round((w.to + 1) * frameMs),
        confidence: wordConfidence(w.perPhone),
      })),
    };
  }
}

const no = (why: string): Omit<Examination, 'milliseconds'> => ({
  accepted: false,
  best: null,
  alternatives: [],
  cues: null,
  considered: [],
  why,
});

const NO_TIME = { network: 0, decoder: 0, rejection: 0 };

const nothing = (why: string, began: number): Examination => ({
  ...no(why),
  milliseconds: { ...NO_TIME, total: performance.now() - began },
});
