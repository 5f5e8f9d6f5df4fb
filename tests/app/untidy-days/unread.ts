import { type Day, goAhead, heldBack } from './play.js';
import { developed, inDeveloper, toBleach, toFinalRinse } from './usual.js';

const begun = ['start a run', 'the tub is at 41.1', 'the film is loaded'];
const toIt = ['prebath in', '+10s', 'tank empty', 'water in', '+50s', 'tank empty'];

/** What nobody knows is asked about before it counts: a bath that was not read, a bottle that may be empty, a bath that may be another. */
export const unread: Day[] = [
  {
    name: 'only the tub was read: the bottle may be degrees behind it',
    lines: [
      ...begun,
      ...toIt,
      ['pouring the developer from bottle 2', [heldBack, /only the tub was read/i], goAhead],
      ['developer is at 41.1', /in tolerance/i],
      ['pouring the developer from bottle 2', goAhead, heldBack],
    ],
  },
  {
    name: 'a reading of the developer that was of the tub',
    lines: [
      ...begun.toSpliced(1, 1, 'developer is at 41.1', 'no, that was the tub'),
      ...toIt,
      ['pouring the developer from bottle 2', heldBack, goAhead],
      ['confirm', goAhead],
    ],
  },
  {
    name: 'nobody measures at all: it is said, and held up by nothing',
    lines: [
      ...begun.toSpliced(1, 1),
      ...toIt,
      ['pouring the developer from bottle 2', [goAhead, /never measured/i], heldBack],
    ],
  },
  {
    name: 'a bottle was thrown out: nothing is cleared from it',
    lines: [
      ['mark bottle 6 as discarded', /marked discarded/i],
      ...toFinalRinse,
      ['pouring the final rinse from bottle 6', [heldBack, /empty/i], goAhead],
      ['what is in bottle 6', /was discarded/i],
    ],
  },
  {
    name: 'it was not thrown out after all: nothing is against the bottle',
    lines: [
      'mark bottle 6 as discarded',
      ['undo', /undone/i],
      ...toFinalRinse,
      ['pouring the final rinse from bottle 6', goAhead, heldBack],
    ],
  },
  {
    name: 'which of two bottles it was is left open, and counts against the film',
    lines: [
      ...toBleach,
      'bleach in',
      '+20s',
      ['no wait that was 5 I tipped in, had it upside down, looks like a 4', 'whatever', goAhead],
      ['is the film ok', /fixer/i, /should come out/i],
    ],
  },
  {
    name: 'a bottle whose bath stands in a jug says so',
    lines: [
      ...inDeveloper,
      '+172s',
      'tank empty',
      ['what is in bottle 2', /another 500 millilitres of it are in a jug/i],
    ],
  },
  {
    name: 'a bottle that has its bath back says nothing of jugs',
    lines: [...developed, ['what is in bottle 2', /600/, /jug/i]],
  },
];
