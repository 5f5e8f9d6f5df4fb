import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { teach } from '../../src/app/language.js';
import { type Grammars, loadGrammars } from '../../src/language/load.js';

const folder = fileURLToPath(new URL('../../grammars/', import.meta.url));

export const grammarTexts: Record<string, string> = Object.fromEntries(
  readdirSync(folder)
    .filter((f) => f.endsWith('.jsgf'))
    .map((f) => [f, readFileSync(folder + f, 'utf8')]),
);

/** Our own grammars, from disk. */
export function loadOwnGrammars(): Grammars {
  const loaded = loadGrammars(grammarTexts);
  if (!loaded.ok) throw new Error(loaded.problems.map((p) => p.message).join('\n'));
  teach(loaded.grammars, grammarTexts);
  return loaded.grammars;
}
