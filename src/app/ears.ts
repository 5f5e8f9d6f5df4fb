import { performance } from 'node:perf_hooks';
import type { AttentionMode } from '../speech/ears/attention.js';
import { microphone } from '../speech/ears/microphone.js';
import { availableRecorders, howToGetRecorder } from '../speech/ears/recorders.js';
import type { MouthEvent } from '../speech/mouth/mouth.js';
import type { Bench } from './bench.js';
import { type SituatedEar, situatedEar } from './hearing.js';
import { Listener } from './listener.js';
import type { LiveConversation } from './live.js';

export interface EarsOptions {
  bench: Bench;
  live: LiveConversation;
  mode: AttentionMode;
  /** one line for the screen */
  notice(sentence: string): void;
}

/** The microphone of a live run. Without one, or without the model, typing goes on and one line says why. */
export class Ears {
  readonly #options: EarsOptions;
  readonly #stop = new AbortController();
  #listener: Listener | null = null;
  #ear: SituatedEar | null = null;

  constructor(options: EarsOptions) {
    this.#options = options;
  }

  async start(): Promise<void> {
    const { bench, live, mode, notice } = this.#options;
    if (availableRecorders().length === 0) {
      notice(howToGetRecorder());
      return;
    }
    try {
      this.#ear = await situatedEar(bench.language);
    } catch (error) {
      notice(`I cannot hear: ${error instanceof Error ? error.message : String(error)}`);
      return;
    }
    this.#listener = new Listener({
      source: microphone({ now: () => performance.now() }),
      ear: this.#ear,
      mode,
      situations: () => live.conversation.situations(),
      onHearing: (hearing) => {
        if (hearing.accepted) notice(`heard: ${hearing.best?.words}`);
        live.conversation.heard(hearing);
        live.schedule();
      },
      onNotice: notice,
    });
    await this.#listener.run(this.#stop.signal);
  }

  /** What the mouth plays must not be taken for a command. */
  mouthEvent(event: Exclude<MouthEvent, { type: 'problem' }>): void {
    const self = this.#listener?.selfHearing;
    if (event.type === 'started') self?.started(event.sound, event.atMs);
    else self?.stopped(event.atMs);
    if (event.type === 'stopped' && event.line.kind === 'question') {
      this.#listener?.attend({ type: 'asked', atMs: event.atMs });
    }
  }

  /** The push-to-talk key. True when it was taken. */
  key(name: string): boolean {
    if (this.#listener?.mode !== 'push-to-talk' || name !== 'space') return false;
    this.#listener.attend({ type: 'key', atMs: performance.now() });
    return true;
  }

  async stop(): Promise<void> {
    this.#stop.abort();
    await this.#ear?.close();
  }
}
