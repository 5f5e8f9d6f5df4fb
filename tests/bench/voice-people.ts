/**
 * The voice bench's main table: commands by strangers at their own microphones, in quiet and in a real kitchen, beside
 * PocketSphinx on the same sound in the same run. A folder of clips is needed that is not part of the project
 * (--people, ../shared/people when not given): commands/*.flac, commands.json, order.jsgf, kitchen.flac, names as in the
 * public speech-to-intent benchmark. A sentence is right when all its slots are.
 *   npm run bench:people [-- --part 0/4] [--no-sphinx] [--dump FILE]
 */
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { installedLanguage } from '../../src/app/language.js';
import { lexiconFiles } from '../../src/speech/installed.js';
import { pronunciations } from '../../src/speech/recogniser/lexicon/lexicon.js';
import { createRecogniser } from '../../src/speech/recogniser/recogniser.js';
import { rms, speechRms } from './voice/noise.js';
import { seeded } from './voice/random.js';
import { recording } from './voice/recorded.js';
import { hasSphinx, sphinxReads } from './voice/sphinx.js';
import { paired, percentile, share, table } from './voice/stats.js';

type Slots = Record<string, string>;

const option = (name: string): string | undefined => {
  const at = process.argv.indexOf(name);
  return at < 0 ? undefined : process.argv[at + 1];
};
const people = option('--people') ?? '../shared/people';
const [part = 0, parts = 1] = (option('--part') ?? '0/1').split('/').map(Number);
const dump = option('--dump');
const withSphinx = hasSphinx() && !process.argv.includes('--no-sphinx');

/** What a sentence of the coffee order asks for. */
function slotsOf(words: string): Slots {
  const slots: Slots = {};
  const take = (slot: string, pattern: RegExp, text = words): void => {
    const found = pattern.exec(text)?.[1];
    if (found) slots[slot] = found;
  };
  const [head = '', extras = ''] = words.split(/ with (.*)/s);
  take('size', /\b(large|small|medium)\b(?! roast)/);
  take('size', /\b((?:twelve|eight|twenty|sixteen) ounce)\b/);
  take('roast', /\b((?:light|dark|medium) roast)\b/);
  take('numberOfShots', /\b((?:single|double|triple) shot)\b/);
  take(
    'coffeeDrink',
    /((?:iced |drip |house )?coffee|(?:iced )?mocha|espresso|americano|cappuccino|latte)$/,
    head,
  );
  for (const extra of extras === '' ? [] : extras.split(' and '))
    slots[/milk|cream/.test(extra) ? 'milkAmount' : 'sugarAmount'] = extra;
  return slots;
}

const same = (a: Slots, b: Slots): boolean =>
  Object.keys(a).length === Object.keys(b).length && Object.entries(a).every(([k, v]) => b[k] === v);

/** A clip as it stands, or with a stretch of the kitchen under it at a ratio to the clip's speech. */
function heardIn(
  clip: Float32Array,
  kitchen: Float32Array,
  snrDb: number | null,
  seed: number,
): Float32Array {
  if (snrDb === null) return clip;
  const from = Math.floor(seeded(seed)() * kitchen.length);
  const noise = clip.map((_, i) => kitchen[(from + i) % kitchen.length] as number);
  const gain = (speechRms(clip) * 10 ** (-snrDb / 20)) / rms(noise);
  const mixed = clip.map((v, i) => v + gain * (noise[i] as number));
  const peak = mixed.reduce((m, v) => Math.max(m, Math.abs(v)), 0);
  return peak > 0.95 ? mixed.map((v) => (v * 0.95) / peak) : mixed;
}

if (!existsSync(join(people, 'commands.json'))) {
  console.log(`No clips in ${people}: nothing is measured. Name their folder with --people.`);
  process.exit(0);
}
const grammarFile = installedLanguage().compileFile(join(people, 'order.jsgf'));
if ('problem' in grammarFile) throw new Error(grammarFile.problem);
const grammar = grammarFile.graph;
const wanted = JSON.parse(readFileSync(join(people, 'commands.json'), 'utf8')) as Record<string, Slots>;
const names = readdirSync(join(people, 'commands'))
  .map((file) => file.replace(/\.flac$/, ''))
  .filter((name) => wanted[name])
  .sort()
  .map((name, number) => ({ name, number }))
  .filter(({ number }) => number % parts === part);
const kitchen = recording(join(people, 'kitchen.flac'));
const recogniser = await createRecogniser();
recogniser.setGrammar(grammar);
const cases: object[] = [];
const rows: string[][] = [];
for (const snrDb of [null, 10, 5]) {
  const clips = names.map(({ name, number }) =>
    heardIn(recording(join(people, 'commands', `${name}.flac`)), kitchen, snrDb, 1000 + number),
  );
  const right: boolean[] = [];
  let acceptedRight = 0;
  let acceptedWrong = 0;
  const times: number[] = [];
  for (const [i, { name }] of names.entries()) {
    const { best, cues, accepted, milliseconds } = await recogniser.recognise(clips[i] ?? new Float32Array());
    const slots = wanted[name] ?? {};
    const good = best !== null && same(slotsOf(best.words), slots);
    right.push(good);
    if (accepted) good ? acceptedRight++ : acceptedWrong++;
    times.push(milliseconds.total);
    const kind = `people, ${snrDb === null ? 'quiet' : `kitchen ${snrDb} dB`}`;
    if (best && cues) cases.push({ kind, heard: best.words, said: name, cues, good });
  }
  const of = names.length;
  const condition = snrDb === null ? 'quiet' : `kitchen ${snrDb} dB`;
  const ours = [share(right.filter(Boolean).length, of), share(acceptedRight, of), share(acceptedWrong, of)];
  const row = [condition, ...ours, `${Math.round(percentile(times, 0.5))} ms`];
  if (withSphinx) {
    const reads = sphinxReads(grammar, clips, pronunciations(lexiconFiles()));
    const theirs = reads.map((words, i) => same(slotsOf(words), wanted[names[i]?.name ?? ''] ?? {}));
    const { onlyA, onlyB, p, verdict } = paired(right, theirs);
    row.push(
      share(theirs.filter(Boolean).length, of),
      `${onlyA} / ${onlyB}`,
      p < 0.001 ? '< 0.001' : p.toFixed(3),
      verdict,
    );
  }
  rows.push(row);
}
await recogniser.close();
if (dump) writeFileSync(dump, JSON.stringify(cases));
const head = ['clips', 'right', 'right and accepted', 'wrong but accepted', 'time'];
const beside = ['PocketSphinx right', 'only ours / only theirs', 'McNemar p', 'we are'];
console.log(table(withSphinx ? [...head, ...beside] : head, rows));
