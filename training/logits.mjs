// Runs a network with the project's own runtime (onnxruntime-node, two threads):
//   node logits.mjs MODEL.onnx SOUND.f32 LENGTHS.json OUT.f32
// SOUND holds the clips end to end; OUT gets their scores end to end. Prints {frames, tokens, ms} as JSON.
import { readFileSync, writeFileSync } from 'node:fs';
import ort from 'onnxruntime-node';

const [model, soundPath, lengthsPath, outPath] = process.argv.slice(2);
const lengths = JSON.parse(readFileSync(lengthsPath, 'utf8'));
const bytes = readFileSync(soundPath);
const sound = new Float32Array(bytes.buffer, bytes.byteOffset, bytes.byteLength / 4);
const session = await ort.InferenceSession.create(model, { intraOpNumThreads: 2, interOpNumThreads: 1 });
const frames = [];
const parts = [];
const ms = [];
let offset = 0;
let tokens = 0;
for (const length of lengths) {
  const clip = Float32Array.from(sound.subarray(offset, offset + length));
  offset += length;
  const begin = performance.now();
  const { logits } = await session.run({ input_values: new ort.Tensor('float32', clip, [1, length]) });
  ms.push(performance.now() - begin);
  frames.push(logits.dims[1]);
  tokens = logits.dims[2];
  parts.push(Buffer.from(logits.data.buffer, logits.data.byteOffset, logits.data.byteLength));
}
writeFileSync(outPath, Buffer.concat(parts));
process.stdout.write(JSON.stringify({ frames, tokens, ms }));
