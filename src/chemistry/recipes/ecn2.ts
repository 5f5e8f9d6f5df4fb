import type { Component, Recipe } from './types.js';

const h2407 =
  'Kodak Publication H-24.07 (1996), Process ECN-2 Specifications, formulas; from memory of the publication';
export const practice = 'common practice';
const spec = (fraction: number) => ({
  fraction,
  source: `analytical tolerance, ${h2407}`,
});
export const custom = (fraction: number) => ({ fraction, source: practice });
export const line = (
  substance: string,
  perLitre: number,
  tolerance: Component['tolerance'],
  note?: string,
): Component =>
  note === undefined ? { substance, perLitre, tolerance } : { substance, perLitre, tolerance, note };

const antiCalcium: Component = {
  ...line('anti-calcium-4', 2, custom(0.1), 'Leave it out only with distilled water.'),
  optional: true,
};
const fixerSulphites = [
  line('sodium-sulfite-anhydrous', 10, custom(0.1), 'Sulphite before metabisulphite, or sulphur falls out.'),
  line('sodium-metabisulfite', 8.4, custom(0.1), 'Smells of sulphur dioxide; air the room.'),
];

export const prebath: Recipe = {
  id: 'ecn2-prebath',
  name: 'ECN-2 prebath',
  short: 'PRE',
  liquid: 'prebath',
  working: 'borate',
  components: [
    line('borax-decahydrate', 20, spec(0.1)),
    line('sodium-sulfate-anhydrous', 100, spec(0.1), 'Sprinkle it in while stirring; it cakes when dumped.'),
    line(
      'sodium-hydroxide',
      1,
      custom(0.1),
      'Gloves and goggles on; the pearls draw water, so weigh quickly.',
    ),
  ],
  startWater: { fraction: 0.8, lowC: 27, highC: 38, source: h2407 },
  ph: { aim: 9.25, tolerance: 0.1, buffered: true, source: h2407 },
  specificGravity: { aim: 1.093, tolerance: 0.003, source: h2407 },
  keeping: { unusedDays: 365, usedDays: 90, source: practice },
  capacity: { filmsPerLitre: 16, source: practice },
  mixing: ['Salt keeps the emulsion from swelling; do not leave the sulphate out.'],
  source: `PB-2, ${h2407}`,
};

export const developer: Recipe = {
  id: 'ecn2-developer',
  name: 'ECN-2 developer',
  short: 'DEV',
  liquid: 'developer',
  working: 'cd3',
  components: [
    antiCalcium,
    line(
      'sodium-sulfite-anhydrous',
      2,
      spec(0.05),
      'It guards the developing agent; it goes in first of the powders.',
    ),
    {
      ...line('anti-fog-9', 0.22, custom(0.1), 'Slow to dissolve. Without it shadows fog a little.'),
      optional: true,
    },
    line('sodium-bromide', 1.2, spec(0.04)),
    line('sodium-carbonate-anhydrous', 25.6, spec(0.05)),
    line('sodium-bicarbonate', 2.7, spec(0.1)),
    line('cd3', 4, spec(0.05), 'The developing agent goes in last, cool, and is never breathed or touched.'),
  ],
  startWater: { fraction: 0.85, lowC: 21, highC: 38, source: h2407 },
  ph: { aim: 10.25, tolerance: 0.05, buffered: true, source: h2407 },
  specificGravity: { aim: 1.035, tolerance: 0.003, source: h2407 },
  keeping: {
    unusedDays: 14,
    usedDays: 7,
    source: `${practice}: full, stoppered, cool bottles`,
  },
  capacity: { filmsPerLitre: 6, source: practice },
  mixing: [
    'Mix no more than the week needs.',
    'Stir without whipping air in.',
    'Pink is usual; brown or black is dead.',
  ],
  source: `SD-49, ${h2407}`,
};

export const stop: Recipe = {
  id: 'ecn2-stop',
  name: 'ECN-2 stop bath',
  short: 'STOP',
  liquid: 'stop',
  working: 'sulfate',
  components: [
    line('sulfuric-acid-7n', 50, spec(0.1), 'Pour the acid slowly into the water, never water into acid.'),
  ],
  startWater: {
    fraction: 0.9,
    lowC: 10,
    highC: 25,
    source: `${h2407}; cool water because acid heats it`,
  },
  ph: {
    aim: 1.15,
    tolerance: 0.35,
    buffered: true,
    source: `0.8 to 1.5, ${h2407}`,
  },
  keeping: { unusedDays: 730, usedDays: 90, source: practice },
  capacity: { filmsPerLitre: 16, source: practice },
  mixing: ['Sulphuric acid burns. Goggles, gloves, cool water, acid last and slowly.'],
  source: `SB-14, ${h2407}`,
};

export const bleach: Recipe = {
  id: 'ecn2-bleach',
  name: 'ECN-2 ferricyanide bleach',
  short: 'BLEACH',
  liquid: 'bleach',
  working: 'ferricyanide',
  components: [
    line('potassium-ferricyanide', 40, spec(0.1), 'Keep it from every acid and from strong heat.'),
    line('sodium-bromide', 25, spec(0.1)),
  ],
  startWater: { fraction: 0.9, lowC: 32, highC: 43, source: h2407 },
  ph: { aim: 6.5, tolerance: 0.5, buffered: false, source: h2407 },
  keeping: {
    unusedDays: 365,
    usedDays: 180,
    source: `${practice}: dark bottle`,
  },
  capacity: { filmsPerLitre: 12, source: practice },
  mixing: [
    'Ferricyanide bleach works only after a good wash: stop and developer carried in stain and spoil it.',
  ],
  source: `SR-29, ${h2407}`,
};

export const fixer: Recipe = {
  id: 'ecn2-fixer',
  name: 'ECN-2 fixer',
  short: 'FIX',
  liquid: 'fixer',
  working: 'thiosulfate',
  components: [antiCalcium, line('ammonium-thiosulfate-58', 185, spec(0.05)), ...fixerSulphites],
  startWater: { fraction: 0.7, lowC: 21, highC: 38, source: h2407 },
  ph: { aim: 6.5, tolerance: 0.2, buffered: true, source: h2407 },
  keeping: { unusedDays: 90, usedDays: 60, source: practice },
  capacity: { filmsPerLitre: 12, source: practice },
  mixing: ['Never add acid to a fixer.'],
  source: `F-34a, ${h2407}`,
};

export const fixerSodium: Recipe = {
  ...fixer,
  id: 'ecn2-fixer-sodium',
  name: 'ECN-2 fixer from hypo crystals',
  components: [
    line('sodium-thiosulfate-pentahydrate', 240, custom(0.05), 'It chills the water; use it warm.'),
    ...fixerSulphites,
  ],
  startWater: { fraction: 0.7, lowC: 40, highC: 50, source: practice },
  ph: {
    aim: 6.3,
    tolerance: 0.4,
    buffered: true,
    source: 'the solution model; no published aim',
  },
  capacity: { filmsPerLitre: 8, source: practice },
  time: {
    factor: 2,
    why: 'sodium thiosulphate fixes more slowly than ammonium',
    source: practice,
  },
  source: `${practice}: the thiosulphate of F-34a mole for mole from crystals`,
};
export const finalRinse: Recipe = {
  id: 'ecn2-final-rinse',
  name: 'ECN-2 final rinse',
  short: 'RINSE',
  liquid: 'final-rinse',
  working: null,
  components: [line('stabiliser-additive', 0.14, custom(0.2), 'Too much streaks, too little spots.')],
  startWater: { fraction: 0.95, lowC: 20, highC: 40, source: practice },
  ph: null,
  keeping: { unusedDays: 14, usedDays: 7, source: practice },
  capacity: { filmsPerLitre: 12, source: practice },
  mixing: ['Distilled water leaves the fewest spots.'],
  source: `FR-1, ${h2407}`,
};
