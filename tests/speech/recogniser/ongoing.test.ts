import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { packageRoot } from '../../../src/speech/installed.js';
import { createRecogniser, type OpenRecogniser } from '../../../src/speech/recogniser/index.js';
import { isProblem, joined, readWav } from '../../../src/speech/wav.js';
import { sentences } from './support.js';

const clips = ['01-begin-the-run', '03-developer-is-forty-one-point-one', '07-next-step', 'other-1'];
const grammar = sentences(
  'begin the run',
  'next step',
  'next',
  'developer is forty one point one degrees',
  'developer is forty one',
  'stop the clock',
);

let recogniser: OpenRecogniser;
beforeAll(async () => {
  recogniser = await createRecogniser();
  recogniser.setGrammar(grammar);
});
afterAll(() => recogniser.close());

async function sound(name: string): Promise<Float32Array> {
  const read = await readWav(join(packageRoot(), 'audio-fixtures', `${name}.wav`));
  if (isProblem(read)) throw new Error(read.problem);
  return read.pcm;
}

test.each(clips)('%s is heard piece by piece as it is heard whole', async (name) => {
  const pcm = await sound(name);
  const whole = await recogniser.recognise(pcm);
  for (const piece of [512, 333, 7000]) {
    const utterance = recogniser.begin();
    for (let at = 0; at < pcm.length; at += piece) await utterance.push(pcm.slice(at, at + piece));
    const { milliseconds: _, ...heard } = await utterance.hear();
    const { milliseconds: __, ...expected } = whole;
    expect(heard).toEqual(expected);
  }
});

test('of what came, the first part alone can be asked about, and what comes after counts again', async () => {
  const pcm = await sound('03-developer-is-forty-one-point-one');
  const half = Math.round(pcm.length / 2);
  const utterance = recogniser.begin();
  await utterance.push(pcm.slice(0, half));
  const early = await utterance.hear();
  expect(early.best?.words).toBe((await recogniser.recognise(pcm.slice(0, half))).best?.words);
  await utterance.push(pcm.slice(half));
  expect((await utterance.hear()).best?.words).toBe('developer is forty one point one degrees');
});

test('a whole sentence with quiet after it is made out before it is asked for', async () => {
  const spoken = await sound('07-next-step');
  const pcm = joined([spoken, new Float32Array(8_000)]);
  const utterance = recogniser.begin();
  await utterance.push(pcm);
  const { milliseconds, ...heard } = await utterance.hear();
  const { milliseconds: _, ...expected } = await recogniser.recognise(pcm);
  expect(milliseconds.network).toBe(0);
  expect(heard.best?.words).toBe('next step');
  expect(heard).toEqual(expected);
});

test('half a sentence with quiet after it is made out ahead too, and is still told for half of one', async () => {
  const longer = sentences('begin the run', 'begin the run with the second bottle');
  const half = sentences('begin the run with the second bottle');
  const spoken = await sound('01-begin-the-run');
  for (const [grammar, whole] of [
    [longer, true],
    [half, false],
  ] as const) {
    recogniser.setGrammar(grammar);
    const utterance = recogniser.begin();
    const pcm = joined([spoken, new Float32Array(8_000)]);
    for (let at = 0; at < pcm.length; at += 512) await utterance.push(pcm.slice(at, at + 512));
    expect(utterance.guess()).toMatchObject({ words: 'begin the run', whole });
    const { milliseconds, ...heard } = await utterance.hear();
    expect(milliseconds.network).toBe(0);
    const { milliseconds: _, ...expected } = await recogniser.recognise(pcm);
    expect(heard).toEqual(expected);
  }
  recogniser.setGrammar(grammar);
});

test('something else heard meanwhile does no harm', async () => {
  const pcm = await sound('07-next-step');
  const utterance = recogniser.begin();
  await utterance.push(pcm.slice(0, 16_000));
  await recogniser.recognise(await sound('01-begin-the-run'));
  await utterance.push(pcm.slice(16_000));
  expect((await utterance.hear()).best?.words).toBe('next step');
});

test('talk is known for no sentence while it goes on, and a sentence never', async () => {
  const hopeless = async (name: string): Promise<boolean[]> => {
    const pcm = await sound(name);
    const utterance = recogniser.begin();
    const seen: boolean[] = [];
    for (let at = 0; at < pcm.length; at += 4096) {
      await utterance.push(pcm.slice(at, at + 4096));
      seen.push(utterance.guess().hopeless);
    }
    return seen;
  };
  const talk = await hopeless('other-1');
  expect(talk.indexOf(true)).toBeGreaterThan(0);
  expect(talk.indexOf(true)).toBeLessThan(talk.length * 0.75);
  for (const command of clips.slice(0, 3)) expect(await hopeless(command)).not.toContain(true);
});

test('among other talk what begins like no sentence is not heard out, and sentences are', async () => {
  const hear = async (name: string, amongTalk: boolean) => {
    const pcm = await sound(name);
    const utterance = recogniser.begin(amongTalk);
    for (let at = 0; at < pcm.length; at += 2048) await utterance.push(pcm.slice(at, at + 2048));
    return { ...(await utterance.hear()), open: recogniser.openly() };
  };
  for (const amongTalk of [false, true]) {
    const { accepted, open } = await hear('other-1', amongTalk);
    expect(accepted).toBe(false);
    expect(open.length > 0).toBe(!amongTalk);
  }
  for (const command of clips.slice(0, 3))
    expect((await hear(command, true)).best).toEqual((await hear(command, false)).best);
});

test('a guess tells a whole sentence from half of one', async () => {
  const pcm = await sound('01-begin-the-run');
  const utterance = recogniser.begin();
  expect(utterance.guess()).toEqual({ words: '', whole: false, mayGoOn: true, hopeless: false });
  for (let at = 0; at < pcm.length; at += 512) await utterance.push(pcm.slice(at, at + 512));
  expect(utterance.guess()).toEqual({ words: 'begin the run', whole: true, mayGoOn: false, hopeless: false });
});
