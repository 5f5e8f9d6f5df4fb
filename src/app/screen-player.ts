import type { Page } from '../screen/server/server.js';
import type { Playback, PlaybackEnd, Player } from '../speech/mouth/player.js';
import { type Sound, toInt16 } from '../speech/wav.js';

/** A screen that has not begun to play by then does not: the computer speaks instead, ms. */
const patienceMs = 600;

/**
 * Plays on the screens that were asked to sound, and on the computer when none of them does. A call must be heard, so
 * a screen has to report that it plays.
 */
export class ScreenPlayer implements Player {
  readonly id = 'screens';
  #next = 1;
  #waiting = new Map<number, () => void>();

  constructor(
    private readonly page: Pick<Page, 'play' | 'hush'>,
    private readonly own: Player | null,
  ) {}

  /** a screen reports that it plays */
  began(id: number): void {
    this.#waiting.get(id)?.();
  }

  wake(sampleRate: number): void {
    this.own?.wake?.(sampleRate);
  }

  play(sound: Sound): Playback {
    const id = this.#next++;
    if (!this.page.play(id, toInt16(sound.pcm), sound.sampleRate)) return this.#here(sound);
    let onComputer: Playback | null = null;
    let finish: (end: PlaybackEnd) => void = () => {};
    const done = new Promise<PlaybackEnd>((resolve) => {
      finish = resolve;
    });
    const durationMs = (sound.pcm.length / sound.sampleRate) * 1000;
    let timer = setTimeout(() => {
      this.#waiting.delete(id);
      onComputer = this.#here(sound);
      void onComputer.done.then(finish);
    }, patienceMs);
    this.#waiting.set(id, () => {
      this.#waiting.delete(id);
      clearTimeout(timer);
      timer = setTimeout(() => finish('ended'), durationMs);
    });
    return {
      done,
      stop: () => {
        clearTimeout(timer);
        this.#waiting.delete(id);
        this.page.hush();
        onComputer?.stop();
        finish('stopped');
      },
    };
  }

  close(): void {
    this.own?.close?.();
  }

  #here(sound: Sound): Playback {
    return this.own?.play(sound) ?? { done: Promise.resolve('stopped'), stop: () => {} };
  }
}
