import { readFileSync } from 'node:fs';
import { PACKAGE } from '../../src/language/load.js';
import { isDeed } from '../../src/language/meaning/weight.js';
import { momentName } from '../../src/language/open/moments.js';
import { dice } from '../../src/language/open/understand.js';
import type { Intent } from '../../src/process/intent.js';
import { judged, Stage, VERDICTS, type Verdict } from './said/play.js';
import { SITUATIONS } from './said/situations.js';
import { percent } from './voice/stats.js';

/**
 * What writers said who saw neither grammar nor program (training/said), each sentence in a situation of its moment and
 * judged by its key: `said-writers.js n q --count 1500`; `--all` prints what did not come out right. The models learnt these
 * sentences, so this counts what becomes of a command that is known: its values, the asking, and what is left alone. Only the
 * kind of a command is judged, and one of two that were said counts as half a loss: `part`.
 */
const names = process.argv.slice(2).filter((a) => /^[a-z]$/.test(a));
const option = (name: string, or: number): number => {
  const at = process.argv.indexOf(`--${name}`);
  return at < 0 ? or : Number(process.argv[at + 1]);
};
const count = option('count', 1500);
const random = dice(option('seed', 1));
const all = process.argv.includes('--all');

const stage = new Stage();
const places = new Map<string, string[]>();
for (const situation of SITUATIONS) {
  const { assistant } = stage.bench;
  const { state } = stage.at(situation);
  const name = momentName({ situations: stage.at(situation).situations(), due: assistant.due(state) });
  places.set(name, [...(places.get(name) ?? []), situation]);
}
/** Where the writers named less than is due. */
const placesOf = (moment: string): string[] =>
  places.get(moment) ??
  [...places].flatMap(([name, of]) =>
    name.startsWith(moment) || (moment === 'preparing' && name === 'anytime') ? of : [],
  );

const intents = new Map(stage.bench.language.records().map((r) => [r.id, r.intent]));

/** What also says what a command of this kind says. */
const ALIKE: readonly (readonly string[])[] = [
  ['pour-in', 'bath-in', 'poured'],
  ['pour-back', 'poured', 'part', 'bottle-holds'],
  ['reading', 'correct', 'ph-reading', 'made-up'],
  ['mix-next', 'next-step', 'ask-next', 'dissolved', 'made-up'],
  ['mix-where', 'ask-where'],
  ['withdraw', 'cancel', 'undo', 'hold-clock'],
  ['part', 'correct', 'pour-in'],
  ['spill', 'hurt', 'contaminated'],
  ['bottle-empty', 'bottle-discarded'],
  ['left-out', 'skip'],
  ['ask-why', 'ask-reason'],
  // these get one answer (src/app/talk.ts)
  ['ask-actual', 'ask-film'],
  ['ask-amount', 'mix-where'],
  ['ask-reason', 'say-again'],
  ['ask-end', 'ask-where'],
  ['ask-bottle-of', 'ask-bottles'],
  ['ask-bottle-of', 'ask-next'],
];
const alike = (type: string): string[] => [type, ...ALIKE.filter((a) => a.includes(type)).flat()];

interface Row {
  writer: string;
  moment: string;
  situation: string;
  key: string;
  words: string;
}
const rows: Row[] = names.flatMap((writer) =>
  readFileSync(`training/said/${writer}.tsv`, 'utf8')
    .split('\n')
    .flatMap((line): Row[] => {
      const [key = '', words = '', moment = ''] = line.split('\t');
      const of = placesOf(moment);
      const situation = of[Math.floor(random() * of.length)];
      return words && situation ? [{ writer, moment, situation, key, words }] : [];
    }),
);
const sample = rows
  .map((row) => ({ row, at: random() }))
  .sort((a, b) => a.at - b.at)
  .slice(0, count)
  .map(({ row }) => row);

const outcomes = [...VERDICTS, 'part'] as const;
type Outcome = Verdict | 'part';
const each = (intent: Intent): Intent[] => (intent.type === 'several' ? [...intent.intents] : [intent]);

const results = sample.map((row) => {
  const keys = row.key.split('+').map((k) => intents.get(`${PACKAGE}.${k}`) ?? k);
  const wanted = keys.filter((k) => k !== 'nothing' && k !== 'none');
  const conversation = stage.at(row.situation);
  const taken = conversation.typed(row.words);
  const shown = judged(taken, { alternatives: [], nothing: wanted.length === 0, askedIsRight: false });
  const fits = (intent: Intent, key: string): boolean => alike(key).includes(intent.type);
  let outcome: Outcome = shown.verdict;
  if (wanted.length > 0 && taken.done === 'asked')
    outcome = taken.candidates.some((c) => each(c).some((i) => wanted.some((k) => fits(i, k))))
      ? 'asked'
      : 'wrong answer';
  if (wanted.length > 0 && taken.done === 'acted') {
    // `joined` names no kinds: that several facts were taken is all that can be judged
    const got = wanted.includes('several') ? [taken.intent] : each(taken.intent);
    const met = wanted.filter((k) => got.some((i) => fits(i, k)));
    const stray = got.filter((i) => !wanted.some((k) => fits(i, k)));
    outcome = stray.some(isDeed)
      ? 'wrong act'
      : met.length === wanted.length
        ? 'right'
        : met.length > 0
          ? 'part'
          : 'wrong answer';
  }
  return { ...row, outcome, taken: shown.taken };
});

const line = (cells: readonly string[]): string =>
  cells.map((c, i) => (i === 0 ? c.padEnd(26) : c.padStart(15))).join('');
console.log(
  `writers ${names.join(', ')}: ${results.length} sentences\n${line(['', 'sentences', ...outcomes])}`,
);
const groups = new Map<string, typeof results>();
for (const r of results) {
  const name = r.key === 'nothing' ? 'nothing' : r.moment || 'no moment';
  groups.set(name, [...(groups.get(name) ?? []), r]);
}
for (const [name, of] of [...groups, ['all', results] as const])
  console.log(
    line([name, String(of.length), ...outcomes.map((o) => String(of.filter((r) => r.outcome === o).length))]),
  );
const share = (...of: Outcome[]): string =>
  percent(results.filter((r) => of.includes(r.outcome)).length, results.length);
console.log(
  `right ${share('right')}, right or asked ${share('right', 'asked')}, part ${share('part')}, wrong acts ${share('wrong act')}`,
);
if (all)
  for (const r of results)
    if (r.outcome !== 'right')
      console.log(
        `${r.outcome.padEnd(15)} ${r.situation} [${r.key}]\t${r.words}\n${' '.repeat(16)}${r.taken}`,
      );
