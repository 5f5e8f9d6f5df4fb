import type { Bottle } from '../process/bottles.js';
import type { Fact } from '../world/fact.js';
import type { DatedFact, World } from '../world/records.js';
import { emptyWorld, fold } from '../world/reduce.js';
import { applyToRun } from '../world/run-record.js';

/**
 * The ledger as a fold over facts. An undone deed must leave no trace in any volume, so the last facts are kept
 * beside the bench as it was before them: to undo is to fold again without the facts taken back.
 */
export interface LedgerState {
  /** the bench before `recent` */
  base: World;
  recent: DatedFact[];
  /** the bench now */
  bench: World;
}

/** How many facts back an undo can reach. */
export const UNDO_WINDOW = 400;

export type AssumedBottle = Bottle;

/** A bench before the first fact, with the bottles that are taken for granted until someone says what they hold. */
export function emptyLedger(assumed: readonly AssumedBottle[] = []): LedgerState {
  let bench = emptyWorld();
  for (const bottle of assumed) {
    bench = fold(bench, { fact: { type: 'bottle-set', ...bottle }, atMs: 0, wallMs: 0 });
    const record = bench.bottles[bottle.bottle];
    if (record !== undefined) bench.bottles[bottle.bottle] = { ...record, assumed: true, filledWallMs: null };
  }
  return { base: bench, recent: [], bench };
}

export const ledgerFrom = (base: World, facts: Iterable<DatedFact>): LedgerState => {
  let state: LedgerState = { base, recent: [], bench: base };
  for (const fact of facts) state = addFact(state, fact);
  return state;
};

/** The ledger with one more fact. Pure. */
export function addFact(state: LedgerState, dated: DatedFact): LedgerState {
  if (dated.fact.type === 'undone') return takeBack(state, dated, dated.fact.facts);
  const recent = [...state.recent, dated];
  const oldest = recent.length > UNDO_WINDOW ? recent.shift() : undefined;
  const base = oldest === undefined ? state.base : step(state.base, oldest);
  return { base, recent, bench: step(state.bench, dated) };
}

/** Recent facts may include an `undone` marker, which only leaves a line in its run's record. */
const step = (bench: World, dated: DatedFact): World =>
  dated.fact.type === 'undone' ? applyToRun(bench, dated) : fold(bench, dated);

function takeBack(state: LedgerState, marker: DatedFact, facts: readonly Fact[]): LedgerState {
  const recent = [...state.recent];
  takeOut(recent, facts);
  recent.push(marker);
  let base = state.base;
  while (recent.length > UNDO_WINDOW) base = step(base, recent.shift() as DatedFact);
  return { base, recent, bench: recent.reduce(step, base) };
}

/** Takes the newest of each fact out of a list, no further back than an undo reaches. */
function takeOut(dated: DatedFact[], facts: readonly Fact[]): void {
  for (const fact of facts.toReversed()) {
    const wanted = JSON.stringify(fact);
    const oldest = dated.length - UNDO_WINDOW;
    const index = dated.findLastIndex((one, i) => i >= oldest && JSON.stringify(one.fact) === wanted);
    if (index >= 0) dated.splice(index, 1);
  }
}

/** The facts that no undo took back, in their order; each undo leaves its marker among them. */
export function surviving(facts: Iterable<DatedFact>): DatedFact[] {
  const kept: DatedFact[] = [];
  for (const dated of facts) {
    if (dated.fact.type === 'undone') takeOut(kept, dated.fact.facts);
    kept.push(dated);
  }
  return kept;
}

/** ml by which the account is out; 0 within rounding, always. */
export function imbalanceMl(bench: World): number {
  const held =
    Object.values(bench.bottles).reduce((sum, bottle) => sum + bottle.contents.volumeMl, 0) +
    bench.tank.volumeMl +
    Object.values(bench.jugs).reduce((sum, jug) => sum + jug.volumeMl, 0);
  const { broughtMl, foundMl, spilledMl, drainedMl, lostMl } = bench.account;
  return held - (broughtMl + foundMl - spilledMl - drainedMl - lostMl);
}
