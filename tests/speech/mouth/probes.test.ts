import { mkdtemp, rm, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { howToGetPlayer } from '../../../src/speech/ears/recorders.js';
import { probeMicrophone, probeSpeaker, probeVoice } from '../../../src/speech/mouth/probes.js';

let folder = '';
const path = process.env.PATH;
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'tankside-probe-'));
  process.env.PATH = folder;
  await Promise.all(['sh', 'head', 'sleep'].map((name) => symlink(`/bin/${name}`, join(folder, name))));
});
afterEach(async () => {
  process.env.PATH = path;
  await rm(folder, { recursive: true });
});
const programme = (name: string, lines: string) =>
  writeFile(join(folder, name), `#!/bin/sh\n${lines}\n`, { mode: 0o755 });
const now = () => performance.now();

it('what is missing is one line with the package to install', async () => {
  expect(await probeMicrophone(now)).toMatchObject({ ok: false, line: expect.stringMatching(/install/i) });
  expect(await probeSpeaker()).toEqual({ part: 'speaker', ok: false, line: howToGetPlayer() });
  expect(howToGetPlayer('alsa')).toMatch(/apt install alsa-utils/);
});

it('the voice always works, for one comes built in', async () => {
  expect(await probeVoice()).toMatchObject({ part: 'voice', ok: true });
});

it('a microphone that works, one that is mute, one that fails', async () => {
  await programme('arecord', 'head -c 40000 /dev/urandom; exec sleep 20');
  expect(await probeMicrophone(now)).toMatchObject({
    ok: true,
    line: expect.stringMatching(/works, through arecord/),
  });
  await programme('arecord', 'head -c 40000 /dev/zero; exec sleep 20');
  expect(await probeMicrophone(now)).toMatchObject({ ok: false, line: expect.stringMatching(/muted/) });
  await programme('arecord', 'echo "Cannot find card 0" >&2; exit 1');
  expect(await probeMicrophone(now)).toMatchObject({
    ok: false,
    line: 'There is no microphone. Connect one.',
  });
});

it('a speaker that works and one that fails', async () => {
  await programme('aplay', 'exec head -c 3200 >/dev/null');
  expect(await probeSpeaker()).toMatchObject({ ok: true });
  await programme('aplay', 'echo "no card" >&2; exit 1');
  expect(await probeSpeaker()).toMatchObject({ ok: false, line: expect.stringMatching(/no card/) });
});
