/**
 * What teaching a voice brings: 20 commands taught (half with a tap running), others heard, with and without each part of the adaptation.
 * Development voices choose the constants (default), held-back voices give the reported figure (--judge).
 *   npx tsc -p tests/bench/tsconfig.voice.json && node dist/.bench/tests/bench/voice-teach.js [--judge] [--model DIR]
 */
import { createRecogniser } from '../../src/speech/recogniser/recogniser.js';
import { LEARNING, type LearnOptions } from '../../src/speech/recogniser/voice/learn.js';
import { commandGrammar, digitGrammar, numberGrammar } from './voice/commands.js';
import { sentenceOf } from './voice/grammar.js';
import { inNoise } from './voice/noise.js';
import { seeded } from './voice/random.js';
import { resized } from './voice/spoken.js';
import { paired, share, table } from './voice/stats.js';
import { devVoices, judgeVoices, speaks, synthesise } from './voice/synth.js';

const option = (name: string): string | undefined => {
  const at = process.argv.indexOf(name);
  return at < 0 ? undefined : process.argv[at + 1];
};
const judging = process.argv.includes('--judge');
const modelDir = option('--model');
const voices = (judging ? judgeVoices : devVoices).filter(speaks);
const sizes = judging ? [1] : [0.88, 1.12];
const few = judging ? voices : voices.filter((_, i) => i % 2 === 0);
const ways: [string, LearnOptions][] = judging
  ? [['as shipped', LEARNING]]
  : [
      ['warp and biases', LEARNING],
      ['warp alone, gain 0', { ...LEARNING, warpGain: 0, hold: Number.POSITIVE_INFINITY }],
      ['warp alone, gain 0.005', { ...LEARNING, warpGain: 0.005, hold: Number.POSITIVE_INFINITY }],
      ['biases alone, hold 5', { ...LEARNING, warps: [1], hold: 5 }],
      ['biases alone, hold 20', { ...LEARNING, warps: [1], hold: 20 }],
      ['biases alone, hold 80', { ...LEARNING, warps: [1], hold: 80 }],
    ];

const recogniser = await createRecogniser(modelDir === undefined ? {} : { modelDir });
const random = seeded(judging ? 611 : 612);
const right = new Map<string, boolean[]>();
const note = (way: string, ok: boolean): void => {
  right.set(way, [...(right.get(way) ?? []), ok]);
};
for (const voice of few)
  for (const size of sizes) {
    const say = (words: string): Float32Array => resized(synthesise(voice, words), size);
    const lessons = Array.from({ length: 20 }, (_, i) => {
      const words = sentenceOf(i % 2 ? commandGrammar : numberGrammar, random);
      return { words, pcm: inNoise(say(words), i % 4 > 1 ? { kind: 'water', snrDb: 5 } : null, i) };
    });
    const tests = Array.from({ length: 24 }, (_, i) => {
      const grammar = [commandGrammar, numberGrammar, digitGrammar][i % 3] ?? commandGrammar;
      const words = sentenceOf(grammar, random);
      return {
        grammar,
        words,
        pcm: inNoise(say(words), i % 2 ? { kind: 'water', snrDb: 5 } : null, 100 + i),
      };
    });
    for (const [way, learning] of [['untaught', null] as const, ...ways]) {
      recogniser.setVoice(learning && (await recogniser.learnVoice(lessons, learning)));
      for (const { grammar, words, pcm } of tests) {
        recogniser.setGrammar(grammar);
        note(way, (await recogniser.recognise(pcm)).best?.words === words);
      }
    }
  }
await recogniser.close();
const before = right.get('untaught') ?? [];
console.log(
  table(
    ['taught', 'sentences right', 'only with / only without', 'McNemar p'],
    [...right].map(([way, list]) => {
      const p = paired(list, before);
      return [
        way,
        share(list.filter(Boolean).length, list.length),
        `${p.onlyA} / ${p.onlyB}`,
        p.p.toFixed(3),
      ];
    }),
  ),
);
