/**
 * The ears and the mouth: delay of the endpointer, its share of a core, how soon strangers' commands are decided, and how soon each
 * voice speaks.
 *   npm run bench:ears [-- --only quiet,endpointer,decision,voices] [--people FOLDER] [--part 0/4]
 * --part: which share of the strangers' clips, which are no part of the project (bench:people has more of them).
 */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { listen } from '../../src/speech/ears/listen.js';
import { loadSilero } from '../../src/speech/ears/silero.js';
import { availableVoices } from '../../src/speech/mouth/voices.js';
import { createRecogniser } from '../../src/speech/recogniser/recogniser.js';
import { isProblem } from '../../src/speech/wav.js';
import { mix, sentence, water } from '../speech/ears/sounds.js';
import { wavSource } from '../speech/ears/wav-source.js';
import { decisions } from './voice/decision.js';
import { CONDITIONS, heardIn, readPeople } from './voice/people.js';
import { percentile } from './voice/stats.js';

const { values: asked } = parseArgs({
  options: {
    only: { type: 'string', default: 'quiet,endpointer,decision,voices' },
    people: { type: 'string', default: '../shared/people' },
    part: { type: 'string', default: '0/1' },
  },
});
const wants = (what: string): boolean => asked.only.split(',').includes(what);

const TEXTS = [
  'Stop.',
  'Quiet.',
  'Next step.',
  'Drain now.',
  'How long left?',
  'Developer is in.',
  'Spilled fifty millilitres of fixer.',
  'Bath is forty one point one degrees.',
  'Undo that.',
  'Add thirty seconds.',
];
const VOICES = ['flite-wasm:slt', 'flite-wasm:rms', 'flite-wasm:awb'];
const GAP = 24_000;
/** quiet, or the room's noise, that goes on after a clip, samples: more than the longest pause */
const AFTER = 12_000;

const spread = (ms: readonly number[]): string =>
  `median ${percentile(ms, 0.5).toFixed(0)} ms, 95 % ${percentile(ms, 0.95).toFixed(0)} ms`;

async function endpointer(): Promise<void> {
  const clips: Float32Array[] = [];
  for (const voice of VOICES) for (const text of TEXTS) clips.push(await sentence(text, voice));
  for (const complete of [true, false]) {
    for (const snrDb of [45, 20, 10, 5, 0]) {
      const pcm = water(
        clips.reduce((sum, c) => sum + c.length + GAP, GAP),
        0.05 * 10 ** (-snrDb / 20),
      );
      let at = GAP;
      const ends = clips.map((clip) => {
        mix(pcm, clip, at);
        at += clip.length + GAP;
        return (at - GAP) / 16;
      });
      let nowMs = 0;
      const delays: number[] = [];
      const source = wavSource({ pcm, durationMs: pcm.length / 16 });
      const watched = {
        async *open(signal: AbortSignal) {
          for await (const event of source.open(signal)) {
            if (event.type === 'frame') nowMs = event.startMs + 32;
            yield event;
          }
        },
      };
      const before = process.cpuUsage();
      let found = 0;
      for await (const event of listen(
        { source: watched, isComplete: () => complete },
        new AbortController().signal,
      )) {
        if (event.type !== 'utterance') continue;
        found++;
        const end = ends.find((ms) => Math.abs(ms - event.utterance.speechEndMs) < 400);
        if (end !== undefined) delays.push(nowMs - end);
      }
      const used = process.cpuUsage(before);
      const cpu = (used.user + used.system) / 1000 / (pcm.length / 16);
      console.log(
        `endpointer ${complete ? 'complete  ' : 'incomplete'} at ${snrDb} dB: ${found} utterances of ${clips.length}, ` +
          `delay ${spread(delays)}, ${(cpu * 100).toFixed(2)} % of a core`,
      );
    }
  }
}

async function quietRoom(): Promise<void> {
  const pcm = water(16_000 * 60, 0.0004);
  const before = process.cpuUsage();
  for await (const _ of listen(
    { source: wavSource({ pcm, durationMs: 60_000 }) },
    new AbortController().signal,
  ));
  const used = process.cpuUsage(before);
  console.log(`a quiet room for a minute: ${((used.user + used.system) / 600_000).toFixed(2)} % of a core`);
}

/** Processor time, which queues on one core; other work on the machine lengthens it all the same. */
async function decision(): Promise<void> {
  if (!existsSync(join(asked.people, 'commands.json'))) {
    console.log(`decision: no clips in ${asked.people}. Name their folder with --people.`);
    return;
  }
  const [part = 0, parts = 1] = asked.part.split('/').map(Number);
  const { grammar, kitchen, clips } = readPeople(asked.people, (number) => number % parts === part);
  const recogniser = await createRecogniser();
  recogniser.setGrammar(grammar);
  for (const { name, snrDb } of CONDITIONS) {
    const decided = [];
    for (const { pcm, number } of clips) {
      const longer = new Float32Array(pcm.length + AFTER);
      longer.set(pcm);
      const sound = snrDb === null ? pcm : heardIn(longer, kitchen, snrDb, 1000 + number);
      decided.push(...(await decisions(recogniser, sound)));
    }
    const ms = decided.map((d) => d.ms);
    const within = ms.filter((v) => v <= 200).length;
    console.log(
      `decision in ${name}: ${ms.length} sentences, after the pause ${spread(ms)}, ${within} within 200 ms; ` +
        `after the voice ${spread(decided.map((d) => d.afterVoiceMs))}`,
    );
  }
  await recogniser.close();
}

async function voices(): Promise<void> {
  for (const voice of availableVoices()) {
    const took: string[] = [];
    for (const text of ['Drain now.', 'Stop bath is next, in one minute.', 'Drain now.']) {
      const start = performance.now();
      const sound = await voice.synthesise(text, 1);
      took.push(isProblem(sound) ? sound.problem : `${(performance.now() - start).toFixed(0)} ms`);
    }
    voice.close();
    console.log(`voice ${voice.id}: first, longer, again: ${took.join(', ')}`);
  }
}

const start = performance.now();
await loadSilero();
console.log(`voice-activity model ready in ${(performance.now() - start).toFixed(0)} ms`);
if (wants('quiet')) await quietRoom();
if (wants('endpointer')) await endpointer();
if (wants('decision')) await decision();
if (wants('voices')) await voices();
console.log(`memory ${(process.memoryUsage().rss / 1e6).toFixed(0)} MB resident`);
