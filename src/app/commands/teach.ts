import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { performance } from 'node:perf_hooks';
import { createInterface, type Interface } from 'node:readline/promises';
import type { Command } from 'commander';
import { exitCode, Refusal } from '../exit.js';
import { dataDir } from '../paths.js';

/** Sentences that together hold most sounds of the commands; each is said once. */
const sentences = [
  'begin the run',
  'next step',
  'developer is forty one point one degrees',
  'fixer is thirty seven point nine degrees',
  'pouring the bleach in from bottle four',
  'returning the developer to bottle two',
  'the pre bath is in',
  'tank is empty',
  'drain now',
  'how long until the fixer',
  'hold the clock',
  'resume the clock',
  'spilled twenty milliliters of bleach on the table',
  'add thirty seconds',
  'add thirteen seconds',
  'what is in bottle three',
  'stop bath is in',
  'undo that',
];

interface Lesson {
  pcm: Float32Array;
  words: string;
}

export function registerTeach(program: Command): void {
  program
    .command('teach')
    .description('learn how you speak from about twenty commands; stays on this machine, never needed')
    .option(
      '--from <folder>',
      'recordings instead of the microphone: WAV files with a manifest.json of {"file","words"}',
    )
    .option('--forget', 'forget the voice that was learnt')
    .option('--data <folder>', 'where the voice is kept')
    .action(async (options: { from?: string; forget?: boolean; data?: string }) => {
      const folder = dataDir(options.data);
      const { forgetVoice, keepVoice } = await import('../user-voice.js');
      if (options.forget) {
        forgetVoice(folder);
        console.log('The voice that was learnt is forgotten. I hear as before.');
        return;
      }
      const lessons = options.from ? await fromFolder(options.from) : await fromMicrophone();
      if (lessons.length < 5) {
        throw new Refusal('At least five sentences are needed to learn a voice; nothing was changed.');
      }
      const { createRecogniser } = await import('../../speech/recogniser/index.js');
      const recogniser = await createRecogniser();
      const profile = await recogniser.learnVoice(lessons);
      await recogniser.close();
      const path = keepVoice(folder, profile);
      console.log(
        `Learnt from ${lessons.length} sentences and kept in ${path}. To undo it: tankside teach --forget`,
      );
    });
}

async function fromFolder(folder: string): Promise<Lesson[]> {
  const { isProblem, readWav } = await import('../../speech/wav.js');
  let list: unknown;
  try {
    list = JSON.parse(readFileSync(join(folder, 'manifest.json'), 'utf8'));
  } catch {
    throw new Refusal(
      `${folder} has no readable manifest.json. It should be a list of {"file": "a.wav", "words": "next step"}.`,
    );
  }
  if (!Array.isArray(list))
    throw new Refusal(`${folder}/manifest.json should be a list of {"file", "words"}.`);
  const lessons: Lesson[] = [];
  for (const entry of list as { file?: unknown; words?: unknown; command?: unknown }[]) {
    if (entry.command === false || typeof entry.file !== 'string' || typeof entry.words !== 'string')
      continue;
    const sound = await readWav(resolve(folder, entry.file));
    if (isProblem(sound)) console.error(`${sound.problem} I go on without it.`);
    else lessons.push({ pcm: sound.pcm, words: entry.words.toLowerCase() });
  }
  return lessons;
}

async function fromMicrophone(): Promise<Lesson[]> {
  const { availableRecorders, howToGetRecorder } = await import('../../speech/ears/recorders.js');
  if (availableRecorders().length === 0) throw new Refusal(howToGetRecorder(), exitCode.failed);
  const typed = createInterface({ input: process.stdin, output: process.stdout });
  console.log(
    'Say each sentence as you would at the sink, then wait a moment. Enter skips one; “stop” ends here.',
  );
  const lessons: Lesson[] = [];
  const { microphone } = await import('../../speech/ears/microphone.js');
  const { listen } = await import('../../speech/ears/listen.js');
  try {
    for (const [i, words] of sentences.entries()) {
      const heard = await oneSentence(`${i + 1} of ${sentences.length}:  ${words}`, typed, (signal) =>
        listen({ source: microphone({ now: () => performance.now() }) }, signal),
      );
      if (heard === 'stop') break;
      if (heard !== 'skip') lessons.push({ pcm: heard, words });
    }
  } finally {
    typed.close();
  }
  return lessons;
}

type Listen = (
  signal: AbortSignal,
) => AsyncIterable<
  | { type: 'utterance'; utterance: { pcm: Float32Array } }
  | { type: 'problem'; sentence: string }
  | { type: 'listening' | 'speech' | 'own-voice' }
>;

async function oneSentence(
  prompt: string,
  typed: Interface,
  listen: Listen,
): Promise<Float32Array | 'skip' | 'stop'> {
  const done = new AbortController();
  const keyed = typed
    .question(`${prompt}  `, { signal: done.signal })
    .then((line): 'skip' | 'stop' => (line.trim().toLowerCase() === 'stop' ? 'stop' : 'skip'))
    .catch((): 'skip' => 'skip');
  const spoken = (async (): Promise<Float32Array> => {
    for await (const event of listen(done.signal)) {
      if (event.type === 'problem')
        throw new Refusal(`${event.sentence} Nothing was changed.`, exitCode.failed);
      if (event.type === 'utterance') return event.utterance.pcm;
    }
    return new Promise(() => {});
  })();
  try {
    return await Promise.race([keyed, spoken]);
  } finally {
    done.abort();
    process.stdout.write('\n');
  }
}
