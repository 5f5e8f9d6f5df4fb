import type { Reply } from '../../src/app/assistant.js';
import { createBench } from '../../src/app/bench.js';
import { playScript } from '../../src/app/play-script.js';
import { readScript } from '../../src/app/script.js';
import { SpokenSpeech } from '../../src/app/spoken-speech.js';
import type { Verbosity } from '../../src/language/breath.js';
import { Mouth } from '../../src/speech/mouth/mouth.js';
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

async function said(lines: readonly string[]): Promise<Reply[]> {
  const read = readScript(lines.join('\n'));
  if ('problem' in read) throw new Error(read.problem);
  const replies: Reply[] = [];
  await playScript(read.steps, {
    bench,
    folder: '.',
    ear: () => Promise.reject(new Error('No ear is needed.')),
    events: { replied: ({ reply }) => replies.push(reply) },
  });
  return replies;
}

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

const mixes: string[] = [];
for (const [i, recipe] of ['prebath', 'developer', 'stop bath', 'bleach', 'fixer', 'final rinse'].entries())
  mixes.push(...(await mixLines(recipe, 7 + i)));
const replies = await said(day(mixes));

/** What the live run would say of it, read off a mouth without a voice. */
function aloud(level: Verbosity): string[] {
  const said: string[] = [];
  const mouth = new Mouth({
    voice: null,
    player: null,
    now: () => 0,
    onEvent: (event) => {
      if (event.type === 'stopped') said.push(event.line.text);
    },
  });
  const speech = new SpokenSpeech(
    mouth,
    () => {},
    () => 0,
  );
  speech.verbosity(level);
  for (const reply of replies) speech.say(reply);
  return said;
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
