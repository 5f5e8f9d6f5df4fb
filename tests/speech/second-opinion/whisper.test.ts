import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { sentencesGraph } from '../../../src/speech/ears/attention.js';
import { fetchModel } from '../../../src/speech/second-opinion/fetch.js';
import { loadWhisper, type SecondOpinion } from '../../../src/speech/second-opinion/whisper.js';
import { isProblem } from '../../../src/speech/wav.js';
import { water } from '../ears/sounds.js';
import { writeTinyWhisper } from './tiny-whisper.js';

const SENTENCES = ['stop', 'drain now', 'next step', 'where are we', 'drain', 'bleach is in', 'undo that'];
const grammar = sentencesGraph('test', SENTENCES);
let folder = '';
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'tankside-whisper-'));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

async function tiny(seed: number): Promise<SecondOpinion> {
  await writeTinyWhisper(join(folder, `tiny-${seed}`), seed);
  const loaded = await loadWhisper(join(folder, `tiny-${seed}`));
  if (isProblem(loaded)) throw new Error(loaded.problem);
  return loaded;
}

describe('a Whisper-shaped model from a folder', () => {
  it('says only sentences of the grammar, whatever its weights and the sound', async () => {
    const said = new Set<string>();
    let freely = '';
    for (const seed of [3, 5, 8, 13]) {
      const engine = await tiny(seed);
      for (const level of [0.01, 0.3]) {
        const pcm = water(12_000, level, seed);
        const opinion = await engine.listen(pcm, grammar);
        if (isProblem(opinion)) throw new Error(opinion.problem);
        expect(SENTENCES).toContain(opinion.words);
        expect(opinion.confidence).toBeGreaterThan(0);
        expect(opinion.confidence).toBeLessThan(1);
        said.add(opinion.words);
        const free = await engine.listen(pcm);
        if (isProblem(free)) throw new Error(free.problem);
        freely += `${free.words}|`;
      }
    }
    // random weights alone would never spell a command, and not always the same one
    expect(said.size).toBeGreaterThan(1);
    expect(freely.split('|').some((words) => SENTENCES.includes(words))).toBe(false);
  });
});

describe('clear sentences', () => {
  it('when there is no model, or a broken one', async () => {
    const none = await loadWhisper(join(folder, 'nowhere'));
    expect(isProblem(none) && none.problem).toMatch(/no model in .*fetch-model/);
    await writeTinyWhisper(join(folder, 'broken'));
    await writeFile(join(folder, 'broken', 'onnx', 'encoder_model.onnx'), 'rubbish');
    const broken = await loadWhisper(join(folder, 'broken'));
    expect(isProblem(broken) && broken.problem).toMatch(/does not load/);
  });

  it('when there is no network to fetch one over', async () => {
    const fetched = await fetchModel(join(folder, 'fetched'), { host: 'http://127.0.0.1:9/' });
    expect(typeof fetched === 'object' && fetched.problem).toMatch(/could not be fetched.*Check the network/);
  });
});
