/**
 * Recordings of real people that our network has never met, from Debian packages: asterisk-core-sounds-en-g722 (one
 * speaker's prompts, Digium, CC BY-SA 3.0) and pocketsphinx-testdata (several speakers). The floors are what was
 * measured, less a clip or two; `npm run bench:voice` gives the whole picture beside another recogniser.
 */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { createRecogniser, type OpenRecogniser } from '../../src/speech/recogniser/index.js';
import { inNoise } from '../bench/voice/noise.js';
import {
  hasPrompts,
  hasSphinxData,
  promptAlphabet,
  promptNumbers,
  type RealSet,
  sphinxSets,
} from '../bench/voice/real.js';

/** two recognisers hear each clip; a busy machine takes over a second for it */
const PATIENCE_MS = 300_000;

let recogniser: OpenRecogniser;
beforeAll(async () => {
  recogniser = await createRecogniser();
});
afterAll(() => recogniser.close());

async function right(set: RealSet | undefined): Promise<{ right: number; of: number; missed: string[] }> {
  if (!set) throw new Error('The set is missing.');
  recogniser.setGrammar(set.grammar);
  const missed: string[] = [];
  for (const [i, { pcm, words }] of set.clips.entries()) {
    const { best } = await recogniser.recognise(inNoise(pcm, null, 8000 + i));
    if (best?.words !== words) missed.push(`${words} → ${best?.words}`);
  }
  return { right: set.clips.length - missed.length, of: set.clips.length, missed };
}

const first = (set: RealSet | undefined, n: number): RealSet | undefined =>
  set && { ...set, clips: set.clips.slice(0, n) };

if (!hasPrompts())
  console.log(
    'Not measured: apt-get install asterisk-core-sounds-en asterisk-core-sounds-en-g722 ffmpeg to hear real prompts.',
  );
describe.skipIf(!hasPrompts())('one speaker’s prompts', () => {
  test(
    'numbers with units',
    async () => {
      const score = await right(first(promptNumbers()[0], 40));
      expect(score.right, score.missed.join('; ')).toBeGreaterThanOrEqual(39);
    },
    PATIENCE_MS,
  );

  test(
    'three digits',
    async () => {
      const score = await right(first(promptNumbers()[1], 40));
      expect(score.right, score.missed.join('; ')).toBeGreaterThanOrEqual(38);
    },
    PATIENCE_MS,
  );

  test('the alphabet words', async () => {
    const score = await right(promptAlphabet());
    expect(score.of).toBe(26);
    expect(score.right, score.missed.join('; ')).toBeGreaterThanOrEqual(25);
  });
});

if (!hasSphinxData()) console.log('Not measured: apt-get install pocketsphinx-testdata to hear real people.');
describe.skipIf(!hasSphinxData())('pocketsphinx-testdata', () => {
  test('cards, a robot’s order and digits', async () => {
    const scores = [];
    for (const set of sphinxSets().slice(0, 3)) scores.push(await right(set));
    const total = scores.reduce((n, s) => n + s.right, 0);
    expect(scores.reduce((n, s) => n + s.of, 0)).toBe(7);
    expect(total, scores.flatMap((s) => s.missed).join('; ')).toBeGreaterThanOrEqual(6);
  });
});
