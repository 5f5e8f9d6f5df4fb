/** A word seen as a known word with a change: its base and how to finish the base's phones. */
export interface Respelling {
  readonly base: string;
  finish(phones: string): string;
}

const same = (base: string): Respelling => ({ base, finish: (phones) => phones });

/** British spellings and their American forms, which the dictionary is richer in. */
const SPELLINGS: readonly [RegExp, string][] = [
  [/is(e|er|ers|ed|es|ing|ation)$/, 'iz$1'],
  [/ys(e|er|ers|ed|es|ing)$/, 'yz$1'],
  [/our(s|ed|ing|less|ful)?$/, 'or$1'],
  [/tre(s?)$/, 'ter$1'],
  [/ll(ed|er|ing)$/, 'l$1'],
  [/sulph/, 'sulf'],
  [/ae/, 'e'],
  [/ence$/, 'ense'],
  [/ogue$/, 'og'],
];

const HISSING = /(S|Z|SH|ZH|CH|JH)$/;
const VOICELESS = /(P|T|K|F|TH)$/;

const plural = (phones: string): string =>
  `${phones} ${HISSING.test(phones) ? 'IH0 Z' : VOICELESS.test(phones) ? 'S' : 'Z'}`;
const past = (phones: string): string =>
  `${phones} ${/(^| )[TD]$/.test(phones) ? 'IH0 D' : /(P|K|F|TH|S|SH|CH)$/.test(phones) ? 'T' : 'D'}`;

const ENDINGS: readonly [RegExp, string[], (phones: string) => string][] = [
  [/ies$/, ['y'], plural],
  [/es$/, ['', 'e'], plural],
  [/s$/, [''], plural],
  [/ed$/, ['', 'e'], past],
  [/ing$/, ['', 'e'], (p) => `${p} IH0 NG`],
  [/er$/, ['', 'e'], (p) => `${p} ER0`],
  [/ly$/, [''], (p) => `${p} L IY0`],
];

/** Known words a given word may come from, likeliest first. */
export function respelled(word: string): Respelling[] {
  const spellings = SPELLINGS.flatMap(([from, to]) => (from.test(word) ? [word.replace(from, to)] : []));
  const endings = [word, ...spellings].flatMap((w) =>
    ENDINGS.flatMap(([from, bases, finish]) =>
      from.test(w) && w.length > 4 ? bases.map((ending) => ({ base: w.replace(from, ending), finish })) : [],
    ),
  );
  return [...spellings.map(same), ...endings];
}
