// The rows that `ranker.py` learns from: for every keyed sentence, each meaning that is weighed with what speaks for it.
// node training/ranker-rows.mjs OUT tests/bench/said/*.tsv, after `npm run bench:build`
import { readFileSync, writeFileSync } from 'node:fs';
import { basename } from 'node:path';
import { matches } from '../dist/.bench/tests/bench/said/expect.js';
import { readLines, Stage } from '../dist/.bench/tests/bench/said/play.js';
import { featuresOf } from '../dist/.bench/src/language/open/ranker.js';
import { openFor } from '../dist/.bench/src/language/open/understand.js';

const [out, ...files] = process.argv.slice(2);
const stage = new Stage();
const open = openFor(stage.bench.language.grammars);
const { rank } = open;
let last;
open.rank = (candidates, line) => {
  last = { candidates, line };
  return rank(candidates, line);
};
const rows = [];
for (const file of files)
  for (const { situation, words, expected } of readLines(readFileSync(file, 'utf8'))) {
    last = undefined;
    stage.at(situation).typed(words);
    if (!last) continue;
    const { candidates, line } = last;
    rows.push({
      set: basename(file, '.tsv'),
      words,
      of: candidates.map((c) => ({
        right: c.intent === undefined ? expected.nothing : matches(c.intent, expected),
        features: Object.fromEntries(featuresOf(c, line)),
      })),
    });
  }
writeFileSync(out, JSON.stringify(rows));
console.log(`${rows.length} rows`);
