import type { Truth } from '../../src/process/desk.js';
import type { Fact } from '../../src/world/fact.js';
import type { World } from '../../src/world/records.js';
import { emptyWorld, fold } from '../../src/world/reduce.js';

/** What is true at the sink while a desk is tried alone: facts told to it are folded at its moment, and kept. */
export interface TestTruth extends Truth {
  world: World;
  atMs: number;
  wallMs: number;
  /** every fact told, in order */
  readonly facts: Fact[];
  /** the facts told since this was asked last */
  news(): Fact[];
  /** at another moment */
  at(moment: { atMs: number; wallMs: number }): TestTruth;
}

export function truthOf(world: World = emptyWorld(), facts: readonly Fact[] = []): TestTruth {
  let seen = 0;
  const truth: TestTruth = {
    world,
    atMs: 0,
    wallMs: 0,
    facts: [],
    tell(fact) {
      const { atMs, wallMs } = truth;
      truth.world = fold(truth.world, { fact, atMs, wallMs });
      truth.facts.push(fact);
    },
    news() {
      const news = truth.facts.slice(seen);
      seen = truth.facts.length;
      return news;
    },
    at({ atMs, wallMs }) {
      truth.atMs = atMs;
      truth.wallMs = wallMs;
      return truth;
    },
  };
  for (const fact of facts) truth.tell(fact);
  truth.news();
  return truth;
}
