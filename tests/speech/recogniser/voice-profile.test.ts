import { afterAll, beforeAll, expect, test } from 'vitest';
import { createRecogniser, type OpenRecogniser } from '../../../src/speech/recogniser/index.js';
import { readVoiceProfile, warped } from '../../../src/speech/recogniser/voice/profile.js';
import { normal, seeded } from '../../bench/voice/random.js';
import { sentences } from './support.js';

let recogniser: OpenRecogniser;
beforeAll(async () => {
  recogniser = await createRecogniser();
  recogniser.setGrammar(sentences('next step', 'stop'));
});
afterAll(() => recogniser.close());

test('a profile goes through JSON, applies, and is forgotten on request', async () => {
  const gauss = normal(seeded(3));
  const pcm = Float32Array.from({ length: 24_000 }, () => 0.1 * gauss());
  const profile = await recogniser.learnVoice([{ pcm, words: 'stop' }]);
  expect(profile.recordings).toBe(1);
  const before = await recogniser.recognise(pcm);
  const stored: unknown = JSON.parse(JSON.stringify({ ...profile, warp: 1.1 }));
  expect(recogniser.setVoice(stored)).toBeNull();
  expect((await recogniser.recognise(pcm)).cues).not.toEqual(before.cues);
  expect(recogniser.setVoice(null)).toBeNull();
  expect((await recogniser.recognise(pcm)).cues).toEqual(before.cues);
});

test('a damaged or foreign profile is named and not used', () => {
  expect(recogniser.setVoice({ version: 1 })).toMatch(/damaged/);
  const foreign = { version: 1, tokens: 7, warp: 1, bias: [0, 0, 0, 0, 0, 0, 0], recordings: 3 };
  expect(recogniser.setVoice(foreign)).toMatch(/another voice model/);
  expect(readVoiceProfile(foreign, 7)).toEqual(foreign);
  expect(recogniser.setVoice(null)).toBeNull();
});

test('a faster rate shortens and raises, rate 1 changes nothing', () => {
  const tone = Float32Array.from({ length: 16_000 }, (_, i) => Math.sin((2 * Math.PI * 200 * i) / 16_000));
  expect(warped(tone, 1)).toBe(tone);
  const fast = warped(tone, 1.25);
  expect(fast.length).toBe(12_800);
  const expected = fast.map((_, i) => Math.sin((2 * Math.PI * 250 * i) / 16_000));
  const worst = fast
    .slice(10, -10)
    .reduce((m, v, i) => Math.max(m, Math.abs(v - (expected[i + 10] as number))), 0);
  expect(worst).toBeLessThan(0.01);
});
