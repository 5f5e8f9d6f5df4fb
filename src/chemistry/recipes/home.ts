import { custom, developer, finalRinse, line, practice, prebath, stop } from './ecn2.js';
import type { Recipe } from './types.js';

/** Variants for a household bench. None is a manufacturer's formula; all are `common practice`. */
const withoutGravity = ({ specificGravity: _gone, ...rest }: Recipe): Recipe => rest;

export const stopVinegar: Recipe = {
  ...stop,
  id: 'ecn2-stop-vinegar',
  name: 'stop bath from vinegar',
  working: 'acetate',
  components: [line('vinegar-5', 400, custom(0.1), 'Plain white vinegar only. It smells; air the room.')],
  startWater: { fraction: 0.5, lowC: 15, highC: 30, source: practice },
  ph: {
    aim: 2.6,
    tolerance: 0.3,
    buffered: true,
    source: 'the solution model for 2 percent acetic acid; common practice',
  },
  keeping: { unusedDays: 180, usedDays: 30, source: practice },
  time: {
    factor: 2,
    atLeastS: 60,
    why: 'a weak acid stops development more slowly',
    source: practice,
  },
  mixing: ['Weaker than sulphuric acid and far safer; it is given a full minute.'],
  source: `${practice}: about 2 percent acetic acid`,
};

export const stopCitric: Recipe = {
  ...stopVinegar,
  id: 'ecn2-stop-citric',
  name: 'stop bath from citric acid',
  working: 'citrate',
  components: [line('citric-acid-anhydrous', 15, custom(0.1), 'No smell.')],
  startWater: { fraction: 0.9, lowC: 15, highC: 30, source: practice },
  ph: {
    aim: 2.2,
    tolerance: 0.3,
    buffered: true,
    source: 'the solution model; common practice',
  },
  source:
    'Kodak SB-8, 15 g of citric acid per litre: Anchell, The Darkroom Cookbook, 3rd ed., formula 122, p. 268; for this process common practice',
};

export const developerHome: Recipe = {
  ...withoutGravity(developer),
  id: 'ecn2-developer-home',
  name: 'ECN-2 developer, home variant',
  components: developer.components
    .filter((c) => c.optional !== true)
    .map((c) =>
      c.substance === 'sodium-bromide' ? { ...c, substance: 'potassium-bromide', perLitre: 1.39 } : c,
    ),
  mixing: ['Distilled water only: nothing here holds the hardness of tap water.', ...developer.mixing],
  source: `${practice}: SD-49 in distilled water, without sequestrant and anti-fog, bromide from potassium bromide mole for mole`,
};

export const prebathHome: Recipe = {
  ...withoutGravity(prebath),
  id: 'ecn2-prebath-home',
  name: 'backing remover from baking soda',
  working: 'carbonate',
  components: [
    line('sodium-bicarbonate', 80, custom(0.1), 'It dissolves slowly; warm water, not hot, or gas is lost.'),
  ],
  startWater: { fraction: 0.9, lowC: 30, highC: 40, source: practice },
  ph: {
    aim: 8,
    tolerance: 0.4,
    buffered: true,
    source: 'the solution model; rises as it loses gas',
  },
  keeping: { unusedDays: 30, usedDays: 1, source: practice },
  time: {
    factor: 2,
    atLeastS: 60,
    why: 'baking soda softens the backing more slowly',
    source: practice,
  },
  mixing: ['No borax, so no reproductive hazard; it softens the backing more slowly. Rinse and shake well.'],
  source: practice,
};

export const finalRinseHome: Recipe = {
  ...finalRinse,
  id: 'ecn2-final-rinse-home',
  name: 'final rinse from wetting agent',
  components: [line('wetting-agent', 5, custom(0.2), 'Follow the bottle where it says otherwise.')],
  source: `${practice}: wetting agent 1 part in 200, distilled water`,
};
