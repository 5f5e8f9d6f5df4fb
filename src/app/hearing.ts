import type { Hearing, WordGraph } from '../language/types.js';
import type { Language } from '../language/understanding.js';
import type { Situation } from '../process/desk.js';
import { createRecogniser } from '../speech/recogniser/index.js';
import { isProblem, readWav } from '../speech/wav.js';
import { collectGarbage } from './memory.js';
import { storedVoice } from './user-voice.js';

/** A recogniser whose grammar follows the situations that are open. */
export interface SituatedEar {
  hear(pcm: Float32Array, situations: readonly Situation[]): Promise<Hearing>;
  hearUnder(pcm: Float32Array, graph: WordGraph): Promise<Hearing>;
  /** compiles the grammar of these situations, so that their first sentence need not wait for it */
  prepare?(situations: readonly Situation[]): void;
  close(): Promise<void>;
}

/** After a grammar was compiled an answer may be due; by then it is under way, ms. */
const settledMs = 1_500;

/**
 * `user`: hears with the voice that `tankside teach` learnt, if there is one that fits.
 * @throws Error with one clear sentence when the voice model is missing or damaged
 */
export async function situatedEar(
  language: Language,
  user?: { dataFolder: string; notice(sentence: string): void },
): Promise<SituatedEar> {
  const recogniser = await createRecogniser();
  const voice = user ? storedVoice(user.dataFolder) : null;
  const misfit = voice === null ? null : recogniser.setVoice(voice);
  if (misfit) user?.notice(misfit);
  let open: WordGraph | null = null;
  const compile = (graph: WordGraph): void => {
    // compiling leaves some 50 MB behind
    if (recogniser.prepare(graph)) setTimeout(collectGarbage, settledMs).unref();
  };
  const hearUnder = (pcm: Float32Array, graph: WordGraph): Promise<Hearing> => {
    compile(graph);
    if (graph !== open) recogniser.setGrammar(graph);
    open = graph;
    return recogniser.recognise(pcm);
  };
  return {
    hearUnder,
    hear: (pcm, situations) => hearUnder(pcm, language.graph(situations)),
    prepare: (situations) => compile(language.graph(situations)),
    close: () => recogniser.close(),
  };
}

/** Nothing was heard, and why, in the shape of a hearing. */
export const deaf = (why: string): Hearing => ({
  accepted: false,
  best: null,
  alternatives: [],
  why,
  milliseconds: { network: 0, decoder: 0, rejection: 0, total: 0 },
});

/** Hears a sound file as the microphone would; a file that cannot be used is heard as nothing, with the reason. */
export async function hearFile(
  ear: SituatedEar,
  path: string,
  situations: readonly Situation[],
): Promise<Hearing> {
  const sound = await readWav(path);
  return isProblem(sound) ? deaf(sound.problem) : ear.hear(sound.pcm, situations);
}
