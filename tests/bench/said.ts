import { readFileSync } from 'node:fs';
import { type Played, readLines, Stage, VERDICTS } from './said/play.js';
import { percent } from './voice/stats.js';

/**
 * People's own words, each said in its situation through the whole assistant and judged against what it may be taken
 * for; by situation. `said.js FILE…` for other tables, `--all` prints every sentence.
 */
const files = process.argv.slice(2).filter((a) => !a.startsWith('--'));
const all = process.argv.includes('--all');

const cells = (row: readonly string[]): string =>
  row.map((c, i) => (i === 0 ? c.padEnd(12) : c.padStart(15))).join('');

function report(file: string, played: readonly Played[]): void {
  console.log(`\n${file}: ${played.length} sentences`);
  console.log(cells(['', 'sentences', ...VERDICTS]));
  const groups = new Map<string, Played[]>();
  for (const p of played) {
    const name = p.expected.nothing ? 'nothing' : (p.situation.split(':')[0] ?? '');
    groups.set(name, [...(groups.get(name) ?? []), p]);
  }
  for (const [name, of] of [...groups, ['all', played] as const]) {
    const counts = VERDICTS.map((v) => of.filter((p) => p.verdict === v).length);
    console.log(cells([name, String(of.length), ...counts.map(String)]));
  }
  const right = played.filter((p) => p.verdict === 'right').length;
  const asked = played.filter((p) => p.verdict === 'asked').length;
  const acts = played.filter((p) => p.verdict === 'wrong act').length;
  const times = (of: (p: Played) => number): string => {
    const sorted = played.map(of).sort((a, b) => a - b);
    const at = (share: number): string => (sorted[Math.floor(share * (sorted.length - 1))] ?? 0).toFixed(1);
    return `median ${at(0.5)} ms, p99 ${at(0.99)} ms, most ${at(1)} ms`;
  };
  console.log(
    `right ${percent(right, played.length)}, right or sensibly asked ${percent(right + asked, played.length)}, ` +
      `wrong acts ${percent(acts, played.length)}`,
  );
  console.log(`understood, of the processor: ${times((p) => p.cpuMs)}`);
  console.log(`understood: ${times((p) => p.understoodMs)}; answered: ${times((p) => p.answeredMs)}`);
  for (const p of played)
    if (all || p.verdict !== 'right')
      console.log(
        `${p.verdict.padEnd(15)} ${p.situation}\t${p.words}\n${' '.repeat(16)}${p.taken}` +
          `  (may be: ${p.expected.alternatives.join(' | ') || 'nothing'})  → ${p.replies.join(' / ')}`,
      );
}

const stage = new Stage();
const tables = files.length > 0 ? files : ['tests/bench/said/sink.tsv'];
for (const file of tables)
  report(
    file,
    readLines(readFileSync(file, 'utf8')).map((l) => stage.say(l)),
  );
