import type { Role } from '../world/liquids.js';

/**
 * Usual cautions with photographic baths, as ids; the sentences are in the phrases. The safety data sheet of each
 * product and the local rules decide. Source: common practice.
 */
export type CautionId =
  | 'gloves'
  | 'eyes'
  | 'ventilation'
  | 'acid-apart'
  | 'acid-into-water'
  | 'developer-skin'
  | 'children-food'
  | 'on-body'
  | 'spill-wipe'
  | 'spill-stop'
  | 'spill-bleach'
  | 'spill-fixer'
  | 'slippery'
  | 'electric'
  | 'data-sheet'
  | 'local-codes'
  | 'help';

/** Said when a run begins: short, the ones that matter before the first bottle is opened. */
export const atStart: readonly CautionId[] = ['gloves', 'eyes', 'ventilation', 'acid-apart', 'data-sheet'];

/** Said while baths are mixed, warmed and made ready. */
export const atPreparing: readonly CautionId[] = ['acid-into-water', 'children-food', 'local-codes'];

const byRole: Record<Role, readonly CautionId[]> = {
  'backing-remover': ['gloves', 'eyes'],
  developer: ['developer-skin', 'gloves', 'eyes'],
  stop: ['acid-apart', 'ventilation', 'eyes'],
  bleach: ['acid-apart', 'gloves', 'ventilation'],
  fixer: ['acid-apart', 'ventilation', 'gloves'],
  rinse: ['gloves', 'ventilation'],
  water: [],
};

const onSpill: Record<Role, readonly CautionId[]> = {
  'backing-remover': ['gloves', 'spill-wipe'],
  developer: ['gloves', 'developer-skin', 'spill-wipe'],
  stop: ['gloves', 'spill-stop', 'ventilation'],
  bleach: ['gloves', 'spill-bleach'],
  fixer: ['gloves', 'spill-fixer'],
  rinse: ['gloves', 'spill-wipe'],
  water: ['slippery', 'electric'],
};

/** Cautions for handling a bath. */
export const cautionsFor = (role: Role): readonly CautionId[] => [
  ...byRole[role],
  ...(role === 'water' ? [] : (['data-sheet', 'local-codes'] as const)),
];

/** Places of a spill that are somebody, as the grammar of places names them. */
const body: readonly string[] = ['hand', 'skin', 'face', 'eye', 'mouth', 'clothes'];

export const onBody = (place: string | null): boolean => place !== null && body.includes(place);

/** Cautions for a spill; with no liquid named, the strictest that hold for all. On a body, help comes first. */
export function spillCautions(role: Role | null, place: string | null): CautionId[] {
  // to somebody who is hurt nothing else is said
  if (onBody(place) && role !== 'water') return ['on-body'];
  if (role === null) return ['gloves', 'acid-apart', 'ventilation', 'data-sheet'];
  return [...onSpill[role], 'data-sheet'];
}
