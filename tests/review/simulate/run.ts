import type { RunHistory, StepHistory } from '../../../src/review/record/history.js';
import type { Scan } from '../../../src/review/scan/density.js';
import { linearTransfer } from '../../../src/review/scan/icc.js';
import { Dice } from './dice.js';
import { type Film, layerDensity, plainTreatment, someFilm, type Treatment } from './film.js';
import { someScene } from './scene.js';

/** A run that went through in the simulator: what is on record, and the scans. */
export interface SimulatedRun {
  history: RunHistory;
  scans: Scan[];
}

/** Everything a fault may touch; the simulator's own state, in physical terms. */
export interface World {
  dice: Dice;
  film: Film;
  treatment: Treatment;
  /** the record, as careful work writes it */
  history: RunHistory;
  /** is this deviation written down? */
  written: boolean;
  /** log light on the film against a normal exposure, for each layer */
  exposure: number[];
  /** log gains of the scan, for each channel */
  scanGain: number[];
  autoLevels: boolean;
  /** density laid over whole frames, the same for all: by place, 0 to 1 across and down */
  overAll: ((x: number, y: number, c: number) => number) | null;
  /** factor on development by place */
  uneven: ((x: number, y: number) => number) | null;
  /** blotches along the edges: density and how many */
  blotches: { density: number; count: number; tall: number } | null;
}

const WIDTH = 108;
const HEIGHT = 80;
const FRAMES = 6;

export function simulate(seed: number, plant: (world: World) => void): SimulatedRun {
  const dice = new Dice(seed);
  const world: World = {
    dice,
    film: someFilm(dice),
    treatment: plainTreatment(),
    history: carefulRecord(dice),
    written: dice.chance(0.92),
    exposure: [0, 0, 0].map(() => dice.normal(0.015)),
    scanGain: [0, 0, 0].map(() => dice.normal(0.012)),
    autoLevels: false,
    overAll: null,
    uneven: null,
    blotches: null,
  };
  const aimed = dice.normal(0.09);
  world.exposure = world.exposure.map((e) => e + aimed);
  smallSlips(world);
  plant(world);
  develop(world);
  const holes = dice.chance(0.75);
  const scans = Array.from({ length: FRAMES }, () => scanOf(world, holes));
  return { history: world.history, scans };
}

/** Development that the record's times, temperatures and baths lead to, whether or not they were written down. */
const actual = new WeakMap<RunHistory, { timeShare: number; offC: number; activity: number[] }>();

export const happened = (world: World): { timeShare: number; offC: number; activity: number[] } => {
  const known = actual.get(world.history);
  if (known) return known;
  const fresh = { timeShare: 1, offC: 0, activity: [1, 1, 1] };
  actual.set(world.history, fresh);
  return fresh;
};

function develop(world: World): void {
  const { timeShare, offC, activity } = happened(world);
  const q10 = 2.6 + world.dice.normal(0.2);
  const speed = timeShare * q10 ** (offC / 10);
  // warmth does not reach the layers alike: diffusion to the lowest gains most
  const byLayer = [1.15, 1, 0.92];
  world.treatment.development = world.treatment.development.map(
    (d, c) => d * speed ** (byLayer[c] as number) * (activity[c] as number),
  );
}

export const stepNamed = (history: RunHistory, id: string): StepHistory => {
  const step = history.steps.find((s) => s.id === id);
  if (!step) throw new Error(`no step ${id}`);
  return step;
};

/** Slips that everybody makes and that do nothing to speak of. */
function smallSlips(world: World): void {
  const { dice, history } = world;
  if (dice.chance(0.15)) {
    const step = dice.pick(history.steps.filter((s) => s.timeS !== null && s.id !== 'developer'));
    if (step.contactS !== null) step.contactS *= dice.between(1.1, 1.5);
  }
  if (dice.chance(0.1)) {
    const [film] = history.films;
    if (film) film.yearsExpired = 1;
  }
  if (dice.chance(0.1)) history.slips.push({ what: '5 ml of water spilled', kind: 'spill', atS: 30 });
}

const stepPlan: readonly [string, string, StepHistory['role'], number | null, number][] = [
  ['prebath', 'prebath', 'backing-remover', 10, 27],
  ['backing-removal', 'water', 'water', null, 38],
  ['developer', 'developer', 'developer', 180, 41.1],
  ['stop', 'stop', 'stop', 30, 38],
  ['wash-after-stop', 'water', 'water', 30, 38],
  ['bleach', 'bleach', 'bleach', 180, 38],
  ['wash-after-bleach', 'water', 'water', 60, 38],
  ['fixer', 'fixer', 'fixer', 120, 38],
  ['wash-after-fixer', 'water', 'water', 120, 38],
  ['final-rinse', 'final-rinse', 'rinse', 10, 38],
];

const keeps: Readonly<Record<string, number>> = {
  prebath: 90,
  developer: 7,
  stop: 90,
  bleach: 180,
  fixer: 60,
  'final-rinse': 7,
};

function carefulRecord(dice: Dice): RunHistory {
  let atS = 0;
  const steps = stepPlan.map(([id, liquid, role, aimS, aimC]): StepHistory => {
    const contactS =
      aimS === null ? dice.between(25, 60) : aimS + dice.normal(aimS * 0.008) + dice.between(0, 1.5);
    const started = atS;
    atS += contactS + dice.between(8, 15);
    const precise = id === 'developer';
    const measured = dice.chance(precise ? 0.95 : 0.6);
    return {
      id,
      name: id.replaceAll('-', ' '),
      liquid,
      role,
      done: true,
      startedAtS: started,
      contactS,
      timeS: aimS === null ? null : { aim: aimS, low: aimS * 0.97, high: aimS * 1.1 },
      fillS: dice.chance(0.8) ? dice.between(4, 9) : null,
      tempC: { aim: aimC, low: aimC - (precise ? 0.1 : 5), high: aimC + (precise ? 0.1 : 3) },
      temps: measured ? [{ atS: 0, tempC: aimC + dice.normal(precise ? 0.08 : 0.8) }] : [],
      agitation: precise ? { calls: 12, missed: dice.chance(0.7) ? (dice.chance(0.2) ? 1 : 0) : null } : null,
      heldS: 0,
      outOfOrder: false,
    };
  });
  const known = dice.chance(0.88);
  const baths = (['prebath', 'developer', 'stop', 'bleach', 'fixer', 'final-rinse'] as const).map(
    (liquid) => ({
      liquid,
      role: stepPlan.find(([, l]) => l === liquid)?.[2] ?? ('water' as const),
      bottle: 1,
      batch: null,
      ageDays: known ? (keeps[liquid] ?? 30) * dice.between(0.02, 0.85) : null,
      keepsDays: keeps[liquid] ?? null,
      loadShare: known ? dice.between(0, 0.8) : null,
      ph: liquid === 'developer' && dice.chance(0.6) ? 10.25 + dice.normal(0.015) : null,
      phAim: liquid === 'developer' ? 10.25 : null,
      strength: liquid === 'developer' && known ? 1 + dice.normal(0.01) : null,
      foreign:
        liquid === 'developer' && dice.chance(0.2)
          ? [{ liquid: 'prebath', share: dice.between(0, 0.006) }]
          : [],
      mixing: [],
    }),
  );
  const tungsten = dice.chance(0.5);
  return {
    runId: 'simulated',
    sheetName: 'ECN-2',
    rate: 'ecn-2',
    startedWallMs: 0,
    endedWallMs: atS * 1000,
    complete: true,
    tankMl: 500,
    films: [
      {
        stock: tungsten ? '500T' : '250D',
        format: '35mm',
        count: 1,
        pushStops: null,
        ratedAboveStops: dice.chance(0.5) ? dice.pick([0, 0, 0, -0.3, 0.3, -1]) : null,
        balance: tungsten ? 'tungsten' : 'daylight',
        exposedIn: dice.chance(0.5) ? (tungsten ? 'tungsten' : 'daylight') : null,
        yearsExpired: dice.chance(0.6) ? 0 : null,
        keptWarm: null,
      },
    ],
    steps,
    baths,
    slips: [],
  };
}

/** One frame with a clear edge above and below, through the film and a scanner with its own noise. */
function scanOf(world: World, holes: boolean): Scan {
  const { dice, film, treatment } = world;
  const edge = 9;
  const scene = someScene(dice, WIDTH, HEIGHT - 2 * edge);
  const frameExposure = dice.normal(0.07);
  const density = new Float32Array(WIDTH * HEIGHT * 3);
  const curves = tabled(film, treatment);
  for (let y = 0; y < HEIGHT; y++)
    for (let x = 0; x < WIDTH; x++) {
      const at = (y * WIDTH + x) * 3;
      const inside = y >= edge && y < HEIGHT - edge;
      const u = x / WIDTH;
      const v = y / HEIGHT;
      let mean = 0;
      for (let c = 0; c < 3; c++) {
        const logE = inside
          ? (scene[((y - edge) * WIDTH + x) * 3 + c] as number) +
            (world.exposure[c] as number) +
            frameExposure
          : -9;
        const d = curves(world.uneven ? world.uneven(u, v) : 1, c, logE);
        density[at + c] = d;
        mean += (d - (film.fog[c] as number)) / 3;
      }
      for (let c = 0; c < 3; c++)
        density[at + c] =
          (density[at + c] as number) +
          (film.base[c] as number) +
          treatment.silver * Math.max(0, mean) +
          treatment.haze * (1 + 0.15 * c) +
          (world.overAll ? world.overAll(u, v, c) : 0);
    }
  if (world.blotches) blotch(density, world.dice, world.blotches, edge);
  return digitise(density, world, holes ? edge : 0);
}

/** The characteristic curves as tables, one for each hundredth of local development; unexposed film lies below them. */
function tabled(film: Film, treatment: Treatment): (local: number, c: number, logE: number) => number {
  const kept = new Map<number, Float32Array[]>();
  return (local, c, logE) => {
    const key = Math.round(local * 100);
    let table = kept.get(key);
    if (!table) {
      const t = { ...treatment, development: treatment.development.map((d) => (d * key) / 100) };
      table = [0, 1, 2].map((layer) =>
        Float32Array.from({ length: 600 }, (_, i) => layerDensity(film, t, layer, -4 + i / 100)),
      );
      kept.set(key, table);
    }
    const i = Math.min(599, Math.max(0, Math.round((logE + 4) * 100)));
    return (table[c] as Float32Array)[i] as number;
  };
}

function blotch(density: Float32Array, dice: Dice, b: NonNullable<World['blotches']>, edge: number): void {
  for (let k = 0; k < b.count; k++) {
    const w = Math.ceil(dice.between(3, 9));
    const h = Math.ceil(dice.between(2, b.tall));
    const x0 = Math.floor(dice.between(0, WIDTH - w));
    const y0 = dice.chance(0.5)
      ? Math.floor(dice.between(0, edge))
      : HEIGHT - edge + Math.floor(dice.between(0, edge - 2));
    const d = b.density * dice.between(0.4, 1.3);
    for (let y = y0; y < Math.min(HEIGHT, y0 + h); y++)
      for (let x = x0; x < x0 + w; x++)
        for (let c = 0; c < 3; c++) {
          const i = (y * WIDTH + x) * 3 + c;
          density[i] = (density[i] as number) + d;
        }
  }
}

function digitise(density: Float32Array, world: World, holeRows: number): Scan {
  const { dice } = world;
  const data = new Uint16Array(WIDTH * HEIGHT * 3);
  const light = 0.93;
  const linear = new Float32Array(density.length);
  for (let i = 0; i < density.length; i++) {
    const c = i % 3;
    const pixel = Math.floor(i / 3);
    const x = pixel % WIDTH;
    const y = Math.floor(pixel / WIDTH);
    const hole = holeRows > 0 && y >= 1 && y < holeRows - 3 && x % 22 < 8;
    const d = (hole ? 0 : (density[i] as number)) + dice.normal(0.008) - (world.scanGain[c] as number);
    linear[i] = Math.min(1, light * Math.exp(-Math.LN10 * d));
  }
  const codes = linear;
  if (world.autoLevels) stretch(codes, world.dice, holeRows);
  for (let i = 0; i < codes.length; i++)
    data[i] = Math.round(Math.min(1, Math.max(0, codes[i] as number)) * 65535);
  return { width: WIDTH, height: HEIGHT, data, codes: 65536, transfer: linearTransfer };
}

/** Each colour by itself from its own darkest to its own lightest part, as scanning software does on a crop of the film. */
function stretch(codes: Float32Array, dice: Dice, holeRows: number): void {
  for (let c = 0; c < 3; c++) {
    const values: number[] = [];
    for (let y = holeRows > 0 ? holeRows - 3 : 0; y < HEIGHT - holeRows; y++)
      for (let x = 0; x < WIDTH; x++) values.push(codes[(y * WIDTH + x) * 3 + c] as number);
    values.sort((a, b) => a - b);
    const cut = dice.between(0.004, 0.015);
    const low = values[Math.floor(values.length * cut)] as number;
    const high = values[Math.floor(values.length * (1 - cut))] as number;
    for (let i = c; i < codes.length; i += 3) codes[i] = ((codes[i] as number) - low) / (high - low);
  }
}
