import { mkdtemp, open, rm, truncate, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import wavefile from 'wavefile';
import { resample } from '../../src/speech/ears/resample.js';
import { decodeWav, encodeWav, isProblem, readWav, writeWav } from '../../src/speech/wav.js';

const tone = (hz: number, rateHz: number, seconds = 0.5, peak = 0.5) =>
  Float32Array.from({ length: rateHz * seconds }, (_, i) => peak * Math.sin((2 * Math.PI * hz * i) / rateHz));

function rms(pcm: Float32Array, from = 0, to = pcm.length): number {
  let sum = 0;
  for (let i = from; i < to; i++) sum += (pcm[i] ?? 0) ** 2;
  return Math.sqrt(sum / (to - from));
}

let folder = '';
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'tankside-wav-'));
});
afterAll(() => rm(folder, { recursive: true }));

async function read(name: string, bytes: Uint8Array) {
  const path = join(folder, name);
  await writeFile(path, bytes);
  return readWav(path);
}

describe('reading', () => {
  it('gives back what was written, at 16 kHz', async () => {
    const path = join(folder, 'same.wav');
    const pcm = tone(440, 16000);
    expect(await writeWav(path, pcm, 16000)).toBeNull();
    const back = await readWav(path);
    if (isProblem(back)) throw new Error(back.problem);
    expect(back.durationMs).toBe(500);
    expect(Math.max(...back.pcm.map((v, i) => Math.abs(v - (pcm[i] ?? 9))))).toBeLessThan(1e-4);
  });

  it('comes out the same whether it is read in pieces or whole', async () => {
    const seconds = 31;
    const left = tone(440, 44_100, seconds);
    const right = tone(1234, 44_100, seconds, 0.3);
    const wav = new wavefile.WaveFile();
    wav.fromScratch(
      2,
      44_100,
      '16',
      [left, right].map((c) => c.map((v) => v * 32_000)),
    );
    const bytes = wav.toBuffer();
    expect(bytes.length).toBeGreaterThan(5_000_000);
    const back = await read('pieces.wav', bytes);
    if (isProblem(back)) throw new Error(back.problem);
    const whole = decodeWav(bytes, 'whole');
    if (isProblem(whole)) throw new Error(whole.problem);
    expect(back.pcm).toEqual(resample(whole.pcm, 44_100, 16_000));
  });

  it('is refused by its header when it is longer than can be heard', async () => {
    const bytes = encodeWav(new Float32Array(8), 16_000);
    const path = join(folder, 'long.wav');
    await writeFile(path, bytes);
    await truncate(path, 44 + 2 * 16_000 * 3600 * 3);
    new DataView(bytes.buffer, bytes.byteOffset).setUint32(40, 2 * 16_000 * 3600 * 3, true);
    const file = await open(path, 'r+');
    await file.write(bytes, 0, 44, 0);
    await file.close();
    const back = await readWav(path);
    expect(isProblem(back) && back.problem).toMatch(/longer than the 30 minutes.*Cut it into parts/);
  });

  const depths: [string, number][] = [
    ['8', 0.02],
    ['16', 1e-4],
    ['24', 1e-4],
    ['32', 1e-4],
    ['32f', 1e-4],
    ['64', 1e-4],
    ['8a', 0.02],
    ['8m', 0.02],
  ];
  it.each(depths)('takes %s-bit sound', async (bits, tolerance) => {
    const pcm = tone(300, 16000);
    const wav = new wavefile.WaveFile(encodeWav(pcm, 16000));
    if (bits === '8a') wav.toALaw();
    else if (bits === '8m') wav.toMuLaw();
    else wav.toBitDepth(bits);
    const back = await read(`depth-${bits}.wav`, wav.toBuffer());
    if (isProblem(back)) throw new Error(back.problem);
    expect(back.pcm.length).toBe(pcm.length);
    const worst = Math.max(...back.pcm.map((v, i) => Math.abs(v - (pcm[i] ?? 9))));
    expect(worst).toBeLessThan(tolerance);
  });

  it('mixes two channels down', async () => {
    const wav = new wavefile.WaveFile();
    const left = Int16Array.from({ length: 1600 }, () => 16384);
    wav.fromScratch(2, 16000, '16', [left, new Int16Array(1600)]);
    const back = await read('stereo.wav', wav.toBuffer());
    if (isProblem(back)) throw new Error(back.problem);
    expect(back.pcm[800]).toBeCloseTo(0.25, 3);
  });

  it.each([8000, 11025, 22050, 44100, 48000])(
    'resamples %i Hz, keeping speech at its level',
    async (rate) => {
      const back = await read(`rate-${rate}.wav`, encodeWav(tone(1000, rate), rate));
      if (isProblem(back)) throw new Error(back.problem);
      expect(back.durationMs).toBeCloseTo(500, -1);
      expect(rms(back.pcm, 1600, 6400)).toBeCloseTo(0.5 / Math.SQRT2, 3);
    },
  );

  it('lets nothing above the band fold into speech', async () => {
    const back = await read('alias.wav', encodeWav(tone(10_000, 44_100), 44_100));
    if (isProblem(back)) throw new Error(back.problem);
    expect(20 * Math.log10(rms(back.pcm, 1600, 6400))).toBeLessThan(-70);
  });

  it('takes the unknown length that a recorder writes to a pipe, and an extensible header', () => {
    const bytes = encodeWav(tone(300, 16000), 16000);
    new DataView(bytes.buffer, bytes.byteOffset).setUint32(40, 0x7fffffff, true);
    expect(isProblem(decodeWav(bytes, 'piped.wav'))).toBe(false);
    const wav = new wavefile.WaveFile();
    wav.fromScratch(
      4,
      16000,
      '24',
      [1, 2, 3, 4].map(() => new Int32Array(1600)),
    );
    expect(isProblem(decodeWav(wav.toBuffer(), 'four.wav'))).toBe(false);
  });
});

describe('refusing with one clear sentence', () => {
  const good = encodeWav(tone(300, 16000), 16000);
  const patched = (at: number, value: number, bytes: 2 | 4) => {
    const copy = good.slice();
    const view = new DataView(copy.buffer);
    if (bytes === 2) view.setUint16(at, value, true);
    else view.setUint32(at, value, true);
    return copy;
  };
  it.each<[string, Uint8Array, RegExp]>([
    ['empty', new Uint8Array(), /is empty/],
    ['text', Buffer.from('not sound at all, just words in a file'), /not a WAV file/],
    ['header-only', good.slice(0, 30), /cut short/],
    ['no-sound', good.slice(0, 44), /cut short|no sound/],
    ['truncated', good.slice(0, 4000), /promises 0\.5 seconds and it holds 0\.1/],
    ['slow', patched(24, 4000, 4), /sampled at 4000 hertz/],
    ['format', patched(20, 0x55, 2), /format 85.*16-bit PCM/],
    ['bits', patched(34, 12, 2), /12-bit/],
    ['channels', patched(22, 0, 2), /0 channels/],
  ])('%s', async (name, bytes, sentence) => {
    const result = await read(`${name}.wav`, bytes);
    expect(isProblem(result) && result.problem).toMatch(sentence);
  });

  it('a missing file, a folder, a place that cannot be written', async () => {
    const missing = await readWav(join(folder, 'nowhere.wav'));
    expect(isProblem(missing) && missing.problem).toMatch(/no file .*nowhere\.wav/);
    const dir = await readWav(folder);
    expect(isProblem(dir) && dir.problem).toMatch(/folder/);
    const unwritten = await writeWav(join(folder, 'no', 'such.wav'), new Float32Array(10), 16000);
    expect(unwritten?.problem).toMatch(/Cannot write .*ENOENT/);
  });

  it('never throws on damaged bytes', () => {
    for (let at = 0; at < 44; at++) {
      for (const value of [0, 1, 0x7f, 0xff]) {
        const copy = good.slice();
        copy[at] = value;
        expect(() => decodeWav(copy, 'damaged.wav')).not.toThrow();
      }
    }
  });
});
