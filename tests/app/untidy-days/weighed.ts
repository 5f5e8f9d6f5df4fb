import type { Day } from './play.js';

const bleach = ['mix one litre of bleach', 'next', 'next'];

/** What was weighed turns out to be another amount than it was taken for, when it is in the water already. */
export const weighed: readonly Day[] = [
  {
    name: 'half a part that went in twice is a whole one, and a part that is still short is weighed on',
    lines: [
      ...bleach,
      '15 grams',
      'it is in',
      [
        'I put it in twice',
        /30\.00 grams of potassium ferricyanide is in.*10\.00 grams more/,
        /too much|batch/i,
      ],
      '10 grams',
      ['it is in', /25\.00 grams of sodium bromide/, /too much/i],
    ],
  },
  {
    name: 'half of it in twice, and nothing more of it is asked for',
    lines: [
      ...bleach,
      '20 grams',
      'it is in',
      ['I put that in twice', /weigh 25\.00 grams of sodium bromide/i, /too much|batch/i],
    ],
  },
];
