import type { Recogniser } from '../../../src/language/types.js';
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

/** How often unrelated speech is taken for a command, and for one that moves liquid or goes on. */
export async function falseCommands(recogniser: Recogniser): Promise<string> {
  const voices = judgeVoices.filter(speaks);
  const spoken = everydayTalk(400, 4242).map((words, i) => ({
    words,
    pcm: synthesise(voices[i % voices.length] ?? '', words),
  }));
  const sources: [string, { words: string; pcm: Float32Array }[]][] = [
    ['talk in held-back synthetic voices', spoken],
  ];
  if (hasPrompts()) sources.push(['telephone prompts, one speaker', promptTalk()]);
  if (hasSphinxData()) sources.push(['pocketsphinx-testdata', sphinxSets().flatMap((s) => s.clips)]);
  const rows: string[][] = [];
  const examples: string[] = [];
  for (const [name, clips] of sources)
    for (const [grammarName, grammar] of [
      ['bench commands', commandGrammar],
      ['product, bath in tank', product().immersed],
    ] as const) {
      recogniser.setGrammar(grammar);
      let seconds = 0;
      let taken = 0;
      let moving = 0;
      for (const [i, { words, pcm }] of clips.entries()) {
        // a few bits of talk are commands word for word
        if (says(grammar, words)) continue;
        seconds += pcm.length / 16_000;
        const { accepted, best } = await recogniser.recognise(inNoise(pcm, null, i));
        if (!accepted || !best) continue;
        taken++;
        if (guarded.test(best.words)) moving++;
        examples.push(
          `${name}: ${words ? `"${words}"` : `clip ${i}`} as "${best.words}" (${best.confidence.toFixed(2)})`,
        );
      }
      const perHour = (taken * 3600) / seconds;
      rows.push([
        name,
        grammarName,
        String(clips.length),
        (seconds / 60).toFixed(1),
        String(taken),
        perHour.toFixed(1),
        String(moving),
      ]);
    }
  return [
    '## Unrelated speech taken for a command, always listening\n',
    table(
      [
        'speech',
        'grammar',
        'clips',
        'minutes',
        'taken',
        'per hour of speech',
        'of these a pour or an advance',
      ],
      rows,
    ),
    '',
    ...examples.map((e) => `- ${e}`),
    '',
  ].join('\n');
}
