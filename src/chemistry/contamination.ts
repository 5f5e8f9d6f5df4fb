import { type Finding, type Fitness, fitness } from './fitness.js';
import { knownPart, type Part } from './mixture.js';
import type { Recipe } from './recipes/index.js';
import type { IncompatiblePair } from './safety/incompatible.js';
import { molarity } from './solution/bath.js';
import { filmsBleached, oxidise, type Reaction } from './solution/reactions.js';

export type { Finding } from './fitness.js';
export { freshBath } from './mixture.js';

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
      ? Math.min(filmsBleached(after), (perLitre * (after.moles.ferricyanide ?? 0)) / ferricyanide)
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

const sum = <T extends Readonly<Partial<Record<string, number>>>>(a: T, b: T): T => {
  const out: Partial<Record<string, number>> = { ...a };
  for (const [id, n] of Object.entries(b)) out[id] = (out[id] ?? 0) + (n ?? 0);
  return out as T;
};

/** The same for two recipes; water for null. */
export const whatIfPoured = (
  poured: Recipe | null,
  pouredMl: number,
  into: Recipe,
  intoMl: number,
): WhatIfResult =>
  whatIf({ of: poured?.id ?? 'water', volumeMl: pouredMl }, { of: into.id, volumeMl: intoMl });
