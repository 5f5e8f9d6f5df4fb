import { bottlesOf } from '../../src/process/bottles.js';
import type { GuardView } from '../../src/process/guard.js';
import { roleOf } from '../../src/process/sheet.js';
import { ecn2Ferricyanide as sheet } from '../../src/process/sheets/ecn2-ferricyanide.js';
import { fresh } from '../../src/world/contents.js';
import type { Fact } from '../../src/world/fact.js';
import { expose, type FilmState, freshFilm } from '../../src/world/film.js';
import type { World } from '../../src/world/records.js';
import type { VesselRef } from '../../src/world/vessel.js';
import { truthOf } from './truth.js';

export { ecn2Ferricyanide as sheet } from '../../src/process/sheets/ecn2-ferricyanide.js';

export const bottle = (number: number): VesselRef => ({ kind: 'bottle', number });
export const tank: VesselRef = { kind: 'tank' };
export const jug: VesselRef = { kind: 'jug' };
export const tap: VesselRef = { kind: 'tap' };
export const sinkhole: VesselRef = { kind: 'sink' };

export const holds = (number: number, liquid: string | null, volumeMl: number, capacityMl = 2000): Fact => ({
  type: 'bottle-set',
  bottle: number,
  liquid,
  volumeMl,
  capacityMl,
});

/** Bottles 1 to 6 hold half a litre each of the sheet's six baths, and whatever else has happened since. */
export const sinkOf = (...facts: Fact[]): World => {
  const full = bottlesOf(sheet, { bottleVolumeMl: 500, bottleCapacityMl: 2000 });
  return truthOf(undefined, [...full.map((b): Fact => ({ type: 'bottle-set', ...b })), ...facts]).world;
};
export const withJugs = (world: World, ...liquids: string[]): World => ({
  ...world,
  jugs: Object.fromEntries(liquids.map((l) => [l, fresh(l, 450)])),
});
export const inTank = (
  world: World,
  liquid: string,
  filmBefore: FilmState = freshFilm,
  volumeMl = 480,
): World => ({
  ...world,
  tank: {
    ...fresh(liquid, volumeMl),
    bath: {
      liquid,
      role: roleOf(sheet, liquid) ?? 'water',
      stepId: null,
      sinceMs: 0,
      filmBefore,
      inferred: false,
      wantedS: null,
      from: { kind: 'jug' },
      readings: [],
    },
  },
});
/** Backing off and washed: the developer is due. */
export const readyFilm: FilmState = (['backing-remover', 'water'] as const).reduce<FilmState>(
  (film, role) => expose(film, { role, seconds: 60 }),
  freshFilm,
);
export const viewOf = (world: World, more: Partial<GuardView> = {}): GuardView => ({
  sheet,
  film: readyFilm,
  filmKnown: true,
  world,
  tankMl: 500,
  funnelMl: 1000,
  atMs: 0,
  wallMs: 0,
  earlyS: null,
  ...more,
});
