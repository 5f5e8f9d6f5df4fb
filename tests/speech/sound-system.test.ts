import { chmodSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { chooseSound } from '../../src/app/sound-choice.js';
import { type SoundWorld, soundSystem } from '../../src/speech/sound-system.js';

const world = (change: Partial<SoundWorld>): SoundWorld => ({
  platform: 'linux',
  env: {},
  exists: () => false,
  read: () => '',
  ...change,
});

describe('the sound system', () => {
  it.each([
    ['coreaudio', { platform: 'darwin' }],
    ['windows', { platform: 'win32' }],
    ['pipewire', { env: { XDG_RUNTIME_DIR: '/r' }, exists: (p: string) => p.startsWith('/r/') }],
    ['pulseaudio', { env: { XDG_RUNTIME_DIR: '/r' }, exists: (p: string) => p === '/r/pulse/native' }],
    ['pulseaudio', { env: { PULSE_SERVER: 'unix:/s/sock' }, exists: (p: string) => p === '/s/sock' }],
    ['none', { env: { PULSE_SERVER: 'unix:/s/sock' } }],
    ['alsa', { read: () => ' 0 [PCH            ]: HDA-Intel - HDA Intel PCH' }],
    ['none', { read: () => '--- no soundcards ---' }],
  ] satisfies [string, Partial<SoundWorld>][])('is %s where %o', (system, change) => {
    expect(soundSystem(world(change))).toBe(system);
  });
});

/** A sound server with two microphones, whose standard source only repeats the speaker. */
const PACTL = `case "$*" in
  get-default-source) echo out.monitor ;;
  get-default-sink) echo out ;;
  "list sources") printf 'Source #0\\n\\tName: out.monitor\\n\\tDescription: Monitor of Desk\\n\\tMonitor of Sink: out\\n'
    printf 'Source #1\\n\\tName: usb\\n\\tDescription: USB Lapel\\n\\tMonitor of Sink: n/a\\n'
    printf 'Source #2\\n\\tName: cam\\n\\tDescription: Camera\\n\\tMonitor of Sink: n/a\\n'
    printf 'Source #3\\n\\tName: cam2\\n\\tDescription: Camera\\n\\tMonitor of Sink: n/a\\n' ;;
  "list sinks") printf 'Sink #0\\n\\tName: out\\n\\tDescription: Desk\\n' ;;
esac`;

describe('which devices are used', () => {
  let folder: string;
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'tankside-sound-'));
    writeFileSync(join(folder, 'pactl'), `#!/bin/sh\n${PACTL}\n`);
    chmodSync(join(folder, 'pactl'), 0o755);
    writeFileSync(join(folder, 'sock'), '');
    vi.stubEnv('PATH', `${folder}${delimiter}${process.env.PATH}`);
    vi.stubEnv('PULSE_SERVER', `unix:${folder}/sock`);
    vi.stubEnv('XDG_RUNTIME_DIR', folder);
  });
  afterEach(() => {
    vi.unstubAllEnvs();
    rmSync(folder, { recursive: true, force: true });
  });

  it('are a real microphone where the standard one is the monitor of a speaker, and that is said', async () => {
    const sound = await chooseSound(folder, {});
    expect(sound.microphone).toBe('usb');
    expect(sound.lines.join(' ')).toMatch(/PulseAudio.*“Monitor of Desk” only repeats.*“USB Lapel”/);
  });

  it('are those asked for by a part of their name, and are remembered', async () => {
    expect((await chooseSound(folder, { microphone: 'camera' })).microphone).toBe('cam');
    expect((await chooseSound(folder, { microphone: 'Camera (cam2)' })).microphone).toBe('cam2');
    expect((await chooseSound(folder, { microphone: 'cam' })).microphone).toBe('cam');
    const again = await chooseSound(folder, {});
    expect(again.microphone).toBe('cam');
    expect(again.lines).toHaveLength(1);
  });

  it('say each time that a chosen monitor hears nobody', async () => {
    const warned = /“Monitor of Desk” only repeats what the speaker plays: nobody is heard through it/;
    for (const asked of [{ microphone: 'out.monitor' }, {}, {}]) {
      const sound = await chooseSound(folder, asked);
      expect(sound.microphone).toBe('out.monitor');
      expect(sound.lines.join(' ')).toMatch(warned);
    }
  });

  it('are named when one is asked for that is not there', async () => {
    await expect(chooseSound(folder, { microphone: 'lavalier' })).rejects.toThrow(
      'There are: “USB Lapel”, “Camera (cam)”, “Camera (cam2)”.',
    );
  });
});
