import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { type Played, readLines, Stage } from '../bench/said/play.js';

const stage = new Stage();
const played = (table: string): Played[] => {
  const path = fileURLToPath(new URL(`../bench/said/${table}`, import.meta.url));
  return readLines(readFileSync(path, 'utf8')).map((line) => stage.say(line));
};

/** Tables of people's own sentences; `npm run bench:said` prints by situation what is not right. */
const TABLES = [
  { table: 'sink.tsv', right: 0.95, rightOrAsked: 0.97, wrongActs: 0 },
  { table: 'strangers-a.tsv', right: 0.73, rightOrAsked: 0.81, wrongActs: 3 },
  { table: 'strangers-b.tsv', right: 0.6, rightOrAsked: 0.7, wrongActs: 4 },
] as const;

describe("people's own sentences, each in its situation", () => {
  it.each(TABLES)(
    '$table',
    ({ table, right, rightOrAsked, wrongActs }) => {
      const all = played(table);
      const wrong = all.filter((p) => p.verdict === 'wrong act').map((p) => `${p.words} → ${p.taken}`);
      const count = (...verdicts: Played['verdict'][]): number =>
        all.filter((p) => verdicts.includes(p.verdict)).length / all.length;
      expect(all.length).toBeGreaterThanOrEqual(160);
      expect(wrong.length, wrong.join('\n')).toBeLessThanOrEqual(wrongActs);
      expect(count('right')).toBeGreaterThanOrEqual(right);
      expect(count('right', 'asked')).toBeGreaterThanOrEqual(rightOrAsked);
    },
    300_000,
  );
});
