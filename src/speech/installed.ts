import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { LexiconFiles } from './recogniser/lexicon/lexicon.js';

/** The folder of package.json above this file, wherever the build put it. */
export function packageRoot(): string {
  let at = dirname(fileURLToPath(import.meta.url));
  while (!existsSync(join(at, 'package.json')) && dirname(at) !== at) at = dirname(at);
  return at;
}

/** The models folder of this package. */
export const modelsDir = (): string => join(packageRoot(), 'models');

export const lexiconDir = (): string => join(modelsDir(), 'lexicon');

/** The word lists in a folder; ours when not given. */
export const lexiconFiles = (folder = lexiconDir()): LexiconFiles => ({
  ownWords: join(folder, 'trade-words.dict'),
  letterRules: join(folder, 'letter-to-sound.json'),
});

/** every word that may be said, and after which; made by the build */
export const vocabularyFile = (): string => join(packageRoot(), 'dist', 'vocabulary.bin');
