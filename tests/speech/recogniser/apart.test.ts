import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { afterEach, expect, test } from 'vitest';
import { packageRoot } from '../../../src/speech/installed.js';
import {
  type RecogniserApart,
  recogniserApart,
} from '../../../src/speech/recogniser/apart/recogniser-process.js';
import { isProblem, readWav } from '../../../src/speech/wav.js';
import { sentences } from './support.js';

const grammar = sentences('begin the run', 'next step', 'stop the clock');
let apart: RecogniserApart | null = null;
afterEach(() => apart?.close());

async function sound(): Promise<Float32Array> {
  const read = await readWav(join(packageRoot(), 'audio-fixtures', '01-begin-the-run.wav'));
  if (isProblem(read)) throw new Error(read.problem);
  return read.pcm;
}

test('hears what comes piece by piece, and guesses meanwhile', async () => {
  apart = await recogniserApart();
  const pcm = await sound();
  const utterance = apart.begin(grammar, false);
  for (let at = 0; at < pcm.length; at += 512) utterance.push(pcm.slice(at, at + 512));
  expect(await utterance.guess()).toEqual({
    words: 'begin the run',
    whole: true,
    mayGoOn: false,
    hopeless: false,
  });
  const hearing = await utterance.hear(pcm.length);
  expect(hearing.best?.words).toBe('begin the run');
  expect(hearing.best).toEqual((await apart.recognise(pcm, grammar)).best);
});

test('killed in the middle of a sentence it starts again, says so, and the sentence is heard all the same', async () => {
  const said: string[] = [];
  apart = await recogniserApart({ notice: (line) => said.push(line), restartMs: [1] });
  const pcm = await sound();
  const utterance = apart.begin(grammar, false);
  utterance.push(pcm.slice(0, 16_000));
  process.kill(apart.pid ?? 0, 'SIGKILL');
  for (let i = 0; i < 500 && said.length === 0; i++) await sleep(10);
  utterance.push(pcm.slice(16_000));
  expect((await utterance.hear(pcm.length)).best?.words).toBe('begin the run');
  expect(said).toEqual(['The recogniser ended (SIGKILL) and starts again.']);
});

test('what is asked when it is killed is asked again once, and then answered as unheard', async () => {
  apart = await recogniserApart({ restartMs: [1] });
  const pcm = await sound();
  const asked = apart.recognise(pcm, grammar);
  process.kill(apart.pid ?? 0, 'SIGKILL');
  expect((await asked).best?.words).toBe('begin the run');

  const twice = apart.recognise(pcm, grammar);
  const first = apart.pid;
  process.kill(first ?? 0, 'SIGKILL');
  while (apart.pid === first || apart.pid === null) await sleep(5);
  // it is asked again as soon as it is ready
  const second = apart.pid;
  const killing = setInterval(() => apart?.pid === second && process.kill(second ?? 0, 'SIGKILL'), 50);
  const hearing = await twice;
  clearInterval(killing);
  expect(hearing.accepted || /say it again/.test(hearing.why ?? '')).toBe(true);
});

test('one that hangs is ended and replaced', async () => {
  const said: string[] = [];
  apart = await recogniserApart({ notice: (line) => said.push(line), restartMs: [1], longestMs: 300 });
  process.kill(apart.pid ?? 0, 'SIGSTOP');
  const asked = apart.recognise(await sound(), grammar);
  for (let i = 0; i < 500 && said.length === 0; i++) await sleep(10);
  expect(said[0]).toBe('The recogniser ended (SIGKILL) and starts again.');
  await asked;
});

test('a model that is not there is one clear sentence', async () => {
  await expect(recogniserApart({ recogniser: { modelDir: '/nowhere' } })).rejects.toThrow(
    /Restore the models folder/,
  );
});
