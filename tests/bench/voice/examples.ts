import type { WordGraph } from '../../../src/language/types.js';
import { commandGrammar, looseTalk, numberGrammar } from './commands.js';
import { conditions, developmentClips, developmentTalk } from './development.js';
import { sentenceOf } from './grammar.js';
import { nearMisses } from './near-misses.js';
import { inNoise, noiseAlone, noiseKinds } from './noise.js';
import { product, says } from './product.js';
import { seeded } from './random.js';
import { devVoices, speaks, synthesise } from './synth.js';
import { everydayTalk } from './talk.js';

export interface Example {
  kind: string;
  grammar: WordGraph;
  /** null: not a command */
  words: string | null;
  /** made when asked for: a part of the bench asks for its own alone */
  pcm(): Float32Array;
}

/** Commands and all that is none, in voices that training may use, each heard under the grammars that listen always. */
export function* developmentExamples(): Generator<Example> {
  const ours = product();
  const listening: [string, WordGraph][] = [
    ['bench grammar', commandGrammar],
    ['product grammar', ours.immersed],
  ];
  const random = seeded(31);
  const voices = devVoices.filter(speaks);
  const babble = developmentTalk(5)
    .slice(0, 16)
    .map((talk) => talk());
  // hum is for judging alone
  const noises = noiseKinds.filter((kind) => kind !== 'hum');
  const clips = [
    ...developmentClips(18, 41, ['commands', 'numbers']),
    ...developmentClips(60, 43, ['product']),
  ];
  for (const { set, grammar, words, pcm } of clips) yield { kind: set, grammar, words, pcm };
  const watery = seeded(57);
  for (const voice of voices)
    for (let i = 0; i < 38; i++) {
      const words = sentenceOf(commandGrammar, watery);
      const pcm = (): Float32Array =>
        inNoise(synthesise(voice, words), { kind: 'water', snrDb: 0 }, 3000 + i);
      yield { kind: 'commands, water 0 dB', grammar: commandGrammar, words, pcm };
    }
  const sentences = [...looseTalk, ...looseTalk, ...everydayTalk(400, 9)];
  for (const [i, pcm] of developmentTalk(1, sentences).entries())
    for (const [name, grammar] of listening) {
      if (says(grammar, sentences[i] ?? '')) continue;
      const noise = i % 3 === 2 ? ({ kind: 'water', snrDb: 15 } as const) : null;
      yield { kind: `talk, ${name}`, grammar, words: null, pcm: () => inNoise(pcm(), noise, i) };
    }
  for (const [name, grammar] of listening)
    for (const [i, words] of nearMisses(grammar, 180, 51).entries()) {
      const pcm = (): Float32Array => synthesise(voices[i % voices.length] ?? '', words);
      const noise = conditions[i % conditions.length] ?? null;
      yield {
        kind: `near misses, ${name}`,
        grammar,
        words: null,
        pcm: () => inNoise(pcm(), noise, i, babble),
      };
    }
  for (let i = 0; i < 60; i++) {
    const voice = voices[i % voices.length] ?? '';
    const [, grammar] = listening[i % 2] ?? ['', commandGrammar];
    const said = sentenceOf(numberGrammar, random);
    const pcm = (): Float32Array => inNoise(synthesise(voice, said), null, i);
    yield { kind: 'numbers out of place', grammar, words: null, pcm };
  }
  for (let i = 0; i < 120; i++)
    for (const [, grammar] of listening) {
      const kind = noises[i % noises.length] ?? 'water';
      const pcm = (): Float32Array => noiseAlone(kind, 0.6 + (i % 7) * 0.4, 900 + i, babble);
      yield { kind: `${kind} alone`, grammar, words: null, pcm };
    }
}
