import { NUMBER_WORDS, numberToWords, plainAmounts, saidSeconds, writtenLines } from './numbers.js';

/** Spellings and short forms → the words the grammars use. Several words are fine on the right. */
const SPELLINGS: Record<string, string> = {
  litre: 'liter',
  litres: 'liters',
  ltr: 'liters',
  millilitre: 'milliliter',
  millilitres: 'milliliters',
  ml: 'milliliters',
  mls: 'milliliters',
  cc: 'milliliters',
  ccs: 'milliliters',
  gramme: 'gram',
  grammes: 'grams',
  gm: 'grams',
  gms: 'grams',
  kg: 'kilograms',
  kgs: 'kilograms',
  kilogramme: 'kilogram',
  kilogrammes: 'kilograms',
  mg: 'milligrams',
  oz: 'ounces',
  fl: 'fluid',
  lb: 'pounds',
  lbs: 'pounds',
  sec: 'seconds',
  secs: 'seconds',
  min: 'minutes',
  mins: 'minutes',
  antifog: 'anti fog',
  anticalcium: 'anti calcium',
  deg: 'degrees',
  degs: 'degrees',
  degree: 'degrees',
  stabiliser: 'stabilizer',
  colour: 'color',
  sulphite: 'sulfite',
  bisulphite: 'bisulfite',
  metabisulphite: 'metabisulfite',
  thiosulphate: 'thiosulfate',
  sulphate: 'sulfate',
  sulphuric: 'sulfuric',
  tankside: 'tank side',
  remjet: 'rem jet',
  cd3: 'c d three',
  cd4: 'c d four',
  ph: 'p h',
  hows: "how's",
  whats: "what's",
  thats: "that's",
  ill: "i'll",
  id: "i'd",
  its: "it's",
  im: "i'm",
  ive: "i've",
  lets: "let's",
  theres: "there's",
  dont: "don't",
  wont: "won't",
  thru: 'through',
  til: 'till',
  vol: 'volume',
  temp: 'temperature',
  mm: 'millimeters',
  nevermind: 'never mind',
  temps: 'temperatures',
};

/** Short forms that only mean a unit right after a number. */
const UNITS_AFTER_NUMBER: Record<string, string> = {
  l: 'liters',
  g: 'grams',
  gr: 'grams',
  s: 'seconds',
  m: 'minutes',
  c: 'degrees c',
  f: 'degrees fahrenheit',
};

/** Baths and vessels with their apostrophe left out, in front of what is told of them: "waters in", "the tanks empty". */
const DROPPED =
  /\b(tank|water|prebath|developer|dev|stop|stop bath|bleach|fixer|fix|rinse|film|lid|bottle \w+)s (?=(?:in|out|back|empty|been|gone|done|still|going|at|loaded|on|off|leaking|ready|bottle|number)\b)/g;

/** A whole line that people type for yes or no, or to go on. */
const SHORT_ANSWERS: Record<string, string> = {
  y: 'yes',
  ok: 'yes',
  okay: 'yes',
  n: 'no',
  done: 'next step',
};

/**
 * A typed line as the words of the grammars: lower case, no punctuation, digits and units in words, American
 * spelling. Numbers outside 0 to 9999 stay digits, and so are never understood by mistake.
 */
export function normaliseTyped(line: string): string {
  const flat = (writtenLines(line)[0] ?? line)
    .normalize('NFKC')
    .toLowerCase()
    .replace(/[\u2018\u2019\u02bc`´]/g, "'")
    .replace(/[\u2012-\u2015\u2212]/g, '-')
    .replace(/\becn[- ]?2[- ]/g, '')
    .replace(/(\d)\s*%/g, '$1 percent ')
    .replace(/[°º]\s*c\b/g, ' degrees c ')
    .replace(/[°º]\s*f\b/g, ' degrees fahrenheit ')
    .replace(/[°º]/g, ' degrees ')
    .replace(/(?:\bbottle\s*)?(?:#|\bno\.\s*|\bnr\.?\s*)(?=\d)/g, ' bottle ')
    .replace(/\b(?:b|btl)\s?(?=\d{1,2}\b(?!\.\d))/g, ' bottle ')
    .replace(/\bin,\s*(?:from\s+)?(?=(?:the\s+)?bottle\b)/g, 'in from ')
    .replace(/\bhypo[- ]?(?:clear\w*|eliminator)(?: (?:agent|bath))?\b/g, 'washing aid')
    .replace(
      /\bhypo(?=(?:'s)? (?:is |has |gone |goes |going |back )*(?:in|out|into|back|from bottle)\b)/g,
      'fixer',
    )
    .replace(/^\s*\?+\s*$/, 'help')
    .replace(/\b(cc|ml|mil|gram|liter|litre|degree)'s\b/g, '$1s')
    .replace(DROPPED, "$1's ")
    .replace(
      /\b(\d{1,2}):([0-5]\d)\b/g,
      (_, m: string, s: string) => ` ${saidSeconds(Number(m) * 60 + Number(s))} `,
    )
    .replace(/(^|[\s(])-(?=\.?\d)/g, '$1 minus ')
    .replace(/(\d)(?=[a-z])/g, '$1 ')
    .replace(/\bcd[- ]?(3|4|three|four)\b/g, (_, n: string) => `cd${{ three: '3', four: '4' }[n] ?? n}`)
    .replace(/([a-z])(?=\d)/g, (c, _d, at: number, all: string) =>
      /cd$/.test(all.slice(0, at + 1)) ? c : `${c} `,
    );
  const tokens = flat.match(/\d*\.\d+|\d+|cd[34]|[a-z]+(?:'[a-z]+)*/g) ?? [];
  const words = tokens.flatMap((t, i) => {
    const number = /^[\d.]+$/.test(t) ? (numberToWords(t) ?? t) : undefined;
    if (number !== undefined) return number.split(' ');
    const afterNumber = i > 0 && /\d$/.test(tokens[i - 1] ?? '') && !tokens[i - 1]?.startsWith('cd');
    const spelt = (afterNumber ? own(UNITS_AFTER_NUMBER, t) : undefined) ?? own(SPELLINGS, t) ?? t;
    return spelt.split(' ');
  });
  // "one comma two" is how much of Europe says 1.2
  const said = words
    .map((w, i) => (w === 'comma' && isNumber(words[i - 1]) && isNumber(words[i + 1]) ? 'point' : w))
    .join(' ');
  return own(SHORT_ANSWERS, said) ?? plainAmounts(said);
}

const isNumber = (word = ''): boolean => NUMBER_WORDS.has(word);

const own = (table: Record<string, string>, key: string): string | undefined =>
  Object.hasOwn(table, key) ? table[key] : undefined;

/** "what's" → "what is": the long form of a contraction, or nothing. */
export function longForm(word: string): string[] | undefined {
  const m = /^([a-z]+)'(s|re|m|ve|ll)$/.exec(word);
  const verb = { s: 'is', re: 'are', m: 'am', ve: 'have', ll: 'will' }[m?.[2] ?? ''];
  return m && verb ? [m[1] ?? '', verb] : undefined;
}

/** The words after "note", as they were typed; undefined when the line is not a note with text. */
export function typedNote(line: string): string | undefined {
  const m =
    /^\s*(?:(?:please\s+)?(?:(?:take|make|add)\s+(?:a\s+)?)?note(?:\s+(?:that|down|to\s+self))?|remember(?:\s+that)?|(?:write|jot)\s+down(?:\s+that)?)\s*[:,-]?\s+(\S.*)$/isu.exec(
      line,
    );
  const text = m?.[1]?.trim().slice(0, 2000);
  return text === undefined || /^(that|down|this)\W*$/i.test(text) ? undefined : text;
}

/** "call bottle 2 Old Faithful" → its number and its name as typed. */
export function typedBottleName(line: string): { bottle: number; name: string } | undefined {
  const m =
    /^\s*(?:please\s+)?(?:call|name)\s+(?:the\s+)?(?:bottle\s*)?(?:#|number\s*)?\s*(\d{1,2}|[a-z]+)\s+(\S.*)$/isu.exec(
      line,
    );
  const count =
    m?.[1] === undefined ? undefined : /^\d/.test(m[1]) ? Number(m[1]) : SMALL.get(m[1].toLowerCase());
  if (!count || !m?.[2] || !/bottle|#/i.test(line)) return undefined;
  return {
    bottle: count,
    name: m[2]
      .replace(/[.!]+$/, '')
      .trim()
      .slice(0, 60),
  };
}

const SMALL = new Map(Array.from({ length: 20 }, (_, i) => [numberToWords(i + 1) ?? '', i + 1]));
