import type { Journal } from '../ledger/journal.js';
import { emptyLedger, surviving } from '../ledger/state.js';
import type { ProcessSheet } from '../process/sheet.js';
import { type BatchRecord, historyOf } from '../review/record/from-run-record.js';
import type { RunHistory } from '../review/record/history.js';
import type { BottleRecord, RunRecord } from '../world/records.js';
import { fold } from '../world/reduce.js';
import { Refusal } from './exit.js';

/** The run asked for, or the newest. @throws Refusal when there is none */
export function runAsked(journal: Journal, id: string | undefined): RunRecord {
  const [newest] = journal.runs({ limit: 1 });
  const run = id === undefined ? newest : journal.run(id);
  if (run) return run;
  if (id === undefined) throw new Refusal('No run is on record yet. Start one with: tankside run.');
  const known = journal.runs({ limit: 5 }).map((r) => r.runId);
  throw new Refusal(
    `There is no run “${id}”. The newest are ${known.join(', ') || 'none'}; tankside runs lists all.`,
  );
}

/**
 * A run with its bottles as they were when each bath was poured, and the batches as they were weighed: the journal's
 * facts that no undo took back are folded once more up to each pour.
 */
export function historyFrom(journal: Journal, run: RunRecord, sheets: readonly ProcessSheet[]): RunHistory {
  const sheet = sheets.find((s) => s.id === run.sheetId);
  if (!sheet)
    throw new Refusal(
      `The run followed the process sheet ${run.sheetId}, which is not known here. Name its file: --sheet FILE.json.`,
    );
  const pours = run.pours
    .filter((p) => p.to.kind === 'tank' && p.from.kind === 'bottle')
    .map((p) => p.wallMs);
  const before = new Map<number, Record<number, BottleRecord>>();
  const batches = new Map<string, BatchRecord>();
  let { bench } = emptyLedger(journal.assumed);
  let next = 0;
  for (const dated of surviving(journal.facts())) {
    while (next < pours.length && dated.wallMs >= (pours[next] as number)) {
      before.set(pours[next] as number, bench.bottles);
      next++;
    }
    const { fact } = dated;
    if (fact.type === 'shelf-used') {
      const made = batches.get(fact.batch) ?? {
        batch: fact.batch,
        recipe: '',
        volumeMl: 0,
        ph: null,
        used: [],
      };
      batches.set(fact.batch, {
        ...made,
        used: [...made.used, { substance: fact.substance, massG: fact.massG * (fact.purity ?? 1) }],
      });
    }
    if (fact.type === 'mixed') {
      const { batch, recipe, volumeMl } = fact;
      const made = batches.get(batch);
      batches.set(batch, { batch, recipe, volumeMl, ph: fact.ph ?? null, used: made?.used ?? [] });
    }
    if (fact.type !== 'undone') bench = fold(bench, dated);
  }
  return historyOf(run, {
    sheet,
    bottleBefore: (number, wallMs) => (before.get(wallMs) ?? bench.bottles)[number] ?? null,
    batches: [...batches.values()].filter((b) => b.recipe !== ''),
    calledMs: journal.calledMs(run.runId, run.endedWallMs ?? Number.MAX_SAFE_INTEGER),
  });
}
