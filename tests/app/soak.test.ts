import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import type { Reply } from '../../src/app/assistant.js';
import { createBench } from '../../src/app/bench.js';
import { loadManifest } from '../../src/app/commands/rehearse.js';
import { Ears } from '../../src/app/ears.js';
import type { OngoingHearing, SituatedEar } from '../../src/app/hearing.js';
import { LiveConversation } from '../../src/app/live.js';
import { SpokenSpeech } from '../../src/app/spoken-speech.js';
import type { Hearing } from '../../src/language/types.js';
import type { DeskEvent } from '../../src/process/desk.js';
import { FRAME_MS, FRAME_SAMPLES, type FrameSource, type SourceEvent } from '../../src/speech/ears/frames.js';
import { Mouth } from '../../src/speech/mouth/mouth.js';
import type { Player } from '../../src/speech/mouth/player.js';
import type { Voice } from '../../src/speech/mouth/voice.js';
import type { Fact } from '../../src/world/fact.js';
import { rehearsalScript } from '../bench/room/rehearsal-script.js';
import { seeded } from '../bench/voice/random.js';

/**
 * Hours of film after film on a simulated clock, by voice alone, while every part fails at random: the microphone is lost or
 * throws, the recogniser throws, the voice throws, fails or hangs, the player throws, fails or never ends, the disk refuses.
 * `npm run bench:soak` is eight hours of it.
 */
const hours = Number(process.env.TANKSIDE_SOAK_HOURS ?? 0.7);
const seed = Number(process.env.TANKSIDE_SEED ?? 1);
/** a film every forty minutes, the last of which begins so that it ends in time */
const RUN_EVERY_MS = 40 * 60_000;

// what is imported by name is not replaced by the simulated clock
vi.mock('node:perf_hooks', () => ({ performance: { now: () => globalThis.performance.now() } }));

beforeEach(() => {
  vi.useFakeTimers({
    toFake: ['setTimeout', 'clearTimeout', 'setInterval', 'clearInterval', 'performance', 'Date'],
  });
});
afterEach(() => {
  vi.useRealTimers();
});

/** Faults by part, and how many there were. */
class Faults {
  readonly count: Record<string, number> = {};
  private readonly random = seeded(seed);
  constructor(private readonly on: boolean) {}

  /** whether this part fails now */
  here(part: string, share: number): boolean {
    if (!this.on || this.random() >= share) return false;
    this.count[part] = (this.count[part] ?? 0) + 1;
    return true;
  }
}

/** A microphone in front of somebody who says one thing after another. */
class Sink {
  private waiting: (() => void) | null = null;
  private readonly frames: SourceEvent[] = [];
  private noise = 1;

  constructor(private readonly faults: Faults) {}

  readonly source: FrameSource = { open: (signal) => this.open(signal) };

  private async *open(signal: AbortSignal): AsyncIterable<SourceEvent> {
    // what was said while nobody listened is gone
    this.frames.length = 0;
    yield { type: 'listening', recorder: 'a sink' };
    signal.onabort = () => this.waiting?.();
    for (let i = 0; i < 80; i++) yield this.frame(performance.now() - (80 - i) * FRAME_MS, 1e-4);
    while (!signal.aborted) {
      const next = this.frames.shift();
      if (next) yield next;
      else
        await new Promise<void>((resolve) => {
          this.waiting = resolve;
        });
      if (next && this.faults.here('the microphone is lost', 5e-4))
        yield { type: 'lost', sentence: 'The microphone stopped.', retryInMs: 1 };
      if (next && this.faults.here('the ears throw', 5e-4)) throw new Error('no more frames');
    }
  }

  /** Time passes, with somebody's voice in it or none. */
  async pass(ms: number, level: number | null): Promise<void> {
    const stepMs = level === null ? 500 : FRAME_MS;
    for (let t = 0; t < ms; t += stepMs) {
      if (level !== null) this.frames.push(this.frame(performance.now(), level));
      this.waiting?.();
      await vi.advanceTimersByTimeAsync(stepMs);
    }
  }

  private frame(startMs: number, level: number): SourceEvent {
    const pcm = Float32Array.from({ length: FRAME_SAMPLES }, () => {
      this.noise = (Math.imul(this.noise, 1664525) + 1013904223) | 0;
      return (this.noise / 2 ** 31) * level;
    });
    return { type: 'frame', pcm, startMs };
  }
}

/** Understands whatever is being said, unless it fails. */
class Ear implements SituatedEar {
  saying = '';
  constructor(private readonly faults: Faults) {}

  async hear(): Promise<Hearing> {
    if (this.faults.here('the recogniser throws', 0.05)) throw new Error('the recogniser failed');
    return {
      accepted: this.saying !== '',
      best: this.saying === '' ? null : { words: this.saying, confidence: 0.99, score: 0, wordTimes: [] },
      alternatives: [],
      milliseconds: { network: 0, decoder: 0, rejection: 0, total: 0 },
    };
  }
  hearUnder = (): Promise<Hearing> => this.hear();
  openly = async () => [];
  begin(): OngoingHearing {
    if (this.faults.here('the recogniser does not begin', 0.03)) throw new Error('the recogniser failed');
    const guess = { words: '', whole: false, mayGoOn: true, hopeless: false };
    return { push: () => {}, guess: async () => guess, hear: () => this.hear() };
  }
  prepare(): void {}
  async close(): Promise<void> {}
}

const later = (ms: number): Promise<void> => new Promise((done) => setTimeout(done, ms));

function voiceWith(faults: Faults): Voice {
  return {
    id: 'soak',
    label: 'a voice',
    sampleRate: 16_000,
    async synthesise(text) {
      if (faults.here('the voice throws', 0.03)) throw new Error('the voice failed');
      if (faults.here('the voice hangs', 0.01)) await new Promise(() => {});
      await later(80);
      if (faults.here('the voice fails', 0.03)) return { problem: 'The voice failed.' };
      return { pcm: new Float32Array(Math.min(80_000, 900 * text.length)), sampleRate: 16_000 };
    },
    close() {},
  };
}

function playerWith(faults: Faults): Player {
  return {
    id: 'soak',
    play(sound) {
      if (faults.here('the player throws', 0.03)) throw new Error('the player failed');
      if (faults.here('the player fails', 0.03))
        return { done: later(20).then(() => ({ problem: 'The player failed.' })), stop() {} };
      const hangs = faults.here('the player hangs', 0.02);
      const lengthMs = (1000 * sound.pcm.length) / sound.sampleRate;
      return {
        done: hangs ? new Promise(() => {}) : later(lengthMs).then(() => 'ended' as const),
        stop() {},
      };
    },
  };
}

/** Hours at the sink; what became true, in order, and how late each call was shown. */
async function hoursAtTheSink(faulty: boolean) {
  const faults = new Faults(faulty);
  const bench = createBench({ sheet: 'ecn2-ferricyanide' });
  const beganMs = performance.now();
  const clock = { nowMs: () => performance.now() - beganMs, wallMs: () => Date.now() };
  const facts: Fact[] = [];
  const acted: string[] = [];
  const replies: Reply[] = [];
  const lateMs: number[] = [];
  const notices: string[] = [];
  const sink = new Sink(faults);
  const ear = new Ear(faults);
  let ears: Ears | null = null;
  const mouth = new Mouth({
    voice: voiceWith(faults),
    player: playerWith(faults),
    now: () => performance.now(),
    onEvent: (event) => (event.type === 'problem' ? notices.push(event.sentence) : ears?.mouthEvent(event)),
  });
  const show = (reply: Reply): void => {
    replies.push(reply);
    if (reply.kind === 'call') lateMs.push(clock.nowMs() - reply.atMs);
  };
  const speech = new SpokenSpeech(mouth, show, () => clock.nowMs());
  const journal = {
    append: (event: DeskEvent, more: Fact[]) => {
      if (event.type === 'intent') acted.push(event.heard.words);
      facts.push(...more);
      return faults.here('the disk refuses', 0.03) ? { problem: 'The disk is full.' } : null;
    },
  };
  const live = new LiveConversation(bench, { journal, speech, clock }, bench.assistant.initial);
  ears = new Ears({
    bench,
    live,
    mode: 'always',
    dataFolder: '/nowhere',
    notice: (line) => notices.push(line),
    // silence is no entry of the journal
    heard: ({ best }) => best?.words === 'quiet' && acted.push(best.words),
    source: sink.source,
    openEar: async () => ear,
    loadModel: null,
    mouth,
    ask: (text) => speech.say({ atMs: clock.nowMs(), kind: 'question', text, desk: 'talk' }),
  });
  void ears.start();
  live.schedule();
  await sink.pass(3_000, 1e-4);

  /** Says a sentence as often as it takes. */
  const say = async (words: string): Promise<void> => {
    for (let i = 0; i < 30 && mouth.speaking; i++) await sink.pass(1_000, null);
    for (let attempt = 0; attempt < 12; attempt++) {
      const before = acted.length;
      ear.saying = words;
      await sink.pass(400, 1e-4);
      await sink.pass(900, 0.2);
      await sink.pass(1_100, 1e-4);
      ear.saying = '';
      if (acted.slice(before).includes(words)) return;
      // a part that failed again and again waits up to twenty seconds
      await sink.pass(8_000, null);
    }
    throw new Error(
      `nobody heard “${words}”: ${notices.slice(-4).join(' / ')} / ${replies
        .slice(-6)
        .map((r) => `${r.kind}: ${r.text}`)
        .join(' / ')} ${live.conversation.situations()}`,
    );
  };
  const script = rehearsalScript(loadManifest());
  let films = 0;
  for (
    let nextMs = clock.nowMs();
    clock.nowMs() + RUN_EVERY_MS <= hours * 3_600_000;
    nextMs += RUN_EVERY_MS
  ) {
    await vi.advanceTimersByTimeAsync(Math.max(0, nextMs - clock.nowMs()));
    for (const line of script)
      'waitS' in line ? await sink.pass(1_000 * line.waitS, null) : await say(line.words);
    films++;
  }
  await vi.advanceTimersByTimeAsync(60_000);
  const state = live.conversation.state;
  live.stop();
  await ears.stop();
  mouth.close();
  return { films, facts, replies, lateMs, notices, state, faults: faults.count };
}

test(`${hours} hours with every part failing at random end as they do without`, async () => {
  const quiet = await hoursAtTheSink(false);
  const faulty = await hoursAtTheSink(true);
  // Somebody who was not sure to be heard says things twice, which can be a second filling, and a bath that is told late stood longer. The
  // baths that the film went through, in their order, and what was lost are the same.
  const course = (facts: readonly Fact[]) =>
    facts
      .flatMap((fact) =>
        fact.type === 'step-started'
          ? [fact.liquid ?? fact.stepId]
          : fact.type === 'spilled'
            ? ['spilled']
            : [],
      )
      .filter((liquid, i, all) => liquid !== all[i - 1]);
  console.log(
    `${faulty.films} films, ${faulty.lateMs.length} calls, latest ${Math.max(...faulty.lateMs).toFixed(0)} ms; faults:`,
    faulty.faults,
  );
  expect(faulty.films).toBeGreaterThan(0);
  expect(Object.values(faulty.faults).reduce((a, b) => a + b, 0)).toBeGreaterThan(20 * faulty.films);
  expect(Math.max(...faulty.lateMs)).toBeLessThan(60);
  expect(faulty.replies.filter(({ text }) => /^Run closed/.test(text))).toHaveLength(faulty.films);
  expect(course(faulty.facts)).toEqual(course(quiet.facts));
}, 3_600_000);
