import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { SecondOpinion } from '../speech/second-opinion/whisper.js';
import { isProblem, SAMPLE_RATE_HZ, writeWav } from '../speech/wav.js';

/**
 * A note in free speech. Our own recogniser hears commands only, so the sound itself is kept, and the words too
 * where a second opinion can write them down.
 */
export async function spokenNote(
  pcm: Float32Array,
  dataFolder: string,
  opinion: SecondOpinion | null,
): Promise<{ text: string } | { problem: string }> {
  const folder = join(dataFolder, 'notes');
  const file = `${new Date().toISOString().replaceAll(/[:.]/g, '-')}.wav`;
  try {
    mkdirSync(folder, { recursive: true });
  } catch {
    return { problem: `The note was not kept: ${folder} cannot be made. Type it: note, and the words.` };
  }
  const failed = await writeWav(join(folder, file), pcm, SAMPLE_RATE_HZ);
  if (failed) return { problem: `The note was not kept: ${failed.problem} Type it: note, and the words.` };
  const words = opinion ? await opinion.listen(pcm) : null;
  const text = words && !isProblem(words) ? `${words.words} ` : '';
  return { text: `${text}(spoken, notes/${file})` };
}
