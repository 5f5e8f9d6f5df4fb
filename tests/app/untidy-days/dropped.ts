import { type Day, heldBack } from './play.js';
import { developed, inDeveloper, mixingDeveloper, toDeveloper } from './usual.js';

const said = (words: string): RegExp => new RegExp(`I left out “[^”]*${words}[^”]*”: say it by itself`);

/** An amount that is said beside what is done, and that nothing is done with, is named: nothing is dropped in silence. */
export const dropped: Day[] = [
  {
    name: 'two readings in one line, the second without its name',
    lines: [
      ['the developer crept up to 40.4, the tub runs hot, forty two', /developer 40\.4.*tub 42\./is],
      ['the developer crept up to 40.4, the tub looks odd to me, forty two', said('forty two')],
    ],
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
  {
    name: 'a word that was broken off, and the amount anew',
    lines: [...mixingDeveloper, ['two gra- no, two point six', /2\.38 grams over/i]],
  },
  {
    name: 'an amount with what is wrong with another one',
    lines: [
      ...inDeveloper,
      ['add fourteen seconds', /added 14 seconds/i],
      ["make that twenty, fourteen isn't enough", /added 20 seconds/i, /added 14/i],
    ],
  },
  {
    name: 'what is about to be poured is not in',
    lines: [
      ...toDeveloper,
      ["number two's in my hand, here goes, about to tip it in", /clear: developer/i, /is in/i],
    ],
  },
  {
    name: 'words of the pour itself, or of a slip of the tongue, are nothing against it',
    lines: [
      ...toDeveloper,
      ['got two here, gonna tip it in now', /clear: developer/i, heldBack],
      'in',
      '+172s',
      ['four... no no, two, sorry, two', /clear: developer to bottle 2/i, heldBack],
    ],
  },
  {
    name: 'neither is which one it is, nor that it is all of it',
    lines: [
      ...inDeveloper,
      '+172s',
      ['back into two, the brown one', /clear: developer to bottle 2/i, heldBack],
      ['pouring it back, two, got nearly all of it bar a dribble', /clear: developer to bottle 2/i, heldBack],
      ["back into two, it's gone brown", heldBack],
    ],
  },
];
