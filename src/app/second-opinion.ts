import { existsSync } from 'node:fs';
import { join } from 'node:path';
import type { Hearing, WordGraph } from '../language/types.js';
import type { SecondOpinion } from '../speech/second-opinion/whisper.js';
import { isProblem } from '../speech/wav.js';

/** Where `tankside fetch-model` keeps the model; any Whisper model of that layout may be put there by hand. */
export const secondOpinionDir = (dataFolder: string): string => join(dataFolder, 'second-opinion');

/** The model when there is one, and one line when it is there but does not load. Never needed. */
export async function openSecondOpinion(
  dataFolder: string,
  notice: (sentence: string) => void,
): Promise<SecondOpinion | null> {
  const folder = secondOpinionDir(dataFolder);
  if (!existsSync(join(folder, 'config.json'))) return null;
  const { loadWhisper } = await import('../speech/second-opinion/whisper.js');
  const opinion = await loadWhisper(folder);
  if (!isProblem(opinion)) return opinion;
  notice(opinion.problem);
  return null;
}

/**
 * Asks for a second opinion on a sentence that moves liquid. Where it disagrees its reading is put beside the first
 * as equally likely, so that the conversation asks; it never overrules and never clears anything.
 */
export async function crossChecked(
  hearing: Hearing,
  pcm: Float32Array,
  graph: WordGraph,
  opinion: SecondOpinion,
): Promise<Hearing> {
  const { best } = hearing;
  if (!hearing.accepted || !best) return hearing;
  const other = await opinion.listen(pcm, graph);
  if (isProblem(other) || other.words === best.words) return hearing;
  const reading = { ...best, words: other.words, wordTimes: [] };
  return { ...hearing, alternatives: [reading, ...hearing.alternatives] };
}
