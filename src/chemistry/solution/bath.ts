import { molesIn, type Substance } from '../substances.js';
import { type Equilibrium, type SolveOptions, solveEquilibrium, type Totals } from './solver.js';
import type { TotalId } from './species.js';

/**
 * A volume of liquid and what is dissolved in it. Amounts are mol in the whole volume, so that mixing is addition.
 * Model: volumes add, and a litre of bath holds a kilogram of water (true within 3 % for these baths).
 */
export interface Bath {
  volumeMl: number;
  moles: Readonly<Partial<Record<TotalId, number>>>;
  /** goods without a formula, in g or ml */
  others: Readonly<Record<string, number>>;
}

export const water = (volumeMl: number): Bath => ({ volumeMl, moles: {}, others: {} });

const addTo = <K extends string>(
  into: Partial<Record<K, number>>,
  from: Partial<Record<K, number>>,
  factor: number,
): void => {
  for (const key of Object.keys(from) as K[]) into[key] = (into[key] ?? 0) + (from[key] ?? 0) * factor;
};

/** What an amount of a substance brings: mol by kind. `amount` in g (at `purity`, 0 to 1) or ml. */
export function contribution(s: Substance, amount: number, purity = 1): Partial<Record<TotalId, number>> {
  const out: Partial<Record<TotalId, number>> = {};
  const units = molesIn(s, amount, purity);
  if (units !== null) addTo(out, s.gives, units);
  if (s.alsoMolPerL !== undefined) addTo(out, s.alsoMolPerL, amount / 1000);
  return out;
}

/** The same bath with a substance stirred in; the volume stays, as a bath is made up to its mark. */
export function withSubstance(bath: Bath, s: Substance, amount: number, purity = 1): Bath {
  const moles = { ...bath.moles };
  addTo(moles, contribution(s, amount, purity), 1);
  const others =
    s.formula === null ? { ...bath.others, [s.id]: (bath.others[s.id] ?? 0) + amount } : bath.others;
  return { volumeMl: bath.volumeMl, moles, others };
}

/** A part of a bath, by volume. */
export function portion(bath: Bath, volumeMl: number): Bath {
  const factor = bath.volumeMl > 0 ? volumeMl / bath.volumeMl : 0;
  const moles: Partial<Record<TotalId, number>> = {};
  const others: Record<string, number> = {};
  addTo(moles, bath.moles, factor);
  addTo(others, bath.others, factor);
  return { volumeMl, moles, others };
}

/** Two baths poured together, before anything reacts. */
export function pourTogether(a: Bath, b: Bath): Bath {
  const moles = { ...a.moles };
  const others = { ...a.others };
  addTo(moles, b.moles, 1);
  addTo(others, b.others, 1);
  return { volumeMl: a.volumeMl + b.volumeMl, moles, others };
}

/** mol per litre of each kind. */
export function concentrations(bath: Bath): Totals {
  const out: Partial<Record<TotalId, number>> = {};
  if (bath.volumeMl > 0) addTo(out, bath.moles, 1000 / bath.volumeMl);
  return out;
}

/** mol/l of one kind. */
export const molarity = (bath: Bath, id: TotalId): number =>
  bath.volumeMl > 0 ? ((bath.moles[id] ?? 0) * 1000) / bath.volumeMl : 0;

export type BathState = { ok: true; value: Equilibrium } | { ok: false; why: string };

/** Equilibrium of a bath; °C in `options`, 25 when not given, as published pH aims are. */
export function equilibriumOf(bath: Bath, options: SolveOptions = {}): BathState {
  if (!(bath.volumeMl > 0))
    return { ok: false, why: 'There is no liquid to speak of; give a volume above zero.' };
  return solveEquilibrium(concentrations(bath), options);
}
