import type { CauseId } from '../../../src/review/why/causes.js';
import { happened, stepNamed, type World } from './run.js';

const bath = (w: World, liquid: string) => {
  const found = w.history.baths.find((b) => b.liquid === liquid);
  if (!found) throw new Error(`no bath ${liquid}`);
  return found;
};

/** What each fault does to film, scan and record, in physical terms. Chosen before the cause table was weighed against it. */
export const faults: Readonly<Record<CauseId, (w: World) => void>> = {
  'film-aged': (w) => {
    const { dice, treatment } = w;
    const years = dice.between(6, 25);
    const warm = dice.chance(0.3);
    const age = (years / 15) * (warm ? 1.5 : 1);
    treatment.fogAdded = [0.09, 0.11, 0.2].map((f) => f * age * dice.between(0.7, 1.3));
    treatment.gammaLost = [0.06, 0.07, 0.13].map((g) => Math.min(0.4, g * age));
    treatment.speedLost = [0.12, 0.15, 0.22].map((s) => s * age);
    const [film] = w.history.films;
    if (film) {
      film.yearsExpired = w.written ? Math.round(years) : null;
      film.keptWarm = warm && w.written ? true : null;
    }
  },
  'dev-short': (w) => {
    const share = w.dice.between(0.72, 0.9);
    happened(w).timeShare = share;
    stepNamed(w.history, 'developer').contactS = 180 * share;
  },
  'dev-long': (w) => {
    const share = w.dice.between(1.14, 1.5);
    happened(w).timeShare = share;
    stepNamed(w.history, 'developer').contactS = 180 * share;
  },
  'dev-cold': (w) => temperature(w, -w.dice.between(1.2, 5)),
  'dev-warm': (w) => temperature(w, w.dice.between(1.2, 4)),
  'dev-ph-low': (w) => acidity(w, -w.dice.between(0.15, 0.45)),
  'dev-ph-high': (w) => acidity(w, w.dice.between(0.15, 0.45)),
  'dev-weak': (w) => {
    const left = w.dice.between(0.5, 0.85);
    happened(w).activity = [left ** 1.1, left, left ** 0.95];
    const developer = bath(w, 'developer');
    const how = w.dice.pick(['aged', 'loaded', 'weighed'] as const);
    if (!w.written) {
      developer.ageDays = null;
      developer.loadShare = null;
      developer.strength = null;
    } else if (how === 'aged') developer.ageDays = 7 * w.dice.between(1.6, 5);
    else if (how === 'loaded') developer.loadShare = w.dice.between(1.3, 2.5);
    else developer.strength = left;
  },
  'dev-strong': (w) => {
    const more = w.dice.between(1.2, 2);
    happened(w).activity = [more ** 0.6, more ** 0.6, more ** 0.6];
    if (w.written) bath(w, 'developer').strength = more;
  },
  'dev-contaminated': (w) => {
    const { dice, treatment } = w;
    const liquid = dice.pick(['bleach', 'fixer', 'stop'] as const);
    const share = dice.between(0.01, 0.05) * (liquid === 'stop' ? 1.5 : 1);
    const fog = share * dice.between(4, 10);
    treatment.fogAdded = [0.9, 1.1, 1.2].map((f) => f * fog * dice.between(0.6, 1.4));
    const slowed = 1 - share * dice.between(2, 6);
    happened(w).activity = [slowed, slowed * dice.between(0.93, 1.07), slowed * dice.between(0.9, 1.05)];
    if (w.written) bath(w, 'developer').foreign = [{ liquid, share }];
    if (liquid === 'stop' && bath(w, 'developer').ph !== null) bath(w, 'developer').ph = 10.25 - share * 3;
  },
  'agitation-poor': (w) => {
    const { dice } = w;
    const less = dice.between(0.78, 0.92);
    happened(w).activity = [less, less, less];
    const deep = dice.between(0.12, 0.3);
    const [px, py] = [dice.between(0, 6), dice.between(0, 6)];
    w.uneven = (x, y) => 1 + deep * Math.sin(3 * x + px) * Math.cos(3.5 * y + py);
    const { agitation } = stepNamed(w.history, 'developer');
    if (agitation) agitation.missed = w.written ? Math.round(dice.between(4, 11)) : null;
  },
  'silver-retained': (w) => {
    const { dice } = w;
    w.treatment.silver = dice.between(0.3, 0.8);
    const step = stepNamed(w.history, 'bleach');
    const bleach = bath(w, 'bleach');
    const how = dice.pick(['short', 'left-out', 'worn', 'old', 'cold', 'spoilt'] as const);
    if (!w.written && how !== 'short' && how !== 'left-out') {
      bleach.ageDays = null;
      bleach.loadShare = null;
    } else if (how === 'short') step.contactS = 180 * dice.between(0.25, 0.7);
    else if (how === 'left-out') {
      step.done = false;
      step.contactS = null;
      step.temps = [];
    } else if (how === 'worn') bleach.loadShare = dice.between(1.3, 3);
    else if (how === 'old') bleach.ageDays = 180 * dice.between(1.4, 3);
    else if (how === 'cold') step.temps = [{ atS: 0, tempC: dice.between(18, 26) }];
    else bleach.foreign = [{ liquid: dice.pick(['developer', 'fixer']), share: dice.between(0.05, 0.2) }];
  },
  'halide-retained': (w) => {
    const { dice } = w;
    w.treatment.haze = dice.between(0.1, 0.35);
    const step = stepNamed(w.history, 'fixer');
    const fixer = bath(w, 'fixer');
    const how = dice.pick(['short', 'left-out', 'worn', 'old'] as const);
    if (how === 'short') step.contactS = 120 * dice.between(0.2, 0.65);
    else if (how === 'left-out') {
      step.done = false;
      step.contactS = null;
      step.temps = [];
    } else if (!w.written) {
      fixer.ageDays = null;
      fixer.loadShare = null;
    } else if (how === 'worn') fixer.loadShare = dice.between(1.3, 3);
    else fixer.ageDays = 60 * dice.between(1.4, 3);
  },
  'stop-missed': (w) => {
    const { dice } = w;
    const step = stepNamed(w.history, 'stop');
    step.done = false;
    step.contactS = null;
    const stain = dice.between(0.05, 0.25);
    w.treatment.fogAdded = [0.7, 1.1, 0.9].map((f) => f * stain);
    const [px, py] = [dice.between(0, 6), dice.between(0, 6)];
    const deep = dice.between(0, 0.12);
    w.overAll = (x, y) => deep * (1 + Math.sin(3 * x + px) * Math.sin(3 * y + py));
  },
  'scan-light': (w) => {
    const { dice } = w;
    const tint = dice.between(0.2, 0.5) * dice.pick([-1, 1]);
    const green = dice.normal(0.06);
    w.scanGain = [tint, green, -tint].map((g, c) => g + (w.scanGain[c] as number));
    const darkest = Math.max(...w.scanGain);
    // exposed so that nothing is cut off
    w.scanGain = w.scanGain.map((g) => g - Math.max(0, darkest));
  },
  'scan-automatic': (w) => {
    w.autoLevels = true;
  },
  'light-too-blue': (w) => {
    const share = w.dice.between(0.8, 1.15);
    w.exposure = w.exposure.map((e, c) => e + ([-0.26, 0.02, 0.42][c] as number) * share);
    const [film] = w.history.films;
    if (!film) return;
    film.stock = '500T';
    film.balance = 'tungsten';
    film.exposedIn = w.dice.chance(0.5) && w.written ? 'daylight' : null;
  },
  'light-too-orange': (w) => {
    const share = w.dice.between(0.8, 1.15);
    w.exposure = w.exposure.map((e, c) => e + ([0.24, -0.03, -0.44][c] as number) * share);
    const [film] = w.history.films;
    if (!film) return;
    film.stock = '250D';
    film.balance = 'daylight';
    film.exposedIn = w.dice.chance(0.5) && w.written ? 'tungsten' : null;
  },
  'exposed-little': (w) => exposed(w, -w.dice.between(1.7, 3)),
  'exposed-much': (w) => exposed(w, w.dice.between(2.4, 4)),
  'light-struck': (w) => {
    const { dice } = w;
    const strong = dice.between(0.2, 0.7);
    const from = dice.pick([0, 1]);
    const reach = dice.between(0.25, 0.8);
    w.overAll = (x, _y, c) => strong * Math.exp(-Math.abs(x - from) / reach) * ([1.1, 1, 0.8][c] as number);
  },
  'backing-left': (w) => {
    w.blotches = { density: w.dice.between(0.25, 0.55), count: Math.ceil(w.dice.between(14, 30)), tall: 9 };
    const step = stepNamed(w.history, 'prebath');
    if (w.dice.chance(0.5)) {
      step.done = false;
      step.contactS = null;
    }
  },
  'drying-marks': (w) => {
    w.blotches = { density: w.dice.between(0.12, 0.3), count: Math.ceil(w.dice.between(12, 26)), tall: 6 };
    const step = stepNamed(w.history, 'final-rinse');
    if (w.dice.chance(0.9)) {
      step.done = false;
      step.contactS = null;
    }
  },
};

function temperature(w: World, offC: number): void {
  happened(w).offC = offC;
  stepNamed(w.history, 'developer').temps = w.written ? [{ atS: 0, tempC: 41.1 + offC }] : [];
}

function acidity(w: World, off: number): void {
  const per = 10 ** (0.75 * off);
  happened(w).activity = [per, per, per ** 1.35];
  if (off > 0) w.treatment.fogAdded = [0.1, 0.16, 0.35].map((f) => f * off * 1.5);
  bath(w, 'developer').ph = w.written ? 10.25 + off : null;
}

function exposed(w: World, stops: number): void {
  w.exposure = w.exposure.map((e) => e + stops * Math.log10(2));
  const [film] = w.history.films;
  if (film) film.ratedAboveStops = w.dice.chance(0.6) && w.written ? -stops + w.dice.normal(0.2) : null;
}
