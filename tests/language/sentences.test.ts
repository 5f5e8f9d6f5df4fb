import { describe, expect, it } from 'vitest';
import { intentKey, interpretHeard } from '../../src/language/interpret.js';
import { compileGrammar } from '../../src/language/jsgf/compile.js';
import { numberToWords, wordsToNumber } from '../../src/language/languages/english/numbers.js';
import { SITUATIONS } from '../../src/language/load.js';
import { runTags } from '../../src/language/meaning/tags.js';
import { type Sentence, sentencesOf } from '../../src/language/sentences.js';
import type { WordGraph } from '../../src/language/types.js';
import { tagPaths } from '../../src/language/walk.js';
import { asIntent, INTENT_TYPES, type Intent } from '../../src/process/intent.js';
import { seeded } from '../seeded.js';
import { countSentences } from './count-sentences.js';
import { loadOwnGrammars } from './grammar-files.js';

const grammars = loadOwnGrammars();
const resolve = (name: string) => grammars.parsed.get(name);

/** All sentences when there are at most 5,000, else a seeded draw. */
const sample = (graph: WordGraph, size: number): Sentence[] => [
  ...sentencesOf(
    graph,
    countSentences(graph) <= 5000 ? { limit: 5000 } : { limit: size, random: seeded(41) },
  ),
];

/** Of several facts the tags promise only that there are some: each part has a rule of its own. */
const promised = (tags: string[]) => {
  const { intent, ...fields } = runTags(tags);
  return intent === 'several'
    ? ({ type: 'several', intents: [] as Intent[] } as const)
    : asIntent(intent, fields);
};

const reached = new Set<string>();

describe('every sentence a grammar can say means what its tags promise', () => {
  it.each(SITUATIONS)('%s', (situation) => {
    const graph = grammars.graphs[situation];
    expect(Number.isFinite(countSentences(graph))).toBe(true);
    for (const { words, tags } of sample(graph, 2000)) {
      const said = words.join(' ');
      const intent = promised(tags);
      expect(intent, `${said}: ${JSON.stringify(runTags(tags))}`).toBeDefined();
      if (!intent) continue;
      const result = interpretHeard(said, [situation], grammars);
      expect(result, said).toMatchObject({
        kind: 'understood',
        intent: intent.type === 'several' ? { type: 'several' } : intent,
      });
      reached.add(intent.type);
    }
  });
});

/** The draw favours long branches; each sentence rule of the shared grammars is walked on its own as well. */
describe('every rule that names an intent', () => {
  const rules = [...grammars.parsed.values()].flatMap((g) =>
    [...g.rules.values()]
      .filter((r) => r.isPublic && r.doc?.tags.some((t) => t.name === 'group'))
      .map((r) => ({ g, r })),
  );

  it.each(rules.map(({ g, r }) => [`${g.name}.${r.name}`, g, r] as const))('%s', (_, g, r) => {
    const compiled = compileGrammar(g, resolve, { rule: r.name });
    if (!compiled.ok) throw new Error(compiled.problem.message);
    const meanings = sample(compiled.graph, 500).map((s) => [s.words.join(' '), promised(s.tags)] as const);
    for (const [said, intent] of meanings) {
      expect(intent, said).toBeDefined();
      if (!intent) continue;
      reached.add(intent.type);
      const all = tagPaths(compiled.graph, said.split(' ')).map((t) => promised(t));
      expect(new Set(all.map((i) => i && intentKey(i))).size, said).toBe(1);
    }
  });

  it('between them reach every intent', () => {
    expect(INTENT_TYPES.filter((t) => !reached.has(t))).toEqual([]);
  });
});

describe('numbers', () => {
  const graphOf = (grammar: string, rule: string): WordGraph => {
    const g = grammars.parsed.get(grammar);
    const compiled = g && compileGrammar(g, resolve, { rule });
    if (!compiled?.ok) throw new Error(`${grammar}.${rule}`);
    return compiled.graph;
  };

  it('the grammar and the converter agree on 0 to 9999 and on decimals', () => {
    const graph = graphOf('tankside.numbers', 'any');
    const numbers = [...Array(1200).keys(), 1999, 2000, 2050, 9999, 0.5, 2.01, 36.4, 41.125, 999.99];
    for (const n of numbers) {
      const words = numberToWords(n) ?? '';
      expect(wordsToNumber(words), words).toBe(n);
      expect(
        tagPaths(graph, words.split(' ')).map((t) => runTags([...t, '>n'])),
        words,
      ).toEqual([{ n }]);
    }
  });

  it('every way the grammar says a number is converted to the same number', () => {
    const graph = graphOf('tankside.numbers', 'any');
    for (const { words, tags } of sample(graph, 3000)) {
      const said = words.join(' ');
      if (/^(oh|nought|zero) point|^point|^(oh|nought)$/.test(said)) continue;
      expect({ n: wordsToNumber(said) }, said).toEqual(runTags([...tags, '>n']));
    }
    expect(wordsToNumber('oh point oh five')).toBe(0.05);
    expect(wordsToNumber('point five')).toBe(0.5);
  });

  it('what is no number is none', () => {
    for (const words of [
      '',
      'hundred',
      'five and',
      'twenty eleven',
      'point',
      'one two',
      'five thousand thousand',
      'ten point ten',
    ]) {
      expect(wordsToNumber(words), words).toBeUndefined();
    }
    for (const n of ['10000', 'x', '', '1.2.3']) expect(numberToWords(n)).toBeUndefined();
  });
});
