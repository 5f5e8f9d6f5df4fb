import { expect, it } from 'vitest';
import { createBench } from '../../src/app/bench.js';
import { Ears, type EarsOptions } from '../../src/app/ears.js';
import { LiveConversation } from '../../src/app/live.js';
import type { Hearing } from '../../src/language/types.js';

const RATE = 16_000;
const FRAME = 512;
const FRAME_MS = (1000 * FRAME) / RATE;
const nothing = { network: 0, decoder: 0, rejection: 0, total: 0 };
const heardAs = (words: string): Hearing => ({
  accepted: true,
  best: { words, confidence: 0.97, score: 0, wordTimes: [] },
  alternatives: [],
  milliseconds: nothing,
});

it('falling silent for its own voice is forgotten: a later “stop” is meant for the desks', async () => {
  const bench = createBench({ sheet: 'ecn2-ferricyanide' });
  const acted: string[] = [];
  let silent = 0;
  const live = new LiveConversation(
    bench,
    {
      journal: {
        append: (event) => {
          if (event.type === 'intent') acted.push(event.intent.type);
          return null;
        },
      },
      speech: { say() {}, prepare() {}, quiet() {}, sayAgain() {}, adjust: () => '' },
      clock: { nowMs: () => performance.now(), wallMs: () => Date.now() },
    },
    bench.assistant.initial,
  );
  await live.typed('mix half a litre of bleach');
  let seed = 1;
  const noise = (): number => {
    seed = (seed * 1103515245 + 12345) & 0x7fffffff;
    return seed / 0x7fffffff - 0.5;
  };
  const sound = (seconds: number, hz: number): Float32Array =>
    Float32Array.from({ length: seconds * RATE }, (_, i) => {
      const t = i / RATE;
      const loud = Math.sin(2 * Math.PI * 3 * t) > 0 ? 0.3 : 0.015;
      return loud * (Math.sin(2 * Math.PI * hz * t) + 0.5 * Math.sin(10 * Math.PI * hz * t) + 0.3 * noise());
    });
  const own = sound(2, 170);
  const theirs = sound(0.8, 440);
  let speaking = true;
  const source: NonNullable<EarsOptions['source']> = {
    async *open() {
      yield { type: 'listening', recorder: 'none' };
      const base = performance.now();
      for (let k = 0; k < 460; k++) {
        const startMs = base + k * FRAME_MS;
        const pcm = Float32Array.from({ length: FRAME }, () => 0.001 * noise());
        const add = (from: Float32Array, at: number): void => {
          for (let i = 0; k >= at && i < FRAME; i++)
            pcm[i] = (pcm[i] ?? 0) + 0.5 * (from[(k - at) * FRAME + i] ?? 0);
        };
        if (k === 120)
          ears.mouthEvent({
            type: 'started',
            line: { id: 1, kind: 'answer', text: 'a long answer', atMs: startMs, breaths: 1 },
            sound: { pcm: own, sampleRate: RATE },
            atMs: startMs,
          });
        if (k === 250) speaking = false;
        add(own, 123);
        add(theirs, 360);
        yield { type: 'frame', pcm, startMs };
      }
    },
  };
  const refused: Hearing = { accepted: false, best: null, alternatives: [], milliseconds: nothing };
  const ear: Awaited<ReturnType<NonNullable<EarsOptions['openEar']>>> = {
    close: async () => {},
    prepare() {},
    begin: () => ({
      push() {},
      guess: async () => ({ words: '', whole: false, hopeless: true, mayGoOn: false }),
      hear: async () => heardAs('stop'),
    }),
    hear: async () => refused,
    hearUnder: async () => refused,
    openly: async () => [],
  };
  const ears: Ears = new Ears({
    bench,
    live,
    mode: 'always',
    dataFolder: '/nowhere',
    notice: () => {},
    source,
    openEar: async () => ear,
    loadModel: null,
    mouth: {
      wake() {},
      giveWay: () => {
        if (speaking) silent++;
        return speaking;
      },
      goOn() {},
      drop() {},
      quiet() {},
    },
    ask: () => {},
  });
  await ears.start();
  expect(silent).toBeGreaterThan(0);
  expect(acted.at(-1)).toBe('stop');
});
