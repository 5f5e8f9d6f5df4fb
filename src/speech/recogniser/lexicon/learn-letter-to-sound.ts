/**
 * Learns the letter-to-sound rules from the CMU Pronouncing Dictionary and writes them as JSON. Run:
 *   node dist/speech/recogniser/lexicon/learn-letter-to-sound.js models/lexicon/letter-to-sound.json
 * Every 20th word is kept out and the share of those said as the dictionary says is printed.
 */
import { writeFileSync } from 'node:fs';
import { dictionary as entries } from 'cmu-pronouncing-dictionary';
import { type LetterRules, LOOK, letterAt, type Rule, soundsOf } from './letter-to-sound.js';

interface Entry {
  word: string;
  phones: string[];
}

/** A letter in its place and what it sounds as. */
interface Example {
  word: string;
  at: number;
  sound: string;
}

const ROUNDS = 5;
const RARE = 2;
const UNSEEN = -14;

function usable(): Entry[] {
  return Object.entries(entries)
    .filter(([word]) => /^[a-z]{2,18}$/.test(word))
    .map(([word, phones]) => ({ word, phones: phones.split(' ') }))
    .filter(({ word, phones }) => phones.length <= 2 * word.length);
}

/** log P(sound | letter), as estimated in the last round */
type Table = Map<string, number>;

/** Best way to deal out the phones over the letters, none to two each. */
function dealt({ word, phones }: Entry, table: Table): string[] | null {
  const n = word.length;
  const m = phones.length;
  const best = new Float64Array((n + 1) * (m + 1)).fill(Number.NEGATIVE_INFINITY);
  const took = new Int8Array((n + 1) * (m + 1));
  best[0] = 0;
  for (let i = 0; i < n; i++)
    for (let j = 0; j <= m; j++) {
      const here = best[i * (m + 1) + j] as number;
      if (here === Number.NEGATIVE_INFINITY) continue;
      for (let k = 0; k <= 2 && j + k <= m; k++) {
        const p = table.get(`${word[i]}:${phones.slice(j, j + k).join(' ')}`) ?? UNSEEN - k;
        const to = (i + 1) * (m + 1) + j + k;
        if (here + p > (best[to] as number)) {
          best[to] = here + p;
          took[to] = k;
        }
      }
    }
  if (best[n * (m + 1) + m] === Number.NEGATIVE_INFINITY) return null;
  const out: string[] = [];
  let j = m;
  for (let i = n; i > 0; i--) {
    const k = took[i * (m + 1) + j] as number;
    out.push(phones.slice(j - k, j).join(' '));
    j -= k;
  }
  return out.reverse();
}

function counted(list: Entry[], table: Table, first: boolean): Table {
  const pair = new Map<string, number>();
  const letter = new Map<string, number>();
  const add = (l: string, sound: string, by: number): void => {
    pair.set(`${l}:${sound}`, (pair.get(`${l}:${sound}`) ?? 0) + by);
    letter.set(l, (letter.get(l) ?? 0) + by);
  };
  for (const entry of list) {
    if (first) {
      // no table yet: a letter's sounds lie near the same share of the word
      for (let i = 0; i < entry.word.length; i++) {
        const j = Math.round((i * (entry.phones.length - 1)) / Math.max(1, entry.word.length - 1));
        add(entry.word[i] ?? '', entry.phones[j] ?? '', 1);
        add(entry.word[i] ?? '', '', 0.2);
      }
      continue;
    }
    dealt(entry, table)?.forEach((sound, i) => {
      add(entry.word[i] ?? '', sound, 1);
    });
  }
  return new Map([...pair].map(([key, n]) => [key, Math.log(n / (letter.get(key[0] ?? '') ?? 1))]));
}

function grown(examples: Example[], depth: number, sounds: Map<string, number>): Rule {
  const tally = new Map<string, number>();
  for (const e of examples) tally.set(e.sound, (tally.get(e.sound) ?? 0) + 1);
  const [top] = [...tally].sort((a, b) => b[1] - a[1]);
  const sound = top?.[0] ?? '';
  if (!sounds.has(sound)) sounds.set(sound, sounds.size);
  const own = sounds.get(sound) ?? 0;
  const offset = LOOK[depth];
  if (tally.size === 1 || offset === undefined) return own;
  const cases = new Map<string, Example[]>();
  for (const e of examples) {
    const key = letterAt(e.word, e.at + offset);
    const list = cases.get(key);
    if (list) list.push(e);
    else cases.set(key, [e]);
  }
  const kept: Record<string, Rule> = {};
  for (const [key, list] of cases) {
    if (list.length < RARE) continue;
    const rule = grown(list, depth + 1, sounds);
    if (rule !== own) kept[key] = rule;
  }
  return Object.keys(kept).length > 0 ? [own, kept] : own;
}

export function learn(list: Entry[]): LetterRules {
  let table: Table = new Map();
  const sample = list.filter((_, i) => i % 3 === 0);
  for (let round = 0; round < ROUNDS; round++) table = counted(sample, table, round === 0);
  const examples = new Map<string, Example[]>();
  for (const entry of list)
    dealt(entry, table)?.forEach((sound, at) => {
      const letter = entry.word[at] ?? '';
      const found = examples.get(letter);
      if (found) found.push({ word: entry.word, at, sound });
      else examples.set(letter, [{ word: entry.word, at, sound }]);
    });
  const sounds = new Map<string, number>();
  const tree = Object.fromEntries([...examples].map(([letter, e]) => [letter, grown(e, 0, sounds)]));
  return { sounds: [...sounds.keys()], tree };
}

function main(file: string): void {
  const all = usable();
  const plain = (phones: string): string => phones.replace(/[0-2]/g, '');
  const kept = all.filter((_, i) => i % 20 !== 0);
  const judged = all.filter((_, i) => i % 20 === 0);
  const rules = learn(kept);
  const right = judged.filter((e) => plain(soundsOf(e.word, rules)) === plain(e.phones.join(' '))).length;
  const final = learn(all);
  writeFileSync(file, `${JSON.stringify(final)}\n`);
  console.log(
    `${right} of ${judged.length} words kept out are said as the dictionary says (stress not counted)`,
  );
}

const [, , target] = process.argv;
if (target) main(target);
