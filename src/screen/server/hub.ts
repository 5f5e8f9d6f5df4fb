import type { RawData, WebSocket } from 'ws';
import type { ScreenLine, ScreenView } from '../view.js';
import { Budget } from './budget.js';
import { readMessage, type ToScreen } from './wire.js';

export interface HubOptions {
  benchMs(): number;
  view(): ScreenView;
  lines(): readonly ScreenLine[];
  /** a sentence typed or pressed on a screen */
  say(words: string, screen: string): void;
  /** the microphone changed hands; null: no screen has it. `held`: a hand is on its talk field */
  microphone(screen: string | null, held: boolean): void;
  /** 16-bit samples at 16 kHz of the screen that has the microphone */
  heard(pcm: Int16Array): void;
  /** a screen began to play the sound with this id */
  playing(id: number): void;
  /** a screen went without saying so, and what it was doing */
  lost(screen: { name: string; microphone: boolean; speaker: boolean }): void;
}

interface Screen {
  name: string;
  socket: WebSocket;
  words: Budget;
  sound: Budget;
  speaker: boolean;
  alive: boolean;
  /** said good-bye or was shut out: its end is no loss */
  leaving: boolean;
}

export const mostScreens = 8;
const beatMs = 1_000;
/** A screen that answered none of so many beats is gone. */
const beatsToAnswer = 4;
/** A screen that cannot keep up misses a picture rather than filling memory, bytes. */
const mostWaiting = 1 << 20;

/** 1000 and 1001: the page was closed or loaded anew. */
const goodByes = [1000, 1001];

/** The screens that are connected, and which of them is the microphone. */
export class Hub {
  readonly #options: HubOptions;
  readonly #screens = new Set<Screen>();
  #holder: Screen | null = null;
  #held = false;
  readonly #beating: NodeJS.Timeout;
  #beats = 0;

  constructor(options: HubOptions) {
    this.#options = options;
    this.#beating = setInterval(() => this.#beat(), beatMs).unref();
  }

  get names(): string[] {
    return [...this.#screens].map((s) => s.name);
  }

  get speakers(): number {
    return [...this.#screens].filter((s) => s.speaker).length;
  }

  enter(socket: WebSocket, name: string): void {
    const now = (): number => performance.now();
    const screen: Screen = {
      name,
      socket,
      words: new Budget(12, 3, now),
      sound: new Budget(120, 70, now),
      speaker: false,
      alive: true,
      leaving: false,
    };
    this.#screens.add(screen);
    socket.on('message', (data, binary) => {
      if (binary) this.#sound(screen, data);
      else this.#words(screen, String(data));
    });
    socket.on('pong', () => {
      screen.alive = true;
    });
    socket.on('error', () => socket.terminate());
    socket.on('close', (code) => this.#left(screen, code));
    send(screen, { type: 'beat', benchMs: this.#options.benchMs() });
    send(screen, { type: 'view', view: this.#options.view() });
    send(screen, { type: 'lines', lines: [...this.#options.lines()] });
    send(screen, { type: 'microphone', you: false, screen: this.#holder?.name ?? null });
  }

  toAll(message: ToScreen): void {
    for (const screen of this.#screens) send(screen, message);
  }

  /** To the screens that play sound; false: there is none. */
  play(id: number, pcm: Int16Array, rate: number): boolean {
    const players = [...this.#screens].filter((s) => s.speaker && isOpen(s));
    for (const screen of players) {
      send(screen, { type: 'sound', id, rate });
      screen.socket.send(Buffer.from(pcm.buffer, pcm.byteOffset, pcm.byteLength));
    }
    return players.length > 0;
  }

  /** Ends the connections of a name, or all. */
  shutOut(name?: string): void {
    for (const screen of this.#screens) {
      if (name !== undefined && screen.name !== name) continue;
      screen.leaving = true;
      send(screen, { type: 'bye', why: 'This screen was shut out. Pair it again to see more.' });
      screen.socket.close(4001);
    }
  }

  close(): void {
    clearInterval(this.#beating);
    for (const screen of this.#screens) {
      screen.leaving = true;
      screen.socket.close(1001);
    }
  }

  #left(screen: Screen, code: number): void {
    this.#screens.delete(screen);
    const had = { name: screen.name, microphone: this.#holder === screen, speaker: screen.speaker };
    if (this.#holder === screen) this.#give(null);
    if (!screen.leaving && !goodByes.includes(code)) this.#options.lost(had);
  }

  #give(screen: Screen | null, held = false): void {
    if (this.#holder === screen && this.#held === held) return;
    this.#holder = screen;
    this.#held = held;
    const name = screen?.name ?? null;
    this.#options.microphone(name, held);
    for (const s of this.#screens) send(s, { type: 'microphone', you: s === screen, screen: name });
  }

  #words(screen: Screen, text: string): void {
    const message = readMessage(text);
    if (!message) {
      screen.socket.close(1003);
      return;
    }
    if (message.type !== 'playing' && !screen.words.take()) {
      send(screen, { type: 'refused', why: 'Too much at once. Wait a moment.' });
      return;
    }
    switch (message.type) {
      case 'say':
        if (message.moment !== null && message.moment !== this.#options.view().moment)
          send(screen, { type: 'refused', why: 'That has moved on meanwhile. Look again.' });
        else this.#options.say(message.words, screen.name);
        break;
      case 'microphone':
        if (message.on) this.#give(screen, message.hold);
        else if (this.#holder === screen) this.#give(null);
        break;
      case 'speaker':
        screen.speaker = message.on;
        break;
      case 'playing':
        this.#options.playing(message.id);
        break;
    }
  }

  #sound(screen: Screen, data: RawData): void {
    const bytes = Buffer.isBuffer(data)
      ? data
      : Array.isArray(data)
        ? Buffer.concat(data)
        : Buffer.from(data);
    if (this.#holder !== screen || bytes.length % 2 !== 0 || !screen.sound.take()) return;
    this.#options.heard(
      new Int16Array(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.length)),
    );
  }

  #beat(): void {
    this.toAll({ type: 'beat', benchMs: this.#options.benchMs() });
    if (++this.#beats % beatsToAnswer !== 0) return;
    for (const screen of this.#screens) {
      if (!screen.alive) screen.socket.terminate();
      screen.alive = false;
      screen.socket.ping();
    }
  }
}

const isOpen = ({ socket }: Screen): boolean => socket.readyState === socket.OPEN;

function send(screen: Screen, message: ToScreen): void {
  if (isOpen(screen) && screen.socket.bufferedAmount < mostWaiting)
    screen.socket.send(JSON.stringify(message));
}
