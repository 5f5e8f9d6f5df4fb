import { knownPart } from '../chemistry/mixture.js';
import { cautionsForSubstance } from '../chemistry/safety/cautions.js';
import { firstAid, thenCall } from '../chemistry/safety/first-aid.js';
import { type CautionId, type Liquid, mayHoldFerricyanide } from '../world/liquids.js';
import { bottledLiquids, liquidOf, type ProcessSheet } from './sheet.js';

/** What acid must be kept from, with this sheet's baths. */
const acidApart = (sheet: ProcessSheet): CautionId[] =>
  bottledLiquids(sheet).some((id) => mayHoldFerricyanide(liquidOf(sheet, id)))
    ? ['acid-ferricyanide', 'acid-apart']
    : ['acid-apart'];

/** Said when a run begins: short, the ones that matter before the first bottle is opened. */
export const atStart = (sheet: ProcessSheet): CautionId[] => [
  'gloves',
  'eyes',
  'ventilation',
  ...acidApart(sheet),
  'data-sheet',
];

/** Said while baths are mixed, warmed and made ready. */
export const atPreparing: readonly CautionId[] = ['acid-into-water', 'children-food', 'local-codes'];

/** Cautions for handling a bath beside the others of its sheet. */
export const cautionsFor = (sheet: ProcessSheet, liquid: Liquid): readonly CautionId[] => [
  ...new Set(liquid.role === 'stop' ? [...acidApart(sheet), ...liquid.cautions] : liquid.cautions),
  ...(liquid.role === 'water' ? [] : (['data-sheet', 'local-codes'] as const)),
];

/** Places of a spill that are somebody, as the grammar of places names them. */
const body: readonly string[] = ['hand', 'skin', 'face', 'eye', 'mouth', 'clothes'];

export const onBody = (place: string | null): boolean => place !== null && body.includes(place);

/** What labels print for the first minute, by the place on a body. */
const contactCautions = (place: string | null): string[] => [
  firstAid(place === 'eye' ? 'eye' : place === 'mouth' ? 'swallowed' : 'skin'),
  thenCall,
];

/**
 * What is said of a spill beyond the cautions of the sheet's own baths, in whole sentences: first aid on a body; of a thing
 * that is no bath what it does, and what it must not meet on this bench. A thing that nobody knows is kept from everything.
 */
export function furtherCautions(of: string | null, known: Liquid | null, place: string | null): string[] {
  if (onBody(place) && known?.role !== 'water') return contactCautions(place);
  if (of === null || known !== null) return [];
  const { substance, name } = knownPart({ of });
  if (substance === null)
    return [
      `I do not know ${name}: its label and its data sheet decide.`,
      'Let no acid, no chlorine cleaner and no bath near it.',
    ];
  return [...cautionsForSubstance(substance), ...(substance.note === undefined ? [] : [substance.note])];
}

/** Cautions for a spill; with no liquid named, the strictest that hold for all. On a body, help comes first. */
export function spillCautions(sheet: ProcessSheet, liquid: Liquid | null, place: string | null): CautionId[] {
  // to somebody who is hurt nothing else is said
  if (onBody(place) && liquid?.role !== 'water') return [];
  if (liquid === null) return ['gloves', ...acidApart(sheet), 'ventilation', 'data-sheet'];
  return [...liquid.onSpill, ...(liquid.role === 'water' ? [] : ['data-sheet' as const])];
}
