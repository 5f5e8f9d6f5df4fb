import type { Situation } from '../process/desk.js';
import { compileGrammar } from './jsgf/compile.js';
import { parseJsgf } from './jsgf/parse.js';
import type { Grammar, GrammarProblem, Rule } from './jsgf/syntax.js';
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

/** All grammars, read and compiled; immutable. */
export interface Grammars {
  /** by full name, e.g. `tankside.numbers` */
  readonly parsed: ReadonlyMap<string, Grammar>;
  readonly graphs: Readonly<Record<Situation, WordGraph>>;
}

export type Loaded = { ok: true; grammars: Grammars } | { ok: false; problems: GrammarProblem[] };

/** The package that our own grammars stand in. */
export const PACKAGE = 'tankside';

/**
 * Builds every situation's graph from the grammar texts. `texts` maps a file's name (for messages only) to what it
 * holds. All problems come back together: syntax, missing rules, tags outside the tag language, missing situations.
 */
export function loadGrammars(texts: Readonly<Record<string, string>>): Loaded {
  const problems: GrammarProblem[] = [];
  const parsed = new Map<string, Grammar>();
  for (const [file, text] of Object.entries(texts)) {
    const result = parseJsgf(text, file);
    if (!result.ok) problems.push(result.problem);
    else if (parsed.has(result.grammar.name))
      problems.push(whole(file, `a second grammar named ${result.grammar.name}`));
    else parsed.set(result.grammar.name, result.grammar);
  }
  const graphs: Partial<Record<Situation, WordGraph>> = {};
  const known = new Map<Rule, WordGraph>();
  for (const situation of SITUATIONS) {
    const grammar = parsed.get(`${PACKAGE}.${situation}`);
    if (!grammar) {
      if (problems.length === 0) problems.push(whole(situation, `no grammar ${PACKAGE}.${situation}`));
      continue;
    }
    const compiled = compileGrammar(grammar, (name) => parsed.get(name), { known });
    if (!compiled.ok) problems.push(compiled.problem);
    else {
      const strange = compiled.graph.arcs.flatMap((a) => a.tags ?? []).find((t) => !readTag(t));
      if (strange !== undefined)
        problems.push(whole(situation, `the tag {${strange}}, which is not in the tag language`));
      graphs[situation] = packTags(compiled.graph);
    }
  }
  if (problems.length > 0) return { ok: false, problems };
  return { ok: true, grammars: { parsed, graphs: graphs as Record<Situation, WordGraph> } };
}

function whole(grammar: string, found: string): GrammarProblem {
  const expected = 'one grammar for each situation, with tags of the tag language';
  return {
    grammar,
    line: 1,
    column: 1,
    expected,
    message: `${grammar}: found ${found}; expected ${expected}.`,
  };
}
