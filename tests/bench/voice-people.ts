/**
 * The voice bench's main table: commands by strangers at their own microphones, in quiet and in a real kitchen, beside
 * PocketSphinx on the same sound in the same run. A folder of clips is needed that is not part of the project
 * (--people, ../shared/people when not given): commands/*.flac, commands.json, order.jsgf, kitchen.flac, names as in the
 * public speech-to-intent benchmark. A sentence is right when all its slots are.
 *   npm run bench:people [-- --parts 0] [--no-sphinx] [--causes] [--half 1] [--kitchen 0.5] [--try '[{"decoder":{"blankBias":-2}}]']
 * --try hears everything under each of a list of tunings, or of a file with one.
 * --parts 0 takes all cores; --part 0/4 --dump FILE keeps a part's clips, --from FILE,FILE makes one table of such parts.
 * --kitchen 0.5 takes the second half of the kitchen alone, and --half 1 every second clip: what training heard nothing of.
 * --talk hears every command as if other talk went on. --causes tells why clips fail. Sound is given while it comes, as a microphone does; the time is what is left after its end.
 */
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Considered, createRecogniser } from '../../src/speech/recogniser/recogniser.js';
import { type Cues, cueNames } from '../../src/speech/recogniser/reject/cues.js';
import { inParts, type Part } from './parts.js';
import { causeOf, causes, type Outcome, type Placed, placer, traitsOf } from './voice/causes.js';
import { CONDITIONS, heardIn, readPeople, sameSlots, sentencesFor, slotsOf } from './voice/people.js';
import { hasSphinx, sphinxReads } from './voice/sphinx.js';
import { beside, besideHead, percentile, share, table } from './voice/stats.js';
import { Trials, tuningName, tuningsOf } from './voice/tunings.js';

const noCues = Object.fromEntries(cueNames.map((name) => [name, 0])) as unknown as Cues;

const option = (name: string): string | undefined => {
  const at = process.argv.indexOf(name);
  return at < 0 ? undefined : process.argv[at + 1];
};
const has = (name: string): boolean => process.argv.includes(name);
const people = option('--people') ?? '../shared/people';
const half = option('--half');
const tunings = tuningsOf(option('--try'));

interface Case {
  /** what it was heard under */
  tuning: string;
  kind: string;
  number: number;
  heard: string;
  said: string;
  cues: Cues;
  good: boolean;
  accepted: boolean;
  /** of the decision after the last of the sound */
  ms: number;
  /** whether PocketSphinx has it right; null where it was not asked */
  theirs: boolean | null;
  considered: (Considered & { good: boolean })[];
  places: Pick<Outcome, 'here' | 'instead'> | null;
}

/** samples that come at once */
const PIECE = 1600;

async function measured({ index, of }: Part): Promise<Case[]> {
  const { grammar, kitchen, clips } = readPeople(
    people,
    (number) => (half === undefined || number % 2 === Number(half)) && Math.floor(number / 2) % of === index,
  );
  const noise = kitchen.subarray(Math.floor(Number(option('--kitchen') ?? 0) * kitchen.length));
  const recogniser = await createRecogniser();
  const trials = new Trials(recogniser, tunings);
  const place = has('--causes') ? await placer() : null;
  const truths: string[] = [];
  for (const { slots, pcm } of place ? clips : []) {
    recogniser.setGrammar(sentencesFor(slots));
    truths.push((await recogniser.recognise(pcm)).best?.words ?? '');
  }
  recogniser.setGrammar(grammar);
  const cases: Case[] = [];
  for (const { name: condition, snrDb } of CONDITIONS) {
    const sounds = clips.map(({ pcm, number }) => heardIn(pcm, noise, snrDb, 1000 + number));
    const reads = hasSphinx() && !has('--no-sphinx') ? sphinxReads(grammar, sounds) : null;
    for (const [i, { name, number, slots }] of clips.entries()) {
      const sound = sounds[i] ?? new Float32Array();
      const heard = await trials.hear(sound, PIECE, has('--talk'));
      for (const [t, { best, cues, accepted, milliseconds, considered }] of heard.entries()) {
        const truth = truths[i] ?? '';
        const [here, instead = null] =
          place && truth && t === 0 ? await place(sound, [truth, ...(best ? [best.words] : [])]) : [];
        cases.push({
          tuning: tuningName(tunings[t] ?? {}),
          kind: `people, ${condition}`,
          number,
          heard: best?.words ?? '',
          said: truth || name,
          cues: cues ?? noCues,
          good: best !== null && sameSlots(slotsOf(best.words), slots),
          accepted,
          ms: milliseconds.total,
          theirs: reads && sameSlots(slotsOf(reads[i] ?? ''), slots),
          considered: considered.map((c) => ({
            ...c,
            good: sameSlots(slotsOf(c.words), slots),
          })),
          places: here ? { here, instead } : null,
        });
      }
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
const cases = (
  stored
    ? stored.split(',').flatMap((file) => JSON.parse(readFileSync(file, 'utf8')) as Case[])
    : (
        await inParts(async (part) => ({
          cases: (await measured(part)).map((c) => JSON.stringify(c)),
        }))
      ).cases.map((c) => JSON.parse(c) as Case)
).filter(({ number }) => half === undefined || number % 2 === Number(half));
const dump = option('--dump');
if (dump && !process.send) writeFileSync(dump, JSON.stringify(cases));

const of = (condition: string, tuning = tuningName(tunings[0] ?? {})): Case[] =>
  cases.filter((c) => c.kind === `people, ${condition}` && c.tuning === tuning);
for (const tuning of tunings.map(tuningName)) {
  const rows = CONDITIONS.map(({ name }) => {
    const list = of(name, tuning);
    const count = (what: (c: Case) => boolean): string => share(list.filter(what).length, list.length);
    const time = (q: number): number =>
      Math.round(
        percentile(
          list.map((c) => c.ms),
          q,
        ),
      );
    const row = [
      name,
      count((c) => c.good),
      count((c) => c.good && c.accepted),
      count((c) => !c.good && c.accepted),
      `${time(0.5)} / ${time(0.95)} ms`,
    ];
    if (list.some((c) => c.theirs === null)) return row;
    const ours = list.map((c) => c.good);
    const theirs = list.map((c) => c.theirs === true);
    return [...row, ...beside(ours, theirs)];
  });
  const head = ['clips', 'right', 'right and accepted', 'wrong but accepted', 'decided, median / 95 %'];
  if (tunings.length > 1) console.log(`\n${tuning}:\n`);
  console.log(table(rows.every((r) => r.length > head.length) ? [...head, ...besideHead] : head, rows));
}

if (has('--causes')) {
  const quietPlaces = new Map(
    of('quiet').flatMap((c): [number, Placed][] => (c.places ? [[c.number, c.places.here]] : [])),
  );
  const explained = CONDITIONS.map(({ name }) =>
    of(name).flatMap((c) => {
      const quiet = quietPlaces.get(c.number);
      if (!quiet || !c.places) return [];
      const here = name === 'quiet' ? quiet : c.places.here;
      return [
        {
          ...c,
          cause: causeOf({ ...c, ...c.places, here, quiet }),
          traits: traitsOf(here, quiet),
        },
      ];
    }),
  );
  const names = CONDITIONS.map(({ name }) => name);
  console.log('\nWhy a clip was not both right and accepted, the first cause that holds:\n');
  console.log(
    table(
      ['cause', ...names],
      causes.map((cause) => [
        cause,
        ...explained.map((list) => String(list.filter((c) => c.cause === cause).length)),
      ]),
    ),
  );
  const traits = [...new Set(explained.flat().flatMap((c) => c.traits))].sort();
  console.log('\nClips that have it, and how many of these are right:\n');
  console.log(
    table(
      ['trait', ...names],
      traits.map((trait) => [
        trait,
        ...explained.map((list) => {
          const having = list.filter((c) => c.traits.includes(trait));
          return share(having.filter((c) => c.good).length, having.length);
        }),
      ]),
    ),
  );
  if (has('--each'))
    for (const c of explained.flat())
      if (c.cause) console.log(`- ${c.kind}: ${c.cause}: "${c.heard}" for "${c.said}"`);
}
