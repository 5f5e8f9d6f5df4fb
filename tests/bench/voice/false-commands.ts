import { existsSync } from 'node:fs';
import type { WordGraph } from '../../../src/language/types.js';
import type { Takes } from './accuracy.js';
import { commandGrammar } from './commands.js';
import { inNoise } from './noise.js';
import { readPeople } from './people.js';
import { product, says } from './product.js';
import { hasPrompts, hasSphinxData, promptTalk, sphinxSets } from './real.js';
import { table } from './stats.js';
import { judgeVoices, speaks, synthesise } from './synth.js';
import { everydayTalk } from './talk.js';
import type { Trials } from './tunings.js';

/** Words that only a command which moves liquid or the process begins with or holds. */
const guarded =
  /\b(pour|pouring|returning|return|next|drain|draining|start|in the tank|is in|going in|ready|empty|loaded)\b/;

/** A piece of unrelated speech under one grammar. */
export interface Overheard {
  speech: string;
  grammar: string;
  seconds: number;
  /** what was said */
  said: string;
  /** what it was taken for; null for nothing */
  taken: string | null;
}

/**
 * Unrelated speech, always listened to.
 * @param sentences of synthetic talk
 * @param people folder of strangers' orders, which are no commands of ours; left out where it is not there
 */
export async function overhear(
  trials: Trials,
  takes: Takes,
  sentences: number,
  people: string,
): Promise<Overheard[]> {
  const voices = judgeVoices.filter(speaks);
  const spoken = everydayTalk(sentences, 4242).map((words, i) => ({
    words,
    pcm: () => synthesise(voices[i % voices.length] ?? '', words),
  }));
  const still = (clips: readonly { words: string; pcm: Float32Array }[]): typeof spoken =>
    clips.map(({ words, pcm }) => ({ words, pcm: () => pcm }));
  const numbered = (clips: typeof spoken): [number, (typeof spoken)[number]][] =>
    [...clips.entries()].filter(([i]) => takes(i));
  const sources: [string, ReturnType<typeof numbered>][] = [
    ['talk in held-back synthetic voices', numbered(spoken)],
  ];
  if (hasPrompts()) sources.push(['telephone prompts, one speaker', numbered(still(promptTalk()))]);
  if (hasSphinxData())
    sources.push(['pocketsphinx-testdata', numbered(still(sphinxSets().flatMap((s) => s.clips)))]);
  if (existsSync(people)) {
    const orders = readPeople(people, takes).clips;
    sources.push([
      "strangers' orders of coffee",
      orders.map(({ number, name, pcm }) => [number, { words: name, pcm: () => pcm }]),
    ]);
  }
  const grammars: [string, WordGraph][] = [
    ['bench commands', commandGrammar],
    ['product, bath in tank', product().immersed],
  ];
  const heard: Overheard[] = [];
  for (const [grammar, graph] of grammars) {
    trials.recogniser.setGrammar(graph);
    for (const [speech, clips] of sources)
      for (const [i, { words, pcm }] of clips) {
        // a few bits of talk are commands word for word
        if (says(graph, words)) continue;
        const sound = inNoise(pcm(), null, i);
        for (const [t, { accepted, best }] of (await trials.hear(sound)).entries())
          heard.push({
            speech: trials.titled(speech, t),
            grammar,
            seconds: sound.length / 16_000,
            said: words,
            taken: accepted && best ? best.words : null,
          });
      }
  }
  return heard;
}

/** How often unrelated speech is taken for a command, and for one that moves liquid or goes on. */
export function overheardTable(heard: readonly Overheard[]): string {
  const rows = [...new Set(heard.map((h) => `${h.speech} | ${h.grammar}`))].map((name) => {
    const list = heard.filter((h) => `${h.speech} | ${h.grammar}` === name);
    const seconds = list.reduce((sum, h) => sum + h.seconds, 0);
    const taken = list.filter((h) => h.taken !== null);
    const moving = taken.filter((h) => guarded.test(h.taken ?? ''));
    return [
      name,
      String(list.length),
      (seconds / 60).toFixed(1),
      String(taken.length),
      ((taken.length * 3600) / seconds).toFixed(1),
      String(moving.length),
    ];
  });
  const head = [
    'speech',
    'grammar',
    'clips',
    'minutes',
    'taken',
    'per hour',
    'of these a pour or an advance',
  ];
  return [
    '## Unrelated speech taken for a command, always listening\n',
    table(head, rows),
    '',
    ...heard.flatMap((h) =>
      h.taken === null ? [] : [`- ${h.speech}, ${h.grammar}: "${h.said}" as "${h.taken}"`],
    ),
    '',
  ].join('\n');
}
