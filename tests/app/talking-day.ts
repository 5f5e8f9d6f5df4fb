import type { Reply } from '../../src/app/assistant.js';
import { createBench } from '../../src/app/bench.js';
import { repliesTo } from './replies-to.js';
import { bath, water } from './untidy-days/usual.js';

const day = (mixes: readonly string[]): string[] => [
  ...mixes,
  'start a run',
  'next',
  'developer is at 41.1',
  'the tub is at 41',
  'next',
  'the film is loaded',
  ...bath('prebath', 1, '+12s'),
  ...water('+50s'),
  ...bath('developer', 2, '+185s'),
  ...bath('stop bath', 3, '+32s'),
  ...water('+34s'),
  'how long left',
  ...bath('bleach', 4, '+185s'),
  ...water('+64s'),
  ...bath('fixer', 5, '+125s'),
  'help',
  ...water('+125s'),
  ...bath('final rinse', 6, '+12s'),
  'the film is hung',
  'close the run',
];

const bench = createBench({ sheet: 'ecn2-ferricyanide' });

const said = (lines: readonly string[]): Promise<Reply[]> => repliesTo(bench, lines);

/** A mix to its end: whatever amount is asked for is what the scale says. */
async function mixLines(recipe: string, bottle: number): Promise<string[]> {
  const lines = [`mix a liter of ${recipe}`, 'next', 'next'];
  for (let part = 0; part < 14; part++) {
    const last = (await said(lines)).at(-1)?.text ?? '';
    const amount = /(?:Weigh|Measure|You need) ([\d.]+) (grams?|millilitres)/.exec(last);
    if (amount) lines.push(`${amount[1]} ${amount[2]}`, 'dissolved');
    else if (/made up/.test(last)) lines.push('made up');
    else if (/Which bottle/.test(last)) return [...lines, `bottle ${bottle}`];
    else lines.push('next');
  }
  return [...lines, 'stop mixing', 'confirm'];
}

/** All answers and calls of a whole day: six mixes and one run. */
export async function talkingDay(): Promise<Reply[]> {
  const mixes: string[] = [];
  for (const [i, recipe] of ['prebath', 'developer', 'stop bath', 'bleach', 'fixer', 'final rinse'].entries())
    mixes.push(...(await mixLines(recipe, 7 + i)));
  return said(day(mixes));
}
