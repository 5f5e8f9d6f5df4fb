import type { WordGraph } from '../../../src/language/types.js';
import { listen } from '../../../src/speech/ears/listen.js';
import type { OpenRecogniser } from '../../../src/speech/recogniser/recogniser.js';
import { wavSource } from '../../speech/ears/wav-source.js';

/** What the live listener takes for a whole command at a short pause: as sure as `app/listener.ts` wants it. */
const SURE = 0.6;

/**
 * Speech, 16 kHz, as the live endpointer hands it over: in one piece up to the pause that ends it, which is short behind what this
 * grammar takes for a whole command.
 */
export async function utterancesOf(
  pcm: Float32Array,
  recogniser: OpenRecogniser,
  grammar: WordGraph,
): Promise<Float32Array[]> {
  recogniser.setGrammar(grammar);
  const ears = listen(
    {
      source: wavSource({ pcm, durationMs: pcm.length / 16 }),
      isComplete: async (soFar) => {
        const { accepted, best } = await recogniser.recognise(soFar.pcm);
        return accepted && (best?.confidence ?? 0) >= SURE;
      },
    },
    new AbortController().signal,
  );
  const pieces: Float32Array[] = [];
  for await (const event of ears) if (event.type === 'utterance') pieces.push(event.utterance.pcm);
  return pieces;
}
