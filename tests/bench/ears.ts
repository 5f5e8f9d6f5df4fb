/** The ears and the mouth: delay of the endpointer, its share of a core, and how soon each voice speaks. */
import { wavSource } from '../../src/speech/ears/frames.js';
import { listen } from '../../src/speech/ears/listen.js';
import { loadSilero } from '../../src/speech/ears/silero.js';
import { availableVoices } from '../../src/speech/mouth/voices.js';
import { isProblem } from '../../src/speech/wav.js';
import { mix, sentence, water } from '../speech/ears/sounds.js';

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
const median = (values: number[]) => [...values].sort((a, b) => a - b)[values.length >> 1] ?? Number.NaN;
const percentile95 = (values: number[]) =>
  [...values].sort((a, b) => a - b)[Math.floor(values.length * 0.95)] ?? Number.NaN;

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
          `delay median ${median(delays).toFixed(0)} ms, p95 ${percentile95(delays).toFixed(0)} ms, ${(cpu * 100).toFixed(2)} % of a core`,
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
await quietRoom();
await endpointer();
await voices();
console.log(`memory ${(process.memoryUsage().rss / 1e6).toFixed(0)} MB resident`);
