import type { CautionId, Liquid } from '../world/liquids.js';

/** Said when a run begins: short, the ones that matter before the first bottle is opened. */
export const atStart: readonly CautionId[] = ['gloves', 'eyes', 'ventilation', 'acid-apart', 'data-sheet'];

/** Said while baths are mixed, warmed and made ready. */
export const atPreparing: readonly CautionId[] = ['acid-into-water', 'children-food', 'local-codes'];

/** Cautions for handling a bath. */
export const cautionsFor = (liquid: Liquid): readonly CautionId[] => [
  ...liquid.cautions,
  ...(liquid.role === 'water' ? [] : (['data-sheet', 'local-codes'] as const)),
];

/** Places of a spill that are somebody, as the grammar of places names them. */
const body: readonly string[] = ['hand', 'skin', 'face', 'eye', 'mouth', 'clothes'];

export const onBody = (place: string | null): boolean => place !== null && body.includes(place);

/** Cautions for a spill; with no liquid named, the strictest that hold for all. On a body, help comes first. */
export function spillCautions(liquid: Liquid | null, place: string | null): CautionId[] {
  // to somebody who is hurt nothing else is said
  if (onBody(place) && liquid?.role !== 'water') return ['on-body'];
  if (liquid === null) return ['gloves', 'acid-apart', 'ventilation', 'data-sheet'];
  return [...liquid.onSpill, 'data-sheet'];
}
