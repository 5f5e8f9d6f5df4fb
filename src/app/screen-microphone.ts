import { FRAME_MS, FRAME_SAMPLES, type FrameSource, type SourceEvent } from '../speech/ears/frames.js';

/** Beyond this the count of samples and the clock have come apart, ms. */
const driftMs = 250;
/** What was said into a pad that was let go ends in so much quiet, ms: long enough for the endpointer. */
const tailMs = 900;
const levelEveryMs = 250;

/**
 * One microphone out of several: the computer's own, or that of a screen which has taken it. What the others hear in
 * the meantime is thrown away.
 */
export class ChosenMicrophone implements FrameSource {
  #screen: string | null = null;
  #ending: NodeJS.Timeout | null = null;
  #queue: SourceEvent[] = [];
  #wake: () => void = () => {};
  #nextMs = 0;
  #pending = new Float32Array(FRAME_SAMPLES);
  #filled = 0;
  #loudest = 0;
  #levelMs = 0;

  constructor(
    private readonly own: FrameSource | null,
    private readonly now: () => number,
    /** loudness, dB below full scale, a few times a second */
    private readonly level: (db: number) => void,
  ) {}

  /** The screen that is the microphone from now on; null: the computer again, once the last words are through. */
  choose(screen: string | null): void {
    if (this.#ending) clearInterval(this.#ending);
    this.#ending = null;
    if (screen !== null) {
      if (this.#screen !== screen) this.#push({ type: 'listening', recorder: screen });
      this.#screen = screen;
      this.#filled = 0;
      return;
    }
    if (this.#screen !== null) this.#tail();
  }

  /** Sound of the chosen screen, 16-bit samples at 16 kHz, in pieces of any length. */
  heard(samples: Int16Array): void {
    if (this.#screen === null || this.#ending) return;
    for (const sample of samples) {
      this.#pending[this.#filled++] = sample / 32_768;
      if (this.#filled < FRAME_SAMPLES) continue;
      this.#frame(this.#pending);
      this.#pending = new Float32Array(FRAME_SAMPLES);
      this.#filled = 0;
    }
  }

  async *open(signal: AbortSignal): AsyncIterable<SourceEvent> {
    // opened anew after a failure, it must not hear through the old one too
    const here = new AbortController();
    const stop = (): void => {
      here.abort();
      this.#wake();
    };
    signal.addEventListener('abort', stop, { once: true });
    if (this.own) void this.#pump(this.own, here.signal);
    try {
      while (!signal.aborted) {
        const event = this.#queue.shift();
        if (event) yield event;
        else
          await new Promise<void>((resolve) => {
            this.#wake = resolve;
          });
      }
    } finally {
      here.abort();
      this.#queue = [];
      signal.removeEventListener('abort', stop);
    }
  }

  async #pump(own: FrameSource, signal: AbortSignal): Promise<void> {
    for await (const event of own.open(signal)) {
      if (this.#screen !== null) continue;
      if (event.type === 'frame') this.#measure(event.pcm);
      this.#push(event);
    }
  }

  #frame(pcm: Float32Array): void {
    const arrivedMs = this.now() - FRAME_MS;
    if (Math.abs(arrivedMs - this.#nextMs) > driftMs) this.#nextMs = arrivedMs;
    this.#measure(pcm);
    this.#push({ type: 'frame', pcm, startMs: this.#nextMs });
    this.#nextMs += FRAME_MS;
  }

  /** Faint noise, as of a quiet room; digital silence is something that no microphone gives. */
  #tail(): void {
    let left = Math.ceil(tailMs / FRAME_MS);
    let noise = 1;
    this.#ending = setInterval(() => {
      const pcm = new Float32Array(FRAME_SAMPLES);
      for (let i = 0; i < pcm.length; i++) {
        noise = (Math.imul(noise, 1664525) + 1013904223) | 0;
        pcm[i] = (noise / 2 ** 31) * 3e-4;
      }
      this.#frame(pcm);
      if (--left > 0) return;
      if (this.#ending) clearInterval(this.#ending);
      this.#ending = null;
      this.#screen = null;
    }, FRAME_MS);
    this.#ending.unref();
  }

  #measure(pcm: Float32Array): void {
    let sum = 0;
    for (const v of pcm) sum += v * v;
    this.#loudest = Math.max(this.#loudest, sum / pcm.length);
    const nowMs = this.now();
    if (nowMs - this.#levelMs < levelEveryMs) return;
    this.level(Math.max(-90, 10 * Math.log10(this.#loudest + 1e-9)));
    this.#loudest = 0;
    this.#levelMs = nowMs;
  }

  #push(event: SourceEvent): void {
    this.#queue.push(event);
    this.#wake();
  }
}
