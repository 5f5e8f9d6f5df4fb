import type { Expansion, Grammar, GrammarProblem, Place, Rule } from './syntax.js';

/** Gives a parsed grammar by its full name, or undefined. */
export type Resolve = (grammarName: string) => Grammar | undefined;

/** A rule, and the grammar in which it stands (its own references are read there). */
export interface Found {
  readonly grammar: Grammar;
  readonly rule: Rule;
}

/** Thrown inside the compiler only. */
export class GrammarFault extends Error {
  constructor(readonly problem: GrammarProblem) {
    super(problem.message);
  }
}

export function fault(grammar: Grammar, at: Place, expected: string, what: string): GrammarFault {
  const message = `${grammar.name}, line ${at.line}, column ${at.column}: ${what}; expected ${expected}.`;
  return new GrammarFault({ grammar: grammar.name, ...at, expected, message });
}

/**
 * Finds a rule as the Note's section 3.3 and 4.2 say: a local rule first, then the imports, by simple, partly or
 * fully qualified name; two imports that fit are an error, and so is a rule that is not public.
 */
export function findRule(from: Grammar, reference: string, at: Place, resolve: Resolve): Found {
  const local = from.rules.get(reference) ?? ownQualified(from, reference);
  if (local) return { grammar: from, rule: local };
  const dot = reference.lastIndexOf('.');
  const simple = reference.slice(dot + 1);
  const prefix = dot < 0 ? '' : reference.slice(0, dot);
  const found = new Map<string, Found>();
  for (const imported of from.imports) {
    if (imported.rule !== '*' && imported.rule !== simple) continue;
    if (!namedBy(imported.grammar, prefix)) continue;
    const grammar = resolve(imported.grammar);
    if (!grammar) {
      throw fault(
        from,
        imported.at,
        'a grammar that is at hand',
        `grammar ${imported.grammar} was not found`,
      );
    }
    const rule = grammar.rules.get(simple);
    if (rule?.isPublic) found.set(`${grammar.name}.${simple}`, { grammar, rule });
    else if (imported.rule !== '*') {
      const why = rule ? 'is not public' : 'is not defined';
      throw fault(from, imported.at, `a public rule of ${imported.grammar}`, `<${simple}> ${why} there`);
    }
  }
  const [first, second] = [...found.values()];
  if (first && second) {
    const names = [...found.keys()].map((n) => `<${n}>`).join(' and ');
    throw fault(from, at, 'the full name of one of them', `<${reference}> could be ${names}`);
  }
  if (!first)
    throw fault(from, at, 'a rule of this grammar or an imported one', `<${reference}> is not defined`);
  return first;
}

const namedBy = (grammarName: string, prefix: string): boolean =>
  prefix === '' || grammarName === prefix || grammarName.endsWith(`.${prefix}`);

function ownQualified(from: Grammar, reference: string): Rule | undefined {
  const dot = reference.lastIndexOf('.');
  if (dot < 0 || !namedBy(from.name, reference.slice(0, dot))) return undefined;
  return from.rules.get(reference.slice(dot + 1));
}

/** Whether a rule comes back to itself through the rules it uses. */
export function isRecursive(origin: Found, resolve: Resolve): boolean {
  const seen = new Set<Rule>();
  const stack: Found[] = [origin];
  for (let found = stack.pop(); found; found = stack.pop()) {
    for (const { name, at } of references(found.rule.expansion)) {
      const next = findRule(found.grammar, name, at, resolve);
      if (next.rule === origin.rule) return true;
      if (seen.has(next.rule)) continue;
      seen.add(next.rule);
      stack.push(next);
    }
  }
  return false;
}

/** The rules an expansion names, but for NULL and VOID. */
export function references(e: Expansion): { name: string; at: Place }[] {
  switch (e.kind) {
    case 'token':
      return [];
    case 'rule':
      return e.name === 'NULL' || e.name === 'VOID' ? [] : [e];
    case 'sequence':
      return e.items.flatMap(references);
    case 'alternatives':
      return e.items.flatMap((i) => references(i.expansion));
    default:
      return references(e.of);
  }
}
