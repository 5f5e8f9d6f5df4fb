/**
 * The voice bench: how often sentences are heard right, by voice and noise, on synthetic voices and real people that
 * neither training nor tuning has met; false commands on unrelated speech; -teen against -ty; time by stage; beside
 * PocketSphinx on the same clips where it is installed. Prints Markdown.
 *   npm run bench:voice [-- --quick] [--model DIR] [--only cost,commands,product,digits,teens,people,talk] [--parts 0]
 * --sentences N: of talk; --try LIST: everything under several tunings, see voice/tunings.ts.
 * Hours of talk: --recordings DIR: of a folder for each source, e.g. Debian's asterisk-core-sounds-{es,fr,it,ru}-g722 (CC-BY-SA 3.0)
 * and the voices of hedgewars-data (GFDL 1.3) as FLAC; --text FILE: plain English, e.g. Debian's fortunes; --rounds N: see voice/false-commands.ts.
 * --parts 0 takes all cores; --part 0/4 alone prints the table of its own clips.
 */
import { createRecogniser, type OpenRecogniser } from '../../src/speech/recogniser/recogniser.js';
import { inParts } from './parts.js';
import {
  commandsHeard,
  digitsHeard,
  examplesHeard,
  type Heard,
  heardTable,
  peopleHeard,
  type Takes,
} from './voice/accuracy.js';
import { confusions } from './voice/confusions.js';
import { costs } from './voice/costs.js';
import { type Overheard, overhear, overheardTable } from './voice/false-commands.js';
import { Trials, tuningsOf } from './voice/tunings.js';

const option = (name: string): string | undefined => {
  const at = process.argv.indexOf(name);
  return at < 0 ? undefined : process.argv[at + 1];
};
const quick = process.argv.includes('--quick');
const modelDir = option('--model');

interface Measure {
  cases(trials: Trials, takes: Takes, readyMs: number): Promise<unknown[]>;
  table(cases: unknown[]): string;
}
const first =
  (text: (recogniser: OpenRecogniser, readyMs: number) => Promise<string>): Measure['cases'] =>
  async ({ recogniser }, takes, readyMs) =>
    takes(0) ? [await text(recogniser, readyMs)] : [];
const asTold = (texts: unknown[]): string => texts.join('\n');
const heardAs =
  (title: string): Measure['table'] =>
  (cases) =>
    heardTable(cases as Heard[], title);

const measures: Record<string, Measure> = {
  cost: { cases: first(costs), table: asTold },
  commands: {
    cases: (trials, takes) => commandsHeard(trials, quick, takes),
    table: heardAs('Command sentences in voices never trained or tuned on'),
  },
  product: {
    cases: (trials, takes) => examplesHeard(trials, quick, takes),
    table: heardAs('Example sentences of the product, its grammar with a bath in the tank'),
  },
  digits: {
    cases: (trials, takes) => digitsHeard(trials, quick, takes),
    table: heardAs('Strings of digits'),
  },
  teens: { cases: first((recogniser) => confusions(recogniser, quick)), table: asTold },
  people: {
    cases: (trials, takes) => peopleHeard(trials, quick, takes),
    table: heardAs('Recordings of people (Debian: asterisk-core-sounds-en-g722, pocketsphinx-testdata)'),
  },
  talk: {
    cases: (trials, takes) =>
      overhear(trials, takes, {
        sentences: Number(option('--sentences') ?? 400),
        people: option('--people') ?? '../shared/people',
        recordings: option('--recordings') ?? null,
        text: option('--text') ?? null,
        rounds: Number(option('--rounds') ?? 1),
      }),
    table: (cases) => overheardTable(cases as Overheard[]),
  },
};
const wanted = option('--only')?.split(',') ?? Object.keys(measures);

const counted = await inParts(async ({ index, of }): Promise<Record<string, string[]>> => {
  const began = performance.now();
  const recogniser = await createRecogniser(modelDir === undefined ? {} : { modelDir });
  const readyMs = performance.now() - began;
  const trials = new Trials(recogniser, tuningsOf(option('--try')), modelDir);
  const takes = (clip: number): boolean => clip % of === index;
  const counts: Record<string, string[]> = {};
  for (const name of wanted) {
    const cases = (await measures[name]?.cases(trials, takes, readyMs)) ?? [];
    counts[name] = cases.map((c) => JSON.stringify(c));
  }
  await recogniser.close();
  return counts;
});
console.log('# Voice bench\n');
for (const [name, cases] of Object.entries(counted))
  console.log(measures[name]?.table(cases.map((c) => JSON.parse(c) as unknown)) ?? '');
