import { readFileSync, statSync } from 'node:fs';
import { limits } from '../limits.js';
import { Refusal } from './exit.js';

/** A text file that the user named. @throws Refusal with the sentence when it cannot be read, or is too large */
export function readText(path: string, otherwise: string, mostBytes: number = limits.jsonBytes): string {
  const { file, bytes } = look(path, otherwise);
  // a device or a pipe might never end
  if (!file) throw new Refusal(otherwise);
  if (bytes > mostBytes)
    throw new Refusal(
      `${path} is ${bytes} bytes long; at most ${mostBytes} are taken. Is it the right file?`,
    );
  try {
    return readFileSync(path, 'utf8');
  } catch {
    throw new Refusal(otherwise);
  }
}

function look(path: string, otherwise: string): { file: boolean; bytes: number } {
  try {
    const found = statSync(path);
    return { file: found.isFile(), bytes: found.size };
  } catch {
    throw new Refusal(otherwise);
  }
}
