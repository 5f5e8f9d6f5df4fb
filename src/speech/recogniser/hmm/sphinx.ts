import { join, resolve } from 'node:path';
import type { WordGraph } from '../../../language/types.js';
import { type Acceptor, acceptorOf, walked } from '../graph/acceptor.js';

/** The parts of npm's soundswallower 0.6 used here; what starts with _ is its C library, strings and sound by address. */
interface Sphinx {
  Decoder: new (config: Record<string, string | number | boolean>) => SphinxDecoder;
  HEAP32: Int32Array;
  _malloc(bytes: number): number;
  _free(address: number): void;
  _acmod_reinit_feat(acoustics: number, frontEnd: number, features: number): number;
  _decoder_init_fe(decoder: number): number;
  _decoder_init_feat_s3file(decoder: number, transform: number): number;
  _decoder_logmath(decoder: number): number;
  _decoder_hyp(decoder: number, score: number): number;
  _decoder_set_fsg(decoder: number, fsg: number): number;
  _fsg_model_init(name: number, logmath: number, languageWeight: number, states: number): number;
  _fsg_model_word_add(fsg: number, word: number): number;
  _fsg_model_trans_add(fsg: number, from: number, to: number, logp: number, word: number): void;
  _fsg_model_null_trans_add(fsg: number, from: number, to: number, logp: number): number;
  _fsg_set_states(fsg: number, start: number, final: number): void;
}
interface SphinxDecoder {
  readonly cdecoder: number;
  readonly cacmod: number;
  initialize(): Promise<unknown>;
  start(): void;
  stop(): void;
  process_audio(pcm: Float32Array, noSearch?: boolean, fullUtterance?: boolean): number;
  get_text(): string;
  set_config(key: string, value: string | number): boolean;
  /** log mel energies, frame after frame */
  spectrogram(pcm: Float32Array): { data: Float32Array; nfr: number; nfeat: number };
  lookup_word(word: string): string | null;
  add_words(...words: [string, string][]): void;
  delete(): void;
}

/** One reading by the hidden Markov models. */
export interface Reading {
  words: string;
  /** natural log; of the sound under these words, silence between them included */
  logScore: number;
}

/** Reads sound while it comes. How it is cut into pieces makes no difference. */
export interface Reader {
  /** whether nothing else was read since it began: only then it may be asked */
  readonly current: boolean;
  /** samples taken so far */
  readonly length: number;
  push(pcm: Float32Array): void;
  /** the words so far, which may be half a sentence; '' for none yet */
  guess(): string;
  /** the best whole sentence; nothing may follow */
  end(): Reading | null;
}

/** How a word is said, in CMU phones with or without stress digits. */
export type Say = (word: string) => readonly string[];

/**
 * The library's settings, by its own names: the sound's rate in Hz, its spectral noise removal, and the most models kept in
 * one frame, which bounds what a big grammar costs.
 */
const SETTINGS = { samprate: 16_000, remove_noise: true, maxhmmpf: 1500, loglevel: 'FATAL' };

/**
 * What a microphone and a room add to every cepstrum is taken for the mean of this much of the beginning, samples: the rest
 * need not have been said yet. Of 104 strangers' commands these models alone read 98 so and 99 with the mean of all of it.
 */
const MEAN_OF = 10_240;
/** the library follows slow changes of the mean from block to block: with blocks of one size, samples, always alike */
const BLOCK = 512;
/** of the model's features (feat_params.json) */
const CEPSTRA = 13;
const LIFTER = 22;

/** natural logarithm of the library's own base */
const LOG_BASE = Math.log(1.0001);
/** acoustic scores come shifted right by so many bits */
const SCORE_SHIFT = 10;

/** After so long without sound the fitter is let go with its 12 MB, ms; it is there again in a twentieth of a second. */
const FITTER_IDLE_MS = 60_000;

/**
 * Hidden Markov models with Gaussian mixtures, by npm's soundswallower: words under a grammar, and how well words fit. Two
 * decoders, since a big grammar takes long to open and single sentences must not push it out.
 */
export class SphinxModels {
  private grammar: Acceptor | null = null;
  private fitter: OneDecoder | null = null;
  private coming: Promise<OneDecoder> | null = null;
  private idle: NodeJS.Timeout | undefined;

  private constructor(
    private readonly reader: OneDecoder,
    private readonly another: () => Promise<OneDecoder>,
  ) {}

  /** @throws Error when the model is missing or damaged */
  static async load(modelDir: string, say: Say): Promise<SphinxModels> {
    const { default: createModule } = (await import('soundswallower')) as unknown as {
      default(): Promise<Sphinx>;
    };
    const dir = resolve(modelDir);
    /** memory of one module's own is given back with it */
    const decoder = async (): Promise<OneDecoder> => {
      const module = await createModule();
      const made = new module.Decoder({
        hmm: dir,
        // words are added as grammars need them; the whole dictionary would take a hundred megabytes
        dict: join(dir, 'none'),
        ...SETTINGS,
      });
      await made.initialize();
      return new OneDecoder(module, made, say);
    };
    try {
      return new SphinxModels(await decoder(), decoder);
    } catch (cause) {
      throw new Error(
        `The voice model in "${dir}" cannot be used (${cause instanceof Error ? cause.message : String(cause)}). Restore the models folder (git checkout models) or type instead of speaking.`,
        { cause },
      );
    }
  }

  /** Loads what `fit` needs, where it was not or was let go. */
  async ready(): Promise<void> {
    clearTimeout(this.idle);
    this.coming ??= this.another();
    try {
      this.fitter = await this.coming;
    } catch (error) {
      this.coming = null;
      throw error;
    }
    clearTimeout(this.idle);
    this.idle = setTimeout(() => {
      this.fitter?.close();
      this.fitter = null;
      this.coming = null;
      globalThis.gc?.();
    }, FITTER_IDLE_MS);
    this.idle.unref();
  }

  setGrammar(graph: WordGraph): void {
    this.grammar = acceptorOf(graph);
  }

  /** Opens a grammar ahead, so that the first `read` under it need not wait for that. */
  prepare(graph: WordGraph): void {
    this.reader.open(acceptorOf(graph));
  }

  /** The best sentence under the grammar, or null when none fits. */
  read(pcm: Float32Array): Reading | null {
    const reading = this.begin();
    reading?.push(pcm);
    return reading?.end() ?? null;
  }

  /**
   * Begins to read sound that is still coming, under the grammar that is set; null without one. What was begun before can
   * no longer be read.
   */
  begin(): Reader | null {
    if (!this.grammar) return null;
    this.reader.open(this.grammar);
    return this.reader.begin();
  }

  /** What these words, which may be half a sentence, are under the grammar that is set. */
  guessed(words: string): { words: string; whole: boolean; mayGoOn: boolean } {
    const after = words === '' || !this.grammar ? null : walked(this.grammar, words.split(' '));
    return { words, whole: after?.whole ?? false, mayGoOn: after?.mayGoOn ?? true };
  }

  /** How well the sound fits one sentence; null when not at all. @throws Error before `ready` */
  fit(pcm: Float32Array, words: readonly string[]): Reading | null {
    const { fitter } = this;
    if (!fitter) throw new Error('The hidden Markov models were asked before they were ready.');
    const n = words.length;
    fitter.open({
      nodeCount: n + 1,
      start: 0,
      words,
      arcStart: Int32Array.from({ length: n + 2 }, (_, i) => Math.min(i, n)),
      arcWord: Int32Array.from(words.keys()),
      arcTo: Int32Array.from(words, (_, i) => i + 1),
      arcLogWeight: new Float64Array(n),
      finalLogWeight: Float64Array.from({ length: n + 1 }, (_, i) =>
        i === n ? 0 : Number.NEGATIVE_INFINITY,
      ),
    });
    return fitter.decode(pcm);
  }

  close(): void {
    clearTimeout(this.idle);
    this.reader.close();
    this.fitter?.close();
  }
}

class LiveReader implements Reader {
  length = 0;
  private state: 'waiting' | 'started' | 'over' = 'waiting';
  /** what is not read yet: the beginning, then less than a block */
  private readonly held = new Float32Array(MEAN_OF);
  private heldLength = 0;

  constructor(private readonly decoder: OneDecoder) {}

  get current(): boolean {
    return this.state !== 'over';
  }

  push(pcm: Float32Array): void {
    if (this.state === 'over') return;
    this.length += pcm.length;
    for (let from = 0; from < pcm.length; ) {
      const wanted = this.state === 'waiting' ? MEAN_OF : BLOCK;
      const piece = pcm.subarray(from, from + wanted - this.heldLength);
      this.held.set(piece, this.heldLength);
      this.heldLength += piece.length;
      from += piece.length;
      if (this.heldLength === wanted) this.flush();
    }
  }

  guess(): string {
    return this.state === 'started' ? this.decoder.text() : '';
  }

  end(): Reading | null {
    if (this.state === 'over') return null;
    this.flush();
    this.state = 'over';
    return this.decoder.stop();
  }

  private flush(): void {
    const sound = this.held.slice(0, this.heldLength);
    this.heldLength = 0;
    if (this.state === 'waiting') this.decoder.start(sound);
    this.state = 'started';
    for (let at = 0; at < sound.length; at += BLOCK) this.decoder.take(sound.slice(at, at + BLOCK));
  }
}

/** The mean of an utterance's cepstra, as the library's setting wants it: a cosine transform of the mean of the log energies. */
function cepstralMean({ data, nfr, nfeat }: { data: Float32Array; nfr: number; nfeat: number }): string {
  const mean = new Float64Array(nfeat);
  for (let i = 0; i < nfr * nfeat; i++)
    mean[i % nfeat] = (mean[i % nfeat] as number) + (data[i] as number) / nfr;
  return Array.from({ length: CEPSTRA }, (_, k) => {
    const sum = mean.reduce((s, v, j) => s + v * Math.cos((Math.PI * k * (j + 0.5)) / nfeat), 0);
    const lift = k === 0 ? 1 : 1 + (LIFTER / 2) * Math.sin((k * Math.PI) / LIFTER);
    return (sum * Math.sqrt((k === 0 ? 1 : 2) / nfeat) * lift).toFixed(4);
  }).join(',');
}

/** A grammar without words. */
const NOTHING: Acceptor = {
  nodeCount: 1,
  start: 0,
  words: [],
  arcStart: Int32Array.of(0, 0),
  arcWord: new Int32Array(),
  arcTo: new Int32Array(),
  arcLogWeight: new Float64Array(),
  finalLogWeight: Float64Array.of(0),
};
const SMALL_NODES = 100;

class OneDecoder {
  private live: LiveReader | null = null;
  private opened: Acceptor | null = null;
  private readonly known = new Set<string>();
  private readonly scoreAt: number;

  constructor(
    private readonly module: Sphinx,
    private readonly decoder: SphinxDecoder,
    private readonly say: Say,
  ) {
    this.scoreAt = module._malloc(4);
  }

  close(): void {
    this.decoder.delete();
  }

  decode(pcm: Float32Array): Reading | null {
    this.decoder.start();
    this.decoder.process_audio(pcm, false, true);
    this.decoder.stop();
    return this.reading();
  }

  begin(): Reader {
    this.live?.end();
    this.live = new LiveReader(this);
    return this.live;
  }

  /** Starts an utterance whose cepstra have the mean of this sound. */
  start(sound: Float32Array): void {
    const { decoder } = this;
    // the mean is taken by the same front end, which keeps the noise of what it heard before
    this.renewFeatures('');
    this.renewFeatures(cepstralMean(decoder.spectrogram(sound)));
    decoder.start();
  }

  take(pcm: Float32Array): void {
    if (pcm.length > 0) this.decoder.process_audio(pcm, false, false);
  }

  text(): string {
    return this.decoder
      .get_text()
      .replace(/\(\d+\)/g, '')
      .trim();
  }

  stop(): Reading | null {
    this.decoder.stop();
    return this.reading();
  }

  private renewFeatures(mean: string): void {
    const { module, decoder } = this;
    decoder.set_config('cmn', 'live');
    if (mean !== '') decoder.set_config('cmninit', mean);
    const frontEnd = module._decoder_init_fe(decoder.cdecoder);
    const features = module._decoder_init_feat_s3file(decoder.cdecoder, 0);
    if (module._acmod_reinit_feat(decoder.cacmod, frontEnd, features) < 0)
      throw new Error('The hidden Markov models cannot take sound.');
  }

  private reading(): Reading | null {
    const text = this.module._decoder_hyp(this.decoder.cdecoder, this.scoreAt);
    if (text === 0) return null;
    const score = this.module.HEAP32[this.scoreAt >> 2] as number;
    const words = this.text();
    return words === '' ? null : { words, logScore: score * 2 ** SCORE_SHIFT * LOG_BASE };
  }

  open(grammar: Acceptor): void {
    if (grammar === this.opened) return;
    this.live?.end();
    // a grammar takes some 30 MB, and what the library once took it keeps: the old one goes before the new one comes
    if (this.opened && this.opened.nodeCount > SMALL_NODES) this.set(NOTHING);
    this.learn(grammar.words);
    this.set(grammar);
    this.opened = grammar;
  }

  private set(grammar: Acceptor): void {
    const { module } = this;
    const fsg = this.withText('grammar', (name) =>
      module._fsg_model_init(name, module._decoder_logmath(this.decoder.cdecoder), 1, grammar.nodeCount + 1),
    );
    const ids = grammar.words.map((word) => this.withText(word, (at) => module._fsg_model_word_add(fsg, at)));
    const logp = (natural: number): number => Math.round(natural / LOG_BASE);
    for (let node = 0; node < grammar.nodeCount; node++) {
      for (let a = grammar.arcStart[node] as number; a < (grammar.arcStart[node + 1] as number); a++)
        module._fsg_model_trans_add(
          fsg,
          node,
          grammar.arcTo[a] as number,
          logp(grammar.arcLogWeight[a] as number),
          ids[grammar.arcWord[a] as number] as number,
        );
      const final = grammar.finalLogWeight[node] as number;
      if (final > Number.NEGATIVE_INFINITY)
        module._fsg_model_null_trans_add(fsg, node, grammar.nodeCount, logp(final));
    }
    module._fsg_set_states(fsg, grammar.start, grammar.nodeCount);
    if (module._decoder_set_fsg(this.decoder.cdecoder, fsg) < 0)
      throw new Error('The second recogniser cannot use this grammar.');
  }

  private learn(words: readonly string[]): void {
    const fresh = [...new Set(words)].filter((word) => !this.known.has(word));
    for (const word of fresh) this.known.add(word);
    const entries = fresh.flatMap((word) =>
      plainPhones(this.say(word)).map((phones, i): [string, string] => [
        i === 0 ? word : `${word}(${i + 1})`,
        phones,
      ]),
    );
    if (entries.length > 0) this.decoder.add_words(...entries);
  }

  private withText<T>(text: string, use: (address: number) => T): T {
    const bytes = new TextEncoder().encode(`${text}\0`);
    const at = this.module._malloc(bytes.length);
    new Uint8Array(this.module.HEAP32.buffer).set(bytes, at);
    try {
      return use(at);
    } finally {
      this.module._free(at);
    }
  }
}

const plainPhones = (said: readonly string[]): string[] => [
  ...new Set(said.map((p) => p.replace(/\d/g, ''))),
];
