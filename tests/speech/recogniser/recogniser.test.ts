import { cpSync, mkdtempSync, rmSync, truncateSync, unlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { modelsDir } from '../../../src/speech/installed.js';
import { createRecogniser, type OpenRecogniser } from '../../../src/speech/recogniser/index.js';
import { normal, seeded } from '../../bench/voice/random.js';
import { sentences } from './support.js';

const modelDir = join(modelsDir(), 'tankside-acoustic');
const gauss = normal(seeded(8));
const noise = (seconds: number, level: number): Float32Array =>
  Float32Array.from({ length: seconds * 16_000 }, () => level * gauss());

let recogniser: OpenRecogniser;
beforeAll(async () => {
  recogniser = await createRecogniser();
  recogniser.setGrammar(sentences('pour the bleach', 'next step', 'yes', 'stop'));
});
afterAll(() => recogniser.close());

describe('what is no speech is never accepted', () => {
  test.each([
    ['empty', new Float32Array(0), /empty/],
    ['one sample', new Float32Array(1), /milliseconds/],
    ['all zero', new Float32Array(32_000), /silent/],
    ['not numbers', new Float32Array(32_000).fill(Number.NaN), /not numbers/],
    ['endless', noise(1, 0.1).map((_, i) => (i === 0 ? Number.POSITIVE_INFINITY : 0.1)), /not numbers/],
    ['too long', new Float32Array(31 * 16_000).fill(0.1), /31 seconds/],
  ])('%s', async (_, pcm, why) => {
    const hearing = await recogniser.recognise(pcm);
    expect(hearing.accepted).toBe(false);
    expect(hearing.best).toBeNull();
    expect(hearing.why).toMatch(why);
  });

  test('noise, a hum and a click, loud or soft', async () => {
    const hum = Float32Array.from(
      { length: 32_000 },
      (_, i) => 0.3 * Math.sin((2 * Math.PI * 50 * i) / 16_000),
    );
    const click = new Float32Array(16_000);
    click[8000] = 1;
    for (const pcm of [noise(2, 0.2), noise(2, 0.0005), hum, click, new Float32Array(16_000).fill(0.5)]) {
      const hearing = await recogniser.recognise(pcm);
      expect(hearing.accepted).toBe(false);
      expect(hearing.why).toBeTruthy();
    }
  });
});

test('without a grammar it says so', async () => {
  const bare = await createRecogniser();
  expect((await bare.recognise(noise(1, 0.1))).why).toMatch(/No grammar/);
  expect(() => bare.setGrammar(sentences('pour 3 litres'))).toThrow(/"3" cannot be spoken/);
  await bare.close();
});

describe('a model that is not whole', () => {
  let dir: string;
  beforeAll(() => {
    dir = mkdtempSync(join(tmpdir(), 'model-'));
  });
  afterAll(() => rmSync(dir, { recursive: true }));
  const copy = (name: string): string => {
    cpSync(modelDir, join(dir, name), { recursive: true });
    return join(dir, name);
  };

  test('missing', async () => {
    await expect(createRecogniser({ modelDir: join(dir, 'none') })).rejects.toThrow(
      /incomplete: config.json/,
    );
    const part = copy('part');
    unlinkSync(join(part, 'onnx', 'model.onnx'));
    await expect(createRecogniser({ modelDir: part })).rejects.toThrow(/model.onnx not found. Restore/);
  });

  test('cut short', async () => {
    const cut = copy('cut');
    truncateSync(join(cut, 'onnx', 'model.onnx'), 100_000);
    await expect(createRecogniser({ modelDir: cut })).rejects.toThrow(
      /cannot be used \(model.onnx, 100000 bytes\)/,
    );
  });

  test('token list or settings damaged', async () => {
    const odd = copy('odd');
    writeFileSync(join(odd, 'phones.json'), '{"a":1}');
    await expect(createRecogniser({ modelDir: odd })).rejects.toThrow(/phones.json" is damaged/);
    const set = copy('set');
    writeFileSync(join(set, 'decoder.json'), '{"beam":-1}');
    await expect(createRecogniser({ modelDir: set })).rejects.toThrow(/decoder.json" are damaged/);
  });
});
