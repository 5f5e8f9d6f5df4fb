import { beforeAll, describe, expect, it } from 'vitest';
import { attend, attention } from '../../../src/speech/ears/attention.js';
import { type EarsEvent, type EarsOptions, listen } from '../../../src/speech/ears/listen.js';
import { mix, sentence, water } from './sounds.js';
import { wavSource } from './wav-source.js';

const RATE = 16;
const TEXTS = ['Stop.', 'Drain now.', 'Spilled fifty millilitres of fixer.'];
let clips: Float32Array[] = [];
beforeAll(async () => {
  const voices = ['flite-wasm:slt', 'flite-wasm:rms'];
  clips = await Promise.all(voices.flatMap((voice) => TEXTS.map((text) => sentence(text, voice))));
});

async function hear(pcm: Float32Array, options: Partial<EarsOptions> = {}): Promise<EarsEvent[]> {
  const events: EarsEvent[] = [];
  const source = wavSource({ pcm, durationMs: pcm.length / RATE });
  for await (const event of listen({ source, ...options }, new AbortController().signal)) events.push(event);
  return events;
}

const utterances = (events: EarsEvent[]) =>
  events.filter((e) => e.type === 'utterance').map((e) => e.utterance);

/** The clips with 1.5 s between them, in noise of the level given, dB below the speech. */
function scene(snrDb: number): { pcm: Float32Array; spans: { fromMs: number; toMs: number }[] } {
  const gap = 24_000;
  const total = clips.reduce((sum, clip) => sum + clip.length + gap, gap);
  const pcm = water(total, 0.05 * 10 ** (-snrDb / 20));
  let at = gap;
  const spans = clips.map((clip) => {
    mix(pcm, clip, at);
    const span = { fromMs: at / RATE, toMs: (at + clip.length) / RATE };
    at += clip.length + gap;
    return span;
  });
  return { pcm, spans };
}

describe.each([40, 10, 3])('speech %i dB above the water', (snrDb) => {
  it('gives one utterance for each sentence, whole, and nothing else', async () => {
    const { pcm, spans } = scene(snrDb);
    const heard = utterances(await hear(pcm));
    expect(heard.length).toBe(spans.length);
    heard.forEach((u, i) => {
      const span = spans[i];
      expect(u.startMs).toBeLessThan((span?.fromMs ?? 0) + 32);
      expect(u.endMs).toBeGreaterThan((span?.toMs ?? 0) - 64);
      expect(u.reason).toBe('silence');
      expect(u.pcm.length).toBe(Math.round((u.endMs - u.startMs) * RATE));
    });
  });
});

it('a complete command ends sooner than an incomplete one', async () => {
  const { pcm } = scene(40);
  const asked: number[] = [];
  const heard = utterances(
    await hear(pcm, {
      isComplete: ({ pcm: partial }) => {
        asked.push(partial.length);
        return true;
      },
    }),
  );
  expect(asked.length).toBeGreaterThanOrEqual(heard.length);
  expect(new Set(heard.map((u) => u.reason))).toEqual(new Set(['complete']));
});

it('hears through a tap opened in the middle, by model and by level alone', async () => {
  const clip = clips[1] ?? new Float32Array();
  const pcm = water(16_000 * 12, 0.0004);
  mix(pcm, water(16_000 * 8, 0.015), 16_000 * 4);
  mix(pcm, clip, 16_000 * 2);
  mix(pcm, clip, 16_000 * 9);
  const heard = utterances(await hear(pcm));
  expect(heard.map((u) => Math.round(u.startMs / 1000))).toEqual([2, 9]);
  const byLevel = utterances(await hear(pcm, { loadModel: null }));
  expect(byLevel.some((u) => u.startMs < 2100)).toBe(true);
  expect(byLevel.some((u) => u.startMs > 8000 && u.startMs < 9100)).toBe(true);
});

it('clicks, knocks and silence are nothing', async () => {
  const pcm = water(16_000 * 4, 0.0004);
  for (let at = 8000; at < pcm.length; at += 9000) {
    for (let i = 0; i < 200; i++) pcm[at + i] = 0.7 * Math.exp(-i / 40) * (i % 2 ? 1 : -1);
  }
  expect(utterances(await hear(pcm))).toEqual([]);
  expect(utterances(await hear(new Float32Array(32_000)))).toEqual([]);
});

it('a recording that ends in mid-word still gives its utterance', async () => {
  const source = wavSource(
    { pcm: (clips[2] ?? new Float32Array()).slice(0, 16_000), durationMs: 1000 },
    { tailMs: 0 },
  );
  const heard: EarsEvent[] = [];
  for await (const event of listen({ source }, new AbortController().signal)) heard.push(event);
  expect(utterances(heard).map((u) => u.reason)).toEqual(['closed']);
});

it('a model that does not load is told once, and the ears go on by level', async () => {
  const { pcm } = scene(40);
  const events = await hear(pcm, { loadModel: async () => ({ problem: 'No model.' }) });
  expect(events.filter((e) => e.type === 'problem')).toEqual([{ type: 'problem', sentence: 'No model.' }]);
  expect(utterances(events).length).toBeGreaterThan(0);
});

it('the attention of the moment says what counts', async () => {
  const { pcm, spans } = scene(40);
  const second = spans[1];
  if (!second) throw new Error('no second sentence');
  const held = attend(attention('push-to-talk'), { type: 'key', atMs: second.fromMs + 50 });
  const events = await hear(pcm, { attention: () => held });
  const how = events.flatMap((e) => (e.type === 'utterance' ? [e.hears] : []));
  expect(how.filter((h) => h === 'all')).toHaveLength(1);
  expect(how[1]).toBe('all');
});

it('a microphone that is lost is told of once, however often it is tried, and again when it came and went', async () => {
  const lost = { type: 'lost', sentence: 'It is unplugged.', retryInMs: 10 } as const;
  const busy = { type: 'lost', sentence: 'It is busy.', retryInMs: 10 } as const;
  const source = {
    async *open() {
      yield* [lost, lost, busy, busy, { type: 'listening', recorder: 'sox' } as const, busy];
    },
  };
  const told: EarsEvent[] = [];
  for await (const event of listen({ source }, new AbortController().signal)) told.push(event);
  expect(told.map((e) => (e.type === 'problem' ? e.sentence : e.type))).toEqual([
    'It is unplugged. I will try again.',
    'It is busy. I will try again.',
    'listening',
    'It is busy. I will try again.',
  ]);
});
