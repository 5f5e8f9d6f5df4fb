import type { Day } from './play.js';
import { begun, partsOfDeveloper } from './usual.js';

const bleach = ['mix half a litre of bleach', 'next', 'next'];
const notIt = (name: string): RegExp => new RegExp(`do not put it in\\. ${name} does not belong`, 'i');
const isRight = /is right|add .* more/i;

/** An amount of something that has a name of its own and is no part of the recipe. */
const ofAnother = (said: string, name: string): Day => ({
  name: said,
  lines: [...bleach, [said, notIt(name), isRight]],
});

/** What is weighed is told with a name, in several goes, or of another part than the one in hand. */
export const amounts: readonly Day[] = [
  ofAnother('20 g of cooking salt', 'table salt'),
  ofAnother('20 grams rock salt', 'rock salt'),
  ofAnother('icing sugar, 20 grams', 'icing sugar'),
  ofAnother('the scale shows 20 grams of plain flour', 'flour'),
  ofAnother('20 g of washing powder', 'washing powder'),
  ofAnother('weighed 20 grams of some different white powder', 'different white powder'),
  ofAnother('i have 20 grams of gypsum', 'gypsum'),
  ...['20 g of it', '20 grams of the orange crystals', '20 grams of powder', '20 g of ferricyanid'].map(
    (said): Day => ({
      name: said,
      lines: [...bleach, [said, /20\.00 grams of potassium ferricyanide is right/]],
    }),
  ),
  {
    name: 'what is no part of it and is in the water spoils the batch, and that is said with each part',
    lines: [
      ...bleach,
      ['I put in 20 grams of table salt', /table salt does not belong .*cannot be used/i, /is right/],
      ['cancel', /marked as spoiled: table salt is in it/],
      '20 grams',
      ['dissolved', [/stays spoiled: table salt is in it/, /12\.50 grams of sodium bromide/]],
      ['how far are we', /it is spoiled: table salt is in it/i],
    ],
  },
  {
    name: 'too much in the water, and weighed on: said with each part',
    lines: [
      ...partsOfDeveloper('sulfite'),
      'sulfite 8 grams',
      'confirm',
      'dissolved',
      ['cancel', /marked as spoiled: too much anhydrous sodium sulphite/, /stays/],
      '0.22 g',
      ['dissolved', /stays spoiled: too much anhydrous sodium sulphite/],
    ],
  },
  {
    name: 'in several goes: together they are one reading',
    lines: [
      ...partsOfDeveloper('sulfite'),
      [
        '1.2 grams in one boat and 0.8 in another',
        /2\.00 grams of anhydrous sodium sulphite is right/,
        /left out/,
      ],
      'dissolved',
      [
        'the carbonate, 25.6 grams of carbonate, in two goes of 12.8',
        /anhydrous sodium carbonate/,
        /is right/,
      ],
    ],
  },
  {
    name: 'two boats of one gram',
    lines: [...partsOfDeveloper('sulfite'), ['two boats of 1 gram', /2\.00 grams .* is right/, /left out/]],
  },
  {
    name: 'the water told anew is no powder',
    lines: [
      ...partsOfDeveloper('anti-fog'),
      [
        'actually the water was 980 not 850',
        [/980 millilitres to begin with, not 850/, /0\.22 grams/],
        /scale reads/,
      ],
      ['the water was only 850 really', /0\.22 grams/, /over|scale reads/],
    ],
  },
  {
    name: 'what was put right of a part is put right once more',
    lines: [
      ...partsOfDeveloper('anti-fog'),
      ['the sulfite should have been 20 grams', /1000 percent/],
      ['no, it really was 2', [/2\.00 grams of anhydrous sodium sulphite/, /0\.22 grams/], /over/],
    ],
  },
  {
    name: 'a scale that shows less than nothing is zeroed',
    lines: [...bleach, ['the scale says minus 2', /below zero.*zero it and weigh again/i, /did you mean/i]],
  },
  {
    name: 'an amount in cc is one, however its plural is written, and no unknown bath',
    lines: [
      ...begun,
      ["slopped thirty cc's of the bleach on the bench", /30 millilitres of bleach/],
      ['and 15 ccs of the fixer went on the floor', /15 millilitres of fixer/],
    ],
  },
  {
    name: 'already is no substance that a powder was put into',
    lines: [
      'mix 600 ml of developer',
      ['what comes first', /first|next/i],
      ["I've put the carbonate in already", null, /i do not know already/i],
    ],
  },
];
