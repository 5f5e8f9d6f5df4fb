/**
 * The tag language of our grammars. Tags act on a record, in the order in which a sentence meets them:
 *
 *   {key=value}     sets a field; true, false and plain numbers become such unless quoted; `a.b=…` sets a part
 *   {+7} {x100}     builds the number being said: adds to it, multiplies it (x1000 closes the thousands)
 *   {.9}            adds the next decimal place
 *   {neg}           makes it negative
 *   {>key}          stores the number in a field and begins afresh; {>key*60} scales it first, {>key-32/1.8}
 *                   shifts and scales it; {>key+} and {>key+*60} add it to what the field holds
 *   {to<-from}      moves a field, e.g. what a shared rule for liquids found to where this sentence wants it
 *   {drop key}      forgets a field
 *
 * `intent` names the type of the intent; everything else left in the record is the intent's fields.
 */
export type Value = string | number | boolean | { [key: string]: Value };
export type Fields = { [key: string]: Value };

type Step =
  | { op: 'set'; path: string[]; value: Value }
  | { op: 'add'; n: number }
  | { op: 'times'; n: number }
  | { op: 'decimal'; digit: string }
  | { op: 'negative' }
  | { op: 'store'; path: string[]; shift: number; factor: number; more: boolean }
  | { op: 'move'; from: string[]; to: string[] }
  | { op: 'drop'; path: string[] };

const KEY = '[a-zA-Z]\\w*(?:\\.[a-zA-Z]\\w*)*';
const FORMS: [RegExp, (m: string[]) => Step][] = [
  [new RegExp(`^(${KEY})<-(${KEY})$`), (m) => ({ op: 'move', to: parts(m[1]), from: parts(m[2]) })],
  [new RegExp(`^(${KEY})=(.*)$`), (m) => ({ op: 'set', path: parts(m[1]), value: literal(m[2] ?? '') })],
  [/^\+(\d+)$/, (m) => ({ op: 'add', n: Number(m[1]) })],
  [/^x(\d+)$/, (m) => ({ op: 'times', n: Number(m[1]) })],
  [/^\.(\d)$/, (m) => ({ op: 'decimal', digit: m[1] ?? '' })],
  [/^neg$/, () => ({ op: 'negative' })],
  [
    new RegExp(`^>(${KEY})(\\+?)(?:-([0-9.]+))?(?:([*/])([0-9.]+))?$`),
    (m) => ({
      op: 'store',
      path: parts(m[1]),
      more: m[2] === '+',
      shift: Number(m[3] ?? 0),
      factor: m[4] === '/' ? 1 / Number(m[5]) : Number(m[5] ?? 1),
    }),
  ],
  [new RegExp(`^drop (${KEY})$`), (m) => ({ op: 'drop', path: parts(m[1]) })],
];

const parts = (key = ''): string[] => key.split('.');

function literal(text: string): Value {
  if (text === 'true' || text === 'false') return text === 'true';
  if (/^".*"$/.test(text)) return text.slice(1, -1);
  return /^-?\d+(\.\d+)?$/.test(text) ? Number(text) : text;
}

/** One tag's step; undefined when the tag is not in the language. */
export function readTag(tag: string): Step | undefined {
  for (const [form, build] of FORMS) {
    const m = form.exec(tag);
    if (m) return build([...m]);
  }
  return undefined;
}

/** Runs the tags of one path. Throws on a tag outside the language: `load` refuses such a grammar first. */
export function runTags(tags: readonly string[]): Fields {
  const fields: Fields = {};
  let number = { thousands: 0, group: 0, decimals: '', negative: false };
  for (const tag of tags) {
    const step = readTag(tag);
    if (!step) throw new Error(`"{${tag}}" is not in the tag language`);
    if (step.op === 'set') put(fields, step.path, step.value);
    else if (step.op === 'add') number.group += step.n;
    else if (step.op === 'times' && step.n === 1000) {
      number = { ...number, thousands: number.thousands + number.group * 1000, group: 0 };
    } else if (step.op === 'times') number.group *= step.n;
    else if (step.op === 'decimal') number.decimals += step.digit;
    else if (step.op === 'negative') number.negative = true;
    else if (step.op === 'store') {
      const said = Number(`${number.thousands + number.group}.${number.decimals || 0}`);
      const signed = ((number.negative ? -said : said) - step.shift) * step.factor;
      const before = step.more ? get(fields, step.path) : undefined;
      put(fields, step.path, tidy((typeof before === 'number' ? before : 0) + signed));
      number = { thousands: 0, group: 0, decimals: '', negative: false };
    } else if (step.op === 'drop') put(fields, step.path, undefined);
    else {
      const value = get(fields, step.from);
      put(fields, step.from, undefined);
      if (value !== undefined) put(fields, step.to, value);
    }
  }
  return fields;
}

/** Takes the dust of binary fractions off, e.g. 1.1 × 60. */
const tidy = (n: number): number => Number(n.toPrecision(12));

function get(fields: Fields, [head = '', ...rest]: string[]): Value | undefined {
  const value = Object.hasOwn(fields, head) ? fields[head] : undefined;
  if (rest.length === 0 || value === undefined) return value;
  return typeof value === 'object' ? get(value, rest) : undefined;
}

function put(fields: Fields, [head = '', ...rest]: string[], value: Value | undefined): void {
  if (rest.length === 0) {
    if (value === undefined) delete fields[head];
    else fields[head] = value;
    return;
  }
  const inner = fields[head];
  const record = typeof inner === 'object' ? inner : {};
  put(record, rest, value);
  if (Object.keys(record).length > 0) fields[head] = record;
  else delete fields[head];
}
