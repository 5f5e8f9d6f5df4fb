/** What an audio worklet finds around it; the DOM types do not describe that scope. */
declare const sampleRate: number;
declare function registerProcessor(name: string, processor: new () => object): void;
declare class AudioWorkletProcessor {
  readonly port: MessagePort;
}

const wantedHz = 16_000;
/** 32 ms, what the ears take at once */
const frame = 512;
/** half the length of the low-pass, in samples of the coarser rate */
const lobes = 12;

/** Microphone sound at the hardware's rate → 16-bit samples at 16 kHz, in frames. */
class Pickup extends AudioWorkletProcessor {
  readonly #ratio = sampleRate / wantedHz;
  #held: number[] = [];
  #at = 0;
  #out = new Int16Array(frame);
  #filled = 0;

  process([input]: Float32Array[][]): boolean {
    const channel = input?.[0];
    if (!channel) return true;
    for (const sample of channel) this.#held.push(sample);
    const reach = Math.ceil(lobes * Math.max(1, this.#ratio));
    while (this.#at + reach + 1 < this.#held.length) {
      this.#emit(this.#ratio === 1 ? (this.#held[this.#at] ?? 0) : this.#between(this.#at, reach));
      this.#at += this.#ratio;
    }
    const done = Math.floor(this.#at) - reach;
    if (done > 0) {
      this.#held.splice(0, done);
      this.#at -= done;
    }
    return true;
  }

  /** Band-limited value between samples: a sinc under a raised-cosine window. */
  #between(at: number, reach: number): number {
    const cut = 0.92 / Math.max(1, this.#ratio);
    const centre = Math.floor(at);
    let sum = 0;
    for (let i = Math.max(0, centre - reach); i <= centre + reach; i++) {
      const t = (i - at) * cut;
      const window = 0.5 + 0.5 * Math.cos((Math.PI * (i - at)) / (reach + 1));
      sum += (this.#held[i] ?? 0) * cut * window * (t === 0 ? 1 : Math.sin(Math.PI * t) / (Math.PI * t));
    }
    return sum;
  }

  #emit(value: number): void {
    this.#out[this.#filled++] = Math.round(Math.max(-1, Math.min(1, value)) * 32_767);
    if (this.#filled < frame) return;
    this.port.postMessage(this.#out);
    this.#out = new Int16Array(frame);
    this.#filled = 0;
  }
}

registerProcessor('pickup', Pickup);
