import type { Hearing, OpenReading, WordGraph } from '../language/types.js';
import type { Language } from '../language/understanding.js';
import type { Situation } from '../process/desk.js';
import { type RecogniserApart, recogniserApart } from '../speech/recogniser/apart/recogniser-process.js';
import type { Guess } from '../speech/recogniser/index.js';
import { isProblem, readWav } from '../speech/wav.js';
import { collectGarbage } from './memory.js';

/** A recogniser whose grammar follows the situations that are open. */
export interface SituatedEar {
  hear(pcm: Float32Array, situations: readonly Situation[]): Promise<Hearing>;
  hearUnder(pcm: Float32Array, graph: WordGraph): Promise<Hearing>;
  /** what was heard last, over the whole vocabulary */
  openly(): Promise<readonly OpenReading[]>;
  /** sound that is still coming; one utterance at a time. `amongTalk`: what begins like no sentence is let go */
  begin(situations: readonly Situation[], amongTalk: boolean): OngoingHearing;
  /** compiles the grammar of these situations, so that their first sentence need not wait for it */
  prepare(situations: readonly Situation[]): void;
  close(): Promise<void>;
}

/** An utterance that is heard while it comes. */
export interface OngoingHearing {
  push(pcm: Float32Array): void;
  /** what it may be so far */
  guess(): Promise<Guess>;
  /** what was said in its first samples, in the situations that are open now */
  hear(pcm: Float32Array, situations: readonly Situation[]): Promise<Hearing>;
}

/** After a grammar was put together an answer may be due; by then it is under way, ms. */
const settledMs = 1_500;

/**
 * `notice` is told when hearing starts anew.
 * @throws Error with one clear sentence when the voice model is missing or damaged
 */
export async function situatedEar(
  language: Language,
  notice?: (sentence: string) => void,
): Promise<SituatedEar> {
  const recogniser = await recogniserApart(notice ? { notice } : {});
  const known = new WeakSet<WordGraph>();
  const prepare = (graph: WordGraph): void => {
    recogniser.prepare(graph);
    // putting a grammar together leaves some 50 MB behind
    if (!known.has(graph)) setTimeout(collectGarbage, settledMs).unref();
    known.add(graph);
  };
  return {
    hearUnder: (pcm, graph) => recogniser.recognise(pcm, graph),
    hear: (pcm, situations) => recogniser.recognise(pcm, language.graph(situations)),
    openly: () => recogniser.openly(),
    begin: (situations, amongTalk) => ongoing(recogniser, language, situations, amongTalk),
    prepare: (situations) => prepare(language.graph(situations)),
    close: () => recogniser.close(),
  };
}

function ongoing(
  recogniser: RecogniserApart,
  language: Language,
  begun: readonly Situation[],
  amongTalk: boolean,
): OngoingHearing {
  const graph = language.graph(begun);
  const utterance = recogniser.begin(graph, amongTalk);
  return {
    push: (pcm) => utterance.push(pcm),
    guess: () => utterance.guess(),
    hear: (pcm, situations) => {
      const now = language.graph(situations);
      return now === graph ? utterance.hear(pcm.length) : recogniser.recognise(pcm, now);
    },
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
  return isProblem(sound) ? deaf(sound.problem) : opening(ear, await ear.hear(sound.pcm, situations));
}

/** What was just heard, with what it may be over the whole vocabulary where the grammar has no such sentence. */
export async function opening(ear: SituatedEar, hearing: Hearing): Promise<Hearing> {
  const open = hearing.accepted ? [] : await ear.openly();
  return open.length > 0 ? { ...hearing, open } : hearing;
}

/** The words that a hearing stands for; undefined for none. */
export const wordsOf = ({ accepted, best, open }: Hearing): string | undefined =>
  (accepted ? best : (open?.[0] ?? best))?.words;
