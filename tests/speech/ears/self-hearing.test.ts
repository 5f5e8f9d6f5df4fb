import { beforeAll, describe, expect, it } from 'vitest';
import { openEchoCanceller } from '../../../src/speech/ears/echo-canceller.js';
import { FRAME_SAMPLES } from '../../../src/speech/ears/frames.js';
import { type EarsEvent, listen } from '../../../src/speech/ears/listen.js';
import { SelfHearing } from '../../../src/speech/ears/self-hearing.js';
import { soundsLike } from '../../../src/speech/ears/sounds-like.js';
import { isProblem } from '../../../src/speech/wav.js';
import { mix, noiseSource, sentence, water } from './sounds.js';
import { wavSource } from './wav-source.js';

const PROMPTS = [
  'Developer is at forty one point one degrees. Pour it in now, and start agitating.',
  'The next bath is stop, in three minutes. Have it ready.',
  'Bleach before developer destroys the image. I will not clear that pour.',
  'Stop bath next. Then drain, and be quiet about it.',
];
let prompts: Float32Array[] = [];
let quiet: Float32Array = new Float32Array();
beforeAll(async () => {
  prompts = await Promise.all(PROMPTS.map((text) => sentence(text, 'flite-wasm:slt')));
  quiet = await sentence('Quiet.', 'flite-wasm:rms');
});

/** A small room: the direct sound and sixty reflections over 120 ms, 60 dB down after 300 ms. */
function inRoom(pcm: Float32Array, delaySamples: number): Float32Array {
  const next = noiseSource(11);
  const out = new Float32Array(pcm.length + delaySamples + 2000);
  mix(out, pcm, delaySamples, 0.5);
  for (let i = 0; i < 60; i++) {
    const late = Math.round(Math.abs(next()) * 1920);
    mix(out, pcm, delaySamples + late, 0.12 * next() * Math.exp((-6.9 * late) / 4800));
  }
  return out;
}

interface Talk {
  playAt: number;
  prompt: Float32Array;
}

/** The assistant says its prompts, each starting to sound a different time after it was played; users may speak over. */
async function overheard(userOver: readonly number[], gain: number, gate: SelfHearing | null) {
  const talks: Talk[] = [];
  const users: { fromMs: number; toMs: number }[] = [];
  let at = 16_000;
  for (const prompt of prompts) {
    talks.push({ playAt: at, prompt });
    at += prompt.length + 28_000;
  }
  const pcm = water(at, 0.0004);
  talks.forEach(({ playAt, prompt }, i) => {
    mix(pcm, inRoom(prompt, 1200 + ((i * 977) % 2000)), playAt);
    if (!userOver.includes(i)) return;
    const speaks = playAt + 28_000;
    mix(pcm, quiet, speaks, gain);
    users.push({ fromMs: speaks / 16, toMs: (speaks + quiet.length) / 16 });
  });
  const source = wavSource({ pcm, durationMs: pcm.length / 16 });
  const heard: (EarsEvent & { type: 'utterance' })[] = [];
  const telling = {
    async *open(signal: AbortSignal) {
      let next = 0;
      for await (const event of source.open(signal)) {
        const talk = talks[next];
        if (event.type === 'frame' && talk && talk.playAt / 16 <= event.startMs) {
          gate?.started({ pcm: talk.prompt, sampleRate: 16_000 }, talk.playAt / 16);
          next++;
        }
        yield event;
      }
    },
  };
  const options = { source: telling, ...(gate ? { selfHearing: gate } : {}), isComplete: () => true };
  for await (const event of listen(options, new AbortController().signal)) {
    if (event.type === 'utterance') heard.push(event);
  }
  const mine = heard.filter(
    (e) => !users.some((u) => e.utterance.startMs < u.toMs && e.utterance.endMs > u.fromMs),
  );
  return { heard, mine, users };
}

describe('while the assistant speaks', () => {
  it('would hear itself without the gate', async () => {
    expect((await overheard([], 1, null)).heard.length).toBeGreaterThanOrEqual(prompts.length);
  });

  it('does not hear itself', async () => {
    expect((await overheard([], 1, new SelfHearing())).heard).toEqual([]);
  });

  it.each([2, 1, 0.5])('hears a user who speaks over it at %d times its own level', async (gain) => {
    const { heard, mine, users } = await overheard([1, 2, 3], gain * 0.5, new SelfHearing());
    expect(mine).toEqual([]);
    const got = users.filter((u) =>
      heard.some((e) => e.utterance.startMs < u.toMs && e.utterance.endMs > u.fromMs),
    );
    expect(got.length).toBeGreaterThanOrEqual(2);
    expect(heard.every((e) => e.overVoice)).toBe(true);
  });

  it('is deaf to all where there is no canceller, rather than hear itself', async () => {
    const none = new SelfHearing(() => ({ problem: 'There is none here.' }));
    expect((await overheard([1, 2, 3], 1, none)).heard).toEqual([]);
  });
});

describe('the gate alone', () => {
  it('passes everything, unchanged, while nothing is said', () => {
    const gate = new SelfHearing();
    const frame = water(FRAME_SAMPLES, 0.1);
    expect(gate.frame(frame, 0)).toBe(frame);
    expect(gate.judge({ startMs: 0, endMs: 32 })).toBe('clear');
  });

  it('knows its own voice, late and coloured by a room', () => {
    const prompt = prompts[0] ?? new Float32Array();
    const judged = (room: Float32Array) => {
      const gate = new SelfHearing();
      gate.started({ pcm: prompt, sampleRate: 16_000 }, 1000);
      for (let at = 0; at + FRAME_SAMPLES <= 40_000; at += FRAME_SAMPLES)
        gate.frame(room.slice(at, at + FRAME_SAMPLES), 1000 + at / 16);
      gate.close();
      return gate.judge({ startMs: 1500, endMs: 3300 });
    };
    const echo = inRoom(prompt, 2400);
    expect(judged(echo)).toBe('own-voice');
    mix(echo, quiet, 12_000, 0.7);
    expect(judged(echo)).toBe('over-voice');
    expect(judged(water(40_000, 0.05))).toBe('over-voice');
  });

  it('opens again a moment after it was cut off', () => {
    const gate = new SelfHearing();
    gate.started({ pcm: new Float32Array(160_000), sampleRate: 16_000 }, 0);
    gate.stopped(2000);
    expect(gate.soundsAt(2600)).toBe(true);
    expect(gate.soundsAt(2800)).toBe(false);
    expect(gate.judge({ startMs: 3000, endMs: 3600 })).toBe('clear');
  });

  it('takes frames whose clock went back or jumped', () => {
    const gate = new SelfHearing();
    gate.started({ pcm: prompts[0] ?? quiet, sampleRate: 16_000 }, 1000);
    for (const ms of [1000, 1600, 1200, 900, 5000, 1300]) {
      expect(gate.frame(water(FRAME_SAMPLES, 0.01), ms)).toHaveLength(FRAME_SAMPLES);
    }
  });
});

describe('its parts', () => {
  it.each([
    ['near', 200, 200],
    ['half a second away', 7600, 7600],
    ['that moves by 30 ms in the middle', 1600, 2080],
  ])('take out at least 15 dB of their own voice in a room %s', (_what, early, late) => {
    const canceller = openEchoCanceller();
    if (isProblem(canceller)) throw new Error(canceller.problem);
    const played = Float32Array.from(prompts.flatMap((p) => [...p]));
    const [first, second] = [inRoom(played, early), inRoom(played, late)];
    let [before, after] = [0, 0];
    for (let at = 0; at + FRAME_SAMPLES <= played.length; at += FRAME_SAMPLES) {
      const mic = (at < played.length / 2 ? first : second).subarray(at, at + FRAME_SAMPLES);
      const left = canceller.push(played.subarray(at, at + FRAME_SAMPLES), mic);
      if (at < played.length * 0.65) continue;
      for (const v of mic) before += v * v;
      for (const v of left) after += v * v;
    }
    canceller.close();
    expect(10 * Math.log10(before / after)).toBeGreaterThan(15);
  });

  it('tell the same sentence from another', () => {
    const [a = quiet, b = quiet] = prompts;
    expect(soundsLike(inRoom(a, 1600), a)).toBeGreaterThan(0.85);
    expect(soundsLike(inRoom(b, 1600), a)).toBeLessThan(0.75);
  });
});

it('has nothing to look at again where nothing was taken out of what was heard', () => {
  const self = new SelfHearing(() => ({ push: (_, heard) => heard.map((v) => v / 2), close() {} }));
  const loud = new Float32Array(FRAME_SAMPLES).fill(0.3);
  self.started({ pcm: new Float32Array(16_000 * 5).fill(0.3), sampleRate: 16_000 }, 0);
  const at = (frame: number): number => 32 * frame;
  for (let i = 0; i < 40; i++) self.frame(new Float32Array(FRAME_SAMPLES).fill(1e-3), at(i));
  self.frame(loud, at(40));
  expect(self.untouched(at(30), at(41))).toBeNull();
  expect(self.untouched(at(0), at(41))).toHaveLength(41 * FRAME_SAMPLES);
});
