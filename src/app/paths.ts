import { existsSync } from 'node:fs';
import { homedir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = packageRoot();

/** What ships with the project. */
export const grammarDir = join(root, 'grammars');
export const modelDir = join(root, 'models');
export const fixtureDir = join(root, 'audio-fixtures');

/** Where journals and the user's settings live: `--data`, else TANKSIDE_DATA, else the XDG data folder. */
export function dataDir(asked?: string): string {
  if (asked) return asked;
  if (process.env.TANKSIDE_DATA) return process.env.TANKSIDE_DATA;
  const home = process.env.XDG_DATA_HOME ?? join(homedir(), '.local', 'share');
  return join(home, 'tankside');
}

/** The folder of package.json above this file, wherever the build put it. */
function packageRoot(): string {
  let at = dirname(fileURLToPath(import.meta.url));
  while (!existsSync(join(at, 'package.json')) && dirname(at) !== at) at = dirname(at);
  return at;
}
