import type { IntentOf } from '../process/intent.js';
import type { ProcessSheet } from '../process/sheet.js';
import { historyOf, runAreaM2 } from '../review/record/from-run-record.js';
import type { RunHistory } from '../review/record/history.js';
import { answerWhy } from '../review/why/answer.js';
import { type RateLaw, rateLaws } from '../thermal/rate-data.js';
import type { RunRecord, World } from '../world/records.js';
import { newestRun } from '../world/run-record.js';
import type { AssistantState } from './assistant.js';

/** The law of development a review reasons with: the sheet's own, or that of a colour developer. */
export const lawOf = (history: RunHistory | null): RateLaw => rateLaws[history?.rate ?? 'ecn-2'];

/** The run that goes on, or the last one; null: none is known. */
export const runAskedAbout = ({ world }: AssistantState): RunRecord | null => newestRun(world) ?? null;

/** "Why is it so green?" in two sentences, from what the world holds now: where there is no journal to look into. */
export function whyAnswer(
  intent: IntentOf<'ask-why'>,
  state: AssistantState,
  sheets: readonly ProcessSheet[],
): string {
  const run = runAskedAbout(state);
  if (!run)
    return 'No run is on record yet. Ask again after one, or read a scan with: tankside why --scan FILE.';
  const sheet = sheets.find((s) => s.id === run.sheetId);
  if (!sheet)
    return `The process sheet ${run.sheetId} of that run is not here. Start with it, and ask again.`;
  const history = historyOf(run, {
    sheet,
    bottleBefore: asBefore(state.world, run),
    batches: [],
    calledMs: null,
  });
  return answerWhy(history, null, intent, lawOf(history));
}

/** A bottle's present record less the work this very run has added to it. */
const asBefore =
  (world: World, run: RunRecord) =>
  (number: number): World['bottles'][number] | null => {
    const bottle = world.bottles[number];
    if (!bottle) return null;
    const added = bottle.liquid !== null && run.worked.includes(bottle.liquid) ? runAreaM2(run) : 0;
    const workM2 = Math.max(0, bottle.contents.workM2 - added);
    return { ...bottle, contents: { ...bottle.contents, workM2 } };
  };
