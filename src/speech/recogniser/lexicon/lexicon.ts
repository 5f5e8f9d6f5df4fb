import { readFileSync } from 'node:fs';
import type { Tokens } from '../acoustics/tokens.js';
import { dictionary } from './dictionary.js';
import { type LetterRules, readLetterRules, soundsOf } from './letter-to-sound.js';
import { respelled } from './spelling.js';

/** How words are said, as tokens of one acoustic model. Answers are remembered. */
export interface Lexicon {
  /**
   * Every known way to say a lower-case word, at least one.
   * @throws Error with one clear sentence when the word cannot be said
   */
  pronounce(word: string): readonly (readonly number[])[];
}

export interface LexiconFiles {
  /** own words, one a line: "word  P H O N E S", several lines for several ways; # starts a comment */
  readonly ownWords: string;
  readonly letterRules: string;
}

/**
 * Every known way to say a word as CMU phones with stress digits, whatever the acoustic model; at least one.
 * The function throws an Error with one clear sentence when the word cannot be said.
 */
export function pronunciations(files: LexiconFiles): (word: string) => string[] {
  const own = readOwnWords(files.ownWords);
  let rules: LetterRules | null = null;
  const guess = (word: string): string => {
    rules ??= readLetterRules(files.letterRules);
    return soundsOf(word, rules);
  };
  return (word) => waysToSay(word, own, guess);
}

export function lexiconFor(tokens: Tokens, files: LexiconFiles): Lexicon {
  const say = pronunciations(files);
  const known = new Map<string, readonly (readonly number[])[]>();
  return {
    pronounce(word) {
      let said = known.get(word);
      if (!said) {
        said = distinct(say(word).map((phones) => tokens.sequence(phones)));
        known.set(word, said);
      }
      return said;
    },
  };
}

function waysToSay(word: string, own: ReadonlyMap<string, string[]>, guess: (w: string) => string): string[] {
  const listed = (w: string): string[] => [...(own.get(w) ?? []), ...dictionary().find(w)];
  const whole = listed(word);
  if (whole.length > 0) return whole;
  const plain = word.normalize('NFD').replace(/\p{M}/gu, '');
  const parts = plain.split(/[-_'’.]+/).filter((p) => p !== '');
  if (parts.length === 0 || !parts.every((p) => /^[a-z]+$/.test(p)))
    throw new Error(
      `The word "${word}" cannot be spoken: expected letters a to z (numbers written out as words).`,
    );
  return parts
    .map((part) => {
      const found = listed(part);
      if (found.length > 0) return found;
      for (const spelling of respelled(part)) {
        const base = listed(spelling.base);
        if (base.length > 0) return base.map((phones) => spelling.finish(phones));
      }
      return [compound(part, listed) ?? (/[aeiouy]/.test(part) ? guess(part) : spelledOut(part, listed))];
    })
    .reduce((heads, tails) => heads.flatMap((h) => tails.map((t) => `${h} ${t}`)))
    .slice(0, MOST_WAYS);
}

const MOST_WAYS = 8;
const SHORTEST_PART = 4;

/** "washtub" from "wash" and "tub"-like parts of at least four letters, the longest first part winning. */
function compound(word: string, listed: (w: string) => string[]): string | null {
  for (let cut = word.length - SHORTEST_PART; cut >= SHORTEST_PART; cut--) {
    const [head] = listed(word.slice(0, cut));
    const [tail] = head === undefined ? [] : listed(word.slice(cut));
    if (head !== undefined && tail !== undefined) return `${head} ${tail}`;
  }
  return null;
}

/** A word without a vowel is read letter by letter. */
const spelledOut = (word: string, listed: (w: string) => string[]): string =>
  [...word].map((letter) => listed(`${letter}.`)[0] ?? listed(letter)[0] ?? '').join(' ');

function distinct(list: number[][]): number[][] {
  return [...new Map(list.map((ids) => [ids.join(' '), ids])).values()];
}

function readOwnWords(file: string): Map<string, string[]> {
  const words = new Map<string, string[]>();
  let text: string;
  try {
    text = readFileSync(file, 'utf8');
  } catch (cause) {
    throw new Error(
      `The trade word list "${file}" cannot be read; restore the models folder (git checkout models).`,
      {
        cause,
      },
    );
  }
  text.split('\n').forEach((line, i) => {
    const content = line.replace(/#.*/, '').trim();
    if (content === '') return;
    const [word, ...phones] = content.split(/\s+/);
    if (word === undefined || phones.length === 0)
      throw new Error(`"${file}" line ${i + 1}: expected a word and its phones, found "${content}".`);
    const list = words.get(word);
    if (list) list.push(phones.join(' '));
    else words.set(word, [phones.join(' ')]);
  });
  return words;
}
