import { mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

/** The user's voice as `tankside teach` learnt it: one small JSON file beside the journal, never needed. */
const fileIn = (folder: string): string => join(folder, 'voice.json');

/** The stored profile as read; null when there is none. What is in it is judged by the recogniser. */
export function storedVoice(folder: string): unknown {
  let text: string;
  try {
    text = readFileSync(fileIn(folder), 'utf8');
  } catch {
    return null;
  }
  try {
    return JSON.parse(text) as unknown;
  } catch {
    return {};
  }
}

/** Replaces the profile whole: written beside it, then renamed over it. */
export function keepVoice(folder: string, profile: unknown): string {
  mkdirSync(folder, { recursive: true });
  const path = fileIn(folder);
  writeFileSync(`${path}.new`, `${JSON.stringify(profile)}\n`);
  renameSync(`${path}.new`, path);
  return path;
}

export function forgetVoice(folder: string): void {
  rmSync(fileIn(folder), { force: true });
}
