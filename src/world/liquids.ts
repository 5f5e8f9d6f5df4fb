import type { LiquidId } from './vessel.js';

/** What a liquid does to film; the step guard reasons from roles. */
export const roles = ['backing-remover', 'developer', 'stop', 'bleach', 'fixer', 'rinse', 'water'] as const;
export type Role = (typeof roles)[number];

/**
 * Usual cautions with photographic baths, as ids; the sentences are in the phrases. The safety data sheet of each
 * product and the local rules decide. Source: common practice.
 */
export const cautionIds = [
  'gloves',
  'eyes',
  'ventilation',
  'acid-apart',
  'acid-ferricyanide',
  'acid-into-water',
  'developer-skin',
  'children-food',
  'spill-wipe',
  'spill-stop',
  'spill-bleach',
  'spill-fixer',
  'slippery',
  'electric',
  'data-sheet',
  'local-codes',
  'help',
] as const;
export type CautionId = (typeof cautionIds)[number];

/**
 * One liquid: its names, what it does to film, what it can hurt. A process sheet may bring its own, or say more of
 * a known one; a known one keeps its role.
 */
export interface Liquid {
  id: LiquidId;
  /** as the assistant says it */
  name: string;
  /** as people say it, lower case; the grammars and the typed chat take these */
  spoken: readonly string[];
  role: Role;
  /** a reading outside this range is asked about before it is believed, °C */
  plausibleC: { minC: number; maxC: number };
  /** cautions for handling it */
  cautions: readonly CautionId[];
  /** cautions when it is spilled */
  onSpill: readonly CautionId[];
  /** what may cling to the film when it goes in, against the usual table: a bleach that stops development, say */
  tolerates?: readonly Role[] | undefined;
  /** a bleach: whether it holds ferricyanide, which no acid may meet; left out: nobody said, so it is taken to */
  ferricyanide?: boolean | undefined;
  /** 135-36 films, or their area, that a litre does, where no recipe says it */
  capacity?: { filmsPerLitre: number; source: string } | undefined;
}

/** World temperatures a home user can meet: an unheated room to the hottest bath in use. Source: common practice. */
const bath = { minC: 10, maxC: 50 };

export const liquids: readonly Liquid[] = [
  {
    id: 'prebath',
    name: 'prebath',
    spoken: [
      'prebath',
      'pre bath',
      'backing remover',
      'backing remover bath',
      'backing removal',
      'backing removal bath',
      'rem jet',
      'rem jet remover',
      'rem jet bath',
    ],
    role: 'backing-remover',
    plausibleC: bath,
    cautions: ['gloves', 'eyes'],
    onSpill: ['gloves', 'spill-wipe'],
  },
  {
    id: 'developer',
    name: 'developer',
    spoken: ['developer', 'colour developer', 'color developer', 'dev'],
    role: 'developer',
    plausibleC: bath,
    cautions: ['developer-skin', 'gloves', 'eyes'],
    onSpill: ['gloves', 'developer-skin', 'spill-wipe'],
  },
  {
    id: 'stop',
    name: 'stop bath',
    spoken: ['stop bath', 'stop'],
    role: 'stop',
    plausibleC: bath,
    cautions: ['acid-apart', 'ventilation', 'eyes'],
    onSpill: ['gloves', 'spill-stop', 'ventilation'],
  },
  {
    id: 'bleach',
    name: 'bleach',
    spoken: ['bleach', 'bleach bath'],
    role: 'bleach',
    plausibleC: bath,
    cautions: ['acid-ferricyanide', 'gloves', 'ventilation'],
    onSpill: ['gloves', 'spill-bleach'],
    ferricyanide: true,
  },
  {
    id: 'fixer',
    name: 'fixer',
    spoken: ['fixer', 'fix'],
    role: 'fixer',
    plausibleC: bath,
    cautions: ['acid-apart', 'ventilation', 'gloves'],
    onSpill: ['gloves', 'spill-fixer'],
  },
  {
    id: 'final-rinse',
    name: 'final rinse',
    spoken: ['final rinse', 'stabiliser', 'stabilizer'],
    role: 'rinse',
    plausibleC: bath,
    cautions: ['gloves', 'ventilation'],
    onSpill: ['gloves', 'spill-wipe'],
  },
  {
    id: 'water',
    name: 'water',
    spoken: ['water', 'wash', 'rinse water', 'wash water'],
    role: 'water',
    plausibleC: { minC: 1, maxC: 70 },
    cautions: [],
    onSpill: ['slippery', 'electric'],
  },
];

export const liquidById = (id: LiquidId): Liquid | undefined => liquids.find((l) => l.id === id);

/** A bleach nobody said the contents of is taken to hold ferricyanide. */
export const mayHoldFerricyanide = (liquid: Liquid | undefined): boolean =>
  liquid?.role === 'bleach' && liquid.ferricyanide !== false;
