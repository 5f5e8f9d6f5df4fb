import type { WordArc, WordGraph } from '../types.js';
import { parseJsgf } from './parse.js';
import { type Found, fault, findRule, GrammarFault, isRecursive, type Resolve } from './resolve.js';
import type { Expansion, Grammar, GrammarProblem, Rule } from './syntax.js';
import { tidyGraph } from './tidy.js';

export type Compiled = { ok: true; graph: WordGraph } | { ok: false; problem: GrammarProblem };

export interface CompileOptions {
  /** only this rule of the grammar, public or not */
  rule?: string;
  /** rules compiled before; pass the same map along to compile grammars that share rules quickly */
  known?: Map<Rule, WordGraph>;
}

/** How deep rules may stand inside each other, and how large a graph may grow: far above any sensible grammar. */
const DEEPEST = 64;
const MOST_ARCS = 200_000;

/**
 * Turns a grammar into the graph of its sentences: all its public rules side by side, or only one.
 * Tags stay on the path in the order of the Note: after the part they follow. Words become lower case; a quoted
 * token of several words becomes several arcs. Right recursion becomes a loop, so it is exact and unbounded;
 * left and embedded recursion, and a tag put after a recursive reference, are refused. A zero-weight
 * alternative is left out.
 */
export function compileGrammar(
  source: string | Grammar,
  resolve: Resolve,
  { rule, known = new Map() }: CompileOptions = {},
): Compiled {
  let grammar: Grammar;
  if (typeof source === 'string') {
    const parsed = parseJsgf(source);
    if (!parsed.ok) return parsed;
    grammar = parsed.grammar;
  } else grammar = source;
  try {
    return { ok: true, graph: tidyGraph(new Compiler(resolve, known).graph(grammar, rule)) };
  } catch (e) {
    if (e instanceof GrammarFault) return { ok: false, problem: e.problem };
    throw e;
  }
}

interface Open extends Found {
  from: number;
  to: number;
}

class Compiler {
  private nodes = 0;
  private readonly arcs: WordArc[] = [];
  /** rules being written out now, outermost first */
  private readonly open: Open[] = [];

  constructor(
    private readonly resolve: Resolve,
    private readonly known: Map<Rule, WordGraph>,
    /** how many rules this one stands in */
    private readonly depth = 0,
  ) {}

  graph(grammar: Grammar, only?: string): WordGraph {
    const start = this.node();
    const end = this.node();
    const rules = [...grammar.rules.values()].filter((r) =>
      only === undefined ? r.isPublic : r.name === only,
    );
    if (rules.length === 0) {
      const what = only === undefined ? 'no rule is public' : `<${only}> is not defined`;
      throw fault(grammar, { line: 1, column: 1 }, 'a public rule, which can be spoken', what);
    }
    for (const rule of rules) this.place({ grammar, rule }, start, end);
    return { name: grammar.name, nodeCount: this.nodes, start, end, arcs: this.arcs };
  }

  private node(): number {
    return this.nodes++;
  }

  private arc(
    from: number,
    to: number,
    word: string | null,
    tags?: readonly string[],
    weight?: number,
  ): void {
    this.arcs.push({
      from,
      to,
      word,
      ...(tags && tags.length > 0 && { tags }),
      ...(weight !== undefined && weight !== 1 && { weight }),
    });
  }

  /** Puts a rule's own graph between two nodes, compiling it first if need be; recursive rules are written out. */
  private place(found: Found, from: number, to: number): void {
    let part = this.known.get(found.rule);
    if (!part && isRecursive(found, this.resolve)) {
      this.rule(found, from, to);
      return;
    }
    if (!part) {
      const alone = new Compiler(this.resolve, this.known, this.depth + this.open.length + 1);
      const [start, end] = [alone.node(), alone.node()];
      alone.rule(found, start, end);
      part = tidyGraph({ name: found.rule.name, nodeCount: alone.nodes, start, end, arcs: alone.arcs });
      this.known.set(found.rule, part);
    }
    const { start, end, arcs } = part;
    const shift = this.nodes;
    this.nodes += part.nodeCount;
    const looped = start === end || arcs.some((a) => a.to === start || a.from === end);
    if (looped) {
      this.arc(from, start + shift, null);
      this.arc(end + shift, to, null);
    }
    const at = (n: number): number => (looped ? n + shift : n === start ? from : n === end ? to : n + shift);
    for (const a of arcs) this.arcs.push({ ...a, from: at(a.from), to: at(a.to) });
    this.refuseTooLarge(found);
  }

  private rule(found: Found, from: number, to: number): void {
    this.refuseTooLarge(found);
    // a fresh start node, so that a recursive reference loops to this rule alone
    const start = this.node();
    this.arc(from, start, null);
    this.open.push({ ...found, from: start, to });
    this.expand(found.rule.expansion, start, to);
    this.open.pop();
  }

  private refuseTooLarge({ grammar, rule }: Found): void {
    if (this.depth + this.open.length <= DEEPEST && this.arcs.length <= MOST_ARCS) return;
    const expected = `rules at most ${DEEPEST} deep and ${MOST_ARCS} arcs in all`;
    throw fault(grammar, rule.at, expected, `<${rule.name}> makes the grammar too large`);
  }

  private reference(name: string, at: { line: number; column: number }, from: number, to: number): void {
    if (name === 'NULL') this.arc(from, to, null);
    if (name === 'NULL' || name === 'VOID') return;
    const here = this.open[this.open.length - 1];
    if (!here) return;
    const found = findRule(here.grammar, name, at, this.resolve);
    const again = this.open.findIndex((o) => o.rule === found.rule);
    const outer = this.open[again];
    if (!outer) {
      this.place(found, from, to);
      return;
    }
    const chain = this.open.slice(again).map((o) => `<${o.rule.name}>`);
    if (this.sameWithoutWords(outer.from, from)) {
      const what = `${chain.join(' → ')} → <${name}> refers to itself before any word is said (left recursion)`;
      throw fault(here.grammar, at, 'a word before the rule refers to itself', what);
    }
    if (outer.to !== to) {
      const what = `${chain.join(' → ')} → <${name}> refers to itself with something after it`;
      throw fault(
        here.grammar,
        at,
        'the reference as the very last part of the rule (right recursion), or * or +',
        what,
      );
    }
    this.arc(from, outer.from, null);
  }

  /** Whether `target` is reached from `origin` without any word. */
  private sameWithoutWords(origin: number, target: number): boolean {
    const seen = new Set([origin]);
    for (const node of seen) {
      if (node === target) return true;
      for (const a of this.arcs) if (a.from === node && a.word === null) seen.add(a.to);
    }
    return false;
  }

  private expand(e: Expansion, from: number, to: number): void {
    switch (e.kind) {
      case 'token':
        this.words(e.text, from, to);
        break;
      case 'rule':
        this.reference(e.name, e.at, from, to);
        break;
      case 'sequence':
        this.sequence(e.items, from, to);
        break;
      case 'alternatives':
        for (const { expansion, weight } of e.items) {
          if (weight === 0) continue;
          const entry = weight === undefined || weight === 1 ? from : this.node();
          if (entry !== from) this.arc(from, entry, null, undefined, weight);
          this.expand(expansion, entry, to);
        }
        break;
      case 'optional':
        this.expand(e.of, from, to);
        this.arc(from, to, null);
        break;
      case 'repeat': {
        const [head, tail] = [this.node(), this.node()];
        this.arc(from, head, null);
        this.expand(e.of, head, tail);
        this.arc(tail, head, null);
        this.arc(tail, to, null);
        if (e.least === 0) this.arc(from, to, null);
        break;
      }
      case 'tagged': {
        if (e.of.kind === 'token' && !e.of.text.includes(' ')) {
          this.arc(from, to, e.of.text.toLowerCase(), e.tags);
          break;
        }
        const before = this.node();
        this.expand(e.of, from, before);
        this.arc(before, to, null, e.tags);
      }
    }
  }

  private words(text: string, from: number, to: number): void {
    const words = text.toLowerCase().split(' ');
    let at = from;
    words.forEach((word, i) => {
      const next = i === words.length - 1 ? to : this.node();
      this.arc(at, next, word);
      at = next;
    });
  }

  private sequence(items: readonly Expansion[], from: number, to: number): void {
    let at = from;
    items.forEach((item, i) => {
      const next = i === items.length - 1 ? to : this.node();
      this.expand(item, at, next);
      at = next;
    });
  }
}
