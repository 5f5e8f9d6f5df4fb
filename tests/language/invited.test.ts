import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { interpretHeard } from '../../src/language/interpret.js';
import { normaliseTyped } from '../../src/language/languages/english/typed.js';
import { SITUATIONS } from '../../src/language/load.js';
import { invitedIn } from '../app/invited.js';
import { loadOwnGrammars } from './grammar-files.js';

const grammars = loadOwnGrammars();

/** What may stand where a phrase has a name or a number. */
const INSTEAD = [['two', 'three'], ['bleach'], ['the bleach'], ['bottle two']];

const filesIn = (folder: string, ending: string): string[] =>
  readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((f) => f.endsWith(ending))
    .map((f) => join(folder, f));

/** The strings of a file without its comments, or the answers in a grammar, that ask for something to be said. */
function askingIn(file: string): string[] {
  const source = readFileSync(file, 'utf8');
  const code = source.replace(/\/\*[\s\S]*?\*\/|^\s*\/\/.*$/gm, '');
  const texts = file.endsWith('.jsgf')
    ? source.match(/@(?:answer|more) .*/g)
    : code.match(/'(?:[^'\\\n]|\\.)*'|"(?:[^"\\\n]|\\.)*"|`[^`]*`/g);
  return (texts ?? []).filter((t) => /\bsay\b/i.test(t));
}

describe('what any text of ours asks to be said', () => {
  it('is a sentence of a grammar', () => {
    const asking = [
      ...['src/language/languages/english', 'src/app', 'src/process'].flatMap((f) => filesIn(f, '.ts')),
      ...filesIn('grammars', '.jsgf').filter((f) => !f.includes('german')),
    ].flatMap(askingIn);
    expect(asking.length).toBeGreaterThan(60);
    const heard = (words: string): boolean =>
      interpretHeard(normaliseTyped(words), SITUATIONS, grammars).kind !== 'nothing';
    const filled = (text: string, names: readonly string[]): string[] => {
      let next = 0;
      return invitedIn(text.slice(1, -1).replace(/\$\{[^}]*\}+/g, () => names[next++ % names.length] ?? ''));
    };
    const unheard = asking.filter((text) => !INSTEAD.some((names) => filled(text, names).every(heard)));
    expect(unheard.map((text) => `${text}: ${filled(text, ['two', 'three']).join(' | ')}`)).toEqual([]);
  });
});
