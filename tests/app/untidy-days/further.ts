import { type Day, goAhead, heldBack } from './play.js';
import { begun, inDeveloper, pour, toBleach, toDeveloper, toFixer } from './usual.js';

/** Words in the wrong order, put right afterwards, said twice, or at odds with what was said before. */
export const further: Day[] = [
  {
    name: 'the tank emptied twice',
    lines: [
      ...inDeveloper,
      '+172s',
      'developer back into bottle 2',
      'tank empty',
      ['tank empty', /already/i, /jug/i],
      ["what's in bottle 2", /600 millilitres/],
    ],
  },
  {
    name: 'a drain that is said before the bath is in',
    lines: [
      ...toDeveloper,
      'pouring the developer from bottle 2',
      ['drain now', /developer/i, /drain the developer|stop bath/i],
      ['developer in', /3 minutes/],
      '+20s',
      ['how long left', /2 minutes 3\d seconds left/],
    ],
  },
  {
    name: 'bleach said, and it was the fixer',
    lines: [
      ...toFixer,
      'bleach in',
      '+10s',
      ['that was the fixer', /fixer/i],
      ['how long left', /1 minute 4\d seconds left/],
      ["what's in bottle 4", /600 millilitres/],
      ["what's in bottle 5", /100 millilitres/],
    ],
  },
  {
    name: 'water said, and it was the bleach',
    lines: [
      ...toBleach,
      'water in',
      '+20s',
      ['that was the bleach', /bleach/i],
      ['how long left', /2 minutes 3\d seconds left/],
      ["what's in bottle 4", /100 millilitres/],
    ],
  },
  {
    name: 'undo of the developer, and redo: its time went on',
    lines: [
      ...inDeveloper,
      '+30s',
      ['undo', /clock|bath keeps/i],
      'yes',
      ['redo', /developer is in/i],
      ['how long left', /2 minutes 2\d seconds left/],
    ],
  },
  {
    name: 'redo after another deed does nothing',
    lines: [
      ...inDeveloper,
      '+30s',
      'fixer is at 30',
      'undo',
      'bleach is at 37',
      ['redo', /nothing/i],
      ['how long left', /2 minutes 2\d seconds left/],
    ],
  },
  {
    name: 'an override taken back leaves the bottle clean',
    lines: [
      ...toFixer,
      ...pour('fixer', 5),
      '+116s',
      'fixer back into bottle 4',
      'override the guard and pour anyway',
      ['undo', /drain the fixer/i],
      ["what's in bottle 4", /600 millilitres of bleach/, /fixer|do not use/],
      ['fixer back into bottle 5', goAhead],
      'tank empty',
      ["what's in bottle 5", /600 millilitres/],
    ],
  },
  {
    name: 'a bottle told full while its bath is in the tank',
    lines: [
      ...inDeveloper,
      '+20s',
      'bottle 2 holds 600 ml of developer',
      '+148s',
      ['developer back into bottle 2', [heldBack, /room|400/], goAhead],
    ],
  },
  {
    name: 'the tank grows cold, and the development is judged by what it did',
    lines: [
      ...inDeveloper,
      '+5s',
      'the developer in the tank is at 35',
      '+164s',
      'developer back into bottle 2',
      ['tank empty', /rest of the developer/i],
    ],
  },
  {
    name: 'a run closed with its film never hung, and the next film is another',
    lines: [
      ...toFixer,
      'close the run',
      ['yes', /fixer/i],
      'start a run',
      ['the film is loaded', /prebath/i],
      ['pouring the bleach from bottle 4', heldBack, goAhead],
      'cancel',
      ['pouring the fixer from bottle 5', heldBack, goAhead],
    ],
  },
  {
    name: 'more spilled than the bottle held',
    lines: [
      ...toDeveloper,
      ['spilled 2 litres of developer', /spill/i],
      ["what's in bottle 2", /empty/i],
      ['pouring the developer from bottle 2', [heldBack, /empty/i], goAhead],
    ],
  },
  {
    name: 'more spilled than the bottle still held: it was out of the tank',
    lines: [
      ...inDeveloper,
      '+160s',
      'spilled 180 ml of developer on the floor',
      'developer back into bottle 2',
      'tank empty',
      ["what's in bottle 2", /420 millilitres/],
    ],
  },
  {
    name: 'not yet, and then it is in: the time is counted from then',
    lines: [
      ...toDeveloper,
      'pouring the developer from bottle 2',
      ['not yet', /called off/i],
      '+40s',
      ['developer in', /3 minutes/],
      ['how long left', /2 minutes 59 seconds left/],
    ],
  },
  {
    name: 'it went in a minute before it was said',
    lines: [
      ...toDeveloper,
      'pouring the developer from bottle 2',
      '+60s',
      'developer in',
      ['it went in a minute ago', /since 1 minute/i],
      ['how long left', /1 minute 5\d seconds left/],
    ],
  },
  {
    name: 'the tank told empty first, and where the bath went after',
    lines: [
      ...inDeveloper,
      '+172s',
      'the tank is empty and the developer is in bottle 2',
      ["what's in bottle 2", /600 millilitres/],
      ['where are we', /stop bath/i, /jug/i],
    ],
  },
  {
    name: 'developer onto the backing, and no water takes that off',
    lines: [
      ...begun,
      ['developer in', /warning: /],
      '+24s',
      'tank empty',
      'water in',
      '+50s',
      ['tank empty', /next: /i, /next: backing removal/i],
    ],
  },
  {
    name: 'read once more between the word and the pour: a reading is no pour',
    lines: [
      ...toDeveloper,
      'pouring the developer from bottle 2',
      ['developer is at 38.4', /too cold/i, /is in\b/i],
      ['where are we', /next: the developer/i],
    ],
  },
  {
    name: 'half a minute of bleach out of its turn is no bleaching',
    sheet: 'c41',
    lines: [
      'start a run',
      'film is loaded',
      'developer in',
      '+60s',
      'developer back into bottle 1',
      'confirm',
      ['tank empty', /too short/i],
      ['bleach in', /get it out/i],
      '+36s',
      'bleach back into bottle 2',
      ['tank empty', /next: .*bleach/i, /next: wash after the bleach/i],
    ],
  },
];
