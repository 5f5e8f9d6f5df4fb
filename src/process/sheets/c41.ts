import type { ProcessSheet, SheetStep } from '../sheet.js';
import { byHand, capacityOf, hang, inversions, lead, seconds, swirl, washAfter, within } from './by-hand.js';

/** Times and temperatures of the process; hand agitation and what hands can keep are marked as common practice. */
const z131 =
  'from memory of Kodak Publication Z-131, Using Kodak Flexicolor Chemicals, table of steps for small tanks';

/** Without replenishment. */
const kits =
  'common practice: a litre of developer does eight films of 36 exposures, of bleach and fixer about twice as many';

const warm = { aimC: 33, minC: 24, maxC: 41, source: z131 };

const step = byHand(2, warm);

const wash = (bath: string): SheetStep =>
  washAfter(bath, warm, seconds(195, 195 / 2, 300, z131), inversions(15, 30, 4));

export const c41: ProcessSheet = {
  id: 'c41',
  name: 'C-41',
  spoken: ['c forty one', 'c41', 'colour negative sheet'],
  source: z131,
  film: { backing: false, image: 'dye' },
  rate: 'c-41',
  liquids: [
    capacityOf('developer', 8, kits),
    capacityOf('fixer', 16, kits),
    {
      id: 'bleach',
      name: 'bleach',
      spoken: ['bleach'],
      role: 'bleach',
      plausibleC: { minC: 10, maxC: 50 },
      cautions: ['gloves', 'eyes', 'ventilation'],
      onSpill: ['gloves', 'spill-wipe', 'ventilation'],
      // an iron complex in acid: it stops the developer itself, and the film goes into it straight from there
      tolerates: ['developer', 'stop'],
      ferricyanide: false,
      capacity: { filmsPerLitre: 16, source: kits },
    },
  ],
  steps: [
    step({
      id: 'developer',
      time: seconds(195, 5, 5, z131),
      temp: within(37.8, 0.15, z131),
      agitation: inversions(30, 30, 4),
      filter: true,
      cautions: ['gloves', 'developer-skin'],
    }),
    step({
      id: 'bleach',
      time: seconds(390, 10, 300, z131),
      cautions: ['gloves', 'ventilation'],
    }),
    wash('bleach'),
    step({
      id: 'fixer',
      time: seconds(390, 30, 300, z131),
      cautions: ['gloves', 'ventilation', 'acid-apart'],
    }),
    wash('fixer'),
    step({
      id: 'final-rinse',
      time: seconds(90, 30, 90, z131),
      agitation: swirl(10),
      drain: lead(0),
    }),
    hang,
  ],
};
