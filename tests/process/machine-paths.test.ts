import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { getShortestPaths } from 'xstate/graph';
import { runDiagram } from '../../src/process/diagram.js';
import { createRunMachine, placeOf, type RunEvent } from '../../src/process/machine.js';
import { ecn2Ferricyanide } from '../../src/process/sheets/ecn2-ferricyanide.js';
import { freshFilm } from '../../src/world/film.js';
import { emptyWorld } from '../../src/world/reduce.js';

const world = emptyWorld();
const through = {
  ...world,
  film: {
    ...freshFilm,
    backing: 'off' as const,
    image: 'developed' as const,
    bleached: true,
    halide: false,
    finished: true,
    silver: false,
  },
};
const events: RunEvent[] = [
  { type: 'BEGIN', atMs: 0 },
  { type: 'NEXT' },
  { type: 'LOADED' },
  { type: 'FILLED', atMs: 1 },
  { type: 'DRAIN', atMs: 2 },
  { type: 'CALLED', calls: ['drain'], atMs: 2 },
  { type: 'CALLED', calls: ['agitate'], atMs: 2 },
  { type: 'FILM_MOVED_ON', world: { ...world, film: freshFilm } },
  { type: 'FILM_MOVED_ON', world: through },
  { type: 'HUNG' },
  { type: 'CLOSE' },
];
const machine = createRunMachine(ecn2Ferricyanide);
const paths = getShortestPaths(machine, {
  events,
  serializeState: (s) => placeOf(s as never),
  limit: 10_000,
});

it('reaches every place of the run, and has a way to the end from each', () => {
  const reached = paths.map((p) => placeOf(p.state as never));
  expect(new Set(reached)).toEqual(
    new Set([
      'idle',
      'preparing',
      'warming',
      'loading',
      'pouring',
      'immersed',
      'draining',
      'hanging',
      'closing',
      'closed',
    ]),
  );
  for (const { state } of paths) {
    if (placeOf(state as never) === 'idle') continue;
    const onward = getShortestPaths(machine, {
      events,
      fromState: state,
      serializeState: (s) => placeOf(s as never),
    });
    expect(
      onward.some((p) => placeOf(p.state as never) === 'closed'),
      placeOf(state as never),
    ).toBe(true);
  }
});

it('hangs the film only when every bath is behind it', () => {
  const hanging = paths.find((p) => placeOf(p.state as never) === 'hanging');
  expect(hanging?.steps.at(-1)?.event).toMatchObject({ type: 'FILM_MOVED_ON', world: through });
});

it('is drawn in docs/run.md as it is', () => {
  const doc = readFileSync(join(import.meta.dirname, '../../docs/run.md'), 'utf8');
  expect(/```mermaid\n([\s\S]*?)```/.exec(doc)?.[1]).toBe(runDiagram(ecn2Ferricyanide));
});
