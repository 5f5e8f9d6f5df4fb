import type { FromScreen, ToScreen } from '../server/wire.js';

export interface LinkEvents {
  message(message: ToScreen): void;
  sound(header: Extract<ToScreen, { type: 'sound' }>, samples: Int16Array): void;
  /** not let in: a code is needed */
  stranger(): void;
  joined(name: string): void;
  /** seconds without a word from the computer; null: all is well */
  stale(seconds: number | null): void;
}

const staleMs = 3_500;
const retryMs = [300, 700, 1_500, 3_000];
/** The clock goes by the quickest of so many beats: the others were only later under way. */
const beatsKept = 12;

/** The connection to the computer: it comes back by itself, and carries the bench clock. */
export class Link {
  #socket: WebSocket | null = null;
  #tries = 0;
  #lastMs = performance.now();
  #beats: number[] = [];
  #header: Extract<ToScreen, { type: 'sound' }> | null = null;
  #stopped = false;
  #stale = false;

  constructor(private readonly events: LinkEvents) {
    setInterval(() => this.#watch(), 1_000);
    addEventListener('online', () => this.#again(0));
    document.addEventListener('visibilitychange', () => {
      if (document.visibilityState === 'visible' && this.#socket === null) this.#again(0);
    });
  }

  /** The bench clock now, ms; null before the first beat. */
  get benchMs(): number | null {
    return this.#beats.length === 0 ? null : performance.now() + Math.max(...this.#beats);
  }

  async open(): Promise<void> {
    this.#stopped = false;
    try {
      const who = await fetch('/who', { cache: 'no-store' });
      if (who.status === 401) return this.events.stranger();
      const { name } = (await who.json()) as { name: string };
      this.#connect(name);
    } catch {
      this.#again();
    }
  }

  stop(): void {
    this.#stopped = true;
    this.#socket?.close(1000);
  }

  send(message: FromScreen): boolean {
    return this.#put(JSON.stringify(message));
  }

  sendSound(samples: Int16Array<ArrayBuffer>): boolean {
    return (this.#socket?.bufferedAmount ?? 0) < 64_000 && this.#put(samples);
  }

  #put(data: string | Int16Array<ArrayBuffer>): boolean {
    if (this.#socket?.readyState !== WebSocket.OPEN) return false;
    this.#socket.send(data);
    return true;
  }

  #connect(name: string): void {
    const socket = new WebSocket(`${location.protocol === 'https:' ? 'wss' : 'ws'}://${location.host}/live`);
    socket.binaryType = 'arraybuffer';
    this.#socket = socket;
    this.#beats = [];
    socket.onopen = () => {
      this.#tries = 0;
      this.events.joined(name);
    };
    socket.onmessage = ({ data }) => this.#take(data as string | ArrayBuffer);
    socket.onclose = () => {
      if (this.#socket !== socket) return;
      this.#socket = null;
      if (!this.#stopped) this.#again();
    };
  }

  #take(data: string | ArrayBuffer): void {
    this.#lastMs = performance.now();
    if (this.#stale) this.#watch();
    if (typeof data !== 'string') {
      if (this.#header) this.events.sound(this.#header, new Int16Array(data));
      this.#header = null;
      return;
    }
    const message = JSON.parse(data) as ToScreen;
    if (message.type === 'beat')
      this.#beats = [...this.#beats, message.benchMs - this.#lastMs].slice(-beatsKept);
    else if (message.type === 'sound') this.#header = message;
    this.events.message(message);
  }

  #again(afterMs = retryMs[Math.min(this.#tries, retryMs.length - 1)] ?? 3_000): void {
    this.#tries++;
    setTimeout(() => {
      if (this.#socket === null && !this.#stopped) void this.open();
    }, afterMs);
  }

  #watch(): void {
    const silentMs = performance.now() - this.#lastMs;
    const stale = silentMs > staleMs && !this.#stopped;
    if (stale) this.events.stale(Math.round(silentMs / 1000));
    else if (this.#stale) this.events.stale(null);
    this.#stale = stale;
    // a socket that says nothing may be dead without knowing it
    if (silentMs > 3 * staleMs && this.#socket?.readyState === WebSocket.OPEN) this.#socket.close();
  }
}
