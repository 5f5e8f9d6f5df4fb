import type { WordGraph } from '../../../src/language/types.js';
import { commandGrammar, looseTalk, numberGrammar } from './commands.js';
import { developmentClips, developmentTalk } from './development.js';
import { sentenceOf } from './grammar.js';
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
  pcm: Float32Array;
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
  const babble = developmentTalk(5).slice(0, 16);
  for (const clip of developmentClips(18, 41))
    if (clip.set === 'commands' || clip.set === 'numbers')
      yield { kind: clip.set, grammar: clip.grammar, words: clip.words, pcm: clip.pcm };
  const noises = [
    null,
    null,
    { kind: 'water', snrDb: 10 },
    { kind: 'fan', snrDb: 5 },
    { kind: 'babble', snrDb: 10 },
  ] as const;
  for (const words of ours.examples)
    for (let n = 0; n < 3; n++) {
      const voice = voices[Math.floor(random() * voices.length)] ?? '';
      const pcm = synthesise(voice, words, 1, 0.9 + 0.05 * Math.floor(5 * random()));
      const noise = noises[Math.floor(random() * noises.length)] ?? null;
      yield {
        kind: 'product commands',
        grammar: ours.immersed,
        words,
        pcm: inNoise(pcm, noise, Math.floor(random() * 2 ** 31), babble),
      };
    }
  const sentences = [...looseTalk, ...looseTalk, ...everydayTalk(400, 9)];
  for (const [i, pcm] of developmentTalk(1, sentences).entries())
    for (const [name, grammar] of listening) {
      if (says(grammar, sentences[i] ?? '')) continue;
      const noise = i % 3 === 2 ? ({ kind: 'water', snrDb: 15 } as const) : null;
      yield { kind: `talk, ${name}`, grammar, words: null, pcm: inNoise(pcm, noise, i) };
    }
  for (let i = 0; i < 60; i++) {
    const voice = voices[i % voices.length] ?? '';
    const [, grammar] = listening[i % 2] ?? ['', commandGrammar];
    const pcm = synthesise(voice, sentenceOf(numberGrammar, random));
    yield { kind: 'numbers out of place', grammar, words: null, pcm: inNoise(pcm, null, i) };
  }
  for (let i = 0; i < 64; i++)
    for (const [, grammar] of listening) {
      const kind = noiseKinds[i % noiseKinds.length] ?? 'water';
      const pcm = noiseAlone(kind, 0.6 + (i % 7) * 0.4, 900 + i, babble);
      yield { kind: `${kind} alone`, grammar, words: null, pcm };
    }
}
