import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { modelsDir, packageRoot } from '../../../src/speech/installed.js';
import { SphinxModels } from '../../../src/speech/recogniser/hmm/sphinx.js';
import { pronunciations } from '../../../src/speech/recogniser/lexicon/lexicon.js';
import { isProblem, readWav } from '../../../src/speech/wav.js';
import { lexiconFiles, sentences } from './support.js';

let models: SphinxModels;
let sound: Float32Array;
beforeAll(async () => {
  models = await SphinxModels.load(join(modelsDir(), 'en-us-hmm'), pronunciations(lexiconFiles));
  const read = await readWav(join(packageRoot(), 'audio-fixtures', '01-begin-the-run.wav'));
  if (isProblem(read)) throw new Error(read.problem);
  sound = read.pcm;
});
afterAll(() => models.close());

test('without a grammar there is nothing to read', () => {
  expect(models.read(sound)).toBeNull();
});

test('reads the sentence of the grammar that was said, also after other grammars and single sentences', async () => {
  await models.ready();
  models.setGrammar(sentences('begin the run', 'next step', 'stop the clock'));
  expect(models.read(sound)?.words).toBe('begin the run');
  models.fit(sound, ['next', 'step']);
  expect(models.read(sound)?.words).toBe('begin the run');
  models.setGrammar(sentences('next step', 'drain now'));
  expect(['next step', 'drain now']).toContain(models.read(sound)?.words);
});

test('what was said fits better than what was not', async () => {
  await models.ready();
  const said = models.fit(sound, ['begin', 'the', 'run']);
  const other = models.fit(sound, ['drain', 'the', 'tank']);
  expect(said?.words).toBe('begin the run');
  expect(said?.logScore ?? 0).toBeGreaterThan(other?.logScore ?? Number.NEGATIVE_INFINITY);
});

test('words of our own list are known to it too', () => {
  models.setGrammar(sentences('rinse the remjet off', 'begin the run'));
  expect(models.read(sound)?.words).toBe('begin the run');
});
