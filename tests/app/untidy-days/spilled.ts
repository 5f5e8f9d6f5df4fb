import { type Day, goAhead, heldBack } from './play.js';
import { begun, inDeveloper, toDeveloper } from './usual.js';

/** A spill that is denied was none; one that got on somebody is not talked away. */
export const noSpill: Day[] = [
  {
    name: 'where it went, told after how much, is of the same spill',
    lines: [
      ...inDeveloper,
      'I spilled 30 ml of developer',
      ['on the floor', /30 millilitres of developer on the floor/i, /what was spilled/i],
      'cleaned up',
      ['where are we', null, /spill is still open/i],
    ],
  },
  ...[
    'no, i did not spill any',
    'nothing came out after all',
    'it was only water after all',
    'no, it did not break, nothing came out',
  ].map((line) => ({
    name: line,
    lines: [
      ...begun,
      'spilled 50 ml of fixer on the floor',
      [line, /undone: a spill/i] as const,
      ['what is in bottle five', /600 millilitres of fixer/] as const,
      ['where are we', /next/i, /spill is still open/i] as const,
    ],
  })),
  {
    name: 'told piece by piece, and two of them',
    lines: [
      ...begun,
      'spilled 20 ml of stop bath',
      'i spilled some fixer',
      'about 30 ml',
      ['i did not spill any', /undone: a spill/i],
      ['what is in bottle five', /600 millilitres of fixer/],
      ['what is in bottle three', /580 millilitres of stop bath/],
      ['where are we', /spill is still open/i],
    ],
  },
  {
    name: 'a share of the tank, then how much that was',
    lines: [
      ...inDeveloper,
      ['the lid came off and half of it went on the floor', [/spill noted: 250/i, /light|dark/i]],
      ['about 200 ml', /spill of 200 millilitres/i],
      ['where are we', /300 millilitres of 500/],
    ],
  },
  {
    name: 'on a hand it stays',
    lines: [
      ...begun,
      'spilled some bleach on my hand',
      ['no i did not spill any', /rins|poison/i, /undone/i],
    ],
  },
];

/** Two bottles at once. */
export const bothFell: Day[] = [
  {
    name: 'half each left',
    lines: [
      ...begun,
      [
        'bottles four and five fell over, half each left',
        [/300 millilitres of bleach/, /300 millilitres of fixer/],
      ],
      ['what is in bottle four', /300 millilitres of bleach/],
      ['what is in bottle five', /300 millilitres of fixer/],
    ],
  },
  {
    name: 'nobody said how much',
    lines: [
      ...begun,
      ['the bleach and the fixer both tipped over in the tub', [/ferricyanide/i, /how much/i]],
      ['what is in bottle four', /nobody said how much is left/i],
      ['what is in bottle five', /nobody said how much is left/i],
    ],
  },
];

/** Baths in jugs are baths that are there, films have a number, and a rinse may be left out. */
export const everywhere: Day[] = [
  {
    name: 'what is where names jug and tank, and the jug counts for the films to come',
    lines: [
      ...inDeveloper,
      ['what is where', /developer is in the tank/i],
      '+172s',
      'tank is empty',
      ['what is where', /500 millilitres of developer is in a jug/i],
      ['how many films left in the developer', /about [1-9]/i, /about 0/i],
    ],
  },
  {
    name: 'two films loaded are two',
    lines: ['start a run', 'developer is at 41.1', ['i have loaded two films', [/2 /, /film loaded/i]]],
  },
  ...['i never rinsed before the bleach', 'i did not rinse actually'].map((line) => ({
    name: line,
    lines: [...inDeveloper, [line, /water/i, /rinse the (?:eye|skin)|did you mean/i] as const],
  })),
  {
    name: 'it may have been one of two, and it is asked which',
    lines: [
      ...toDeveloper,
      ['i think i poured the developer, could have been the stop bath', [/not settled/i, /say which bath/i]],
      ['pouring the developer from bottle two', heldBack, goAhead],
    ],
  },
  {
    name: 'a rough reading is a reading',
    lines: [...begun, ['the bleach is around 50', /too hot/i, /did you mean/i]],
  },
];
