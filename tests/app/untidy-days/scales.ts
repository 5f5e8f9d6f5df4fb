import type { Day } from './play.js';

const twoParts = ['mix a liter of developer', 'next', 'next', '2 ml', 'dissolved'];

/** A scale that stood in another unit. */
export const scales: Day[] = [
  {
    name: 'a scale that stood in ounces all along spoils what was weighed on it',
    lines: [
      ...twoParts,
      '2 g',
      'dissolved',
      '0.22 g',
      'dissolved',
      [
        'oh no, the scales are on oz, been on oz the whole time',
        [/56\.70 grams|6\.24 grams/, /set the scale to grams/i, /too much/i],
        /celsius/i,
      ],
      ['confirm', /given up|stopped|start/i],
    ],
  },
  {
    name: 'a weight still in the boat is taken off again when the scale stood in ounces all along',
    lines: [
      ...twoParts,
      '2 g',
      ['i weighed it all in ounces', [/56\.70 grams/, /take it off/i]],
      ['2 g', /2\.00 grams .* is right/i],
    ],
  },
  {
    name: 'too much water before all parts are in: the batch grows with it, or stays weak by choice',
    lines: [
      ...twoParts,
      [
        "oh no, I've made it up to a litre and a half, wrong line on the jug",
        [/67 percent strong/, /confirm/i],
      ],
      ['confirm', /1\.5 litres|3\.00 grams/],
    ],
  },
  {
    name: 'a scale that is not in ounces, or may be, changes nothing',
    lines: [
      ...twoParts,
      '2 g',
      ['the scale is not in ounces', 'whatever', /56\.7/],
      ['what if the scale was in ounces the whole time', 'whatever', /56\.7/],
      ['dissolved', /next|weigh 0\.22/i],
    ],
  },
];
