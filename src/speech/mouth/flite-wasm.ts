import { type ChildProcess, fork } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { decodeWav, isProblem, type Problem, type Sound } from '../wav.js';
import type { FliteAnswer, FliteRequest } from './flite-engine.js';
import { pieces } from './pieces.js';
import { speakable, type Voice } from './voice.js';

/** the engine is let go when nothing was said for so long */
const IDLE_MS = 10_000;
/** every sentence leaves some 19 MB behind until the engine's process ends */
const SENTENCES_AN_ENGINE = 3;
/** an engine that dies over a sentence is replaced and asked again, so many times: Node 20 ends one in a hundred for no fault of the text */
const TRIES = 3;
/** longer than any piece takes even on a busy machine; then the engine has died, ms */
const LONGEST_MS = 6_000;

export const FLITE_VOICES = ['slt', 'rms', 'awb', 'kal16'] as const;
export type FliteVoiceName = (typeof FLITE_VOICES)[number];

/** Under a test runner this file is TypeScript, which a process of its own cannot load: then the built one is used. */
function engineFile(): string {
  const beside = fileURLToPath(new URL('./flite-engine.js', import.meta.url));
  return existsSync(beside)
    ? beside
    : fileURLToPath(new URL('../../../dist/speech/mouth/flite-engine.js', import.meta.url));
}

type Made = { wav?: Uint8Array; error: string };

interface Waiting {
  request: Omit<FliteRequest, 'id' | 'file'>;
  done: (made: Made) => void;
  tries: number;
}

/** The engine in a process of its own, since a text that it cannot take ends its process. A dead one is replaced. */
class FliteEngine {
  private child: ChildProcess | null = null;
  private folder: string | null = null;
  private timer: NodeJS.Timeout | undefined;
  private served = 0;
  private current: Waiting | null = null;
  private readonly queue: Waiting[] = [];

  ask(request: Waiting['request']): Promise<Made> {
    return new Promise((done) => {
      this.queue.push({ request, done, tries: 0 });
      if (!this.current) this.next();
    });
  }

  /** Starts the engine ahead of a sentence that is likely soon. */
  wake(): void {
    if (this.current) return;
    try {
      this.child ?? this.start();
    } catch {
      // the sentence itself will say what is wrong
    }
    this.rest();
  }

  close(): void {
    this.letGo();
    this.finish({ error: 'the voice was closed' });
  }

  private next(): void {
    clearTimeout(this.timer);
    this.current = this.queue.shift() ?? null;
    if (!this.current) {
      this.rest();
      return;
    }
    try {
      const child = this.child ?? this.start();
      const file = `said-${++this.served}.wav`;
      this.timer = setTimeout(() => this.died('it took too long'), LONGEST_MS);
      child.send({ ...this.current.request, id: this.served, file } satisfies FliteRequest);
    } catch (error) {
      this.died(String(error));
    }
  }

  private rest(): void {
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.letGo(), IDLE_MS);
    this.timer.unref();
  }

  private start(): ChildProcess {
    this.folder = mkdtempSync(join(tmpdir(), 'tankside-voice-'));
    process.once('exit', this.removeFolder);
    // WASI warns that it is experimental; the user can do nothing about that, so this process alone keeps it quiet
    const child = fork(engineFile(), [this.folder], {
      execArgv: ['--disable-warning=ExperimentalWarning'],
      stdio: ['ignore', 'ignore', 'ignore', 'ipc'],
    });
    child.unref();
    child.channel?.unref();
    child.on('message', (answer: FliteAnswer) => {
      if (this.child === child) this.answered(answer);
    });
    child.on('error', (error) => this.child === child && this.died(error.message));
    child.on('exit', (code, signal) => this.child === child && this.died(`it ended with ${signal ?? code}`));
    this.child = child;
    this.served = 0;
    return child;
  }

  private answered(answer: FliteAnswer): void {
    if (answer.id !== this.served) return;
    const made = answer.error === '' ? this.read(answer.file) : { error: answer.error };
    if (this.served >= SENTENCES_AN_ENGINE) this.letGo();
    this.finish(made);
  }

  private read(file: string): Made {
    try {
      return { wav: readFileSync(join(this.folder ?? '', file)), error: '' };
    } catch (error) {
      return { error: String(error) };
    }
  }

  private died(error: string): void {
    this.letGo();
    const { current } = this;
    if (current && ++current.tries < TRIES) {
      this.current = null;
      this.queue.unshift(current);
      this.next();
    } else this.finish({ error });
  }

  private letGo(): void {
    clearTimeout(this.timer);
    const { child } = this;
    this.child = null;
    child?.kill('SIGKILL');
    this.removeFolder();
  }

  private readonly removeFolder = (): void => {
    process.off('exit', this.removeFolder);
    if (this.folder) rmSync(this.folder, { recursive: true, force: true });
    this.folder = null;
  };

  private finish(answer: Made): void {
    const waiting = this.current;
    this.current = null;
    if (!waiting) return;
    waiting.done(answer);
    this.next();
  }
}

const engine = new FliteEngine();

/** The voice that comes with the installation: Flite compiled to WebAssembly. It needs nothing else installed. */
export function fliteWasmVoice(name: FliteVoiceName): Voice {
  return {
    id: `flite-wasm:${name}`,
    label: `built-in voice ${name}`,
    sampleRate: 16_000,
    async synthesise(text: string, rate: number): Promise<Sound | Problem> {
      const parts: Sound[] = [];
      for (const piece of pieces(speakable(text))) {
        const made = await engine.ask({ text: piece, voice: name, stretch: Number((1 / rate).toFixed(3)) });
        if (!made.wav) return { problem: `The built-in voice could not speak: ${made.error}.` };
        const sound = decodeWav(made.wav, 'built-in voice');
        if (isProblem(sound)) return sound;
        parts.push(sound);
      }
      return joined(parts);
    },
    wake: () => engine.wake(),
    close: () => engine.close(),
  };
}

function joined(parts: readonly Sound[]): Sound {
  const pcm = new Float32Array(parts.reduce((sum, part) => sum + part.pcm.length, 0));
  let at = 0;
  for (const part of parts) {
    pcm.set(part.pcm, at);
    at += part.pcm.length;
  }
  return { pcm, sampleRate: parts[0]?.sampleRate ?? 16_000 };
}
