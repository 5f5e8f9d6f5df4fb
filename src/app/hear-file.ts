import type { Hearing } from '../language/types.js';
import { limits } from '../limits.js';
import { piecesSource } from '../speech/ears/frames.js';
import { listen } from '../speech/ears/listen.js';
import { isProblem, joined, openWav, SAMPLE_RATE_HZ, undecodable } from '../speech/wav.js';
import { deaf } from './hearing.js';

/** What a part of a file was heard as. `atMs`: where it begins; null: the file is one part. `bad`: it cannot be used. */
export interface HeardPart {
  atMs: number | null;
  hearing: Hearing;
  bad: string | null;
}

/**
 * Hears a WAV file of any length: up to `limits.utteranceS` as one utterance, a longer one piece by piece, cut at its pauses as the
 * microphone's sound is. Only a few pieces are in memory at once. Never throws for what is in the file.
 */
export async function* hearWhole(
  path: string,
  hear: (pcm: Float32Array) => Promise<Hearing>,
): AsyncGenerator<HeardPart> {
  const wav = await openWav(path);
  const unusable = (why: string): HeardPart => ({ atMs: null, hearing: deaf(why), bad: why });
  // a recogniser that fails is no fault of the file
  const failed: string[] = [];
  const heard = (pcm: Float32Array): Promise<Hearing> =>
    hear(pcm).catch((error: unknown) => {
      failed.push(
        `I could not hear ${path}: the recogniser failed (${error instanceof Error ? error.message : String(error)}). Nothing is wrong with the file; try again, and see tankside doctor.`,
      );
      throw error;
    });
  if (isProblem(wav)) return yield unusable(wav.problem);
  try {
    if (wav.samples <= limits.utteranceS * SAMPLE_RATE_HZ) {
      const pieces: Float32Array[] = [];
      for await (const piece of wav.pieces()) pieces.push(piece);
      yield { atMs: null, hearing: await heard(joined(pieces)), bad: null };
      return;
    }
    let found = 0;
    for await (const event of listen(
      { source: piecesSource(() => wav.pieces()) },
      new AbortController().signal,
    )) {
      if (event.type !== 'utterance') continue;
      found += 1;
      yield { atMs: event.utterance.startMs, hearing: await heard(event.utterance.pcm), bad: null };
    }
    if (found === 0) yield { atMs: null, hearing: deaf('Nobody speaks in it.'), bad: null };
  } catch {
    yield unusable(failed[0] ?? undecodable(path).problem);
  } finally {
    await wav.close();
  }
}
