import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import { runCommand } from '../../../src/speech/commands.js';
import { isProblem, readWav, writeWav } from '../../../src/speech/wav.js';
import { pause, type SoundRoom, type Tap } from './sound-room.js';

/** The real command, running in a room. */
export class LiveRun {
  readonly lines: { atMs: number; text: string }[] = [];
  readonly child: ChildProcess;
  readonly #folder = mkdtempSync(join(tmpdir(), 'tankside-live-'));

  constructor(room: SoundRoom, voice: string, more: string[] = []) {
    const main = join(process.cwd(), 'dist', 'app', 'main.js');
    const data = join(this.#folder, 'data');
    this.child = spawn(
      process.execPath,
      ['--max-semi-space-size=1', main, 'run', '--voice', voice, '--data', data, ...more],
      { env: room.env, stdio: ['pipe', 'pipe', 'pipe'] },
    );
    let rest = '';
    this.child.stdout?.on('data', (chunk: Buffer) => {
      const parts = (rest + chunk.toString()).split('\n');
      rest = parts.pop() ?? '';
      for (const text of parts) this.lines.push({ atMs: performance.now(), text });
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

  /** resident, MB; and the share of a core over `ms` */
  async use(ms: number): Promise<{ memoryMb: number; coreShare: number }> {
    const ticks = (): number => {
      const fields = readFileSync(`/proc/${this.child.pid}/stat`, 'utf8')
        .replace(/^.*\) /, '')
        .split(' ');
      return Number(fields[11]) + Number(fields[12]);
    };
    const [before, beganMs] = [ticks(), performance.now()];
    await pause(ms);
    const coreShare = (ticks() - before) / 100 / ((performance.now() - beganMs) / 1000);
    const status = readFileSync(`/proc/${this.child.pid}/status`, 'utf8');
    return { memoryMb: Number(/VmRSS:\s+(\d+)/.exec(status)?.[1] ?? 0) / 1024, coreShare };
  }

  async leave(): Promise<number | string | null> {
    this.type('exit');
    for (let i = 0; i < 200 && this.exit === null; i++) await pause(100);
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

const TALK_RMS = 10 ** (-26 / 20);

/** A sentence by a voice of another synthesiser than the assistant's, without quiet at its ends, at -26 dB. */
export async function sentenceFile(folder: string, voice: string, text: string): Promise<string> {
  const file = join(folder, `${voice} ${text}.wav`.replace(/[^\w.]+/g, '-'));
  await runCommand('espeak-ng', ['-v', voice, '-s', '160', '-w', file, text]);
  const made = await readWav(file);
  if (isProblem(made)) throw new Error(made.problem);
  const peak = made.pcm.reduce((m, v) => Math.max(m, Math.abs(v)), 0);
  const from = made.pcm.findIndex((v) => Math.abs(v) > 0.02 * peak);
  const to = made.pcm.findLastIndex((v) => Math.abs(v) > 0.02 * peak);
  const said = made.pcm.slice(from, to);
  const loud = said.filter((v) => Math.abs(v) > 0.05 * peak);
  const rms = Math.sqrt(loud.reduce((sum, v) => sum + v * v, 0) / loud.length);
  await writeWav(
    file,
    said.map((v) => (v * TALK_RMS) / rms),
    16_000,
  );
  return file;
}
