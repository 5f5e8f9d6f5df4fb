import { join, resolve } from 'node:path';
import type { WordGraph } from '../../../language/types.js';
import { type Acceptor, acceptorOf } from '../graph/acceptor.js';

/** The parts of npm's soundswallower 0.6 used here; what starts with _ is its C library, strings and sound by address. */
interface Sphinx {
  Decoder: new (config: Record<string, string | number | boolean>) => SphinxDecoder;
  HEAP32: Int32Array;
  _malloc(bytes: number): number;
  _free(address: number): void;
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
  initialize(): Promise<unknown>;
  start(): void;
  stop(): void;
  process_audio(pcm: Float32Array, noSearch?: boolean, fullUtterance?: boolean): number;
  get_text(): string;
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

/** How a word is said, in CMU phones with or without stress digits. */
export type Say = (word: string) => readonly string[];

/**
 * The library's settings, by its own names: the sound's rate in Hz, its spectral noise removal, and the most models kept in
 * one frame, which bounds what a big grammar costs.
 */
const SETTINGS = { samprate: 16_000, remove_noise: true, maxhmmpf: 1500, loglevel: 'FATAL' };

/** natural logarithm of the library's own base */
const LOG_BASE = Math.log(1.0001);
/** acoustic scores come shifted right by so many bits */
const SCORE_SHIFT = 10;

/**
 * Hidden Markov models with Gaussian mixtures, by npm's soundswallower: words under a grammar, and how well words fit. Two
 * decoders, since a big grammar takes long to open and single sentences must not push it out.
 */
export class SphinxModels {
  private grammar: Acceptor | null = null;
  private readonly grammars = new WeakMap<WordGraph, Acceptor>();

  private constructor(
    private readonly reader: OneDecoder,
    private readonly fitter: OneDecoder,
  ) {}

  /** @throws Error when the model is missing or damaged */
  static async load(modelDir: string, say: Say): Promise<SphinxModels> {
    const { default: createModule } = (await import('soundswallower')) as unknown as {
      default(): Promise<Sphinx>;
    };
    const module = await createModule();
    const dir = resolve(modelDir);
    const decoder = async (): Promise<OneDecoder> => {
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
      return new SphinxModels(await decoder(), await decoder());
    } catch (cause) {
      throw new Error(
        `The voice model in "${dir}" cannot be used (${cause instanceof Error ? cause.message : String(cause)}). Restore the models folder (git checkout models) or type instead of speaking.`,
        { cause },
      );
    }
  }

  setGrammar(graph: WordGraph): void {
    this.grammar = this.acceptor(graph);
  }

  /** Opens a grammar ahead, so that the first `read` under it need not wait for that. */
  prepare(graph: WordGraph): void {
    this.reader.open(this.acceptor(graph));
  }

  /** The best sentence under the grammar, or null when none fits. */
  read(pcm: Float32Array): Reading | null {
    if (!this.grammar) return null;
    this.reader.open(this.grammar);
    return this.reader.decode(pcm);
  }

  /** How well the sound fits one sentence; null when not at all. */
  fit(pcm: Float32Array, words: readonly string[]): Reading | null {
    const n = words.length;
    this.fitter.open({
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
    return this.fitter.decode(pcm);
  }

  close(): void {
    this.reader.close();
    this.fitter.close();
  }

  private acceptor(graph: WordGraph): Acceptor {
    const acceptor = this.grammars.get(graph) ?? acceptorOf(graph);
    this.grammars.set(graph, acceptor);
    return acceptor;
  }
}

class OneDecoder {
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
    const text = this.module._decoder_hyp(this.decoder.cdecoder, this.scoreAt);
    if (text === 0) return null;
    const score = this.module.HEAP32[this.scoreAt >> 2] as number;
    const words = this.decoder
      .get_text()
      .replace(/\(\d+\)/g, '')
      .trim();
    return words === '' ? null : { words, logScore: score * 2 ** SCORE_SHIFT * LOG_BASE };
  }

  open(grammar: Acceptor): void {
    if (grammar === this.opened) return;
    this.learn(grammar.words);
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
    this.opened = grammar;
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
