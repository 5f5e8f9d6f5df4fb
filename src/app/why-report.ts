import { execFile } from 'node:child_process';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { IntentOf } from '../process/intent.js';
import { answerWhy } from '../review/why/answer.js';
import { type EvidenceId, evidenceKinds, type Observed, observed } from '../review/why/evidence.js';
import type { AssistantState } from './assistant.js';
import { root } from './paths.js';
import { historyFrom } from './review-record.js';
import type { Session } from './session.js';
import { lawOf, runAskedAbout, whyAnswer } from './why.js';

/** Where the report of a run's review is kept, and, beside it, what scans of its film showed. */
export const whyFiles = (folder: string, runId: string | null): { report: string; scan: string } => {
  const name = join(folder, 'reports', `why-${(runId ?? 'scan').replace(/[^A-Za-z0-9-]/g, '')}`);
  return { report: `${name}.html`, scan: `${name}.json` };
};

interface Kept {
  id: EvidenceId;
  value: number;
  said: string;
}

/** Keeps what a scan showed, for questions that come later. A file that cannot be written is no loss: the report is. */
export function keepScanEvidence(file: string, seen: Observed): void {
  const kept: Kept[] = [...seen.values()].map(({ id, value, said }) => ({ id, value, said }));
  try {
    writeFileSync(file, JSON.stringify(kept));
  } catch {
    // the answer goes without the scan then
  }
}

/** What scans of a run's film showed; null: none was read, or the file is not one. */
export function keptScanEvidence(file: string): Observed | null {
  if (!existsSync(file)) return null;
  try {
    const kept = JSON.parse(readFileSync(file, 'utf8')) as Kept[];
    return new Map(
      kept
        .filter(({ id, value }) => Object.hasOwn(evidenceKinds, id) && Number.isFinite(value))
        .map(({ id, value, said }) => [id, observed(id, value, String(said))]),
    );
  } catch {
    return null;
  }
}

export interface ReportOptions {
  folder: string;
  /** the sheet as it was asked for at the start */
  sheet: string;
  /** something went wrong with the report: one sentence */
  said(sentence: string): void;
}

/**
 * Answers "why is it so green" from the journal and from what scans have shown, and has the report written by a
 * process of its own: plots take a second, and a timed call must not wait for them.
 */
export function whyWithReport(
  { journal, bench }: Pick<Session, 'journal' | 'bench'>,
  options: ReportOptions,
): (intent: IntentOf<'ask-why'>, state: AssistantState) => string {
  let writing = false;
  return (intent, state) => {
    const run = runAskedAbout(state, intent);
    if (!run) return whyAnswer(intent, state, bench.sheets);
    try {
      const history = historyFrom(journal, run, bench.sheets);
      const { report, scan } = whyFiles(options.folder, run.runId);
      const seen = keptScanEvidence(scan);
      const answer = answerWhy(history, seen, intent, lawOf(history));
      if (seen === null && !writing) {
        writing = true;
        write(run.runId, report, intent.cast, options, () => {
          writing = false;
        });
      }
      return answer.replace(/\.$/, `; the report is in ${report}.`);
    } catch {
      // a journal that cannot be read now, or a sheet that is not here
      return whyAnswer(intent, state, bench.sheets);
    }
  };
}

function write(
  runId: string,
  report: string,
  cast: string | undefined,
  { folder, sheet, said }: ReportOptions,
  done: () => void,
): void {
  const main = join(root, 'dist', 'app', 'main.js');
  const args = ['why', runId, '--data', folder, '--sheet', sheet, '--report', report];
  execFile(
    process.execPath,
    [main, ...args, ...(cast === undefined ? [] : ['--cast', cast])],
    { timeout: 60_000 },
    (error, _out, err) => {
      done();
      if (error) said(`The report was not written. ${err.trim() || error.message}`);
    },
  );
}
