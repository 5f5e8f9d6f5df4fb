import type { SituatedEar } from '../../../src/app/hearing.js';
import { Listener } from '../../../src/app/listener.js';
import { FRAME_MS, type FrameSource } from '../../../src/speech/ears/frames.js';
import { loadSilero } from '../../../src/speech/ears/silero.js';
import { Together } from '../../../src/speech/recogniser/apart/together.js';
import type { Examination, OpenRecogniser } from '../../../src/speech/recogniser/recogniser.js';
import { isProblem } from '../../../src/speech/wav.js';
import { wavSource } from '../../speech/ears/wav-source.js';

/** One sentence as the listener heard it. */
export interface Decided {
  /** from the pause at which it was asked about, 200 ms after the last voice, to the answer, ms */
  ms: number;
  /** the same from the end of the voice */
  afterVoiceMs: number;
  examination: Examination;
}

/**
 * What the live listener makes of a sound that comes as from a microphone, and how long each sentence takes after its pause where one core
 * does all the recogniser's work: processor time, which queues.
 */
export async function decisions(recogniser: OpenRecogniser, pcm: Float32Array): Promise<Decided[]> {
  let nowMs = 0;
  let freeMs = 0;
  let queue: Promise<unknown> = Promise.resolve();
  const work = <T>(what: () => T | Promise<T>): Promise<T> => {
    const askedMs = nowMs;
    const done = queue.then(async () => {
      const before = process.cpuUsage();
      const made = await what();
      const { user, system } = process.cpuUsage(before);
      freeMs = Math.max(freeMs, askedMs) + (user + system) / 1000;
      return made;
    });
    queue = done;
    return done;
  };
  let asked: { askedMs: number; freeMs: number; examination: Examination }[] = [];
  const hear = async (what: () => Promise<Examination>): Promise<Examination> => {
    const askedMs = nowMs;
    const examination = await work(what);
    asked.push({ askedMs, freeMs, examination });
    return examination;
  };
  const ear: SituatedEar = {
    hear: (sound) => hear(() => recogniser.recognise(sound)),
    hearUnder: (sound) => hear(() => recogniser.recognise(sound)),
    openly: async () => [],
    begin: (_, amongTalk) => {
      const utterance = recogniser.begin(amongTalk);
      const sound = new Together((piece) => void work(() => utterance.push(piece)));
      return {
        push: (piece) => sound.push(piece),
        guess: () => {
          sound.hurry();
          return work(() => utterance.guess());
        },
        hear: ({ length }) => {
          sound.flush();
          return hear(() => utterance.hear(length));
        },
      };
    },
    prepare: () => {},
    close: async () => {},
  };
  const frames = wavSource({ pcm, durationMs: pcm.length / 16 });
  const source: FrameSource = {
    async *open(signal) {
      for await (const event of frames.open(signal)) {
        await queue;
        if (event.type === 'frame') nowMs = event.startMs + FRAME_MS;
        yield event;
      }
    },
  };
  const model = await loadSilero();
  if (isProblem(model)) throw new Error(model.problem);
  const decided: Decided[] = [];
  await new Listener({
    ...{ source, ear, mode: 'always', situations: () => [], onNotice: () => {}, onGuess: () => {} },
    loadModel: async () => model,
    onHearing: (_, { utterance: { speechEndMs } }) => {
      const first = asked.find(({ askedMs }) => askedMs > speechEndMs);
      asked = [];
      if (!first) return;
      const { askedMs, examination } = first;
      decided.push({
        ms: first.freeMs - askedMs,
        afterVoiceMs: first.freeMs - speechEndMs,
        examination,
      });
    },
  }).run(new AbortController().signal);
  return decided;
}
