import type { IntentOf } from '../process/intent.js';
import type { ProcessSheet } from '../process/sheet.js';
import { historyOf, runAreaM2 } from '../review/record/from-run-record.js';
import type { RunHistory } from '../review/record/history.js';
import { answerWhy } from '../review/why/answer.js';
import { type RateLaw, rateLaws } from '../thermal/rate-data.js';
import { asAt } from '../world/contamination.js';
import type { BottleRecord, RunRecord, World } from '../world/records.js';
import { newestRun } from '../world/run-record.js';
import type { AssistantState } from './assistant.js';
import { localDate } from './local-date.js';

/** The law of development a review reasons with: the sheet's own, or that of a colour developer. */
export const lawOf = (history: RunHistory | null): RateLaw => rateLaws[history?.rate ?? 'ecn-2'];

/** The run that goes on, or the last one; that of a film told by its place, of those of its day. null: none is known. */
export function runAskedAbout({ world }: AssistantState, { film }: IntentOf<'ask-why'>): RunRecord | null {
  const newest = newestRun(world) ?? null;
  return film === undefined || newest === null ? newest : (filmsOfDay(world, newest)[film - 1] ?? null);
}

/** The run of each film that was in the process on the day of one, in order. */
const filmsOfDay = ({ runs }: World, { startedWallMs }: RunRecord): RunRecord[] =>
  Object.values(runs)
    .filter((run) => localDate(run.startedWallMs) === localDate(startedWallMs))
    .sort((a, b) => a.startedAtMs - b.startedAtMs)
    .flatMap((run) =>
      Array(
        Math.max(
          1,
          run.films.reduce((n, { count = 1 }) => n + count, 0),
        ),
      ).fill(run),
    );

/** "Why is it so green?" in two sentences, from what the world holds now: where there is no journal to look into. */
export function whyAnswer(
  intent: IntentOf<'ask-why'>,
  state: AssistantState,
  sheets: readonly ProcessSheet[],
): string {
  const run = runAskedAbout(state, intent);
  const newest = newestRun(state.world);
  if (!run && newest) {
    const films = filmsOfDay(state.world, newest).length;
    return `By my record there ${films === 1 ? 'was one film' : `were ${films} films`} that day, so I know nothing of that one. Say what went wrong, for the last.`;
  }
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

/** A bottle's present record less the work this very run has added to it, and what got into it since; null: it was filled anew. */
const asBefore =
  (world: World, run: RunRecord) =>
  (number: number, wallMs: number): BottleRecord | null => {
    const now = world.bottles[number];
    if (!now || (now.filledWallMs ?? wallMs) > wallMs) return null;
    const bottle = asAt(now, wallMs);
    const added = bottle.liquid !== null && run.worked.includes(bottle.liquid) ? runAreaM2(run) : 0;
    const workM2 = Math.max(0, bottle.contents.workM2 - added);
    return { ...bottle, contents: { ...bottle.contents, workM2 } };
  };
