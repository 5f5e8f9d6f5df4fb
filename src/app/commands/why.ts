import { existsSync, writeFileSync } from 'node:fs';
import { basename, resolve } from 'node:path';
import type { Command } from 'commander';
import { makeFolderOf } from '../../ledger/folders.js';
import type { RunHistory } from '../../review/record/history.js';
import type { FrameReading, ScanFindings } from '../../review/scan/reading.js';
import { exitCode, Refusal } from '../exit.js';
import { dataDir } from '../paths.js';
import { type MarkOptions, withMarks } from './positive.js';

interface WhyOptions extends MarkOptions {
  scan?: string[];
  data?: string;
  sheet: string;
  cast?: string;
  report?: string;
  json?: boolean;
}

const looks = ['green', 'magenta', 'red', 'cyan', 'blue', 'yellow', 'orange', 'dark', 'light', 'flat'];

export function registerWhy(program: Command): void {
  withMarks(
    program
      .command('why')
      .description(
        'why the picture is off: causes from a run’s record and scans, and a report as one HTML file',
      )
      .argument('[run]', 'a run’s id, as tankside runs lists them; the newest when left out'),
  )
    .option('--scan <file...>', 'scans of its negatives (PNG, JPEG, TIFF) or folders of them')
    .option('--cast <look>', `what you see: ${looks.join(', ')}`)
    .option('--report <file>', 'where the report goes; beside the journal otherwise')
    .option('--sheet <id>', 'process sheet, when it is one of your own (JSON)', 'ecn2-ferricyanide')
    .option('--data <folder>', 'where the journal is kept')
    .option('--json', 'the verdict as JSON, and no report')
    .action(async (run: string | undefined, options: WhyOptions) => why(run, options));
}

async function why(runId: string | undefined, options: WhyOptions): Promise<void> {
  if (options.cast && !looks.includes(options.cast))
    throw new Refusal(
      `“${options.cast}” is not a look that can be weighed. Choose one of ${looks.join(', ')}.`,
    );
  const history = await historyIf(runId, options);
  const scanned = options.scan ? await readScans(options.scan, options) : null;
  const { allEvidence, answerWhy } = await import('../../review/why/answer.js');
  const { rankCauses } = await import('../../review/why/rank.js');
  const { scanEvidence } = await import('../../review/scan/scan-evidence.js');
  const { lawOf } = await import('../why.js');
  const { keepScanEvidence, keptScanEvidence, whyFiles } = await import('../why-report.js');
  const law = lawOf(history);
  const files = whyFiles(dataDir(options.data), history?.runId ?? null);
  // what is no negative says nothing of one
  const seen = scanned?.findings.positive
    ? null
    : scanned
      ? scanEvidence(scanned.findings)
      : history && keptScanEvidence(files.scan);
  const question = options.cast ? { cast: options.cast } : {};
  const verdict = rankCauses(allEvidence(history, seen, law, options.cast));
  if (options.json) {
    console.log(JSON.stringify({ verdict, findings: scanned?.findings ?? null }, null, 2));
    return;
  }
  const cause = answerWhy(history, seen, question, law);
  const change = answerWhy(history, seen, { ...question, about: 'change' }, law);
  for (const warning of [...(scanned?.notes ?? []), ...(scanned?.findings.warnings ?? [])])
    console.log(warning);
  console.log(cause);
  console.log(change);

  const { deviationsOf } = await import('../../review/why/deviations.js');
  const { reportHtml } = await import('../../review/report/report.js');
  const html = reportHtml({
    history,
    deviations: history ? deviationsOf(history, law) : [],
    verdict,
    cause,
    change,
    findings: scanned?.findings ?? null,
    frames: scanned ? await scanned.pictures() : [],
    notes: scanned?.notes ?? [],
  });
  const path = options.report ?? files.report;
  try {
    makeFolderOf(resolve(path));
    writeFileSync(path, html);
  } catch (error) {
    throw new Refusal(
      `The report cannot be written to ${path} (${error instanceof Error ? error.message : error}).`,
      exitCode.failed,
    );
  }
  if (history && scanned && seen) keepScanEvidence(files.scan, seen);
  console.log(`The report is in ${path}.`);
}

/** The run's history; null when only scans were given and nothing is on record. */
async function historyIf(runId: string | undefined, options: WhyOptions): Promise<RunHistory | null> {
  const { openJournal } = await import('../../ledger/journal.js');
  const { isProblem } = await import('../../ledger/problem.js');
  const { sheetsFor } = await import('../bench.js');
  const { historyFrom, runAsked } = await import('../review-record.js');
  const journal = openJournal(dataDir(options.data), { readOnly: true });
  if (isProblem(journal)) {
    if (journal.problem !== 'missing') throw new Refusal(journal.sentence, exitCode.failed);
    if (options.scan && runId === undefined) return null;
    throw new Refusal(
      `Nothing is written down in ${dataDir(options.data)} yet. Give a scan, tankside why --scan FILE, or run first.`,
    );
  }
  try {
    if (options.scan && runId === undefined && journal.runs({ limit: 1 }).length === 0) return null;
    return historyFrom(journal, runAsked(journal, runId), sheetsFor(options.sheet));
  } finally {
    journal.close();
  }
}

/** Frames to judge by, and those shown in the report. */
const MOST_READ = 24;
const MOST_SHOWN = 4;

interface Scanned {
  findings: ScanFindings;
  notes: string[];
  pictures(): Promise<import('../../review/report/report.js').ReportFrame[]>;
}

async function readScans(given: string[], options: WhyOptions): Promise<Scanned> {
  const { inputsOf, readRoll } = await import('../review-roll.js');
  const { findingsOf } = await import('../../review/scan/reading.js');
  for (const path of given)
    if (!existsSync(path)) throw new Refusal(`${path} does not exist. Check the path.`);
  const { frames, read, notes } = await readRoll(
    inputsOf(given),
    {
      ...(options.base ? { base: options.base } : {}),
      ...(options.light ? { light: options.light } : {}),
      ...(options.grey.length > 0 ? { patches: options.grey } : {}),
    },
    { most: MOST_READ, ...(options.transfer ? { transfer: options.transfer } : {}) },
  );
  const findings = findingsOf(frames);
  return { findings, notes, pictures: () => picturesOf(read, frames, findings, options) };
}

async function picturesOf(
  read: readonly string[],
  frames: readonly FrameReading[],
  findings: ScanFindings,
  options: WhyOptions,
): Promise<import('../../review/report/report.js').ReportFrame[]> {
  const { applyTables, lookOf, positiveTables } = await import('../../review/positive/look.js');
  const { densitiesOf } = await import('../../review/report/report.js');
  const { openImage, readSmall, thumbnail } = await import('../review-images.js');
  const look = lookOf(findings, frames, { tone: 'print' });
  const shown = read.slice(0, MOST_SHOWN);
  return Promise.all(
    shown.map(async (path, i) => {
      const { scan } = await readSmall(await openImage(path, options.transfer));
      const out = new Uint16Array(scan.data.length);
      if (look) applyTables(scan.data, positiveTables(look, scan.codes, scan.transfer), out);
      return {
        name: basename(path),
        negative: await thumbnail(scan.data, scan, 520),
        positive: look ? await thumbnail(out, scan, 520) : null,
        densities: densitiesOf(frames[i] as FrameReading, findings.base.scanned),
      };
    }),
  );
}
