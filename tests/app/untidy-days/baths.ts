import { type Day, goAhead, heldBack } from './play.js';
import { begun, bleachMixed, inDeveloper, mixingDeveloper } from './usual.js';

/** A bath is as old, and as good, as it was before somebody poured it into another bottle. */
export const decanted: Day[] = [
  {
    name: 'how old a bath is and what it has done, in one sentence',
    lines: [
      [
        'the fixer has done 4 films and is three weeks old',
        [/fixer in bottle 5/i, /4 films and is 21 days old/i],
      ],
      ['bottle 3 was mixed yesterday and has done two rolls', /stop bath in bottle 3 has done 2 films/i],
    ],
  },
  {
    name: 'a developer whose age nobody told is none the younger in another bottle, and a late age goes along',
    lines: [
      'i decanted the developer from bottle two into bottle seven',
      ['what is in bottle seven', /600 millilitres of developer/, /day old/],
      'the developer in bottle two is three weeks old',
      ['what is in bottle seven', /21 days old/],
    ],
  },
  {
    name: 'a bath that came back in a bottle of its own by way of the tank is none the younger either',
    lines: [
      ...begun,
      'the prebath is in',
      '+12s',
      ['the prebath went into bottle eight', /tank empty|noted/i],
      ['what is in bottle eight', /of prebath/, /day old/],
      'the prebath in bottle one is forty days old',
      ['what is in bottle eight', /40 days old/],
    ],
  },
];

/** One verdict of one reading, however it is asked for. */
export const tooHot: Day[] = [
  ...['developer is at 43.5, ok?', 'the developer is at 43, is that too hot?', 'developer 44'].map(
    (line) => ({
      name: line,
      lines: [
        ...begun.slice(0, 2),
        [line, /too hot/i] as const,
        ['confirm', /too (?:hot|warm)/i] as const,
        ['is the developer too hot', /too hot/i, /yes|not yet/i] as const,
      ],
    }),
  ),
  {
    name: 'one that is right is not called so',
    lines: [...begun.slice(0, 2), ['is the developer too hot', /41\.1/, /too (?:hot|cold)|yes/i]],
  },
];

/** A bath that went into several vessels is in each of them. */
export const parted: Day[] = [
  ...[
    'half went into bottle two and half into bottle three',
    'i poured the developer half into two and half into three',
    'i split it between bottles two and three',
    'half of it went back in bottle two but the other half went in the stop bath',
    'i poured 250 ml into bottle two and the rest into three by mistake',
  ].map((line) => ({
    name: line,
    lines: [
      ...inDeveloper,
      '+172s',
      [line, [/to bottle 2/i, /to bottle 3/i, /tank empty/i]] as const,
      ['what is in bottle two', /350 millilitres of developer/] as const,
      ['what is in bottle three', /250 millilitres of developer went into it/] as const,
      ['pouring the stop bath from bottle three', [heldBack, /developer in it/i], goAhead] as const,
    ],
  })),
  ...[
    'most went back, a bit went in the stop bath',
    'most of it went back in two but some went into bottle three',
    'some of it went into the stop by mistake',
  ].map((line) => ({
    name: line,
    lines: [
      ...inDeveloper,
      '+172s',
      [line, /some developer in the stop bath, bottle 3/i] as const,
      ['tank is empty', /tank (?:is )?empty/i] as const,
      ['pouring the stop bath from bottle three', [heldBack, /developer/i], goAhead] as const,
      'cancel',
      ['it was about 5 ml', /5 millilitres of developer in the stop bath.*no harm/i] as const,
      ['pouring the stop bath from bottle three', goAhead, heldBack] as const,
    ],
  })),
];

/** What was made is in the bottle that it went into, with what was wrong with it. */
export const bottled: Day[] = [
  ...['it went into bottle four', 'i poured it into bottle four', 'the bleach went into bottle four'].map(
    (line) => ({
      name: line,
      lines: [
        ...bleachMixed,
        'made up to 700 ml',
        [line, /is done, in bottle 4\. It failed/i] as const,
        ['what is in bottle four', /do not use it.*failed its checks/i] as const,
      ],
    }),
  ),
  {
    name: 'a bath that is not made yet is no bath of its bottle',
    lines: [
      ...mixingDeveloper,
      ['poured it into bottle two', /not yet/i],
      ['what is in bottle two', /do not use it/i],
    ],
  },
];

/** Two baths that were spilled in one breath are two spills. */
export const spilledBoth: Day[] = [
  'spilled some bleach and some fixer',
  'i spilled a bit of bleach and a little fixer on the floor',
].map((line) => ({
  name: line,
  lines: [
    'start a run',
    [line, [/ferricyanide/i, /no acid or bleach near it/i]],
    ['20 ml', /20 millilitres of fixer/i],
    ['all wiped up', /still open: a spill of bleach/i],
  ],
}));
