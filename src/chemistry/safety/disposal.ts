import { knownPart } from '../mixture.js';
import type { Substance } from '../substances.js';
import { pairsFor } from './incompatible.js';

/** What a used bath carries, where such waste usually goes, and what it must not meet in the jug. Local rules decide. */
export interface Disposal {
  carries: string;
  usually: string;
  never: string | null;
  source: string;
}

const practice = 'common practice; safety data sheets, section 13, from memory';

const byLiquid: Readonly<Record<string, Disposal>> = {
  prebath: {
    carries: 'borate, salt and black backing',
    usually:
      'Let the black settle; many places take the rest with much water in a drain that leads to a treatment plant, some limit borate.',
    never: null,
    source: practice,
  },
  developer: {
    carries: 'a developing agent, which is poison to water life',
    usually: 'Collect it in a labelled jug and take it to a collection point for photographic waste.',
    never: 'Keep chlorine bleach away from it.',
    source: practice,
  },
  stop: {
    carries: 'acid and some developer',
    usually:
      'Collect it by itself, or neutralise it slowly with baking soda in an open bucket where your rules allow.',
    never: 'Never into the jug of bleach, fixer or developer: acid frees poisonous gas there.',
    source: practice,
  },
  bleach: {
    carries: 'ferricyanide and ferrocyanide',
    usually:
      'Collect it in a jug of its own, dark and labelled, for a collection point; most places forbid it in the drain.',
    never: 'Never acid, stop bath or chlorine bleach with it: they can free hydrogen cyanide.',
    source: practice,
  },
  fixer: {
    carries: 'silver',
    usually:
      'Collect it in a jug of its own: the silver is worth recovering, and most places forbid it in the drain.',
    never: 'Never acid or chlorine bleach with it, and not the bleach of the process either.',
    source: practice,
  },
  'final-rinse': {
    carries: 'a little wetting agent',
    usually: 'Most places take it down the drain with water.',
    never: null,
    source: practice,
  },
};

/** A bleach that is none of the recipes here: what is in it, only its data sheet says. */
const otherBleach: Disposal = {
  carries: 'metal salts; its data sheet says which',
  usually: 'Collect it in a jug of its own for a collection point; most places forbid it in the drain.',
  never: 'Never acid, fixer or chlorine bleach with it.',
  source: practice,
};

/** Leftovers of a jar or a bottle from the household. source: common practice; label advice P501 of CLP */
function ofSubstance(s: Substance): string[] {
  const pairs = pairsFor(s)
    .filter((p) => p.danger === 'deadly gas' || p.danger === 'toxic gas' || p.danger === 'explosion')
    .slice(0, 2)
    .map((p) => p.spoken);
  const carries = s.hazards.length === 0 ? 'Leftovers' : 'It is hazardous waste: leftovers';
  return [
    ...pairs,
    `${carries} of ${s.name} go to your collection point in their own labelled container.`,
    local,
  ];
}

const local = 'Your local rules and the safety data sheet decide.';

/**
 * Sentences for a bath or a substance, most dangerous first; the general rule for none. `otherProcess`: the baths are none of
 * the recipes here.
 */
export function disposalOf(of: string | undefined, otherProcess = false): string[] {
  const { recipe, substance, name, kind } = knownPart({ of: of ?? 'water' });
  const d = otherProcess && recipe?.liquid === 'bleach' ? otherBleach : byLiquid[recipe?.liquid ?? ''];
  if (substance !== null) return ofSubstance(substance);
  if (kind === 'unknown')
    return [
      `I do not know ${name}: not down the drain, and with nothing else in its container, until its label and data sheet say where it goes.`,
      local,
    ];
  if (d === undefined) {
    return [
      `Fixer carries silver and bleach carries ${otherProcess ? 'metal salts' : 'ferricyanide'}: each in a jug of its own, never the two together, and never acid with either.`,
      'Developer goes to a collection point; stop bath is kept apart from all of them.',
      local,
    ];
  }
  return [...(d.never === null ? [] : [d.never]), `It carries ${d.carries}.`, d.usually, local];
}
