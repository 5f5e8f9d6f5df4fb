/**
 * The voice bench's main table: commands by strangers at their own microphones, in quiet and in a real kitchen, beside
 * PocketSphinx on the same sound in the same run. A folder of clips is needed that is not part of the project
 * (--people, ../shared/people when not given): commands/*.flac, commands.json, order.jsgf, kitchen.flac, names as in the
 * public speech-to-intent benchmark. A sentence is right when all its slots are.
 *   npm run bench:people [-- --no-sphinx] [--part 0/4 --dump FILE] [--from FILE,FILE]
 * --dump keeps the clips' readings, for voice-calibrate.ts or to print the table of several parts with --from.
 * --kitchen 0.5 takes the second half of the kitchen alone, and --half 1 every second clip: what training heard nothing of.
 */
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { installedLanguage } from '../../src/app/language.js';
import { lexiconFiles } from '../../src/speech/installed.js';
import { pronunciations } from '../../src/speech/recogniser/lexicon/lexicon.js';
import { createRecogniser } from '../../src/speech/recogniser/recogniser.js';
import { type Cues, cueNames } from '../../src/speech/recogniser/reject/cues.js';
import { rms, speechRms } from './voice/noise.js';
import { seeded } from './voice/random.js';
import { recording } from './voice/recorded.js';
import { hasSphinx, sphinxReads } from './voice/sphinx.js';
import { paired, percentile, share, table } from './voice/stats.js';

type Slots = Record<string, string>;

const noCues = Object.fromEntries(cueNames.map((name) => [name, 0])) as unknown as Cues;

const option = (name: string): string | undefined => {
  const at = process.argv.indexOf(name);
  return at < 0 ? undefined : process.argv[at + 1];
};
const people = option('--people') ?? '../shared/people';
const [part = 0, parts = 1] = (option('--part') ?? '0/1').split('/').map(Number);
const half = option('--half');
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

interface Case {
  kind: string;
  heard: string;
  said: string;
  cues: Cues;
  good: boolean;
  accepted: boolean;
  ms: number;
  /** whether PocketSphinx has it right; null where it was not asked */
  theirs: boolean | null;
}

const CONDITIONS = [
  { name: 'quiet', snrDb: null },
  { name: 'kitchen 10 dB', snrDb: 10 },
  { name: 'kitchen 5 dB', snrDb: 5 },
];

async function measured(): Promise<Case[]> {
  const grammarFile = installedLanguage().compileFile(join(people, 'order.jsgf'));
  if ('problem' in grammarFile) throw new Error(grammarFile.problem);
  const grammar = grammarFile.graph;
  const wanted = JSON.parse(readFileSync(join(people, 'commands.json'), 'utf8')) as Record<string, Slots>;
  const names = readdirSync(join(people, 'commands'))
    .map((file) => file.replace(/\.flac$/, ''))
    .filter((name) => wanted[name])
    .sort()
    .map((name, number) => ({ name, number }))
    .filter(({ number }) => half === undefined || number % 2 === Number(half))
    .filter((_, i) => i % parts === part);
  const whole = recording(join(people, 'kitchen.flac'));
  const kitchen = whole.subarray(Math.floor(Number(option('--kitchen') ?? 0) * whole.length));
  const recogniser = await createRecogniser();
  recogniser.setGrammar(grammar);
  const cases: Case[] = [];
  for (const { name: condition, snrDb } of CONDITIONS) {
    const clips = names.map(({ name, number }) =>
      heardIn(recording(join(people, 'commands', `${name}.flac`)), kitchen, snrDb, 1000 + number),
    );
    const reads = withSphinx ? sphinxReads(grammar, clips, pronunciations(lexiconFiles())) : [];
    for (const [i, { name }] of names.entries()) {
      const { best, cues, accepted, milliseconds } = await recogniser.recognise(
        clips[i] ?? new Float32Array(),
      );
      const slots = wanted[name] ?? {};
      cases.push({
        kind: `people, ${condition}`,
        heard: best?.words ?? '',
        said: name,
        cues: cues ?? noCues,
        good: best !== null && same(slotsOf(best.words), slots),
        accepted,
        ms: milliseconds.total,
        theirs: withSphinx ? same(slotsOf(reads[i] ?? ''), slots) : null,
      });
    }
  }
  await recogniser.close();
  return cases;
}

const stored = option('--from');
if (!stored && !existsSync(join(people, 'commands.json'))) {
  console.log(`No clips in ${people}: nothing is measured. Name their folder with --people.`);
  process.exit(0);
}
const cases = stored
  ? stored.split(',').flatMap((file) => JSON.parse(readFileSync(file, 'utf8')) as Case[])
  : await measured();
if (dump) writeFileSync(dump, JSON.stringify(cases));
const rows = CONDITIONS.map(({ name }) => {
  const list = cases.filter((c) => c.kind === `people, ${name}`);
  const count = (what: (c: Case) => boolean): string => share(list.filter(what).length, list.length);
  const row = [
    name,
    count((c) => c.good),
    count((c) => c.good && c.accepted),
    count((c) => !c.good && c.accepted),
    `${Math.round(
      percentile(
        list.map((c) => c.ms),
        0.5,
      ),
    )} ms`,
  ];
  if (list.some((c) => c.theirs === null)) return row;
  const { onlyA, onlyB, p, verdict } = paired(
    list.map((c) => c.good),
    list.map((c) => c.theirs === true),
  );
  const theirs = [count((c) => c.theirs === true), `${onlyA} / ${onlyB}`];
  return [...row, ...theirs, p < 0.001 ? '< 0.001' : p.toFixed(3), verdict];
});
const head = ['clips', 'right', 'right and accepted', 'wrong but accepted', 'time'];
const beside = ['PocketSphinx right', 'only ours / only theirs', 'McNemar p', 'we are'];
console.log(table(rows.every((r) => r.length > head.length) ? [...head, ...beside] : head, rows));
