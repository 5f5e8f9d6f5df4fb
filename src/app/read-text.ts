import { readFileSync } from 'node:fs';
import { Refusal } from './exit.js';

/** A text file that the user named. @throws Refusal with the sentence when it cannot be read */
export function readText(path: string, otherwise: string): string {
  try {
    return readFileSync(path, 'utf8');
  } catch {
    throw new Refusal(otherwise);
  }
}
