import { spawn, spawnSync } from 'node:child_process';
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = fileURLToPath(new URL('../..', import.meta.url));
export const main = join(root, 'dist', 'app', 'main.js');

export const scratch = (): string => mkdtempSync(join(tmpdir(), 'tankside-test-'));

export interface Ran {
  code: number | null;
  out: string;
  err: string;
}

/** Runs the built command line to its end. */
export function tankside(args: string[], options: { input?: string; env?: NodeJS.ProcessEnv } = {}): Ran {
  const done = spawnSync(process.execPath, [main, ...args], {
    input: options.input ?? '',
    encoding: 'utf8',
    env: { ...process.env, NO_COLOR: '1', ...options.env },
    timeout: 240_000,
  });
  return { code: done.status, out: done.stdout, err: done.stderr };
}

export const jsonLines = (text: string): Record<string, unknown>[] =>
  text
    .split('\n')
    .filter((l) => l.trim() !== '')
    .map((l) => JSON.parse(l) as Record<string, unknown>);

/** Starts the assistant and leaves it running; `until` waits for words in what it prints. */
export function startAssistant(data: string) {
  const child = spawn(process.execPath, [main, 'run', '--text', '--data', data], {
    env: { ...process.env, NO_COLOR: '1' },
    stdio: 'pipe',
  });
  let out = '';
  let err = '';
  const waiting: { words: string; done: () => void }[] = [];
  child.stdout.on('data', (chunk: Buffer) => {
    out += chunk.toString();
    for (const w of waiting) if (out.includes(w.words)) w.done();
  });
  child.stderr.on('data', (chunk: Buffer) => {
    err += chunk.toString();
  });
  const ended = new Promise<number | null>((resolve) => child.on('close', resolve));
  return {
    child,
    ended,
    get out() {
      return out;
    },
    get err() {
      return err;
    },
    say: (line: string) => child.stdin.write(`${line}\n`),
    until: (words: string) =>
      out.includes(words) ? Promise.resolve() : new Promise<void>((done) => waiting.push({ words, done })),
  };
}
