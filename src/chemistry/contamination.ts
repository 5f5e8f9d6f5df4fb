import { bathOf, planBatch } from './batch.js';
import type { BathLimits, Recipe } from './recipes/index.js';
import { type IncompatiblePair, incompatiblePairs } from './safety/incompatible.js';
import { type Bath, equilibriumOf, molarity, portion, pourTogether, water } from './solution/bath.js';
import { filmsBleached, oxidise, type Reaction } from './solution/reactions.js';
import { substanceById } from './substances.js';

export type Verdict = 'use' | 'care' | 'discard';

/** One measured consequence, with the limits it was held against. */
export interface Finding {
  id: 'ph' | 'strength' | 'foreign' | 'danger';
  /** what it is about: a kind of matter, for `foreign` and `strength` */
  of?: string;
  value: number;
  unit: 'pH' | 'fraction' | 'g/l' | '';
  level: Verdict;
  why: string;
  source: string;
}

export interface WhatIf {
  poured: { name: string; volumeMl: number };
  into: { name: string; volumeMl: number };
  volumeMl: number;
  /** share of the bath that is still the bath, 0 to 1, before reactions */
  share: number;
  phBefore: number | null;
  phAfter: number | null;
  /** share of the working part lost to dilution and reaction, 0 to 1; null when the bath has none */
  strengthLost: number | null;
  working: string | null;
  /** a ferricyanide bath: 135-36 films whose silver the mixture could still bleach, by stoichiometry; else null */
  filmsLeft: number | null;
  reactions: Reaction[];
  dangers: IncompatiblePair[];
  findings: Finding[];
  verdict: Verdict;
  /** the sources of the findings that set the verdict */
  restsOn: string[];
}

export type WhatIfResult = { ok: true; value: WhatIf } | { ok: false; why: string };

/** A fresh bath of a recipe, in ml; plain water for null. */
export function freshBath(recipe: Recipe | null, volumeMl: number): Bath {
  if (recipe === null) return water(volumeMl);
  const planned = planBatch(recipe, 1000);
  return planned.ok ? portion(bathOf(planned.batch.lines, 1000), volumeMl) : water(volumeMl);
}

/** g/mol for saying a foreign amount in g per litre. source: atomic weights */
const gramsPerMol: Readonly<Record<string, number>> = {
  thiosulfate: 112.1,
  ferricyanide: 211.9,
  Br: 79.9,
  cd3: 436.5,
  sulfite: 80.06,
  borate: 61.83,
  I: 126.9,
};

/**
 * One bath poured into another: figures, verdict and what they rest on. Both are taken as fresh; a used bath
 * differs, and the answer says so through its sources. Model of pH as in the solver; reactions are taken to run
 * to the end, developing agent first, which is the worst case. Errors: a volume that is not above zero.
 */
export function whatIfPoured(
  poured: Recipe | null,
  pouredMl: number,
  into: Recipe,
  intoMl: number,
): WhatIfResult {
  if (!(pouredMl > 0 && intoMl > 0)) return { ok: false, why: 'Both volumes must be above zero.' };
  const before = freshBath(into, intoMl);
  const stray = freshBath(poured, pouredMl);
  const mixed = pourTogether(before, stray);
  const { bath: after, reactions } = oxidise(mixed);
  const phBefore = phOf(before, into);
  const phAfter = phOf(after, into);
  const strengthLost =
    into.working === null
      ? null
      : Math.max(0, 1 - molarity(after, into.working) / molarity(before, into.working));
  const dangers = dangersBetween(poured, stray, into, before);
  const findings = judge({
    into,
    before,
    mixed,
    phBefore,
    phAfter,
    strengthLost,
    dangers,
    share: intoMl / mixed.volumeMl,
  });
  const verdict = worst(findings.map((f) => f.level));
  return {
    ok: true,
    value: {
      poured: { name: poured?.name ?? 'water', volumeMl: pouredMl },
      into: { name: into.name, volumeMl: intoMl },
      volumeMl: mixed.volumeMl,
      share: intoMl / mixed.volumeMl,
      phBefore,
      phAfter,
      strengthLost,
      working: into.working,
      filmsLeft: into.working === 'ferricyanide' ? filmsBleached(after) : null,
      reactions,
      dangers,
      findings,
      verdict,
      restsOn: [...new Set(findings.filter((f) => f.level === verdict).map((f) => f.source))],
    },
  };
}

function phOf(bath: Bath, recipe: Recipe): number | null {
  if (recipe.ph === null) return null;
  const solved = equilibriumOf(bath, { startPh: recipe.ph.aim });
  return solved.ok ? solved.value.ph : null;
}

const order: readonly Verdict[] = ['use', 'care', 'discard'];
export const worst = (levels: readonly Verdict[]): Verdict =>
  levels.reduce<Verdict>((w, l) => (order.indexOf(l) > order.indexOf(w) ? l : w), 'use');

const levelOf = (value: number, limit: { use: number; care: number }): Verdict =>
  // a hair of rounding must not turn "at the limit" into "over it"
  value <= limit.use * (1 + 1e-9) + 1e-12 ? 'use' : value <= limit.care * (1 + 1e-9) ? 'care' : 'discard';

interface JudgeInput {
  into: Recipe;
  before: Bath;
  mixed: Bath;
  phBefore: number | null;
  phAfter: number | null;
  strengthLost: number | null;
  dangers: IncompatiblePair[];
  share: number;
}

function judge(x: JudgeInput): Finding[] {
  const limits: BathLimits = x.into.limits;
  const out: Finding[] = [];
  for (const d of x.dangers) {
    const level = d.danger === 'deadly gas' ? 'discard' : 'care';
    out.push({ id: 'danger', of: d.danger, value: 1, unit: '', level, why: d.spoken, source: d.source });
  }
  if (x.phBefore !== null && x.phAfter !== null && x.into.ph?.buffered === true) {
    const shift = x.phAfter - x.phBefore;
    const level = levelOf(Math.abs(shift), limits.ph);
    out.push({
      id: 'ph',
      value: shift,
      unit: 'pH',
      level,
      why: 'pH sets how the bath works',
      source: limits.source,
    });
  }
  const lost = x.strengthLost ?? 1 - x.share;
  out.push({
    id: 'strength',
    of: x.into.working ?? x.into.name,
    value: lost,
    unit: 'fraction',
    level: levelOf(lost, limits.strength),
    why: 'strength lost to dilution and reaction',
    source: limits.source,
  });
  for (const f of limits.foreign) {
    const excess = molarity(x.mixed, f.id) - molarity(x.before, f.id);
    if (excess <= 1e-9) continue;
    out.push({
      id: 'foreign',
      of: f.id,
      value: excess * (gramsPerMol[f.id] ?? 0),
      unit: 'g/l',
      level: levelOf(excess, f),
      why: f.why,
      source: limits.source,
    });
  }
  return out;
}

/** Below this a bath counts as an acid towards ferricyanide, sulphite and thiosulphate. source: common practice */
const acidPh = 4.5;
const causticPh = 12.5;

function dangersBetween(a: Recipe | null, bathA: Bath, b: Recipe, bathB: Bath): IncompatiblePair[] {
  const ca = classesOf(a, bathA);
  const cb = classesOf(b, bathB);
  return incompatiblePairs.filter((p) => (ca.has(p.a) && cb.has(p.b)) || (ca.has(p.b) && cb.has(p.a)));
}

function classesOf(recipe: Recipe | null, bath: Bath): Set<string> {
  const out = new Set<string>();
  for (const c of recipe?.components ?? []) {
    for (const k of substanceById(c.substance)?.classes ?? [])
      if (k !== 'acid' && k !== 'caustic') out.add(k);
  }
  const solved = equilibriumOf(bath);
  if (solved.ok && recipe !== null && recipe.ph?.buffered === true) {
    if (solved.value.ph < acidPh) out.add('acid');
    if (solved.value.ph > causticPh) out.add('caustic');
  }
  return out;
}
