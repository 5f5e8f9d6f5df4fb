import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { hasCommand } from '../commands.js';
import { alsaArgs, deviceEnv, type SoundSystem, soundSystem } from '../sound-system.js';
import { encodeWav, type Problem, type Sound, toInt16 } from '../wav.js';

export type PlaybackEnd = 'ended' | 'stopped' | Problem;

export interface Playback {
  readonly done: Promise<PlaybackEnd>;
  /** silence at once */
  stop(): void;
}

/** Something that makes sound heard. */
export interface Player {
  readonly id: string;
  play(sound: Sound): Playback;
  /** starts ahead of sound that is likely soon, at so many samples a second */
  wake?(sampleRate: number): void;
  /** ends what was started ahead and is not used */
  close?(): void;
}

interface PlayerCommand {
  command: string;
  for: readonly SoundSystem[];
  /** arguments for raw 16-bit mono on standard input; null: it takes a file name */
  raw: ((sampleRate: number, device: string | null) => string[]) | null;
}

/** Players, best first, for the sound systems that they reach: a server's own goes before one that reaches it by ALSA. */
const PLAYERS: readonly PlayerCommand[] = [
  { command: 'afplay', for: ['coreaudio'], raw: null },
  {
    command: 'paplay',
    for: ['pipewire', 'pulseaudio'],
    raw: (rate, device) => [
      ...['--raw', '--format=s16le', `--rate=${rate}`, '--channels=1', '--latency-msec=40'],
      ...(device ? [`--device=${device}`] : []),
    ],
  },
  {
    command: 'aplay',
    for: ['pipewire', 'pulseaudio', 'alsa', 'none'],
    raw: (rate, device) => [
      ...alsaArgs(device),
      ...['-q', '-t', 'raw', '-f', 'S16_LE', '-c', '1', '-r', String(rate)],
      ...['--period-time=10000', '--buffer-time=80000', '-'],
    ],
  },
  {
    command: 'play',
    for: ['pipewire', 'pulseaudio', 'alsa', 'coreaudio', 'windows', 'none'],
    raw: (rate) => ['-q', '-t', 'raw', '-e', 'signed', '-b', '16', '-c', '1', '-r', String(rate), '-'],
  },
];

export interface PlayerWorld {
  system: SoundSystem;
  has(command: string): boolean;
}

/** The players of this machine that reach its sound system, best first; `device` as that system names it. */
export function availablePlayers(
  world: PlayerWorld = { system: soundSystem(), has: (name) => hasCommand(name) },
  device: string | null = null,
): Player[] {
  return PLAYERS.filter((p) => p.for.includes(world.system) && world.has(p.command)).map((p) =>
    commandPlayer(p, device),
  );
}

function commandPlayer({ command, raw }: PlayerCommand, device: string | null): Player {
  return raw
    ? new PipePlayer(command, (rate) => raw(rate, device), deviceEnv('speaker', device))
    : { id: command, play: (sound) => throughFile(command, sound) };
}

/** a player started ahead is let go when nothing was said for so long; it holds the sound card meanwhile */
const IDLE_MS = 8_000;

interface Started {
  child: ChildProcess;
  playback: Playback;
  sampleRate: number;
}

/** Plays through standard input, so the programme can be started, and its device opened, before the sound is there. */
class PipePlayer implements Player {
  private ahead: Started | null = null;
  private idle: NodeJS.Timeout | null = null;

  constructor(
    readonly id: string,
    private readonly args: (sampleRate: number) => string[],
    private readonly env: Record<string, string>,
  ) {}

  wake(sampleRate: number): void {
    if (this.ahead?.sampleRate !== sampleRate) {
      this.close();
      const started = this.start(sampleRate);
      this.ahead = started;
      // one that ends by itself is no use; the next sound starts another, which says what is wrong
      void started.playback.done.then(() => {
        if (this.ahead === started) this.ahead = null;
      });
    }
    if (this.idle) clearTimeout(this.idle);
    this.idle = setTimeout(() => this.close(), IDLE_MS);
    this.idle.unref();
  }

  play(sound: Sound): Playback {
    const { child, playback } = this.take(sound.sampleRate) ?? this.start(sound.sampleRate);
    const samples = toInt16(sound.pcm);
    child.stdin?.write(Buffer.from(samples.buffer, samples.byteOffset, samples.byteLength));
    // paplay keeps a core busy from the end of its input until it has played what came before
    const end = setTimeout(() => child.stdin?.end(), (1000 * samples.length) / sound.sampleRate);
    void playback.done.then(() => clearTimeout(end));
    return playback;
  }

  close(): void {
    this.ahead?.playback.stop();
    this.ahead = null;
  }

  private take(sampleRate: number): Started | null {
    const { ahead } = this;
    if (!ahead || ahead.sampleRate !== sampleRate || ahead.child.exitCode !== null) {
      this.close();
      return null;
    }
    this.ahead = null;
    return ahead;
  }

  private start(sampleRate: number): Started {
    const env = { ...process.env, ...this.env };
    const child = spawn(this.id, this.args(sampleRate), { stdio: ['pipe', 'ignore', 'pipe'], env });
    child.stdin?.on('error', () => {});
    return { child, playback: watch(this.id, child), sampleRate };
  }
}

function throughFile(command: string, sound: Sound): Playback {
  const folder = mkdtempSync(join(tmpdir(), 'tankside-play-'));
  const file = join(folder, 'play.wav');
  writeFileSync(file, encodeWav(sound.pcm, sound.sampleRate));
  const playback = watch(command, spawn(command, [file], { stdio: ['ignore', 'ignore', 'pipe'] }));
  void playback.done.then(() => rmSync(folder, { recursive: true, force: true }));
  return playback;
}

function watch(command: string, child: ChildProcess): Playback {
  let stopped = false;
  let stderr = '';
  child.stderr?.on('data', (chunk: Buffer) => {
    stderr = (stderr + chunk.toString('utf8')).slice(0, 500);
  });
  const done = new Promise<PlaybackEnd>((resolve) => {
    child.on('error', (error) => resolve({ problem: `${command} did not start: ${error.message}.` }));
    child.on('close', (code) => {
      if (stopped) resolve('stopped');
      else if (code === 0) resolve('ended');
      else {
        const said = stderr.trim().split('\n')[0] || `exit code ${code}`;
        resolve({
          problem: `No sound came out: ${command} says "${said}". Check that a speaker is connected.`,
        });
      }
    });
  });
  return {
    done,
    stop() {
      stopped = true;
      child.kill('SIGKILL');
    },
  };
}
