import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type SituatedEar, situatedEar } from '../../src/app/hearing.js';
import { installedLanguage } from '../../src/app/language.js';
import { Listener, type ListenerOptions } from '../../src/app/listener.js';
import type { Hearing } from '../../src/language/types.js';
import { isProblem, joined, readWav } from '../../src/speech/wav.js';
import { wavSource } from '../speech/ears/wav-source.js';
import { root } from './cli.js';

let ear: SituatedEar;
beforeAll(async () => {
  ear = await situatedEar(installedLanguage());
});
afterAll(() => ear.close());

/** Plays a recording into a listener, as if a microphone had picked it up. */
async function heardFrom(
  file: string,
  options: Partial<ListenerOptions> = {},
  before: (listener: Listener) => void = () => {},
  afterQuietMs = 0,
): Promise<Hearing[]> {
  const recording = await readWav(join(root, 'audio-fixtures', file));
  if (isProblem(recording)) throw new Error(recording.problem);
  const pcm = joined([new Float32Array(16 * afterQuietMs).fill(1e-4), recording.pcm]);
  const hearings: Hearing[] = [];
  const listener = new Listener({
    source: wavSource({ pcm, durationMs: pcm.length / 16 }),
    ear,
    mode: 'always',
    situations: () => ['preparing'],
    onHearing: (hearing) => hearings.push(hearing),
    onNotice: () => {},
    ...options,
  });
  before(listener);
  await listener.run(new AbortController().signal);
  return hearings;
}

const accepted = (hearings: Hearing[]): string[] =>
  hearings.filter((h) => h.accepted).map((h) => h.best?.words ?? '');

describe('the listener', () => {
  it('cuts a command out of the stream of frames and understands it', async () => {
    expect(accepted(await heardFrom('02-next-step.wav'))).toEqual(['next step']);
  });
  it('lets talk that is no command pass in silence', async () => {
    expect(accepted(await heardFrom('other-1.wav'))).toEqual([]);
  });
  it('heeds nothing without the call word in call-word mode', async () => {
    expect(accepted(await heardFrom('02-next-step.wav', { mode: 'call-word' }))).toEqual([]);
  });
  it('hears no command without the key in push-to-talk mode', async () => {
    expect(accepted(await heardFrom('02-next-step.wav', { mode: 'push-to-talk' }))).toEqual([]);
  });

  /** One that is so sure of a command, while what it reads meanwhile is half another. */
  const halfRead = (confidence: number): SituatedEar => {
    const hearing: Hearing = {
      accepted: true,
      best: { words: 'next step', confidence, score: 0, wordTimes: [] },
      alternatives: [],
      milliseconds: { network: 0, decoder: 0, rejection: 0, total: 0 },
    };
    const guess = { words: 'next', whole: false, mayGoOn: true, hopeless: false };
    return {
      hear: async () => hearing,
      hearUnder: async () => hearing,
      openly: async () => [],
      begin: () => ({ push: () => {}, guess: async () => guess, hear: async () => hearing }),
      prepare: () => {},
      close: async () => {},
    };
  };
  it.each([
    [0.95, 'complete'],
    [0.7, 'complete'],
    [0.55, 'silence'],
  ])('sure by %d of what is read as half a sentence, ends it by %s', async (confidence, reason) => {
    const reasons: string[] = [];
    const ear = halfRead(confidence);
    await heardFrom('02-next-step.wav', { ear, onHearing: (_, how) => reasons.push(how.utterance.reason) });
    expect(reasons.at(-1)).toBe(reason);
  });

  it('looks for a word that silences in what came since just before it was cut off for it', async () => {
    const ear = halfRead(0.9);
    const lengthsMs: number[] = [];
    const none: Hearing = { ...(await ear.hear(new Float32Array(), [])), accepted: false };
    const deafBut: SituatedEar = {
      ...ear,
      hear: async () => none,
      hearUnder: async (pcm, graph) => {
        lengthsMs.push(pcm.length / 16);
        return ear.hearUnder(pcm, graph);
      },
      begin: () => ({ push: () => {}, guess: async () => whole, hear: async () => none }),
    };
    const whole = { words: '', whole: false, mayGoOn: true, hopeless: false };
    const heard = await heardFrom('other-1.wav', { ear: deafBut }, ({ selfHearing }) => {
      selfHearing.started({ pcm: new Float32Array(20 * 16_000), sampleRate: 16_000 }, 0);
      selfHearing.stopped(3_000);
    });
    expect(accepted(heard)).toContain('next step');
    expect(lengthsMs.every((ms) => ms < 1_800)).toBe(true);
  });

  it.each([
    ['with headphones looks once', 2_000, 1],
    ['where its own voice may be among it looks twice', 0, 2],
  ])('for a word that silences, %s', async (_, afterQuietMs, looks) => {
    let looked = 0;
    const ear = halfRead(0.5);
    const unsure = await ear.hear(new Float32Array(), []);
    const none: Hearing = { ...unsure, accepted: false };
    const counting: SituatedEar = {
      ...ear,
      hear: async () => none,
      hearUnder: async () => {
        looked++;
        return unsure;
      },
      begin: () => ({ ...ear.begin([], false), hear: async () => none }),
    };
    const heard = await heardFrom(
      '02-next-step.wav',
      { ear: counting },
      ({ selfHearing }) => {
        const loud = new Float32Array(20 * 16_000).map((_, i) => 0.3 * Math.sin(i));
        selfHearing.started({ pcm: loud, sampleRate: 16_000 }, 0);
        selfHearing.stopped(afterQuietMs + 700);
      },
      afterQuietMs,
    );
    expect(heard.length).toBeGreaterThan(0);
    expect(looked / heard.length).toBe(looks);
  });
});
