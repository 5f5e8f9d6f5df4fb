import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { performance } from 'node:perf_hooks';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import { runCommand } from '../../../src/speech/commands.js';
import { resample } from '../../../src/speech/ears/resample.js';
import { type FliteVoiceName, fliteWasmVoice } from '../../../src/speech/mouth/flite-wasm.js';
import type { Stage } from '../../../src/speech/stages.js';
import { isProblem, type Problem, readWav, type Sound, writeWav } from '../../../src/speech/wav.js';
import { pause, type SoundRoom, type Tap } from './sound-room.js';

/** Under a test runner there is none, and no stages are told. */
const stagesFile = fileURLToPath(new URL('./stages.js', import.meta.url));
const tellsStages = existsSync(stagesFile) ? ['--import', stagesFile] : [];

export interface Use {
  /** with shared pages shared out */
  memoryMb: number;
  /** of a core */
  coreShare: number;
  /** where it goes: threads by name, in and out of the kernel, of a core each */
  threads: { id: string; user: number; system: number }[];
}

/** The real command, running in a room. */
export class LiveRun {
  readonly lines: { atMs: number; text: string }[] = [];
  /** what answers passed, on this process's clock, how the sound begins that was played, at 16 kHz, and what a call says */
  readonly stages: { stage: Stage; atMs: number; begins: Int16Array; text: string; looked?: boolean }[] = [];
  readonly child: ChildProcess;
  readonly #folder = mkdtempSync(join(tmpdir(), 'tankside-live-'));

  constructor(
    room: SoundRoom,
    voice: string,
    more: string[] = [],
    env: Readonly<Record<string, string>> = {},
    prepare: (dataFolder: string) => void = () => {},
  ) {
    const main = join(process.cwd(), 'dist', 'app', 'main.js');
    const data = join(this.#folder, 'data');
    prepare(data);
    this.child = spawn(
      process.execPath,
      ['--max-semi-space-size=1', ...tellsStages, main, 'run', '--voice', voice, '--data', data, ...more],
      { env: { ...room.env, ...env }, stdio: ['pipe', 'pipe', 'pipe'] },
    );
    let rest = '';
    this.child.stdout?.on('data', (chunk: Buffer) => {
      const parts = (rest + chunk.toString()).split('\n');
      rest = parts.pop() ?? '';
      for (const text of parts) this.lines.push({ atMs: performance.now(), text });
    });
    if (this.child.stderr)
      createInterface(this.child.stderr).on('line', (line) => {
        const [, stage, ms, sound = '', text = ''] = /^stage (\S+) ([\d.]+) (\S*) (.*)$/.exec(line) ?? [];
        if (stage === undefined) return;
        const begins = new Int16Array(new Uint8Array(Buffer.from(sound, 'base64')).buffer);
        this.stages.push({ stage: stage as Stage, atMs: Number(ms) - performance.timeOrigin, begins, text });
      });
  }

  type(line: string): void {
    this.child.stdin?.write(`${line}\n`);
  }

  /** The first line that matches, printed after `sinceMs`; null when none came in time. */
  async until(what: RegExp, withinMs: number, sinceMs = 0): Promise<{ atMs: number; text: string } | null> {
    for (let endMs = performance.now() + withinMs; performance.now() < endMs; await pause(10)) {
      const found = this.lines.find(({ atMs, text }) => atMs >= sinceMs && what.test(text));
      if (found) return found;
    }
    return null;
  }

  heardSince(ms: number): string[] {
    return this.lines.flatMap(({ atMs, text }) =>
      atMs >= ms && text.startsWith('heard: ') ? [text.slice(7)] : [],
    );
  }

  /** null while it runs; a crash gives something other than 0 */
  get exit(): number | string | null {
    return this.child.exitCode ?? this.child.signalCode;
  }

  /** What the run and all processes that it started use over `ms`. */
  async use(ms: number): Promise<Use> {
    const before = ticksOf(this.tree());
    const threadsBefore = new Map(threadsOf(this.tree()).map((t) => [t.id, t]));
    const beganMs = performance.now();
    await pause(ms);
    const tree = this.tree();
    const perCore = 1 / 100 / ((performance.now() - beganMs) / 1000);
    const threads = threadsOf(tree).map(({ id, user, system }) => {
      const was = threadsBefore.get(id);
      return {
        id,
        user: perCore * (user - (was?.user ?? 0)),
        system: perCore * (system - (was?.system ?? 0)),
      };
    });
    return {
      memoryMb: tree.reduce((sum, pid) => sum + memoryMb(pid), 0),
      coreShare: perCore * (ticksOf(tree) - before),
      threads: threads.filter((t) => t.user + t.system > 0.005),
    };
  }

  /** the run's process and all below it */
  tree(): number[] {
    const pid = this.child.pid ?? 0;
    return [pid, ...descendants(pid)];
  }

  async leave(): Promise<number | string | null> {
    // with a bath in the tank it asks, and is told again
    for (let i = 0; i < 200 && this.exit === null; i++) {
      if (i % 40 === 0) this.type('exit');
      await pause(100);
    }
    const { exit } = this;
    this.child.kill('SIGKILL');
    rmSync(this.#folder, { recursive: true, force: true, maxRetries: 5 });
    return exit;
  }
}

/** Waits until the tapped sink has been quiet for so long. */
export async function hush(tap: Tap, quietMs = 800, limitMs = 40_000): Promise<void> {
  for (let endMs = performance.now() + limitMs; performance.now() < endMs && !tap.quietFor(quietMs); )
    await pause(10);
}

function descendants(pid: number): number[] {
  try {
    const direct = readFileSync(`/proc/${pid}/task/${pid}/children`, 'utf8').trim();
    const children = direct === '' ? [] : direct.split(' ').map(Number);
    return children.flatMap((child) => [child, ...descendants(child)]);
  } catch {
    return [];
  }
}

/** Processor time, in hundredths of a second: own, and of children that ended. */
function ticksOf(pids: readonly number[]): number {
  return pids.reduce((sum, pid) => {
    const fields = textOf(`/proc/${pid}/stat`)
      .replace(/^.*\) /, '')
      .split(' ');
    return sum + [11, 12, 13, 14].reduce((s, i) => s + Number(fields[i] ?? 0), 0);
  }, 0);
}

/** Processor time of every thread, in hundredths of a second. */
function threadsOf(pids: readonly number[]): Use['threads'] {
  return pids.flatMap((pid) => {
    const program = textOf(`/proc/${pid}/cmdline`)
      .split('\0')
      .find((word) => /\.js$|pa|rec/.test(word));
    return foldersIn(`/proc/${pid}/task`).map((tid) => {
      const [, name = '', rest = ''] = /\((.*)\) (.*)/.exec(textOf(`/proc/${pid}/task/${tid}/stat`)) ?? [];
      const fields = rest.split(' ');
      return {
        id: `${basename(program ?? '')} ${pid === Number(tid) ? 'main' : name} ${tid}`,
        user: Number(fields[11] ?? 0),
        system: Number(fields[12] ?? 0),
      };
    });
  });
}

function foldersIn(folder: string): string[] {
  try {
    return readdirSync(folder);
  } catch {
    return [];
  }
}

const memoryMb = (pid: number): number =>
  Number(/^Pss:\s+(\d+)/m.exec(textOf(`/proc/${pid}/smaps_rollup`))?.[1] ?? 0) / 1024;

function textOf(file: string): string {
  try {
    return readFileSync(file, 'utf8');
  } catch {
    return '';
  }
}

/** Voices of strangers: none was used to make or to tune what hears them, and none is the assistant's own. */
export const STRANGERS = [
  'espeak:en-us+m2',
  'espeak:en-gb-x-rp+f4',
  'flite:rms',
  'espeak:en-us+f2',
  'espeak:en-gb+m6',
];

const TALK_RMS = 10 ** (-26 / 20);

/** A sentence by a voice of another kind than the assistant's, without quiet at its ends, at -26 dB. */
export async function sentenceFile(folder: string, voice: string, text: string): Promise<string> {
  const file = join(folder, `${voice} ${text}.wav`.replace(/[^\w.]+/g, '-'));
  if (existsSync(file)) return file;
  const [kind, name = ''] = voice.split(':');
  let made: Sound | Problem;
  if (kind === 'flite') made = await fliteWasmVoice(name as FliteVoiceName).synthesise(text, 1);
  else {
    await runCommand('espeak-ng', ['-v', name, '-s', '160', '-w', file, text]);
    const read = await readWav(file);
    made = isProblem(read) ? read : { pcm: read.pcm, sampleRate: 16_000 };
  }
  if (isProblem(made)) throw new Error(made.problem);
  const pcm = resample(made.pcm, made.sampleRate, 16_000);
  const peak = pcm.reduce((m, v) => Math.max(m, Math.abs(v)), 0);
  const from = pcm.findIndex((v) => Math.abs(v) > 0.02 * peak);
  const to = pcm.findLastIndex((v) => Math.abs(v) > 0.02 * peak);
  const said = pcm.slice(from, to);
  const loud = said.filter((v) => Math.abs(v) > 0.05 * peak);
  const rms = Math.sqrt(loud.reduce((sum, v) => sum + v * v, 0) / loud.length);
  await writeWav(
    file,
    said.map((v) => (v * TALK_RMS) / rms),
    16_000,
  );
  return file;
}
