/** Loaded into the run by --import: writes on standard error when an answer passes each stage, how its sound begins, and what a call says. */
import { subscribe } from 'node:diagnostics_channel';
import { resample } from '../../../src/speech/ears/resample.js';
import { type Passed, STAGES } from '../../../src/speech/stages.js';
import { toInt16 } from '../../../src/speech/wav.js';

/** so much of a sound tells it from others, s */
const BEGINNING_S = 0.4;

subscribe(STAGES, (message) => {
  const { stage, atMs, sound, text = '' } = message as Passed;
  const begins = sound?.pcm.subarray(0, BEGINNING_S * sound.sampleRate) ?? new Float32Array();
  const samples = toInt16(sound ? resample(begins, sound.sampleRate, 16_000) : begins);
  process.stderr.write(`stage ${stage} ${atMs} ${Buffer.from(samples.buffer).toString('base64')} ${text}\n`);
});
