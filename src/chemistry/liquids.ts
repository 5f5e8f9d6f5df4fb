import { clp, formsLike, maker } from './form.js';
import type { Substance } from './substances.js';

const liquid = formsLike({ measure: 'ml', source: clp });
const sulphuric = {
  family: 'sulfuric-acid',
  formula: 'H2SO4',
  gives: { sulfate: 1 },
  classes: ['acid'],
  hazards: ['H290', 'H314'],
} as const;
const acetic = {
  family: 'acetic-acid',
  formula: 'C2H4O2',
  gives: { acetate: 1 },
  classes: ['acid'],
} as const;
const keeps = { keepDays: 90, source: 'common practice: thinned with distilled water, stoppered' } as const;
const inert = {
  stock: keeps,
  source: maker,
} as const;

/** Liquids, by strength. Densities at 20 °C. source: Perry’s Chemical Engineers’ Handbook, section 2, from memory. */
export const liquidForms: readonly Substance[] = [
  liquid({
    ...sulphuric,
    id: 'sulfuric-acid-7n',
    name: '7 normal sulphuric acid',
    liquid: { massFraction: 0.2846, densityGPerMl: 1.206 },
    aliases: ['seven normal sulphuric acid', 'sulphuric acid'],
  }),
  liquid({
    ...sulphuric,
    id: 'sulfuric-acid-37',
    name: '37 percent sulphuric acid',
    liquid: { massFraction: 0.37, densityGPerMl: 1.28 },
    classes: ['acid', 'concentrated'],
    aliases: ['battery acid'],
  }),
  liquid({
    ...sulphuric,
    id: 'sulfuric-acid-98',
    name: 'concentrated sulphuric acid',
    liquid: { massFraction: 0.98, densityGPerMl: 1.84 },
    classes: ['acid', 'concentrated'],
    aliases: ['concentrated sulphuric acid', 'acid drain opener'],
    note: 'Dilute first, acid into cold water, in a laboratory; not a thing for a kitchen.',
  }),
  liquid({
    ...acetic,
    id: 'acetic-acid-glacial',
    name: 'glacial acetic acid',
    liquid: { massFraction: 0.998, densityGPerMl: 1.049 },
    hazards: ['H226', 'H314'],
    classes: ['acid', 'concentrated'],
    aliases: ['glacial acetic acid', 'acetic acid'],
  }),
  liquid({
    ...acetic,
    id: 'acetic-acid-28',
    name: '28 percent acetic acid',
    liquid: { massFraction: 0.28, densityGPerMl: 1.035 },
    hazards: ['H314'],
  }),
  liquid({
    ...acetic,
    id: 'vinegar-5',
    name: '5 percent white vinegar',
    liquid: { massFraction: 0.05, densityGPerMl: 1.006 },
    aliases: ['vinegar', 'white vinegar'],
    source: 'common practice: the strength on the label',
  }),
  liquid({
    ...acetic,
    id: 'vinegar-10',
    name: '10 percent cleaning vinegar',
    liquid: { massFraction: 0.1, densityGPerMl: 1.013 },
    hazards: ['H315', 'H319'],
    aliases: ['cleaning vinegar'],
  }),
  liquid({
    id: 'ammonium-thiosulfate-58',
    name: '58 percent ammonium thiosulphate solution',
    family: 'ammonium-thiosulfate',
    formula: '(NH4)2S2O3',
    gives: { ammonia: 2, thiosulfate: 1 },
    liquid: { massFraction: 0.58, densityGPerMl: 1.32 },
    // photographic grade carries about 0.8 % ammonium sulphite to keep it clear
    alsoMolPerL: { ammonia: 0.182, sulfite: 0.091 },
    aliases: ['ammonium thiosulphate', 'ammonium thiosulphate solution'],
    classes: ['thiosulphate', 'ammonium'],
    source:
      'makers’ technical data for photographic grade (58 % by mass, 1.32 g/ml, about 0.8 % sulphite), from memory',
  }),
  liquid({
    ...inert,
    id: 'anti-calcium-4',
    name: 'Anti-Calcium Number 4',
    family: 'sequestrant',
    aliases: ['anti calcium', 'anti calcium four'],
    hazards: ['H319'],
    note: 'Not in the pH model, being a trace.',
  }),
  liquid({
    ...inert,
    id: 'stabiliser-additive',
    name: 'stabiliser additive',
    aliases: ['stabilizer additive'],
  }),
  liquid({
    ...inert,
    id: 'wetting-agent',
    name: 'wetting agent',
    aliases: ['photographic wetting agent'],
  }),
];
