import { chmodSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { availablePlayers, type Player } from '../../../src/speech/mouth/player.js';

const sound = (samples: number, sampleRate = 16_000) => ({
  pcm: new Float32Array(samples).fill(0.1),
  sampleRate,
});

describe('a player that reads its standard input', () => {
  let folder: string;
  let player: Player;
  const log = (): string[] => readFileSync(join(folder, 'log'), 'utf8').split('\n').filter(Boolean);

  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'tankside-player-'));
    writeFileSync(join(folder, 'log'), '');
    const script = join(folder, 'aplay');
    writeFileSync(
      script,
      `#!/bin/sh\necho "start $* at $PULSE_SINK$AUDIODEV" >> ${folder}/log\necho "heard $(wc -c)" >> ${folder}/log\n`,
    );
    chmodSync(script, 0o755);
    vi.stubEnv('PATH', `${folder}${delimiter}${process.env.PATH}`);
    player = availablePlayers({ system: 'alsa', has: (name) => name === 'aplay' })[0] as Player;
  });
  afterEach(() => {
    player.close?.();
    vi.unstubAllEnvs();
    rmSync(folder, { recursive: true, force: true });
  });

  const started = (count: number) =>
    vi.waitFor(() => expect(log().filter((line) => line.startsWith('start'))).toHaveLength(count));

  it('plays all of a sound', async () => {
    expect(await player.play(sound(800)).done).toBe('ended');
    expect(log().at(-1)).toBe('heard 1600');
  });

  it('plays on the device that was chosen: one of ALSA by its name, one of a sound server through ALSA’s default', async () => {
    const on = async (device: string) => {
      const [chosen] = availablePlayers({ system: 'alsa', has: (name) => name === 'aplay' }, device);
      await chosen?.play(sound(80)).done;
      return log().at(-2);
    };
    expect(await on('plughw:1,0')).toMatch(/^start -D plughw:1,0 .* at plughw:1,0$/);
    expect(await on('desk')).toMatch(/^start -q .* at desk$/);
  });

  it('leaves its input open while the sound lasts', async () => {
    const { done } = player.play(sound(16_000));
    await started(1);
    await new Promise((r) => setTimeout(r, 200));
    expect(log().filter((line) => line.startsWith('heard'))).toEqual([]);
    expect(await done).toBe('ended');
  });

  it('plays through the programme that was started ahead, and starts another for the next sound', async () => {
    player.wake?.(16_000);
    player.wake?.(16_000);
    await started(1);
    expect(await player.play(sound(800)).done).toBe('ended');
    expect(log()).toHaveLength(2);
    expect(await player.play(sound(400)).done).toBe('ended');
    expect(log().at(-1)).toBe('heard 800');
    expect(log()).toHaveLength(4);
  });

  it('starts anew for another rate', async () => {
    player.wake?.(16_000);
    await started(1);
    expect(await player.play(sound(800, 22_050)).done).toBe('ended');
    expect(log().filter((line) => line.includes('22050'))).toHaveLength(1);
  });

  it('is silent at once when stopped, and lets go when closed', async () => {
    player.wake?.(16_000);
    await started(1);
    const playback = player.play(sound(800_000));
    playback.stop();
    expect(await playback.done).toBe('stopped');
    player.wake?.(16_000);
    await started(2);
    player.close?.();
    expect(await player.play(sound(80)).done).toBe('ended');
    expect(log().filter((line) => line.startsWith('start'))).toHaveLength(3);
  });
});
