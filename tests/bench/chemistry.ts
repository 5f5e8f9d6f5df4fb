/**
 * Speed and certainty of the equilibrium solver. Prints solutions per second, the same for a plain bisection (no
 * Newton, no warm start) in the same run, and how many of 100,000 random mixtures converged. Run:
 * `npx tsc --rootDir . --outDir dist/.bench --module nodenext --target es2022 --skipLibCheck tests/bench/chemistry.ts`
 * then `node dist/.bench/tests/bench/chemistry.js`.
 */
import { debyeHuckelSlope } from '../../src/chemistry/solution/activity.js';
import { fillSpecies, layoutFor } from '../../src/chemistry/solution/layout.js';
import { solveEquilibrium, type Totals } from '../../src/chemistry/solution/solver.js';
import { acidSystems, ionCharges, type TotalId } from '../../src/chemistry/solution/species.js';
import { checkBatches } from '../chemistry/batches-by-chance.js';
import { checkSlips, slipKinds } from '../chemistry/slips-by-chance.js';
import { pitzerPh } from '../outside/pitzer.js';
import { known, mixtures, ours } from '../outside/pitzer-mixtures.js';
import { seeded } from '../seeded.js';

const ids = [...acidSystems.map((s) => s.id), ...Object.keys(ionCharges)] as TotalId[];

function mixture(next: () => number): { totals: Totals; tempC: number } {
  const totals: Partial<Record<TotalId, number>> = {};
  const kinds = 1 + Math.floor(next() * 8);
  for (let i = 0; i < kinds; i++) {
    const id = ids[Math.floor(next() * ids.length)];
    if (id !== undefined) totals[id] = 10 ** (-9 + next() * 9.477);
  }
  return { totals, tempC: next() * 60 };
}

/** Baseline: fixed bracket, halving only, activity renewed from a cold start each round. */
function bisect(totals: Totals, tempC: number): number {
  const layout = layoutFor(totals);
  const terms = layout.termsAt(tempC);
  const n = layout.names.length;
  const logG = new Float64Array(n);
  const m = new Float64Array(n);
  const slope = debyeHuckelSlope(tempC);
  let ph = 7;
  for (let round = 0; round < 100; round++) {
    let low = -3;
    let high = 17;
    while (high - low > 1e-13) {
      const mid = (low + high) / 2;
      if (fillSpecies(layout, terms, logG, mid, m).charge > 0) low = mid;
      else high = mid;
    }
    const moved = Math.abs(ph - low);
    ph = low;
    let i2 = 0;
    for (let i = 0; i < n; i++) i2 += (m[i] ?? 0) * (layout.charges[i] ?? 0) ** 2;
    const root = Math.sqrt(i2 / 2);
    for (let i = 0; i < n; i++) {
      logG[i] = (-((layout.charges[i] ?? 0) ** 2) * slope * root) / (1 + (layout.sizes[i] ?? 1.5) * root);
    }
    for (const [i, j, e] of layout.pairs) {
      logG[i] = (logG[i] ?? 0) + e * (m[j] ?? 0);
      logG[j] = (logG[j] ?? 0) + e * (m[i] ?? 0);
    }
    if (moved < 1e-10 && round > 0) break;
  }
  return ph;
}

const developer: Totals = {
  Na: 0.5586,
  carbonate: 0.2736,
  sulfite: 0.0159,
  Br: 0.0117,
  cd3: 0.00916,
  sulfate: 0.01374,
};

function perSecond(work: () => void, forMs = 1500): number {
  for (let i = 0; i < 200; i++) work();
  const start = performance.now();
  let n = 0;
  while (performance.now() - start < forMs) {
    work();
    n++;
  }
  return (n / (performance.now() - start)) * 1000;
}

const newton = perSecond(() => void solveEquilibrium(developer));
const plain = perSecond(() => void bisect(developer, 25));
const a = solveEquilibrium(developer);
console.log(
  `developer bath: ${Math.round(newton)} solutions/s; plain bisection ${Math.round(plain)}/s; ratio ${(newton / plain).toFixed(1)}`,
);
console.log(
  `  agreement on pH: ${a.ok ? Math.abs(a.value.ph - bisect(developer, 25)).toExponential(1) : 'failed'}`,
);

const next = seeded(20);
let failed = 0;
let beyond = 0;
let rounds = 0;
let worstRounds = 0;
let evaluations = 0;
let worstCharge = 0;
const count = 100_000;
const started = performance.now();
for (let i = 0; i < count; i++) {
  const { totals, tempC } = mixture(next);
  const r = solveEquilibrium(totals, { tempC });
  if (!r.ok || !Number.isFinite(r.value.ph) || r.value.rounds >= 400) {
    failed++;
    continue;
  }
  const e = r.value;
  if (!e.withinModel) beyond++;
  rounds += e.rounds;
  evaluations += e.evaluations;
  worstRounds = Math.max(worstRounds, e.rounds);
  worstCharge = Math.max(worstCharge, Math.abs(e.netCharge));
}
const seconds = (performance.now() - started) / 1000;
console.log(
  `random mixtures: ${count - failed} of ${count} converged, ${failed} failed; ${Math.round(count / seconds)} solutions/s`,
);
console.log(
  `  rounds mean ${(rounds / count).toFixed(1)} worst ${worstRounds}; charge evaluations mean ${(evaluations / count).toFixed(1)}; ` +
    `${beyond} beyond the activity model's range; worst charge left ${worstCharge.toExponential(1)} of all charge`,
);

const batches = 10_000;
const [part = 0, of = 1] = (/--part (\d+)\/(\d+)/.exec(process.argv.join(' ')) ?? []).slice(1).map(Number);
const drawn = checkBatches(batches, part, of);
console.log(
  `random batches: ${drawn.planned + drawn.refused} of ${batches} drawn, ${drawn.planned} planned and in balance, ${drawn.stocks} stocks, ` +
    `${drawn.refused} rightly refused: ${drawn.larger} with a larger volume that works, ${drawn.finer} for a finer scale`,
);
console.log(
  `  too small for the scale: ${Object.entries(drawn.because)
    .sort((x, y) => y[1] - x[1])
    .map(([name, n]) => `${name} ${n}`)
    .join(', ')}`,
);
const slips = checkSlips(Math.ceil(batches / of), 14 + part);
const total = slipKinds.reduce((sum, k) => sum + slips.tried[k], 0);
console.log(`slips at the scale: ${total} made, ${slips.missed.length} not asked about`);
for (const k of slipKinds)
  console.log(
    `  ${k}: ${slips.tried[k]}, of them ${slips.asOther[k]} taken for another slip that fits as well`,
  );
for (const m of slips.missed.slice(0, 20)) console.log(`  MISSED ${m}`);

const met = mixtures(400).filter((_m, i) => i % of === part);
const misses = met.map((m) => Math.abs(ours(m.bath) - pitzerPh(known(m.bath))));
console.log(
  `pH against Pitzer's equations: ${misses.filter((d) => d <= 0.05).length} of ${met.length} mixtures within 0.05, worst ${Math.max(...misses).toFixed(3)}`,
);
