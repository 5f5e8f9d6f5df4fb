import type { Grammars } from '../../load.js';
import { candidates } from '../../slips.js';
import { numberToWords } from '../english/numbers.js';
import { MENDED_TO, NO_SLIPS } from './lists.js';

/** Units as they are typed → the words that the grammars have for them. */
const UNITS: Readonly<Record<string, string>> = {
  grad: 'degrees',
  c: 'degrees',
  celsius: 'celsius',
  ml: 'milliliters',
  milliliter: 'milliliters',
  millilitern: 'milliliters',
  l: 'liters',
  liter: 'liters',
  litern: 'liters',
  g: 'grams',
  gr: 'grams',
  gramm: 'grams',
  kg: 'kilograms',
  kilo: 'kilograms',
  s: 'seconds',
  sek: 'seconds',
  sekunde: 'seconds',
  sekunden: 'seconds',
  min: 'minutes',
  minute: 'minutes',
  minuten: 'minutes',
  stunde: 'hours',
  stunden: 'hours',
};

/** Short forms and other spellings → the words of the grammars and lists. */
const SPELLINGS: Readonly<Record<string, string>> = {
  hab: 'habe',
  nen: 'einen',
  ne: 'eine',
  nem: 'einem',
  gehts: 'geht es',
  gibts: 'gibt es',
  ists: 'ist es',
  brennts: 'brennt es',
  stinkts: 'stinkt es',
  riechts: 'riecht es',
  aufm: 'auf dem',
  ausm: 'aus dem',
  inner: 'in der',
  inne: 'in die',
  aufs: 'auf das',
  uebers: 'ueber das',
  entwicklers: 'entwickler',
  entw: 'entwickler',
  stopbad: 'stoppbad',
  stopbads: 'stoppbad',
  fixbad: 'fixierbad',
  blix: 'bleichfixierbad',
  fl: 'flasche',
  pulle: 'flasche',
  flasch: 'flasche',
  therm: 'thermometer',
  temp: 'temperatur',
  rueckgaenig: 'rueckgaengig',
};
/** "Bleichflasche", "Fixierbadspritzer": a bath and what is of it. */
const BATHS: Readonly<Record<string, string>> = {
  bleich: 'bleichbad',
  bleichbad: 'bleichbad',
  bleiche: 'bleichbad',
  fixier: 'fixierbad',
  fixierbad: 'fixierbad',
  fixierer: 'fixierbad',
  entwickler: 'entwickler',
  stopp: 'stoppbad',
  stoppbad: 'stoppbad',
  vorbad: 'vorbad',
};
const COMPOUNDS = new RegExp(
  `\\b(${Object.keys(BATHS).join('|')})s?(flasche|spritzer|flecken?|pfuetze|lache|becher|reste?|tropfen)\\b`,
  'g',
);
/** "Aus der 2", "in die 4": a bottle, where no unit follows. */
const BY_ITS_NUMBER =
  /\b(aus|von|in|zu) (?:der |die |nummer |nr\.? ?)?(\d{1,2})(?!\d|[.,:]\d|\s*(?:grad|°|c\b|ml|milli|l\b|liter|g\b|gramm|s\b|sek|min|stunden?|h\b|uhr|auf|mal|filme?n?|prozent|%|portionen|tagen?))/g;

/** A whole line that people type for yes or no, or for help. */
const SHORT_ANSWERS: Readonly<Record<string, string>> = { j: 'ja', n: 'nein', ok: 'ja', okay: 'ja' };

const ONES = [
  'null',
  'eins',
  'zwei',
  'drei',
  'vier',
  'fuenf',
  'sechs',
  'sieben',
  'acht',
  'neun',
  'zehn',
  'elf',
  'zwoelf',
];
const TENS = ['zwanzig', 'dreissig', 'vierzig', 'fuenfzig', 'sechzig', 'siebzig', 'achtzig', 'neunzig'];
const BELOW_HUNDRED = new Map<string, number>([
  ...ONES.map((w, n): [string, number] => [w, n]),
  ['zwo', 2],
  ...['drei', 'vier', 'fuenf', 'sech', 'sieb', 'acht', 'neun'].map((w, i): [string, number] => [
    `${w}zehn`,
    13 + i,
  ]),
  ...TENS.flatMap((ten, i) => [
    [ten, 20 + 10 * i] as [string, number],
    ...ONES.slice(1, 10).map((w, n): [string, number] => [
      `${n === 0 ? 'ein' : w}und${ten}`,
      21 + 10 * i + n,
    ]),
  ]),
]);

/** "einundvierzig", "zweihundertfuenfzig", "tausend" → its number; undefined for other words. */
export function germanNumber(word: string): number | undefined {
  const [, thousands, hundreds, rest = ''] =
    /^(?:(.*?)tausend)?(?:(.*?)hundert)?(?:und)?(.*)$/.exec(word) ?? [];
  const few = (text: string | undefined): number | undefined =>
    text === undefined ? 0 : text === '' || text === 'ein' ? 1 : BELOW_HUNDRED.get(text);
  const parts = [few(thousands), few(hundreds), rest === '' ? 0 : BELOW_HUNDRED.get(rest)];
  const [t, h, r] = parts;
  if (t === undefined || h === undefined || r === undefined) return undefined;
  return thousands === undefined && hundreds === undefined && rest === ''
    ? undefined
    : 1000 * t + 100 * h + r;
}

/** "40,5", "vierzig komma fuenf", "achtunddreissigeinhalb" in digits; a half before a unit as a part of it. */
function inDigits(tokens: readonly string[]): string[] {
  const out: string[] = [];
  for (const [i, token] of tokens.entries()) {
    const next = UNITS[tokens[i + 1] ?? ''];
    const half = /^(.+?)(?:und)?einhalb$/.exec(token)?.[1];
    const whole = germanNumber(half ?? token);
    const isOne = /^eine?[mnr]?$/.test(token) && (next !== undefined || tokens[i - 1] === 'flasche');
    if (token === 'anderthalb' || token === 'eineinhalb') out.push('1.5');
    else if (/^halbe[rnms]?$/.test(token) && next) {
      if (out.at(-1) === 'eine' || out.at(-1) === 'einen') out.pop();
      out.push('0.5');
    } else if (half !== undefined && whole !== undefined) out.push(`${whole}.5`);
    else if (isOne) out.push('1');
    else if (whole !== undefined) out.push(String(whole));
    else out.push(token);
  }
  return out
    .join(' ')
    .replace(
      /\b(\d+) komma (\d)(?: (\d))?\b/g,
      (_, n: string, a: string, b?: string) => `${n}.${a}${b ?? ''}`,
    )
    .split(' ');
}

/** Parts of a minute or an hour in the smaller unit, which the grammars know. */
const inSmaller = (text: string): string =>
  text
    .replace(/\b(\d+\.5) minutes\b/g, (_, n: string) => clock(Math.round(Number(n) * 60)))
    .replace(/\b(\d{1,2}):([0-5]\d)\b/g, (_, m: string, s: string) => clock(Number(m) * 60 + Number(s)))
    .replace(/\b(\d{3}) seconds\b/g, (_, n: string) => clock(Number(n)));

const clock = (total: number): string => {
  const [minutes, seconds] = [Math.floor(total / 60), total % 60];
  return [minutes > 0 && `${minutes} minutes`, seconds > 0 && `${seconds} seconds`].filter(Boolean).join(' ');
};

/** A typed German line as the words of the grammars: lower case, umlauts in two letters, numbers and units as those of numbers.jsgf. */
export function normaliseGerman(line: string): string {
  const flat = line
    .normalize('NFKC')
    .toLowerCase()
    .replace(/ä/g, 'ae')
    .replace(/ö/g, 'oe')
    .replace(/ü/g, 'ue')
    .replace(/ß/g, 'ss')
    .replace(/\b[a-z]+\b/g, (word) => SPELLINGS[word] ?? word)
    .replace(COMPOUNDS, (_, bath: string, thing: string) => `${BATHS[bath]} ${thing}`)
    .replace(/\bstop(?:p)? bad\b/g, 'stoppbad')
    .replace(/^\s*habe\b/, 'ich habe')
    .replace(BY_ITS_NUMBER, '$1 flasche $2')
    .replace(
      /^\s*(?:die |nummer )?(\d{1,2}) (?=(?:ist|sind|hat|enthaelt|war|waren) (?:[a-z]|\d+ ?(?:ml|milli|l\b|liter)))/,
      'flasche $1 ',
    )
    .replace(/(\bflasche \d{1,2}) (und|mit) (?=\d{1,2}\b)/g, '$1 $2 flasche ')
    .replace(/\bflaschen (\d{1,2}) (?:und|mit) (\d{1,2})\b/g, 'flasche $1 und flasche $2')
    .replace(/(?<=\b(?:mir ist|habe|hat) )was\b/g, 'etwas')
    .replace(/[\u2012-\u2015\u2212]/g, '-')
    .replace(/°\s*c?\b/g, ' grad ')
    .replace(/(\d),(\d)/g, '$1.$2')
    .replace(/(^|[\s(])-(?=\.?\d)/g, '$1 minus ')
    .replace(/\b(?:nr\.?|nummer)\s*(?=\d)/g, '')
    .replace(/(\d)(?=[a-z])/g, '$1 ');
  const tokens = flat.match(/\d+:\d\d|\d*\.\d+|\d+|[a-z]+(?:'[a-z]+)*/g) ?? [];
  const digits = inDigits(tokens).map((t, i, all) =>
    /^(?:\d|.*\d$)/.test(all[i - 1] ?? '') ? (UNITS[t] ?? t) : t,
  );
  const words = inSmaller(digits.join(' '))
    .replace(/(?<=\d (?:minutes|hours)) und (?=\d)/g, ' ')
    .split(' ')
    .flatMap((t) => (/^[\d.]+$/.test(t) ? (numberToWords(t) ?? t).split(' ') : [t]))
    .join(' ');
  return SHORT_ANSWERS[words] ?? words;
}

/** The words after "Notiz", as they were typed; undefined when the line is no note with text. */
export function germanNote(line: string): string | undefined {
  return /^\s*(?:notiz|notiere?|schreib(?:e)? (?:dir )?auf|merke? dir)\s*[:,-]?\s+(\S.*)$/isu
    .exec(line)?.[1]
    ?.trim()
    .slice(0, 2000);
}

/** The clauses of a line as it was typed. */
export const germanClauses = (line: string): string[] => line.split(CLAUSES).filter((c) => /\w/.test(c));
const CLAUSES =
  /(?<=[,;.!?])\s+|(?<=[;!?])|\s+-+\s+|\s*(?:\u2014|\u2026|\.\.\.)\s*|\s+(?:und dann|und|aber|dann|weil|dabei|sondern)\s+/i;

/** Slips of the finger in words that matter, one letter in a short word, two in a long one. */
export const mended = (plain: string, grammars: Grammars): string =>
  plain
    .split(' ')
    .map((word) => {
      if (word.length < 5 || NO_SLIPS.has(word) || MENDED.has(word) || grammars.vocabulary.has(word))
        return word;
      const [only, ...others] = candidates(word, MENDED);
      return only !== undefined && others.length === 0 && only[0] === word[0] ? only : word;
    })
    .join(' ');
const MENDED: ReadonlySet<string> = new Set(MENDED_TO);
