import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { WordGraph } from '../../../src/language/types.js';
import { lexiconDir } from '../../../src/speech/installed.js';
import { sentenceOf } from './grammar.js';
import { says } from './product.js';
import { seeded } from './random.js';

const longEnough = (word: string): boolean => word.length >= 4;

/**
 * Sentences that hold most of a command and are none: everyday words around it, as in talk, or one of its words given
 * up for another.
 */
export function nearMisses(grammar: WordGraph, count: number, seed: number): string[] {
  const random = seeded(seed);
  const everyday = readFileSync(join(lexiconDir(), 'everyday-words.txt'), 'utf8')
    .split('\n')
    .filter((line) => !line.startsWith('#'))
    .flatMap((line) => line.split(' '))
    .filter(longEnough);
  const any = (): string => everyday[Math.floor(random() * everyday.length)] ?? '';
  const some = (least: number): string[] =>
    Array.from({ length: least + Math.floor(3 * random()) }, () => any());
  const found: string[] = [];
  while (found.length < count) {
    const words = sentenceOf(grammar, random).split(' ');
    const heavy = words.flatMap((word, i) => (longEnough(word) ? [i] : []));
    const at = heavy[Math.floor(random() * heavy.length)];
    const changed =
      random() < 0.5 && at !== undefined
        ? words.with(at, any())
        : random() < 0.5
          ? [...some(1), ...words, ...some(0)]
          : [...some(0), ...words, ...some(1)];
    const sentence = changed.join(' ');
    if (!says(grammar, sentence)) found.push(sentence);
  }
  return found;
}
