import type { Doc, Place } from './syntax.js';

/** Thrown inside the reader only; `parseJsgf` turns it into a value. */
export class SyntaxProblem extends Error {
  constructor(
    readonly at: Place,
    readonly expected: string,
    found: string,
  ) {
    super(`line ${at.line}, column ${at.column}: expected ${expected}, found ${found}`);
  }
}

const DELIMITERS = new Set(';=|*+<>()[]{}/"');
const isSpace = (c: string): boolean => /\s/.test(c) || c === '\uFEFF';

/** Walks the text, skipping white space and comments, and remembers the last documentation comment. */
export class Scanner {
  private pos = 0;
  private doc: Doc | undefined;

  /** reading only moves forward, so the line is counted once */
  private line = { number: 1, start: 0, counted: 0 };

  constructor(private readonly text: string) {}

  place(): Place {
    const l = this.line;
    for (; l.counted < this.pos; l.counted++) {
      if (this.text[l.counted] === '\n') {
        l.number++;
        l.start = l.counted + 1;
      }
    }
    return { line: l.number, column: this.pos - l.start + 1 };
  }

  fail(expected: string, at = this.place()): never {
    throw new SyntaxProblem(at, expected, this.found());
  }

  /** What stands at the reading point, as a person would name it. */
  private found(): string {
    if (this.pos >= this.text.length) return 'the end of the file';
    if (isSpace(this.text[this.pos] ?? '')) return 'white space';
    const word = /^[^\s;=|*+<>()[\]{}/"]{1,24}/.exec(this.text.slice(this.pos))?.[0];
    return `"${word ?? this.text[this.pos]}"`;
  }

  /** The documentation comment met since the last call, if any. */
  takeDoc(): Doc | undefined {
    const doc = this.doc;
    this.doc = undefined;
    return doc;
  }

  skip(): void {
    for (;;) {
      while (this.pos < this.text.length && isSpace(this.text[this.pos] ?? '')) this.pos++;
      if (this.text.startsWith('//', this.pos)) {
        const eol = this.text.indexOf('\n', this.pos);
        this.pos = eol < 0 ? this.text.length : eol;
      } else if (this.text.startsWith('/*', this.pos)) this.blockComment();
      else return;
    }
  }

  private blockComment(): void {
    const end = this.text.indexOf('*/', this.pos + 2);
    if (end < 0) this.fail('"*/" to close the comment that starts here');
    const body = this.text.slice(this.pos + 2, end);
    if (body.startsWith('*')) this.doc = readDoc(body.slice(1));
    this.pos = end + 2;
  }

  atEnd(): boolean {
    this.skip();
    return this.pos >= this.text.length;
  }

  peek(): string {
    this.skip();
    return this.text[this.pos] ?? '';
  }

  /** Takes `symbol` if it comes next. */
  accept(symbol: string): boolean {
    this.skip();
    if (!this.text.startsWith(symbol, this.pos)) return false;
    this.pos += symbol.length;
    return true;
  }

  expect(symbol: string, expected: string): void {
    if (!this.accept(symbol)) this.fail(expected);
  }

  /** Takes a bare word (up to white space or a delimiter), or nothing. */
  word(): string | undefined {
    this.skip();
    const start = this.pos;
    while (this.pos < this.text.length) {
      const c = this.text[this.pos] ?? '';
      if (isSpace(c) || DELIMITERS.has(c)) break;
      this.pos++;
    }
    return this.pos > start ? this.text.slice(start, this.pos) : undefined;
  }

  /** Takes the header line, which may not have anything before it. */
  header(): { version: string; encoding?: string; locale?: string } {
    if (this.text.startsWith('\uFEFF')) this.pos = 1;
    const m = /^#JSGF[ \t]+(V\d+\.\d+)(?:[ \t]+([^\s;]+))?(?:[ \t]+([^\s;]+))?[ \t]*;/.exec(
      this.text.slice(this.pos),
    );
    if (!m)
      this.fail('the header "#JSGF V1.0;" (with an encoding and a locale if wanted) as the first thing');
    this.pos += m[0].length;
    return {
      version: m[1] ?? '',
      ...(m[2] !== undefined && { encoding: m[2] }),
      ...(m[3] !== undefined && { locale: m[3] }),
    };
  }

  /** Takes the inside of `<…>` once `<` has been taken. */
  ruleName(): string {
    const start = this.pos;
    while (this.pos < this.text.length && !/[\s<>]/.test(this.text[this.pos] ?? '')) this.pos++;
    const name = this.text.slice(start, this.pos);
    if (this.text[this.pos] !== '>') this.fail('">" to close the rule name, which holds no white space');
    if (name === '') this.fail('a rule name between "<" and ">"');
    this.pos++;
    return name;
  }

  /** Takes text up to the unescaped `close`, once the opening sign has been taken; `\` keeps the next character. */
  escaped(close: '"' | '}', what: string): string {
    const from = this.place();
    let out = '';
    for (; this.pos < this.text.length; this.pos++) {
      const c = this.text[this.pos] ?? '';
      if (c === close) {
        this.pos++;
        return out;
      }
      if (c === '\\') out += this.text[++this.pos] ?? '';
      else out += c;
    }
    throw new SyntaxProblem(
      from,
      `${close === '"' ? 'a closing quote' : '"}"'} to end this ${what}`,
      'the end of the file',
    );
  }

  /** Takes a weight once its first `/` has been taken. */
  weight(): number {
    this.skip();
    const at = this.place();
    const m = /^[^/\s]+/.exec(this.text.slice(this.pos))?.[0] ?? '';
    // the Note gives Java floats: 56, 0.056, 3.14e3, 3.14f
    if (!/^(\d+\.?\d*|\.\d+)(e[+-]?\d+)?[fd]?$/i.test(m))
      this.fail('a weight: a number from 0 up, such as /2.5/', at);
    this.pos += m.length;
    this.expect('/', '"/" to close the weight');
    return Number.parseFloat(m);
  }
}

function readDoc(body: string): Doc {
  const lines = body.split('\n').map((l) => l.replace(/^\s*\*? ?/, '').trimEnd());
  const text: string[] = [];
  const tags: { name: string; value: string }[] = [];
  for (const line of lines) {
    const tag = /^@(\S+)\s*(.*)$/.exec(line);
    const last = tags.at(-1);
    if (tag) tags.push({ name: tag[1] ?? '', value: tag[2] ?? '' });
    else if (last && line !== '') last.value = `${last.value} ${line}`.trim();
    else if (!last) text.push(line);
  }
  return { text: text.join(' ').replace(/\s+/g, ' ').trim(), tags };
}
