import { chmod, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { hasCommand, runCommand } from '../../../src/speech/commands.js';
import { availablePlayers } from '../../../src/speech/mouth/player.js';
import { speakable } from '../../../src/speech/mouth/voice.js';
import { availableVoices, findVoice } from '../../../src/speech/mouth/voices.js';
import { isProblem, type Sound } from '../../../src/speech/wav.js';

async function sound(text: string, voice: string, rate = 1): Promise<Sound> {
  const made = (await findVoice(voice)?.synthesise(text, rate)) ?? { problem: `no voice ${voice}` };
  if (isProblem(made)) throw new Error(made.problem);
  return made;
}

const bare = { platform: 'linux', has: () => false };

describe('which voices', () => {
  it('always has the built-in ones, and puts those of the system first', () => {
    expect(availableVoices(bare).map((v) => v.id)).toEqual([
      'flite-wasm:slt',
      'flite-wasm:rms',
      'flite-wasm:awb',
      'flite-wasm:kal16',
    ]);
    const all = availableVoices({ platform: 'darwin', has: () => true }).map((v) => v.id);
    expect(all.slice(0, 4)).toEqual(['system', 'festival', 'espeak-ng', 'flite']);
  });
});

describe('the built-in voice', () => {
  it('speaks: sound of a plausible length and level, slower when asked', async () => {
    const text = 'Developer is due. Pour it in now.';
    const [plain, slow, other] = [
      await sound(text, 'flite-wasm:slt'),
      await sound(text, 'flite-wasm:slt', 0.6),
      await sound(text, 'flite-wasm:awb'),
    ];
    const seconds = plain.pcm.length / plain.sampleRate;
    expect(seconds).toBeGreaterThan(1.5);
    expect(seconds).toBeLessThan(4);
    expect(Math.max(...plain.pcm)).toBeGreaterThan(0.1);
    expect(slow.pcm.length / plain.pcm.length).toBeCloseTo(1 / 0.6, 1);
    expect(other.pcm.length).not.toBe(plain.pcm.length);
  });

  it('speaks a text of thousands of characters, which the engine by itself cannot', async () => {
    const text = 'The developer is warm, the fixer is cold, and the tub takes another minute. '.repeat(30);
    const long = await sound(text, 'flite-wasm:slt', 2);
    expect(long.pcm.length / long.sampleRate).toBeGreaterThan(45);
  });

  it('takes many sentences at once', async () => {
    const texts = ['One.', 'Two.', 'Three.', 'Four.', 'Five.'];
    const sounds = await Promise.all(texts.map((text) => sound(text, 'flite-wasm:kal16')));
    expect(sounds.every((s) => s.pcm.length > 4000)).toBe(true);
  });
});

describe.each(['festival', 'espeak-ng', 'flite'])('%s, where it is installed', (id) => {
  const here = availableVoices().some((voice) => voice.id === id);
  it.skipIf(!here)('speaks, faster when asked', async () => {
    const plain = await sound('The fixer is ready.', id);
    const fast = await sound('The fixer is ready.', id, 1.6);
    expect(plain.pcm.length / plain.sampleRate).toBeGreaterThan(0.8);
    expect(fast.pcm.length).toBeLessThan(plain.pcm.length * 0.85);
  });
});

describe('text for an engine', () => {
  it('holds nothing that an engine could take for a command', () => {
    expect(speakable('--version "$(date)" <speak>hi</speak> (quit)')).toBe(
      'version date speak hi /speak quit',
    );
    expect(speakable('41.1 °C, 500 ml')).toBe('41.1 degrees, 500 ml');
  });
});

describe('programmes', () => {
  it('are found on PATH only', () => {
    expect(hasCommand('node')).toBe(true);
    expect(hasCommand('node', '')).toBe(false);
    expect(hasCommand('no-such-programme')).toBe(false);
  });

  it('that are missing are a value, not an exception', async () => {
    expect(await runCommand('no-such-programme', [])).toMatchObject({ code: null });
  });
});

describe('players', () => {
  it('come best first, only those installed, and only those that reach the sound system', () => {
    const has = (name: string) => name === 'aplay' || name === 'play' || name === 'paplay';
    expect(availablePlayers({ system: 'alsa', has }).map((p) => p.id)).toEqual(['aplay', 'play']);
    expect(availablePlayers({ system: 'pipewire', has }).map((p) => p.id)).toEqual([
      'paplay',
      'aplay',
      'play',
    ]);
  });

  it('that fail give one sentence with what they said; that are stopped are silent at once', async () => {
    const folder = await mkdtemp(join(tmpdir(), 'tankside-player-'));
    const path = process.env.PATH;
    try {
      await writeFile(join(folder, 'aplay'), '#!/bin/sh\necho "no card here" >&2\nexit 1\n');
      await writeFile(join(folder, 'paplay'), '#!/bin/sh\nexec sleep 30\n');
      await Promise.all(['aplay', 'paplay'].map((name) => chmod(join(folder, name), 0o755)));
      process.env.PATH = `${folder}:${path}`;
      const hello = { pcm: new Float32Array(1600), sampleRate: 16000 };
      const [paplay, aplay] = availablePlayers({
        system: 'pulseaudio',
        has: (name) => name === 'paplay' || name === 'aplay',
      });
      const failed = await aplay?.play(hello).done;
      expect(failed).toMatchObject({ problem: expect.stringContaining('no card here') });
      const long = paplay?.play(hello);
      long?.stop();
      expect(await long?.done).toBe('stopped');
    } finally {
      process.env.PATH = path;
      await rm(folder, { recursive: true });
    }
  });
});
