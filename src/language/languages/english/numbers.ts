/** Numbers as words and back, as the grammars say them. */

export const ONES = [
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
export const TENS = ['', '', 'twenty', 'thirty', 'forty', 'fifty', 'sixty', 'seventy', 'eighty', 'ninety'];
const ONE_OF = new Map(ONES.map((w, i) => [w, i]));
const TEN_OF = new Map(TENS.flatMap((w, i) => (w ? [[w, i * 10] as const] : [])));
const NOUGHT = new Set(['zero', 'oh', 'nought', 'nil']);

export const ORDINALS = 'first second third fourth fifth sixth seventh eighth ninth tenth'.split(' ');

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
    return high === undefined || rest === undefined ? undefined : high * 1000 + rest;
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

const SAID = `(?:${[...NUMBER_WORDS].filter((w) => !/^(?:half|minus|another|dozen|quarter)$/.test(w)).join('|')})`;
const RUN = `(?:an? (?=hundred|thousand))?${SAID}(?: (?:and (?!a\\b))?${SAID})*`;
/** Parts of one, as decimals. */
const PARTS: Readonly<Record<string, string>> = {
  tenth: '1',
  fifth: '2',
  quarter: '25',
  third: '333',
  'two third': '667',
  'three quarter': '75',
};
const pointed = (decimals: string): string => [...decimals].map((d) => ONES[Number(d)]).join(' ');
const partOf = (part: string, unit: string): string => {
  const decimals = PARTS[part.replace(/s$/, '')] ?? '';
  return unit === 'minute'
    ? `${numberToWords(Math.round(Number(`0.${decimals}`) * 60))} seconds`
    : pointed(decimals);
};

/** Amounts as people say them → as the grammars do: parts of one, dozens, large numbers in the unit that has words for them. */
const AMOUNTS: readonly (readonly [RegExp, (...said: (string | undefined)[]) => string])[] = [
  [/\bhalf (?:a )?dozen\b/g, () => 'six'],
  [
    /\b(?:(an?|one|two|three) )?dozen\b/g,
    (_, many = 'a') => numberToWords(12 * (many === 'a' ? 1 : ONES.indexOf(many))) ?? '',
  ],
  [/\b(?:an? )?couple (?:of )?(?=hundred|thousand)/g, () => 'two '],
  [/\ban? (?:(?:good|full|whole|bare) )?(?=(?:hundred|thousand)\b)/g, () => 'one '],
  [new RegExp(`(?<!\\b(?:${SAID}|half|few|several) )\\b(?=(?:hundred|thousand)\\b)`, 'g'), () => 'one '],
  [/\b(?:an?|one|the) (?:fresh|new|whole|full|good|nice)(?= (?:liter|kilo|minute)\b)/g, () => 'one'],
  [
    /(?<!\band a )\b(?:a )?half(?: of)?(?: an?)?(?: (?:fresh|new|whole|full|good|nice))? (liter|kilo|kilogram|minute|hour)\b/g,
    (_, unit = '') => `half a${unit === 'hour' ? 'n' : ''} ${unit}`,
  ],
  // "twenty five and three fifths"
  [
    new RegExp(`(\\b${SAID}) and (one|two|three|four|six|seven|nine) (fifth|tenth)s?\\b(?! of\\b)`, 'g'),
    (_, number, many = '', part) =>
      `${number} point ${ONES[ONES.indexOf(many) * (part === 'fifth' ? 2 : 1)]}`,
  ],
  // "three quarters of an hour", "an hour and a quarter"
  [
    /\b(three quarters? of an hour|(?:an|one) hour and (?:a|three) quarters?)\b/g,
    (_, said = '') =>
      `${numberToWords((said.startsWith('three') ? 0 : 60) + (said.includes('three') ? 45 : 15))} minutes`,
  ],
  // "one and a quarter", "three and three quarter minutes"
  [
    new RegExp(
      `(\\b${SAID}) and (?:(?:a|one) (tenth|fifth|quarter|third)|((?:two third|three quarter)s?))(?! (?:of|film|roll|bottle|time|one|hours?)\\b)(?: (minute)s?\\b)?`,
      'g',
    ),
    (_, number, one, more, unit = '') =>
      `${number} ${unit === '' ? 'point' : 'minutes and'} ${partOf(one ?? more ?? '', unit)}`,
  ],
  [
    /\b(?:(?:an? |one )?(tenth|fifth|quarter)(?: of)?|(?:an? |one )?(third) of|((?:two third|three quarter)s?)(?: of)?)(?: an?)? (liter|minute)\b/g,
    (_, one, third, more, unit = '') =>
      `${unit === 'liter' ? 'zero point ' : ''}${partOf(one ?? third ?? more ?? '', unit)}${unit === 'liter' ? ' liters' : ''}`,
  ],
  // beyond what the grammars number in these units
  [
    new RegExp(`\\b(?=(?:\\w+ ){1,2}(?:hundred|thousand)\\b)(${RUN}) (milliliters?|mils?|seconds?)\\b`, 'g'),
    (all = '', run = '', unit = '') => {
      const many = wordsToNumber(run) ?? 0;
      if (unit.startsWith('s')) return many < 100 ? all : saidSeconds(many);
      return many < 1000 ? all : `${numberToWords(Math.round(many) / 1000)} liters`;
    },
  ],
  // "one gram twenty": as prices are said
  [
    new RegExp(`\\b(${SAID}) grams? (${RUN})(?=$| (?:of|exactly|weighed|on the)\\b)`, 'g'),
    (all = '', whole, parts = '') => {
      const hundredths = wordsToNumber(parts) ?? 0;
      return hundredths >= 10 && hundredths < 100
        ? `${whole} point ${pointed(String(hundredths))} grams`
        : all;
    },
  ],
  // which unit it was, said behind it
  [
    new RegExp(
      `\\b(${RUN}(?: and a half)?) (?:degrees )?(?:(?:(?:and |but )?(?:that|it)(?:'s| is)|i mean|but in|in) )+fahrenheit\\b(?: (?:mind|though|that is|i mean)\\b)*`,
      'g',
    ),
    (_, run) => `${run} degrees fahrenheit`,
  ],
  // "into the third bottle"; a first one may be of the evening
  [
    new RegExp(
      `(?<!\\ba )\\b(?:the )?(?:(?<=\\b(?:in|into|from|to) (?:the )?)(first)|(${ORDINALS.slice(1).join('|')})) bottle\\b(?! of\\b)`,
      'g',
    ),
    (_, first, other) => `bottle ${ONES[ORDINALS.indexOf(first ?? other ?? '') + 1]}`,
  ],
];

/** Words with their amounts as the grammars say them. */
export const plainAmounts = (words: string): string =>
  AMOUNTS.reduce((said, [form, meant]) => said.replace(form, meant), words);

/** "two minutes and five seconds" */
export const saidSeconds = (total: number): string =>
  [`${numberToWords(Math.floor(total / 60))} minutes`, `${numberToWords(total % 60)} seconds`]
    .filter((part) => !part.startsWith('zero'))
    .join(' and ');

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

/** Amounts beyond these are no amount of a darkroom, so a reading that gives one is not meant; by unit, in it. */
const MOST_OF_UNIT: readonly [RegExp, number][] = [
  [/^(?:l|lit(?:er|re)s?|ltr|kgs?|kilo(?:gram(?:me)?)?s?)$/, 99],
  [/^(?:[°º]|deg(?:ree)?s?|c|f|celsius|fahrenheit|min(?:ute)?s?|m)$/, 250],
];

/** A number with separators, as it stands in a line; NBSP and the thin spaces only ever group. */
const WRITTEN =
  /(?<![\d.,])\d{1,3}(?:[\u00a0\u2009\u202f'’]\d{3})+(?:[.,]\d+)?(?!\d)|(?<![\d.,])\d+(?:[.,]\d+)+(?!\d)|(?<![\d.,]|\d )\d{1,3}(?: \d{3})+(?:[.,]\d+)?(?=\s*(?:ml|millilit(?:er|re)s?|cc|g|grams?|grammes?|mg)\b)|(?<![\d.,])\d{5}(?![\d.,])/gi;
/** After these a number names a thing, so that "bottle 2 500 ml" holds two. */
const NAMES_A_THING =
  /(?:\b(?:bottles?|number|no\.?|nr\.?|films?|rolls?|steps?|cd|ecn|and|to|into|from|in)|#|-)\s*$/i;

/**
 * What a number that somebody wrote may mean, likeliest first: groups of three behind a comma, point, space or
 * apostrophe are thousands, anything else behind a comma or point is decimals. Two readings where the two habits
 * differ ("2,013" is 2013 or 2.013); "1,000" and "2.013" count as plain English. Empty: no number.
 * `unit` is the word after it, and rules out what no darkroom holds.
 */
export function writtenNumber(text: string, unit = ''): string[] {
  const plain = text.replace(/[\s'’](?=\d{3}(?!\d))/g, '');
  const grouped = plain !== text;
  const m = /^(\d+)((?:[.,]\d+)*)$/.exec(plain);
  if (!m) return [];
  const [, whole = '', tail = ''] = m;
  if (tail === '') return [whole];
  const marks = tail.replace(/\d/g, '');
  const parts = tail.slice(1).split(/[.,]/);
  const inThrees = whole.length <= 3 && !grouped && !/^0/.test(whole);
  const joined = whole + parts.join('');
  const asDecimal = `${whole}.${parts[0] ?? ''}`;
  if (marks.length > 1) {
    const last = parts.at(-1) ?? '';
    const groups = parts.slice(0, -1);
    const oneMark = new Set(marks.slice(0, -1)).size === 1;
    if (!inThrees || !oneMark || groups.some((p) => p.length !== 3)) return [];
    if (marks.at(-1) !== marks[0]) return [`${whole}${groups.join('')}.${last}`];
    return last.length === 3 ? [joined] : [];
  }
  const [only = ''] = parts;
  if (!inThrees || only.length !== 3) return [asDecimal];
  const most = MOST_OF_UNIT.find(([named]) => named.test(unit))?.[1] ?? 99_999;
  if (Number(joined) > most) return [asDecimal];
  if (marks === ',') return only === '000' ? [joined] : [joined, asDecimal];
  return only.endsWith('00') ? [asDecimal, joined] : [asDecimal];
}

/** Larger numbers are no words of the grammars: of these units they are said in the one a thousand times as large.
 * A measuring cylinder of 100 ml or more is read to the millilitre. */
const MOST_SAID = 9999;
const THOUSANDTH_OF: readonly [RegExp, string][] = [
  [/^(?:g|gr|grams?|grammes?)$/, 'kg'],
  [/^(?:ml|millilit(?:er|re)s?|cc)$/, 'litres'],
];

/** More numbers of two readings than this in one line are not tried. */
const MOST_DOUBTFUL = 2;

/** The line with its numbers written without separators: once, or once for each way that they may be meant. */
export function writtenLines(line: string): string[] {
  let lines = [''];
  let at = 0;
  let doubtful = 0;
  for (const m of line.matchAll(WRITTEN)) {
    const before = line.slice(at, m.index);
    if (m[0].includes(' ') && NAMES_A_THING.test(line.slice(0, m.index))) continue;
    const next = /^\s*([°º]|[a-z]+)?/i.exec(line.slice(m.index + m[0].length));
    const unit = next?.[1]?.toLowerCase();
    const readings = writtenNumber(m[0], unit);
    if (readings.length > 1) doubtful++;
    const used = readings.length === 0 ? [m[0]] : doubtful > MOST_DOUBTFUL ? readings.slice(0, 1) : readings;
    const large = THOUSANDTH_OF.find(([named]) => named.test(unit ?? ''))?.[1];
    const bySize = (n: string): string =>
      large !== undefined && Number(n) > MOST_SAID
        ? `${Number(n) / 1000} ${large}`
        : (large === 'litres' && Number(n) >= 100 ? Math.round(Number(n)) : n) + (next?.[0] ?? '');
    lines = lines.flatMap((l) => used.map((n) => l + before + bySize(n)));
    at = m.index + m[0].length + (next?.[0].length ?? 0);
  }
  return lines.map((l) => l + line.slice(at));
}
