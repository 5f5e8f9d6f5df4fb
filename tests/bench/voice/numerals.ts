import { any, maybe, type Piece } from './grammar.js';

/** Zero to nineteen. */
export const small =
  'zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen'.split(
    ' ',
  );
export const tens = ['twenty', 'thirty', 'forty', 'fifty', 'sixty', 'seventy', 'eighty', 'ninety'];

/** A number below a hundred. */
export const below100: Piece = any(...small, [any(...tens), maybe(any(...small.slice(1, 10)))]);
