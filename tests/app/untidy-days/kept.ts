import { type Day, heldBack } from './play.js';
import { begun, cleared, developed, inDeveloper, pour, toDeveloper } from './usual.js';

/** What was told once stays so: no later word, other vessel or passing time makes it untold. */
export const kept: Day[] = [
  {
    name: 'a whole tank of developer on the floor has developed the film all the same',
    lines: [
      ...inDeveloper,
      '+172s',
      'pour the developer back into bottle 2',
      [
        'I spilled 600 millilitres of developer on the floor',
        /stop bath/i,
        /next: developer|had no developer|hang/i,
      ],
      ['what is next', /stop bath/i, /developer, bottle/i],
    ],
  },
  {
    name: 'water of which nobody knows how much hides no fixer',
    lines: [
      ...toDeveloper,
      'some water got into bottle two',
      'some fixer got into bottle two',
      ['pouring the developer in from bottle two', /warning: no\b.*do not use it/i, /clear/i],
    ],
  },
  {
    name: 'a stop bath that is left out on purpose is left out of what is due while the developer works',
    lines: [
      ...inDeveloper,
      '+60s',
      ['water instead of the stop', /noted: water/i],
      ['what comes after this', /wash/i, /next: stop|then the stop bath/i],
      '+112s',
      'developer back into bottle 2',
      ['tank empty', /wash|water/i, /next: (?:the )?stop bath/i],
    ],
  },
  {
    name: 'fixer that got into the tank with the film holds the next pour, and the film is not said to be right',
    lines: [
      ...toDeveloper,
      ['some fixer got into the tank', /rinse/i],
      ['pouring the developer in from bottle two', heldBack, /answer: clear/i],
      ['cancel', null],
      ['is the film ok', null, /nothing in my record is against/i],
    ],
  },
  {
    name: 'a doubt about a bottle goes with what is poured out of it',
    lines: [
      ...begun,
      'the developer in bottle two is brown',
      'bottle seven is empty',
      'pour 300 millilitres of developer from bottle two into bottle seven',
      ['confirm', 'whatever', /$^/],
      ...cleared,
      ['pouring the developer in from bottle seven', heldBack, /answer: clear/i],
    ],
  },
  {
    name: 'a reading that was doubted is not believed again for its age',
    lines: [
      ...begun.slice(0, 1),
      'developer is 41.1',
      'my thermometer is wrong',
      '+16min',
      'film is loaded',
      ...cleared,
      ['pouring the developer in from bottle two', heldBack, /answer: clear/i],
    ],
  },
  {
    name: 'who reads a bottle and pours it hears both what was read and what it must be now',
    lines: [
      ...inDeveloper,
      '+70s',
      ['what was the developer at again', /read at 41\.1 before it was poured/i],
    ],
  },
  {
    name: 'a light that somebody else put on fogs a film in the open, and no talk of lights does',
    lines: [
      'start a run',
      ['my brother came in and put the big light on, half of it was on the spiral', /fogged/i],
      ['the radio says they put the lights on at the stadium', 'whatever', /fogged/i],
    ],
  },
  {
    name: 'agitation too much is of weight in the developer alone',
    lines: [
      ...begun,
      ...pour('prebath', 1),
      '+10s',
      'prebath back into bottle 1',
      'tank empty',
      'water in',
      ["i've been shaking it like mad", /no harm/i, /rest now/i],
      '+60s',
      'tank empty',
      ...pour('developer', 2),
      ["i've been shaking it the whole time", /rest now.*more contrast/i],
    ],
  },
  {
    name: 'so much that came back is booked as so much, whatever became of the rest',
    lines: [
      ...begun,
      'prebath in',
      '+10s',
      'tank is empty',
      'water in',
      '+20s',
      'tank is empty',
      'developer is in',
      '+172s',
      ["only four hundred and sixty came back, the rest's down the sink", /to bottle 2/i],
      ["what's in bottle 2", /560 millilitres of developer/],
    ],
  },
  {
    name: 'a measured amount out of a jug goes into its bottle, and not into the tank that is due for it',
    lines: [
      ...toDeveloper,
      ['pouring 60 ml of developer from the jug into bottle 2', 'whatever', /clear: developer, bottle 2\./i],
      ['where are we', /developer/i, /say developer is in/i],
    ],
  },
  {
    name: 'two spills are two, and each is cleaned up by itself',
    lines: [
      ...developed,
      'I spilled 50 ml of bleach on the floor',
      'I spilled 20 ml of stop bath on the table',
      ['the spill is cleaned up', /closed.*still open.*bleach/i],
      ['the spill is cleaned up', /closed/i, /still open/i],
    ],
  },
];
