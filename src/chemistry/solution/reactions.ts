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
}

interface Rule {
  id: Reaction['id'];
  of: Reaction['of'];
  /** ferricyanide used per mol */
  ratio: number;
  gives?: { id: TotalId; perMol: number };
}

/**
 * Ferricyanide takes one electron. In order of haste: the developing agent gives two at once, thiosulphate one each
 * (to tetrathionate), sulphite two (to sulphate). The order is the worst case for a developer.
 * source: half-reactions from CRC Handbook electrochemical series; order from memory of T. H. James, "The Theory of
 * the Photographic Process", 4th ed. (1977), ch. 12.
 */
const rules: readonly Rule[] = [
  { id: 'agent-oxidised', of: 'cd3', ratio: 2 },
  { id: 'agent-oxidised', of: 'cd4', ratio: 2 },
  {
    id: 'thiosulphate-oxidised',
    of: 'thiosulfate',
    ratio: 1,
    gives: { id: 'tetrathionate', perMol: 0.5 },
  },
  { id: 'sulphite-oxidised', of: 'sulfite', ratio: 2, gives: { id: 'sulfate', perMol: 1 } },
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
    });
  }
  return { bath: { ...bath, moles }, reactions };
}
