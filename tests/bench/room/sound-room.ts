import { type ChildProcess, spawn } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import { hasCommand, runCommand } from '../../../src/speech/commands.js';

const NEEDS = {
  pulseaudio: 'pulseaudio',
  pactl: 'pulseaudio-utils',
  parec: 'pulseaudio-utils',
  'espeak-ng': 'espeak-ng',
};

/** Why there can be no room here; null when there can. */
export function whyNoRoom(): string | null {
  if (process.platform !== 'linux') return 'the virtual devices are those of PulseAudio on Linux';
  const missing = Object.entries(NEEDS).filter(([command]) => !hasCommand(command));
  return missing.length === 0
    ? null
    : `not installed: ${[...new Set(missing.map(([, name]) => name))].join(', ')} (Debian packages)`;
}

export interface EchoPath {
  name: string;
  /** null: headphones, nothing comes back */
  db: number | null;
  delayMs: number;
}

/**
 * A room of virtual devices on a sound server of its own: a speaker, a person, a noise, and a microphone that hears
 * person and noise and as much of the speaker as the echo path says.
 */
export class SoundRoom {
  readonly #folder = mkdtempSync(join(tmpdir(), 'tankside-room-'));
  readonly #children: ChildProcess[] = [];
  #echoModule: string | null = null;
  readonly env: Record<string, string>;

  constructor() {
    const at = (name: string): string => join(this.#folder, name);
    for (const name of ['home', 'run', 'run/pulse']) mkdirSync(at(name), { mode: 0o700 });
    this.env = {
      ...(process.env as Record<string, string>),
      HOME: at('home'),
      XDG_CONFIG_HOME: at('home'),
      XDG_RUNTIME_DIR: at('run'),
      PULSE_RUNTIME_PATH: at('run/pulse'),
      PULSE_SERVER: `unix:${at('run/pulse.sock')}`,
      NO_COLOR: '1',
    };
  }

  /** @throws Error with the reason when the server does not start */
  async open(path: EchoPath): Promise<void> {
    const options = [
      '-n',
      '--daemonize=no',
      '--exit-idle-time=-1',
      '--use-pid-file=no',
      '--high-priority=no',
    ];
    const socket = `module-native-protocol-unix socket=${join(this.#folder, 'run/pulse.sock')} auth-anonymous=1`;
    this.#spawn('pulseaudio', [...options, '--realtime=no', '-L', socket]);
    for (let i = 0; !(await this.#pactl('info')).includes('Server Name'); i++) {
      if (i > 50) throw new Error('the sound server does not start');
      await pause(100);
    }
    for (const name of ['speaker', 'mixed'])
      await this.#load('module-null-sink', `sink_name=${name}`, 'rate=48000', 'channels=1');
    // a loop between two sinks grows late by half a second on a busy machine, and so late the voice would come to the microphone
    for (const name of ['person', 'noise'])
      await this.#load('module-remap-sink', `sink_name=${name}`, 'master=mixed', 'remix=no');
    await this.#load('module-remap-source', 'source_name=mic', 'master=mixed.monitor', 'remix=no');
    await this.#pactl('set-default-sink', 'speaker');
    await this.#pactl('set-default-source', 'mic');
    this.#spawn('pacat', [
      '--raw',
      '--format=s16le',
      '--rate=16000',
      '--channels=1',
      '-d',
      'noise',
      this.#hiss(),
    ]);
    await this.setEcho(path);
  }

  async setEcho({ db, delayMs }: EchoPath): Promise<void> {
    if (this.#echoModule) await this.#pactl('unload-module', this.#echoModule);
    this.#echoModule = null;
    if (db === null) return;
    this.#echoModule = await this.#loop('speaker', delayMs);
    await pause(300);
    const inputs = await this.#pactl('list', 'sink-inputs');
    const mine = inputs.split('Sink Input #').find((t) => t.includes(`Owner Module: ${this.#echoModule}\n`));
    if (mine) await this.#pactl('set-sink-input-volume', mine.slice(0, mine.indexOf('\n')), `${db}dB`);
  }

  /** Plays a WAV file as the person, or on the sink `noise`; resolves when it is over. */
  async play(wav: string, sink: 'person' | 'noise' = 'person'): Promise<void> {
    const child = this.#spawn('paplay', [`--device=${sink}`, wav]);
    await new Promise((done) => child.on('close', done));
  }

  /** Raw sound over and over as the noise of the room; returns what ends it. */
  keepPlaying(raw: string): () => void {
    let child: ChildProcess | null = null;
    const again = (): void => {
      child = this.#spawn('pacat', [
        '--raw',
        '--format=s16le',
        '--rate=16000',
        '--channels=1',
        '-d',
        'noise',
        raw,
      ]);
      child.on('close', () => child && again());
    };
    again();
    return () => {
      const last = child;
      child = null;
      last?.kill('SIGKILL');
    };
  }

  /** Listens to the monitor of a sink. */
  tap(sink: string): Tap {
    return new Tap(
      this.#spawn('parec', [
        '--raw',
        '--format=s16le',
        '--rate=16000',
        '--channels=1',
        '--latency-msec=20',
        '-d',
        `${sink}.monitor`,
      ]),
    );
  }

  close(): void {
    for (const child of this.#children.reverse()) child.kill('SIGKILL');
    rmSync(this.#folder, { recursive: true, force: true, maxRetries: 5 });
  }

  async #loop(source: string, latencyMs: number): Promise<string> {
    const still = ['adjust_time=0', 'source_dont_move=true', 'sink_dont_move=true'];
    return this.#load(
      'module-loopback',
      `source=${source}.monitor`,
      'sink=mixed',
      `latency_msec=${latencyMs}`,
      ...still,
    );
  }

  /** The index of the module. @throws Error where this sound server lacks it: in a room with no way from the person to the microphone nothing is heard */
  async #load(module: string, ...args: string[]): Promise<string> {
    const index = await this.#pactl('load-module', module, ...args);
    if (!/^\d+$/.test(index))
      throw new Error(`The sound server has no ${module}: install PulseAudio with all its modules.`);
    return index;
  }

  async #pactl(...args: string[]): Promise<string> {
    const vars = ['HOME', 'XDG_RUNTIME_DIR', 'PULSE_RUNTIME_PATH', 'PULSE_SERVER'].map(
      (k) => `${k}=${this.env[k]}`,
    );
    return (await runCommand('env', [...vars, 'pactl', ...args])).stdout.toString().trim();
  }

  #spawn(command: string, args: string[]): ChildProcess {
    const child = spawn(command, args, { env: this.env, stdio: ['ignore', 'pipe', 'ignore'] });
    this.#children.push(child);
    return child;
  }

  /** a real room is never digitally silent: twenty minutes of white noise at about -66 dB */
  #hiss(): string {
    let seed = 1;
    const hiss = Int16Array.from({ length: 16_000 * 1200 }, () => {
      seed = (Math.imul(seed, 1664525) + 1013904223) | 0;
      return (seed / 2 ** 31) * 26;
    });
    writeFileSync(join(this.#folder, 'hiss.raw'), Buffer.from(hiss.buffer));
    return join(this.#folder, 'hiss.raw');
  }
}

const LOUD = 10 ** (-50 / 20);
const BLOCK = 80;
const LATE_S = 12;
/** two sounds are the same if they correlate so well: between words of one voice it is a third at most */
const SAME_SOUND = 0.6;

interface Stretch {
  fromMs: number;
  toMs: number;
}

/** A block of sound at this time belongs to the last stretch or, after a quarter of a second of silence, begins another. */
function longer(stretches: Stretch[], atMs: number): void {
  const last = stretches.at(-1);
  if (last && atMs - last.toMs < 250) last.toMs = atMs + 5;
  else stretches.push({ fromMs: atMs, toMs: atMs + 5 });
}

/** When a sink sounded, ms on the monotonic clock. */
export class Tap {
  /** stretches of sound; silences of a quarter of a second part them */
  readonly stretches: Stretch[] = [];
  /** the last seconds of its sound, round and round */
  readonly #late = new Float32Array(LATE_S * 16_000);
  #offsetMs = Number.POSITIVE_INFINITY;
  #samples = 0;
  #rest: Buffer = Buffer.alloc(0);

  constructor(child: ChildProcess) {
    child.stdout?.on('data', (chunk: Buffer) => this.#take(Buffer.concat([this.#rest, chunk])));
  }

  get lastMs(): number {
    return this.stretches.at(-1)?.toMs ?? Number.NEGATIVE_INFINITY;
  }

  /** When this sound, at 16 kHz, began within two seconds of this time; null: nothing like it sounded. */
  whenSounded(begins: Int16Array, sinceMs: number): number | null {
    const audible = begins.findIndex((v) => Math.abs(v) / 32768 > LOUD);
    const sound = begins.subarray(Math.max(0, audible));
    const first = Math.round(16 * (sinceMs - this.#offsetMs));
    const last = Math.min(first + 2 * 16_000, this.#samples - sound.length);
    let best = { likeness: SAME_SOUND, at: -1 };
    for (let at = Math.max(first, 0); at < last; at++) {
      let [both, here, there] = [0, 0, 0];
      for (let i = 0; i < sound.length; i++) {
        const heard = this.#late[(at + i) % this.#late.length] as number;
        const given = sound[i] as number;
        both += heard * given;
        here += heard * heard;
        there += given * given;
      }
      const likeness = both / Math.sqrt(here * there || 1);
      if (likeness > best.likeness) best = { likeness, at };
    }
    return best.at < 0 ? null : this.#offsetMs + best.at / 16;
  }

  quietFor(ms: number): boolean {
    return performance.now() - this.lastMs > ms;
  }

  #take(bytes: Buffer): void {
    const blocks = Math.floor(bytes.length / (2 * BLOCK));
    const arrivedMs = performance.now();
    this.#offsetMs = Math.min(this.#offsetMs, arrivedMs - (this.#samples + blocks * BLOCK) / 16);
    for (let b = 0; b < blocks; b++) {
      let peak = 0;
      for (let i = 0; i < BLOCK; i++) {
        const sample = bytes.readInt16LE(2 * (b * BLOCK + i));
        peak = Math.max(peak, Math.abs(sample));
        this.#late[(this.#samples + i) % this.#late.length] = sample;
      }
      const atMs = this.#offsetMs + this.#samples / 16;
      this.#samples += BLOCK;
      if (peak / 32768 < LOUD) continue;
      longer(this.stretches, atMs);
    }
    this.#rest = bytes.subarray(blocks * 2 * BLOCK);
  }
}

export const pause = (ms: number): Promise<void> => new Promise((r) => setTimeout(r, ms));
