import { numberToWords } from '../english/numbers.js';

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
    .replace(/\bich hab\b/g, 'ich habe')
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
  return /^\s*(?:notiz|notiere|notier)\s*[:,-]?\s+(\S.*)$/isu.exec(line)?.[1]?.trim().slice(0, 2000);
}
