import type { Recogniser, WordGraph } from '../../../src/language/types.js';
import type { Takes } from './accuracy.js';
import { commandGrammar } from './commands.js';
import { inNoise } from './noise.js';
import { product, says } from './product.js';
import { hasPrompts, hasSphinxData, promptTalk, sphinxSets } from './real.js';
import { table } from './stats.js';
import { judgeVoices, speaks, synthesise } from './synth.js';
import { everydayTalk } from './talk.js';

/** Words that only a command which moves liquid or the process begins with or holds. */
const guarded =
  /\b(pour|pouring|returning|return|next|drain|draining|start|in the tank|is in|going in|ready|empty|loaded)\b/;

/** A piece of unrelated speech under one grammar. */
export interface Overheard {
  speech: string;
  grammar: string;
  seconds: number;
  /** what it was taken for; null for nothing */
  taken: string | null;
}

/** Unrelated speech, always listened to. */
export async function overhear(recogniser: Recogniser, takes: Takes): Promise<Overheard[]> {
  const voices = judgeVoices.filter(speaks);
  const spoken = everydayTalk(400, 4242).map((words, i) => ({
    words,
    pcm: () => synthesise(voices[i % voices.length] ?? '', words),
  }));
  const still = (clips: readonly { words: string; pcm: Float32Array }[]): typeof spoken =>
    clips.map(({ words, pcm }) => ({ words, pcm: () => pcm }));
  const sources: [string, typeof spoken][] = [['talk in held-back synthetic voices', spoken]];
  if (hasPrompts()) sources.push(['telephone prompts, one speaker', still(promptTalk())]);
  if (hasSphinxData()) sources.push(['pocketsphinx-testdata', still(sphinxSets().flatMap((s) => s.clips))]);
  const grammars: [string, WordGraph][] = [
    ['bench commands', commandGrammar],
    ['product, bath in tank', product().immersed],
  ];
  const heard: Overheard[] = [];
  for (const [grammar, graph] of grammars) {
    recogniser.setGrammar(graph);
    for (const [speech, clips] of sources)
      for (const [i, { words, pcm }] of clips.entries()) {
        // a few bits of talk are commands word for word
        if (!takes(i) || says(graph, words)) continue;
        const sound = inNoise(pcm(), null, i);
        const { accepted, best } = await recogniser.recognise(sound);
        heard.push({
          speech,
          grammar,
          seconds: sound.length / 16_000,
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
    ...heard.flatMap((h) => (h.taken === null ? [] : [`- ${h.speech}, ${h.grammar}: as "${h.taken}"`])),
    '',
  ].join('\n');
}
