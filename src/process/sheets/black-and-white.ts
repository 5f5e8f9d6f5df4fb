import type { ProcessSheet } from '../sheet.js';
import {
  byHand,
  capacityOf,
  hang,
  inversions,
  lead,
  practice,
  seconds,
  swirl,
  washAfter,
} from './by-hand.js';

/**
 * A frame for black-and-white negatives: the developing time depends on film and developer, and stands for one usual
 * pair. A sheet of one's own takes its place for another.
 */
const j109 =
  'from memory of Kodak Publication F-4017 and J-78, small-tank times for a D-76 type developer at 20 °C';

const cool = { aimC: 20, minC: 18, maxC: 24, source: j109 };

const step = byHand(4, cool);

export const blackAndWhite: ProcessSheet = {
  id: 'black-and-white',
  name: 'black and white negative',
  spoken: ['black and white', 'black and white sheet', 'monochrome'],
  source: `${j109}; ${practice}`,
  film: { backing: false, image: 'silver' },
  rate: 'black-and-white',
  liquids: [
    capacityOf(
      'developer',
      4,
      'from memory of Kodak Publication J-78: 16 rolls of 135-36 a US gallon of D-76 at full strength',
    ),
    capacityOf(
      'fixer',
      24,
      'common practice: 24 films of 36 exposures a litre of rapid fixer at film strength',
    ),
  ],
  steps: [
    step({
      id: 'developer',
      time: seconds(405, 10, 10, j109),
      temp: { aimC: 20, minC: 19.5, maxC: 20.5, source: j109 },
      agitation: inversions(30, 30, 5),
    }),
    step({
      id: 'stop',
      name: 'stop bath',
      time: seconds(30, 15, 60, j109),
      agitation: inversions(30, null, 0),
      cautions: ['gloves', 'ventilation', 'acid-apart'],
    }),
    step({
      id: 'fixer',
      time: seconds(420, 120, 180, j109),
      cautions: ['ventilation', 'acid-apart'],
    }),
    washAfter('fixer', cool, seconds(600, 300, 1200, practice), inversions(30, 60, 5)),
    step({
      id: 'final-rinse',
      time: seconds(30, 10, 90, j109),
      agitation: swirl(5),
      drain: lead(0),
    }),
    hang,
  ],
};
