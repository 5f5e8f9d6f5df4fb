import { type Day, goAhead, heldBack } from './play.js';
import { begun, toDeveloper } from './usual.js';

/** What stands in a jug is in no tank. */
export const inJugs: Day[] = [
  ...[
    'it’s in the jug',
    'i’ve got the developer in a clean beaker',
    'poured bottle two into the measuring cup',
    'the developer is in the jug, not in the tank yet',
  ].map((line) => ({
    name: line,
    lines: [
      ...toDeveloper,
      [line, /developer from bottle 2 to the jug/i, /is in: /i] as const,
      ['where are we', /tank is empty.*in jugs: developer/i] as const,
      ['what is in bottle two', /another 500 millilitres of it are in a jug/i] as const,
      ['developer in', /developer is in: /i] as const,
      ['what is in bottle two', /100 millilitres/, /jug/i] as const,
    ],
  })),
  { name: 'a funnel', lines: [...toDeveloper, ['it’s in the funnel', /next: the developer/i, /is in: /i]] },
  {
    name: 'a bath that was taken for in a jug stands in its bottle',
    lines: [
      ...begun,
      'the prebath is in',
      '+12s',
      'tank is empty',
      ['it’s in the jug', null, /noted/i],
      ['it’s in bottle one', /jug to bottle 1/i],
      ['what is in bottle one', /600 millilitres of prebath/, /jug/i],
    ],
  },
];

/** A part of a bottle is no whole bottle, and what nobody measured is asked for, or doubted. */
export const partsOfBottles: Day[] = [
  ...[
    'i poured some of bottle two into bottle one before we started',
    'a bit of bottle two went into bottle one',
    'some of bottle two got into bottle one',
  ].map((line) => ({
    name: line,
    lines: [
      ...begun.slice(0, 1),
      [line, /some developer in the prebath, bottle 1/i] as const,
      ['what is in bottle two', [/600 millilitres of developer/, /nobody said how much is left/i]] as const,
      ['what is in bottle one', /do not use it: some developer/i] as const,
      ['it was about 50 ml', /50 millilitres/] as const,
      ['what is in bottle two', /550 millilitres of developer/, /nobody said/i] as const,
    ],
  })),
  {
    name: 'half of one into another, and a third of one into an empty one',
    lines: [
      ...begun.slice(0, 1),
      'i tipped half of bottle two into bottle one',
      ['what is in bottle two', /300 millilitres of developer/],
      ['what is in bottle one', /300 millilitres of developer went into it/],
      'moved a third of the fixer into bottle seven',
      ['what is in bottle seven', /200 millilitres of fixer/],
      ['what is in bottle five', /400 millilitres of fixer/],
    ],
  },
  {
    name: 'how much of it is asked, and answered',
    lines: [
      ...begun.slice(0, 1),
      ['put most of bottle two into bottle seven', /how much/i],
      ['what is in bottle two', /nobody said how much is left/i],
      ['200 ml', /200 millilitres/],
      ['what is in bottle two', /400 millilitres of developer/, /nobody said/i],
    ],
  },
];

/** A bottle that is gone is empty where that was said plainly, and held until it is clear. */
export const gone: Day[] = [
  ...[
    'i poured bottle three away into the sink by accident',
    'bottle three went down the sink by mistake',
    'the cat knocked bottle three over',
    'my kid tipped bottle three over',
  ].map((line) => ({
    name: line,
    lines: [
      ...begun,
      line,
      ['what is in bottle three', /is empty/i] as const,
      ['pouring the stop bath from bottle three', heldBack, goAhead] as const,
    ],
  })),
  {
    name: 'by accident',
    lines: [
      ...begun,
      ['bottle three got poured away by accident', /marked discarded/i],
      ['what is in bottle three', /is empty/i],
      ['pouring the stop bath from bottle three', heldBack, goAhead],
    ],
  },
];
