import { basename, join } from 'node:path';
import { makeFolderOf } from '../ledger/folders.js';
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
  const path = join(folder, `${new Date().toISOString().replaceAll(/[:.]/g, '-')}.wav`);
  try {
    makeFolderOf(path);
  } catch {
    return { problem: `The note was not kept: ${folder} cannot be made. Type it: note, and the words.` };
  }
  const failed = await writeWav(path, pcm, SAMPLE_RATE_HZ);
  if (failed) return { problem: `The note was not kept: ${failed.problem} Type it: note, and the words.` };
  const words = opinion ? await opinion.listen(pcm) : null;
  const text = words && !isProblem(words) ? `${words.words} ` : '';
  return { text: `${text}(spoken, notes/${basename(path)})` };
}
