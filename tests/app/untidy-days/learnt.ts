import { type Day, heldBack } from './play.js';
import { begun, developed, inDeveloper, pour, toDeveloper, toFixer, water } from './usual.js';

/** A prebath whose tank takes half a minute to drain. */
const slowDrain = [...pour('prebath', 1), '+12s', 'prebath back into bottle 1', '+29s', 'tank empty'];
const rinsed = water('+50s');
const developerIn = pour('developer', 2);
const asTheSheetHasIt = /2 minutes 4\d seconds until you drain, 2 minutes 5\d seconds left in all/;

/** What a tank, a bottle and a film have shown in use, and what is told of them late. */
export const learnt: Day[] = [
  {
    name: 'two slow drains are no habit yet: the sheet’s lead',
    lines: [
      ...begun,
      ...slowDrain,
      ...slowDrain,
      ...rinsed,
      ...developerIn,
      ['how long left', asTheSheetHasIt],
    ],
  },
  {
    name: 'three slow drains are: the call comes as much earlier as this tank takes',
    lines: [
      ...begun,
      ...slowDrain,
      ...slowDrain,
      ...slowDrain,
      ...rinsed,
      ...developerIn,
      ['how long left', /2 minutes 2\d seconds until you drain, 2 minutes 5\d seconds left in all/],
      ['+142s', /10 seconds to drain/, /drain the developer now/i],
      ['+10s', /drain the developer now/i],
    ],
  },
  {
    name: 'three slow drains of another amount say nothing of this one',
    lines: [
      'tank takes 300 ml',
      ...begun,
      ...slowDrain,
      ...slowDrain,
      ...slowDrain,
      ...rinsed,
      'tank takes 500 ml',
      ...developerIn,
      ['how long left', asTheSheetHasIt],
    ],
  },
  {
    name: 'a reading in the tank says what it does, and a yes makes up for it',
    lines: [
      ...inDeveloper,
      '+30s',
      [
        'developer is at 38.5 in the tank',
        [/2\.6 degrees too cold/, /less contrast/, /\d+ seconds more would make up/],
      ],
      ['yes', /added \d+ seconds/i],
      ['how long left', /3 minutes 1\d seconds left/],
    ],
  },
  {
    name: 'a reading in the tank, and the time is kept',
    lines: [
      ...inDeveloper,
      '+30s',
      ['developer is at 38.5 in the tank', /more would make up/],
      'cancel',
      ['how long left', /2 minutes 2\d seconds left/],
    ],
  },
  {
    name: 'films told after the developer has done its work are counted in its bottle',
    lines: [
      ...developed,
      ["what's in bottle 2", /it has done 1 film\./i],
      'it was three rolls of 16mm',
      ["what's in bottle 2", /it has done 3 films/i],
      ["what's in bottle 3", null, /3 films/i],
    ],
  },
  {
    name: 'the bottle told after the tank was said to be empty: that is where it went',
    lines: [
      ...inDeveloper,
      '+172s',
      ['tank empty', /jug/i],
      ["what's in bottle 2", /100 millilitres/],
      ['the developer is in bottle 2', /from the jug to bottle 2/i],
      ["what's in bottle 2", /600 millilitres/],
      ['what is next', /stop bath/i],
    ],
  },
  {
    name: 'developed with the backing on: told when the developer comes back',
    lines: [
      ...begun,
      ['pouring the developer from bottle 2', [heldBack, /backing/i]],
      'confirm',
      'developer in',
      '+172s',
      ['developer back into bottle 2', /fine filter.*backing/i],
    ],
  },
  {
    name: 'developed without the backing: nothing of it at the return',
    lines: [...inDeveloper, '+172s', ['developer back into bottle 2', /clear/i, /backing/i]],
  },
  {
    name: 'a pour nobody spoke of, dated afterwards',
    lines: [
      ...toDeveloper,
      'pouring the developer from bottle 2',
      ['+80s', /is the developer in/i],
      ['no, it went in a minute ago', /developer is in/i],
      ['how long left', /(2 minutes|1 minute 5\d seconds) left/],
    ],
  },
  {
    name: 'another tank while this one is at work',
    lines: [
      ...inDeveloper,
      ['use tank two', [/question/, /finish its film first/i]],
      ['how long left', /developer|2 minutes 5\d seconds left/i],
    ],
  },
  {
    name: 'another tank has its own size, and the first keeps what it holds',
    lines: [
      'tank takes 300 ml',
      ['use tank two', /tank 2.*unless you say otherwise/i],
      ['use tank one', /tank 1.*300 millilitres/i],
    ],
  },
  {
    name: 'a splash of bleach spoils the fixer, and the pour is held back',
    lines: [
      ...toFixer,
      ['some bleach got into the fixer', [/warning/, /not known/, /do not use it/i], /\d+ millilitres/],
      ["what's in bottle 5", [/600 millilitres/, /some bleach got into it/i], /\b(20|620) millilitres/],
      ['pouring the fixer from bottle 5', heldBack],
    ],
  },
  {
    name: 'a splash that was told by mistake is taken back',
    lines: [
      ...toDeveloper,
      ['50 ml of stop bath got into the developer', /50 millilitres of stop bath in the developer/i],
      ["what's in bottle 2", /650 millilitres/],
      'undo',
      ["what's in bottle 2", /600 millilitres/, /stop bath/i],
    ],
  },
];
