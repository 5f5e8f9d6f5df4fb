/**
 * The endpointer against real people: recordings of Debian's pocketsphinx-testdata package (goforward.raw, the cards,
 * the LibriVox readings). Where the package is not installed the tests say so.
 */
import { existsSync, readdirSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { listen } from '../../src/speech/ears/listen.js';
import { fromInt16, isProblem, readWav } from '../../src/speech/wav.js';
import { mix, water } from '../speech/ears/sounds.js';
import { wavSource } from '../speech/ears/wav-source.js';

const DATA = '/usr/share/pocketsphinx/test/data';
const here = existsSync(DATA);

async function utterances(pcm: Float32Array) {
  const found: { startMs: number; endMs: number }[] = [];
  const source = wavSource({ pcm, durationMs: pcm.length / 16 });
  for await (const event of listen({ source }, new AbortController().signal)) {
    if (event.type === 'utterance') found.push(event.utterance);
  }
  return found;
}

/** A second of room before the clip, noise all through at 30 dB below it. */
function inRoom(clip: Float32Array): Float32Array {
  const rms = Math.sqrt(clip.reduce((sum, v) => sum + v * v, 0) / clip.length);
  const pcm = water(clip.length + 32_000, rms * 0.03);
  mix(pcm, clip, 16_000);
  return pcm;
}

async function wav(path: string): Promise<Float32Array> {
  const recording = await readWav(path);
  if (isProblem(recording)) throw new Error(recording.problem);
  return recording.pcm;
}

describe.skipIf(!here)('pocketsphinx-testdata (skipped where it is not installed)', () => {
  it('"go forward ten meters" is one utterance', async () => {
    const bytes = await readFile(join(DATA, 'goforward.raw'));
    const pcm = fromInt16(
      new Int16Array(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength)),
    );
    const found = await utterances(inRoom(pcm));
    expect(found).toHaveLength(1);
  });

  it('every spoken card hand is found', async () => {
    const files = readdirSync(join(DATA, 'cards')).filter((name) => name.endsWith('.wav'));
    expect(files.length).toBeGreaterThanOrEqual(5);
    for (const file of files) {
      const pcm = await wav(join(DATA, 'cards', file));
      const found = await utterances(inRoom(pcm));
      expect(found.length, file).toBeGreaterThanOrEqual(1);
    }
  });

  it('a reading is cut at its pauses, and most of it is kept', async () => {
    const file = readdirSync(join(DATA, 'librivox')).find((name) => name.endsWith('.wav'));
    const pcm = await wav(join(DATA, 'librivox', file ?? ''));
    const found = await utterances(inRoom(pcm));
    const heardMs = found.reduce((sum, u) => sum + u.endMs - u.startMs, 0);
    expect(heardMs / (pcm.length / 16)).toBeGreaterThan(0.8);
  });
});
