import type { Recogniser } from '../../../src/language/types.js';
import { commandGrammar } from './commands.js';
import { sentenceOf } from './grammar.js';
import { inNoise } from './noise.js';
import { product } from './product.js';
import { seeded } from './random.js';
import { percentile, table } from './stats.js';
import { judgeVoices, speaks, synthesise } from './synth.js';

/** Time from the end of an utterance to the decision, stage by stage; grammar compile and switch; memory. */
export async function costs(recogniser: Recogniser, readyMs: number): Promise<string> {
  const loadedMb = process.memoryUsage.rss() / 1e6;
  const random = seeded(3);
  const voices = judgeVoices.filter(speaks);
  const ours = product();
  const rows: string[][] = [['load to ready', `${readyMs.toFixed(0)} ms`, '']];
  const timed = (what: () => void): number => {
    const t = performance.now();
    what();
    return performance.now() - t;
  };
  rows.push(['resident after load', `${loadedMb.toFixed(0)} MB`, '']);
  rows.push([
    'compile, bench commands',
    `${timed(() => recogniser.setGrammar(commandGrammar)).toFixed(1)} ms`,
    '',
  ]);
  rows.push([
    `compile, product with a bath in the tank (${ours.immersed.arcs.length} arcs)`,
    `${timed(() => recogniser.setGrammar(ours.immersed)).toFixed(1)} ms`,
    '',
  ]);
  rows.push([
    'switch back to a compiled grammar',
    `${timed(() => recogniser.setGrammar(commandGrammar)).toFixed(3)} ms`,
    '',
  ]);
  for (const [name, grammar] of [
    ['bench commands', commandGrammar],
    ['product', ours.immersed],
  ] as const) {
    recogniser.setGrammar(grammar);
    const stages = {
      network: [] as number[],
      decoder: [] as number[],
      rejection: [] as number[],
      total: [] as number[],
    };
    let seconds = 0;
    for (let i = 0; i < 60; i++) {
      const pcm = inNoise(
        synthesise(voices[i % voices.length] ?? '', sentenceOf(commandGrammar, random)),
        null,
        i,
      );
      seconds += pcm.length / 16_000;
      const { milliseconds } = await recogniser.recognise(pcm);
      for (const s of Object.keys(stages) as (keyof typeof stages)[]) stages[s].push(milliseconds[s]);
    }
    for (const [s, list] of Object.entries(stages))
      rows.push([
        `${name}: ${s}, utterances of ${(seconds / 60).toFixed(1)} s`,
        `${percentile(list, 0.5).toFixed(1)} ms`,
        `${percentile(list, 0.95).toFixed(1)} ms`,
      ]);
  }
  rows.push(['resident after these', `${(process.memoryUsage.rss() / 1e6).toFixed(0)} MB`, '']);
  return ['## Cost\n', table(['what', 'median', '95 %'], rows), ''].join('\n');
}
