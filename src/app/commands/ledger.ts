import { basename, dirname, join, resolve } from 'node:path';
import { type Command, Option } from 'commander';
import type { Journal } from '../../ledger/journal.js';
import type { JournalProblem, ProblemKind } from '../../ledger/problem.js';
import type { ProcessSheet } from '../../process/sheet.js';
import { exitCode, Refusal } from '../exit.js';
import { dataDir } from '../paths.js';
import { readText } from '../read-text.js';

export interface LedgerDeps {
  print?: (line: string) => void;
  sheets: () => readonly ProcessSheet[];
  /** the calendar, ms */
  now?: () => number;
}

interface DataOption {
  data?: string;
}

interface PlanOptions extends DataOption {
  json?: boolean;
  chart?: string;
}

/** The commands about the bottles' memory. They read beside a running tankside; import and restore need it closed. */
export function registerLedger(program: Command, deps: LedgerDeps): void {
  const print = deps.print ?? ((line: string) => console.log(line));
  const now = deps.now ?? Date.now;
  const command = (name: string, description: string): Command =>
    program.command(name).description(description).option('--data <folder>', 'where the journal is kept');

  command('bottles', 'what every bottle holds and can still do')
    .option('--json', 'as JSON')
    .action(async (options: DataOption & { json?: boolean }) => {
      const { bottlesJson, bottlesTable } = await import('../ledger-view.js');
      await reading(options, (journal) =>
        print(options.json ? bottlesJson(journal, now()) : bottlesTable(journal, now())),
      );
    });

  command('runs', 'the runs on record, newest first')
    .option('--search <words>', 'only runs with all of these words: film, note, deviation, spill …')
    .option('--limit <number>', 'at most so many', wholeNumber, 100)
    .addOption(new Option('--export <format>', 'print for other programs').choices(['csv', 'json']))
    .action(async (options: DataOption & { search?: string; limit: number; export?: 'csv' | 'json' }) => {
      const { runsCsv, runsJson } = await import('../../ledger/run-export.js');
      const { runsTable } = await import('../ledger-view.js');
      await reading(options, (journal) => {
        const filter = { limit: options.limit, ...(options.search ? { search: options.search } : {}) };
        const runs = journal.runs(filter);
        if (options.export === 'csv') print(runsCsv(runs).trimEnd());
        else if (options.export === 'json') print(runsJson(runs).trimEnd());
        else print(runsTable(runs));
      });
    });

  command('export', 'write the whole journal as text that import reads back without loss')
    .argument('<file>')
    .action(async (file: string, options: DataOption) => {
      const { exportJournal } = await import('../../ledger/exchange.js');
      await reading(options, (journal) =>
        print(`${done(exportJournal(journal, file))} entries written to ${file}.`),
      );
    });

  command('import', 'read a file written by export into an empty journal, or add what a journal lacks')
    .argument('<file>')
    .option('--sheet <id>', 'the process sheet it was written with', 'ecn2-ferricyanide')
    .option('--recompute', 'work out the facts anew from what was said, as for a file of an older tankside')
    .action(async (file: string, options: DataOption & { sheet: string; recompute?: boolean }) => {
      const { importJournal } = await import('../../ledger/exchange.js');
      const { replayCheck } = await import('../import-check.js');
      const { createBench } = await import('../bench.js');
      await writing(options, async (journal) => {
        const read = await importJournal(journal, file, (assumed) =>
          replayCheck(createBench({ sheet: options.sheet, assumed }).assistant, options.recompute ?? false),
        );
        print(`${done(read)} entries read from ${file}.`);
      });
    });

  command('backup', 'write the journal as one file that restore takes')
    .argument('<file>')
    .action(async (file: string, options: DataOption) => {
      const { backupJournal } = await import('../../ledger/backup.js');
      await reading(options, (journal) => {
        const bytes = done(backupJournal(journal, file));
        print(`Backed up to ${file} (${Math.ceil(bytes / 1024)} KiB).`);
      });
    });

  command(
    'restore',
    'put a backup or a salvaged copy in the place of the journal; the old one is moved aside',
  )
    .argument('<file>')
    .option('--salvage', 'take in what can be read of a harmed journal')
    .action(async (file: string, options: DataOption & { salvage?: boolean }) => {
      const { restoreJournal, restoredSentence, salvageJournal } = await import('../../ledger/backup.js');
      const { JOURNAL_FILE } = await import('../../ledger/journal.js');
      const path = join(dataDir(options.data), JOURNAL_FILE);
      print(
        options.salvage
          ? done(salvageJournal(file, path))
          : restoredSentence(done(restoreJournal(file, path))),
      );
    });

  command('plan-day', 'order several films over a day: time, baths and water, and where it breaks')
    .argument('<file>', 'JSON: {"films":[{"stock","format","count"}],"tank":{"volumeMl","holds":{"35mm":2}}}')
    .option('--json', 'the plan as JSON')
    .option('--chart <file.svg>', 'draw the day as a picture too, as SVG and PNG')
    .action(async (file: string, options: PlanOptions) => planDayCommand(file, options, deps, print, now));
}

async function planDayCommand(
  file: string,
  options: PlanOptions,
  deps: LedgerDeps,
  print: (line: string) => void,
  now: () => number,
): Promise<void> {
  const { readDay } = await import('../../ledger/plan/request.js');
  const { planDay } = await import('../../ledger/plan/plan-day.js');
  const { planText } = await import('../ledger-view.js');
  const midnight = new Date(now());
  midnight.setHours(0, 0, 0, 0);
  const request = readDay(
    readText(file, `The plan ${file} cannot be read. Check the path; it should be a JSON file.`),
    {
      bottles: await bottlesIfAny(options),
      sheets: deps.sheets(),
      midnightWallMs: midnight.getTime(),
      nowWallMs: now(),
    },
  );
  if ('problems' in request) throw new Refusal(`${file}: ${request.problems.join(' ')}`);
  const plan = planDay(request);
  print(options.json ? JSON.stringify(plan, null, 2) : planText(plan));
  if (!options.json && plan.runs.length > 0 && (options.chart || process.stdout.isTTY)) {
    const { dayRows } = await import('../../screen/pictures/rows.js');
    const { dayView } = await import('../screen-view.js');
    print(dayRows(dayView(plan, deps.sheets()), Math.min(100, process.stdout.columns ?? 80)));
  }
  if (options.chart) {
    const { keepPicture } = await import('../screen-pictures.js');
    const { dayView } = await import('../screen-view.js');
    const { daySvg } = await import('../../screen/pictures/bottles.js');
    const path = resolve(options.chart);
    const name = basename(path).replace(/\.svg$/, '');
    const kept = await keepPicture(dirname(path), name, daySvg(dayView(plan, deps.sheets())));
    if (!options.json) print(kept);
  }
  if (plan.breaks !== null) process.exitCode = exitCode.no;
}

/** A day can be planned before anything was ever journaled. */
async function bottlesIfAny(options: DataOption) {
  const { openJournal } = await import('../../ledger/journal.js');
  const { isProblem } = await import('../../ledger/problem.js');
  const journal = openJournal(dataDir(options.data), { readOnly: true });
  if (isProblem(journal)) {
    if (journal.problem === 'missing') return [];
    throw new Refusal(journal.sentence, exitCode.failed);
  }
  try {
    return journal.bottles();
  } finally {
    journal.close();
  }
}

async function reading(options: DataOption, work: (journal: Journal) => void): Promise<void> {
  await opened(options, true, async (journal) => work(journal));
}

async function writing(options: DataOption, work: (journal: Journal) => Promise<void>): Promise<void> {
  await opened(options, false, work);
}

async function opened(
  options: DataOption,
  readOnly: boolean,
  work: (journal: Journal) => Promise<void>,
): Promise<void> {
  const { openJournal } = await import('../../ledger/journal.js');
  const { isProblem } = await import('../../ledger/problem.js');
  const journal = openJournal(dataDir(options.data), { readOnly });
  if (isProblem(journal)) {
    if (journal.problem === 'missing')
      throw new Refusal(`Nothing is written down in ${dataDir(options.data)} yet. Start with: tankside run.`);
    throw new Refusal(journal.sentence, exitCode.failed);
  }
  try {
    await work(journal);
  } finally {
    journal.close();
  }
}

/** The result, or the problem's sentence as a refusal. */
function done<T>(result: T | JournalProblem): T {
  if (typeof result === 'object' && result !== null && 'problem' in result && 'sentence' in result)
    throw problemWith(result as JournalProblem);
  return result as T;
}

/** What is the matter with the file that was named, and not with the disk or the journal. */
const OF_THE_FILE: ReadonlySet<ProblemKind> = new Set([
  'missing',
  'already-there',
  'bad-file',
  'bad-entry',
  'not-a-journal',
]);

const problemWith = ({ problem, sentence }: JournalProblem): Refusal =>
  new Refusal(sentence, OF_THE_FILE.has(problem) ? exitCode.badInput : exitCode.failed);

function wholeNumber(text: string): number {
  const n = Number(text);
  if (!Number.isInteger(n) || n < 1) throw new Refusal(`“${text}” is not a whole number above 0.`);
  return n;
}
