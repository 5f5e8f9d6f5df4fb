import type { Bath } from './bath.js';
import type { TotalId } from './species.js';

/** A reaction that ran to the end of its scarcer side. `mmol` of the first-named substance used up. */
export interface Reaction {
  id: 'agent-oxidised' | 'thiosulphate-oxidised' | 'sulphite-oxidised';
  of: 'cd3' | 'cd4' | 'thiosulfate' | 'sulfite';
  mmol: number;
  /** share of what was there, 0 to 1 */
  share: number;
  ferricyanideMmol: number;
  source: string;
}

interface Rule {
  id: Reaction['id'];
  of: Reaction['of'];
  /** ferricyanide used per mol */
  ratio: number;
  gives?: { id: TotalId; perMol: number };
  source: string;
}

/**
 * Ferricyanide takes one electron. In order of haste: the developing agent gives two at once, thiosulphate one each
 * (to tetrathionate), sulphite two (to sulphate). The order is the worst case for a developer.
 * source: half-reactions from CRC Handbook electrochemical series; order from memory of T. H. James, "The Theory of
 * the Photographic Process", 4th ed. (1977), ch. 12.
 */
const source =
  'stoichiometry of the half-reactions; order from memory of James, “Theory of the Photographic Process”, 4th ed.';
const rules: readonly Rule[] = [
  { id: 'agent-oxidised', of: 'cd3', ratio: 2, source },
  { id: 'agent-oxidised', of: 'cd4', ratio: 2, source },
  {
    id: 'thiosulphate-oxidised',
    of: 'thiosulfate',
    ratio: 1,
    gives: { id: 'tetrathionate', perMol: 0.5 },
    source,
  },
  { id: 'sulphite-oxidised', of: 'sulfite', ratio: 2, gives: { id: 'sulfate', perMol: 1 }, source },
];

/** Lets ferricyanide react to the end with all it oxidises. Iron and sulphur are conserved. */
export function oxidise(bath: Bath): { bath: Bath; reactions: Reaction[] } {
  const moles: Partial<Record<TotalId, number>> = { ...bath.moles };
  const reactions: Reaction[] = [];
  for (const rule of rules) {
    const there = moles[rule.of] ?? 0;
    const iron = moles.ferricyanide ?? 0;
    const used = Math.min(there, iron / rule.ratio);
    if (used <= 0) continue;
    moles[rule.of] = there - used;
    // the subtraction may leave a rounding crumb below zero
    moles.ferricyanide = Math.max(0, iron - used * rule.ratio);
    moles.ferrocyanide = (moles.ferrocyanide ?? 0) + used * rule.ratio;
    if (rule.gives !== undefined) {
      moles[rule.gives.id] = (moles[rule.gives.id] ?? 0) + used * rule.gives.perMol;
    }
    reactions.push({
      id: rule.id,
      of: rule.of,
      mmol: used * 1000,
      share: used / there,
      ferricyanideMmol: used * rule.ratio * 1000,
      source: rule.source,
    });
  }
  return { bath: { ...bath, moles }, reactions };
}

/** Silver in a colour negative film before bleaching, g/m². source: common practice, 4 to 6 g/m². */
export const filmSilverGPerM2 = 5;

export interface SilverLeft {
  /** silver that must be bleached, g */
  demandG: number;
  /** what the ferricyanide can bleach by stoichiometry, one mol per mol, g */
  bleachableG: number;
  /** left in the film as metal, g; 0 when the bath suffices */
  leftG: number;
}

/** What a bleach can do for an area of film. Rate is not modelled: near its end a bath also runs out of time. */
export function silverLeft(bath: Bath, areaM2: number, gPerM2 = filmSilverGPerM2): SilverLeft {
  const demandG = areaM2 * gPerM2;
  const bleachableG = (bath.moles.ferricyanide ?? 0) * 107.87;
  return { demandG, bleachableG, leftG: Math.max(0, demandG - bleachableG) };
}

/** 135-36 films (0.0516 m²) whose silver this much ferricyanide can bleach, by stoichiometry alone. */
export const filmsBleached = (bath: Bath): number =>
  silverLeft(bath, 0).bleachableG / (0.0516 * filmSilverGPerM2);
