import { type Finding, type Fitness, fitness, isUsable } from './fitness.js';
import { knownPart, type Part } from './mixture.js';
import type { IncompatiblePair } from './safety/incompatible.js';
import { molarity } from './solution/bath.js';
import { oxidise, type Reaction } from './solution/reactions.js';

export type { Finding } from './fitness.js';
/** A verdict in three words, for what only asks whether a bath may go on: see `Fitness` for what to do. */
export type Verdict = 'use' | 'care' | 'discard';

export interface WhatIf {
  poured: { name: string; volumeMl: number; massG?: number };
  into: { name: string; volumeMl: number };
  volumeMl: number;
  /** share of the bath that is still the bath, 0 to 1, before reactions */
  share: number;
  phBefore: number | null;
  phAfter: number | null;
  /** share of the working part lost to dilution and reaction, 0 to 1; null when the bath has none */
  strengthLost: number | null;
  working: string | null;
  /** a ferricyanide bath: 135-36 films it is still good for, the lesser of its capacity and of what it can bleach */
  filmsLeft: number | null;
  reactions: Reaction[];
  dangers: IncompatiblePair[];
  findings: Finding[];
  /** what was poured has no formula, so that no pH follows */
  formulaKnown: boolean;
  verdict: Verdict;
  fitness: Fitness;
  /** the sources of the findings that set the verdict */
  restsOn: string[];
}

export type WhatIfResult = { ok: true; value: WhatIf } | { ok: false; why: string };

const inThreeWords: Record<Fitness['verdict'], Verdict> = {
  fit: 'use',
  'fit-changed-time': 'care',
  restorable: 'care',
  discard: 'discard',
  unknown: 'discard',
};

/**
 * One thing poured into another: figures, verdict and what they rest on. Both are taken as fresh; a used bath differs.
 * `into` is taken to be meant as itself; `problems` is what its checks at mixing showed. Error: an amount that is not
 * above zero.
 */
export function whatIf(poured: Part, into: Part, problems: readonly string[] = []): WhatIfResult {
  const amount = poured.massG ?? poured.volumeMl ?? 0;
  if (!(amount > 0 && (into.volumeMl ?? into.massG ?? 0) > 0))
    return { ok: false, why: 'Both amounts must be above zero.' };
  const target = knownPart(into);
  const stray = knownPart(poured);
  const checks = { ok: problems.length === 0, why: problems };
  const fit = fitness({ bath: into.of, parts: [into, poured], checks });
  const intoMl = into.volumeMl ?? 0;
  const pouredMl = stray.bath.volumeMl;
  const share = intoMl / Math.max(1e-9, intoMl + pouredMl);
  const { recipe } = target;
  const mixed = {
    ...target.bath,
    moles: sum(target.bath.moles, stray.bath.moles),
    volumeMl: intoMl + pouredMl,
  };
  const { bath: after } = oxidise(mixed);
  const perLitre = recipe?.capacity.filmsPerLitre ?? 0;
  const ferricyanide = molarity(target.bath, 'ferricyanide');
  const filmsLeft =
    recipe?.working === 'ferricyanide' && ferricyanide > 0
      ? (perLitre * (after.moles.ferricyanide ?? 0)) / ferricyanide
      : null;
  const value: WhatIf = {
    poured: {
      name: stray.name,
      volumeMl: pouredMl,
      ...(poured.massG === undefined ? {} : { massG: poured.massG }),
    },
    into: { name: target.name, volumeMl: intoMl },
    volumeMl: intoMl + pouredMl,
    share,
    phBefore: recipe?.ph == null ? null : fit.phFresh,
    phAfter: recipe?.ph == null ? null : fit.ph,
    strengthLost: fit.strength === null ? null : Math.max(0, 1 - fit.strength),
    working: recipe?.working ?? null,
    filmsLeft,
    reactions: fit.reactions,
    dangers: fit.dangers,
    findings: fit.findings,
    formulaKnown: stray.substance === null || stray.substance.formula !== null,
    verdict: inThreeWords[fit.verdict],
    fitness: fit,
    restsOn: fit.sources,
  };
  return { ok: true, value };
}

/** How much of something a bath takes. */
export interface Tolerance {
  unit: 'g' | 'ml';
  /** from here on it is not what it was; from here on it is for the waste; null: not even with as much as there is of the bath */
  feltFrom: number | null;
  spoiledFrom: number | null;
  /** the bath as it is, when it is not fit even without any of it, else just past the end */
  fitness: Fitness;
  fitNow: boolean;
}

/** The least that is tried, as a share of the bath, and steps of bisection: the answer is good to a hundredth. */
const leastShare = 1e-5;
const bisections = 11;

/**
 * How much of `of` may get into a bath (its own part first, then what else is in it) until it shows and until the verdict
 * is to discard it: the same verdict as for any mixture, asked again and again. Taken to grow worse with the amount.
 */
export function toleranceOf(of: string, bath: readonly Part[], problems: readonly string[] = []): Tolerance {
  const [own] = bath;
  const solid = knownPart({ of }).substance?.measure === 'g';
  const checks = { ok: problems.length === 0, why: problems };
  const at = (amount: number): Fitness =>
    fitness({
      bath: own?.of ?? 'water',
      parts: amount > 0 ? [...bath, solid ? { of, massG: amount } : { of, volumeMl: amount }] : bath,
      checks,
    });
  const most = bath.reduce((ml, part) => ml + (part.volumeMl ?? 0), 0);
  const now = at(0);
  const whole = at(most);
  const from = (past: (f: Fitness) => boolean): number | null => {
    if (!past(whole)) return null;
    let [low, high] = [most * leastShare, most];
    if (past(at(low))) return 0;
    for (let step = 0; step < bisections; step += 1) {
      const middle = Math.sqrt(low * high);
      if (past(at(middle))) high = middle;
      else low = middle;
    }
    return high;
  };
  const fitNow = isUsable(now);
  const feltFrom = from((f) => f.verdict !== now.verdict);
  const spoiledFrom = from((f) => inThreeWords[f.verdict] === 'discard');
  const end = spoiledFrom ?? feltFrom ?? most;
  return {
    unit: solid ? 'g' : 'ml',
    feltFrom,
    spoiledFrom,
    fitness: fitNow ? at(Math.max(end, most * leastShare)) : now,
    fitNow,
  };
}

const sum = <T extends Readonly<Partial<Record<string, number>>>>(a: T, b: T): T => {
  const out: Partial<Record<string, number>> = { ...a };
  for (const [id, n] of Object.entries(b)) out[id] = (out[id] ?? 0) + (n ?? 0);
  return out as T;
};
