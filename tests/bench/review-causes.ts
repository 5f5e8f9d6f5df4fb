import { readFileSync, writeFileSync } from 'node:fs';
import type { CauseId } from '../../src/review/why/causes.js';
import { type Evidence, type EvidenceId, observed } from '../../src/review/why/evidence.js';
import { rankCauses } from '../../src/review/why/rank.js';
import { evidenceOf, placeOf, plantedBy, saysNothing } from '../review/simulate/judge.js';

/**
 * How often the planted cause comes first, by cause. What simulated runs show is measured once and kept in a file, so
 * that weights can be tried quickly: `review-causes.js measure FILE RUNS FIRST_SEED NONE`, `review-causes.js weigh FILE`.
 */
interface Measured {
  planted: CauseId | null;
  seen: { id: EvidenceId; value: number }[];
}
const [mode = 'weigh', file = '/dev/stdin', ...rest] = process.argv.slice(2);
if (mode === 'measure') {
  const [runs = 230, from = 1, none = 100] = rest.map(Number);
  const began = performance.now();
  const kept: Measured[] = Array.from({ length: runs + none }, (_, i) => {
    const planted = i < runs ? plantedBy(i) : null;
    return {
      planted,
      seen: [...evidenceOf(from + i, planted).values()].map(({ id, value }) => ({ id, value })),
    };
  });
  writeFileSync(file, JSON.stringify(kept));
  console.log(`${kept.length} runs measured in ${Math.round((performance.now() - began) / 1000)} s`);
} else weigh(JSON.parse(readFileSync(file, 'utf8')) as Measured[], rest[0]);

function weigh(all: Measured[], detail?: string): void {
  const table = new Map<string, { n: number; first: number; three: number; taken: Map<string, number> }>();
  let runs = 0;
  let first = 0;
  let three = 0;
  for (const { planted, seen } of all) {
    const known = new Map<EvidenceId, Evidence>(
      seen.map(({ id, value }) => [id, observed(id, value, value.toFixed(2))]),
    );
    const verdict = rankCauses(known);
    const quiet = saysNothing(verdict);
    const id = planted ?? 'nothing';
    const place = planted === null ? (quiet ? 0 : 9) : quiet ? 9 : placeOf(verdict, planted);
    const among = planted === null ? place : placeOf(verdict, planted);
    const row = table.get(id) ?? { n: 0, first: 0, three: 0, taken: new Map<string, number>() };
    row.n++;
    if (place === 0) row.first++;
    if (among < 3) row.three++;
    if (planted !== null) {
      runs++;
      if (place === 0) first++;
      if (among < 3) three++;
    }
    if (place !== 0) {
      const got = quiet ? 'nothing' : (verdict.ranked[0]?.id ?? '');
      row.taken.set(got, (row.taken.get(got) ?? 0) + 1);
    }
    table.set(id, row);
    if (detail === id && place !== 0)
      console.log(
        quiet ? 'nothing' : '',
        verdict.ranked
          .slice(0, 2)
          .map((c) => `${c.id} ${c.probability.toFixed(2)}`)
          .join(', '),
        '|',
        [...known.values()]
          .filter((e) => e.strength > 0.1)
          .map((e) => `${e.id} ${e.value.toFixed(2)} (${e.strength.toFixed(2)})`)
          .join(' '),
      );
  }
  for (const [id, r] of table)
    console.log(
      id.padEnd(20),
      `first ${((r.first / r.n) * 100).toFixed(0)}%`.padEnd(12),
      `in three ${((r.three / r.n) * 100).toFixed(0)}%`.padEnd(16),
      [...r.taken].map(([k, v]) => `${k} ${v}`).join(', '),
    );
  const nothing = table.get('nothing');
  console.log(
    `${runs} planted: first ${((first / runs) * 100).toFixed(1)}%, in the first three ${((three / runs) * 100).toFixed(1)}%; none planted, said so ${nothing ? ((nothing.first / nothing.n) * 100).toFixed(1) : '?'}% of ${nothing?.n ?? 0}`,
  );
  if (detail === 'values') values(all);
}

/** Where each thing lies when nothing is planted. */
function values(all: Measured[]): void {
  const by = new Map<string, number[]>();
  for (const { planted, seen } of all)
    if (planted === null) for (const { id, value } of seen) by.set(id, [...(by.get(id) ?? []), value]);
  for (const [id, v] of by) {
    v.sort((a, b) => a - b);
    const at = (q: number): string => (v[Math.floor(q * (v.length - 1))] ?? 0).toFixed(3);
    console.log(id.padEnd(22), v.length, at(0.02), at(0.5), at(0.9), at(0.95), at(0.99));
  }
}
