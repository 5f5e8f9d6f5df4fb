import type { Situation } from '../process/desk.js';
import type { Intent } from '../process/intent.js';
import { twinsOf } from './confusable.js';
import { type Interpretation, interpretHeard, teenTyIntents } from './interpret.js';
import { uniteGraphs } from './jsgf/tidy.js';
import { englishWords } from './languages/english/words.js';
import type { Words } from './languages/words.js';
import type { Grammars } from './load.js';
import { withFacts } from './meaning/weight.js';
import { type CommandRecord, commandRecords } from './records.js';
import type { WordGraph } from './types.js';

/** The language room in one piece: words → meaning under the open grammars, and back. Pure but for a cache. */
export interface Language {
  /** `due`: what would be said next if all goes as it should */
  typed(line: string, situations: readonly Situation[], due?: readonly Intent[]): Interpretation;
  heard(words: string, situations: readonly Situation[]): Interpretation;
  /** among `close`, those that must be asked about before `intent` is done */
  twins(intent: Intent, close: readonly Intent[]): Intent[];
  /** what the sentence means with one -teen heard as -ty or the other way round */
  teenTy(words: string, situations: readonly Situation[]): Intent[];
  /** an intent as a short phrase, for reading back */
  describe(intent: Intent): string;
  /** every command, read from the grammars */
  records(): readonly CommandRecord[];
  help(situations: readonly Situation[], topic?: string): { text: string; more: string };
  /** what the recogniser may hear in these situations, `anytime` included; the same object for the same situations */
  graph(situations: readonly Situation[]): WordGraph;
  /** everything that is said and shown in it */
  readonly words: Words;
  readonly grammars: Grammars;
}

export function createLanguage(grammars: Grammars, words: Words = englishWords): Language {
  const united = new Map<string, WordGraph>();
  let read: readonly CommandRecord[] | undefined;
  const records = (): readonly CommandRecord[] => {
    read ??= commandRecords(grammars);
    return read;
  };
  /** who is hurt, and which film is asked about, is in no grammar's tags: it stands in the words, typed or spoken */
  const withWho = (line: string, meant: Interpretation): Interpretation => {
    if (meant.kind !== 'understood') return meant;
    const intent = withFacts(meant.intent, (fact) => {
      if (fact.type === 'ask-why') return { ...fact, ...words.whichFilm?.(line) };
      if (fact.type !== 'hurt' && fact.type !== 'spill') return fact;
      const who = words.whoIsHurt(line, fact);
      return who ? { ...fact, who } : fact;
    });
    return { ...meant, intent };
  };
  /** a question of the trade is named by what its command does */
  const describe = (intent: Intent): string => {
    const asked =
      intent.type === 'ask-advice' &&
      records().find((r) => r.intent === intent.type && r.fixed.topic === intent.topic);
    return asked
      ? asked.what.replace(/\.$/, '').replace(/^[A-Z](?=[a-z])/, (c) => c.toLowerCase())
      : words.describe(intent);
  };
  return {
    typed: (line, situations, due) => withWho(line, words.typed(line, situations, grammars, due)),
    heard: (said, situations) => withWho(said, interpretHeard(said, situations, grammars)),
    twins: twinsOf,
    teenTy: (words, situations) => teenTyIntents(words, situations, grammars),
    grammars,
    describe,
    records,
    help: (situations, topic) => words.help(situations, grammars, topic),
    words,
    graph(situations) {
      const open = [...new Set<Situation>([...situations, 'anytime'])].sort();
      const name = open.join('+');
      const known =
        united.get(name) ??
        uniteGraphs(
          name,
          open.map((s) => grammars.graphs[s]),
        );
      united.set(name, known);
      return known;
    },
  };
}

/** The word that calls the assistant, at the beginning of a sentence. */
export const beginsWithCall = (words: string): boolean => /^(?:hey |okay )?tank side\b/.test(words);
