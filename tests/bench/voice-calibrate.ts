/**
 * Chooses what the accept/reject decision weighs (models/…/rejection.json) and what the hidden Markov models count
 * (hmmWeight in decoder.json) on development clips: commands right and wrong, talk, numbers out of place and noise, all in
 * voices that training may use, and strangers' commands kept by voice-people.ts. Logistic regression by Newton's method; the line is
 * then moved so that at most --reject (default 0.009; most are in noise) of the commands that were heard right are
 * refused. The figures printed are cross-validated in five folds, people's clips (--people, ../shared/people when not given) by
 * groups that sound like one speaker each; the constants written are those of all.
 *   npm run bench:build && node dist/.bench/tests/bench/voice-calibrate.js [--write] [--model DIR] [--parts 0] [--dump FILE]
 *     [--from FILE,FILE]: cases kept by --dump before, those of voice-people.ts too; [--only-stored]: none but these
 *     [--try LIST]: tunings as for voice-people.ts; the one under which most is heard right is chosen too
 */
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { Matrix, solve } from 'ml-matrix';
import { modelsDir } from '../../src/speech/installed.js';
import { type Considered, createRecogniser } from '../../src/speech/recogniser/recogniser.js';
import { type Cues, cueNames } from '../../src/speech/recogniser/reject/cues.js';
import { confidenceOf } from '../../src/speech/recogniser/reject/verdict.js';
import { type RejectionSettings, readDecoderSettings } from '../../src/speech/recogniser/settings.js';
import { inParts, type Part } from './parts.js';
import { developmentExamples } from './voice/examples.js';
import { readPeople } from './voice/people.js';
import { foldsBySpeaker } from './voice/speakers.js';
import { share, table } from './voice/stats.js';
import { Trials, type Tuning, tuningName, tuningsOf } from './voice/tunings.js';

const option = (name: string): string | undefined => {
  const at = process.argv.indexOf(name);
  return at < 0 ? undefined : process.argv[at + 1];
};
const modelDir = option('--model') ?? join(modelsDir(), 'tankside-acoustic');
const tunings = tuningsOf(option('--try'));
const mayReject = Number(option('--reject') ?? '0.009');
const HEARD_WRONG = Number(option('--heard-wrong') ?? '1');

interface Case {
  /** what it was heard under */
  tuning: string;
  kind: string;
  /** of a person's clip, or of a development example */
  number: number;
  heard: string;
  said: string | null;
  cues: Cues;
  /** a command, heard right */
  good: boolean;
  considered: (Considered & { good: boolean })[];
}

async function measured({ index, of }: Part): Promise<{ cases: Case[]; unheard: string[] }> {
  const recogniser = await createRecogniser({ modelDir });
  const trials = new Trials(recogniser, tunings, modelDir);
  const cases: Case[] = [];
  const unheard: string[] = [];
  // a big grammar takes long to open: all of one grammar's after each other
  const mine = [...developmentExamples()].flatMap((example, number) =>
    number % of === index ? [{ ...example, number }] : [],
  );
  const grammars = [...new Set(mine.map((example) => example.grammar))];
  const sorted = grammars.flatMap((grammar) => mine.filter((example) => example.grammar === grammar));
  for (const { kind, grammar, words, pcm, number } of sorted) {
    recogniser.setGrammar(grammar);
    const good = (heard: string): boolean => words !== null && heard === words;
    for (const [t, { best, cues, considered }] of (await trials.hear(pcm())).entries()) {
      const tuning = tuningName(tunings[t] ?? {});
      if (best && cues) {
        // the product has many ways to say one thing; another of its sentences is neither right nor wrong here
        if (kind === 'product' && best.words !== words) continue;
        cases.push({
          ...{
            tuning,
            kind,
            number,
            heard: best.words,
            said: words,
            cues,
            good: good(best.words),
          },
          considered: considered.map((c) => ({ ...c, good: good(c.words) })),
        });
      } else unheard.push(`${tuning}: ${kind}`);
    }
  }
  await recogniser.close();
  return { cases, unheard };
}

const stored = option('--from')?.split(',') ?? [];
const fresh = process.argv.includes('--only-stored')
  ? { cases: [], unheard: [] }
  : await inParts(async (part) => {
      const { cases: list, unheard } = await measured(part);
      return { cases: list.map((c) => JSON.stringify(c)), unheard };
    });
const cases: Case[] = [
  ...stored.flatMap((file) => JSON.parse(readFileSync(file, 'utf8')) as Case[]),
  ...fresh.cases.map((c) => JSON.parse(c) as Case),
];

/**
 * What each kind of clip that is to be refused weighs, however many there are. Chosen by hand on the folds below: many voices at
 * once can sound like anything, so they weigh most; with less, they were taken for commands twice as often and nothing
 * else was gained.
 */
const shares: Record<string, number> = {
  'babble alone': 2,
  talk: 1,
  'heard wrong': HEARD_WRONG,
  'near misses': 0.6,
  'water alone': 0.2,
  'fan alone': 0.2,
  'numbers out of place': 0.2,
};
const kindOf = (x: Case): string => (x.said === null ? x.kind.replace(/,.*/, '') : 'heard wrong');

/** Weights for standardised cues, then turned back to plain ones. Both sides count the same. */
function fitted(list: Case[], ridge = 3): RejectionSettings {
  const n = list.length;
  const mean = cueNames.map((c) => list.reduce((s, x) => s + x.cues[c], 0) / n);
  const sd = cueNames.map(
    (c, i) => Math.sqrt(list.reduce((s, x) => s + (x.cues[c] - (mean[i] ?? 0)) ** 2, 0) / n) + 1e-6,
  );
  const rows = list.map((x) => [1, ...cueNames.map((c, i) => (x.cues[c] - (mean[i] ?? 0)) / (sd[i] ?? 1))]);
  const goods = list.filter((x) => x.good).length;
  const bad = list.filter((x) => !x.good);
  const whole = Object.values(shares).reduce((a, b) => a + b, 0);
  const clips = (kind: string): number => bad.filter((x) => kindOf(x) === kind).length;
  const each = new Map(
    Object.entries(shares).map(([kind, share]) => [kind, (n / 2) * (share / whole / clips(kind))]),
  );
  const weightOf = (x: Case): number => (x.good ? n / 2 / goods : (each.get(kindOf(x)) ?? 0));
  const size = cueNames.length + 1;
  let w = new Array<number>(size).fill(0);
  for (let step = 0; step < 30; step++) {
    const gradient = w.map((v, i) => (i === 0 ? 0 : -ridge * v));
    const hessian = Matrix.eye(size, size).mul(ridge);
    list.forEach((x, r) => {
      const row = rows[r] ?? [];
      const z = row.reduce((s, v, i) => s + v * (w[i] ?? 0), 0);
      const p = 1 / (1 + Math.exp(-z));
      const k = weightOf(x);
      for (let i = 0; i < size; i++) {
        gradient[i] = (gradient[i] ?? 0) + k * ((x.good ? 1 : 0) - p) * (row[i] ?? 0);
        for (let j = 0; j < size; j++)
          hessian.set(i, j, hessian.get(i, j) + k * p * (1 - p) * (row[i] ?? 0) * (row[j] ?? 0));
      }
    });
    const change = solve(hessian, Matrix.columnVector(gradient)).to1DArray();
    w = w.map((v, i) => v + (change[i] ?? 0));
    if (Math.max(...change.map(Math.abs)) < 1e-6) break;
  }
  const weights: Record<string, number> = {};
  let bias = w[0] ?? 0;
  cueNames.forEach((c, i) => {
    const plain = (w[i + 1] ?? 0) / (sd[i] ?? 1);
    weights[c] = plain;
    bias -= plain * (mean[i] ?? 0);
  });
  return { bias, weights };
}

/** The same weights with the line where `share` of the good cases falls below it. */
function withLine(settings: RejectionSettings, list: Case[], rejected: number): RejectionSettings {
  const logits = list
    .filter((x) => x.good)
    .map((x) => confidenceOf(x.cues, settings))
    .map((p) => Math.log((p + 1e-9) / (1 - p + 1e-9)))
    .sort((a, b) => a - b);
  return { ...settings, bias: settings.bias - (logits[Math.floor(rejected * logits.length)] ?? 0) + 1e-6 };
}

const dump = option('--dump');
if (dump !== undefined && !process.send) writeFileSync(dump, JSON.stringify(cases));

/** What a case comes to with another weight of the hidden Markov models. */
function weighed(x: Case, hmmWeight: number): Case {
  const score = (c: Considered): number => c.network + hmmWeight * (c.fit ?? Number.NEGATIVE_INFINITY);
  if (x.considered.length < 2) return x;
  const best = x.considered.reduce((a, b) => (score(b) > score(a) ? b : a));
  return { ...x, heard: best.words, cues: best.cues, good: best.good };
}

const WEIGHTS = [0.2, 0.25, 0.15, 0.3, 0.1, 0.4, 0.05, 0.6];

interface Choice {
  tuning: Tuning;
  hmmWeight: number;
  rejection: RejectionSettings;
}

const under = (tuning: Tuning, list: readonly Case[]): Case[] =>
  list.filter((x) => x.tuning === tuningName(tuning));

/** The constants that are best on some cases; of equals the first. */
function chosen(list: readonly Case[]): Choice {
  const tried = tunings.flatMap((tuning) =>
    WEIGHTS.map((hmmWeight) => {
      const seen = under(tuning, list).map((x) => weighed(x, hmmWeight));
      return { tuning, hmmWeight, seen, right: seen.filter((x) => x.good).length };
    }),
  );
  const { tuning, hmmWeight, seen } = tried.reduce((a, b) => (b.right > a.right ? b : a));
  return { tuning, hmmWeight, rejection: withLine(fitted(seen), seen, mayReject) };
}

// every fold is judged by constants chosen on the others; a clip is in one fold in all its noises
const FOLDS = 5;
const people = option('--people') ?? '../shared/people';
const foldOfClip =
  stored.length > 0 && existsSync(people)
    ? foldsBySpeaker(
        readPeople(people, () => true).clips.map((clip) => clip.pcm),
        FOLDS,
      )
    : [];
const foldOf = ({ kind, number }: Case): number =>
  (kind.startsWith('people') ? foldOfClip[number] : undefined) ?? number % FOLDS;
const tally = new Map<string, { all: number; right: number; accepted: number; wrong: number }>();
for (let fold = 0; fold < FOLDS; fold++) {
  const { tuning, hmmWeight, rejection } = chosen(cases.filter((x) => foldOf(x) !== fold));
  console.log(`fold ${fold}: ${tuningName(tuning)}, hmmWeight ${hmmWeight}`);
  for (const kept of under(tuning, cases).filter((x) => foldOf(x) === fold)) {
    const x = weighed(kept, hmmWeight);
    const t = tally.get(x.kind) ?? { all: 0, right: 0, accepted: 0, wrong: 0 };
    tally.set(x.kind, t);
    const accepted = confidenceOf(x.cues, rejection) >= 0.5;
    t.all++;
    if (x.good) t.right++;
    if (x.good && accepted) t.accepted++;
    if (!x.good && accepted) t.wrong++;
    if (x.said === null && accepted) console.log(`- accepted: ${x.kind}, "${x.heard}"`);
  }
}
console.log(
  table(
    ['clips', 'right', 'right and accepted', 'accepted, though wrong or no command'],
    [...tally].sort().map(([k, t]) => [k, ...[t.right, t.accepted, t.wrong].map((n) => share(n, t.all))]),
  ),
);
console.log(`no reading at all: ${fresh.unheard.length}`);
const kinds = [...new Set(cases.map((x) => x.kind))].sort();
if (tunings.length > 1)
  console.log(
    table(
      ['heard right', ...tunings.map(tuningName)],
      kinds.map((kind) => [
        kind,
        ...tunings.map((t) => {
          const list = under(t, cases).filter((x) => x.kind === kind);
          return share(list.filter((x) => x.good).length, list.length);
        }),
      ]),
    ),
  );
const final = chosen(cases);
console.log(final);
if (process.argv.includes('--write')) {
  const round = (v: number): number => Number(v.toPrecision(5));
  const { bias, weights } = final.rejection;
  const rejection = {
    bias: round(bias),
    weights: Object.fromEntries(Object.entries(weights).map(([k, v]) => [k, round(v)])),
  };
  const decoder = { ...readDecoderSettings(modelDir), ...final.tuning.decoder, hmmWeight: final.hmmWeight };
  for (const [file, content] of Object.entries({ rejection, decoder }))
    writeFileSync(join(modelDir, `${file}.json`), `${JSON.stringify(content, null, 2)}\n`);
}
