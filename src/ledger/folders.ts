import { mkdirSync, statSync } from 'node:fs';
import { dirname } from 'node:path';

const isFolder = (path: string): boolean => statSync(path, { throwIfNoEntry: false })?.isDirectory() ?? false;

/**
 * Makes the folder that a file is to lie in, and those above it, for the user alone. One at a time: where the system lets none be made, as
 * in /proc, Node's own `recursive` never returns.
 * @throws the system's error when one cannot be made, or something else is in its place
 */
export function makeFolderOf(path: string): void {
  const folder = dirname(path);
  if (isFolder(folder) || folder === path) return;
  makeFolderOf(folder);
  try {
    mkdirSync(folder, { mode: 0o700 });
  } catch (error) {
    // another program made it meanwhile
    if (!isFolder(folder)) throw error;
  }
}
