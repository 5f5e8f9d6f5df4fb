import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';
import { decodeWav, type Problem, type Sound } from '../wav.js';
import type { FliteAnswer, FliteRequest } from './flite-worker.js';
import { speakable, type Voice } from './voice.js';

/** the thread and its module are let go when nothing was said for so long */
const IDLE_MS = 10_000;
/** every sentence leaves some 19 MB behind until the thread ends, and starting one anew takes about 40 ms */
const SENTENCES_A_THREAD = 2;

export const FLITE_VOICES = ['slt', 'rms', 'awb', 'kal16'] as const;
export type FliteVoiceName = (typeof FLITE_VOICES)[number];

/** Under a test runner this file is TypeScript, which a thread cannot load: then the built one is used. */
function workerFile(): string {
  const beside = fileURLToPath(new URL('./flite-worker.js', import.meta.url));
  return existsSync(beside)
    ? beside
    : fileURLToPath(new URL('../../../dist/speech/mouth/flite-worker.js', import.meta.url));
}

interface Waiting {
  request: Omit<FliteRequest, 'id'>;
  done: (answer: Omit<FliteAnswer, 'id'>) => void;
}

class FliteThread {
  private worker: Worker | null = null;
  private folder: string | null = null;
  private idle: NodeJS.Timeout | null = null;
  private served = 0;
  private current: Waiting | null = null;
  private readonly queue: Waiting[] = [];

  ask(request: Waiting['request']): Promise<Omit<FliteAnswer, 'id'>> {
    return new Promise((done) => {
      this.queue.push({ request, done });
      if (!this.current) this.next();
    });
  }

  /** Starts the thread ahead of a sentence that is likely soon. */
  wake(): void {
    if (this.current) return;
    if (!this.worker) this.start().unref();
    this.rest();
  }

  close(): void {
    if (this.idle) clearTimeout(this.idle);
    const worker = this.worker;
    this.worker = null;
    void worker?.terminate();
    this.removeFolder();
    this.finish({ wav: null, error: 'the voice was closed' });
  }

  private next(): void {
    if (this.idle) clearTimeout(this.idle);
    this.current = this.queue.shift() ?? null;
    if (!this.current) {
      this.worker?.unref();
      this.rest();
      return;
    }
    try {
      const worker = this.worker ?? this.start();
      worker.ref();
      worker.postMessage({ ...this.current.request, id: ++this.served } satisfies FliteRequest);
    } catch (error) {
      this.finish({ wav: null, error: String(error) });
    }
  }

  private rest(): void {
    if (this.idle) clearTimeout(this.idle);
    this.idle = setTimeout(() => this.close(), IDLE_MS);
    this.idle.unref();
  }

  private start(): Worker {
    this.folder = mkdtempSync(join(tmpdir(), 'tankside-voice-'));
    process.once('exit', this.removeFolder);
    // WASI warns that it is experimental; the user can do nothing about that, so this thread alone keeps it quiet
    const folder = this.folder;
    const worker = new Worker(workerFile(), {
      execArgv: ['--disable-warning=ExperimentalWarning'],
      workerData: folder,
    });
    worker.on('message', (answer: FliteAnswer) => {
      if (this.served >= SENTENCES_A_THREAD) {
        this.letGo(worker);
        this.start();
      }
      this.finish(answer);
    });
    worker.on('error', (error) => {
      this.letGo(worker);
      this.finish({ wav: null, error: error.message });
    });
    this.worker = worker;
    this.served = 0;
    return worker;
  }

  private letGo(worker: Worker): void {
    if (this.worker === worker) this.worker = null;
    void worker.terminate();
    this.removeFolder();
  }

  private readonly removeFolder = (): void => {
    process.off('exit', this.removeFolder);
    if (this.folder) rmSync(this.folder, { recursive: true, force: true });
    this.folder = null;
  };

  private finish(answer: Omit<FliteAnswer, 'id'>): void {
    const waiting = this.current;
    this.current = null;
    if (!waiting) return;
    waiting.done(answer);
    this.next();
  }
}

const thread = new FliteThread();

/** The voice that comes with the installation: Flite compiled to WebAssembly. It needs nothing else installed. */
export function fliteWasmVoice(name: FliteVoiceName): Voice {
  return {
    id: `flite-wasm:${name}`,
    label: `built-in voice ${name}`,
    sampleRate: 16_000,
    async synthesise(text: string, rate: number): Promise<Sound | Problem> {
      const plain = speakable(text);
      const answer = await thread.ask({ text: plain, voice: name, stretch: Number((1 / rate).toFixed(3)) });
      if (!answer.wav) return { problem: `The built-in voice could not speak: ${answer.error}.` };
      return decodeWav(answer.wav, 'built-in voice');
    },
    wake: () => thread.wake(),
    close: () => thread.close(),
  };
}
