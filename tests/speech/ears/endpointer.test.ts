import { join } from 'node:path';
import { expect, it } from 'vitest';
import { fixtureDir } from '../../../src/app/paths.js';
import { Endpointer } from '../../../src/speech/ears/endpointer.js';
import { FRAME_SAMPLES } from '../../../src/speech/ears/frames.js';
import { loadSilero } from '../../../src/speech/ears/silero.js';
import { isProblem, readWav } from '../../../src/speech/wav.js';
import { noiseAlone, rms } from '../../bench/voice/noise.js';

it('hears who speaks after a minute of a running tap', async () => {
  const model = await loadSilero();
  const said = await readWav(join(fixtureDir, '22-how-long-left.wav'));
  if (isProblem(model) || isProblem(said)) throw new Error('not installed');
  const water = noiseAlone('water', 60, 7);
  const gain = (10 ** (-10 / 20) * rms(said.pcm)) / rms(water);
  const from = 60 * 16_000;
  const sound = new Float32Array(from + said.pcm.length + 32_000).map(
    (_, i) => gain * (water[i % water.length] ?? 0) + (said.pcm[i - from] ?? 0),
  );
  const endpointer = new Endpointer({ model });
  const begun: number[] = [];
  for (let i = 0; i + FRAME_SAMPLES <= sound.length; i += FRAME_SAMPLES)
    for (const event of await endpointer.push(sound.slice(i, i + FRAME_SAMPLES), i / 16))
      if (event.type === 'speech') begun.push(event.startMs);
  expect(begun).toHaveLength(1);
  expect(begun[0]).toBeGreaterThan(59_000);
}, 60_000);
