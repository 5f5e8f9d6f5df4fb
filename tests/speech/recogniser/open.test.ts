import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { BEGIN, countNgrams, Walk, type WordModel } from '../../../src/language/spoken/ngram.js';
import { sentencesGraph } from '../../../src/speech/ears/attention.js';
import { packageRoot } from '../../../src/speech/installed.js';
import { createRecogniser, type OpenRecogniser } from '../../../src/speech/recogniser/index.js';
import { isProblem, readWav } from '../../../src/speech/wav.js';

describe('which words are said after which', () => {
  const classes = 9;
  const sentences = [
    [2, 3, 4],
    [2, 3, 5],
    [2, 3, 4, 6],
    [7, 3, 4],
    [8, 6],
  ];
  const counted = countNgrams(sentences, classes);
  const model: WordModel = {
    ...counted,
    entries: [],
    classOf: new Uint16Array(0),
    withinLog: new Float32Array(0),
  };
  const walk = new Walk(model);
  const behind = (...said: number[]): number => {
    let state = walk.start;
    for (const c of said) {
      walk.take(state, c);
      state = walk.after;
    }
    return state;
  };
  const share = (state: number, next: number): number => {
    walk.take(state, next);
    return Math.exp(walk.logProb);
  };

  it.each([[[]], [[2]], [[2, 3]], [[7, 3]], [[3, 8]], [[6, 6]]])('sums to one after %j', (said) => {
    const state = behind(...said);
    const sum = Array.from({ length: classes }, (_, c) => share(state, c)).reduce((a, b) => a + b, 0);
    // each is kept in steps of a sixteenth, natural log
    expect(sum).toBeGreaterThan(0.95);
    expect(sum).toBeLessThan(1.05);
  });

  it('takes what was seen for likelier, by two words before by one', () => {
    expect(share(behind(2, 3), 4)).toBeGreaterThan(share(behind(2, 3), 5));
    expect(share(behind(7, 3), 4)).toBeGreaterThan(share(behind(7, 3), 5));
    expect(share(behind(2), 3)).toBeGreaterThan(share(behind(2), 6));
    expect(share(walk.start, 2)).toBeGreaterThan(share(walk.start, BEGIN));
  });
});

describe('what no grammar has', () => {
  let recogniser: OpenRecogniser;
  beforeAll(async () => {
    recogniser = await createRecogniser();
    recogniser.setGrammar(sentencesGraph('other', ['louder', 'softer please']));
  }, 60_000);
  afterAll(() => recogniser.close());

  const openly = async (file: string): Promise<string | undefined> => {
    const sound = await readWav(join(packageRoot(), 'audio-fixtures', file));
    if (isProblem(sound)) throw new Error(sound.problem);
    expect((await recogniser.recognise(sound.pcm)).accepted).toBe(false);
    return recogniser.openly()[0]?.words;
  };

  it('comes out word for word', async () => {
    expect(await openly('04-bleach-is-thirty-eight-point-four.wav')).toBe(
      'bleach is thirty eight point four degrees',
    );
    expect(await openly('02-next-step.wav')).toBe('next step');
  }, 60_000);

  it('is nothing where nothing sounded', async () => {
    await recogniser.recognise(new Float32Array(16_000));
    expect(recogniser.openly()).toEqual([]);
  }, 60_000);
});
