import { type Day, goAhead, heldBack } from './play.js';
import { bath, toBleach, toDeveloper, toFinalRinse, toFixer, water } from './usual.js';

const fromBottle6 = 'pouring the final rinse from bottle 6';

/** What was said of a bottle and left open, and what was said of vessels by the way. */
export const sink: Day[] = [
  ...[
    'fixer into bottle six',
    'oh I may have put fixer into bottle 6',
    'poured the fixer into bottle six I think',
  ].map((line) => ({
    name: `a question about a bottle that nobody answered holds it: ${line}`,
    lines: [
      ...toFixer,
      ...bath('fixer', 5, '+116s'),
      [line, /question: /] as const,
      ...water('+122s'),
      ['what is in bottle 6', /left open/i] as const,
      [fromBottle6, [heldBack, /bottle 6/i], goAhead] as const,
      ['yes', goAhead] as const,
      // it was asked about, and that is enough
      ['cancel', null] as const,
      [fromBottle6, goAhead, heldBack] as const,
    ],
  })),
  {
    name: 'words that tell what the bottle holds let go of it',
    lines: [
      ...toFinalRinse,
      ['fixer into bottle six', /question: /],
      'water in',
      '+30s',
      'tank empty',
      ['bottle 6 holds 600 ml of final rinse', /bottle 6 holds/i],
      [fromBottle6, goAhead, heldBack],
    ],
  },
  {
    name: 'a no lets go of it as well, and a late yes does not',
    lines: [
      ...toFinalRinse,
      ['bottle 6 holds fixer', /question: /],
      ['no', null],
      [fromBottle6, goAhead, heldBack],
      'cancel',
      ['bottle 6 holds fixer', /question: /],
      '+90s',
      ['yes', /nothing/i],
      [fromBottle6, heldBack, goAhead],
    ],
  },
  {
    name: 'two bottles that may have changed places, and no answer to it',
    lines: [
      ...toDeveloper,
      ['I mixed up bottles 2 and 3', /question: /],
      ['pouring the developer from bottle 2', heldBack, goAhead],
    ],
  },
  {
    name: 'water told in while the bleach works is asked about',
    lines: [
      ...toBleach,
      'pouring the bleach from bottle 4',
      'bleach in',
      '+100s',
      ["that's the water in now", [/question: /, /bleach/i]],
      ['no', null],
      ['how long left', /left/i],
      ['+30s', /agitate/i],
      ["water's in", /question: /],
      ['yes', [/bleach had 2 minutes 1\d seconds/i, /water is in/i]],
    ],
  },
  {
    name: 'water told in after the call to drain: where the bleach is taken to be is said',
    lines: [
      ...toBleach,
      'pouring the bleach from bottle 4',
      'bleach in',
      '+176s',
      ['water in', [/water is in/i, /bleach is in a jug/i], /question/],
    ],
  },
  ...[
    'topped the developer up with a bit of tap water',
    'added a splash of water to the developer to fill the bottle',
    'filled bottle two up to the neck with cold water',
    "the developer's been watered down a bit",
    "developer's topped up with tap water",
    'I watered the developer down',
  ].map((line) => ({
    name: `water in a bottle, and nobody measured it: ${line}`,
    lines: [
      ...toDeveloper,
      [line, [/warning: /, /water/i, /weaker/i]] as const,
      ['pouring the developer from bottle 2', [heldBack, /water/i], goAhead] as const,
    ],
  })),
  {
    name: 'water in a bottle, and so much of it',
    lines: [
      ...toDeveloper,
      ['topped bottle two up with about 100 ml of water', /100 millilitres of water/i],
      ['what is in bottle 2', [/700 millilitres/, /100 millilitres of water/]],
      ['pouring the developer from bottle 2', heldBack, goAhead],
    ],
  },
];
