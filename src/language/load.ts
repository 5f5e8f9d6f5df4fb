import type { Situation } from '../process/desk.js';
import { compileGrammar } from './jsgf/compile.js';
import { parseJsgf } from './jsgf/parse.js';
import { findRule, GrammarFault, isRecursive, type Resolve } from './jsgf/resolve.js';
import type { Expansion, Grammar, GrammarProblem, Place, Rule } from './jsgf/syntax.js';
import { packTags } from './jsgf/tidy.js';
import { readTag } from './meaning/tags.js';
import type { WordGraph } from './types.js';

/** In the order in which help lists them; `anytime` is always open. */
export const SITUATIONS = [
  'preparing',
  'warming',
  'loading',
  'pouring',
  'immersed',
  'draining',
  'challenged',
  'spill',
  'hanging',
  'closing',
  'mixing',
  'anytime',
] as const satisfies readonly Situation[];

/** All grammars, read and checked. */
export interface Grammars {
  /** by full name, e.g. `tankside.numbers` */
  readonly parsed: ReadonlyMap<string, Grammar>;
  /** each is compiled when it is first asked for (some tens of milliseconds) and kept */
  readonly graphs: Readonly<Record<Situation, WordGraph>>;
  /** every word that can be said anywhere */
  readonly vocabulary: ReadonlySet<string>;
}

export type Loaded = { ok: true; grammars: Grammars } | { ok: false; problems: GrammarProblem[] };

/** The package that our own grammars stand in. */
export const PACKAGE = 'tankside';

/**
 * Reads and checks the texts of our own grammars. `texts` maps a file's name (for messages only) to what it holds.
 * All problems come back together: syntax, missing rules, tags outside the tag language, missing situations, and
 * anything unbounded: a spoken sentence must come to an end, so repeats and recursion have no place in them.
 * `added`: the same rules in another language, whose sentences, help and examples go before ours.
 */
export function loadGrammars(
  texts: Readonly<Record<string, string>>,
  added: Readonly<Record<string, string>> = {},
): Loaded {
  const problems: GrammarProblem[] = [];
  const parsed = new Map<string, Grammar>();
  for (const [file, text] of Object.entries(texts)) {
    const result = parseJsgf(text, file);
    if (!result.ok) problems.push(result.problem);
    else if (parsed.has(result.grammar.name)) {
      problems.push(problem(file, { line: 1, column: 1 }, `a second grammar named ${result.grammar.name}`));
    } else parsed.set(result.grammar.name, documented(result.grammar));
  }
  for (const [file, text] of Object.entries(added)) {
    const result = parseJsgf(text, file);
    const base = result.ok ? parsed.get(result.grammar.name) : undefined;
    if (!result.ok) problems.push(result.problem);
    else if (!base)
      problems.push(problem(file, { line: 1, column: 1 }, `no grammar ${result.grammar.name} to add to`));
    else parsed.set(base.name, withAdded(base, documented(result.grammar)));
  }
  if (problems.length > 0) return { ok: false, problems };

  const resolve: Resolve = (name) => parsed.get(name);
  for (const grammar of parsed.values()) problems.push(...checked(grammar, resolve));
  for (const s of SITUATIONS) {
    if (parsed.has(`${PACKAGE}.${s}`)) continue;
    problems.push(problem(s, { line: 1, column: 1 }, `no grammar ${PACKAGE}.${s}`));
  }
  if (problems.length > 0) return { ok: false, problems };
  const rules = [...parsed.values()].flatMap((g) => [...g.rules.values()]);
  const vocabulary = new Set(rules.flatMap((r) => parts(r.expansion)).flatMap((p) => wordsIn(p)));
  return { ok: true, grammars: { parsed, graphs: lazyGraphs(parsed, resolve), vocabulary } };
}

/** Every sentence rule's comment made whole: what its grammar says of all, and its first sentence where it has no example. */
function documented(grammar: Grammar): Grammar {
  const shared = grammar.doc?.tags ?? [];
  const rules = [...grammar.rules].map(([name, rule]): [string, Rule] => {
    const named = parts(rule.expansion).some((p) => p.kind === 'tagged' && p.tags.some(namesIntent));
    if (!rule.doc || !named) return [name, rule];
    const { text, tags } = rule.doc;
    const value = firstSentence(rule.expansion);
    const also = [...shared, ...(value === undefined ? [] : [{ name: 'example', value }])];
    const lacking = also.filter((tag) => !tags.some((own) => own.name === tag.name));
    return [name, { ...rule, doc: { text, tags: [...lacking, ...tags] } }];
  });
  return { ...grammar, rules: new Map(rules) };
}

const namesIntent = (tag: string): boolean => tag.startsWith('intent=');

/** The first sentence, without what may be left out; undefined where it has a name or a number. */
function firstSentence(e: Expansion): string | undefined {
  if (e.kind === 'token') return e.text;
  if (e.kind === 'alternatives') return e.items[0] && firstSentence(e.items[0].expansion);
  if (e.kind === 'tagged') return firstSentence(e.of);
  if (e.kind !== 'sequence') return undefined;
  const said = e.items.filter((i) => i.kind !== 'optional').map(firstSentence);
  return said.includes(undefined) ? undefined : said.join(' ');
}

/** Each rule as either language has it. */
function withAdded(base: Grammar, added: Grammar): Grammar {
  const rules = new Map(base.rules);
  for (const rule of added.rules.values()) {
    const ours = base.rules.get(rule.name);
    const subject = ours?.doc?.tags.filter((tag) => tag.name === 'group') ?? [];
    const either = [rule, ...(ours ? [ours] : [])].map(({ expansion }) => ({ expansion }));
    rules.set(rule.name, {
      ...rule,
      ...(rule.doc && { doc: { ...rule.doc, tags: [...subject, ...rule.doc.tags] } }),
      ...(added.locale !== undefined && { locale: added.locale }),
      expansion: { kind: 'alternatives', items: either },
    });
  }
  const names = new Set(base.imports.map((i) => `${i.grammar}.${i.rule}`));
  const imports = [...base.imports, ...added.imports.filter((i) => !names.has(`${i.grammar}.${i.rule}`))];
  return { ...base, imports, rules };
}

function lazyGraphs(parsed: ReadonlyMap<string, Grammar>, resolve: Resolve): Record<Situation, WordGraph> {
  const known = new Map<Rule, WordGraph>();
  const graphs = {} as Record<Situation, WordGraph>;
  let compiledSoFar = 0;
  for (const situation of SITUATIONS) {
    let graph: WordGraph | undefined;
    const get = (): WordGraph => {
      if (graph) return graph;
      graph = compiled(parsed.get(`${PACKAGE}.${situation}`), resolve, known);
      compiledSoFar++;
      // the graphs of single rules have served
      if (compiledSoFar === SITUATIONS.length) known.clear();
      return graph;
    };
    Object.defineProperty(graphs, situation, { get, enumerable: true });
  }
  return graphs;
}

function compiled(grammar: Grammar | undefined, resolve: Resolve, known: Map<Rule, WordGraph>): WordGraph {
  const result = grammar && compileGrammar(grammar, resolve, { known });
  // checked when loaded: only a grammar of absurd size comes here
  if (!result?.ok) throw new Error(result?.problem.message ?? 'This grammar was never loaded.');
  return packTags(result.graph);
}

/**
 * The sentences of one of our rules by itself.
 * @throws Error when there is no such rule
 */
export function ruleGraph({ parsed }: Grammars, grammar: string, rule: string): WordGraph {
  const found = parsed.get(`${PACKAGE}.${grammar}`);
  const result = found && compileGrammar(found, (name) => parsed.get(name), { rule });
  if (!result?.ok) throw new Error(`<${grammar}.${rule}> cannot be read: ${result?.problem.message}`);
  return result.graph;
}

function checked(grammar: Grammar, resolve: Resolve): GrammarProblem[] {
  const problems: GrammarProblem[] = [];
  for (const rule of grammar.rules.values()) {
    try {
      for (const part of parts(rule.expansion)) {
        if (part.kind === 'rule' && part.name !== 'NULL' && part.name !== 'VOID') {
          findRule(grammar, part.name, part.at, resolve);
        }
        if (part.kind === 'repeat')
          problems.push(problem(grammar.name, rule.at, `a repeat in <${rule.name}>`));
        const strange = part.kind === 'tagged' ? part.tags.find((t) => !readTag(t)) : undefined;
        if (strange !== undefined)
          problems.push(problem(grammar.name, rule.at, `the tag {${strange}} in <${rule.name}>`));
      }
      if (isRecursive({ grammar, rule }, resolve)) {
        problems.push(problem(grammar.name, rule.at, `<${rule.name}> within itself`));
      }
    } catch (e) {
      if (!(e instanceof GrammarFault)) throw e;
      problems.push(e.problem);
    }
  }
  return problems;
}

/** An expansion and everything inside it. */
function parts(e: Expansion): Expansion[] {
  switch (e.kind) {
    case 'token':
    case 'rule':
      return [e];
    case 'sequence':
      return [e, ...e.items.flatMap(parts)];
    case 'alternatives':
      return [e, ...e.items.flatMap((i) => parts(i.expansion))];
    default:
      return [e, ...parts(e.of)];
  }
}

const wordsIn = (part: Expansion): string[] =>
  part.kind === 'token' ? part.text.toLowerCase().split(' ') : [];

function problem(grammar: string, at: Place, found: string): GrammarProblem {
  const expected =
    'one grammar for each situation, without repeats or recursion, with tags of the tag language';
  const message = `${grammar}, line ${at.line}, column ${at.column}: found ${found}; expected ${expected}.`;
  return { grammar, ...at, expected, message };
}
