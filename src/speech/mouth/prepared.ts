import { fromInt16, isProblem, type Problem, type Sound, toInt16 } from '../wav.js';
import type { Voice } from './voice.js';

/** about four minutes of speech at 16 kHz */
const DEFAULT_MAX_BYTES = 8 * 1024 * 1024;

/** Sound quieter than this share of the loudest is the silence that engines put around a sentence: the built-in one 0.2 s before it. */
const SILENT = 0.01;
/** so much of it stays before the first sound, and after the last one, s */
const BEFORE_S = 0.005;
const AFTER_S = 0.15;

/** a voice that takes longer for a piece of a sentence has died, ms */
const LONGEST_MAKING_MS = 8_000;

interface Stored {
  samples: Int16Array;
  sampleRate: number;
}

/** Sentences made into sound ahead of time, keyed by text, voice and rate; the longest unused go first. */
export class Prepared {
  private readonly stored = new Map<string, Stored>();
  private readonly making = new Map<string, Promise<Sound | Problem>>();
  private bytes = 0;

  constructor(private readonly maxBytes = DEFAULT_MAX_BYTES) {}

  has(text: string, voice: Voice, rate: number): boolean {
    return this.stored.has(key(text, voice, rate));
  }

  /** What is in the store, without waiting even for the next turn of the loop; null: nothing. */
  ready(text: string, voice: Voice, rate: number): Sound | null {
    const id = key(text, voice, rate);
    const stored = this.stored.get(id);
    if (!stored) return null;
    this.stored.delete(id);
    this.stored.set(id, stored);
    return { pcm: fromInt16(stored.samples), sampleRate: stored.sampleRate };
  }

  /** From the store, else made now; two askers for one sentence share one making. */
  get(text: string, voice: Voice, rate: number): Promise<Sound | Problem> {
    const id = key(text, voice, rate);
    const stored = this.ready(text, voice, rate);
    if (stored) return Promise.resolve(stored);
    const already = this.making.get(id);
    if (already) return already;
    const making = attempt(text, voice, rate)
      .then((sound) => (isProblem(sound) ? attempt(text, voice, rate) : sound))
      .then((sound) => {
        this.making.delete(id);
        if (!isProblem(sound)) this.keep(id, sound);
        return sound;
      });
    this.making.set(id, making);
    return making;
  }

  get size(): { sentences: number; bytes: number } {
    return { sentences: this.stored.size, bytes: this.bytes };
  }

  private keep(id: string, sound: Sound): void {
    const samples = toInt16(sound.pcm);
    this.stored.set(id, { samples, sampleRate: sound.sampleRate });
    this.bytes += samples.byteLength;
    for (const [oldest, value] of this.stored) {
      if (this.bytes <= this.maxBytes || oldest === id) break;
      this.stored.delete(oldest);
      this.bytes -= value.samples.byteLength;
    }
  }
}

/** One try at a sentence; never rejects, and ends even where the voice hangs. */
function attempt(text: string, voice: Voice, rate: number): Promise<Sound | Problem> {
  const failed = (why: string): Problem => ({ problem: `${voice.label} could not speak: ${why}.` });
  return new Promise((resolve) => {
    const late = setTimeout(() => resolve(failed('it did not answer')), LONGEST_MAKING_MS);
    void Promise.resolve()
      .then(() => voice.synthesise(text, rate))
      .catch((error: unknown) => failed(String(error)))
      .then((sound) => {
        clearTimeout(late);
        resolve(isProblem(sound) ? sound : withoutSilence(sound));
      });
  });
}

/** Whoever asked something waits for its first sound, not for silence. */
function withoutSilence({ pcm, sampleRate }: Sound): Sound {
  const loudest = pcm.reduce((most, v) => Math.max(most, Math.abs(v)), 0);
  const sounds = (v: number): boolean => Math.abs(v) > SILENT * loudest;
  const from = pcm.findIndex(sounds) - Math.round(BEFORE_S * sampleRate);
  const to = pcm.findLastIndex(sounds) + Math.round(AFTER_S * sampleRate);
  return loudest === 0 ? { pcm, sampleRate } : { pcm: pcm.slice(Math.max(0, from), to), sampleRate };
}

function key(text: string, voice: Voice, rate: number): string {
  return `${voice.id} ${rate.toFixed(3)} ${text}`;
}
