import { cpSync, existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { checkJournal } from '../../../src/ledger/check.js';
import { type EventRow, rowSum } from '../../../src/ledger/entry.js';
import { JOURNAL_FILE, openJournal } from '../../../src/ledger/journal.js';
import { isProblem } from '../../../src/ledger/problem.js';
import { secondCopyPath } from '../../../src/ledger/second-copy.js';
import { seeded } from '../../seeded.js';
import { entryFor } from '../crash/scenario.js';

/**
 * Harms the files of a journal that was left as a power cut leaves it, starts, and compares with what was confirmed.
 * An entry counts as intact when the bytes of its row, or of its line in the copy, stand anywhere in what is left.
 */
export interface CorruptionCounts {
  corruptions: number;
  /** of these, the files that were hit */
  hits: Record<string, number>;
  confirmed: number;
  /** entries whose bytes were intact somewhere, and that did not come back */
  intactNotBack: number;
  /** entries that did not come back at all */
  lost: number;
  /** starts that had lost an entry and said nothing */
  silent: number;
  /** starts that said all was there and it was not */
  wrongly: number;
  /** starts that gave something that was never written, or an unsound journal */
  wrong: number;
  /** refused to start, having said so */
  refused: number;
  slowestStartMs: number;
  problems: string[];
}

const ENTRIES = 120;

type Harm = (bytes: Buffer, random: () => number) => Buffer | null;
const spot = (bytes: Buffer, random: () => number): number => Math.floor(random() * bytes.length);
const harms: Record<string, Harm> = {
  bit: (b, r) => {
    const at = spot(b, r);
    b[at] = (b[at] ?? 0) ^ (1 << Math.floor(r() * 8));
    return b;
  },
  bytes: (b, r) => {
    for (let i = 0; i < 20; i += 1) b[spot(b, r)] = Math.floor(r() * 256);
    return b;
  },
  zeros: (b, r) => {
    const at = spot(b, r);
    return b.fill(0, at, Math.min(b.length, at + 4096));
  },
  rubbish: (b, r) => {
    const at = spot(b, r);
    for (let i = at; i < Math.min(b.length, at + 9000); i += 1) b[i] = Math.floor(r() * 256);
    return b;
  },
  cut: (b, r) => b.subarray(0, spot(b, r)),
  gone: () => null,
};

export function corrupt(
  dir: string,
  times: number,
  options: { seed: number; onEach?: (counts: CorruptionCounts) => void },
): CorruptionCounts {
  const random = seeded(options.seed);
  const counts: CorruptionCounts = {
    corruptions: 0,
    hits: {},
    confirmed: 0,
    intactNotBack: 0,
    lost: 0,
    silent: 0,
    wrongly: 0,
    wrong: 0,
    refused: 0,
    slowestStartMs: 0,
    problems: [],
  };
  const pristine = join(dir, 'pristine');
  const rows = write(pristine);
  for (let i = 0; i < times; i += 1) {
    const where = join(dir, `harmed-${i}`);
    cpSync(pristine, where, { recursive: true });
    const path = join(where, JOURNAL_FILE);
    const files = { journal: path, log: `${path}-wal`, copy: secondCopyPath(path), mark: `${path}.mark` };
    const names = Object.keys(files) as (keyof typeof files)[];
    // one file, some of them, or all four
    const hit = names.filter(() => random() < 0.5);
    if (hit.length === 0) hit.push(names[Math.floor(random() * names.length)] ?? 'journal');
    for (const name of hit) {
      const kinds = Object.keys(harms);
      const kind = kinds[Math.floor(random() * kinds.length)] as string;
      const harmed = harms[kind]?.(readFileSync(files[name]), random) ?? null;
      if (harmed === null) rmSync(files[name]);
      else writeFileSync(files[name], harmed);
      counts.hits[`${name} ${kind}`] = (counts.hits[`${name} ${kind}`] ?? 0) + 1;
    }
    counts.corruptions += 1;
    counts.confirmed += rows.length;
    examine(where, rows, Object.values(files), hit.join('+'), counts);
    rmSync(where, { recursive: true, force: true });
    options.onEach?.(counts);
  }
  return counts;
}

/** What stands before the text in a row: lengths, types and numbers, of which no row has more. */
const ROW_HEAD_BYTES = 60;

interface Written extends EventRow {
  /** its row as it lies in a page, and its line in the copy */
  bytes: Buffer[];
}

/** A journal in the middle of its work: part of it in the main file, the newest in the log. */
function write(dir: string): Written[] {
  const work = `${dir}-work`;
  mkdirSync(work, { recursive: true });
  const journal = openJournal(work);
  if (isProblem(journal)) throw new Error(journal.sentence);
  for (let seq = 1; seq <= ENTRIES; seq += 1) {
    const now = {
      wallMs: 1.77e12 + seq * 1000,
      upMs: seq * 1000,
      bootId: '3b0bd4b0-0000-4000-8000-000000000001',
    };
    journal.append([entryFor(seq, seq * 1000.5, now)]);
    if (seq === 70) journal.tidy();
  }
  cpSync(work, dir, { recursive: true });
  const rows = [...journal.rowsAfter(0)];
  journal.close();
  rmSync(work, { recursive: true });
  rmSync(join(dir, `${JOURNAL_FILE}-shm`), { force: true });
  const files = ['', '-wal'].map((suffix) => readFileSync(join(dir, JOURNAL_FILE + suffix)));
  return rows.map((row) => {
    // in a page the event, six bytes of checksum, the facts and the seal stand in one piece
    const sum = Buffer.alloc(6);
    sum.writeUIntBE(rowSum(row), 0, 6);
    const text = Buffer.concat([Buffer.from(row.event), sum, Buffer.from(row.facts + row.chain)]);
    const inPages = files.flatMap((file) => {
      const at = file.indexOf(text);
      return at < 0 ? [] : [Buffer.from(file.subarray(at - ROW_HEAD_BYTES, at + text.length))];
    });
    return { ...row, bytes: [...inPages, Buffer.from(`${JSON.stringify(row)}\n`)] };
  });
}

const contentOf = (row: EventRow): string => `${row.at_ms}|${row.event}|${row.facts}`;

function examine(
  where: string,
  rows: readonly Written[],
  files: readonly string[],
  hit: string,
  counts: CorruptionCounts,
): void {
  const left = files.filter((f) => existsSync(f)).map((f) => readFileSync(f));
  const intact = (row: Written): boolean => row.bytes.some((b) => left.some((bytes) => bytes.includes(b)));
  const began = performance.now();
  const journal = openJournal(where);
  counts.slowestStartMs = Math.max(counts.slowestStartMs, performance.now() - began);
  const wasIntact = rows.filter(intact);
  if (isProblem(journal)) {
    counts.refused += 1;
    counts.intactNotBack += wasIntact.length;
    counts.lost += rows.length;
    if (wasIntact.length > 0) counts.problems.push(`${hit}: ${journal.sentence}`);
    return;
  }
  const said = journal.takeNotes().join(' ');
  const back = [...journal.rowsAfter(0)];
  const kept = new Set(back.map(contentOf));
  const lost = rows.filter((row) => !kept.has(contentOf(row)));
  counts.lost += lost.length;
  const missed = lost.filter((row) => wasIntact.includes(row));
  counts.intactNotBack += missed.length;
  if (missed.length > 0)
    counts.problems.push(`${hit}: intact but not back: ${missed.map((r) => r.seq).join(' ')}; ${said}`);
  if (lost.length > 0 && said === '') {
    counts.silent += 1;
    counts.problems.push(`${hit}: ${lost.length} lost without a word`);
  }
  if (lost.length > 0 && /nothing is missing|nothing is lost/.test(said)) {
    counts.wrongly += 1;
    counts.problems.push(`${hit}: ${lost.length} lost, but: ${said}`);
  }
  const written = new Set(rows.map(contentOf));
  const report = checkJournal(journal.db, journal.path);
  if (back.some((row) => !written.has(contentOf(row))) || !report.sound) {
    counts.wrong += 1;
    counts.problems.push(`${hit}: ${report.findings.join(' ')}`);
  }
  journal.close();
}
