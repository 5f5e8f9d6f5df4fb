import type { Day } from './play.js';
import { developed, mixingDeveloper, toDeveloper } from './usual.js';

const said = (words: string): RegExp => new RegExp(`I left out “[^”]*${words}[^”]*”: say it by itself`);

/** An amount that is said beside what is done, and that nothing is done with, is named: nothing is dropped in silence. */
export const dropped: Day[] = [
  {
    name: 'two readings in one line, the second without its name',
    lines: [['the developer crept up to 40.4, the tub runs hot, forty two', said('forty two')]],
  },
  {
    name: 'how much went in, in words that nobody taught',
    lines: [
      ...toDeveloper,
      ['developer in just now, well, eight hundred of it', [/developer is in/i, said('eight hundred')]],
    ],
  },
  {
    name: 'what is put right in the line is not told of',
    lines: [...mixingDeveloper, ['2.6 grams... no sorry, 2.7', null, /left out/i]],
  },
  {
    name: 'neither is what is not so, nor what is due',
    lines: [
      ...developed,
      ['stop bath is in, not forty degrees but it will do', /stop bath is in/i, /left out/i],
    ],
  },
];
