import { existsSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Readable } from 'node:stream';
import { setTimeout as sleep } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { without } from '../without.js';
import { AutoGain } from './auto-gain.js';
import { FrameClock } from './frame-clock.js';
import { FrameCutter, type FrameSource, type SourceEvent } from './frames.js';
import { LevelWatch } from './level-watch.js';
import {
  availableRecorders,
  complaint,
  howToGetRecorder,
  type RecorderName,
  recorderCommand,
} from './recorders.js';

const RETRY_MS = [500, 1000, 2000, 4000, 8000] as const;
/** a recorder that runs but sends nothing for so long has lost its device */
const STALL_MS = 3000;

/** Under a test runner this file is TypeScript, which the library cannot load: then the built one is used. */
function recorderFile(): string {
  const beside = fileURLToPath(new URL('./recorder-command.cjs', import.meta.url));
  return existsSync(beside)
    ? beside
    : fileURLToPath(new URL('../../../dist/speech/ears/recorder-command.cjs', import.meta.url));
}

/** The part of node-record-lpcm16 1.0.1 used here; it has no types of its own. */
interface Recording {
  process: import('node:child_process').ChildProcess;
  stream(): Readable;
  stop(): void;
}
interface Recorder {
  record(options: object): Recording;
}

export interface MicrophoneOptions {
  /** monotonic, ms */
  now(): number;
  /** recorders to try in turn; what the machine has when not given */
  recorders?: readonly RecorderName[];
  /** as the sound system names it; the system's default when not given */
  device?: string | null;
  /** waits before each new try, ms; the last one is kept */
  retryMs?: readonly number[];
  /** whether the assistant itself sounds at this time, ms on the clock of `now` */
  ownVoiceAt?(ms: number): boolean;
}

/**
 * The microphone through node-record-lpcm16. One that vanishes is reported and tried again for as long as the stream is open: every
 * second time with the best recorder, which hears soonest that it is back, and between with the others in turn.
 */
export function microphone(options: MicrophoneOptions): FrameSource {
  return {
    async *open(signal) {
      const retryMs = options.retryMs ?? RETRY_MS;
      let failures = 0;
      while (!signal.aborted) {
        const recorders = options.recorders ?? availableRecorders();
        const recorder = recorders[failures % 2 === 0 ? 0 : ((failures + 1) / 2) % recorders.length];
        let why = howToGetRecorder();
        if (recorder) {
          const session = new Session(recorder, options);
          for await (const event of session.events(signal)) {
            if (event.type === 'frame') failures = 0;
            yield event;
          }
          why = session.why;
        }
        if (signal.aborted || without('supervision')) return;
        const retryInMs = retryMs[Math.min(failures, retryMs.length - 1)] ?? 8000;
        failures++;
        yield { type: 'lost', sentence: why, retryInMs };
        await sleep(retryInMs, undefined, { signal, ref: false }).catch(() => {});
      }
    },
  };
}

/** One recorder process from its start to its end. */
class Session {
  why = '';
  private readonly queue: SourceEvent[] = [];
  private wake: () => void = () => {};
  private over = false;
  private stderr = '';
  private readonly clock = new FrameClock();
  private readonly levels = new LevelWatch();
  private readonly gain = new AutoGain();
  private heardAny = false;
  private stall: NodeJS.Timeout | null = null;

  constructor(
    private readonly recorder: RecorderName,
    private readonly options: MicrophoneOptions,
  ) {}

  async *events(signal: AbortSignal): AsyncIterable<SourceEvent> {
    const recording = this.start();
    const stop = () => this.end('');
    signal.addEventListener('abort', stop, { once: true });
    if (recording) this.stall = this.watchdog();
    try {
      while (!this.over || this.queue.length > 0) {
        const event = this.queue.shift();
        if (event) yield event;
        else {
          await new Promise<void>((resolve) => {
            this.wake = resolve;
          });
        }
      }
    } finally {
      if (this.stall) clearTimeout(this.stall);
      signal.removeEventListener('abort', stop);
      this.over = true;
      recording?.process.kill('SIGKILL');
    }
  }

  private watchdog(): NodeJS.Timeout {
    return setTimeout(() => this.end('The microphone sends nothing. Check its plug.'), STALL_MS);
  }

  private start(): Recording | null {
    try {
      const { record } = createRequire(import.meta.url)('node-record-lpcm16') as Recorder;
      const recording = record({
        recorder: recorderFile(),
        ...recorderCommand(this.recorder, this.options.device ?? null),
      });
      this.listen(recording);
      return recording;
    } catch (error) {
      this.end(complaint(this.recorder, String(error)));
      return null;
    }
  }

  private listen(recording: Recording): void {
    const cutter = new FrameCutter();
    const stream = recording.stream();
    stream.on('data', (chunk: Buffer) => {
      for (const pcm of cutter.push(chunk)) this.frame(pcm);
    });
    // the library leaves a failed start unhandled and throws a bad exit code at the stream: both end here
    stream.on('error', () => {});
    recording.process.on('error', (error) => this.end(complaint(this.recorder, error.message)));
    recording.process.stderr?.on('data', (chunk: Buffer) => {
      this.stderr = (this.stderr + chunk.toString('utf8')).slice(-1000);
    });
    recording.process.on('close', () => this.end(complaint(this.recorder, this.stderr)));
  }

  private frame(pcm: Float32Array): void {
    this.stall?.refresh();
    const startMs = this.clock.startOf(this.options.now());
    if (!this.heardAny) this.push({ type: 'listening', recorder: this.recorder });
    this.heardAny = true;
    this.push({ type: 'frame', pcm: this.gain.apply(pcm, this.options.ownVoiceAt?.(startMs)), startMs });
    const sentence = this.levels.remark(pcm) ?? this.gain.remark();
    if (sentence) this.push({ type: 'remark', sentence });
  }

  private push(event: SourceEvent): void {
    if (this.over) return;
    this.queue.push(event);
    this.wake();
  }

  private end(why: string): void {
    if (this.over) return;
    this.over = true;
    this.why = why;
    this.wake();
  }
}
