import type { ProcessSheet, SheetStep } from '../sheet.js';
import { ecn2Ferricyanide, inversions, lead, practice, seconds, within } from './ecn2-ferricyanide.js';

/** What people do at a sink instead of a machine; each changed number is marked common practice. */
const warm = { aimC: 40, minC: 35, maxC: 42, source: practice };
/** fill, shake, empty: takes the place of a machine's running wash */
const warmRinse = (fills: number) => ({ fills, temp: warm, source: practice });

const soak: SheetStep = {
  id: 'warm-soak',
  name: 'warm soak',
  kind: 'soak',
  liquid: 'water',
  time: { aimS: 900, minS: 300, maxS: 1200, source: practice, toleranceSource: practice },
  temp: { aimC: 41, minC: 38, maxC: 43, source: practice },
  agitation: inversions(0, 300, 2),
  drain: lead(15),
  reusable: false,
  returnsToBottle: false,
  filter: false,
  rinseAfter: null,
  cautions: [],
};

const changes: Record<string, Partial<SheetStep>> = {
  prebath: {
    name: 'backing remover',
    time: { aimS: 240, minS: 120, maxS: 600, source: practice, toleranceSource: practice },
    temp: { aimC: 43, minC: 38, maxC: 45, source: practice },
    agitation: inversions(30, 30, 4),
    drain: lead(15),
  },
  'backing-removal': { temp: warm },
  stop: { temp: warm, rinseAfter: warmRinse(3) },
  bleach: { time: seconds(240, 10, 120, practice), temp: within(41, 2, practice), rinseAfter: warmRinse(4) },
  'wash-after-fixer': { temp: warm },
};
const replacedByRinses = ['wash-after-stop', 'wash-after-bleach'];

export const ecn2FerricyanideHome: ProcessSheet = {
  id: 'ecn2-ferricyanide-home',
  name: 'ECN-2 at home, with ferricyanide bleach',
  spoken: ['home sheet', 'e c n two at home', 'ecn2 home'],
  source: `${practice}; where home practice says nothing else: ${ecn2Ferricyanide.source}`,
  steps: [
    soak,
    ...ecn2Ferricyanide.steps
      .filter((step) => !replacedByRinses.includes(step.id))
      .map((step) => ({ ...step, ...changes[step.id] })),
  ],
};
