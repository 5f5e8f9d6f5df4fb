import type { WordGraph } from '../../../src/language/types.js';
import { commandGrammar, digitGrammar, looseTalk, numberGrammar } from './commands.js';
import { any, graphOf, sentenceOf } from './grammar.js';
import { inNoise, type NoiseKind } from './noise.js';
import { seeded } from './random.js';
import { devVoices, speaks, synthesise } from './synth.js';
import { everydayTalk } from './talk.js';

export interface DevelopmentClip {
  set: string;
  grammar: WordGraph;
  words: string;
  voice: string;
  noise: string;
  pcm: Float32Array;
}

const conditions: ({ kind: NoiseKind; snrDb: number } | null)[] = [
  null,
  null,
  { kind: 'water', snrDb: 10 },
  { kind: 'water', snrDb: 0 },
  { kind: 'fan', snrDb: 5 },
  { kind: 'babble', snrDb: 8 },
];

/** Long sentences of plain talk, one against another. */
const anySentence = graphOf(
  'sentences',
  any(...everydayTalk(250, 12).filter((s) => s.split(' ').length > 4)),
);

/** Grammar sentences in voices that training may use, changed in size and tempo so that no voice is quite as trained. */
export function developmentClips(perVoice = 12, seed = 1001): DevelopmentClip[] {
  const random = seeded(seed);
  const talk = developmentTalk(0).slice(0, 24);
  const clips: DevelopmentClip[] = [];
  const grammars: [string, WordGraph][] = [
    ['commands', commandGrammar],
    ['numbers', numberGrammar],
    ['digits', digitGrammar],
    ['sentences', anySentence],
  ];
  for (const voice of devVoices.filter(speaks))
    for (const [set, grammar] of grammars)
      for (let i = 0; i < perVoice; i++) {
        const words = sentenceOf(grammar, random);
        const pcm = synthesise(
          voice,
          words,
          0.85 + 0.05 * Math.floor(7 * random()),
          0.88 + 0.04 * Math.floor(7 * random()),
        );
        const noise = conditions[i % conditions.length] ?? null;
        clips.push({
          set,
          grammar,
          words,
          voice,
          noise: noise ? `${noise.kind} ${noise.snrDb}` : 'clean',
          pcm: inNoise(pcm, noise, Math.floor(random() * 2 ** 31), talk),
        });
      }
  return clips;
}

/** Talk that is no command, in the same voices. */
export function developmentTalk(seed: number, sentences: readonly string[] = looseTalk): Float32Array[] {
  const random = seeded(seed + 77);
  const voices = devVoices.filter(speaks);
  return sentences.map((text, i) =>
    synthesise(voices[i % voices.length] ?? '', text, 1, 0.9 + 0.05 * Math.floor(5 * random())),
  );
}
