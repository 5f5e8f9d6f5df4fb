import { describe, expect, it } from 'vitest';
import { DROP_ML, fresh, NOTHING } from '../../src/world/contents.js';
import type { Fact, FilmRef } from '../../src/world/fact.js';
import { expose, freshFilm, motionPictureFilm, noFilm } from '../../src/world/film.js';
import { filmAreaM2 } from '../../src/world/film-area.js';
import type { BottleRecord, World } from '../../src/world/records.js';
import { contactOf, emptyWorld, filmNow, filmsIn, fold } from '../../src/world/reduce.js';
import { KEPT_OF_A_RUN } from '../../src/world/run-record.js';
import type { VesselRef } from '../../src/world/vessel.js';
import { bottlesFor, contentsOf, jugsOf, readingOf, volumeOf, withWork } from '../../src/world/vessels.js';

type Poured = Extract<Fact, { type: 'poured' }>;
type BottleSet = Extract<Fact, { type: 'bottle-set' }>;

const bottle = (number: number): VesselRef => ({ kind: 'bottle', number });
const tank: VesselRef = { kind: 'tank' };
const jug: VesselRef = { kind: 'jug' };
const tap: VesselRef = { kind: 'tap' };
const sink: VesselRef = { kind: 'sink' };
const tub: VesselRef = { kind: 'tub' };
const pour = (from: VesselRef, to: VesselRef, volumeMl: number, more: Partial<Poured> = {}): Fact => ({
  type: 'poured',
  from,
  to,
  liquid: 'developer',
  volumeMl,
  overridden: false,
  ...more,
});
const holds = (
  number: number,
  liquid: string | null,
  volumeMl: number,
  more: Partial<BottleSet> = {},
): Fact => ({
  type: 'bottle-set',
  bottle: number,
  liquid,
  volumeMl,
  capacityMl: 1000,
  ...more,
});
const film: FilmRef = { stock: 'day film', format: '35mm', count: 2, lengthM: 1 };
const run: Fact = { type: 'run-started', runId: 'r', sheetId: 's', tankMl: 500, films: [film] };
const loaded: Fact = { type: 'film-loaded', runId: 'r' };
const area = filmAreaM2(film);

/** A fact at a second on the bench clock; the calendar is ten seconds further. */
type At = Fact | readonly [fact: Fact, atS: number];
const told = (facts: readonly At[], from: World = emptyWorld()): World =>
  facts.reduce<World>((world, one) => {
    const [fact, atS] = 'type' in one ? [one, 0] : one;
    return fold(world, { fact, atMs: atS * 1000, wallMs: atS * 1000 + 10_000 });
  }, from);
const record = (world: World, number = 2): BottleRecord => {
  const found = world.bottles[number];
  if (!found) throw new Error(`expected a bottle ${number}`);
  return found;
};
const unused = {
  doubt: null,
  doubtOf: null,
  name: null,
  assumed: false,
  volumeAssumed: false,
  capacityMl: 1000,
  capacityTold: false,
  batch: null,
  recipe: null,
  ph: null,
  filledWallMs: 10_000,
  mixedWallMs: null,
  pouredOutMl: 0,
  pouredInMl: 0,
  replenishedMl: 0,
  spilledMl: 0,
  lostMl: 0,
  runs: 0,
  filmAreaM2: 0,
  films: {},
  contaminations: [],
  problems: [],
  discardedWallMs: null,
};

describe('a world in which nothing happened', () => {
  it('holds nothing and knows nothing', () => {
    expect(emptyWorld()).toEqual({
      bottles: {},
      tank: { ...NOTHING, bath: null },
      tankKey: '1',
      tanksAside: {},
      handling: {},
      tankMl: null,
      jugs: {},
      film: noFilm,
      filmKnown: false,
      films: [],
      readings: {},
      doubts: {},
      run: null,
      runs: {},
      shelf: {},
      account: { broughtMl: 0, foundMl: 0, spilledMl: 0, drainedMl: 0, lostMl: 0 },
    });
    expect(noFilm).toEqual({
      loaded: false,
      kind: { backing: true, image: 'dye' },
      backing: 'on',
      image: 'latent',
      silver: false,
      halide: true,
      bleached: false,
      finished: false,
      developedS: 0,
      carry: null,
      washS: 0,
      washFills: 0,
      history: [],
      skipped: [],
    });
  });
  it('is not changed by words, overrides or deviations outside a run', () => {
    const words: Fact[] = [
      { type: 'note', text: 'cold in here' },
      { type: 'overridden', move: 'm', verdict: 'ruinous', why: 'w' },
      { type: 'deviation', runId: 'r', stepId: 's', what: 'w' },
    ];
    expect(told(words)).toEqual(emptyWorld());
  });
});

describe('what is told of a bottle', () => {
  it('is its whole record: a new filling at that moment', () => {
    const world = told([holds(2, 'developer', 600)]);
    expect(record(world)).toEqual({
      ...unused,
      number: 2,
      liquid: 'developer',
      contents: fresh('developer', 600),
    });
    expect(world.account).toEqual({ broughtMl: 600, foundMl: 0, spilledMl: 0, drainedMl: 0, lostMl: 0 });
  });
  it('taken for granted has no date', () => {
    expect(record(told([holds(2, 'developer', 600, { assumed: true })]))).toMatchObject({
      assumed: true,
      filledWallMs: null,
    });
  });
  it('nothing in it is no filling, and what stood there is gone', () => {
    const world = told([holds(2, 'developer', 600), [holds(2, null, 300), 5]]);
    expect(record(world)).toEqual({
      ...unused,
      number: 2,
      liquid: null,
      contents: NOTHING,
      filledWallMs: null,
    });
    expect(world.account).toMatchObject({ broughtMl: 600, lostMl: 600 });
  });
  it('another liquid or another batch is a new filling; the same liquid is a measurement', () => {
    const before: At[] = [holds(2, 'developer', 600, { batch: 'A' })];
    const other = told([...before, [holds(2, 'stop', 500), 5]]);
    expect(record(other)).toMatchObject({ liquid: 'stop', batch: null, filledWallMs: 15_000 });
    expect(other.account).toMatchObject({ broughtMl: 1100, lostMl: 600, foundMl: 0 });
    const batch = told([...before, [holds(2, 'developer', 500, { batch: 'B' }), 5]]);
    expect(record(batch)).toMatchObject({ batch: 'B', filledWallMs: 15_000, lostMl: 0 });
    expect(batch.account).toMatchObject({ broughtMl: 1100, lostMl: 600 });
    const same = told([...before, [holds(2, 'developer', 500), 5]]);
    expect(record(same)).toMatchObject({ batch: 'A', filledWallMs: 10_000, lostMl: 100 });
    expect(same.account).toMatchObject({ broughtMl: 600, lostMl: 100, foundMl: 0 });
    const named = told([holds(2, 'developer', 600), [holds(2, 'developer', 600, { batch: 'B' }), 5]]);
    expect(record(named)).toMatchObject({ batch: 'B', filledWallMs: 10_000 });
  });
  it('more of the same is found there, fresh; less has evaporated and leaves its work behind', () => {
    const used: World = told([holds(2, 'developer', 500)]);
    const worked = {
      ...used,
      bottles: { 2: { ...record(used), contents: { ...fresh('developer', 500), workM2: 0.2 } } },
    };
    const more = told([[holds(2, 'developer', 560), 5]], worked);
    expect(record(more)).toMatchObject({
      lostMl: 0,
      contents: { volumeMl: 560, parts: { developer: 560 }, workM2: 0.2 },
    });
    expect(more.account).toMatchObject({ foundMl: 60, lostMl: 0 });
    const little = told([[holds(2, 'developer', 500.5), 5]], worked);
    expect(record(little).contents.volumeMl).toBe(500.5);
    expect(little.account).toMatchObject({ foundMl: 0.5, lostMl: 0 });
    const less = told([[holds(2, 'developer', 450), 5]], worked);
    expect(record(less).lostMl).toBeCloseTo(50, 9);
    expect(record(less).contents.volumeMl).toBeCloseTo(450, 9);
    expect(record(less).contents.workM2).toBeCloseTo(0.2, 12);
    expect(less.account.lostMl).toBeCloseTo(50, 9);
    expect(record(less).volumeAssumed).toBe(false);
    expect(
      record(told([[holds(2, 'developer', 450, { volumeAssumed: true }), 5]], worked)).volumeAssumed,
    ).toBe(true);
    const again = told([[holds(2, 'developer', 400), 6]], less);
    expect(record(again).lostMl).toBeCloseTo(100, 9);
    const alike = told([[holds(2, 'developer', 500), 5]], worked);
    expect(record(alike).contents).toEqual(record(worked).contents);
    expect(alike.account).toEqual(worked.account);
  });
  it('keeps what it takes when that is not said, and remembers that it was told', () => {
    const known = told([
      holds(2, 'developer', 600, { capacityTold: true }),
      [holds(2, 'stop', 500, { capacityMl: 0 }), 5],
    ]);
    expect(record(known)).toMatchObject({ capacityMl: 1000, capacityTold: true });
    const measured = told([[holds(2, 'stop', 480, { capacityMl: 0 }), 6]], known);
    expect(record(measured)).toMatchObject({ capacityMl: 1000, capacityTold: true });
    expect(record(told([[holds(2, 'stop', 480, { capacityMl: 1 }), 6]], known)).capacityMl).toBe(1);
  });
  it('less than nothing is nothing', () => {
    expect(record(told([holds(2, 'developer', -5)])).contents).toEqual(NOTHING);
    expect(told([holds(2, 'developer', -5)]).account.broughtMl).toBe(0);
  });
  it('what may be in it goes with the doubt of that, and belongs to no later one', () => {
    const open: Fact = { type: 'bottle-doubted', bottle: 2, doubt: 'unanswered', of: 'fixer' };
    const asked = told([holds(2, 'developer', 600), open]);
    expect(record(asked)).toMatchObject({ doubt: 'unanswered', doubtOf: 'fixer' });
    const told480 = told([holds(2, 'developer', 480)], asked);
    expect(record(told480)).toMatchObject({ doubt: null, doubtOf: null });
    const off: Fact = { type: 'bottle-ph', bottle: 2, ph: 7, off: true };
    expect(record(told([off], asked))).toMatchObject({ doubt: 'ph-off', doubtOf: null });
    expect(record(told([{ ...off, ph: 10.2, off: false }], asked))).toMatchObject({ doubtOf: 'fixer' });
  });
  it('forgets how warm the bottle was, and how warm no other vessel is', () => {
    const read: At[] = [
      { type: 'temperature', vessel: bottle(2), tempC: 40 },
      { type: 'temperature', vessel: bottle(3), tempC: 39 },
      holds(2, 'developer', 600),
    ];
    expect(told(read).readings).toEqual({ 'bottle-3': { tempC: 39, atMs: 0 } });
  });
  const readAt = (tempC: number, vessel: VesselRef): Fact => ({
    type: 'temperature',
    vessel,
    liquid: 'developer',
    tempC,
  });
  it.each<[string, At[], number | undefined]>([
    [
      'was poured away',
      [holds(2, 'developer', 500), readAt(40, bottle(2)), pour(bottle(2), sink, 500)],
      undefined,
    ],
    [
      'was read in the tank',
      [holds(2, 'developer', 500), pour(bottle(2), tank, 500), readAt(40, tank)],
      undefined,
    ],
    ['is measured', [holds(2, 'developer', 500), readAt(40, bottle(2))], 40],
  ])('a developer that %s is not the one that an empty bottle holds now', (_how, before, tempC) => {
    const world = told([...before, holds(2, 'developer', 600)]);
    expect(readingOf(world, 'developer', bottle(2))?.tempC).toBe(tempC);
    const assumed = told([...before, holds(2, 'developer', 600, { assumed: true })]);
    expect(readingOf(assumed, 'developer', bottle(2))?.tempC).toBe(40);
  });
  it('thrown out, it says nothing of how warm the same bath is in another bottle', () => {
    const read = [holds(2, 'developer', 500), holds(3, 'developer', 500), readAt(40, bottle(2))];
    expect(readingOf(told(read), 'developer', bottle(3))?.tempC).toBe(40);
    const gone: Fact = { type: 'bottle-discarded', bottle: 2, liquid: 'developer', volumeMl: 500 };
    expect(readingOf(told([...read, gone]), 'developer', bottle(3))).toBeNull();
  });
  it('a name stays, whatever is in it', () => {
    const world = told([{ type: 'bottle-named', bottle: 2, name: 'juniper' }, holds(2, 'stop', 5)]);
    expect(record(world)).toMatchObject({ name: 'juniper', liquid: 'stop' });
  });
  it('discarded: all of it is down the drain, the bottle and what it takes stay', () => {
    const world = told([
      holds(2, 'developer', 600),
      [{ type: 'bottle-discarded', bottle: 2, liquid: 'developer', volumeMl: 600 }, 5],
    ]);
    expect(record(world)).toEqual({
      ...unused,
      number: 2,
      liquid: null,
      contents: NOTHING,
      filledWallMs: null,
      discardedWallMs: 15_000,
    });
    expect(world.account).toMatchObject({ broughtMl: 600, drainedMl: 600, lostMl: 0 });
    const refilled = told([[holds(2, 'stop', 100), 9]], world);
    expect(record(refilled)).toMatchObject({ discardedWallMs: null, filledWallMs: 19_000 });
  });
});

describe('a batch that was mixed', () => {
  const mixed = (more: Partial<Extract<Fact, { type: 'mixed' }>> = {}): Fact => ({
    type: 'mixed',
    batch: 'D1',
    recipe: 'ecn2-developer',
    liquid: 'developer',
    volumeMl: 900,
    bottle: 2,
    ph: 10.2,
    ...more,
  });
  it('fills its bottle, with recipe, reading and date', () => {
    const world = told([holds(2, 'developer', 300), [mixed(), 5]]);
    expect(record(world)).toMatchObject({
      liquid: 'developer',
      batch: 'D1',
      recipe: 'ecn2-developer',
      ph: 10.2,
      mixedWallMs: 15_000,
      filledWallMs: 15_000,
      capacityMl: 1000,
      contents: fresh('developer', 900),
      problems: [],
    });
    expect(world.account).toMatchObject({ broughtMl: 1200, lostMl: 300 });
  });
  it('told again is no second filling, and a checked one takes the place of what was said of it', () => {
    const world = told([mixed({ checks: { ok: false, why: ['weak', 'old'] } }), [mixed(), 5]]);
    expect(world.account.broughtMl).toBe(900);
    expect(record(world)).toMatchObject({ problems: [], filledWallMs: 10_000, mixedWallMs: 15_000 });
    const { ph: _ph, ...unread } = mixed() as Extract<Fact, { type: 'mixed' }>;
    expect(record(told([unread])).ph).toBeNull();
  });
  it('keeps what was wrong with it', () => {
    expect(record(told([mixed({ checks: { ok: false, why: ['weak', 'old'] } })])).problems).toEqual([
      'weak',
      'old',
    ]);
    expect(record(told([mixed({ checks: { ok: true, why: ['weak'] } })])).problems).toEqual([]);
  });
  it('the same batch under another name, or another batch of it, is a new filling', () => {
    for (const other of [mixed({ batch: 'D2' }), mixed({ liquid: 'stop' })])
      expect(told([mixed(), [other, 5]]).account).toMatchObject({ broughtMl: 1800, lostMl: 900 });
  });
  it('in no bottle stands nowhere that is known', () => {
    const { bottle: _b, ...nowhere } = mixed() as Extract<Fact, { type: 'mixed' }>;
    expect(told([nowhere])).toEqual(emptyWorld());
  });
});

describe('a pour between vessels', () => {
  it('moves volume, and is written in both bottles', () => {
    const world = told([
      holds(2, 'developer', 600),
      holds(3, 'developer', 100),
      [pour(bottle(2), bottle(3), 150), 5],
    ]);
    expect(record(world)).toMatchObject({
      contents: fresh('developer', 450),
      pouredOutMl: 150,
      pouredInMl: 0,
    });
    expect(record(world, 3)).toMatchObject({
      contents: fresh('developer', 250),
      pouredInMl: 150,
      pouredOutMl: 0,
      replenishedMl: 150,
      filledWallMs: 10_000,
      contaminations: [],
    });
    expect(world.account).toEqual({ broughtMl: 700, foundMl: 0, spilledMl: 0, drainedMl: 0, lostMl: 0 });
  });
  it('after another is added to what was poured out before', () => {
    const world = told([holds(2, 'developer', 600), pour(bottle(2), jug, 150), pour(bottle(2), tank, 100)]);
    expect(record(world)).toMatchObject({ contents: fresh('developer', 350), pouredOutMl: 250 });
  });
  it('of nothing, or of no number, is none', () => {
    const before = told([holds(2, 'developer', 600)]);
    for (const none of [0, -4, Number.NaN])
      expect(told([pour(bottle(2), jug, none)], before)).toEqual(before);
    expect(volumeOf(told([pour(bottle(2), jug, 0.5)], before), 2)).toBe(599.5);
    expect(told([pour(bottle(2), tank, 0)], before).tank.bath).toBeNull();
  });
  it('of more than there was has found the rest there', () => {
    const world = told([holds(2, 'developer', 100), pour(bottle(2), jug, 150)]);
    expect(world.jugs).toEqual({ developer: fresh('developer', 150) });
    expect(record(world)).toMatchObject({ pouredOutMl: 150, contents: NOTHING, liquid: 'developer' });
    expect(world.account).toMatchObject({ broughtMl: 100, foundMl: 50, lostMl: 0 });
    // less than a drop too much is rounding
    expect(told([holds(2, 'developer', 100), pour(bottle(2), jug, 100 + DROP_ML / 2)]).account.foundMl).toBe(
      0,
    );
    expect(told([holds(2, 'developer', 100), pour(bottle(2), jug, 100.002)]).account.foundMl).toBeCloseTo(
      0.002,
      9,
    );
  });
  it('that leaves a film less than a drop has lost it', () => {
    const world = told([holds(2, 'developer', 100), pour(bottle(2), jug, 99.9995)]);
    expect(record(world).contents).toEqual(NOTHING);
    expect(world.account.lostMl).toBeCloseTo(0.0005, 9);
  });
  it('out of a bottle nobody spoke of says what it held', () => {
    const world = told([pour(bottle(7), jug, 150)]);
    expect(record(world, 7)).toMatchObject({ liquid: 'developer', contents: NOTHING, pouredOutMl: 150 });
    expect(world.account).toMatchObject({ foundMl: 150 });
    const labelled = told([holds(7, 'stop', 200), pour(bottle(7), jug, 150)]);
    expect(record(labelled, 7).liquid).toBe('stop');
  });
  it.each([[tap], [tub], [sink]])('from %o never runs dry', (from) => {
    const world = told([pour(from, jug, 300, { liquid: 'water' })]);
    expect(world.jugs).toEqual({ water: fresh('water', 300) });
    expect(world.account).toMatchObject({ broughtMl: 300, foundMl: 0 });
  });
  it('into the sink or the tub is drained', () => {
    for (const to of [sink, tub, tap])
      expect(told([holds(2, 'developer', 600), pour(bottle(2), to, 200)]).account).toMatchObject({
        drainedMl: 200,
      });
  });
  it('jugs stand beside one another, by liquid, and go when they are empty', () => {
    const two = told([
      pour(tap, jug, 300, { liquid: 'water' }),
      pour(tap, jug, 200, { liquid: 'stop' }),
      pour(tap, jug, 100, { liquid: 'water' }),
    ]);
    expect(two.jugs).toEqual({ water: fresh('water', 400), stop: fresh('stop', 200) });
    expect(jugsOf(two).sort()).toEqual(['stop', 'water']);
    const one = told([pour(jug, sink, 200, { liquid: 'stop' })], two);
    expect(one.jugs).toEqual({ water: fresh('water', 400) });
    expect(contentsOf(one, { kind: 'jug' }, 'water')).toEqual(fresh('water', 400));
    expect(contentsOf(one, { kind: 'jug' }, 'stop')).toBeNull();
    expect(contentsOf(one, { kind: 'tap' }, 'water')).toBeNull();
    expect(contentsOf(one, bottle(2), 'water')).toBeNull();
    expect(contentsOf(one, { kind: 'tank' }, 'water')).toBeNull();
  });
  it('bottles of a liquid are named lowest first, by their label', () => {
    const world = told([
      holds(11, 'stop', 1),
      holds(3, 'stop', 0),
      holds(9, 'stop', 5),
      holds(4, 'fixer', 5),
    ]);
    expect(bottlesFor(world, 'stop')).toEqual([3, 9, 11]);
    expect(contentsOf(world, bottle(9), 'stop')).toEqual(fresh('stop', 5));
    const drops = told([pour(tap, tank, 0.5)]);
    expect(contentsOf(drops, tank, 'developer')).toMatchObject({ volumeMl: 0.5 });
    expect(volumeOf(world, 99)).toBe(0);
  });
});

describe('a pour into a bottle', () => {
  const from = (source: VesselRef, more: Partial<Poured> = {}): World =>
    told([holds(2, 'developer', 500), [pour(source, bottle(2), 100, more), 5]]);
  it('is replenisher only from another vessel that stands beside, and only its own bath', () => {
    expect(record(from({ kind: 'jug' })).replenishedMl).toBe(100);
    expect(record(from(bottle(8))).replenishedMl).toBe(100);
    expect(record(from({ kind: 'tank' })).replenishedMl).toBe(0);
    expect(record(from({ kind: 'tap' })).replenishedMl).toBe(0);
    expect(record(from({ kind: 'jug' }, { liquid: 'stop' })).replenishedMl).toBe(0);
    expect(record(from({ kind: 'jug' }, { liquid: 'water' })).replenishedMl).toBe(0);
  });
  it('of its own bath with another in it brings that one along; what the bottle has already is not told twice', () => {
    const start = told([holds(2, 'developer', 300), holds(4, 'bleach', 300)]);
    const jugs = { developer: { ...NOTHING, volumeMl: 200, parts: { developer: 150, bleach: 50 } } };
    const back = told([[pour(jug, bottle(2), 200), 5]], { ...start, jugs });
    expect(record(back).contaminations).toMatchObject([
      { liquid: 'bleach', volumeMl: 50, intoLiquid: 'developer', intoMl: 300 },
    ]);
    const again = told([pour(bottle(2), tank, 200, { role: 'developer' }), pour(tank, bottle(2), 200)], back);
    expect(record(again).contaminations).toHaveLength(1);
    const little = { developer: { ...NOTHING, volumeMl: 200, parts: { developer: 191, bleach: 9 } } };
    expect(record(told([pour(jug, bottle(2), 200)], { ...start, jugs: little })).contaminations).toEqual([]);
  });
  it('is replenisher on top of a drop, and a new filling of a bottle with less', () => {
    for (const [leftMl, replenishedMl] of [
      [DROP_ML, 100],
      [DROP_ML / 2, 0],
    ] as const)
      expect(record(told([holds(2, 'developer', leftMl), pour(jug, bottle(2), 100)])).replenishedMl).toBe(
        replenishedMl,
      );
  });
  it('is replenisher while most of it is the bath, and none when half of it is not', () => {
    const mixture = (ownMl: number): World => {
      const start = told([holds(2, 'developer', 500)]);
      const jugs = {
        developer: { ...NOTHING, volumeMl: 100, parts: { developer: ownMl, stop: 100 - ownMl } },
      };
      return told([pour(jug, bottle(2), 100)], { ...start, jugs });
    };
    expect(record(mixture(60)).replenishedMl).toBe(100);
    expect(record(mixture(50)).replenishedMl).toBe(0);
    expect(record(mixture(40)).replenishedMl).toBe(0);
  });
  it('is no replenisher when it has worked already', () => {
    const start = told([holds(2, 'developer', 500)]);
    const jugs = { developer: { ...fresh('developer', 100), workM2: 0.1 } };
    expect(record(told([pour(jug, bottle(2), 100)], { ...start, jugs })).replenishedMl).toBe(0);
  });
  it('adds up: twice replenished is both', () => {
    const twice = told([[pour(jug, bottle(2), 50), 6]], from({ kind: 'jug' }));
    expect(record(twice)).toMatchObject({ replenishedMl: 150, pouredInMl: 150 });
  });
  it('that is empty is its first filling, whatever its label said', () => {
    const world = told([
      holds(2, 'developer', 0, { capacityTold: true }),
      [pour(jug, bottle(2), 100, { liquid: 'stop' }), 5],
    ]);
    expect(record(world)).toEqual({
      ...unused,
      number: 2,
      capacityTold: true,
      liquid: 'stop',
      contents: fresh('stop', 100),
      filledWallMs: 15_000,
      pouredInMl: 100,
    });
    // its own bath coming back is no new filling
    const back = told([holds(2, 'developer', 0), [pour(jug, bottle(2), 100), 5]]);
    expect(record(back)).toMatchObject({ filledWallMs: 10_000, replenishedMl: 0, contaminations: [] });
    const unknown = told([[pour(tank, bottle(6), 100, { liquid: 'stop' }), 5]]);
    expect(record(unknown, 6)).toMatchObject({ liquid: 'stop', filledWallMs: 15_000, capacityMl: null });
  });
  it('of another bath is remembered with both, and the label stays', () => {
    const world = from({ kind: 'jug' }, { liquid: 'stop' });
    expect(record(world)).toMatchObject({
      liquid: 'developer',
      contents: { volumeMl: 600, parts: { developer: 500, stop: 100 } },
      contaminations: [
        { wallMs: 15_000, liquid: 'stop', volumeMl: 100, intoLiquid: 'developer', intoMl: 500 },
      ],
    });
    const again = told([[pour(jug, bottle(2), 20, { liquid: 'fixer' }), 6]], world);
    expect(record(again).contaminations).toMatchObject([
      { liquid: 'stop', intoMl: 500 },
      { liquid: 'fixer', intoMl: 600 },
    ]);
  });
  it('is remembered twenty times at most', () => {
    const many = Array.from({ length: 23 }, (_, i): At => [pour(jug, bottle(2), 1, { liquid: 'stop' }), i]);
    const { contaminations } = record(told([holds(2, 'developer', 500), ...many]));
    expect(contaminations.map((c) => c.intoMl)).toEqual(Array.from({ length: 20 }, (_, i) => 503 + i));
  });
  it('over the brim is spilled, by the size on record', () => {
    const full = (more: Partial<BottleSet>): World =>
      told([holds(2, 'developer', 950, more), pour(jug, bottle(2), 100)]);
    const known = full({ capacityTold: true });
    expect(record(known).contents.volumeMl).toBeCloseTo(1000, 9);
    expect(known.account.spilledMl).toBeCloseTo(50, 9);
    expect(record(full({})).contents.volumeMl).toBe(1000);
    expect(full({}).account.spilledMl).toBeCloseTo(50, 9);
  });
  it('over dregs of less than a drop loses them', () => {
    const world = told([holds(2, 'developer', DROP_ML / 2), pour(jug, bottle(2), 100, { liquid: 'stop' })]);
    expect(record(world).contents).toEqual(fresh('stop', 100));
    expect(world.account.lostMl).toBeCloseTo(DROP_ML / 2, 12);
    const drop = told([holds(2, 'developer', DROP_ML), pour(jug, bottle(2), 100, { liquid: 'stop' })]);
    expect(record(drop)).toMatchObject({ liquid: 'developer', contaminations: [{ intoMl: DROP_ML }] });
  });
});

describe('a bath in the tank', () => {
  const start: At[] = [holds(2, 'developer', 600), holds(3, 'stop', 600), run, loaded];
  const developing: At[] = [
    ...start,
    [pour(bottle(2), tank, 500, { role: 'developer', stepId: 'dev', runId: 'r', wantedS: 180 }), 100],
  ];
  const stopping: Partial<Poured> = { liquid: 'stop', role: 'stop', runId: 'r' };

  it('is known with its step, its clock and the film before it', () => {
    const { tank: held } = told(developing);
    expect(held).toEqual({
      ...fresh('developer', 500),
      workM2: expect.closeTo(area, 12),
      bath: {
        liquid: 'developer',
        role: 'developer',
        stepId: 'dev',
        sinceMs: 100_000,
        filmBefore: freshFilm,
        inferred: false,
        from: bottle(2),
        wantedS: 180,
        readings: [],
      },
    });
    expect(contentsOf(told(developing), tank, 'developer')).toEqual(held);
    const bare = told([...start, [pour(tap, tank, 500, { liquid: 'water' }), 7]]);
    expect(bare.tank.bath).toMatchObject({ role: 'water', stepId: null, wantedS: null, sinceMs: 7000 });
    const known = told([...start, [pour(bottle(2), tank, 500, { sinceMs: 3000, inferred: true }), 7]]);
    expect(known.tank.bath).toMatchObject({ sinceMs: 3000, inferred: true });
  });
  it('works on the film while it stands, and is written when it leaves', () => {
    const standing = told(developing);
    expect(standing.film).toEqual(freshFilm);
    expect(filmNow(standing, 110_000)).toMatchObject({ image: 'latent', developedS: 10 });
    expect(filmNow(standing, 280_000)).toMatchObject({
      image: 'developed',
      developedS: 180,
      carry: 'developer',
    });
    // a clock that ran backwards gives no time below nothing
    expect(filmNow(standing, 90_000)).toMatchObject({ developedS: 0 });
    const out = told([[pour(tank, bottle(2), 500, { runId: 'r', effectiveS: 170 }), 280]], standing);
    const contact = {
      role: 'developer',
      liquid: 'developer',
      seconds: 180,
      fromMs: 100_000,
      stepId: 'dev',
      wantedS: 180,
      effectiveS: 170,
    } as const;
    expect(out.film).toEqual(expose(freshFilm, contact));
    expect(out.film.developedS).toBe(170);
    expect(out.runs.r?.contacts).toEqual([contact]);
    expect(out.tank).toEqual({ ...NOTHING, bath: null });
    expect(filmNow(out, 999_000)).toBe(out.film);
    expect(record(out).contents.volumeMl).toBe(600);
  });
  it('a contact without a step or a wanted time says neither', () => {
    const { bath } = told([...start, [pour(tap, tank, 500, { liquid: 'water', role: 'water' }), 7]]).tank;
    expect(bath && contactOf(bath, 9500)).toEqual({
      role: 'water',
      liquid: 'water',
      seconds: 2.5,
      fromMs: 7000,
    });
  });
  it('left when it was said to have left, not when it was said', () => {
    const world = told([...developing, [pour(tank, bottle(2), 500, { sinceMs: 150_000 }), 280]]);
    expect(world.film.developedS).toBe(50);
  });
  it('poured off in part goes on', () => {
    const part = told([...developing, [pour(tank, bottle(2), 200), 150]]);
    expect(part.tank).toMatchObject({ volumeMl: 300, bath: { liquid: 'developer', sinceMs: 100_000 } });
    expect(part.film).toEqual(freshFilm);
    const almost = told([...developing, [pour(tank, bottle(2), 500 - DROP_ML), 150]]);
    expect(almost.film.developedS).toBe(50);
    expect(almost.tank.bath).toBeNull();
    const rest = told([...developing, [pour(tank, bottle(2), 499), 150]]);
    expect(rest.tank.bath).toMatchObject({ liquid: 'developer' });
  });
  it('with another poured on top has worked until then, and its film goes into the next', () => {
    const world = told([...developing, [pour(bottle(3), tank, 100, stopping), 280]]);
    expect(world.film).toMatchObject({ developedS: 180, image: 'developed' });
    expect(world.tank).toMatchObject({
      volumeMl: 600,
      parts: { developer: 500, stop: 100 },
      bath: { liquid: 'stop', sinceMs: 280_000, filmBefore: { developedS: 180 } },
    });
    expect(world.runs.r?.contacts).toMatchObject([{ role: 'developer', seconds: 180 }]);
    const out = told([[pour(tank, sink, 600, { liquid: 'stop', runId: 'r' }), 300]], world);
    expect(out.runs.r?.contacts).toMatchObject([
      { role: 'developer', seconds: 180 },
      { role: 'stop', seconds: 20 },
    ]);
  });
  it('gets what clung to the film, by name; not its own, not in water, not without a role', () => {
    const drained = told([...developing, [pour(tank, bottle(2), 500, { runId: 'r' }), 280]]);
    const next = (from: VesselRef, more: Partial<Poured>): readonly string[] =>
      told([[pour(from, tank, 500, more), 290]], drained).tank.traces;
    expect(next(bottle(3), stopping)).toEqual(['developer']);
    expect(next(bottle(2), { role: 'developer' })).toEqual([]);
    expect(next(tap, { liquid: 'water', role: 'water' })).toEqual([]);
    expect(next(bottle(3), { liquid: 'stop' })).toEqual([]);
    const traced = {
      ...drained,
      bottles: {
        ...drained.bottles,
        3: { ...record(drained, 3), contents: { ...fresh('stop', 600), traces: ['developer'] } },
      },
    };
    expect(told([[pour(bottle(3), tank, 500, stopping), 290]], traced).tank.traces).toEqual(['developer']);
    const old = {
      ...drained,
      bottles: {
        ...drained.bottles,
        3: { ...record(drained, 3), contents: { ...fresh('stop', 600), traces: ['prebath'] } },
      },
    };
    expect(told([[pour(bottle(3), tank, 500, stopping), 290]], old).tank.traces).toEqual([
      'prebath',
      'developer',
    ]);
    // it is in the tank that the film is
    expect(told([[pour(bottle(3), jug, 500, stopping), 290]], drained).jugs.stop?.traces).toEqual([]);
    // the last liquid of that kind, not the first
    const { film: f } = drained;
    const second = {
      ...drained,
      film: {
        ...f,
        history: [...f.history, { role: 'developer', liquid: 'second-developer', seconds: 3 } as const],
      },
    };
    expect(told([[pour(bottle(3), tank, 500, stopping), 290]], second).tank.traces).toEqual([
      'second-developer',
    ]);
    const washed = { ...drained, film: { ...f, carry: null } };
    expect(told([[pour(bottle(3), tank, 500, stopping), 290]], washed).tank.traces).toEqual([]);
    const nameless = { ...drained, film: { ...f, history: [] } };
    expect(told([[pour(bottle(3), tank, 500, stopping), 290]], nameless).tank.traces).toEqual(['developer']);
  });
  it('without film, or out of a run, is in no record of contacts', () => {
    const dry: At[] = [
      holds(2, 'developer', 600),
      run,
      [pour(bottle(2), tank, 500, { role: 'developer', runId: 'r' }), 5],
    ];
    const out: At = [pour(tank, bottle(2), 500), 50];
    const world = told([...dry, out]);
    expect(world.runs.r?.contacts).toEqual([]);
    expect(world.film).toMatchObject({ carry: 'developer', history: [] });
    const between = told([
      holds(2, 'developer', 600),
      loaded,
      [pour(bottle(2), tank, 500, { role: 'developer' }), 5],
      out,
    ]);
    expect(between.film.history).toHaveLength(1);
    expect(between.runs).toEqual({});
  });
  it('works the films of its run once: a top-up, or the same bath again, is no second film', () => {
    const once = told(developing);
    expect(record(once)).toMatchObject({ runs: 1, filmAreaM2: area, films: { '35mm': 2 } });
    const top = told([[pour(bottle(2), tank, 50, { role: 'developer', runId: 'r' }), 120]], once);
    expect(record(top)).toMatchObject({ runs: 1, films: { '35mm': 2 } });
    expect(top.tank.workM2).toBeCloseTo(area, 12);
    const jugged = told([
      ...start,
      pour(tap, jug, 500, { liquid: 'stop' }),
      [pour(jug, tank, 500, stopping), 5],
    ]);
    expect(jugged.tank.workM2).toBeCloseTo(area, 12);
    expect(record(jugged, 3)).toMatchObject({ runs: 0 });
    expect(Object.keys(jugged.bottles)).toEqual(['2', '3']);
    for (const runId of [undefined, 'another'])
      expect(
        told([...start, pour(bottle(2), tank, 500, { role: 'developer', ...(runId && { runId }) })]).tank
          .workM2,
      ).toBe(0);
    const second: Fact = {
      ...(run as Extract<Fact, { type: 'run-started' }>),
      runId: 'q',
      films: [
        { stock: 'x', format: '35mm' },
        { stock: 'y', format: '120', count: 3 },
      ],
    };
    const more = told([
      ...developing,
      [pour(tank, bottle(2), 500, { runId: 'r' }), 280],
      second,
      [pour(bottle(2), tank, 500, { role: 'developer', runId: 'q' }), 300],
    ]);
    expect(record(more)).toMatchObject({ runs: 2, films: { '35mm': 3, '120': 3 } });
  });
  it('of films nobody spoke of works one of the usual kind, and says that it is a guess', () => {
    expect(filmsIn(emptyWorld())).toEqual([{ stock: 'a 36 exposure film', format: '35mm', assumed: true }]);
    expect(filmsIn({ ...emptyWorld(), films: [film] })).toEqual([film]);
  });
});

describe('a spill', () => {
  const spilled = (more: Partial<Extract<Fact, { type: 'spilled' }>> = {}, volumeMl = 40): Fact => ({
    type: 'spilled',
    liquid: 'developer',
    volumeMl,
    ...more,
  });
  it('from a bottle is out of it, and is no pour', () => {
    const world = told([holds(2, 'developer', 600), spilled({ from: bottle(2) })]);
    expect(record(world)).toMatchObject({ contents: fresh('developer', 560), spilledMl: 40, pouredOutMl: 0 });
    expect(world.account).toMatchObject({ broughtMl: 600, spilledMl: 40, foundMl: 0 });
    expect(record(told([spilled({ from: bottle(2) })], world)).spilledMl).toBe(80);
  });
  it('from a jug or the tank is out of that', () => {
    const world = told([pour(tap, jug, 300), spilled({ from: { kind: 'jug' } })]);
    expect(world.jugs).toEqual({ developer: fresh('developer', 260) });
    expect(world.bottles).toEqual({});
    expect(world.account).toMatchObject({ broughtMl: 300, spilledMl: 40 });
  });
  it('from nobody knows where was found and spilled; of nothing it is none', () => {
    expect(told([spilled()]).account).toMatchObject({ foundMl: 40, spilledMl: 40 });
    for (const none of [0, -1, Number.NaN]) expect(told([spilled({}, none)])).toEqual(emptyWorld());
    expect(told([spilled({ from: bottle(7) }, 0)])).toEqual(emptyWorld());
    expect(told([spilled({}, 0.5)]).account.spilledMl).toBe(0.5);
  });
});

describe('dry chemicals', () => {
  it('are set, used down to nothing, and keep their purity and price', () => {
    const set: Fact = { type: 'shelf-set', substance: 'cd3', massG: 25, purity: 0.99, pricePerKg: 400 };
    const used = (massG: number): Fact => ({ type: 'shelf-used', substance: 'cd3', massG, batch: 'D1' });
    expect(told([set]).shelf.cd3).toEqual({
      substance: 'cd3',
      massG: 25,
      purity: 0.99,
      pricePerKg: 400,
    });
    expect(told([set, used(5), used(4)]).shelf.cd3).toEqual({
      substance: 'cd3',
      massG: 16,
      purity: 0.99,
      pricePerKg: 400,
    });
    expect(told([set, used(30)]).shelf.cd3).toMatchObject({ massG: 0 });
    expect(told([set, used(5), { type: 'shelf-set', substance: 'cd3', massG: 100 }]).shelf.cd3).toEqual({
      substance: 'cd3',
      massG: 100,
      purity: 0.99,
      pricePerKg: 400,
    });
    expect(told([used(0.5)]).shelf.cd3).toMatchObject({ massG: 0 });
    expect(told([used(3)]).shelf.cd3).toEqual({
      substance: 'cd3',
      massG: 0,
      purity: null,
      pricePerKg: null,
    });
    expect(told([{ type: 'shelf-set', substance: 'kbr', massG: 7 }]).shelf.kbr).toEqual({
      substance: 'kbr',
      massG: 7,
      purity: null,
      pricePerKg: null,
    });
  });
});

describe('a temperature', () => {
  it('is known of the vessel and of the liquid, and is kept with the bottle', () => {
    const world = told([
      holds(2, 'developer', 600),
      [{ type: 'temperature', vessel: bottle(2), liquid: 'developer', tempC: 41 }, 8],
      [{ type: 'temperature', vessel: { kind: 'tub' }, tempC: 43 }, 9],
    ]);
    expect(world.readings).toEqual({
      'bottle-2': { tempC: 41, atMs: 8000 },
      'liquid:developer': { tempC: 41, atMs: 8000 },
      tub: { tempC: 43, atMs: 9000 },
    });
    expect(Object.keys(world.bottles)).toEqual(['2']);
  });
  it('goes with what was read, and so does a doubt, when two bottles change places', () => {
    const world = told([
      holds(2, 'developer', 600),
      holds(3, 'stop', 600),
      [{ type: 'temperature', vessel: bottle(2), tempC: 41 }, 8],
      [{ type: 'reading-doubted', vessel: bottle(3), tempC: 71 }, 9],
      { type: 'bottles-swapped', bottle: 2, other: 3 },
    ]);
    expect(world.readings).toEqual({ 'bottle-3': { tempC: 41, atMs: 8000 } });
    expect(world.doubts).toEqual({ 'bottle-2': { tempC: 71, atMs: 9000 } });
    expect(told([holds(2, 'fixer', 500)], world).doubts).toEqual({});
  });
  it('of a probe in the tank: the newest sixty', () => {
    const reads = Array.from(
      { length: 70 },
      (_, i): At => [{ type: 'temperature', vessel: tank, tempC: 40 + i / 100 }, 100 + i],
    );
    const readings = told([holds(2, 'developer', 600), pour(bottle(2), tank, 500), ...reads]).tank.bath
      ?.readings;
    expect(readings).toHaveLength(60);
    expect(readings?.[0]).toEqual({ tempC: 40.1, atMs: 110_000 });
    expect(readings?.at(-1)).toEqual({ tempC: 40.69, atMs: 169_000 });
  });
});

describe('a run and its film', () => {
  it('begins with a dry tank and no word of film; what was in the tank is lost', () => {
    const before = told([
      pour(tap, tank, 300, { liquid: 'water', role: 'water' }),
      { type: 'film-loaded' },
      { type: 'films-told', films: [film] },
      { type: 'tank-told', volumeMl: 800 },
    ]);
    expect(before).toMatchObject({ filmKnown: true, films: [film], tankMl: 800, film: { loaded: true } });
    const world = told([{ ...run, films: [] } as Fact], before);
    expect(world).toMatchObject({
      tank: { ...NOTHING, bath: null },
      tankMl: 500,
      film: noFilm,
      filmKnown: false,
      films: [film],
      run: { runId: 'r', sheetId: 's', sheet: null },
      account: { broughtMl: 300, lostMl: 300 },
    });
    const other: FilmRef = { stock: 'night film', format: '120' };
    expect(told([{ ...run, films: [other], sheet: { id: 's' } } as Fact], before)).toMatchObject({
      films: [other],
      run: { sheet: { id: 's' } },
    });
  });
  it('loaded, hung and finished: what clings stays with the tank', () => {
    const carrying: World = { ...emptyWorld(), film: { ...noFilm, carry: 'fixer' } };
    const silver = { backing: false, image: 'silver' } as const;
    expect(told([loaded], carrying)).toMatchObject({
      filmKnown: true,
      film: { ...freshFilm, kind: motionPictureFilm, carry: 'fixer' },
    });
    expect(told([{ type: 'film-loaded', kind: silver }], carrying).film).toEqual({
      ...freshFilm,
      kind: silver,
      backing: 'off',
      carry: 'fixer',
    });
    const hung = told([loaded, { type: 'film-hung' }], carrying);
    expect(hung).toMatchObject({ filmKnown: true, film: { ...noFilm, carry: 'fixer' } });
    const ended = told([run, { type: 'run-finished', runId: 'r', complete: true }]);
    expect(ended).toMatchObject({ run: null, films: [], runs: { r: { complete: true } } });
  });
  it('remembers each step that was left out', () => {
    const skip = (stepId: string): Fact => ({ type: 'step-skipped', runId: 'r', stepId });
    expect(told([run, loaded, skip('stop'), skip('wash')]).film.skipped).toEqual(['stop', 'wash']);
  });
  it('rinsed without a word for each fill: so many fills, each its part of the time', () => {
    const softened: World = {
      ...emptyWorld(),
      film: { ...freshFilm, backing: 'softened', carry: 'backing-remover' },
    };
    const rinsed = told([{ type: 'rinsed', fills: 4, seconds: 40 }], softened);
    expect(rinsed.film).toMatchObject({ washFills: 4, washS: 40, carry: null, backing: 'off' });
    expect(rinsed.film.history).toEqual(Array(4).fill({ role: 'water', liquid: 'water', seconds: 10 }));
    expect(told([{ type: 'rinsed', fills: 1, seconds: 3 }], softened).film).toMatchObject({
      washFills: 1,
      washS: 3,
      carry: 'backing-remover',
      backing: 'softened',
    });
    expect(told([{ type: 'rinsed', fills: 0, seconds: 30 }], softened).film).toEqual(softened.film);
  });
});

describe('of two that could be meant, the one that was told last', () => {
  it('is the reading that a bath goes into the tank with: of its vessel, or of the liquid', () => {
    const pouredAfter = (...readings: At[]) =>
      told([holds(2, 'developer', 600), run, loaded, ...readings, [pour(bottle(2), tank, 500), 60]]).tank.bath
        ?.readings;
    const here = { type: 'temperature', vessel: bottle(2), tempC: 40 } as const;
    const elsewhere = { type: 'temperature', vessel: jug, liquid: 'developer', tempC: 38 } as const;
    expect(pouredAfter([here, 10], [elsewhere, 20])).toEqual([{ tempC: 38, atMs: 60_000 }]);
    expect(pouredAfter([elsewhere, 10], [here, 20])).toEqual([{ tempC: 40, atMs: 60_000 }]);
    expect(pouredAfter()).toEqual([]);
  });
  it('is one control strip after another, each kept', () => {
    const even = { red: 1, green: 1, blue: 1 };
    const strip = (date: string): Fact => ({
      type: 'control-strip',
      date,
      patches: { dMin: even, lowDensity: even, highDensity: even },
    });
    expect(told([strip('one'), strip('two')]).strips?.map((s) => s.date)).toEqual(['one', 'two']);
  });
});

describe('a bottle of which nobody measures what gets in', () => {
  it('keeps the last twenty', () => {
    const splash: Fact = { type: 'splashed', liquid: 'fixer', bottle: 2 };
    const world = told([
      holds(2, 'developer', 600),
      ...Array.from({ length: 25 }, (_, i): At => [splash, i]),
    ]);
    expect(record(world).contaminations).toHaveLength(20);
    expect(record(world).contaminations[0]?.wallMs).toBe(15_000);
  });
  it('of its own bath, or of a bottle that holds none, there is nothing to keep', () => {
    const splash: Fact = { type: 'splashed', liquid: 'developer', bottle: 2 };
    expect(record(told([holds(2, 'developer', 600), splash])).contaminations).toEqual([]);
    expect(told([splash]).bottles).toEqual({});
  });
});

describe('work that is counted later', () => {
  it('is counted of however little there is, and of nothing not at all', () => {
    const work = (volumeMl: number) =>
      withWork(told([holds(2, 'developer', volumeMl)]), bottle(2), 'developer', 0.1).bottles[2]?.contents
        .workM2;
    expect(work(0.5)).toBe(0.1);
    expect(work(0)).toBe(0);
  });
  it('is none of a bottle that was filled anew since', () => {
    const world = told([
      holds(2, 'developer', 600, { batch: 'one' }),
      run,
      loaded,
      pour(bottle(2), tank, 500, { runId: 'r', role: 'developer' }),
      holds(2, 'developer', 600, { batch: 'two' }),
      { type: 'films-told', runId: 'r', films: [{ ...film, count: 4 }] },
    ]);
    expect(record(world)).toMatchObject({ runs: 0, films: {}, filmAreaM2: 0 });
  });
});

describe('films told late', () => {
  const inRun = { runId: 'r', role: 'developer' } as const;
  const developed: At[] = [holds(2, 'developer', 600), run, loaded, pour(bottle(2), tank, 500, inRun)];
  const four: Fact = { type: 'films-told', runId: 'r', films: [{ ...film, count: 4 }] };
  it('have worked the bath that is still in the tank', () => {
    const world = told([...developed, four]);
    expect(world.tank.workM2).toBeCloseTo(2 * area, 9);
    expect(record(world).filmAreaM2).toBeCloseTo(2 * area, 9);
    expect(record(world).films).toEqual({ '35mm': 4 });
  });
  it('have worked what came out of the tank, wherever it stands, and not what was poured elsewhere', () => {
    const elsewhere = pour(bottle(3), bottle(4), 100, inRun);
    const world = told([
      ...developed,
      holds(3, 'developer', 600),
      pour(tank, jug, 500, inRun),
      elsewhere,
      four,
    ]);
    expect(world.jugs.developer?.workM2).toBeCloseTo(2 * area, 9);
    expect(world.bottles[4]?.contents.workM2).toBe(0);
  });
  it('do not count for a bottle that holds something else by now', () => {
    const world = told([...developed, pour(tank, jug, 500, inRun), holds(2, 'fixer', 600), four]);
    expect(record(world)).toMatchObject({ liquid: 'fixer', films: {}, filmAreaM2: 0 });
    expect(world.jugs.developer?.workM2).toBeCloseTo(2 * area, 9);
  });
});

describe('a run that nobody closes', () => {
  const reading = (vessel: number, tempC: number): Fact => ({
    type: 'temperature',
    runId: 'r',
    vessel: bottle(vessel),
    tempC,
  });
  const long = told([
    holds(2, 'developer', 600),
    run,
    loaded,
    ...Array.from(
      { length: 3000 },
      (_, i): At => [
        [
          pour(tap, tank, 500, { runId: 'r', role: 'water', liquid: 'water' }),
          pour(tank, sink, 500, { runId: 'r', role: 'water', liquid: 'water' }),
          { type: 'note', runId: 'r', text: `note ${i}` } as Fact,
          reading(1 + (i % 3), 20 + (i % 7)),
        ][i % 4] as Fact,
        i,
      ],
    ),
  ]);
  const kept = long.runs.r;
  it('does not grow without end: the beginning and what came last of each kind stay', () => {
    for (const list of [kept?.pours, kept?.notes, kept?.contacts, kept?.temperatures, long.film.history])
      expect(list?.length).toBeLessThanOrEqual(KEPT_OF_A_RUN);
    expect(kept?.notes[0]?.text).toBe('note 2');
    expect(kept?.notes.at(-1)?.text).toBe('note 2998');
    expect(kept?.notes[KEPT_OF_A_RUN / 2 - 1]?.text).toBe(`note ${2 + 4 * (KEPT_OF_A_RUN / 2 - 1)}`);
    expect(long.film.history[0]).toMatchObject({ role: 'water', fromMs: 0 });
  });
  it('keeps readings of every vessel from its whole time, the newest all of them', () => {
    const of = (number: number) =>
      kept?.temperatures.filter((t) => t.vessel.kind === 'bottle' && t.vessel.number === number) ?? [];
    for (const number of [1, 2, 3]) {
      expect(of(number).length).toBeGreaterThan(10);
      expect((of(number)[0]?.wallMs ?? Infinity) / 1000).toBeLessThan(1000);
    }
    expect(kept?.temperatures.at(-1)?.wallMs).toBe(2999_000 + 10_000);
  });
});

describe('a bottle that is told to hold another bath', () => {
  it('without a word of how much: that stays taken for granted', () => {
    const world = told([holds(2, 'developer', 600), holds(2, 'stop', 600, { volumeAssumed: true })]);
    expect(record(world)).toMatchObject({ liquid: 'stop', volumeAssumed: true });
  });
});

describe('a bath that the film had before anybody spoke of it', () => {
  const had = (liquid: string, role: 'fixer' | 'water', more: object = {}): Fact => ({
    type: 'film-had',
    liquid,
    role,
    seconds: 120,
    ...more,
  });
  const begun: Fact[] = [holds(5, 'fixer', 600), run, loaded];
  const of = (...facts: Fact[]) => told([...begun, ...facts]);
  it('is on the film, and in its run with its step', () => {
    const world = of(had('fixer', 'fixer', { runId: 'r', stepId: 'fix' }));
    const contact = { role: 'fixer', liquid: 'fixer', seconds: 120, wantedS: 120, stepId: 'fix' };
    expect(world.film.history).toMatchObject([contact]);
    expect(world.runs.r?.contacts).toEqual([contact]);
    expect(Object.keys(of(had('fixer', 'fixer', { runId: 'r' })).runs.r?.contacts[0] ?? {})).not.toContain(
      'stepId',
    );
  });
  it('is in no run without one, and nothing while a bath is in the tank', () => {
    expect(of(had('fixer', 'fixer')).runs.r?.contacts).toEqual([]);
    const inTank = of(pour(bottle(5), tank, 500, { liquid: 'fixer', role: 'fixer' }));
    expect(told([had('fixer', 'fixer', { runId: 'r' })], inTank).film).toEqual(inTank.film);
  });
  it('has worked the one bottle that holds it, once', () => {
    const worked = (world: World) => [world.runs.r?.worked, world.bottles[5]?.films];
    const fixed = had('fixer', 'fixer', { runId: 'r' });
    expect(worked(of(fixed))).toEqual([['fixer'], { '35mm': 2 }]);
    expect(worked(of(fixed, fixed))).toEqual([['fixer'], { '35mm': 2 }]);
    expect(worked(of(holds(7, 'fixer', 100), fixed))).toEqual([[], {}]);
    expect(worked(of(holds(5, 'fixer', 0), holds(5, null, 0), fixed))).toEqual([[], {}]);
    expect(worked(of(holds(8, 'water', 100), had('water', 'water', { runId: 'r' })))).toEqual([[], {}]);
    expect(worked(of(holds(6, 'bleach', 600), had('bleach', 'fixer', { runId: 'r' }), fixed))[0]).toEqual([
      'bleach',
      'fixer',
    ]);
  });
});

describe('what was told of a filling', () => {
  const history = (more: object): Fact => ({ type: 'bottle-history', bottle: 2, ...more });
  const from = (...facts: Fact[]) => told(facts);
  it('takes the place of what was on record, and what was not told stays', () => {
    const before = from(
      holds(2, 'developer', 600),
      history({ films: { '35mm': 3 }, workM2: 0.2, mixedWallMs: 5 }),
    );
    expect(record(before)).toMatchObject({ films: { '35mm': 3 }, filmAreaM2: 0.2, mixedWallMs: 5 });
    expect(record(before).contents.workM2).toBe(0.2);
    const after = told([history({ mixedWallMs: 7 })], before);
    expect(record(after)).toMatchObject({ films: { '35mm': 3 }, filmAreaM2: 0.2, mixedWallMs: 7 });
  });
  it('says that the bottle is there; how much is in it stays taken for granted', () => {
    const of = (more: object) =>
      record(from(holds(2, 'developer', 600, more), history({ films: { '35mm': 1 } })));
    expect(of({ assumed: true })).toMatchObject({ assumed: false, volumeAssumed: true });
    expect(of({ volumeAssumed: true })).toMatchObject({ assumed: false, volumeAssumed: true });
    expect(of({})).toMatchObject({ assumed: false, volumeAssumed: false });
  });
  it('goes to what came out of it and has no date of its own', () => {
    const dates = (...more: At[]) => {
      const world = told([
        holds(2, 'developer', 600, { assumed: true }),
        [pour(bottle(2), bottle(7), 300), 5],
        ...more,
        history({ mixedWallMs: 3 }),
      ]);
      return [7, 9].map((n) => world.bottles[n]?.mixedWallMs);
    };
    expect(dates()).toEqual([3, undefined]);
    expect(dates(holds(9, 'developer', 100))).toEqual([3, null]);
    expect(dates(holds(7, 'stop', 300))).toEqual([null, undefined]);
    expect(
      dates({ type: 'mixed', batch: 'b', recipe: 'x', liquid: 'developer', volumeMl: 300, bottle: 7 }),
    ).toEqual([10_000, undefined]);
  });
});

describe('a pH that was read', () => {
  const ph = (value: number, off: boolean): Fact => ({ type: 'bottle-ph', bottle: 2, ph: value, off });
  it('is held against its bottle while it is off, and takes no other doubt away', () => {
    const of = (...facts: Fact[]) => {
      const { ph, doubt } = record(told([holds(2, 'developer', 600), ...facts]));
      return [ph, doubt ?? null];
    };
    expect(of(ph(9.8, true))).toEqual([9.8, 'ph-off']);
    expect(of(ph(9.8, true), ph(10.2, false))).toEqual([10.2, null]);
    expect(of({ type: 'bottle-doubted', bottle: 2, doubt: 'spilled' }, ph(10.2, false))).toEqual([
      10.2,
      'spilled',
    ]);
  });
});

describe('a thermometer that reads wrong', () => {
  const shift: Fact = { type: 'thermometer-told', errorC: 0.5, shiftC: -0.5 };
  const read = (vessel: VesselRef, tempC: number): Fact => ({ type: 'temperature', vessel, tempC });
  it('read wrong before as well: vessels, the bath in the tank; with the tank empty nothing is there', () => {
    const world = told([
      run,
      loaded,
      holds(2, 'developer', 600),
      pour(bottle(2), tank, 500, { role: 'developer' }),
      read(tank, 41),
      read(tub, 42),
      shift,
    ]);
    expect(world.thermometerErrorC).toBe(0.5);
    expect(Object.values(world.readings).map((r) => r.tempC)).toEqual([40.5, 41.5]);
    expect(world.tank.bath?.readings.map((r) => r.tempC)).toEqual([40.5]);
    expect(told([read(tub, 42), shift]).tank).toEqual(emptyWorld().tank);
  });
  it('explains a reading that was doubted and stands, and no other', () => {
    const doubtful = (tempC: number): Fact => ({ type: 'reading-doubted', vessel: tub, tempC });
    expect(told([read(tub, 60), doubtful(60), shift]).doubts).toEqual({});
    expect(Object.keys(told([read(tub, 40), doubtful(60), shift]).doubts)).toEqual(['tub']);
  });
});

describe('what nobody is sure was on the film', () => {
  const doubted = (of: string[], more: object = {}): Fact => ({ type: 'film-doubted', of, ...more });
  const doubt = (...facts: Fact[]) =>
    told([holds(2, 'developer', 600), holds(5, 'fixer', 600), run, loaded, ...facts]).film.doubt;
  const inTank = pour(bottle(2), tank, 500, { role: 'developer' });
  const away = pour(tank, sink, 500, { role: 'developer' });
  it('is beside the bath that was in last by the record: in the tank, or before its water', () => {
    expect(doubt(doubted(['fixer']))).toEqual({ of: ['fixer'], last: null, asked: false });
    expect(doubt(inTank, doubted(['fixer']))?.last).toBe('developer');
    expect(doubt(inTank, away, doubted(['fixer'], { asked: true }))).toEqual({
      of: ['fixer'],
      last: 'developer',
      asked: true,
    });
    const water = pour(tap, tank, 500, { liquid: 'water', role: 'water' });
    expect(doubt(inTank, away, water, doubted(['fixer']))?.last).toBe('developer');
    expect(
      doubt(
        inTank,
        away,
        water,
        pour(tank, sink, 500, { liquid: 'water', role: 'water' }),
        doubted(['fixer']),
      )?.last,
    ).toBe('developer');
  });
  it('keeps what was last when it began; what that was is no doubt, and none takes it away', () => {
    const fixed = pour(bottle(5), tank, 500, { liquid: 'fixer', role: 'fixer' });
    expect(doubt(inTank, doubted(['stop']), away, fixed, doubted(['stop', 'fixer', 'developer']))).toEqual({
      of: ['stop', 'fixer'],
      last: 'developer',
      asked: false,
    });
    expect(doubt(inTank, doubted(['developer']))).toBeUndefined();
    expect(doubt(inTank, doubted(['developer', 'fixer']))?.of).toEqual(['fixer']);
    expect(doubt(inTank, doubted(['fixer']), doubted([]))).toBeUndefined();
  });
});

describe('backing that still comes off', () => {
  it('was taken for off and is not; what was never loose stays as it is', () => {
    const seen: Fact = { type: 'backing-seen' };
    const prebath = pour(bottle(1), tank, 500, { liquid: 'prebath', role: 'backing-remover' });
    const out = pour(tank, sink, 500, { liquid: 'prebath', role: 'backing-remover' });
    const water = pour(tap, tank, 500, { liquid: 'water', role: 'water' });
    const begun: At[] = [holds(1, 'prebath', 600), run, loaded];
    const backing = (...facts: At[]) => told([...begun, ...facts]).film.backing;
    expect(backing()).toBe('on');
    expect(backing(seen)).toBe('on');
    const rinsed: At[] = [
      prebath,
      [out, 20],
      [water, 20],
      [pour(tank, sink, 500, { liquid: 'water', role: 'water' }), 80],
    ];
    expect(backing(...rinsed)).toBe('off');
    expect(backing(...rinsed, [seen, 80])).toBe('softened');
    const standing = told([...begun, ...rinsed, [water, 80], [seen, 90]]);
    expect(standing.tank.bath).toMatchObject({ black: true, filmBefore: { backing: 'softened' } });
  });
});

describe('what got in and nobody measured', () => {
  it('is in the tank, or in a bottle that there is', () => {
    const got = (more: object): Fact => ({ type: 'splashed', liquid: 'fixer', ...more });
    expect(told([got({ tank: true })]).tank.splashes).toEqual(['fixer']);
    expect(told([got({ bottle: 3 })]).bottles).toEqual({});
    expect(told([holds(2, 'developer', 600), got({})]).bottles[2]?.contaminations).toEqual([]);
  });
  it('a spill out of a bottle settles that some was spilled, and no other doubt', () => {
    const doubt = (of: 'spilled' | 'oxidised') =>
      told([
        holds(2, 'developer', 600),
        { type: 'bottle-doubted', bottle: 2, doubt: of },
        { type: 'spilled', from: bottle(2), liquid: 'developer', volumeMl: 100 },
      ]).bottles[2]?.doubt ?? null;
    expect([doubt('spilled'), doubt('oxidised')]).toEqual([null, 'oxidised']);
  });
  it('a spill of all that is in the tank ends the bath on its film', () => {
    const world = told([
      holds(2, 'developer', 600),
      run,
      loaded,
      pour(bottle(2), tank, 500, { role: 'developer' }),
      [{ type: 'spilled', from: tank, liquid: 'developer', volumeMl: 500 }, 100],
    ]);
    expect(world.tank.bath).toBeNull();
    expect(world.film.history).toMatchObject([{ role: 'developer', seconds: 100 }]);
  });
});

describe('two bottles that changed places', () => {
  it('are there, and how much they hold stays taken for granted where it was', () => {
    const world = told([
      holds(2, 'developer', 600, { assumed: true }),
      holds(3, 'stop', 500, { volumeAssumed: true }),
      holds(4, 'bleach', 400),
      { type: 'bottles-swapped', bottle: 2, other: 3 },
      { type: 'bottles-swapped', bottle: 3, other: 4 },
    ]);
    const kept = ({ liquid, assumed, volumeAssumed }: BottleRecord) => [liquid, assumed, volumeAssumed];
    expect([2, 3, 4].map((n) => kept(record(world, n)))).toEqual([
      ['stop', false, true],
      ['bleach', false, false],
      ['developer', false, true],
    ]);
  });
});

describe('a bath that goes into another bottle', () => {
  const batch: Fact = {
    type: 'mixed',
    batch: 'b1',
    recipe: 'r1',
    liquid: 'developer',
    volumeMl: 600,
    bottle: 2,
    ph: 10.2,
    checks: { ok: false, why: ['weighed short'], unusable: true },
  };
  const work: Fact = { type: 'bottle-history', bottle: 2, films: { '35mm': 2 }, workM2: 0.1 };
  const doubted: Fact = { type: 'bottle-doubted', bottle: 2, doubt: 'unanswered', of: 'stop' };
  const over = (...facts: At[]) => record(told([batch, work, doubted, ...facts]), 7);
  const move = (volumeMl: number): At => [pour(bottle(2), bottle(7), volumeMl), 90];
  const known = { recipe: 'r1', batch: 'b1', ph: 10.2, films: { '35mm': 2 }, filmAreaM2: 0.1, cameFrom: 2 };
  it('is what it was, with all that is known of it and speaks against it', () => {
    expect(over(move(300))).toMatchObject({
      ...known,
      mixedWallMs: 10_000,
      doubt: 'unanswered',
      doubtOf: 'stop',
      problems: ['weighed short'],
      unusable: true,
    });
  });
  it('through a jug, or through the tank of a run, as well', () => {
    expect(over([pour(bottle(2), jug, 300), 80], [pour(jug, bottle(7), 300), 90])).toMatchObject({
      filmAreaM2: 0,
    });
    const of = (from: VesselRef, to: VesselRef, ml: number, more: object = {}) =>
      pour(from, to, ml, { runId: 'r', ...more });
    const ran = [run, loaded, of(bottle(2), tank, 500), of(tank, jug, 500), of(jug, bottle(7), 500)];
    expect(over(...ran)).toMatchObject({ recipe: 'r1', cameFrom: 2 });
    expect(over(...ran.slice(0, 3), of(tank, bottle(7), 500))).toMatchObject({ recipe: 'r1', cameFrom: 2 });
    const back = told([batch, ...ran.slice(0, 3), of(tank, bottle(2), 500)]);
    expect(record(back).cameFrom).toBeUndefined();
    const other = [
      holds(3, 'stop', 600),
      run,
      of(bottle(3), jug, 100, { liquid: 'stop' }),
      of(jug, bottle(7), 50),
    ];
    expect(over(...other).cameFrom).toBeUndefined();
  });
  it('beside some of its kind: the older date where it is most of it, and nothing else', () => {
    const beside = (heldMl: number, more: object, pouredMl: number) =>
      over([holds(7, 'developer', heldMl, more), 50], move(pouredMl));
    expect(beside(300, {}, 300)).toMatchObject({ recipe: null, films: {}, mixedWallMs: 10_000, cameFrom: 2 });
    expect(beside(300, {}, 299)).toMatchObject({ mixedWallMs: null, filledWallMs: 60_000 });
    expect(beside(300, {}, 299).cameFrom).toBeUndefined();
    expect(beside(300, { assumed: true }, 300)).toMatchObject({ filledWallMs: null, mixedWallMs: null });
    expect(beside(DROP_ML, { assumed: true }, 300)).toMatchObject({ recipe: null, mixedWallMs: null });
  });
  it('beside some older of its kind has the date of that', () => {
    const old: Fact = { type: 'bottle-history', bottle: 7, mixedWallMs: 5 };
    expect(over(holds(7, 'developer', 100), old, move(300)).mixedWallMs).toBe(5);
  });
  it('adds what speaks against it to what does already, and takes no other doubt’s place', () => {
    const bad = (more: object): Fact =>
      ({ ...batch, bottle: 7, batch: 'b2', volumeMl: 100, ...more }) as Fact;
    const oxidised: Fact = { type: 'bottle-doubted', bottle: 7, doubt: 'oxidised' };
    expect(over(bad({ checks: { ok: false, why: ['too warm'] } }), oxidised, move(300))).toMatchObject({
      problems: ['too warm', 'weighed short'],
      doubt: 'oxidised',
      unusable: true,
    });
    const sound: Fact = { ...batch, bottle: 3, batch: 'b3', checks: { ok: true, why: [] } } as Fact;
    const into = (first: Fact) => record(told([sound, first, pour(bottle(3), bottle(7), 300)]), 7);
    expect(into(bad({}))).toMatchObject({ problems: ['weighed short'], unusable: true, doubt: null });
    expect(into(bad({ checks: { ok: true, why: [] } }))).toMatchObject({ problems: [], unusable: false });
  });
  it('of another name than its label is a wrong pour, from a drop in the bottle on', () => {
    const wrong = (heldMl: number) =>
      record(
        told([holds(2, 'developer', 600), holds(3, 'stop', heldMl), pour(bottle(2), bottle(3), 100)]),
        3,
      );
    expect(wrong(300).contaminations).toMatchObject([{ liquid: 'developer', volumeMl: 100, intoMl: 300 }]);
    expect(wrong(DROP_ML)).toMatchObject({ liquid: 'stop', contaminations: [{ liquid: 'developer' }] });
    expect(wrong(DROP_ML / 2)).toMatchObject({ liquid: 'developer', contaminations: [] });
  });
  it('splashed into a bottle of which nobody said what it holds is on no record', () => {
    const empty = told([holds(2, null, 0), { type: 'splashed', liquid: 'stop', bottle: 2 }]);
    expect(record(empty).contaminations).toEqual([]);
  });
  it('in a jug, however little, stands there', () => {
    expect(jugsOf(told([holds(2, 'developer', 600), pour(bottle(2), jug, 0.5)]))).toEqual(['developer']);
  });
});
