import { NUMBER_WORDS } from './numbers.js';

/** "In, from two": a vessel alone belongs to what is said before it. */
const VESSEL_ALONE =
  '(?:from|into|out of) (?:the )?(?:(?:bottle|number|no\\.?) )?(?:\\d+|one|two|three|four|five|six|seven|eight|nine|ten|jug|tank)(?: bottle)?\\s*[.!]?$';
const PAUSES = `(?<=[,;.!?])\\s+(?!${VESSEL_ALONE})|\\s+-+\\s+|\\s*(?:\\u2014|\\u2026|\\.\\.\\.)\\s*`;
/** "and" between numbers joins them; a share of something is told for itself. */
const AND = `and(?! (?:white|a bit|something|(?:a )?(?:\\d|${[...NUMBER_WORDS].join('|')}))\\b(?! of (?:it|that|the)\\b))`;
/** What ends a clause beside a pause, by what its clauses are read for: what is meant by each, or what a pour is said with, which keeps its "but". */
const ENDS = {
  meant: `\\s+(?:and then|${AND}|then|but|so|because|cos)\\s+|\\s+and\\s+(?=\\w+(?:['’]s| is| reads| was)\\b)|\\s+(?=if\\s)`,
  beside:
    '\\s+(?=(?:but|though|although|even though|while|with|because|or (?:was|is|maybe|might|that|it)|and (?:it|there|the|i|that))\\b)',
};
const endsOf = (ends: string): RegExp => new RegExp(`${PAUSES}|${ends}`, 'i');
const CLAUSES = { meant: endsOf(ENDS.meant), beside: endsOf(ENDS.beside) };

const CORRECTS = 'i mean|make that|scratch that|scrap that|rather';
const STUMBLES = 'uh+|um+|er+|oh|wait|sorry|hang on';
/** What says that the words before it were not meant. */
export const CORRECTIONS = {
  /** a clause that begins so puts right what is in front of it */
  begins: new RegExp(
    `^(?:(?:${STUMBLES}) )*(?:no(?= ?$| (?:no|wait|sorry|hang|it|that|not|i|make)\\b)|(?:or )?(?:${CORRECTS})\\b)`,
  ),
  /** a clause that is nothing else */
  alone: new RegExp(`^(?:(?:no|actually|hold on|${STUMBLES}|${CORRECTS})[\\s,.!]*)+$`, 'i'),
  /** between a value and the one that was meant instead */
  between: new RegExp(
    `^(?=.*\\b(?:no|wait|sorry|actually|${CORRECTS})\\b)(?:(?:no|not|actually|yes|i think|it is|that is|is|${STUMBLES}|${CORRECTS}) ?)+$`,
  ),
  /** an amount in a clause that begins so may stand in the place of the one before it */
  replaces: new RegExp(`^(?:no|not|or|oops|wait|sorry|actually|scratch|scrap|${CORRECTS})\\b`),
};

/** The clauses of a line as it was typed, each with the sign that it ends with. */
export const clausesOf = (line: string, readFor: keyof typeof ENDS = 'meant'): string[] =>
  line.split(CLAUSES[readFor]).filter((c) => /\w/.test(c));
