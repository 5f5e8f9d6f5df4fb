import { existsSync } from 'node:fs';
import { join, resolve } from 'node:path';
import type { WordGraph } from '../../language/types.js';
import type { Problem } from '../wav.js';
import { GrammarConstraint, type TokenTable } from './constraint.js';
import { changedFile, firstLine } from './fetch.js';

/** Free text or, under a grammar, a sentence of it. */
export interface Opinion {
  words: string;
  /** how sure the model was of its words before any grammar was laid on them: 0 to 1, mean over tokens */
  confidence: number;
}

export interface SecondOpinion {
  /** mono 16 kHz, at most 30 s; with a grammar the words are one of its sentences */
  listen(pcm: Float32Array, grammar?: WordGraph): Promise<Opinion | Problem>;
}

const MOST_TOKENS = 96;

/** The parts of @xenova/transformers 2.17 used here, whose own types leave them open. */
interface Loaded {
  processor(pcm: Float32Array): Promise<{ input_features: object }>;
  tokenizer: Tokenizer;
  model: { generate(features: object, settings: object, processors: object): Promise<number[][]> };
  ProcessorList: new () => { push(processor: object): void };
}
interface Tokenizer {
  model: { vocab: readonly string[]; tokens_to_ids: Map<string, number> };
  decode(ids: number[], options: { skip_special_tokens: boolean }): string;
}
interface LogitsTensor {
  data: Float32Array;
}

/** Loads a Whisper model from a folder that holds what the hub holds of it. Nothing is fetched. */
export async function loadWhisper(folder: string): Promise<SecondOpinion | Problem> {
  if (!existsSync(join(folder, 'config.json'))) {
    return { problem: `There is no model in ${folder}. Fetch one with: tankside fetch-model` };
  }
  const changed = await changedFile(folder);
  if (changed !== null) {
    return {
      problem: `The model in ${folder} is damaged (${changed}). Fetch it again: tankside fetch-model`,
    };
  }
  try {
    return new Whisper(await load(resolve(folder)));
  } catch (error) {
    return { problem: `The model in ${folder} does not load (${firstLine(error)}). Fetch it again.` };
  }
}

async function load(folder: string): Promise<Loaded> {
  const transformers = await import('@xenova/transformers');
  const { env, AutoProcessor, AutoTokenizer, WhisperForConditionalGeneration } = transformers;
  const before = { remote: env.allowRemoteModels, local: env.allowLocalModels, path: env.localModelPath };
  env.allowRemoteModels = false;
  env.allowLocalModels = true;
  env.localModelPath = '/';
  try {
    const quantized = existsSync(join(folder, 'onnx', 'encoder_model_quantized.onnx'));
    const settings = { quantized, local_files_only: true };
    const processor = await AutoProcessor.from_pretrained(folder, settings);
    const tokenizer = await AutoTokenizer.from_pretrained(folder, settings);
    const model = await WhisperForConditionalGeneration.from_pretrained(folder, settings);
    const generation = await import('@xenova/transformers/src/utils/generation.js' as string);
    return {
      processor,
      tokenizer,
      model,
      ProcessorList: generation.LogitsProcessorList,
    } as unknown as Loaded;
  } finally {
    env.allowRemoteModels = before.remote;
    env.allowLocalModels = before.local;
    env.localModelPath = before.path;
  }
}

class Whisper implements SecondOpinion {
  private readonly table: TokenTable;
  private readonly beginning: number[];

  constructor(private readonly loaded: Loaded) {
    const { vocab, tokens_to_ids: ids } = loaded.tokenizer.model;
    const id = (token: string) => ids.get(token);
    const wanted = ['<|startoftranscript|>', '<|en|>', '<|transcribe|>', '<|notimestamps|>'];
    // English-only models know no languages and no tasks: what they lack is left out
    const english = id('<|de|>') === undefined;
    const begin = english ? [wanted[0], wanted[3]] : wanted;
    this.beginning = begin.flatMap((token) => id(token ?? '') ?? []);
    this.table = { texts: vocab.map(tokenText), endId: id('<|endoftext|>') ?? 0 };
  }

  async listen(pcm: Float32Array, grammar?: WordGraph): Promise<Opinion | Problem> {
    try {
      const { input_features } = await this.loaded.processor(pcm);
      const constraint = grammar ? new GrammarConstraint(grammar, this.table) : null;
      const logProbabilities: number[] = [];
      const processors = new this.loaded.ProcessorList();
      processors.push((ids: number[], logits: LogitsTensor) => {
        const before = Float32Array.from(logits.data);
        constraint?.mask(ids.slice(this.beginning.length), logits.data);
        logProbabilities.push(logProbability(before, argMax(logits.data)));
        return logits;
      });
      const settings = {
        decoder_input_ids: this.beginning,
        forced_decoder_ids: null,
        max_new_tokens: MOST_TOKENS,
        num_beams: 1,
      };
      const [ids = []] = await this.loaded.model.generate(input_features, settings, processors);
      const spoken = ids.slice(this.beginning.length).map(Number);
      if (constraint && !constraint.isSentence(spoken.filter((id) => this.table.texts[id]))) {
        return { problem: 'The second opinion came to no command. The first stands.' };
      }
      const words = constraint
        ? constraint.words(spoken)
        : this.loaded.tokenizer.decode(spoken, { skip_special_tokens: true }).trim();
      return { words, confidence: Math.exp(mean(logProbabilities)) };
    } catch (error) {
      return { problem: `The second opinion failed (${firstLine(error)}). The first stands.` };
    }
  }
}

/** Byte-level vocabularies write a space as Ġ; a token of other than plain letters has no place in a command. */
function tokenText(token: string | undefined): string | null {
  const text = (token ?? '').replaceAll('Ġ', ' ');
  return /^[ a-zA-Z'-]+$/.test(text) ? text : null;
}

function argMax(values: Float32Array): number {
  return values.reduce((best, v, i) => (v > (values[best] ?? Number.NEGATIVE_INFINITY) ? i : best), 0);
}

function logProbability(logits: Float32Array, id: number): number {
  const most = logits.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
  const sum = logits.reduce((total, v) => total + Math.exp(v - most), 0);
  return (logits[id] ?? Number.NEGATIVE_INFINITY) - most - Math.log(sum);
}

function mean(values: readonly number[]): number {
  return values.length ? values.reduce((a, b) => a + b, 0) / values.length : Number.NEGATIVE_INFINITY;
}
