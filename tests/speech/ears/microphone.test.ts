import { chmod, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { FrameCutter, type SourceEvent } from '../../../src/speech/ears/frames.js';
import { microphone } from '../../../src/speech/ears/microphone.js';
import {
  availableRecorders,
  complaint,
  howToGetRecorder,
  type RecorderName,
  recorderCommand,
} from '../../../src/speech/ears/recorders.js';
import type { SoundSystem } from '../../../src/speech/sound-system.js';

let folder = '';
const path = process.env.PATH;
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'tankside-mic-'));
  process.env.PATH = `${folder}:${path}`;
});
afterEach(async () => {
  process.env.PATH = path;
  await rm(folder, { recursive: true });
});

/** A recorder that does what the shell lines say. */
async function recorder(name: string, lines: string): Promise<void> {
  await writeFile(join(folder, name), `#!/bin/sh\n${lines}\n`);
  await chmod(join(folder, name), 0o755);
}

async function take(
  until: (events: SourceEvent[]) => boolean,
  recorders: readonly RecorderName[] = ['arecord'],
  now = () => performance.now(),
): Promise<SourceEvent[]> {
  const stop = new AbortController();
  const events: SourceEvent[] = [];
  const source = microphone({ now, recorders, retryMs: [10, 20] });
  for await (const event of source.open(stop.signal)) {
    events.push(event);
    if (until(events)) stop.abort();
  }
  return events;
}

const kinds = (events: SourceEvent[]) => events.map((e) => e.type);
const lost = (events: SourceEvent[]) => events.flatMap((e) => (e.type === 'lost' ? [e] : []));

describe('a microphone', () => {
  it('gives frames of 512 samples, 32 ms apart', async () => {
    await recorder('arecord', 'head -c 40960 /dev/urandom; exec sleep 30');
    let clockMs = 1000;
    const events = await take(
      (all) => all.length >= 21,
      ['arecord'],
      () => {
        clockMs += 32;
        return clockMs;
      },
    );
    expect(events[0]).toEqual({ type: 'listening', recorder: 'arecord' });
    const frames = events.flatMap((e) => (e.type === 'frame' ? [e] : []));
    expect(frames.every((f) => f.pcm.length === 512)).toBe(true);
    expect((frames[19]?.startMs ?? 0) - (frames[0]?.startMs ?? 0)).toBeCloseTo(19 * 32, 3);
  });

  it('that vanishes is told in a sentence and tried again', async () => {
    await recorder(
      'arecord',
      'head -c 2048 /dev/urandom; echo "arecord: pcm_read: read error: No such device" >&2; exit 1',
    );
    const events = await take((all) => kinds(all).filter((k) => k === 'listening').length === 2);
    expect(kinds(events).slice(0, 5)).toEqual(['listening', 'frame', 'frame', 'lost', 'listening']);
    expect(lost(events)[0]).toEqual({
      type: 'lost',
      sentence: 'There is no microphone. Connect one.',
      retryInMs: 10,
    });
  });

  it('that never comes is tried with the next recorder, more and more slowly', async () => {
    await recorder('arecord', 'echo "audio open error: Device or resource busy" >&2; exit 1');
    await recorder('sox', 'echo "sox FAIL formats: no default audio device configured" >&2; exit 2');
    const events = await take((all) => lost(all).length === 3, ['arecord', 'sox']);
    expect(lost(events).map((e) => e.retryInMs)).toEqual([10, 20, 20]);
    expect(lost(events)[0]?.sentence).toMatch(/Another programme/);
    expect(lost(events)[1]?.sentence).toMatch(/no microphone/);
  });

  it('that comes back is tried every second time with the best recorder, and between with the others', async () => {
    for (const name of ['parec', 'arecord', 'sox']) await recorder(name, `echo "${name} died" >&2; exit 1`);
    const events = await take((all) => lost(all).length === 6, ['parec', 'arecord', 'sox']);
    expect(lost(events).map((e) => /\((\w+):/.exec(e.sentence)?.[1])).toEqual([
      'parec',
      'arecord',
      'parec',
      'sox',
      'parec',
      'parec',
    ]);
  });
  it('whose recorder is not installed does no harm', async () => {
    process.env.PATH = folder;
    const events = await take((all) => lost(all).length === 1, ['rec']);
    expect(kinds(events)).toEqual(['lost']);
    const none = await take((all) => lost(all).length === 1, []);
    expect(lost(none)[0]?.sentence).toMatch(/Install one/);
  });

  it.each([
    ['nothing', 'head -c 400000 /dev/zero'],
    [
      "the one bit of a recorder's dither",
      "head -c 400000 /dev/zero | tr '\\000' '\\001' | sed 's/\\x01\\x01/\\x01\\x00/g'",
    ],
  ])('that is muted, and gives %s, is told of once', async (_what, sends) => {
    await recorder('arecord', `LC_ALL=C; export LC_ALL; ${sends}; exec sleep 30`);
    const events = await take((all) => kinds(all).includes('remark') && all.length > 170);
    const remarks = events.flatMap((e) => (e.type === 'remark' ? [e.sentence] : []));
    expect(remarks).toEqual(['I hear nothing at all. Is the microphone muted?']);
  });

  it('stops when asked, in the middle of anything', async () => {
    await recorder('arecord', 'exec sleep 30');
    const stop = new AbortController();
    setTimeout(() => stop.abort(), 30);
    const events: SourceEvent[] = [];
    for await (const e of microphone({ now: () => 0, recorders: ['arecord'] }).open(stop.signal))
      events.push(e);
    expect(events).toEqual([]);
  });
});

describe('recorders', () => {
  it('are those that reach the sound system, its own first', () => {
    const first = (system: SoundSystem) => availableRecorders({ system, has: () => true })[0];
    expect(first('pulseaudio')).toBe('parec');
    expect(first('pipewire')).toBe('parec');
    expect(first('alsa')).toBe('arecord');
    expect(first('coreaudio')).toBe('sox');
    expect(availableRecorders({ system: 'alsa', has: (name) => name === 'parec' })).toEqual([]);
  });

  it('are asked for small pieces, and for the device chosen', () => {
    expect(recorderCommand('arecord', 'plughw:1,0').args.join(' ')).toMatch(
      /-D plughw:1,0 .*--period-size=320/,
    );
    expect(recorderCommand('parec', 'usb').args).toContain('--device=usb');
    expect(recorderCommand('sox', 'hw:1').env).toEqual({ AUDIODEV: 'hw:1' });
  });

  it('reach a device of the sound server by ALSA as well', () => {
    expect(recorderCommand('arecord', 'usb-lapel').args).not.toContain('-D');
    for (const name of ['arecord', 'sox'] as const) {
      expect(recorderCommand(name, 'usb-lapel').env).toEqual({ PULSE_SOURCE: 'usb-lapel' });
      expect(recorderCommand(name, null).env).toEqual({});
    }
  });
  it('are had from a package named for the system', () => {
    expect(howToGetRecorder('alsa')).toMatch(/apt install alsa-utils/);
    expect(howToGetRecorder('pipewire')).toMatch(/apt install pulseaudio-utils/);
    expect(howToGetRecorder('coreaudio')).toMatch(/brew install sox/);
  });

  it('of ALSA without a card, where a sound server runs: the recorder that reaches it is named', () => {
    const noCard = "ALSA lib confmisc.c: cannot find card '0'";
    const at = (system: SoundSystem, has: boolean) =>
      complaint('arecord', noCard, { system, has: () => has });
    expect(at('pulseaudio', false)).toMatch(/PulseAudio cannot be reached through ALSA.*pulseaudio-utils/);
    for (const sentence of [at('pulseaudio', true), at('alsa', false)])
      expect(sentence).toBe('There is no microphone. Connect one.');
  });
  it('that complain of something unknown are quoted', () => {
    expect(complaint('sox', 'sox WARN: odd thing\nmore')).toBe(
      'The microphone stopped (sox: sox WARN: odd thing). Check its plug.',
    );
  });
});

it('bytes are cut into frames wherever the chunks end', () => {
  const cutter = new FrameCutter();
  const bytes = new Uint8Array(2048);
  const view = new DataView(bytes.buffer);
  for (let i = 0; i < 1024; i++) view.setInt16(2 * i, i - 512, true);
  const frames = [bytes.subarray(0, 333), bytes.subarray(333, 334), bytes.subarray(334)].flatMap((c) =>
    cutter.push(c),
  );
  expect(frames).toHaveLength(2);
  expect(frames[0]?.[0]).toBeCloseTo(-512 / 32768);
  expect(frames[1]?.[511]).toBeCloseTo(511 / 32768);
});
