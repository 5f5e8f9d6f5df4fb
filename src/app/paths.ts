import { homedir } from 'node:os';
import { join } from 'node:path';
import { packageRoot } from '../speech/installed.js';

export const root = packageRoot();

/** What ships with the project. */
export const grammarDir = join(root, 'grammars');
/** the page's files, built */
export const pageDir = join(root, 'dist', 'screen');
/** what the build learnt from the grammars */
export const learntFile = join(root, 'dist', 'learnt.json');
/** what people also say; read by the build alone */
export const wordingsFile = join(root, 'training', 'wordings.txt');
/** what knows English, and the commands in it */
export const encoderDir = join(root, 'models', 'sentence-encoder');
/** what counts how much for what a line means */
export const rankerFile = join(root, 'models', 'sentence-ranker', 'weights.json');
/** what people wrote that had not seen the grammars, a file a writer; read by the build alone */
export const saidDir = join(root, 'training', 'said');
export const fixtureDir = join(root, 'audio-fixtures');

/** Where journals and the user's settings live: `--data`, else TANKSIDE_DATA, else the XDG data folder. */
export function dataDir(asked?: string): string {
  if (asked) return asked;
  if (process.env.TANKSIDE_DATA) return process.env.TANKSIDE_DATA;
  const home = process.env.XDG_DATA_HOME ?? join(homedir(), '.local', 'share');
  return join(home, 'tankside');
}
