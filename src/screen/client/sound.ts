/** This device's microphone, with the browser's own echo canceller, as frames of 16 kHz. */
export class Microphone {
  #context: AudioContext | null = null;
  #stream: MediaStream | null = null;
  #on = false;

  constructor(private readonly frame: (samples: Int16Array<ArrayBuffer>) => void) {}

  /** One sentence that says why not, or null. */
  async open(): Promise<string | null> {
    if (this.#stream) return null;
    if (!navigator.mediaDevices)
      return 'The browser gives a microphone only over HTTPS. Start with --screen-lan.';
    try {
      this.#stream = await navigator.mediaDevices.getUserMedia({
        audio: { echoCancellation: true, noiseSuppression: true, autoGainControl: true, channelCount: 1 },
      });
      this.#context = new AudioContext();
      await this.#context.audioWorklet.addModule('/client/pickup.js');
      const pickup = new AudioWorkletNode(this.#context, 'pickup', { numberOfOutputs: 0 });
      pickup.port.onmessage = ({ data }) => {
        if (this.#on) this.frame(data as Int16Array<ArrayBuffer>);
      };
      this.#context.createMediaStreamSource(this.#stream).connect(pickup);
      return null;
    } catch (error) {
      this.close();
      const name = error instanceof Error ? error.name : '';
      return name === 'NotAllowedError'
        ? 'The microphone was not allowed. Allow it in the browser’s settings for this page.'
        : `The microphone cannot be used (${error instanceof Error ? error.message : String(error)}).`;
    }
  }

  set on(on: boolean) {
    this.#on = on;
    if (on) void this.#context?.resume();
  }

  close(): void {
    this.#on = false;
    for (const track of this.#stream?.getTracks() ?? []) track.stop();
    void this.#context?.close();
    this.#stream = null;
    this.#context = null;
  }
}

/** Plays what the assistant says. */
export class Speaker {
  #context: AudioContext | null = null;
  #playing: AudioBufferSourceNode | null = null;

  /** Must follow a touch or a key: browsers play nothing before. */
  async open(): Promise<void> {
    this.#context ??= new AudioContext();
    await this.#context.resume();
  }

  /** true: it sounds */
  play(samples: Int16Array, rate: number): boolean {
    const context = this.#context;
    if (context?.state !== 'running' || samples.length === 0) return false;
    this.hush();
    const buffer = context.createBuffer(1, samples.length, rate);
    buffer.copyToChannel(
      Float32Array.from(samples, (v) => v / 32_768),
      0,
    );
    const source = context.createBufferSource();
    source.buffer = buffer;
    source.connect(context.destination);
    source.start();
    this.#playing = source;
    return true;
  }

  hush(): void {
    this.#playing?.stop();
    this.#playing = null;
  }

  close(): void {
    void this.#context?.close();
    this.#context = null;
    this.#playing = null;
  }
}
