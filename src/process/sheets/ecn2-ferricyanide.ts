import type { ProcessSheet, SheetStep } from '../sheet.js';
import { byHand, hang, inversions, inWater, lead, seconds, swirl, washAfter, within } from './by-hand.js';

/**
 * Times and temperatures: mechanical specifications for Process ECN-2 with ferricyanide bleach. The figures were
 * read in a public transcription of the publication's table, and agree with memory of it. It states times without a
 * tolerance, and a machine's turbulation.
 */
export const h2407 =
  'Kodak Publication H-24.07, Mechanical Specifications for Process ECN-2 with Ferricyanide Bleach';

/** the 27 to 38 °C range of stop, washes and final rinse; the warm end keeps the film near the baths' own heat */
const range27to38 = { aimC: 38, minC: 27, maxC: 38, source: h2407 };
const time = (aimS: number, belowS: number, aboveS: number) => seconds(aimS, belowS, aboveS, h2407);
const bath = byHand(4, range27to38);
const wash = (bath: string, aimS: number): SheetStep =>
  washAfter(bath, range27to38, time(aimS, 0, 120), inversions(aimS > 30 ? 15 : 10, 30, 4));

const steps: SheetStep[] = [
  bath({
    id: 'prebath',
    time: time(10, 0, 20),
    temp: within(27, 1, h2407),
    agitation: inversions(10, null, 0),
    drain: lead(0),
    filter: true,
  }),
  inWater(0, range27to38, {
    id: 'backing-removal',
    name: 'backing removal and rinse',
    kind: 'rinse',
    agitation: inversions(0, null, 0),
    drain: lead(0),
  }),
  bath({
    id: 'developer',
    time: time(180, 5, 5),
    temp: within(41.1, 0.1, h2407),
    agitation: inversions(15, 15, 2),
    drain: lead(15),
    filter: true,
    cautions: ['gloves', 'developer-skin'],
  }),
  bath({
    id: 'stop',
    name: 'stop bath',
    time: time(30, 5, 30),
    agitation: inversions(20, null, 0),
    cautions: ['ventilation', 'acid-ferricyanide', 'acid-apart'],
  }),
  wash('stop', 30),
  bath({
    id: 'bleach',
    time: time(180, 5, 60),
    temp: within(38, 1, h2407),
    agitation: inversions(15, 30, 4),
    drain: lead(15),
    filter: true,
    cautions: ['gloves', 'ventilation', 'acid-ferricyanide'],
  }),
  wash('bleach', 60),
  bath({
    id: 'fixer',
    time: time(120, 5, 60),
    temp: within(38, 1, h2407),
    agitation: inversions(15, 30, 4),
    drain: lead(15),
    filter: true,
    cautions: ['ventilation', 'acid-apart'],
  }),
  wash('fixer', 120),
  bath({
    id: 'final-rinse',
    time: time(10, 0, 50),
    agitation: swirl(5),
    drain: lead(0),
  }),
  hang,
];

export const ecn2Ferricyanide: ProcessSheet = {
  id: 'ecn2-ferricyanide',
  name: 'ECN-2 with ferricyanide bleach',
  spoken: ['published sheet', 'e c n two', 'ecn2', 'standard sheet'],
  source: h2407,
  film: { backing: true, image: 'dye' },
  rate: 'ecn-2',
  steps,
};
