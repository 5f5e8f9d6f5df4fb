import type { Substance } from './substances.js';

export const clp = 'CLP Regulation (EC) 1272/2008 Annex VI, from memory; the sheet of the maker decides';
export const maker = 'makers’ safety data sheets, from memory; the sheet of the maker decides';

/** Makes forms of one shelf: a row says what is not usual there, and not what is the same for most of all. */
export const formsLike =
  (usual: Pick<Substance, 'measure' | 'source'>) =>
  (row: Pick<Substance, 'id' | 'name'> & Partial<Substance>): Substance => ({
    family: row.id,
    formula: null,
    active: 1,
    gives: {},
    aliases: [],
    classes: [],
    hazards: [],
    ...usual,
    ...row,
  });
