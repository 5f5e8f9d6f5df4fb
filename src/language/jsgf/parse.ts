import { limits } from '../../limits.js';
import { Scanner, SyntaxProblem } from './scanner.js';
import type { Alternative, Expansion, Grammar, Import, Parsed, Place, Rule } from './syntax.js';

/**
 * Reads one JSGF grammar (W3C Note, 5 June 2000). `label` names it in messages until its own name is known.
 * Never throws: what is wrong comes back with its line, its column and what was expected.
 */
export function parseJsgf(text: string, label = 'grammar'): Parsed {
  try {
    if (text.length > limits.grammarChars)
      throw new SyntaxProblem(
        { line: 1, column: 1 },
        `at most ${limits.grammarChars} characters`,
        `${text.length}`,
      );
    return { ok: true, grammar: new Reader(text).grammar() };
  } catch (e) {
    if (!(e instanceof SyntaxProblem)) throw e;
    return {
      ok: false,
      problem: {
        grammar: label,
        ...e.at,
        expected: e.expected,
        message: `${label}, ${e.message}.`,
      },
    };
  }
}

const PACKAGE_NAME = /^[\p{L}_$][\p{L}\p{N}_$-]*(\.[\p{L}_$][\p{L}\p{N}_$-]*)*$/u;

class Reader {
  private readonly s: Scanner;
  private depth = 0;

  constructor(text: string) {
    this.s = new Scanner(text);
  }

  grammar(): Grammar {
    const header = this.s.header();
    if (header.version !== 'V1.0') {
      throw new SyntaxProblem({ line: 1, column: 7 }, 'version V1.0', `"${header.version}"`);
    }
    this.s.skip();
    const doc = this.s.takeDoc();
    const name = this.declaredName();
    const imports: Import[] = [];
    const rules = new Map<string, Rule>();
    while (!this.s.atEnd()) {
      const at = this.s.place();
      if (this.s.peek() === '<') {
        this.addRule(rules, false, at);
        continue;
      }
      const word = this.s.word();
      if (word === 'public') this.addRule(rules, true, at);
      else if (word === 'import' && rules.size === 0) imports.push(this.importOf(at));
      else if (word === 'import')
        throw new SyntaxProblem(at, 'imports before the first rule', 'an import after it');
      else
        throw new SyntaxProblem(
          at,
          'a rule ("<name> = …;" or "public <name> = …;")',
          `"${word ?? this.s.peek()}"`,
        );
    }
    return { ...header, name, imports, rules, ...(doc && { doc }) };
  }

  private declaredName(): string {
    const at = this.s.place();
    const word = this.s.word();
    if (word !== 'grammar') {
      throw new SyntaxProblem(at, '"grammar name;" after the header', word ? `"${word}"` : 'something else');
    }
    this.s.skip();
    const nameAt = this.s.place();
    const name = this.s.word() ?? '';
    if (!PACKAGE_NAME.test(name)) {
      throw new SyntaxProblem(nameAt, 'a grammar name such as "bench.pouring"', `"${name || this.s.peek()}"`);
    }
    this.s.expect(';', '";" after the grammar name');
    return name;
  }

  private importOf(at: Place): Import {
    this.s.expect('<', '"<" and the rule to import');
    const full = this.s.ruleName();
    const dot = full.lastIndexOf('.');
    if (dot <= 0) throw new SyntaxProblem(at, 'an import such as <grammar.rule> or <grammar.*>', `<${full}>`);
    this.s.expect(';', '";" after the import');
    this.s.takeDoc();
    return { grammar: full.slice(0, dot), rule: full.slice(dot + 1), at };
  }

  private addRule(rules: Map<string, Rule>, isPublic: boolean, at: Place): void {
    const doc = this.s.takeDoc();
    this.s.expect('<', '"<" and the name of the public rule');
    const name = this.s.ruleName();
    if (name === 'NULL' || name === 'VOID') {
      throw new SyntaxProblem(at, 'a name of your own (NULL and VOID are already defined)', `<${name}>`);
    }
    if (name.includes('.')) throw new SyntaxProblem(at, 'a simple rule name, without a dot', `<${name}>`);
    if (rules.has(name))
      throw new SyntaxProblem(at, `each rule once; <${name}> is already defined`, `<${name}> again`);
    this.s.expect('=', '"=" after the rule name');
    const expansion = this.alternatives();
    this.s.expect(';', '";" at the end of the rule');
    if (rules.size >= limits.grammarRules)
      throw new SyntaxProblem(at, `at most ${limits.grammarRules} rules`, `<${name}> after them`);
    rules.set(name, { name, isPublic, expansion, at, ...(doc && { doc }) });
  }

  private alternatives(): Expansion {
    const items: Alternative[] = [];
    const start = this.s.place();
    do {
      const weighted = this.s.peek() === '/' && this.s.accept('/');
      const weight = weighted ? this.s.weight() : undefined;
      items.push({ expansion: this.sequence(), ...(weight !== undefined && { weight }) });
    } while (this.s.accept('|'));
    const weights = items.flatMap((i) => (i.weight === undefined ? [] : [i.weight]));
    if (weights.length > 0 && weights.length < items.length) {
      throw new SyntaxProblem(
        start,
        'a weight on every alternative of the set or on none',
        `${weights.length} of ${items.length} weighted`,
      );
    }
    if (weights.length > 0 && weights.every((w) => w === 0)) {
      throw new SyntaxProblem(start, 'at least one weight above 0', 'only zeros');
    }
    const only = items.length === 1 ? items[0] : undefined;
    return only && only.weight === undefined ? only.expansion : { kind: 'alternatives', items };
  }

  private sequence(): Expansion {
    const items: Expansion[] = [];
    for (;;) {
      const c = this.s.peek();
      if (c === '' || ';|)]'.includes(c)) break;
      items.push(this.item());
    }
    if (items.length === 0) this.s.fail('a word, a <rule>, "(" or "[" (use <NULL> for nothing said)');
    return items.length === 1 && items[0] ? items[0] : { kind: 'sequence', items };
  }

  private item(): Expansion {
    let of = this.atom();
    if (this.s.accept('*')) of = { kind: 'repeat', of, least: 0 };
    else if (this.s.accept('+')) of = { kind: 'repeat', of, least: 1 };
    const tags: string[] = [];
    while (this.s.accept('{')) tags.push(this.s.escaped('}', 'tag').trim());
    if ('*+'.includes(this.s.peek()) && this.s.peek() !== '') {
      this.s.fail('one of * and + at most, before any tag; put brackets around the part to repeat it');
    }
    return tags.length > 0 ? { kind: 'tagged', of, tags } : of;
  }

  private atom(): Expansion {
    const c = this.s.peek();
    const at = this.s.place();
    if (this.s.accept('(')) return this.closed(')', at);
    if (this.s.accept('[')) return { kind: 'optional', of: this.closed(']', at) };
    if (this.s.accept('<')) return { kind: 'rule', name: this.s.ruleName(), at };
    if (this.s.accept('"')) {
      const text = this.s.escaped('"', 'quoted token').trim().replace(/\s+/g, ' ');
      if (text === '') throw new SyntaxProblem(at, 'a word between the quotes', 'nothing');
      return { kind: 'token', text, at };
    }
    const text = c === '/' ? undefined : this.s.word();
    if (text === undefined) {
      this.s.fail(c === '{' ? 'something for the tag to follow' : 'a word, a <rule>, "(" or "["');
    }
    return { kind: 'token', text, at };
  }

  private closed(close: ')' | ']', from: Place): Expansion {
    if (++this.depth > limits.grammarDepth) {
      throw new SyntaxProblem(from, `at most ${limits.grammarDepth} brackets within brackets`, 'one more');
    }
    const inner = this.alternatives();
    this.depth--;
    this.s.expect(
      close,
      `"${close}" to close the bracket opened at line ${from.line}, column ${from.column}`,
    );
    return inner;
  }
}
