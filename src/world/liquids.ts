import type { LiquidId } from './vessel.js';

/** What a liquid does to film; the step guard reasons from roles, so a new bath only needs one of these. */
export type Role = 'backing-remover' | 'developer' | 'stop' | 'bleach' | 'fixer' | 'rinse' | 'water';

export const roles: readonly Role[] = [
  'backing-remover',
  'developer',
  'stop',
  'bleach',
  'fixer',
  'rinse',
  'water',
];

export interface Liquid {
  id: LiquidId;
  /** as the assistant says it */
  name: string;
  /** as people say it, lower case; the grammars and the typed chat take these */
  spoken: readonly string[];
  role: Role;
  /** a reading outside this range is asked about before it is believed, °C */
  plausibleC: { minC: number; maxC: number };
}

/** Bench temperatures a home user can meet: an unheated room to the hottest bath in use. Source: common practice. */
const bath = { minC: 10, maxC: 50 };

export const liquids: readonly Liquid[] = [
  {
    id: 'prebath',
    name: 'prebath',
    spoken: ['prebath', 'pre bath', 'backing remover', 'rem jet remover'],
    role: 'backing-remover',
    plausibleC: bath,
  },
  {
    id: 'developer',
    name: 'developer',
    spoken: ['developer', 'colour developer', 'color developer'],
    role: 'developer',
    plausibleC: bath,
  },
  { id: 'stop', name: 'stop bath', spoken: ['stop bath', 'stop'], role: 'stop', plausibleC: bath },
  { id: 'bleach', name: 'bleach', spoken: ['bleach'], role: 'bleach', plausibleC: bath },
  { id: 'fixer', name: 'fixer', spoken: ['fixer', 'fix'], role: 'fixer', plausibleC: bath },
  {
    id: 'final-rinse',
    name: 'final rinse',
    spoken: ['final rinse', 'stabiliser', 'stabilizer'],
    role: 'rinse',
    plausibleC: bath,
  },
  {
    id: 'water',
    name: 'water',
    spoken: ['water', 'wash', 'rinse water', 'wash water'],
    role: 'water',
    plausibleC: { minC: 1, maxC: 70 },
  },
];

export const liquidById = (id: LiquidId): Liquid | undefined => liquids.find((l) => l.id === id);
