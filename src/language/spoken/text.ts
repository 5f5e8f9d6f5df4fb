import { ALIKE, CALLS, NO_NAMES } from '../languages/english/lists.js';
import { NUMBER_WORDS } from '../languages/english/numbers.js';
import { normaliseTyped } from '../languages/english/typed.js';
import { type Grammars, ruleGraph } from '../load.js';
import { slotSpotter } from '../open/slots.js';
import { commandRecords, lessonsOf, type Said, type Wordings } from '../records.js';
import { sentencesOf } from '../sentences.js';
import { countNgrams, END, type WordModel } from './ngram.js';

/** What stands for what in the records' sentences: the token, and the rule whose sentences may be said there. */
const SLOTS: Readonly<Record<string, readonly [grammar: string, rule: string]>> = {
  _liquid: ['liquids', 'liquid'],
  _bottle: ['vessels', 'bottle'],
  _degrees: ['quantities', 'temperature'],
  _num: ['numbers', 'spoken-number'],
  _volume: ['quantities', 'volume'],
  _mass: ['quantities', 'mass'],
  _duration: ['quantities', 'duration'],
  _substance: ['substances', 'substance'],
  _place: ['places', 'place'],
  _name: ['names', 'name'],
  _stock: ['world', 'stock'],
  _format: ['world', 'format'],
};

/** Names whose one is as likely as another where one was said. */
const NAMES = [
  ['liquids', 'alone'],
  ['substances', 'substance'],
] as const;

/** A word must be in a grammar, or have been said so often. */
const LEAST_SAID = 2;
const MOST_NAMES = 400;
/** One sentence in so many is learnt behind the call word too. */
const CALLED = 10;

/**
 * Learns which words are said after which, from what people said and from the sentences of the commands' records; amounts and places
 * are drawn anew, so that what was said of one is likely of another.
 */
export function learnWords(
  grammars: Grammars,
  wordings: Wordings,
  said: Said,
  random: () => number,
): WordModel {
  const draws = new Map(
    Object.entries(SLOTS).map(([token, [grammar, rule]]) => [token, drawer(grammars, grammar, rule, random)]),
  );
  const filled = (tokens: readonly string[]): string[] =>
    tokens.flatMap((t) => draws.get(t)?.() ?? (t.startsWith('_') ? [] : [t]));
  const spot = slotSpotter(grammars);
  const people = [...said.values()].flat().map((line) => normaliseTyped(line).split(' ').filter(Boolean));
  const varied = people.flatMap((words) => {
    const { tokens, slots } = spot(words);
    return slots.some((s) => draws.has(s.token)) ? [filled(tokens)] : [];
  });
  const lessons = lessonsOf(commandRecords(grammars), wordings, grammars, random);
  const written = lessons.flatMap(({ sentences }) => sentences.map(filled));
  const all = [...people, ...varied, ...written].filter((s) => s.length > 0);
  const called = all.flatMap((s, i) =>
    i % CALLED === 0 ? [[...(CALLS[i % CALLS.length] ?? []), ...s]] : [],
  );
  const sentences = [...all, ...called];

  const counts = new Map<string, number>();
  for (const w of people.flat()) counts.set(w, (counts.get(w) ?? 0) + 1);
  const sayable = /^[a-z]+(?:'[a-z]+)*$/;
  const words = new Set(
    [...grammars.vocabulary, ...NUMBER_WORDS, ...counts.keys()].filter(
      (w) => sayable.test(w) && ((counts.get(w) ?? 0) >= LEAST_SAID || grammars.vocabulary.has(w)),
    ),
  );
  return counted(sentences, words, groupsOf(grammars));
}

/** Entries that share a class, by group. */
function groupsOf(grammars: Grammars): string[][] {
  const names = NAMES.map(([grammar, rule]) => {
    const graph = ruleGraph(grammars, grammar, rule);
    return [...sentencesOf(graph, { limit: MOST_NAMES })]
      .map((s) => s.words.filter((w) => w !== 'the').join(' '))
      .filter((n) => n !== '' && !NO_NAMES.has(n));
  });
  const taken = new Set<string>();
  return [...ALIKE, ...names].map((group) =>
    [...new Set(group)].filter((e) => !taken.has(e) && taken.add(e)),
  );
}

function counted(
  sentences: readonly (readonly string[])[],
  words: ReadonlySet<string>,
  groups: readonly (readonly string[])[],
): WordModel {
  const entries: string[] = [];
  const classOf: number[] = [];
  const classes = new Map<string, number>();
  let next = END + 1;
  for (const group of groups) {
    for (const entry of group) {
      entries.push(entry);
      classOf.push(next);
      classes.set(entry, entries.length - 1);
    }
    next++;
  }
  for (const word of words) {
    if (classes.has(word)) continue;
    entries.push(word);
    classOf.push(next++);
    classes.set(word, entries.length - 1);
  }
  const longest = Math.max(...entries.map((e) => e.split(' ').length));
  const seen = new Float64Array(entries.length).fill(SELDOM);
  const read = (sentence: readonly string[]): number[][] => {
    const runs: number[][] = [[]];
    for (let at = 0; at < sentence.length; ) {
      let length = Math.min(longest, sentence.length - at);
      let entry: number | undefined;
      for (; length > 0; length--) {
        entry = classes.get(sentence.slice(at, at + length).join(' '));
        if (entry !== undefined) break;
      }
      // nothing is learnt across a word that is not known
      if (entry === undefined) runs.push([]);
      else {
        seen[entry] = (seen[entry] ?? 0) + 1;
        runs.at(-1)?.push(classOf[entry] ?? 0);
      }
      at += Math.max(1, length);
    }
    return runs.filter((r) => r.length > 0);
  };
  const model = countNgrams(sentences.flatMap(read), next);
  const sums = new Float64Array(next);
  for (const [i, c] of classOf.entries()) sums[c] = (sums[c] ?? 0) + (seen[i] ?? 0);
  return {
    ...model,
    entries,
    classOf: Uint16Array.from(classOf),
    withinLog: Float32Array.from(classOf, (c, i) => Math.log((seen[i] ?? 0) / (sums[c] ?? 1))),
  };
}
/** What an entry counts that was never said. */
const SELDOM = 5;

function drawer(grammars: Grammars, grammar: string, rule: string, random: () => number): () => string[] {
  const graph = ruleGraph(grammars, grammar, rule);
  return () => [...sentencesOf(graph, { limit: 1, random })].flatMap((s) => s.words);
}
