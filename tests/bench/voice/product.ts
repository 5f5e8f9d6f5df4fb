import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { uniteGraphs } from '../../../src/language/jsgf/tidy.js';
import { type Grammars, loadGrammars } from '../../../src/language/load.js';
import type { WordGraph } from '../../../src/language/types.js';
import { modelsDir } from '../../../src/speech/installed.js';

/** The product's own grammars, and the sentences its help shows as examples. */
export interface Product {
  /** what may be said while a bath is in the tank: the busiest moment */
  readonly immersed: WordGraph;
  /** example sentences that may be said then */
  readonly examples: string[];
}

export function product(): Product {
  const dir = join(modelsDir(), '..', 'grammars');
  const texts = Object.fromEntries(
    readdirSync(dir)
      .filter((f) => f.endsWith('.jsgf'))
      .map((f) => [f, readFileSync(join(dir, f), 'utf8')]),
  );
  const loaded = loadGrammars(texts);
  if (!loaded.ok) throw new Error(loaded.problems.map((p) => p.message).join('\n'));
  const { immersed, anytime } = loaded.grammars.graphs;
  const graph = uniteGraphs('immersed', [immersed, anytime]);
  return { immersed: graph, examples: examplesOf(loaded.grammars).filter((s) => says(graph, s)) };
}

const examplesOf = ({ parsed }: Grammars): string[] => [
  ...new Set(
    [...parsed.values()].flatMap((g) =>
      [...g.rules.values()].flatMap((r) =>
        (r.doc?.tags ?? []).flatMap((t) => (t.name === 'example' ? [t.value.trim()] : [])),
      ),
    ),
  ),
];

/** Whether a grammar can say a sentence. */
export function says(graph: WordGraph, sentence: string): boolean {
  const out = new Map<number, WordGraph['arcs'][number][]>();
  for (const arc of graph.arcs) {
    const list = out.get(arc.from);
    if (list) list.push(arc);
    else out.set(arc.from, [arc]);
  }
  const closed = (nodes: Iterable<number>): Set<number> => {
    const seen = new Set(nodes);
    for (const n of seen) for (const a of out.get(n) ?? []) if (a.word === null) seen.add(a.to);
    return seen;
  };
  let here = closed([graph.start]);
  for (const word of sentence.split(' '))
    here = closed(
      [...here].flatMap((n) => (out.get(n) ?? []).flatMap((a) => (a.word === word ? [a.to] : []))),
    );
  return here.has(graph.end);
}
