import { existsSync, mkdirSync } from 'node:fs';
import { dirname } from 'node:path';

/**
 * Makes the folder that a file is to lie in, and those above it, for the user alone. One at a time: where the system lets none be made, as
 * in /proc, Node's own `recursive` never returns.
 * @throws the system's error when one cannot be made
 */
export function makeFolderOf(path: string): void {
  const folder = dirname(path);
  if (existsSync(folder)) return;
  makeFolderOf(folder);
  try {
    mkdirSync(folder, { mode: 0o700 });
  } catch (error) {
    // another program made it meanwhile
    if (!existsSync(folder)) throw error;
  }
}
