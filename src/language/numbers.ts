/** Numbers as words and back, as the grammars say them. */

const ONES = [
  ...[
    'zero',
    'one',
    'two',
    'three',
    'four',
    'five',
    'six',
    'seven',
    'eight',
    'nine',
    'ten',
    'eleven',
    'twelve',
  ],
  ...['thirteen', 'fourteen', 'fifteen', 'sixteen', 'seventeen', 'eighteen', 'nineteen'],
];
const TENS = ['', '', 'twenty', 'thirty', 'forty', 'fifty', 'sixty', 'seventy', 'eighty', 'ninety'];
const ONE_OF = new Map(ONES.map((w, i) => [w, i]));
const TEN_OF = new Map(TENS.flatMap((w, i) => (w ? [[w, i * 10] as const] : [])));
const NOUGHT = new Set(['zero', 'oh', 'nought', 'nil']);

/** Words that carry a number; typing slips never turn anything into one of these, nor the other way. */
export const NUMBER_WORDS: ReadonlySet<string> = new Set([
  ...ONES,
  ...TENS.filter(Boolean),
  ...NOUGHT,
  ...['hundred', 'thousand', 'point', 'half', 'minus', 'another', 'dozen', 'quarter'],
]);

/**
 * A number in words: 0 to 9999 with the decimals given, e.g. `'36.4'` → "thirty six point four", `'2.01'` → "two
 * point zero one". Takes text so that no decimal is lost; undefined outside the range.
 */
export function numberToWords(number: string | number): string | undefined {
  const m = /^(-?)(\d*)(?:\.(\d+))?$/.exec(String(number));
  if (!m || (m[2] === '' && m[3] === undefined)) return undefined;
  const whole = Number(m[2] || 0);
  if (whole > 9999) return undefined;
  const words = [...(m[1] ? ['minus'] : []), ...wholeToWords(whole)];
  if (m[3] !== undefined && !/^0+$/.test(m[3]))
    words.push('point', ...[...m[3]].map((d) => ONES[Number(d)] ?? ''));
  return words.join(' ');
}

function wholeToWords(n: number): string[] {
  if (n < 20) return [ONES[n] ?? ''];
  if (n < 100) return [TENS[Math.floor(n / 10)] ?? '', ...(n % 10 ? [ONES[n % 10] ?? ''] : [])];
  const [size, name] = n < 1000 ? [100, 'hundred'] : [1000, 'thousand'];
  const rest = n % size;
  const joint = rest > 0 && rest < 100 ? ['and'] : [];
  return [...wholeToWords(Math.floor(n / size)), name, ...joint, ...(rest > 0 ? wholeToWords(rest) : [])];
}

/** "a hundred and fifty", "one fifty", "one oh five", "two point zero one", "thirty eight and a half" → the number. */
export function wordsToNumber(text: string): number | undefined {
  let words = text
    .toLowerCase()
    .split(/[\s-]+/)
    .filter(Boolean);
  const negative = words[0] === 'minus';
  if (negative) words = words.slice(1);
  const half = words.slice(-3).join(' ') === 'and a half';
  if (half) words = words.slice(0, -3);
  const point = words.indexOf('point');
  const digits = point < 0 ? [] : words.slice(point + 1);
  const decimals = digits.map((w) => (NOUGHT.has(w) ? 0 : (ONE_OF.get(w) ?? 99)));
  if (decimals.some((d) => d > 9) || (point >= 0 && decimals.length === 0) || (half && point >= 0))
    return undefined;
  const whole = wordsToWhole(point < 0 ? words : words.slice(0, point), point >= 0);
  if (whole === undefined) return undefined;
  const size = Number(`${whole}.${decimals.join('') || (half ? 5 : 0)}`);
  return negative ? -size : size;
}

function wordsToWhole(words: readonly string[], mayBeEmpty: boolean): number | undefined {
  if (words.length === 0) return mayBeEmpty ? 0 : undefined;
  if (words.length === 1 && NOUGHT.has(words[0] ?? '')) return 0;
  const thousand = words.indexOf('thousand');
  if (thousand >= 0) {
    const high = countOf(words.slice(0, thousand));
    const low = words.slice(thousand + 1);
    const rest = low.length === 0 ? 0 : belowThousand(low[0] === 'and' ? low.slice(1) : low);
    return high === undefined || high > 9 || rest === undefined ? undefined : high * 1000 + rest;
  }
  return belowThousand(words);
}

const countOf = (words: readonly string[]): number | undefined =>
  words.join(' ') === 'a' ? 1 : belowHundred(words);

/** Also "twelve hundred and fifty". */
function belowThousand(words: readonly string[]): number | undefined {
  const hundred = words.indexOf('hundred');
  if (hundred >= 0) {
    const high = countOf(words.slice(0, hundred));
    const low = words.slice(hundred + 1);
    const rest = low.length === 0 ? 0 : belowHundred(low[0] === 'and' ? low.slice(1) : low);
    return high === undefined || high > 19 || rest === undefined ? undefined : high * 100 + rest;
  }
  const plain = belowHundred(words);
  if (plain !== undefined) return plain;
  const [first = '', ...rest] = words;
  const high = ONE_OF.get(first);
  const low = rest[0] === 'oh' ? belowHundred(rest.slice(1)) : belowHundred(rest);
  if (high === undefined || high < 1 || high > 9 || low === undefined) return undefined;
  return (rest[0] === 'oh') === low < 10 ? high * 100 + low : undefined;
}

function belowHundred(words: readonly string[]): number | undefined {
  const [first = '', second] = words;
  const ten = TEN_OF.get(first);
  if (words.length === 1) return ten ?? positive(ONE_OF.get(first));
  const one = positive(ONE_OF.get(second ?? ''));
  return words.length === 2 && ten !== undefined && one !== undefined && one < 10 ? ten + one : undefined;
}

const positive = (n: number | undefined): number | undefined => (n === 0 ? undefined : n);

const TEEN_TY: [string, string][] = [
  ['thirteen', 'thirty'],
  ['fourteen', 'forty'],
  ['fifteen', 'fifty'],
  ['sixteen', 'sixty'],
  ['seventeen', 'seventy'],
  ['eighteen', 'eighty'],
  ['nineteen', 'ninety'],
];
const TWIN_OF = new Map(TEEN_TY.flatMap(([teen, ty]) => [[teen, ty] as const, [ty, teen] as const]));

/** Each sentence that an ear takes for this one by hearing one -teen for -ty or the other way round. */
export function teenTyTwins(words: readonly string[]): string[][] {
  return words.flatMap((w, i) => {
    const twin = TWIN_OF.get(w);
    return twin === undefined ? [] : [words.map((v, j) => (j === i ? twin : v))];
  });
}
