import { knownPart } from '../chemistry/mixture.js';
import { cautionsForSubstance } from '../chemistry/safety/cautions.js';
import type { Exposure } from '../chemistry/safety/first-aid.js';
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

/** Places of a spill that are somebody, as the grammar of places names them, and how that hurts. */
const body: Readonly<Partial<Record<string, Exposure>>> = {
  hand: 'skin',
  skin: 'skin',
  clothes: 'skin',
  face: 'face',
  eye: 'eye',
  mouth: 'swallowed',
};

/** Whom a spill there hurts, and how; null: nobody, or it was water. */
export const hurtBy = (place: string | null, liquid: Liquid | null): Exposure | null =>
  liquid?.role === 'water' ? null : (body[place ?? ''] ?? null);

/** What a skin may bear from it later. Source: H317 of developing agents. */
export const onSkin = (liquid: Liquid | undefined): CautionId[] =>
  liquid?.cautions.includes('developer-skin') ? ['developer-skin'] : [];

/**
 * What is said of a spill beyond the cautions of the sheet's own baths, in whole sentences: of a thing that is no bath what
 * it does, and what it must not meet on this bench. A thing that nobody knows is kept from everything.
 */
export function furtherCautions(of: string | null, known: Liquid | null): string[] {
  if (of === null || known !== null) return [];
  const { substance, name } = knownPart({ of });
  if (substance === null)
    return [
      `I do not know ${name}: its label and its data sheet decide.`,
      'Let no acid, no chlorine cleaner and no bath near it.',
    ];
  return [...cautionsForSubstance(substance), ...(substance.note === undefined ? [] : [substance.note])];
}

/** Cautions for a spill on nobody; with no liquid named, the strictest that hold for all. */
export function spillCautions(sheet: ProcessSheet, liquid: Liquid | null): CautionId[] {
  if (liquid === null) return ['gloves', ...acidApart(sheet), 'ventilation', 'data-sheet'];
  return [...liquid.onSpill, ...(liquid.role === 'water' ? [] : ['data-sheet' as const])];
}
