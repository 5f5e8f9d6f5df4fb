import type { Situation } from '../../process/desk.js';
import { type Interpretation, settle } from '../interpretation.js';
import type { Grammars } from '../load.js';
import { distinct, foremost, type Meaning, meaningsElsewhere, meaningsHere } from '../meaning/meanings.js';
import { longForm } from '../typed.js';
import { otherWays } from './ways.js';

/** What the line means as it stands, or said another way; first here, then in other situations. */
export function asTyped(
  plain: string,
  situations: readonly Situation[],
  grammars: Grammars,
): Interpretation | undefined {
  const said = fitted(plain.split(' ').filter(Boolean), grammars);
  const ways = otherWays(plain, foremost(situations)).map((sentences) =>
    sentences.map((s) => fitted(s.split(' '), grammars)),
  );
  const here = (words: readonly string[], loose: boolean) => meaningsHere(words, situations, grammars, loose);
  const there = (words: readonly string[], loose: boolean) => meaningsElsewhere(words, grammars, loose);
  for (const [find, outOfPlace] of [
    [here, false],
    [there, true],
  ] as const) {
    for (const sentences of [[said], ...ways]) {
      const found = loosened(sentences, find);
      if (found?.kind === 'understood' && outOfPlace) return { ...found, outOfPlace };
      if (found) return found;
    }
  }
  return undefined;
}

/** What the sentences mean together: as they stand, else with small words added or left out. */
function loosened(
  sentences: readonly (readonly string[])[],
  find: (words: readonly string[], loose: boolean) => Meaning[],
): Interpretation | undefined {
  for (const loose of [false, true]) {
    const meanings = distinct(sentences.flatMap((words) => find(words, loose)));
    const found = settle(meanings, sentences[0] ?? []);
    if (found) return found;
  }
  return undefined;
}

/** Contractions that no grammar has, in their long form: "bleach's in" → "bleach is in". */
export function fitted(words: readonly string[], grammars: Grammars): string[] {
  return words.flatMap((w) => (grammars.vocabulary.has(w) ? [w] : (longForm(w) ?? [w])));
}
