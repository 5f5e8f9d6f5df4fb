import type { Recogniser } from '../../../src/language/types.js';
import { any, graphOf } from './grammar.js';
import { inNoise, type NoiseKind } from './noise.js';
import { table } from './stats.js';
import { judgeVoices, speaks, synthesise } from './synth.js';

const stems = ['thir', 'four', 'fif', 'six', 'seven', 'eigh', 'nine'];
const tens = ['thirty', 'forty', 'fifty', 'sixty', 'seventy', 'eighty', 'ninety'];
const numbers = stems.flatMap((s, i) => [`${s}teen`, tens[i] ?? '']);
const units = ['seconds', 'millilitres', 'degrees', 'minutes'];
/** share of the best reading's confidence from which the other counts as close, and is asked about */
const CLOSE = 0.02;

/** Thirteen for thirty and the like: how often taken for each other, and how often the alternatives show it. */
export async function confusions(recogniser: Recogniser, quick: boolean): Promise<string> {
  recogniser.setGrammar(graphOf('teens', [any(...numbers), any(...units)]));
  const rows: string[][] = [];
  for (const condition of [
    null,
    { kind: 'water' as NoiseKind, snrDb: 10 },
    { kind: 'water' as NoiseKind, snrDb: 0 },
  ]) {
    let said = 0;
    let swapped = 0;
    let sure = 0;
    let asked = 0;
    for (const [v, voice] of judgeVoices.filter(speaks).entries())
      for (const [i, number] of numbers.entries()) {
        if (quick && i % 4) continue;
        const words = `${number} ${units[(i + v) % units.length]}`;
        const { best, alternatives, accepted } = await recogniser.recognise(
          inNoise(synthesise(voice, words), condition, 60 + i),
        );
        said++;
        const other = numbers[i ^ 1] ?? '';
        const close = alternatives.some(
          (a) =>
            a.confidence >= CLOSE * (best?.confidence ?? 1) &&
            [number, other].includes(a.words.split(' ')[0] ?? ''),
        );
        if (best?.words.startsWith(other)) {
          swapped++;
          if (accepted && !close) sure++;
        } else if (close) asked++;
      }
    rows.push([
      condition ? `${condition.kind} ${condition.snrDb} dB` : 'quiet',
      String(said),
      String(swapped),
      String(sure),
      String(asked),
    ]);
  }
  return [
    '## -teen against -ty\n',
    table(
      [
        'noise',
        'said',
        'taken for each other',
        'of these accepted without the right one among the close alternatives',
        'right but close enough to ask',
      ],
      rows,
    ),
    '\nEvery number that changes anything is read back, whatever the alternatives.\n',
  ].join('\n');
}
