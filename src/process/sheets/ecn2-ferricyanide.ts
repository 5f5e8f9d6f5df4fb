import type { Agitation, ProcessSheet, SheetStep } from '../sheet.js';

/**
 * Times and temperatures: mechanical specifications for Process ECN-2 with ferricyanide bleach. The figures were
 * read in a public transcription of the publication's table, and agree with memory of it.
 */
export const h2407 =
  'Kodak Publication H-24.07, Mechanical Specifications for Process ECN-2 with Ferricyanide Bleach';
export const practice = 'common practice';

/** H-24.07 gives a machine's turbulation, not hand agitation: these are for a small inversion tank. */
export const inversions = (initialS: number, everyS: number | null, turns: number): Agitation => ({
  style: 'inversion',
  initialS,
  everyS,
  inversions: turns,
  source: practice,
});

/** H-24.07 states times without a tolerance; what hands can keep is marked as such. */
export const seconds = (aimS: number, belowS: number, aboveS: number, source = h2407) => ({
  aimS,
  minS: aimS - belowS,
  maxS: aimS + aboveS,
  source,
  toleranceSource: practice,
});
export const within = (aimC: number, offC: number, source = h2407) => ({
  aimC,
  minC: Math.round((aimC - offC) * 10) / 10,
  maxC: Math.round((aimC + offC) * 10) / 10,
  source,
});
/** the 27 to 38 °C range of stop, washes and final rinse; the warm end keeps the film near the baths' own heat */
const range27to38 = { aimC: 38, minC: 27, maxC: 38, source: h2407 };

export const lead = (leadS: number) => ({ leadS, source: practice });

export const wash = (id: string, name: string, aimS: number): SheetStep => ({
  id,
  name,
  kind: 'wash',
  liquid: 'water',
  time: seconds(aimS, 0, 120),
  temp: range27to38,
  agitation: inversions(aimS > 30 ? 15 : 10, 30, 4),
  drain: lead(10),
  reusable: false,
  returnsToBottle: false,
  filter: false,
  rinseAfter: null,
  cautions: [],
});

const steps: SheetStep[] = [
  {
    id: 'prebath',
    name: 'prebath',
    kind: 'bath',
    liquid: 'prebath',
    time: seconds(10, 0, 20),
    temp: within(27, 1),
    agitation: inversions(10, null, 0),
    drain: lead(0),
    reusable: true,
    returnsToBottle: true,
    filter: true,
    rinseAfter: null,
    cautions: ['gloves'],
  },
  {
    id: 'backing-removal',
    name: 'backing removal and rinse',
    kind: 'rinse',
    liquid: 'water',
    time: null,
    temp: range27to38,
    agitation: { style: 'inversion', initialS: 0, everyS: null, inversions: 0, source: practice },
    drain: lead(0),
    reusable: false,
    returnsToBottle: false,
    filter: false,
    rinseAfter: null,
    cautions: [],
  },
  {
    id: 'developer',
    name: 'developer',
    kind: 'bath',
    liquid: 'developer',
    time: seconds(180, 5, 5),
    temp: within(41.1, 0.1),
    agitation: inversions(15, 15, 2),
    drain: lead(15),
    reusable: true,
    returnsToBottle: true,
    filter: true,
    rinseAfter: null,
    cautions: ['gloves', 'developer-skin'],
  },
  {
    id: 'stop',
    name: 'stop bath',
    kind: 'bath',
    liquid: 'stop',
    time: seconds(30, 5, 30),
    temp: range27to38,
    agitation: inversions(20, null, 0),
    drain: lead(10),
    reusable: true,
    returnsToBottle: true,
    filter: false,
    rinseAfter: null,
    cautions: ['ventilation', 'acid-ferricyanide', 'acid-apart'],
  },
  wash('wash-after-stop', 'wash after the stop', 30),
  {
    id: 'bleach',
    name: 'bleach',
    kind: 'bath',
    liquid: 'bleach',
    time: seconds(180, 5, 60),
    temp: within(38, 1),
    agitation: inversions(15, 30, 4),
    drain: lead(15),
    reusable: true,
    returnsToBottle: true,
    filter: true,
    rinseAfter: null,
    cautions: ['gloves', 'ventilation', 'acid-ferricyanide'],
  },
  wash('wash-after-bleach', 'wash after the bleach', 60),
  {
    id: 'fixer',
    name: 'fixer',
    kind: 'bath',
    liquid: 'fixer',
    time: seconds(120, 5, 60),
    temp: within(38, 1),
    agitation: inversions(15, 30, 4),
    drain: lead(15),
    reusable: true,
    returnsToBottle: true,
    filter: true,
    rinseAfter: null,
    cautions: ['ventilation', 'acid-apart'],
  },
  wash('wash-after-fixer', 'wash after the fixer', 120),
  {
    id: 'final-rinse',
    name: 'final rinse',
    kind: 'bath',
    liquid: 'final-rinse',
    time: seconds(10, 0, 50),
    temp: range27to38,
    agitation: { style: 'swirl', initialS: 5, everyS: null, inversions: 0, source: practice },
    drain: lead(0),
    reusable: true,
    returnsToBottle: true,
    filter: false,
    rinseAfter: null,
    cautions: ['gloves'],
  },
  {
    id: 'hang',
    name: 'hang to dry',
    kind: 'hang',
    liquid: null,
    time: null,
    temp: null,
    agitation: null,
    drain: lead(0),
    reusable: false,
    returnsToBottle: false,
    filter: false,
    rinseAfter: null,
    cautions: [],
  },
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
