import { type Day, heldBack } from './play.js';
import { begun, developed, inDeveloper, toBleach, toDeveloper } from './usual.js';

const stopWentAstray = [
  ...developed,
  'pouring the stop bath from bottle 3',
  'stop bath in',
  '+28s',
  'stop bath back into bottle 4',
  ['already did, into bottle four', /hydrogen cyanide|poison gas/i] as const,
  'water in',
  '+34s',
  'tank empty',
];

/** Which bottle a bath left for, or came out of, told a second time: everything else is as it would be. */
export const movedElsewhere: Day[] = [
  ...[
    'no, it was bottle three I put it back into, not four',
    'sorry, the stop went into three',
    'actually that went into bottle three',
    'correction: it went in three',
    'that was wrong, it was three I emptied it into',
    'sorry, I said that wrong, bottle three',
    'no don’t, I put it back into bottle three',
  ].map((line) => ({
    name: line,
    lines: [
      ...stopWentAstray,
      [line, /put right/i, /in the jug|into the tank/i] as const,
      ['what is in bottle four', /of bleach/, /do not use|stop bath/i] as const,
      ['what is in bottle three', /600 millilitres of stop bath/] as const,
      ['pouring the bleach from bottle four', /clear/i, /stop bath went|gas/i] as const,
    ],
  })),
  ...['no wait, it was four after all', 'no, I was right the first time', 'undo that'].map((line) => ({
    name: `${line}: a correction taken back`,
    lines: [
      ...stopWentAstray,
      'no, it went into bottle three',
      [line, /put right|undone/i] as const,
      ['what is in bottle four', /500 millilitres of stop bath/] as const,
      ['pouring the bleach from bottle four', heldBack, /clear/i] as const,
    ],
  })),
  {
    name: 'into the sink, and into a jug',
    lines: [
      ...inDeveloper,
      '+172s',
      'developer back into bottle 2',
      'tank empty',
      ['sorry, it went down the sink', /put right.*sink/i],
      ['what is in bottle two', /100 millilitres of developer/],
      ['no, I tipped it into a jug', /put right.*jug/i],
      ['what is in bottle two', /500 millilitres of it are in a jug/],
    ],
  },
  {
    name: 'a fact after a question about something else puts the fact right, not the question',
    lines: [
      ...inDeveloper,
      '+172s',
      'developer back into bottle 2',
      'tank empty',
      'what is in bottle five',
      ['no it went into three', [/put right/i, /bottle 3 holds the stop bath/i]],
      ['what is in bottle three', /500 millilitres of developer went into it/],
      'what is in bottle five',
      ['sorry, bottle six', /final rinse/, /went into bottle 6/i],
    ],
  },
  {
    name: 'between bottles, and a splash',
    lines: [
      ...begun.slice(0, 1),
      'i poured bottle three into bottle seven',
      ['no, it was bottle eight it went into', /put right/i],
      ['what is in bottle seven', /nobody has told me/i],
      ['what is in bottle eight', /600 millilitres of stop bath/],
      'a splash of bleach got into bottle two',
      ['no, it went into bottle five', /put right.*bottle 5/i],
      ['what is in bottle two', /of developer/, /bleach|do not use/i],
      ['what is in bottle five', /some bleach got into it/],
    ],
  },
  {
    name: 'what is leaving the tank is told for the first time',
    lines: [
      ...inDeveloper,
      '+172s',
      'developer back into bottle 2',
      ['sorry, it went into bottle four', /tank empty/i, /put right/i],
      ['what is in bottle four', /500 millilitres of developer went into it/],
    ],
  },
  {
    name: 'a bottle in a hand may be for the next pour: whether the bath in the tank came from it is asked',
    lines: [
      ...inDeveloper,
      ['actually I grabbed bottle 3', /question: did you mean/i, /put right|warning/i],
      'no',
      ['where are we', /the developer is in/i],
    ],
  },
  ...[
    'bottle two was empty actually, I poured bottle five',
    'sorry, I poured from bottle five',
    'it was bottle five that went in',
    'no, I took bottle five by mistake',
  ].map((line) => ({
    name: line,
    lines: [
      ...toDeveloper,
      'pouring the developer from bottle two',
      'developer in',
      [line, [/put right.*bottle 5/i, /get it out now/i]] as const,
      ['no wait, it was bottle two, it is brown and smells right', /put right.*bottle 2/i] as const,
      ['where are we', /developer is in/i, /fixer/i] as const,
      [line, /get it out now/i] as const,
      ['no, I was right the first time, it was two', /undone/i] as const,
      ['where are we', /developer is in/i, /fixer/i] as const,
    ],
  })),
  {
    name: 'emptied into a bottle, and that was another one',
    lines: [
      ...toBleach,
      'bleach in',
      '+176s',
      ['emptied the bleach into bottle two', /bleach and developer destroy each other/i],
      ['sorry, bottle four', /put right/i, /into the tank/i],
      ['what is in bottle two', /of developer/, /do not use/i],
      ['what is in bottle four', /600 millilitres of bleach/],
    ],
  },
];
