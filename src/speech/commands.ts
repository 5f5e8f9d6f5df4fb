import { spawn } from 'node:child_process';
import { accessSync, constants } from 'node:fs';
import { delimiter, join } from 'node:path';

export interface CommandResult {
  /** null when it was killed or never started */
  code: number | null;
  stdout: Buffer;
  stderr: string;
}

/** Whether a programme of this name is on PATH. */
export function hasCommand(name: string, path = process.env.PATH ?? ''): boolean {
  return path.split(delimiter).some((folder) => {
    try {
      accessSync(join(folder, name), constants.X_OK);
      return folder !== '';
    } catch {
      return false;
    }
  });
}

/** Runs a programme without a shell and collects what it writes; never rejects. */
export function runCommand(
  name: string,
  args: readonly string[],
  input = '',
  timeoutMs = 20_000,
): Promise<CommandResult> {
  return new Promise((resolve) => {
    const child = spawn(name, args, { stdio: 'pipe', timeout: timeoutMs, killSignal: 'SIGKILL' });
    const out: Buffer[] = [];
    let stderr = '';
    child.stdout.on('data', (chunk: Buffer) => out.push(chunk));
    child.stderr.on('data', (chunk: Buffer) => {
      stderr = (stderr + chunk.toString('utf8')).slice(-2000);
    });
    child.stdin.on('error', () => {});
    child.on('error', (error) => resolve({ code: null, stdout: Buffer.concat(out), stderr: error.message }));
    child.on('close', (code) => resolve({ code, stdout: Buffer.concat(out), stderr }));
    child.stdin.end(input);
  });
}
