import { mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { onnx } from 'onnx-proto';
import { noiseSource } from '../ears/sounds.js';

/**
 * Writes a Whisper-shaped model of a few kilobytes: the files, inputs and outputs of the real ones, one attention over
 * the sound, random weights. What it hears means nothing; how it is loaded and held to a grammar is the same.
 */
const MELS = 8;
const WIDTH = 6;
const SPECIALS = ['<|endoftext|>', '<|startoftranscript|>', '<|notimestamps|>'];
const LETTERS = [...'abcdefghijklmnopqrstuvwxyz', 'Ġ', 'D', '.', '!'];
const MERGES: [string, string][] = [
  ['s', 't'],
  ['o', 'p'],
  ['st', 'op'],
  ['Ġ', 'stop'],
  ['Ġ', 'd'],
  ['Ġ', 'D'],
  ['i', 'n'],
  ['n', 'e'],
  ['Ġ', 'ne'],
];
export const VOCABULARY = [...SPECIALS, ...LETTERS, ...MERGES.map(([a, b]) => a + b)];

export async function writeTinyWhisper(folder: string, seed = 3): Promise<void> {
  await mkdir(join(folder, 'onnx'), { recursive: true });
  const json = (name: string, value: object) => writeFile(join(folder, name), JSON.stringify(value));
  const next = noiseSource(seed);
  await json('config.json', {
    model_type: 'whisper',
    is_encoder_decoder: true,
    architectures: ['WhisperForConditionalGeneration'],
    vocab_size: VOCABULARY.length,
    num_mel_bins: MELS,
    d_model: WIDTH,
    encoder_layers: 1,
    decoder_layers: 1,
    encoder_attention_heads: 1,
    decoder_attention_heads: 1,
    decoder_start_token_id: 1,
    eos_token_id: 0,
  });
  await json('generation_config.json', { decoder_start_token_id: 1, eos_token_id: 0, max_length: 128 });
  await json('preprocessor_config.json', {
    feature_extractor_type: 'WhisperFeatureExtractor',
    processor_class: 'WhisperProcessor',
    feature_size: MELS,
    sampling_rate: 16000,
    n_fft: 400,
    hop_length: 160,
    n_samples: 16000,
    nb_max_frames: 100,
    chunk_length: 1,
  });
  await json('tokenizer_config.json', { tokenizer_class: 'WhisperTokenizer' });
  await json('tokenizer.json', {
    version: '1.0',
    added_tokens: SPECIALS.map((content, id) => ({ id, content, special: true })),
    normalizer: null,
    pre_tokenizer: { type: 'ByteLevel', add_prefix_space: false, trim_offsets: true, use_regex: true },
    post_processor: null,
    decoder: { type: 'ByteLevel' },
    model: {
      type: 'BPE',
      vocab: Object.fromEntries(VOCABULARY.map((token, id) => [token, id])),
      merges: MERGES.map((pair) => pair.join(' ')),
      unk_token: '<|endoftext|>',
    },
  });
  await writeFile(join(folder, 'onnx', 'encoder_model.onnx'), encoder(next));
  await writeFile(join(folder, 'onnx', 'decoder_model_merged.onnx'), decoder(next));
}

type Attribute = { name: string; ints?: number[]; i?: number };
const FLOAT = onnx.TensorProto.DataType.FLOAT;
const INT64 = onnx.TensorProto.DataType.INT64;
const BOOL = onnx.TensorProto.DataType.BOOL;

function node(opType: string, input: string[], output: string, attributes: Attribute[] = []) {
  const { INT, INTS } = onnx.AttributeProto.AttributeType;
  const attribute = attributes.map((a) => ({ ...a, type: a.ints ? INTS : INT }));
  return { opType, input, output: [output], attribute };
}

function weights(name: string, dims: number[], next: () => number, scale: number) {
  const floatData = Array.from({ length: dims.reduce((a, b) => a * b, 1) }, () => next() * scale);
  return { name, dims, dataType: FLOAT, floatData };
}

function value(name: string, elemType: number, dims: (string | number)[]) {
  const dim = dims.map((d) => (typeof d === 'string' ? { dimParam: d } : { dimValue: d }));
  return { name, type: { tensorType: { elemType, shape: { dim } } } };
}

function model(graph: object): Uint8Array {
  const message = { irVersion: 8, opsetImport: [{ domain: '', version: 13 }], graph };
  return onnx.ModelProto.encode(onnx.ModelProto.fromObject(message)).finish();
}

function encoder(next: () => number): Uint8Array {
  return model({
    name: 'encoder',
    input: [value('input_features', FLOAT, [1, MELS, 'frames'])],
    output: [value('last_hidden_state', FLOAT, [1, 'frames', WIDTH])],
    initializer: [weights('w', [MELS, WIDTH], next, 2)],
    node: [
      node('Transpose', ['input_features'], 'rows', [{ name: 'perm', ints: [0, 2, 1] }]),
      node('MatMul', ['rows', 'w'], 'last_hidden_state'),
    ],
  });
}

function decoder(next: () => number): Uint8Array {
  const caches = ['decoder.key', 'decoder.value', 'encoder.key', 'encoder.value'].map((c) => `0.${c}`);
  const vocabulary = VOCABULARY.length;
  return model({
    name: 'decoder',
    input: [
      value('input_ids', INT64, [1, 'tokens']),
      value('encoder_hidden_states', FLOAT, [1, 'frames', WIDTH]),
      value('use_cache_branch', BOOL, [1]),
      ...caches.map((c) => value(`past_key_values.${c}`, FLOAT, [1, 1, `past ${c}`, WIDTH])),
    ],
    output: [
      value('logits', FLOAT, [1, 'tokens', vocabulary]),
      ...caches.map((c) => value(`present.${c}`, FLOAT, [1, 1, `present ${c}`, WIDTH])),
    ],
    initializer: [
      weights('embedding', [vocabulary, WIDTH], next, 1),
      weights('out', [WIDTH, vocabulary], next, 1),
    ],
    node: [
      node('Gather', ['embedding', 'input_ids'], 'embedded'),
      node('Transpose', ['encoder_hidden_states'], 'keys', [{ name: 'perm', ints: [0, 2, 1] }]),
      node('MatMul', ['embedded', 'keys'], 'scores'),
      node('Softmax', ['scores'], 'attention', [{ name: 'axis', i: -1 }]),
      node('MatMul', ['attention', 'encoder_hidden_states'], 'heard'),
      node('Add', ['embedded', 'heard'], 'hidden'),
      node('MatMul', ['hidden', 'out'], 'logits'),
      ...caches.map((c) => node('Identity', [`past_key_values.${c}`], `present.${c}`)),
    ],
  });
}
