/**
 * Chooses the weights of the accept/reject decision (models/…/rejection.json) on development clips: commands right
 * and wrong, talk, numbers out of place and noise, all in voices that training may use; no clip of a reported figure.
 * Logistic regression by Newton's method; the line is then moved so that at most --reject (default 0.01; half of them are in noise) of the
 * development commands that were heard right are refused.
 *   npm run bench:build && node dist/.bench/tests/bench/voice-calibrate.js [--write] [--model DIR] [--parts 0] [--dump FILE]
 *     [--from FILE,FILE]: cases kept by --dump before, those of voice-people.ts too; [--only-stored]: none but these
 */

import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { Matrix, solve } from 'ml-matrix';
import { modelsDir } from '../../src/speech/installed.js';
import { type Considered, createRecogniser } from '../../src/speech/recogniser/recogniser.js';
import { type Cues, cueNames } from '../../src/speech/recogniser/reject/cues.js';
import { confidenceOf } from '../../src/speech/recogniser/reject/verdict.js';
import type { RejectionSettings } from '../../src/speech/recogniser/settings.js';
import { inParts, type Part } from './parts.js';
import { developmentExamples } from './voice/examples.js';
import { table } from './voice/stats.js';

const option = (name: string): string | undefined => {
  const at = process.argv.indexOf(name);
  return at < 0 ? undefined : process.argv[at + 1];
};
const modelDir = option('--model') ?? join(modelsDir(), 'tankside-acoustic');
const mayReject = Number(option('--reject') ?? '0.01');

interface Case {
  kind: string;
  heard: string;
  said: string | null;
  cues: Cues;
  /** a command, heard right */
  good: boolean;
  considered: (Considered & { good: boolean })[];
}

async function measured({ index, of }: Part): Promise<{ cases: Case[]; unheard: string[] }> {
  const recogniser = await createRecogniser({ modelDir });
  const cases: Case[] = [];
  const unheard: string[] = [];
  let number = 0;
  for (const { kind, grammar, words, pcm } of developmentExamples()) {
    if (number++ % of !== index) continue;
    recogniser.setGrammar(grammar);
    const { best, cues, considered } = await recogniser.recognise(pcm());
    const good = (heard: string): boolean => words !== null && heard === words;
    if (best && cues) {
      // the product has many ways to say one thing; another of its sentences is neither right nor wrong here
      if (kind === 'product' && best.words !== words) continue;
      cases.push({
        ...{ kind, heard: best.words, said: words, cues, good: good(best.words) },
        considered: considered.map((c) => ({ ...c, good: good(c.words) })),
      });
    } else unheard.push(kind);
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
 * What each kind of no command weighs, however many clips it has. Chosen by hand on the two halves below: many voices at
 * once can sound like anything, so they weigh most; with less, they were taken for commands twice as often and nothing
 * else was gained. A command heard wrong weighs nothing: these cues do not tell it from one heard right.
 */
const shares: Record<string, number> = {
  'babble alone': 2,
  talk: 1,
  'near misses': 0.6,
  'water alone': 0.2,
  'fan alone': 0.2,
  'numbers out of place': 0.2,
};
const kindOf = (x: Case): string => x.kind.replace(/,.*/, '');

/** Weights for standardised cues, then turned back to plain ones. Both sides count the same. */
function fitted(list: Case[], ridge = 3): RejectionSettings {
  const n = list.length;
  const mean = cueNames.map((c) => list.reduce((s, x) => s + x.cues[c], 0) / n);
  const sd = cueNames.map(
    (c, i) => Math.sqrt(list.reduce((s, x) => s + (x.cues[c] - (mean[i] ?? 0)) ** 2, 0) / n) + 1e-6,
  );
  const rows = list.map((x) => [1, ...cueNames.map((c, i) => (x.cues[c] - (mean[i] ?? 0)) / (sd[i] ?? 1))]);
  const goods = list.filter((x) => x.good).length;
  const bad = list.filter((x) => !x.good && x.said === null);
  const whole = Object.values(shares).reduce((a, b) => a + b, 0);
  const clips = (kind: string): number => bad.filter((x) => kindOf(x) === kind).length;
  const each = new Map(
    Object.entries(shares).map(([kind, share]) => [kind, (n / 2) * (share / whole / clips(kind))]),
  );
  const weightOf = (x: Case): number =>
    x.good ? n / 2 / goods : x.said === null ? (each.get(kindOf(x)) ?? 0) : 0;
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

// two halves judge each other, so the printed figures are not those of the fit itself
const halves = [0, 1].map((h) => cases.filter((_, i) => i % 2 === h));
const tally = new Map<string, { all: number; accepted: number }>();
halves.forEach((half, h) => {
  const other = halves[1 - h] ?? [];
  const settings = withLine(fitted(other), other, mayReject);
  for (const x of half) {
    const key = `${x.kind}, ${x.good ? 'heard right' : 'not right or no command'}`;
    const t = tally.get(key) ?? { all: 0, accepted: 0 };
    t.all++;
    if (confidenceOf(x.cues, settings) >= 0.5) {
      t.accepted++;
      if (!x.good) console.log(`- accepted: ${x.kind}, "${x.heard}"${x.said ? ` for "${x.said}"` : ''}`);
    } else if (x.good) console.log(`- refused: ${x.kind}, "${x.heard}"`);
    tally.set(key, t);
  }
});
console.log(
  table(
    ['development clips', 'accepted', 'of'],
    [...tally].sort().map(([k, t]) => [k, String(t.accepted), String(t.all)]),
  ),
);
console.log(`no reading at all: ${fresh.unheard.length}`);
const final = withLine(fitted(cases), cases, mayReject);
console.log(final);
if (process.argv.includes('--write')) {
  const round = (v: number): number => Number(v.toPrecision(5));
  writeFileSync(
    join(modelDir, 'rejection.json'),
    `${JSON.stringify(
      {
        bias: round(final.bias),
        weights: Object.fromEntries(Object.entries(final.weights).map(([k, v]) => [k, round(v)])),
      },
      null,
      2,
    )}\n`,
  );
}
