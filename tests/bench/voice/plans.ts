import type { WordGraph } from '../../../src/language/types.js';
import { commandGrammar, digitGrammar, numberGrammar } from './commands.js';
import { any, graphOf, sentenceOf } from './grammar.js';
import { product } from './product.js';
import { everydayTalk } from './talk.js';

/** Long sentences of plain talk, one against another. */
const anySentence = graphOf(
  'sentences',
  any(...everydayTalk(250, 12).filter((s) => s.split(' ').length > 4)),
);

/** A clip to come: what is said, under which grammar, and whether word by word. */
export interface Plan {
  grammar: WordGraph;
  words: string;
  dictated?: boolean;
}

export type Random = () => number;

/** A sentence that passes; a grammar gives one soon. */
function sentenceWhere(grammar: WordGraph, random: Random, passes: (words: string[]) => boolean): string {
  for (;;) {
    const sentence = sentenceOf(grammar, random);
    if (passes(sentence.split(' '))) return sentence;
  }
}

/** The sets of clips that a synthesiser says, each with its next random sentence. */
export function plans(): [string, (random: Random) => Plan][] {
  const { immersed, examples } = product();
  // a reported figure is counted on the examples
  const reported = new Set(examples);
  return [
    ['commands', (r) => ({ grammar: commandGrammar, words: sentenceOf(commandGrammar, r) })],
    ['numbers', (r) => ({ grammar: numberGrammar, words: sentenceOf(numberGrammar, r) })],
    ['digits', (r) => ({ grammar: digitGrammar, words: sentenceOf(digitGrammar, r) })],
    ['sentences', (r) => ({ grammar: anySentence, words: sentenceOf(anySentence, r) })],
    [
      'dictated numbers',
      // a synthesiser asked for "a" alone names the letter
      (r) => ({
        grammar: numberGrammar,
        words: sentenceWhere(numberGrammar, r, (words) => !words.includes('a')),
        dictated: true,
      }),
    ],
    [
      'dictated digits',
      (r) => {
        const length = r() < 0.5 ? 3 : 4 + Math.floor(3 * r());
        const words = sentenceWhere(digitGrammar, r, (w) => w.length === length);
        return { grammar: digitGrammar, words, dictated: true };
      },
    ],
    [
      'product',
      (r) => ({
        grammar: immersed,
        words: sentenceWhere(immersed, r, (words) => !reported.has(words.join(' '))),
      }),
    ],
  ];
}
