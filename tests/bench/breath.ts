import { createBench } from '../../src/app/bench.js';
import { playScript } from '../../src/app/play-script.js';
import { readScript } from '../../src/app/script.js';
import { inOneBreath, namesNewCaution, type Verbosity } from '../../src/language/breath.js';
import { bath, water } from '../app/untidy-days/usual.js';

/**
 * How much is said aloud over a whole day, six mixes and one run, in each verbosity: answers, words, and talking time at
 * 160 words a minute beside what full answers would take.
 */
const WORDS_PER_MINUTE = 160;

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
const words = (text: string): number => text.split(/\s+/).filter(Boolean).length;

async function said(lines: readonly string[]): Promise<string[]> {
  const read = readScript(lines.join('\n'));
  if ('problem' in read) throw new Error(read.problem);
  const texts: string[] = [];
  await playScript(read.steps, {
    bench,
    folder: '.',
    ear: () => Promise.reject(new Error('No ear is needed.')),
    events: { replied: ({ reply }) => texts.push(reply.text) },
  });
  return texts;
}

/** A mix to its end: whatever amount is asked for is what the scale says. */
async function mixLines(recipe: string): Promise<string[]> {
  const lines = [`mix a liter of ${recipe}`, 'next', 'next'];
  for (let part = 0; part < 14; part++) {
    const last = (await said(lines)).at(-1) ?? '';
    const amount = /(?:Weigh|Measure) ([\d.]+) (grams|millilitres)/.exec(last);
    if (amount) lines.push(`${amount[1]} ${amount[2]}`, 'dissolved');
    else if (/made up/.test(last)) lines.push('made up');
    else if (/Which bottle/.test(last)) return [...lines, 'bottle 7'];
    else lines.push('next');
  }
  return [...lines, 'stop mixing', 'confirm'];
}

const mixes: string[] = [];
for (const recipe of ['prebath', 'developer', 'stop bath', 'bleach', 'fixer', 'final rinse'])
  mixes.push(...(await mixLines(recipe)));
const texts = await said(day(mixes));

function aloud(level: Verbosity): string[] {
  const warned = new Set<string>();
  return texts.map((text) => {
    const wide = level === 'brief' && namesNewCaution(text, warned) ? 'normal' : level;
    const breath = inOneBreath(text, wide, warned);
    for (const c of breath.cautions) warned.add(c);
    return breath.said;
  });
}

const full = aloud('full').reduce((sum, t) => sum + words(t), 0);
console.log('verbosity   answers   median words   most words   over 20   talking time   of full');
for (const level of ['full', 'normal', 'brief'] as const) {
  const each = aloud(level);
  const counts = each.map(words).sort((a, b) => a - b);
  const sum = counts.reduce((a, b) => a + b, 0);
  const row = [
    each.length,
    counts[counts.length >> 1],
    counts.at(-1),
    counts.filter((n) => n > 20).length,
    `${(sum / WORDS_PER_MINUTE).toFixed(1)} min`,
    `${((100 * sum) / full).toFixed(0)} %`,
  ];
  console.log(level.padEnd(10) + row.map((c) => String(c).padStart(12)).join(''));
}
for (const text of aloud('brief').filter((t) => words(t) > 20)) console.log(`${words(text)} words: ${text}`);
