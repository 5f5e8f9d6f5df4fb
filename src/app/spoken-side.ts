import { resample } from '../speech/ears/resample.js';
import { findVoice } from '../speech/mouth/voices.js';
import { isProblem, joined, writeWav } from '../speech/wav.js';
import { exitCode, Refusal } from './exit.js';
import type { Delivered } from './play-script.js';

const sampleRate = 16_000;
const longestSilenceS = 1;

/**
 * Writes what was said as one WAV with the voice that comes with the installation, so that it sounds alike
 * everywhere. Pauses longer than a second are cut to a second. Returns the length in seconds.
 * @throws Refusal when the file cannot be written
 */
export async function writeSpokenSide(delivered: readonly Delivered[], path: string): Promise<number> {
  const voice = findVoice('flite-wasm:slt');
  if (!voice)
    throw new Refusal('The voice that comes with tankside is missing. Run npm ci again.', exitCode.failed);
  const parts: Float32Array[] = [];
  let endMs = 0;
  const made = new Map<string, Float32Array>();
  for (const { reply } of delivered) {
    let pcm = made.get(reply.text);
    if (!pcm) {
      const sound = await voice.synthesise(reply.text, 1);
      if (isProblem(sound)) throw new Refusal(sound.problem, exitCode.failed);
      pcm = resample(sound.pcm, sound.sampleRate, sampleRate);
      made.set(reply.text, pcm);
    }
    const pauseS = Math.min(longestSilenceS, Math.max(0.15, (reply.atMs - endMs) / 1000));
    parts.push(new Float32Array(Math.round(pauseS * sampleRate)), pcm);
    endMs = reply.atMs + (pcm.length / sampleRate) * 1000;
  }
  voice.close();
  const whole = joined(parts);
  const problem = await writeWav(path, whole, sampleRate);
  if (problem) throw new Refusal(problem.problem, exitCode.failed);
  return whole.length / sampleRate;
}
