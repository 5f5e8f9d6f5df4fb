import type { ProcessSheet, SheetStep } from '../sheet.js';
import { inversions, inWater, lead, practice, seconds, within } from './by-hand.js';
import { ecn2Ferricyanide } from './ecn2-ferricyanide.js';

/** Hand-processing figures for ECN-2 in a small tank: a prebath of 1:00 at 27 ± 1 °C, a removal rinse of 0:30 at 27 ± 3 °C. */
const handmade =
  'from memory of R. Schaller, Process ECP2-A and ECN-2 (2004), table of steps for hand processing';

/** Water as warm as the tap and the film's later baths allow, at which nothing swells much. */
const rinseWater = { aimC: 27, minC: 24, maxC: 30, source: handmade };
/** fill, shake, empty: takes the place of a machine's running wash */
const rinses = (fills: number) => ({
  fills,
  temp: { aimC: 30, minC: 24, maxC: 38, source: practice },
  source: practice,
});

/** A tank, a reel and a film from the room would cool the first bath: water takes the chill off them. */
const prewet = inWater(2, rinseWater, {
  id: 'pre-wet',
  name: 'pre-wet',
  kind: 'soak',
  time: seconds(60, 30, 120, practice),
  agitation: inversions(10, 30, 2),
});

const changes: Record<string, Partial<SheetStep>> = {
  prebath: {
    name: 'backing remover',
    time: seconds(60, 10, 60, handmade),
    temp: within(27, 1, handmade),
    agitation: inversions(30, 15, 4),
    drain: lead(10),
  },
  'backing-removal': {
    time: seconds(30, 5, 120, handmade),
    temp: rinseWater,
    drain: lead(5),
  },
  stop: { rinseAfter: rinses(3) },
  bleach: { time: seconds(210, 10, 120, practice), rinseAfter: rinses(4) },
};
const replacedByRinses = ['wash-after-stop', 'wash-after-bleach'];

export const ecn2FerricyanideHome: ProcessSheet = {
  ...ecn2Ferricyanide,
  id: 'ecn2-ferricyanide-home',
  name: 'ECN-2 at home, with ferricyanide bleach',
  spoken: ['home sheet', 'e c n two at home', 'ecn2 home'],
  source: `${practice}; where home practice says nothing else: ${ecn2Ferricyanide.source}`,
  steps: [
    prewet,
    ...ecn2Ferricyanide.steps
      .filter((step) => !replacedByRinses.includes(step.id))
      .map((step) => ({ ...step, ...changes[step.id] })),
  ],
};
