import type { Totals } from '../../src/chemistry/solution/solver.js';

/**
 * An ionic equilibrium by Pitzer's equations, written apart from the product's own (which is SIT), to hold it against.
 * Form: Harvie, Møller, Weare, Geochim. Cosmochim. Acta 48 (1984) 723. Constants at 25 °C of H, Na, K, OH, Cl, Br, SO4,
 * CO3, borates and their neutrals: USGS pitzer.dat (usgs-coupled/phreeqc3, commit 08a4a9ce), opened. Sulphite,
 * bisulphite, acetate, ammonium and thiosulphate are not in that file: Pitzer, Mayorga, J. Phys. Chem. 77 (1973) 2300 and
 * Rosenblatt, AIChE J. 27 (1981) 619, from memory.
 */
const charge: Record<string, number> = {
  H: 1,
  Na: 1,
  K: 1,
  NH4: 1,
  OH: -1,
  Cl: -1,
  Br: -1,
  HCO3: -1,
  CO3: -2,
  HSO4: -1,
  SO4: -2,
  B4: -1,
  B3O3: -1,
  B4O5: -2,
  HSO3: -1,
  SO3: -2,
  S2O3: -2,
  Ac: -1,
  CO2: 0,
  B3: 0,
  HAc: 0,
  SO2: 0,
  NH3: 0,
  Cit: -3,
  HCit: -2,
  H2Cit: -1,
  H3Cit: 0,
  I: -1,
};

/** cation, anion: β0, β1, Cφ */
const pairs: Record<string, readonly [number, number, number]> = {
  'H Cl': [0.1775, 0.2945, 0.0008],
  'H Br': [0.196, 0.3564, 0.00827],
  'H SO4': [0.0298, 0, 0.0438],
  'H HSO4': [0.2065, 0.5556, 0],
  'Na Cl': [0.0765, 0.2664, 0.00127],
  'Na Br': [0.0973, 0.2791, 0.00116],
  'Na OH': [0.0864, 0.253, 0.0044],
  'Na SO4': [0.01958, 1.113, 0.00497],
  'Na HSO4': [0.0454, 0.398, 0],
  'Na CO3': [0.0399, 1.389, 0.0044],
  'Na HCO3': [0.0277, 0.0411, 0],
  'Na B4': [-0.0427, 0.089, 0.0114],
  'Na B3O3': [-0.056, -0.91, 0],
  'Na B4O5': [-0.11, -0.4, 0],
  'K Cl': [0.04835, 0.2122, -0.00084],
  'K Br': [0.0569, 0.2212, -0.0018],
  'K OH': [0.1298, 0.32, 0.0041],
  'K SO4': [0.04995, 0.7793, 0],
  'K HSO4': [-0.0003, 0.1735, 0],
  'K CO3': [0.1488, 1.43, -0.0015],
  'K HCO3': [0.0296, -0.013, -0.008],
  'K B4': [0.035, 0.14, 0],
  'K B3O3': [-0.13, 0, 0],
  'K B4O5': [-0.022, 0, 0],
  // from memory
  'Na SO3': [0.08, 1.185, -0.00436],
  'Na HSO3': [0.0249, 0.2455, 0.0004],
  'Na Ac': [0.1426, 0.3237, -0.00629],
  'K Ac': [0.1587, 0.3251, -0.0066],
  'Na S2O3': [0.0661, 1.2762, 0.0037],
  'NH4 Cl': [0.0522, 0.1918, -0.00301],
  'NH4 SO4': [0.0409, 0.6585, -0.00116],
  'Na I': [0.1195, 0.3439, 0.0018],
  'K I': [0.0746, 0.2517, -0.00414],
  'H I': [0.2362, 0.392, 0.0011],
  // taken as the sulphate's and the bromide's
  'NH4 S2O3': [0.0409, 0.6585, -0.00116],
  'NH4 SO3': [0.0409, 0.6585, -0.00116],
  'NH4 HSO3': [0.0249, 0.2455, 0],
  'NH4 Br': [0.0624, 0.1947, -0.00436],
  'NH4 Ac': [0.1426, 0.3237, -0.00629],
};

const theta: Record<string, number> = {
  'B4 Cl': -0.065,
  'B4 SO4': -0.012,
  'B3O3 Cl': 0.12,
  'B3O3 HCO3': -0.1,
  'B3O3 SO4': 0.1,
  'B4O5 Cl': 0.074,
  'B4O5 HCO3': -0.087,
  'B4O5 SO4': 0.12,
  'Br OH': -0.065,
  'Cl CO3': -0.02,
  'Cl HCO3': 0.03,
  'Cl HSO4': -0.006,
  'Cl OH': -0.05,
  'Cl SO4': 0.02,
  'CO3 OH': 0.1,
  'CO3 SO4': 0.02,
  'H K': 0.005,
  'H Na': 0.036,
  'HCO3 CO3': -0.04,
  'HCO3 SO4': 0.01,
  'K Na': -0.012,
  'OH SO4': -0.013,
};

const lambda: Record<string, number> = {
  'B3 Cl': 0.091,
  'B3 K': -0.14,
  'B3 Na': -0.097,
  'B3 SO4': 0.018,
  'B3 B3O3': -0.2,
  'CO2 Cl': -0.005,
  'CO2 HSO4': -0.003,
  'CO2 K': 0.051,
  'CO2 Na': 0.085,
  'CO2 SO4': 0.097,
};

const zeta: readonly [string, string, string, number][] = [
  ['B3', 'H', 'Cl', -0.0102],
  ['B3', 'Na', 'SO4', 0.046],
  ['CO2', 'Na', 'SO4', -0.015],
];

const psi: readonly [string, string, string, number][] = [
  ['Na', 'CO3', 'HCO3', 0.002],
  ['K', 'CO3', 'HCO3', 0.012],
  ['CO3', 'K', 'Na', 0.003],
  ['Na', 'CO3', 'OH', -0.017],
  ['Na', 'CO3', 'SO4', -0.005],
  ['Na', 'HCO3', 'SO4', -0.005],
  ['HCO3', 'K', 'Na', -0.003],
  ['Na', 'HSO4', 'SO4', -0.0094],
  ['K', 'HSO4', 'SO4', -0.0677],
  ['HSO4', 'H', 'Na', -0.0129],
  ['HSO4', 'H', 'K', -0.0265],
  ['SO4', 'H', 'K', 0.197],
  ['SO4', 'K', 'Na', -0.01],
  ['Na', 'OH', 'SO4', -0.009],
  ['K', 'OH', 'SO4', -0.05],
  ['Na', 'Cl', 'CO3', 0.0085],
  ['Na', 'Cl', 'HCO3', -0.015],
  ['Na', 'Cl', 'SO4', 0.0014],
  ['Na', 'Cl', 'OH', -0.006],
  ['Na', 'B4', 'Cl', -0.0073],
  ['Br', 'K', 'Na', -0.0022],
  ['Br', 'Na', 'H', -0.012],
];

interface System {
  total: keyof Totals;
  /** least protonated first; `boron`: monomers in one species */
  species: readonly string[];
  /** log10 of the constant that adds one proton to the one before */
  logK: readonly number[];
}

const systems: readonly System[] = [
  { total: 'carbonate', species: ['CO3', 'HCO3', 'CO2'], logK: [10.3393, 6.3374] },
  { total: 'sulfate', species: ['SO4', 'HSO4'], logK: [1.979] },
  { total: 'sulfite', species: ['SO3', 'HSO3', 'SO2'], logK: [7.18, 1.89] },
  { total: 'acetate', species: ['Ac', 'HAc'], logK: [4.757] },
  // constants from the CRC Handbook, from memory; in baths of some hundredths of a mole the limiting law is enough
  { total: 'citrate', species: ['Cit', 'HCit', 'H2Cit', 'H3Cit'], logK: [6.396, 4.761, 3.128] },
  { total: 'ammonia', species: ['NH3', 'NH4'], logK: [9.244] },
];
const spectators: readonly [keyof Totals, string][] = [
  ['Na', 'Na'],
  ['K', 'K'],
  ['Cl', 'Cl'],
  ['Br', 'Br'],
  ['I', 'I'],
  ['thiosulfate', 'S2O3'],
];
const logKw = -13.995;
const boric = { b4: -9.239, b3o3: -7.528, b4o5: -16.134 };
const aPhi = 0.3915;

type Molal = Record<string, number>;

const g = (x: number): number => (x === 0 ? 0 : (2 * (1 - (1 + x) * Math.exp(-x))) / (x * x));
const gPrime = (x: number): number =>
  x === 0 ? 0 : (-2 * (1 - (1 + x + (x * x) / 2) * Math.exp(-x))) / (x * x);

/** Pitzer's own approximation of the unsymmetrical mixing integral. */
const j = (x: number): number => x / (4 + 4.581 * x ** -0.7237 * Math.exp(-0.012 * x ** 0.528));
function eTheta(zi: number, zj: number, ionic: number): { value: number; slope: number } {
  if (zi === zj || ionic <= 0) return { value: 0, slope: 0 };
  const at = (i: number): number => {
    const x = (a: number, b: number): number => 6 * a * b * aPhi * Math.sqrt(i);
    return ((zi * zj) / (4 * i)) * (j(x(zi, zj)) - j(x(zi, zi)) / 2 - j(x(zj, zj)) / 2);
  };
  const step = ionic * 1e-4;
  return { value: at(ionic), slope: (at(ionic + step) - at(ionic - step)) / (2 * step) };
}

const both = (table: Record<string, number>, a: string, b: string): number =>
  table[`${a} ${b}`] ?? table[`${b} ${a}`] ?? 0;

/** Natural logarithms of all activity coefficients. */
function logGammas(m: Molal): Molal {
  const names = Object.keys(m);
  const cations = names.filter((n) => (charge[n] ?? 0) > 0);
  const anions = names.filter((n) => (charge[n] ?? 0) < 0);
  const neutrals = names.filter((n) => charge[n] === 0);
  const of = (n: string): number => m[n] ?? 0;
  const z = (n: string): number => charge[n] ?? 0;
  const ionic = names.reduce((s, n) => s + of(n) * z(n) ** 2, 0) / 2;
  const root = Math.sqrt(ionic);
  const bigZ = names.reduce((s, n) => s + of(n) * Math.abs(z(n)), 0);
  const p = (c: string, a: string) => pairs[`${c} ${a}`] ?? [0, 0, 0];
  const b = (c: string, a: string): number => p(c, a)[0] + p(c, a)[1] * g(2 * root);
  const bPrime = (c: string, a: string): number => (p(c, a)[1] * gPrime(2 * root)) / ionic;
  const c3 = (c: string, a: string): number => p(c, a)[2] / (2 * Math.sqrt(Math.abs(z(c) * z(a))));
  const phi = (x: string, y: string) => {
    const e = eTheta(z(x), z(y), ionic);
    return { value: both(theta, x, y) + e.value, slope: e.slope };
  };
  const triple = (x: string, y: string, w: string): number =>
    psi.find(([q, r, s]) => [q, r, s].sort().join() === [x, y, w].sort().join())?.[3] ?? 0;
  let f = -aPhi * (root / (1 + 1.2 * root) + (2 / 1.2) * Math.log(1 + 1.2 * root));
  let sumC = 0;
  for (const c of cations)
    for (const a of anions) {
      f += of(c) * of(a) * bPrime(c, a);
      sumC += of(c) * of(a) * c3(c, a);
    }
  for (const group of [cations, anions])
    group.forEach((x, i) => {
      for (const y of group.slice(i + 1)) f += of(x) * of(y) * phi(x, y).slope;
    });
  const out: Molal = {};
  for (const [same, other] of [
    [cations, anions],
    [anions, cations],
  ] as const) {
    for (const x of same) {
      let ln = z(x) ** 2 * f + Math.abs(z(x)) * sumC;
      for (const y of other) {
        const [c, a] = same === cations ? [x, y] : [y, x];
        ln += of(y) * (2 * b(c, a) + bigZ * c3(c, a));
      }
      for (const y of same) {
        if (y !== x) ln += of(y) * 2 * phi(x, y).value;
        if (y !== x) for (const w of other) ln += of(y) * of(w) * triple(x, y, w);
      }
      other.forEach((y, i) => {
        for (const w of other.slice(i + 1)) ln += of(y) * of(w) * triple(x, y, w);
      });
      for (const n of neutrals) ln += 2 * of(n) * both(lambda, n, x);
      for (const [n, c, a, value] of zeta) {
        if (x === c) ln += of(n) * of(a) * value;
        if (x === a) ln += of(n) * of(c) * value;
      }
      out[x] = ln;
    }
  }
  for (const n of neutrals) {
    let ln = 0;
    for (const x of [...cations, ...anions]) ln += 2 * of(x) * both(lambda, n, x);
    for (const [name, c, a, value] of zeta) if (n === name) ln += of(c) * of(a) * value;
    out[n] = ln;
  }
  return out;
}

/** Species at a pH on the activity scale, mass balance exact. */
function speciate(totals: Totals, ph: number, gamma: Molal): Molal {
  const log10 = (n: string): number => (gamma[n] ?? 0) / Math.LN10;
  const m: Molal = { H: 10 ** (-ph - log10('H')), OH: 10 ** (logKw + ph - log10('OH')) };
  for (const [id, name] of spectators) if ((totals[id] ?? 0) > 0) m[name] = totals[id] ?? 0;
  for (const s of systems) {
    const total = totals[s.total] ?? 0;
    if (total <= 0) continue;
    let log = 0;
    const logs = s.species.map((name, i) => {
      if (i > 0) log += (s.logK[i - 1] ?? 0) - ph;
      return log - log10(name);
    });
    const top = Math.max(...logs);
    const sum = logs.reduce((t, l) => t + 10 ** (l - top), 0);
    s.species.forEach((name, i) => {
      m[name] = (total * 10 ** ((logs[i] ?? 0) - top)) / sum;
    });
  }
  const boron = totals.borate ?? 0;
  if (boron > 0) {
    const k4 = 10 ** (boric.b4 + ph + log10('B3') - log10('B4'));
    const k33 = 10 ** (boric.b3o3 + ph + 3 * log10('B3') - log10('B3O3'));
    const k45 = 10 ** (boric.b4o5 + 2 * ph + 4 * log10('B3') - log10('B4O5'));
    let low = 0;
    let high = boron;
    for (let i = 0; i < 80; i++) {
      const x = (low + high) / 2;
      if (x * (1 + k4) + 3 * k33 * x ** 3 + 4 * k45 * x ** 4 > boron) high = x;
      else low = x;
    }
    Object.assign(m, { B3: low, B4: k4 * low, B3O3: k33 * low ** 3, B4O5: k45 * low ** 4 });
  }
  return m;
}

/** pH of a mixture at 25 °C. Totals that this solver does not know must be absent. */
export function pitzerPh(totals: Totals): number {
  let gamma: Molal = {};
  let ph = 7;
  for (let round = 0; round < 200; round++) {
    let low = -1;
    let high = 15;
    for (let i = 0; i < 60; i++) {
      ph = (low + high) / 2;
      const m = speciate(totals, ph, gamma);
      const net = Object.entries(m).reduce((s, [n, x]) => s + x * (charge[n] ?? 0), 0);
      if (net > 0) low = ph;
      else high = ph;
    }
    const next = logGammas(speciate(totals, ph, gamma));
    const moved = Math.max(...Object.keys(next).map((n) => Math.abs((next[n] ?? 0) - (gamma[n] ?? 0))));
    gamma = Object.fromEntries(Object.keys(next).map((n) => [n, ((next[n] ?? 0) + (gamma[n] ?? 0)) / 2]));
    if (moved < 1e-7) break;
  }
  return ph;
}

/** Kinds this solver knows. */
export const pitzerKnows = new Set<string>([
  ...systems.map((s) => s.total),
  ...spectators.map(([id]) => id),
  'borate',
]);
